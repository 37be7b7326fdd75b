//! The program from outside: what a user types, what comes out, what lies in the folder after.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Output;
use std::time::SystemTime;

use assert_cmd::Command;

use crate::another_language;

pub const GOOD: &str = include_str!("../version-1/heron-8.yaml");
const WREN: &str = include_str!("../version-1/wren-3.yaml");

/// The good board with a jumper on a group that does not exist.
fn bad() -> String {
    GOOD.replace("groups: [A, B], shipped: A", "groups: [A, B], shipped: C")
}

/// The good board with another title: other sheets.
fn other() -> String {
    GOOD.replace("name: Heron 8", "name: Heron 9")
}

/// A folder of its own, the program run in it, and what was there before the last run.
pub struct Project {
    folder: tempfile::TempDir,
    before: BTreeMap<String, (Vec<u8>, SystemTime)>,
    last: Option<Output>,
}

impl Project {
    pub fn new() -> Self {
        let folder = tempfile::tempdir().expect("a folder for the test");
        Self { folder, before: BTreeMap::new(), last: None }
    }

    pub fn at(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    pub fn file(self, path: &str, text: impl AsRef<[u8]>) -> Self {
        let path = self.at(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
        self
    }

    pub fn folder(self, path: &str) -> Self {
        fs::create_dir_all(self.at(path)).unwrap();
        self
    }

    #[cfg(unix)]
    pub fn link(self, path: &str, to: &str) -> Self {
        std::os::unix::fs::symlink(self.at(to), self.at(path)).unwrap();
        self
    }

    pub fn run(self, arguments: &str) -> Self {
        self.run_with(arguments, "")
    }

    /// Arguments parted by spaces; `input` on standard input.
    #[track_caller]
    pub fn run_with(mut self, arguments: &str, input: &str) -> Self {
        self.before = files(self.folder.path());
        let output = Command::cargo_bin("lidsheet")
            .unwrap()
            .args(arguments.split_whitespace())
            .current_dir(self.folder.path())
            .env_remove("NO_COLOR")
            .env("COLUMNS", "100")
            .write_stdin(input)
            .output()
            .expect("the program runs");
        self.last = Some(output);
        self
    }

    pub fn out(&self) -> String {
        String::from_utf8(self.last.as_ref().unwrap().stdout.clone()).unwrap()
    }

    pub fn err(&self) -> String {
        String::from_utf8(self.last.as_ref().unwrap().stderr.clone()).unwrap()
    }

    #[track_caller]
    pub fn status(self, expected: i32) -> Self {
        let found = self.last.as_ref().unwrap().status.code();
        assert_eq!(found, Some(expected), "\n{}\n{}", self.out(), self.err());
        self
    }

    #[track_caller]
    pub fn ok(self) -> Self {
        self.status(0)
    }

    #[track_caller]
    pub fn fails(self) -> Self {
        self.status(1)
    }

    #[track_caller]
    pub fn trouble(self) -> Self {
        self.status(2)
    }

    #[track_caller]
    pub fn says(self, words: &str) -> Self {
        assert!(self.out().contains(words), "{words:?} is not in\n{}", self.out());
        self
    }

    #[track_caller]
    pub fn complains(self, words: &str) -> Self {
        assert!(self.err().contains(words), "{words:?} is not in\n{}", self.err());
        self
    }

    #[track_caller]
    pub fn has(self, path: &str) -> Self {
        assert!(self.at(path).exists(), "{path} is not there");
        self
    }

    #[track_caller]
    pub fn lacks(self, path: &str) -> Self {
        assert!(!self.at(path).exists(), "{path} is there");
        self
    }

    /// The file was not touched by the last run.
    #[track_caller]
    pub fn same(self, path: &str) -> Self {
        let now = files(self.folder.path());
        assert!(self.before.contains_key(path), "{path} was not there before");
        assert!(now.get(path) == self.before.get(path), "{path} was touched");
        self
    }

    /// The file holds other bytes than before the last run.
    #[track_caller]
    pub fn changed(self, path: &str) -> Self {
        let now = files(self.folder.path());
        assert_ne!(now[path].0, self.before[path].0, "{path}");
        self
    }

    /// Nothing at all was touched by the last run.
    #[track_caller]
    pub fn untouched(self) -> Self {
        let now = files(self.folder.path());
        let names = |files: &BTreeMap<String, _>| files.keys().cloned().collect::<Vec<_>>();
        assert_eq!(names(&now), names(&self.before));
        for (path, held) in &now {
            assert!(self.before.get(path) == Some(held), "{path} was touched");
        }
        self
    }
}

/// All files under a folder with their bytes and times; links are not followed.
fn files(root: &Path) -> BTreeMap<String, (Vec<u8>, SystemTime)> {
    let mut found = BTreeMap::new();
    let mut waiting = vec![root.to_owned()];
    while let Some(folder) = waiting.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let entry = entry.unwrap();
            let (path, kind) = (entry.path(), entry.file_type().unwrap());
            if kind.is_dir() {
                waiting.push(path);
            } else if kind.is_file() {
                let name = path.strip_prefix(root).unwrap().to_string_lossy().replace('\\', "/");
                let time = entry.metadata().unwrap().modified().unwrap();
                found.insert(name, (fs::read(path).unwrap(), time));
            }
        }
    }
    found
}

