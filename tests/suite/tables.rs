//! `lidsheet tables`: the decision tables as data say what the plans and the sheets say.

use std::path::Path;

use assert_cmd::Command;
use lidsheet::board::{Board, Job, Speeds};
use lidsheet::decide::Plan;
use lidsheet::decide::reason::EmptyReason;
use lidsheet::diagnostic::Problems;
use lidsheet::document::{Block, Table as SheetTable, plain_text};
use lidsheet::page::Paper;
use lidsheet::sheet::{Templates, figures, wiring_sheets};
use lidsheet::source::Sources;
use lidsheet::tables::{Cell, Table, csv, kinds, tables};
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use proptest::prelude::*;
use serde_json::Value;

use crate::compile::{self, demo};
use crate::generate::{self, jobs};
use crate::plan_cli::Ran;

fn run(arguments: &[&str]) -> Ran {
    let mut command = Command::cargo_bin("lidsheet").expect("it is built");
    let command = command.arg("tables").args(arguments).env("COLUMNS", "100");
    Ran::of(command.current_dir(env!("CARGO_MANIFEST_DIR")))
}

/// Rows of a table, whose cells are asked for by the names of their columns.
struct Rows<'a>(&'a Table);

impl<'a> Rows<'a> {
    fn of(all: &'a [Table], name: &str) -> Self {
        Self(all.iter().find(|table| table.kind.name == name).expect("a table of that name"))
    }

    fn cell(&self, row: &'a [Cell], column: &str) -> &'a Cell {
        let at = self.0.kind.columns.iter().position(|one| one.name == column);
        &row[at.unwrap_or_else(|| panic!("{} has no column {column}", self.0.kind.name))]
    }

    fn text(&self, row: &'a [Cell], column: &str) -> Option<&'a str> {
        match self.cell(row, column) {
            Cell::Text(text) => Some(text),
            Cell::Nothing => None,
            other => panic!("{column}: {other:?}"),
        }
    }

    fn number(&self, row: &'a [Cell], column: &str) -> Option<f64> {
        match self.cell(row, column) {
            Cell::Number(number) => Some(*number),
            Cell::Whole(number) => Some(f64::from(*number)),
            Cell::Nothing => None,
            other => panic!("{column}: {other:?}"),
        }
    }

    /// The rows whose cells of these columns hold these texts or whole numbers.
    fn wher(&self, wanted: &[(&str, &str)]) -> Vec<&'a [Cell]> {
        let holds = |row: &'a [Cell], column: &str, text: &str| match self.cell(row, column) {
            Cell::Text(own) => own == text,
            Cell::Whole(own) => own.to_string() == text,
            Cell::Flag(own) => own.to_string() == text,
            Cell::Number(_) | Cell::Nothing => false,
        };
        let rows = self.0.rows.iter().map(Vec::as_slice);
        rows.filter(|row| wanted.iter().all(|(column, text)| holds(row, column, text))).collect()
    }

    #[track_caller]
    fn only(&self, wanted: &[(&str, &str)]) -> &'a [Cell] {
        let found = self.wher(wanted);
        assert_eq!(found.len(), 1, "{}: {wanted:?}", self.0.kind.name);
        found[0]
    }
}

