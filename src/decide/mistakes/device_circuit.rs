//! One device on one command as a circuit: the wires of its cord on the pins of its header, and these
//! on the conductors of the supply.

use std::sync::Arc;

use num_complex::Complex;

use super::super::currents::lagging;
use super::super::heater::plate_amps;
use super::super::plan::DeviceId;
use super::circuit::{Circuit, CircuitNode};
use super::cords::{CordFit, meet, wires};
use super::device_load::{Part, Probes};
use super::electronics::reached;
use super::state::Command;
use super::{AsBuilt, CordAt, PlannedCase};
use crate::board::{
    Board, Conductor, Feed, GroupId, GroupSource, HandleMap, Pin, SocketId, Speeds, TerminalId,
};
use crate::units::Volts;

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
pub enum Drive {
    /// The supply, with every floating point free to find its potential.
    Free,
    /// The supply, with every floating point held at nought.
    Held,
    /// 1 V at this one of the floating points, and nothing else.
    Unit(usize),
}

/// What a device is as a circuit. Two that are equal get the same where they are plugged in alike.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wound {
    /// The socket that its plug is made for, and for how many speeds its cord has wires.
    cord: (SocketId, Speeds),
    /// The voltage on its plate.
    pub plate: Volts,
    /// Whether it draws the current of its plate within the band of that voltage: all but the heater.
    pub is_motor: bool,
    /// The admittance of its windings for low and high speed, siemens.
    pub windings: (Complex<f64>, Complex<f64>),
}

impl Wound {
    /// Of a device of a plan.
    pub fn new(planned: &PlannedCase<'_>, device: DeviceId) -> Self {
        let plan = &planned.wiring[device];
        let fitted = plan.fitted.and_then(|index| planned.job.equipment.get(index));
        let (high_amps, low_amps, plate) = match (fitted, planned.wiring.heater) {
            (Some(fitted), _) => {
                let low = fitted.low.map_or(0.0, |low| low.amps.0);
                (fitted.high.amps.0, low, fitted.volts.value.0)
            }
            (None, Some(heater)) => (plate_amps(heater.element).0, 0.0, heater.element.at.0),
            (None, None) => (0.0, 0.0, plan.plate.0),
        };
        let lag = lagging(fitted.and_then(|fitted| fitted.power_factor).unwrap_or(1.0));
        let siemens = |amps: f64| lag * (amps / plate.max(f64::MIN_POSITIVE));
        Self {
            cord: (planned.board[plan.header].socket, plan.speeds),
            plate: plan.plate,
            is_motor: plan.fitted.is_some(),
            windings: (siemens(low_amps), siemens(high_amps)),
        }
    }
}

/// How the cord of a device is plugged in, and what feeds it there: all else that one device's circuit
/// depends on under one supply.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Plugged {
    /// The socket of its header.
    pub socket: SocketId,
    /// How its wires meet the pins there.
    pub fit: CordFit,
    /// The group that feeds the header.
    pub group: GroupId,
}

impl Plugged {
    /// That of a device on a board as it is built.
    pub fn new(board: &Board, built: &AsBuilt, device: DeviceId) -> Self {
        let CordAt { header, fit } = built.cords[device];
        let group = match board[header].feed {
            Feed::Group(group) => group,
            Feed::Jumper(jumper) => built.jumpers[jumper],
        };
        Self { socket: board[header].socket, fit, group }
    }
}

/// The devices on a board under one supply, each as a circuit.
pub struct DeviceCircuits<'a> {
    board: &'a Board,
    /// A board that is supplied so. How it is set up otherwise does not matter here.
    built: AsBuilt,
    /// The points of the supply that hang on nothing, if some group or the ground needs one.
    floating: Vec<Rail>,
    /// A terminal that the board's electronics alone join to a conductor, and its potential.
    reached: Option<(TerminalId, Complex<f64>)>,
    /// What every circuit begins with, for each drive: free, held, and each unit.
    begun: Vec<(Circuit, Arc<Rails>)>,
}

impl<'a> DeviceCircuits<'a> {
    /// Finds the points that float.
    pub fn new(board: &'a Board, built: &AsBuilt) -> Self {
        let reached = reached(board, built);
        let (built, floating, begun) = (built.clone(), Vec::new(), Vec::new());
        let mut circuits = Self { board, built, floating, reached, begun };
        let nodes = board.groups.iter().filter_map(|group| match group.source {
            GroupSource::Between { nodes, .. } => Some(nodes),
            GroupSource::Isolated(_) => None,
        });
        for terminal in
            nodes.flatten().map(|node| circuits.built.terminal(node)).collect::<Vec<_>>()
        {
            let rail = Rail::Terminal(terminal);
            let known = circuits.reached.is_some_and(|(reached, _)| reached == terminal);
            let floats =
                circuits.built.lands[terminal].is_none() && !board[terminal].ground && !known;
            if floats && !circuits.floating.contains(&rail) {
                circuits.floating.push(rail);
            }
        }
        if circuits.ground_conductors().next().is_none() {
            circuits.floating.push(Rail::Ground);
        }
        let units = (0..circuits.floating.len()).map(Drive::Unit);
        let begin = |drive| {
            let mut circuit = Circuit::default();
            let rails = circuits.rails(drive, &mut circuit);
            (circuit, Arc::new(rails))
        };
        circuits.begun = [Drive::Free, Drive::Held].into_iter().chain(units).map(begin).collect();
        circuits
    }

    /// A circuit with the supply alone in it.
    fn begin(&self, drive: Drive) -> (Circuit, Arc<Rails>) {
        let at = match drive {
            Drive::Free => 0,
            Drive::Held => 1,
            Drive::Unit(point) => 2 + point,
        };
        let (circuit, rails) = &self.begun[at];
        (circuit.clone(), Arc::clone(rails))
    }