const SHEETS: &str = "out/heron/wiring-sheets.pdf";

#[test]
fn a_second_build_writes_nothing() {
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .run("build")
        .ok()
        .has(SHEETS)
        .has("out/heron/board-plan.svg")
        .has("out/index.html")
        .says("1 board compiled")
        .run("build")
        .ok()
        .untouched()
        .says("no files written");
}

#[test]
fn a_changed_board_changes_its_own_sheets_only() {
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .file("specs/still.yaml", GOOD)
        .run("build")
        .ok()
        .file("specs/heron.yaml", other())
        .run("build")
        .ok()
        .changed(SHEETS)
        .same("out/still/wiring-sheets.pdf");
}

#[test]
fn a_failed_build_leaves_the_last_good_sheets() {
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .run("build")
        .ok()
        .file("specs/heron.yaml", bad())
        .file("specs/new.yaml", GOOD)
        .run("build")
        .fails()
        .same(SHEETS)
        .has("out/new/wiring-sheets.pdf")
        .complains("error[L1")
        .complains("specs/heron.yaml:")
        .says("1 refused");
}

/// A jumper that fuses stand round closely: no lead gets out, and its name has no place beside it.
fn walled_in() -> String {
    let places = [-1, 0, 1].iter().flat_map(|x| [-1, 0, 1].map(|y| (f64::from(*x), f64::from(y))));
    let fuses: String = places
        .filter(|place| *place != (0.0, 0.0))
        .enumerate()
        .map(|(index, (x, y))| {
            let (x, y) = (60.0 + 8.2 * x, 60.0 + 5.2 * y);
            format!("  F{}: {{ part: main, at: [{x}, {y}], rating: 20 A }}\n", index + 1)
        })
        .collect();
    let base = include_str!("../diagnostics/base.yaml");
    base.replace("W1: { part: main, at: [45, 20]", "W1: { part: main, at: [60, 60]")
        .replace("sockets:\n", &format!("fuses:\n{fuses}sockets:\n"))
}

#[test]
fn a_jumper_that_is_walled_in_is_named_all_the_same() {
    let project = Project::new().file("specs/heron.yaml", walled_in()).run("build").ok();
    let plan = std::fs::read_to_string(project.at("out/heron/board-plan.svg")).unwrap();
    assert!(plan.contains(">W1<"), "{plan}");
}

#[test]
fn what_the_build_did_not_make_is_left() {
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .file("out/heron/notes.txt", "mine")
        .file("out/heron/socket-J99.svg", "old")
        .file("out/other.txt", "mine")
        .run("build")
        .ok()
        .same("out/heron/notes.txt")
        .same("out/heron/socket-J99.svg")
        .same("out/other.txt")
        .says("out/heron/socket-J99.svg is from an earlier build");
}

