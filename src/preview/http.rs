//! A request, read and judged, and an answer as bytes. `httparse` takes the head apart; what may be asked, and
//! by whom, is decided here.
//!
//! A page of another site can make a browser send requests to this machine, also under a name of its own that
//! it lets lead here. So the request must name one of our own addresses as its host, and what a browser sends
//! for another site is refused.

use std::net::SocketAddr;

/// The longest head of a request, bytes.
pub const LONGEST_HEAD: usize = 8 * 1024;
/// The most lines in a head.
const MOST_LINES: usize = 64;

/// A request that may be answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Request {
    /// Whether only the head of the answer is wanted.
    pub head_only: bool,
    /// The path, as it was sent.
    pub path: String,
    /// The names and values after `?`, decoded.
    pub query: Vec<(String, String)>,
}

/// How far the head of a request was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Head {
    /// More must come.
    Partial,
    /// A request.
    Whole(Request),
    /// A request that is refused with this status.
    Refused(u16),
}

/// Reads and judges the head of a request to `address`.
pub fn read_head(bytes: &[u8], address: SocketAddr) -> Head {
    let mut lines = [httparse::EMPTY_HEADER; MOST_LINES];
    let mut request = httparse::Request::new(&mut lines);
    match request.parse(bytes) {
        Ok(httparse::Status::Complete(_)) => {}
        Ok(httparse::Status::Partial) if bytes.len() < LONGEST_HEAD => return Head::Partial,
        Ok(httparse::Status::Partial) | Err(httparse::Error::TooManyHeaders) => {
            return Head::Refused(431);
        }
        Err(_) => return Head::Refused(400),
    }
    let (Some(method), Some(target)) = (request.method, request.path) else {
        return Head::Refused(400);
    };
    let lines = Lines(request.headers);
    let refused = lines.judge(address).or(match method {
        "GET" | "HEAD" => None,
        _ => Some(405),
    });
    if let Some(status) = refused {
        return Head::Refused(status);
    }
    let (path, query) = target.split_once('?').unwrap_or((target, ""));
    if !path.starts_with('/') {
        return Head::Refused(400);
    }
    let query = query.split('&').filter(|pair| !pair.is_empty()).map(|pair| {
        let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
        Some((decoded(name)?, decoded(value)?))
    });
    let Some(query) = query.collect() else { return Head::Refused(400) };
    Head::Whole(Request { head_only: method == "HEAD", path: path.to_owned(), query })
}

/// The lines of a head.
struct Lines<'a, 'b>(&'a [httparse::Header<'b>]);

impl Lines<'_, '_> {
    /// All values of a name.
    fn all(&self, name: &str) -> impl Iterator<Item = &[u8]> {
        let named = self.0.iter().filter(move |line| line.name.eq_ignore_ascii_case(name));
        named.map(|line| line.value.trim_ascii())
    }

    /// The status that a request is refused with, whatever it asks for.
    fn judge(&self, address: SocketAddr) -> Option<u16> {
        let mut hosts = self.all("host");
        let (Some(host), None) = (hosts.next(), hosts.next()) else { return Some(400) };
        let ours = own_names(address);
        let is_ours =
            |name: &[u8]| ours.iter().any(|own| name.eq_ignore_ascii_case(own.as_bytes()));
        if !is_ours(host) {
            return Some(421);
        }
        let is_own_page = |origin: &[u8]| origin.strip_prefix(b"http://").is_some_and(is_ours);
        if self.all("origin").any(|origin| !is_own_page(origin)) {
            return Some(403);
        }
        // Whoever follows a link from another page comes from another site, and is welcome.
        let follows = self.all("sec-fetch-mode").any(|mode| mode == b"navigate");
        let foreign = |site: &[u8]| !matches!(site, b"same-origin" | b"none") && !follows;
        if self.all("sec-fetch-site").any(foreign) {
            return Some(403);
        }
        // Nothing that is served needs a body.
        let has_body = self.all("transfer-encoding").next().is_some()
            || self.all("content-length").any(|length| length != b"0");
        has_body.then_some(413)
    }
}

/// The names that a browser knows an address of this machine by.
fn own_names(address: SocketAddr) -> Vec<String> {
    let port = address.port();
    let names = ["127.0.0.1", "localhost", "[::1]"];
    let with_port = names.iter().map(|name| format!("{name}:{port}"));
    // The usual port is left out.
    let bare = names.iter().filter(|_| port == 80).map(|name| (*name).to_owned());
    with_port.chain(bare).collect()
}

/// A part of a query without `+` and `%41`; `None` if it is no text.
fn decoded(part: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(part.len());
    let mut rest = part.bytes();
    while let Some(byte) = rest.next() {
        bytes.push(match byte {
            b'+' => b' ',
            b'%' => {
                let digit = |byte: Option<u8>| char::from(byte?).to_digit(16);
                let (high, low) = (digit(rest.next())?, digit(rest.next())?);
                u8::try_from(high * 16 + low).ok()?
            }
            byte => byte,
        });
    }
    String::from_utf8(bytes).ok()
}

/// An answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer<B> {
    /// The status.
    pub status: u16,
    /// What the body is.
    pub kind: &'static str,
    /// The body.
    pub body: B,
}

impl<B: AsRef<[u8]>> Answer<B> {
    /// The head of an answer with a body of a known length.
    pub fn head(&self) -> String {
        let length = self.body.as_ref().len();
        format!("{}Content-Length: {length}\r\n\r\n", head(self.status, self.kind))
    }
}

/// The head of an answer that has no end.
pub fn stream_head() -> String {
    head(200, "text/event-stream") + "\r\n"
}

