//! The fault finder: its data against the simulation, its words against its data, and its pages as a
//! technician reads them.

use std::collections::{BTreeMap, BTreeSet};

use crate::compile::{self, demo};
use crate::generate::{boards, jobs, largest};
use crate::oracle::words::{amounts, says};
use lidsheet::board::{BankId, Board, Device, Job};
use lidsheet::decide::faults::{CheckTarget, Fault};
use lidsheet::decide::mistakes::{
    AsBuilt, CordFit, Mistake, Observation, PlannedCase, Sign, consequence, consequences, simulate,
};
use lidsheet::decide::{DeviceId, Plan, board_faults, fault_finder};
use lidsheet::diagnostic::Problems;
use lidsheet::document::{Block, Document, Inline, RowMark, Table, plain_text};
use lidsheet::sheet::{SoundJob, Templates, board_fault_finder, job_fault_finder, words};
use lidsheet::source::Sources;
use lidsheet::words::Words;

/// Calls `judge` with the demo jobs and `count` generated ones.
pub fn with_jobs(count: usize, mut judge: impl FnMut(&Board, &Job, &Plan, &str)) {
    for planned in demo::jobs() {
        judge(&planned.board, &planned.job, &planned.plan, &planned.name);
    }
    let mut done = 0;
    for seed in 0.. {
        assert!(seed < 3000, "only {done} jobs are sound");
        let board = compile::sound(&boards::generate(seed));
        let Some((job, plan)) = jobs::sound(&board, seed) else { continue };
        judge(&board, &job, &plan, &format!("seed {seed}"));
        done += 1;
        if done == count {
            return;
        }
    }
}

/// Turned round by the slow way: every sign of every mistake, simulated anew.
#[test]
fn every_mistake_is_listed_under_exactly_its_signs() {
    let mut all = 0;
    with_jobs(60, |board, job, plan, name| {
        let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
        let built = AsBuilt::as_planned(&right);
        let before = simulate(&right, &built);
        let mut given: BTreeSet<(Sign, Mistake)> = BTreeSet::new();
        for mistake in lidsheet::decide::mistakes::single_mistakes(&right) {
            let found = consequence(&right, &built, &before, mistake);
            let signs = found.into_iter().flat_map(|found| found.signs);
            given.extend(signs.map(|seen| (seen.sign, mistake)));
        }
        let faults = fault_finder(&right, &consequences(&right));
        let mut listed: BTreeSet<(Sign, Mistake)> = BTreeSet::new();
        for fault in &faults {
            for check in &fault.checks {
                for mistake in &check.mistakes {
                    let new = listed.insert((fault.sign, *mistake));
                    assert!(new, "{name}: {:?} has {mistake:?} twice", fault.sign);
                    assert!(is_of(check.target, *mistake, &right), "{name}: {check:?}");
                }
            }
        }
        assert_eq!(given, listed, "{name}");
        all += listed.len();
    });
    assert!(all > 5000, "only {all} signs");
}

/// Whether one finds a mistake by checking a thing.
fn is_of(thing: CheckTarget, mistake: Mistake, right: &PlannedCase<'_>) -> bool {
    let device = |index: DeviceId| right.wiring[index].device;
    // A way or a position that sets another layout is found where the layout number is.
    if mistake.layout(right).is_some() {
        return thing == CheckTarget::Layout;
    }
    match (thing, mistake) {
        (CheckTarget::Layout, Mistake::Layout(_)) | (CheckTarget::House, Mistake::Supply(_)) => {
            true
        }
        (CheckTarget::House, Mistake::SameLine(_)) => true,
        (CheckTarget::NeutralPath, Mistake::NeutralPast) => true,
        (CheckTarget::NeutralGround, Mistake::NeutralGrounded) => true,
        (CheckTarget::Jumper(it), Mistake::Jumper { jumper, .. }) => it == jumper,
        (CheckTarget::Jumper(it), Mistake::JumpersSwapped(both)) => both.contains(&it),
        (CheckTarget::Plug(it), Mistake::Plug { device: index, .. }) => it == device(index),
        (CheckTarget::Plug(it), Mistake::PlugsSwapped([a, b])) => {
            [device(a), device(b)].contains(&it)
        }
        (CheckTarget::Plug(it), Mistake::Cord { device: index, fit: CordFit::Out }) => {
            it == device(index)
        }
        (CheckTarget::Cord(it), Mistake::Cord { device: index, .. }) => it == device(index),
        (CheckTarget::Bank(it), Mistake::Way { bank, .. } | Mistake::BankAsShipped(bank)) => {
            it == bank
        }
        (CheckTarget::Link(it), Mistake::Link { link, .. }) => it == link,
        (CheckTarget::Landing, Mistake::Missing(_) | Mistake::Swapped(_)) => true,
        _ => false,
    }
}

