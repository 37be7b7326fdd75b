//! The closed list of what can be found about a job.

use super::super::currents::Running;
use super::super::lag::Lag;
use super::super::layout::{NearLayout, Wanted};
use super::super::rules::Rules;
use super::super::supply_run::RunDrop;
use super::super::voltages::GroupVoltage;
use super::super::wire::{AboveTables, TooThin};
use crate::board::{
    Allowance, Conductor, Device, FuseId, GroupId, HeaderId, Heater, JumperId, LayoutNumber, Role,
    SupplyId,
};
use crate::source::{Span, Spanned};
use crate::standards::conductors::Wire;
use crate::units::{Amps, Volts, Watts};

/// One thing that refuses a job, or of which whoever follows its plan must be warned. It is read
/// together with the job and its board; what it says is worded elsewhere.
#[derive(Clone, Debug)]
pub enum Finding {
    /// No layout fits what is fitted.
    NoLayout(NoLayout),
    /// No group gives a device its voltage.
    NoVoltage(NoVoltage),
    /// Each device gets its voltage somewhere, but with all where they can be a header that the
    /// layout needs stays empty.
    NeededHeaderEmpty {
        /// The layout.
        layout: LayoutNumber,
    },
    /// Headers on one jumper want different groups.
    JumperConflict(JumperConflict),
    /// More jumpers must go to a group than it has tabs.
    TabsTaken(TabsTaken),
    /// A device draws more than any header that could take it carries.
    BeyondEveryHeader(BeyondEveryHeader),
    /// A header carries more than it may.
    HeaderOverload(HeaderOverload),
    /// A fuse carries more than its rating.
    FuseOverload(FuseOverload),
    /// Nobody says what the heater's element is.
    HeaterUnknown {
        /// The header that feeds the heater.
        header: HeaderId,
    },
    /// No group gives the heater any voltage.
    HeaterWithoutVoltage {
        /// The header that feeds it.
        header: HeaderId,
        /// Its groups, and why each gives nothing.
        groups: Vec<(GroupId, GroupVoltage)>,
    },
    /// The heater's element gets far more than its voltage.
    HeaterTooHigh(HeaterOnOther),
    /// The heater's element gets less than its voltage.
    HeaterWeak(HeaterOnOther),
    /// A motor whose voltage suits its plate, but not at the ends of what the service may bring.
    VoltageEdge(VoltageEdge),
    /// The breaker is of no standard size.
    OddBreaker(OddBreaker),
    /// The breaker is larger than the largest that is marked.
    BreakerAboveMark {
        /// What is marked.
        largest: Spanned<Amps>,
    },
    /// The breaker is smaller than the minimum circuit ampacity that is marked.
    BreakerBelowMark {
        /// What is marked.
        circuit: Spanned<Amps>,
        /// The breaker that would do.
        larger: LargerBreaker,
    },
    /// The breaker does not carry what is fitted at any setting of the heater allowance.
    BreakerTooSmall(BreakerTooSmall),
    /// No setting of the heater allowance, a current, that the breaker and the board carry lets the
    /// heater run.
    HeaterWaits(HeaterWaits),
    /// A supply conductor carries more than the board may at any setting of the heater allowance.
    BoardOverload(BoardOverload),
    /// The conductors of the supply run are too thin.
    WireTooThin {
        /// The conductors in the job.
        place: Span,
        /// Why, and what would do.
        found: TooThin,
    },
    /// The conductors of the supply run suit only with terminals for 75 °C, and the job does not say
    /// that they are.
    WireNeeds75 {
        /// The conductors in the job.
        place: Span,
        /// What they may carry at 60 °C.
        at_60: Amps,
        /// The smallest size that suits at 60 °C.
        would_do: Option<Wire>,
    },
    /// The capacity that the job states for its conductors is above every table's.
    CapacityAboveTables(AboveTables),
    /// What is fitted draws more than the nameplate of the circuit allows for.
    MarkBelowLoad(MarkBelowLoad),
    /// The supply run loses too much.
    RunDrop {
        /// Where the job tells of the run.
        place: Span,
        /// What is lost.
        drop: RunDrop,
    },
    /// Conductors can carry more than is printed, as nobody gives some power factor.
    FactorUnknown(FactorUnknown),
}

