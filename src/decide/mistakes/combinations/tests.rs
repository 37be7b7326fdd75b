//! Lost conductors by hand beside their source, and the search against going through everything.

use num_complex::Complex;
use proptest::prelude::*;

use super::super::super::currents::{AllowanceClass, lagging, size};
use super::super::device_load::{Part, Player, Probe, Probes};
use super::super::state::Command;
use super::{Extremes, extremes, extremes_within};
use crate::board::Allowance;
use crate::units::Amps;
use crate::units::Angle;

type Phasor = Complex<f64>;

fn real(value: f64) -> Phasor {
    Complex::new(value, 0.0)
}

fn phasor(volts: f64, degrees: f64) -> Phasor {
    let angle = Angle::degrees(degrees);
    Complex::new(volts * angle.cos(), volts * angle.sin())
}

/// A load between a line and the only floating point.
fn load(command: Command, line: Phasor, siemens: Phasor) -> Part {
    let nought = Complex::default();
    Part {
        command,
        constant: Probes::new([nought, line, nought, nought, nought]),
        slopes: vec![Probes::new([nought, real(-1.0), real(1.0), nought, nought])],
        injects: vec![line * siemens],
        admits: vec![vec![siemens]],
    }
}

/// What each of these gets while all of them run, and where the point is.
fn shared(loads: &[(Phasor, Phasor)]) -> (Vec<f64>, f64) {
    let players: Vec<Player> = loads
        .iter()
        .map(|(line, siemens)| Player {
            parts: vec![load(Command::High, *line, *siemens).into()],
            class: AllowanceClass::Free,
            moves_water: false,
            together: None,
            windings: [0.0, 0.0],
        })
        .collect();
    let found = extremes(&players, 1, None);
    let of = |probe: Probe| -> Vec<f64> {
        let one = |all: &Vec<Extremes>| {
            let (least, most) = all[0].of(probe);
            assert!((most - least).abs() < 1e-9, "one combination gives one voltage");
            most
        };
        found.iter().map(one).collect()
    };
    (of(Probe::High), of(Probe::Common)[0])
}

#[track_caller]
fn gets(loads: &[(Phasor, Phasor)], expected: &[f64], shift: Option<f64>) {
    let (found, moved) = shared(loads);
    for (found, expected) in found.iter().zip(expected) {
        assert!((found - expected).abs() < 0.01, "{found} V, not {expected} V");
    }
    if let Some(shift) = shift {
        assert!((moved - shift).abs() < 0.01, "{moved} V, not {shift} V");
    }
}

/// Split-phase 240 V without its neutral: published examples, and one with a lagging load. A page
/// that says "the voltage rises at the loads of greater power" has it the wrong way round.
#[test]
fn a_lost_neutral_of_a_split_phase_supply() {
    let (l1, l2) = (real(120.0), real(-120.0));
    let ohms = |ohms: f64| real(1.0 / ohms);
    // Lamps of 100 W and 200 W for 120 V: 144 and 72 ohm.
    gets(&[(l1, ohms(144.0)), (l2, ohms(72.0))], &[160.0, 80.0], Some(40.0));
    // Three and two loads of 1000 ohm. (The source rounds the current and prints 96.67 and 145 V.)
    gets(&[(l1, ohms(1000.0 / 3.0)), (l2, ohms(500.0))], &[96.0, 144.0], None);
    // 1500 W and 60 W.
    gets(&[(l1, ohms(14400.0 / 1500.0)), (l2, ohms(240.0))], &[9.23, 230.77], None);
    // 12 ohm, and 24 ohm at a power factor of 0.8: the sizes add up to 251.4 V, not to 240 V.
    gets(&[(l1, ohms(12.0)), (l2, lagging(0.8) / 24.0)], &[83.81, 167.62], None);
}

/// Two and three lines of a star without its neutral.
#[test]
fn a_lost_neutral_of_a_star() {
    let star = |volts: f64, line: u8| phasor(volts, [0.0, -120.0, 120.0][usize::from(line)]);
    let of = |volts: f64, siemens: &[f64]| -> Vec<(Phasor, Phasor)> {
        let lines = (0..3).map(|line| star(volts, line));
        lines.zip(siemens).map(|(line, siemens)| (line, real(*siemens))).collect()
    };
    // 380 V between the lines, 55 and 110 ohm; 36.67 and 110 ohm.
    let to_neutral = 380.0 / 3.0_f64.sqrt();
    gets(&of(to_neutral, &[1.0 / 55.0, 1.0 / 110.0]), &[126.67, 253.33], None);
    gets(&of(to_neutral, &[3.0 / 110.0, 1.0 / 110.0]), &[95.0, 285.0], None);
    // 208Y/120 V with 12, 24 and 120 ohm.
    let siemens = [1.0 / 12.0, 1.0 / 24.0, 1.0 / 120.0];
    gets(&of(120.0, &siemens), &[72.33, 136.86, 171.85], Some(58.58));
    // The same with 10, 10 and 5 A at 120 V.
    let siemens = [10.0 / 120.0, 10.0 / 120.0, 5.0 / 120.0];
    gets(&of(120.0, &siemens), &[109.98, 109.98, 144.0], Some(24.0));
    // 230/400 V with 3000, 500 and 500 W.
    let siemens = [3000.0, 500.0, 500.0].map(|watts| watts / 230.0 / 230.0);
    gets(&of(230.0, &siemens), &[86.25, 326.54, 326.54], Some(143.75));
    // Equal loads shift nothing.
    gets(&of(230.0, &[0.1, 0.1, 0.1]), &[230.0, 230.0, 230.0], Some(0.0));
}

