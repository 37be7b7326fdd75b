//! A running `lidsheet preview`, and a browser's part of the talk with it over a socket.

use std::io::{self, BufRead, BufReader, Read, Write};
use std::net::{SocketAddr, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::Value;

/// A preview that ends with this.
pub struct Served {
    child: Child,
    pub address: SocketAddr,
}

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// An answer.
pub struct Answered {
    pub status: u16,
    pub head: String,
    pub body: Vec<u8>,
}

impl Answered {
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }
}

impl Served {
    /// Runs `program preview` in a folder on a port that is free.
    pub fn start(program: &Path, folder: &Path, arguments: &[&str]) -> Self {
        let mut child = Command::new(program)
            .args(["preview", "--port", "0"])
            .args(arguments)
            .current_dir(folder)
            .stdout(Stdio::piped())
            .spawn()
            .expect("it runs");
        let mut line = String::new();
        let mut output = BufReader::new(child.stdout.take().expect("its output"));
        output.read_line(&mut line).expect("a line");
        let address = line
            .split_once("http://")
            .and_then(|(_, rest)| rest.split_once('/'))
            .and_then(|(address, _)| address.parse().ok())
            .unwrap_or_else(|| panic!("no address in {line:?}"));
        Self { child, address }
    }

    pub fn process(&self) -> u32 {
        self.child.id()
    }

    /// Sends bytes and takes all that comes back.
    pub fn send(&self, bytes: &[u8]) -> io::Result<Answered> {
        let mut stream = TcpStream::connect(self.address)?;
        stream.set_read_timeout(Some(Duration::from_secs(30)))?;
        stream.write_all(bytes)?;
        let mut all = Vec::new();
        stream.read_to_end(&mut all)?;
        let end = all.windows(4).position(|four| four == b"\r\n\r\n").unwrap_or(all.len());
        let head = String::from_utf8_lossy(&all[..end]).into_owned();
        let status = head.split(' ').nth(1).and_then(|status| status.parse().ok()).unwrap_or(0);
        Ok(Answered { status, head, body: all.get(end + 4..).unwrap_or_default().to_vec() })
    }

    pub fn get(&self, path: &str) -> Answered {
        let head = format!("GET {path} HTTP/1.1\r\nHost: {}\r\n\r\n", self.address);
        self.send(head.as_bytes()).expect("an answer")
    }

    /// Listens to the news of a wish: `file=a.yaml`.
    pub fn listen(&self, wish: &str) -> Events {
        let mut stream = TcpStream::connect(self.address).expect("a connection");
        stream.set_read_timeout(Some(Duration::from_secs(60))).expect("a limit");
        let host = self.address;
        write!(stream, "GET /events?{wish} HTTP/1.1\r\nHost: {host}\r\n\r\n").expect("it is sent");
        let mut events = Events { lines: BufReader::new(stream), head: String::new() };
        loop {
            let line = events.line();
            if line.is_empty() {
                return events;
            }
            events.head.push_str(&line);
            events.head.push('\n');
        }
    }
}

/// A stream of events.
pub struct Events {
    lines: BufReader<TcpStream>,
    pub head: String,
}

impl Events {
    fn line(&mut self) -> String {
        let mut line = String::new();
        self.lines.read_line(&mut line).expect("a line in time");
        line.trim_end().to_owned()
    }

    /// The data of the next event of a name.
    pub fn next(&mut self, name: &str) -> Value {
        let wanted = format!("event: {name}");
        loop {
            if self.line() == wanted {
                let data = self.line();
                let data = data.strip_prefix("data: ").expect("data");
                return serde_json::from_str(data).expect("JSON");
            }
        }
    }

    /// The next news of what is shown that are as they should be.
    pub fn until(&mut self, is: impl Fn(&Value) -> bool) -> Value {
        for _ in 0..100 {
            let shown = self.next("shown");
            if is(&shown) {
                return shown;
            }
        }
        panic!("a hundred news, and none as expected");
    }
}
