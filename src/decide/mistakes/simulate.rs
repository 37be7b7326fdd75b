//! What a board does as it is set up: what each device gets, whether that is right or not.

use num_complex::Complex;

use super::super::currents::{AllowanceClass, lagging, size};
use super::super::heater::plate_amps;
use super::super::layout::{Slot, slots};
use super::super::plan::DeviceId;
use super::circuit::{Circuit, CircuitNode};
use super::combinations::{Extremes, Part, Player, Probe, Probes, extremes};
use super::cords::{meet, wires};
use super::draws::{Flows, class, loads};
use super::state::{Command, DeviceState, Measured, Metal, Range, RoleState, Run, State};
use super::{AsBuilt, PlannedCase};
use crate::board::{Conductor, Device, Feed, GroupSource, HandleMap, Pin, Speeds, TerminalId};
use crate::units::{Amps, Volts};

/// From this voltage on it is dangerous to touch: the conventional touch voltage limit of IEC
/// 60364-4-41, 50 V AC (from memory).
const TOUCH: f64 = 50.0;

/// What the board does as it is built.
pub fn simulate(planned: &PlannedCase<'_>, built: &AsBuilt) -> State {
    let simulator = Simulator::new(planned, built);
    let roles = simulator.roles();
    // The heater waits for water, so what moves that is found with the heater off. Without water
    // the board never turns it on.
    let alone = simulator.floating.is_empty();
    let mut runs = simulator.runs(&roles, alone);
    let water = simulator.water(&roles, &runs);
    if water == Some(false) {
        simulator.leave_heater_off(&mut runs);
    } else if !alone {
        runs = simulator.runs(&roles, true);
    }
    let mut devices = Vec::new();
    let mut flows = Vec::new();
    for (id, runs) in runs.entries() {
        let of = |command| {
            let found = runs.iter().find(|(run, _)| run.command == command);
            found.map(|(_, flows)| flows.clone()).unwrap_or_default()
        };
        flows.push((of(Command::Low), of(Command::High)));
        let role = simulator.role(id).map(|slot| slot.device);
        devices.push(DeviceState { role, runs: runs.iter().map(|(run, _)| *run).collect() });
    }
    let devices = HandleMap::new(devices);
    let allowance = built.allowance(planned.board);
    State {
        water,
        loads: loads(planned, built, &devices, &flows, allowance),
        ground: simulator.ground(),
        short: simulator.short(),
        devices,
        roles,
        allowance,
    }
}

/// Each device on each of its commands.
type Runs = HandleMap<DeviceId, Vec<(Run, Flows)>>;

/// A board as it is built, and what its layout makes of it.
struct Simulator<'a> {
    planned: &'a PlannedCase<'a>,
    built: &'a AsBuilt,
    /// The headers that the layout uses.
    slots: Vec<Slot>,
    /// The points of the supply that hang on nothing, if some group or the ground needs one.
    floating: Vec<Rail>,
}

/// A point that a supply conductor reaches.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Rail {
    /// A terminal that is not for the ground.
    Terminal(TerminalId),
    /// The ground terminals together.
    Ground,
}

/// What drives a circuit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Drive {
    /// The supply, with every floating point free to find its potential.
    Free,
    /// The supply, with every floating point held at nought.
    Held,
    /// 1 V at this one of the floating points, and nothing else.
    Unit(usize),
}

/// The wires of one device in a circuit.
struct Wired {
    high: Option<CircuitNode>,
    low: Option<CircuitNode>,
    common: Option<CircuitNode>,
    metal: Option<(CircuitNode, bool)>,
    /// Admittance of its windings for low and high speed, siemens.
    windings: (Complex<f64>, Complex<f64>),
}

