//! A connection: a request read in bounded time and answered, or a stream of news.

use std::io::{self, ErrorKind, Read, Write};
use std::net::{Shutdown, SocketAddr, TcpStream};
use std::sync::{Arc, PoisonError};
use std::time::{Duration, Instant};

use super::contents::{answer, refusal};
use super::desk::Asked;
use super::http::{Head, LONGEST_HEAD, Request, read_head, stream_head};
use super::shared::{Shared, State};
use super::shown::{Choices, Shown};

/// The most that may wait for news at a time.
const MOST_STREAMS: usize = 16;
/// How long a request may take to come.
const READ_WITHIN: Duration = Duration::from_secs(5);
/// How long an answer may take to be taken.
const WRITE_WITHIN: Duration = Duration::from_secs(20);
/// How often somebody who waits for news is sent a sign of life, and looked after.
const SIGN_OF_LIFE: Duration = Duration::from_secs(5);
const LOOK_AFTER: Duration = Duration::from_millis(500);

/// A connection, counted as long as it is there.
pub struct Connection {
    stream: TcpStream,
    address: SocketAddr,
    shared: Arc<Shared>,
    /// How many there were when it came, itself included.
    pub number: usize,
}

impl Drop for Connection {
    fn drop(&mut self) {
        let mut state = self.shared.state();
        state.connections = state.connections.saturating_sub(1);
    }
}

impl Connection {
    /// A connection that asked at `address`. It is counted until it is dropped, however its thread ends.
    pub fn new(stream: TcpStream, address: SocketAddr, shared: &Arc<Shared>) -> Self {
        let mut state = shared.state();
        state.connections += 1;
        Self { stream, address, shared: Arc::clone(shared), number: state.connections }
    }

    /// Says that there are too many. Nothing is read first, so this may not reach whoever asked; the
    /// connection then just ends.
    pub fn turn_away(&self) {
        let _ = self.write(refusal(503).head().as_bytes());
    }

    /// Answers the one request that comes.
    pub fn serve(&self) -> io::Result<()> {
        self.stream.set_nodelay(true)?;
        match self.read()? {
            Head::Whole(request) if request.path == "/events" => self.tell(&request),
            Head::Whole(request) => {
                let answer = answer(&request, |id| self.shared.state().pages.get(id).cloned());
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
