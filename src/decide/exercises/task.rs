//! What an exercise is: data, no sentences. A handout words it in its reader's language.

use super::super::currents::Running;
use super::super::layout::Wanted;
use super::super::pins::PinOrder;
use super::super::switches::BankSetting;
use crate::board::{
    Conductor, Device, GroupId, HeaderId, Heater, JumperId, LayoutNumber, LayoutSet, Rules, Speeds,
    SupplyId,
};
use crate::geometry::Side;
use crate::source::Span;
use crate::units::{Amps, Volts};

/// One exercise.
#[derive(Clone, Debug)]
pub struct Exercise {
    /// How hard it is, 1 to 3; what that means for each kind stands at its [`Task`].
    pub level: u8,
    /// The question with its answer.
    pub task: Task,
}

impl Exercise {
    /// What kind it is.
    pub fn kind(&self) -> Kind {
        match &self.task {
            Task::FindLayout(_) => Kind::FindLayout,
            Task::WhichHeader(_) => Kind::WhichHeader,
            Task::MoveJumpers(_) => Kind::MoveJumpers,
            Task::SetSwitches(_) => Kind::SetSwitches,
            Task::DrawPins(_) => Kind::DrawPins,
        }
    }
}

/// The kinds of exercise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// [`FindLayout`].
    FindLayout,
    /// [`WhichHeader`].
    WhichHeader,
    /// [`MoveJumpers`].
    MoveJumpers,
    /// [`SetSwitches`].
    SetSwitches,
    /// [`DrawPins`].
    DrawPins,
}

/// A question, its one right answer, why, and what tempts.
#[derive(Clone, Debug, PartialEq)]
pub enum Task {
    /// Which layout number fits what is fitted?
    FindLayout(FindLayout),
    /// Which header takes a device, and which headers stay empty?
    WhichHeader(WhichHeader),
    /// Where does every jumper go, and which are moved?
    MoveJumpers(MoveJumpers),
    /// How many may run on high beside the heater, and how do the ways stand?
    SetSwitches(SetSwitches),
    /// What is in each cavity of a socket?
    DrawPins(DrawPins),
}

/// A wrong answer and the mistake behind it. Never the right answer, and no wrong answer twice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trap<A, M> {
    /// The wrong answer.
    pub answer: A,
    /// The mistake.
    pub mistake: M,
}

/// Find the layout.
#[derive(Clone, Debug, PartialEq)]
pub struct FindLayout {
    /// Given: what is fitted, in the order in which it is listed; jet pumps without their numbers.
    pub fitted: Vec<Wanted>,
    /// The only layout that fits.
    pub answer: LayoutNumber,
    /// What each of `fitted` is in that layout, in the same order: a jet pump has its number.
    pub places: Vec<Device>,
    /// The row of the matrix.
    pub row: Span,
    /// At least one.
    pub traps: Vec<Trap<LayoutNumber, LayoutSlip>>,
}

/// How another layout number is found. `fitted` counts in [`FindLayout::fitted`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LayoutSlip {
    /// The circulation pump is forgotten.
    CirculationForgotten,
    /// A jet pump, of one or two speeds, is taken for a circulation pump.
    TakenForCirculation {
        /// Which.
        fitted: usize,
    },
    /// The circulation pump is taken for a jet pump.
    CirculationTakenForPump,
    /// The number of speeds is misread.
    OtherSpeeds {
        /// Of which.
        fitted: usize,
        /// As what.
        taken: Speeds,
    },
    /// Some other device is left out.
    LeftOut {
        /// Which.
        fitted: usize,
    },
    /// A device is seen that is not there.
    Added {
        /// What.
        device: Device,
        /// With how many speeds.
        speeds: Speeds,
    },
}

/// Which header takes a device under a layout, and which stay empty.
#[derive(Clone, Debug, PartialEq)]
pub struct WhichHeader {
    /// Given: the layout.
    pub layout: LayoutNumber,
    /// Given: the device.
    pub device: Device,
    /// Given: its speeds there.
    pub speeds: Speeds,
    /// The header that takes it.
    pub answer: HeaderId,
    /// The layouts in which that header serves the device.
    pub layouts: LayoutSet,
    /// The header's line.
    pub line: Span,
    /// The row of the matrix.
    pub row: Span,
    /// The headers that stay empty under the layout, in the specification's order; may be none.
    pub empty: Vec<EmptyHeader>,
    /// At least one.
    pub traps: Vec<Trap<HeaderId, HeaderSlip>>,
}

/// A header that stays empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EmptyHeader {
    /// The header.
    pub header: HeaderId,
    /// Why.
    pub because: EmptyWhy,
    /// Its line.
    pub line: Span,
}

/// Why a header stays empty under a layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EmptyWhy {
    /// It serves nothing under this layout.
    ServesNothing,
    /// It would serve this device, which the layout has not.
    DeviceNotFitted(Device),
}

/// How another header is chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HeaderSlip {
    /// It takes the device, but only under these layouts.
    OtherLayouts(LayoutSet),
    /// Its title names the device, and it stays empty here.
    TitleOfEmpty,
    /// Its title names the device, and it takes another one here.
    TitleOfOther(Device),
}

/// Where the jumpers go for the plates of what is fitted.
#[derive(Clone, Debug, PartialEq)]
pub struct MoveJumpers {
    /// Given: the supply.
    pub supply: SupplyId,
    /// Given: the layout.
    pub layout: LayoutNumber,
    /// Given: what is plugged in where a jumper picks the voltage, in the order of the headers.
    pub plates: Vec<PlateAt>,
    /// Every jumper of the board, in its order. At least one is moved.
    pub answer: Vec<JumperAnswer>,
}

