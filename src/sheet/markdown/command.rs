//! Lines of a template that are commands, and the Markdown between them.
//!
//! A command is a line by itself that begins with colons at the margin. It is found before the
//! Markdown is read: a value that is filled in has a backslash before its first colon and is one
//! line, so no value can be a command.

use std::ops::Range;

/// What a line commands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Command {
    /// Opens what runs through so many columns.
    Columns(u8),
    /// Opens what stands beside each other, with the share of the width that each part has.
    Beside(Vec<u8>),
    /// Opens what stands on pages that lie on their long side.
    Landscape,
    /// Opens what stays on one page.
    Together,
    /// Opens a step of a number.
    Step(u32),
    /// Closes what was opened last.
    Close,
    /// Puts in the contents under a heading.
    Contents(String),
    /// Puts in what has this name.
    Put(Insert),
}

/// What a template can put in by name, beside figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Insert {
    /// A safety message.
    Caution(String),
    /// Words of the specification, their steps counted from a number.
    Prose {
        /// Their name.
        name: String,
        /// The number of the first step.
        from: u32,
    },
    /// What was composed before: `exercise 3`, `answer 3`, `example`, `cards`.
    Piece(String),
}

impl Insert {
    /// What is said if nothing has this name.
    pub(super) fn missing(&self) -> String {
        match self {
            Self::Caution(name) => format!("there is no safety message `{name}`"),
            Self::Prose { name, .. } => format!("there are no words `{name}` to put in"),
            Self::Piece(name) => format!("there is no `{name}` to put in here"),
        }
    }
}

/// A stretch of a template, bytes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Stretch {
    /// Ordinary Markdown.
    Markdown(Range<usize>),
    /// The line of a command, without its end.
    Command(Range<usize>),
}

/// The stretches of a template in order; every byte but the ends of commands is in one of them.
pub(super) fn stretches(text: &str) -> Vec<Stretch> {
    let mut all = Vec::new();
    let (mut from, mut at) = (0, 0);
    for line in text.split_inclusive('\n') {
        if line.trim_start().starts_with("::") {
            if from < at {
                all.push(Stretch::Markdown(from..at));
            }
            all.push(Stretch::Command(at..at + line.trim_end().len()));
            from = at + line.len();
        }
        at += line.len();
    }
    if from < at {
        all.push(Stretch::Markdown(from..at));
    }
    all
}

/// The command of a line that begins with two colons.
///
/// # Errors
/// What is wrong with it: small first letter, no full stop.
pub(super) fn parse(line: &str) -> Result<Command, String> {
    if line.starts_with(char::is_whitespace) {
        return Err("a command stands at the beginning of its line".to_owned());
    }
    let line = unescaped(line.trim_end());
    if let Some(rest) = line.strip_prefix(":::") {
        return block(rest);
    }
    let rest = line.strip_prefix("::").unwrap_or(&line);
    let words: Vec<&str> = rest.split_whitespace().collect();
    match words.as_slice() {
        ["contents", heading @ ..] if !heading.is_empty() => {
            Ok(Command::Contents(heading.join(" ")))
        }
        ["caution", name] => Ok(Command::Put(Insert::Caution((*name).to_owned()))),
        ["prose", name] => Ok(Command::Put(Insert::Prose { name: (*name).to_owned(), from: 1 })),
        ["prose", name, "from", first] => match first.parse() {
            Ok(from) => Ok(Command::Put(Insert::Prose { name: (*name).to_owned(), from })),
            Err(_) => Err("steps count from a number, as in `:: prose NAME from 5`".to_owned()),
        },
        ["exercise" | "answer", _] | ["example" | "cards"] => {
            Ok(Command::Put(Insert::Piece(words.join(" "))))
        }
        [name @ ("columns" | "together" | "landscape" | "step"), ..] => {
            Err(format!("`{name}` has three colons, and ends with a line `:::`"))
        }
        ["contents" | "caution" | "prose" | "exercise" | "answer" | "example" | "cards", ..] => {
            Err(format!("this is written {}", SHAPES.join(", ")))
        }
        [name, ..] => Err(format!("there is no command `{name}`; there are {}", SHAPES.join(", "))),
        [] => Err(format!("a command has a name: {}", SHAPES.join(", "))),
    }
}

/// How commands of one line are written.
const SHAPES: [&str; 5] = [
    "`:: caution NAME`",
    "`:: prose NAME`",
    "`:: prose NAME from 5`",
    "`:: contents HEADING`",
    "`:: exercise 3`, `:: answer 3`, `:: example`, `:: cards`",
];

