//! Wire against breaker, checked against the world: tables as handbooks print them, and worked
//! examples. Every number is from a public reproduction unless its line says otherwise.

use crate::compile::demo;
use crate::oracle::wires::{AMERICAN, EUROPEAN, Judged, american, judged};
use lidsheet::board::{self, Board, Job};
use lidsheet::decide::wire::{CapacityBasis, ThinReason, WireVerdict, above_tables, wire};
use lidsheet::diagnostic::Problems;
use lidsheet::source::Sources;
use lidsheet::spec;
use lidsheet::standards::conductors::Wire;
use lidsheet::standards::{iec, nec};
use lidsheet::units::Amps;

/// NEC table 310.16 and 240.4(D), cell by cell.
#[test]
fn american_ampacities() {
    let mut rows = 0;
    for row in nec::AMPACITY.values {
        let gauge = if row.awg == 0 { "1/0".to_owned() } else { row.awg.to_string() };
        let published = american(&gauge).expect("it is published");
        let aluminum = row.aluminum.unwrap_or_default();
        let found = [row.copper, aluminum].concat();
        assert_eq!(found, published[..4], "{gauge}");
        let small = nec::SMALL_CONDUCTORS.values.iter().find(|(awg, ..)| *awg == row.awg);
        let of = |amps: Option<Amps>| amps.map_or(0.0, |amps| amps.0);
        let largest = small.map_or([0.0; 2], |(_, copper, al)| [copper.0, of(*al)]);
        assert_eq!(largest, published[4..], "{gauge}");
        // A thicker wire never carries less, nor a hotter column.
        assert!(row.copper[0] <= row.copper[1] && aluminum[0] <= aluminum[1], "{gauge}");
        assert!(aluminum[0] < row.copper[0] && aluminum[1] < row.copper[1], "{gauge}");
        rows += 1;
    }
    assert_eq!(rows, AMERICAN.lines().filter(|line| !line.trim().is_empty()).count());
    // The trap: before 2011 the column of 60 °C had 20, 25 and 30 A for 14, 12 and 10.
    let sixty: Vec<f64> = nec::AMPACITY.values.iter().take(3).map(|row| row.copper[0]).collect();
    assert_eq!(sixty, [15.0, 20.0, 30.0]);
}

/// IEC 60364-5-52, tables B.52.2 to B.52.5: the printed cells, and the order that they keep; and the
/// cells of A1 to C as annex D computes some of them: A times the area to the power of m.
#[test]
fn european_capacities() {
    let mut cells = 0;
    for line in EUROPEAN.lines().filter(|line| !line.trim().is_empty()) {
        let words: Vec<&str> = line.split_whitespace().collect();
        let table = iec::CAPACITIES
            .iter()
            .find(|table| table.insulation.word() == words[0] && table.three == (words[1] == "3"))
            .expect("it has a table");
        let method = iec::Method::ALL.iter().position(|method| method.word() == words[2]);
        let row = table.amps[method.expect("it is a method")];
        let published: Vec<f64> = words[3..].iter().map(|word| word.parse().expect("A")).collect();
        assert_eq!(row[..], published, "{line}");
        assert!(row.windows(2).all(|pair| pair[0] < pair[1]), "{line}");
        cells += row.len();
    }
    assert_eq!(cells, 224);
    for table in &iec::CAPACITIES {
        // In air: A2, A1, B2, B1, C.
        for order in [1, 0, 3, 2, 4].windows(2) {
            let less = table.amps[order[0]].iter().zip(&table.amps[order[1]]);
            assert!(less.into_iter().all(|(a, b)| a <= b), "{}", table.clause);
        }
    }
    // Annex D (reproduction): A1, B1, B2 and C of two loaded conductors with PVC, rounded to half an
    // ampere up to 20 A and to one above.
    let rounded = |amps: f64| if amps <= 20.0 { (amps * 2.0).round() / 2.0 } else { amps.round() };
    let pvc = &iec::CAPACITIES[0].amps;
    for (method, a, m) in [(0, 11.2, 0.6118), (2, 13.5, 0.625), (3, 13.1, 0.6), (4, 15.0, 0.625)] {
        for (mm2, amps) in iec::CAPACITY_MM2.iter().zip(pvc[method]) {
            assert_eq!(rounded(a * libm::pow(*mm2, m)), amps, "method {method}, {mm2} mm2");
        }
    }
}

