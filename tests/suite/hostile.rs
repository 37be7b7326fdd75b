//! Inputs that were made to break the compiler: none makes it panic, hang or write what it should
//! not, and each is refused with a code.

use std::time::{Duration, Instant};

use crate::compile::{Outcome, compile, compile_bytes, compile_with};
use proptest::prelude::*;

const BASE: &str = include_str!("../diagnostics/base.yaml");
const HERON: &str = include_str!("../version-1/heron-8.yaml");

/// A debug build on a busy machine: far above what is needed, far below a hang.
const BOUND: Duration = Duration::from_secs(20);

fn bytes(bytes: impl Into<Vec<u8>>) -> Outcome {
    compile_bytes("board.yaml", bytes.into(), &mut |_| Err("no".into()))
}

fn refused(outcome: &Outcome, code: &str) {
    assert!(outcome.board.is_none());
    assert!(outcome.codes().contains(&code), "{:?}, not {code}", outcome.codes());
    assert!(outcome.shown().len() < 200_000, "{} bytes shown", outcome.shown().len());
}

/// Compiles and shows within the bound.
fn in_time(text: &str, code: &str) {
    let start = Instant::now();
    refused(&compile(text), code);
    let took = start.elapsed();
    assert!(took < BOUND, "{code} took {took:?}");
}

#[test]
fn an_alias_bomb_is_refused() {
    let mut text = String::from("a0: &a0 [x, x, x, x, x, x, x, x, x]\n");
    for level in 1..30 {
        let below = format!("*a{}", level - 1);
        text += &format!("a{level}: &a{level} [{}]\n", vec![below; 9].join(", "));
    }
    in_time(&text, "L007");
    in_time("a: &a [*a]\n", "L007");
    in_time("a: *nothing\n", "L007");
}

#[test]
fn depth_is_refused_quickly() {
    in_time(&"[".repeat(10 << 20), "L001");
    for open in ["[", "{a: ", "- ", "? ", "{? ", "[? "] {
        let text = open.repeat((1 << 20) / open.len());
        let start = Instant::now();
        let outcome = compile(&text);
        assert!(outcome.board.is_none() && !outcome.problems.is_empty(), "{open}");
        assert!(start.elapsed() < BOUND, "{open} took {:?}", start.elapsed());
    }
    let mut nested = String::new();
    for depth in 0..900 {
        nested += &format!("{}a:\n", " ".repeat(depth));
    }
    in_time(&nested, "L005");
}

/// The limit of the depth from both sides.
#[test]
fn sixteen_deep_is_read_and_seventeen_is_not() {
    let nested =
        |depth: usize| format!("parts: {}{}\n", "[".repeat(depth - 1), "]".repeat(depth - 1));
    assert!(!compile(&nested(16)).codes().contains(&"L005"));
    assert!(compile(&nested(17)).codes().contains(&"L005"));
}

#[test]
fn many_values_are_refused() {
    in_time(&format!("parts: [{}]\n", "1, ".repeat(30_000)), "L006");
    in_time(&"a: b\n".repeat(15_000), "L006");
    // Just below the limit: 9,000 unknown keys, each reported.
    let text = (0..9_000).map(|n| format!("key {n}: 1\n")).collect::<String>();
    let start = Instant::now();
    let outcome = compile(&text);
    assert!(outcome.problems.len() > 9_000);
    assert!(outcome.shown().contains("key 8999"));
    // The same in one line of the largest size.
    let text = (0..9_000).map(|n| format!("key {n:0100}: 1, ")).collect::<String>();
    let outcome = compile(&format!("{{{text}}}"));
    assert!(outcome.problems.len() > 9_000 && outcome.shown().len() < 9_000_000);
    assert!(start.elapsed() < BOUND, "{:?}", start.elapsed());
}

