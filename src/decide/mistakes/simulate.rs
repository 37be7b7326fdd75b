//! What a board does as it is set up: what each device gets, whether that is right or not.

use num_complex::Complex;

use super::super::currents::{lagging, size};
use super::super::heater::plate_amps;
use super::super::layout::{Slot, slots};
use super::super::plan::DeviceId;
use super::circuit::{Circuit, CircuitNode};
use super::cords::{meet, wires};
use super::draws::{Flows, loads};
use super::state::{Command, DeviceState, Measured, Metal, Range, RoleState, Run, State};
use super::{AsBuilt, PlannedCase};
use crate::board::{
    Conductor, Device, Feed, GroupSource, HandleMap, Node, Pin, Speeds, TerminalId,
};
use crate::units::{Amps, Volts};

/// From this voltage on it is dangerous to touch: the conventional touch voltage limit of IEC
/// 60364-4-41, 50 V AC (from memory).
const TOUCH: f64 = 50.0;

/// What the board does as it is built.
pub fn simulate(planned: &PlannedCase<'_>, built: &AsBuilt) -> State {
    let simulator = Simulator::new(planned, built);
    let mut devices = Vec::new();
    let mut flows = Vec::new();
    for (id, _) in planned.wiring.devices.entries() {
        let commands = simulator.commands(id);
        let runs: Vec<(Run, Flows)> =
            commands.iter().map(|command| simulator.run(id, *command)).collect();
        let of = |command| {
            let found = runs.iter().find(|(run, _)| run.command == command);
            found.map(|(_, flows)| flows.clone()).unwrap_or_default()
        };
        flows.push((of(Command::Low), of(Command::High)));
        let role = simulator.role(id).map(|slot| slot.device);
        devices.push(DeviceState { role, runs: runs.into_iter().map(|(run, _)| run).collect() });
    }
    let devices = HandleMap::new(devices);
    let allowance = built.allowance(planned.board);
    let roles = simulator.roles();
    State {
        water: simulator.water(&roles, &devices),
        loads: loads(planned, built, &devices, &flows, allowance),
        ground: simulator.ground(),
        short: simulator.short(),
        devices,
        roles,
        allowance,
    }
}