#[test]
fn any_number_of_threads_gives_the_same_bytes() {
    let mut project = Project::new();
    for name in ["a", "b", "c", "d", "e"] {
        project = project.file(&format!("specs/{name}.yaml"), GOOD.replace("Heron 8", name));
    }
    let project =
        project.run("build --out one --threads 1").ok().run("build --out two --threads 2").ok();
    let bytes = |out: &str| -> Vec<(String, Vec<u8>)> {
        files(&project.at(out)).into_iter().map(|(name, (bytes, _))| (name, bytes)).collect()
    };
    let (one, two) = (bytes("one"), bytes("two"));
    assert!(one.len() > 10);
    assert!(one == two);
}

#[test]
fn paper_is_chosen() {
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .run("build")
        .ok()
        .run("build --paper letter")
        .ok()
        .changed(SHEETS);
}

#[test]
fn templates_of_ones_own_replace_those_compiled_in() {
    const PANEL: &str = include_str!("../../templates/en/panel.md");
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .run("build")
        .ok()
        .file("words/panel.md", PANEL.to_owned() + "\nOur own words.\n")
        .run("build --templates words")
        .ok()
        .changed(SHEETS)
        .same("out/heron/board-plan.svg")
        .run("build --templates words")
        .ok()
        .untouched()
        .file("words/panel.md", "# {{ no.such.fact }}\n")
        .run("build --templates words")
        .fails()
        .complains("error[L910]")
        .complains("words/panel.md:1:")
        .same(SHEETS)
        .file("words/panel.md", PANEL.to_owned() + "\n<b>loud</b>\n")
        .run("build --templates words")
        .fails()
        .complains("error[L911]")
        .same(SHEETS)
        .file("words/pannel.md", "# The panel\n")
        .run("build --templates words")
        .trouble()
        .complains("no template has this name")
        .same(SHEETS)
        .run("build --templates nowhere")
        .trouble()
        .same(SHEETS);
}

/// Compiling one board of two must not hide the other.
#[test]
fn the_index_lists_what_is_there() {
    let project = Project::new()
        .file("specs/heron.yaml", GOOD)
        .file("specs/other.yaml", GOOD.replace("Heron 8", "Otter & Sons 9"))
        .run("build")
        .ok();
    let index = |project: &Project| fs::read_to_string(project.at("out/index.html")).unwrap();
    assert!(index(&project).contains("Heron 8") && index(&project).contains("Otter &amp; Sons 9"));
    let project = project.run("build specs/heron.yaml").ok();
    assert!(index(&project).contains("href=\"other/wiring-sheets.pdf\""));
    assert!(index(&project).contains("Made by an earlier build"));
    let project = project.file("specs/heron.yaml", bad()).run("build").fails();
    assert!(index(&project).contains("href=\"heron/wiring-sheets.pdf\""));
    assert!(index(&project).contains("Otter &amp; Sons 9"));
}

#[test]
fn two_boards_of_one_name_are_refused() {
    Project::new()
        .file("specs/a/x.yaml", GOOD)
        .file("specs/b/X.yml", GOOD)
        .file("specs/y.yaml", GOOD)
        .run("build")
        .fails()
        .complains("error[L054]")
        .complains("specs/a/x.yaml")
        .complains("specs/b/X.yml")
        .lacks("out/x")
        .lacks("out/X")
        .has("out/y/wiring-sheets.pdf");
}

#[test]
fn a_name_that_cannot_be_a_folder_is_refused() {
    Project::new()
        .file("specs/index.html.yaml", GOOD)
        .file("specs/y.yaml", GOOD)
        .run("build")
        .fails()
        .complains("error[L055]")
        .has("out/y/wiring-sheets.pdf");
    Project::new().file("...yaml", GOOD).run("build ...yaml").fails().complains("error[L055]");
}

