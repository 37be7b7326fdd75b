//! The facts of a job. What its board says is not among them: see [`super::of_board`].

use super::value::{Value, code, text};
use super::{Kind, Meaning, Property as P};
use crate::board::{
    Board, Cord, Current, CurrentSource, Fitted, Heater, Job, Marked, SupplyRun, Terminals,
};

/// Everything that a job says, on its board.
pub fn of_job(board: &Board, job: &Job) -> Meaning {
    let mut all = Meaning::default();
    let Job {
        name,
        customer,
        supply,
        breaker,
        run,
        panel,
        rules,
        marked,
        heater,
        equipment,
        equipment_span: _,
        span: _,
    } = job;
    let Marked { circuit, largest } = marked;
    all.thing(Kind::Job, "")
        .say(P::Name, text(name))
        .may(P::Customer, customer.as_deref().map(text))
        .say(P::Supply, code(&board[supply.value].name))
        .say(P::Breaker, breaker.value)
        .may(P::Panel, panel.map(|panel| code(&board[panel].name)))
        .may(P::Rules, rules.as_ref().map(|rules| code(rules.value.word())))
        .may(P::Circuit, circuit.as_ref().map(|amps| amps.value))
        .may(P::Largest, largest.as_ref().map(|amps| amps.value));
    if let Some(run) = run {
        of_run(&mut all, run);
    }
    if let Some(Heater { watts, at }) = heater.as_ref().map(|heater| heater.value) {
        all.thing(Kind::Heater, "").say(P::Watts, watts).say(P::Volts, at);
    }
    // Of two pumps that fit alike, the first in the list becomes the first pump.
    for (index, device) in equipment.iter().enumerate() {
        of_fitted(&mut all, index, device);
    }
    all
}

fn of_run(all: &mut Meaning, run: &SupplyRun) {
    let SupplyRun { length, wire, terminals, method, insulation, capacity, wire_span: _, span: _ } =
        run;
    all.thing(Kind::Job, "")
        .say(P::Length, *length)
        .say(P::Wire, code(wire))
        .may(P::Terminals, terminals.map(|terminals: Terminals| u32::from(terminals.celsius())))
        .may(P::Method, method.map(|method| code(format!("{method:?}"))))
        .say(P::Insulation, code(format!("{insulation:?}")))
        .may(P::Capacity, capacity.as_ref().map(|amps| amps.value));
}

fn of_fitted(all: &mut Meaning, index: usize, fitted: &Fitted) {
    let Fitted { role, speeds, volts, high, low, cord, power_factor, span: _ } = fitted;
    all.thing(Kind::Equipment, format!("{:02}", index + 1))
        .say(P::Device, code(role))
        .say(P::Speeds, *speeds)
        .say(P::Volts, volts.value)
        .say(P::HighCurrent, current(high))
        .may(P::LowCurrent, low.as_ref().map(current))
        .may(P::PowerFactor, *power_factor)
        .may(
            P::Cord,
            match cord {
                Cord::AsMade => None,
                Cord::ReEnded => Some(code("re-ended")),
                Cord::Adapter => Some(code("adapter")),
            },
        );
}

/// A current with where it comes from: sheets ask to check one that was not read off the nameplate.
fn current(current: &Current) -> Value {
    let Current { amps, source, span: _ } = current;
    match source {
        CurrentSource::Plate => Value::Amps(*amps),
        CurrentSource::Table(power) => code(format!("{amps} of {power}")),
        CurrentSource::Watts(watts) => code(format!("{amps} of {watts}")),
        CurrentSource::NoMoreThanHigh => code(format!("{amps} at most")),
    }
}