/// A board as it is built, and what its layout makes of it.
struct Simulator<'a> {
    planned: &'a PlannedCase<'a>,
    built: &'a AsBuilt,
    /// The headers that the layout uses.
    slots: Vec<Slot>,
    /// Whether a point that some group needs has no conductor.
    floats: bool,
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
        let nodes = board.groups.iter().filter_map(|group| match group.source {
            GroupSource::Between { nodes, .. } => Some(nodes),
            GroupSource::Isolated(_) => None,
        });
        let lands = |node: Node| built.lands[built.terminal(node)];
        let floats = nodes.flatten().any(|node| lands(node).is_none());
        let slots = board.layout(built.layout).map(|layout| slots(board, layout));
        let mut simulator = Self { planned, built, slots: slots.unwrap_or_default(), floats };
        let grounded = simulator.ground_conductors().next().is_some();
        simulator.floats |= !grounded;
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

    /// One device on a command, with all others off; where a conductor is missing, also with each
    /// of the others, and with all of them.
    fn run(&self, device: DeviceId, command: Command) -> (Run, Flows) {
        let all = || self.planned.wiring.devices.entries().map(|(id, _)| id);
        let full = |other| self.commands(other).last().copied().unwrap_or(Command::Off);
        let commands_with = |on: &dyn Fn(DeviceId) -> bool| -> HandleMap<DeviceId, Command> {
            let of = |other| match other {
                _ if other == device => command,
                _ if on(other) => full(other),
                _ => Command::Off,
            };
            all().map(of).collect()
        };
        let (mut measured, flows) = self.measure(device, &commands_with(&|_| false));
        if self.floats {
            let with_one = all().filter(|other| *other != device);
            let sets = with_one.map(|one| commands_with(&move |other| other == one));
            for set in sets.chain([commands_with(&|_| true)]) {
                measured = measured.worse(self.measure(device, &set).0);
            }
        }
        (Run { command, measured }, flows)
    }

    /// What a device gets while all run as they are told.
    fn measure(
        &self,
        device: DeviceId,
        commands: &HandleMap<DeviceId, Command>,
    ) -> (Measured, Flows) {
        let mut circuit = Circuit::default();
        let rails = self.rails(&mut circuit);
        let mut ours = None;
        for (other, command) in commands.entries() {
            // Another device changes nothing here unless a conductor between them floats.
            if other == device || self.floats {
                let wired = self.wire(other, *command, &rails, &mut circuit);
                if other == device {
                    ours = Some(wired);
                }
            }
        }
        let potentials = circuit.solve();
        let at = |node: CircuitNode| potentials[node];
        let Some(ours) = ours else { return (Measured::NOTHING, Flows::default()) };
        let across = |a: Option<CircuitNode>| match (a, ours.common) {
            (Some(a), Some(b)) => at(a) - at(b),
            _ => Complex::default(),
        };
        let (low, high) = (across(ours.low), across(ours.high));
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
            Some((node, true)) => self.metal_at(at(node)),
            Some((node, false)) => match self.metal_at(at(node)) {
                Metal::Grounded => Metal::Loose,
                other => other,
            },
        };
        let measured = Measured {
            low: Range::of(size(low)),
            high: Range::of(size(high)),
            metal,
            common: Volts(ours.common.map_or(0.0, |node| size(at(node)))),
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

    fn rails(&self, circuit: &mut Circuit) -> Rails {
        let system = self.built.system;
        let ground = self.ground_conductors().next().map(|(_, conductor)| conductor);
        let mut conductors = Vec::new();
        let mut rail = |lands: Option<Conductor>| {
            let node = circuit.node(lands.and_then(|conductor| system.phasor(conductor)));
            conductors.push((node, lands));
            node
        };
        let ground = rail(ground);
        let is_ground = |terminal: TerminalId| self.planned.board[terminal].ground;
        let terminals = self.built.lands.entries();
        let terminals = terminals
            .map(|(terminal, lands)| if is_ground(terminal) { ground } else { rail(*lands) })
            .collect();
        Rails { terminals, ground, conductors }
    }

    /// Puts the cord of a device into the circuit.
    fn wire(
        &self,
        device: DeviceId,
        command: Command,
        rails: &Rails,
        circuit: &mut Circuit,
    ) -> Wired {
        let board = self.planned.board;
        let plan = &self.planned.wiring[device];
        let cord = self.built.cords[device];
        let own = &board[board[plan.header].socket];
        let header = &board[cord.header];
        let [first, second] = self.feed(header.feed, rails, circuit);
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
        let mut wired = Wired {
            high: None,
            low: None,
            common: None,
            metal: None,
            windings: (siemens(low_amps), siemens(high_amps)),
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

    /// The two points of what feeds a header: its switched pins join the first, *common* the second.
    fn feed(&self, feed: Feed, rails: &Rails, circuit: &mut Circuit) -> [CircuitNode; 2] {
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
                [circuit.node(Some(point(volts.0))), circuit.node(Some(point(0.0)))]
            }
        }
    }

    /// Whether water flows past the heater: the board runs the circulation pump for it or, under a
    /// layout without one, its first jet pump on the lowest speed (common practice, no source).
    fn water(
        &self,
        roles: &[RoleState],
        devices: &HandleMap<DeviceId, DeviceState>,
    ) -> Option<bool> {
        let heating = |role: Device| {
            let jets = matches!(role, Device::Pump(_));
            jets || role == Device::Circulation
        };
        let pumps = roles.iter().filter(|role| heating(role.role));
        let pump = pumps.min_by_key(|role| role.role)?;
        let moves = || {
            let device = pump.device?;
            let plan = &self.planned.wiring[device];
            let lowest = match pump.speeds {
                Speeds::Two => Command::Low,
                _ => Command::High,
            };
            let measured = devices[device].on(lowest)?.measured;
            let volts = measured.low.least.0.max(measured.high.least.0);
            Some(heating(plan.device) && volts >= plan.plate.0 * super::signs::HUM_THRESHOLD)
        };
        Some(moves().unwrap_or(false))
    }
}

/// The nodes that the supply reaches.
struct Rails {
    terminals: HandleMap<TerminalId, CircuitNode>,
    ground: CircuitNode,
    /// What lands on each.
    conductors: Vec<(CircuitNode, Option<Conductor>)>,
}

impl Rails {
    fn conductor(&self, node: CircuitNode) -> Option<Conductor> {
        self.conductors.iter().find(|(rail, _)| *rail == node).and_then(|(_, lands)| *lands)
    }
}
