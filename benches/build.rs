//! How long it takes to compile boards into wiring sheets, and how much memory it takes.
//!
//! `cargo bench --bench build` prints, for each board in `specs`, a cold build (a whole process of
//! the release program, from nothing on the disk to all files written) and a warm one (in this
//! process, with a typesetter that has set the board before, nothing written); then a thousand
//! generated boards in one process on one thread and on two, and what each of them takes of the
//! processor; then boards at the limits of the language. Medians, with the fastest beside
//! them: on a busy machine the fastest says more. Compare runs of one sitting.
#![allow(clippy::print_stdout)]

#[path = "../tests/suite/generate/boards/mod.rs"]
mod boards;
#[path = "../tests/suite/generate/largest.rs"]
#[allow(dead_code)]
mod largest;

use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Mutex;
use std::thread::sleep;
use std::time::{Duration, Instant};

use lidsheet::board;
use lidsheet::build::{Order, Progress, run};
use lidsheet::diagnostic::Problems;
use lidsheet::page::{Paper, lay_out};
use lidsheet::sheet::{Templates, figures, wiring_sheets};
use lidsheet::source::Sources;
use lidsheet::spec;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use lidsheet::write::pdf;

const PROGRAM: &str = env!("CARGO_BIN_EXE_lidsheet");
const SPECS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/specs");
const BOARDS: u32 = 1_000;
const COLD_ROUNDS: usize = 15;
const WARM_ROUNDS: usize = 60;
const GENERATED_ROUNDS: usize = 3;

fn main() -> io::Result<()> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("build-bench");
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder)?;

    for name in ["wren-3", "heron-8", "curlew-10"] {
        let source = Path::new(SPECS).join(format!("{name}.yaml"));
        let mut runs = Vec::new();
        for round in 0..COLD_ROUNDS {
            runs.push(build(&source, &folder.join(format!("{name}-{round}")), 1)?);
        }
        println!("{name:9} cold  {}", told(&runs));
        let mut set = Typesetter::new();
        let times: Vec<Duration> = (0..WARM_ROUNDS).map(|_| warm(name, &mut set)).collect();
        println!("{name:9} warm  {}", spread(times));
    }

    let specs = folder.join("generated");
    fs::create_dir_all(&specs)?;
    for seed in 0..BOARDS {
        let text = boards::generate(u64::from(seed));
        fs::write(specs.join(format!("board-{seed:04}.yaml")), text)?;
    }
    for threads in [1, 2] {
        let mut runs = Vec::new();
        for round in 0..GENERATED_ROUNDS {
            let out = folder.join(format!("generated-{threads}-{round}"));
            runs.push(build(&specs, &out, threads)?);
            fs::remove_dir_all(&out)?;
        }
        println!("{BOARDS} generated boards, threads: {threads}  {}", told(&runs));
    }
    let mut each = of_each(&specs, &folder.join("generated-each"));
    each.sort();
    let at = |part: usize| each[(each.len() - 1) * part / 100].as_secs_f64() * 1000.0;
    println!(
        "processor time of each generated board: median {:.1} ms, nine of ten {:.1} ms, worst {:.1} ms",
        at(50),
        at(90),
        at(100)
    );
    for (name, text) in [("64 headers", many_headers()), ("64 jumpers", many_jumpers())] {
        let specs = folder.join(name);
        fs::create_dir_all(&specs)?;
        fs::write(specs.join("board.yaml"), text)?;
        let mut runs = Vec::new();
        for round in 0..GENERATED_ROUNDS {
            runs.push(build(&specs, &folder.join(format!("{name}-{round}")), 1)?);
        }
        println!("a board with {name}  {}", told(&runs));
    }
    Ok(())
}

/// What each board in a folder takes of the processor, once all are checked, on one thread of this process.
fn of_each(specs: &Path, out: &Path) -> Vec<Duration> {
    let order = Order {
        paths: vec![specs.to_owned()],
        out: out.to_owned(),
        paper: Paper::A4,
        languages: vec![lidsheet::words::english()],
        templates: None,
        threads: Some(1),
        prune: false,
        png: None,
        field_page: false,
    };
    let done: Mutex<Vec<Duration>> = Mutex::default();
    let start = Instant::now();
    let note = |progress| {
        if progress == Progress::Done {
            let now = processor_time().unwrap_or_else(|| start.elapsed());
            done.lock().expect("no thread has panicked").push(now);
        }
    };
    run(&order, &note, &|| false);
    let done = done.into_inner().expect("no thread has panicked");
    done.windows(2).map(|pair| pair[1].saturating_sub(pair[0])).collect()
}

