//! How long it takes to compile boards, and how much memory.
//!
//! `cargo bench --bench build` prints medians: one board by a whole process of the release
//! program, and a thousand generated boards on two threads with the largest memory that the
//! process held. Numbers drift with what else the machine does; compare runs of one sitting.
#![allow(clippy::print_stdout)]

#[path = "../tests/common/boards/mod.rs"]
mod boards;

use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

const PROGRAM: &str = env!("CARGO_BIN_EXE_lidsheet");
const BOARDS: u64 = 1_000;
const ROUNDS: usize = 9;

fn main() -> io::Result<()> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("build-bench");
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder)?;

    for board in ["wren-3", "heron-8", "curlew-10"] {
        let source = format!("{}/specs/{board}.yaml", env!("CARGO_MANIFEST_DIR"));
        let mut runs = Vec::new();
        for round in 0..ROUNDS {
            let out = folder.join(format!("{board}-{round}"));
            runs.push(build(Path::new(&source), &out, 1)?);
        }
        let time = median(runs.iter().map(|run| run.time).collect());
        let memory = runs.iter().filter_map(|run| run.peak_kib).max();
        println!("{board:10} cold, one thread    {}{}", shown(time), held(memory));
    }

    let specs = folder.join("generated");
    fs::create_dir_all(&specs)?;
    for seed in 0..BOARDS {
        fs::write(specs.join(format!("board-{seed:04}.yaml")), boards::generate(seed))?;
    }
    for threads in [1, 2] {
        let out = folder.join(format!("generated-{threads}"));
        let run = build(&specs, &out, threads)?;
        let each = run.time / BOARDS as u32;
        println!(
            "{BOARDS} generated, {threads} threads  {}, {} each{}",
            shown(run.time),
            shown(each),
            held(run.peak_kib)
        );
    }
    Ok(())
}

struct Run {
    time: Duration,
    /// The most memory that the process held, KiB; `None` where the system does not tell.
    peak_kib: Option<u64>,
}

/// Runs `lidsheet build` in a process of its own.
fn build(source: &Path, out: &Path, threads: u32) -> io::Result<Run> {
    let start = Instant::now();
    let mut child = Command::new(PROGRAM)
        .arg("build")
        .arg(source)
        .arg("--out")
        .arg(out)
        .arg("--quiet")
        .env("RAYON_NUM_THREADS", threads.to_string())
        .stdout(Stdio::null())
        .spawn()?;
    let status = format!("/proc/{}/status", child.id());
    let mut peak_kib = None;
    // The high-water mark never falls, so the last one read before the end is the peak but for
    // the last millisecond.
    let end = loop {
        if let Some(end) = child.try_wait()? {
            break end;
        }
        peak_kib = fs::read_to_string(&status).ok().and_then(|text| high_water(&text)).or(peak_kib);
        sleep(Duration::from_micros(500));
    };
    let time = start.elapsed();
    if !end.success() {
        return Err(io::Error::other(format!("building {} gave {end}", source.display())));
    }
    Ok(Run { time, peak_kib })
}

/// `VmHWM` of a Linux process status, KiB.
fn high_water(status: &str) -> Option<u64> {
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.trim().strip_suffix("kB")?.trim().parse().ok()
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times[times.len() / 2]
}

fn shown(time: Duration) -> String {
    format!("{:8.1} ms", time.as_secs_f64() * 1000.0)
}

fn held(peak_kib: Option<u64>) -> String {
    peak_kib.map_or(String::new(), |kib| format!(", at most {:.1} MiB", kib as f64 / 1024.0))
}