/// What a plan says must stand in the tables of its board. How many devices were compared.
fn agrees(board: &Board, job: &Job, plan: &Plan) -> usize {
    let (layout, wiring) = plan.sound().expect("a sound plan");
    let all = tables(board);
    let of = |name| Rows::of(&all, name);
    let (headers, voltages, services) = (of("headers"), of("voltages"), of("services"));
    let (layouts, settings, pins) = (of("layouts"), of("settings"), of("pins"));
    let number = layout.number.to_string();
    let supply = board[job.supply.value].name.as_str();
    for device in wiring.devices.iter() {
        let (header, group) =
            (board[device.header].code.as_str(), board[device.group].code.as_str());
        let word = device.device.to_string();
        let served = services.only(&[("header", header), ("layout", &number)]);
        assert_eq!(services.text(served, "device"), Some(word.as_str()));
        let speeds = services.number(served, "speeds").expect("it is there");
        if board.columns.contains(&device.device) {
            let row = layouts.only(&[("layout", &number), ("device", &word)]);
            assert_eq!(layouts.number(row, "speeds"), Some(speeds));
        }
        let row = voltages.only(&[("supply", supply), ("header", header), ("group", group)]);
        let volts = voltages.number(row, "volts").expect("it runs");
        assert!((volts - device.volts.0).abs() < 1e-9, "{header}: {volts}");
        let jumper = device.jumper.map(|jumper| board[jumper].code.as_str());
        assert_eq!(voltages.text(row, "jumper"), jumper);
        let row = headers.only(&[("header", header)]);
        assert_eq!(headers.text(row, "fuse"), device.fuse.map(|fuse| board[fuse].code.as_str()));
        let cord = if speeds == 2.0 { Speeds::Two } else { Speeds::One };
        let here = pins.wher(&[("header", header), ("cord_speeds", &cord.number().to_string())]);
        let told: Vec<_> = here.iter().map(|row| pins.text(row, "pin")).collect();
        let own: Vec<_> = device.pins.pins.iter().map(|pin| pin.map(|it| it.to_string())).collect();
        assert_eq!(told, own.iter().map(Option::as_deref).collect::<Vec<_>>(), "{header}");
        let wires: Vec<_> = here.iter().map(|row| pins.text(row, "wire")).collect();
        // A job may tell of a cord of its own, whose colors are then those of the plan.
        if device.pins.colours.iter().all(Option::is_some) && wires.iter().all(Option::is_some) {
            let own = device.pins.colours.iter().map(|wire| wire.map(|it| it.letters));
            assert_eq!(wires, own.collect::<Vec<_>>(), "{header}");
        }
    }
    for (header, because) in &wiring.empty {
        let row = services.only(&[("header", &board[*header].code), ("layout", &number)]);
        let device = match because {
            EmptyReason::Idle => None,
            EmptyReason::NotFitted(device) => Some(device.to_string()),
        };
        assert_eq!(services.text(row, "device"), device.as_deref());
    }
    for bank in &wiring.switches {
        for field in &board[bank.bank].fields {
            let ways = usize::from(field.first) - 1..usize::from(field.last);
            let words: Vec<&str> =
                bank.positions[ways].iter().map(|on| if *on { "on" } else { "off" }).collect();
            let code = board[bank.bank].code.as_str();
            let first = field.first.to_string();
            let set = [("switch", code), ("first_way", &first), ("setting", &words.join(" "))];
            if field.unused() {
                assert_eq!(settings.wher(&[("switch", code), ("first_way", &first)]).len(), 1);
                continue;
            }
            let row = settings.only(&set);
            let allowance =
                wiring.breaker.allowance.map(|it| it.to_string().replace('\u{a0}', " "));
            if settings.text(row, "effect") == Some("heater allowance") {
                let count = settings.number(row, "allowance_loads").map(|it| it.to_string());
                let amps = settings.number(row, "allowance_amps").map(|it| format!("{it} A"));
                assert_eq!(count.or(amps), allowance, "{code}");
            }
            if settings.text(row, "effect") == Some("layout number") {
                assert_eq!(settings.number(row, "layout"), number.parse().ok(), "{code}");
            }
        }
    }
    if let Some(turned) = wiring.selector {
        let selector = &board[turned.selector];
        let name = selector.positions[turned.position].name.as_str();
        let row = settings.only(&[("switch", &selector.code), ("setting", name)]);
        assert_eq!(settings.number(row, "layout"), number.parse().ok());
    }
    wiring.devices.len()
}

#[test]
fn the_tables_agree_with_the_plans_of_the_demo_jobs() {
    let compared: usize =
        demo::jobs().iter().map(|one| agrees(&one.board, &one.job, &one.plan)).sum();
    assert!(compared > 40, "{compared}");
}

