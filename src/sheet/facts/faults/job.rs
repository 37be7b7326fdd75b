//! The fault finder of a job: right is what its plan says.

use super::super::super::words::{bank, house};
use super::{Finder, Place, Row, Tongue, Words, gathered, group_words, place};
use crate::board::{BankId, Board, Device, Speeds};
use crate::decide::faults::{Check, CheckTarget, Fault};
use crate::decide::mistakes::{Mistake, PlannedCase, Sign, consequences};
use crate::decide::{DevicePlan, fault_finder};

/// The fault finder of a job.
pub fn finder(planned: &PlannedCase<'_>) -> Finder {
    let faults = fault_finder(planned, &consequences(planned));
    let asks =
        faults.iter().flat_map(|fault| &fault.checks).any(|it| it.target == CheckTarget::House);
    let house = asks.then(|| house(planned.board, planned.job.supply.value));
    Finder { house, ..gathered(&faults, &OfJob { planned }) }
}

struct OfJob<'a> {
    planned: &'a PlannedCase<'a>,
}

impl OfJob<'_> {
    fn plan(&self, device: Device) -> Option<&DevicePlan> {
        self.planned.wiring.devices.iter().find(|plan| plan.device == device)
    }

    fn code(&self, device: Device) -> &str {
        self.plan(device).map_or("", |plan| self.planned.board[plan.header].code.as_str())
    }
}

impl Tongue<Mistake> for OfJob<'_> {
    fn board(&self) -> &Board {
        self.planned.board
    }

    fn devices(&self) -> Vec<Device> {
        let mut all: Vec<Device> =
            self.planned.wiring.devices.iter().map(|plan| plan.device).collect();
        all.sort();
        all
    }

    fn speeds(&self, device: Device) -> Vec<Speeds> {
        self.plan(device).map(|plan| plan.speeds).into_iter().collect()
    }

    fn places(&self, device: Device) -> Vec<Place> {
        let board = self.planned.board;
        let of = |plan: &DevicePlan| Place {
            groups: vec![group_words(board, plan.group, Some(plan.volts))],
            ..place(board, plan.header, &plan.pins)
        };
        self.plan(device).map(of).into_iter().collect()
    }

    fn check(&self, own: Option<Device>, _: Sign, check: &Check<Mistake>) -> Words {
        let board = self.planned.board;
        let own_or = |device: Device, what: &str| {
            if own == Some(device) {
                what.to_owned()
            } else {
                format!("{what} of {}", device.the())
            }
        };
        let words = match check.target {
            CheckTarget::Layout => format!("layout number {}", self.planned.layout.number),
            CheckTarget::Jumper(jumper) => {
                let plan = self.planned.wiring.jumpers.iter().find(|plan| plan.jumper == jumper);
                let group = plan.map_or("", |plan| board[plan.group].code.as_str());
                format!("{} on {group}", board[jumper].code)
            }
            CheckTarget::Plug(device) => {
                format!("{} in {}", own_or(device, "plug"), self.code(device))
            }
            CheckTarget::Cord(device) => {
                format!("{} at {}", own_or(device, "cord"), self.code(device))
            }
            CheckTarget::Bank(it) => bank(self.planned, it),
            CheckTarget::Link(_) => super::super::super::words::look(
                &crate::words::Words::english(),
                self.planned,
                check.target,
            ),
            CheckTarget::Landing => {
                format!("wires on {}", super::terminals(board, check.mistakes.iter().copied()))
            }
            CheckTarget::House => "voltage of the house".to_owned(),
        };
        let live = check.target == CheckTarget::House;
        Words { words, live, late: live || check.target == CheckTarget::Landing }
    }

    fn check_all(&self, thing: CheckTarget) -> Words {
        let board = self.planned.board;
        let words = match thing {
            CheckTarget::Layout => format!("Layout number {}", self.planned.layout.number),
            CheckTarget::Jumper(_) => {
                let used = |plan: &&crate::decide::JumperPlan| {
                    let devices = &self.planned.wiring.devices;
                    devices.iter().any(|device| device.jumper == Some(plan.jumper))
                };
                let words: Vec<String> = self
                    .planned
                    .wiring
                    .jumpers
                    .iter()
                    .filter(used)
                    .map(|plan| {
                        format!("{} on {}", board[plan.jumper].code, board[plan.group].code)
                    })
                    .collect();
                words.join(", ")
            }
            CheckTarget::Plug(_) => "Each plug in its header".to_owned(),
            CheckTarget::Cord(_) => "Each cord as under its device below".to_owned(),
            CheckTarget::Bank(it) => bank(self.planned, it),
            CheckTarget::Link(_) => super::super::super::words::look(
                &crate::words::Words::english(),
                self.planned,
                thing,
            ),
            CheckTarget::Landing => {
                let lands = board[self.planned.job.supply.value].lands.iter().zip(&board.terminals);
                let words: Vec<String> = lands
                    .filter_map(|(lands, terminal)| {
                        Some(format!("{} on {}", (*lands)?, terminal.code))
                    })
                    .collect();
                words.join(", ")
            }
            CheckTarget::House => "voltage of the house".to_owned(),
        };
        Words { words, live: thing == CheckTarget::House, late: false }
    }

    fn spare(&self, devices: &[Device]) -> String {
        super::spare_words(devices)
    }

    fn settings(&self, faults: &[Fault<Mistake>]) -> Vec<Row> {
        let is_about = |bank: BankId| {
            faults.iter().any(|fault| matches!(fault.sign, Sign::SetOtherwise(b, _) if b == bank))
        };
        let banks = self.planned.wiring.switches.iter().map(|setting| setting.bank);
        let checks: Vec<Words> = banks
            .filter(|id| is_about(*id))
            .map(|id| Words { words: bank(self.planned, id), live: false, late: false })
            .collect();
        if checks.is_empty() {
            return Vec::new();
        }
        let noticed = "A setting holds that was not wanted".to_owned();
        vec![Row { noticed, checks, by_hand: false }]
    }

    fn by_hand(&self) -> Vec<Row> {
        Vec::new()
    }
}
