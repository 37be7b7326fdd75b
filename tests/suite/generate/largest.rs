//! The largest sensible board and job: 12 devices, 64 layouts, 6 groups for every jumper.

use std::fmt::Write;

/// Three lines of 230 V with two groups on each, and a jumper for every header.
pub fn board() -> String {
    let mut out = String::from(
        "lidsheet: 1
board: { name: Largest, maker: Otterbrook Controls, part: OC-1, revision: A, dated: 2026-01-01, summary: Large., max current: 63 A }
parts:
  main: { size: [600, 300], at: [0, 0] }
terminals:
  T1: { part: main, at: [10, 10] }
  T2: { part: main, at: [10, 30] }
  T3: { part: main, at: [10, 50] }
  T4: { part: main, at: [10, 70] }
  TG: { part: main, at: [10, 90], ground: true }
supplies:
  three-line: { title: Three lines, system: wye 230/400 V, lands: { T1: L1, T2: L2, T3: L3, T4: N, TG: PE } }
groups:
",
    );
    for (index, name) in ["A", "B", "C", "D", "E", "F"].iter().enumerate() {
        let line = index % 3 + 1;
        let x = 60 + index * 70;
        writeln!(
            out,
            "  {name}: {{ part: main, at: [{x}, 20], tabs: 8, between: [T{line}, T4], volts: 230 }}"
        )
        .expect("a String takes all");
    }
    out += "jumpers:\n";
    for index in 0..12 {
        let (x, shipped) = (40 + index * 45, ["A", "B", "C"][index % 3]);
        writeln!(
            out,
            "  W{}: {{ part: main, at: [{x}, 80], groups: [A, B, C, D, E, F], shipped: {shipped} }}",
            index + 1
        )
        .expect("a String takes all");
    }
    out += "sockets:
  mains-4: { title: Four-way socket, pitch: 5 mm, key drawn: right, pins: [ground, common, low, high] }
headers:
";
    let devices = [
        "heater",
        "circulation",
        "ozonator",
        "pump 1",
        "pump 2",
        "pump 3",
        "pump 4",
        "pump 5",
        "pump 6",
        "blower",
        "light",
        "sound",
    ];
    for (index, device) in devices.iter().enumerate() {
        writeln!(
            out,
            "  J{0}: {{ title: {device}, part: main, at: [{1}, 160], socket: mains-4, key: right, jumper: W{0}, max: 20 A, serves: {device} }}",
            index + 1,
            40 + index * 45
        )
        .expect("a String takes all");
    }
    out += "heater: { watts: 3000, at volts: 230 }
layouts:
  columns: [circulation, pump 1, pump 2, pump 3, pump 4, pump 5, pump 6, blower]
  rows:
";
    for number in 0..64_u32 {
        // The last has everything: three pumps with two speeds, three with one.
        let bit = |at: u32| number >> at & 1;
        let pump = |at: u32, speeds: u32| bit(at) * speeds;
        writeln!(
            out,
            "    {}: [{}, 2, {}, {}, {}, {}, {}, {}]",
            number + 1,
            bit(0),
            pump(1, 2),
            pump(2, 2),
            pump(3, 1),
            pump(4, 1),
            pump(5, 1),
            u32::from(number > 5)
        )
        .expect("a String takes all");
    }
    out += "switches:
  S1:
    part: main
    at: [300, 230]
    on side: up
    ways:
      1-2:
        effect: heater allowance
        settings: { off off: 0, on off: 2, off on: 4, on on: 7 }
        shipped: off off
";
    out
}

/// Twelve devices, no two alike, behind a breaker of `breaker`.
pub fn job(breaker: u32, power_factors: bool) -> String {
    let mut out = format!(
        "lidsheet: 1
job: largest
board: ../board.yaml
supply: three-line
breaker: {breaker} A
supply run: {{ length: 22 m, conductor: 10 mm2 copper }}
equipment:
"
    );
    for (device, speeds, amps) in [
        ("circulation", "1", "1.37"),
        ("pump", "2", "{ low: 3.11, high: 9.83 }"),
        ("pump", "2", "{ low: 2.87, high: 8.91 }"),
        ("pump", "2", "{ low: 3.43, high: 10.27 }"),
        ("pump", "1", "7.19"),
        ("pump", "1", "8.03"),
        ("pump", "1", "6.61"),
        ("blower", "1", "4.73"),
        ("ozonator", "1", "0.31"),
        ("light", "1", "0.97"),
        ("sound", "1", "1.13"),
    ] {
        let factor = if power_factors && device != "light" {
            format!(", power factor: 0.{}", 80 + speeds.len() + amps.len())
        } else {
            String::new()
        };
        writeln!(
            out,
            "  - {{ device: {device}, speeds: {speeds}, volts: 230, amps: {amps}{factor} }}"
        )
        .expect("a String takes all");
    }
    out
}
