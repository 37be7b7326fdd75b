//! One word for one concept: words that no sheet, figure or exercise may use, each with the word that
//! the trade uses. The list is an edit of all texts; a text that needs one of them needs another
//! sentence.

use std::path::Path;

use crate::compile::demo;
use crate::oracle::words::says;

/// A word that is not used, and what is written in its place.
const NEVER: &[(&str, &str)] = &[
    ("dead", "not used; its pins can be live"),
    ("idle", "unused"),
    ("tub", "spa"),
    ("hot tub", "spa"),
    ("house", "building"),
    ("pack", "control box"),
    ("landed", "connected"),
    ("lands", "connects"),
    ("fitted", "installed"),
    ("colour", "color"),
    ("colours", "colors"),
    ("coloured", "colored"),
    ("grey", "gray"),
    ("earth", "ground"),
    ("mains", "supply, or line"),
    ("plate", "nameplate"),
    ("plates", "nameplates"),
    ("socket", "header"),
    ("sockets", "headers"),
    ("way", "switch"),
    ("ways", "switches"),
    ("push home", "push fully on"),
    ("runs hot", "overheats"),
    ("slip", "mistake"),
    ("trap", "mistake"),
    ("tempts", "the mistake behind it"),
    ("comes of", "is the effect of"),
    ("hangs on", "is connected to"),
    ("beside the heater", "with the heater on"),
    ("lead", "jumper, or wire"),
    ("leads", "jumpers, or wires"),
    ("legend", "printed name, or how to read the plan"),
    ("left over", "remaining"),
    ("never leave it off", "connect the ground wire"),
    ("lid closed", "cover closed"),
    ("the other box", "the other control box"),
];

/// The words of a template or of a file of phrases: without comments, commands, placeholders and
/// where links lead.
fn shown(name: &str, line: &str) -> String {
    let phrases = name.ends_with(".ftl");
    if line.trim_start().starts_with(if phrases { "#" } else { ":" }) || line.starts_with("# ") {
        // The headings of the safety messages are their names; those of sections are looked at.
        if phrases || line.starts_with(':') || name == "cautions.md" {
            return String::new();
        }
    }
    let line = match line.split_once(" = ") {
        Some((key, text)) if phrases && !key.starts_with(' ') => text,
        _ => line,
    };
    let mut out = String::new();
    let (mut depth, mut target) = (0_usize, false);
    let mut before = ' ';
    for c in line.chars() {
        match c {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            '(' if before == ']' => target = true,
            ')' if target => target = false,
            // A phrase's choice begins with its key: `[few] switches`.
            _ if depth == 0 && !target => out.push(c),
            _ => {}
        }
        before = c;
    }
    out
}

/// What is found in a text, with the better word.
fn found(text: &str) -> Vec<String> {
    let text = text.to_lowercase();
    let hit = NEVER.iter().filter(|(word, _)| says(&text, word));
    hit.map(|(word, better)| format!("`{word}`: write {better}")).collect()
}

#[test]
fn no_template_and_no_phrase_uses_a_word_that_means_something_else() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/en");
    let (mut lines, mut faults) = (0, Vec::new());
    for entry in std::fs::read_dir(folder).expect("it is there") {
        let path = entry.expect("it can be read").path();
        let name = path.file_name().expect("it has a name").to_string_lossy().into_owned();
        let text = std::fs::read_to_string(&path).expect("it is text");
        for (number, line) in text.lines().enumerate() {
            lines += 1;
            for hit in found(&shown(&name, line)) {
                faults.push(format!("{name}:{}: {hit}", number + 1));
            }
        }
    }
    assert!(lines > 1500, "{lines} lines");
    faults.sort();
    assert_eq!(faults, [""; 0]);
}

/// The words that the demo boards bring with them are held to the same list.
#[test]
fn no_demo_board_uses_one_either() {
    for name in demo::BOARDS {
        let board = demo::board(name);
        let mut texts = vec![board.about.summary.clone()];
        texts.extend(board.panels.iter().map(|p| p.title.clone()));
        texts.extend(board.panels.iter().filter_map(|p| p.choose_layout.clone()));
        texts.extend(board.headers.iter().map(|header| header.title.clone()));
        texts.extend(board.supplies.iter().map(|supply| supply.title.clone()));
        texts.extend(board.sockets.iter().map(|socket| socket.title.clone()));
        for setting in board.banks.iter().flat_map(|b| &b.fields).flat_map(|f| &f.settings) {
            if let lidsheet::board::Meaning::Words(words) = &setting.meaning {
                texts.push(words.clone());
            }
        }
        let hits: Vec<String> = texts.iter().flat_map(|text| found(text)).collect();
        assert_eq!(hits, [""; 0], "{name}");
    }
}

#[test]
fn what_is_shown_of_a_line_is_looked_at_and_nothing_else() {
    assert_eq!(shown("a.ftl", "no_way = a { $way } here"), "a  here");
    assert_eq!(shown("a.md", "see [the plan](#socket-J1) {{ way.plate }}"), "see [the plan] ");
    assert_eq!(found("a dead header").len(), 1);
    assert_eq!(found("a deadline"), [""; 0]);
}
