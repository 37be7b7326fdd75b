//! What is done with an input of each kind, and what must hold of it beyond that nothing panics. The tests do
//! the same with the inputs in `fuzz/found`.

use std::cell::RefCell;
use std::path::Path;

use lidsheet::board::Board;
use lidsheet::build;
use lidsheet::compare::Changes;
use lidsheet::compile::{self, Checked, Content, SheetKind, SheetOptions};
use lidsheet::diagnostic::{Code, Problems};
use lidsheet::document::{Align, Block, ListKind, Signal};
use lidsheet::editor::{self, Document, complete, hover, names_of, occurrences};
use lidsheet::page::{Pages, Paper, lay_out};
use lidsheet::sheet::{ChangeSheet, Templates, change_sheet, figures, wiring_sheets};
use lidsheet::source::Sources;
use lidsheet::spec;
use lidsheet::text::Typesetter;
use lidsheet::words::{Words, english};
use lidsheet::write;
use lsp_server::{Connection, Message, Notification};
use serde_json::json;

use super::specimen::{self, document, heading, paragraph};
use super::{Pdf, documents};

/// What is done with an input.
pub type Target = fn(&[u8]);

/// All of them by their names.
pub const TARGETS: [(&str, Target); 7] = [
    ("specification", specification),
    ("job", job),
    ("table", table),
    ("template", template),
    ("change-sheet", change_sheets),
    ("language-server", language_server),
    ("page-layout", page_layout),
];

const HERON: &str = include_str!("../specs/heron-8.yaml");
const CURLEW: &str = include_str!("../specs/curlew-10.yaml");
const CURLEW_TABLE: &str = "curlew-10-layouts.csv";
const SMALL: &str = include_str!("../tests/diagnostics/base.yaml");

thread_local! {
    static TYPESETTER: RefCell<Typesetter> = RefCell::new(Typesetter::new());
    static LOOK: SheetOptions = SheetOptions::new(Paper::A4, english(), Default::default());
    static SMALL_BOARD: Board = sound(SMALL).expect("it is sound");
}

/// A text as a file of the demo would be checked, with one table of it as `open` says.
fn checked(name: &str, bytes: &[u8], open: Option<(&str, &[u8])>) -> Checked {
    let demo = "specs/curlew-10.yaml";
    let texts = [("specs/heron-8.yaml", HERON.as_bytes()), (demo, CURLEW.as_bytes())];
    let folder = Path::new(name).parent().unwrap_or(Path::new(""));
    build::check_open(name, bytes.to_vec(), folder, &|path| {
        let path = path.to_string_lossy().replace("specs/jobs/../", "specs/");
        let table = open.filter(|(name, _)| path.ends_with(name));
        let text = texts.iter().find(|(name, _)| path.ends_with(name));
        let found = table.map(|(_, bytes)| bytes).or(text.map(|(_, bytes)| *bytes));
        found.map(<[u8]>::to_vec)
    })
}

/// What must hold of whatever was checked; whether it is sound.
fn judged(checked: &Checked) -> bool {
    let errors = checked.problems.counts().0;
    let sound = match &checked.content {
        Content::Board(_) => true,
        Content::Job(planned) => planned.is_some(),
        Content::Refused => false,
    };
    assert!(sound || errors > 0, "it is refused and nobody says why");
    for problem in checked.problems.sorted() {
        assert_ne!(problem.code, Code::Internal, "{}", problem.message);
        let labels = problem.primary.iter().chain(&problem.others);
        for span in labels.map(|label| label.span) {
            let text = &checked.sources.file(span.file).text;
            assert!(text.get(span.range()).is_some(), "a place that is none");
        }
        assert!(!problem.message.is_empty() && !problem.message.ends_with('.'));
    }
    sound && errors == 0
}

/// What `check` accepts, `build` builds, to the last byte of each PDF.
fn built(mut checked: Checked, kinds: &[SheetKind]) {
    for kind in kinds {
        let made = TYPESETTER.with_borrow_mut(|set| {
            LOOK.with(|look| compile::sheet_pages(&mut checked, *kind, look, set))
        });
        for problem in checked.problems.sorted() {
            assert_ne!(problem.code, Code::Internal, "{}", problem.message);
        }
        let Ok(made) = made else { panic!("{} accepted, {} refused", checked.shown, kind.name()) };
        made.iter().for_each(|made| printed(&made.pages));
    }
}

/// Pages as a PDF, which another program reads.
fn printed(pages: &Pages) {
    let bytes = write::pdf(pages).expect("pages that were laid out can be written");
    let read = Pdf::new(bytes).expect("another program reads it");
    assert_eq!(read.pages().len(), pages.pages.len());
}

