//! The voltages that mistakes give against a circuit simulator: an independent program, and a
//! circuit that is written down here anew from the board, pin by pin and wire by wire. It needs
//! `ngspice` (a Debian package), so it is left out unless it is asked for, as `tests/all` does.
#![allow(clippy::print_stderr)] // What was compared is told to who runs it with `--nocapture`.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use crate::compile::{self, demo};
use crate::generate::{boards, jobs};
use crate::readers::spice;
use lidsheet::board::{
    Board, Device, Feed, GroupSource, HeaderId, Job, Node, Pin, Speeds, TerminalId,
};

use lidsheet::decide::mistakes::{
    AsBuilt, Command, CordFit, Metal, Mistake, PlannedCase, consequences, simulate,
};
use lidsheet::decide::{DeviceId, Plan, Wiring};

/// How far two voltages may lie apart, as a part of one.
const TOLERANCE: f64 = 0.001;
/// How many generated jobs are gone through beside the demo ones.
const JOBS: usize = 15;
/// How many mistakes of each are compared, spread over the list.
const EACH: usize = 26;

#[test]
#[ignore = "needs ngspice; tests/all runs it where it is installed"]
fn voltages_of_mistakes_agree_with_ngspice() {
    let mut tally = Tally::default();
    for demo::Planned { name, board, job, plan } in &demo::jobs() {
        compare(board, job, plan, name, EACH, &mut tally);
    }
    for seed in 0.. {
        assert!(seed < 2000, "only {} jobs can be compared", tally.jobs);
        let board = compile::sound(&boards::generate(seed));
        let Some((job, plan)) = jobs::sound(&board, seed) else { continue };
        if plan.wiring.as_ref().is_some_and(|wiring| wiring.devices.len() > 3) {
            compare(&board, &job, &plan, &format!("seed {seed}"), EACH, &mut tally);
        }
        if tally.jobs == demo::jobs().len() + JOBS {
            break;
        }
    }
    eprintln!("{tally:?}");
    assert!(tally.kinds.len() >= 11, "{:?}", tally.kinds);
    assert!(tally.floating >= 5 && tally.live >= 20, "{tally:?}");
}

/// What was compared.
#[derive(Debug, Default)]
struct Tally {
    jobs: usize,
    mistakes: usize,
    voltages: usize,
    /// With a conductor missing.
    floating: usize,
    /// Metalwork with voltage.
    live: usize,
    kinds: BTreeMap<&'static str, usize>,
}

fn kind(mistake: Mistake) -> &'static str {
    match mistake {
        Mistake::Layout(_) => "layout",
        Mistake::Jumper { .. } => "jumper",
        Mistake::JumpersSwapped(_) => "jumpers swapped",
        Mistake::Plug { .. } => "plug",
        Mistake::PlugsSwapped(_) => "plugs swapped",
        Mistake::Way { .. } => "way",
        Mistake::BankAsShipped(_) => "bank",
        Mistake::Supply(_) => "supply",
        Mistake::Missing(_) => "missing",
        Mistake::Swapped(_) => "swapped",
        Mistake::Link { .. } => "link",
        Mistake::Cord { .. } => "cord",
    }
}

/// Two numbers that the simulation gave, and where ngspice's stand: the least and the most over
/// `states`.
struct Expected {
    say: String,
    least: f64,
    most: f64,
    values: Vec<usize>,
}

