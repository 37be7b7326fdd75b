//! The things on a board and how they hang together.

use std::fmt;
use std::ops::Index;

use super::handle::{Handle, HandleMap};
use super::{Bank, Device, Effect, Layout, LayoutNumber, LayoutSet, Selector, Speeds};
use crate::geometry::{Point, Side, Size};
use crate::reading::Counts;
use crate::source::Span;
use crate::units::{Amps, Length, Volts, Watts};

macro_rules! handles {
    ($($(#[$doc:meta])* $id:ident => $field:ident: $thing:ty;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub struct $id(pub usize);

        impl Index<$id> for Board {
            type Output = $thing;
            fn index(&self, id: $id) -> &$thing {
                &self.$field[id.0]
            }
        }

        impl Handle for $id {
            fn new(index: usize) -> Self {
                Self(index)
            }

            fn index(self) -> usize {
                self.0
            }
        }

        impl BoardHandle for $id {
            fn count(board: &Board) -> usize {
                board.$field.len()
            }
        }
    )*};
}

handles! {
    /// Which of [`Board::parts`].
    PartId => parts: Part;
    /// Which of [`Board::terminals`].
    TerminalId => terminals: Terminal;
    /// Which of [`Board::links`].
    LinkId => links: Link;
    /// Which of [`Board::supplies`].
    SupplyId => supplies: Supply;
    /// Which of [`Board::groups`].
    GroupId => groups: Group;
    /// Which of [`Board::jumpers`].
    JumperId => jumpers: Jumper;
    /// Which of [`Board::fuses`].
    FuseId => fuses: Fuse;
    /// Which of [`Board::sockets`].
    SocketId => sockets: Socket;
    /// Which of [`Board::headers`].
    HeaderId => headers: Header;
    /// Which of [`Board::banks`].
    BankId => banks: Bank;
    /// Which of [`Board::selectors`].
    SelectorId => selectors: Selector;
    /// Which of [`Board::panels`].
    PanelId => panels: Panel;
}

/// A control board, whole and sound.
#[derive(Clone, Debug)]
pub struct Board {
    /// What is printed on it.
    pub about: About,
    /// Its circuit boards.
    pub parts: Vec<Part>,
    /// Where the supply lands.
    pub terminals: Vec<Terminal>,
    /// Straps that a person moves with the supply.
    pub links: Vec<Link>,
    /// Every way it may be fed; at least one. The first is the one that declared volts refer to.
    pub supplies: Vec<Supply>,
    /// What its own electronics are fed from, if it is said.
    pub electronics: Option<Electronics>,
    /// Voltage groups.
    pub groups: Vec<Group>,
    /// Leads that set the voltage of headers.
    pub jumpers: Vec<Jumper>,
    /// Fuses.
    pub fuses: Vec<Fuse>,
    /// Connector families.
    pub sockets: Vec<Socket>,
    /// Roles that it declares itself.
    pub devices: Vec<OwnDevice>,
    /// Places to plug in.
    pub headers: Vec<Header>,
    /// The heater's element.
    pub heater: Option<Heater>,
    /// Columns of the layout matrix.
    pub columns: Vec<Device>,
    /// Rows of the layout matrix, by number.
    pub layouts: Vec<Layout>,
    /// Switch banks.
    pub banks: Vec<Bank>,
    /// Rotary selectors; at most one, which sets the layout number.
    pub selectors: Vec<Selector>,
    /// Panels.
    pub panels: Vec<Panel>,
    /// How much prose its specification holds, and how easy that is to read.
    pub prose: Counts,
    /// The languages of words that stand in for those that the language of this board lacks, each once:
    /// tags.
    pub stand_ins: Vec<String>,
}

/// What is printed on a board.
#[derive(Clone, Debug)]
pub struct About {
    /// Name of the product.
    pub name: String,
    /// Who makes it.
    pub maker: String,
    /// Part number.
    pub part: String,
    /// Revision.
    pub revision: String,
    /// Date of the revision, `YYYY-MM-DD`, a real date.
    pub dated: Date,
    /// One sentence on what it is.
    pub summary: String,
    /// The most that any one supply conductor may carry.
    pub max_current: Option<Amps>,
    /// Which standard its designators follow.
    pub designators: Designators,
}

impl About {
    /// Revision and date, as a person tells states of a board apart: `D of 2026-09-14`.
    pub fn dated_revision(&self) -> String {
        format!("{} of {}", self.revision, self.dated)
    }

    /// Whether revision and date do not tell it from another.
    pub fn is_same_revision(&self, other: &Self) -> bool {
        (&self.revision, self.dated) == (&other.revision, other.dated)
    }
}

/// A calendar date.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// Year, four digits.
    pub year: u16,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day, 1 to 31.
    pub day: u8,
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

/// The standard that reference designators follow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Designators {
    /// ASME Y14.44 / IEEE 315 class letters (J, P, F, W, T, S, TB).
    Y1444,
    /// IEC 81346-2 class letters (X, F, W, S).
    Iec81346,
}

