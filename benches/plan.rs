//! How many jobs are planned in a second on one thread.
//!
//! `cargo bench --bench plan` plans three jobs again and again, each already read and checked: the
//! worked example 2231 on Heron 8, everything that Curlew 10 can drive on three lines, and a made-up
//! board beyond all sense: 12 devices, 64 layouts, 10 jumpers with 6 groups each that all give the
//! right voltage. Reading the files is timed apart. Compare runs of one sitting.
#![allow(clippy::print_stdout)]

use std::fmt::Write;
use std::fs;
use std::hint::black_box;
use std::path::Path;
use std::time::{Duration, Instant};

use lidsheet::board::{self, Board, Job};
use lidsheet::decide;
use lidsheet::diagnostic::Problems;
use lidsheet::source::Sources;
use lidsheet::spec;

const SPECS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/specs");
/// How long each job is planned.
const SPAN: Duration = Duration::from_secs(2);

fn main() {
    let text = |name: &str| fs::read_to_string(Path::new(SPECS).join(name)).expect("it is there");
    for (name, board, job) in [
        ("2231 on Heron 8", text("heron-8.yaml"), text("jobs/2231.yaml")),
        ("2239 on Curlew 10, all fitted", text("curlew-10.yaml"), text("jobs/2239.yaml")),
        ("12 devices, 64 layouts, 3 + 3 groups", largest_board(false), largest_job()),
        ("12 devices, 64 layouts, 6 alike", largest_board(true), largest_job()),
    ] {
        let reading = Instant::now();
        let (board, job) = read(&board, &job);
        let reading = reading.elapsed();
        let plan = decide::plan(&board, &job);
        let (_, wiring) = plan.sound().unwrap_or_else(|| panic!("{:#?}", plan.findings));
        let optimal = wiring.optimal;
        let (mut count, mut fastest, start) = (0_u32, Duration::MAX, Instant::now());
        while start.elapsed() < SPAN {
            let one = Instant::now();
            black_box(decide::plan(black_box(&board), black_box(&job)));
            fastest = fastest.min(one.elapsed());
            count += 1;
        }
        let rate = f64::from(count) / start.elapsed().as_secs_f64();
        println!(
            "{name:38} {rate:9.0} plans a second, fastest {:8.1} µs; read and checked in {:.1} ms{}",
            fastest.as_secs_f64() * 1e6,
            reading.as_secs_f64() * 1e3,
            if optimal { "" } else { "; the search gave up" }
        );
    }
}

fn read(board: &str, job: &str) -> (Board, Job) {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let (board, job) = (sources.add("board.yaml", board), sources.add("job.yaml", job));
    let mut load = |table: &str| fs::read(Path::new(SPECS).join(table)).map_err(|e| e.to_string());
    let board = spec::parse(board, &mut sources, &mut load, &mut problems)
        .and_then(|spec| board::check(&spec, &sources, &mut problems))
        .unwrap_or_else(|_| panic!("{:#?}", problems.sorted()));
    let job = spec::parse_job(job, &sources, &mut problems)
        .and_then(|spec| board::check_job(&spec, &board, &mut problems))
        .unwrap_or_else(|_| panic!("{:#?}", problems.sorted()));
    (board, job)
}

