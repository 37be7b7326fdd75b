//! What a board costs, and how that grows: `cargo bench --bench cost`.
//!
//! Boards of growing sizes are compiled in this process (read, checked, all sheets made, nothing written), each
//! of a few made-up ones, and the median is taken; then two hundred boards by more threads of one process, and by
//! eight workers that share nothing, as on a farm. Beside each stands how it compares with the figures that are
//! kept in `benches/figures.txt` (those of the last edition); `-- --keep` takes the new ones in their place.
//! `benches/cost.svg` is drawn anew. Compare ratios, not milliseconds: no two machines are alike.
#![allow(clippy::print_stdout)]

#[path = "../tests/suite/generate/boards/mod.rs"]
mod boards;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use boards::Knobs;
use lidsheet::build;
use lidsheet::compile::{self, Content, SheetKind, SheetOptions};
use lidsheet::page::Paper;
use lidsheet::text::Typesetter;
use lidsheet::words::english;
use lidsheet::write;

const PROGRAM: &str = env!("CARGO_BIN_EXE_lidsheet");
const HERE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/benches");
/// So many made-up boards of each size.
const SEEDS: u64 = 3;
const BOARDS: u64 = 200;
const WORKERS: usize = 8;

/// One line of the drawing: what grows, and what it costs.
struct Sweep {
    name: &'static str,
    unit: &'static str,
    points: Vec<(usize, f64)>,
}

fn main() {
    let keep = std::env::args().any(|argument| argument == "--keep");
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("cost-bench");
    let _ = fs::remove_dir_all(&folder);
    let mut sweeps = vec![
        sweep("headers", &[4, 8, 16, 24, 40, 64], |knobs, size| knobs.headers = size),
        sweep("jumpers", &[0, 4, 8, 16, 32, 64], |knobs, size| {
            knobs.headers = 64;
            knobs.jumpers = size;
        }),
        sweep("layouts", &[1, 10, 40, 100, 160], |knobs, size| {
            knobs.columns = 12;
            knobs.layouts = size;
        }),
    ];
    sweeps.push(of_threads(&folder));
    let mut figures = BTreeMap::new();
    for Sweep { name, unit, points } in &sweeps {
        for (size, cost) in points {
            figures.insert(format!("{name} {size:3} ({unit})"), *cost);
        }
    }
    figures.insert("known by its mark (ms a board)".to_owned(), of_a_hit());
    figures.insert(format!("{WORKERS} workers (s for {BOARDS})"), of_workers(&folder));
    let path = Path::new(HERE).join("figures.txt");
    let kept = read(&path);
    for (name, cost) in &figures {
        let beside = kept.get(name).map(|kept| format!("{:.2} of what is kept", cost / kept));
        println!("{name:36} {cost:9.2}   {}", beside.unwrap_or_else(|| "new".to_owned()));
    }
    if keep {
        let lines: String =
            figures.iter().map(|(name, cost)| format!("{name}\t{cost:.2}\n")).collect();
        fs::write(path, lines).expect("it can be kept");
    }
    fs::write(Path::new(HERE).join("cost.svg"), drawing(&sweeps)).expect("it can be drawn");
}

fn knobs() -> Knobs {
    Knobs {
        parts: 2,
        supplies: 3,
        groups: 5,
        isolated: 1,
        links: 1,
        jumpers: 8,
        fuses: 8,
        headers: 16,
        columns: 6,
        layouts: 20,
        banks: 1,
        panels: 1,
        iec: false,
        awkward: false,
    }
}

fn sweep(name: &'static str, sizes: &[usize], set: impl Fn(&mut Knobs, usize)) -> Sweep {
    let cost = |size: usize| {
        let mut knobs = knobs();
        set(&mut knobs, size);
        let texts: Vec<String> = (0..SEEDS).map(|seed| boards::board(&knobs, seed)).collect();
        let mut types = Typesetter::new();
        let mut costs: Vec<f64> = texts.iter().map(|text| compile(text, &mut types)).collect();
        costs.sort_by(f64::total_cmp);
        costs[costs.len() / 2]
    };
    Sweep {
        name,
        unit: "ms a board",
        points: sizes.iter().map(|&size| (size, cost(size))).collect(),
    }
}

/// Milliseconds from a text to the bytes of all its documents.
fn compile(text: &str, types: &mut Typesetter) -> f64 {
    let look = SheetOptions::new(Paper::A4, english(), Default::default());
    let start = Instant::now();
    let mut checked = build::check_bytes("board.yaml", text.into(), Path::new("."));
    assert!(matches!(checked.content, Content::Board(_)), "a made-up board is sound");
    for kind in SheetKind::OF_BOARD {
        // A board that is too full for its plan is refused there, and has no fault finder where no job can be
        // planned.
        if let Ok(Some(made)) = compile::sheet_pages(&mut checked, kind, &look, types) {
            write::pdf(&made.pages).expect("pages can be written");
        }
    }
    start.elapsed().as_secs_f64() * 1000.0
}