/// Tables of the sheets, whose first row of heads is `first`.
fn sheet_tables(board: &Board, first: &str) -> Vec<SheetTable> {
    fn collect(blocks: &[Block], to: &mut Vec<SheetTable>) {
        for block in blocks {
            match block {
                Block::Table(table) => to.push(table.clone()),
                Block::Columns { blocks, .. }
                | Block::Together(blocks)
                | Block::Landscape(blocks)
                | Block::Step { blocks, .. } => collect(blocks, to),
                Block::Beside { parts, .. } | Block::Cards(parts) => {
                    parts.iter().for_each(|part| collect(part, to));
                }
                _ => {}
            }
        }
    }
    let mut sources = Sources::default();
    let templates = Templates::built_in(&mut sources);
    let figures = figures(board, &Words::english(), &mut Typesetter::new(), Paper::A4);
    let mut problems = Problems::default();
    let sheets = wiring_sheets(board, &figures, &templates, Paper::A4, &mut problems);
    let mut all = Vec::new();
    collect(&sheets.expect("sound").blocks, &mut all);
    all.retain(|table| table.head.first().is_some_and(|head| plain_text(head) == first));
    all
}

fn plain(cell: &[lidsheet::document::Inline]) -> String {
    plain_text(cell).replace('\u{a0}', " ")
}

/// What breakers leave, as the sheets print it: rounded down to a tenth.
#[test]
fn allowances_are_those_that_the_sheets_print() {
    let board = demo::version_1("heron-8");
    let all = tables(&board);
    let rows = Rows::of(&all, "allowances");
    let printed = sheet_tables(&board, "Breaker");
    let [printed] = printed.as_slice() else { panic!("{} tables", printed.len()) };
    let mut compared = 0;
    for row in &printed.rows {
        let breaker: f64 = plain(&row[0]).trim_end_matches(" A").parse().expect("amps");
        let mut cells: Vec<String> = row[1..].iter().map(|cell| plain(cell)).collect();
        cells.retain(|cell| cell != "\u{2013}");
        let mut told: Vec<String> = Vec::new();
        for one in
            rows.0.rows.iter().filter(|one| rows.number(one, "breaker_amps") == Some(breaker))
        {
            let left = rows.number(one, "left_amps").expect("a number");
            let star = if rows.text(one, "limited_by") == Some("board") { "*" } else { "" };
            let text = format!("{} A{star}", ((left * 10.0 + 1e-6).floor() / 10.0));
            assert!(cells.contains(&text), "{breaker} A: {text} is not among {cells:?}");
            told.push(text);
            compared += 1;
        }
        assert!(cells.iter().all(|cell| told.contains(cell)), "{cells:?} {told:?}");
    }
    assert!(compared >= 12, "{compared}");
}

/// The same for an allowance that is a current.
#[test]
fn limits_are_those_that_the_sheets_print() {
    let board = demo::board("plover-40");
    let all = tables(&board);
    let rows = Rows::of(&all, "limits");
    assert!(!rows.0.rows.is_empty() && Rows::of(&all, "settings").0.rows.len() > 4);
    let printed = sheet_tables(&board, "Allowance");
    let mut compared = 0;
    for table in &printed {
        for row in &table.rows {
            let Ok(setting) = plain(&row[0]).trim_end_matches(" A").parse::<f64>() else {
                continue;
            };
            let cells: Vec<String> = row[1..].iter().map(|cell| plain(cell)).collect();
            let mine = rows.0.rows.iter();
            for one in mine.filter(|one| rows.number(one, "allowance_amps") == Some(setting)) {
                let left = rows.number(one, "left_amps");
                let left = left.map(|left| format!("{} A", (left * 10.0 + 1e-6).floor() / 10.0));
                let breaker = rows.number(one, "smallest_breaker_amps").map(|it| format!("{it} A"));
                for text in [left, breaker].into_iter().flatten() {
                    assert!(cells.contains(&text), "{setting} A: {text} is not among {cells:?}");
                    compared += 1;
                }
            }
        }
    }
    assert!(compared >= 6, "{compared} of {printed:?}");
}