#[test]
fn what_is_not_text_is_refused() {
    refused(&bytes(b"a: \0b\n".to_vec()), "L003");
    refused(&bytes(b"a: \xe9\n".to_vec()), "L002");
    refused(&bytes(b"\xff\xfea\0:\0".to_vec()), "L002");
    refused(&bytes(b"a: \x1b[2J\n".to_vec()), "L003");
    refused(&bytes(b"".to_vec()), "L010");
    refused(&bytes(b"\n\n  \n# only words\n".to_vec()), "L010");
    refused(&bytes(b"---\n".to_vec()), "L010");
    refused(&bytes(b"\xef\xbb\xbf".to_vec()), "L010");
    refused(&bytes(vec![b'a'; (1 << 20) + 1]), "L001");
    let latin = bytes([BASE.as_bytes(), b"# caf\xe9\n"].concat());
    let place = latin.problems[0].primary.as_ref().expect("has a place").span;
    assert_eq!(place.start as usize, BASE.len() + 5);
}

/// The limit of the size from both sides.
#[test]
fn one_mebibyte_is_read_and_one_byte_more_is_not() {
    let filler = |size: usize| format!("{BASE}{}", "#".repeat(size - BASE.len()));
    assert!(compile(&filler(1 << 20)).board.is_some());
    refused(&compile(&filler((1 << 20) + 1)), "L001");
}

#[test]
fn a_byte_order_mark_is_borne() {
    assert!(compile(&format!("\u{feff}{BASE}")).board.is_some());
    assert!(compile(&BASE.replace('\n', "\r\n")).board.is_some());
}

#[test]
fn odd_yaml_is_refused_with_its_place() {
    for (text, code) in [
        ("a: 1\na: 2\n", "L011"),
        ("lidsheet: 1\nlidsheet: 1\n", "L013"),
        ("a: 'b\n", "L004"),
        ("a: \"b\n", "L004"),
        ("a: [1, 2\n", "L004"),
        ("a: {b: 1\n", "L004"),
        ("a: ]\n", "L004"),
        ("a:\n\t- b\n", "L004"),
        ("a: b: c\n", "L004"),
        ("a: @b\n", "L004"),
        ("a: `b`\n", "L004"),
        ("{a: 1}: 2\n", "L026"),
        ("[a]: 2\n", "L026"),
        ("? \n: 2\n", "L026"),
        ("%YAML 1.2\n---\nlidsheet: 1\n", "L012"),
        ("--- a\n--- b\n", "L009"),
        ("just words\n", "L014"),
        ("- a\n- b\n", "L014"),
        ("lidsheet: !!python/object:os.system 1\n", "L008"),
        ("<<: {lidsheet: 1}\n", "L011"),
        ("lidsheet: 99999999999999999999999\n", "L017"),
        ("lidsheet: 1.0\n", "L017"),
        ("lidsheet: on\n", "L017"),
    ] {
        let outcome = compile(text);
        refused(&outcome, code);
        assert!(outcome.problems.iter().all(|p| p.primary.is_some()), "{text:?}");
    }
}

#[test]
fn huge_numbers_are_refused() {
    for wrong in ["1e300", "99999999999", "-5", "NaN", ".inf", "0x10", "1_000", "٣", "½", "1,5"] {
        let text = BASE.replace("at: [60, 30]", &format!("at: [\"{wrong}\", 30]"));
        let outcome = compile(&text);
        assert!(outcome.board.is_none(), "{wrong}");
        let codes = outcome.codes();
        assert!(codes == ["L015"] || codes == ["L016"], "{wrong}: {codes:?}");
    }
    let text = BASE.replace("1: [2, 0]", "0: [2, 0]").replace("2: [1, 1]", "256: [1, 1]");
    refused(&compile(&text), "L016");
}

#[test]
fn large_banks_are_refused() {
    let bank = |ways: &str| {
        format!(
            "{BASE}switches:\n  S1: {{ part: main, at: [60, 65], on side: up, ways: {ways} }}\n"
        )
    };
    refused(&compile(&bank("{ 1-200: unused }")), "L015");
    refused(&compile(&bank("{ 1-16: { settings: { off: a }, shipped: off } }")), "L016");
    let single: Vec<String> = (1..=200).map(|way| format!("{way}: unused")).collect();
    refused(&compile(&bank(&format!("{{ {} }}", single.join(", ")))), "L018");
    assert!(compile(&bank("{ 1-16: unused }")).board.is_some());
    refused(&compile(&bank("{ 1-17: unused }")), "L015");
    refused(&compile(&bank("{ 4294967297: unused }")), "L015");
}