fn compare(board: &Board, job: &Job, plan: &Plan, name: &str, most: usize, tally: &mut Tally) {
    let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
    let built = AsBuilt::as_planned(&right);
    let count = right.wiring.devices.len();
    let found = consequences(&right);
    let step = found.len().div_ceil(most).max(1);
    for one in found.iter().step_by(step) {
        let built = built.with(&right, one.mistake);
        let state = simulate(&right, &built);
        // Where a terminal has no conductor, or the ground bar hangs on nothing, what else runs counts.
        let bar =
            board.terminals.iter().zip(&built.lands).any(|(it, on)| it.ground && on.is_some());
        let floats = !bar || built.lands.iter().any(Option::is_none);
        let mut bench = Bench {
            board,
            job,
            wiring: right.wiring,
            built: &built,
            text: String::new(),
            prints: Vec::new(),
            states: 0,
        };
        let mut all: Vec<Expected> = Vec::new();
        for (index, device) in state.devices.iter().enumerate() {
            for run in &device.runs {
                // The sets of other devices over which the simulation looks for the worst.
                let mut sets: Vec<Vec<usize>> = vec![Vec::new()];
                sets.extend((0..count).filter(|o| *o != index).map(|other| vec![other]));
                sets.push((0..count).filter(|other| *other != index).collect());
                if !floats {
                    sets.truncate(1);
                }
                let say = format!(
                    "{name}, {:?}, {} {:?}",
                    one.mistake,
                    right.wiring[DeviceId(index)].device,
                    run.command
                );
                let mut low = Expected {
                    say: format!("{say}: low"),
                    least: run.measured.low.least.0,
                    most: run.measured.low.most.0,
                    values: Vec::new(),
                };
                let mut high = Expected {
                    say: format!("{say}: high"),
                    least: run.measured.high.least.0,
                    most: run.measured.high.most.0,
                    values: Vec::new(),
                };
                let metal = match run.measured.metal {
                    Metal::Live(volts) => Some(volts.0),
                    Metal::NoWire | Metal::Grounded | Metal::Loose => None,
                };
                let mut live = Expected {
                    say: format!("{say}: metal"),
                    least: 0.0,
                    most: metal.unwrap_or(0.0),
                    values: Vec::new(),
                };
                for set in sets {
                    let commands: Vec<Command> = (0..count)
                        .map(|other| {
                            if other == index {
                                run.command
                            } else if set.contains(&other) {
                                bench.full(other)
                            } else {
                                Command::Off
                            }
                        })
                        .collect();
                    let wires = bench.state(&commands);
                    let ours = &wires[index];
                    for (expected, wire) in [(&mut low, Pin::Low), (&mut high, Pin::High)] {
                        let positive =
                            if wire == Pin::High { ours.get(&Pin::Positive) } else { None };
                        let common = ours.get(&Pin::Common).or(ours.get(&Pin::Negative));
                        if let (Some(a), Some(b)) = (ours.get(&wire).or(positive), common) {
                            expected.values.push(bench.print(&format!("v({a})-v({b})")));
                        }
                    }
                    if let (Some(_), Some(node)) = (metal, ours.get(&Pin::Ground)) {
                        live.values.push(bench.print(&format!("v({node})")));
                    }
                }
                tally.live += usize::from(!live.values.is_empty());
                all.extend([low, high, live].into_iter().filter(|one| !one.values.is_empty()));
            }
        }
        let values = spice::magnitudes(&bench.netlist());
        assert_eq!(values.len(), bench.prints.len(), "{}", bench.netlist());
        for Expected { say, least, most, values: at } in all {
            let of = |at: &usize| values[*at];
            let found =
                (at.iter().map(of).fold(f64::MAX, f64::min), at.iter().map(of).fold(0.0, f64::max));
            let near =
                |ours: f64, theirs: f64| (ours - theirs).abs() <= TOLERANCE * theirs.max(1.0);
            let both = near(most, found.1) && (say.ends_with("metal") || near(least, found.0));
            assert!(both, "{say}: {least} to {most} V, ngspice {found:?}\n{}", bench.netlist());
            tally.voltages += 1;
        }
        tally.mistakes += 1;
        tally.floating += usize::from(matches!(one.mistake, Mistake::Missing(_)));
        *tally.kinds.entry(kind(one.mistake)).or_default() += 1;
    }
    tally.jobs += 1;
}

/// The circuits of one mistake, one for each state, side by side in one text.
struct Bench<'a> {
    board: &'a Board,
    job: &'a Job,
    wiring: &'a Wiring,
    built: &'a AsBuilt,
    text: String,
    prints: Vec<String>,
    states: usize,
}

/// The node of each wire of a cord.
type Wires = BTreeMap<Pin, String>;