/// A code of the board that a mistake is about must stand in its words; for a layout or a supply its
/// number or title.
#[test]
fn every_mistake_is_said_with_its_codes() {
    let (mut said, mut numbers) = (0, 0);
    with_jobs(30, |board, job, plan, name| {
        let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
        let header = |index: DeviceId| board[right.wiring[index].header].code.clone();
        for found in consequences(&right) {
            let words = words::mistake(&Words::english(), &right, found.mistake);
            let wanted = match found.mistake {
                Mistake::Layout(number) => vec![number.to_string()],
                Mistake::Selector { selector, position } => {
                    let name = board[selector].positions[position].name.clone();
                    vec![board[selector].code.clone(), name]
                }
                Mistake::Jumper { jumper, on } => {
                    vec![board[jumper].code.clone(), board[on].code.clone()]
                }
                Mistake::JumpersSwapped(both) => both.map(|id| board[id].code.clone()).to_vec(),
                Mistake::Plug { into, .. } => vec![board[into].code.clone()],
                Mistake::PlugsSwapped(both) => both.map(header).to_vec(),
                Mistake::Way { bank, way } => vec![board[bank].code.clone(), way.to_string()],
                Mistake::BankAsShipped(bank) => vec![board[bank].code.clone()],
                Mistake::Supply(supply) => vec![board[supply].title.clone()],
                Mistake::SameLine(both) => both.map(|line| line.to_string()).to_vec(),
                Mistake::NeutralPast | Mistake::NeutralGrounded => vec!["neutral (N)".to_owned()],
                Mistake::Missing(terminal) => vec![board[terminal].code.clone()],
                Mistake::Swapped(both) => both.map(|id| board[id].code.clone()).to_vec(),
                Mistake::Link { link, on } => {
                    vec![board[link].code.clone(), board[on].code.clone()]
                }
                Mistake::Cord { device, .. } => vec![header(device)],
            };
            for code in wanted {
                assert!(says(&words, &code), "{name}: {words:?} lacks {code}");
            }
            for seen in &found.signs {
                let observed = words::observed(&Words::english(), &right, &found.state, seen);
                for wanted in about(board, seen.sign) {
                    let noticed = words::noticed(&Words::english(), board, seen.sign);
                    assert!(says(&observed, &wanted), "{name}: {observed:?} lacks {wanted}");
                    assert!(says(&noticed, &wanted), "{name}: {noticed:?} lacks {wanted}");
                }
                numbers += told_numbers(seen, &observed, name);
                said += 1;
            }
        }
    });
    assert!(said > 2000 && numbers > 500, "only {said}, {numbers} numbers");
}

/// What the words of a sign must name.
fn about(board: &Board, sign: Sign) -> Vec<String> {
    let field = |bank: BankId, field: usize| {
        vec![board[bank].code.clone(), board[bank].fields[field].label()]
    };
    match sign {
        Sign::AllMetalLive => vec!["metal of all equipment".to_owned()],
        Sign::AllUngrounded => vec!["nothing is grounded".to_owned()],
        Sign::MetalOnNeutral => vec!["neutral".to_owned(), "live".to_owned()],
        Sign::BoardBurns => vec!["board burns out".to_owned()],
        Sign::BoardDead => vec!["nothing".to_owned()],
        Sign::BoardWeak => vec!["may".to_owned()],
        Sign::GroundFaultTrips(_) => vec!["ground-fault protection".to_owned()],
        Sign::Overload(_) => Vec::new(),
        Sign::BreakerTripsAtOnce | Sign::BreakerTrips | Sign::BreakerMayTrip => {
            vec!["breaker".to_owned()]
        }
        Sign::HeaderHot(header, _) => vec![board[header].code.clone()],
        Sign::FuseBlows(fuse) | Sign::FuseMayBlow(fuse) => vec![board[fuse].code.clone()],
        Sign::SetOtherwise(bank, at) => field(bank, at),
        Sign::OtherButton(device, role) if words::has_button(board, role) => {
            vec![device.the(), format!("button of {}", role.the())]
        }
        Sign::OtherButton(device, role) => vec![device.the(), role.the()],
        sign => vec![sign.device().expect("it is about a device").the()],
    }
}

