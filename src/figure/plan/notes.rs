//! What is written beside each component: what it needs, and what is said only where there is room.

use std::sync::Arc;

use super::colour::group_colour;
use super::components::{Component, ComponentKind, moved};
use super::label::LabelSide;
use super::setup::{Setup, Show, Strength};
use super::wording::{Face, Piece, Type, Wording};
use crate::board::{
    Board, Feed, FuseId, GroupId, HeaderId, JumperId, LinkId, SupplyId, TerminalId,
};
use crate::decide::group_voltage;
use crate::scene::Ink;
use crate::text::{Line, Typesetter};
use crate::units::Volts;
use crate::words::Words;

/// How much is said beside the headers of one circuit board: the same for all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Detail {
    /// Their codes alone; the table of headers says the rest.
    Codes,
    /// What each is called or drives.
    Titles,
    /// And what feeds it.
    Full,
}

impl Detail {
    /// The next that says less.
    pub fn less(self) -> Option<Self> {
        match self {
            Detail::Full => Some(Detail::Titles),
            Detail::Titles => Some(Detail::Codes),
            Detail::Codes => None,
        }
    }
}

/// Whether a drawing may go without a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// Never: it holds a code, or where a jumper is.
    Always,
    /// All of a circuit board's headers have theirs, or none has.
    AllOrNone,
    /// Where there is room.
    IfRoom,
}

/// What is to stand beside a component.
#[derive(Clone, Debug)]
pub struct Note {
    /// Whether the drawing may go without it.
    pub need: Need,
    /// How it may be worded, the fullest first; at least one.
    pub variants: Vec<Wording>,
    /// Where it is tried first.
    pub first: &'static [LabelSide],
    /// How many of the last variants may stand off with a leader.
    pub far: usize,
}

/// A longer title is broken, mm.
const WRAP: f64 = 26.0;

const RIGHT: &[LabelSide] =
    &[LabelSide::Right, LabelSide::Below, LabelSide::Left, LabelSide::Above];
const LEFT: &[LabelSide] = &[LabelSide::Left, LabelSide::Right, LabelSide::Above, LabelSide::Below];
const BELOW: &[LabelSide] =
    &[LabelSide::Below, LabelSide::Above, LabelSide::Right, LabelSide::Left];

/// Words of a plan: the board, what is shown of it, and the tools to set it in type.
pub struct Writer<'a> {
    /// The board.
    pub board: &'a Board,
    /// What is shown.
    pub show: Show<'a>,
    /// Its phrases.
    pub words: &'a Words,
    /// Shapes the text.
    pub set: &'a mut Typesetter,
    /// Whether names stand in columns, where a jumper's label may leave out where else it may go.
    pub in_columns: bool,
}