/// The page has the boards of one build; one that is older says so, here and in the list.
#[test]
fn the_field_page_is_made_when_it_is_asked_for() {
    let older = "note: out/field.html is from an earlier build; `--field-page` makes it anew";
    let project = Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .file("specs/field.html.yaml", GOOD)
        .run("build")
        .fails()
        .complains("error[L055]")
        .lacks("out/field.html");
    fs::remove_file(project.at("specs/field.html.yaml")).unwrap();
    let project =
        project.run("build --field-page").ok().says("wrote out/field.html").has("out/field.html");
    let index = |project: &Project| fs::read_to_string(project.at("out/index.html")).unwrap();
    assert!(index(&project).contains("<a href=\"field.html\">Field page</a></p>"));
    let project = project.run("build --field-page").ok().untouched();
    let project = project.run("build").ok().complains(older).same("out/field.html");
    assert!(index(&project).contains("Field page</a>: Made by an earlier build"));
    // Nothing of a board that is refused, and no page of no board.
    let broken = GOOD.replace("groups:", "grups:");
    project
        .file("specs/heron-8.yaml", broken)
        .run("build --field-page")
        .fails()
        .complains(older)
        .same("out/field.html");
}

#[test]
fn a_job_is_checked_with_its_board() {
    let job = include_str!("../version-1/jobs/2231.yaml");
    Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .file("specs/jobs/2231.yaml", job)
        .run("check")
        .ok()
        .says("1 board and 1 job checked: no errors, 2 warnings")
        .run("build")
        .ok()
        .has("out/2231/work-card.pdf")
        .has("out/2231/lid-insert.pdf")
        .has("out/2231/board-plan.svg")
        .says("1 board and 1 job compiled")
        .file("specs/jobs/2231.yaml", job.replace("breaker: 50 A", "breaker: 15 A"))
        .run("check specs/jobs")
        .fails()
        .complains("error[L617]")
        .file("specs/jobs/2231.yaml", job.replace("heron-8", "heron-9"))
        .run("check specs/jobs")
        .trouble()
        .complains("the board specs/heron-9.yaml cannot be read")
        .file("specs/jobs/2231.yaml", job.replace("../heron-8", "2231"))
        .run("check specs/jobs")
        .fails()
        .complains("this is a job, not the specification of a board")
        .file("specs/heron-8.yaml", "lidsheet: 1\n")
        .file("specs/jobs/2231.yaml", job)
        .run("check specs/jobs")
        .fails()
        .complains("the board specs/heron-8.yaml has an error")
        .complains("`lidsheet check specs/heron-8.yaml` shows where");
}

#[test]
fn an_output_that_cannot_be_written_leaves_the_others() {
    Project::new()
        .file("specs/a.yaml", GOOD)
        .file("specs/b.yaml", GOOD)
        .file("specs/c.yaml", GOOD)
        .folder("out/a/wiring-sheets.pdf")
        .file("out/b", "a file where a folder should be")
        .run("build")
        .trouble()
        .complains("error[L056]")
        .complains("a folder is in its place")
        .complains("something that is not a folder is in its place")
        .lacks("out/a/board-plan.svg")
        .has("out/c/wiring-sheets.pdf");
}

#[cfg(unix)]
#[test]
fn links_are_neither_followed_round_nor_replaced() {
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .link("specs/loop", "specs")
        .folder("out/heron")
        .file("theirs.pdf", "theirs")
        .link(SHEETS, "theirs.pdf")
        .run("build")
        .trouble()
        .complains("warning[L053]")
        .complains("a link is in its place")
        .same("theirs.pdf")
        .run("check")
        .ok()
        .run("check --deny-warnings")
        .fails();
}

#[cfg(unix)]
#[test]
fn a_table_behind_a_link_that_leaves_the_folder_is_refused() {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let read = |name: &str| fs::read(specs.join(name)).unwrap();
    Project::new()
        .file("specs/curlew.yaml", read("curlew-10.yaml"))
        .file("specs/curlew-10-layouts.csv", read("curlew-10-layouts.csv"))
        .run("check")
        .ok()
        .file("far/curlew.yaml", read("curlew-10.yaml"))
        .link("far/curlew-10-layouts.csv", "specs/curlew-10-layouts.csv")
        .run("check far")
        .trouble()
        .complains("leaves the folder");
}