/// The column of 90 °C of NEC 310.16: copper from 14 to 2 as a reproduction prints it; 1 and 1/0, and
/// aluminum, from memory. It is above the column of 75 °C, and never less for a thicker wire.
#[test]
fn the_column_of_90_degrees() {
    let all = nec::AMPACITY_90.values;
    let copper: Vec<f64> = all.iter().map(|(_, copper, _)| *copper).collect();
    assert_eq!(copper, [25.0, 30.0, 40.0, 55.0, 75.0, 95.0, 115.0, 130.0, 145.0, 170.0]);
    for (row, (awg, copper, aluminum)) in nec::AMPACITY.values.iter().zip(all) {
        assert_eq!((row.awg, row.aluminum.is_some()), (*awg, aluminum.is_some()));
        assert!(row.copper[1] < *copper);
        if let (Some(at_75), Some(at_90)) = (row.aluminum, aluminum) {
            assert!(at_75[1] < *at_90 && at_90 < copper, "{awg}");
        }
    }
    assert_eq!(all.len(), nec::AMPACITY.values.len());
    assert!(all.windows(2).all(|two| two[0].1 < two[1].1 && two[0].2 < two[1].2));
}

/// A stated capacity at the limit of the tables is silent, a tenth of an ampere above it is told.
#[test]
fn a_capacity_above_every_table_is_told() {
    let board = demo::board("heron-8");
    for (conductor, most) in [
        ("8 AWG copper", 55.0),
        ("8 AWG aluminum", 45.0),
        ("16 mm2 copper", 107.0),
        ("16 mm2 aluminium", 107.0),
    ] {
        let told = |amps: f64| {
            let run = format!("{conductor}, capacity: {amps} A");
            let job = job(&board, "four-wire", "15 A", &run);
            above_tables(job.run.as_ref().expect("it has one")).map(|found| found.most)
        };
        assert_eq!(told(most), None, "{conductor}");
        assert_eq!(told(most + 0.1), Some(Amps(most)), "{conductor}");
    }
}

/// Aluminum beside copper: chapter 9, table 8 (reproduction), and the ratio of the resistivities,
/// 28.264 to 17.241 (reproduction).
#[test]
fn aluminum_resists_more() {
    let per_km = |word: &str| Wire::parse(word).expect("it is in a table").ohms_per_km();
    for (size, ohms) in [
        ("12", 10.66),
        ("10", 6.693),
        ("8", 4.199),
        ("6", 2.651),
        ("4", 1.667),
        ("3", 1.322),
        ("2", 1.047),
        ("1", 0.830),
        ("1/0", 0.659),
    ] {
        let found = per_km(&format!("{size} AWG aluminum"));
        assert!((found - ohms).abs() < 0.003, "{size}: {found}");
        let ratio = found / per_km(&format!("{size} AWG copper"));
        assert!((1.63..1.66).contains(&ratio), "{size}: {ratio}");
    }
    // The trap: 3.08 ohm is copper of 6 mm² and aluminium of 10 mm².
    let (copper, aluminium) = (per_km("6 mm2 copper"), per_km("10 mm2 aluminium"));
    assert!((copper / aluminium - 1.0).abs() < 0.01);
    // 0.808 ohm in 1000 ft at 75 °C is 0.661 at 20.
    let coefficient = iec::ALUMINIUM_COEFFICIENT;
    assert!((0.808 / (1.0 + coefficient * 55.0) - 0.661).abs() < 0.001);
    // 6 AWG aluminum, 100 ft, 48 A, 240 V: 7.757 V, 3.232 % (arithmetic).
    let lost = 2.0 * 48.0 * per_km("6 AWG aluminum") * 0.03048;
    assert!((lost - 7.757).abs() < 0.002 && (lost / 2.4 - 3.232).abs() < 0.001, "{lost}");
}