impl Designators {
    /// All of them.
    pub const ALL: [Designators; 2] = [Designators::Y1444, Designators::Iec81346];

    /// The standard's name.
    pub fn title(self) -> &'static str {
        match self {
            Designators::Y1444 => "ASME Y14.44",
            Designators::Iec81346 => "IEC 81346-2",
        }
    }
}

/// One circuit board of the product.
#[derive(Clone, Debug)]
pub struct Part {
    /// Its name in the specification.
    pub name: String,
    /// Its title on the sheets, if it has one.
    pub title: Option<String>,
    /// Width and height, mm.
    pub size: Size,
    /// Top left corner on the drawing, mm.
    pub at: Point,
    /// Its line in the specification.
    pub span: Span,
}

/// A terminal that a supply conductor lands on.
#[derive(Clone, Debug)]
pub struct Terminal {
    /// Reference designator.
    pub code: String,
    /// The circuit board it sits on.
    pub part: PartId,
    /// Middle, mm from the part's top left corner.
    pub at: Point,
    /// Colour of the board's own wire or marking there.
    pub wire: Option<WireColour>,
    /// Whether it is for the protective earth.
    pub ground: bool,
    /// Its line in the specification.
    pub span: Span,
}

/// A strap that joins an inner point of the board to one of two or more terminals.
#[derive(Clone, Debug)]
pub struct Link {
    /// Reference designator.
    pub code: String,
    /// The circuit board it sits on.
    pub part: PartId,
    /// Middle, mm from the part's top left corner.
    pub at: Point,
    /// The terminals that it can be put on; at least two.
    pub positions: Vec<TerminalId>,
    /// Where it is when the board is delivered; one of `positions`.
    pub shipped: TerminalId,
    /// Its line in the specification.
    pub span: Span,
}

/// One way in which a board may be fed.
#[derive(Clone, Debug)]
pub struct Supply {
    /// Its name in the specification.
    pub name: String,
    /// Its title on the sheets.
    pub title: String,
    /// What kind of system it comes from.
    pub system: System,
    /// The conductor on each terminal of [`Board::terminals`].
    pub lands: HandleMap<TerminalId, Option<Conductor>>,
    /// The position of each link of [`Board::links`].
    pub links: HandleMap<LinkId, TerminalId>,
    /// The most that any one of its conductors may carry, where the board's own limit is higher or
    /// none.
    pub max_current: Option<Amps>,
    /// Its line in the specification.
    pub span: Span,
}

impl Supply {
    /// Whether it brings a neutral.
    pub fn has_neutral(&self) -> bool {
        self.lands.contains(&Some(Conductor::N))
    }

    /// The conductors that it lands, in the order L1, L2, L3, L, N, PE.
    pub fn conductors(&self) -> Vec<Conductor> {
        let mut all: Vec<_> = self.lands.iter().flatten().copied().collect();
        all.sort();
        all.dedup();
        all
    }
}

/// A supply system; its phasors are in [`super::voltage`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum System {
    /// Two lines half a turn apart and their middle: 120/240 V.
    SplitPhase {
        /// Line to neutral.
        to_neutral: Volts,
    },
    /// Three lines a third of a turn apart and their star point: 120/208 V, 230/400 V.
    Wye {
        /// Line to neutral.
        to_neutral: Volts,
    },
    /// One line and a neutral.
    SinglePhase {
        /// Line to neutral.
        to_neutral: Volts,
    },
}

impl System {
    /// The voltage from a line to the neutral.
    pub fn to_neutral(&self) -> Volts {
        match self {
            System::SplitPhase { to_neutral }
            | System::Wye { to_neutral }
            | System::SinglePhase { to_neutral } => *to_neutral,
        }
    }
}

