//! What each setting of the heater allowance needs of a breaker, and which one is taken.

use super::currents::{Running, Worst, worst};
use super::jumpers::{Amount, Fit, GroupOption, allowances};
use super::loads::{ConductorLoad, conductor_loads, draws};
use super::reason::{AllowanceReason, NeededReason};
use super::rules::{Rules, RulesChoice, RulesReason, carries};
use super::wire::load_limit;
use crate::board::{Allowance, Board, Conductor, Device, Job};
use crate::units::Amps;

/// The breaker of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct BreakerChoice {
    /// The one in front of the board.
    pub fitted: Amps,
    /// The rules that it is sized by, and why.
    pub rules: RulesChoice,
    /// What is needed of it at the allowance that is taken.
    pub needed: Amps,
    /// Where that comes from.
    pub because: NeededReason,
    /// What the heater counts for, where that does not follow from what it draws here.
    pub heater: Option<HeaterCount>,
    /// The smallest standard size that carries it; `None` above the largest.
    pub smallest: Option<Amps>,
    /// The allowance that is taken; `None` if no switch sets one.
    pub allowance: Option<Allowance>,
    /// Why.
    pub allowance_because: AllowanceReason,
    /// What each setting needs, the highest allowance first.
    pub settings: Vec<SettingNeed>,
}

/// A heater that counts for more than it draws: its element is for another voltage, and a breaker is
/// sized by the current of its nameplate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeaterCount {
    /// The current of its nameplate.
    pub nameplate: Amps,
    /// What it draws here.
    pub drawn: Amps,
}

/// What one setting of the heater allowance needs.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingNeed {
    /// The allowance; `None` if no switch sets one.
    pub allowance: Option<Allowance>,
    /// What counts in the line that is worst, by the rules.
    pub counted: Amps,
    /// That line; `None` if nothing draws from a line.
    pub line: Option<Conductor>,
    /// What runs there when it is worst.
    pub running: Vec<(Device, Running)>,
    /// The smallest standard size that carries it; `None` above the largest.
    pub smallest: Option<Amps>,
    /// The supply conductor that really carries the most, and what.
    pub most: Option<(Conductor, Amps)>,
    /// Whether the fitted breaker carries it.
    pub by_breaker: bool,
    /// Whether the conductors of the supply run carry it, as far as that is known.
    pub by_wire: bool,
    /// Whether every supply conductor keeps within what the board may carry.
    pub by_board: bool,
    /// Whether it lets the heater run with what moves its water.
    pub heats: bool,
}

impl SettingNeed {
    /// Whether the breaker, the supply run and the board carry it.
    pub fn carried(&self) -> bool {
        self.by_breaker && self.by_wire && self.by_board
    }
}

/// The rules for a job: its own, or the supply's.
pub fn rules(board: &Board, job: &Job) -> RulesChoice {
    match job.rules {
        Some(rules) => RulesChoice { rules: rules.value, because: RulesReason::Job },
        None => Rules::default_for(board[job.supply.value].system),
    }
}

/// What every setting needs with the jumpers of `fit`, and the one that `fit` takes.
pub fn breaker(board: &Board, job: &Job, fit: &Fit) -> BreakerChoice {
    let rules = rules(board, job);
    let settings: Vec<SettingNeed> = allowances(board)
        .into_iter()
        .map(|allowance| need(board, job, fit, allowance, rules.rules))
        .collect();
    let taken = settings.iter().find(|setting| setting.allowance == fit.allowance);
    let counted = taken.map_or(Amps(0.0), |setting| setting.counted);
    let (needed, because) = match job.marked.circuit {
        Some(marked) => (marked.value, NeededReason::Marked),
        None => (counted, NeededReason::Rules),
    };
    BreakerChoice {
        fitted: job.breaker.value,
        rules,
        needed,
        because,
        heater: heater(fit, rules.rules),
        smallest: rules.rules.smallest_breaker(needed),
        allowance: fit.allowance,
        allowance_because: why(fit, &settings),
        settings,
    }
}

fn heater(fit: &Fit, rules: Rules) -> Option<HeaterCount> {
    let plugged = fit.plugged.iter().find(|plugged| plugged.fitted.is_none())?;
    let GroupOption { real, counted, .. } = &plugged.choice;
    let nameplate = counted.high / rules.continuous_factor();
    let apart = (nameplate - real.high).abs() > real.high * 1e-9;
    apart.then_some(HeaterCount { nameplate: Amps(nameplate), drawn: Amps(real.high) })
}

