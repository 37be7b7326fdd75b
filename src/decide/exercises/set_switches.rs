//! The highest heater allowance that a breaker carries, and how the ways stand for it.

use super::super::breaker::BreakerChoice;
use super::super::heater::sizing_amps;
use super::super::jumpers::allowances;
use super::super::plan::{DevicePlan, HeaterPlan};
use super::super::switches::{BankSetting, bank_settings};
use super::super::voltages::GroupVoltage;
use super::case::Case;
use super::line_sum::{LineSum, LoadAt, Reading, highest, worst_line};
use super::{Exercise, Task, Trap};
use crate::board::{
    Allowance, BankId, Board, Conductor, Device, Effect, Field, Heater, LayoutNumber, Meaning,
    Rules, SupplyId, System,
};
use crate::source::Span;
use crate::units::Amps;

/// How far from the breaker every sum must stay, amperes: who rounds to a tenth must not be caught
/// out by that.
const CLEAR: f64 = 0.35;

/// The highest heater allowance that a breaker carries, and how the ways stand for it.
///
/// Level 1: up to two devices count for the allowance; 2: three; 3: more. Not trivial: the board
/// has two settings or more, and a single slip ends at another. What runs in one line adds up as
/// plain numbers, nothing else limits the allowance, and no sum is close to the breaker. Two
/// questions are alike if supply, layout and breaker are the same.
///
/// How the ways are shipped is not given: a figure beside the question must not show it, because it
/// may be the answer.
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

/// An allowance and how every bank stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SwitchAnswer {
    /// How many pumps and blowers may run on high while the heater is on.
    pub allowance: u8,
    /// Every way of every bank: those that do not set the allowance stay as shipped.
    pub banks: Vec<BankSetting>,
}

/// How another allowance is found.
#[derive(Clone, Debug, PartialEq)]
pub enum SwitchSlip {
    /// The factor on what runs for three hours or more is forgotten.
    FactorForgotten,
    /// The currents of all lines are added.
    LinesAdded,
    /// The heater is forgotten.
    HeaterForgotten,
    /// One setting higher: the breaker does not carry this.
    OneHigher(LineSum),
    /// The ways are set in the opposite order.
    WaysBackwards,
}

/// The exercise on a job; `None` if its sum cannot be done by hand, or no slip ends elsewhere.
pub fn pose(board: &Board, case: &Case) -> Option<Exercise> {
    let (layout, wiring) = (&case.layout, &case.wiring);
    let (field, bank) = the_field(board)?;
    // A sum by hand chooses among counts; what keeps to a current is another matter.
    let HeaterPlan { element, allowance: Some(Allowance::Loads(allowance)), .. } = wiring.heater?
    else {
        return None;
    };
    let loads: Vec<LoadAt> = wiring.devices.iter().map(|device| load(device, element)).collect();
    let system = board[case.job.supply.value].system;
    let breaker = &wiring.breaker;
    if !adds_up(system, &loads) || !clear(breaker) || !one_way(field, allowance) {
        return None;
    }
    // By hand nobody finds when a pump that is held back takes another device with it.
    let held = |load: &LoadAt| {
        board.leader(load.device).is_some_and(|leader| leader.counts_for_allowance())
    };
    if loads.iter().any(held) {
        return None;
    }
    let reading = Reading { loads: &loads, factor: breaker.rules.rules.continuous_factor() };
    let fitted = breaker.fitted;
    let count = |allowance: Option<Allowance>| match allowance? {
        Allowance::Loads(count) => Some(count),
        Allowance::Amps(_) => None,
    };
    let settings: Vec<u8> = allowances(board).into_iter().filter_map(count).collect();
    // The plan's decision and the sum by hand are two ways to the same numbers.
    let same = |need: &super::super::SettingNeed| {
        let sum = count(need.allowance).and_then(|allowance| worst_line(reading, allowance));
        sum.is_some_and(|sum| (sum.amps.0 - need.counted.0).abs() < 1e-6)
    };
    if settings.len() < 2 || !breaker.settings.iter().all(same) {
        return None;
    }
    let sum = worst_line(reading, allowance)?;
    let higher = settings.iter().copied().rev().find(|other| *other > allowance);
    let next = higher.and_then(|next| Some((next, worst_line(reading, next)?)));
    let answer = stands(board, layout.number, allowance);
    let mut found = slips(reading, &settings, fitted);
    found.extend(next.clone().map(|(next, sum)| (next, SwitchSlip::OneHigher(sum))));
    let mut traps: Vec<Trap<SwitchAnswer, SwitchSlip>> = Vec::new();
    for (other, mistake) in found {
        let wrong = stands(board, layout.number, other);
        if other != allowance && traps.iter().all(|trap| trap.answer != wrong) {
            traps.push(Trap { answer: wrong, mistake });
        }
    }
    if traps.is_empty() {
        return None;
    }
    let backwards = backwards(&answer, bank, field);
    if backwards != answer {
        traps.push(Trap { answer: backwards, mistake: SwitchSlip::WaysBackwards });
    }
    let level = match loads.iter().filter(|load| load.device.counts_for_allowance()).count() {
        0..=2 => 1,
        3 => 2,
        _ => 3,
    };
    let task = SetSwitches {
        supply: case.job.supply.value,
        layout: layout.number,
        breaker: fitted,
        rules: breaker.rules.rules,
        factor: reading.factor,
        element,
        answer,
        sum,
        next,
        line: field.span,
        traps,
        loads,
    };
    Some(Exercise { level, task: Task::SetSwitches(task) })
}

