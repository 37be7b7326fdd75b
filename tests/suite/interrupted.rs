//! Builds that are killed, stopped, run out of disk or meet one another. Whatever happens, every file is whole,
//! every folder is of one revision, and the next build leaves nothing behind that should not be there.
#![cfg(target_os = "linux")]
#![allow(clippy::print_stderr)] // What was left out is told to who runs it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use crate::generate::specimen::Dice;

const PROGRAM: &str = env!("CARGO_BIN_EXE_lidsheet");
const BOARD: &str = include_str!("../diagnostics/base.yaml");
const BOARDS: [&str; 3] = ["avocet", "bittern", "crake"];
const KILLS: usize = 300;

/// Every file under a folder with its bytes, by its path from there.
type Files = BTreeMap<String, Vec<u8>>;

fn files(root: &Path) -> Files {
    let mut found = Files::new();
    let mut waiting = vec![root.to_owned()];
    while let Some(folder) = waiting.pop() {
        // A folder that is just being taken away has nothing any more.
        for path in fs::read_dir(&folder).into_iter().flatten().flatten().map(|it| it.path()) {
            if path.is_dir() {
                waiting.push(path);
            } else if let Ok(bytes) = fs::read(&path) {
                let name = path.strip_prefix(root).unwrap().to_string_lossy().into_owned();
                found.insert(name, bytes);
            }
        }
    }
    found
}

/// What somebody else keeps beside the sheets of a board.
const NOTES: &str = "notes.txt";

/// The files of a folder of `all`, but for the notes.
fn of_folder(all: &Files, folder: &str) -> Files {
    let start = format!("{folder}/");
    let inside = all.iter().filter(|(name, _)| name.starts_with(&start) && !name.ends_with(NOTES));
    inside.map(|(name, bytes)| (name.clone(), bytes.clone())).collect()
}

