//! The counts of `lidsheet::reading` against another program's: the PyPI package `textstat`, version
//! 0.7.3, which finds syllables with the hyphenation patterns of `pyphen`. It needs Python, so it is
//! left out unless it is asked for; `tests/all` asks for it wherever the package is there, and says
//! where it is not.
//!
//! Where the two differ on the sheets' own text, by rule and not by mistake:
//!
//! - **Rounding.** textstat rounds the two averages to one decimal before the formulas take them. Fed
//!   with those averages our formulas give its values to its last digit, but that it rounds a grade
//!   below zero one digit too far down.
//! - **Words.** None: every text has the same number.
//! - **Sentences.** textstat leaves out those of one or two words (`See Voltages.`), ends one at a
//!   decimal point (`1.4 A`) and none at a semicolon.
//! - **Syllables.** textstat counts the places where a word may be hyphenated. A typesetter parts no
//!   single letter and not every syllable, so it counts fewer: `heater`, `jumper`, `open`, `away`,
//!   `many`, `colours` 1 instead of 2, `allowance`, `equipment`, `devices`, `voltages` 2 instead of 3,
//!   `electrician` 3 and `ozonator` 2 instead of 4. It counts every figure and code as one: `240` and
//!   `J5` are 3 and 2 with us, `AWG` 5, `mm²` 6 ("square millimetre"). All words of the sheets on
//!   which the two agree or differ were looked through by hand.
#![allow(clippy::print_stdout)] // What was compared is told to who runs it with `--nocapture`.

use std::collections::BTreeMap;
use std::io::Write as _;
use std::process::{Command, Stdio};

use crate::compile::prose;
use lidsheet::reading::{Counts, ReadingLanguage, count, flesch, grade, sentences, syllables};
use lidsheet::words::Language;
use serde_json::{Value, json};

const SCRIPT: &str = "
import json, sys
from textstat import textstat
asked = json.load(sys.stdin)
if 'language' in asked:
    textstat.set_lang(asked['language'])
def measured(text):
    return [textstat.lexicon_count(text), textstat.sentence_count(text), textstat.syllable_count(text),
            textstat.flesch_reading_ease(text), textstat.flesch_kincaid_grade(text),
            textstat.avg_sentence_length(text), textstat.avg_syllables_per_word(text),
            textstat.avg_syllables_per_word(text, 100)]
json.dump({'texts': [measured(t) for t in asked['texts']],
           'words': [textstat.syllable_count(w) for w in asked['words']]}, sys.stdout)
";

fn textstat(asked: &Value) -> Value {
    let python = std::env::var("TEXTSTAT_PYTHON").unwrap_or_else(|_| "python3".to_owned());
    let mut child = Command::new(python)
        .args(["-c", SCRIPT])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("Python runs");
    let mut input = child.stdin.take().expect("it takes questions");
    input.write_all(asked.to_string().as_bytes()).expect("it reads them");
    drop(input);
    let output = child.wait_with_output().expect("it ends");
    assert!(
        output.status.success(),
        "textstat is installed: python3 -m pip install textstat==0.7.3"
    );
    serde_json::from_slice(&output.stdout).expect("it answers in JSON")
}

/// Each text of the sheets, once.
fn texts() -> Vec<String> {
    let sheets = prose::sheets(&[]).0.into_iter();
    let mut texts: Vec<String> =
        sheets.flat_map(|sheet| sheet.sections).flat_map(|section| section.texts).collect();
    texts.sort();
    texts.dedup();
    // The name of a job alone, as `2236`, is no prose: we count no word in it.
    texts.retain(|text| text.contains(char::is_alphabetic));
    assert!(texts.len() > 150, "{} texts", texts.len());
    texts
}

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

/// Counts with these averages: hundredths cannot come out, as textstat has rounded to tenths.
fn with_averages(words_per_sentence: f64, syllables_per_word: f64) -> Counts {
    let tenths = |average: f64| {
        let tenths = (average * 10.0).round();
        assert!((tenths - average * 10.0).abs() < 1e-6, "{average} is rounded to tenths");
        tenths as usize
    };
    let (sentence, word) = (tenths(words_per_sentence), tenths(syllables_per_word));
    Counts { words: 10 * sentence, sentences: 100, syllables: sentence * word }
}

