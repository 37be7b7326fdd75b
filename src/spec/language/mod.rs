//! The language as data: every map that a specification or a job may hold, and of each key what may
//! stand there, whether it must, and what it says.
//!
//! The reader takes its keys from here; reference, schema, completion and help of an editor are made
//! of it. What a reader says of a single value (its range, its words) a test holds against what stands
//! here.

pub mod board;
pub mod circuit;
pub mod house;
pub mod job;
pub mod service;

/// A map whose keys the language fixes.
#[derive(Debug)]
pub struct Form {
    /// What a person calls one: `header`.
    pub name: &'static str,
    /// What it is.
    pub says: &'static str,
    /// Its keys, in the order in which people write them.
    pub keys: &'static [Key],
}

/// A key of a map.
#[derive(Debug)]
pub struct Key {
    /// As it is written.
    pub name: &'static str,
    /// Whether it must be there.
    pub need: Need,
    /// What may stand there.
    pub kind: Kind,
    /// What it says.
    pub says: &'static str,
    /// The version of the language that it came with.
    pub since: &'static str,
}

/// Whether a key must be there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// Always.
    Must,
    /// It need not; what holds without it.
    May(&'static str),
}

/// What may stand as a value, or as a key whose name the file chooses.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// The version of the language.
    Version,
    /// One line of at most so many characters.
    Line(usize),
    /// Words for people in one line of at most so many characters, plain or by language.
    Title(usize),
    /// Words for people in lines of at most so many characters together, plain or by language.
    Prose(usize),
    /// A number and its unit.
    Quantity(Range),
    /// A plain number; the key says its unit.
    Number(Range),
    /// The power of a motor as on its nameplate: `2`, `3/4`, `1 1/2`.
    Horsepower(Range),
    /// A length of cable in m or ft.
    Run(Range),
    /// A whole number.
    Whole(u8, u8),
    /// `true` or `false`.
    Truth,
    /// `up`, `right`, `down` or `left`.
    Side,
    /// `[x, y]` in mm.
    Place,
    /// `[width, height]` in mm.
    Size,
    /// A date as `2026-09-14`.
    Date,
    /// A supply system: `split-phase 120/240 V`.
    System,
    /// A size and metal of a conductor: `8 AWG copper`.
    Wire,
    /// One word of a list.
    Word(Words),
    /// The name of one of these things of the board.
    Name(&'static [Thing]),
    /// A set of layouts: `1-7`, or `1-3, 6`.
    Layouts,
    /// A way of a bank or several side by side: `3`, or `1-2`.
    Ways,
    /// What each way of a field is set to: `off on`.
    Positions,
    /// The number of a layout.
    Layout,
    /// The number of a layout, or `no layout`.
    LayoutOrNone,
    /// `0`, `1` or `2` speeds; 0 is not fitted.
    Speeds,
    /// One to three letters from A to Z.
    Letters,
    /// What is printed at a position of a selector.
    PositionName,
    /// The code of a warning.
    Code,
    /// A CSV file beside the specification.
    Table,
    /// A specification, by its path from here.
    Path,
    /// This word.
    Exactly(&'static str),
    /// A list of so many up to so many of these.
    List(&'static Kind, usize, usize),
    /// A map of so many up to so many of these to those.
    Map(&'static Kind, &'static Kind, usize, usize),
    /// Things of one kind by the names that the file gives them, up to so many.
    Things(Thing, &'static Form, usize),
    /// A map whose keys the language fixes.
    Form(&'static Form),
    /// One of these.
    Either(&'static [Kind]),
}

/// From the least to the most that is possible, in a unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least.
    pub least: f64,
    /// The most.
    pub most: f64,
    /// Their unit; empty for a bare number.
    pub unit: &'static str,
}

/// A list of words; which they are, `reference` knows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Words {
    /// Standards of reference designators.
    Designators,
    /// Kinds of things that have a code.
    Coded,
    /// Wire colors.
    Color,
    /// Wire colors, and `bare`.
    CordWire,
    /// Conductors of a supply.
    Conductor,
    /// How fast a fuse opens, or what it protects.
    Fuse,
    /// What a pin is for.
    Pin,
    /// Devices: built in, and the board's own.
    Device,
    /// Built-in devices, the board's own, and `pump`.
    Fitted,
    /// What ways of a bank are for.
    Effect,
    /// Rules that size a breaker.
    Rules,
    /// What terminals are marked for.
    Terminals,
    /// Methods of installation.
    Method,
    /// What conductors are insulated with.
    Insulation,
    /// What a cord is like.
    Cord,
}

/// A kind of thing that a file names and other values refer to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// One of `parts`.
    Part,
    /// One of `terminals`.
    Terminal,
    /// One of `links`.
    Link,
    /// One of `supplies`.
    Supply,
    /// One of `groups`.
    Group,
    /// One of `jumpers`.
    Jumper,
    /// One of `fuses`.
    Fuse,
    /// One of `sockets`.
    Socket,
    /// One of `devices`.
    Device,
    /// One of `headers`.
    Header,
    /// One of `switches`.
    Bank,
    /// One of `selectors`.
    Selector,
    /// One of `panels`.
    Panel,
}

impl Form {
    /// The key of that name.
    pub fn key(&self, name: &str) -> Option<&'static Key> {
        self.keys.iter().find(|key| key.name == name)
    }

    /// The names of its keys.
    pub fn names(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.keys.iter().map(|key| key.name)
    }

    /// The names of the keys that must be there.
    pub fn required(&self) -> impl Iterator<Item = &'static str> + use<> {
        self.keys.iter().filter(|key| key.need == Need::Must).map(|key| key.name)
    }
}

