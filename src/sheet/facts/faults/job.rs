//! The fault finder of a job: right is what its plan says.

use super::super::super::words::{bank, house, look};
use super::{CheckText, DevicePlace, Finder, FinderCase, SignRow, gathered, group_words, place};
use crate::board::{BankId, Board, Device, Speeds};
use crate::decide::faults::{Check, CheckTarget, Fault};
use crate::decide::mistakes::{Mistake, PlannedCase, Sign, consequences};
use crate::decide::{DevicePlan, JumperPlan, fault_finder};
use crate::words::Words;

/// The fault finder of a job.
pub fn finder(words: &Words, planned: &PlannedCase<'_>) -> Finder {
    let faults = fault_finder(planned, &consequences(planned));
    let asks =
        faults.iter().flat_map(|fault| &fault.checks).any(|it| it.target == CheckTarget::House);
    let house = asks.then(|| house(words, planned.board, planned.job.supply.value));
    Finder { house, ..gathered(&faults, &OfJob { words, planned }) }
}

struct OfJob<'a> {
    words: &'a Words,
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

impl FinderCase<Mistake> for OfJob<'_> {
    fn words(&self) -> &Words {
        self.words
    }

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

    fn places(&self, device: Device) -> Vec<DevicePlace> {
        let board = self.planned.board;
        let of = |plan: &DevicePlan| DevicePlace {
            groups: vec![group_words(self.words, board, plan.group, Some(plan.volts))],
            ..place(self.words, board, plan.header, &plan.pins)
        };
        self.plan(device).map(of).into_iter().collect()
    }

    fn check(&self, own: Option<Device>, _: Sign, check: &Check<Mistake>) -> CheckText {
        let board = self.planned.board;
        let words = match check.target {
            CheckTarget::Layout => {
                self.words.layout_number(&self.planned.layout.number.to_string())
            }
            CheckTarget::Jumper(jumper) => {
                let plan = self.planned.wiring.jumpers.iter().find(|plan| plan.jumper == jumper);
                let group = plan.map_or("", |plan| board[plan.group].code.as_str());
                self.words.check_jumper(&board[jumper].code, group)
            }
            CheckTarget::Plug(device) => {
                super::plug_check(self.words, own, device, self.code(device))
            }
            CheckTarget::Cord(device) => {
                super::cord_check(self.words, own, device, self.code(device))
            }
            CheckTarget::Bank(it) => bank(self.words, self.planned, it),
            CheckTarget::Link(_) => look(self.words, self.planned, check.target),
            CheckTarget::Landing => {
                let mistakes = check.mistakes.iter().copied();
                self.words.check_wires(&super::terminals(self.words, board, mistakes))
            }
            CheckTarget::House => self.words.check_house(),
        };
        let live = check.target == CheckTarget::House;
        CheckText { words, live, late: live || check.target == CheckTarget::Landing }
    }

    fn check_all(&self, thing: CheckTarget) -> CheckText {
        let board = self.planned.board;
        let words = match thing {
            CheckTarget::Layout => {
                self.words.all_layout_number(&self.planned.layout.number.to_string())
            }
            CheckTarget::Jumper(_) => {
                let used = |plan: &&JumperPlan| {
                    let devices = &self.planned.wiring.devices;
                    devices.iter().any(|device| device.jumper == Some(plan.jumper))
                };
                let jumpers = self.planned.wiring.jumpers.iter().filter(used);
                let all = jumpers.map(|plan| {
                    self.words.check_jumper(&board[plan.jumper].code, &board[plan.group].code)
                });
                self.words.commas(&all.collect::<Vec<_>>())
            }
            CheckTarget::Plug(_) => self.words.all_plugs_short(),
            CheckTarget::Cord(_) => self.words.all_cords_short(),
            CheckTarget::Bank(it) => bank(self.words, self.planned, it),
            CheckTarget::Link(_) => look(self.words, self.planned, thing),
            CheckTarget::Landing => {
                let lands = board[self.planned.job.supply.value].lands.iter().zip(&board.terminals);
                let all = lands.filter_map(|(lands, terminal)| {
                    Some(self.words.wire_on(&(*lands)?.to_string(), &terminal.code))
                });
                self.words.commas(&all.collect::<Vec<_>>())
            }
            CheckTarget::House => self.words.check_house(),
        };
        CheckText { words, live: thing == CheckTarget::House, late: false }
    }

    fn spare(&self, devices: &[Device]) -> String {
        super::spare_words(self.words, devices)
    }

    fn settings(&self, faults: &[Fault<Mistake>]) -> Vec<SignRow> {
        let is_about = |bank: BankId| {
            faults.iter().any(|fault| matches!(fault.sign, Sign::SetOtherwise(b, _) if b == bank))
        };
        let banks = self.planned.wiring.switches.iter().map(|setting| setting.bank);
        let checks: Vec<CheckText> = banks
            .filter(|id| is_about(*id))
            .map(|id| CheckText {
                words: bank(self.words, self.planned, id),
                live: false,
                late: false,
            })
            .collect();
        if checks.is_empty() {
            return Vec::new();
        }
        let noticed = self.words.some_setting_holds();
        vec![SignRow { noticed, checks, by_hand: false }]
    }

    fn by_hand(&self) -> Vec<SignRow> {
        Vec::new()
    }
}
