//! The page that lists the sheets: tables of links, readable with a keyboard, a screen reader, in the
//! dark and on paper.

use std::fmt::Write;

use super::escape;

/// The page.
#[derive(Clone, Debug, PartialEq)]
pub struct Index {
    /// Its language, as `en`.
    pub language: String,
    /// Its title and heading.
    pub title: String,
    /// What the link says that leads past the heading to the tables.
    pub skip: String,
    /// A page that stands before the sheets, and what is to be known of it; empty for nothing.
    pub first: Option<(Link, String)>,
    /// What stands there if there is no table.
    pub empty: String,
    /// The tables in their order; one without rows is left out.
    pub tables: Vec<Table>,
}

/// A table of sheets.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// What it lists.
    pub caption: String,
    /// The heads of its columns.
    pub head: Vec<String>,
    /// Its rows, each with as many cells as there are heads; the first cell names the row.
    pub rows: Vec<Vec<Cell>>,
}

/// What stands in a cell: each part that there is, one below the other.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// Words.
    pub text: String,
    /// What a reader must not overlook.
    pub alert: Option<String>,
    /// A picture: its path, and what its link opens.
    pub picture: Option<Link>,
    /// What can be opened.
    pub links: Vec<Link>,
    /// More of it under a word that unfolds it.
    pub more: Option<(String, Vec<Link>)>,
}

impl Cell {
    /// A cell that holds words alone.
    pub fn of(text: impl Into<String>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }
}

/// A file that can be opened.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// What it is, in words that tell it from every other file.
    pub label: String,
    /// Its path relative to the page, with `/`.
    pub path: String,
}

/// How many letters of a cell stay on one line.
const SHORT: usize = 18;

/// The page as HTML.
pub fn index(index: &Index) -> String {
    let mut page = String::with_capacity(8192);
    let (language, title) = (escape::escaped(&index.language), escape::escaped(&index.title));
    let skip = escape::escaped(&index.skip);
    // Writing to a string cannot fail.
    let _ = write!(
        page,
        "<!DOCTYPE html>\n<html lang=\"{language}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n\
         <title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n\
         <a class=\"skip\" href=\"#sheets\">{skip}</a>\n\
         <header>\n<h1>{title}</h1>\n</header>\n<main id=\"sheets\" tabindex=\"-1\">\n"
    );
    if let Some((Link { label, path }, note)) = &index.first {
        let (href, label) = (percent_encoded(path), escape::escaped(label));
        let _ = write!(page, "<p class=\"first\"><a href=\"{href}\">{label}</a>");
        if !note.is_empty() {
            let _ = write!(page, ": {}", escape::escaped(note));
        }
        page.push_str("</p>\n");
    }
    let tables = index.tables.iter().filter(|table| !table.rows.is_empty());
    let mut count = 0;
    for table in tables {
        count += 1;
        push_table(&mut page, table, count);
    }
    if count == 0 {
        let _ = writeln!(page, "<p>{}</p>", escape::escaped(&index.empty));
    }
    page.push_str("</main>\n</body>\n</html>\n");
    page
}

/// A table in a frame of its own, which a narrow window scrolls sideways; the frame can be reached
/// with the keyboard and has the table's caption for a name.
fn push_table(page: &mut String, table: &Table, number: usize) {
    let caption = escape::escaped(&table.caption);
    let _ = write!(
        page,
        "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-labelledby=\"table-{number}\">\n\
         <table>\n<caption id=\"table-{number}\">{caption}</caption>\n<thead>\n<tr>"
    );
    for head in &table.head {
        let _ = write!(page, "<th scope=\"col\">{}</th>", escape::escaped(head));
    }
    page.push_str("</tr>\n</thead>\n<tbody>\n");
    for row in &table.rows {
        page.push_str("<tr>");
        for (column, cell) in row.iter().enumerate() {
            let tag = if column == 0 { "th" } else { "td" };
            let scope = if column == 0 { " scope=\"row\"" } else { "" };
            // A date or a name of two words is not broken.
            let short = cell.text.chars().count() <= SHORT;
            let class = if short { " class=\"short\"" } else { "" };
            let _ = write!(page, "<{tag}{scope}{class}>");
            push_cell(page, cell);
            let _ = write!(page, "</{tag}>");
        }
        page.push_str("</tr>\n");
    }
    page.push_str("</tbody>\n</table>\n</div>\n");
}

fn push_cell(page: &mut String, cell: &Cell) {
    page.push_str(&escape::escaped(&cell.text));
    if let Some(alert) = &cell.alert {
        let _ = write!(page, "<p class=\"alert\">{}</p>", escape::escaped(alert));
    }
    if let Some(Link { label, path }) = &cell.picture {
        let (path, label) = (percent_encoded(path), escape::escaped(label));
        let _ = write!(
            page,
            "<a href=\"{path}\"><img src=\"{path}\" alt=\"{label}\" loading=\"lazy\"></a>"
        );
    }
    push_links(page, &cell.links);
    if let Some((summary, links)) = &cell.more {
        let _ = write!(page, "<details><summary>{}</summary>", escape::escaped(summary));
        push_links(page, links);
        page.push_str("</details>");
    }
}

