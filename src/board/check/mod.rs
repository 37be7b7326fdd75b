//! From a specification to a sound board: every name resolved, every table complete.
//!
//! One file for each family of codes. A thing that could not be read, or that names something that
//! does not exist, is `None` in the draft, and whatever depends on it stays silent: one mistake, one
//! message.

mod accepted;
mod advice;
mod allowance;
mod cords;
mod drawing;
mod effects;
mod electronics;
mod entry;
mod groups;
mod headers;
mod languages;
mod layouts;
mod letters;
mod looks;
mod named;
mod names;
mod prose;
mod roles;
mod service;
mod switches;
mod things;
mod voltages;
mod words;

pub(super) use effects::EFFECTS;
pub use effects::{effect_word, known_effect};
pub(super) use letters::KINDS as CODED;
pub(super) use words::DEVICES;

use super::{
    About, Bank, Board, Device, Electronics, Fuse, Group, Header, Heater, Jumper, Layout, Link,
    OwnDevice, Panel, Part, Selector, Socket, Supply, Terminal,
};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::reading::Counts;
use crate::source::{Sources, Span};
use crate::spec::Spec;
pub use accepted::Acceptances;
pub use languages::lacks_language;
pub(super) use looks::{likeness, strange};
use names::Directory;
use roles::Roles;

/// Checks what `spec` says and gives the board that it describes.
///
/// # Errors
/// If `problems` holds an error, from here or from the reading of the specification.
pub fn check(spec: &Spec, sources: &Sources, problems: &mut Problems) -> Result<Board, Reported> {
    check_languages(spec, sources, problems).map(|spoken| spoken.board)
}

/// A board in the languages that its words are given in.
#[derive(Clone, Debug)]
pub struct SpokenBoard {
    /// In English; if no words are English, in the first language that there is.
    pub board: Board,
    /// In each of the other languages, with its tag.
    pub others: Vec<(String, Board)>,
}

/// Checks what `spec` says in every language that it has words of, and gives the board in each.
///
/// # Errors
/// If `problems` holds an error, from here or from the reading of the specification.
pub fn check_languages(
    spec: &Spec,
    sources: &Sources,
    problems: &mut Problems,
) -> Result<SpokenBoard, Reported> {
    let accepted = Acceptances::read(&spec.accepted, problems);
    let checked = in_all_languages(spec, sources, problems);
    accepted.apply(problems);
    checked
}

fn in_all_languages(
    spec: &Spec,
    sources: &Sources,
    problems: &mut Problems,
) -> Result<SpokenBoard, Reported> {
    let tags = languages::in_order(spec);
    let Some((first, rest)) = tags.split_first() else {
        let board = sound_board(spec, sources, problems)?;
        return Ok(SpokenBoard { board, others: Vec::new() });
    };
    languages::gaps(spec, &tags, problems);
    let board = sound_board(&spec.spoken_in(first), sources, problems);
    let mut others = Vec::new();
    for tag in rest {
        // What is wrong in every language is told once; what was wrong before it is known.
        let mut found = problems.clone();
        let spoken = sound_board(&spec.spoken_in(tag), sources, &mut found);
        problems.extend(found.beyond(problems));
        others.extend(spoken.ok().map(|board| (tag.clone(), board)));
    }
    match problems.failed() {
        Some(reported) => Err(reported),
        None => Ok(SpokenBoard { board: board?, others }),
    }
}

/// The board of a specification that was checked in a language that it has no words of: with the first
/// that are given. `None` for a specification with errors.
pub fn in_other_language(spec: &Spec, tag: &str, sources: &Sources) -> Option<Board> {
    sound_board(&spec.spoken_in(tag), sources, &mut Problems::default()).ok()
}

