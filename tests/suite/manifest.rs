//! Nothing stale in the folder of outputs: what a build knows of earlier builds, what it deletes, and
//! what a mark tells.

use crate::cli::{GOOD, Project};

const WREN: &str = include_str!("../version-1/wren-3.yaml");
const JOB: &str = include_str!("../version-1/jobs/2231.yaml");

/// The mark of an output by the manifest.
fn mark(project: &Project, input: &str) -> String {
    let text = std::fs::read(project.at("out/manifest.json")).expect("a manifest");
    let read: serde_json::Value = serde_json::from_slice(&text).expect("JSON");
    let made = &read["inputs"][input];
    made["marks"]["en"]["now"].as_str().unwrap_or_else(|| panic!("{read:#}")).to_owned()
}

fn two_boards() -> Project {
    Project::new()
        .file("specs/heron-8.yaml", GOOD)
        .file("specs/wren-3.yaml", WREN)
        .run("build")
        .ok()
}

#[test]
fn what_no_input_makes_is_told_and_deleted_on_request() {
    let project = two_boards().file("out/wren-3/mine.txt", "mine");
    std::fs::remove_file(project.at("specs/wren-3.yaml")).unwrap();
    let project =
        project.run("build").ok().says("note: out/wren-3/wiring-sheets.pdf is from an earlier");
    let project = project.run("build --deny-stale").fails().has("out/wren-3/wiring-sheets.pdf");
    let project = project
        .run("build --prune --deny-stale")
        .ok()
        .says("deleted out/wren-3/wiring-sheets.pdf")
        .lacks("out/wren-3/wiring-sheets.pdf")
        .lacks("out/wren-3/board-plan.svg")
        .has("out/wren-3/mine.txt")
        .has("out/heron-8/wiring-sheets.pdf");
    let project = project.run("build --prune --deny-stale").ok();
    assert!(!project.out().contains("deleted"), "{}", project.out());
}

/// A build of one board of many says nothing of the others, and deletes nothing of theirs.
#[test]
fn a_build_of_one_leaves_the_others() {
    two_boards()
        .run("build specs/heron-8.yaml --prune --deny-stale")
        .ok()
        .has("out/wren-3/wiring-sheets.pdf")
        .run("build --deny-stale")
        .ok();
}

#[test]
fn what_somebody_changed_is_not_deleted() {
    let project = two_boards().file("out/wren-3/board-plan.svg", "<svg/>");
    std::fs::remove_file(project.at("specs/wren-3.yaml")).unwrap();
    project
        .run("build --prune")
        .ok()
        .says("out/wren-3/board-plan.svg is from an earlier build, and somebody changed it")
        .has("out/wren-3/board-plan.svg")
        .lacks("out/wren-3/wiring-sheets.pdf");
}

/// What is refused now keeps its last sheets, and they are not stale.
#[test]
fn a_refused_board_keeps_its_sheets() {
    let bad = GOOD.replace("groups: [A, B], shipped: A", "groups: [A, B], shipped: C");
    two_boards()
        .file("specs/heron-8.yaml", bad)
        .run("build --prune")
        .fails()
        .has("out/heron-8/wiring-sheets.pdf")
        .file("specs/heron-8.yaml", GOOD)
        .run("build --deny-stale")
        .ok();
}

#[test]
fn a_folder_of_another_board_is_not_taken_over() {
    let project = Project::new().file("a/x.yaml", GOOD).run("build a").ok().file("b/x.yaml", WREN);
    let before = std::fs::read(project.at("out/x/wiring-sheets.pdf")).unwrap();
    let project = project.run("build b").fails().complains("error[L054]").complains("a/x.yaml");
    assert_eq!(std::fs::read(project.at("out/x/wiring-sheets.pdf")).unwrap(), before);
    // It was moved: then it is the same board.
    std::fs::remove_file(project.at("a/x.yaml")).unwrap();
    project.run("build b").ok();
}

#[test]
fn a_manifest_that_is_not_ours_is_left_alone() {
    let text = "{ \"lidsheet\": 1, \"inputs\": 7 }";
    let project = two_boards().file("out/manifest.json", text).run("build --prune");
    let project = project.fails().complains("error[L057]").has("out/wren-3/wiring-sheets.pdf");
    assert_eq!(std::fs::read_to_string(project.at("out/manifest.json")).unwrap(), text);
}