    /// Whether a board that is built so is supplied so.
    pub fn supply(&self, built: &AsBuilt) -> bool {
        let AsBuilt { system, same_line, lands, links, .. } = &self.built;
        (system, same_line) == (&built.system, &built.same_line)
            && (lands, links) == (&built.lands, &built.links)
    }

    /// How many points float.
    pub fn floating(&self) -> usize {
        self.floating.len()
    }

    /// A device on a command as a load on the floating points.
    pub fn part(&self, wound: &Wound, plugged: Plugged, command: Command) -> Part {
        let count = self.floating.len();
        let held = self.solve(wound, plugged, command, Drive::Held);
        let units: Vec<Solved> = (0..count)
            .map(|point| self.solve(wound, plugged, command, Drive::Unit(point)))
            .collect();
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

    /// Solves a device on a command with all others off.
    pub fn solve(&self, wound: &Wound, plugged: Plugged, command: Command, drive: Drive) -> Solved {
        let (mut circuit, rails) = self.begin(drive);
        let ours = self.wire(wound, plugged, (command, drive), &rails, &mut circuit);
        Solved { potentials: circuit.solve(), rails, ours }
    }

    /// The ground terminals that something lands on.
    pub fn ground_conductors(&self) -> impl Iterator<Item = (TerminalId, Conductor)> + '_ {
        let all = self.built.lands.entries();
        let grounds = all.filter(|(terminal, _)| self.board[*terminal].ground);
        grounds.filter_map(|(terminal, lands)| Some((terminal, (*lands)?)))
    }

    fn rails(&self, drive: Drive, circuit: &mut Circuit) -> Rails {
        let volt = |volts: f64| Some(Complex::new(volts, 0.0));
        let landed = self.ground_conductors().next().map(|(_, conductor)| conductor);
        let (mut conductors, mut floating) = (Vec::new(), Vec::new());
        let mut rail = |lands: Option<Conductor>, rail: Rail, circuit: &mut Circuit| {
            let floats = self.floating.iter().position(|known| *known == rail);
            let reached = self.reached.filter(|(at, _)| Rail::Terminal(*at) == rail);
            let fixed = lands.and_then(|conductor| self.built.phasor(conductor));
            let fixed = fixed.or(reached.map(|(_, potential)| potential));
            let potential = match (drive, floats) {
                (Drive::Free, _) | (Drive::Held, None) => fixed,
                (Drive::Held, Some(_)) => volt(0.0),
                (Drive::Unit(point), Some(at)) => volt(if point == at { 1.0 } else { 0.0 }),
                (Drive::Unit(_), None) => fixed.and(volt(0.0)),
            };
            let node = circuit.node(potential);
            conductors.push((node, lands));
            floating.extend(floats.map(|at| (at, node)));
            node
        };
        let ground = rail(landed, Rail::Ground, circuit);
        let is_ground = |terminal: TerminalId| self.board[terminal].ground;
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
        wound: &Wound,
        Plugged { socket, fit, group }: Plugged,
        (command, drive): (Command, Drive),
        rails: &Rails,
        circuit: &mut Circuit,
    ) -> Wired {
        let board = self.board;
        let (own, speeds) = (&board[wound.cord.0], wound.cord.1);
        let [first, second] = self.feed(group, rails, drive, circuit);
        let mut wired =
            Wired { high: None, low: None, common: None, metal: None, windings: wound.windings };
        // Its metalwork is grounded through the other plug of its device.
        if fit == CordFit::Out {
            return wired;
        }
        let pins = &board[socket].pins;
        for (wire, pin) in meet(&wires(own, speeds), pins, fit) {
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

    /// The two points of the group that feeds a header: its switched pins join the first, *common* the second.
    fn feed(
        &self,
        group: GroupId,
        rails: &Rails,
        drive: Drive,
        circuit: &mut Circuit,
    ) -> [CircuitNode; 2] {
        match self.board[group].source {
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
}

/// The wires of one device in a circuit.
pub struct Wired {
    /// The end of the winding for high speed, or the only one.
    pub high: Option<CircuitNode>,
    /// The end of the winding for low speed.
    pub low: Option<CircuitNode>,
    /// The other end of both.
    pub common: Option<CircuitNode>,
    /// The metalwork, and whether it meets a ground pin.
    pub metal: Option<(CircuitNode, bool)>,
    /// Admittance of its windings for low and high speed, siemens.
    pub windings: (Complex<f64>, Complex<f64>),
}

/// One device on one command, solved.
pub struct Solved {
    potentials: HandleMap<CircuitNode, Complex<f64>>,
    /// What the supply reaches.
    pub rails: Arc<Rails>,
    /// The wires of the device.
    pub ours: Wired,
}

impl Solved {
    /// The potential of a point, volts.
    pub fn at(&self, node: CircuitNode) -> Complex<f64> {
        self.potentials[node]
    }

    /// From the end of a winding to its other end.
    pub fn across(&self, end: Option<CircuitNode>) -> Complex<f64> {
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
pub struct Rails {
    terminals: HandleMap<TerminalId, CircuitNode>,
    ground: CircuitNode,
    /// What lands on each.
    conductors: Vec<(CircuitNode, Option<Conductor>)>,
    /// Those that float, in their order.
    floating: Vec<CircuitNode>,
}

impl Rails {
    /// What lands at a point.
    pub fn conductor(&self, node: CircuitNode) -> Option<Conductor> {
        self.conductors.iter().find(|(rail, _)| *rail == node).and_then(|(_, lands)| *lands)
    }
}
