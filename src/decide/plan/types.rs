//! What is decided for a job, as data.

use std::ops::Index;

use super::super::breaker::BreakerChoice;
use super::super::findings::Finding;
use super::super::lag::Lag;
use super::super::loads::{ConductorLoad, RatedLoad};
use super::super::pins::PinOrder;
use super::super::reason::{EmptyReason, JumperReason, LayoutReason};
use super::super::supply_run::RunDrop;
use super::super::switches::{BankSetting, SelectorSetting};
use super::super::voltages::GroupVoltage;
use super::super::wire::WireCheck;
use crate::board::{
    Allowance, CurrentSource, Device, FuseId, GroupId, Handle, HandleMap, HeaderId, Heater,
    JumperId, LayoutNumber, LinkId, Speeds, TerminalId,
};
use crate::units::{Amps, Volts, Watts};

/// What is decided for a job.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The layout; `None` if none fits.
    pub layout: Option<LayoutChoice>,
    /// Everything that follows from the layout; `None` if no layout fits, or if some device cannot
    /// get its voltage. It may hold what `findings` refuse: see [`Plan::sound`].
    pub wiring: Option<Wiring>,
    /// What refuses the job, and what whoever follows the plan must be warned of.
    pub findings: Vec<Finding>,
}

impl Plan {
    /// Whether something refuses the job.
    pub fn refused(&self) -> bool {
        self.findings.iter().any(Finding::refuses)
    }

    /// The wiring, if nothing refuses it: only this may be put on a sheet.
    pub fn sound(&self) -> Option<(&LayoutChoice, &Wiring)> {
        if self.refused() {
            return None;
        }
        Some((self.layout.as_ref()?, self.wiring.as_ref()?))
    }
}

/// The layout of a job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayoutChoice {
    /// Its number.
    pub number: LayoutNumber,
    /// Why.
    pub because: LayoutReason,
    /// The others that fit.
    pub others: Vec<LayoutNumber>,
    /// The layout that is the same but for the circulation pump, whether there is one.
    pub but_for_circulation: Option<LayoutNumber>,
}

/// Everything that follows from a layout.
#[derive(Clone, Debug)]
pub struct Wiring {
    /// What is plugged in where, in the order of the headers.
    pub devices: HandleMap<DeviceId, DevicePlan>,
    /// What must stay empty, in the order of the headers.
    pub empty: Vec<(HeaderId, EmptyReason)>,
    /// Every jumper of the board.
    pub jumpers: Vec<JumperPlan>,
    /// Every link of the board.
    pub links: Vec<LinkPlan>,
    /// Every switch bank of the board.
    pub switches: Vec<BankSetting>,
    /// The rotary selector, if the board has one.
    pub selector: Option<SelectorSetting>,
    /// The heater, if the board drives one.
    pub heater: Option<HeaterPlan>,
    /// What each supply conductor carries at the worst, in the order L1, L2, L3, L, N.
    pub conductors: Vec<ConductorLoad>,
    /// How much more they can carry because of power factors that nobody gives; `None` if that is
    /// too little to be told.
    pub lag: Option<Lag>,
    /// What each header in use carries at the worst.
    pub headers: Vec<RatedLoad<HeaderId>>,
    /// What each fuse in use carries at the worst.
    pub fuses: Vec<RatedLoad<FuseId>>,
    /// The breaker and the heater allowance.
    pub breaker: BreakerChoice,
    /// Whether the conductors of the supply run suit.
    pub wire: WireCheck,
    /// What is lost on the way, if the job tells of the supply run.
    pub run: Option<RunDrop>,
    /// Whether no other choice of places and groups is better. False only for boards beyond all
    /// measure, where the search gave up.
    pub optimal: bool,
}

/// Which of [`Wiring::devices`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct DeviceId(pub usize);

impl Handle for DeviceId {
    fn new(index: usize) -> Self {
        Self(index)
    }

    fn index(self) -> usize {
        self.0
    }
}

impl Index<DeviceId> for Wiring {
    type Output = DevicePlan;

    fn index(&self, id: DeviceId) -> &DevicePlan {
        &self.devices[id]
    }
}

/// A device at its header.
#[derive(Clone, Debug, PartialEq)]
pub struct DevicePlan {
    /// What it is there: a jet pump has its number.
    pub device: Device,
    /// Which of the job's equipment; `None` for the heater.
    pub fitted: Option<usize>,
    /// Its speeds.
    pub speeds: Speeds,
    /// The header.
    pub header: HeaderId,
    /// The group that feeds it.
    pub group: GroupId,
    /// The jumper that picks the group, if one does.
    pub jumper: Option<JumperId>,
    /// What the group gives, whether its *common* pin is live included.
    pub voltage: GroupVoltage,
    /// The same as a number.
    pub volts: Volts,
    /// What its plate says.
    pub plate: Volts,
    /// What it draws on high, or when it is on.
    pub amps: Amps,
    /// What it draws on low, if it has two speeds.
    pub low: Option<Amps>,
    /// Where the currents come from: on high, and on low; the heater's follow from its element.
    pub sources: (Option<CurrentSource>, Option<CurrentSource>),
    /// The fuse in front of it.
    pub fuse: Option<FuseId>,
    /// The pins of its cord as a person sees them at the header.
    pub pins: PinOrder,
}

/// Where a jumper goes.
#[derive(Clone, Debug, PartialEq)]
pub struct JumperPlan {
    /// The jumper.
    pub jumper: JumperId,
    /// Its group.
    pub group: GroupId,
    /// Whether a person must move it from where it is shipped.
    pub moved: bool,
    /// Why.
    pub because: JumperReason,
}

/// Where a link goes: the supply says it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LinkPlan {
    /// The link.
    pub link: LinkId,
    /// Its terminal.
    pub terminal: TerminalId,
    /// Whether a person must move it from where it is shipped.
    pub moved: bool,
}

/// The heater of a job.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeaterPlan {
    /// Its element.
    pub element: Heater,
    /// Whether the job gave the element, in place of the board's specification.
    pub from_job: bool,
    /// What it gets.
    pub volts: Volts,
    /// What it gives then.
    pub watts: Watts,
    /// What may run meanwhile; `None` if no switch sets it.
    pub allowance: Option<Allowance>,
}
