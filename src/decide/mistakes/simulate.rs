//! What a board does as it is set up: what each device gets, whether that is right or not.

use std::collections::BTreeMap;
use std::sync::Arc;

use num_complex::Complex;

use super::super::budget::keeps;
use super::super::currents::{AllowanceClass, size};
use super::super::layout::{Slot, slots};
use super::super::plan::DeviceId;
use super::super::voltages::GroupVoltage;
use super::combinations::{Extremes, extremes};
use super::device_circuit::{DeviceCircuits, Drive, Plugged, Wound};
use super::device_load::{Part, Player, Probe};
use super::draws::{Asked, Flows, adds, class, loads};
use super::electronics::{on_neutral, power};
use super::state::{Command, DeviceState, Measured, Metal, Power, Range, RoleState, Run, State};
use super::{AsBuilt, CordAt, NeutralPath, PlannedCase};
use crate::board::{Allowance, Conductor, Device, HandleMap, LayoutNumber, Speeds};
use crate::units::{Amps, Volts};

/// From this voltage on it is dangerous to touch: the conventional touch voltage limit of IEC
/// 60364-4-41, 50 V AC (from memory).
const TOUCH: f64 = 50.0;

/// What the board does as it is built.
pub fn simulate(planned: &PlannedCase<'_>, built: &AsBuilt) -> State {
    Simulation::new(planned).state(built)
}

/// A job's board that is simulated again and again, each time with something else wrong. A mistake leaves
/// most devices as they were: what one gets on its commands is found once for each way in which it is
/// plugged in and supplied, and once for all devices that are the same circuit, also of several jobs.
pub struct Simulation<'a> {
    planned: PlannedCase<'a>,
    /// What the devices are, each once.
    wounds: Vec<Wound>,
    /// Which of these each device is.
    is: HandleMap<DeviceId, usize>,
    /// One for each of the supplies that were met, the right one of the first job first.
    supplies: Vec<Supplied<'a>>,
    /// The headers that each layout uses.
    slots: BTreeMap<LayoutNumber, Arc<[Slot]>>,
}

/// No more supplies than these are remembered: some for each terminal of a large board.
const SUPPLIES: usize = 192;

/// Devices under one supply.
struct Supplied<'a> {
    circuits: DeviceCircuits<'a>,
    /// What each [`Wound`] gets on so many commands with all others off.
    alone: Vec<Vec<(Plugged, usize, Arc<Gets>)>>,
    /// The same as a load on the points that float.
    parts: Vec<Vec<(Plugged, Command, Arc<Part>)>>,
}

/// What is known of one of the wounds.
fn known<T>(of_each: &mut Vec<Vec<T>>, wound: usize) -> &mut Vec<T> {
    if of_each.len() <= wound {
        of_each.resize_with(wound + 1, Vec::new);
    }
    &mut of_each[wound]
}

/// What a device gets on each of its commands.
struct Gets {
    /// One for each command, *off* first.
    runs: Arc<[Run]>,
    /// What it draws on each [`Command`], whether it is one of them or not.
    flows: [Flows; 3],
}

impl Gets {
    fn new(all: impl IntoIterator<Item = (Run, Flows)>) -> Self {
        let mut flows = [Flows::default(); 3];
        let runs = all.into_iter().map(|(run, drawn)| {
            flows[run.command as usize] = drawn;
            run
        });
        Self { runs: runs.collect(), flows }
    }

    fn all(&self) -> impl Iterator<Item = (Run, Flows)> + '_ {
        self.runs.iter().map(|run| (*run, *self.on(run.command)))
    }

    fn on(&self, command: Command) -> &Flows {
        &self.flows[command as usize]
    }
}

impl<'a> Simulation<'a> {
    /// One of which nothing is known yet.
    pub fn new(planned: &PlannedCase<'a>) -> Self {
        let (wounds, is) = (Vec::new(), HandleMap::new(Vec::new()));
        let (supplies, slots) = (Vec::new(), BTreeMap::new());
        let mut simulation = Self { planned: *planned, wounds, is, supplies, slots };
        simulation.go_on(planned);
        simulation
    }

    /// Goes on with another job on the same board; what is known of devices is kept.
    pub(super) fn go_on(&mut self, planned: &PlannedCase<'a>) {
        self.planned = *planned;
        let wounds = &mut self.wounds;
        let devices = planned.wiring.devices.entries();
        let which = devices.map(|(device, _)| {
            let wound = Wound::new(planned, device);
            wounds.iter().position(|known| *known == wound).unwrap_or_else(|| {
                wounds.push(wound);
                wounds.len() - 1
            })
        });
        self.is = which.collect();
    }