/// A supply conductor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Conductor {
    /// First line of two or three.
    L1,
    /// Second line.
    L2,
    /// Third line.
    L3,
    /// The only line.
    L,
    /// Neutral.
    N,
    /// Protective earth.
    Pe,
}

impl Conductor {
    /// Reads `L1`, `L2`, `L3`, `L`, `N` or `PE`.
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "L1" => Some(Conductor::L1),
            "L2" => Some(Conductor::L2),
            "L3" => Some(Conductor::L3),
            "L" => Some(Conductor::L),
            "N" => Some(Conductor::N),
            "PE" => Some(Conductor::Pe),
            _ => None,
        }
    }

    /// Whether it is one of the lines, neither neutral nor earth.
    pub fn is_line(self) -> bool {
        !matches!(self, Conductor::N | Conductor::Pe)
    }
}

impl fmt::Display for Conductor {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Conductor::L1 => "L1",
            Conductor::L2 => "L2",
            Conductor::L3 => "L3",
            Conductor::L => "L",
            Conductor::N => "N",
            Conductor::Pe => "PE",
        })
    }
}

/// A point of the board that has a potential.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Node {
    /// A terminal.
    Terminal(TerminalId),
    /// The inner point that a link joins to one of its terminals.
    Link(LinkId),
}

/// A voltage group: tabs that lie between the same two points.
#[derive(Clone, Debug)]
pub struct Group {
    /// Its letter or name.
    pub code: String,
    /// The circuit board it sits on.
    pub part: PartId,
    /// Middle of the row of tabs, mm from the part's top left corner.
    pub at: Point,
    /// How many tabs it has.
    pub tabs: u8,
    /// Where its voltage comes from.
    pub source: GroupSource,
    /// Its line in the specification.
    pub span: Span,
}

/// Where a group's voltage comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GroupSource {
    /// Between two points that the supply reaches. The second is what *common* pins join.
    Between {
        /// The two points.
        nodes: [Node; 2],
        /// What the specification says that it is under the first supply.
        declared: Volts,
    },
    /// A transformer or supply unit on the board, apart from the mains.
    Isolated(Volts),
}

/// A lead that a person moves from one group to another.
#[derive(Clone, Debug)]
pub struct Jumper {
    /// Reference designator.
    pub code: String,
    /// The circuit board that its fixed end sits on.
    pub part: PartId,
    /// The fixed end, mm from the part's top left corner.
    pub at: Point,
    /// The groups that it may go to; at least one.
    pub groups: Vec<GroupId>,
    /// The group it is on when the board is delivered; one of `groups`.
    pub shipped: GroupId,
    /// Its line in the specification.
    pub span: Span,
}

/// A fuse.
#[derive(Clone, Debug)]
pub struct Fuse {
    /// Reference designator.
    pub code: String,
    /// The circuit board it sits on.
    pub part: PartId,
    /// Middle, mm from the part's top left corner.
    pub at: Point,
    /// Rated current.
    pub rating: Amps,
    /// How fast it opens, in the specification's word, which is one of `standards::fuses`.
    pub speed: Option<String>,
    /// Its line in the specification.
    pub span: Span,
}

/// A connector family.
#[derive(Clone, Debug)]
pub struct Socket {
    /// Its name in the specification.
    pub name: String,
    /// Its title on the sheets.
    pub title: String,
    /// Distance from pin to pin.
    pub pitch: Length,
    /// The side that the key is on in the list of pins; `None` if it has no key.
    pub key_drawn: Option<Side>,
    /// Pins as drawn: from the top down if the key is drawn to the right or left (or there is no
    /// key), from the left to the right if it is drawn up or down.
    pub pins: Vec<Pin>,
    /// The wire in the cord at each of `pins`, for a cord that brings one to all of them; `None` where
    /// the specification does not say it.
    pub wires: Vec<Option<WireColour>>,
    /// The same for the cord of a device with one speed, if that has no wire for *low*. A cord with
    /// fewer wires is another cord: its colours do not follow from those of `wires`.
    pub one_speed_wires: Vec<Option<WireColour>>,
    /// Its line in the specification.
    pub span: Span,
}

impl Socket {
    /// Whether a device with one speed has a cord of its own, without a wire for *low*.
    pub fn has_one_speed_cord(&self) -> bool {
        self.pins.contains(&Pin::Low) && self.pins.contains(&Pin::High)
    }
}

