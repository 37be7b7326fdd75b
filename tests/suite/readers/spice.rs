//! A circuit simulator that stands outside of the project: ngspice, a Debian package.

use std::fmt::{self, Write as _};
use std::io::Write as _;
use std::process::{Command, Stdio};

use lidsheet::board::{Conductor, System};

/// The source of a supply conductor against the neutral: volts and degrees.
pub fn source(system: System, conductor: Conductor) -> (f64, f64) {
    match (system, conductor) {
        (_, Conductor::N | Conductor::Pe) => (0.0, 0.0),
        (System::SplitPhase { to_neutral: v }, Conductor::L2) => (v.0, 180.0),
        (System::Wye { to_neutral: v }, Conductor::L2) => (v.0, -120.0),
        (System::Wye { to_neutral: v }, Conductor::L3) => (v.0, 120.0),
        (
            System::SplitPhase { to_neutral: v }
            | System::Wye { to_neutral: v }
            | System::SinglePhase { to_neutral: v },
            _,
        ) => (v.0, 0.0),
    }
}

/// Writes a load between two nodes: an impedance of `ohms` with a lagging power factor of `cos`.
pub fn load(out: &mut String, name: &str, [a, b]: [&str; 2], ohms: f64, cos: f64) -> fmt::Result {
    let (resistance, reactance) = (ohms * cos, ohms * (1.0 - cos * cos).sqrt());
    if reactance > 0.0 {
        let henry = reactance / (2.0 * std::f64::consts::PI * 60.0);
        writeln!(out, "R{name} {a} m{name} {resistance:.12e}")?;
        writeln!(out, "L{name} m{name} {b} {henry:.12e}")
    } else {
        writeln!(out, "R{name} {a} {b} {resistance:.12e}")
    }
}

/// The values that `print mag(…)` gives in the circuit of `text`, in order.
pub fn magnitudes(text: &str) -> Vec<f64> {
    let mut file = tempfile::NamedTempFile::new().expect("a file for the circuit");
    file.write_all(text.as_bytes()).expect("it is written");
    let output = Command::new("ngspice")
        .arg("-b")
        .arg(file.path())
        .stdin(Stdio::null())
        .output()
        .expect("ngspice runs; install the Debian package of this name");
    let shown = String::from_utf8_lossy(&output.stdout).into_owned();
    let values: Vec<f64> = shown
        .lines()
        .filter_map(|line| line.strip_prefix("mag(")?.split_once(" = ")?.1.trim().parse().ok())
        .collect();
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(!values.is_empty(), "{shown}\n{said}\n{text}");
    values
}