/// Every number that was found is told: currents to a tenth upwards with what allows less, and
/// voltages that do something. Gives how many are.
fn told_numbers(seen: &Observation, observed: &str, name: &str) -> usize {
    let mut told = 0;
    let mut tell = |unit: &str, wanted: f64, (below, above): (f64, f64)| {
        let near = |found: &f64| *found > wanted - below && *found < wanted + above;
        let found = amounts(observed, unit);
        assert!(found.iter().any(near), "{name}: {observed:?} lacks {wanted} {unit}");
        told += 1;
    };
    // What is beyond ground-fault protection holds at any current.
    if let Some((amps, allowed)) =
        seen.amps.filter(|_| !matches!(seen.sign, Sign::GroundFaultTrips(_)))
    {
        tell("A", amps.0, (1e-4, 0.101));
        tell("A", allowed.0, (0.01, 0.01));
    }
    let fixed = match seen.sign {
        Sign::AllMetalLive | Sign::MetalLive(_) | Sign::StaysLive(_) | Sign::Destroyed(_) => true,
        Sign::BoardBurns | Sign::BoardWeak => true,
        Sign::RunsHot(_) => !seen.swings,
        _ => false,
    };
    if let Some(volts) = seen.volts.filter(|_| fixed) {
        // Between the lines of a star of 230 V the system is named 400 V, not 398 V (IEC 60038).
        let named = if (volts.0 - 398.37).abs() < 0.01 { 400.0 } else { volts.0 };
        tell("V", named, (0.501, 0.501));
    }
    if matches!(seen.sign, Sign::Overload(_)) {
        assert!(seen.amps.is_some(), "{name}: {seen:?}");
        let line = seen.conductor.expect("it flows somewhere").to_string();
        assert!(says(observed, &line), "{name}: {observed:?} lacks {line}");
    }
    told
}

pub fn of_board(board: &Board) -> Vec<Block> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let templates = Templates::built_in(&mut sources);
    let document = board_fault_finder(board, &templates, &mut problems);
    let document = document.unwrap_or_else(|_| panic!("{:#?}", problems.sorted()));
    opened(document.expect("its layouts can be planned"))
}

pub fn of_job(board: &Board, job: &Job, plan: &Plan) -> Vec<Block> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let templates = Templates::built_in(&mut sources);
    let job = SoundJob::of(board, job, plan).expect("it is sound");
    let document = job_fault_finder(&job, &templates, &mut problems);
    opened(document.unwrap_or_else(|_| panic!("{:#?}", problems.sorted())))
}

/// With its template emptied, a fault finder still has its safety messages: those of a board and of a job.
#[test]
fn no_template_can_take_a_caution_of_a_fault_finder_away() {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let mut templates = Templates::built_in(&mut sources);
    let empty = sources.add("fault-finder.md", "");
    assert!(templates.replace("fault-finder.md", empty, ""));
    let jobs = demo::jobs();
    let demo::Planned { board, job, plan, .. } = &jobs[0];
    let of_board = board_fault_finder(board, &templates, &mut problems);
    let job = SoundJob::of(board, job, plan).expect("it is sound");
    let of_job = job_fault_finder(&job, &templates, &mut problems);
    for document in
        [of_board.expect("it is made").expect("there is one"), of_job.expect("it is made")]
    {
        let said = told(&document.blocks);
        for wanted in [
            "Lock the breaker off and test that no voltage is left before every check.",
            "These faults can kill while the spa seems to work.",
            "These sheets do not take the place of a trained person.",
        ] {
            assert!(said.contains(wanted), "{wanted}: {said}");
        }
    }
}

/// The blocks of a sheet, columns opened.
fn opened(document: Document) -> Vec<Block> {
    let open = document.blocks.into_iter().flat_map(|block| match block {
        Block::Columns { blocks, .. } => blocks,
        block => vec![block],
    });
    open.collect()
}

/// The tables of a fault finder by the heading before them.
pub fn tables(blocks: &[Block]) -> BTreeMap<String, &Table> {
    let mut all = BTreeMap::new();
    let mut name = String::new();
    for block in blocks {
        match block {
            Block::Heading { text, .. } => name = plain_text(text),
            Block::Table(table) => {
                all.insert(name.clone(), table);
            }
            _ => {}
        }
    }
    all
}

