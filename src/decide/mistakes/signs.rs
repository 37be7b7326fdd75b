//! What tells a wrong board from a right one.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::super::breaker::rules;
use super::super::currents::Running;
use super::super::jumpers::suits;
use super::super::loads::ConductorLoad;
use super::super::plan::{DeviceId, DevicePlan};
use super::super::rules::carries;
use super::sign::{Heat, House, Limit, Observation, Sign, Trip};
use super::state::{Command, DeviceState, Measured, Metal, Power, Range, Run, State};
use super::{AsBuilt, NeutralPath, PlannedCase};
use crate::board::{Allowance, BankId, Board, Device, Effect, Rules, Speeds};
use crate::standards::fuses;
use crate::units::{Amps, Volts};

/// The part of its plate's voltage below which a device does nothing; from there up to the band a
/// motor hums or runs hot. Common practice, no source.
pub const HUM_THRESHOLD: f64 = 0.10;

/// From this current on ground-fault protection trips: class A of UL 943, 6 mA (from memory).
const GROUND_FAULT: f64 = 0.006;

/// The part of a current in the neutral that flows off by the ground where both are joined at the spa: of
/// two wires each is taken to carry half (common practice, no source).
const BY_GROUND: f64 = 0.5;

/// What tells one state from the right one, the most dangerous first.
pub fn signs(
    planned: &PlannedCase<'_>,
    (built_planned, before): (&AsBuilt, &State),
    (built, after): (&AsBuilt, &State),
) -> Vec<Observation> {
    Right::new(planned, built_planned, before).signs(built, after)
}

/// The right state, which others are told from.
pub struct Right<'a> {
    planned: &'a PlannedCase<'a>,
    built: &'a AsBuilt,
    state: &'a State,
    /// What it shows by itself.
    known: BTreeSet<Sign>,
}

impl<'a> Right<'a> {
    /// Of a board that is built right, and what it does.
    pub fn new(planned: &'a PlannedCase<'a>, built: &'a AsBuilt, state: &'a State) -> Self {
        let known = absolute(planned, None, state).into_keys().collect();
        Self { planned, built, state, known }
    }

    /// What tells a state from it, the most dangerous first.
    pub fn signs(&self, built: &AsBuilt, after: &State) -> Vec<Observation> {
        let Self { planned, state: before, .. } = *self;
        let mut found = absolute(planned, Some(self), after);
        // What a burnt device does besides need not be told, nor that one between two lines has a live
        // wire, which it has by design; and where the breaker trips nothing stays overloaded.
        let idle = |sign: &&Sign| match sign {
            Sign::StaysLive(device) | Sign::RunsHot(device) => {
                found.contains_key(&Sign::Destroyed(*device))
            }
            Sign::Overload(_) => found.contains_key(&Sign::BreakerTrips),
            _ => false,
        };
        let idle: Vec<Sign> = found.keys().filter(idle).copied().collect();
        for sign in idle {
            found.remove(&sign);
        }
        let mut all: Vec<Observation> = found.into_values().collect();
        all.extend(heater(planned, before, after));
        // A dead panel shows no buttons.
        if after.power.runs() {
            all.extend(buttons(before, after));
        }
        all.extend(settings(planned.board, self.built, built));
        all.sort_by_key(|seen| (std::cmp::Reverse(seen.sign.danger()), seen.sign));
        all.dedup_by_key(|seen| seen.sign);
        all
    }

    /// Whether a device gets what it should in the same simulation, under the same supply.
    fn is_as_before(&self, id: DeviceId, device: &DeviceState) -> bool {
        let before = &self.state.devices[id];
        before.role == device.role && Arc::ptr_eq(&before.runs, &device.runs)
    }
}

