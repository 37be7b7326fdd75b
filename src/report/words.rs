//! Why a decision is as it is, in English.

use crate::board::{Board, CurrentSource, Device, GroupId, Job, LayoutEntry, Speeds};
use crate::decide::currents::Running;
use crate::decide::reason::{
    AllowanceReason, EmptyReason, JumperReason, LayoutReason, NeededReason,
};
use crate::decide::waits::Waits;
use crate::decide::wire::{CapacityBasis, Unjudged};
use crate::decide::{
    BreakerChoice, DevicePlan, JumperPlan, LayoutChoice, PlateLoad, PumpMark, RulesReason,
    WireCheck, WireVerdict, Wiring, nameplate, pump_mark,
};
use crate::english::and;
use crate::standards::nec;
use crate::units::{Amps, Volts, fixed, shortest};

/// A voltage as a person reads it off a meter: to a tenth.
pub fn volts(volts: Volts) -> String {
    format!("{}\u{a0}V", shortest(volts.0, 1))
}

/// A computed current: always with two decimals.
pub fn amps(amps: Amps) -> String {
    format!("{}\u{a0}A", fixed(amps.0, 2))
}

/// What runs, as a list: `heater, pump 1 on high, pump 2 on low`.
pub fn running(all: &[(Device, Running)]) -> String {
    if all.is_empty() {
        return "nothing".to_owned();
    }
    let one = |(device, running): &(Device, Running)| match (device, running) {
        (Device::Pump(_) | Device::Blower, Running::High) => format!("{device} on high"),
        (_, Running::Low) => format!("{device} on low"),
        _ => device.to_string(),
    };
    all.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// Why this layout.
pub fn layout(choice: &LayoutChoice) -> String {
    let numbers = |numbers: &[crate::board::LayoutNumber]| {
        and(&numbers.iter().map(ToString::to_string).collect::<Vec<_>>())
    };
    match &choice.because {
        LayoutReason::OnlyFit => "No other layout fits what is installed.".to_owned(),
        LayoutReason::LowestNumber => {
            format!(
                "It is the lowest number that fits; {} would fit, too.",
                numbers(&choice.others)
            )
        }
        LayoutReason::LowestThatWorks { passed } => format!(
            "It is the lowest number that can be wired; {} would fit the devices, but not their \
             voltages and currents.",
            numbers(passed)
        ),
    }
}

/// How the layout number is set, where it is not entered on a panel.
pub fn layout_set(board: &Board, wiring: &Wiring) -> Option<String> {
    match board.layout_entry() {
        LayoutEntry::Panel => None,
        LayoutEntry::Ways { bank, field } => {
            let field = board[bank].fields.get(field)?;
            let setting = wiring.switches.iter().find(|setting| setting.bank == bank)?;
            let ways = (1..).zip(&setting.positions);
            let ours = ways.filter(|(way, _)| (field.first..=field.last).contains(way));
            let all: Vec<String> = ours
                .map(|(way, on): (u8, &bool)| format!("{way} {}", if *on { "on" } else { "off" }))
                .collect();
            let code = &board[bank].code;
            Some(format!("Switches of {code}, with the supply off: {}.", all.join(", ")))
        }
        LayoutEntry::Selector(id) => {
            let setting = wiring.selector?;
            let selector = &board[id];
            let name = &selector.positions.get(setting.position)?.name;
            let moved = if setting.moved { "Turn" } else { "Leave" };
            let to = if setting.moved { "to" } else { "at" };
            Some(format!("{moved} selector {} {to} {name}, with the supply off.", selector.code))
        }
    }
}

/// That a header takes a further cord of a device.
pub fn cord_of(board: &Board, plan: &DevicePlan) -> Option<String> {
    let device = board.cord_of(plan.device)?.the();
    let code = &board[plan.header].code;
    Some(format!("{code} takes a further cord of {device}. Plug in both of its plugs."))
}

/// Which of several jet pumps of a job is the one at a header, by its nameplate.
pub fn which_pump(job: &Job, wiring: &Wiring, plan: &DevicePlan) -> Option<String> {
    let plate = nameplate(job, plan)?;
    let device = plan.device.the();
    let speeds = if plate.speeds == Speeds::Two { "two speeds" } else { "one speed" };
    let high = load(plate.high);
    match pump_mark(job, wiring, plan)? {
        PumpMark::Only => None,
        PumpMark::SpeedsAndLoad => {
            Some(format!("The pump with {speeds} and {high} on its nameplate is {device}."))
        }
        PumpMark::Nameplate => {
            let low = plate.low.map_or_else(String::new, |low| format!(", {} on low", load(low)));
            let volts = plate.volts;
            Some(format!(
                "The pump with this nameplate is {device}: {speeds}, {volts}, {high}{low}."
            ))
        }
        PumpMark::Alike { all, any } => {
            let all = and(&all.iter().map(|device| device.the()).collect::<Vec<_>>());
            let which = if any { "each of these pumps can be" } else { "find out which one is" };
            Some(format!("The nameplates of {all} are the same: {which} {device}."))
        }
    }
}

/// What a nameplate says of the load: `10.8 A`, `1 1/2 hp`.
pub fn load(load: PlateLoad) -> String {
    match load {
        PlateLoad::Amps(amps) => amps.to_string(),
        PlateLoad::Power(power) => power.to_string(),
        PlateLoad::Watts(watts) => watts.to_string(),
    }
}

/// Why a jumper goes where it goes.
pub fn jumper(board: &Board, plan: &JumperPlan) -> String {
    let code = |group: &GroupId| board[*group].code.clone();
    match &plan.because {
        JumperReason::Unused => "no device uses this jumper".to_owned(),
        JumperReason::MakesRoom => {
            "no device uses this jumper; another jumper needs its tab".to_owned()
        }
        JumperReason::OnlyVoltage { volts: found } => {
            format!("only {} gives {}", code(&plan.group), volts(*found))
        }
        JumperReason::Together { volts: found, others } => {
            let others: Vec<String> = others.iter().map(code).collect();
            format!("{} here; {} would give it, too", volts(*found), and(&others))
        }
    }
}

/// Why a header stays empty.
pub fn empty(because: EmptyReason) -> String {
    match because {
        EmptyReason::Idle => {
            "not used in this layout: what is plugged in here does not run, and its pins can be live".to_owned()
        }
        EmptyReason::NotFitted(device) => format!("for {}, which is not installed", device.the()),
    }
}

/// How many pumps and blowers may run beside the heater.
pub fn allowance(allowance: u8, devices: &[DevicePlan]) -> Option<String> {
    let limited: Vec<String> = devices
        .iter()
        .filter(|device| device.device.counts_for_allowance())
        .map(|device| device.device.the())
        .collect();
    let all = limited.len();
    let allowed = usize::from(allowance);
    let which = match (allowed, all) {
        (_, 0) => return None,
        (allowed, 1) if allowed > 0 => format!("{} may run", and(&limited)),
        (allowed, 2) if allowed >= 2 => format!("both {} may run", and(&limited)),
        (allowed, all) if allowed >= all => format!("all of {} may run", and(&limited)),
        (0, 1) => format!("{} may not run", and(&limited)),
        (0, _) => format!("none of {} may run", and(&limited)),
        (1, _) => format!("one of {} may run", and(&limited)),
        (2, _) => format!("two of {} may run", and(&limited)),
        (3, _) => format!("three of {} may run", and(&limited)),
        (4, _) => format!("four of {} may run", and(&limited)),
        (allowed, _) => format!("{allowed} of {} may run", and(&limited)),
    };
    Some(format!("With the heater on, {which} on high."))
}

/// What makes the heater wait for a current.
pub fn waits(found: &Waits) -> String {
    let sets: Vec<String> = found
        .sets
        .iter()
        .map(|set| and(&set.iter().map(|device| device.the()).collect::<Vec<_>>()))
        .collect();
    let which = match sets.as_slice() {
        [] => "All may run with it.".to_owned(),
        few if few.len() <= 6 => format!("It waits while these run on high: {}.", few.join("; ")),
        many => format!("It waits for {} sets of devices on high.", many.len()),
    };
    format!(
        "With the heater on, the sum of all currents is kept to {}; else the heater waits. {which}",
        found.limit
    )
}

/// Why no more of them.
pub fn allowance_reason(breaker: &BreakerChoice) -> Option<String> {
    match breaker.allowance_because {
        AllowanceReason::Highest => Some("No setting allows more.".to_owned()),
        AllowanceReason::Breaker { next, needed } => Some(format!(
            "The next setting, {next}, would need a breaker for {}; the one installed is {}.",
            amps(needed),
            breaker.fitted
        )),
        AllowanceReason::Wire { next, needed } => Some(format!(
            "The next setting, {next}, would load the supply run with {}, more than its conductors \
             may carry.",
            amps(needed)
        )),
        AllowanceReason::Board { next, amps: carried } => Some(format!(
            "The next setting, {next}, would put {} on one supply conductor, more than the board \
             may carry.",
            amps(carried)
        )),
        AllowanceReason::NoSwitch => Some("No switch of this board limits it.".to_owned()),
        AllowanceReason::NoneCarried => None,
    }
}

/// Whether the conductors of the supply run suit.
pub fn wire(job: &Job, check: &WireCheck) -> String {
    let basis = check.capacity.map(|capacity| {
        let by = match capacity.basis {
            CapacityBasis::Terminals(terminals) => format!(
                "terminals of {}\u{a0}\u{b0}C, {}, {}",
                terminals.celsius(),
                nec::AMPACITY.clause,
                nec::TERMINALS
            ),
            CapacityBasis::Method { method, insulation, three, clause } => format!(
                "method {}, {}, {} conductors loaded, {clause}",
                method.word(),
                insulation.word(),
                if three { "three" } else { "two" }
            ),
            CapacityBasis::Stated => "the job states it".to_owned(),
        };
        format!("A conductor may carry {} ({by}).", capacity.amps)
    });
    let breaker = job.breaker.value;
    let verdict = match check.verdict {
        WireVerdict::Suits => format!("It suits the breaker of {breaker} and the load."),
        WireVerdict::OnlyAt75 { at_60, .. } => format!(
            "It suits only if both terminals are marked 75\u{a0}\u{b0}C; else it may carry {at_60}."
        ),
        WireVerdict::TooThin(_) => "It is too thin.".to_owned(),
        WireVerdict::Unjudged(Unjudged::NoRun) => {
            "Not judged: the job tells of no supply run.".to_owned()
        }
        WireVerdict::Unjudged(Unjudged::NoMethod) => {
            "Its size is not judged: the job gives neither a `method` of installation nor a \
             `capacity`."
                .to_owned()
        }
        WireVerdict::Unjudged(Unjudged::NoTable) => {
            "Its size is not judged: no table here holds it, and the job gives no `capacity`."
                .to_owned()
        }
    };
    let assumed = match check.capacity.map(|capacity| capacity.basis) {
        Some(CapacityBasis::Terminals(_) | CapacityBasis::Method { .. }) => {
            " This supposes 30\u{a0}\u{b0}C round the conductors, and no other circuit beside them."
        }
        Some(CapacityBasis::Stated) | None => "",
    };
    let basis = basis.map_or_else(String::new, |basis| format!("{basis} "));
    format!("{basis}{verdict}{assumed}")
}

/// Which rules, and why.
pub fn rules(breaker: &BreakerChoice) -> String {
    let rules = breaker.rules.rules;
    let because = match breaker.rules.because {
        RulesReason::Listed(clause) => format!("the supply's voltage is one of {clause}"),
        RulesReason::NotListed => {
            "no table lists the supply's voltage, and these are the more cautious".to_owned()
        }
        RulesReason::Job => "the job asks for them".to_owned(),
    };
    let factor = rules.continuous_factor();
    let counts = if factor > 1.0 {
        format!(
            "what can run for three hours or more counts at {} % ({})",
            shortest(factor * 100.0, 0),
            rules.factor_clause()
        )
    } else {
        format!("a current counts as it is ({})", rules.factor_clause())
    };
    format!("Rules {}, because {because}: {counts}.", rules.word())
}

/// What is needed of the breaker.
pub fn needed(breaker: &BreakerChoice) -> String {
    let source = match breaker.because {
        NeededReason::Rules => String::new(),
        NeededReason::Marked => {
            " (marked as the minimum circuit ampacity; the nameplate and the inspector govern)"
                .to_owned()
        }
    };
    let smallest = match breaker.smallest {
        Some(size) => format!(
            "The smallest standard breaker for that is {size} ({}).",
            breaker.rules.rules.sizes_clause()
        ),
        None => "No standard breaker is that large.".to_owned(),
    };
    // A mark takes the place of what counts, but does not hide it.
    let taken = breaker.settings.iter().find(|setting| setting.allowance == breaker.allowance);
    let counted = match (breaker.because, taken) {
        (NeededReason::Marked, Some(setting)) => {
            format!(" By the rules what is installed counts {}.", amps(setting.counted))
        }
        _ => String::new(),
    };
    let heater = breaker.heater.map_or_else(String::new, |heater| {
        format!(
            " The heater counts at the {} of its nameplate; here it draws {}.",
            amps(heater.nameplate),
            amps(heater.drawn)
        )
    });
    format!(
        "{} is installed, and {} is needed{source}. {smallest}{counted}{heater}",
        breaker.fitted,
        amps(breaker.needed)
    )
}

/// Where a current comes from, if not from the plate's amps.
pub fn source(plan: &DevicePlan) -> Vec<String> {
    let (high, low) = plan.sources;
    let two = plan.low.is_some();
    let name = plan.device.the();
    let on = |speed: &str| if two { format!(" on {speed}") } else { String::new() };
    let mut all = Vec::new();
    let given = [("high", high, Some(plan.amps)), ("low", low, plan.low)];
    for (speed, source, found) in given {
        let (Some(source), Some(found)) = (source, found) else { continue };
        all.push(match source {
            CurrentSource::Plate => continue,
            CurrentSource::Table(power) => format!(
                "{name}: {found}{} is the value of {} for {power}; check it against the nameplate.",
                on(speed),
                nec::MOTOR_AMPS.clause
            ),
            CurrentSource::Watts(watts) => {
                format!("{name}: {found} is its nameplate's {watts} divided by its volts.")
            }
            CurrentSource::NoMoreThanHigh => format!(
                "{name}: its current on low is not given; {found}, as on high, is the most that \
                 it can be."
            ),
        });
    }
    all
}
