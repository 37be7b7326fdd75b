//! What devices get where one conductor is missing, by going through every combination that can run
//! and Millman's theorem for each: the lost point is at the sum of Y V over the sum of Y.

use std::collections::BTreeMap;

use super::search::{limited, moves, tied};
use lidsheet::board::{
    Allowance, Board, Conductor, Device, Feed, GroupSource, Job, Node, Speeds, System, TerminalId,
};
use lidsheet::decide::mistakes::{AsBuilt, Command, Mistake, PlannedCase, simulate};
use lidsheet::decide::{DeviceId, Plan};

/// What was compared.
#[derive(Debug, Default)]
pub struct Tally {
    /// Lost conductors that more than one device hangs on.
    pub shared: usize,
    /// Devices on a command.
    pub runs: usize,
    /// Of these, such as get the same in every combination.
    pub steady: usize,
    /// Lost conductors of a board's own electronics.
    pub dead: usize,
    /// Devices that are live through them, while nothing runs.
    pub dead_live: usize,
    /// Left out: too many combinations.
    pub large: usize,
    /// The most combinations of one.
    pub most: usize,
}

/// A complex number as a pair.
type C = (f64, f64);

fn times(a: C, b: C) -> C {
    (a.0 * b.0 - a.1 * b.1, a.0 * b.1 + a.1 * b.0)
}

fn over(a: C, b: C) -> C {
    let size = b.0 * b.0 + b.1 * b.1;
    ((a.0 * b.0 + a.1 * b.1) / size, (a.1 * b.0 - a.0 * b.1) / size)
}

fn apart(a: C, b: C) -> f64 {
    let (across, up) = (a.0 - b.0, a.1 - b.1);
    (across * across + up * up).sqrt()
}

/// The potential of a conductor.
fn at(system: System, conductor: Conductor) -> C {
    let (volts, degrees): (f64, f64) = match (system, conductor) {
        (_, Conductor::N | Conductor::Pe) => (0.0, 0.0),
        (System::SplitPhase { to_neutral }, Conductor::L2) => (to_neutral.0, 180.0),
        (System::Wye { to_neutral }, Conductor::L2) => (to_neutral.0, 240.0),
        (System::Wye { to_neutral }, Conductor::L3) => (to_neutral.0, 120.0),
        (
            System::SplitPhase { to_neutral }
            | System::Wye { to_neutral }
            | System::SinglePhase { to_neutral },
            _,
        ) => (to_neutral.0, 0.0),
    };
    let radians = degrees.to_radians();
    #[allow(clippy::disallowed_methods)]
    (volts * radians.cos(), volts * radians.sin())
}

/// A device on the lost point: where its other end is, and its admittance on each command that it has.
struct Hangs {
    index: usize,
    device: Device,
    other: C,
    commands: Vec<(Command, C)>,
}

/// The two ends of what feeds a device; `None` where nothing lands.
fn ends(right: &PlannedCase<'_>, built: &AsBuilt, index: usize) -> Option<[Option<C>; 2]> {
    let board = right.board;
    let plan = &right.wiring.devices[DeviceId(index)];
    let group = match board.headers[plan.header.0].feed {
        Feed::Group(group) => group,
        Feed::Jumper(jumper) => built.jumpers[jumper],
    };
    let GroupSource::Between { nodes, .. } = board.groups[group.0].source else { return None };
    Some(nodes.map(|node| {
        let terminal = match node {
            Node::Terminal(terminal) => terminal,
            Node::Link(link) => built.links[link],
        };
        built.lands[terminal].map(|conductor| at(built.system, conductor))
    }))
}

fn hangs(right: &PlannedCase<'_>, built: &AsBuilt, index: usize) -> Option<Hangs> {
    let plan = &right.wiring.devices[DeviceId(index)];
    let other = match ends(right, built, index)? {
        [Some(other), None] | [None, Some(other)] => other,
        _ => return None,
    };
    let fitted = plan.fitted.map(|at| &right.job.equipment[at]);
    let (volts, low, high) = match (fitted, right.wiring.heater) {
        (Some(it), _) => (it.volts.value.0, it.low.map(|low| low.amps.0), it.high.amps.0),
        (None, Some(heater)) => {
            (heater.element.at.0, None, heater.element.watts.0 / heater.element.at.0)
        }
        (None, None) => unreachable!("only the heater is not in the job"),
    };
    let cos = fitted.and_then(|it| it.power_factor).unwrap_or(1.0);
    let siemens = |amps: f64| {
        let size = amps / volts;
        (size * cos, -size * (1.0 - cos * cos).sqrt())
    };
    let mut commands = vec![(Command::Off, (0.0, 0.0))];
    commands.extend(low.map(|low| (Command::Low, siemens(low))));
    commands.push((Command::High, siemens(high)));
    Some(Hangs { index, device: plan.device, other, commands })
}

