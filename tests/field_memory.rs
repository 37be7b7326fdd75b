//! The exported functions of the field page's module, called as the page calls them: it writes into the room and
//! reads the answer through pointers. A program of its own, so that a checker of memory can watch it; `tests/wasm`
//! has valgrind do so.
// The page has no references to the module's memory, and neither has what stands for it here. The library and its
// other tests have no such code.
#![allow(unsafe_code)]

use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::slice;

use lidsheet_field_page::{answer, answer_start, answer_to, room};
use serde_json::{Value, json};

/// Writes a question where there is room for it.
fn write(question: &[u8]) {
    let start = room(question.len());
    // SAFETY: the room is of as many bytes as were asked for, and holds until the next call.
    let place = unsafe { slice::from_raw_parts_mut(start, question.len()) };
    place.copy_from_slice(question);
}

/// Reads the last answer, of which the number of bytes was told.
fn read(bytes: usize) -> Vec<u8> {
    // SAFETY: so many bytes are there, and hold until the next call.
    unsafe { slice::from_raw_parts(answer_start(), bytes) }.to_vec()
}

fn ask(question: &[u8]) -> Vec<u8> {
    write(question);
    read(answer())
}

fn specs() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../specs")
}

fn begin() {
    let entries =
        fs::read_dir(specs()).expect("the demo").map(|entry| entry.expect("readable").path());
    let text = |path: PathBuf| {
        let name = path.file_name()?.to_str()?;
        let wanted = name.ends_with(".yaml") || name.ends_with(".csv");
        wanted.then(|| (format!("../{name}"), fs::read_to_string(&path).expect("UTF-8")))
    };
    let files: BTreeMap<String, String> = entries.filter_map(text).collect();
    let told = ask(json!({ "ask": "begin", "files": files }).to_string().as_bytes());
    let told: Value = serde_json::from_slice(&told).expect("JSON");
    assert_eq!(told["ready"], files.len());
}

fn job() -> Value {
    let entries = fs::read_dir(specs().join("jobs")).expect("the demo");
    let mut paths: Vec<PathBuf> = entries.map(|entry| entry.expect("readable").path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
    paths.sort();
    json!({ "name": "job.yaml", "text": fs::read_to_string(&paths[0]).expect("UTF-8") })
}

fn is_unknown(answer: &[u8]) -> bool {
    serde_json::from_slice::<Value>(answer).is_ok_and(|told| told["unknown"].is_string())
}

#[test]
fn a_page_that_asks_nothing_reads_nothing_that_is_not_there() {
    // The first of all calls.
    assert_eq!(read(0), b"");
    assert!(is_unknown(&read(answer())));
    room(0);
    assert!(is_unknown(&read(answer())));
    assert!(is_unknown(&ask(b"")));
}

#[test]
fn rooms_grow_and_shrink() {
    let plan = json!({ "ask": "plan", "job": job() }).to_string();
    for bytes in [1, 70_000, 3, 0, 1_000_000, 2] {
        assert!(is_unknown(&ask(&vec![b'['; bytes])), "{bytes}");
        // A new room holds nothing of the question before it.
        let start = room(bytes);
        // SAFETY: the room is of as many bytes as were asked for, and holds until the next call.
        assert!(unsafe { slice::from_raw_parts(start, bytes) }.iter().all(|byte| *byte == 0));
        let refused = ask(plan.as_bytes());
        assert!(serde_json::from_slice::<Value>(&refused).expect("JSON")["problems"].is_array());
    }
}

#[test]
fn an_answer_stays_while_nothing_is_asked() {
    begin();
    let question = json!({ "ask": "plan", "job": job() }).to_string();
    write(question.as_bytes());
    let bytes = answer();
    let first = read(bytes);
    assert_eq!(read(bytes), first, "read twice");
    // The room of the next question is not that of the last answer.
    write(b"[]");
    assert_eq!(read(bytes), first, "read while the next question is written");
    assert!(is_unknown(&read(answer())));
    write(question.as_bytes());
    assert_eq!(read(answer()), first);
    assert_eq!(read(answer()), first, "answered twice");
    assert_eq!(answer_to(question.as_bytes()), first, "without the shared memory");
    assert!(serde_json::from_slice::<Value>(&first).expect("JSON")["devices"].is_array());
}

#[test]
fn a_file_is_read_whole() {
    begin();
    let look = json!({ "sheet": "lid-insert", "language": "en", "paper": "A4" });
    let file = ask(json!({ "ask": "pdf", "job": job(), "look": look }).to_string().as_bytes());
    assert!(file.starts_with(b"%PDF-") && file.trim_ascii_end().ends_with(b"%%EOF"));
}
