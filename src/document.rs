//! What a sheet says, before there are pages. Types only.

mod house;
mod paper;

use std::collections::BTreeMap;

use crate::mark::Mark;
use crate::scene::{Scene, Target};

pub use house::{House, Logo};
pub use paper::Paper;

/// A whole document.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// Title, also in the file's metadata.
    pub title: String,
    /// Language tag, `en`.
    pub language: String,
    /// Who issues it.
    pub author: String,
    /// Year, month and day of the source's revision; no clock is read.
    pub dated: (u16, u8, u8),
    /// Head of every page: left and right.
    pub head: (String, String),
    /// Foot of every page: left. The right is the page number.
    pub foot: String,
    /// How `page 2 of 9` reads: `page {n} of {m}`.
    pub page_of: String,
    /// The signal words of its safety messages, in the order of [`Signal::ALL`].
    pub signal_words: [String; 4],
    /// The mark of its contents, which is a part of the foot, too.
    pub mark: Option<Mark>,
    /// The looks of the house that it comes from.
    pub house: House,
    /// How close it is set.
    pub density: Density,
    /// What it says.
    pub blocks: Vec<Block>,
}

/// A part that is closed until somebody opens it by its words, and what is in it: where a screen has no room
/// for everything at once. There is none on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Fold {
    /// The words that it is opened by.
    pub summary: String,
    /// What is seen first.
    pub blocks: Vec<Block>,
    /// What can be opened next, only one of them at a time.
    pub folds: Vec<Fold>,
}

/// How close a document is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Density {
    /// As what is read at a desk, on as many pages as it takes.
    Roomy,
    /// With small margins and smaller type, never under 7 pt: what must be one page.
    Close,
    /// To be read at arm's length beside an open control box: nothing under 9 pt, on as many pages
    /// as it takes.
    Reach,
}

/// A part of a document that stands by itself.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading. Level 1 begins a section and is listed in the contents and the bookmarks.
    Heading {
        /// 1 to 3. The document's title is a level of its own above them.
        level: u8,
        /// The words.
        text: Vec<Inline>,
        /// A name that links can lead to.
        anchor: Option<String>,
    },
    /// The document's title, at the start.
    Title {
        /// The words.
        text: String,
        /// A line under it.
        subtitle: String,
    },
    /// A paragraph.
    Paragraph(Vec<Inline>),
    /// A list.
    List {
        /// How the items begin.
        kind: ListKind,
        /// Each item is blocks.
        items: Vec<Vec<Block>>,
    },
    /// A table.
    Table(Table),
    /// A drawing with its words.
    Figure {
        /// The drawing; set at its own size, made smaller only if it does not fit.
        scene: Scene,
        /// What a reader who cannot see it is told.
        alternative: String,
        /// Words under it.
        caption: Vec<Inline>,
        /// A name that links can lead to.
        anchor: Option<String>,
    },
    /// A safety message.
    Caution {
        /// The signal word.
        signal: Signal,
        /// The message.
        blocks: Vec<Block>,
    },
    /// A list of the level 1 headings with page numbers.
    Contents {
        /// Its heading.
        title: String,
    },
    /// Blocks that run through columns of the same width: down the first, then down the next. The
    /// columns end as level as their blocks allow.
    Columns {
        /// How many.
        count: u8,
        /// What runs through them, in reading order.
        blocks: Vec<Block>,
    },
    /// Parts that stand beside each other, each in a column of its own, as a drawing and the table
    /// that explains it.
    Beside {
        /// How the width is shared out, one for each part: with 2 and 1 the first is twice as wide.
        shares: Vec<u8>,
        /// The parts, in reading order.
        parts: Vec<Vec<Block>>,
    },
    /// Blocks that stay on one page, as long as a page has room for them.
    Together(Vec<Block>),
    /// A step of a work card: its number, the first drawing among the blocks at the left, and the
    /// other blocks beside it. Its own lists of [`ListKind::Ticks`] have their boxes at the right
    /// edge.
    Step {
        /// Counted from 1.
        number: u32,
        /// What is done. The first is its heading.
        blocks: Vec<Block>,
    },
    /// Blocks on pages of the same paper that lie on their long side. They begin a page, and so
    /// does what follows them; but a [`Block::Together`] stands below them if it has room there.
    Landscape(Vec<Block>),
    /// Cards of one size, four to a page, with lines to cut along; two or one to a page if one of
    /// them needs more room than that. Each is the blocks on it. Cards begin a page.
    Cards(Vec<Vec<Block>>),
    /// The next block begins a page.
    PageBreak,
}