#[cfg(unix)]
#[test]
fn a_pipe_is_not_waited_for() {
    let project = Project::new().folder("specs");
    let made = std::process::Command::new("mkfifo").arg(project.at("specs/a.yaml")).status();
    assert!(made.expect("mkfifo is there").success());
    project.run("build").trouble().complains("it is not a file");
}

#[test]
fn nothing_to_build_is_trouble() {
    Project::new()
        .run("build")
        .trouble()
        .complains("error[L051]")
        .complains("specs")
        .lacks("out")
        .folder("specs")
        .run("build")
        .trouble()
        .complains("error[L052]")
        .lacks("out");
}

#[test]
fn quiet_shows_problems_only() {
    Project::new()
        .file("specs/heron.yaml", GOOD)
        .run("check --quiet")
        .ok()
        .run("build --quiet")
        .ok()
        .has(SHEETS)
        .file("specs/heron.yaml", bad())
        .run("check -q")
        .fails()
        .complains("error[L");
    let project = Project::new().file("specs/heron.yaml", GOOD).run("build -q").ok();
    assert_eq!(project.out(), "");
}

#[test]
fn check_gives_json_alone_on_standard_output() {
    let project = Project::new()
        .file("specs/heron.yaml", bad())
        .run("check --format json nowhere specs")
        .trouble();
    assert_eq!(project.err(), "");
    let all: serde_json::Value = serde_json::from_str(&project.out()).expect("JSON");
    let all = all.as_array().expect("an array");
    let keys = ["code", "column", "edits", "end_column", "end_line", "file", "help", "line"];
    let keys = [&keys[..], &["message", "severity"]].concat();
    for problem in all {
        let mut found: Vec<_> = problem.as_object().unwrap().keys().map(String::as_str).collect();
        found.sort();
        assert_eq!(found, keys);
    }
    assert_eq!(all[0]["code"], "L051");
    assert_eq!(all[0]["file"], "nowhere");
    assert!(all[0]["line"].is_null());
    let shipped = all.iter().find(|p| p["file"] == "specs/heron.yaml").expect("the board's");
    // The line and column of the `C` in `shipped: C` of jumper W1.
    let text = bad();
    let line = text.lines().position(|line| line.contains("shipped: C")).unwrap();
    let column = text.lines().nth(line).unwrap().find("shipped: C").unwrap() + "shipped: ".len();
    assert_eq!(shipped["line"], line + 1);
    assert_eq!(shipped["column"], column + 1);
    assert_eq!(shipped["severity"], "error");
}

#[test]
fn a_sound_board_has_its_warnings_in_the_array_and_no_other() {
    let project = Project::new().file("a.yaml", GOOD).run("check a.yaml --format json");
    let all: serde_json::Value = serde_json::from_str(&project.out()).expect("JSON");
    let codes: Vec<_> =
        all.as_array().unwrap().iter().map(|p| (&p["code"], &p["severity"])).collect();
    assert_eq!(codes, [(&"L309".into(), &"warning".into())]);
    project.ok();
}

#[test]
fn check_reads_standard_input() {
    Project::new()
        .run_with("check -", GOOD)
        .ok()
        .says("1 board checked")
        .run_with("check -", &bad())
        .fails()
        .complains("standard input:")
        .run_with("check - specs", GOOD)
        .trouble()
        .complains("stands alone");
}

#[test]
fn check_explains_a_code() {
    Project::new()
        .run("check --explain l054")
        .ok()
        .says("L054")
        .says("same outputs")
        .run("check --explain L999")
        .trouble()
        .complains("no code `L999`")
        .run("check --explain L054 specs")
        .trouble();
}

#[test]
fn colours_are_chosen() {
    let project = Project::new().file("specs/heron.yaml", bad());
    let project = project.run("check").fails();
    assert!(!project.err().contains('\u{1b}'));
    let project = project.run("check --color always").fails();
    assert!(project.err().contains("\u{1b}["));
    let project = project.run("check --color never").fails();
    assert!(!project.err().contains('\u{1b}'));
}

