//! The fault finder: its data against the simulation, its words against its data, and its pages as a
//! technician reads them.

mod common;
#[path = "common/largest.rs"]
mod largest;

use std::collections::{BTreeMap, BTreeSet};

use common::{boards, demo, jobs};
use lidsheet::board::{Board, Device, Effect, Job};
use lidsheet::decide::faults::{Check, CheckTarget, Fault};
use lidsheet::decide::mistakes::{
    AsBuilt, Mistake, PlannedCase, Sign, consequence, consequences, simulate,
};
use lidsheet::decide::{Plan, board_faults, fault_finder, services};
use lidsheet::diagnostic::Problems;
use lidsheet::document::{Block, Density, Document, Inline, Table, plain_text};
use lidsheet::english;
use lidsheet::page::Paper;
use lidsheet::sheet::{
    InsertRoom, PlanDetail, Sides, Templates, figures, lid_insert, wiring_sheets, words,
};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;

/// Calls `judge` with the demo jobs and `count` generated ones.
fn with_jobs(count: usize, mut judge: impl FnMut(&Board, &Job, &Plan, &str)) {
    for planned in demo::jobs() {
        judge(&planned.board, &planned.job, &planned.plan, &planned.name);
    }
    let mut done = 0;
    for seed in 0.. {
        assert!(seed < 3000, "only {done} jobs are sound");
        let board = common::sound(&boards::generate(seed));
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
    let device = |index: usize| right.wiring.devices[index].device;
    match (thing, mistake) {
        (CheckTarget::Layout, Mistake::Layout(_)) | (CheckTarget::House, Mistake::Supply(_)) => {
            true
        }
        (CheckTarget::Jumper(it), Mistake::Jumper { jumper, .. }) => it == jumper,
        (CheckTarget::Jumper(it), Mistake::JumpersSwapped(both)) => both.contains(&it),
        (CheckTarget::Plug(it), Mistake::Plug { device: index, .. }) => it == device(index),
        (CheckTarget::Plug(it), Mistake::PlugsSwapped([a, b])) => {
            [device(a), device(b)].contains(&it)
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
    let mut said = 0;
    with_jobs(30, |board, job, plan, name| {
        let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
        let header = |index: usize| board[right.wiring.devices[index].header].code.clone();
        for found in consequences(&right) {
            let words = words::mistake(&right, found.mistake);
            let wanted = match found.mistake {
                Mistake::Layout(number) => vec![number.to_string()],
                Mistake::Jumper { jumper, on } => {
                    vec![board[jumper].code.clone(), board[on].code.clone()]
                }
                Mistake::JumpersSwapped(both) => both.map(|id| board[id].code.clone()).to_vec(),
                Mistake::Plug { into, .. } => vec![board[into].code.clone()],
                Mistake::PlugsSwapped(both) => both.map(header).to_vec(),
                Mistake::Way { bank, way } => vec![board[bank].code.clone(), way.to_string()],
                Mistake::BankAsShipped(bank) => vec![board[bank].code.clone()],
                Mistake::Supply(supply) => vec![board[supply].title.clone()],
                Mistake::Missing(terminal) => vec![board[terminal].code.clone()],
                Mistake::Swapped(both) => both.map(|id| board[id].code.clone()).to_vec(),
                Mistake::Link { link, on } => {
                    vec![board[link].code.clone(), board[on].code.clone()]
                }
                Mistake::Cord { device, .. } => vec![header(device)],
            };
            for code in wanted {
                assert!(words.contains(&code), "{name}: {words:?} lacks {code}");
            }
            for seen in &found.signs {
                let observed = words::observed(&right, &found.state, seen);
                let names = match seen.sign.device() {
                    Some(device) => device.the(),
                    None => String::new(),
                };
                assert!(!observed.is_empty() && observed.contains(&names), "{name}: {observed}");
                assert!(!words::noticed(board, seen.sign).is_empty(), "{name}: {seen:?}");
                // A number that was found is told, but for what holds at any voltage.
                if let Some((amps, _)) = seen.amps.filter(|_| seen.sign != Sign::GroundFaultTrips) {
                    let whole = format!("{}", amps.0.floor());
                    let above = format!("{}", amps.0.floor() + 1.0);
                    let told = observed.contains(&whole) || observed.contains(&above);
                    assert!(told, "{name}: {observed:?} lacks {amps}");
                }
                said += 1;
            }
        }
    });
    assert!(said > 2000, "only {said}");
}

fn section_of(board: &Board) -> Vec<Block> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let templates = Templates::built_in(&mut sources);
    let figures =
        figures(board, &Words::english(), &mut Typesetter::new(), Paper::A4.area().size());
    let document = wiring_sheets(board, &figures, &templates, &mut problems);
    after_heading(document.unwrap_or_else(|_| panic!("{:#?}", problems.sorted())))
}

fn back_of(board: &Board, job: &Job, plan: &Plan) -> Vec<Block> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let templates = Templates::built_in(&mut sources);
    let room = InsertRoom {
        page: Paper::A4.area_for(Density::Close).size(),
        column: Paper::A4.column(Density::Close, 2),
        plan_height: 60.0,
        plan: PlanDetail::Space,
        sides: Sides::Both,
    };
    let decided = plan.sound().expect("it is sound");
    let mut set = Typesetter::new();
    let document = lid_insert(board, job, decided, &mut set, room, &templates, &mut problems);
    after_heading(document.unwrap_or_else(|_| panic!("{:#?}", problems.sorted())))
}

/// What stands from the heading of the fault finder on, columns opened.
fn after_heading(document: Document) -> Vec<Block> {
    let open = document.blocks.into_iter().flat_map(|block| match block {
        Block::Columns { blocks, .. } => blocks,
        block => vec![block],
    });
    open.skip_while(|block| {
        !matches!(block, Block::Heading { text, .. }
            if plain_text(text).starts_with("Fault finder"))
    })
    .collect()
}

/// The tables of a fault finder by their names: the heading before them, or their first head cell.
fn tables(blocks: &[Block]) -> BTreeMap<String, &Table> {
    let mut all = BTreeMap::new();
    let mut name = String::new();
    for block in blocks {
        match block {
            Block::Heading { text, .. } => name = plain_text(text),
            Block::Table(table) => {
                let head = plain_text(&table.head[0]);
                let own = !["Check", "What it does"].contains(&head.as_str());
                all.insert(if own { head } else { name.clone() }, table);
            }
            _ => {}
        }
    }
    all
}

fn ticks(cell: &[Inline]) -> usize {
    cell.iter().filter(|inline| **inline == Inline::Tick).count()
}

/// The code that a check must show in its row.
fn code<M>(
    board: &Board,
    check: &Check<M>,
    headers: &BTreeMap<Device, Vec<String>>,
) -> Vec<String> {
    match check.target {
        CheckTarget::Layout => vec!["layout number".to_owned()],
        CheckTarget::Jumper(jumper) => vec![board[jumper].code.clone()],
        CheckTarget::Plug(device) | CheckTarget::Cord(device) => headers[&device].clone(),
        CheckTarget::Bank(bank) => vec![board[bank].code.clone()],
        CheckTarget::Link(link) => vec![board[link].code.clone()],
        CheckTarget::Landing => vec!["wires on".to_owned()],
        CheckTarget::House => vec!["live:".to_owned()],
    }
}

/// What a row must say of a sign; several signs of other buttons are told by one phrase.
fn phrases(board: &Board, sign: Sign, two: &[lidsheet::board::Speeds]) -> Vec<String> {
    let other = "runs on another button".to_owned();
    match sign {
        Sign::OtherButton(_, role) if words::has_button(role) => {
            vec![words::does(sign, two), other]
        }
        sign if sign.device().is_some() => vec![words::does(sign, two)],
        Sign::FuseBlows(fuse) => vec![board[fuse].code.clone()],
        sign => vec![words::noticed(board, sign)],
    }
}

/// Every fault of the data is a row with all its checks and no other, and every row is of the data.
fn printed<M>(
    board: &Board,
    faults: &[Fault<M>],
    blocks: &[Block],
    headers: &BTreeMap<Device, Vec<String>>,
    speeds: impl Fn(Device) -> Vec<lidsheet::board::Speeds>,
) -> usize {
    let tables = tables(blocks);
    let mut used: BTreeSet<(String, usize)> = BTreeSet::new();
    for fault in faults.iter().filter(|fault| fault.sign.is_noticed()) {
        // Told in words of their own, see the snapshots; their rows are checked below.
        if matches!(fault.sign, Sign::SpareButton(_) | Sign::SetOtherwise(..)) {
            continue;
        }
        let name = fault.sign.device().map_or("The whole spa".to_owned(), |device| {
            english::capital(device.the().trim_start_matches("the ").trim_end_matches(" system"))
        });
        let table =
            tables.get(&name).unwrap_or_else(|| panic!("no table {name}: {:?}", fault.sign));
        let speeds = fault.sign.device().map_or(Vec::new(), &speeds);
        let wanted = phrases(board, fault.sign, &speeds);
        let fits = |row: &Vec<Vec<Inline>>| {
            let says = plain_text(&row[0]).to_lowercase();
            let shown = plain_text(&row[1]);
            let fuse = usize::from(shown.contains("fuse "));
            wanted.iter().any(|phrase| says.contains(&phrase.to_lowercase()))
                && ticks(&row[1]) == fault.checks.len() + fuse
                && fault.checks.iter().all(|check| {
                    code(board, check, headers).iter().all(|code| shown.contains(code.as_str()))
                })
        };
        let at = table.rows.iter().position(fits);
        let at = at.unwrap_or_else(|| {
            panic!("{name}: no row says {wanted:?} with {} checks", fault.checks.len())
        });
        used.insert((name, at));
    }
    let mut rows = 0;
    for (name, table) in &tables {
        for (at, row) in table.rows.iter().enumerate() {
            rows += 1;
            let says = plain_text(&row[0]);
            let apart = ["not fitted", "but should not", "A setting holds", "when much runs"];
            let known = used.contains(&(name.clone(), at))
                || name.starts_with("Check these")
                || apart.iter().any(|words| says.contains(words));
            assert!(known, "{name}: {says:?} is not of the data");
        }
    }
    rows
}

#[test]
fn the_section_of_a_board_is_its_data() {
    for name in demo::BOARDS {
        let board = demo::board(name);
        let mut headers: BTreeMap<Device, Vec<String>> = BTreeMap::new();
        let mut all = Vec::new();
        for service in services(&board) {
            for served in &service.served {
                let codes = headers.entry(served.device).or_default();
                codes.push(board[service.header].code.clone());
                all.push((served.device, served.speeds));
            }
        }
        let speeds = |device| all.iter().filter(|(d, _)| *d == device).map(|(_, s)| *s).collect();
        let blocks = section_of(&board);
        let rows = printed(&board, &board_faults(&board), &blocks, &headers, speeds);
        assert!(rows > 10, "{name}: {rows}");
        // What a plate decides is no data of a board: one row, where a switch sets an allowance.
        let sets = board.banks.iter().flat_map(|bank| &bank.fields);
        let sets = sets.filter(|field| field.effect == Some(Effect::HeaterAllowance)).count();
        let text = told(&blocks);
        assert_eq!(text.matches("breaker trips when much runs").count(), sets.min(1), "{name}");
    }
}

#[test]
fn the_back_of_an_insert_is_its_data() {
    for planned in demo::jobs() {
        let demo::Planned { name, board, job, plan } = &planned;
        let right = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
        let of = |device: Device| right.wiring.devices.iter().find(move |it| it.device == device);
        let headers = right.wiring.devices.iter();
        let headers = headers.map(|it| (it.device, vec![board[it.header].code.clone()])).collect();
        let speeds = |device| of(device).map(|it| it.speeds).into_iter().collect();
        let blocks = back_of(board, job, plan);
        let faults = fault_finder(&right, &consequences(&right));
        let rows = printed(board, &faults, &blocks, &headers, speeds);
        assert!(rows > 10, "{name}: {rows}");
        let text = told(&blocks);
        for wanted in [&job.name, &board.about.name, &board.about.part] {
            assert!(text.contains(wanted.as_str()), "{name}: {wanted}");
        }
        assert!(text.contains("does not take the place of a trained person"), "{name}");
    }
}

/// What nobody notices comes first, under its own danger, with what it is about.
#[test]
fn hidden_dangers_come_first() {
    for name in demo::BOARDS {
        let board = demo::board(name);
        let text = told(&section_of(&board));
        let hidden = text.find("## Check these even if all works").expect("it is there");
        assert!(text.find("## The whole spa").is_some_and(|whole| hidden < whole), "{name}");
        for fault in board_faults(&board).iter().filter(|fault| !fault.sign.is_noticed()) {
            let Some(device) = fault.sign.device() else { continue };
            let wanted = device.the();
            let wanted = wanted.trim_start_matches("pump ");
            let table = &text[hidden..text.find("## The whole spa").expect("above")];
            assert!(table.contains(wanted), "{name}: {:?}", fault.sign);
        }
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
                table.rows.iter().for_each(|cells| out += &row(cells));
                out.push('\n');
            }
            _ => {}
        }
    }
    out
}

#[test]
fn heron_8_reads_well() {
    insta::assert_snapshot!(told(&section_of(&demo::board("heron-8"))));
}

#[test]
fn the_back_of_job_2231_reads_well() {
    let jobs = demo::jobs();
    let planned = jobs.iter().find(|planned| planned.name == "2231").expect("it is there");
    insta::assert_snapshot!(told(&back_of(&planned.board, &planned.job, &planned.plan)));
}

/// Heron 8 with as many layouts as the language allows: a header for each of six devices.
fn with_255_layouts() -> String {
    let heron = include_str!("../specs/heron-8.yaml");
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

/// How long the fault finder of a board takes is only printed; that it ends is asserted.
#[test]
#[allow(clippy::print_stdout)]
fn the_largest_boards_have_a_fault_finder() {
    let generated = (0..40).map(boards::generate);
    for text in generated.chain([largest::board(), with_255_layouts()]) {
        let board = common::sound(&text);
        let start = std::time::Instant::now();
        let faults = board_faults(&board);
        let (took, layouts) = (start.elapsed(), board.layouts.len());
        println!("{layouts} layouts, {} headers: {took:?}", board.headers.len());
        assert!(layouts < 12 || !faults.is_empty());
    }
}