impl<'a> Simulator<'a> {
    fn new(planned: &'a PlannedCase<'a>, built: &'a AsBuilt) -> Self {
        let board = planned.board;
        let slots = board.layout(built.layout).map(|layout| slots(board, layout));
        let mut simulator =
            Self { planned, built, slots: slots.unwrap_or_default(), floating: Vec::new() };
        let nodes = board.groups.iter().filter_map(|group| match group.source {
            GroupSource::Between { nodes, .. } => Some(nodes),
            GroupSource::Isolated(_) => None,
        });
        for terminal in nodes.flatten().map(|node| built.terminal(node)) {
            let rail = Rail::Terminal(terminal);
            let floats = built.lands[terminal].is_none() && !board[terminal].ground;
            if floats && !simulator.floating.contains(&rail) {
                simulator.floating.push(rail);
            }
        }
        if simulator.ground_conductors().next().is_none() {
            simulator.floating.push(Rail::Ground);
        }
        simulator
    }

    /// What the board takes the header of a device for, and with how many speeds.
    fn role(&self, device: DeviceId) -> Option<Slot> {
        let header = self.built.cords[device].header;
        self.slots.iter().copied().find(|slot| slot.header == header)
    }

    fn commands(&self, device: DeviceId) -> &'static [Command] {
        match self.role(device) {
            None => &[Command::Off],
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
    fn runs(&self, roles: &[RoleState], heats: bool) -> Runs {
        let ids = || self.planned.wiring.devices.entries().map(|(id, _)| id);
        let commands = |id: DeviceId| {
            let all = self.commands(id);
            let heater = self.role(id).is_some_and(|slot| slot.device == Device::Heater);
            if heater && !heats { all.get(..1).unwrap_or(all) } else { all }
        };
        let mut runs: Runs = ids()
            .map(|id| {
                let one = |command: &Command| {
                    let (measured, flows) = self.measure(id, *command);
                    (Run { command: *command, measured }, flows)
                };
                commands(id).iter().map(one).collect()
            })
            .collect();
        if self.floating.is_empty() {
            return runs;
        }
        let moves_water = water_pump(roles).and_then(|pump| pump.device);
        let players: Vec<Player> = ids()
            .map(|id| Player {
                parts: commands(id).iter().map(|command| self.part(id, *command)).collect(),
                class: self.role(id).map_or(AllowanceClass::Free, |slot| class(slot.device)),
                moves_water: moves_water == Some(id),
            })
            .collect();
        let allowance = self.built.allowance(self.planned.board);
        let found = extremes(&players, self.floating.len(), allowance);
        for ((id, runs), found) in ids().zip(runs.iter_mut()).zip(&found) {
            for ((run, flows), extremes) in runs.iter_mut().zip(found) {
                self.spread(id, &mut run.measured, flows, extremes);
            }
        }
        runs
    }

    fn leave_heater_off(&self, runs: &mut Runs) {
        let all = self.planned.wiring.devices.entries().zip(runs.iter_mut());
        for ((id, _), runs) in all {
            if self.role(id).is_some_and(|slot| slot.device == Device::Heater) {
                runs.truncate(1);
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
        let (low, high) = self.windings(device);
        let drawn =
            |volts: Volts, siemens| size(self.amps(device, Complex::new(volts.0, 0.0), siemens));
        flows.drawn = drawn(measured.low.most, low) + drawn(measured.high.most, high);
    }

    /// A device on a command as a load on the floating points.
    fn part(&self, device: DeviceId, command: Command) -> Part {
        let count = self.floating.len();
        let held = self.solve(device, command, Drive::Held);
        let units: Vec<Solved> =
            (0..count).map(|point| self.solve(device, command, Drive::Unit(point))).collect();
        let into = |solved: &Solved, point: usize| {
            let node = solved.rails.floating.get(point).copied();
            node.map(|node| solved.into(node)).unwrap_or_default()
        };
        Part {
            command,
            constant: held.probes(),
            slopes: units.iter().map(Solved::probes).collect(),
            injects: (0..count).map(|point| into(&held, point)).collect(),
            admits: (0..count)
                .map(|point| units.iter().map(|unit| -into(unit, point)).collect())
                .collect(),
        }
    }

    fn solve(&self, device: DeviceId, command: Command, drive: Drive) -> Solved {
        let mut circuit = Circuit::default();
        let rails = self.rails(drive, &mut circuit);
        let ours = self.wire(device, command, &rails, drive, &mut circuit);
        Solved { potentials: circuit.solve(), rails, ours }
    }

    /// What a device gets on a command with all others off.
    fn measure(&self, device: DeviceId, command: Command) -> (Measured, Flows) {
        let solved = self.solve(device, command, Drive::Free);
        let Solved { rails, ours, .. } = &solved;
        let (low, high) = (solved.across(ours.low), solved.across(ours.high));
        let mut flows = Flows::default();
        for (node, volts, siemens) in
            [(ours.low, low, ours.windings.0), (ours.high, high, ours.windings.1)]
        {
            let amps = self.amps(device, volts, siemens);
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
        };
        (measured, flows)
    }

    /// What a winding draws: the plate's current within the band of its voltage, as the plan counts
    /// it; the current of the same impedance outside of it.
    fn amps(&self, device: DeviceId, volts: Complex<f64>, siemens: Complex<f64>) -> Complex<f64> {
        let plan = &self.planned.wiring[device];
        let motor = plan.fitted.is_some().then_some(plan.plate);
        let amps = volts * siemens;
        match motor {
            Some(plate) if super::super::jumpers::suits(Volts(size(volts)), plate) => {
                amps * (plate.0 / size(volts))
            }
            _ => amps,
        }
    }

    /// The metalwork on the board's ground, at a potential.
    fn metal_at(&self, potential: Complex<f64>) -> Metal {
        if size(potential) > TOUCH {
            Metal::Live(Volts(size(potential)))
        } else if self.ground_conductors().any(|(_, conductor)| conductor == Conductor::Pe) {
            Metal::Grounded
        } else {
            Metal::Loose
        }
    }

    fn ground_conductors(&self) -> impl Iterator<Item = (TerminalId, Conductor)> + '_ {
        let all = self.built.lands.entries();
        let grounds = all.filter(|(terminal, _)| self.planned.board[*terminal].ground);
        grounds.filter_map(|(terminal, lands)| Some((terminal, (*lands)?)))
    }

    fn ground(&self) -> Metal {
        let system = self.built.system;
        let all = self.ground_conductors().filter_map(|(_, lands)| system.phasor(lands));
        let worst = all.fold(Complex::default(), |a, b| if size(b) > size(a) { b } else { a });
        self.metal_at(worst)
    }

    fn short(&self) -> bool {
        let mut all = self.ground_conductors().map(|(_, conductor)| conductor);
        let Some(first) = all.next() else { return false };
        all.any(|other| other != first)
    }

    fn rails(&self, drive: Drive, circuit: &mut Circuit) -> Rails {
        let system = self.built.system;
        let volt = |volts: f64| Some(Complex::new(volts, 0.0));
        let landed = self.ground_conductors().next().map(|(_, conductor)| conductor);
        let (mut conductors, mut floating) = (Vec::new(), Vec::new());
        let mut rail = |lands: Option<Conductor>, rail: Rail, circuit: &mut Circuit| {
            let floats = self.floating.iter().position(|known| *known == rail);
            let potential = match (drive, floats) {
                (Drive::Free, _) | (Drive::Held, None) => {
                    lands.and_then(|conductor| system.phasor(conductor))
                }
                (Drive::Held, Some(_)) => volt(0.0),
                (Drive::Unit(point), Some(at)) => volt(if point == at { 1.0 } else { 0.0 }),
                (Drive::Unit(_), None) => lands.and(volt(0.0)),
            };
            let node = circuit.node(potential);
            conductors.push((node, lands));
            floating.extend(floats.map(|at| (at, node)));
            node
        };
        let ground = rail(landed, Rail::Ground, circuit);
        let is_ground = |terminal: TerminalId| self.planned.board[terminal].ground;
        let terminals = self.built.lands.entries();
        let terminals: HandleMap<TerminalId, CircuitNode> = terminals
            .map(|(terminal, lands)| match is_ground(terminal) {
                true => ground,
                false => rail(*lands, Rail::Terminal(terminal), circuit),
            })
            .collect();
        floating.sort_by_key(|(at, _)| *at);
        let floating = floating.into_iter().map(|(_, node)| node).collect();
        Rails { terminals, ground, conductors, floating }
    }

    /// Puts the cord of a device into the circuit.
    fn wire(
        &self,
        device: DeviceId,
        command: Command,
        rails: &Rails,
        drive: Drive,
        circuit: &mut Circuit,
    ) -> Wired {
        let board = self.planned.board;
        let plan = &self.planned.wiring[device];
        let cord = self.built.cords[device];
        let own = &board[board[plan.header].socket];
        let header = &board[cord.header];
        let [first, second] = self.feed(header.feed, rails, drive, circuit);
        let mut wired = Wired {
            high: None,
            low: None,
            common: None,
            metal: None,
            windings: self.windings(device),
        };
        let pins = &board[header.socket].pins;
        for (wire, pin) in meet(&wires(own, plan.speeds), pins, cord.fit) {
            let node = match pin {
                Some(Pin::Ground) => Some(rails.ground),
                Some(Pin::Common | Pin::Negative) => Some(second),
                Some(Pin::High | Pin::Positive) if command == Command::High => Some(first),
                Some(Pin::Low) if command == Command::Low => Some(first),
                _ => None,
            };
            let node = node.unwrap_or_else(|| circuit.node(None));
            match wire {
                Pin::High | Pin::Positive => wired.high = Some(node),
                Pin::Low => wired.low = Some(node),
                Pin::Common | Pin::Negative => wired.common = Some(node),
                Pin::Ground => wired.metal = Some((node, pin == Some(Pin::Ground))),
                Pin::Signal | Pin::Screen => {}
            }
        }
        for (end, siemens) in [(wired.low, wired.windings.0), (wired.high, wired.windings.1)] {
            if let (Some(end), Some(common)) = (end, wired.common) {
                circuit.join(end, common, siemens);
            }
        }
        wired
    }

    /// The admittance of the windings of a device for low and high speed, siemens.
    fn windings(&self, device: DeviceId) -> (Complex<f64>, Complex<f64>) {
        let plan = &self.planned.wiring[device];
        let fitted = plan.fitted.and_then(|index| self.planned.job.equipment.get(index));
        let (high_amps, low_amps, plate) = match (fitted, self.planned.wiring.heater) {
            (Some(fitted), _) => {
                let low = fitted.low.map_or(0.0, |low| low.amps.0);
                (fitted.high.amps.0, low, fitted.volts.value.0)
            }
            (None, Some(heater)) => (plate_amps(heater.element).0, 0.0, heater.element.at.0),
            (None, None) => (0.0, 0.0, plan.plate.0),
        };
        let lag = lagging(fitted.and_then(|fitted| fitted.power_factor).unwrap_or(1.0));
        let siemens = |amps: f64| lag * (amps / plate.max(f64::MIN_POSITIVE));
        (siemens(low_amps), siemens(high_amps))
    }

    /// The two points of what feeds a header: its switched pins join the first, *common* the second.
    fn feed(
        &self,
        feed: Feed,
        rails: &Rails,
        drive: Drive,
        circuit: &mut Circuit,
    ) -> [CircuitNode; 2] {
        let group = match feed {
            Feed::Group(group) => group,
            Feed::Jumper(jumper) => self.built.jumpers[jumper],
        };
        match self.planned.board[group].source {
            GroupSource::Between { nodes, .. } => {
                nodes.map(|node| rails.terminals[self.built.terminal(node)])
            }
            // Apart from the mains; its return is taken to be at the ground's potential.
            GroupSource::Isolated(volts) => {
                let point = |volts| Complex::new(volts, 0.0);
                let volts = if let Drive::Unit(_) = drive { Volts(0.0) } else { volts };
                [circuit.node(Some(point(volts.0))), circuit.node(Some(point(0.0)))]
            }
        }
    }

    /// Whether water ever flows past the heater. `runs` are those with the heater off.
    fn water(&self, roles: &[RoleState], runs: &Runs) -> Option<bool> {
        let pump = water_pump(roles)?;
        // With none in the job it is not known what moves the water.
        self.planned.wiring.devices.iter().find(|plan| moves_water(plan.device))?;
        let moves = || {
            let device = pump.device?;
            let plan = &self.planned.wiring[device];
            let lowest = match pump.speeds {
                Speeds::Two => Command::Low,
                _ => Command::High,
            };
            let (run, _) = runs[device].iter().find(|(run, _)| run.command == lowest)?;
            let volts = run.measured.low.most.0.max(run.measured.high.most.0);
            Some(moves_water(plan.device) && volts >= plan.plate.0 * super::signs::HUM_THRESHOLD)
        };
        Some(moves().unwrap_or(false))
    }
}

fn moves_water(device: Device) -> bool {
    matches!(device, Device::Pump(_) | Device::Circulation)
}

/// What the board runs for the heater: the circulation pump or, under a layout without one, its
/// first jet pump on the lowest speed (common practice, no source).
fn water_pump(roles: &[RoleState]) -> Option<&RoleState> {
    roles.iter().filter(|role| moves_water(role.role)).min_by_key(|role| role.role)
}

/// One device on one command, solved.
struct Solved {
    potentials: HandleMap<CircuitNode, Complex<f64>>,
    rails: Rails,
    ours: Wired,
}

impl Solved {
    fn at(&self, node: CircuitNode) -> Complex<f64> {
        self.potentials[node]
    }

    /// From the end of a winding to its other end.
    fn across(&self, end: Option<CircuitNode>) -> Complex<f64> {
        match (end, self.ours.common) {
            (Some(end), Some(common)) => self.at(end) - self.at(common),
            _ => Complex::default(),
        }
    }

    /// The current into a point, amperes.
    fn into(&self, point: CircuitNode) -> Complex<f64> {
        let Wired { low, high, common, windings, .. } = &self.ours;
        let mut sum = Complex::default();
        for (end, siemens) in [(*low, windings.0), (*high, windings.1)] {
            let amps = self.across(end) * siemens;
            if end == Some(point) {
                sum -= amps;
            }
            if *common == Some(point) {
                sum += amps;
            }
        }
        sum
    }

    fn probes(&self) -> Probes {
        let at = |node: Option<CircuitNode>| node.map(|node| self.at(node)).unwrap_or_default();
        let to_earth = self.rails.conductors.iter().filter(|(_, it)| *it == Some(Conductor::Pe));
        Probes::new([
            self.across(self.ours.low),
            self.across(self.ours.high),
            at(self.ours.common),
            at(self.ours.metal.map(|(node, _)| node)),
            to_earth.map(|(node, _)| self.into(*node)).sum(),
        ])
    }
}

/// The nodes that the supply reaches.
struct Rails {
    terminals: HandleMap<TerminalId, CircuitNode>,
    ground: CircuitNode,
    /// What lands on each.
    conductors: Vec<(CircuitNode, Option<Conductor>)>,
    /// Those that float, in their order.
    floating: Vec<CircuitNode>,
}

impl Rails {
    fn conductor(&self, node: CircuitNode) -> Option<Conductor> {
        self.conductors.iter().find(|(rail, _)| *rail == node).and_then(|(_, lands)| *lands)
    }
}
