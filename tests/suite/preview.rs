//! The preview: what is shown for each state of the files, without a socket, and over real ones.
#![allow(clippy::print_stdout)] // The memory of a process of its own is told to the test that runs it.

use std::collections::BTreeSet;
use std::fs;
use std::io::{Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;
use std::time::{Duration, Instant};

use lidsheet::preview::{Asked, Desk, Shown, Standing};
use serde_json::Value;

use crate::readers::served::{Events, Served};

const SPECS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/specs");

fn text(name: &str) -> String {
    fs::read_to_string(Path::new(SPECS).join(name)).expect("it is there")
}

/// A folder with copies of demo files.
fn folder(names: &[&str]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    copy(names, folder.path());
    folder
}

fn copy(names: &[&str], to: &Path) {
    for name in names {
        let path = to.join(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::write(path, text(name)).expect("a copy");
    }
}

/// A desk on which the first file is open.
struct Opened {
    desk: Desk,
    asked: Asked,
}

impl Opened {
    fn new(paths: Vec<PathBuf>, asked: Asked) -> Self {
        let mut desk = Desk::new(paths, None);
        desk.open(std::slice::from_ref(&asked));
        Self { desk, asked }
    }

    fn shown(&self) -> Arc<Shown> {
        Arc::clone(self.desk.shown(&self.asked).expect("it is open"))
    }

    /// Writes a file, lets the desk know, and gives what is shown then.
    fn save(&mut self, path: &Path, text: impl AsRef<[u8]>) -> Arc<Shown> {
        fs::write(path, text).expect("written");
        self.desk.changed(&[path.to_owned()]);
        self.shown()
    }
}

fn ids(shown: &Shown) -> Vec<&str> {
    shown.pages.iter().map(|page| page.id.as_str()).collect()
}

fn drawn(shown: &Shown) -> String {
    shown.pages.iter().map(|page| &*page.svg).collect()
}

fn errors(shown: &Shown) -> usize {
    shown.problems.iter().filter(|problem| problem.is_error()).count()
}

#[test]
fn a_broken_file_keeps_its_last_good_sheets() {
    let folder = folder(&["wren-3.yaml"]);
    let path = folder.path().join("wren-3.yaml");
    let good = text("wren-3.yaml");
    let mut opened = Opened::new(vec![path.clone()], Asked::default());
    let first = opened.shown();
    assert_eq!((first.standing, errors(&first)), (Standing::Fresh, 0));
    assert!(first.pages.len() > 2 && first.edited.is_none());

    let broken = opened.save(&path, good.replacen("groups:", "grups:", 1));
    assert_eq!(broken.standing, Standing::Kept);
    assert!(errors(&broken) > 0);
    assert_eq!(ids(&broken), ids(&first));
    let line = good.lines().position(|line| line.starts_with("groups:")).expect("it is there") + 1;
    assert!(broken.problems.iter().any(|problem| problem.line == Some(line)), "{broken:?}");

    fs::remove_file(&path).expect("removed");
    opened.desk.changed(std::slice::from_ref(&path));
    let gone = opened.shown();
    assert_eq!((gone.standing, ids(&gone)), (Standing::Kept, ids(&first)));
    assert!(gone.problems.iter().any(|problem| problem.code == "L051"), "{:?}", gone.problems);

    let mended = opened.save(&path, good.replacen("name: Wren 3", "name: Wren 33", 1));
    assert_eq!((mended.standing, errors(&mended)), (Standing::Fresh, 0));
    assert_ne!(ids(&mended), ids(&first));
    assert!(drawn(&mended).contains("Wren 33"));
}

#[test]
fn what_did_not_change_is_no_news() {
    let folder = folder(&["wren-3.yaml"]);
    let path = folder.path().join("wren-3.yaml");
    let mut opened = Opened::new(vec![path.clone()], Asked::default());
    let first = opened.shown();
    opened.desk.changed(std::slice::from_ref(&path));
    opened.desk.look_round();
    assert!(Arc::ptr_eq(&first, &opened.shown()));
    // A comment is an edit, but gives the same pages.
    let comment = opened.save(&path, text("wren-3.yaml") + "# the end\n");
    assert!(!Arc::ptr_eq(&first, &comment));
    assert_eq!(ids(&first), ids(&comment));
}

/// Every header, bank and supply of a board is found on its pages when its line is edited.
#[test]
fn an_edit_is_shown_where_it_is_drawn() {
    let folder = folder(&["heron-8.yaml"]);
    let path = folder.path().join("heron-8.yaml");
    let good = text("heron-8.yaml");
    let mut opened = Opened::new(vec![path.clone()], Asked::default());
    let mut spots = BTreeSet::new();
    let mut edited = |begin: &str| {
        let at = good.lines().position(|line| line.starts_with(begin)).expect(begin);
        let with = |(index, line): (usize, &str)| match index == at {
            true => format!("{line} # edited\n"),
            false => format!("{line}\n"),
        };
        let shown = opened.save(&path, good.lines().enumerate().map(with).collect::<String>());
        let edit = shown.edited.clone().expect("an edit");
        assert_eq!((edit.line, edit.file.ends_with("heron-8.yaml")), (at + 1, true), "{begin}");
        opened.save(&path, &good);
        let spot = shown.spot.expect("a place");
        let page = &shown.pages[spot.page];
        assert!((0.0..page.height).contains(&spot.top), "{begin}: {spot:?}");
        (spot.page, spot.top, page.svg.to_string())
    };
    for code in ["J1", "J2", "J5", "J7", "J8"] {
        let (page, top, svg) = edited(&format!("  {code}:"));
        assert!(svg.contains(&format!("id=\"at-socket-{code}\"")), "{code}");
        assert!(page > 4);
        spots.insert((page, top.to_bits()));
    }
    // Two rows of them, or more.
    assert!(spots.len() > 1, "{spots:?}");
    let (page, _, svg) = edited("switches:");
    assert!(page > 0 && svg.contains("S1"), "{page}");
    let supplies = ["  four-wire:", "  three-wire:", "  wye:"].map(|begin| {
        let (page, top, _) = edited(begin);
        (page, top.to_bits())
    });
    assert_eq!(BTreeSet::from(supplies).len(), 3, "each supply has a drawing of its own");
    let (page, _, svg) = edited("layouts:");
    assert!(page > 1 && svg.contains("id=\"at-layouts\""));
    assert_eq!(edited("  W1:").0, 0);
    assert_eq!(edited("board:").0, 0);
}

/// A table and the board of a job are looked at, too.
#[test]
fn whatever_sheets_come_from_is_watched() {
    let names = ["curlew-10.yaml", "curlew-10-layouts.csv", "wren-3.yaml", "jobs/2233.yaml"];
    let folder = folder(&names);
    let at = |name: &str| folder.path().join(name);
    let asked = |name: &str| Asked {
        file: Some(at(name).to_string_lossy().into_owned()),
        ..Asked::default()
    };
    let mut curlew = Opened::new(vec![folder.path().to_owned()], asked("curlew-10.yaml"));
    assert!(curlew.desk.watched().contains(&at("curlew-10-layouts.csv")));
    let first = curlew.shown();
    let table = text("curlew-10-layouts.csv");
    let broken = curlew.save(&at("curlew-10-layouts.csv"), table.replacen(",2,", ",7,", 1));
    assert_eq!(broken.standing, Standing::Kept);
    assert_eq!(broken.edited.as_ref().map(|it| it.file.ends_with(".csv")), Some(true));
    let page = &broken.pages[broken.spot.expect("a place").page];
    assert!(page.svg.contains("id=\"at-layouts\""), "a table of layouts is shown there");
    fs::remove_file(at("curlew-10-layouts.csv")).expect("removed");
    curlew.desk.changed(&[at("curlew-10-layouts.csv")]);
    assert_eq!(curlew.shown().standing, Standing::Kept);
    // Nothing says that it is back but a look round.
    fs::write(at("curlew-10-layouts.csv"), &table).expect("written");
    curlew.desk.look_round();
    assert_eq!((curlew.shown().standing, ids(&curlew.shown())), (Standing::Fresh, ids(&first)));

    // The job alone is named; its board lies elsewhere.
    let mut job = Opened::new(vec![at("jobs")], asked("jobs/2233.yaml"));
    let first = job.shown();
    assert_eq!((first.choice.sheet, first.standing), ("lid-insert", Standing::Fresh));
    assert!(job.desk.watched().iter().any(|path| path.ends_with("wren-3.yaml")));
    let renamed = job.save(&at("wren-3.yaml"), text("wren-3.yaml").replace("Wren 3", "Wren 33"));
    assert!(drawn(&renamed).contains("Wren 33"));
}

#[test]
fn a_folder_may_go_and_come_back() {
    let folder = folder(&[]);
    let specs = folder.path().join("specs");
    copy(&["wren-3.yaml"], &specs);
    let mut opened = Opened::new(vec![specs.clone()], Asked::default());
    let first = opened.shown();
    assert_eq!(opened.desk.choices().files.len(), 1);
    let away = folder.path().join("away");
    fs::rename(&specs, &away).expect("moved");
    opened.desk.look_round();
    let gone = opened.shown();
    assert_eq!((gone.standing, ids(&gone)), (Standing::Kept, ids(&first)));
    assert!(errors(&gone) > 0 && opened.desk.choices().files.is_empty());
    fs::rename(&away, &specs).expect("moved back");
    opened.desk.look_round();
    assert_eq!((opened.shown().standing, ids(&opened.shown())), (Standing::Fresh, ids(&first)));

    // A place without any file gets one.
    let empty = tempfile::tempdir().expect("a folder");
    let mut opened = Opened::new(vec![empty.path().to_owned()], Asked::default());
    assert_eq!((opened.shown().standing, errors(&opened.shown())), (Standing::Nothing, 1));
    fs::write(empty.path().join("wren.yaml"), text("wren-3.yaml")).expect("written");
    opened.desk.look_round();
    assert_eq!((opened.shown().standing, errors(&opened.shown())), (Standing::Fresh, 0));
}

/// Templates of one's own are looked at, too; one that cannot be used keeps the last good sheets.
#[test]
fn templates_of_ones_own_are_shown() {
    let folder = folder(&["wren-3.yaml"]);
    let house = folder.path().join("house");
    let front = house.join("front.md");
    let built_in =
        fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/en/front.md"));
    let built_in = built_in.expect("it is there");
    let heading = "## Before you start";
    assert!(built_in.contains(heading));
    fs::create_dir(&house).expect("a folder");
    fs::write(&front, built_in.replace(heading, "## House rules")).expect("written");
    let asked = Asked::default();
    let mut desk = Desk::new(vec![folder.path().join("wren-3.yaml")], Some(house.clone()));
    desk.open(std::slice::from_ref(&asked));
    let shown = |desk: &Desk| Arc::clone(desk.shown(&asked).expect("it is open"));
    assert!(drawn(&shown(&desk)).contains("House rules"));
    assert!(desk.watched().contains(&front));
    fs::write(&front, built_in.replace(heading, "## Other rules")).expect("written");
    desk.changed(std::slice::from_ref(&front));
    let good = shown(&desk);
    assert!(drawn(&good).contains("Other rules") && good.edited.is_none());
    fs::write(&front, built_in + "{{ no_such_fact.at_all }}").expect("written");
    desk.changed(std::slice::from_ref(&front));
    let broken = shown(&desk);
    assert_eq!((broken.standing, ids(&broken)), (Standing::Kept, ids(&good)));
    assert!(broken.problems.iter().any(|told| told.file.ends_with("front.md")), "{broken:?}");
    // Without the folder nothing is shown in other words than were asked for.
    fs::remove_dir_all(&house).expect("removed");
    desk.look_round();
    assert_eq!((shown(&desk).standing, ids(&shown(&desk))), (Standing::Kept, ids(&good)));
}

/// The pages are those that `build` prints, and every kind, language and paper can be chosen.
#[test]
fn whatever_can_be_chosen_is_shown() {
    let folder = folder(&["wren-3.yaml", "jobs/2233.yaml"]);
    let mut desk = Desk::new(vec![folder.path().to_owned()], None);
    while desk.count_next() {}
    let choices = Arc::clone(desk.choices());
    let jobs: Vec<bool> = choices.files.iter().map(|listed| listed.job).collect();
    assert_eq!(jobs, [false, true]);
    let mut seen = BTreeSet::new();
    for listed in &choices.files {
        let kinds: &[&str] = match listed.job {
            false => &["wiring-sheets", "fault-finder", "intake-form"],
            true => &["lid-insert", "work-card", "fault-finder"],
        };
        for (language, paper) in [("en", "A4"), ("de", "A4"), ("en", "A5"), ("en", "letter")] {
            for kind in kinds {
                let some = |word: &str| Some(word.to_owned());
                let asked = Asked {
                    file: some(&listed.file),
                    sheet: some(kind),
                    language: some(language),
                    paper: some(paper),
                };
                desk.open(std::slice::from_ref(&asked));
                let shown = desk.shown(&asked).expect("it is open");
                assert_eq!(shown.standing, Standing::Fresh, "{asked:?}: {:?}", shown.problems);
                let choice = &shown.choice;
                assert_eq!((choice.sheet, choice.language, choice.paper), (*kind, language, paper));
                assert!(shown.pages[0].svg.contains(&format!("lang=\"{language}\"")));
                assert!(seen.insert(drawn(shown)), "two choices look the same: {asked:?}");
            }
        }
    }
    // What is not there is no reason to show nothing.
    let some = |word: &str| Some(word.to_owned());
    let odd = Asked {
        file: some("../../x"),
        sheet: some("lid-insert"),
        language: some("xx"),
        paper: some(""),
    };
    desk.open(std::slice::from_ref(&odd));
    let choice = &desk.shown(&odd).expect("it is open").choice;
    assert_eq!((choice.sheet, choice.language, choice.paper), ("wiring-sheets", "en", "A4"));
    assert!(choice.file.ends_with("wren-3.yaml"));
}

/// A thousand states of a file: sound, with mistakes, and cut off anywhere.
fn state(good: &str, number: usize) -> Vec<u8> {
    let lines: Vec<&str> = good.lines().collect();
    // Numbers that look like chance and are the same on every run.
    let luck = number.wrapping_mul(2_654_435_761) % 1_000_003;
    let line = luck % lines.len();
    match number % 5 {
        0 => good.replacen("name: Wren 3", &format!("name: Wren {number}"), 1).into_bytes(),
        // Half-written, even inside of a letter.
        1 => good.as_bytes()[..luck % good.len()].to_vec(),
        2 => {
            let without = lines.iter().enumerate().filter(|(index, _)| *index != line);
            without.map(|(_, line)| format!("{line}\n")).collect::<String>().into_bytes()
        }
        3 => {
            let with = |(index, text): (usize, &&str)| match index == line {
                true => format!("{text} # {number}\n"),
                false => format!("{text}\n"),
            };
            lines.iter().enumerate().map(with).collect::<String>().into_bytes()
        }
        _ => {
            let mut bytes = good.as_bytes().to_vec();
            let at = luck % bytes.len();
            bytes[at] = [b':', b'"', b'{', 0xff, b'\t', b'9', 0][luck % 7];
            bytes
        }
    }
}

/// The first line that differs, found in another way than the preview does.
fn differs(old: &str, new: &str) -> usize {
    let (old, new): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let mut at = 0;
    while at < old.len() && at < new.len() && old[at] == new[at] {
        at += 1;
    }
    (at + 1).min(new.len().max(1))
}

const EDITS: usize = 1_000;

#[test]
#[ignore = "run by a_thousand_edits_end_as_a_fresh_start in a process of its own, whose memory is measured"]
fn a_thousand_edits() {
    let folder = folder(&["wren-3.yaml"]);
    let path = folder.path().join("wren-3.yaml");
    let good = text("wren-3.yaml");
    let mut opened = Opened::new(vec![path.clone()], Asked::default());
    let mut last_text = good.clone();
    let (mut last_number, mut fresh, mut kept) = (0, 0, 0);
    for number in 1..=EDITS {
        // The last state is sound.
        let bytes = if number == EDITS { state(&good, 0) } else { state(&good, number) };
        let shown = opened.save(&path, &bytes);
        match (shown.standing, errors(&shown)) {
            (Standing::Fresh, 0) => fresh += 1,
            (Standing::Kept, 1..) => kept += 1,
            other => panic!("{number}: {other:?}"),
        }
        // What is no UTF-8 is shown as far as it is text.
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let lines = text.lines().count().max(1);
        for problem in &shown.problems {
            let there = problem.line.is_none_or(|line| (1..=lines + 1).contains(&line));
            assert!(there, "{number}: {problem:?}");
        }
        let edit = shown.edited.as_ref();
        let (at, count) = edit.map_or((0, 0), |edit| (edit.line, edit.number));
        if text == last_text {
            assert_eq!(count, last_number, "{number}: nothing was edited");
        } else {
            assert_eq!((at, count), (differs(&last_text, &text), last_number + 1), "{number}");
        }
        (last_text, last_number) = (text, count);
        if number % 100 == 0 {
            let again = Opened::new(vec![path.clone()], Asked::default()).shown();
            assert_eq!(shown.problems, again.problems, "{number}");
            if shown.standing == Standing::Fresh {
                assert_eq!(ids(&shown), ids(&again), "{number}");
            }
            println!("resident after {number} edits: {} KiB", resident("self"));
        }
    }
    assert!(fresh > 200 && kept > 200 && fresh + kept == EDITS, "{fresh} {kept}");
}

/// The memory of a process, KiB; 0 where the system does not tell.
fn resident(process: &str) -> u64 {
    let status = fs::read_to_string(format!("/proc/{process}/status")).unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    line.and_then(|line| line.trim().strip_suffix("kB")?.trim().parse().ok()).unwrap_or(0)
}

#[test]
fn a_thousand_edits_end_as_a_fresh_start() {
    let program = std::env::current_exe().expect("this program");
    let output = Command::new(program)
        .args(["--exact", "preview::a_thousand_edits", "--ignored", "--nocapture"])
        .output()
        .expect("it runs");
    let told = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{told}{}", String::from_utf8_lossy(&output.stderr));
    let sizes: Vec<u64> = told
        .lines()
        .filter_map(|line| line.split_once("edits: ")?.1.strip_suffix(" KiB")?.parse().ok())
        .collect();
    assert_eq!(sizes.len(), EDITS / 100, "{told}");
    let (early, late) = (sizes[2], sizes[sizes.len() - 1]);
    // What is remembered of shaped lines is bounded and may still fill up; a leak of a page for each edit
    // would be more than this.
    assert!(late < early + 8 * 1024, "memory grows: {sizes:?}");
}

fn program() -> PathBuf {
    assert_cmd::cargo::cargo_bin("lidsheet")
}

fn served(folder: &Path) -> Served {
    Served::start(&program(), folder, &["."])
}

/// What the pages of some news draw, fetched.
fn fetched(served: &Served, shown: &Value) -> String {
    let pages = shown["pages"].as_array().expect("pages");
    let fetch = |page: &Value| {
        let answer = served.get(&format!("/pages/{}.svg", page["id"].as_str().expect("an id")));
        assert_eq!(answer.status, 200);
        answer.text()
    };
    pages.iter().map(fetch).collect()
}

fn standing(is: &'static str) -> impl Fn(&Value) -> bool {
    move |shown| shown["standing"] == is
}

#[test]
fn a_saved_file_is_told_and_fetched() {
    let folder = folder(&["wren-3.yaml"]);
    let path = folder.path().join("wren-3.yaml");
    let good = text("wren-3.yaml");
    let served = served(folder.path());
    let mut events = served.listen("");
    assert!(events.head.contains("text/event-stream"), "{}", events.head);
    let choices = events.next("choices");
    assert_eq!(choices["files"][0]["file"], "./wren-3.yaml");
    let first = events.next("shown");
    assert!(fetched(&served, &first).contains("Wren 3"));

    fs::write(&path, good.replace("Wren 3", "Wren 33")).expect("written");
    let shown = events.until(|shown| fetched(&served, shown).contains("Wren 33"));
    assert_eq!((&shown["standing"], &shown["edited"]["number"]), (&"fresh".into(), &1.into()));
    fs::write(&path, &good[..good.len() / 2]).expect("written");
    let shown = events.until(standing("kept"));
    assert!(shown["problems"].as_array().is_some_and(|all| !all.is_empty()));
    assert!(fetched(&served, &shown).contains("Wren 33"));
    fs::remove_file(&path).expect("removed");
    let told = |shown: &Value| shown["problems"].to_string().contains("nothing of this name");
    events.until(|shown| standing("kept")(shown) && told(shown));
    fs::write(&path, &good).expect("written");
    let shown = events.until(standing("fresh"));
    assert_eq!(shown["pages"], first["pages"]);
}

#[test]
fn only_what_was_made_is_served_and_only_to_its_own_page() {
    let folder = folder(&["wren-3.yaml"]);
    let served = served(folder.path());
    let page = served.get("/");
    assert_eq!(page.status, 200);
    for line in [
        "Content-Security-Policy: default-src 'none';",
        "X-Content-Type-Options: nosniff",
        "Referrer-Policy: no-referrer",
        "Cache-Control: no-store",
        "frame-ancestors 'none'",
    ] {
        assert!(page.head.contains(line), "{line}: {}", page.head);
    }
    assert!(!page.head.contains("unsafe"));
    for path in ["/page.css", "/page.js", "/icon.svg", "/fonts/0.ttf", "/fonts/3.ttf"] {
        assert_eq!(served.get(path).status, 200, "{path}");
    }
    // No path names a file, however it is written.
    for path in [
        "/wren-3.yaml",
        "/../wren-3.yaml",
        "/pages/../wren-3.yaml",
        "/pages/../../wren-3.yaml.svg",
        "/pages/%2e%2e%2fwren-3.yaml.svg",
        "/..%2f..%2fetc/passwd",
        "//etc/passwd",
        "/fonts/../../Cargo.toml",
        "/fonts/4.ttf",
        "/pages/.svg",
        "/pages/0.svg",
        "/index.html",
    ] {
        assert_eq!(served.get(path).status, 404, "{path}");
    }
    let port = served.address.port();
    let ask = |first: &str, lines: &str| {
        served
            .send(format!("{first} HTTP/1.1\r\n{lines}\r\n").as_bytes())
            .expect("an answer")
            .status
    };
    let host = format!("Host: localhost:{port}\r\n");
    assert_eq!(ask("GET /", &host), 200);
    assert_eq!(ask("GET /", &format!("Host: rebound.example:{port}\r\n")), 421);
    assert_eq!(ask("GET /events", &format!("Host: rebound.example:{port}\r\n")), 421);
    assert_eq!(ask("GET /", ""), 400);
    assert_eq!(ask("GET /", &format!("{host}Origin: http://rebound.example\r\n")), 403);
    assert_eq!(ask("GET /", &format!("{host}Origin: http://localhost:{port}\r\n")), 200);
    assert_eq!(ask("POST /", &format!("{host}Content-Length: 0\r\n")), 405);
    assert_eq!(ask("GET /", &format!("{host}Content-Length: 5\r\n")), 413);
    assert_eq!(ask(&format!("GET /{}", "a".repeat(9_000)), &host), 431);
    let head = served.send(format!("HEAD / HTTP/1.1\r\n{host}\r\n").as_bytes()).expect("an answer");
    assert_eq!((head.status, head.body.len()), (200, 0));
    assert_eq!(served.send(b"\x16\x03\x01\x02\x00\r\n\r\n").expect("an answer").status, 400);
}

/// The system itself tells which addresses are listened on.
#[test]
fn it_listens_on_the_loopback_address_alone() {
    let folder = folder(&["wren-3.yaml"]);
    let served = served(folder.path());
    assert!(served.address.ip().is_loopback());
    let Ok(table) = fs::read_to_string(format!("/proc/{}/net/tcp", served.process())) else {
        return;
    };
    let port = format!(":{:04X}", served.address.port());
    // Its own address, and 0A for a socket that listens.
    let own: Vec<&str> = table
        .lines()
        .filter_map(|line| {
            let parts: Vec<&str> = line.split_whitespace().collect();
            let (address, state) = (*parts.get(1)?, *parts.get(3)?);
            (address.ends_with(&port) && state == "0A").then_some(address)
        })
        .collect();
    assert_eq!(own, [format!("0100007F{port}")], "{table}");
}

#[test]
fn a_port_that_is_taken_is_told() {
    let folder = folder(&["wren-3.yaml"]);
    let served = served(folder.path());
    let port = served.address.port().to_string();
    let mut command = assert_cmd::Command::cargo_bin("lidsheet").expect("it is built");
    command.current_dir(folder.path()).args(["preview", ".", "--port", &port]);
    let output = command.timeout(Duration::from_secs(30)).output().expect("it runs");
    let told = String::from_utf8_lossy(&output.stderr).into_owned();
    assert_eq!(output.status.code(), Some(2), "{told}");
    assert!(told.contains(&format!("port {port} is taken")) && told.contains("--port 0"), "{told}");
    assert_eq!(served.get("/").status, 200, "the first goes on");
}

/// Those who are slow or say nothing take their time from nobody, and are not kept for ever.
#[test]
fn slow_and_many_connections_are_bounded() {
    let folder = folder(&["wren-3.yaml"]);
    let served = served(folder.path());
    let start = Instant::now();
    let mut slow: Vec<TcpStream> = (0..20)
        .map(|_| {
            let mut stream = TcpStream::connect(served.address).expect("a connection");
            stream.write_all(b"GET / HTTP/1.1\r\nHost:").expect("sent");
            stream
        })
        .collect();
    let mut listening: Vec<Events> = (0..16).map(|_| served.listen("")).collect();
    assert!(listening.iter().all(|events| events.head.starts_with("HTTP/1.1 200")));
    assert!(served.listen("").head.starts_with("HTTP/1.1 503"), "one more would be too many");
    assert_eq!(served.get("/").status, 200);
    listening.iter_mut().for_each(|events| drop(events.next("shown")));
    // Who goes away makes room.
    listening.truncate(2);
    let room = Instant::now();
    while !served.listen("").head.starts_with("HTTP/1.1 200") {
        assert!(room.elapsed() < Duration::from_secs(20), "those who went are still counted");
        std::thread::sleep(Duration::from_millis(100));
    }
    for stream in &mut slow {
        stream.set_read_timeout(Some(Duration::from_secs(30))).expect("a limit");
        let mut answer = Vec::new();
        stream.read_to_end(&mut answer).expect("an end");
        assert!(answer.starts_with(b"HTTP/1.1 408"), "{}", String::from_utf8_lossy(&answer));
    }
    assert!(start.elapsed() < Duration::from_secs(60));
    // Far more than are answered at a time: some are turned away, and then all goes on.
    let crowd: Vec<TcpStream> =
        (0..200).filter_map(|_| TcpStream::connect(served.address).ok()).collect();
    drop(crowd);
    let calm = Instant::now();
    loop {
        let head = format!("GET / HTTP/1.1\r\nHost: {}\r\n\r\n", served.address);
        if served.send(head.as_bytes()).is_ok_and(|answer| answer.status == 200) {
            break;
        }
        assert!(calm.elapsed() < Duration::from_secs(30), "it did not go on");
        std::thread::sleep(Duration::from_millis(50));
    }
}
