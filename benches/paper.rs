//! How long the six pages of the common benchmark take, from `Document` to PDF bytes, in a warm
//! process on one thread. On a busy machine the fastest round says most.
//! `cargo bench --bench paper` prints milliseconds a document, and then the ratios of other typesetters to
//! ours: `typesetters.py` runs this program, as `new COUNT DIR` or `kept COUNT DIR`, beside them, where there
//! is Python and a package index. With `-- --write DIR` it writes the pages to look at.
#![allow(clippy::print_stdout)]

#[path = "../tests/suite/generate/specimen.rs"]
mod specimen;

use std::path::Path;
use std::process::Command;
use std::time::Instant;

use lidsheet::page::{Paper, lay_out};
use lidsheet::text::Typesetter;
use lidsheet::write::pdf;

const ROUNDS: u32 = 200;

fn main() {
    let arguments: Vec<String> = std::env::args().collect();
    if let [_, mode @ ("new" | "kept"), count, folder] =
        arguments.iter().map(String::as_str).collect::<Vec<_>>()[..]
    {
        let count = count.parse().expect("a number of documents");
        beside_others(mode == "kept", count, Path::new(folder));
        return;
    }
    let start = Instant::now();
    let mut types = Typesetter::new();
    let fonts = start.elapsed().as_secs_f64();
    if let Some(at) = arguments.iter().position(|argument| argument == "--write") {
        let folder = Path::new(&arguments[at + 1]);
        for (name, paper, document) in [
            ("six-pages.pdf", Paper::A4, specimen::six_pages(&mut types, 1)),
            ("everything.pdf", Paper::A4, specimen::everything(&mut types)),
            ("everything-a5.pdf", Paper::A5, specimen::everything(&mut types)),
        ] {
            let pages = lay_out(&document, paper, &mut types);
            std::fs::write(folder.join(name), pdf(&pages).expect("a file")).expect("written");
        }
        let drawing = lidsheet::write::svg(&specimen::plan(&mut types, 1));
        std::fs::write(folder.join("plan.svg"), drawing).expect("written");
        return;
    }
    let start = Instant::now();
    let first = specimen::six_pages(&mut types, 1_000_000);
    let _ = pdf(&lay_out(&first, Paper::A4, &mut types)).expect("a file");
    let cold = start.elapsed().as_secs_f64();
    println!("cold: typesetter {:.3} ms, first document {:.3} ms", fonts * 1e3, cold * 1e3);
    let documents: Vec<_> =
        (0..ROUNDS).map(|seed| specimen::six_pages(&mut types, u64::from(seed))).collect();
    let (mut laying, mut writing, mut bytes) = (0.0, 0.0, 0);
    let mut times = Vec::new();
    let mut busy = 0.0;
    for (round, document) in documents.iter().enumerate() {
        let start = Instant::now();
        let pages = lay_out(document, Paper::A4, &mut types);
        let laid = start.elapsed().as_secs_f64();
        let file = pdf(&pages).expect("a file");
        let all = start.elapsed().as_secs_f64();
        // The first rounds warm the caches.
        if round == 20 {
            busy = processor_time();
        }
        if round >= 20 {
            laying += laid;
            writing += all - laid;
            times.push(all);
        }
        bytes = file.len();
    }
    busy = processor_time() - busy;
    times.sort_by(f64::total_cmp);
    let count = times.len() as f64;
    println!("processor time {:.3} ms a document", busy / (count - 1.0) * 1e3);
    println!(
        "fastest {:.3} ms, median {:.3} ms, mean {:.3} ms a document (lay out {:.3}, write {:.3}), {bytes} bytes",
        times[0] * 1e3,
        times[times.len() / 2] * 1e3,
        (laying + writing) / count * 1e3,
        laying / count * 1e3,
        writing / count * 1e3
    );
    beside_typesetters();
}

/// The same pages by other typesetters, in turns with ours.
fn beside_typesetters() {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/typesetters.py");
    let ours = std::env::current_exe().expect("a program knows where it is");
    let ended = Command::new("python3").arg(script).arg("--program").arg(ours).status();
    if !ended.is_ok_and(|status| status.success()) {
        println!("left out: other typesetters, which need Python and a package index");
    }
}

/// Makes documents as `pages.py` does, from content to a file on the disk, and prints the seconds
/// of each as a JSON list. One typesetter for all of them, or a new one for each.
fn beside_others(kept: bool, count: u64, folder: &Path) {
    let mut types = Typesetter::new();
    let mut seconds = Vec::new();
    for seed in 0..count {
        let start = Instant::now();
        if !kept && seed > 0 {
            types = Typesetter::new();
        }
        let document = specimen::six_pages(&mut types, seed);
        let pages = lay_out(&document, Paper::A4, &mut types);
        let file = pdf(&pages).expect("a file");
        std::fs::write(folder.join(format!("lidsheet-{seed}.pdf")), file).expect("written");
        seconds.push(start.elapsed().as_secs_f64());
    }
    println!("{seconds:?}");
}

/// Seconds that this process has computed; 0 where the system does not tell.
fn processor_time() -> f64 {
    let schedule = std::fs::read_to_string("/proc/self/schedstat").unwrap_or_default();
    let nanoseconds = schedule.split(' ').next().and_then(|first| first.parse::<f64>().ok());
    nanoseconds.unwrap_or_default() / 1e9
}