#[test]
fn another_board_under_the_same_revision_is_a_warning() {
    let moved = GOOD.replacen("shipped: B", "shipped: A", 1);
    let project = two_boards().file("specs/heron-8.yaml", &moved).run("build").ok();
    let project = project.complains("warning[L058]");
    // The sheets are those of the new state now.
    let project = project.run("build").ok();
    assert!(!project.err().contains("L058"), "{}", project.err());
    let dated = moved.replace("revision: D", "revision: E").replacen("shipped: A", "shipped: B", 1);
    let project = project.file("specs/heron-8.yaml", dated).run("build").ok();
    assert!(!project.err().contains("L058"), "{}", project.err());
}

#[test]
fn a_mark_tells_whose_sheets_it_is_on_and_whether_they_are_todays() {
    let project = two_boards().file("specs/jobs/2231.yaml", JOB).run("build").ok();
    let (board, job) =
        (mark(&project, "../specs/heron-8.yaml"), mark(&project, "../specs/jobs/2231.yaml"));
    assert_ne!(board, job);
    // It is what the sheets show.
    let of = |name: &str| {
        String::from_utf8_lossy(&std::fs::read(project.at(name)).unwrap()).into_owned()
    };
    assert!(of("out/index.html").contains(&board) && of("out/index.html").contains(&job));

    let project =
        project.run(&format!("check --mark {board}")).ok().says("today's sheets of board Heron 8");
    let loose = job.to_lowercase().replace('-', "");
    let project = project.run(&format!("check --mark {loose}")).ok().says("job 2231");
    let project = project.run("check --mark 2222-2222").fails().says("no board and no job");
    let project = project.run("check --mark 1111-1111").trouble().complains("is no mark");

    // Another state: the old mark is known, and is not today's; a change of the board is one of the job.
    let other = GOOD.replace("revision: D", "revision: E");
    let project = project.file("specs/heron-8.yaml", other);
    let project =
        project.run(&format!("check --mark {job}")).fails().says("NOT TODAY'S").says("2231");
    let project = project.run("build").ok();
    let new = mark(&project, "../specs/heron-8.yaml");
    let project =
        project.run(&format!("check --mark {board}")).fails().says("NOT TODAY'S").says(&new);
    let project = project.says("revision D of");
    std::fs::remove_file(project.at("specs/jobs/2231.yaml")).unwrap();
    project.run(&format!("check --mark {job}")).fails().says("gone or has errors now");
}

/// Make reads the rules, and makes anew what an input is newer than; JSON holds the same.
#[test]
fn dependencies_name_every_input_of_every_output() {
    let table = "layout,pump 1,pump 2\n1,1,0\n2,2,1\n";
    let project = two_boards()
        .file("specs/jobs/2231.yaml", JOB)
        .file("specs/unread.csv", table)
        .run("build --deps out/build.d")
        .ok()
        .has("out/build.d");
    let rules = std::fs::read_to_string(project.at("out/build.d")).unwrap();
    let rule = |output: &str| -> Vec<String> {
        let start =
            rules.find(&format!("{output}:")).unwrap_or_else(|| panic!("{output}\n{rules}"));
        let rest = &rules[start + output.len() + 1..];
        let mut lines = rest.split('\n');
        let mut inputs = Vec::new();
        for line in lines.by_ref().skip(1) {
            inputs.push(line.trim().trim_end_matches(" \\").to_owned());
            if !line.ends_with('\\') {
                break;
            }
        }
        inputs
    };
    assert_eq!(rule("out/wren-3/wiring-sheets.pdf"), ["specs/wren-3.yaml"]);
    // A job is made of its board, too.
    assert_eq!(rule("out/2231/lid-insert.pdf"), ["specs/heron-8.yaml", "specs/jobs/2231.yaml"]);
    assert!(!rules.contains("unread.csv") && !rules.contains("templates/en"), "{rules}");

    // After a failed build the refused file stands there with what was read for it.
    let bad = GOOD.replace("groups: [A, B], shipped: A", "groups: [A, B], shipped: C");
    let project =
        project.file("specs/heron-8.yaml", bad).run("build --deps out/build.json").fails();
    let text = std::fs::read(project.at("out/build.json")).unwrap();
    let read: serde_json::Value = serde_json::from_slice(&text).unwrap();
    assert!(read["outputs"].get("out/wren-3/wiring-sheets.pdf").is_some(), "{read:#}");
    assert!(read["refused"].get("specs/heron-8.yaml").is_some(), "{read:#}");
    let job = read["refused"]["specs/jobs/2231.yaml"].as_array().expect("refused with its board");
    assert!(job.iter().any(|input| input == "specs/heron-8.yaml"), "{job:?}");
}