/// Milliseconds to learn that a board's sheets are there already: it is read and checked, and its mark is
/// computed.
fn of_a_hit() -> f64 {
    let texts: Vec<String> = (0..200).map(boards::generate).collect();
    let start = Instant::now();
    for text in &texts {
        let checked = build::check_bytes("board.yaml", text.as_str().into(), Path::new("."));
        match &checked.content {
            Content::Board(board) => {
                drop(std::hint::black_box(compile::mark_of_board(board).to_string()))
            }
            _ => panic!("a made-up board is sound"),
        }
    }
    start.elapsed().as_secs_f64() * 1000.0 / texts.len() as f64
}

/// Specifications in so many folders, one after the other in turn.
fn specifications(folder: &Path, count: usize) -> Vec<PathBuf> {
    let folders: Vec<PathBuf> = (0..count).map(|it| folder.join(format!("{count}-{it}"))).collect();
    folders.iter().for_each(|folder| fs::create_dir_all(folder).expect("it can be made"));
    for seed in 0..BOARDS {
        let path = folders[seed as usize % count].join(format!("board-{seed:04}.yaml"));
        fs::write(path, boards::generate(seed)).expect("it can be written");
    }
    folders
}

fn build(specs: &Path, threads: usize) -> Child {
    let out = specs.with_extension("out");
    let _ = fs::remove_dir_all(&out);
    let mut command = Command::new(PROGRAM);
    command.args(["build", "--threads", &threads.to_string(), "--out"]).arg(out).arg(specs);
    command.stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("it starts")
}

fn of_threads(folder: &Path) -> Sweep {
    let specs = specifications(folder, 1);
    let cost = |threads: usize| {
        let start = Instant::now();
        build(&specs[0], threads).wait().expect("it ends");
        start.elapsed().as_secs_f64()
    };
    Sweep {
        name: "threads",
        unit: "s for 200",
        points: [1, 2, 4, 8].into_iter().map(|threads| (threads, cost(threads))).collect(),
    }
}

/// Seconds that workers take that share nothing, all of them on this machine.
fn of_workers(folder: &Path) -> f64 {
    let specs = specifications(folder, WORKERS);
    let start = Instant::now();
    let workers: Vec<Child> = specs.iter().map(|specs| build(specs, 1)).collect();
    for mut worker in workers {
        worker.wait().expect("it ends");
    }
    let took: Duration = start.elapsed();
    took.as_secs_f64()
}

fn read(path: &Path) -> BTreeMap<String, f64> {
    let text = fs::read_to_string(path).unwrap_or_default();
    let line = |line: &str| {
        let (name, cost) = line.split_once('\t')?;
        Some((name.to_owned(), cost.parse().ok()?))
    };
    text.lines().filter_map(line).collect()
}

/// A panel for each sweep, beside each other; both axes begin at nought.
fn drawing(sweeps: &[Sweep]) -> String {
    let (width, height, gap) = (170.0, 130.0, 60.0);
    let total = gap + sweeps.len() as f64 * (width + gap);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {total} {}\" \
         font-family=\"sans-serif\" font-size=\"11\" role=\"img\">\n\
         <title>What a board costs against its size</title>\n\
         <rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n",
        height + 90.0
    );
    for (index, Sweep { name, unit, points }) in sweeps.iter().enumerate() {
        let (left, bottom) = (gap + index as f64 * (width + gap), 40.0 + height);
        let most_size = points.iter().map(|it| it.0).max().unwrap_or(1) as f64;
        let most_cost = points.iter().map(|it| it.1).fold(f64::MIN_POSITIVE, f64::max);
        let place = |(size, cost): &(usize, f64)| {
            (left + width * *size as f64 / most_size, bottom - height * cost / most_cost)
        };
        let line: Vec<String> =
            points.iter().map(place).map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
        // Writing to a text cannot fail.
        let _ = write!(
            svg,
            "<text x=\"{left}\" y=\"24\" font-weight=\"bold\">{unit}</text>\n\
             <path d=\"M{left} 40V{bottom}H{}\" fill=\"none\" stroke=\"#444\"/>\n\
             <polyline points=\"{}\" fill=\"none\" stroke=\"#0b5c8a\" stroke-width=\"2\"/>\n\
             <text x=\"{}\" y=\"{}\" text-anchor=\"middle\">{name}</text>\n\
             <text x=\"{}\" y=\"44\" text-anchor=\"end\">{most_cost:.1}</text>\n",
            left + width,
            line.join(" "),
            left + width / 2.0,
            bottom + 34.0,
            left - 4.0,
        );
        for point in points {
            let (x, y) = place(point);
            let _ = write!(
                svg,
                "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"3\" fill=\"#0b5c8a\"/>\n\
                 <text x=\"{x:.1}\" y=\"{}\" text-anchor=\"middle\">{}</text>\n",
                bottom + 16.0,
                point.0
            );
        }
    }
    svg + "</svg>\n"
}