/// What the browser may do with a page: nothing comes from elsewhere, nothing is shown inside another page,
/// no script stands in a page itself.
const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; \
                      img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; \
                      frame-ancestors 'none'";

fn head(status: u16, kind: &str) -> String {
    let mut head = format!(
        "HTTP/1.1 {status} {}\r\nContent-Type: {kind}\r\nContent-Security-Policy: {POLICY}\r\n\
         X-Content-Type-Options: nosniff\r\nX-Frame-Options: DENY\r\nReferrer-Policy: no-referrer\r\n\
         Cross-Origin-Resource-Policy: same-origin\r\nCross-Origin-Opener-Policy: same-origin\r\n\
         Cache-Control: no-store\r\nConnection: close\r\n",
        reason(status)
    );
    if status == 405 {
        head.push_str("Allow: GET, HEAD\r\n");
    }
    head
}

/// A status in words.
pub fn reason(status: u16) -> &'static str {
    match status {
        200 => "OK",
        400 => "Bad Request",
        403 => "Forbidden",
        404 => "Not Found",
        405 => "Method Not Allowed",
        408 => "Request Timeout",
        413 => "Content Too Large",
        421 => "Misdirected Request",
        431 => "Request Header Fields Too Large",
        503 => "Service Unavailable",
        _ => "Internal Server Error",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(head: &str) -> Head {
        read_head(head.as_bytes(), SocketAddr::from(([127, 0, 0, 1], 8417)))
    }

    fn status(head: &str) -> u16 {
        match read(head) {
            Head::Whole(_) => 200,
            Head::Refused(status) => status,
            Head::Partial => 0,
        }
    }

    #[test]
    fn a_request_is_read() {
        let head =
            "GET /events?file=specs%2Fa+b.yaml&sheet=x HTTP/1.1\r\nHost: localhost:8417\r\n\r\n";
        let pair = |name: &str, value: &str| (name.to_owned(), value.to_owned());
        let query = vec![pair("file", "specs/a b.yaml"), pair("sheet", "x")];
        let request = Request { head_only: false, path: "/events".to_owned(), query };
        assert_eq!(read(head), Head::Whole(request));
        for cut in 0..head.len() {
            assert_eq!(read(&head[..cut]), Head::Partial, "{cut}");
        }
    }

    #[test]
    fn only_our_own_names_are_answered() {
        let of = |lines: &str| status(&format!("GET / HTTP/1.1\r\n{lines}\r\n"));
        for host in ["127.0.0.1:8417", "LOCALHOST:8417", "[::1]:8417"] {
            assert_eq!(of(&format!("Host: {host}\r\n")), 200, "{host}");
        }
        for host in [
            "evil.example:8417",
            "127.0.0.1",
            "127.0.0.1:80",
            "localhost:8417.evil",
            "",
            "0.0.0.0:8417",
        ] {
            assert_eq!(of(&format!("Host: {host}\r\n")), 421, "{host}");
        }
        assert_eq!(of(""), 400);
        assert_eq!(of("Host: localhost:8417\r\nHost: localhost:8417\r\n"), 400);
    }

    #[test]
    fn what_a_browser_sends_for_another_site_is_refused() {
        let of =
            |lines: &str| status(&format!("GET / HTTP/1.1\r\nHost: localhost:8417\r\n{lines}\r\n"));
        assert_eq!(of("Origin: http://localhost:8417\r\n"), 200);
        for origin in
            ["http://evil.example", "null", "https://localhost:8417", "http://localhost:1"]
        {
            assert_eq!(of(&format!("Origin: {origin}\r\n")), 403, "{origin}");
        }
        assert_eq!(of("Sec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: no-cors\r\n"), 403);
        assert_eq!(of("Sec-Fetch-Site: same-site\r\nSec-Fetch-Mode: cors\r\n"), 403);
        assert_eq!(of("Sec-Fetch-Site: cross-site\r\nSec-Fetch-Mode: navigate\r\n"), 200);
        assert_eq!(of("Sec-Fetch-Site: same-origin\r\nSec-Fetch-Mode: cors\r\n"), 200);
    }

    #[test]
    fn nothing_is_taken_in() {
        let of = |first: &str, lines: &str| {
            status(&format!("{first}\r\nHost: localhost:8417\r\n{lines}\r\n"))
        };
        assert_eq!(of("HEAD / HTTP/1.1", ""), 200);
        for method in ["POST", "PUT", "DELETE", "OPTIONS", "TRACE", "get"] {
            assert_eq!(of(&format!("{method} / HTTP/1.1"), ""), 405, "{method}");
        }
        assert_eq!(of("GET / HTTP/1.1", "Content-Length: 1\r\n"), 413);
        assert_eq!(of("GET / HTTP/1.1", "Content-Length: 0\r\n"), 200);
        assert_eq!(of("GET / HTTP/1.1", "Transfer-Encoding: chunked\r\n"), 413);
        assert_eq!(of("GET http://localhost:8417/ HTTP/1.1", ""), 400);
        assert_eq!(of("GET /?a=%zz HTTP/1.1", ""), 400);
        assert_eq!(of("GET /?a=%ff HTTP/1.1", ""), 400);
        assert_eq!(status("\u{1}\r\n\r\n"), 400);
        assert_eq!(of("GET / HTTP/1.1", &"A: b\r\n".repeat(MOST_LINES)), 431);
        assert_eq!(of(&format!("GET /{} HTTP/1.1", "a".repeat(LONGEST_HEAD)), ""), 200);
        let endless = format!("GET /{}", "a".repeat(LONGEST_HEAD));
        assert_eq!(status(&endless), 431);
    }
}