/// Compares every lost conductor of a job.
pub fn compare(board: &Board, job: &Job, plan: &Plan, name: &str, tally: &mut Tally) {
    let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
    let built = AsBuilt::as_planned(&right);
    let count = right.wiring.devices.len();
    let whole = |built: &AsBuilt| {
        let ground = board.terminals.iter().zip(&built.lands);
        ground.into_iter().any(|(it, on)| it.ground && on.is_some())
    };
    for (terminal, it) in board.terminals.iter().enumerate() {
        let terminal = TerminalId(terminal);
        if it.ground || built.lands[terminal].is_none() || !whole(&built) {
            continue;
        }
        let lost = built.with(&right, Mistake::Missing(terminal));
        if dead(&right, &lost, terminal, &format!("{name}, without {}", it.code), tally) {
            continue;
        }
        let hanging: Vec<Hangs> = (0..count).filter_map(|at| hangs(&right, &lost, at)).collect();
        // A board that is fed at fewer terminals than it has can have other points that float.
        let others = (0..count).filter_map(|at| ends(&right, &built, at)).flatten();
        if hanging.is_empty() || others.into_iter().any(|end| end.is_none()) {
            continue;
        }
        let combinations: usize = hanging.iter().map(|it| it.commands.len()).product();
        if combinations > 60_000 {
            tally.large += 1;
            continue;
        }
        tally.most = tally.most.max(combinations);
        tally.shared += usize::from(hanging.len() > 1);
        one(&right, &lost, &hanging, &format!("{name}, without {}", it.code), tally);
    }
}

/// Where the lost conductor fed the board's electronics nothing runs, and the lost point has the
/// potential of their other end: there is no other way for a current. Says whether it did.
fn dead(
    right: &PlannedCase<'_>,
    lost: &AsBuilt,
    terminal: TerminalId,
    name: &str,
    tally: &mut Tally,
) -> bool {
    let board = right.board;
    let on = |node: Node| match node {
        Node::Terminal(terminal) => terminal,
        Node::Link(link) => lost.links[link],
    };
    let Some(electronics) = board.electronics else { return false };
    let [first, second] = electronics.nodes.map(on);
    let other = match (first == terminal, second == terminal) {
        (true, false) => second,
        (false, true) => first,
        _ => return false,
    };
    let state = simulate(right, lost);
    let through = lost.lands[other].map_or((0.0, 0.0), |conductor| at(lost.system, conductor));
    for (device, plan) in state.devices.iter().zip(&right.wiring.devices) {
        assert_eq!(device.runs.len(), 1, "{name}: {} runs", plan.device);
        let group = match board.headers[plan.header.0].feed {
            Feed::Group(group) => group,
            Feed::Jumper(jumper) => lost.jumpers[jumper],
        };
        let GroupSource::Between { nodes, .. } = board.groups[group.0].source else { continue };
        let common = on(nodes[1]);
        let expected = match lost.lands[common] {
            Some(conductor) => at(lost.system, conductor),
            None if common == terminal => through,
            None => continue,
        };
        let found = device.runs[0].measured.common.0;
        let expected = apart(expected, (0.0, 0.0));
        assert!((found - expected).abs() < 1e-6, "{name}, {}: {found}, {expected}", plan.device);
        tally.dead_live += usize::from(common == terminal && expected > 50.0);
    }
    tally.dead += 1;
    true
}

