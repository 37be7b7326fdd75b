//! What a board does as it is set up: what each device gets, whether that is right or not.

use num_complex::Complex;

use super::super::currents::size;
use super::circuit::{Circuit, NodeId};
use super::cords::{meet, wires};
use super::draws::{Flows, Loads, loads};
use super::{AsBuilt, Right};
use crate::board::{
    Board, Conductor, Device, Feed, GroupSource, HeaderId, Layout, Node, Pin, Speeds, TerminalId,
};
use crate::units::{Amps, Volts};

/// What a panel's button, or the board by itself, asks of a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Command {
    /// Nothing.
    Off,
    /// Its low speed.
    Low,
    /// Its high speed, or its only one.
    High,
}

/// What a board does.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// What each device of the plan gets.
    pub devices: Vec<DeviceState>,
    /// What the layout makes of each header that it uses, with the devices of the plan that are
    /// plugged in there.
    pub roles: Vec<RoleState>,
    /// How many pumps and blowers may run on high while the heater is on; `None` if no switch sets
    /// it.
    pub allowance: Option<u8>,
    /// Whether the water flows that the heater waits for; `None` if the board has no pump.
    pub water: Option<bool>,
    /// The board's ground.
    pub ground: Metal,
    /// Whether two conductors meet at the ground.
    pub short: bool,
    /// What flows at the worst.
    pub loads: Loads,
}

/// A header that a layout uses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoleState {
    /// What the board takes it for.
    pub role: Device,
    /// With how many speeds.
    pub speeds: Speeds,
    /// The header.
    pub header: HeaderId,
    /// The device of the plan that is plugged in there.
    pub device: Option<usize>,
}

/// What a device gets.
#[derive(Clone, Debug, PartialEq)]
pub struct DeviceState {
    /// What the board takes it for: the button that it follows. `None` at a header that the layout
    /// leaves idle.
    pub role: Option<Device>,
    /// One for each command that the header can have, *off* first.
    pub runs: Vec<Run>,
}

impl DeviceState {
    /// What it gets on `command`, if its header can have it.
    pub fn on(&self, command: Command) -> Option<&Run> {
        self.runs.iter().find(|run| run.command == command)
    }
}

/// A device on one command. Where the voltage depends on what else runs, it is a range.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// The command.
    pub command: Command,
    /// What it gets.
    pub gets: Gets,
}

/// What a device gets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gets {
    /// Across its winding for low speed; nought if it has none.
    pub low: Range,
    /// Across its winding for high speed, or its only one.
    pub high: Range,
    /// Its metalwork.
    pub metal: Metal,
    /// The potential of its *common* wire against ground.
    pub common: Volts,
    /// What flows off into the ground.
    pub earth: Amps,
}

/// From the least to the most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The least.
    pub least: Volts,
    /// The most.
    pub most: Volts,
}

/// What a device's metalwork is joined to by its cord.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Metal {
    /// The cord has no wire for it.
    NoWire,
    /// The protective earth.
    Grounded,
    /// Nothing, or a conductor that is no ground but has no voltage.
    Loose,
    /// A conductor with this voltage.
    Live(Volts),
}

/// From this voltage on it is dangerous to touch: the conventional touch voltage limit of IEC
/// 60364-4-41, 50 V AC (from memory).
const TOUCH: f64 = 50.0;

/// What the board does as it is built.
pub fn simulate(right: &Right<'_>, built: &AsBuilt) -> State {
    let bench = Bench::new(right, built);
    let mut devices = Vec::new();
    let mut flows = Vec::new();
    for index in 0..right.wiring.devices.len() {
        let commands = bench.commands(index);
        let runs: Vec<(Run, Flows)> =
            commands.iter().map(|command| bench.run(index, *command)).collect();
        let of = |command| {
            let found = runs.iter().find(|(run, _)| run.command == command);
            found.map(|(_, flows)| flows.clone()).unwrap_or_default()
        };
        flows.push((of(Command::Low), of(Command::High)));
        let role = bench.role(index).map(|(role, _)| role);
        devices.push(DeviceState { role, runs: runs.into_iter().map(|(run, _)| run).collect() });
    }
    let allowance = built.allowance(right.board);
    let roles = bench.roles();
    State {
        water: bench.water(&roles, &devices),
        loads: loads(right, built, &devices, &flows, allowance),
        ground: bench.ground(),
        short: bench.short(),
        devices,
        roles,
        allowance,
    }
}