/// The limits of the sections, from both sides.
#[test]
fn limits_hold_on_both_sides() {
    let fuses = |count: usize| {
        let fuse = |n: usize| {
            let (x, y) = (4.0 + (n % 12) as f64 * 9.0, 460.0 + (n / 12) as f64 * 6.0);
            format!("  F{n}: {{ part: main, at: [{x}, {y}], rating: 5 A }}\n")
        };
        let fuses: String = (0..count).map(fuse).collect();
        BASE.replace("[120, 80]", "[120, 800]") + "fuses:\n" + &fuses
    };
    assert!(compile(&fuses(64)).board.is_some(), "{}", compile(&fuses(64)).shown());
    refused(&compile(&fuses(65)), "L018");
    let rows = |count: usize| {
        let rows: String = (1..=count)
            .map(|n| {
                let digit = |place: u32| (n / 3_usize.pow(place)) % 3;
                format!(
                    "    {n}: [{}, {}, {}, {}, {}, {}]\n",
                    digit(0),
                    digit(1),
                    digit(2),
                    digit(3),
                    digit(4),
                    digit(5)
                )
            })
            .collect();
        let matrix = "  columns: [pump 1, pump 2, pump 3, pump 4, pump 5, blower]\n  rows:\n";
        let text = BASE.split("layouts:\n").next().expect("starts");
        format!("{text}layouts:\n{matrix}{rows}")
    };
    // Most pumps are not served here; what counts is that the rows themselves are taken.
    assert!(!compile(&rows(255)).codes().contains(&"L018"));
    refused(&compile(&rows(256)), "L018");
}

#[test]
fn a_path_never_leaves_the_folder() {
    for path in [
        "../a.csv",
        "a/../../b.csv",
        "/etc/passwd",
        "C:\\a.csv",
        "c:/a.csv",
        "..",
        ".",
        "a//b.csv",
        "./a.csv",
        "a/",
        "\\\\host\\a",
        "a\\..\\b",
        "file:///a",
        "~/../a",
    ] {
        let rows = format!("layouts: {{ rows: '{path}' }}\n");
        let text = BASE.split("layouts:\n").next().expect("starts").to_owned() + &rows;
        let mut asked = Vec::new();
        let outcome = compile_bytes("board.yaml", text.into(), &mut |path| {
            asked.push(path.to_owned());
            Ok(b"layout,pump 1,blower\n1,2,0\n".to_vec())
        });
        refused(&outcome, "L022");
        assert!(asked.is_empty(), "{path} was asked for");
    }
}

fn with_table(table: &[u8]) -> Outcome {
    let text = BASE.split("layouts:\n").next().expect("starts").to_owned();
    compile_with(&(text + "layouts: { rows: t.csv }\n"), &[("t.csv", table)])
}