impl Finding {
    /// Whether the job is refused for it; else it is a warning. Nothing of a plan may be followed
    /// that holds a finding which refuses.
    pub fn refuses(&self) -> bool {
        match self {
            Finding::NoLayout(_)
            | Finding::NoVoltage(_)
            | Finding::NeededHeaderEmpty { .. }
            | Finding::JumperConflict(_)
            | Finding::TabsTaken(_)
            | Finding::BeyondEveryHeader(_)
            | Finding::HeaderOverload(_)
            | Finding::FuseOverload(_)
            | Finding::HeaterUnknown { .. }
            | Finding::HeaterWithoutVoltage { .. }
            | Finding::HeaterTooHigh(_)
            | Finding::BreakerAboveMark { .. }
            | Finding::BreakerBelowMark { .. }
            | Finding::BreakerTooSmall(_)
            | Finding::WireTooThin { .. }
            | Finding::HeaterWaits(_)
            | Finding::BoardOverload(_) => true,
            Finding::HeaterWeak(_)
            | Finding::VoltageEdge(_)
            | Finding::OddBreaker(_)
            | Finding::WireNeeds75 { .. }
            | Finding::CapacityAboveTables(_)
            | Finding::MarkBelowLoad(_)
            | Finding::RunDrop { .. }
            | Finding::FactorUnknown(_) => false,
        }
    }
}

/// What [`Finding::NoLayout`] holds.
#[derive(Clone, Debug)]
pub struct NoLayout {
    /// What was asked for; the differences of `nearest` count in it.
    pub asked: Vec<Wanted>,
    /// The layouts that nearly fit, the nearest first.
    pub nearest: Vec<NearLayout>,
    /// What the nearest layout stumbles over, if that is one thing that is fitted; else where the
    /// list begins.
    pub place: Span,
}

/// What [`Finding::NoVoltage`] holds.
#[derive(Clone, Debug)]
pub struct NoVoltage {
    /// What the device can be.
    pub role: Role,
    /// The voltage on its plate.
    pub plate: Spanned<Volts>,
    /// From which voltage to which it may be fed.
    pub allowed: [Volts; 2],
    /// The headers that could take it.
    pub headers: Vec<HeaderId>,
    /// The groups that these can be fed from, and what each gives.
    pub groups: Vec<(GroupId, GroupVoltage)>,
    /// A supply under which one of them would give the voltage.
    pub other: Option<OtherSupply>,
}

/// A supply that would do in place of the job's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OtherSupply {
    /// The supply.
    pub supply: SupplyId,
    /// Whether it brings a neutral and the job's does not.
    pub brings_neutral: bool,
}

/// What [`Finding::JumperConflict`] holds.
#[derive(Clone, Debug)]
pub struct JumperConflict {
    /// The jumper.
    pub jumper: JumperId,
    /// All that hangs on it.
    pub fed: Vec<Fed>,
    /// What the last of the job's devices among them needs.
    pub last: Need,
}

/// A device on a jumper.
#[derive(Clone, Debug)]
pub struct Fed {
    /// The header.
    pub header: HeaderId,
    /// What it is there.
    pub device: Device,
    /// What it needs; `None` for the heater, whose plate is not in the job's list.
    pub need: Option<Need>,
}

/// What a device needs of the jumper that feeds it.
#[derive(Clone, Debug)]
pub struct Need {
    /// The voltage on its plate.
    pub plate: Spanned<Volts>,
    /// The groups that give it.
    pub groups: Vec<GroupId>,
}

/// What [`Finding::TabsTaken`] holds.
#[derive(Clone, Debug)]
pub struct TabsTaken {
    /// The group.
    pub group: GroupId,
    /// The jumpers that must go there.
    pub jumpers: Vec<JumperId>,
    /// The voltage of the last device that one of them feeds, or the supply.
    pub place: Span,
}

/// What [`Finding::BeyondEveryHeader`] holds.
#[derive(Clone, Copy, Debug)]
pub struct BeyondEveryHeader {
    /// What the device can be.
    pub role: Role,
    /// What it draws.
    pub amps: Spanned<Amps>,
    /// The first of the headers.
    pub header: HeaderId,
}

/// What [`Finding::HeaderOverload`] holds.
#[derive(Clone, Copy, Debug)]
pub struct HeaderOverload {
    /// The header.
    pub header: HeaderId,
    /// What is plugged in.
    pub device: Device,
    /// What it draws.
    pub amps: Spanned<Amps>,
    /// What the header may carry.
    pub rating: Amps,
}