/// A board on the bench.
struct Bench<'a> {
    right: &'a Right<'a>,
    built: &'a AsBuilt,
    layout: Option<&'a Layout>,
    /// Whether a point that some group needs has no conductor.
    floats: bool,
}

/// The wires of one device in a circuit.
struct Wired {
    high: Option<NodeId>,
    low: Option<NodeId>,
    common: Option<NodeId>,
    metal: Option<(NodeId, bool)>,
    /// Admittance of its windings for low and high speed, siemens.
    windings: (Complex<f64>, Complex<f64>),
}

impl<'a> Bench<'a> {
    fn new(right: &'a Right<'a>, built: &'a AsBuilt) -> Self {
        let board = right.board;
        let nodes = board.groups.iter().filter_map(|group| match group.source {
            GroupSource::Between { nodes, .. } => Some(nodes),
            GroupSource::Isolated(_) => None,
        });
        let lands = |node: Node| {
            let terminal = built.terminal(node)?;
            built.lands.get(terminal.0).copied().flatten()
        };
        let floats = nodes.flatten().any(|node| lands(node).is_none());
        let mut bench = Self { right, built, layout: board.layout(built.layout), floats };
        let grounded = bench.ground_conductors().next().is_some();
        bench.floats |= !grounded;
        bench
    }

    /// What the board takes the header of a device for, and with how many speeds.
    fn role(&self, device: usize) -> Option<(Device, Speeds)> {
        role_at(self.right.board, self.layout?, self.built.cords.get(device)?.header)
    }

