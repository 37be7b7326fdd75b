//! The page that lists the sheets.

use std::fmt::Write;

use super::escape;

/// The sheets of one board or job.
#[derive(Clone, Debug, PartialEq)]
pub struct Entry {
    /// Its name.
    pub title: String,
    /// A line under the name; may be empty.
    pub subtitle: String,
    /// Its files: what each is called, and its path relative to the page, with `/`.
    pub files: Vec<(String, String)>,
}

/// The page in a language (`en`) with a title.
pub fn index(language: &str, title: &str, entries: &[Entry]) -> String {
    let mut page = String::with_capacity(2048 + entries.len() * 512);
    let (language, title) = (escape::escaped(language), escape::escaped(title));
    // Writing to a string cannot fail.
    let _ = write!(
        page,
        "<!DOCTYPE html>\n<html lang=\"{language}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <title>{title}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n<main>\n\
         <h1>{title}</h1>\n"
    );
    for entry in entries {
        let _ = write!(page, "<section>\n<h2>{}</h2>\n", escape::escaped(&entry.title));
        if !entry.subtitle.is_empty() {
            let _ = writeln!(page, "<p>{}</p>", escape::escaped(&entry.subtitle));
        }
        page.push_str("<ul>\n");
        for (label, path) in &entry.files {
            let (href, label) = (percent_encoded(path), escape::escaped(label));
            let _ = writeln!(page, "<li><a href=\"{href}\">{label}</a></li>");
        }
        page.push_str("</ul>\n</section>\n");
    }
    page.push_str("</main>\n</body>\n</html>\n");
    page
}

/// Dark text on white in the reader's own font, as wide as can be read.
const STYLE: &str = "body{margin:0;background:#fff;color:#111;font:1.05rem/1.5 system-ui,\
    sans-serif}main{max-width:44rem;margin:2.5rem auto;padding:0 1.25rem}h1{font-size:1.7rem}\
    h2{font-size:1.2rem;margin:2rem 0 .2rem}p{margin:0;color:#444}ul{margin:.5rem 0;\
    padding-left:1.2rem}a{color:#003c6e}a:focus-visible{outline:3px solid #f9a800}";

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
        let entry = Entry {
            title: nasty.into(),
            subtitle: nasty.into(),
            files: vec![
                (nasty.into(), "javascript:alert(1)".into()),
                ("a".into(), "heron-8/lid insert é\".pdf".into()),
            ],
        };
        let page = index("en\"><script>", nasty, &[entry]);
        assert!(!page.contains("<script"), "{page}");
        assert!(!page.contains("=\"javascript:"), "{page}");
        assert!(page.contains("href=\"javascript%3Aalert%281%29\""), "{page}");
        assert!(page.contains("href=\"heron-8/lid%20insert%20%C3%A9%22.pdf\""), "{page}");
        assert!(page.starts_with("<!DOCTYPE html>\n<html lang=\"en&quot;&gt;&lt;script&gt;\">"));
    }
}