#[test]
#[ignore = "needs Python with textstat; tests/all runs it where it is installed"]
fn formulas_agree_with_textstat() {
    let mut texts = texts();
    // The samples of `published.rs` and harder ones than any sheet has.
    texts.extend(
        [
            "The cat sat on the mat.",
            "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.",
            "Circulation equipment operates intermittently, according to filtration requirements.",
            "Go.",
        ]
        .map(str::to_owned),
    );
    let answer = textstat(&json!({ "texts": texts, "words": [] }));
    let answers = answer["texts"].as_array().expect("a list");
    assert_eq!(answers.len(), texts.len());
    for (text, found) in texts.iter().zip(answers) {
        let counts = with_averages(number(&found[5]), number(&found[6]));
        let (ease, level) = (flesch(counts).expect("words"), grade(counts).expect("words"));
        // Its rounding takes a number below zero one step too far down: -1.06 becomes -1.2.
        let step = if ease < 0.0 { 0.01 } else { 0.0 };
        let apart = (ease - step - number(&found[3])).abs();
        assert!(apart <= 0.005 + 1e-9, "{ease} {found} {text}");
        let step = if level < 0.0 { 0.1 } else { 0.0 };
        let apart = (level - step - number(&found[4])).abs();
        assert!(apart <= 0.05 + 1e-9, "{level} {found} {text}");
    }
    println!("{} texts, both formulas", texts.len());
}

#[test]
#[ignore = "needs Python with textstat; tests/all runs it where it is installed"]
fn words_and_sentences_agree_with_textstat() {
    let texts = texts();
    let answer = textstat(&json!({ "texts": texts, "words": [] }));
    let (mut ours, mut theirs, mut other) = (0, 0, 0);
    let answers = answer["texts"].as_array().expect("a list");
    assert_eq!(answers.len(), texts.len());
    for (text, found) in texts.iter().zip(answers) {
        let counts = count(text);
        assert_eq!(Some(counts.words as u64), found[0].as_u64(), "{text}");
        let sentences_found = found[1].as_u64().expect("a number") as usize;
        ours += counts.sentences;
        theirs += sentences_found;
        if counts.sentences != sentences_found {
            other += 1;
            let digit = |c: Option<char>| c.is_some_and(|c| c.is_ascii_digit());
            let decimal = text.match_indices('.').any(|(at, _)| {
                digit(text[..at].chars().next_back()) && digit(text[at + 1..].chars().next())
            });
            let short = sentences(text).iter().any(|sentence| sentence.words().count() <= 2);
            assert!(text.contains(';') || decimal || short, "no rule tells why: {found} {text}");
        }
    }
    println!("{ours} sentences, textstat {theirs}; {other} of {} texts differ", texts.len());
    assert!(other * 5 < texts.len(), "{other} of {} texts differ", texts.len());
    assert!(ours.abs_diff(theirs) * 50 <= ours, "{ours} sentences, textstat {theirs}");
}

#[test]
#[ignore = "needs Python with textstat; tests/all runs it where it is installed"]
fn syllables_agree_with_textstat() {
    let texts = texts();
    let mut words: BTreeMap<String, usize> = BTreeMap::new();
    for text in &texts {
        for word in sentences(text).iter().flat_map(|sentence| sentence.words()) {
            let word = word.trim_matches(|c: char| !c.is_alphanumeric());
            *words.entry(word.to_owned()).or_default() += 1;
        }
    }
    let list: Vec<&String> = words.keys().collect();
    let answer = textstat(&json!({ "texts": texts, "words": list }));
    let answers = answer["words"].as_array().expect("a list");
    assert_eq!(answers.len(), list.len());
    // Words that are read as words, then all of them with figures, codes and units.
    let (mut plain, mut all) = ((0, 0, 0), (0, 0, 0));
    let mut differing = Vec::new();
    for ((word, times), found) in words.iter().zip(answers) {
        let (own, found) = (syllables(word), found.as_u64().expect("a number") as usize);
        // Hyphenation never parts more than there are syllables.
        assert!(own >= found, "{word}: {own}, textstat {found}");
        let add = |sum: &mut (usize, usize, usize)| {
            *sum = (sum.0 + times, sum.1 + times * own, sum.2 + times * found);
        };
        add(&mut all);
        let code = word.contains(|c: char| c.is_numeric())
            || (word.chars().all(char::is_uppercase) && word.len() > 1 && word != "ON")
            || word == "m";
        if !code {
            add(&mut plain);
            if own != found {
                differing.push((times * (own - found), word, own, found));
            }
        }
    }
    differing.sort_by_key(|(weight, word, ..)| (std::cmp::Reverse(*weight), *word));
    let averages = |(words, own, found): (usize, usize, usize)| {
        (own as f64 / words as f64, found as f64 / words as f64)
    };
    let ((own, found), (own_all, found_all)) = (averages(plain), averages(all));
    println!(
        "{} words, {} different ones; plain: {own:.3} syllables a word, textstat {found:.3}; \
              all: {own_all:.3}, textstat {found_all:.3}",
        all.0,
        words.len()
    );
    for (weight, word, own, found) in differing.iter().take(20) {
        println!("{word}: {own}, textstat {found}; {weight} in all");
    }
    // Seen: 3 % and 20 % more: we read codes and numbers out, and a board of forty headers has many.
    assert!(own >= found && own <= found * 1.08, "{own} syllables a word, textstat {found}");
    assert!(own_all <= found_all * 1.25, "{own_all} syllables a word, textstat {found_all}");
    // The grade of everything by its counts and by ours: a whole program would say so.
    let total = |counts: [usize; 3]| {
        grade(Counts { words: counts[0], sentences: counts[1], syllables: counts[2] })
    };
    let sum = |index: usize| {
        answer["texts"].as_array().map_or(0, |texts| {
            texts.iter().filter_map(|text| text[index].as_u64()).sum::<u64>() as usize
        })
    };
    let theirs = total([sum(0), sum(1), sum(2)]).expect("words");
    let ours: Counts = texts.iter().map(|text| count(text)).sum();
    let own = grade(ours).expect("words");
    println!("grade of all texts {own:.2}, by textstat's counts {theirs:.2}");
    // 11.8 for each syllable a word that the codes add.
    assert!(own >= theirs && own - theirs <= 3.0, "{own}, textstat {theirs}");
}