#[test]
fn a_wrong_command_line_is_trouble() {
    for wrong in ["", "bild", "build --paper a0", "build --threads 0", "check --format xml", "plan"]
    {
        let project = Project::new().run(wrong).trouble();
        assert!(!project.err().is_empty() && project.out().is_empty(), "{wrong:?}");
    }
}

#[test]
fn help_is_as_it_was() {
    let mut all = String::new();
    let commands = ["build --help", "check --help", "plan --help", "handout --help"];
    for command in ["--help"].into_iter().chain(commands).chain(["completions --help"]) {
        let project = Project::new().run(command).ok();
        assert!(project.err().is_empty());
        all.push_str(&format!("$ lidsheet {command}\n{}\n", project.out()));
    }
    assert_snapshot!("cli__help_is_as_it_was", all);
}

#[test]
fn a_handout_is_made_beside_the_sheets() {
    let handout = "handout specs/heron-8.yaml --seed 1";
    Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .run("build")
        .ok()
        .run(&format!("{handout} --exercises 4"))
        .ok()
        .says("wrote out/heron-8/course-handout.pdf")
        .says("wrote out/heron-8/course-answers.pdf")
        .says("4 exercises, 2 files written, 0 unchanged")
        .has("out/heron-8/wiring-sheets.pdf")
        .lacks("out/heron-8/course-cards.pdf")
        .run(&format!("{handout} --exercises 4 --quiet"))
        .ok()
        .untouched()
        .run("build")
        .ok()
        .same("out/heron-8/course-handout.pdf")
        .same("out/heron-8/course-answers.pdf")
        .changed("out/index.html")
        .run("build")
        .ok()
        .untouched();
}

/// The index lists what lies there, whether this build or another command made it.
#[test]
fn the_index_lists_a_handout() {
    let project = Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .run("handout specs/heron-8.yaml --exercises 3 --seed 7 --cards")
        .ok()
        .file("specs/heron-9.yaml", other())
        .run("build specs/heron-9.yaml")
        .ok();
    let index = fs::read_to_string(project.at("out/index.html")).unwrap();
    for file in ["course-handout.pdf", "course-answers.pdf", "course-cards.pdf"] {
        assert!(index.contains(&format!("heron-8/{file}")), "{file}\n{index}");
    }
    assert!(!index.contains("heron-8/wiring-sheets.pdf"));
    let project = project.run("build specs/heron-8.yaml").ok();
    let index = fs::read_to_string(project.at("out/index.html")).unwrap();
    assert!(index.contains("heron-8/wiring-sheets.pdf"));
    assert_eq!(index.matches("heron-8/course-cards.pdf").count(), 1);
}

#[test]
fn cards_of_another_handout_are_told_of() {
    Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .run("handout specs/heron-8.yaml --exercises 3 --seed 1 --cards")
        .ok()
        .run("handout specs/heron-8.yaml --exercises 3 --seed 2")
        .ok()
        .says("note: out/heron-8/course-cards.pdf is from an earlier handout")
        .same("out/heron-8/course-cards.pdf");
}

#[test]
fn a_handout_says_what_is_wrong() {
    let project = Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .file("specs/jobs/2231.yaml", include_str!("../version-1/jobs/2231.yaml"))
        .file("bad.yaml", bad())
        .folder("none");
    let rest = "--exercises 3 --seed 1";
    let project = project.run(&format!("handout specs/jobs/2231.yaml {rest}")).trouble();
    let project = project.complains("this is a job; name the specification of its board");
    let project = project.run(&format!("handout specs {rest}")).trouble().complains("name one");
    let project = project.run(&format!("handout not-there.yaml {rest}")).trouble();
    let project = project.complains("there is nothing of this name");
    let project =
        project.run(&format!("handout none {rest}")).trouble().complains("no specification");
    let project = project.run(&format!("handout bad.yaml {rest}")).fails().complains("error[L1");
    let board = "handout specs/heron-8.yaml --seed 1";
    let project =
        project.run(&format!("{board} --exercises 0")).trouble().complains("at least one");
    let project =
        project.run(&format!("{board} --exercises 1000000")).trouble().complains("at most 200");
    let project =
        project.run(&format!("{board} --exercises x")).trouble().complains("whole number");
    let project = project.run(board).trouble().complains("--exercises");
    let project = project.run(&format!("{board} --exercises 3 --language xx")).trouble();
    let project = project.complains("the sheets are made in en");
    let project =
        project.run("handout specs/heron-8.yaml --exercises 3").trouble().complains("--seed");
    let project = project.run(&format!("{board} --exercises 3 --templates gone")).trouble();
    assert!(!project.at("out").exists(), "nothing was written");
}