/// What nobody notices comes first, under its own danger: the table says exactly what the data has.
#[test]
fn hidden_dangers_come_first() {
    for name in demo::BOARDS {
        let board = demo::board(name);
        let faults = board_faults(&board);
        hidden_first(&board, &faults, &of_board(&board), name);
    }
    for planned in demo::jobs() {
        let demo::Planned { name, board, job, plan } = &planned;
        let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
        let faults = fault_finder(&right, &consequences(&right));
        hidden_first(board, &faults, &of_job(board, job, plan), name);
    }
}

/// What is so if something is not right, and of what.
type Hidden = BTreeSet<(&'static str, String)>;

fn hidden_first<M>(board: &Board, faults: &[Fault<M>], blocks: &[Block], name: &str) {
    let text = told(blocks);
    let at = |heading: &str| text.find(&format!("\n## {heading}\n"));
    let hidden = at("Check these even if all works").expect("it is there");
    assert!(at("Symptoms").is_some_and(|next| hidden < next), "{name}");
    let tables = tables(blocks);
    let rows = &tables["Check these even if all works"].rows;
    let mut found = Hidden::new();
    for row in rows {
        // What is so otherwise stands behind the check, which is strong.
        let strong = row[2].iter().take_while(|inline| matches!(inline, Inline::Strong(_))).count();
        let otherwise = plain_text(&row[2][strong..]).replace('\u{a0}', " ");
        let otherwise = otherwise.rsplit_once(" (").map_or(&*otherwise, |(said, _)| said);
        let otherwise = otherwise.trim().strip_prefix("If not: ").expect("what is so otherwise");
        let sentences = otherwise.split_inclusive(". ").map(|one| one.trim().trim_end_matches('.'));
        sentences.for_each(|one| found.extend(hidden_by(one)));
    }
    let wanted: Hidden = faults
        .iter()
        .filter_map(|fault| {
            Some(match fault.sign {
                Sign::AllMetalLive => ("live", "all".to_owned()),
                Sign::AllUngrounded => ("no ground", "all".to_owned()),
                Sign::MetalOnNeutral => ("on the neutral", "all".to_owned()),
                Sign::MetalLive(device) => ("live", device.the()),
                Sign::Ungrounded(device) => ("no ground", device.the()),
                Sign::StaysLive(device) => ("stays live", device.the()),
                Sign::Overload(_) => ("burns", "supply".to_owned()),
                Sign::HeaderHot(header, _) => ("burns", board[header].code.clone()),
                sign => {
                    assert!(sign.is_noticed(), "{sign:?}");
                    return None;
                }
            })
        })
        .collect();
    assert!(!wanted.is_empty(), "{name}");
    assert_eq!(found, wanted, "{name}: {rows:?}");
}

/// What one sentence of the table says: `The metal of pump 1, 2 or the blower is live`.
fn hidden_by(sentence: &str) -> Hidden {
    let list = |kinds: &[&'static str], list: &str| -> Hidden {
        let mut of = Hidden::new();
        let mut pump = false;
        for word in list.split(", ").flat_map(|part| part.split(" or ")) {
            let number = word.chars().all(|c| c.is_ascii_digit());
            pump = word.starts_with("pump ") || number && pump;
            let device = if number && pump { format!("pump {word}") } else { word.to_owned() };
            of.extend(kinds.iter().map(|kind| (*kind, device.clone())));
        }
        of
    };
    let between = |start: &str, end: &str| sentence.strip_prefix(start)?.strip_suffix(end);
    if sentence == "All metal is live" {
        list(&["live"], "all")
    } else if sentence == "Nothing is grounded" {
        list(&["no ground"], "all")
    } else if sentence == "All metal is live when the neutral opens" {
        list(&["on the neutral"], "all")
    } else if sentence == "The current in the supply wires is too high" {
        list(&["burns"], "supply")
    } else if sentence == "They can burn" || sentence == "They overheat" {
        Hidden::new()
    } else if let Some(all) = between("The metal of ", " has no ground or is live") {
        list(&["live", "no ground"], all)
    } else if let Some(all) = between("The metal of ", " is live") {
        list(&["live"], all)
    } else if let Some(all) = between("The metal of ", " has no ground") {
        list(&["no ground"], all)
    } else if let Some(all) = between("The wires of ", " stay live when it is stopped") {
        list(&["stays live"], all)
    } else if let Some(all) =
        between("", " overheats and can burn").or_else(|| between("", " overheats"))
    {
        list(&["burns"], all)
    } else {
        panic!("{sentence:?} says nothing that is known")
    }
}

/// Blocks as text, to be read.
fn told(blocks: &[Block]) -> String {
    let mut out = String::new();
    let words = |inlines: &[Inline]| -> String {
        inlines
            .iter()
            .map(|inline| match inline {
                Inline::Tick => "\u{2610}".to_owned(),
                Inline::Break => " / ".to_owned(),
                inline => plain_text(std::slice::from_ref(inline)),
            })
            .collect::<String>()
            .replace('\u{a0}', " ")
    };
    for block in blocks {
        match block {
            Block::Heading { level, text, .. } => {
                out += &format!("\n{} {}\n\n", "#".repeat(usize::from(*level)), words(text));
            }
            Block::Paragraph(text) => out += &format!("{}\n\n", words(text)),
            Block::List { items, .. } => {
                items.iter().for_each(|item| out += &format!("- {}", told(item).trim_end()));
                out = out.replace("- ", "\n- ").replace("\n\n- ", "\n- ");
                out += "\n\n";
            }
            Block::Caution { signal, blocks } => {
                out += &format!("[{}] {}\n\n", signal.word(), told(blocks).trim());
            }
            Block::Table(table) => {
                let row = |cells: &[Vec<Inline>]| {
                    let cells: Vec<String> = cells.iter().map(|cell| words(cell)).collect();
                    format!("{}\n", cells.join(" | "))
                };
                out += &row(&table.head);
                for (index, cells) in table.rows.iter().enumerate() {
                    let cells = match table.marks.get(&index) {
                        Some(RowMark::Head) => &cells[..1],
                        _ => cells,
                    };
                    let heavy = table.marks.get(&index) == Some(&RowMark::Apart);
                    out += if heavy { "====\n" } else { "" };
                    out += &row(cells);
                }
                out.push('\n');
            }
            Block::Columns { blocks, .. } => out += &told(blocks),
            _ => {}
        }
    }
    out
}

#[test]
fn heron_8_reads_well() {
    assert_snapshot!("faults__heron_8_reads_well", told(&of_board(&demo::board("heron-8"))));
}

#[test]
fn the_finder_of_job_2231_reads_well() {
    let jobs = demo::jobs();
    let planned = jobs.iter().find(|planned| planned.name == "2231").expect("it is there");
    assert_snapshot!(
        "faults__the_finder_of_job_2231_reads_well",
        told(&of_job(&planned.board, &planned.job, &planned.plan))
    );
}

/// Heron 8 with as many layouts as the language allows: a header for each of six devices.
fn with_255_layouts() -> String {
    let heron = include_str!("../version-1/heron-8.yaml");
    let (before, rest) = heron.split_once("layouts:  ").expect("it has layouts");
    let after = &rest[rest.find("\nswitches:").expect("it has switches")..];
    let before = before
        .replace("serves: { 1-7: blower, 8-12: pump 3 }", "serves: pump 3")
        .replace("serves: { 8-12: blower }", "serves: blower")
        .replace(
            "serves: pump 2 }",
            "serves: pump 2 }\n  J9: { title: Pump 4, part: add-on, \
             at: [24, 42], socket: power-4, key: left, jumper: W5, max: 8 A, serves: pump 4 }",
        );
    let mut text = format!(
        "{before}layouts:\n  columns: [circulation, pump 1, pump 2, pump 3, pump 4, blower]\n  rows:\n"
    );
    for number in 1..=255_usize {
        let digit = |place: u32| number / 3_usize.pow(place) % 3;
        let row = [number % 2, digit(0), digit(1), digit(2), digit(3), digit(4)];
        text += &format!("    {number}: {row:?}\n");
    }
    text + after
}

/// Beyond all measure, and many generated ones: the fault finder comes to an end, finds what it
/// must, and finds the same again.
#[test]
fn the_largest_boards_have_a_fault_finder() {
    let generated: Vec<String> = (0..40).map(boards::generate).collect();
    let mut with = 0;
    for text in &generated {
        let board = compile::sound(text);
        let faults = board_faults(&board);
        assert!(board.layouts.len() < 12 || !faults.is_empty());
        with += usize::from(!faults.is_empty());
    }
    assert!(with > 25, "{with}");
    for (text, layouts) in [(largest::board(), 64), (with_255_layouts(), 255)] {
        let board = compile::sound(&text);
        assert_eq!(board.layouts.len(), layouts);
        let faults = board_faults(&board);
        // Every device that the board drives can do nothing, for some mistake.
        for device in board.columns.iter().filter(|device| **device != Device::Heater) {
            let known = faults.iter().any(|fault| fault.sign == Sign::DoesNothing(*device));
            assert!(known, "{layouts} layouts: {device}");
        }
        assert!(faults == board_faults(&board), "{layouts} layouts");
    }
}
