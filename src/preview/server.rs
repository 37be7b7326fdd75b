//! The threads of the preview. One looks at files and lays out; one listens; each connection has one of its
//! own, and there are no more than a bounded number. What they share is what is shown and who looks at it.

use std::collections::BTreeMap;
use std::io::{self, ErrorKind, Read, Write};
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, Shutdown, SocketAddr, TcpListener, TcpStream};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread;
use std::time::{Duration, Instant};

use super::desk::{Asked, Desk};
use super::http::{Answer, Head, LONGEST_HEAD, Request, read_head, reason, stream_head};
use super::shown::{Choices, Shown};
use super::watch::Watch;
use crate::text::Face;
use crate::write;

/// How often the files of what is open are looked at.
const LOOK: Duration = Duration::from_millis(20);
/// How often all files are looked at, and folders for new ones.
const LOOK_ROUND: Duration = Duration::from_millis(500);
/// So many times as long as a search took it is left alone.
const SEARCH_SHARE: u32 = 20;
/// The most connections at a time, and how many of them may wait for news.
const MOST_CONNECTIONS: usize = 64;
const MOST_STREAMS: usize = 16;
/// How long a request may take to come.
const READ_WITHIN: Duration = Duration::from_secs(5);
/// How long an answer may take to be taken.
const WRITE_WITHIN: Duration = Duration::from_secs(20);
/// How often somebody who waits for news is sent a sign of life, and looked after.
const SIGN_OF_LIFE: Duration = Duration::from_secs(5);
const LOOK_AFTER: Duration = Duration::from_millis(500);

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

/// What the threads share.
struct Shared {
    state: Mutex<State>,
    /// Somebody wants something else.
    wish: Condvar,
    /// Something else is shown.
    news: Condvar,
}

struct State {
    /// How many wait for news of each wish.
    wanted: BTreeMap<Asked, usize>,
    shown: BTreeMap<Asked, Arc<Shown>>,
    choices: Arc<Choices>,
    /// The pages that are shown, and those before: whoever was just told of them may still fetch them.
    pages: BTreeMap<String, Arc<str>>,
    connections: usize,
}

impl Shared {
    fn new(choices: Arc<Choices>) -> Self {
        let state = State {
            wanted: BTreeMap::new(),
            shown: BTreeMap::new(),
            choices,
            pages: BTreeMap::new(),
            connections: 0,
        };
        Self { state: Mutex::new(state), wish: Condvar::new(), news: Condvar::new() }
    }

    /// The state. A thread that stopped half-way left nothing in it that others could trip over.
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
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
    let connection = {
        let mut state = shared.state();
        state.connections += 1;
        // It is counted until it is dropped, however its thread ends.
        Connection { stream, address, shared: Arc::clone(shared), number: state.connections }
    };
    if connection.number > MOST_CONNECTIONS {
        // Nothing is read first, so this may not reach whoever asked; the connection then just ends.
        let _ = connection.write(refusal(503).head().as_bytes());
        return;
    }
    // Without a thread the connection ends.
    drop(thread::Builder::new().spawn(move || {
        // Whoever went away needs no answer.
        let _ = connection.serve();
    }));
}

/// A connection, counted as long as it is there.
struct Connection {
    stream: TcpStream,
    address: SocketAddr,
    shared: Arc<Shared>,
    /// How many there were when it came, itself included.
    number: usize,
}

impl Drop for Connection {
    fn drop(&mut self) {
        let mut state = self.shared.state();
        state.connections = state.connections.saturating_sub(1);
    }
}

impl Connection {
    fn serve(&self) -> io::Result<()> {
        self.stream.set_nodelay(true)?;
        match self.read()? {
            Head::Whole(request) if request.path == "/events" => self.tell(&request),
            Head::Whole(request) => {
                let answer = answer(&request, &self.shared);
                self.write(answer.head().as_bytes())?;
                if !request.head_only {
                    self.write(&answer.body)?;
                }
                self.stream.shutdown(Shutdown::Write)
            }
            Head::Refused(status) => self.refuse(status),
            Head::Partial => self.refuse(408),
        }
    }