impl Writer<'_> {
    fn sizes(&self) -> Type {
        self.show.type_sizes()
    }

    fn code(&mut self, text: &str) -> Arc<Line> {
        let style = self.sizes().code;
        self.set.line(text, style)
    }

    fn small(&mut self, text: &str) -> Arc<Line> {
        let style = self.sizes().small;
        self.set.line(text, style)
    }

    fn strong(&mut self, text: &str) -> Arc<Line> {
        let style = self.sizes().strong;
        self.set.line(text, style)
    }

    /// The notes of a component, at most two. `tags` are the jumpers of a group that have no tag at
    /// their tabs, so that the group must name them.
    pub fn notes(&mut self, component: &Component, detail: Detail, tags: &[JumperId]) -> Vec<Note> {
        let outside = match component.inside {
            Some(_) => None,
            None => Some(self.code(&component.code)),
        };
        match component.kind {
            ComponentKind::Terminal(id) => self.terminal(id, outside),
            ComponentKind::Link(id) => self.link(id, outside),
            ComponentKind::Group(id) => self.group(id, tags, component.strength),
            ComponentKind::Jumper(id) => self.jumper(id, outside, component.strength),
            ComponentKind::Fuse(id) => self.fuse(id, outside),
            ComponentKind::Header(id) => self.header(id, outside, detail),
            ComponentKind::Bank(_) | ComponentKind::Selector(_) => outside
                .map(|code| always(vec![Wording::lines([code])], BELOW))
                .into_iter()
                .collect(),
        }
    }

    /// The wire that belongs here, and the links that end here.
    fn terminal(&mut self, id: TerminalId, outside: Option<Arc<Line>>) -> Vec<Note> {
        let (board, words) = (self.board, self.words);
        let mut links = Vec::new();
        for link in (0..board.links.len()).map(LinkId) {
            if self.link_terminal(link) == id {
                links.push(Piece::Flag(self.small(&board[link].code), Face::Framed(Ink::BLACK)));
            }
        }
        let wire = board[id].wire.map(|wire| words.wire_colour(wire));
        let conductor = match self.show {
            Show::Board => None,
            Show::Job(setup) => Some(
                board[setup.supply].lands[id].map_or_else(|| words.no_wire(), |c| c.to_string()),
            ),
        };
        let conductor = conductor.map(|text| self.strong(&text));
        let mut needed = Wording { rows: Vec::new() };
        needed.rows.extend(outside.map(|code| vec![Piece::Words(code)]));
        needed.rows.extend(conductor.map(|line| vec![Piece::Words(line)]));
        if !links.is_empty() {
            needed.rows.push(links);
        }
        let mut notes = Vec::new();
        if !needed.rows.is_empty() {
            let one_row = Wording::row(needed.rows.iter().flatten().cloned());
            notes.push(always(vec![needed, one_row], RIGHT));
        }
        if let Some(wire) = wire {
            notes.push(if_room(vec![Wording::lines([self.small(&wire)])], RIGHT));
        }
        notes
    }

    fn link_terminal(&self, link: LinkId) -> TerminalId {
        match self.show {
            Show::Board => self.board[link].shipped,
            Show::Job(setup) => setup.terminal(self.board, link),
        }
    }

    /// The terminal that it is on, and those that it may go to.
    fn link(&mut self, id: LinkId, outside: Option<Arc<Line>>) -> Vec<Note> {
        let board = self.board;
        let here = self.link_terminal(id);
        let mut row: Vec<Piece> = outside.map(Piece::Words).into_iter().collect();
        let on = self.code(&board[here].code);
        row.push(Piece::Flag(on, Face::Filled(Ink::BLACK)));
        let is_moved = here != board[id].shipped;
        if let Show::Board = self.show {
            for other in board[id].positions.iter().filter(|other| **other != here) {
                let line = self.small(&board[*other].code);
                row.push(Piece::Flag(line, Face::Dashed));
            }
        }
        vec![always(self.marked_moved(row, is_moved), RIGHT)]
    }

    /// A row, and that it was moved, in one row or in two.
    fn marked_moved(&mut self, row: Vec<Piece>, is_moved: bool) -> Vec<Wording> {
        if !is_moved {
            return vec![Wording::row(row)];
        }
        let mark = Piece::Words(self.strong(&self.words.moved_mark()));
        let one = Wording::row(row.iter().cloned().chain([mark.clone()]));
        vec![one, Wording { rows: vec![row, vec![mark]] }]
    }

    /// Its letter and voltage, and the jumpers that no tag names.
    fn group(&mut self, id: GroupId, tags: &[JumperId], strength: Strength) -> Vec<Note> {
        let (board, words) = (self.board, self.words);
        let colour = group_colour(board, id);
        let faint = strength == Strength::Faint;
        let letter = self.code(&board[id].code);
        let face = if faint { Face::Framed(colour) } else { Face::Filled(colour) };
        let flag = Piece::Flag(letter, face);
        let volts = match self.show {
            Show::Board => Some(every_voltage(words, board, id)),
            Show::Job(setup) => {
                let volts = group_voltage(board, setup.supply, id).volts();
                // A group without a return runs nothing, and that must be read beside it.
                match (volts, faint) {
                    (Some(volts), _) => Some(words.whole_volts(volts)),
                    (None, true) => None,
                    (None, false) => Some(words.no_voltage()),
                }
            }
        };
        let volts = volts.map(|volts| Piece::Words(self.strong(&volts)));
        let tags: Vec<Piece> = tags
            .iter()
            .map(|jumper| Piece::Flag(self.small(&board[*jumper].code), Face::Framed(colour)))
            .collect();
        let mut variants = Vec::new();
        // As few rows of tags as may be, then narrower ones.
        for across in [8, 4, 2] {
            let tag_rows = || tags.chunks(across).map(<[Piece]>::to_vec);
            let head = [flag.clone()].into_iter().chain(volts.clone());
            variants
                .push(Wording { rows: [head.collect()].into_iter().chain(tag_rows()).collect() });
            let stacked = [vec![flag.clone()]].into_iter().chain(volts.clone().map(|v| vec![v]));
            variants.push(Wording { rows: stacked.chain(tag_rows()).collect() });
            if tags.len() <= across {
                break;
            }
        }
        // A voltage under each supply in a row of its own; a group without its voltage would say less than a
        // person needs.
        let one_by_one: Vec<Vec<Piece>> = match self.show {
            Show::Board => {
                let all = voltages(board, id).into_iter();
                all.map(|volts| vec![Piece::Words(self.strong(&words.whole_volts(volts)))])
                    .collect()
            }
            Show::Job(_) => volts.iter().cloned().map(|volts| vec![volts]).collect(),
        };
        let narrow = [vec![flag]].into_iter().chain(one_by_one);
        let narrow = narrow.chain(tags.chunks(4).map(<[Piece]>::to_vec));
        variants.push(Wording { rows: narrow.collect() });
        vec![Note { far: 2, ..always(variants, LEFT) }]
    }

    /// The group that it is on, and those that it may go to.
    fn jumper(
        &mut self,
        id: JumperId,
        outside: Option<Arc<Line>>,
        strength: Strength,
    ) -> Vec<Note> {
        let board = self.board;
        let (here, is_moved) = match self.show {
            Show::Board => (board[id].shipped, false),
            Show::Job(setup) => (setup.group(board, id), moved(board, setup, id)),
        };
        let mut row: Vec<Piece> = outside.map(Piece::Words).into_iter().collect();
        let colour = group_colour(board, here);
        let letter = self.code(&board[here].code);
        let face = match strength {
            Strength::Faint => Face::Framed(colour),
            _ => Face::Filled(colour),
        };
        row.push(Piece::Flag(letter, face));
        let others = board[id].groups.iter().filter(|group| **group != here);
        let others: Vec<&str> = others.map(|group| board[*group].code.as_str()).collect();
        let mut variants = Vec::new();
        if let Show::Board = self.show
            && !others.is_empty()
        {
            let mut rows: Vec<Vec<Piece>> = Vec::new();
            for (index, letters) in others.chunks(6).enumerate() {
                let frame = Piece::Flag(self.small(&letters.join(" ")), Face::Dashed);
                match rows.last_mut() {
                    None if index == 0 => {
                        rows.push(row.iter().cloned().chain([frame]).collect());
                    }
                    _ => rows.push(vec![frame]),
                }
            }
            variants.push(Wording { rows });
            let mut stacked = vec![row];
            let least = Wording { rows: stacked.clone() };
            for letters in others.chunks(3) {
                stacked.push(vec![Piece::Flag(self.small(&letters.join(" ")), Face::Dashed)]);
            }
            variants.push(Wording { rows: stacked });
            if self.in_columns {
                variants.push(least);
            }
        } else {
            variants.extend(self.marked_moved(row, is_moved));
        }
        let far = variants.len();
        vec![Note { far, ..always(variants, BELOW) }]
    }

    fn fuse(&mut self, id: FuseId, outside: Option<Arc<Line>>) -> Vec<Note> {
        let rating = self.words.amps(self.board[id].rating);
        let rating = match self.show {
            Show::Board => Some(self.small(&rating)),
            Show::Job(_) => None,
        };
        match (outside, rating) {
            (Some(code), rating) => {
                let full = rating.map(|rating| {
                    let row = [Piece::Words(code.clone()), Piece::Words(rating)];
                    Wording::row(row)
                });
                vec![always(full.into_iter().chain([Wording::lines([code])]).collect(), BELOW)]
            }
            (None, Some(rating)) => vec![if_room(vec![Wording::lines([rating])], BELOW)],
            (None, None) => Vec::new(),
        }
    }

    fn header(&mut self, id: HeaderId, outside: Option<Arc<Line>>, detail: Detail) -> Vec<Note> {
        let said = match self.show {
            Show::Board => self.header_on_board(id, detail),
            Show::Job(setup) => self.header_in_job(setup, id, detail),
        };
        match (outside, said.is_empty()) {
            (None, true) => Vec::new(),
            (None, false) => {
                vec![Note {
                    need: Need::AllOrNone,
                    far: 0,
                    ..always(vec![Wording::lines(said)], BELOW)
                }]
            }
            (Some(code), empty) => {
                let full = Wording::lines([code].into_iter().chain(said));
                let need = if empty { Need::Always } else { Need::AllOrNone };
                vec![Note { need, ..always(vec![full], RIGHT) }]
            }
        }
    }

    fn header_on_board(&mut self, id: HeaderId, detail: Detail) -> Vec<Arc<Line>> {
        let (board, words) = (self.board, self.words);
        let header = &board[id];
        let mut lines = Vec::new();
        if detail >= Detail::Titles {
            let style = self.sizes().title;
            lines.extend(self.set.lines(&header.title, style, WRAP));
        }
        if detail >= Detail::Full {
            let feed = match header.feed {
                Feed::Group(group) => words.group_named(&board[group].code),
                Feed::Jumper(jumper) => board[jumper].code.clone(),
            };
            let feed = match header.fuse {
                Some(fuse) => words.comma(&feed, &board[fuse].code),
                None => feed,
            };
            lines.push(self.small(&feed));
        }
        lines
    }

    /// The device that goes here and what is printed beside the header, or that it stays empty.
    fn header_in_job(&mut self, setup: &Setup, id: HeaderId, detail: Detail) -> Vec<Arc<Line>> {
        let Some(device) = setup.device(id) else {
            return match detail {
                Detail::Full => vec![self.small(&self.words.leave_empty())],
                _ => Vec::new(),
            };
        };
        let device = self.words.device_name(device);
        let title = &self.board[id].title;
        let mut lines = Vec::new();
        if detail >= Detail::Titles {
            lines.push(self.strong(&device));
        }
        if detail >= Detail::Full && !title.eq_ignore_ascii_case(&device) {
            let style = self.sizes().small;
            lines.extend(self.set.lines(title, style, WRAP));
        }
        lines
    }
}

fn always(variants: Vec<Wording>, first: &'static [LabelSide]) -> Note {
    Note { need: Need::Always, variants, first, far: 1 }
}

fn if_room(variants: Vec<Wording>, first: &'static [LabelSide]) -> Note {
    Note { need: Need::IfRoom, variants, first, far: 0 }
}

/// The group's volts under every supply that reaches it, each value once, in the order of the
/// supplies: a group that follows the supply must not look as if it did not.
fn voltages(board: &Board, id: GroupId) -> Vec<Volts> {
    let mut values: Vec<Volts> = Vec::new();
    for supply in board.handles::<SupplyId>() {
        let Some(volts) = board.group_volts(supply, id) else { continue };
        let volts = Volts(volts.0.round());
        if !values.contains(&volts) {
            values.push(volts);
        }
    }
    values
}

/// `240 / 208 V`.
fn every_voltage(words: &Words, board: &Board, id: GroupId) -> String {
    let values: Vec<String> =
        voltages(board, id).iter().map(|volts| words.shortest(volts.0, 0)).collect();
    words.quantity(&values.join("\u{a0}/\u{a0}"), Volts::UNIT)
}
