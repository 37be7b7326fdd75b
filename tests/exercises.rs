mod common;
use lidsheet::decide::exercises::{Kind, exercises};
use std::collections::BTreeMap;
#[test]
fn look() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let text = std::fs::read_to_string(format!("specs/{name}.yaml")).unwrap();
        let board = common::sound_with_tables(&text, "specs");
        for count in [20, 50, 400] {
            let at = std::time::Instant::now();
            let all = exercises(&board, count, 1);
            let ms = at.elapsed().as_secs_f64() * 1e3;
            let mut by: BTreeMap<(Kind, u8), usize> = BTreeMap::new();
            for e in &all {
                *by.entry((e.kind(), e.level)).or_default() += 1;
            }
            eprintln!("{name} {count}: {} in {ms:.1} ms {by:?}", all.len());
        }
        if name == "heron-8" {
            for e in exercises(&board, 12, 1) {
                eprintln!("{e:?}\n");
            }
        }
    }
}