    /// What the board does as it is built.
    pub fn state(&mut self, built: &AsBuilt) -> State {
        self.state_with(built, Asked::All)
    }

    /// The same, but with those loads alone that are asked for.
    pub(super) fn state_with(&mut self, built: &AsBuilt, asked: Asked) -> State {
        let known = self.supplies.iter().position(|it| it.circuits.supply(built));
        let at = known.unwrap_or_else(|| {
            if self.supplies.len() >= SUPPLIES {
                // The right one is mostly needed most.
                self.supplies.truncate(1);
            }
            let circuits = DeviceCircuits::new(self.planned.board, built);
            self.supplies.push(Supplied { circuits, alone: Vec::new(), parts: Vec::new() });
            self.supplies.len() - 1
        });
        let right = self.slots(Some(self.planned.layout.number));
        let slots = self.slots(built.layout(self.planned.board));
        let supplied = &mut self.supplies[at];
        let power = power(self.planned.board, built);
        let (planned, wounds, is) = (&self.planned, self.wounds.as_slice(), &self.is);
        let takes = |cord: &CordAt| slots.iter().copied().find(|slot| slot.header == cord.header);
        let taken = built.cords.iter().map(takes).collect();
        let simulator =
            Simulator { planned, wounds, is, built, slots, taken, right, supplied, power };
        state(simulator, asked)
    }

    /// The headers that a layout uses; none if there is no such layout.
    fn slots(&mut self, number: Option<LayoutNumber>) -> Arc<[Slot]> {
        let board = self.planned.board;
        let Some(number) = number else { return Arc::default() };
        let find = || board.layout(number).map(|layout| slots(board, layout)).unwrap_or_default();
        Arc::clone(self.slots.entry(number).or_insert_with(|| find().into()))
    }
}

fn state(mut simulator: Simulator<'_, '_>, asked: Asked) -> State {
    let (planned, built) = (simulator.planned, simulator.built);
    let roles = simulator.roles();
    // The heater waits for water, so what moves that is found with the heater off. Without water
    // the board never turns it on.
    let alone = simulator.circuits().floating() == 0;
    let told_by = simulator.water(&roles);
    let dry = matches!(told_by, Water::Known(Some(false)));
    let known = matches!(told_by, Water::Known(_));
    let mut runs = simulator.runs(&roles, alone || (known && !dry));
    let water = match told_by {
        Water::Known(water) => water,
        Water::From { device, command, least } => {
            let run = runs[device].runs.iter().find(|run| run.command == command);
            let volts = |run: &Run| run.measured.low.most.0.max(run.measured.high.most.0);
            Some(run.is_some_and(|run| volts(run) >= least.0))
        }
    };
    if water == Some(false) {
        simulator.leave_heater_off(&mut runs);
    } else if !alone && !known {
        runs = simulator.runs(&roles, true);
    }
    if alone && simulator.waits_for_ever(&roles, &runs) {
        simulator.leave_heater_off(&mut runs);
    }
    let flows: Vec<[&Flows; 2]> =
        runs.iter().map(|gets| [gets.on(Command::Low), gets.on(Command::High)]).collect();
    let devices: HandleMap<DeviceId, DeviceState> = runs
        .entries()
        .map(|(id, gets)| {
            let role = simulator.role(id).map(|slot| slot.device);
            DeviceState { role, runs: Arc::clone(&gets.runs) }
        })
        .collect();
    let allowance = built.allowance(planned.board);
    State {
        water,
        loads: loads(planned, built, &devices, &flows, allowance, asked),
        ground: simulator.ground(),
        short: simulator.short(),
        power: simulator.power,
        neutral: simulator.neutral(),
        always_on_neutral: on_neutral(planned.board, built),
        devices,
        roles,
        allowance,
    }
}

/// Each device on each of its commands.
type Runs = HandleMap<DeviceId, Arc<Gets>>;

/// A board as it is built, and what its layout makes of it.
struct Simulator<'s, 'a> {
    planned: &'s PlannedCase<'a>,
    /// What its devices are.
    wounds: &'s [Wound],
    /// Which of these each is.
    is: &'s HandleMap<DeviceId, usize>,
    built: &'s AsBuilt,
    /// The headers that the layout uses.
    slots: Arc<[Slot]>,
    /// What the board takes the header of each device for.
    taken: HandleMap<DeviceId, Option<Slot>>,
    /// Those that the right layout uses.
    right: Arc<[Slot]>,
    /// Its devices as circuits.
    supplied: &'s mut Supplied<'a>,
    /// What the board itself gets.
    power: Power,
}