#[test]
fn odd_tables_are_refused() {
    for (table, code) in [
        (b"" as &[u8], "L025"),
        (b"\n\n\n", "L025"),
        (b"layout", "L308"),
        (b"layout,pump 1,blower", "L021"),
        (b"layout,pump 1,blower\n1,2\n", "L303"),
        (b"layout,pump 1,blower\n1,2,0,0\n", "L303"),
        (b"layout,pump 1,blower\n1,\"2\n\n,0\n", "L024"),
        (b"layout,pump 1,blower\n1,\"2\nx\",0\n", "L015"),
        (b"layout,pump 1,blower\n1,2,0\n1,1,1\n", "L102"),
        (b"layout,pump 1,blower\n0,2,0\n", "L016"),
        (b"layout,pump 1,blower\nx,2,0\n", "L015"),
        (b"layout,pump 1,blower\n1,2,\xff\n", "L002"),
        (b"layout,pump 1,blower\n1,2,\0\n", "L003"),
        (b"pump 1,blower\n2,0\n", "L025"),
        (b"layout\tpump 1\tblower\n1\t2\t0\n", "L025"),
    ] {
        let outcome = with_table(table);
        let shown = String::from_utf8_lossy(table);
        assert!(outcome.codes().contains(&code), "{shown:?}: {}", outcome.shown());
    }
    let start = Instant::now();
    refused(&with_table(&b"1,2,0\n".repeat((10 << 20) / 6)), "L001");
    let large = [b"layout,pump 1,blower\n" as &[u8], &b"1,2,0\n".repeat(170_000)].concat();
    assert!(with_table(&large).board.is_none());
    let quotes = b"\"".repeat((1 << 20) - 1);
    assert!(with_table(&quotes).board.is_none());
    let wide = [b"layout" as &[u8], &b",pump 1".repeat(140_000)].concat();
    assert!(with_table(&wide).board.is_none());
    assert!(start.elapsed() < BOUND, "{:?}", start.elapsed());
}

#[test]
fn nothing_steers_the_terminal() {
    for evil in ["\\e[31m", "\\x1b]0;title\\x07", "\\x9b2J", "\\u202e", "\\u2066", "\\r", "\\b"] {
        for (from, to) in [
            ("title: Blower", format!("title: \"x{evil}Blower\"")),
            ("J2:", format!("\"x{evil}J2\":")),
            ("group: south", format!("group: \"x{evil}south\"")),
            ("serves: blower", format!("serves: \"x{evil}blower\"")),
            ("revision: A", format!("\"x{evil}revision\": A")),
            ("1: [2, 0]", format!("\"x{evil}1\": [2, 0]")),
            ("T2: L2", format!("\"x{evil}T2\": \"x{evil}L2\"")),
        ] {
            let outcome = compile(&BASE.replacen(from, &to, 1));
            assert!(outcome.board.is_none(), "{to}");
            let steers = |c: char| {
                (c.is_control() && c != '\n')
                    || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
            };
            assert!(!outcome.shown().contains(steers), "{to}: {:?}", outcome.shown());
        }
    }
}

/// The compiler's own answer to anything: it ends, and a board comes only without errors.
fn survives(text: Vec<u8>) -> Result<(), TestCaseError> {
    let start = Instant::now();
    let outcome = bytes(text);
    let shown = outcome.shown();
    let errors = outcome.problems.iter().filter(|p| p.code.severity().word() == "error").count();
    prop_assert_eq!(outcome.board.is_some(), errors == 0, "{}", shown);
    prop_assert!(!outcome.codes().contains(&"L900"), "{}", shown);
    for problem in &outcome.problems {
        let labels = problem.primary.iter().chain(&problem.others);
        for span in labels.map(|label| label.span) {
            let text = &outcome.sources.file(span.file).text;
            prop_assert!(span.start <= span.end && span.end as usize <= text.len());
            prop_assert!(text.get(span.range()).is_some(), "splits a character");
        }
        prop_assert!(!problem.message.ends_with('.') && !problem.message.is_empty());
    }
    prop_assert!(start.elapsed() < BOUND);
    Ok(())
}

#[derive(Clone, Debug)]
enum Change {
    DeleteLine(usize),
    DoubleLine(usize),
    SwapLines(usize, usize),
    DeleteByte(usize),
    SetByte(usize, u8),
    Insert(usize, String),
    SwapWords(usize, usize),
}

fn change() -> impl Strategy<Value = Change> {
    let place = any::<usize>;
    prop_oneof![
        place().prop_map(Change::DeleteLine),
        place().prop_map(Change::DoubleLine),
        (place(), place()).prop_map(|(a, b)| Change::SwapLines(a, b)),
        place().prop_map(Change::DeleteByte),
        (place(), any::<u8>()).prop_map(|(at, byte)| Change::SetByte(at, byte)),
        (place(), "[ -~\\n\u{e4}\u{1b}]{0,6}").prop_map(|(at, text)| Change::Insert(at, text)),
        (place(), place()).prop_map(|(a, b)| Change::SwapWords(a, b)),
    ]
}