/// A job with a breaker and a run.
fn job(board: &Board, supply: &str, breaker: &str, run: &str) -> Job {
    let text = format!(
        "lidsheet: 1\njob: \"1\"\nboard: ../b.yaml\nsupply: {supply}\nbreaker: {breaker}\n\
         supply run: {{ length: 10 m, conductor: {run} }}\nequipment: []\n"
    );
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add("job.yaml", text);
    let spec = spec::parse_job(file, &sources, &mut problems).expect("it reads");
    board::check_job(&spec, board, &mut problems).expect("it is a job")
}

/// Published and computed verdicts: the breaker alone, then with a load.
#[test]
fn worked_examples() {
    #[derive(Clone, Copy, Debug, PartialEq)]
    enum Verdict {
        Pass,
        Only75,
        Fail,
    }
    use Verdict::{Fail, Only75, Pass};
    let american = demo::version_1("heron-8");
    let european = demo::version_1("curlew-10");
    let cases: &[(&str, &str, &str, f64, Verdict)] = &[
        // Public worked examples of 240.4(B): 40 A and 50 A are standard sizes, 55 A is none.
        ("four-wire", "60 A", "8 AWG aluminum, terminals: 75 C", 0.0, Fail),
        ("four-wire", "60 A", "6 AWG copper, terminals: 60 C", 0.0, Pass),
        ("four-wire", "60 A", "6 AWG copper, terminals: 60 C", 55.0, Pass),
        // 48 A continuous count 60 A, which 55 A do not carry (arithmetic).
        ("four-wire", "60 A", "6 AWG copper, terminals: 60 C", 60.0, Fail),
        ("four-wire", "60 A", "6 AWG copper", 60.0, Only75),
        // 240.4(D), public worked examples.
        ("four-wire", "20 A", "14 AWG copper, terminals: 75 C", 0.0, Fail),
        ("four-wire", "30 A", "12 AWG copper, terminals: 75 C", 0.0, Fail),
        ("four-wire", "30 A", "12 AWG copper", 0.0, Fail),
        // Public worked examples of 110.14(C): 8 AWG on 50 A, 6 AWG aluminum on 50 A.
        ("four-wire", "50 A", "8 AWG copper, terminals: 75 C", 0.0, Pass),
        ("four-wire", "50 A", "8 AWG copper, terminals: 60 C", 0.0, Fail),
        ("four-wire", "50 A", "8 AWG copper", 0.0, Only75),
        ("four-wire", "50 A", "6 AWG aluminum, terminals: 60 C", 0.0, Fail),
        ("four-wire", "50 A", "6 AWG aluminum, terminals: 75 C", 0.0, Pass),
        // 40 A is a standard size (arithmetic).
        ("four-wire", "45 A", "8 AWG copper, terminals: 60 C", 0.0, Fail),
        // 53.75 A on terminals of 60 °C: 6 AWG (public worked example).
        ("four-wire", "60 A", "6 AWG copper, terminals: 60 C", 53.75, Pass),
        ("four-wire", "60 A", "8 AWG copper, terminals: 60 C", 53.75, Fail),
        // Above 100 A the column of 75 °C: 130 A of 1 AWG is next to 150 A.
        ("four-wire", "150 A", "1 AWG copper", 0.0, Pass),
        ("four-wire", "150 A", "2 AWG copper", 0.0, Fail),
        // What a person tried: these were accepted once.
        ("four-wire", "50 A", "14 AWG copper", 0.0, Fail),
        ("three-line", "63 A", "2.5 mm2 copper, method: C", 0.0, Fail),
        // Method C, three loaded: 10 mm² carry 57 A, 16 mm² 76 A (public worked example with 69.5 A).
        ("three-line", "63 A", "10 mm2 copper, method: C", 0.0, Fail),
        ("three-line", "63 A", "16 mm2 copper, method: C", 69.5, Pass),
        // 23.91 A on 25 A, two loaded, method B2 (arithmetic).
        ("one-line", "25 A", "4 mm2 copper, method: B2", 23.91, Pass),
        ("one-line", "25 A", "2.5 mm2 copper, method: B2", 23.91, Fail),
        // At 40 °C the table times 0.87: the capacity is stated (arithmetic).
        ("one-line", "25 A", "4 mm2 copper, capacity: 26.1 A", 23.91, Pass),
        ("one-line", "25 A", "2.5 mm2 copper, capacity: 23.5 A", 23.91, Fail),
        ("one-line", "16 A", "2.5 mm2 copper, capacity: 15.1 A", 0.0, Fail),
        ("one-line", "13 A", "2.5 mm2 copper, capacity: 15.1 A", 0.0, Pass),
    ];
    for (supply, breaker, run, load, wanted) in cases {
        let board = if ["three-line", "one-line"].contains(supply) { &european } else { &american };
        let job = job(board, supply, breaker, run);
        let load = Some(Amps(*load)).filter(|load| load.0 > 0.0);
        let found = match wire(board, &job, load).verdict {
            WireVerdict::Suits => Pass,
            WireVerdict::OnlyAt75 { .. } => Only75,
            WireVerdict::TooThin(_) => Fail,
            WireVerdict::Unjudged(why) => panic!("{breaker} {run}: {why:?}"),
        };
        assert_eq!(found, *wanted, "{breaker} on {run}");
        let by_hand = match judged(board, &job, load.map_or(0.0, |load| load.0)) {
            Judged::Suits(_) => Pass,
            Judged::OnlyAt75(_) => Only75,
            Judged::TooThin => Fail,
            Judged::Unjudged => panic!("{run}"),
        };
        assert_eq!(by_hand, *wanted, "the oracle: {breaker} on {run}");
    }
}