    fn commands(&self, device: usize) -> &'static [Command] {
        match self.role(device) {
            None => &[Command::Off],
            Some((_, Speeds::Two)) => &[Command::Off, Command::Low, Command::High],
            Some(_) => &[Command::Off, Command::High],
        }
    }

    fn roles(&self) -> Vec<RoleState> {
        let board = self.right.board;
        let Some(layout) = self.layout else { return Vec::new() };
        let plugged = |header| self.built.cords.iter().position(|cord| cord.header == header);
        board
            .header_ids()
            .filter_map(|header| {
                let (role, speeds) = role_at(board, layout, header)?;
                Some(RoleState { role, speeds, header, device: plugged(header) })
            })
            .collect()
    }

    /// One device on a command, with all others off; where a conductor is missing, also with each
    /// of the others, and with all of them.
    fn run(&self, device: usize, command: Command) -> (Run, Flows) {
        let count = self.right.wiring.devices.len();
        let full = |other: usize| self.commands(other).last().copied().unwrap_or(Command::Off);
        let alone = |on: &dyn Fn(usize) -> bool| -> Vec<Command> {
            let of = |other| match other {
                _ if other == device => command,
                _ if on(other) => full(other),
                _ => Command::Off,
            };
            (0..count).map(of).collect()
        };
        let (mut gets, flows) = self.gets(device, &alone(&|_| false));
        if self.floats {
            let with_one = (0..count).filter(|other| *other != device);
            let sets = with_one.map(|one| alone(&move |other| other == one));
            for set in sets.chain([alone(&|_| true)]) {
                gets = gets.worse(self.gets(device, &set).0);
            }
        }
        (Run { command, gets }, flows)
    }

    /// What a device gets while all run as they are told.
    fn gets(&self, device: usize, commands: &[Command]) -> (Gets, Flows) {
        let mut circuit = Circuit::default();
        let rails = self.rails(&mut circuit);
        let mut ours = None;
        for (other, command) in commands.iter().enumerate() {
            // Another device changes nothing here unless a conductor between them floats.
            if other == device || self.floats {
                let wired = self.wire(other, *command, &rails, &mut circuit);
                if other == device {
                    ours = wired;
                }
            }
        }
        let potentials = circuit.solve();
        let at = |node: NodeId| potentials.get(node).copied().unwrap_or_default();
        let Some(ours) = ours else { return (Gets::NOTHING, Flows::default()) };
        let across = |a: Option<NodeId>| match (a, ours.common) {
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
        let gets = Gets {
            low: Range::of(size(low)),
            high: Range::of(size(high)),
            metal,
            common: Volts(ours.common.map_or(0.0, |node| size(at(node)))),
            earth: Amps(size(flows.of(Conductor::Pe))),
        };
        (gets, flows)
    }

    /// What a winding draws: the plate's current within the band of its voltage, as the plan counts
    /// it; the current of the same impedance outside of it.
    fn amps(&self, device: usize, volts: Complex<f64>, siemens: Complex<f64>) -> Complex<f64> {
        let plan = self.right.wiring.devices.get(device);
        let motor = plan.filter(|plan| plan.fitted.is_some()).map(|plan| plan.plate);
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
        let all = self.right.board.terminals.iter().zip(&self.built.lands).enumerate();
        let grounds = all.filter(|(_, (terminal, _))| terminal.ground);
        grounds.filter_map(|(index, (_, lands))| Some((TerminalId(index), (*lands)?)))
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
        let terminals = self.right.board.terminals.iter().zip(&self.built.lands);
        let ground = self.ground_conductors().next().map(|(_, conductor)| conductor);
        let mut rails = Rails::default();
        let mut rail = |lands: Option<Conductor>| {
            let node = circuit.node(lands.and_then(|conductor| system.phasor(conductor)));
            rails.conductors.push((node, lands));
            node
        };
        let ground = rail(ground);
        let all: Vec<NodeId> = terminals
            .map(|(terminal, lands)| if terminal.ground { ground } else { rail(*lands) })
            .collect();
        rails.terminals = all;
        rails.ground = Some(ground);
        rails
    }

    /// Puts the cord of a device into the circuit.
    fn wire(
        &self,
        device: usize,
        command: Command,
        rails: &Rails,
        circuit: &mut Circuit,
    ) -> Option<Wired> {
        let board = self.right.board;
        let plan = self.right.wiring.devices.get(device)?;
        let cord = self.built.cords.get(device)?;
        let own = &board[board[plan.header].socket];
        let header = &board[cord.header];
        let [first, second] = self.feed(header.feed, rails, circuit);
        let fitted = plan.fitted.and_then(|index| self.right.job.equipment.get(index));
        let (high_amps, low_amps, plate) = match (fitted, self.right.wiring.heater) {
            (Some(fitted), _) => {
                let low = fitted.low.map_or(0.0, |low| low.amps.0);
                (fitted.high.amps.0, low, fitted.volts.value.0)
            }
            (None, Some(heater)) => {
                (heater.element.watts.0 / heater.element.at.0, 0.0, heater.element.at.0)
            }
            (None, None) => (0.0, 0.0, plan.plate.0),
        };
        let cos = fitted.and_then(|fitted| fitted.power_factor).unwrap_or(1.0).clamp(0.0, 1.0);
        let lag = Complex::new(cos, -(1.0 - cos * cos).sqrt());
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
                Some(Pin::Ground) => rails.ground,
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
        Some(wired)
    }

    /// The two points of what feeds a header: its switched pins join the first, *common* the second.
    fn feed(&self, feed: Feed, rails: &Rails, circuit: &mut Circuit) -> [NodeId; 2] {
        let group = match feed {
            Feed::Group(group) => Some(group),
            Feed::Jumper(jumper) => self.built.jumpers.get(jumper.0).copied(),
        };
        let source = group.map(|group| self.right.board[group].source);
        match source {
            Some(GroupSource::Between { nodes, .. }) => nodes.map(|node| {
                let terminal = self.built.terminal(node);
                let rail = terminal.and_then(|terminal| rails.terminals.get(terminal.0)).copied();
                rail.unwrap_or_else(|| circuit.node(None))
            }),
            // Apart from the mains; its return is taken to be at the ground's potential.
            Some(GroupSource::Isolated(volts)) => {
                let point = |volts| Complex::new(volts, 0.0);
                [circuit.node(Some(point(volts.0))), circuit.node(Some(point(0.0)))]
            }
            None => [circuit.node(None), circuit.node(None)],
        }
    }

    /// Whether water flows past the heater: the board runs the circulation pump for it or, under a
    /// layout without one, its first jet pump on the lowest speed (common practice, no source).
    fn water(&self, roles: &[RoleState], devices: &[DeviceState]) -> Option<bool> {
        let heating = |role: Device| {
            let jets = matches!(role, Device::Pump(_));
            jets || role == Device::Circulation
        };
        let pumps = roles.iter().filter(|role| heating(role.role));
        let pump = pumps.min_by_key(|role| role.role)?;
        let moves = || {
            let device = pump.device?;
            let plan = self.right.wiring.devices.get(device)?;
            let lowest = match pump.speeds {
                Speeds::Two => Command::Low,
                _ => Command::High,
            };
            let gets = devices.get(device)?.on(lowest)?.gets;
            let volts = gets.low.least.0.max(gets.high.least.0);
            Some(heating(plan.device) && volts >= plan.plate.0 * super::signs::HUMS)
        };
        Some(moves().unwrap_or(false))
    }
}