/// Each language in a folder of its own, with a mark of its own; what one language made alone before is
/// stale then.
#[test]
fn several_languages_lie_side_by_side() {
    let project = Project::new().file("specs/wren-3.yaml", WREN).run("build").ok();
    let english = mark(&project, "../specs/wren-3.yaml");
    let project = project
        .run("build --language en,fr --prune")
        .ok()
        .has("out/wren-3/en/wiring-sheets.pdf")
        .has("out/wren-3/fr/wiring-sheets.pdf")
        .says("deleted out/wren-3/wiring-sheets.pdf");
    assert_eq!(mark(&project, "../specs/wren-3.yaml"), english);
    let text = std::fs::read_to_string(project.at("out/index.html")).unwrap();
    assert!(text.contains("wren-3/fr/wiring-sheets.pdf") && text.contains("fran\u{e7}ais"));
    let project =
        project.run("build --language en,xx").trouble().complains("the sheets are made in en");
    project.run("build --language fr,fr").trouble().complains("twice");
}

/// Handouts and change sheets are no strangers: a build leaves them, and they go with their board.
#[test]
fn what_other_commands_made_is_known() {
    let project = two_boards()
        .run("handout specs/wren-3.yaml --exercises 4 --seed 1 --cards")
        .ok()
        .file("old/wren-3.yaml", WREN.replace("revision: ", "revision: Z"))
        .run("changes old/wren-3.yaml specs/wren-3.yaml --out out/wren-3")
        .status(1)
        .has("out/wren-3/change-sheet.pdf");
    let text = std::fs::read_to_string(project.at("out/manifest.json")).expect("a manifest");
    for name in ["course-handout", "course-answers", "course-cards", "change-sheet"] {
        assert!(text.contains(&format!("\"wren-3/{name}.pdf\"")), "{name}: {text}");
    }
    let project = project
        .run("build --deny-stale --prune")
        .ok()
        .has("out/wren-3/course-cards.pdf")
        .has("out/wren-3/change-sheet.pdf")
        // Without cards those of before are of an earlier handout.
        .run("handout specs/wren-3.yaml --exercises 4 --seed 2")
        .ok()
        .run("build --deny-stale")
        .fails()
        .says("note: out/wren-3/course-cards.pdf is from an earlier build")
        .run("build --deny-stale --prune")
        .ok()
        .lacks("out/wren-3/course-cards.pdf")
        .has("out/wren-3/course-handout.pdf");
    std::fs::remove_file(project.at("specs/wren-3.yaml")).unwrap();
    project
        .run("build --prune --deny-stale")
        .ok()
        .says("deleted out/wren-3/course-handout.pdf")
        .says("deleted out/wren-3/change-sheet.pdf")
        .lacks("out/wren-3");
}

/// A handout before any build: the build then takes its folder as its own.
#[test]
fn a_handout_may_come_first() {
    let project = Project::new()
        .file("specs/wren-3.yaml", WREN)
        .run("handout specs/wren-3.yaml --exercises 4 --seed 1")
        .ok()
        .has("out/manifest.json");
    let noted = |project: &Project| -> (Vec<String>, usize) {
        let text = std::fs::read(project.at("out/manifest.json")).expect("it is there");
        let manifest: serde_json::Value = serde_json::from_slice(&text).expect("JSON");
        let made = &manifest["inputs"]["../specs/wren-3.yaml"];
        let names = |of: &serde_json::Value| -> Vec<String> {
            of.as_object().map(|all| all.keys().cloned().collect()).unwrap_or_default()
        };
        (names(&made["others"]["handout"]), names(&made["files"]).len())
    };
    let handout = ["wren-3/course-answers.pdf", "wren-3/course-handout.pdf"].map(str::to_owned);
    // The handout is noted before there are sheets, and stays noted when there are.
    assert_eq!(noted(&project), (handout.to_vec(), 0));
    let project = project.run("build --deny-stale").ok();
    let (kept, sheets) = noted(&project);
    assert_eq!(kept, handout);
    assert!(sheets > 3, "{sheets}");
    project.run("build --deny-stale --prune").ok().has("out/wren-3/course-handout.pdf");
}
