//! `lidsheet language-server`: what an editor asks and what it is told, over the protocol itself.

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use lidsheet::editor::{Document, Names, Place, complete, hover, names_of, offset_of};
use lidsheet::reference::SAMPLES;
use lidsheet::spec::language::board::BOARD;
use lidsheet::spec::language::{Kind, Thing};
use serde_json::{Value, json};

use crate::cli::GOOD;
use crate::reference::{changed, entries, keys};

/// An editor with a server of its own, in a folder of its own.
struct Editor {
    folder: tempfile::TempDir,
    server: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
    asked: i64,
    /// The last problems that were told of each file.
    told: std::collections::BTreeMap<String, Value>,
}

impl Editor {
    fn new(files: &[(&str, &str)]) -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        for (name, text) in files {
            let path = folder.path().join(name);
            std::fs::create_dir_all(path.parent().expect("a folder")).expect("made");
            std::fs::write(path, text).expect("written");
        }
        let mut server = Command::new(env!("CARGO_BIN_EXE_lidsheet"))
            .arg("language-server")
            .current_dir(folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("it starts");
        let to = server.stdin.take().expect("piped");
        let from = BufReader::new(server.stdout.take().expect("piped"));
        let mut editor = Self { folder, server, to, from, asked: 0, told: Default::default() };
        let root = editor.uri("");
        let folders = json!([{ "uri": root.trim_end_matches('/'), "name": "test" }]);
        let answer =
            editor.ask("initialize", json!({ "capabilities": {}, "workspaceFolders": folders }));
        assert!(answer["capabilities"]["completionProvider"].is_object(), "{answer}");
        editor.tell("initialized", json!({}));
        editor
    }

    fn uri(&self, name: &str) -> String {
        let path: PathBuf = self.folder.path().canonicalize().expect("there").join(name);
        format!("file://{}", path.display())
    }

    fn send(&mut self, message: &Value) {
        let text = message.to_string();
        write!(self.to, "Content-Length: {}\r\n\r\n{text}", text.len()).expect("it reads");
        self.to.flush().expect("it reads");
    }

    fn tell(&mut self, method: &str, params: Value) {
        self.send(&json!({ "jsonrpc": "2.0", "method": method, "params": params }));
    }

    fn receive(&mut self) -> Value {
        let mut length = 0;
        loop {
            let mut line = String::new();
            assert!(self.from.read_line(&mut line).expect("it answers") > 0, "it ended");
            if let Some(count) = line.strip_prefix("Content-Length: ") {
                length = count.trim().parse().expect("a number");
            }
            if line.trim().is_empty() {
                break;
            }
        }
        let mut text = vec![0; length];
        std::io::Read::read_exact(&mut self.from, &mut text).expect("it answers");
        let message: Value = serde_json::from_slice(&text).expect("JSON");
        if message["method"] == "textDocument/publishDiagnostics" {
            let uri = message["params"]["uri"].as_str().expect("a file").to_owned();
            self.told.insert(uri, message["params"]["diagnostics"].clone());
        }
        message
    }