/// A device off and on. What two points hang on is a load between them.
fn player() -> impl Strategy<Value = (Player, bool)> {
    let line = prop::sample::select(vec![real(230.0), phasor(230.0, -120.0), phasor(230.0, 120.0)]);
    let factor = prop::sample::select(vec![1.0, 1.0, 0.9, 0.75]);
    let amps = prop::sample::select(vec![0.2, 1.0, 4.0, 4.0, 8.0, 13.0]);
    (line, factor, amps, prop::option::of(0.2..0.6_f64), 0..4_u8, any::<bool>()).prop_map(
        |(line, factor, amps, low, class, second)| {
            let siemens = lagging(factor) * (amps / 230.0);
            let off = load(Command::Off, line, Complex::default());
            let mut parts = vec![off.into()];
            let limited = class >= 2;
            if let Some(low) = low.filter(|_| limited) {
                parts.push(load(Command::Low, line, siemens * low).into());
            }
            parts.push(load(Command::High, line, siemens).into());
            let class = if limited { AllowanceClass::Limited } else { AllowanceClass::Free };
            (
                Player {
                    parts,
                    class,
                    moves_water: false,
                    together: None,
                    windings: [0.0, size(siemens)],
                },
                second,
            )
        },
    )
}

/// The same part where there are two floating points: on the first, or between the two.
fn between(part: &Part, second: bool) -> Part {
    let nought = Complex::default();
    let slope = |at: f64| Probes::new([nought, real(at), nought, nought, nought]);
    let siemens = part.admits[0][0];
    if second {
        let rows = vec![vec![siemens, -siemens], vec![-siemens, siemens]];
        let constant = Probes::new([nought; 5]);
        let slopes = vec![slope(1.0), slope(-1.0)];
        Part { constant, slopes, injects: vec![nought; 2], admits: rows, ..part.clone() }
    } else {
        let mut part = part.clone();
        part.slopes.push(slope(0.0));
        part.injects.push(nought);
        part.admits = vec![vec![siemens, nought], vec![nought, nought]];
        part
    }
}

/// The potentials of up to two points by Cramer's rule.
fn potentials(parts: &[&Part], points: usize) -> Vec<Phasor> {
    let leak = real(1e-12);
    let sum = |of: &dyn Fn(&Part) -> Phasor| parts.iter().map(|part| of(part)).sum::<Phasor>();
    let inject = |at: usize| sum(&|part| part.injects[at]);
    let admit = |row: usize, column: usize| {
        sum(&|part| part.admits[row][column]) + if row == column { leak } else { real(0.0) }
    };
    if points == 1 {
        return vec![inject(0) / admit(0, 0)];
    }
    let (a, b, c, d) = (admit(0, 0), admit(0, 1), admit(1, 0), admit(1, 1));
    let whole = a * d - b * c;
    vec![(inject(0) * d - b * inject(1)) / whole, (a * inject(1) - c * inject(0)) / whole]
}