fn sound(text: &str) -> Option<Board> {
    match checked("specs/board.yaml", text.as_bytes(), None).content {
        Content::Board(board) => Some(*board),
        _ => None,
    }
}

/// A board. What is printed of it reads as the same.
fn specification(data: &[u8]) {
    let checked = checked("specs/board.yaml", data, None);
    let is_sound = judged(&checked);
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let load = &mut |_: &str| Err(String::new());
    let file = spec::admit("board.yaml", data.to_vec(), &mut sources, &mut problems);
    if let Ok(read) = file.and_then(|file| spec::parse(file, &mut sources, load, &mut problems))
        && problems.failed().is_none()
    {
        let text = spec::print(&read);
        let file = sources.add("printed.yaml", text.as_str());
        let again = spec::parse(file, &mut sources, load, &mut problems);
        let again = again.unwrap_or_else(|_| panic!("what is printed is refused:\n{text}"));
        assert_eq!(spec::print(&again), text, "what is printed prints as another");
    }
    if is_sound && matches!(checked.content, Content::Board(_)) {
        built(checked, &[SheetKind::WiringSheets]);
    }
}

/// A job on a demo board.
fn job(data: &[u8]) {
    let checked = checked("specs/jobs/1.yaml", data, None);
    if judged(&checked) && matches!(checked.content, Content::Job(_)) {
        built(checked, &[SheetKind::WorkCard]);
    }
}

/// The layouts of a demo board.
fn table(data: &[u8]) {
    let checked = checked("specs/curlew-10.yaml", CURLEW.as_bytes(), Some((CURLEW_TABLE, data)));
    judged(&checked);
}

/// A template of one's own in the wiring sheets.
fn template(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let mut sources = Sources::default();
    let mut templates = Templates::built_in(&mut sources);
    let file = sources.add("panel.md", text);
    assert!(templates.replace("panel.md", file, text));
    SMALL_BOARD.with(|board| {
        TYPESETTER.with_borrow_mut(|set| {
            let figures = figures(board, &Words::english(), set, Paper::A4);
            let mut problems = Problems::default();
            let document = wiring_sheets(board, &figures, &templates, Paper::A4, &mut problems);
            match document {
                Ok(document) => printed(&lay_out(&document, Paper::A4, set)),
                Err(_) => assert!(problems.failed().is_some()),
            }
        });
    });
}

/// The change sheet from the small board to what was made of it, and back.
fn change_sheets(data: &[u8]) {
    let Some(new) = std::str::from_utf8(data).ok().and_then(sound) else { return };
    SMALL_BOARD.with(|old| {
        for (old, new) in [(old, &new), (&new, old)] {
            let changes = Changes::between(old, new);
            let marks = [old, new].map(compile::mark_of_board);
            let sheet =
                ChangeSheet { old, new, marks, changes: &changes, jobs: &[], printed: None };
            let mut problems = Problems::default();
            let templates = Templates::built_in(&mut Sources::default());
            TYPESETTER.with_borrow_mut(|set| {
                let made = change_sheet(&sheet, set, Paper::A4, &templates, &mut problems);
                printed(&lay_out(&made.expect("a change sheet is made"), Paper::A4, set));
            });
        }
        assert!(Changes::between(&new, &new).is_empty(), "a board differs from itself");
    });
}

/// Messages of an editor, one a line; a line that is none is a whole new text of the open file. Every place
/// of that text can be asked about.
fn language_server(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else { return };
    let (ours, theirs) = Connection::memory();
    let note = |method: &str, params| {
        Message::Notification(Notification { method: method.into(), params })
    };
    let document = json!({ "uri": "file:///a/board.yaml", "version": 1 });
    let (mut questions, mut ended) = (0, false);
    let whole = text.replace('\u{1}', "\n");
    for line in whole.lines() {
        let message = serde_json::from_str::<Message>(line).unwrap_or_else(|_| {
            let changes = json!([{ "text": line.replace('\u{2}', "\n") }]);
            let params = json!({ "textDocument": document, "contentChanges": changes });
            note("textDocument/didChange", params)
        });
        match &message {
            Message::Request(asked) if asked.method == "shutdown" => ended = true,
            Message::Request(_) => questions += 1,
            Message::Notification(note) => ended |= note.method == "exit",
            Message::Response(_) => {}
        }
        ours.sender.send(message).expect("it is open");
    }
    drop(ours.sender);
    // A server whose editor is gone may say that the connection broke.
    let _ = editor::serve(&theirs, Vec::new());
    drop(theirs);
    let answers = ours.receiver.try_iter().filter(|it| matches!(it, Message::Response(_))).count();
    assert!(ended || answers == questions, "{questions} questions, {answers} answers");
    let document = Document::read(text);
    let names = names_of(&document);
    let places = (0..=text.len()).step_by(1 + text.len() / 8);
    for offset in places {
        for proposal in complete(text, document.form, &names, offset) {
            assert!(text.get(proposal.replaces).is_some(), "it replaces what is not there");
        }
        hover(&document, &names, None, offset);
        if let Some((name, place)) = editor::name_at(&document, &names, offset) {
            assert!(text.get(place).is_some(), "a name where none can be");
            for found in occurrences(&document, &names, &name) {
                assert!(text.get(found.range).is_some(), "it stands where nothing is");
            }
        }
    }
}

