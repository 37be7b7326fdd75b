//! The prose of all sheets of the demo boards and jobs, in our own words.
use std::path::Path;

use lidsheet::build::{self, Content};
use lidsheet::diagnostic::Problems;
use lidsheet::document::Document;
use lidsheet::page::Paper;
use lidsheet::sheet::{
    Figure, Section, SoundJob, Templates, figures, intake_form, lid_insert, sections,
    wiring_sheets, work_card,
};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;

/// A sheet and its sections.
pub struct Sheet {
    /// `heron-8.yaml, wiring sheets`.
    pub name: String,
    /// Those with prose.
    pub sections: Vec<Section>,
}

/// Every sheet of every file in `specs/` and `tests/inserts/`; `own` takes the place of templates.
pub fn sheets(own: &[(&str, String)]) -> (Vec<Sheet>, Problems) {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let paths = ["specs", "tests/inserts"].map(|folder| root.join(folder));
    let mut problems = Problems::default();
    let mut set = Typesetter::new();
    let mut all = Vec::new();
    for checked in build::check(&paths, &mut Problems::default()) {
        let file = checked.shown.rsplit('/').next().unwrap_or_default().to_owned();
        let mut sources = Sources::default();
        let mut templates = Templates::built_in(&mut sources);
        for (name, text) in own {
            let id = sources.add(*name, text.as_str());
            assert!(templates.replace(name, id, text), "{name}");
        }
        let mut take = |what: &str, document: &Document| {
            all.push(Sheet { name: format!("{file}, {what}"), sections: sections(document) });
        };
        match &checked.content {
            Content::Board(board) => {
                let figures = figures(board, &Words::english(), &mut set, Paper::A4);
                let sheets = wiring_sheets(board, &figures, &templates, Paper::A4, &mut problems);
                take("wiring sheets", &sheets.expect("the templates are sound"));
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
            }
            other => panic!("{}: {other:?}", checked.shown),
        }
    }
    assert!(all.len() > 20, "{} sheets were found", all.len());
    (all, problems)
}