/// The command of a line after its three colons.
fn block(rest: &str) -> Result<Command, String> {
    let words: Vec<&str> = rest.split_whitespace().collect();
    match words.as_slice() {
        [] => Ok(Command::Close),
        ["together"] => Ok(Command::Together),
        ["landscape"] => Ok(Command::Landscape),
        ["step", number] => match number.parse() {
            Ok(number) => Ok(Command::Step(number)),
            Err(_) => Err("a step has a number, as in `::: step 3`".to_owned()),
        },
        ["columns", shares] if shares.contains(':') => match read_shares(shares) {
            Some(shares) => Ok(Command::Beside(shares)),
            None => Err("columns share the width as in `::: columns 2:1`: two to four numbers \
                         from 1 to 9"
                .to_owned()),
        },
        ["columns", count] => {
            match count.parse() {
                Ok(count @ 2..=4) => Ok(Command::Columns(count)),
                _ => Err("columns are `::: columns 2` to `::: columns 4`, or `::: columns 2:1`"
                    .to_owned()),
            }
        }
        _ => Err("three colons begin `::: columns 2`, `::: landscape`, `::: together` or \
                  `::: step 3`, and alone they end it"
            .to_owned()),
    }
}

/// The shares of columns, written `2:1`.
fn read_shares(text: &str) -> Option<Vec<u8>> {
    let shares: Vec<u8> = text.split(':').map(|share| share.parse().ok()).collect::<Option<_>>()?;
    let known = (2..=4).contains(&shares.len()) && shares.iter().all(|s| (1..=9).contains(s));
    known.then_some(shares)
}

/// A line without the backslashes before marks, which every value has that was filled in.
fn unescaped(line: &str) -> String {
    let mut out = String::with_capacity(line.len());
    let mut letters = line.chars().peekable();
    while let Some(letter) = letters.next() {
        match letters.peek() {
            Some(next) if letter == '\\' && next.is_ascii_punctuation() => {
                out.extend(letters.next());
            }
            _ => out.push(letter),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn commands_are_lines_by_themselves() {
        let text = "a\n:: cards\nb ::: c\n\n:::";
        let shown: Vec<(bool, &str)> = stretches(text)
            .into_iter()
            .map(|stretch| match stretch {
                Stretch::Markdown(range) => (false, &text[range]),
                Stretch::Command(range) => (true, &text[range]),
            })
            .collect();
        let wanted = [(false, "a\n"), (true, ":: cards"), (false, "b ::: c\n\n"), (true, ":::")];
        assert_eq!(shown, wanted);
        assert_eq!(stretches(""), []);
    }

    #[test]
    fn every_command_is_read() {
        let put = |insert| Ok(Command::Put(insert));
        assert_eq!(parse("::: columns 3"), Ok(Command::Columns(3)));
        assert_eq!(parse("::: columns 2:1"), Ok(Command::Beside(vec![2, 1])));
        assert_eq!(parse("::: landscape"), Ok(Command::Landscape));
        assert_eq!(parse("::: together  "), Ok(Command::Together));
        assert_eq!(parse(":::"), Ok(Command::Close));
        assert_eq!(parse(":: caution lock"), put(Insert::Caution("lock".into())));
        // What is filled in has backslashes.
        let prose = |from| Insert::Prose { name: "panel-1".into(), from };
        assert_eq!(parse(":: prose panel\\-1"), put(prose(1)));
        assert_eq!(parse(":: prose panel\\-1 from 7"), put(prose(7)));
        assert_eq!(parse(":: exercise 3"), put(Insert::Piece("exercise 3".into())));
        assert_eq!(parse(":: contents On these pages"), {
            Ok(Command::Contents("On these pages".into()))
        });
    }

    #[test]
    fn what_is_no_command_says_what_there_is() {
        for (line, wanted) in [
            (":: lock", "there is no command `lock`"),
            ("::", "a command has a name"),
            (":: columns 2", "`columns` has three colons"),
            ("::: columns", "three colons begin"),
            ("::: columns 5", "columns are `::: columns 2` to"),
            ("::: columns 2:0", "columns share the width as in"),
            (":: landscape", "`landscape` has three colons"),
            ("::: caution lock", "three colons begin"),
            (":: caution", "this is written `:: caution NAME`"),
            (":: prose a from b", "steps count from a number"),
            ("  :: cards", "a command stands at the beginning"),
        ] {
            let message = parse(line).expect_err(line);
            assert!(message.starts_with(wanted), "{line}: {message}");
        }
    }
}