/// What a pin is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Pin {
    /// Protective earth.
    Ground,
    /// Return of all speeds.
    Common,
    /// Low speed.
    Low,
    /// High speed, or the only one.
    High,
    /// Positive of a low-voltage output.
    Positive,
    /// Negative of a low-voltage output.
    Negative,
    /// A signal that carries no power.
    Signal,
    /// Screen of a signal lead.
    Screen,
}

impl Pin {
    /// Every function with its word.
    pub const WORDS: [(&'static str, Pin); 8] = [
        ("ground", Pin::Ground),
        ("common", Pin::Common),
        ("low", Pin::Low),
        ("high", Pin::High),
        ("positive", Pin::Positive),
        ("negative", Pin::Negative),
        ("signal", Pin::Signal),
        ("screen", Pin::Screen),
    ];

    /// Reads the word of the specification language.
    pub fn parse(text: &str) -> Option<Self> {
        Self::WORDS.iter().find(|(word, _)| *word == text).map(|(_, pin)| *pin)
    }
}

impl fmt::Display for Pin {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = Self::WORDS.iter().find(|(_, pin)| pin == self).map_or("", |(word, _)| word);
        f.write_str(word)
    }
}

/// A role that a board declares itself.
#[derive(Clone, Debug)]
pub struct OwnDevice {
    /// The device.
    pub device: Device,
    /// The one that it runs with: it is on exactly when that one is.
    pub runs_with: Option<Device>,
    /// Whether it is a further cord of that device, which has a plug of its own for it: it is there
    /// whenever that device is.
    pub is_cord: bool,
    /// Its line in the specification.
    pub span: Span,
}

/// A place to plug in.
#[derive(Clone, Debug)]
pub struct Header {
    /// Reference designator.
    pub code: String,
    /// Its title, as printed beside it.
    pub title: String,
    /// The circuit board it sits on.
    pub part: PartId,
    /// Middle, mm from the part's top left corner.
    pub at: Point,
    /// Its connector family.
    pub socket: SocketId,
    /// The side that the key faces as the board is mounted; `None` if the family has no key.
    pub key: Option<Side>,
    /// What feeds it.
    pub feed: Feed,
    /// The fuse in front of it.
    pub fuse: Option<FuseId>,
    /// The most that it may carry.
    pub max: Option<Amps>,
    /// What it drives under which layouts.
    pub serves: Vec<(LayoutSet, Device)>,
    /// Its line in the specification.
    pub span: Span,
}

/// What feeds a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Feed {
    /// A group, fixed.
    Group(GroupId),
    /// A group that a person picks with this jumper.
    Jumper(JumperId),
}

/// The heater's element, a resistance given by its watts at a voltage.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heater {
    /// Rated power.
    pub watts: Watts,
    /// At this voltage.
    pub at: Volts,
}

/// What a board's own electronics (transformer, relays, panel) are fed from. Without it the panel is
/// dead and nothing runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Electronics {
    /// The two points that they lie between.
    pub nodes: [Node; 2],
}

/// A panel. The layout number is entered on it if neither ways of a bank nor a selector set it.
#[derive(Clone, Debug)]
pub struct Panel {
    /// Its name in the specification.
    pub name: String,
    /// Its title on the sheets.
    pub title: String,
    /// How to enter the layout number: Markdown in which `{{ layout }}` stands for the number. `None`
    /// if it is not entered here.
    pub choose_layout: Option<String>,
    /// Its line in the specification.
    pub span: Span,
}

/// A wire colour by its IEC 60757 letters and its English words, or a wire without insulation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct WireColour {
    /// IEC 60757 letters, `BK` or `GNYE`; `bare`, which has none.
    pub letters: &'static str,
    /// English words, `black` or `green and yellow`.
    pub words: &'static str,
}

/// How a layout number is entered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayoutEntry {
    /// On a panel, or in a way that the specification does not tell.
    Panel,
    /// By ways of a switch bank: each combination is a layout, or none.
    Ways {
        /// The bank.
        bank: BankId,
        /// Which of its fields.
        field: usize,
    },
    /// By a rotary selector: each position is a layout, or none.
    Selector(SelectorId),
}

/// The handle of a thing on a board.
pub trait BoardHandle: Handle {
    /// How many things of the kind a board has.
    fn count(board: &Board) -> usize;
}