fn need(
    board: &Board,
    job: &Job,
    fit: &Fit,
    allowance: Option<Allowance>,
    rules: Rules,
) -> SettingNeed {
    let counted = counted(board, job, fit, allowance);
    let max = board.max_current(job.supply.value);
    let real = conductor_loads(board, job, fit, allowance);
    let most = real.iter().fold(None, |most: Option<&ConductorLoad>, load| match most {
        Some(known) if known.amps.0 >= load.amps.0 => Some(known),
        _ => Some(load),
    });
    let (amps, line, running) = match counted {
        Some(load) => (load.amps, Some(load.conductor), load.running),
        None => (Amps(0.0), None, Vec::new()),
    };
    let lines = real.iter().filter(|load| load.conductor.is_line());
    let by_breaker = match job.marked.circuit {
        Some(marked) => {
            carries(job.breaker.value, marked.value)
                && lines.into_iter().all(|load| carries(job.breaker.value, load.amps))
        }
        None => carries(job.breaker.value, amps),
    };
    SettingNeed {
        allowance,
        counted: amps,
        line,
        running,
        smallest: rules.smallest_breaker(amps),
        most: most.map(|load| (load.conductor, load.amps)),
        by_breaker,
        by_wire: load_limit(board, job).is_none_or(|limit| {
            let counted = job.marked.circuit.map_or(amps, |marked| marked.value);
            carries(limit, counted) && real.iter().all(|load| carries(limit, load.amps))
        }),
        by_board: max.is_none_or(|max| real.iter().all(|load| carries(max, load.amps))),
        heats: match allowance {
            Some(Allowance::Amps(amps)) => {
                fit.heater_needs(board).is_none_or(|it| carries(amps, it))
            }
            Some(Allowance::Loads(_)) | None => true,
        },
    }
}

/// The devices each of which makes the lowest allowance carried if it is left out, the jumpers
/// staying as they are.
pub fn fits_without(board: &Board, job: &Job, fit: &Fit) -> Vec<Device> {
    let rules = rules(board, job).rules;
    let lowest = allowances(board).last().copied().flatten();
    (0..fit.plugged.len())
        .filter_map(|left_out| {
            let mut less = fit.clone();
            let gone = less.plugged.remove(left_out);
            let need = need(board, job, &less, lowest, rules);
            need.carried().then_some(gone.slot.device)
        })
        .collect()
}

/// The line with the most that counts, of those that are alike the first.
fn counted(
    board: &Board,
    job: &Job,
    fit: &Fit,
    allowance: Option<Allowance>,
) -> Option<ConductorLoad> {
    let counts = |choice: &GroupOption| -> Amount { choice.counted };
    let lines = board[job.supply.value].conductors().into_iter().filter(|c| c.is_line());
    let mut most: Option<(ConductorLoad, f64)> = None;
    for line in lines {
        let (devices, all) = draws(fit, line, counts);
        let found: Worst = worst(&all, allowance);
        let amount = found.amount();
        if most.as_ref().is_none_or(|(_, known)| amount > known * (1.0 + 1e-9)) {
            most = Some((ConductorLoad::new(line, &devices, &found), amount));
        }
    }
    most.map(|(load, _)| load)
}

fn why(fit: &Fit, settings: &[SettingNeed]) -> AllowanceReason {
    if fit.allowance.is_none() {
        return if fit.carried { AllowanceReason::NoSwitch } else { AllowanceReason::NoneCarried };
    }
    if !fit.carried {
        return AllowanceReason::NoneCarried;
    }
    let higher = settings.iter().take_while(|setting| setting.allowance != fit.allowance);
    let Some((next, allowance)) = higher.last().and_then(|next| Some((next, next.allowance?)))
    else {
        return AllowanceReason::Highest;
    };
    match next.most {
        Some((_, amps)) if next.by_breaker && next.by_wire && !next.by_board => {
            AllowanceReason::Board { next: allowance, amps }
        }
        _ if next.by_breaker && !next.by_wire => {
            AllowanceReason::Wire { next: allowance, needed: next.counted }
        }
        _ => AllowanceReason::Breaker { next: allowance, needed: next.counted },
    }
}
