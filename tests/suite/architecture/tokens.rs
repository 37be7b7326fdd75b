//! Rust's source text as names and marks.

/// Names, `::` and single other marks; without comments, numbers' insides, strings and lifetimes.
pub fn tokens(text: &str) -> Vec<String> {
    let chars: Vec<char> = text.chars().collect();
    let is_name = |c: char| c.is_alphanumeric() || c == '_';
    let (mut found, mut at) = (Vec::new(), 0);
    while let Some(&char) = chars.get(at) {
        let next = chars.get(at + 1).copied();
        match char {
            '/' if next == Some('/') => {
                while chars.get(at).is_some_and(|c| *c != '\n') {
                    at += 1;
                }
            }
            '/' if next == Some('*') => at = after_comment(&chars, at),
            '"' => at = after_string(&chars, at + 1, 0),
            'r' if matches!(next, Some('"' | '#')) && raw_marks(&chars, at + 1).is_some() => {
                let marks = raw_marks(&chars, at + 1).unwrap_or(0);
                at = after_string(&chars, at + 2 + marks, marks + 1);
            }
            '\'' => at = after_quote(&chars, at),
            ':' if next == Some(':') => {
                found.push("::".to_owned());
                at += 2;
            }
            char if is_name(char) => {
                let name: String =
                    chars.iter().skip(at).copied().take_while(|c| is_name(*c)).collect();
                at += name.chars().count();
                // `b"…"` is a string with a letter before it.
                if !(name == "b" && chars.get(at) == Some(&'"')) {
                    found.push(name);
                }
            }
            char => {
                if !char.is_whitespace() {
                    found.push(char.to_string());
                }
                at += 1;
            }
        }
    }
    found
}

/// How many `#` stand before the quote of a raw string; `None` if it is none.
fn raw_marks(chars: &[char], at: usize) -> Option<usize> {
    let marks = chars.iter().skip(at).take_while(|c| **c == '#').count();
    (chars.get(at + marks) == Some(&'"')).then_some(marks)
}

/// `raw` is 0 for a string with escapes, else one more than its `#`.
fn after_string(chars: &[char], mut at: usize, raw: usize) -> usize {
    while let Some(&char) = chars.get(at) {
        at += 1;
        match char {
            '\\' if raw == 0 => at += 1,
            '"' => {
                let marks = raw.saturating_sub(1);
                let ends = chars.iter().skip(at).take(marks).filter(|c| **c == '#').count();
                if ends == marks {
                    return at + marks;
                }
            }
            _ => {}
        }
    }
    at
}

/// Comments with stars lie in each other.
fn after_comment(chars: &[char], mut at: usize) -> usize {
    let mut depth = 0_usize;
    while at < chars.len() {
        match (chars[at], chars.get(at + 1)) {
            ('/', Some('*')) => {
                depth += 1;
                at += 2;
            }
            ('*', Some('/')) => {
                depth -= 1;
                at += 2;
                if depth == 0 {
                    return at;
                }
            }
            _ => at += 1,
        }
    }
    at
}

/// A character or a lifetime.
fn after_quote(chars: &[char], at: usize) -> usize {
    if chars.get(at + 1) == Some(&'\\') {
        let end = chars.iter().skip(at + 3).position(|c| *c == '\'');
        return at + 4 + end.unwrap_or(0);
    }
    if chars.get(at + 2) == Some(&'\'') {
        return at + 3;
    }
    let name = chars.iter().skip(at + 1).take_while(|c| c.is_alphanumeric() || **c == '_');
    at + 1 + name.count()
}

#[test]
fn what_is_no_code_is_left_out() {
    let of = |text: &str| tokens(text).join(" ");
    assert_eq!(of("use a::b; // c\n/* d /* e */ f */ g"), "use a :: b ; g");
    assert_eq!(of(r#"x("a \" b", 'c', '\'', '"', '\u{41}') y"#), "x ( , , , , ) y");
    assert_eq!(of("x(r#\"a \" b\"#, r\"c\\\", b\"d\") y"), "x ( , , ) y");
    assert_eq!(of("fn a<'b>(c: &'b str) {}"), "fn a < > ( c : & str ) { }");
    assert_eq!(of("let r = radius; \"a\nb\" c"), "let r = radius ; c");
}