/// What this thread has taken of the processor; `None` where the system does not tell.
fn processor_time() -> Option<Duration> {
    let told = fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    told.split_whitespace().next()?.parse().ok().map(Duration::from_nanos)
}

/// As much as the language allows: 64 headers and jumpers, 16 groups, some 230 layouts: their numbers have gaps.
fn many_headers() -> String {
    let knobs = boards::Knobs {
        parts: 3,
        supplies: 5,
        groups: 14,
        isolated: 2,
        links: 2,
        jumpers: 64,
        fuses: 64,
        headers: 64,
        columns: 12,
        layouts: 230,
        banks: 3,
        panels: 2,
        iec: false,
        awkward: false,
    };
    boards::board(&knobs, 0)
}

/// Twelve headers and 64 jumpers, of which 52 feed nothing.
fn many_jumpers() -> String {
    let mut text = largest::board();
    for (index, group) in ["A", "B", "C", "D", "E", "F"].into_iter().enumerate() {
        let (was, x, y) = (60 + 70 * index, 110 + 180 * (index % 3), 20 + 30 * (index / 3));
        let moved = format!("{group}: {{ part: main, at: [{x}, {y}], tabs: 20");
        text = text.replace(&format!("{group}: {{ part: main, at: [{was}, 20], tabs: 8"), &moved);
    }
    let (before, after) = text.split_once("sockets:").expect("it has sockets");
    let mut board = before.to_owned();
    for index in 0..52 {
        let (x, y) = (20 + index % 26 * 22, 100 + 20 * (index / 26));
        let shipped = ["A", "B", "C", "D", "E", "F"][index % 6];
        writeln!(
            board,
            "  W{}: {{ part: main, at: [{x}, {y}], groups: [A, B, C, D, E, F], shipped: {shipped} }}",
            index + 13
        )
        .expect("a String takes all");
    }
    board + "sockets:" + after
}

/// One whole process.
struct Run {
    time: Duration,
    /// The most memory that it held, KiB; `None` where the system does not tell.
    peak_kib: Option<u64>,
}

/// Runs `lidsheet build` in a process of its own.
fn build(source: &Path, out: &Path, threads: u32) -> io::Result<Run> {
    let start = Instant::now();
    let mut child = Command::new(PROGRAM)
        .args(["build", "--quiet", "--threads", &threads.to_string(), "--out"])
        .args([out, source])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()?;
    let status = format!("/proc/{}/status", child.id());
    let mut peak_kib = None;
    // The high-water mark never falls, so the last one read is the peak but for what came in the
    // half millisecond after it.
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

/// The time from the file's text to the bytes of its PDF.
fn warm(name: &str, set: &mut Typesetter) -> Duration {
    let start = Instant::now();
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let bytes = fs::read(Path::new(SPECS).join(format!("{name}.yaml"))).expect("it is there");
    let mut load = |path: &str| fs::read(Path::new(SPECS).join(path)).map_err(|e| e.to_string());
    let board = spec::admit(name, bytes, &mut sources, &mut problems)
        .and_then(|file| spec::parse(file, &mut sources, &mut load, &mut problems))
        .and_then(|spec| board::check(&spec, &sources, &mut problems))
        .expect("the board is sound");
    let templates = Templates::built_in(&mut sources);
    let figures = figures(&board, &Words::english(), set, Paper::A4);
    let document = wiring_sheets(&board, &figures, &templates, Paper::A4, &mut problems)
        .expect("the templates are sound");
    let file = pdf(&lay_out(&document, Paper::A4, set)).expect("a file");
    assert!(!file.is_empty());
    start.elapsed()
}

fn told(runs: &[Run]) -> String {
    let memory = runs.iter().filter_map(|run| run.peak_kib).max();
    let memory =
        memory.map_or(String::new(), |kib| format!(", at most {:.1} MiB", kib as f64 / 1024.0));
    spread(runs.iter().map(|run| run.time).collect()) + &memory
}

fn spread(mut times: Vec<Duration>) -> String {
    times.sort();
    let ms = |time: Duration| time.as_secs_f64() * 1000.0;
    let (middle, first) = (times[times.len() / 2], times[0]);
    format!("median {:9.1} ms, fastest {:9.1} ms", ms(middle), ms(first))
}