/// What a state shows by itself, but for what the right one shows, too.
fn absolute(
    planned: &PlannedCase<'_>,
    right: Option<&Right<'_>>,
    state: &State,
) -> BTreeMap<Sign, Observation> {
    let mut all = BTreeMap::new();
    let mut see = |seen: Observation| {
        if right.is_none_or(|right| !right.known.contains(&seen.sign)) {
            all.entry(seen.sign).or_insert(seen);
        }
    };
    match state.ground {
        Metal::Live(volts) => {
            see(Observation::of(Sign::AllMetalLive, volts).only(House::Bare));
        }
        Metal::Loose => see(Observation::new(Sign::AllUngrounded)),
        Metal::Grounded | Metal::NoWire => {}
    }
    match state.power {
        Power::NotSaid | Power::Suits => {}
        Power::Weak(volts) => see(Observation::of(Sign::BoardWeak, volts)),
        Power::Dead => see(Observation::new(Sign::BoardDead)),
        Power::Burns(volts) => {
            see(Observation::of(Sign::BoardBurns, volts));
            see(Observation::new(Sign::BoardDead));
        }
    }
    if state.neutral == NeutralPath::Grounded {
        see(Observation::new(Sign::MetalOnNeutral));
    }
    if state.short {
        see(Observation::new(Sign::BreakerTripsAtOnce));
    }
    ground_fault(planned, state).into_iter().for_each(&mut see);
    for ((id, plan), device) in planned.wiring.devices.entries().zip(&state.devices) {
        if right.is_none_or(|right| !right.is_as_before(id, device)) {
            metal(plan, state, device, &mut see);
            runs(plan, state, device, &mut see);
        }
    }
    currents(planned, state, &mut see);
    all
}

/// What makes ground-fault protection trip first, and what makes it trip before that where the metal is
/// bonded. Metal on a line is a fault to ground where it is bonded; a current into the ground wire is
/// one in every house that has protection.
fn ground_fault(planned: &PlannedCase<'_>, state: &State) -> Vec<Observation> {
    let at_once = Observation::new(Sign::GroundFaultTrips(Trip::AtOnce));
    if matches!(state.ground, Metal::Live(_)) {
        return vec![at_once.only(House::Bonded)];
    }
    if past_protection_at_once(planned, state) {
        return vec![at_once.only(House::Protected)];
    }
    let leaks = first(planned, state, |run| {
        // What returns past the protection is to it the same as what flows into the ground.
        let astray = match state.neutral {
            NeutralPath::Right => 0.0,
            NeutralPath::Past => run.measured.neutral.0,
            NeutralPath::Grounded => run.measured.neutral.0 * BY_GROUND,
        };
        let leak = run.measured.earth.0.max(astray);
        let live = matches!(run.measured.metal, Metal::Live(_));
        match leak > GROUND_FAULT {
            true => Some((House::Protected, Some(Amps(leak)))),
            false => live.then_some((House::Bonded, None)),
        }
    });
    let by_metal = neutral_by_metal(planned, state);
    let earlier = by_metal.filter(|(rank, _)| leaks.as_ref().is_none_or(|(known, _)| rank < known));
    leaks.into_iter().chain(earlier).map(|(_, seen)| seen).collect()
}

/// What makes it trip first where metal that is on the neutral is bonded: the neutral is then on the
/// ground behind the protection.
fn neutral_by_metal(planned: &PlannedCase<'_>, state: &State) -> Option<(Rank, Observation)> {
    if state.neutral != NeutralPath::Right {
        return None;
    }
    let runs = || state.devices.iter().flat_map(|device| device.runs.iter());
    let always = runs().any(|run| run.command == Command::Off && run.measured.metal_on_neutral);
    let without_load = state.always_on_neutral || finds_grounded_neutral(planned);
    first(planned, state, |run| {
        let leak = run.measured.neutral.0 * BY_GROUND;
        let there = run.measured.metal_on_neutral;
        match (there || always) && leak > GROUND_FAULT {
            true => Some((House::Bonded, Some(Amps(leak)))),
            false => (there && without_load).then_some((House::Bonded, None)),
        }
    })
}

/// When a run is: the order in which the board or a person starts it, and whether it does not leak by
/// itself.
type Rank = (u8, bool);

/// The first run that makes the protection trip. `trips` says in which houses one does, and with which
/// current, if it is one.
fn first(
    planned: &PlannedCase<'_>,
    state: &State,
    trips: impl Fn(&Run) -> Option<(House, Option<Amps>)>,
) -> Option<(Rank, Observation)> {
    let mut first: Option<(Rank, Observation)> = None;
    for (plan, device) in planned.wiring.devices.iter().zip(&state.devices) {
        for run in device.runs.iter() {
            let Some((house, leak)) = trips(run) else { continue };
            let rank = (start_order(state, device, run.command), leak.is_none());
            if first.as_ref().is_some_and(|(known, _)| *known <= rank) {
                continue;
            }
            let trip = match (run.command, plan.device) {
                (Command::Off, _) => Trip::AtOnce,
                (_, Device::Heater) => Trip::Heating,
                _ => Trip::Running,
            };
            let seen = Observation {
                running: vec![(plan.device, running(run.command))],
                house,
                amps: leak.map(|leak| (leak, Amps(GROUND_FAULT))),
                limit: leak.map(|_| Limit::GroundFault),
                ..Observation::new(Sign::GroundFaultTrips(trip))
            };
            first = Some((rank, seen));
        }
    }
    first
}