#[test]
fn a_handout_takes_standard_input() {
    Project::new()
        .run_with("handout - --exercises 3 --seed 1 --paper a5", GOOD)
        .ok()
        .has("out/heron-8/course-handout.pdf")
        .run_with("handout - --exercises 3 --seed 1", &bad())
        .fails()
        .complains("standard input:");
}

#[test]
fn a_small_board_says_that_it_gives_fewer_exercises() {
    Project::new()
        .file("wren-3.yaml", include_str!("../version-1/wren-3.yaml"))
        .run("handout wren-3.yaml --exercises 200 --seed 1 --quiet")
        .ok()
        .complains("Wren 3 gives")
        .complains("with 200 asked for")
        .has("out/wren-3/course-handout.pdf");
}

#[test]
fn completions_are_written() {
    Project::new().run("completions bash").ok().says("_lidsheet()").says("--deny-warnings");
    Project::new().run("completions zsh").ok().says("#compdef lidsheet");
}

/// `lidsheet completions bash | head -1`
#[test]
fn a_reader_that_goes_away_is_no_error() {
    use std::process::{Command, Stdio};
    let mut child = Command::new(env!("CARGO_BIN_EXE_lidsheet"))
        .args(["completions", "bash"])
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success());
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

#[test]
fn how_easy_the_words_are_is_told_on_request() {
    let project = Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .file("specs/jobs/2231.yaml", include_str!("../version-1/jobs/2231.yaml"))
        .file("specs/worse.yaml", bad())
        .run("check --reading specs/heron-8.yaml specs/jobs")
        .ok();
    assert_snapshot!("cli__how_easy_the_words_are_is_told_on_request", project.out());
    // What is refused has no sheets to measure; the others are measured all the same.
    project
        .run("check --reading")
        .fails()
        .complains("error[L1")
        .says("specs/heron-8.yaml\npart")
        .run("check --reading specs/worse.yaml")
        .fails()
        .run("check --reading --format json")
        .trouble()
        .run("check --format json specs/heron-8.yaml")
        .ok()
        .says("\"code\": \"L309\"");
}

#[test]
fn hard_prose_of_a_specification_is_a_warning() {
    let plain = "Control board for a portable spa with up to three jet pumps and a blower.";
    let hard = "Sophisticated multifunctional circulation equipment administration. Considerable \
                configurability necessitates appropriately experienced professional personnel. \
                Unauthorised modification constitutes irresponsible misappropriation. \
                Comprehensive documentation facilitates responsible installation.";
    let board = GOOD.replace(plain, hard);
    assert_ne!(board, GOOD);
    Project::new()
        .file("specs/heron.yaml", &board)
        .run("check")
        .ok()
        .complains("warning[L704]")
        .run("check --deny-warnings")
        .fails();
}

#[test]
fn a_long_sentence_of_ones_own_template_is_told_once() {
    const PANEL: &str = include_str!("../../templates/en/panel.md");
    let long = vec!["word"; 26].join(" ");
    let project = Project::new()
        .file("specs/heron.yaml", GOOD)
        .file("specs/other.yaml", other())
        .file("words/panel.md", format!("{PANEL}\n{long}.\n"))
        .run("build --templates words")
        .ok()
        .complains("warning[L705]: a sentence of the template has 26 words")
        .complains("words/panel.md:");
    assert_eq!(project.err().matches("L705").count(), 1, "{}", project.err());
    project.run("build --templates words --deny-warnings").fails();
}