impl Bench<'_> {
    fn print(&mut self, what: &str) -> usize {
        self.prints.push(what.to_owned());
        self.prints.len() - 1
    }

    fn netlist(&self) -> String {
        let mut text = format!("states of one mistake\n{}", self.text);
        text += ".control\nset numdgt=9\nac lin 1 60 60\n";
        for what in &self.prints {
            writeln!(text, "print mag({what})").expect("a String takes all");
        }
        text + ".endc\n.end\n"
    }

    /// What the board takes a header for, read off the specification's own tables.
    fn role(&self, header: HeaderId) -> Option<(Device, Speeds)> {
        let serves = &self.board.headers[header.0].serves;
        let (_, device) = serves.iter().find(|(set, _)| set.contains(self.built.layout))?;
        let row = self.board.layouts.iter().find(|row| row.number == self.built.layout)?;
        let column = self.board.columns.iter().position(|column| column == device);
        match column.map(|column| row.speeds[column]) {
            Some(Speeds::None) => None,
            Some(speeds) => Some((*device, speeds)),
            None => Some((*device, Speeds::One)),
        }
    }

    fn full(&self, device: usize) -> Command {
        match self.role(self.built.cords[DeviceId(device)].header) {
            None => Command::Off,
            Some(_) => Command::High,
        }
    }

    /// Writes one state; gives the node of each wire of each device.
    fn state(&mut self, commands: &[Command]) -> Vec<Wires> {
        let state = self.states;
        self.states += 1;
        let mut out = String::new();
        // Every terminal has a node; what lands there is a source of its own. Ground terminals are
        // one bar.
        let terminal = |index: usize| {
            if self.board.terminals[index].ground {
                format!("bar_{state}")
            } else {
                format!("t{index}_{state}")
            }
        };
        let grounds = |index: &usize| self.board.terminals[*index].ground;
        let landed = (0..self.built.lands.len()).filter(grounds);
        let bar = landed.min_by_key(|index| self.built.lands[TerminalId(*index)].is_none());
        for (index, it) in self.board.terminals.iter().enumerate() {
            let node = terminal(index);
            if it.ground && bar != Some(index) {
                continue;
            }
            match self.built.lands[TerminalId(index)] {
                Some(conductor) => {
                    let (volts, degrees) = spice::source(self.built.system, conductor);
                    writeln!(out, "V{index}_{state} {node} 0 AC {volts} {degrees}")
                }
                None => writeln!(out, "Rt{index}_{state} {node} 0 1e12"),
            }
            .expect("a String takes all");
        }
        let mut all = Vec::new();
        for (index, plan) in self.wiring.devices.iter().enumerate() {
            let cord = self.built.cords[DeviceId(index)];
            let header = &self.board.headers[cord.header.0];
            let group = match header.feed {
                Feed::Group(group) => group,
                Feed::Jumper(jumper) => self.built.jumpers[jumper],
            };
            let points = match self.board.groups[group.0].source {
                GroupSource::Between { nodes, .. } => nodes.map(|node| match node {
                    Node::Terminal(at) => terminal(at.0),
                    Node::Link(link) => terminal(self.built.links[link].0),
                }),
                GroupSource::Isolated(volts) => {
                    let ends = [format!("iso{index}_{state}"), format!("return{index}_{state}")];
                    for (end, volts) in ends.iter().zip([volts.0, 0.0]) {
                        writeln!(out, "V{end} {end} 0 AC {volts} 0").expect("a String takes all");
                    }
                    ends
                }
            };
            // The pins of the header as they are switched now.
            let pins: Vec<Option<String>> = self.board.sockets[header.socket.0]
                .pins
                .iter()
                .map(|pin| match (pin, commands[index]) {
                    (Pin::Ground, _) => Some(format!("bar_{state}")),
                    (Pin::Common | Pin::Negative, _) => Some(points[1].clone()),
                    (Pin::High | Pin::Positive, Command::High) | (Pin::Low, Command::Low) => {
                        Some(points[0].clone())
                    }
                    _ => None,
                })
                .collect();
            // The plug as it was made for its own header, and where each of its wires comes to lie.
            let own = &self.board.sockets[self.board.headers[plan.header.0].socket.0].pins;
            let two = plan.speeds == Speeds::Two;
            let mut plug: Vec<Option<Pin>> = own
                .iter()
                .map(|pin| (two || *pin != Pin::Low || !own.contains(&Pin::High)).then_some(*pin))
                .collect();
            let mut hanging = Vec::new();
            match cord.fit {
                CordFit::Correct => {}
                CordFit::Turned => plug.reverse(),
                CordFit::Closed => {
                    plug.retain(Option::is_some);
                    plug.resize(own.len(), None);
                }
                CordFit::OneDown => {
                    hanging.extend(plug.pop().flatten());
                    plug.insert(0, None);
                }
                CordFit::OneUp => {
                    hanging.extend(plug.remove(0));
                    plug.push(None);
                }
            }
            let mut wires = Wires::new();
            for (wire, pin) in plug.iter().zip(&pins) {
                if let Some(wire) = wire {
                    let open = || format!("open{index}{wire}_{state}");
                    wires.insert(*wire, pin.clone().unwrap_or_else(open));
                }
            }
            for wire in hanging {
                wires.insert(wire, format!("open{index}{wire}_{state}"));
            }
            for node in wires.values().filter(|node| node.starts_with("open")) {
                writeln!(out, "R{node} {node} 0 1e12").expect("takes all");
            }
            let fitted = plan.fitted.map(|index| &self.job.equipment[index]);
            let (volts, low, high) = match (fitted, self.wiring.heater) {
                (Some(it), _) => (it.volts.value.0, it.low.map(|low| low.amps.0), it.high.amps.0),
                (None, Some(heater)) => {
                    let element = heater.element;
                    (element.at.0, None, element.watts.0 / element.at.0)
                }
                (None, None) => unreachable!("only the heater is not in the job"),
            };
            let cos = fitted.and_then(|fitted| fitted.power_factor).unwrap_or(1.0);
            let common = wires.get(&Pin::Common).or(wires.get(&Pin::Negative));
            let end = wires.get(&Pin::High).or(wires.get(&Pin::Positive));
            for (end, amps, name) in [(end, Some(high), "h"), (wires.get(&Pin::Low), low, "l")] {
                let (Some(end), Some(common), Some(amps)) = (end, common, amps) else { continue };
                let name = format!("{name}{index}_{state}");
                spice::load(&mut out, &name, [end, common], volts / amps, cos)
                    .expect("a String takes all");
            }
            all.push(wires);
        }
        self.text += &out;
        all
    }
}