/// Whether protection trips before anything is turned on: by the board's own electronics, if they draw
/// from the neutral, or because it finds a grounded neutral without any load.
fn past_protection_at_once(planned: &PlannedCase<'_>, state: &State) -> bool {
    match state.neutral {
        NeutralPath::Right => false,
        NeutralPath::Past => state.always_on_neutral,
        NeutralPath::Grounded => state.always_on_neutral || finds_grounded_neutral(planned),
    }
}

/// Class A protection must find a grounded neutral without any load (UL 943, from memory); an RCD of
/// IEC 61008 does not.
fn finds_grounded_neutral(planned: &PlannedCase<'_>) -> bool {
    rules(planned.board, planned.job).rules == Rules::Nec
}

/// What runs first once there is power: what is on while it is off, then what the board starts by
/// itself (the pump that moves water for the heater, the ozonator with it, then the heater), then
/// what somebody turns on. Common practice, no source.
fn start_order(state: &State, device: &DeviceState, command: Command) -> u8 {
    let pumps = state.roles.iter().map(|role| role.role);
    let first = pumps.filter(|role| role.moves_water()).min();
    match device.role {
        _ if command == Command::Off => 0,
        Some(role) if Some(role) == first => 1,
        Some(Device::Heater) => 3,
        Some(role) if role.is_continuous() => 2,
        _ => 4,
    }
}

/// What the metalwork and the wires of a device are.
fn metal(
    plan: &DevicePlan,
    state: &State,
    device: &DeviceState,
    see: &mut impl FnMut(Observation),
) {
    let name = plan.device;
    for run in device.runs.iter() {
        match run.measured.metal {
            Metal::Live(volts) if !matches!(state.ground, Metal::Live(_)) => {
                see(Observation::of(Sign::MetalLive(name), volts).only(House::Bare));
            }
            Metal::Loose if state.ground == Metal::Grounded => {
                see(Observation::new(Sign::Ungrounded(name)));
            }
            _ => {}
        }
        // Half the lowest voltage between a line and ground that the language allows would still
        // be more than this.
        if run.command == Command::Off && run.measured.common.0 > 25.0 {
            see(Observation::of(Sign::StaysLive(name), run.measured.common));
        }
    }
}

/// How a device runs.
fn runs(plan: &DevicePlan, state: &State, device: &DeviceState, see: &mut impl FnMut(Observation)) {
    let (name, plate) = (plan.device, plan.plate);
    let heats = plan.fitted.is_none();
    let level = |range: Range| level(range, plate);
    let volts = |measured: &Measured| Volts(measured.low.most.0.max(measured.high.most.0));
    let mut works: Vec<(Command, Level, Level)> = Vec::new();
    for run in device.runs.iter() {
        let (low, high) = (level(run.measured.low), level(run.measured.high));
        if low == Level::Over || high == Level::Over {
            let most = if low == Level::Over { run.measured.low } else { run.measured.high };
            see(Observation::new(Sign::Destroyed(name)).on(most));
        }
        let both = low != Level::None && high != Level::None;
        // The heater on too low a voltage is told by its watts.
        let weak = low == Level::Weak || high == Level::Weak;
        if !heats && (both || weak) {
            let seen = Observation::new(Sign::RunsHot(name));
            let weakest = if low == Level::Weak { run.measured.low } else { run.measured.high };
            see(if weak { seen.on(weakest) } else { seen });
        }
        let any = low != Level::None || high != Level::None;
        if run.command == Command::Off && any {
            see(Observation::of(Sign::NeverStops(name), volts(&run.measured)));
        }
        works.push((run.command, low, high));
    }
    let on = |command: Command, high: bool| {
        works.iter().any(|(c, l, h)| *c == command && if high { *h } else { *l } != Level::None)
    };
    let (low_on_low, high_on_low) = (on(Command::Low, false), on(Command::Low, true));
    let (low_on_high, high_on_high) = (on(Command::High, false), on(Command::High, true));
    let low = low_on_low || low_on_high;
    let high = high_on_low || high_on_high;
    if !low && !high {
        // Of a dead board that is said once.
        if !heats && state.power.runs() {
            see(Observation::new(Sign::DoesNothing(name)));
        }
        return;
    }
    if let Some(role) = device.role.filter(|role| *role != name) {
        see(Observation::new(Sign::OtherButton(name, role)));
    }
    let two = plan.speeds == Speeds::Two;
    let asked_twice = device.on(Command::Low).is_some();
    let swapped = high_on_low && low_on_high && !low_on_low && !high_on_high;
    if two && swapped {
        see(Observation::new(Sign::SpeedsSwapped(name)));
    } else if two && high && !low {
        see(Observation::new(Sign::OnlyHigh(name)));
    } else if two && low && !high {
        see(Observation::new(Sign::OnlyLow(name)));
    } else if !two && asked_twice && !high_on_low {
        see(Observation::new(Sign::OnlyHigh(name)));
    }
}

