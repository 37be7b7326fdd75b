//! A language that nobody speaks, made from the English files: every letter that English could have
//! brought is another one, and everything is longer. All sheets are built in it, so that no word can
//! come from elsewhere than from the files of a language.

use std::collections::BTreeSet;
use std::path::Path;

use fluent_syntax::ast::{Entry, Expression, InlineExpression, Pattern, PatternElement};
use fluent_syntax::{parser, serializer};
use lidsheet::board::{Board, Meaning};
use lidsheet::compile::{Content, SheetKind, job_pages};
use lidsheet::decide::exercises::exercises;
use lidsheet::diagnostic::Problems;
use lidsheet::page::{Pages, Paper, lay_out};
use lidsheet::sheet::{
    Course, Templates, answer_sheet, course_cards, course_handout, figures, intake_form,
    wiring_sheets,
};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::write::pdf;

use crate::compile::{self, demo};
use crate::readers::reading;

/// Other letters, none of English: those that the font has as letters of their own.
fn foreign(text: &str) -> String {
    const ENGLISH: &str = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";
    const OTHER: &str = "\u{e5}\u{fe}\u{e7}\u{f0}\u{e9}\u{fe}\u{11f}\u{127}\u{ee}\u{ef}\u{137}\u{142}\u{f1}\u{f1}\u{f8}\u{fe}\u{153}\u{159}\u{161}\u{165}\u{fc}\u{fb}\u{175}\u{17e}\u{fd}\u{17e}\u{c5}\u{de}\u{c7}\u{d0}\u{c9}\u{de}\u{11e}\u{126}\u{ce}\u{cf}\u{136}\u{141}\u{d1}\u{d1}\u{d8}\u{de}\u{152}\u{158}\u{160}\u{164}\u{dc}\u{db}\u{174}\u{17d}\u{dd}\u{17d}";
    let other = |c: char| ENGLISH.find(c).and_then(|at| OTHER.chars().nth(at)).unwrap_or(c);
    text.chars().map(other).collect()
}

/// Two letters for five: 40 % more.
fn filler(text: &str) -> String {
    let letters = text.chars().filter(|c| c.is_alphabetic()).count();
    "ø".repeat((letters * 2).div_ceil(5))
}

/// A phrase in brackets and longer, with all its values where they were.
fn pattern(found: &mut Pattern<String>, outermost: bool) {
    let mut added = String::new();
    for element in &mut found.elements {
        match element {
            PatternElement::TextElement { value } => {
                added.push_str(&filler(value));
                *value = foreign(value);
            }
            PatternElement::Placeable { expression: Expression::Select { variants, .. } } => {
                variants.iter_mut().for_each(|variant| pattern(&mut variant.value, false));
            }
            PatternElement::Placeable {
                expression: Expression::Inline(InlineExpression::StringLiteral { value }),
            } if !value.starts_with('\\') => *value = foreign(value),
            PatternElement::Placeable { .. } => {}
        }
    }
    if outermost {
        found.elements.insert(0, PatternElement::TextElement { value: "\u{ab}".to_owned() });
        let end = format!("{added}\u{bb}");
        found.elements.push(PatternElement::TextElement { value: end });
    }
}

fn phrases(text: &str) -> String {
    let mut resource = parser::parse(text.to_owned()).expect("English can be read");
    for entry in &mut resource.body {
        let Entry::Message(message) = entry else { continue };
        match message.id.name.as_str() {
            // The tag that BCP 47 users have for such languages.
            "language_tag" => {
                let tag = PatternElement::TextElement { value: "en-XA".to_owned() };
                message.value = Some(Pattern { elements: vec![tag] });
            }
            "decimal_mark" => {}
            _ => message.value.iter_mut().for_each(|value| pattern(value, true)),
        }
        message.attributes.iter_mut().for_each(|attribute| pattern(&mut attribute.value, true));
    }
    serializer::serialize(&resource)
}

