//! What was decided for a job, in plain words.

mod types;

use super::super::panel::{panel_prose, steps_of};
use super::fuse_words;
use crate::board::{
    Board, CurrentSource, Device, Effect, Job, Meaning, PanelId, Pin, SupplyId, TerminalId,
};
use crate::decide::lag::UpTo;
use crate::decide::reason::{AllowanceReason, EmptyReason, NeededReason};
use crate::decide::{DevicePlan, LayoutChoice, Rules, Wiring};
use crate::standards::conductors::Wire;
use crate::units::{Volts, Watts};
use crate::words::Words;
use types::{
    Breaker, Cavity, Conductor, Cord, Empty, Heater, Insert, Landing, Lead, Live, Panel, Run,
    Switches,
};

/// Words what was decided for a job.
pub fn insert(
    words: &Words,
    board: &Board,
    job: &Job,
    (layout, wiring): (&LayoutChoice, &Wiring),
) -> Insert {
    let supply = job.supply.value;
    let links: Vec<Lead> = wiring
        .links
        .iter()
        .map(|link| Lead {
            code: board[link.link].code.clone(),
            to: board[link.terminal].code.clone(),
            volts: None,
            moved: link.moved,
            shipped: board[board[link.link].shipped].code.clone(),
            used: true,
            feeds: String::new(),
        })
        .collect();
    let jumpers = jumpers(words, board, supply, wiring);
    Insert {
        name: job.name.clone(),
        customer: job.customer.clone(),
        supply: board[supply].title.clone(),
        has_neutral: board[supply].has_neutral(),
        landings: landings(words, board, supply),
        moves: jumpers.iter().chain(&links).any(|lead| lead.moved),
        links,
        jumpers,
        cords: wiring.devices.iter().map(|plan| cord(words, board, plan)).collect(),
        empty: wiring
            .empty
            .iter()
            .map(|(header, because)| Empty {
                code: board[*header].code.clone(),
                title: board[*header].title.clone(),
                drives: match because {
                    EmptyReason::NotFitted(device) => Some(words.the_device(*device)),
                    EmptyReason::Idle => None,
                },
            })
            .collect(),
        layout: layout.number.get(),
        but_for_circulation: layout.but_for_circulation.map(|number| number.get()),
        circulation: wiring.devices.iter().any(|d| d.device == Device::Circulation),
        panel: job.panel.map(|PanelId(index)| Panel {
            title: board.panels.get(index).map_or(String::new(), |panel| panel.title.clone()),
            prose: panel_prose(index),
            steps: board.panels.get(index).map_or(0, |panel| steps_of(&panel.choose_layout)),
        }),
        switches: switches(words, board, wiring),
        moved_ways: moved_ways(words, board, wiring),
        heater: wiring.heater.map(|heater| Heater {
            watts: words.measure(heater.watts.0, 0, Watts::UNIT),
            volts: words.whole_volts(heater.volts),
            from_job: heater.from_job,
            element: words
                .element_at(&words.watts(heater.element.watts), &words.volts(heater.element.at)),
        }),
        allowance: allowance(words, wiring),
        why_allowance: why_allowance(words, wiring),
        conductors: wiring
            .conductors
            .iter()
            .map(|load| Conductor {
                name: load.conductor.to_string(),
                amps: words.amps_drawn(load.amps),
            })
            .collect(),
        up_to: wiring
            .lag
            .iter()
            .flat_map(|lag| &lag.conductors)
            .map(|one| up_to(words, one))
            .collect(),
        up_to_too_much: wiring
            .lag
            .as_ref()
            .is_some_and(|lag| lag.breaker.is_some() || lag.board.is_some()),
        breaker: Breaker {
            fitted: words.amps(wiring.breaker.fitted),
            needed: words.amps_drawn(wiring.breaker.needed),
            smallest: wiring.breaker.smallest.map(|amps| words.amps(amps)),
            nec: wiring.breaker.rules.rules == Rules::Nec,
            marked: wiring.breaker.because == NeededReason::Marked,
            largest: job.marked.largest.map(|amps| words.amps(amps.value)),
        },
        run: wiring.run.as_ref().zip(job.run.as_ref()).map(|(drop, run)| Run {
            length: words.measure(run.length.to_metres(), 2, "m"),
            wire: wire_words(words, run.wire),
            drop: words.measure(drop.drop.0, 1, Volts::UNIT),
            percent: words.measure(drop.percent, 1, "%"),
            too_much: drop.too_much(),
        }),
        from_table: with_source(words, wiring, |source| matches!(source, CurrentSource::Table(_))),
        low_unknown: with_source(words, wiring, |source| *source == CurrentSource::NoMoreThanHigh),
        live: live(board, wiring),
        buttons: wiring.devices.iter().any(|plan| plan.device.counts_for_allowance()),
        fuses: fuses(words, board, wiring),
    }
}

