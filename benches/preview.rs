//! How long it takes from a saved file to the new picture: `cargo bench --bench preview`.
//!
//! The program itself serves a copy of each demo board. A file is saved, the news is waited for, and all pages
//! that are new are fetched over the socket, as the browser does. `one page` changes a word of the first page,
//! `all pages` the name in the head of each. Median, fastest and slowest of the rounds; on a busy machine the
//! fastest says more.
#![allow(clippy::print_stdout)]

#[path = "../tests/suite/readers/served.rs"]
mod served;

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::thread::sleep;
use std::time::{Duration, Instant};

use served::Served;

const PROGRAM: &str = env!("CARGO_BIN_EXE_lidsheet");
const SPECS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/specs");
const ROUNDS: usize = 40;

fn main() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("preview-bench");
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    let table = "curlew-10-layouts.csv";
    fs::copy(Path::new(SPECS).join(table), folder.join(table)).expect("a copy");
    for (board, name, title) in [
        ("wren-3", "name: Wren 3", "en: Pump 1"),
        ("heron-8", "name: Heron 8", "en: Pump 1"),
        ("curlew-10", "name: Curlew 10", "en: Pump 1"),
    ] {
        let path = folder.join(format!("{board}.yaml"));
        let text =
            fs::read_to_string(Path::new(SPECS).join(format!("{board}.yaml"))).expect("text");
        fs::write(&path, &text).expect("written");
        let served = Served::start(Path::new(PROGRAM), &folder, &[&format!("{board}.yaml")]);
        let mut events = served.listen("");
        let first = events.next("shown");
        assert_eq!(first["standing"], "fresh", "{first}");
        let mut known = ids(&first);
        for (what, word) in [("one page", title), ("all pages", name)] {
            let mut times = Vec::new();
            for round in 0..ROUNDS {
                let changed = text.replacen(word, &format!("{word} {round}"), 1);
                assert_ne!(changed, text, "{board}: {word}");
                // Saved at any moment between two looks of the program.
                sleep(Duration::from_millis(150 + 7 * round as u64 % 20));
                let start = Instant::now();
                fs::write(&path, changed).expect("written");
                let shown = events.until(|shown| ids(shown) != known);
                let now = ids(&shown);
                for id in now.difference(&known) {
                    let answer = served.get(&format!("/pages/{id}.svg"));
                    let whole = answer.status == 200 && answer.text().ends_with("</svg>\n");
                    assert!(whole, "{}", answer.head);
                }
                times.push(start.elapsed());
                known = now;
            }
            println!("{board:9} {what:9} {}, {} KiB resident", spread(times), resident(&served));
        }
    }
}

fn ids(shown: &serde_json::Value) -> BTreeSet<String> {
    let pages = shown["pages"].as_array().expect("pages");
    pages.iter().map(|page| page["id"].as_str().expect("an id").to_owned()).collect()
}

fn resident(served: &Served) -> u64 {
    let status = fs::read_to_string(format!("/proc/{}/status", served.process()));
    let status = status.unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"));
    line.and_then(|line| line.trim().strip_suffix("kB")?.trim().parse().ok()).unwrap_or(0)
}

fn spread(mut times: Vec<Duration>) -> String {
    times.sort();
    let ms = |time: Duration| time.as_secs_f64() * 1000.0;
    let (first, middle, last) = (times[0], times[times.len() / 2], times[times.len() - 1]);
    format!(
        "median {:6.1} ms, fastest {:6.1} ms, slowest {:6.1} ms",
        ms(middle),
        ms(first),
        ms(last)
    )
}