/// What a winding gets, by its plate.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Level {
    None,
    Weak,
    Fits,
    Over,
}

fn level(range: Range, plate: Volts) -> Level {
    if range.most.0 < plate.0 * HUM_THRESHOLD {
        Level::None
    } else if range.most.0 > plate.0 && !suits(range.most, plate) {
        Level::Over
    } else if suits(range.least, plate) {
        Level::Fits
    } else {
        Level::Weak
    }
}

fn running(command: Command) -> Running {
    match command {
        Command::Off => Running::Off,
        Command::Low => Running::Low,
        Command::High => Running::High,
    }
}

/// What the wires of the supply may carry; where nobody can judge them, what their breaker protects:
/// its rating.
fn wire_capacity(planned: &PlannedCase<'_>) -> Amps {
    planned.wiring.wire.capacity.map_or(planned.job.breaker.value, |capacity| capacity.amps)
}

/// The least current in a conductor of the supply that shows any sign.
pub fn least_that_shows(planned: &PlannedCase<'_>) -> Amps {
    let (board, breaker) = (planned.board, planned.job.breaker.value);
    let limits = rules(board, planned.job).rules.trip_limits();
    let trips = limits.trips.first().map(|point| point.multiple - 1e-6);
    let by_breaker = trips.into_iter().chain([limits.holds]).map(|multiple| breaker.0 * multiple);
    let by_board = board.max_current(planned.job.supply.value).map(|max| max.0);
    let all = by_breaker.chain(by_board).chain([wire_capacity(planned).0]);
    Amps(all.fold(f64::INFINITY, f64::min))
}

/// What is overloaded. Of a breaker nothing is said that its standard does not: it must carry this
/// much, it must trip at that much, and between the two it may.
fn currents(planned: &PlannedCase<'_>, state: &State, see: &mut impl FnMut(Observation)) {
    let (board, breaker) = (planned.board, planned.job.breaker.value);
    let limits = rules(board, planned.job).rules.trip_limits();
    let too_much = |sign: Sign, limit: Limit, found: Amps, allowed: Amps| Observation {
        amps: Some((found, allowed)),
        limit: Some(limit),
        ..Observation::new(sign)
    };
    let of = |load: &ConductorLoad, seen: Observation| Observation {
        conductor: Some(load.conductor),
        running: load.running.clone(),
        ..seen
    };
    let lines = state.loads.conductors.iter().filter(|load| load.conductor.is_line());
    let most = lines.reduce(|a, b| if b.amps.0 > a.amps.0 { b } else { a });
    let past = |multiple: f64| most.filter(|it| !carries(Amps(breaker.0 * multiple), it.amps));
    // Just at the tripping current it trips.
    let must = limits.trips.first().and_then(|point| past(point.multiple - 1e-6));
    let ends = [(must, Sign::BreakerTrips), (past(limits.holds), Sign::BreakerMayTrip)];
    let ends = ends.into_iter().find_map(|(load, sign)| Some((load?, sign)));
    if let Some((load, sign)) = ends {
        see(of(load, too_much(sign, Limit::Breaker, load.amps, breaker)));
    }
    let wire = wire_capacity(planned);
    for load in &state.loads.conductors {
        // What a breaker in this line ends is told by the breaker. In the neutral there is none.
        let ended = load.conductor.is_line() && ends.is_some();
        let by_wire = (!ended).then_some((Limit::Wire, wire));
        let by_board = board.max_current(planned.job.supply.value).map(|max| (Limit::Board, max));
        for (limit, allowed) in by_wire.into_iter().chain(by_board) {
            if !carries(allowed, load.amps) {
                let sign = Sign::Overload(Heat::of(load.amps, allowed));
                see(of(load, too_much(sign, limit, load.amps, allowed)));
            }
        }
    }
    for (fuse, amps) in &state.loads.fuses {
        let rating = board[*fuse].rating;
        if !carries(rating, *amps) {
            let must = fuses::must_open(board[*fuse].speed.as_deref(), rating);
            let sign = match must {
                Some(multiple) if amps.0 >= rating.0 * (multiple - 1e-6) => Sign::FuseBlows(*fuse),
                Some(_) => Sign::FuseMayBlow(*fuse),
                // Such a fuse opens on short circuits alone.
                None => continue,
            };
            see(too_much(sign, Limit::Rating, *amps, rating));
        }
    }
    for (header, amps) in &state.loads.headers {
        if let Some(max) = board[*header].max.filter(|max| !carries(*max, *amps)) {
            let sign = Sign::HeaderHot(*header, Heat::of(*amps, max));
            see(too_much(sign, Limit::Rating, *amps, max));
        }
    }
}