/// Two revisions of a few boards, and what a build makes of each.
struct Revisions {
    folder: tempfile::TempDir,
    texts: [[String; 3]; 2],
    papers: [&'static str; 2],
    made: [Files; 2],
    /// How long a build takes.
    takes: Duration,
}

impl Revisions {
    /// `of` gives the text of a board and the paper for each of the two.
    fn new(of: [(&str, &'static str); 2]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        fs::create_dir(folder.path().join("specs")).unwrap();
        let texts = of.map(|(text, _)| {
            BOARDS.map(|board| text.replacen("name: ", &format!("name: {board} "), 1))
        });
        let papers = of.map(|(_, paper)| paper);
        let made = [Files::new(), Files::new()];
        let mut all = Self { folder, texts, papers, made, takes: Duration::ZERO };
        for index in 0..2 {
            let out = all.folder.path().join(format!("expected-{index}"));
            let start = Instant::now();
            succeeds(all.build(index, &out));
            all.takes = start.elapsed();
            all.made[index] = files(&out);
        }
        all
    }

    /// Two revisions of the boards, with other drawings, too.
    fn of_boards() -> Self {
        let other = BOARD.replace("revision: A", "revision: B").replace("W1", "W7");
        Self::new([(BOARD, "a4"), (&other, "a4")])
    }

    /// Writes the specifications of a revision; the command that builds them.
    fn build(&self, index: usize, out: &Path) -> Command {
        for (board, text) in BOARDS.iter().zip(&self.texts[index]) {
            let path = self.folder.path().join(format!("specs/{board}.yaml"));
            // A build that reads it now must not find it empty.
            if fs::read_to_string(&path).ok().as_ref() != Some(text) {
                fs::write(path, text).unwrap();
            }
        }
        let mut command = Command::new(PROGRAM);
        command.args(["build", "--paper", self.papers[index], "--out"]).arg(out);
        command.current_dir(self.folder.path());
        command.stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    }

    /// Whether every folder holds one revision, whole; gives which.
    #[track_caller]
    fn check(&self, out: &Path) -> Vec<usize> {
        let now = files(out);
        let mut found = Vec::new();
        for board in BOARDS {
            let here = of_folder(&now, board);
            let is = |index: &usize| of_folder(&self.made[*index], board) == here;
            let names = here.keys().collect::<Vec<_>>();
            found.push((0..2).find(is).unwrap_or_else(|| panic!("{board} is mixed: {names:?}")));
        }
        let list = String::from_utf8_lossy(&now["index.html"]);
        assert!(list.trim_end().ends_with("</html>"), "the list is whole");
        let manifest = serde_json::from_slice::<serde_json::Value>(&now["manifest.json"]);
        assert!(manifest.is_ok(), "the manifest is whole");
        found
    }
}

/// What is under a hidden name anywhere in a folder.
fn hidden(root: &Path) -> BTreeSet<String> {
    let folders = fs::read_dir(root).into_iter().flatten().flatten();
    let folders = folders.map(|entry| entry.file_name().to_string_lossy().into_owned());
    let all = files(root).into_keys().chain(folders);
    all.filter(|name| name.split('/').any(|part| part.starts_with('.'))).collect()
}

fn succeeds(mut command: Command) {
    let Output { status, stderr, .. } = command.output().unwrap();
    assert!(status.success(), "{}", String::from_utf8_lossy(&stderr));
}

fn is_done(child: &mut Child) -> bool {
    child.try_wait().unwrap().is_some()
}

/// Half of the kills come at any moment, half while something is being put in its place.
#[test]
fn a_killed_build_leaves_every_folder_of_one_revision() {
    let revisions = Revisions::of_boards();
    let out = revisions.folder.path().join("out");
    succeeds(revisions.build(0, &out));
    let notes = out.join("avocet").join(NOTES);
    fs::write(&notes, "mine").unwrap();
    let mut dice = Dice::new(7);
    let (mut left_over, mut mixed_boards, mut done) = (0, 0, 0);
    for round in 1..=KILLS {
        let mut child = revisions.build(round % 2, &out).spawn().unwrap();
        if dice.roll(2) == 0 {
            sleep(revisions.takes.mul_f64(dice.roll(1000) as f64 / 1000.0));
        } else {
            while hidden(&out).is_empty() && !is_done(&mut child) {}
            sleep(Duration::from_micros(dice.roll(3000)));
        }
        // It may have ended by itself.
        let _ = child.kill();
        done += usize::from(child.wait().unwrap().success());
        assert_eq!(fs::read_to_string(&notes).expect("it is still there"), "mine");
        left_over += usize::from(!hidden(&out).is_empty());
        let found = revisions.check(&out);
        mixed_boards += usize::from(found.iter().any(|it| *it != found[0]));
    }
    eprintln!(
        "{KILLS} kills: {done} too late, {left_over} left something over, {mixed_boards} between boards"
    );
    assert!(left_over > 10 && mixed_boards > 10 && done < KILLS / 2);
    succeeds(revisions.build(1, &out));
    assert_eq!(hidden(&out), BTreeSet::new());
    assert_eq!(fs::read_to_string(&notes).unwrap(), "mine");
    assert_eq!(revisions.check(&out), [1, 1, 1]);
}

/// It ends as shells expect, what was begun is finished, and nothing is left over; the next build makes the
/// rest.
#[test]
fn a_build_that_is_stopped_finishes_what_it_began() {
    let revisions = Revisions::of_boards();
    let out = revisions.folder.path().join("out");
    let (mut stopped, mut dice) = (0, Dice::new(11));
    for (name, status) in [("INT", 130), ("TERM", 143)] {
        for round in 0..12 {
            succeeds(revisions.build(round % 2, &out));
            let mut command = revisions.build(1 - round % 2, &out);
            let child = command.args(["--threads", "1"]).spawn().unwrap();
            sleep(revisions.takes.mul_f64(0.3 + dice.roll(700) as f64 / 1000.0));
            let id = child.id().to_string();
            Command::new("kill").args([&format!("-{name}"), &id]).output().unwrap();
            let Output { status: ended, stdout, .. } = child.wait_with_output().unwrap();
            // Before it began to watch the signal ended it at once; behind its last board nothing is left.
            if ended.code() == Some(status) {
                let told = String::from_utf8_lossy(&stdout);
                assert!(told.contains("; stopped, and "), "{told}");
                stopped += 1;
            } else {
                assert!(ended.code().is_none_or(|code| code == 0), "{ended:?}");
            }
            assert_eq!(hidden(&out), BTreeSet::new());
            revisions.check(&out);
        }
    }
    eprintln!("{stopped} of 24 were stopped on the way");
    assert!(stopped > 2);
}

#[test]
fn a_build_that_waits_can_be_stopped() {
    let revisions = Revisions::of_boards();
    let out = revisions.folder.path().join("out");
    fs::create_dir(&out).unwrap();
    let held = fs::File::open(&out).unwrap();
    held.lock().unwrap();
    let mut child = revisions.build(0, &out).spawn().unwrap();
    let mut told = [0; 5];
    child.stderr.as_mut().unwrap().read_exact(&mut told).unwrap();
    assert_eq!(&told, b"note:");
    Command::new("kill").args(["-INT", &child.id().to_string()]).output().unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(130));
    assert!(files(&out).is_empty());
}

/// The last one to come has the last word, on all of it.
#[test]
fn two_builds_at_once_take_turns() {
    let revisions = Revisions::new([(BOARD, "a4"), (BOARD, "letter")]);
    let out = revisions.folder.path().join("out");
    let mut told = 0;
    for _ in 0..10 {
        let both = [0, 1].map(|index| revisions.build(index, &out).spawn().unwrap());
        for child in both {
            let Output { status, stderr, .. } = child.wait_with_output().unwrap();
            let stderr = String::from_utf8_lossy(&stderr);
            assert!(status.success(), "{stderr}");
            told += usize::from(stderr.contains("waiting until it is done"));
        }
        assert_eq!(hidden(&out), BTreeSet::new());
        let found = revisions.check(&out);
        assert!(found.iter().all(|it| *it == found[0]), "{found:?}");
    }
    assert!(told > 0, "nobody had to wait");
}

#[test]
fn help_that_cannot_be_written_is_trouble() {
    let full = fs::File::options().write(true).open("/dev/full").unwrap();
    for arguments in [["--help", "--help"], ["build", "--help"], ["--version", "--verbose"]] {
        let mut command = Command::new(PROGRAM);
        command.args(arguments).stdout(full.try_clone().unwrap()).stderr(Stdio::null());
        assert_eq!(command.status().unwrap().code(), Some(2), "{arguments:?}");
    }
}

/// A small disk of one's own; `None` where the system does not give one.
struct Disk(PathBuf);

impl Disk {
    fn new(path: PathBuf) -> Option<Self> {
        fs::create_dir(&path).ok()?;
        let mut mount = Command::new("mount");
        mount.args(["-t", "tmpfs", "-o", "size=8m", "tmpfs"]).arg(&path);
        let mounted = mount.output().is_ok_and(|it| it.status.success());
        mounted.then_some(Self(path))
    }

