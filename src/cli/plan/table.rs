//! Plain tables and paragraphs for a terminal of 80 columns.

/// What a line may hold.
const WIDTH: usize = 80;
/// Between two columns.
const GAP: usize = 2;

/// A heading and rows of as many cells. Columns are as wide as what they hold; where all of them are
/// too wide together, the widest is broken into lines, again and again until they fit.
pub fn table(head: &[&str], rows: &[Vec<String>]) -> String {
    let head: Vec<String> = head.iter().map(|word| (*word).to_owned()).collect();
    let mut widths: Vec<usize> = Vec::new();
    for row in std::iter::once(&head).chain(rows) {
        for (index, cell) in row.iter().enumerate() {
            match widths.get_mut(index) {
                Some(width) => *width = (*width).max(length(cell)),
                None => widths.push(length(cell)),
            }
        }
    }
    let room = WIDTH.saturating_sub(GAP * (widths.len().saturating_sub(1)));
    while widths.iter().sum::<usize>() > room {
        match widths.iter_mut().max() {
            Some(widest) if *widest > 1 => *widest -= 1,
            _ => break,
        }
    }
    let mut out = line(&head, &widths);
    for row in rows {
        out.push_str(&line(row, &widths));
    }
    out
}

/// One row, as many lines as its highest cell needs.
fn line(cells: &[String], widths: &[usize]) -> String {
    let broken: Vec<Vec<String>> =
        cells.iter().zip(widths).map(|(cell, width)| wrap(cell, *width)).collect();
    let height = broken.iter().map(Vec::len).max().unwrap_or(0);
    let mut out = String::new();
    for at in 0..height {
        let mut text = String::new();
        let mut column = 0;
        for (lines, width) in broken.iter().zip(widths) {
            let here = lines.get(at).map_or("", String::as_str);
            text.push_str(&" ".repeat(usize::saturating_sub(column, length(&text))));
            text.push_str(here);
            column += width + GAP;
        }
        out.push_str(text.trim_end());
        out.push('\n');
    }
    out
}

/// A text in lines of at most 80 columns, all of them moved in by `indent`.
pub fn paragraph(text: &str, indent: usize) -> String {
    let space = " ".repeat(indent);
    wrap(text, WIDTH.saturating_sub(indent)).iter().map(|line| format!("{space}{line}\n")).collect()
}

/// A text behind a mark; lines after the first stand under its beginning.
pub fn columns(mark: &str, text: &str) -> String {
    let indent = length(mark);
    let lines = wrap(text, WIDTH.saturating_sub(indent));
    let line = |(at, line): (usize, &String)| match at {
        0 => format!("{mark}{line}\n"),
        _ => format!("{}{line}\n", " ".repeat(indent)),
    };
    lines.iter().enumerate().map(line).collect()
}

/// Lines of at most `width`, broken between words; a word that is longer is broken, too. A number
/// and its unit stay together.
fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = vec![String::new()];
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        let mut word: Vec<char> = word.chars().collect();
        loop {
            let last = lines.last().map_or(0, |line| length(line));
            let space = usize::from(last > 0);
            if last + space + word.len() <= width || (last == 0 && word.len() <= 1) {
                break;
            }
            if last > 0 {
                lines.push(String::new());
            } else {
                let rest = word.split_off(width.clamp(1, word.len()));
                lines.pop();
                lines.push(word.into_iter().collect());
                lines.push(String::new());
                word = rest;
            }
        }
        if let Some(line) = lines.last_mut() {
            if !line.is_empty() {
                line.push(' ');
            }
            line.extend(word);
        }
    }
    lines
}

fn length(text: &str) -> usize {
    text.chars().count()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn columns_stand_in_line() {
        let rows =
            [vec!["J1".to_owned(), "240\u{a0}V".to_owned()], vec![String::new(), "-".into()]];
        assert_eq!(
            table(&["header", "gets"], &rows),
            "header  gets\nJ1      240\u{a0}V\n        -\n"
        );
    }

    #[test]
    fn a_long_word_is_broken() {
        assert_eq!(wrap("a bbbbb c", 3), ["a", "bbb", "bb", "c"]);
        assert_eq!(wrap("", 3), [""]);
    }

    proptest! {
        /// No line is too long, and no character that is not a space is lost.
        #[test]
        fn whatever_it_holds_a_table_fits(
            rows in prop::collection::vec(prop::collection::vec("[a-z ]{0,70}", 4), 0..4),
        ) {
            let text = table(&["one", "two", "three", "four"], &rows);
            prop_assert!(text.lines().all(|line| length(line) <= WIDTH), "{}", text);
            let letters = |text: &str| text.chars().filter(|c| c.is_alphabetic()).count();
            let all: usize = rows.iter().flatten().map(|cell| letters(cell)).sum();
            prop_assert_eq!(letters(&text), all + "onetwothreefour".len());
        }
    }
}