/// How the items of a list begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ListKind {
    /// With a bullet.
    Bullets,
    /// With a number from this one.
    Numbers(u32),
    /// With a number from this one and a box to tick.
    Steps(u32),
    /// With a box to tick at the right edge.
    Ticks,
}

/// Words inside a block.
#[derive(Clone, Debug, PartialEq)]
pub enum Inline {
    /// Plain words.
    Plain(String),
    /// Words that must be seen.
    Strong(String),
    /// Words that lead somewhere.
    Link {
        /// The words.
        text: String,
        /// Whether they must be seen.
        strong: bool,
        /// Where they lead.
        target: Target,
    },
    /// A forced line break.
    Break,
    /// An empty box to tick.
    Tick,
    /// A line to write on.
    Blank {
        /// Its length, mm.
        width: f64,
    },
}

/// A table whose head is repeated on every page that it reaches.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// One for each column.
    pub columns: Vec<Align>,
    /// The head row, one cell a column.
    pub head: Vec<Cell>,
    /// Body rows, one cell a column.
    pub rows: Vec<Vec<Cell>>,
    /// What those body rows are that are not plain, by their number.
    pub marks: BTreeMap<usize, RowMark>,
    /// What it shows, for a screen reader.
    pub summary: String,
    /// What it is for.
    pub kind: TableKind,
}

/// What a table is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TableKind {
    /// To be read.
    Reading,
    /// To be filled in: every cell has a frame, and is high enough to write into. What is left of
    /// the width goes to columns with an empty cell.
    Form,
    /// A few values that are looked for first, in a box with a cell for each column: the name of
    /// each in the head, the value large in the first row, and more about it in the others.
    Summary,
    /// To be worked through row by row: a number, a box to tick, and what they are about. Its
    /// columns stand at the same places in every such table of a document.
    Matrix,
}

/// What a body row is that is not plain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RowMark {
    /// Its first cell spans all columns, and heads the rows down to the next such row. They stay on
    /// one page if they are not too many; else the head is repeated above them.
    Head,
    /// A heavy rule parts it from the row above.
    Apart,
}

/// How a column's words stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// At the left.
    Left,
    /// In the middle.
    Centre,
    /// At the right.
    Right,
}

/// The words of a cell.
pub type Cell = Vec<Inline>;

/// ANSI Z535 signal words, in falling order of harm.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Signal {
    /// Will kill or badly hurt if not avoided.
    Danger,
    /// Could kill or badly hurt.
    Warning,
    /// Could hurt a little.
    Caution,
    /// Only the equipment is at risk; never with the alert triangle.
    Notice,
}

impl Signal {
    /// All four, in falling order of harm.
    pub const ALL: [Signal; 4] = [Signal::Danger, Signal::Warning, Signal::Caution, Signal::Notice];

    /// The English word, as the standard and the templates write it.
    pub fn word(self) -> &'static str {
        match self {
            Signal::Danger => "DANGER",
            Signal::Warning => "WARNING",
            Signal::Caution => "CAUTION",
            Signal::Notice => "NOTICE",
        }
    }

    /// The word of a language, of its words in the order of [`Signal::ALL`].
    pub fn word_in(self, words: &[String; 4]) -> &str {
        let [danger, warning, caution, notice] = words;
        match self {
            Signal::Danger => danger,
            Signal::Warning => warning,
            Signal::Caution => caution,
            Signal::Notice => notice,
        }
    }
}

/// The words of inlines, without their looks.
pub fn plain_text(inlines: &[Inline]) -> String {
    inlines
        .iter()
        .map(|inline| match inline {
            Inline::Plain(text) | Inline::Strong(text) | Inline::Link { text, .. } => text.as_str(),
            Inline::Break | Inline::Tick | Inline::Blank { .. } => " ",
        })
        .collect()
}
