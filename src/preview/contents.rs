//! What a path stands for: parts of the program, and the pages that are shown.

use std::sync::Arc;

use super::http::{Answer, Request, reason};
use crate::text::Face;
use crate::write;

const PAGE: &str = include_str!("page.html");
const STYLE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("page.js");
const ICON: &str = include_str!("icon.svg");

/// The bytes of an answer.
pub enum Body {
    /// Of the program itself.
    Own(&'static [u8]),
    /// Made for this answer.
    Made(Vec<u8>),
    /// A page that is shown.
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

/// What a path stands for; `page` gives a page that is shown by its id. There is no other than these: no path
/// names a file.
pub fn answer(request: &Request, page: impl Fn(&str) -> Option<Arc<str>>) -> Answer<Body> {
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
    let page = id.and_then(page);
    match page {
        Some(page) => Answer { status: 200, kind: "image/svg+xml", body: Body::Page(page) },
        None => refusal(404),
    }
}

fn font_path(face: Face) -> String {
    format!("/fonts/{}.ttf", face.index())
}

/// An answer that is none: why.
pub fn refusal(status: u16) -> Answer<Body> {
    let body = Body::Made(format!("{status} {}\n", reason(status)).into_bytes());
    Answer { status, kind: "text/plain; charset=utf-8", body }
}