/// A template with other letters, but for what is no word: placeholders, destinations, commands,
/// keys and signal words.
fn template(name: &str, text: &str) -> String {
    let mut out = String::new();
    for line in text.split_inclusive('\n') {
        let key = [
            "title:",
            "subtitle:",
            "head left:",
            "head right:",
            "foot:",
            "page of:",
            "Table:",
            "Form:",
            "Summary:",
            "Matrix:",
        ]
        .into_iter()
        .find(|key| line.starts_with(key));
        let kept = if name == "cautions.md" && line.starts_with("# ") {
            line.len()
        } else if let Some(rest) = line.strip_prefix(":: contents") {
            line.len() - rest.len()
        } else if line.starts_with("::") {
            line.len()
        } else {
            key.map_or(0, str::len)
        };
        out.push_str(&line[..kept]);
        words(&line[kept..], &mut out);
    }
    out
}

fn words(line: &str, out: &mut String) {
    let mut rest = line;
    let stops: [(&str, &str); 10] = [
        ("{{", "}}"),
        ("{%", "%}"),
        ("{#", "#}"),
        ("](", ")"),
        ("**DANGER", "**"),
        ("**WARNING", "**"),
        ("**CAUTION", "**"),
        ("**NOTICE", "**"),
        ("{n", "}"),
        ("{m", "}"),
    ];
    loop {
        let next = stops
            .iter()
            .filter_map(|(open, close)| {
                let start = rest.find(open)?;
                let inside = start + open.len();
                Some((start, inside + rest[inside..].find(close)? + close.len()))
            })
            .min();
        let Some((start, end)) = next else {
            out.push_str(&foreign(rest));
            return;
        };
        out.push_str(&foreign(&rest[..start]));
        match (rest[start..end].starts_with("]("), rest[start..end].split_once(" \"")) {
            // A picture's caption: words behind its destination.
            (true, Some((destination, caption))) => {
                out.push_str(destination);
                out.push_str(" \"");
                words(caption, out);
            }
            _ => placeholder(&rest[start..end], out),
        }
        rest = &rest[end..];
    }
}

/// What stands in quotes in a placeholder is a word of the file if it is what is shown: at its
/// beginning, behind `or` or `else`, or between the things of a list. Everything else is compared.
fn placeholder(text: &str, out: &mut String) {
    let mut quoted = false;
    for piece in text.split_inclusive('"') {
        let before = out.trim_end_matches('"').trim_end();
        let shown = ["{{", "or", "else", "join("].iter().any(|end| before.ends_with(end));
        out.push_str(&if quoted && shown { foreign(piece) } else { piece.to_owned() });
        quoted = !quoted;
    }
}

/// The files of the language by their names.
pub fn files() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/en");
    let entries = std::fs::read_dir(folder).expect("it is there");
    let mut files: Vec<_> = entries
        .map(|entry| {
            let path = entry.expect("it can be read").path();
            let name = path.file_name().expect("it has a name").to_string_lossy().into_owned();
            let text = std::fs::read_to_string(&path).expect("it is text");
            let text = if name.ends_with(".ftl") { phrases(&text) } else { template(&name, &text) };
            (name, text)
        })
        .collect();
    files.sort();
    files
}

fn language(sources: &mut Sources) -> Templates {
    let files = files();
    let files: Vec<_> = files
        .iter()
        .map(|(name, text)| (name.as_str(), sources.add(name.clone(), text.as_str()), text.clone()))
        .collect();
    let mut templates = Templates::built_in(sources);
    let mut problems = Problems::default();
    if templates.take_language(&files, &mut problems).is_err() {
        panic!("{}", compile::told(&problems.sorted(), sources));
    }
    templates
}

