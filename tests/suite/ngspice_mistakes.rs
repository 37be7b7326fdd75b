//! The voltages that mistakes give against a circuit simulator: an independent program, and a
//! circuit that is written down here anew from the board, pin by pin and wire by wire. It needs
//! `ngspice` (a Debian package), so it is left out unless it is asked for, as `tests/all` does.
#![allow(clippy::print_stderr)] // What was compared is told to who runs it with `--nocapture`.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use crate::compile::{self, demo};
use crate::generate::{boards, jobs};
use crate::oracle::search::{limited, moves, tied};
use crate::readers::spice;
use lidsheet::board::voltage::magnitude;
use lidsheet::board::{
    Allowance, Board, Device, Feed, GroupSource, Job, Node, Pin, Speeds, TerminalId,
};

use lidsheet::decide::mistakes::{
    AsBuilt, Cavities, Command, Consequence, CordFit, Metal, Mistake, PlannedCase, Power, State,
    consequence, consequences, simulate,
};
use lidsheet::decide::{DeviceId, Plan, Wiring};

/// How far two voltages may lie apart, as a part of one.
const TOLERANCE: f64 = 0.001;
/// How many generated jobs are gone through beside the demo ones.
const JOBS: usize = 15;
/// Up to how many combinations are written down for one mistake.
const COMBINATIONS: usize = 250;
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
    assert!(tally.powers > 50 && tally.commons > 100, "{tally:?}");
    assert!(tally.kinds.len() >= 13, "{:?}", tally.kinds);
    assert!(tally.floating >= 5 && tally.live >= 20, "{tally:?}");
}

/// What was compared.
#[derive(Debug, Default)]
struct Tally {
    jobs: usize,
    mistakes: usize,
    /// Left out, with too many combinations.
    large: usize,
    /// Circuits that were solved.
    states: usize,
    voltages: usize,
    /// With a conductor missing.
    floating: usize,
    /// Metalwork with voltage.
    live: usize,
    /// Boards whose electronics were measured.
    powers: usize,
    /// Common wires.
    commons: usize,
    kinds: BTreeMap<&'static str, usize>,
}