    fn read_only(&self) {
        let mut mount = Command::new("mount");
        succeeds({
            mount.args(["-o", "remount,ro"]).arg(&self.0);
            mount
        });
    }
}

impl Drop for Disk {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(&self.0).output();
    }
}

/// Everything stays as it was; with room again the build goes on.
#[test]
fn a_full_disk_and_a_read_only_one_change_nothing() {
    let revisions = Revisions::of_boards();
    let Some(disk) = Disk::new(revisions.folder.path().join("disk")) else {
        eprintln!("left out: no disk can be mounted here");
        return;
    };
    let out = disk.0.join("out");
    succeeds(revisions.build(0, &out));
    let filler = disk.0.join("filler");
    for room in [0, 4 << 10, 32 << 10, 64 << 10] {
        // It is filled to the last byte, and then a little is given back.
        let _ = fs::write(&filler, vec![0; 9 << 20]);
        let full = fs::metadata(&filler).unwrap().len();
        fs::File::options().write(true).open(&filler).unwrap().set_len(full - room).unwrap();
        let Output { status, stderr, .. } = revisions.build(1, &out).output().unwrap();
        let stderr = String::from_utf8_lossy(&stderr);
        assert_eq!(status.code(), Some(2), "{room}: {stderr}");
        assert!(stderr.contains("error[L056]"), "{room}: {stderr}");
        revisions.check(&out);
        assert_eq!(hidden(&out), BTreeSet::new(), "{room}");
    }
    fs::remove_file(&filler).unwrap();
    succeeds(revisions.build(1, &out));
    assert_eq!(revisions.check(&out), [1, 1, 1]);
    disk.read_only();
    let Output { status, stderr, .. } = revisions.build(0, &out).output().unwrap();
    assert_eq!(status.code(), Some(2), "{}", String::from_utf8_lossy(&stderr));
    assert_eq!(revisions.check(&out), [1, 1, 1]);
}