/// `8 AWG copper`, `6 mm² copper`.
fn wire_words(words: &Words, wire: Wire) -> String {
    words.copper_wire(&match wire {
        Wire::Awg(row) => format!("{} AWG", row.awg),
        Wire::Metric(row) => format!("{} mm\u{b2}", words.shortest(row.mm2, 1)),
    })
}

/// `N 24.8 A`.
fn up_to(words: &Words, one: &UpTo) -> String {
    words.conductor_amps(&one.conductor.to_string(), &words.amps_drawn(one.amps))
}

fn cord(words: &Words, board: &Board, plan: &DevicePlan) -> Cord {
    let live = plan.voltage.live_common();
    let cavity = |pin: &Option<Pin>| Cavity {
        words: pin.map_or_else(|| words.cavity_empty(), |pin| words.pin_name(pin)),
        empty: pin.is_none(),
        live: live.filter(|_| *pin == Some(Pin::Common)).map(|line| line.to_string()),
    };
    Cord {
        code: board[plan.header].code.clone(),
        device: words.device_name(plan.device),
        volts: words.whole_volts(plan.volts),
        read_from: words.pins_read_from(plan.pins.read_from),
        pins: plan.pins.pins.iter().map(cavity).collect(),
    }
}

/// `20 A time-lag: F1, F2`.
fn fuses(words: &Words, board: &Board, wiring: &Wiring) -> Vec<String> {
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for load in &wiring.fuses {
        let fuse = &board[load.of];
        let kind = fuse_words(words, fuse);
        match found.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, codes)) => codes.push(fuse.code.clone()),
            None => found.push((kind, vec![fuse.code.clone()])),
        }
    }
    found
        .into_iter()
        .map(|(kind, codes)| words.fuses_listed(&kind, &words.commas(&codes)))
        .collect()
}

fn live(board: &Board, wiring: &Wiring) -> Vec<Live> {
    let mut found: Vec<Live> = Vec::new();
    for plan in &wiring.devices {
        let Some(line) = plan.voltage.live_common() else { continue };
        if !plan.pins.pins.contains(&Some(Pin::Common)) {
            continue;
        }
        let (line, code) = (line.to_string(), board[plan.header].code.clone());
        match found.iter_mut().find(|live| live.line == line) {
            Some(live) => live.codes.push(code),
            None => found.push(Live { codes: vec![code], line }),
        }
    }
    found
}

fn landings(words: &Words, board: &Board, supply: SupplyId) -> Vec<Landing> {
    // The ground wire is connected first.
    let mut ids: Vec<TerminalId> = (0..board.terminals.len()).map(TerminalId).collect();
    ids.sort_by_key(|id| !board[*id].ground);
    ids.into_iter()
        .map(|id| Landing {
            terminal: board[id].code.clone(),
            wire: board[id].wire.map(|wire| words.wire_colour(wire)),
            conductor: board[supply]
                .lands
                .get(id.0)
                .copied()
                .flatten()
                .map(|conductor| conductor.to_string()),
        })
        .collect()
}