impl<H: BoardHandle, T> HandleMap<H, T> {
    /// Of what `value` gives for each thing of `board`.
    pub fn of(board: &Board, value: impl FnMut(H) -> T) -> Self {
        Self::new(board.handles().map(value).collect())
    }
}

impl Board {
    /// The handles of all things of a kind, in the specification's order.
    pub fn handles<H: BoardHandle>(&self) -> impl Iterator<Item = H> + use<H> {
        (0..H::count(self)).map(H::new)
    }

    /// How the layout number is entered.
    pub fn layout_entry(&self) -> LayoutEntry {
        if let Some(selector) = self.handles().next() {
            return LayoutEntry::Selector(selector);
        }
        let sets = |bank: BankId| {
            let mut fields = self[bank].fields.iter();
            let field = fields.position(|field| field.effect == Some(Effect::LayoutNumber))?;
            Some(LayoutEntry::Ways { bank, field })
        };
        self.handles().find_map(sets).unwrap_or(LayoutEntry::Panel)
    }

    /// The layout of that number.
    pub fn layout(&self, number: LayoutNumber) -> Option<&Layout> {
        self.layouts.iter().find(|layout| layout.number == number)
    }

    /// What `header` drives under `layout`; `None` if it stays empty there. A device without a
    /// column in the matrix is there under every layout.
    pub fn device_at(&self, header: HeaderId, layout: &Layout) -> Option<Device> {
        let served = self[header].serves.iter().find(|(set, _)| set.contains(layout.number));
        let device = served.map(|(_, device)| *device)?;
        match self.speeds_at(layout, device) {
            Some(Speeds::None) => None,
            _ => Some(device),
        }
    }

    /// The device of that word: one of its own, or a built-in one.
    pub fn device(&self, word: &str) -> Option<Device> {
        let own = self.devices.iter().map(|own| own.device);
        own.chain(Device::parse(word)).find(|device| device.to_string() == word)
    }

    /// The device that `device` runs with: it is on exactly when that one is.
    pub fn leader(&self, device: Device) -> Option<Device> {
        self.devices.iter().find(|own| own.device == device)?.runs_with
    }

    /// The device whose further cord `device` is.
    pub fn cord_of(&self, device: Device) -> Option<Device> {
        self.devices.iter().find(|own| own.is_cord && own.device == device)?.runs_with
    }

    /// The entry of the matrix for a device; `None` if it has no column. A further cord of a device
    /// is there, with one speed, whenever that device is.
    pub fn speeds_at(&self, layout: &Layout, device: Device) -> Option<Speeds> {
        match self.cord_of(device) {
            None => layout.speeds_of(&self.columns, device),
            Some(leader) => match layout.speeds_of(&self.columns, leader)? {
                Speeds::None => Some(Speeds::None),
                Speeds::One | Speeds::Two => Some(Speeds::One),
            },
        }
    }

    /// Whether `device`, another one, is on whenever `other` is: it runs with that, or both run with
    /// the same one, or that runs with it.
    pub fn runs_with(&self, device: Device, other: Device) -> bool {
        device != other
            && self.together(device).is_some_and(|number| self.together(other) == Some(number))
    }

    /// Which devices run together: the same number for a leader and all that run with it; `None` for
    /// what runs by itself.
    pub fn together(&self, device: Device) -> Option<u8> {
        let leader = self.leader(device).unwrap_or(device);
        let place = self.devices.iter().position(|own| own.runs_with == Some(leader))?;
        u8::try_from(place).ok()
    }

    /// The groups that `header` can be fed from: one, or all that its jumper may go to.
    pub fn groups_of(&self, header: HeaderId) -> Vec<GroupId> {
        match self[header].feed {
            Feed::Group(group) => vec![group],
            Feed::Jumper(jumper) => self[jumper].groups.clone(),
        }
    }

    /// The group that `header` is on when the board is delivered.
    pub fn shipped_group(&self, header: HeaderId) -> GroupId {
        match self[header].feed {
            Feed::Group(group) => group,
            Feed::Jumper(jumper) => self[jumper].shipped,
        }
    }

    /// Handles of all headers, in the specification's order.
    pub fn header_ids(&self) -> impl Iterator<Item = HeaderId> + use<> {
        self.handles()
    }

    /// The place of a thing on the drawing: its part's corner and its own place added, mm.
    pub fn place(&self, part: PartId, at: Point) -> Point {
        let corner = self[part].at;
        Point::new(corner.x + at.x, corner.y + at.y)
    }
}
