//! A circuit simulator that stands outside of the project: ngspice, a Debian package.

use std::io::Write as _;
use std::process::{Command, Stdio};

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