fn jumpers(words: &Words, board: &Board, supply: SupplyId, wiring: &Wiring) -> Vec<Lead> {
    wiring
        .jumpers
        .iter()
        .map(|plan| {
            let jumper = &board[plan.jumper];
            let fed: Vec<String> = wiring
                .devices
                .iter()
                .filter(|device| device.jumper == Some(plan.jumper))
                .map(|device| words.device_name(device.device))
                .collect();
            Lead {
                code: jumper.code.clone(),
                to: board[plan.group].code.clone(),
                volts: board.group_volts(supply, plan.group).map(|volts| words.whole_volts(volts)),
                moved: plan.moved,
                shipped: board[jumper.shipped].code.clone(),
                used: !fed.is_empty(),
                feeds: words.commas(&fed),
            }
        })
        .collect()
}

/// The fields whose meaning a person must check: what sets the allowance, and the frequency.
fn switches(words: &Words, board: &Board, wiring: &Wiring) -> Vec<Switches> {
    let mut found = Vec::new();
    for setting in &wiring.switches {
        let bank = &board[setting.bank];
        for field in &bank.fields {
            let first = usize::from(field.first.saturating_sub(1));
            let Some(positions) = setting.positions.get(first..usize::from(field.last)) else {
                continue;
            };
            let says = field.settings.iter().find(|s| s.positions == positions);
            let meaning = match (&field.effect, says.map(|s| &s.meaning)) {
                (Some(Effect::HeaterAllowance), Some(Meaning::Allowance(number))) => {
                    words.allowance_is(&number.to_string())
                }
                (Some(Effect::Frequency), Some(Meaning::Words(text))) => text.clone(),
                _ => continue,
            };
            let positions = words.way_positions(field, positions);
            found.push(Switches { bank: bank.code.clone(), positions, meaning });
        }
    }
    found
}

/// `S1: way 2 on`.
fn moved_ways(words: &Words, board: &Board, wiring: &Wiring) -> Vec<String> {
    let mut found = Vec::new();
    for setting in &wiring.switches {
        for way in &setting.moved {
            let index = usize::from(way.saturating_sub(1));
            let on = setting.positions.get(index).copied().unwrap_or_default();
            let code = &board[setting.bank].code;
            found.push(words.moved_way(code, &way.to_string(), on));
        }
    }
    found
}

fn allowance(words: &Words, wiring: &Wiring) -> Option<String> {
    let allowed = usize::from(wiring.heater?.allowance?);
    let counted: Vec<Device> = wiring
        .devices
        .iter()
        .map(|plan| plan.device)
        .filter(|device| device.counts_for_allowance())
        .collect();
    let count = counted.len();
    Some(match allowed {
        _ if count == 0 => return None,
        0 => words.allowance_none(count, &counted),
        allowed if allowed >= count => words.allowance_all(count, &counted),
        allowed => words.allowance_some(allowed, &counted),
    })
}

fn why_allowance(words: &Words, wiring: &Wiring) -> Option<String> {
    match wiring.breaker.allowance_because {
        AllowanceReason::Breaker { next, needed } => {
            Some(words.why_breaker(&next.to_string(), &words.amps_drawn(needed)))
        }
        AllowanceReason::Board { next, amps } => {
            Some(words.why_board(&next.to_string(), &words.amps_drawn(amps)))
        }
        AllowanceReason::Highest | AllowanceReason::NoSwitch | AllowanceReason::NoneCarried => None,
    }
}

fn with_source(
    words: &Words,
    wiring: &Wiring,
    wanted: impl Fn(&CurrentSource) -> bool,
) -> Vec<String> {
    let has = |plan: &&DevicePlan| {
        let (high, low) = &plan.sources;
        high.iter().chain(low).any(&wanted)
    };
    wiring.devices.iter().filter(has).map(|plan| words.the_device(plan.device)).collect()
}