/// The field that sets the allowance, and its bank; `None` unless there is exactly one.
pub fn the_field(board: &Board) -> Option<(&Field, BankId)> {
    let fields = board.banks.iter().enumerate().flat_map(|(index, bank)| {
        let fields = bank.fields.iter();
        fields
            .filter(|field| field.effect == Some(Effect::HeaterAllowance))
            .map(move |field| (field, BankId(index)))
    });
    let mut fields = fields;
    let first = fields.next()?;
    fields.next().is_none().then_some(first)
}

fn load(device: &DevicePlan, element: Heater) -> LoadAt {
    let high = if device.device == Device::Heater {
        sizing_amps(element, device.volts).amps
    } else {
        device.amps
    };
    LoadAt {
        header: device.header,
        device: device.device,
        group: device.group,
        conductors: match device.voltage {
            GroupVoltage::Between { conductors, .. } => Some(conductors),
            _ => None,
        },
        volts: device.plate,
        low: device.low,
        high,
        continuous: device.device.is_continuous(),
    }
}

/// Whether the currents in each line are in phase, so that they add up as plain numbers: between
/// two lines half a turn apart and their middle they always are; elsewhere they are if all that
/// draws from a line goes to the same conductor.
fn adds_up(system: System, loads: &[LoadAt]) -> bool {
    if !matches!(system, System::Wye { .. }) {
        return true;
    }
    let pairs = || loads.iter().filter_map(|load| load.conductors);
    let joined = |[a, b]: [Conductor; 2], [c, d]: [Conductor; 2]| {
        let lines = [a, b].into_iter().filter(|one| one.is_line());
        let mut shared = lines.filter(|one| [c, d].contains(one));
        shared.next().is_none() || (a == c && b == d) || (a == d && b == c)
    };
    pairs().all(|one| pairs().all(|other| joined(one, other)))
}

/// Whether the breaker alone decides, and nowhere by little.
fn clear(breaker: &BreakerChoice) -> bool {
    breaker.settings.iter().all(|setting| {
        (setting.by_board || !setting.by_breaker)
            && (breaker.fitted.0 - setting.counted.0).abs() >= CLEAR
    })
}

/// Whether one setting alone means the allowance.
fn one_way(field: &Field, allowance: u8) -> bool {
    let means = |meaning: &Meaning| *meaning == Meaning::Allowance(Allowance::Loads(allowance));
    field.settings.iter().filter(|setting| means(&setting.meaning)).count() == 1
}

fn stands(board: &Board, layout: LayoutNumber, allowance: u8) -> SwitchAnswer {
    SwitchAnswer {
        allowance,
        banks: bank_settings(board, Some(Allowance::Loads(allowance)), layout),
    }
}

/// What each slip in the sum ends at.
fn slips(reading: Reading<'_>, settings: &[u8], breaker: Amps) -> Vec<(u8, SwitchSlip)> {
    let mut found = Vec::new();
    let mut try_it = |slip: SwitchSlip, reading: Reading<'_>| {
        let sum = |allowance| worst_line(reading, allowance);
        if let Some(allowance) = highest(settings, breaker, sum) {
            found.push((allowance, slip));
        }
    };
    try_it(SwitchSlip::FactorForgotten, Reading { factor: 1.0, ..reading });
    let cold: Vec<LoadAt> = reading
        .loads
        .iter()
        .map(|load| match load.device {
            Device::Heater => LoadAt { high: Amps(0.0), ..*load },
            _ => *load,
        })
        .collect();
    try_it(SwitchSlip::HeaterForgotten, Reading { loads: &cold, ..reading });
    // Two lines taken as one: everything that draws is added.
    let one: Vec<LoadAt> = reading
        .loads
        .iter()
        .map(|load| LoadAt {
            conductors: load.conductors.map(|_| [Conductor::L1, Conductor::N]),
            ..*load
        })
        .collect();
    try_it(SwitchSlip::LinesAdded, Reading { loads: &one, ..reading });
    found
}

/// The same with the ways of the field in the opposite order.
fn backwards(answer: &SwitchAnswer, bank: BankId, field: &Field) -> SwitchAnswer {
    let mut turned = answer.clone();
    let (first, last) = (usize::from(field.first), usize::from(field.last));
    for setting in turned.banks.iter_mut().filter(|setting| setting.bank == bank) {
        if let Some(ways) = setting.positions.get_mut(first.saturating_sub(1)..last) {
            ways.reverse();
        }
    }
    turned
}
