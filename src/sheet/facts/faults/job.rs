//! The fault finder of a job: right is what its plan says.

use super::super::super::words::{bank, expected, landing_of, layout, look, pins};
use super::hidden::HiddenCheck;
use super::row::{CheckRow, CheckWords, Key, SignRow};
use super::volts::terminals_of;
use super::{Finder, FinderCase, Place, gathered, terminal_ids, voltage_check};
use crate::board::{BankId, Board, Cord, Device, HeaderId, Heater, LayoutEntry, Speeds};
use crate::decide::faults::{Check, CheckTarget, Fault};
use crate::decide::mistakes::{Mistake, PlannedCase, Sign, consequences};
use crate::decide::usual::Symptom;
use crate::decide::{DevicePlan, JumperPlan, fault_finder};
use crate::units::{Amps, Watts};
use crate::words::Words;

/// The fault finder of a job.
pub fn finder(words: &Words, planned: &PlannedCase<'_>) -> Finder {
    let faults = fault_finder(planned, &consequences(planned));
    gathered(&faults, &OfJob { words, planned })
}

struct OfJob<'a> {
    words: &'a Words,
    planned: &'a PlannedCase<'a>,
}

impl OfJob<'_> {
    fn plan(&self, device: Device) -> Option<&DevicePlan> {
        self.planned.wiring.devices.iter().find(|plan| plan.device == device)
    }

    /// The code of a device's header.
    fn code(&self, device: Device) -> &str {
        self.plan(device).map_or("", |plan| self.planned.board[plan.header].code.as_str())
    }

    /// `W3 on group B, 240 V`.
    fn jumper(&self, plan: &JumperPlan) -> String {
        let (board, supply) = (self.planned.board, self.planned.job.supply.value);
        let (jumper, group) = (&board[plan.jumper].code, &board[plan.group].code);
        match board.group_volts(supply, plan.group) {
            Some(volts) => {
                self.words.jumper_on_volts(jumper, group, &self.words.whole_volts(volts))
            }
            None => self.words.jumper_on(jumper, group),
        }
    }

    /// Where the layout number is seen.
    fn see_layout(&self) -> String {
        let board = self.planned.board;
        match board.layout_entry() {
            LayoutEntry::Panel if board.panels.is_empty() => self.words.see_first_page(),
            LayoutEntry::Panel => self.words.see_panel(),
            LayoutEntry::Ways { bank, .. } => board[bank].code.clone(),
            LayoutEntry::Selector(id) => board[id].code.clone(),
        }
    }

    /// `W11 on X2`.
    fn link(&self, target: CheckTarget) -> String {
        look(self.words, self.planned, target)
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

    fn headers(&self, device: Device) -> Vec<HeaderId> {
        self.plan(device).map(|plan| plan.header).into_iter().collect()
    }

    fn has_neutral(&self) -> bool {
        self.planned.board[self.planned.job.supply.value].has_neutral()
    }

    fn element(&self) -> Option<Heater> {
        self.planned.wiring.heater.map(|heater| heater.element)
    }

    fn heats(&self) -> Vec<Watts> {
        self.planned.wiring.heater.map(|heater| heater.watts).into_iter().collect()
    }

    fn breaker(&self) -> Option<Amps> {
        Some(self.planned.wiring.breaker.fitted)
    }

    fn can_be_turned(&self, device: Device) -> bool {
        let Some(plan) = self.plan(device) else { return false };
        let fitted = plan.fitted.and_then(|index| self.planned.job.equipment.get(index));
        let anew = fitted.is_some_and(|fitted| fitted.cord != Cord::AsMade);
        anew || !super::is_keyed(self.planned.board, plan.header)
    }

    /// The lid insert has the drawings.
    fn see(&self, place: Place<'_>) -> String {
        match place {
            Place::Plan | Place::Voltages => self.words.see_plan(),
            Place::Supply => self.words.see_supply(),
            Place::Layouts => self.see_layout(),
            Place::Header(code) | Place::Bank(code) => code.to_owned(),
        }
    }

    fn expected(&self, devices: &[Device]) -> String {
        let (board, supply) = (self.planned.board, self.planned.job.supply.value);
        let pairs: Vec<_> = devices
            .iter()
            .filter_map(|device| terminals_of(board, supply, self.plan(*device)?.group))
            .collect();
        expected(self.words, board, &[supply], &pairs)
    }

    fn check(&self, own: Option<Device>, sign: Sign, check: &Check<Mistake>) -> (Key, CheckWords) {
        let (words, board) = (self.words, self.planned.board);
        let (key, what, correct, see) = match check.target {
            CheckTarget::Layout => {
                let number = layout(words, self.planned);
                (Key::Layout, words.check_layout(), number, Place::Layouts)
            }
            CheckTarget::Jumper(jumper) => {
                let plan = self.planned.wiring.jumpers.iter().find(|plan| plan.jumper == jumper);
                let on = plan.map_or(String::new(), |plan| self.jumper(plan));
                (Key::Jumper, words.check_jumper(), on, Place::Plan)
            }
            CheckTarget::Plug(device) => {
                let (key, what) = super::plug_what(words, own, device);
                (key, what, words.in_header(self.code(device)), Place::Plan)
            }
            CheckTarget::Cord(device) => {
                let (key, what) = super::cord_what(words, own, device);
                let pins = self.plan(device).map_or(String::new(), |plan| pins(words, &plan.pins));
                (key, what, pins, Place::Header(self.code(device)))
            }
            CheckTarget::Bank(id) => {
                let see = Place::Bank(&board[id].code);
                (Key::Bank(id), words.check_bank(), bank(words, self.planned, id), see)
            }
            CheckTarget::Link(link) => {
                (Key::Link(link), words.check_link(), self.link(check.target), Place::Supply)
            }
            CheckTarget::Landing => {
                let terminals = terminal_ids(check.mistakes.iter().copied());
                let supply = self.planned.job.supply.value;
                let lands = landing_of(words, board, supply, &terminals);
                (Key::Landing, words.check_landing(), lands, Place::Supply)
            }
            CheckTarget::NeutralPath => return super::neutral_path(self),
            CheckTarget::NeutralGround => return super::neutral_ground(self),
            CheckTarget::House => return voltage_check(own, Some(sign), self),
        };
        (key, CheckWords { what, correct, see: vec![self.see(see)] })
    }

    fn check_all(&self, thing: CheckTarget) -> HiddenCheck {
        let (words, board) = (self.words, self.planned.board);
        let supply = self.planned.job.supply.value;
        let (check, see) = match thing {
            CheckTarget::Layout => {
                let number = layout(words, self.planned);
                (words.all_layout_number(&number), Place::Layouts)
            }
            CheckTarget::Jumper(_) => {
                let used = |plan: &&JumperPlan| {
                    let devices = &self.planned.wiring.devices;
                    devices.iter().any(|device| device.jumper == Some(plan.jumper))
                };
                let jumpers = self.planned.wiring.jumpers.iter().filter(used);
                let all = jumpers
                    .map(|plan| words.jumper_on(&board[plan.jumper].code, &board[plan.group].code));
                (words.commas(&all.collect::<Vec<_>>()), Place::Plan)
            }
            CheckTarget::Plug(_) => {
                let all = self.planned.wiring.devices.iter().map(|plan| {
                    let header = words.in_header(&board[plan.header].code);
                    words.plug_place(&words.device_noun(plan.device), &header)
                });
                (words.all_plugs_in(&words.commas(&all.collect::<Vec<_>>())), Place::Plan)
            }
            CheckTarget::Cord(_) => (words.all_cords_drawn(), Place::Plan),
            CheckTarget::Bank(id) => (bank(words, self.planned, id), Place::Bank(&board[id].code)),
            CheckTarget::Link(_) => (self.link(thing), Place::Supply),
            CheckTarget::Landing => (landing_of(words, board, supply, &[]), Place::Supply),
            CheckTarget::NeutralPath => (words.all_neutral_path(), Place::Supply),
            CheckTarget::NeutralGround => (words.all_neutral_ground(), Place::Supply),
            CheckTarget::House => (words.all_voltage(&self.expected(&[])), Place::Supply),
        };
        let live = thing == CheckTarget::House;
        let mut see = vec![self.see(see)];
        if matches!(thing, CheckTarget::Cord(_)) {
            let headers = self.planned.wiring.devices.iter();
            see = headers.map(|plan| self.see(Place::Header(&board[plan.header].code))).collect();
        }
        HiddenCheck { check, see, live }
    }

    fn spare(&self, devices: &[Device]) -> String {
        super::spare_words(self.words, self.planned.board, devices)
    }

    fn settings(&self, faults: &[Fault<Mistake>]) -> Vec<SignRow> {
        let words = self.words;
        let is_about = |bank: BankId| {
            faults.iter().any(|fault| matches!(fault.sign, Sign::SetOtherwise(b, _) if b == bank))
        };
        let banks = self.planned.wiring.switches.iter().map(|setting| setting.bank);
        let checks: Vec<CheckRow> = banks
            .filter(|id| is_about(*id))
            .map(|id| {
                let check = CheckWords {
                    what: words.check_bank(),
                    correct: bank(words, self.planned, id),
                    see: vec![self.see(Place::Bank(&self.planned.board[id].code))],
                };
                CheckRow::new(Key::Bank(id), super::of_bank(id), check)
            })
            .collect();
        if checks.is_empty() {
            return Vec::new();
        }
        let checks = super::in_order(checks);
        vec![SignRow { noticed: words.some_setting_holds(), checks }]
    }

    fn by_hand(&self, _: Symptom) -> Vec<CheckRow> {
        Vec::new()
    }
}