/// What becomes of the heat.
fn heater(planned: &PlannedCase<'_>, before: &State, after: &State) -> Vec<Observation> {
    let mut all = Vec::new();
    if !after.power.runs() {
        return all;
    }
    let mut devices = planned.wiring.devices.entries();
    let Some((heater, plan)) = devices.find(|(_, plan)| plan.fitted.is_none()) else {
        return all;
    };
    let plate = plan.plate;
    let heater_volts = |state: &State| {
        let run = state.devices[heater].on(Command::High);
        run.map_or(Range::of(0.0), |run| run.measured.high)
    };
    let (was, is) = (heater_volts(before), heater_volts(after));
    // Without water it is never turned on, and has no volts.
    if is.most.0 < plate.0 * HUM_THRESHOLD {
        all.push(Observation::of(Sign::HeaterNever, is.most));
        return all;
    }
    // Heat goes by the square: a tenth less voltage is a fifth less heat.
    if is.least.0 < was.least.0 * (1.0 - super::super::jumpers::BAND) {
        let swings = is.most.0 - is.least.0 > 1.0;
        all.push(Observation { swings, ..Observation::of(Sign::HeaterSlow, is.least) });
    }
    // What holds it back: an allowance below what can run.
    let limit = |state: &State| match state.allowance? {
        Allowance::Loads(most) => {
            let counted = state.roles.iter().filter(|role| role.role.counts_for_allowance());
            let fitted = counted.filter(|role| role.device.is_some()).count();
            (usize::from(most) < fitted).then_some(f64::from(most))
        }
        Allowance::Amps(most) => (!carries(most, state.loads.added)).then_some(most.0),
    };
    match (limit(before), limit(after)) {
        (Some(before), Some(after)) if after >= before => {}
        (_, None) => {}
        (_, Some(_)) => all.push(Observation::new(Sign::HeaterGoesOff)),
    }
    all
}

/// Buttons for what is not fitted.
fn buttons(before: &State, after: &State) -> Vec<Observation> {
    let known = |role: Device| before.roles.iter().any(|known| known.role == role);
    let spare = after.roles.iter().filter(|role| role.device.is_none() && !known(role.role));
    spare.map(|role| Observation::new(Sign::SpareButton(role.role))).collect()
}

/// Fields of switch banks that mean something else; the heater allowance and the layout number show
/// in other ways.
fn settings(board: &Board, before: &AsBuilt, after: &AsBuilt) -> Vec<Observation> {
    let mut all = Vec::new();
    for id in board.handles::<BankId>() {
        for (field, it) in board[id].fields.iter().enumerate() {
            let same = before.meaning(board, id, field) == after.meaning(board, id, field);
            let shown = matches!(it.effect, Some(Effect::HeaterAllowance | Effect::LayoutNumber));
            if !same && !shown {
                all.push(Observation::new(Sign::SetOtherwise(id, field)));
            }
        }
    }
    all
}