fn one(right: &PlannedCase<'_>, lost: &AsBuilt, hanging: &[Hangs], name: &str, tally: &mut Tally) {
    let state = simulate(right, lost);
    // What the layout has for it; a job can lack that, and then nothing is known.
    let pumps = state.roles.iter().map(|role| role.role);
    let mover = pumps.filter(|it| moves(*it)).min();
    let allowance = right.wiring.breaker.allowance;
    let dry = state.water == Some(false);
    let mut found: BTreeMap<(usize, Command), (f64, f64)> = BTreeMap::new();
    let combinations: usize = hanging.iter().map(|it| it.commands.len()).product();
    for number in 0..combinations {
        let mut rest = number;
        let chosen: Vec<(Command, C)> = hanging
            .iter()
            .map(|it| {
                let at = rest % it.commands.len();
                rest /= it.commands.len();
                it.commands[at]
            })
            .collect();
        let mut sums = ((0.0, 0.0), (1e-12, 0.0));
        for (it, (_, siemens)) in hanging.iter().zip(&chosen) {
            let amps = times(*siemens, it.other);
            sums.0 = (sums.0.0 + amps.0, sums.0.1 + amps.1);
            sums.1 = (sums.1.0 + siemens.0, sums.1.1 + siemens.1);
        }
        let point = over(sums.0, sums.1);
        // What flows then is what the board adds up.
        let amps = hanging.iter().zip(&chosen).map(|(it, (_, siemens))| {
            (siemens.0 * siemens.0 + siemens.1 * siemens.1).sqrt() * apart(it.other, point)
        });
        let added: f64 = amps.sum();
        let on = |wanted: Device| {
            let all = hanging.iter().zip(&chosen);
            all.clone().find(|(it, _)| it.device == wanted).map(|(_, (command, _))| *command)
        };
        let differ = |one: &Hangs, other: &Hangs| {
            let off = |it: &Hangs| on(it.device) == Some(Command::Off);
            tied(right.board, one.device, other.device) && off(one) != off(other)
        };
        if hanging.iter().any(|one| hanging.iter().any(|other| differ(one, other))) {
            continue;
        }
        if on(Device::Heater) == Some(Command::High) {
            let counts = hanging
                .iter()
                .zip(&chosen)
                .filter(|(it, (command, _))| limited(it.device) && *command == Command::High);
            let over = match allowance {
                None => false,
                Some(Allowance::Loads(most)) => counts.count() > usize::from(most),
                Some(Allowance::Amps(most)) => added > most.0 * (1.0 + 1e-9),
            };
            // The pump that moves its water runs, unless that alone were more than is allowed.
            let still = mover.is_some_and(|mover| {
                let gently = hanging.iter().any(|it| {
                    it.device == mover && it.commands.iter().any(|(c, _)| *c == Command::Low)
                });
                let counts = limited(mover) && !gently;
                on(mover) == Some(Command::Off)
                    && !(counts && allowance == Some(Allowance::Loads(0)))
            });
            let still = still
                || mover.is_some_and(|mover| {
                    let two = right.board.layout(right.layout.number).is_some_and(|layout| {
                        layout.speeds_of(&right.board.columns, mover) == Some(Speeds::Two)
                    });
                    let with = hanging.iter().filter(|it| tied(right.board, it.device, mover));
                    let with = with.filter(|it| on(it.device) == Some(Command::Off));
                    (two || !limited(mover)) && with.count() > 0
                });
            if over || still || dry {
                continue;
            }
        }
        for (it, (command, _)) in hanging.iter().zip(&chosen) {
            let volts = apart(it.other, point);
            let known = found.entry((it.index, *command)).or_insert((f64::INFINITY, 0.0));
            *known = (known.0.min(volts), known.1.max(volts));
        }
    }
    for ((index, command), (least, most)) in found {
        if command == Command::Off {
            continue;
        }
        let run = state.devices[DeviceId(index)].on(command).unwrap_or_else(|| {
            panic!("{name}: {:?} is never on", right.wiring.devices[DeviceId(index)].device)
        });
        let range = if command == Command::Low { run.measured.low } else { run.measured.high };
        let say = format!(
            "{name}, {:?} on {command:?}: {range:?}, by Millman {least} to {most} V",
            right.wiring.devices[DeviceId(index)].device
        );
        // Where the search bounds instead of going through all, it may be beyond: by the cosine of
        // half the angle between a power factor of 1 and one of 0.5.
        // The bound does not keep to a current, so more are gone through there.
        let keeps = matches!(allowance, Some(Allowance::Amps(_)));
        let through = if keeps { 32_768 } else { 4_096 };
        assert!(range.most.0 >= most - 1e-3, "{say}");
        let bounded = keeps && combinations > through;
        assert!(bounded || range.most.0 <= most * 1.16 + 1e-3, "{say}");
        assert!(range.least.0 <= least + 1e-3, "{say}");
        if combinations <= through {
            assert!((range.most.0 - most).abs() < 1e-3, "{say}");
            assert!((range.least.0 - least).abs() < 1e-3, "{say}");
        }
        tally.runs += 1;
        tally.steady += usize::from(most - least < 1e-3);
    }
}