/// A phrase of one's own stands on the sheets; one that cannot be used is an error at its place, and
/// nothing is made.
#[test]
fn phrases_of_ones_own() {
    let project = Project::new().file("specs/wren-3.yaml", WREN);
    let project = project.run("build --out out specs").ok();
    let plain = fs::read_to_string(project.at("out/wren-3/board-plan.svg")).unwrap();
    assert!(plain.contains("key side of a header"));
    let project = project
        .file("mine/words.ftl", "legend_key = keyed side\n")
        .run("build --out mine-out --templates mine specs")
        .ok();
    let own = fs::read_to_string(project.at("mine-out/wren-3/board-plan.svg")).unwrap();
    assert!(own.contains("keyed side") && !own.contains("key side of a socket"));
    let project = project
        .file("mine/words.ftl", "legend_kez = keyed side\n")
        .run("build --out mine-out --templates mine specs")
        .fails()
        .complains("error[L913]: no sheet has a phrase `legend_kez`")
        .complains("mine/words.ftl:1:1");
    let project = project
        .file("mine/words.ftl", "header_takes = { $socket }: { DEVICE($device) }.\n")
        .run("build --out mine-out --templates mine specs")
        .fails()
        .complains("error[L914]: the phrase `header_takes` cannot be said");
    let project = project
        .file("mine/words.ftl", "header_takes = { $header\n")
        .run("build --out mine-out --templates mine specs")
        .fails()
        .complains("error[L912]: this is not how phrases are written");
    let project = project
        .file("mine/words.ftl", "signal_danger = TIP\n")
        .run("build --out mine-out --templates mine specs")
        .fails()
        .complains("error[L914]: the signal word of a safety message cannot be replaced")
        .complains("mine/words.ftl:1:1");
    // The last good sheets are left as they were.
    let left = fs::read_to_string(project.at("mine-out/wren-3/board-plan.svg")).unwrap();
    assert_eq!(left, own);
}

/// A folder that gives a language tag is a whole language: nothing of English stands beneath it, no
/// phrase, no file and no safety message may be lacking, and the list of sheets is in it, too.
#[test]
fn a_whole_language_by_files_alone() {
    let mut project = Project::new().file("specs/wren-3.yaml", WREN);
    for (name, text) in another_language::files() {
        project = project.file(&format!("xa/{name}"), text);
    }
    let project = project.run("build --out out --templates xa specs").ok();
    let index = fs::read_to_string(project.at("out/index.html")).unwrap();
    assert!(index.contains("<html lang=\"en-XA\">"), "{index}");
    let text = index.split('<').filter_map(|piece| piece.split_once('>')).map(|(_, text)| text);
    let heading = text.clone().find(|text| text.contains('\u{ab}')).expect("a phrase");
    assert!(heading.contains("\u{e5}ñð"), "{heading}");
    for english in ["Wiring", "sheets", "form", "revision"] {
        let shown = text.clone().skip(1).filter(|text| !text.contains('{'));
        let shown: Vec<&str> = shown.filter(|text| text.split(' ').any(|w| w == english)).collect();
        assert!(shown.is_empty(), "{english}: {shown:?}");
    }

    let cautions = fs::read_to_string(project.at("xa/cautions.md")).unwrap();
    let weaker = cautions.replacen("**DANGER**", "**NOTICE**", 1);
    assert_ne!(weaker, cautions);
    let project = project
        .file("xa/cautions.md", weaker)
        .run("build --out out --templates xa specs")
        .fails()
        .complains("error[L916]: the language lacks the safety message `front/isolate`")
        .file("xa/cautions.md", cautions);
    let faults = fs::read_to_string(project.at("xa/faults.ftl")).unwrap();
    let less = faults.replacen("breaker_trips =", "breaker_trip =", 1);
    let project = project
        .file("xa/faults.ftl", less)
        .run("build --out out --templates xa specs")
        .fails()
        .complains("error[L915]: the language lacks the phrase `breaker_trips`")
        .complains("error[L913]: no sheet has a phrase `breaker_trip`")
        .file("xa/faults.ftl", faults);
    fs::remove_file(project.at("xa/supply.md")).unwrap();
    project
        .run("build --out out --templates xa specs")
        .fails()
        .complains("error[L916]: the language lacks the file `supply.md`");
}