/// Runs of two and more English letters, but for those in capitals alone: the codes of a drawing,
/// which run together where its words are read. A capital begins a word for the same reason.
fn english_words(text: &str) -> BTreeSet<String> {
    let mut apart = String::new();
    let mut ahead = text.chars().skip(1);
    for c in text.chars() {
        let before_small = ahead.next().is_some_and(char::is_lowercase);
        let ends_word = apart.ends_with(char::is_lowercase);
        if c.is_uppercase() && (ends_word || before_small) {
            apart.push(' ');
        }
        apart.push(c);
    }
    apart
        .split(|c: char| !c.is_alphabetic())
        .filter(|w| w.len() > 1 && w.bytes().all(|b| b.is_ascii_alphabetic()))
        .filter(|w| w.bytes().any(|b| b.is_ascii_lowercase()))
        .map(str::to_owned)
        .collect()
}

/// The words that a board brings with it, and what is no word: units, letters of conductors and
/// colours, standards, and what stands in quotes in the placeholders of templates.
pub fn allowed(board: &Board) -> BTreeSet<String> {
    let mut texts: Vec<&str> = vec!["V A W Hz mm m ft hp kW AWG PE ASME Y IEC IEEE"];
    let about = &board.about;
    texts.extend(
        [&about.name, &about.maker, &about.part, &about.revision, &about.summary]
            .map(String::as_str),
    );
    for part in &board.parts {
        texts.push(&part.name);
        texts.extend(part.title.as_deref());
    }
    texts.extend(board.terminals.iter().map(|it| it.code.as_str()));
    texts.extend(board.supplies.iter().flat_map(|it| [it.name.as_str(), it.title.as_str()]));
    texts.extend(board.groups.iter().map(|it| it.code.as_str()));
    texts.extend(board.jumpers.iter().map(|it| it.code.as_str()));
    texts.extend(board.headers.iter().flat_map(|it| [it.code.as_str(), it.title.as_str()]));
    texts.extend(board.sockets.iter().map(|it| it.title.as_str()));
    texts.extend(board.fuses.iter().filter_map(|it| it.speed.as_deref()));
    texts.extend(board.panels.iter().flat_map(|it| [&*it.name, &*it.title]));
    texts.extend(board.panels.iter().filter_map(|it| it.choose_layout.as_deref()));
    let positions = board.selectors.iter().flat_map(|it| &it.positions);
    texts.extend(positions.map(|it| it.name.as_str()));
    texts.extend(board.selectors.iter().map(|it| it.code.as_str()));
    for field in board.banks.iter().flat_map(|bank| &bank.fields) {
        if let Some(lidsheet::board::Effect::Titled(words)) = &field.effect {
            texts.push(words);
        }
        texts.extend(field.settings.iter().filter_map(|setting| match &setting.meaning {
            Meaning::Words(words) => Some(words.as_str()),
            Meaning::Allowance(_) | Meaning::Layout(_) => None,
        }));
    }
    let mut all: BTreeSet<String> = texts.into_iter().flat_map(english_words).collect();
    let own = board.devices.iter().map(|own| own.device.to_string());
    all.extend(own.flat_map(|word| english_words(&word)));
    // A part without a title is called by its name with a capital.
    all.extend(board.parts.iter().map(|part| lidsheet::english::capital(&part.name)));
    all
}

/// Everything that a PDF says, shows or describes.
pub fn said(pages: &Pages) -> Vec<String> {
    let reading = reading::read(&pdf(pages).expect("a sound PDF"));
    let mut all: Vec<String> = reading.said.into_iter().map(|said| said.text).collect();
    all.extend(reading.decoration);
    all.extend(reading.alternatives);
    all.extend(reading.bookmarks.into_iter().map(|(_, title)| title));
    all
}

#[track_caller]
fn check(name: &str, texts: &[String], allowed: &BTreeSet<String>) {
    let foreign = texts.iter().filter(|text| text.contains('\u{ab}')).count();
    assert!(foreign > 3, "{name}: hardly a phrase is there");
    for text in texts {
        let words = english_words(text);
        // The lines of a figure are read without a space between them.
        let two = |word: &str| {
            (1..word.len())
                .any(|at| [&word[..at], &word[at..]].iter().all(|w| allowed.contains(*w)))
        };
        let left: Vec<&String> = words.difference(allowed).filter(|word| !two(word)).collect();
        assert!(left.is_empty(), "{name}: {left:?} in {text:?}");
    }
}