/// Every combination, one after the other.
fn by_trying_all(
    players: &[Player],
    points: usize,
    allowance: Option<Allowance>,
) -> Vec<Vec<(f64, f64)>> {
    let none = |player: &Player| vec![(f64::INFINITY, 0.0); player.parts.len()];
    let mut found: Vec<Vec<(f64, f64)>> = players.iter().map(none).collect();
    let all: usize = players.iter().map(|player| player.parts.len()).product();
    for number in 0..all {
        let mut rest = number;
        let mut chosen = Vec::new();
        for player in players {
            chosen.push(rest % player.parts.len());
            rest /= player.parts.len();
        }
        let on = |class: AllowanceClass, command: Command| {
            let with = players.iter().zip(&chosen);
            with.filter(|(it, at)| it.class == class && it.parts[**at].command == command).count()
        };
        let heats = on(AllowanceClass::Heater, Command::High) > 0;
        let high = on(AllowanceClass::Limited, Command::High);
        // A pump of one speed that counts cannot help where none may count.
        let dry = players.iter().zip(&chosen).any(|(it, at)| {
            let counts = it.class == AllowanceClass::Limited && it.parts.len() == 2;
            it.moves_water && *at == 0 && !(counts && allowance == Some(Allowance::Loads(0)))
        });
        let parts: Vec<&Part> =
            players.iter().zip(&chosen).map(|(it, at)| &*it.parts[*at]).collect();
        let volts = potentials(&parts, points);
        let over = match allowance {
            None => false,
            Some(Allowance::Loads(most)) => high > usize::from(most),
            Some(Allowance::Amps(most)) => {
                let amps = players.iter().zip(&parts).map(|(player, part)| {
                    let moved =
                        (0..points).map(|point| part.line(Probe::High, point).1 * volts[point]);
                    let across = part.line(Probe::High, 0).0 + moved.sum::<Phasor>();
                    size(across) * player.windings[1]
                });
                amps.sum::<f64>() > most.0 * (1.0 + 1e-9)
            }
        };
        if heats && (dry || over) {
            continue;
        }
        for ((part, at), found) in parts.iter().zip(&chosen).zip(&mut found) {
            let at_points = (0..points).map(|point| part.line(Probe::High, point).1 * volts[point]);
            let volts = size(part.line(Probe::High, 0).0 + at_points.sum::<Phasor>());
            found[*at] = (found[*at].0.min(volts), found[*at].1.max(volts));
        }
    }
    found
}

fn players() -> impl Strategy<Value = (Vec<Player>, Vec<bool>)> {
    prop::collection::vec(player(), 1..7).prop_map(|all| {
        let (mut players, second): (Vec<Player>, Vec<bool>) = all.into_iter().unzip();
        // The first is the heater, the second what moves the water.
        if players.len() > 2 {
            players[0].class = AllowanceClass::Heater;
            players[0].parts.retain(|part| part.command != Command::Low);
            players[1].moves_water = true;
        }
        (players, second)
    })
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: None,
        ..ProptestConfig::with_cases(600)
    })]

    #[test]
    fn the_search_finds_what_trying_all_finds(
        (players, second) in players(),
        allowance in prop::option::of(prop_oneof![
            (0_u8..3).prop_map(Allowance::Loads),
            (20_u32..400).prop_map(|tenths| Allowance::Amps(Amps(f64::from(tenths) / 10.0))),
        ]),
        two in any::<bool>(),
    ) {
        let points = if two { 2 } else { 1 };
        let players: Vec<Player> = players
            .into_iter()
            .zip(&second)
            .map(|(mut player, second)| {
                if two {
                    player.parts = player.parts.iter().map(|it| between(it, *second).into()).collect();
                }
                player
            })
            .collect();
        let tried = by_trying_all(&players, points, allowance);
        let exact = extremes(&players, points, allowance);
        let bounded = extremes_within(&players, points, allowance, 0);
        for (player, tried) in tried.iter().enumerate() {
            for (part, (least, most)) in tried.iter().enumerate() {
                // What no combination allows has no voltage; no bound need know that.
                let never = !least.is_finite();
                let least = if never { &0.0 } else { least };
                let (low, high) = exact[player][part].of(Probe::High);
                prop_assert!((low - least).abs() < 1e-4, "A {low} {least} {part}");
                prop_assert!((high - most).abs() < 1e-4, "B {high} {most} {part}");
                if never {
                    continue;
                }
                let (low, high) = bounded[player][part].of(Probe::High);
                prop_assert!(low <= least + 1e-4, "bounded {low} {least} {part}");
                prop_assert!(high >= most - 1e-4, "bounded {high} {most} {part}");
                // 0.5 % for the directions, and the cosine of half the angle between a power factor
                // of 1 and one of 0.75.
                // A current is no part of the bound.
                if !two && !matches!(allowance, Some(Allowance::Amps(_))) {
                    prop_assert!(high <= most * 1.005 / 0.935 + 1e-3, "{high} {most}");
                }
            }
        }
    }
}

/// Twelve alike and one: 26 combinations, not 8192, so nothing is bounded.
#[test]
fn equal_devices_are_not_told_apart() {
    let device = |line: f64, amps: f64| Player {
        parts: [(Command::Off, 0.0), (Command::High, amps)]
            .map(|(command, amps)| load(command, real(line), real(amps / 120.0)).into())
            .to_vec(),
        class: AllowanceClass::Free,
        moves_water: false,
        together: None,
        windings: [0.0, 0.0],
    };
    let mut players = vec![device(120.0, 1.0); 12];
    players.push(device(-120.0, 2.0));
    let found = extremes_within(&players, 1, None, 26);
    // One of them with the other: in series 1/3 and 2/3 of 240 V the other way round.
    let most = |player: usize| found[player][1].of(Probe::High).1;
    assert!((most(0) - 160.0).abs() < 1e-6 && (most(7) - 160.0).abs() < 1e-6, "{}", most(0));
    // All twelve with it: 12/14 of 240 V.
    assert!((most(12) - 240.0 * 12.0 / 14.0).abs() < 1e-6, "{}", most(12));
}
