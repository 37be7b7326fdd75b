//! The threads of the preview. One looks at files and lays out; one listens; each connection has one of its
//! own, and there are no more than a bounded number. What they share is what is shown and who looks at it.

use std::collections::BTreeMap;
use std::io::{self, ErrorKind};
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr, TcpListener, TcpStream};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::Arc;
use std::thread;
use std::time::{Duration, Instant};

use super::connection::Connection;
use super::desk::{Asked, Desk};
use super::shared::Shared;
use super::watch::Watch;

/// How often the files of what is open are looked at.
const LOOK: Duration = Duration::from_millis(20);
/// How often all files are looked at, and folders for new ones.
const LOOK_ROUND: Duration = Duration::from_millis(500);
/// So many times as long as a search took it is left alone.
const SEARCH_SHARE: u32 = 20;
/// The most connections at a time.
const MOST_CONNECTIONS: usize = 64;

/// What to show, and where.
#[derive(Clone, Debug)]
pub struct Order {
    /// Files, and folders that are searched.
    pub paths: Vec<PathBuf>,
    /// A folder with templates of the user's own.
    pub templates: Option<PathBuf>,
    /// The port; any free one if it is 0.
    pub port: u16,
}

/// Why a preview cannot be served.
#[derive(Debug)]
pub enum ServeFault {
    /// Another program has the port.
    PortTaken,
    /// The system does not let it listen, or gives no thread.
    Other(io::Error),
}

/// Serves a preview on this machine alone until the process ends. `ready` is told the address as soon as it
/// can be asked.
///
/// # Errors
/// It cannot begin, or can no longer listen.
pub fn serve(order: Order, ready: &dyn Fn(SocketAddr)) -> Result<(), ServeFault> {
    let listener = listen(order.port)?;
    let address = listener.local_addr().map_err(ServeFault::Other)?;
    let desk = move || Desk::new(order.paths.clone(), order.templates.clone());
    let first = desk();
    let shared = Arc::new(Shared::new(Arc::clone(first.choices())));
    let of_worker = Arc::clone(&shared);
    let worker = thread::Builder::new().name("sheets".to_owned());
    let mut next = Some(first);
    let work_on = move || loop {
        // A mistake of ours ends a desk, not the preview: the next state of the file may do.
        let desk = next.take().unwrap_or_else(&desk);
        let stopped = catch_unwind(AssertUnwindSafe(|| work(desk, &of_worker)));
        drop(stopped);
        thread::sleep(LOOK_ROUND);
    };
    worker.spawn(work_on).map_err(ServeFault::Other)?;
    ready(address);
    loop {
        match listener.accept() {
            Ok((stream, from)) if from.ip().is_loopback() => {
                admit(stream, address, &shared);
            }
            Ok(_) => {}
            // Whoever knocked went away, or there are no handles left for now.
            Err(_) => thread::sleep(LOOK),
        }
    }
}

/// Listens on the loopback address, which no other machine can reach.
fn listen(port: u16) -> Result<TcpListener, ServeFault> {
    let addresses = [IpAddr::V4(Ipv4Addr::LOCALHOST), IpAddr::V6(Ipv6Addr::LOCALHOST)];
    let mut fault = ServeFault::Other(ErrorKind::AddrNotAvailable.into());
    for address in addresses {
        match TcpListener::bind(SocketAddr::new(address, port)) {
            Ok(listener) => return Ok(listener),
            Err(error) => match error.kind() {
                ErrorKind::AddrInUse => return Err(ServeFault::PortTaken),
                // A machine without the one has the other.
                ErrorKind::AddrNotAvailable => fault = ServeFault::Other(error),
                _ => return Err(ServeFault::Other(error)),
            },
        }
    }
    Err(fault)
}

/// Looks at files and lays out, for ever.
fn work(mut desk: Desk, shared: &Shared) {
    let (mut watch, mut watch_all) = (Watch::default(), Watch::default());
    watch_all.look(&desk.found());
    let (mut last_round, mut pause) = (Instant::now(), LOOK_ROUND);
    loop {
        let wanted: Vec<Asked> = shared.state().wanted.keys().cloned().collect();
        desk.open(&wanted);
        publish(&desk, shared);
        let paths = desk.watched();
        watch.keep(&paths);
        let changed = watch.look(&paths);
        if !changed.is_empty() {
            desk.changed(&changed);
            publish(&desk, shared);
        }
        if !wanted.is_empty() && last_round.elapsed() >= pause {
            let start = Instant::now();
            let all: Vec<_> = desk.found().into_iter().filter(|it| !paths.contains(it)).collect();
            watch_all.keep(&all);
            let changed = watch_all.look(&all);
            if !changed.is_empty() {
                desk.changed(&changed);
            }
            desk.look_round();
            publish(&desk, shared);
            last_round = Instant::now();
            // A large tree is not searched all the time.
            pause = LOOK_ROUND.max(start.elapsed() * SEARCH_SHARE);
        }
        let busy = desk.count_next();
        let state = shared.state();
        let same = state.wanted.keys().eq(wanted.iter());
        if same && !busy {
            // Nobody looks: a wish wakes it.
            let rest = if wanted.is_empty() { Duration::from_secs(60) } else { LOOK };
            drop(shared.wish.wait_timeout(state, rest));
        }
    }
}

/// Lets the other threads know what is shown, if it is something else than before.
fn publish(desk: &Desk, shared: &Shared) {
    let mut state = shared.state();
    let mut news = false;
    if !Arc::ptr_eq(&state.choices, desk.choices()) {
        state.choices = Arc::clone(desk.choices());
        news = true;
    }
    let mut shown = BTreeMap::new();
    for asked in state.wanted.keys() {
        let Some(now) = desk.shown(asked) else { continue };
        news |= !state.shown.get(asked).is_some_and(|before| Arc::ptr_eq(before, now));
        shown.insert(asked.clone(), Arc::clone(now));
    }
    if !news {
        // What nobody looks at any more must not be the first that a later reader sees.
        state.shown = shown;
        return;
    }
    let before = std::mem::replace(&mut state.shown, shown);
    let both = before.values().chain(state.shown.values()).flat_map(|shown| &shown.pages);
    state.pages = both.map(|leaf| (leaf.id.clone(), Arc::clone(&leaf.svg))).collect();
    drop(state);
    shared.news.notify_all();
}

/// A thread for a connection, if there are not too many.
fn admit(stream: TcpStream, address: SocketAddr, shared: &Arc<Shared>) {
    let connection = Connection::new(stream, address, shared);
    if connection.number > MOST_CONNECTIONS {
        connection.turn_away();
        return;
    }
    // Without a thread the connection ends.
    drop(thread::Builder::new().spawn(move || {
        // Whoever went away needs no answer.
        let _ = connection.serve();
    }));
}
