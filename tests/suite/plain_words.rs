//! Our own sheets are easy to read: every section reads at grade 8 or below by the formula of
//! Flesch and Kincaid (see `lidsheet::reading`), and no sentence has more than 25 words.
#![allow(clippy::print_stdout)] // What was measured is told to who runs it with `--nocapture`.

use crate::compile::{self, prose};
use lidsheet::diagnostic::{Code, Problem, Problems};
use lidsheet::reading::{
    Counts, HIGHEST_GRADE, LONGEST_SENTENCE, ReadingLanguage, flesch, grade, sentences, syllables,
};
use lidsheet::sheet::{Templates, intake_form};
use lidsheet::source::Sources;
use lidsheet::words::Language;

const OWN: &[&str] = &[
    "front",
    "supply",
    "voltages",
    "layouts",
    "switches",
    "sockets",
    "panel",
    "changes",
    "intake",
    "work-card",
    "lid-insert",
    "fault-finder",
];

/// Those of a course.
pub const COURSE: [&str; 6] = ["handout", "answers", "cards", "exercise", "answer", "example"];

#[test]
fn every_section_of_our_own_reads_at_grade_8_or_below() {
    let (sheets, _) = prose::sheets(&[]);
    let (mut hard, mut measured) = (Vec::new(), 0);
    for sheet in &sheets {
        let mut whole = Counts::default();
        let mut judge = |title: &str, counts: Counts| {
            let shown = |value: Option<f64>| value.unwrap_or(f64::NAN);
            let line = format!(
                "{}: {title}: {} words, ease {:.1}, grade {:.1}",
                sheet.name,
                counts.words,
                shown(flesch(counts)),
                shown(grade(counts))
            );
            println!("{line}");
            measured += usize::from(counts.enough());
            if counts.hard() {
                hard.push(line);
            }
        };
        // The same of its insert: a list of twenty headers reads as one hard sentence.
        if sheet.name.starts_with("2241") {
            continue;
        }
        for section in &sheet.sections {
            judge(&section.title, section.counts());
            whole = whole + section.counts();
        }
        // Sections of a few words are measured together with the others of their sheet.
        judge("all of it", whole);
        assert!(whole.words > 150, "{}: only {} words", sheet.name, whole.words);
    }
    assert!(measured > 100, "{measured} texts of enough words");
    assert!(hard.is_empty(), "above grade {HIGHEST_GRADE}:\n{}", hard.join("\n"));
}

/// The lowest ease of a section and of a whole sheet in each language, by its own formula. German and Spanish
/// have long words for what English says in short ones; nobody but a translator who knows the trade can say it
/// in shorter ones, and may raise these.
const EASE: [(&str, f64, f64); 3] = [("de", 42.0, 50.0), ("es", 43.0, 50.0), ("fr", 52.0, 60.0)];

#[test]
fn sheets_in_other_languages_keep_to_their_ease() {
    let mut hard = Vec::new();
    for (tag, section_least, sheet_least) in EASE {
        let language = Language::of_tag(tag).expect("it is compiled in");
        let reads_as = ReadingLanguage::of_tag(tag).expect("it has a formula");
        let mut measured = 0;
        for sheet in prose::sheets_in(language, &[]).0 {
            // The lists of the board of forty headers are one sentence each.
            if sheet.name.starts_with("2241") {
                continue;
            }
            let mut judge = |title: &str, counts: Counts, least: f64| {
                let Some(ease) = reads_as.ease(counts).filter(|_| counts.enough()) else { return };
                measured += 1;
                let line = format!("{tag} {}: {title}: ease {ease:.1} of {least}", sheet.name);
                println!("{line}");
                if ease < least {
                    hard.push(line);
                }
            };
            let mut whole = Counts::default();
            for section in &sheet.sections {
                let counts = section.counts_in(reads_as);
                judge(&section.title, counts, section_least);
                whole = whole + counts;
            }
            judge("all of it", whole, sheet_least);
        }
        assert!(measured > 100, "{tag}: {measured} texts of enough words");
    }
    assert!(hard.is_empty(), "{}", hard.join("\n"));
}

#[test]
fn no_sentence_of_our_own_is_long() {
    let mut long = Vec::new();
    let mut all = 0;
    for sheet in prose::sheets(&[]).0 {
        // The sheets of the board of forty headers list them in a row: a list is no sentence.
        if sheet.name.starts_with("plover-40") || sheet.name.starts_with("2241") {
            continue;
        }
        for text in sheet.sections.iter().flat_map(|section| &section.texts) {
            for sentence in sentences(text) {
                all += 1;
                let words = sentence.words().count();
                if words > LONGEST_SENTENCE {
                    long.push(format!("{}: {words} words: {}", sheet.name, sentence.text));
                }
            }
        }
    }
    assert!(all > 1000, "{all} sentences");
    assert!(long.is_empty(), "{}", long.join("\n"));
}

/// The templates that are compiled in would be silent as a user's own, too; those of a course are
/// tried in `handout.rs`.
#[test]
fn our_own_templates_have_no_long_sentence() {
    let mut known: Vec<String> =
        OWN.iter().chain(&COURSE).map(|name| format!("{name}.md")).collect();
    known.sort();
    let mut there: Vec<String> =
        Templates::built_in(&mut Sources::default()).file_names().collect();
    there.sort();
    assert_eq!(known, there, "each template is tried");
    let root = concat!(env!("CARGO_MANIFEST_DIR"), "/templates/en");
    let own: Vec<(String, String)> = OWN
        .iter()
        .map(|name| {
            let text = std::fs::read_to_string(format!("{root}/{name}.md")).expect("it is there");
            (format!("{name}.md"), text)
        })
        .collect();
    let own: Vec<(&str, String)> = own.iter().map(|(n, t)| (n.as_str(), t.clone())).collect();
    let (_, problems) = prose::sheets(&own);
    let told: Vec<Problem> = problems.sorted();
    assert!(told.is_empty(), "{told:#?}");
}