#[test]
fn wiring_sheets_and_forms() {
    let mut set = Typesetter::new();
    for name in demo::BOARDS {
        let board = demo::board(name);
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let templates = language(&mut sources);
        let mut allowed = allowed(&board);
        let drawn = figures(&board, templates.words(), &mut set, Paper::A4);
        for figure in &drawn {
            let texts = [figure.scene.title.clone(), figure.scene.description.clone()];
            for text in texts {
                let left: Vec<_> = english_words(&text).difference(&allowed).cloned().collect();
                assert!(left.is_empty(), "{name}, {}: {left:?} in {text:?}", figure.name);
            }
        }
        let sheets = wiring_sheets(&board, &drawn, &templates, Paper::A4, &mut problems)
            .expect("they are made");
        assert_eq!(sheets.language, "en-XA");
        check(name, &said(&lay_out(&sheets, Paper::A4, &mut set)), &allowed);
        // The form is to be copied into a job file, so it has the words of that file.
        let keys = "job for board breaker supply run length conductor panel marked minimum circuit \
                    ampacity largest equipment device pump circulation blower ozonator light sound \
                    heater speeds volts amps low high yaml copper rules nec iec power factor watts";
        allowed.extend(english_words(keys));
        allowed.extend(english_words(name));
        let form = intake_form(&board, &format!("{name}.yaml"), &templates, &mut problems);
        check(name, &said(&lay_out(&form.expect("it is made"), Paper::A4, &mut set)), &allowed);
    }
}

#[test]
fn work_cards_and_lid_inserts() {
    let mut set = Typesetter::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/jobs");
    let mut general = Problems::default();
    let mut made = 0;
    for checked in lidsheet::build::check(&[folder], &mut general) {
        let Content::Job(Some(planned)) = checked.content else { panic!("{}", checked.shown) };
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let templates = language(&mut sources);
        let mut made_of = |kind| {
            let look = (&templates, Paper::A4);
            job_pages(&planned, kind, look, &mut set, &mut problems).map(Option::unwrap)
        };
        let [card, insert, finder] =
            [SheetKind::WorkCard, SheetKind::LidInsert, SheetKind::FaultFinder].map(&mut made_of);
        let mut allowed = allowed(&planned.board);
        allowed.extend(english_words(&planned.job.name));
        allowed.extend(planned.job.customer.iter().flat_map(|customer| english_words(customer)));
        check(&checked.shown, &said(&card.expect("it is made")), &allowed);
        check(&checked.shown, &said(&finder.expect("it is made")), &allowed);
        // A longer language may leave the plan no room, which is told; what is made is foreign.
        let Ok(insert) = insert else { continue };
        made += 1;
        check(&checked.shown, &said(&insert), &allowed);
    }
    assert!(made >= 3, "{made}");
}

#[test]
fn courses() {
    let mut set = Typesetter::new();
    for name in demo::BOARDS {
        let board = demo::board(name);
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let templates = language(&mut sources);
        let allowed = allowed(&board);
        let all = exercises(&board, 14, 3);
        let course = Course { board: &board, exercises: &all, seed: 3 };
        let paper = Paper::A4;
        let handout = course_handout(&course, &mut set, paper, &templates, &mut problems);
        check(name, &said(&lay_out(&handout.expect("made"), paper, &mut set)), &allowed);
        let answers = answer_sheet(&course, &mut set, paper, &templates, &mut problems);
        check(name, &said(&lay_out(&answers.expect("made"), paper, &mut set)), &allowed);
        let density = lidsheet::document::Density::Roomy;
        let room = (paper.card(density), density);
        let cards = course_cards(&course, &mut set, room, &templates, &mut problems);
        check(name, &said(&lay_out(&cards.expect("made"), paper, &mut set)), &allowed);
    }
}