/// The matrix and the settings as the specification writes them, read without the compiler.
#[test]
fn layouts_and_settings_are_those_of_the_specification() {
    let board = demo::version_1("heron-8");
    let text = std::fs::read_to_string("tests/version-1/heron-8.yaml").expect("it is there");
    let (_, matrix) = text.split_once("\nlayouts:").expect("a matrix");
    let matrix = matrix.lines().skip(1).take_while(|line| line.starts_with(' '));
    let all = tables(&board);
    let layouts = Rows::of(&all, "layouts");
    let mut compared = 0;
    for line in matrix {
        let Some((number, entries)) = line.trim().split_once(':') else { continue };
        if number.parse::<u8>().is_err() {
            continue;
        }
        let entries = entries.trim().trim_matches(['[', ']']).split(',').map(str::trim);
        let told = layouts.wher(&[("layout", number)]);
        let told: Vec<String> = told
            .iter()
            .map(|row| layouts.number(row, "speeds").expect("one").to_string())
            .collect();
        assert_eq!(told, entries.collect::<Vec<_>>(), "layout {number}");
        compared += told.len();
    }
    assert!(compared >= 36, "{compared}");
}

/// A cell of a CSV as the JSON has it.
fn read_back(cell: &str, json: &Value) -> Value {
    match json {
        Value::Null => {
            assert_eq!(cell, "");
            Value::Null
        }
        Value::Bool(_) => Value::Bool(cell.parse().expect("true or false")),
        Value::Number(number) if number.is_u64() => {
            Value::from(cell.parse::<u64>().expect("a whole number"))
        }
        Value::Number(_) => Value::from(cell.parse::<f64>().expect("a number")),
        _ => Value::from(cell.strip_prefix('\'').unwrap_or(cell)),
    }
}

/// That a table as CSV says what it says as JSON, read by the crate that others read with.
fn same_in_both_forms(table: &Table) {
    let bytes = csv(table).expect("memory takes all");
    let json = serde_json::to_value(table).expect("JSON");
    let json = json.as_array().expect("a list");
    let mut reader = csv::ReaderBuilder::new().flexible(false).from_reader(bytes.as_slice());
    let heads = reader.headers().expect("a head").clone();
    let columns: Vec<&str> = table.kind.columns.iter().map(|column| column.name).collect();
    assert_eq!(heads.iter().collect::<Vec<_>>(), columns);
    let records: Vec<csv::StringRecord> = reader.records().map(|it| it.expect("a row")).collect();
    assert_eq!(records.len(), json.len(), "{}", table.kind.name);
    for (record, object) in records.iter().zip(json) {
        assert_eq!(object.as_object().expect("an object").len(), columns.len());
        for (cell, column) in record.iter().zip(&columns) {
            let own = &object[*column];
            assert_eq!(read_back(cell, own), *own, "{}: {column}", table.kind.name);
            if own.is_string() {
                assert!(!cell.starts_with(['=', '+', '-', '@']), "a formula: {cell}");
            }
        }
    }
    assert!(bytes.ends_with(b"\r\n"));
}

proptest! {
    #![proptest_config(generate::cases(48))]

    #[test]
    fn generated_boards_agree_with_their_plans(text in generate::any_board(), seed in any::<u64>()) {
        let board = compile::sound(&text);
        let all = tables(&board);
        for (table, kind) in all.iter().zip(kinds()) {
            prop_assert_eq!(table.kind, kind);
            same_in_both_forms(table);
        }
        for seed in seed..=seed.saturating_add(5) {
            if let Some((job, plan)) = jobs::sound(&board, seed) {
                agrees(&board, &job, &plan);
            }
        }
    }
}

#[test]
fn a_text_never_becomes_a_formula() {
    let text = std::fs::read_to_string("tests/version-1/heron-8.yaml").expect("it is there");
    let hostile =
        ["=HYPERLINK(\"x\")", "+1", "-1", "@SUM(A1)", "'tis", "a, \"b\" c", "\u{ff1d}1", "plain"];
    for title in hostile {
        let quoted = title.replace('"', "\\\"");
        let changed = text.replacen("title: Pump 2", &format!("title: \"{quoted}\""), 1);
        assert_ne!(changed, text, "the demo board has such a header");
        let all = tables(&compile::sound(&changed));
        let rows = Rows::of(&all, "headers");
        let one = rows.only(&[("title", title)]);
        assert_eq!(rows.text(one, "title"), Some(title));
        same_in_both_forms(rows.0);
        let bytes = csv(rows.0).expect("memory takes all");
        let mut reader = csv::Reader::from_reader(bytes.as_slice());
        let cells: Vec<String> =
            reader.records().map(|row| row.expect("a row")[1].to_owned()).collect();
        let plain = title.starts_with(['a', 'p']);
        let expected = if plain { title.to_owned() } else { format!("'{title}") };
        assert!(cells.contains(&expected), "{cells:?}");
    }
}