/// The place and message of every long sentence of an intake form made with this template.
fn long_sentences(template: &str) -> Vec<(usize, String, String)> {
    let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/specs/heron-8.yaml"))
        .expect("it is there");
    let board = compile::sound(&text);
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let mut templates = Templates::built_in(&mut sources);
    let file = sources.add("mine/intake.md", template);
    assert!(templates.replace("intake.md", file, template));
    intake_form(&board, "heron-8.yaml", &templates, &mut problems).expect("it can be used");
    problems
        .sorted()
        .into_iter()
        .map(|problem| {
            assert_eq!(problem.code, Code::LongTemplateSentence);
            let span = problem.primary.expect("it has a place").span;
            let line = sources.file(span.file).position(span.start).0;
            (line, sources.text(span).to_owned(), problem.message)
        })
        .collect()
}

#[test]
fn a_long_sentence_of_a_users_own_template_is_marked_there() {
    let words = |count: usize| vec!["word"; count].join(" ");
    // 25 are silent, 26 are not.
    assert_eq!(long_sentences(&format!("# A\n\nShort. {}.\n", words(25))), []);
    let long = format!("{}.", words(26));
    let told = "a sentence of the template has 26 words".to_owned();
    assert_eq!(
        long_sentences(&format!("title: A\n\n# B\n\nShort. {long} Short.\n")),
        [(5, long.clone(), told.clone())]
    );
    // In an item, a quotation, a branch and after a value with marks; not in a heading, a table or
    // the words of a figure.
    let template = format!(
        "# {w}\n\n- {long}\n\n> **WARNING** {long}\n\n{{% if board %}}\nIt is {{{{ board.name }}}}! \
         {long}\n{{% endif %}}\n\nTable: {w}\n| a |\n|:--|\n| {w} |\n",
        w = words(30),
    );
    let found = long_sentences(&template);
    let lines: Vec<usize> = found.iter().map(|(line, ..)| *line).collect();
    assert_eq!(lines, [3, 5, 8], "{found:?}");
    assert!(found.iter().all(|(_, text, message)| *text == long && *message == told), "{found:?}");
}

/// It is the template that is judged, whatever the board holds.
#[test]
fn what_is_filled_in_counts_once() {
    let looped = "Do it at {% for d in form.devices %}{{ d.device }} and at {% endfor %}the end.\n";
    // do it at, a placeholder, and at, the end: 8 words, but more in the sheet.
    assert_eq!(long_sentences(looped), []);
    let pad = |count: usize| vec!["word"; count].join(" ");
    assert_eq!(long_sentences(&format!("{} {looped}", pad(17))), []);
    let found = long_sentences(&format!("{} {looped}", pad(18)));
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].2, "a sentence of the template has 26 words");
    assert!(found[0].1.ends_with("the end."), "{found:?}");
}

#[test]
fn every_word_of_the_sheets_has_a_believable_count() {
    for sheet in prose::sheets(&[]).0 {
        for text in sheet.sections.iter().flat_map(|section| &section.texts) {
            for word in sentences(text).iter().flat_map(|sentence| sentence.words()) {
                let count = syllables(word);
                assert!((1..=8).contains(&count), "{word}: {count}");
            }
        }
    }
}

/// What is said of an intake form made with this template.
fn refused(template: &str) -> Vec<String> {
    let board = compile::sound(include_str!("../version-1/heron-8.yaml"));
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let mut templates = Templates::built_in(&mut sources);
    let file = sources.add("mine/intake.md", template);
    assert!(templates.replace("intake.md", file, template));
    assert!(intake_form(&board, "heron-8.yaml", &templates, &mut problems).is_err());
    let told = problems.sorted();
    told.iter()
        .map(|problem| format!("{} {}", problem.place(&sources).0, problem.message))
        .collect()
}

/// Small templates that would fill the memory are stopped, and named.
#[test]
fn a_template_that_makes_too_much_text_is_stopped() {
    let line = "words and words\n".repeat(64);
    // 80 MiB in the open: 80 thousand lines of a thousand bytes, few steps.
    let large = format!("{{% for i in range(80000) %}}{line}{{% endfor %}}");
    assert_eq!(refused(&large), ["mine/intake.md the template makes more than 64 MiB of text"]);
    let too_many = "mine/intake.md the template takes too many steps, or makes too much text";
    // Far more, and the same within a macro, where nothing is shown before all is made.
    let endless = format!(
        "{{% for i in range(10000) %}}{{% for j in range(10000) %}}{line}{{% endfor %}}{{% endfor %}}"
    );
    assert_eq!(refused(&endless), [too_many]);
    let within = format!("{{% macro all() %}}{endless}{{% endmacro %}}{{{{ all() }}}}");
    assert_eq!(refused(&within), [too_many]);
    // Each doubles what the one below it makes, as deep as macros may call each other.
    let doubling = "{% macro twice(n) %}{% if n > 0 %}{{ twice(n - 1) }}{{ twice(n - 1) }}{% else %}words\
                    {% endif %}{% endmacro %}{{ twice(40) }}";
    assert_eq!(refused(doubling), ["mine/intake.md the template cannot be filled"]);
    let double = "{% set a = a ~ a %}".repeat(40);
    assert_eq!(
        refused(&format!("{{% set a = 'words and words' %}}{double}{{{{ a }}}}")),
        [too_many]
    );
}