fn kind(mistake: Mistake) -> &'static str {
    match mistake {
        Mistake::Layout(_) => "layout",
        Mistake::Selector { .. } => "selector",
        Mistake::Jumper { .. } => "jumper",
        Mistake::JumpersSwapped(_) => "jumpers swapped",
        Mistake::Plug { .. } => "plug",
        Mistake::PlugsSwapped(_) => "plugs swapped",
        Mistake::Way { .. } => "way",
        Mistake::BankAsShipped(_) => "bank",
        Mistake::Supply(_) => "supply",
        Mistake::SameLine(_) => "one line",
        Mistake::NeutralPast | Mistake::NeutralGrounded => "neutral",
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
    let mut found = consequences(&right);
    // A plug that was made for another order of pins is no mistake of one hand, so it is not among them.
    let before = simulate(&right, &built);
    for (device, plan) in right.wiring.devices.entries() {
        let wires = plan.pins.pins.iter().flatten().count();
        let next: Vec<Option<usize>> = (0..wires).map(|at| Some((at + 1) % wires)).collect();
        let fit = CordFit::Rearranged(Cavities::new(&next));
        found.extend(consequence(&right, &built, &before, Mistake::Cord { device, fit }));
    }
    let step = found.len().div_ceil(most).max(1);
    // Every lost conductor of a demo job; of generated ones, such as the stride meets. Every plug of another
    // order.
    let demo = !name.starts_with("seed");
    let always = |one: &&Consequence| match one.mistake {
        Mistake::Missing(_) => demo,
        Mistake::Cord { fit, .. } => matches!(fit, CordFit::Rearranged(_)),
        _ => false,
    };
    let first = found.iter().filter(always);
    let chosen = first.chain(found.iter().step_by(step).filter(|one| !always(one)));
    for one in chosen {
        let built = built.with(&right, one.mistake);
        let state = simulate(&right, &built);
        // Where a terminal that some group needs has no conductor, or the ground bar hangs on
        // nothing, what else runs counts.
        let bar =
            board.terminals.iter().zip(&built.lands).any(|(it, on)| it.ground && on.is_some());
        let needed = board.groups.iter().flat_map(|group| match group.source {
            GroupSource::Between { nodes, .. } => nodes.to_vec(),
            GroupSource::Isolated(_) => Vec::new(),
        });
        let mut needed = needed.map(|node| match node {
            Node::Terminal(at) => at,
            Node::Link(link) => built.links[link],
        });
        let floats = !bar || needed.any(|at| built.lands[at].is_none());
        // What a current leaves to run is known only when the currents are.
        if floats && matches!(state.allowance, Some(Allowance::Amps(_))) {
            continue;
        }
        let states = combinations(&state, &right, floats);
        if states.len() > COMBINATIONS {
            tally.large += 1;
            continue;
        }
        let mut bench = Bench {
            board,
            job,
            wiring: right.wiring,
            built: &built,
            text: String::new(),
            prints: Vec::new(),
            states: 0,
            electronics: Vec::new(),
        };
        let mut power = None;
        let mut all: BTreeMap<(usize, Command, &str), Expected> = BTreeMap::new();
        for commands in &states {
            let wires = bench.state(commands);
            // The first state has all devices off.
            if let [[a, b]] = bench.electronics.clone().as_slice() {
                let value = bench.print(&format!("v({a})-v({b})"));
                power = Some(value);
            }
            for (index, device) in state.devices.iter().enumerate() {
                // Where nothing floats, each is looked at with all others off.
                let others = (0..count).filter(|other| *other != index);
                if !floats && others.into_iter().any(|other| commands[other] != Command::Off) {
                    continue;
                }
                let command = commands[index];
                let Some(run) = device.on(command) else { continue };
                let ours = &wires[index];
                let say = format!(
                    "{name}, {:?}, {} {command:?}",
                    one.mistake,
                    right.wiring[DeviceId(index)].device
                );
                let mut expect = |what: &'static str, least: f64, most: f64, value: usize| {
                    let say = format!("{say}: {what}");
                    let new = Expected { say, least, most, values: Vec::new() };
                    all.entry((index, command, what)).or_insert(new).values.push(value);
                };
                for (what, wire, range) in
                    [("low", Pin::Low, run.measured.low), ("high", Pin::High, run.measured.high)]
                {
                    let positive = if wire == Pin::High { ours.get(&Pin::Positive) } else { None };
                    let common = ours.get(&Pin::Common).or(ours.get(&Pin::Negative));
                    if let (Some(a), Some(b)) = (ours.get(&wire).or(positive), common) {
                        let value = bench.print(&format!("v({a})-v({b})"));
                        expect(what, range.least.0, range.most.0, value);
                    }
                }
                let known = !floats || !state.power.runs();
                if let (true, Some(node)) = (known, ours.get(&Pin::Common)) {
                    let value = bench.print(&format!("v({node})"));
                    let volts = run.measured.common.0;
                    expect("common", volts, volts, value);
                    tally.commons += 1;
                }
                if let (Metal::Live(volts), Some(node)) =
                    (run.measured.metal, ours.get(&Pin::Ground))
                {
                    let value = bench.print(&format!("v({node})"));
                    expect("metal", 0.0, volts.0, value);
                }
            }
        }
        tally.states += states.len();
        tally.live += all.keys().filter(|(_, _, what)| *what == "metal").count();
        let values = spice::magnitudes(&bench.netlist());
        assert_eq!(values.len(), bench.prints.len(), "{}", bench.netlist());
        if let (Some(at), Some(electronics)) = (power, board.electronics) {
            let rated = board.supplies.iter().filter_map(|it| it.between(electronics.nodes));
            let rated: Vec<f64> = rated.map(|it| magnitude(it).0).collect();
            let (low, high) =
                rated.iter().fold((f64::MAX, 0.0_f64), |(l, h), v| (l.min(*v), h.max(*v)));
            let found = values[at];
            let near = |volts: f64| (volts - found).abs() <= TOLERANCE * found.max(1.0);
            let right = match state.power {
                Power::NotSaid => false,
                Power::Suits => found > low * 0.9 - 0.1 && found < high * 1.1 + 0.1,
                Power::Weak(volts) => near(volts.0) && found < low * 0.9 + 0.1,
                Power::Dead => found < low * 0.1 + 0.1,
                Power::Burns(volts) => near(volts.0) && found > high * 1.1 - 0.1,
            };
            assert!(right, "{name}, {:?}: {:?}, ngspice {found} V", one.mistake, state.power);
            tally.powers += 1;
        }
        for Expected { say, least, most, values: at } in all.into_values() {
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

/// Every combination that can run where a point floats; else each device on each command by itself.
/// While the heater is on, no more pumps and blowers are on high than the switches allow, and what
/// moves its water is on; where no water is moved, it stays off.
fn combinations(state: &State, right: &PlannedCase<'_>, floats: bool) -> Vec<Vec<Command>> {
    let count = state.devices.len();
    let commands = |index: usize| -> Vec<Command> {
        state.devices[DeviceId(index)].runs.iter().map(|run| run.command).collect()
    };
    if !floats {
        let alone = |index: usize| {
            let with = move |command: Command| {
                (0..count).map(|at| if at == index { command } else { Command::Off }).collect()
            };
            commands(index).into_iter().map(with)
        };
        return (0..count).flat_map(alone).collect();
    }
    let mut all: Vec<Vec<Command>> = vec![Vec::new()];
    for index in 0..count {
        let more = |known: &Vec<Command>| {
            let known = known.clone();
            commands(index).into_iter().map(move |command| {
                let mut with = known.clone();
                with.push(command);
                with
            })
        };
        all = all.iter().flat_map(more).collect();
        if all.len() > 40 * COMBINATIONS {
            return all;
        }
    }
    let role = |index: usize| state.devices[DeviceId(index)].role;
    let moving = state.roles.iter().filter(|role| moves(role.role)).min_by_key(|role| role.role);
    let mover = moving.and_then(|role| role.device);
    // What runs together is on or off at once, and with what moves the water while the heater is on.
    let together = |commands: &Vec<Command>| {
        let on = |index: usize| commands[index] != Command::Off;
        let tied = |a: usize, b: Device| role(a).is_some_and(|a| tied(right.board, a, b));
        let heats = (0..count).any(|index| role(index) == Some(Device::Heater) && on(index));
        let steady = moving.filter(|it| it.speeds == Speeds::Two || !limited(it.role));
        (0..count).all(|a| {
            let alike = |b: usize| role(b).is_none_or(|role| !tied(a, role) || on(a) == on(b));
            let water = steady.is_none_or(|it| !heats || !tied(a, it.role) || on(a));
            (0..count).all(alike) && water
        })
    };
    all.retain(together);
    let may = |commands: &Vec<Command>| {
        let on = |index: usize| commands[index] != Command::Off;
        if !(0..count).any(|index| role(index) == Some(Device::Heater) && on(index)) {
            return true;
        }
        let counts = |index: &usize| {
            role(*index).is_some_and(Device::counts_for_allowance)
                && commands[*index] == Command::High
        };
        let high = (0..count).filter(counts).count();
        let allowed = match state.allowance {
            None => true,
            Some(Allowance::Loads(most)) => high <= usize::from(most),
            // What adds up is known only after ngspice: such jobs are left out.
            Some(Allowance::Amps(_)) => unreachable!("these are left out"),
        };
        let flows = mover.is_none_or(|mover| {
            let gently = state.devices[mover].on(Command::Low).is_some();
            let counts = role(mover.0).is_some_and(Device::counts_for_allowance) && !gently;
            on(mover.0) || counts && state.allowance == Some(Allowance::Loads(0))
        });
        allowed && flows
    };
    all.retain(may);
    assert!(!right.wiring.devices.is_empty() && !all.is_empty());
    all
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
    /// The ends of the board's own electronics in each state.
    electronics: Vec<[String; 2]>,
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
                    let of = match self.built.same_line {
                        Some([line, taken]) if taken == conductor => line,
                        _ => conductor,
                    };
                    let (volts, degrees) = spice::source(self.built.system, of);
                    writeln!(out, "V{index}_{state} {node} 0 AC {volts} {degrees}")
                }
                None => writeln!(out, "Rt{index}_{state} {node} 0 1e12"),
            }
            .expect("a String takes all");
        }
        // The board's own electronics: a small transformer.
        if let Some(electronics) = self.board.electronics {
            let [a, b] = electronics.nodes.map(|node| match node {
                Node::Terminal(at) => terminal(at.0),
                Node::Link(link) => terminal(self.built.links[link].0),
            });
            writeln!(out, "Re{state} {a} {b} 1400").expect("a String takes all");
            self.electronics.push([a, b]);
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
                CordFit::Out => plug.iter_mut().for_each(|wire| *wire = None),
                CordFit::Rearranged(cavities) => {
                    let wires: Vec<Pin> = plug.iter().copied().flatten().collect();
                    let mut places = vec![None; plug.len()];
                    for (count, wire) in wires.into_iter().enumerate() {
                        if let Some(place) = cavities.of(count) {
                            places[place] = Some(wire);
                        }
                    }
                    plug = places;
                }
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