/// Eight jet pumps, a blower, a circulation pump, an ozonator and a heater.
fn largest_board(doubled: bool) -> String {
    let mut text = String::from(
        "lidsheet: 1
board: { name: Albatross 12, maker: Otterbrook Controls, part: OC-12, revision: A, dated: 2026-01-02, summary: A board for a bench. }
parts: { main: { size: [400, 300], at: [0, 0] } }
terminals:
  T1: { part: main, at: [10, 20] }
  T2: { part: main, at: [10, 50] }
  T3: { part: main, at: [10, 80] }
  T4: { part: main, at: [10, 110] }
  TG: { part: main, at: [10, 140], ground: true }
supplies:
  three-line: { title: Three lines, system: wye 230/400 V, lands: { T1: L1, T2: L2, T3: L3, T4: N, TG: PE } }
groups:
",
    );
    let pairs = [("T1", "T4"), ("T2", "T4"), ("T3", "T4")];
    let more = if doubled { pairs } else { [("T1", "T2"), ("T2", "T3"), ("T3", "T1")] };
    for (index, (a, b)) in pairs.into_iter().chain(more).enumerate() {
        let (x, y) = (60 + 110 * (index % 3), 20 + 25 * (index / 3));
        let volts = if b == "T4" { 230 } else { 400 };
        let code = ["A", "B", "C", "D", "E", "F"][index];
        writeln!(text, "  {code}: {{ part: main, at: [{x}, {y}], tabs: 6, between: [{a}, {b}], volts: {volts} }}").expect("text");
    }
    text.push_str("jumpers:\n");
    for index in 0..10 {
        let x = 50 + 30 * index;
        writeln!(
            text,
            "  W{}: {{ part: main, at: [{x}, 90], groups: [A, B, C, D, E, F], shipped: {} }}",
            index + 1,
            ["A", "B", "C"][index % 3]
        )
        .expect("text");
    }
    text.push_str("sockets:\n  power: { title: Power socket, pitch: 6.35 mm, key drawn: right, pins: [ground, common, low, high] }\nheaders:\n");
    let devices =
        "pump 1, pump 2, pump 3, pump 4, pump 5, pump 6, pump 7, pump 8, blower, circulation";
    for (index, device) in devices.split(", ").enumerate() {
        let x = 50 + 30 * index;
        writeln!(text, "  J{}: {{ title: Place {0}, part: main, at: [{x}, 150], socket: power, key: right, jumper: W{0}, serves: {device} }}", index + 1).expect("text");
    }
    text.push_str("  J11: { title: Ozonator, part: main, at: [350, 150], socket: power, key: right, jumper: W10, serves: ozonator }\n");
    text.push_str("  J12: { title: Heater, part: main, at: [380, 150], socket: power, key: right, group: C, serves: heater }\n");
    text.push_str("heater: { watts: 3000, at volts: 230 }\n");
    writeln!(text, "layouts:\n  columns: [{devices}]\n  rows:").expect("text");
    // Rows count down in six bits, so that the last one has everything.
    for row in 0..64_u32 {
        let bit = |at: u32| row >> at & 1;
        let pumps: Vec<String> = (0..8)
            .map(|pump| match pump {
                0..=1 => 1 + u32::from(pump == 0),
                2..=5 => bit(pump - 2),
                _ => u32::from(row == 63),
            })
            .map(|speeds| speeds.to_string())
            .collect();
        writeln!(text, "    {}: [{}, {}, {}]", row + 1, pumps.join(", "), bit(4), bit(5))
            .expect("text");
    }
    text.push_str("switches:\n  S1:\n    part: main\n    at: [350, 230]\n    on side: up\n    ways:\n      1-2: { effect: heater allowance, settings: { off off: 0, on off: 2, off on: 4, on on: 9 }, shipped: off off }\n");
    text.push_str("panels:\n  keys: { title: Keys, choose layout: \"1. Press **Up** until **{{ layout }}** is shown.\" }\n");
    text
}

fn largest_job() -> String {
    let mut text = String::from(
        "lidsheet: 1\njob: bench\nboard: board.yaml\nsupply: three-line\nbreaker: 32 A\nequipment:\n  - { device: pump, speeds: 2, volts: 230, amps: { low: 2.9, high: 9.7 } }\n",
    );
    for amps in ["9.4", "9.1", "8.8", "8.3", "7.9", "7.6", "7.2"] {
        writeln!(text, "  - {{ device: pump, speeds: 1, volts: 230, amps: {amps} }}")
            .expect("text");
    }
    text.push_str("  - { device: blower, volts: 230, amps: 4.3 }\n  - { device: circulation, volts: 230, amps: 1.2 }\n  - { device: ozonator, volts: 230, amps: 0.3 }\n");
    text
}