    /// The head of the request; [`Head::Partial`] if it does not come in time.
    fn read(&self) -> io::Result<Head> {
        let start = Instant::now();
        let mut head = Vec::new();
        let mut part = [0; 1024];
        loop {
            let left = READ_WITHIN.saturating_sub(start.elapsed());
            if left.is_zero() {
                return Ok(Head::Partial);
            }
            self.stream.set_read_timeout(Some(left))?;
            let count = match (&self.stream).read(&mut part) {
                Ok(0) => return Err(ErrorKind::UnexpectedEof.into()),
                Ok(count) => count,
                Err(error) if is_timeout(&error) => return Ok(Head::Partial),
                Err(error) if error.kind() == ErrorKind::Interrupted => continue,
                Err(error) => return Err(error),
            };
            let room = LONGEST_HEAD.saturating_sub(head.len());
            head.extend(part.iter().take(count.min(room)));
            match read_head(&head, self.address) {
                Head::Partial => {}
                judged => return Ok(judged),
            }
        }
    }

    fn refuse(&self, status: u16) -> io::Result<()> {
        let answer = refusal(status);
        self.write(answer.head().as_bytes())?;
        self.write(&answer.body)?;
        self.stream.shutdown(Shutdown::Write)?;
        // What is still on its way is taken, or else the answer could be lost with the connection.
        let (start, mut rest) = (Instant::now(), [0; 4096]);
        loop {
            let left = LOOK_AFTER.saturating_sub(start.elapsed());
            if left.is_zero() {
                return Ok(());
            }
            self.stream.set_read_timeout(Some(left))?;
            if (&self.stream).read(&mut rest)? == 0 {
                return Ok(());
            }
        }
    }

    /// Writes all of it, in bounded time.
    fn write(&self, mut bytes: &[u8]) -> io::Result<()> {
        let start = Instant::now();
        while !bytes.is_empty() {
            let left = WRITE_WITHIN.saturating_sub(start.elapsed());
            if left.is_zero() {
                return Err(ErrorKind::TimedOut.into());
            }
            self.stream.set_write_timeout(Some(left))?;
            match (&self.stream).write(bytes) {
                Ok(0) => return Err(ErrorKind::WriteZero.into()),
                Ok(count) => bytes = bytes.get(count..).unwrap_or_default(),
                Err(error) if error.kind() == ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
        Ok(())
    }

    /// Tells what is shown for a wish, and again whenever that is something else, until nobody listens.
    fn tell(&self, request: &Request) -> io::Result<()> {
        let value = |name: &str| {
            let mut named = request.query.iter().filter(|(key, _)| key == name);
            named.next().map(|(_, value)| value.clone()).filter(|value| !value.is_empty())
        };
        let asked = Asked {
            file: value("file"),
            sheet: value("sheet"),
            language: value("language"),
            paper: value("paper"),
        };
        if request.head_only {
            return self.write(stream_head().as_bytes());
        }
        let Some(_wish) = Wish::of(&asked, &self.shared) else { return self.refuse(503) };
        self.write(stream_head().as_bytes())?;
        let (mut choices, mut shown): (Option<Arc<Choices>>, Option<Arc<Shown>>) = (None, None);
        let mut last_sign = Instant::now();
        loop {
            let (new_choices, new_shown) = self.wait(&asked, choices.as_ref(), shown.as_ref());
            if let Some(new) = new_choices {
                self.write(event("choices", &*new).as_bytes())?;
                choices = Some(new);
            }
            if let Some(new) = new_shown {
                self.write(event("shown", &*new).as_bytes())?;
                shown = Some(new);
            }
            if last_sign.elapsed() >= SIGN_OF_LIFE {
                self.write(b": here\n\n")?;
                last_sign = Instant::now();
            }
            if self.is_closed()? {
                return Ok(());
            }
        }
    }

    /// What is news to somebody who knows these, once there is any; nothing after a while.
    fn wait(
        &self,
        asked: &Asked,
        choices: Option<&Arc<Choices>>,
        shown: Option<&Arc<Shown>>,
    ) -> (Option<Arc<Choices>>, Option<Arc<Shown>>) {
        let state = self.shared.state();
        let is_new = |state: &State| {
            let choices = choices.is_none_or(|known| !Arc::ptr_eq(known, &state.choices));
            let now = state.shown.get(asked);
            let shown = now.is_some_and(|now| shown.is_none_or(|known| !Arc::ptr_eq(known, now)));
            (choices, shown)
        };
        let waited = self
            .shared
            .news
            .wait_timeout_while(state, LOOK_AFTER, |state| is_new(state) == (false, false));
        let (state, _) = waited.unwrap_or_else(PoisonError::into_inner);
        let (has_choices, has_shown) = is_new(&state);
        let choices = has_choices.then(|| Arc::clone(&state.choices));
        let shown = has_shown.then(|| state.shown.get(asked).cloned());
        (choices, shown.flatten())
    }

    /// Whether the other side is gone.
    fn is_closed(&self) -> io::Result<bool> {
        self.stream.set_read_timeout(Some(Duration::from_millis(1)))?;
        match (&self.stream).read(&mut [0; 64]) {
            Ok(count) => Ok(count == 0),
            Err(error) if is_timeout(&error) || error.kind() == ErrorKind::Interrupted => Ok(false),
            Err(error) => Err(error),
        }
    }
}

fn is_timeout(error: &io::Error) -> bool {
    matches!(error.kind(), ErrorKind::WouldBlock | ErrorKind::TimedOut)
}

/// That somebody waits for news of something, as long as this is there.
struct Wish<'a> {
    asked: &'a Asked,
    shared: &'a Shared,
}

impl<'a> Wish<'a> {
    /// `None` if too many wait already.
    fn of(asked: &'a Asked, shared: &'a Shared) -> Option<Self> {
        let mut state = shared.state();
        if state.wanted.values().sum::<usize>() >= MOST_STREAMS {
            return None;
        }
        *state.wanted.entry(asked.clone()).or_default() += 1;
        drop(state);
        shared.wish.notify_all();
        Some(Self { asked, shared })
    }
}

impl Drop for Wish<'_> {
    fn drop(&mut self) {
        let mut state = self.shared.state();
        if let Some(count) = state.wanted.get_mut(self.asked) {
            *count = count.saturating_sub(1);
        }
        state.wanted.retain(|_, count| *count > 0);
    }
}