/// The nodes that the supply reaches.
#[derive(Default)]
struct Rails {
    terminals: Vec<NodeId>,
    ground: Option<NodeId>,
    /// What lands on each.
    conductors: Vec<(NodeId, Option<Conductor>)>,
}

impl Rails {
    fn conductor(&self, node: NodeId) -> Option<Conductor> {
        self.conductors.iter().find(|(rail, _)| *rail == node).and_then(|(_, lands)| *lands)
    }
}

impl Gets {
    const NOTHING: Gets = Gets {
        low: Range { least: Volts(0.0), most: Volts(0.0) },
        high: Range { least: Volts(0.0), most: Volts(0.0) },
        metal: Metal::NoWire,
        common: Volts(0.0),
        earth: Amps(0.0),
    };

    /// Both taken together.
    fn worse(self, other: Self) -> Self {
        let live = |metal| match metal {
            Metal::NoWire => -3.0,
            Metal::Grounded => -2.0,
            Metal::Loose => -1.0,
            Metal::Live(volts) => volts.0,
        };
        let worse = if live(other.metal) > live(self.metal) { other.metal } else { self.metal };
        Self {
            low: self.low.with(other.low),
            high: self.high.with(other.high),
            metal: worse,
            common: Volts(self.common.0.max(other.common.0)),
            earth: Amps(self.earth.0.max(other.earth.0)),
        }
    }
}

impl Range {
    fn of(volts: f64) -> Self {
        Self { least: Volts(volts), most: Volts(volts) }
    }

    fn with(self, other: Self) -> Self {
        Self {
            least: Volts(self.least.0.min(other.least.0)),
            most: Volts(self.most.0.max(other.most.0)),
        }
    }
}

/// What a board takes a header for under a layout, and with how many speeds.
fn role_at(board: &Board, layout: &Layout, header: HeaderId) -> Option<(Device, Speeds)> {
    let device = board.device_at(header, layout)?;
    Some((device, layout.speeds_of(&board.columns, device).unwrap_or(Speeds::One)))
}