/// What [`Finding::FuseOverload`] holds.
#[derive(Clone, Debug)]
pub struct FuseOverload {
    /// The fuse.
    pub fuse: FuseId,
    /// What draws the most behind it.
    pub largest: Behind,
    /// What else does, the most first.
    pub rest: Vec<Behind>,
    /// What it carries at the worst.
    pub amps: Amps,
}

/// A device behind a fuse.
#[derive(Clone, Copy, Debug)]
pub struct Behind {
    /// The device.
    pub device: Device,
    /// What it draws.
    pub amps: Spanned<Amps>,
}

/// A heater on another voltage than that of its plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeaterOnOther {
    /// The header that feeds it.
    pub header: HeaderId,
    /// Its element.
    pub element: Heater,
    /// What it gets.
    pub volts: Volts,
    /// What it gives then.
    pub watts: Watts,
    /// Where the job gives its element, or the supply that feeds it.
    pub place: Span,
}

/// What [`Finding::VoltageEdge`] holds.
#[derive(Clone, Copy, Debug)]
pub struct VoltageEdge {
    /// The motor.
    pub device: Device,
    /// The group that feeds it.
    pub group: GroupId,
    /// What that gives at the service's nominal voltage.
    pub volts: Volts,
    /// What the service may bring it to, and the plate does not allow.
    pub end: Volts,
    /// From which voltage to which the plate allows.
    pub allowed: [Volts; 2],
    /// Where the job gives the voltage of its plate.
    pub place: Span,
}

/// What [`Finding::OddBreaker`] holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OddBreaker {
    /// The rules whose sizes were looked through.
    pub rules: Rules,
    /// The next smaller size.
    pub smaller: Option<Amps>,
    /// The next larger size.
    pub larger: Option<Amps>,
}

/// A breaker that would do in place of one that is too small.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LargerBreaker {
    /// This size carries it.
    Size(Amps),
    /// What carries it is larger than the largest that is marked.
    AboveMark,
    /// No standard size carries it.
    None,
}

/// What [`Finding::BreakerTooSmall`] holds.
#[derive(Clone, Debug)]
pub struct BreakerTooSmall {
    /// The lowest heater allowance; `None` if no switch sets one.
    pub allowance: Option<Allowance>,
    /// What counts at that allowance in the line that is worst.
    pub counted: Amps,
    /// That line; `None` if nothing draws from a line.
    pub line: Option<Conductor>,
    /// What runs there when it is worst.
    pub running: Vec<(Device, Running)>,
    /// The rules by which it is counted.
    pub rules: Rules,
    /// The breaker that would do.
    pub larger: LargerBreaker,
    /// The devices each of which makes it carried if it is left out.
    pub without: Vec<Device>,
}

/// What [`Finding::HeaterWaits`] holds.
#[derive(Clone, Copy, Debug)]
pub struct HeaterWaits {
    /// The highest allowance that is carried.
    pub allowance: Allowance,
    /// What the heater and the pump that moves its water add up to.
    pub needs: Amps,
    /// The lowest setting that would do, if there is one.
    pub next: Option<Allowance>,
}

/// What [`Finding::BoardOverload`] holds.
#[derive(Clone, Debug)]
pub struct BoardOverload {
    /// The conductor that carries the most at the lowest heater allowance.
    pub conductor: Conductor,
    /// What it carries.
    pub amps: Amps,
    /// What the board may carry.
    pub max: Amps,
    /// What runs there when it is worst.
    pub running: Vec<(Device, Running)>,
    /// The devices each of which makes it carried if it is left out.
    pub without: Vec<Device>,
}

/// What [`Finding::MarkBelowLoad`] holds.
#[derive(Clone, Debug)]
pub struct MarkBelowLoad {
    /// What is marked.
    pub marked: Spanned<Amps>,
    /// Whether it is the largest breaker, else the minimum circuit ampacity.
    pub largest_breaker: bool,
    /// The line that carries the most.
    pub line: Conductor,
    /// What it carries.
    pub amps: Amps,
    /// What runs there then.
    pub running: Vec<(Device, Running)>,
}

/// What [`Finding::FactorUnknown`] holds.
#[derive(Clone, Debug)]
pub struct FactorUnknown {
    /// The devices whose power factor nobody gives.
    pub devices: Vec<Role>,
    /// The first of them in the job.
    pub place: Span,
    /// What that can bring.
    pub lag: Lag,
    /// Whether the neutral can carry more than the breaker is for, which does not see it, and more
    /// than its wire may carry, if that is known.
    pub neutral_unseen: bool,
}