    /// The answer to a question; notes that come before it are kept.
    fn response(&mut self, method: &str, params: Value) -> Value {
        self.asked += 1;
        let id = self.asked;
        self.send(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params }));
        loop {
            let message = self.receive();
            if message["id"] == id {
                return message;
            }
        }
    }

    fn ask(&mut self, method: &str, params: Value) -> Value {
        let message = self.response(method, params);
        assert!(message.get("error").is_none(), "{message}");
        message["result"].clone()
    }

    fn open(&mut self, name: &str, text: &str) {
        let item =
            json!({ "uri": self.uri(name), "languageId": "yaml", "version": 1, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": item }));
    }

    fn at(&self, name: &str, text: &str, needle: &str) -> Value {
        let offset = text.find(needle).unwrap_or_else(|| panic!("no {needle}"));
        let line = text[..offset].matches('\n').count();
        let start = text[..offset].rfind('\n').map_or(0, |at| at + 1);
        let character = text[start..offset].encode_utf16().count();
        json!({ "textDocument": { "uri": self.uri(name) }, "position": { "line": line, "character": character } })
    }

    /// The codes of the problems of a file, as soon as they are told.
    fn codes(&mut self, name: &str) -> Vec<String> {
        let uri = self.uri(name);
        self.told.remove(&uri);
        while !self.told.contains_key(&uri) {
            self.receive();
        }
        codes(&self.told[&uri])
    }

    fn end(mut self) {
        self.ask("shutdown", Value::Null);
        self.tell("exit", Value::Null);
        let status = self.server.wait().expect("it ends");
        assert!(status.success(), "{status}");
    }
}

fn codes(diagnostics: &Value) -> Vec<String> {
    let all = diagnostics.as_array().expect("a list");
    all.iter().map(|it| it["code"].as_str().expect("a code").to_owned()).collect()
}

const JOB: &str = "\
lidsheet: 1
job: \"1\"
board: ../board.yaml
supply: four-wire
breaker: 50 A
equipment:
  - { device: pump, speeds: 2, volts: 240, amps: { low: 3.1, high: 10.8 } }
";

/// Every key of the language: proposed where it is missing, explained where it stands.
#[test]
fn every_key_is_proposed_and_explained() {
    for (form, key) in keys() {
        let found = SAMPLES.iter().find_map(|sample| {
            let mut all = entries(sample.text, sample.form).into_iter();
            let entry = all.find(|it| std::ptr::eq(it.form, form) && it.key.name == key.name)?;
            Some((sample, entry))
        });
        let (sample, entry) = found.expect("a sample has it");
        let offset = entry.key_span.range().start;
        let (says, _) = hover(&Document::read(sample.text), &Names::default(), None, offset)
            .expect("there is help");
        assert!(says.contains(key.says), "`{}` of {}: {says}", key.name, form.name);
        // The first letters of the key, the rest yet to be written.
        let first: String = key.name.chars().take(2).collect();
        let text = changed(sample.text, entry.key_span, &first);
        let all = complete(&text, sample.form, &Names::default(), offset + first.len());
        let proposed = all.iter().find(|it| it.text == key.name);
        let proposed =
            proposed.unwrap_or_else(|| panic!("`{}` of {}: {all:?}", key.name, form.name));
        assert!(proposed.says.contains(key.says));
        assert_eq!(proposed.replaces, offset..offset + first.len(), "{}", key.name);
    }
}

/// What a value may be is proposed where it stands, in a file that breaks off behind it as well.
#[test]
fn values_are_proposed_in_whole_and_in_broken_files() {
    let board = names_of(&Document::read(GOOD));
    let mut tried = 0;
    for entry in entries(GOOD, &BOARD) {
        let expected = match entry.key.kind {
            Kind::Side => "left".to_owned(),
            Kind::Name([Thing::Part]) => "main".to_owned(),
            Kind::Name([thing]) => board.of(*thing).next().expect("one").to_owned(),
            Kind::Truth => "true".to_owned(),
            _ => continue,
        };
        let start = entry.span.range().start;
        let whole = changed(GOOD, entry.span, "");
        let broken = &whole[..start];
        for text in [whole.as_str(), broken] {
            let all = complete(text, &BOARD, &board, start);
            let there = all.iter().any(|it| it.text == expected);
            assert!(there, "`{}` of {}: {all:?}\n{text}", entry.key.name, entry.form.name);
            tried += 1;
        }
    }
    assert!(tried > 60, "{tried}");
}

/// Nothing that is asked anywhere in any file stops the server or takes long.
#[test]
fn any_place_of_any_text_can_be_asked_about() {
    let texts = [GOOD, JOB, "", "a", "{", "- x", "board: [", "\u{1d400}: \u{feff}", "a: &b [*b]"];
    for text in texts {
        let document = Document::read(text);
        for offset in (0..=text.len() + 2).step_by(if text.len() > 100 { 37 } else { 1 }) {
            complete(text, document.form, &Names::default(), offset);
            hover(&document, &Names::default(), None, offset);
        }
    }
}

#[test]
fn problems_follow_what_is_written() {
    let mut editor = Editor::new(&[("board.yaml", GOOD), ("jobs/1.yaml", JOB)]);
    editor.open("board.yaml", GOOD);
    let fresh = editor.codes("board.yaml");
    assert!(!fresh.contains(&"L011".to_owned()), "{fresh:?}");
    // One word is written wrong, and mended again by the edit that is offered.
    let place = GOOD.find("maker:").expect("there");
    let line = GOOD[..place].matches('\n').count();
    let range = |from: usize, to: usize| json!({ "start": { "line": line, "character": from }, "end": { "line": line, "character": to } });
    let change = |editor: &mut Editor, version: i64, changes: Value| {
        let document = json!({ "uri": editor.uri("board.yaml"), "version": version });
        let params = json!({ "textDocument": document, "contentChanges": changes });
        editor.tell("textDocument/didChange", params);
    };
    change(&mut editor, 2, json!([{ "range": range(2, 7), "text": "makre" }]));
    let told = editor.codes("board.yaml");
    assert!(told.contains(&"L011".to_owned()), "{told:?}");
    let asked = json!({
        "textDocument": { "uri": editor.uri("board.yaml") },
        "range": range(3, 4),
        "context": { "diagnostics": [] },
    });
    let actions = editor.ask("textDocument/codeAction", asked);
    let edit = &actions[0]["edit"]["changes"][&editor.uri("board.yaml")][0];
    assert_eq!(edit["newText"], "maker", "{actions}");
    assert_eq!(edit["range"], range(2, 7));
    // A change that came late is left out; one that is next is not.
    change(&mut editor, 2, json!([{ "text": "nonsense" }]));
    change(
        &mut editor,
        3,
        json!([edit.as_object().map(|it| json!({ "range": it["range"], "text": it["newText"] }))]),
    );
    assert_eq!(editor.codes("board.yaml"), fresh);
    // A job is judged by the board as it is open.
    editor.open("jobs/1.yaml", JOB);
    editor.codes("jobs/1.yaml");
    let renamed = GOOD.replace("four-wire:", "other-wire:");
    change(&mut editor, 4, json!([{ "text": renamed }]));
    assert!(editor.codes("jobs/1.yaml").contains(&"L101".to_owned()));
    editor.end();
}

#[test]
fn names_are_found_and_renamed_in_the_board_and_its_jobs() {
    let mut editor =
        Editor::new(&[("board.yaml", GOOD), ("jobs/1.yaml", JOB), ("jobs/x.yaml", "- a")]);
    editor.open("board.yaml", GOOD);
    editor.open("jobs/1.yaml", JOB);
    let at = editor.at("jobs/1.yaml", JOB, "four-wire");
    let given = editor.ask("textDocument/definition", at.clone());
    let expected = editor.at("board.yaml", GOOD, "four-wire:")["position"].clone();
    assert_eq!(given["range"]["start"], expected);
    let mut asked = at.clone();
    asked["context"] = json!({ "includeDeclaration": true });
    let all = editor.ask("textDocument/references", asked);
    assert_eq!(all.as_array().expect("a list").len(), 2, "{all}");
    let mut asked = at.clone();
    asked["newName"] = json!("domestic");
    let edit = editor.ask("textDocument/rename", asked.clone());
    let changes = edit["changes"].as_object().expect("changes");
    assert_eq!(changes.len(), 2, "{edit}");
    // A name that is there, and one that is none, are refused.
    for name in ["", "{}", "an-endless-name-for-one-supply"] {
        asked["newName"] = json!(name);
        let refused = editor.response("textDocument/rename", asked.clone());
        assert!(refused["error"]["message"].is_string(), "{refused}");
    }
    let help = editor.ask("textDocument/hover", at);
    assert!(help["contents"]["value"].as_str().is_some_and(|it| it.contains("240")), "{help}");
    let symbols = editor.ask(
        "textDocument/documentSymbol",
        json!({ "textDocument": { "uri": editor.uri("board.yaml") } }),
    );
    let named: Vec<&str> =
        symbols.as_array().expect("a list").iter().filter_map(|it| it["name"].as_str()).collect();
    assert!(named.contains(&"headers") && named.contains(&"groups"), "{named:?}");
    editor.end();
}

#[test]
fn what_is_not_ours_is_survived() {
    let mut editor = Editor::new(&[("board.yaml", GOOD)]);
    let open = |uri: &str, text: &str| json!({ "textDocument": { "uri": uri, "languageId": "x", "version": 1, "text": text } });
    editor.tell("textDocument/didOpen", open("untitled:Untitled-1", "x"));
    editor.tell("textDocument/didOpen", json!({ "nonsense": true }));
    editor.tell("textDocument/didChange", json!([1, 2]));
    editor.tell("what/is/this", json!({}));
    let unknown = editor.response("what/is/this", json!({}));
    assert_eq!(unknown["error"]["code"], -32601);
    let wrong = editor.response("textDocument/hover", json!({ "position": 1 }));
    assert_eq!(wrong["error"]["code"], -32602);
    // Larger than a specification can be.
    let huge = format!("board: {}", "x".repeat(1 << 21));
    editor.open("huge.yaml", &huge);
    assert_eq!(editor.codes("huge.yaml"), ["L001"]);
    let at = json!({ "textDocument": { "uri": editor.uri("huge.yaml") }, "position": { "line": 0, "character": 9 } });
    editor.ask("textDocument/completion", at.clone());
    // A question that is taken back before its turn is answered as that.
    let uri = editor.uri("huge.yaml");
    let ask = json!({ "jsonrpc": "2.0", "id": "x", "method": "textDocument/hover", "params": at });
    let back = json!({ "jsonrpc": "2.0", "method": "$/cancelRequest", "params": { "id": "x" } });
    editor.tell("textDocument/didClose", json!({ "textDocument": { "uri": uri } }));
    let both = [ask.to_string(), back.to_string()]
        .map(|it| format!("Content-Length: {}\r\n\r\n{it}", it.len()));
    editor.to.write_all(both.concat().as_bytes()).expect("it reads");
    loop {
        let message = editor.receive();
        if message["id"] == "x" {
            let code = message["error"]["code"].as_i64();
            assert!(code == Some(-32800) || message.get("result").is_some(), "{message}");
            break;
        }
    }
    editor.end();
}

/// A thousand edits, half-written words among them: at the end the text is what the editor has, the
/// problems are those of a fresh look, and the server holds no more memory than before.
#[test]
fn a_thousand_edits_leave_the_text_right_and_memory_flat() {
    let mut editor = Editor::new(&[("board.yaml", GOOD)]);
    editor.open("board.yaml", GOOD);
    let mut text = GOOD.to_owned();
    let mut state = 20_261_128_u64;
    let mut draw = |below: usize| {
        state =
            state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((state >> 33) as usize) % below.max(1)
    };
    let pieces = ["x", "{", "}", ": ", "\n", "  ", "J2", "240", "\u{1f600}", "\"", "- ", ""];
    let mut memory = Vec::new();
    for version in 2..1002 {
        let lines: Vec<&str> = text.split('\n').collect();
        let line = draw(lines.len());
        let units = lines[line].encode_utf16().count();
        let (from, long) = (draw(units + 1), draw(3));
        let to = (from + long).min(units);
        let new = if version % 50 == 0 { None } else { Some(pieces[draw(pieces.len())]) };
        let change = match new {
            // From time to time the whole is right again.
            None => {
                text = GOOD.to_owned();
                json!({ "text": text })
            }
            Some(new) => {
                let place =
                    |character: usize| Place { line: line as u32, column: character as u32 };
                let (start, end) = (offset_of(&text, place(from)), offset_of(&text, place(to)));
                text.replace_range(start..end, new);
                json!({
                    "range": {
                        "start": { "line": line, "character": from },
                        "end": { "line": line, "character": to },
                    },
                    "text": new,
                })
            }
        };
        let document = json!({ "uri": editor.uri("board.yaml"), "version": version });
        editor.tell(
            "textDocument/didChange",
            json!({ "textDocument": document, "contentChanges": [change] }),
        );
        if version % 100 == 0 {
            // It goes on, and answers.
            let at = json!({ "textDocument": { "uri": editor.uri("board.yaml") }, "position": { "line": line, "character": from } });
            editor.ask("textDocument/completion", at);
            memory.extend(resident_kilobytes(editor.server.id()));
        }
    }
    let told = editor.codes("board.yaml");
    let mut last = told;
    // Problems of the last text come last.
    while let Some(more) = more_codes(&mut editor) {
        last = more;
    }
    let fresh = lidsheet::build::check_bytes("board.yaml", text.into(), Path::new("."));
    let fresh: Vec<&str> = fresh.problems.sorted().iter().map(|it| it.code.text()).collect();
    assert_eq!(last, fresh);
    if let [first, .., end] = memory.as_slice() {
        assert!(*end < first + 20_000, "kilobytes after each hundred edits: {memory:?}");
    }
    editor.end();
}

/// What is told before the answer to a question that is asked now.
fn more_codes(editor: &mut Editor) -> Option<Vec<String>> {
    let uri = editor.uri("board.yaml");
    editor.told.remove(&uri);
    editor.ask("textDocument/documentSymbol", json!({ "textDocument": { "uri": uri } }));
    editor.told.get(&uri).map(codes)
}

/// What a process holds in memory, where the system tells.
fn resident_kilobytes(process: u32) -> Option<u64> {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"))?;
    line.trim().trim_end_matches(" kB").trim().parse().ok()
}