/// The formulas for German, Spanish and French, and their syllables word by word, over the sheets in each
/// language. textstat parts words where a typesetter may, so it finds fewer syllables, and a silent `e` of
/// French is none for either.
#[test]
#[ignore = "needs Python with textstat; tests/all runs it where it is installed"]
fn other_languages_agree_with_textstat() {
    for (tag, few) in [("de", 0.10), ("es", 0.10), ("fr", 0.10)] {
        let language = Language::of_tag(tag).expect("it is compiled in");
        let reads_as = ReadingLanguage::of_tag(tag).expect("it has a formula");
        let mut texts: Vec<String> = prose::sheets_in(language, &[])
            .0
            .into_iter()
            .flat_map(|sheet| sheet.sections)
            .flat_map(|section| section.texts)
            .collect();
        texts.sort();
        texts.dedup();
        let mut words: BTreeMap<String, usize> = BTreeMap::new();
        for word in texts
            .iter()
            .flat_map(|text| sentences(text))
            .flat_map(|it| it.words().map(str::to_owned).collect::<Vec<_>>())
        {
            let word = word.trim_matches(|c: char| !c.is_alphanumeric());
            if word.chars().all(char::is_alphabetic) && word.chars().any(char::is_lowercase) {
                *words.entry(word.to_owned()).or_default() += 1;
            }
        }
        let list: Vec<&String> = words.keys().collect();
        let answer = textstat(&json!({ "texts": texts, "words": list, "language": tag }));
        let answers = answer["texts"].as_array().expect("a list");
        let mut compared = 0;
        for (text, found) in texts.iter().zip(answers) {
            // The Spanish average is for a hundred words there.
            let word = if tag == "es" { number(&found[7]) / 100.0 } else { number(&found[6]) };
            let sentence = number(&found[5]);
            let counts = Counts {
                words: 10_000_000,
                sentences: (10_000_000.0 / sentence).round() as usize,
                syllables: (10_000_000.0 * word).round() as usize,
            };
            let ease = reads_as.ease(counts).expect("words");
            let apart = (ease - number(&found[3])).abs();
            assert!(apart < 0.05, "{tag}: {ease} {found} {text}");
            compared += 1;
        }
        assert!(compared > 100, "{tag}: {compared}");
        let answers = answer["words"].as_array().expect("a list");
        let (mut own_sum, mut their_sum) = (0, 0);
        let mut differing = Vec::new();
        for ((word, times), found) in words.iter().zip(answers) {
            let own = reads_as.count(word).syllables;
            let found = found.as_u64().expect("a number") as usize;
            own_sum += times * own;
            their_sum += times * found;
            if own != found {
                differing.push((times * own.abs_diff(found), word, own, found));
            }
        }
        differing.sort_by_key(|(weight, word, ..)| (std::cmp::Reverse(*weight), *word));
        let apart = (own_sum as f64 - their_sum as f64) / own_sum as f64;
        println!(
            "{tag}: {compared} texts; {} words, {} counted differently; {own_sum} syllables, textstat {their_sum}; \
             {:?}",
            words.len(),
            differing.len(),
            differing
                .iter()
                .take(40)
                .map(|(_, word, own, found)| (word, own, found))
                .collect::<Vec<_>>()
        );
        assert!((0.0..few).contains(&apart), "{tag}: {apart}");
    }
}