/// A device at its header, with the voltage on its plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateAt {
    /// The header.
    pub header: HeaderId,
    /// The device.
    pub device: Device,
    /// On its plate.
    pub volts: Volts,
}

/// Where one jumper goes.
#[derive(Clone, Debug, PartialEq)]
pub struct JumperAnswer {
    /// The jumper.
    pub jumper: JumperId,
    /// Its group.
    pub group: GroupId,
    /// Whether it is moved from where it is shipped.
    pub moved: bool,
    /// Why.
    pub because: JumperWhy,
    /// The jumper's line.
    pub line: Span,
    /// The group's line.
    pub group_line: Span,
    /// The other groups that tempt.
    pub traps: Vec<Trap<GroupId, JumperSlip>>,
}

/// Why a jumper goes to its group.
#[derive(Clone, Debug, PartialEq)]
pub enum JumperWhy {
    /// Nothing hangs on it: it stays where it is shipped.
    Unused,
    /// It is the only group that suits what hangs on it; or the only one that leaves a tab for
    /// every other jumper.
    Suits {
        /// What the group gives under the supply.
        volts: Volts,
        /// What hangs on the jumper, by its place in [`MoveJumpers::plates`].
        plates: Vec<usize>,
    },
}

/// How a jumper gets to another group.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum JumperSlip {
    /// It is left where it is shipped.
    LeftOnShipped {
        /// What its devices get then; `None` for nothing.
        gives: Option<Volts>,
    },
    /// It is moved although it was right where it is shipped, or to another of its groups.
    OtherGroup {
        /// What its devices get then; `None` for nothing.
        gives: Option<Volts>,
    },
}

/// The highest heater allowance that a breaker carries, and how the ways stand for it.
#[derive(Clone, Debug, PartialEq)]
pub struct SetSwitches {
    /// Given: the supply.
    pub supply: SupplyId,
    /// Given: the layout.
    pub layout: LayoutNumber,
    /// Given: the breaker.
    pub breaker: Amps,
    /// Given: the rules that it is sized by. They say what `factor` is.
    pub rules: Rules,
    /// Given: what a current counts for that can flow for three hours or more: 1.25 or 1.
    pub factor: f64,
    /// Given: the element of the heater.
    pub element: Heater,
    /// Given: everything that draws, the heater included, in the order of the headers, with the
    /// conductors that it draws from. Currents are whole tenths of an ampere but for the heater's.
    pub loads: Vec<LoadAt>,
    /// The answer.
    pub answer: SwitchAnswer,
    /// The sum of the worst line at that allowance.
    pub sum: LineSum,
    /// The next higher setting and the sum that the breaker does not carry; `None` if there is
    /// none.
    pub next: Option<(u8, LineSum)>,
    /// The line of the ways that set the allowance.
    pub line: Span,
    /// At least one.
    pub traps: Vec<Trap<SwitchAnswer, SwitchSlip>>,
}

/// A device at its header, with its currents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LoadAt {
    /// The header.
    pub header: HeaderId,
    /// The device.
    pub device: Device,
    /// The group that feeds it.
    pub group: GroupId,
    /// The conductors that it draws from; `None` if it is fed apart from the mains and draws
    /// nothing from a line.
    pub conductors: Option<[Conductor; 2]>,
    /// On its plate.
    pub volts: Volts,
    /// On low; there if it has two speeds.
    pub low: Option<Amps>,
    /// On high, or when it is on. For the heater the current that a breaker is sized for.
    pub high: Amps,
    /// Whether `high` counts with the factor, too; what is on low always does.
    pub continuous: bool,
}

/// An allowance and how every bank stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SwitchAnswer {
    /// How many pumps and blowers may run on high while the heater is on.
    pub allowance: u8,
    /// Every way of every bank: those that do not set the allowance stay as shipped.
    pub banks: Vec<BankSetting>,
}

/// The sum of what counts in one line.
#[derive(Clone, Debug, PartialEq)]
pub struct LineSum {
    /// The line.
    pub line: Conductor,
    /// What runs there when it is worst, in the order of the headers.
    pub terms: Vec<Term>,
    /// Their sum.
    pub amps: Amps,
}

/// A term of a sum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// Of [`SetSwitches::loads`].
    pub load: usize,
    /// How it runs.
    pub running: Running,
    /// What it draws.
    pub amps: Amps,
    /// What that counts for.
    pub counted: Amps,
}

/// How another allowance is found.
#[derive(Clone, Debug, PartialEq)]
pub enum SwitchSlip {
    /// One setting higher: the breaker does not carry this.
    OneHigher(LineSum),
    /// The factor on what runs for three hours or more is forgotten.
    FactorForgotten,
    /// The currents of all lines are added.
    LinesAdded,
    /// The heater is forgotten.
    HeaterForgotten,
    /// The ways are set in the opposite order.
    WaysBackwards,
}

/// What is in each cavity of a socket.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawPins {
    /// Given: the header; its socket's list of pins and the side of its key are given with it.
    pub header: HeaderId,
    /// Given: how many speeds the cord is for.
    pub speeds: Speeds,
    /// The pins as seen from the front.
    pub answer: PinOrder,
    /// The side of the key in the list, and on this header; `None` without a key.
    pub turn: Option<(Side, Side)>,
    /// Whether a cavity stays empty.
    pub gap: bool,
    /// The socket's line.
    pub socket_line: Span,
    /// The header's line.
    pub header_line: Span,
    /// At least one.
    pub traps: Vec<Trap<PinOrder, PinSlip>>,
}

/// How pins get into another order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PinSlip {
    /// The list is written down as it stands, not turned.
    NotTurned,
    /// It is read from the wrong end.
    WrongEnd,
    /// The empty cavity is left out, and what follows moves up.
    GapLeftOut,
    /// The cord is taken for one of this number of speeds.
    OtherSpeeds(Speeds),
}