/// A message of a stream: its data is one line.
fn event(name: &str, data: &impl serde::Serialize) -> String {
    let data = serde_json::to_string(data).unwrap_or_default();
    format!("event: {name}\ndata: {data}\n\n")
}

const PAGE: &str = include_str!("page.html");
const STYLE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("page.js");
const ICON: &str = include_str!("icon.svg");

/// The bytes of an answer: of the program itself, or made.
enum Body {
    Own(&'static [u8]),
    Made(Vec<u8>),
    Page(Arc<str>),
}

impl AsRef<[u8]> for Body {
    fn as_ref(&self) -> &[u8] {
        match self {
            Body::Own(bytes) => bytes,
            Body::Made(bytes) => bytes,
            Body::Page(text) => text.as_bytes(),
        }
    }
}

impl std::ops::Deref for Body {
    type Target = [u8];

    fn deref(&self) -> &[u8] {
        self.as_ref()
    }
}

/// What a path stands for. There is no other than these: no path names a file.
fn answer(request: &Request, shared: &Shared) -> Answer<Body> {
    let own =
        |kind, text: &'static str| Answer { status: 200, kind, body: Body::Own(text.as_bytes()) };
    match request.path.as_str() {
        "/" => return own("text/html; charset=utf-8", PAGE),
        "/page.js" => return own("text/javascript; charset=utf-8", SCRIPT),
        "/icon.svg" => return own("image/svg+xml", ICON),
        "/page.css" => {
            let style = write::page_style(&font_path) + STYLE;
            let body = Body::Made(style.into_bytes());
            return Answer { status: 200, kind: "text/css; charset=utf-8", body };
        }
        _ => {}
    }
    if let Some(face) = Face::ALL.into_iter().find(|face| font_path(*face) == request.path) {
        return Answer { status: 200, kind: "font/ttf", body: Body::Own(face.file()) };
    }
    let id = request.path.strip_prefix("/pages/").and_then(|name| name.strip_suffix(".svg"));
    let page = id.and_then(|id| shared.state().pages.get(id).cloned());
    match page {
        Some(page) => Answer { status: 200, kind: "image/svg+xml", body: Body::Page(page) },
        None => refusal(404),
    }
}

fn font_path(face: Face) -> String {
    format!("/fonts/{}.ttf", face.index())
}

fn refusal(status: u16) -> Answer<Body> {
    let body = Body::Made(format!("{status} {}\n", reason(status)).into_bytes());
    Answer { status, kind: "text/plain; charset=utf-8", body }
}
