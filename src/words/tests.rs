//! Every key, in every language.

use super::*;
use crate::board::Device;
use crate::units::Amps;

fn english() -> Vec<&'static str> {
    BUILT_IN.iter().map(|(_, text)| *text).collect()
}

#[test]
fn english_lacks_nothing_and_has_nothing_that_nobody_asks_for() {
    if let Err(faults) = Words::read(&english()) {
        panic!("{faults:#?}");
    }
}

#[test]
fn no_key_stands_twice() {
    let mut names: Vec<&str> = keys().map(|key| key.name).collect();
    names.sort_unstable();
    let all = names.len();
    names.dedup();
    assert_eq!(names.len(), all);
}

fn faults_of(own: &str) -> Vec<(PhraseFaultKind, String)> {
    let mut files = english();
    files.push(own);
    let found = Words::read(&files).err().unwrap_or_default();
    found
        .into_iter()
        .map(|fault| {
            assert_eq!(fault.file, BUILT_IN.len());
            let place = own.get(fault.range.clone()).unwrap_or_default().to_owned();
            (fault.what, place)
        })
        .collect()
}

#[test]
fn a_single_phrase_is_replaced() {
    let mut files = english();
    files.push("and_two = { $first } & { $second }\ndevice_blower = fan\n    .the = the fan\n");
    let words = Words::read(&files).expect("it is sound");
    assert_eq!(words.and(&["A".to_owned(), "B".to_owned()]), "A & B");
    assert_eq!(
        words.allowance_none(2, &[Device::Blower, Device::Pump(2)]),
        "With the heater on, none of the fan & pump 2 may run at high speed."
    );
    assert_eq!(words.device_name(Device::Heater), "heater");
}

#[test]
fn what_a_file_of_phrases_gets_wrong_is_told_with_its_place() {
    let unknown = PhraseFaultKind::Unknown("and_too".to_owned());
    assert_eq!(faults_of("and_too = { $first }\n"), [(unknown, "and_too".to_owned())]);
    let found = faults_of("and_two = { $fist } and { $second }\n");
    assert!(
        matches!(&found[..], [(PhraseFaultKind::Unsayable { key, .. }, place)]
        if key == "and_two" && place == "and_two"),
        "{found:?}"
    );
    let found = faults_of("the_device = { DEVICE($device, form: \"of\") }\n");
    assert!(matches!(&found[..], [(PhraseFaultKind::Unsayable { .. }, _)]), "{found:?}");
    let found = faults_of("and_two = { $first\n");
    assert!(matches!(&found[..], [(PhraseFaultKind::Syntax(_), _)]), "{found:?}");
}

#[test]
fn a_phrase_that_a_language_lacks_is_told() {
    let without: Vec<String> =
        english().iter().map(|text| text.replace("or_two =", "or_none =")).collect();
    let without: Vec<&str> = without.iter().map(String::as_str).collect();
    let faults = Words::read(&without).expect_err("it lacks one");
    assert!(
        faults.iter().any(|fault| fault.what == PhraseFaultKind::Missing("or_two")),
        "{faults:?}"
    );
}

#[test]
fn lists_and_numbers_follow_the_language() {
    let mut files = english();
    files.push("language_tag = de\ndecimal_mark = ,\nand_last = { $rest } und { $last }\n");
    let words = Words::read(&files).expect("it is sound");
    assert_eq!(words.tag(), "de");
    assert_eq!(words.fixed(44.37, 2), "44,37");
    assert_eq!(words.amps_drawn(Amps(7.30001)), "7,4\u{a0}A");
    let three = ["A".to_owned(), "B".to_owned(), "C".to_owned()];
    assert_eq!(words.and(&three), "A, B und C");
    let english = Words::english();
    assert_eq!(english.and(&three), "A, B and C");
    assert_eq!(english.or(&three[..2]), "A or B");
    assert_eq!(english.commas(&three), "A, B, C");
}