fn sound_board(spec: &Spec, sources: &Sources, problems: &mut Problems) -> Result<Board, Reported> {
    let all = Directory::of(spec);
    let standard = words::designators(&spec.about.designators, problems);
    names::check(spec, standard, problems);
    let mut draft = Draft {
        about: things::about(&spec.about, standard, problems),
        parts: things::parts(spec),
        terminals: things::terminals(spec, &all, problems),
        links: things::links(spec, &all, problems),
        groups: groups::groups(spec, &all, problems),
        jumpers: things::jumpers(spec, &all, problems),
        fuses: things::fuses(spec, &all, problems),
        sockets: headers::sockets(spec, problems),
        ..Draft::default()
    };
    draft.roles = roles::devices(spec, problems);
    draft.devices = draft.roles.declared(spec);
    draft.headers = headers::headers(spec, &all, &draft, problems);
    draft.supplies = voltages::supplies(spec, &all, &draft, problems);
    draft.electronics = electronics::electronics(spec, &all, &draft, problems);
    voltages::check(spec, &draft, problems);
    groups::check(spec, &draft, problems);
    (draft.columns, draft.layouts) = layouts::matrix(spec, &draft.roles, problems);
    service::check(spec, &draft, problems);
    roles::check(spec, &draft, problems);
    draft.banks = switches::banks(spec, &all, problems);
    draft.selectors = entry::selectors(spec, &all, problems);
    entry::check(spec, &draft, problems);
    draft.panels = things::panels(spec);
    drawing::check(spec, &draft, problems);
    draft.prose = prose::check(spec, sources, problems);
    draft.stand_ins = spec.stand_ins();
    draft.heater = things::heater(spec);
    if let Some(reported) = problems.failed() {
        return Err(reported);
    }
    let board = draft.finish().ok_or_else(|| {
        let place = spec.parts.place;
        let message = "the board is incomplete, but nothing says why; this is a mistake in \
                       lidsheet, please report it";
        problems.error(Problem::new(Code::Internal, place, message))
    })?;
    advice::check(spec, &board, problems);
    Ok(board)
}

/// A board on its way: things stand where the specification has them, `None` where one is broken.
#[derive(Default)]
struct Draft {
    about: Option<About>,
    parts: Vec<Option<Part>>,
    terminals: Vec<Option<Terminal>>,
    links: Vec<Option<Link>>,
    supplies: Vec<Option<Supply>>,
    groups: Vec<Option<Group>>,
    jumpers: Vec<Option<Jumper>>,
    fuses: Vec<Option<Fuse>>,
    sockets: Vec<Option<Socket>>,
    /// The words of the devices of its own.
    roles: Roles,
    devices: Option<Vec<OwnDevice>>,
    headers: Vec<Option<Header>>,
    heater: Option<Option<Heater>>,
    electronics: Option<Option<Electronics>>,
    /// Each with its place.
    columns: Option<Vec<(Device, Span)>>,
    layouts: Vec<Option<Layout>>,
    banks: Vec<Option<Bank>>,
    selectors: Vec<Option<Selector>>,
    panels: Vec<Option<Panel>>,
    prose: Counts,
    stand_ins: Vec<String>,
}

impl Draft {
    /// The board, if nothing is missing.
    fn finish(self) -> Option<Board> {
        let mut layouts = whole(self.layouts)?;
        layouts.sort_by_key(|layout| layout.number);
        Some(Board {
            about: self.about?,
            parts: whole(self.parts)?,
            terminals: whole(self.terminals)?,
            links: whole(self.links)?,
            supplies: whole(self.supplies)?,
            groups: whole(self.groups)?,
            jumpers: whole(self.jumpers)?,
            fuses: whole(self.fuses)?,
            sockets: whole(self.sockets)?,
            devices: self.devices?,
            headers: whole(self.headers)?,
            heater: self.heater?,
            electronics: self.electronics?,
            columns: self.columns?.into_iter().map(|(device, _)| device).collect(),
            layouts,
            banks: whole(self.banks)?,
            selectors: whole(self.selectors)?,
            panels: whole(self.panels)?,
            prose: self.prose,
            stand_ins: self.stand_ins,
        })
    }
}

fn whole<T>(things: Vec<Option<T>>) -> Option<Vec<T>> {
    things.into_iter().collect()
}

/// The thing at `index`, if it is there and sound.
fn sound<T>(things: &[Option<T>], index: usize) -> Option<&T> {
    things.get(index).and_then(Option::as_ref)
}