impl Form {
    /// The form, and all that it holds, each once, those of a key behind it.
    pub fn within(&'static self) -> Vec<&'static Form> {
        let mut all = Vec::new();
        self.collect(&mut all);
        all
    }

    fn collect(&'static self, all: &mut Vec<&'static Form>) {
        if !all.iter().any(|known| std::ptr::eq(*known, self)) {
            all.push(self);
            for key in self.keys {
                key.kind.forms().into_iter().for_each(|form| form.collect(all));
            }
        }
    }
}

impl Kind {
    /// The forms that such a value may hold.
    pub fn forms(&self) -> Vec<&'static Form> {
        match self {
            Kind::Things(_, form, _) | Kind::Form(form) => vec![form],
            Kind::List(of, ..) | Kind::Map(_, of, ..) => of.forms(),
            Kind::Either(kinds) => kinds.iter().flat_map(Kind::forms).collect(),
            _ => Vec::new(),
        }
    }

    /// Whether it is words or a name, in which a comma belongs to the text.
    pub fn is_words(&self) -> bool {
        match self {
            Kind::Line(_) | Kind::Title(_) | Kind::Prose(_) => true,
            Kind::Either(kinds) => kinds.iter().any(Kind::is_words),
            _ => false,
        }
    }
}

/// A key that must be there.
const fn must(name: &'static str, kind: Kind, says: &'static str) -> Key {
    Key { name, need: Need::Must, kind, says, since: "1" }
}

/// A key that need not be there; `without` says what holds then.
const fn may(name: &'static str, kind: Kind, says: &'static str, without: &'static str) -> Key {
    Key { name, need: Need::May(without), kind, says, since: "1" }
}

const fn range(least: f64, most: f64, unit: &'static str) -> Range {
    Range { least, most, unit }
}

/// Longest name or title, characters.
pub const TITLE: usize = 60;
/// Longest meaning of a setting, summary of a board and reason for a warning, characters.
pub const MEANING: usize = 300;
/// Longest steps of a panel, characters.
pub const STEPS: usize = 4000;
/// The largest size of a part, and the farthest place on the drawing, mm.
pub const LARGEST: f64 = 2000.0;
/// Longest path, characters.
pub const PATH: usize = 200;
/// The most layouts, because a panel's number has one byte.
pub const MOST_LAYOUTS: usize = 255;
/// The most columns of the layout matrix.
pub const COLUMNS: usize = 16;
/// The most ways of a bank.
pub const WAYS: usize = 16;
/// The most entries of `equipment`: nine pumps and one of each other device are fifteen.
pub const EQUIPMENT: usize = 24;
/// A current.
const AMPS: Kind = Kind::Quantity(range(0.05, 1000.0, "A"));
/// Codes of warnings, and why each is accepted.
const ACCEPTED: Kind = Kind::Map(&Kind::Code, &Kind::Line(MEANING), 0, usize::MAX);

/// `part`, of everything that sits on one.
const PART: Key = must("part", Kind::Name(&[Thing::Part]), "The circuit board that it sits on.");
/// `at`, of everything but a part.
const AT: Key = must(
    "at",
    Kind::Place,
    "The middle of the thing, mm to the right of and below the top left corner of its part.",
);
