//! The prose of all sheets of the demo boards and jobs, in our own words.
use std::path::Path;

use lidsheet::build;
use lidsheet::compile::{self, Content};
use lidsheet::diagnostic::Problems;
use lidsheet::document::Document;
use lidsheet::page::Paper;
use lidsheet::sheet::{
    ChangeSheet, Figure, Section, SheetJob, SoundJob, Templates, board_fault_finder, change_sheet,
    figures, intake_form, job_fault_finder, lid_insert, sections, wiring_sheets, work_card,
};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::words::{Language, english};

/// A sheet and its sections.
pub struct Sheet {
    /// `heron-8.yaml, wiring sheets`.
    pub name: String,
    /// Those with prose.
    pub sections: Vec<Section>,
}

/// Every sheet of every file in `specs/` and `tests/inserts/`; `own` takes the place of templates.
pub fn sheets(own: &[(&str, String)]) -> (Vec<Sheet>, Problems) {
    let (mut all, mut problems) = sheets_in(english(), own);
    change_sheet_of_heron(own, &mut problems, &mut all);
    assert!(all.len() > 20, "{} sheets were found", all.len());
    (all, problems)
}

/// The same in a language, without change sheets.
pub fn sheets_in(language: &'static Language, own: &[(&str, String)]) -> (Vec<Sheet>, Problems) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let paths = ["specs", "tests/inserts"].map(|folder| root.join(folder));
    let mut problems = Problems::default();
    let mut set = Typesetter::new();
    let mut all = Vec::new();
    for checked in build::check(&paths, &mut Problems::default()) {
        let file = checked.shown.rsplit('/').next().unwrap_or_default().to_owned();
        let mut sources = Sources::default();
        let mut templates = Templates::in_language(language, &mut sources);
        let words = language.words();
        for (name, text) in own {
            let id = sources.add(*name, text.as_str());
            assert!(templates.replace(name, id, text), "{name}");
        }
        let mut take = |what: &str, document: &Document| {
            all.push(Sheet { name: format!("{file}, {what}"), sections: sections(document) });
        };
        match &*checked.content_in(language.tag) {
            Content::Board(board) => {
                let figures = figures(board, &words, &mut set, Paper::A4);
                let sheets = wiring_sheets(board, &figures, &templates, Paper::A4, &mut problems);
                take("wiring sheets", &sheets.expect("the templates are sound"));
                let finder = board_fault_finder(board, &templates, &mut problems);
                let finder = finder.expect("the template is sound");
                take("fault finder", &finder.expect("its layouts can be planned"));
                let form = intake_form(board, &file, &templates, &mut problems);
                take("intake form", &form.expect("the template is sound"));
            }
            Content::Job(Some(planned)) => {
                let (board, job) = (&planned.board, &planned.job);
                let job = SoundJob::of(board, job, &planned.plan).expect("the jobs are sound");
                let card = work_card(&job, &mut set, Paper::A4, &templates, &mut problems);
                take("work card", &card.expect("the template is sound"));
                let space = vec![Figure::no_board_plan()];
                let insert =
                    lid_insert(&job, space, &mut set, Paper::A4, &templates, &mut problems);
                take("lid insert", &insert.expect("the template is sound"));
                let finder = job_fault_finder(&job, &templates, &mut problems);
                take("fault finder", &finder.expect("the template is sound"));
            }
            other => panic!("{}: {other:?}", checked.shown),
        }
    }
    (all, problems)
}

/// The change sheet of a demo board with a key, a fuse, two groups and a name that are others.
fn change_sheet_of_heron(own: &[(&str, String)], problems: &mut Problems, all: &mut Vec<Sheet>) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let specs = root.join("specs");
    let folder = tempfile::tempdir().expect("a folder");
    let new = folder.path().join("heron-8.yaml");
    let mut text = std::fs::read_to_string(specs.join("heron-8.yaml")).expect("it is there");
    for (from, to) in [
        ("122, 124], socket: power-4, key: right", "122, 124], socket: power-4, key: left"),
        ("rating: 15 A", "rating: 12 A"),
        ("between: [T1, T2], volts: 240", "between: [T1, T3], volts: 120"),
        ("tabs: 5, between: [T1, T3], volts: 120", "tabs: 5, between: [T1, T2], volts: 240"),
        ("  J2: ", "  J9: "),
    ] {
        assert!(text.contains(from), "{from}");
        text = text.replace(from, to);
    }
    std::fs::write(&new, text).expect("written");
    let jobs = specs.join("jobs");
    let old = specs.join("heron-8.yaml");
    let found = build::compare(&build::ComparisonOrder { old: &old, new: &new, jobs: Some(&jobs) });
    let (old, new) = found.boards().expect("both are sound");
    let jobs: Vec<SheetJob<'_>> = found
        .jobs
        .iter()
        .map(|job| SheetJob {
            name: &job.name,
            fate: &job.fate,
            case: job.new.on(new).case(),
            errors: job.new.errors(),
        })
        .collect();
    let marks = [old, new].map(compile::mark_of_board);
    let changes = found.changes.as_ref().expect("compared");
    let mut templates = Templates::built_in(&mut Sources::default());
    for (name, text) in own {
        let id = Sources::default().add(*name, text.as_str());
        assert!(templates.replace(name, id, text), "{name}");
    }
    let sheet = ChangeSheet { old, new, marks, changes, jobs: &jobs, printed: None };
    let document = change_sheet(&sheet, &mut Typesetter::new(), Paper::A4, &templates, problems)
        .expect("the template is sound");
    all.push(Sheet { name: "heron-8.yaml, change sheet".into(), sections: sections(&document) });
}
