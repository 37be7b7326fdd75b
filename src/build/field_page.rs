//! The field page: one file for a phone with all boards of a build.

use std::collections::BTreeMap;
use std::path::{Component, Path};

use serde::Serialize;

use super::output::{OutputRoot, Placed, Unwritten};
use crate::board::About;
use crate::compile::{self, Checked, Content, FieldBoardHtml, OutFile, SheetOptions};
use crate::diagnostic::Reported;
use crate::page::Paper;
use crate::text::Typesetter;
use crate::words::{LANGUAGES, Language, Words};
use crate::write::{self, FieldBoard, FieldPage};

/// The name of the page.
pub const NAME: &str = "field.html";

/// Headings of a board stand below that of the page and that of its boards.
const FIRST_HEADING: u8 = 3;

/// Whether a page lies in a folder of outputs.
pub fn lies_in(out: &Path) -> bool {
    out.join(NAME).is_file()
}

/// What the page takes of a board.
#[derive(Clone, Debug)]
pub struct PageBoard {
    /// The file as people are shown it.
    shown: String,
    /// It and its tables, as people are shown them, and what they hold.
    files: Vec<(String, String)>,
    /// It in each language of the build.
    spoken: Vec<SpokenBoard>,
}

#[derive(Clone, Debug)]
struct SpokenBoard {
    summary: String,
    /// Its revision, date and mark.
    state: String,
    html: FieldBoardHtml,
}

/// What the page takes of a checked file; nothing of what is no sound board. `number` is that of no other file.
///
/// # Errors
/// Why its sheets cannot be made.
pub fn of_board(
    checked: &Checked,
    number: usize,
    looks: &[SheetOptions],
    set: &mut Typesetter,
) -> Result<Option<PageBoard>, Reported> {
    if !matches!(checked.content, Content::Board(_)) {
        return Ok(None);
    }
    let files = checked.sources.iter().map(|(_, file)| (file.name.clone(), file.text.to_string()));
    let files = files.collect();
    // What its sheets add to the problems is told with the sheets.
    let mut checked = checked.clone();
    let mut spoken = Vec::new();
    for look in looks {
        let words = &look.words;
        let names = format!("board-{number}-{}-", words.tag());
        let Content::Board(board) = checked.content_in(words.tag()).into_owned() else {
            return Ok(None);
        };
        let Some(html) = compile::field_board(&mut checked, look, (FIRST_HEADING, &names), set)?
        else {
            return Ok(None);
        };
        let About { name, part, revision, dated, .. } = &board.about;
        let mark = look.mark_of_board(&board).to_string();
        let state = words.field_state(name, part, revision, &dated.to_string(), &mark);
        let summary = words.commas(&[name.clone(), part.clone()]);
        let summary = match looks {
            [_] => summary,
            _ => words.index_in_language(&summary, look.language.name),
        };
        spoken.push(SpokenBoard { summary, state, html });
    }
    Ok(Some(PageBoard { shown: checked.shown.clone(), files, spoken }))
}

/// What the script begins with.
#[derive(Serialize)]
struct Data {
    /// The tag of the language that the page begins in.
    language: &'static str,
    /// The names of all languages by their tags.
    languages: BTreeMap<&'static str, &'static str>,
    /// What is shown while the module starts, and where it cannot.
    starts: String,
    cannot_start: String,
    /// The paper of the build, and all papers.
    paper: &'static str,
    papers: Vec<&'static str>,
    /// Boards and tables by their paths from one folder.
    files: BTreeMap<String, String>,
    /// Those that are boards.
    boards: Vec<String>,
    /// Templates and phrases of the user's own.
    own: Vec<OwnFile>,
}

#[derive(Serialize)]
struct OwnFile {
    name: String,
    shown: String,
    text: String,
}

/// Puts the page with these boards into the folder of outputs.
///
/// # Errors
/// If it cannot be written.
pub fn place(
    root: &OutputRoot,
    boards: &[PageBoard],
    looks: &[SheetOptions],
) -> Result<Option<Placed>, Unwritten> {
    let (Some(first), false) = (looks.first(), boards.is_empty()) else { return Ok(None) };
    let page = page(boards, looks, first);
    let bytes = write::field_page(&page).into_bytes();
    root.place_here(&[OutFile { name: NAME.to_owned(), bytes }]).map(Some)
}

fn page(boards: &[PageBoard], looks: &[SheetOptions], first: &SheetOptions) -> FieldPage {
    let words: &Words = &first.words;
    let of_language = |index: usize, look: &SheetOptions| {
        let tag = look.words.tag().to_owned();
        let all = boards.iter().filter_map(move |board| board.spoken.get(index));
        all.map(move |it| FieldBoard {
            language: tag.clone(),
            summary: it.summary.clone(),
            html: it.html.sheets.clone(),
        })
        .collect::<Vec<_>>()
    };
    let states = boards.iter().filter_map(|board| Some(board.spoken.first()?.state.clone()));
    let cautions = boards.first().and_then(|board| board.spoken.first());
    FieldPage {
        language: words.tag().to_owned(),
        title: words.field_title(),
        lead: words.field_lead(),
        no_script: words.field_no_script(),
        cautions: cautions.map(|it| it.html.cautions.clone()).unwrap_or_default(),
        boards_title: words.field_boards(),
        boards: looks
            .iter()
            .enumerate()
            .flat_map(|(index, look)| of_language(index, look))
            .collect(),
        foot: [words.field_offline(), words.field_limits()]
            .into_iter()
            .chain(states)
            .chain(words.unchecked_notice().into_iter().flatten())
            .collect(),
        data: data(boards, first),
    }
}

fn data(boards: &[PageBoard], first: &SheetOptions) -> String {
    let own = first.own.templates.iter().map(|own| OwnFile {
        name: own.name.clone(),
        shown: own.name.clone(),
        text: String::from_utf8_lossy(&own.bytes).into_owned(),
    });
    let shared = shared_folder(boards);
    let key = |name: &str| below(name, shared);
    let files = boards.iter().flat_map(|board| &board.files);
    let data = Data {
        language: first.language.tag,
        languages: LANGUAGES.iter().map(|it: &Language| (it.tag, it.name)).collect(),
        starts: first.words.field_starts(),
        cannot_start: first.words.field_cannot_start(),
        paper: first.paper.name(),
        papers: Paper::ALL.into_iter().map(Paper::name).collect(),
        files: files.map(|(name, text)| (key(name), text.clone())).collect(),
        boards: boards.iter().map(|board| key(&board.shown)).collect(),
        own: own.collect(),
    };
    // Nothing in it can fail to be written.
    serde_json::to_string(&data).unwrap_or_default()
}

/// How many folders at the start of all paths are the same: what lies above says nothing of the boards, and
/// is nobody else's business.
fn shared_folder(boards: &[PageBoard]) -> usize {
    let folders = |board: &PageBoard| -> Vec<String> {
        let path = Path::new(&board.shown).parent().unwrap_or(Path::new(""));
        path.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect()
    };
    let mut all = boards.iter().map(folders);
    let first = all.next().unwrap_or_default();
    all.fold(first.len(), |shared, other| {
        first.iter().zip(&other).take(shared).take_while(|(a, b)| a == b).count()
    })
}

/// A path without its first folders, with `/`.
fn below(path: &str, folders: usize) -> String {
    let parts = Path::new(path).components().skip(folders);
    let parts = parts.filter(|part| matches!(part, Component::Normal(_)));
    let parts: Vec<String> =
        parts.map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
    parts.join("/")
}