fn push_links(page: &mut String, links: &[Link]) {
    if links.is_empty() {
        return;
    }
    page.push_str("<ul>");
    for Link { label, path } in links {
        let (href, label) = (percent_encoded(path), escape::escaped(label));
        let _ = write!(page, "<li><a href=\"{href}\">{label}</a></li>");
    }
    page.push_str("</ul>");
}

/// Colours for light and dark, each pair at least 4.5 : 1 (WCAG 2.2, 1.4.3); on paper always light.
const STYLE: &str = "\
    :root{--paper:#fff;--ink:#111;--link:#003c6e;--head:#e2e8ee;--line:#767676;--alert:#a80018}\
    @media screen and (prefers-color-scheme:dark){:root{--paper:#14171a;--ink:#eee;--link:#8cc8ff;\
    --head:#262c33;--line:#8a929b;--alert:#ff9c94}}\
    body{margin:0 auto;max-width:82rem;padding:1.5rem;background:var(--paper);color:var(--ink);\
    font:1rem/1.5 system-ui,sans-serif}h1{font-size:1.7rem;margin:0 0 1rem}\
    .skip{position:absolute;left:-99rem}.skip:focus{left:1rem;top:.5rem;padding:.3rem .6rem;\
    background:var(--paper)}\
    .wide{overflow-x:auto;margin:0 0 2.5rem}table{border-collapse:collapse;width:100%}\
    caption{text-align:left;font-size:1.25rem;font-weight:700;padding:0 0 .4rem}\
    th,td{border-bottom:1px solid var(--line);padding:.5rem .7rem;text-align:left;\
    vertical-align:top}.short{white-space:nowrap}.short *{white-space:normal}thead th{background:var(--head)}\
    ul{margin:0;padding:0;list-style:none}li,summary{padding:.15rem 0}summary{cursor:pointer}\
    img{width:15rem;max-width:none;height:auto;background:#fff;border:1px solid var(--line)}\
    a{color:var(--link)}.alert{color:var(--alert);font-weight:700;margin:0 0 .3rem}\
    :focus-visible{outline:3px solid var(--link);outline-offset:2px}main:focus{outline:none}\
    @media (max-width:40rem){body{padding:.8rem}img{width:9rem}}\
    @media print{.skip,details{display:none}.wide{overflow:visible}tr{break-inside:avoid}\
    thead{display:table-header-group}body{max-width:none;padding:0;font-size:9pt}\
    img{width:45mm}a{text-decoration:none}}";

/// A relative path as a reference: everything but plain letters, digits, `-._~` and `/` becomes
/// `%XX`, so that no path is taken for an address with a scheme.
fn percent_encoded(path: &str) -> String {
    let mut encoded = String::with_capacity(path.len());
    for byte in path.bytes() {
        match byte {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                encoded.push(char::from(byte));
            }
            byte => {
                let _ = write!(encoded, "%{byte:02X}");
            }
        }
    }
    encoded
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 3986, 2.3: the unreserved characters stay, others are encoded; 3.3 keeps `/`.
    #[test]
    fn nothing_in_a_field_becomes_markup_or_script() {
        let nasty = "<script>alert('x')</script>\"&](javascript:alert(1))";
        let link = |path: &str| Link { label: nasty.into(), path: path.into() };
        let cell = Cell {
            text: nasty.into(),
            alert: Some(nasty.into()),
            picture: Some(link("heron-8/lid insert é\".pdf")),
            links: vec![link("javascript:alert(1)")],
            more: Some((nasty.into(), vec![link("javascript:alert(2)")])),
        };
        let page = index(&Index {
            language: "en\"><script>".into(),
            title: nasty.into(),
            skip: nasty.into(),
            first: Some((link("javascript:alert(0)"), nasty.into())),
            empty: nasty.into(),
            tables: vec![Table {
                caption: nasty.into(),
                head: vec![nasty.into()],
                rows: vec![vec![cell]],
            }],
        });
        assert!(!page.contains("<script"), "{page}");
        assert!(!page.contains("=\"javascript:"), "{page}");
        assert!(page.contains("href=\"javascript%3Aalert%281%29\""), "{page}");
        assert!(page.contains("src=\"heron-8/lid%20insert%20%C3%A9%22.pdf\""), "{page}");
        assert!(page.starts_with("<!DOCTYPE html>\n<html lang=\"en&quot;&gt;&lt;script&gt;\">"));
    }

    #[test]
    fn a_page_without_tables_says_so() {
        let tables = vec![Table { caption: "Boards".into(), head: Vec::new(), rows: Vec::new() }];
        let (language, title, skip) = ("en".into(), "Sheets".into(), "Skip".into());
        let page = index(&Index {
            language,
            title,
            skip,
            empty: "Nothing yet.".into(),
            first: None,
            tables,
        });
        assert!(page.contains("<p>Nothing yet.</p>") && !page.contains("<table"), "{page}");
    }
}
