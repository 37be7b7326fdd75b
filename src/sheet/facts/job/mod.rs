//! What was decided for a job, in plain words.

mod loads;
mod places;
mod plugs;
mod switches;
mod types;
mod warnings;

pub use plugs::plug_figure;

use super::super::panel::panel_prose;
use crate::board::{Allowance, Board, CurrentSource, Device, HeaderId, Job, PanelId};
use crate::decide::heater::{LITRES_PER_GALLON, amps_on, kelvin_per_hour, resistance_ohms};
use crate::decide::reason::{EmptyReason, LayoutReason, NeededReason};
use crate::decide::{DevicePlan, Finding, LayoutChoice, Rules, WireVerdict, Wiring};
use crate::english::capital;
use crate::standards::conductors::Metal;
use crate::units::{Volts, Watts};
use crate::words::Words;
use types::{Breaker, Conductor, Empty, FurtherPlugs, Heater, JobFacts, Panel, Run};

/// Words what was decided for a job.
pub fn job(
    words: &Words,
    board: &Board,
    job: &Job,
    (layout, wiring): (&LayoutChoice, &Wiring),
    findings: &[Finding],
) -> JobFacts {
    let supply = job.supply.value;
    let wires = board[supply].conductors();
    let letters: Vec<String> = wires.iter().map(ToString::to_string).collect();
    let switches = switches::switches(words, board, wiring);
    JobFacts {
        name: job.name.clone(),
        customer: job.customer.clone(),
        supply: board[supply].title.clone(),
        supply_volts: places::volts(words, board, supply),
        has_neutral: board[supply].has_neutral(),
        wires: words.commas(&letters),
        pairs: places::pairs(words, &wires),
        landings: places::landings(words, board, supply),
        links: places::links(board, wiring),
        jumpers: places::jumpers(words, board, supply, wiring),
        moving: places::moving(words, wiring),
        plugs: plugs::plugs(words, board, job, wiring),
        empty: empty(words, board, wiring),
        layout: layout.number.get(),
        passed: match &layout.because {
            LayoutReason::LowestThatWorks { passed } => {
                let passed: Vec<String> = passed.iter().map(ToString::to_string).collect();
                Some(words.and(&passed))
            }
            LayoutReason::OnlyFit | LayoutReason::LowestNumber => None,
        },
        but_for_circulation: layout.but_for_circulation.map(|number| number.get()),
        circulation: wiring.devices.iter().any(|d| d.device == Device::Circulation),
        panel: job.panel.and_then(|PanelId(index)| {
            let panel = board.panels.get(index)?;
            panel.choose_layout.as_ref()?;
            Some(Panel { title: panel.title.clone(), prose: panel_prose(index) })
        }),
        selector: super::entry::turned(board, wiring),
        switches_moved: wiring.switches.iter().any(|setting| !setting.moved.is_empty()),
        switches,
        heater: heater(words, wiring),
        allowance: loads::allowance(words, board, wiring),
        allowance_counts: wiring
            .heater
            .is_some_and(|it| matches!(it.allowance, Some(Allowance::Loads(_)))),
        why_allowance: loads::why_allowance(words, wiring),
        conductors: wiring
            .conductors
            .iter()
            .map(|load| Conductor {
                name: load.conductor.to_string(),
                amps: words.amps_drawn(load.amps),
            })
            .collect(),
        breaker: breaker(words, job, wiring),
        run: run(words, job, wiring),
        poles: wires.iter().filter(|wire| wire.is_line()).count(),
        wire: loads::wire_judged(words, job, &wiring.wire),
        needs_75: matches!(wiring.wire.verdict, WireVerdict::OnlyAt75 { .. }),
        aluminum: job.run.is_some_and(|run| run.wire.metal == Metal::Aluminum),
        from_table: loads::with_source(words, wiring, |source| {
            matches!(source, CurrentSource::Table(_))
        }),
        low_unknown: loads::with_source(words, wiring, |source| {
            *source == CurrentSource::NoMoreThanHigh
        }),
        wire_colours: plugs::colours(words, wiring),
        further: further(words, board, wiring),
        live: plugs::live(board, wiring),
        buttons: wiring.devices.iter().any(|plan| plan.device.counts_for_allowance()),
        fuses: loads::fuses(words, board, wiring),
        warnings: warnings::warnings(words, job, findings),
    }
}

/// Devices with more than one plug, each with all of its headers.
fn further(words: &Words, board: &Board, wiring: &Wiring) -> Vec<FurtherPlugs> {
    let all = || wiring.devices.iter();
    let one = |plan: &DevicePlan| {
        let cords = all().filter(|cord| board.cord_of(cord.device) == Some(plan.device));
        let cords: Vec<HeaderId> = cords.map(|cord| cord.header).collect();
        let headers = std::iter::once(plan.header).chain(cords.iter().copied());
        let codes: Vec<String> = headers.map(|header| board[header].code.clone()).collect();
        let says = words.further_plug(plan.device, &words.and(&codes));
        (!cords.is_empty()).then(|| FurtherPlugs { says: capital(&says), codes })
    };
    all().filter_map(one).collect()
}

fn empty(words: &Words, board: &Board, wiring: &Wiring) -> Vec<Empty> {
    wiring
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
        .collect()
}

fn heater(words: &Words, wiring: &Wiring) -> Option<Heater> {
    wiring.heater.map(|heater| Heater {
        watts: words.measure(heater.watts.0, 0, Watts::UNIT),
        volts: words.whole_volts(heater.volts),
        from_job: heater.from_job,
        ohms: words.measure(resistance_ohms(heater.element), 1, "\u{3a9}"),
        amps: words.amps_drawn(amps_on(heater.element, heater.volts)),
        kelvin: words.shortest(kelvin_per_hour(heater.watts, 1000.0), 1),
        fahrenheit: words
            .shortest(1.8 * kelvin_per_hour(heater.watts, 100.0 * LITRES_PER_GALLON), 0),
        element: words
            .element_at(&words.watts(heater.element.watts), &words.volts(heater.element.at)),
    })
}

fn breaker(words: &Words, job: &Job, wiring: &Wiring) -> Breaker {
    Breaker {
        fitted: words.amps(wiring.breaker.fitted),
        needed: words.amps_drawn(wiring.breaker.needed),
        smallest: wiring.breaker.smallest.map(|amps| words.amps(amps)),
        nec: wiring.breaker.rules.rules == Rules::Nec,
        marked: wiring.breaker.because == NeededReason::Marked,
        largest: job.marked.largest.map(|amps| words.amps(amps.value)),
        heater: wiring.breaker.heater.filter(|_| job.marked.circuit.is_none()).map(|heater| {
            words
                .heater_counts(&words.amps_drawn(heater.nameplate), &words.amps_drawn(heater.drawn))
        }),
    }
}

fn run(words: &Words, job: &Job, wiring: &Wiring) -> Option<Run> {
    let (drop, run) = wiring.run.as_ref().zip(job.run.as_ref())?;
    Some(Run {
        length: words.measure(run.length.to_metres(), 2, "m"),
        wire: loads::wire_words(words, run.wire),
        drop: words.measure(drop.drop.0, 1, Volts::UNIT),
        percent: words.measure(drop.percent, 1, "%"),
    })
}