/// A document of every kind of block, on every paper. Nothing of it is lost.
fn page_layout(data: &[u8]) {
    let mut draw = Draw(data);
    let paper = Paper::ALL[usize::from(draw.below(3))];
    let mut blocks = vec![heading(1, "Start", None)];
    blocks.extend(draw.blocks(true, 3));
    let document = document(blocks);
    let pages = TYPESETTER.with_borrow_mut(|set| lay_out(&document, paper, set));
    let shown: String =
        pages.pages.iter().flat_map(|page| page.text_boxes()).map(|it| it.1).collect();
    let letters = |text: &str| text.chars().filter(|c| c.is_alphanumeric()).count();
    let wanted = letters(&documents::words(&document.blocks));
    assert!(letters(&shown) >= wanted, "words are lost");
    printed(&pages);
}

/// What an input says, byte by byte; nought when it is used up.
struct Draw<'a>(&'a [u8]);

impl Draw<'_> {
    fn below(&mut self, count: u8) -> u8 {
        let [first, rest @ ..] = self.0 else { return 0 };
        self.0 = rest;
        first % count
    }

    fn text(&mut self) -> String {
        let word = |draw: &mut Self| -> String {
            let length = 1 + draw.below(if draw.0.len().is_multiple_of(16) { 60 } else { 9 });
            (0..length).map(|_| char::from(b'a' + draw.below(26))).collect()
        };
        let count = 1 + self.below(16);
        (0..count).map(|_| word(self)).collect::<Vec<_>>().join(" ")
    }

    fn parts(&mut self, least: u8, depth: u8) -> Vec<Vec<Block>> {
        let count = least + self.below(3);
        (0..count).map(|_| self.blocks(false, depth)).collect()
    }

    /// At least one, and words at the end. What has pages of its own is in nothing else: `outermost`.
    fn blocks(&mut self, outermost: bool, depth: u8) -> Vec<Block> {
        let mut all = Vec::new();
        for _ in 0..self.below(if outermost { 24 } else { 4 }) {
            let inner = depth.saturating_sub(1);
            let block = match self.below(if depth == 0 { 5 } else { 13 }) {
                0 => heading(1 + self.below(3), &self.text(), None),
                1 => {
                    let columns = 1 + self.below(7);
                    let cells = |draw: &mut Self| (0..columns).map(|_| draw.text()).collect();
                    let (head, rows): (Vec<String>, u8) = (cells(self), self.below(12));
                    let rows: Vec<Vec<String>> = (0..rows).map(|_| cells(self)).collect();
                    let head: Vec<&str> = head.iter().map(String::as_str).collect();
                    specimen::table(&vec![Align::Left; usize::from(columns)], &head, &rows)
                }
                2 if outermost => {
                    // A page begins with what belongs together.
                    all.push(paragraph(&self.text()));
                    Block::PageBreak
                }
                2..5 => paragraph(&self.text()),
                5 => {
                    let kinds = [ListKind::Bullets, ListKind::Numbers(7), ListKind::Steps(1)];
                    let kind = kinds[usize::from(self.below(3))];
                    Block::List { kind, items: self.parts(1, inner) }
                }
                6 => {
                    let signal = Signal::ALL[usize::from(self.below(Signal::ALL.len() as u8))];
                    Block::Caution { signal, blocks: self.blocks(false, 0) }
                }
                7 => Block::Columns { count: 2, blocks: self.blocks(false, inner) },
                8 => Block::Together(self.blocks(false, inner)),
                9 if outermost => Block::Cards(self.parts(1, inner)),
                10 if outermost => Block::Landscape(self.blocks(false, inner)),
                11 if outermost => Block::Step { number: 3, blocks: self.blocks(false, inner) },
                12 if outermost => {
                    let parts = self.parts(2, inner);
                    Block::Beside { shares: vec![1; parts.len()], parts }
                }
                _ => paragraph(&self.text()),
            };
            all.push(block);
        }
        all.push(paragraph(&self.text()));
        all
    }
}
