//! The field page: one file with everything inside that it needs.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD as BASE64;
use sha2::{Digest, Sha256};

use super::{FLOWING_STYLE, escape, svg};
use crate::text::Face;

const STYLE: &str = include_str!("../field_page/page.css");
const SCRIPT: &str = concat!(
    include_str!("../field_page/parts.js"),
    include_str!("../field_page/form.js"),
    include_str!("../field_page/page.js"),
);
/// The compiler as a module, compressed; `module.txt` beside it says what built it.
const MODULE: &[u8] = include_bytes!("../field_page/module.wasm.gz");

/// What the page says before its script runs, and what the script begins with.
#[derive(Clone, Debug)]
pub struct FieldPage {
    /// Its language: a tag.
    pub language: String,
    /// Its title and heading.
    pub title: String,
    /// What it is for.
    pub lead: String,
    /// What stands there where no script runs.
    pub no_script: String,
    /// The safety messages that come first, as a piece of HTML.
    pub cautions: String,
    /// The heading of the boards.
    pub boards_title: String,
    /// The boards.
    pub boards: Vec<FieldBoard>,
    /// What its foot says: paragraphs.
    pub foot: Vec<String>,
    /// What the script begins with: JSON.
    pub data: String,
}

/// A board of the page in a language.
#[derive(Clone, Debug)]
pub struct FieldBoard {
    /// The tag of the language.
    pub language: String,
    /// The words that it is opened by.
    pub summary: String,
    /// Its questions and its sheets: a piece of HTML.
    pub html: String,
}

/// The page as HTML. Nothing outside of the file is asked for: its policy forbids it, and allows this one
/// script and this one style.
pub fn field_page(page: &FieldPage) -> String {
    let style = style(page);
    let policy = format!(
        "default-src 'none'; script-src '{}' 'wasm-unsafe-eval'; style-src '{}'; font-src data:; img-src blob: \
         data:; base-uri 'none'; form-action 'none'",
        sum(SCRIPT),
        sum(&style)
    );
    let mut to = String::with_capacity(MODULE.len() * 2);
    let (language, title) = (escape::escaped(&page.language), escape::escaped(&page.title));
    // Writing to a string cannot fail.
    let _ = write!(
        to,
        "<!DOCTYPE html>\n<html lang=\"{language}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n\
         <meta name=\"referrer\" content=\"no-referrer\">\n\
         <title>{title}</title>\n<style>{style}</style>\n</head>\n<body>\n\
         <header>\n<h1 id=\"title\">{title}</h1>\n<p id=\"lead\">"
    );
    escape::push(&mut to, &page.lead);
    let _ = write!(
        to,
        "</p>\n<div id=\"cautions\" class=\"sheet\">\n{}</div>\n<noscript><p class=\"band\">",
        page.cautions
    );
    escape::push(&mut to, &page.no_script);
    to.push_str(
        "</p></noscript>\n</header>\n<main id=\"desk\"></main>\n\
         <section id=\"boards\" aria-labelledby=\"boards-title\">\n<h2 id=\"boards-title\">",
    );
    escape::push(&mut to, &page.boards_title);
    to.push_str("</h2>\n");
    for board in &page.boards {
        to.push_str("<details class=\"board\" lang=\"");
        escape::push(&mut to, &board.language);
        to.push_str("\">\n<summary>");
        escape::push(&mut to, &board.summary);
        let _ = write!(to, "</summary>\n{}</details>\n", board.html);
    }
    to.push_str("</section>\n<footer>\n");
    for words in &page.foot {
        to.push_str("<p>");
        escape::push(&mut to, words);
        to.push_str("</p>\n");
    }
    // A text inside of an element for scripts ends only where such an element can end.
    let data = page.data.replace('<', "\\u003c");
    let _ = write!(
        to,
        "</footer>\n<script id=\"data\" type=\"application/json\">{data}</script>\n\
         <script id=\"module\" type=\"text/plain\" data-bytes=\"{}\">{}</script>\n\
         <script type=\"module\">{SCRIPT}</script>\n</body>\n</html>\n",
        MODULE.len(),
        packed(MODULE)
    );
    to
}

/// The style: the looks of the page and of what flows, and the faces of drawings, with the letters that the
/// page shows before its script runs.
fn style(page: &FieldPage) -> String {
    let mut letters: BTreeSet<char> = (' '..='~').collect();
    let pieces = page.boards.iter().map(|board| board.html.as_str());
    pieces.for_each(|html| letters.extend(html.chars()));
    let file = |face: Face| {
        // What the Latin faces lack is set in the wide ones.
        let (first, rest): (BTreeSet<char>, BTreeSet<char>) =
            letters.iter().partition(|letter| Face::Regular.has(**letter));
        let wide = matches!(face, Face::WideRegular | Face::WideBold);
        let file = svg::font_of_letters(face, if wide { &rest } else { &first });
        format!("data:font/ttf;base64,{}", BASE64.encode(file.unwrap_or_default()))
    };
    format!("{}{FLOWING_STYLE}{STYLE}", svg::page_style(&file))
}

/// Bytes as text, five letters for four bytes: base 64 has a fifteenth more. The letters are those from `(` on,
/// but `}` for `<`, with which markup would begin. The last bytes are filled up with noughts.
fn packed(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len() / 4 * 5 + 5);
    for four in bytes.chunks(4) {
        let mut filled = [0; 4];
        filled[..four.len()].copy_from_slice(four);
        let mut value = u32::from_be_bytes(filled);
        let mut letters = [0_u8; 5];
        for letter in letters.iter_mut().rev() {
            *letter = b'(' + (value % 85) as u8;
            value /= 85;
        }
        text.extend(letters.map(|letter| if letter == b'<' { '}' } else { char::from(letter) }));
    }
    text
}

/// The sum of a script or a style, as a policy names it.
fn sum(text: &str) -> String {
    format!("sha256-{}", BASE64.encode(Sha256::digest(text)))
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    /// As the page's script reads it.
    fn unpacked(text: &str, bytes: usize) -> Vec<u8> {
        let mut all = Vec::new();
        for five in text.as_bytes().chunks(5) {
            let value = five.iter().fold(0_u32, |value, letter| {
                let letter = if *letter == b'}' { b'<' } else { *letter };
                value * 85 + u32::from(letter - b'(')
            });
            all.extend(value.to_be_bytes());
        }
        all.truncate(bytes);
        all
    }

    proptest! {
        #[test]
        fn bytes_come_back(bytes in proptest::collection::vec(any::<u8>(), 0..40)) {
            let text = packed(&bytes);
            prop_assert!(text.chars().all(|c| c.is_ascii_graphic() && !"<&\"'".contains(c)), "{}", text);
            prop_assert_eq!(unpacked(&text, bytes.len()), bytes);
        }
    }

    #[test]
    fn the_largest_value_fits() {
        assert_eq!(unpacked(&packed(&[255; 8]), 8), [255; 8]);
    }
}