/// What is refused says which size would do, and what cannot be judged is not guessed.
#[test]
fn a_refusal_says_which_size_would_do() {
    let board = demo::version_1("heron-8");
    let size = |breaker: &str, run: &str| match wire(
        &board,
        &job(&board, "four-wire", breaker, run),
        None,
    )
    .verdict
    {
        WireVerdict::TooThin(thin) => thin.would_do.map(|wire| wire.to_string()),
        WireVerdict::OnlyAt75 { would_do, at_60 } => {
            would_do.map(|wire| format!("{wire}, {} A at 60", at_60.0))
        }
        other => Some(format!("{other:?}")),
    };
    for (breaker, run, wanted) in [
        ("50 A", "14 AWG copper", "6 AWG copper"),
        ("50 A", "14 AWG copper, terminals: 75 C", "8 AWG copper"),
        ("50 A", "8 AWG copper", "6 AWG copper, 40 A at 60"),
        ("50 A", "8 AWG aluminum", "4 AWG aluminum"),
        ("30 A", "12 AWG copper, terminals: 75 C", "10 AWG copper"),
        ("40 A", "2.5 mm2 copper, method: B2", "10 mm2 copper"),
    ] {
        assert_eq!(size(breaker, run).as_deref(), Some(wanted), "{breaker} on {run}");
    }
    let refused = wire(&board, &job(&board, "four-wire", "30 A", "12 AWG copper"), None);
    let WireVerdict::TooThin(thin) = refused.verdict else { panic!("{refused:?}") };
    assert_eq!(thin.why, ThinReason::SmallConductor(Amps(20.0)));
    for run in ["6 mm2 copper", "16 mm2 aluminum, method: B2"] {
        let found = wire(&board, &job(&board, "four-wire", "40 A", run), None);
        assert!(matches!(found.verdict, WireVerdict::Unjudged(_)), "{run}: {found:?}");
        assert_eq!(found.capacity, None);
    }
    let stated =
        wire(&board, &job(&board, "four-wire", "40 A", "16 mm2 aluminum, capacity: 41 A"), None);
    assert_eq!(stated.verdict, WireVerdict::Suits);
    assert_eq!(stated.capacity.map(|capacity| capacity.basis), Some(CapacityBasis::Stated));
}
