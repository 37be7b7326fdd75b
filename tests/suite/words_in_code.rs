//! No word of a sheet stands in the code: sheets and figures get their words from the files of a
//! language. Reads the source text.

use crate::architecture::sources;

/// The folders of code that makes sheets and figures, or decides what they say.
const FOLDERS: [&str; 6] = ["board", "decide", "figure", "page", "sheet", "words"];

/// Files that may hold sentences, and why.
const EXCEPTIONS: &[(&str, &str)] = &[
    ("board/check/", "messages of `check`, which are English"),
    ("board/job/", "messages of `check`"),
    ("board/vocabulary.rs", "what words of the language say, in its reference and in an editor"),
    ("figure/directions.rs", "drawings of the language's reference, which is English"),
    ("board/device.rs", "devices in messages of `check` and on the terminal"),
    ("decide/sample.rs", "for unit tests alone"),
    ("figure/plan/mod.rs", "what found no room, told to who writes a specification"),
    ("sheet/cautions.rs", "messages to who writes a language"),
    ("sheet/compose.rs", "messages to who writes a template"),
    ("sheet/filling.rs", "messages to who writes a template"),
    ("sheet/insert.rs", "which job it is about, told to who writes a specification"),
    ("sheet/links.rs", "messages to who writes a template"),
    ("sheet/markdown/", "messages to who writes a template"),
    ("sheet/sentences.rs", "messages to who writes a template"),
    ("sheet/templates.rs", "messages to who writes a template"),
];

/// The string literals of a file but for those of its tests, with their lines.
fn literals(text: &str) -> Vec<(usize, String)> {
    let text = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let mut found = Vec::new();
    let mut line = 1;
    let mut chars = text.chars().peekable();
    let mut before = ' ';
    while let Some(c) = chars.next() {
        match c {
            '\n' => line += 1,
            '/' if chars.peek() == Some(&'/') => {
                while chars.peek().is_some_and(|c| *c != '\n') {
                    chars.next();
                }
            }
            '\'' if chars.peek() == Some(&'"') => {
                chars.next();
            }
            '"' => {
                let (start, raw) = (line, before == 'r');
                let mut literal = String::new();
                while let Some(c) = chars.next() {
                    match c {
                        '"' => break,
                        '\\' if !raw => match chars.next() {
                            // A line that goes on: its blanks are no part of the text.
                            Some('\n') => {
                                line += 1;
                                while chars.peek().is_some_and(|c| *c == ' ') {
                                    chars.next();
                                }
                            }
                            Some(escaped) => {
                                literal.push(if escaped == 'n' { ' ' } else { escaped })
                            }
                            None => {}
                        },
                        '\n' => {
                            line += 1;
                            literal.push(' ');
                        }
                        c => literal.push(c),
                    }
                }
                found.push((start, literal));
            }
            _ => {}
        }
        before = c;
    }
    found
}

/// Whether a text has two words or more, beside what is put in.
fn has_words(literal: &str) -> bool {
    let mut plain = String::new();
    let mut depth = 0;
    for c in literal.chars() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            c if depth == 0 => plain.push(c),
            _ => {}
        }
    }
    let words = plain.split(|c: char| !c.is_alphabetic());
    words.filter(|word| word.chars().count() > 1).count() > 1 && plain.contains(' ')
}

fn faults(path: &str, text: &str) -> Vec<String> {
    let excepted = EXCEPTIONS.iter().any(|(excepted, _)| path.starts_with(excepted));
    if excepted || path.ends_with("/tests.rs") || path.contains("/tests/") {
        return Vec::new();
    }
    literals(text)
        .into_iter()
        .filter(|(_, literal)| has_words(literal))
        .map(|(line, literal)| format!("src/{path}:{line}: {literal:?}"))
        .collect()
}

#[test]
fn no_sentence_of_a_sheet_stands_in_the_code() {
    let mut found = Vec::new();
    let mut used = vec![false; EXCEPTIONS.len()];
    let mut read = 0;
    for (path, text) in sources() {
        if !FOLDERS.contains(&path.split('/').next().unwrap_or_default()) {
            continue;
        }
        found.extend(faults(&path, &text));
        for (used, (excepted, _)) in used.iter_mut().zip(EXCEPTIONS) {
            *used |= path.starts_with(excepted)
                && literals(&text).iter().any(|(_, literal)| has_words(literal));
        }
        read += 1;
    }
    assert!(read > 100, "the source was not found");
    assert!(found.is_empty(), "words that belong into templates/:\n{}", found.join("\n"));
    let idle: Vec<_> = EXCEPTIONS.iter().zip(&used).filter(|(_, used)| !**used).collect();
    assert!(idle.is_empty(), "exceptions that nothing needs: {idle:?}");
}

/// The test above must be able to fail.
#[test]
fn a_sentence_in_the_code_is_seen() {
    let told = |text| faults("figure/supply.rs", text).join("\n");
    assert_eq!(told("let a = \"nothing here\";"), "src/figure/supply.rs:1: \"nothing here\"");
    assert_eq!(told("// \"nothing here\"\nlet a = \"board-plan\";"), "");
    assert_eq!(told("let a = '\"'; let b = \"way {} is on\";").lines().count(), 1);
    assert_eq!(told("format!(\"{} {}\", a, b)"), "");
    assert_eq!(told("#[cfg(test)]\nmod tests { const A: &str = \"two words\"; }"), "");
    assert_eq!(told("let a = \"one \\\n    two\";").lines().count(), 1);
    assert_eq!(faults("board/check/names.rs", "let a = \"two words\";"), Vec::<String>::new());
}