impl<'s, 'a> Simulator<'s, 'a> {
    fn circuits(&self) -> &DeviceCircuits<'a> {
        &self.supplied.circuits
    }

    fn plugged(&self, device: DeviceId) -> Plugged {
        Plugged::new(self.planned.board, self.built, device)
    }

    fn wound(&self, device: DeviceId) -> &'s Wound {
        &self.wounds[self.is[device]]
    }

    /// What the board takes the header of a device for, and with how many speeds.
    fn role(&self, device: DeviceId) -> Option<Slot> {
        self.taken[device]
    }

    /// `heats` says whether the board ever turns the heater on.
    fn commands(&self, device: DeviceId, heats: bool) -> &'static [Command] {
        match self.role(device) {
            // Nothing can be turned on without the board.
            _ if !self.power.runs() => &[Command::Off],
            None => &[Command::Off],
            Some(Slot { device: Device::Heater, .. }) if !heats => &[Command::Off],
            Some(Slot { speeds: Speeds::Two, .. }) => &[Command::Off, Command::Low, Command::High],
            Some(_) => &[Command::Off, Command::High],
        }
    }

    fn roles(&self) -> Vec<RoleState> {
        let plugged = |header| {
            self.built.cords.entries().find(|(_, cord)| cord.header == header).map(|(id, _)| id)
        };
        let role = |slot: &Slot| RoleState {
            role: slot.device,
            speeds: slot.speeds,
            header: slot.header,
            device: plugged(slot.header),
        };
        self.slots.iter().map(role).collect()
    }

    /// Every device on each of its commands: by itself, or if a point of the supply floats, over
    /// every combination. `heats` says whether the board ever turns the heater on.
    fn runs(&mut self, roles: &[RoleState], heats: bool) -> Runs {
        let ids = || self.planned.wiring.devices.entries().map(|(id, _)| id);
        let mut runs = Runs::new(Vec::new());
        for id in ids() {
            runs.push(self.alone(id, self.commands(id, heats)));
        }
        if self.circuits().floating() == 0 {
            return runs;
        }
        let mut parts: Vec<Vec<Arc<Part>>> = Vec::new();
        for id in ids() {
            let commands = self.commands(id, heats).iter();
            parts.push(commands.map(|command| self.part(id, *command)).collect());
        }
        let pump = water_pump(roles);
        // What runs with it is on whenever the heater is, too. Of a pump that the allowance can hold
        // back that is not always so.
        let gently =
            |pump: &RoleState| pump.speeds == Speeds::Two || !pump.role.counts_for_allowance();
        let moves_water = |id: DeviceId| {
            let tied = |pump: &RoleState| {
                let role = self.role(id).map(|slot| slot.device);
                gently(pump)
                    && role.is_some_and(|role| self.planned.board.runs_with(role, pump.role))
            };
            pump.is_some_and(|pump| pump.device == Some(id) || tied(pump))
        };
        let players: Vec<Player> = ids()
            .zip(parts)
            .map(|(id, parts)| Player {
                parts,
                class: self.role(id).map_or(AllowanceClass::Free, |slot| class(slot.device)),
                moves_water: moves_water(id),
                together: self.role(id).and_then(|slot| self.planned.board.together(slot.device)),
                windings: self.windings(id),
            })
            .collect();
        let allowance = self.built.allowance(self.planned.board);
        let found = extremes(&players, self.circuits().floating(), allowance);
        for ((id, gets), found) in ids().zip(runs.iter_mut()).zip(&found) {
            let spread = gets.all().zip(found).map(|((mut run, mut flows), extremes)| {
                self.spread(id, &mut run.measured, &mut flows, extremes);
                (run, flows)
            });
            *gets = Arc::new(Gets::new(spread));
        }
        runs
    }

    /// What a volt at each winding of a device draws from the supply.
    fn windings(&self, device: DeviceId) -> [f64; 2] {
        let isolated = matches!(self.planned.wiring[device].voltage, GroupVoltage::Isolated { .. });
        let (low, high) = self.wound(device).windings;
        if isolated { [0.0, 0.0] } else { [size(low), size(high)] }
    }

    /// Whether an allowance that is a current is less than the heater and what moves its water add up
    /// to: then the board never turns the heater on.
    fn waits_for_ever(&self, roles: &[RoleState], runs: &Runs) -> bool {
        let Some(Allowance::Amps(limit)) = self.built.allowance(self.planned.board) else {
            return false;
        };
        // The first command is off.
        let added = |role: &RoleState, command: usize| {
            let gets = &runs[role.device?];
            let run = gets.runs.get(command)?;
            Some(adds(&Flows::default(), gets.on(run.command))[1])
        };
        let heater = roles.iter().find(|role| role.role == Device::Heater);
        let Some(heater) = heater.and_then(|role| added(role, 1)) else { return false };
        let pump = water_pump(roles);
        let water = pump.and_then(|role| added(role, 1)).unwrap_or(0.0);
        let with = pump.map_or(0.0, |pump| {
            let all = roles.iter();
            let with = all.filter(|role| self.planned.board.runs_with(role.role, pump.role));
            with.filter_map(|role| added(role, 1)).sum()
        });
        !keeps(limit.0, heater + water + with)
    }

    fn leave_heater_off(&self, runs: &mut Runs) {
        for (taken, gets) in self.taken.iter().zip(runs.iter_mut()) {
            if taken.is_some_and(|slot| slot.device == Device::Heater) {
                *gets = Arc::new(Gets::new(gets.all().take(1)));
            }
        }
    }

    /// What a device gets over all combinations, in place of what it gets by itself.
    fn spread(
        &self,
        device: DeviceId,
        measured: &mut Measured,
        flows: &mut Flows,
        extremes: &Extremes,
    ) {
        let range = |probe| {
            let (least, most) = extremes.of(probe);
            Range { least: Volts(least), most: Volts(most) }
        };
        measured.low = range(Probe::Low);
        measured.high = range(Probe::High);
        measured.common = range(Probe::Common).most;
        measured.earth = Amps(extremes.of(Probe::Earth).1.max(measured.earth.0));
        let potential = extremes.of(Probe::Metal).1;
        if measured.metal != Metal::NoWire && potential > TOUCH {
            measured.metal = Metal::Live(Volts(potential));
        }
        // The most of each winding, though both may not have it at once.
        let (low, high) = self.wound(device).windings;
        let drawn = |volts: Volts, siemens| {
            size(amps(self.wound(device), Complex::new(volts.0, 0.0), siemens))
        };
        flows.drawn = drawn(measured.low.most, low) + drawn(measured.high.most, high);
    }

    /// What a device gets on its commands with all others off.
    fn alone(&mut self, device: DeviceId, commands: &[Command]) -> Arc<Gets> {
        let (plugged, count, is) = (self.plugged(device), commands.len(), self.is[device]);
        let mut all = known(&mut self.supplied.alone, is).iter();
        if let Some((.., found)) = all.find(|(at, on, _)| (*on, at) == (count, &plugged)) {
            return Arc::clone(found);
        }
        let wound = self.wound(device);
        let found = commands.iter().map(|command| self.measure(wound, plugged, *command));
        let found = Arc::new(Gets::new(found));
        known(&mut self.supplied.alone, is).push((plugged, count, Arc::clone(&found)));
        found
    }

    /// A device on a command as a load on the points that float.
    fn part(&mut self, device: DeviceId, command: Command) -> Arc<Part> {
        let (plugged, is) = (self.plugged(device), self.is[device]);
        let mut all = known(&mut self.supplied.parts, is).iter();
        if let Some((.., found)) = all.find(|(at, on, _)| (*on, at) == (command, &plugged)) {
            return Arc::clone(found);
        }
        let found = Arc::new(self.circuits().part(self.wound(device), plugged, command));
        known(&mut self.supplied.parts, is).push((plugged, command, Arc::clone(&found)));
        found
    }

    fn measure(&self, wound: &Wound, plugged: Plugged, command: Command) -> (Run, Flows) {
        let solved = self.circuits().solve(wound, plugged, command, Drive::Free);
        let (rails, ours) = (&solved.rails, &solved.ours);
        let (low, high) = (solved.across(ours.low), solved.across(ours.high));
        let mut flows = Flows::default();
        for (node, volts, siemens) in
            [(ours.low, low, ours.windings.0), (ours.high, high, ours.windings.1)]
        {
            let amps = amps(wound, volts, siemens);
            flows.drawn += size(amps);
            flows.add(node.and_then(|node| rails.conductor(node)), amps);
            flows.add(ours.common.and_then(|node| rails.conductor(node)), -amps);
        }
        let metal = match ours.metal {
            None => Metal::NoWire,
            Some((node, true)) => self.metal_at(solved.at(node)),
            Some((node, false)) => match self.metal_at(solved.at(node)) {
                Metal::Grounded => Metal::Loose,
                other => other,
            },
        };
        let measured = Measured {
            low: Range::of(size(low)),
            high: Range::of(size(high)),
            metal,
            common: Volts(ours.common.map_or(0.0, |node| size(solved.at(node)))),
            earth: Amps(size(flows.of(Conductor::Pe))),
            neutral: Amps(size(flows.of(Conductor::N))),
            metal_on_neutral: ours
                .metal
                .is_some_and(|(node, _)| rails.conductor(node) == Some(Conductor::N)),
        };
        (Run { command, measured }, flows)
    }

    /// The metalwork on the board's ground, at a potential.
    fn metal_at(&self, potential: Complex<f64>) -> Metal {
        if size(potential) > TOUCH {
            Metal::Live(Volts(size(potential)))
        } else if self
            .circuits()
            .ground_conductors()
            .any(|(_, conductor)| conductor == Conductor::Pe)
        {
            Metal::Grounded
        } else {
            Metal::Loose
        }
    }

    fn ground(&self) -> Metal {
        let landed = self.circuits().ground_conductors();
        let all = landed.filter_map(|(_, lands)| self.built.phasor(lands));
        let worst = all.fold(Complex::default(), |a, b| if size(b) > size(a) { b } else { a });
        self.metal_at(worst)
    }

    /// Whether conductors meet at the ground that have a voltage between them. The neutral and the
    /// protective earth have none.
    fn short(&self) -> bool {
        let all = self.circuits().ground_conductors();
        let mut all = all.filter_map(|(_, conductor)| self.built.phasor(conductor));
        let Some(first) = all.next() else { return false };
        all.any(|other| size(other - first) > TOUCH)
    }

    /// Where the neutral goes: it is on the ground, too, where both meet at the board's ground terminals.
    fn neutral(&self) -> NeutralPath {
        let lands = |wanted| self.circuits().ground_conductors().any(|(_, it)| it == wanted);
        match self.built.neutral {
            NeutralPath::Right if lands(Conductor::N) && lands(Conductor::Pe) => {
                NeutralPath::Grounded
            }
            built => built,
        }
    }

    /// Whether water ever flows past the heater.
    fn water(&self, roles: &[RoleState]) -> Water {
        let Some(pump) = water_pump(roles) else { return Water::Known(None) };
        // A layout can have one that the job has not, though the plan is right: then it is not known
        // what moves the water.
        let right = self.right.iter().map(|slot| slot.device);
        let right = right.filter(|device| device.moves_water()).min();
        let is_there = self.planned.wiring.devices.iter().any(|plan| Some(plan.device) == right);
        if right.is_none() || !is_there {
            return Water::Known(None);
        }
        let Some(device) = pump.device else { return Water::Known(Some(false)) };
        let plan = &self.planned.wiring[device];
        if !plan.device.moves_water() {
            return Water::Known(Some(false));
        }
        let command = match pump.speeds {
            Speeds::Two => Command::Low,
            _ => Command::High,
        };
        let least = Volts(plan.plate.0 * super::signs::HUM_THRESHOLD);
        Water::From { device, command, least }
    }
}

/// What tells whether water ever flows past the heater.
enum Water {
    /// The roles alone; `None` if the board has no pump.
    Known(Option<bool>),
    /// A device that must get so much on its lowest speed with the heater off.
    From { device: DeviceId, command: Command, least: Volts },
}

/// What the board runs for the heater: the circulation pump or, under a layout without one, its
/// first jet pump on the lowest speed (common practice, no source).
fn water_pump(roles: &[RoleState]) -> Option<&RoleState> {
    roles.iter().filter(|role| role.role.moves_water()).min_by_key(|role| role.role)
}

/// What a winding draws: the plate's current within the band of its voltage, as the plan counts
/// it; the current of the same impedance outside of it.
fn amps(wound: &Wound, volts: Complex<f64>, siemens: Complex<f64>) -> Complex<f64> {
    let (amps, found) = (volts * siemens, size(volts));
    let as_on_plate = wound.is_motor && super::super::jumpers::suits(Volts(found), wound.plate);
    if as_on_plate { amps * (wound.plate.0 / found) } else { amps }
}
