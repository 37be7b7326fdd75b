//! Text that cannot become markup.

/// Adds `text` as the content of an element or of a quoted attribute of XML or HTML. Characters
/// that XML 1.0 has no place for are left out.
pub(super) fn push(to: &mut String, text: &str) {
    for char in text.chars() {
        match char {
            '&' => to.push_str("&amp;"),
            '<' => to.push_str("&lt;"),
            '>' => to.push_str("&gt;"),
            '"' => to.push_str("&quot;"),
            '\'' => to.push_str("&#39;"),
            '\t' | '\n' | '\r' => to.push(' '),
            '\0'..='\x1f' | '\x7f'..='\u{9f}' | '\u{fffe}' | '\u{ffff}' => {}
            char => to.push(char),
        }
    }
}

/// `text` escaped.
pub(super) fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len() + 8);
    push(&mut escaped, text);
    escaped
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_stays_markup() {
        assert_eq!(
            escaped("<script>alert(\"1\" & '2')</script>\u{0}\u{1b}\n"),
            "&lt;script&gt;alert(&quot;1&quot; &amp; &#39;2&#39;)&lt;/script&gt; "
        );
    }
}