fn apply(text: Vec<u8>, change: Change) -> Vec<u8> {
    let lines = |text: &[u8]| -> Vec<Vec<u8>> {
        text.split_inclusive(|byte| *byte == b'\n').map(<[u8]>::to_vec).collect()
    };
    let mut text = text;
    let length = text.len().max(1);
    match change {
        Change::DeleteLine(at) => {
            let mut lines = lines(&text);
            if !lines.is_empty() {
                lines.remove(at % lines.len());
            }
            lines.concat()
        }
        Change::DoubleLine(at) => {
            let mut lines = lines(&text);
            if !lines.is_empty() {
                let at = at % lines.len();
                lines.insert(at, lines[at].clone());
            }
            lines.concat()
        }
        Change::SwapLines(a, b) => {
            let mut lines = lines(&text);
            let count = lines.len().max(1);
            if !lines.is_empty() {
                lines.swap(a % count, b % count);
            }
            lines.concat()
        }
        Change::DeleteByte(at) => {
            if !text.is_empty() {
                text.remove(at % length);
            }
            text
        }
        Change::SetByte(at, byte) => {
            if !text.is_empty() {
                text[at % length] = byte;
            }
            text
        }
        Change::Insert(at, insert) => {
            let at = at % length.min(text.len() + 1);
            text.splice(at..at, insert.into_bytes());
            text
        }
        Change::SwapWords(a, b) => {
            let whole = String::from_utf8_lossy(&text).into_owned();
            let is_word = |c: char| c.is_alphanumeric() || c == '-';
            let words: Vec<&str> = whole.split(|c| !is_word(c)).filter(|w| !w.is_empty()).collect();
            if words.is_empty() {
                return text;
            }
            let (a, b) = (words[a % words.len()], words[b % words.len()]);
            whole.replacen(a, b, 1).into_bytes()
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { max_shrink_iters: 200, ..crate::generate::cases(400) })]

    #[test]
    fn a_changed_board_is_read_or_refused(changes in prop::collection::vec(change(), 1..6)) {
        let text = changes.into_iter().fold(HERON.as_bytes().to_vec(), apply);
        survives(text)?;
    }

    #[test]
    fn any_bytes_are_read_or_refused(text in prop::collection::vec(any::<u8>(), 0..200)) {
        survives(text)?;
    }

    #[test]
    fn any_yaml_like_text_is_read_or_refused(text in "[-a-z0-9:,?!&*#|>@%`'\"{}\\[\\] \\n\\t\\\\]{0,120}") {
        survives(text.into_bytes())?;
    }

    /// Our reader of tables agrees with the `csv` crate on what both take.
    #[test]
    fn tables_are_read_as_the_csv_crate_reads_them(cells in prop::collection::vec(prop::collection::vec("[a-z \",\\n]{0,5}", 3), 1..5)) {
        let mut writer = csv::WriterBuilder::new().has_headers(false).from_writer(Vec::new());
        writer.write_record(["layout", "pump 1", "blower"]).expect("memory");
        for row in &cells {
            writer.write_record(row).expect("memory");
        }
        let table = writer.into_inner().expect("memory");
        let outcome = with_table(&table);
        prop_assert!(!outcome.codes().contains(&"L024"), "{:?} {}", String::from_utf8_lossy(&table), outcome.shown());
        let spec = outcome.spec.expect("the specification itself is sound");
        let read: Vec<Vec<String>> = spec.layouts.rows.entries.iter().filter_map(|row| row.cells.as_ref())
            .map(|cells| cells.iter().map(|cell| cell.value.clone()).collect()).collect();
        let expected: Vec<Vec<String>> = cells.iter()
            .map(|row| row[1..].iter().map(|cell| cell.trim().to_owned()).collect()).collect();
        prop_assert_eq!(read, expected);
    }
}