#[test]
fn the_program_writes_them() {
    let ran = run(&["specs/heron-8.yaml", "--format", "json"]);
    assert_eq!((ran.status, ran.err.as_str()), (0, ""));
    let value: Value = serde_json::from_str(&ran.out).expect("one object");
    assert_eq!(value["schema"], 1);
    assert_eq!(value["board"], "Heron 8");
    let told: Vec<&String> = value["tables"].as_object().expect("an object").keys().collect();
    assert_eq!(told.len(), kinds().len());
    let ran = run(&["specs/heron-8.yaml", "--table", "pins"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    let all = tables(&demo::board("heron-8"));
    let pins = csv(Rows::of(&all, "pins").0).expect("memory takes all");
    assert_eq!(ran.out.as_bytes(), pins);

    let scratch = tempfile::tempdir().expect("a folder");
    let out = scratch.path().join("tables");
    let path = out.to_str().expect("a name");
    let ran = run(&["specs/heron-8.yaml", "--out", path]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    assert!(ran.out.ends_with("9 written, 0 unchanged\n"), "{}", ran.out);
    assert_eq!(std::fs::read(out.join("pins.csv")).expect("it is there"), pins);
    let ran = run(&["specs/heron-8.yaml", "--out", path]);
    assert_eq!(ran.out, "0 written, 9 unchanged\n");
    let ran = run(&["specs/heron-8.yaml", "--format", "json", "--out", path]);
    let text = std::fs::read_to_string(out.join("tables.json")).expect("it is there");
    assert_eq!(serde_json::from_str::<Value>(&text).expect("one object"), value, "{}", ran.out);
}

#[test]
fn what_cannot_be_written_is_told() {
    let ran = run(&["specs/heron-8.yaml"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("name one with `--table`"), "{}", ran.err);
    // A board that is not there is told instead.
    let ran = run(&["specs/none.yaml"]);
    assert_ne!(ran.status, 0);
    assert!(ran.err.contains("error[L051]") && !ran.err.contains("--table"), "{}", ran.err);
    let ran = run(&["specs/jobs/2231.yaml", "--table", "pins"]);
    assert!(ran.err.contains("this is a job"), "{}", ran.err);
    let scratch = tempfile::tempdir().expect("a folder");
    let path = scratch.path().join("wrong.yaml");
    std::fs::write(&path, "lidsheet: 1\n").expect("it can be written");
    let ran = run(&[path.to_str().expect("a name"), "--format", "json"]);
    let value: Value = serde_json::from_str(&ran.out).expect("one object");
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(value["tables"].is_null() && !value["problems"].as_array().expect("all").is_empty());
    let out = scratch.path().join("none");
    let ran = run(&[path.to_str().expect("a name"), "--out", out.to_str().expect("a name")]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(!Path::new(&out).exists(), "nothing is written of a refused board");
}

/// Every column of every table has its line, and says what it holds; the unit of a number is in its name.
#[test]
fn every_column_is_documented() {
    let ran = run(&["--columns"]);
    assert_eq!(ran.status, 0, "{}", ran.err);
    for kind in kinds() {
        let (_, rest) =
            ran.out.split_once(&format!("**{}**: each row is ", kind.name)).expect("it");
        let part = rest.split("\n**").next().expect("a part");
        for column in kind.columns {
            let line = part.lines().find(|line| line.starts_with(&format!("| {} |", column.name)));
            let line = line.unwrap_or_else(|| panic!("{} {}", kind.name, column.name));
            assert!(line.ends_with(". |"), "{line}");
            if column.kind == "number" {
                let unit = ["_mm", "_amps", "volts", "_watts"].iter();
                assert!(unit.clone().any(|unit| column.name.ends_with(unit)), "{line}");
            }
        }
        assert_eq!(part.matches("\n| ").count(), kind.columns.len() + 2, "{}", kind.name);
    }
    assert_snapshot!("tables__columns", ran.out);
}
