//! The rows of the fault finder, read off its tables as a technician reads them: against the data that
//! they come from, against voltages that are worked out anew, and on their pages.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use crate::compile::demo;
use crate::faults::{self, tables, with_jobs};
use crate::oracle::words::says;
use lidsheet::board::{Board, Conductor, Device, Job, Speeds, SupplyId, System};
use lidsheet::decide::faults::{Check, CheckTarget, Fault};
use lidsheet::decide::mistakes::{Mistake, PlannedCase, Sign, consequences};
use lidsheet::decide::{Plan, board_faults, fault_finder, services};
use lidsheet::document::{Block, Cell, Inline, RowMark, TableKind, plain_text};
use lidsheet::sheet::words;
use lidsheet::words::Words;

const LIVE: &str = "LIVE TEST, trained person only: ";

/// A sign with the rows under it.
struct Shown {
    noticed: String,
    rows: Vec<ShownRow>,
}

/// A row of a check.
struct ShownRow {
    /// In the order for a board just fitted.
    number: String,
    /// In that for a spa that ran for years.
    years: String,
    ticks: usize,
    /// Behind a heavy rule.
    apart: bool,
    what: String,
    /// What is correct, with the devices that it is for; none for all.
    correct: Vec<(BTreeSet<Device>, String)>,
    see: String,
    /// Marked as common practice.
    practice: bool,
}

impl ShownRow {
    fn live(&self) -> bool {
        self.what.starts_with(LIVE)
    }

    fn practice(&self) -> bool {
        self.practice
    }

    /// What is correct for a device; `None` if the check is not for it.
    fn correct_for(&self, device: Option<Device>) -> Option<&str> {
        let of = |(devices, _): &&(BTreeSet<Device>, String)| {
            devices.is_empty() || device.is_some_and(|device| devices.contains(&device))
        };
        self.correct.iter().find(of).map(|(_, words)| words.as_str())
    }
}

/// The signs of a fault finder.
fn shown(blocks: &[Block]) -> Vec<Shown> {
    let tables = tables(blocks);
    let table = tables["Symptoms"];
    assert_eq!(table.kind, TableKind::Matrix);
    let mut signs: Vec<Shown> = Vec::new();
    for (index, row) in table.rows.iter().enumerate() {
        let text = |at: usize| plain_text(&row[at]).replace('\u{a0}', " ").trim().to_owned();
        if table.marks.get(&index) == Some(&RowMark::Head) {
            assert!(row[1..].iter().all(Vec::is_empty), "{row:?}");
            signs.push(Shown { noticed: text(0), rows: Vec::new() });
            continue;
        }
        let sign = signs.last_mut().expect("a sign stands above its checks");
        let (what, said) = check_and_rest(&row[3]);
        let (said, practice) = match said.strip_suffix('*') {
            Some(said) => (said.trim_end().to_owned(), true),
            None => (said, false),
        };
        let (correct, see) = match said.strip_suffix(')').and_then(|said| said.rsplit_once(" (")) {
            Some((correct, see)) if is_place(see) => (correct.to_owned(), see.to_owned()),
            _ => (said, String::new()),
        };
        sign.rows.push(ShownRow {
            number: text(0),
            years: text(1),
            ticks: row[2].iter().filter(|inline| **inline == Inline::Tick).count(),
            apart: table.marks.get(&index) == Some(&RowMark::Apart),
            what,
            correct: parts(&correct),
            see,
            practice,
        });
    }
    signs
}

/// The words of a check, which are strong and end with a colon, and what is said behind them.
fn check_and_rest(cell: &Cell) -> (String, String) {
    let strong = cell.iter().take_while(|inline| matches!(inline, Inline::Strong(_))).count();
    let (what, rest) = cell.split_at(strong);
    let what = plain_text(what).replace('\u{a0}', " ");
    let what = what.strip_suffix(':').unwrap_or_else(|| panic!("no colon ends {what:?}"));
    (what.to_owned(), plain_text(rest).replace('\u{a0}', " ").trim().to_owned())
}

/// Whether words in parentheses say where something is drawn.
fn is_place(see: &str) -> bool {
    let known = ["plan", "supply", "voltages", "layouts", "panel", "page 1", "headers"];
    let code = |word: &str| word.chars().any(char::is_numeric) && !word.contains(' ');
    see.split(", ").all(|word| known.contains(&word) || code(word))
}

/// `Pump 1, 2: in J2; blower: in J5`.
fn parts(correct: &str) -> Vec<(BTreeSet<Device>, String)> {
    let mut all: Vec<(BTreeSet<Device>, String)> = Vec::new();
    for part in correct.split(';').map(str::trim) {
        let labelled = part.split_once(": ").and_then(|(list, words)| {
            let capital = list.starts_with(char::is_uppercase);
            let devices = known_devices(list).filter(|_| capital)?;
            Some((devices, words.to_owned()))
        });
        match (labelled, all.last_mut()) {
            (Some(labelled), _) => all.push(labelled),
            (None, Some((_, words))) => *words = format!("{words}; {part}"),
            (None, None) => all.push((BTreeSet::new(), part.to_owned())),
        }
    }
    all
}

thread_local! {
    /// The devices of the board's own whose sheet is read.
    static OWN: RefCell<Vec<Device>> = const { RefCell::new(Vec::new()) };
}

fn note_own(board: &Board) {
    OWN.set(board.devices.iter().map(|own| own.device).collect());
}

/// The fault finder of a board; its own devices are known from then on.
fn of_board(board: &Board) -> Vec<Block> {
    note_own(board);
    faults::of_board(board)
}

/// The same of a job.
fn of_job(board: &Board, job: &Job, plan: &Plan) -> Vec<Block> {
    note_own(board);
    faults::of_job(board, job, plan)
}

/// The devices of a list: `The circulation pump, pump 1, 2 or the blower`.
#[track_caller]
fn devices_in(list: &str) -> BTreeSet<Device> {
    known_devices(list).unwrap_or_else(|| panic!("no devices in {list:?}"))
}

/// The same, if all of the list is devices.
fn known_devices(list: &str) -> Option<BTreeSet<Device>> {
    let mut found = BTreeSet::new();
    let mut pump = false;
    for word in list.to_lowercase().split(", ").flat_map(|part| part.split(" or ")) {
        let word = word.trim_start_matches("the ").trim_end_matches(" system");
        let number = word.strip_prefix("pump ").or(Some(word).filter(|_| pump));
        let device = match number.and_then(|number| number.parse().ok()) {
            Some(number) => Device::Pump(number),
            None if word == "circulation pump" => Device::Circulation,
            None => {
                let own = OWN.with_borrow(|own| {
                    own.iter().copied().find(|it| it.to_string().to_lowercase() == word)
                });
                own.or_else(|| Device::parse(word))?
            }
        };
        pump = matches!(device, Device::Pump(_));
        found.insert(device);
    }
    Some(found)
}

/// The devices that a sign is about, and what they do.
fn subject<'a>(noticed: &'a str, clauses: &BTreeSet<String>) -> (BTreeSet<Device>, Vec<&'a str>) {
    let at = clauses.iter().filter_map(|clause| noticed.find(&format!(" {clause}"))).min();
    let Some(at) = at else { return (BTreeSet::new(), vec![noticed]) };
    (devices_in(&noticed[..at]), noticed[at + 1..].split("; ").collect())
}

/// The words that a check has in its row; `other` is the device that it names, if that is not the one
/// of the sign.
fn what(check: CheckTarget, own: Option<Device>) -> &'static [&'static str] {
    match check {
        CheckTarget::Layout => &["layout number"],
        CheckTarget::Jumper(_) => &["jumper", "jumper on the nameplate voltage"],
        CheckTarget::Plug(device) if own == Some(device) => &["plug"],
        CheckTarget::Cord(device) if own == Some(device) => &["wires in the plug"],
        CheckTarget::Plug(_) => &["plug of "],
        CheckTarget::Cord(_) => &["wires in the plug of "],
        CheckTarget::Bank(_) => &["switch bank"],
        CheckTarget::Link(_) => &["link"],
        CheckTarget::Landing => &["supply wires"],
        CheckTarget::NeutralPath => &["neutral at the ground-fault breaker"],
        CheckTarget::NeutralGround => &["N off at the breaker, plugs out: N to PE"],
        CheckTarget::House => &[LIVE],
    }
}

/// Whether a row is that of a check.
fn is_row_of<M>(row: &ShownRow, check: &Check<M>, own: Option<Device>) -> bool {
    let words = what(check.target, own);
    let named = match check.target {
        CheckTarget::Plug(device) | CheckTarget::Cord(device) if own != Some(device) => {
            Some(device.the())
        }
        _ => None,
    };
    words.iter().any(|words| match &named {
        Some(named) => row.what == format!("{words}{named}"),
        None if *words == LIVE => row.live(),
        None => row.what == *words,
    })
}

/// A code that must stand in what is correct.
fn code<M>(
    board: &Board,
    check: &Check<M>,
    headers: &BTreeMap<Device, Vec<String>>,
) -> Vec<String> {
    match check.target {
        CheckTarget::Jumper(jumper) => vec![board[jumper].code.clone()],
        CheckTarget::Plug(device) => headers[&device].clone(),
        CheckTarget::Bank(bank) => vec![board[bank].code.clone()],
        CheckTarget::Link(link) => vec![board[link].code.clone()],
        _ => Vec::new(),
    }
}

/// The clauses that may say a sign: signs of several buttons are told by one.
fn clauses(board: &Board, sign: Sign, speeds: &[Speeds]) -> Vec<String> {
    let words = Words::english();
    match sign {
        Sign::OtherButton(_, role) if words::has_button(board, role) => {
            let other = "starts when you press another button".to_owned();
            vec![words::does(&words, board, sign, speeds), other]
        }
        sign => vec![words::does(&words, board, sign, speeds)],
    }
}

/// What is listed although no mistake gives it, as whole rows.
const ALWAYS: [&str; 18] = [
    "The ground-fault protection trips at random",
    "The ground-fault protection trips after rain",
    "The breaker trips when the heater",
    "A pump or the control box is noisy",
    "Nothing runs",
    "Metal or water tingles",
    "It smells of burning",
    "The ground-fault protection trips",
    "TEST does not trip",
    "The breaker trips at once",
    "The breaker trips when several devices run at once",
    "The panel shows nothing",
    "Several devices do nothing at once",
    "A pump runs but moves no water",
    "The water is hotter",
    "A function does not work as wanted",
    "The panel shows ",
    "The layout includes ",
];

/// Whether a check is of the wires in a plug that cannot be turned: it stands among what is checked even
/// if all works, and under no symptom. No job here says that somebody ended a cord anew.
fn is_moulded(board: &Board, target: CheckTarget, headers: &BTreeMap<Device, Vec<String>>) -> bool {
    let CheckTarget::Cord(device) = target else { return false };
    let keyed = |code: &String| {
        let header = board.headers.iter().find(|header| header.code == *code).expect("it is one");
        board.sockets[header.socket.0].key_drawn.is_some()
    };
    headers[&device].iter().all(keyed)
}

/// A fuse that blows and one that may blow are one row.
fn fuse_or_own<'f, M>(faults: &'f [Fault<M>], fault: &'f Fault<M>) -> Vec<&'f Fault<M>> {
    let fuse = |sign: Sign| match sign {
        Sign::FuseBlows(fuse) | Sign::FuseMayBlow(fuse) => Some(fuse),
        _ => None,
    };
    match fuse(fault.sign) {
        Some(of) => faults.iter().filter(|fault| fuse(fault.sign) == Some(of)).collect(),
        None => vec![fault],
    }
}

/// Signs of the board itself, whose rows have names of their own.
const OF_THE_BOARD: [Sign; 3] = [Sign::BoardBurns, Sign::BoardDead, Sign::BoardWeak];

/// What the simulation gives for a board that is dead, may not start or burns stands in two rows.
fn the_board_itself<M>(board: &Board, faults: &[Fault<M>], signs: &[Shown], name: &str) {
    let dead = if board.panels.is_empty() { "Nothing runs" } else { "The panel shows nothing" };
    for (start, of) in [(dead, &OF_THE_BOARD[1..]), ("It smells of burning", &OF_THE_BOARD[..1])] {
        let of: Vec<&Fault<M>> = faults.iter().filter(|it| of.contains(&it.sign)).collect();
        let row = signs.iter().find(|sign| sign.noticed.starts_with(start));
        assert!(of.is_empty() || row.is_some(), "{name}: {start}");
        let rows = row.into_iter().flat_map(|sign| &sign.rows).filter(|row| !row.practice());
        let rows: Vec<&ShownRow> = rows.collect();
        let checks = || of.iter().flat_map(|fault| &fault.checks);
        for row in &rows {
            assert!(checks().any(|check| is_row_of(row, check, None)), "{name}: {}", row.what);
        }
        for check in checks() {
            let has = rows.iter().any(|row| is_row_of(row, check, None));
            assert!(has, "{name}: {start} lacks {:?}", check.target);
        }
    }
}

/// Every fault of the data is a row with all its checks and no other; every row is of the data or is
/// marked as common practice.
fn printed<M>(
    board: &Board,
    faults: &[Fault<M>],
    blocks: &[Block],
    headers: &BTreeMap<Device, Vec<String>>,
    speeds: impl Fn(Device) -> Vec<Speeds>,
    name: &str,
) -> usize {
    let signs = shown(blocks);
    let noticed: Vec<&Fault<M>> = faults
        .iter()
        .filter(|fault| fault.sign.is_noticed())
        // Told in words of their own, see the snapshots.
        .filter(|fault| !matches!(fault.sign, Sign::SpareButton(_) | Sign::SetOtherwise(..)))
        .filter(|fault| !OF_THE_BOARD.contains(&fault.sign))
        .collect();
    the_board_itself(board, faults, &signs, name);
    let own_clauses = |fault: &Fault<M>| {
        fault.sign.device().map_or(Vec::new(), |device| clauses(board, fault.sign, &speeds(device)))
    };
    let mut known: BTreeSet<String> = noticed.iter().flat_map(|fault| own_clauses(fault)).collect();
    for usual in ["does nothing", "cannot be turned off", "hums, overheats or is weak"] {
        known.insert(usual.to_owned());
    }
    known.extend(["never comes on".to_owned(), "heats slowly".to_owned()]);
    let mut given: BTreeSet<(usize, Option<Device>)> = BTreeSet::new();
    for fault in &noticed {
        let own = fault.sign.device();
        let wanted = own_clauses(fault);
        let fits = |sign: &&(usize, &Shown)| {
            let (devices, does) = subject(&sign.1.noticed, &known);
            match own {
                Some(device) => {
                    devices.contains(&device)
                        && does.iter().any(|clause| wanted.iter().any(|wanted| wanted == clause))
                }
                None => match fault.sign {
                    Sign::FuseBlows(fuse) | Sign::FuseMayBlow(fuse) => {
                        sign.1.noticed.starts_with("Fuse ")
                            && says(&sign.1.noticed, &board[fuse].code)
                    }
                    of => {
                        let said = words::noticed(&Words::english(), board, of);
                        sign.1.noticed.to_lowercase() == said.to_lowercase()
                    }
                },
            }
        };
        let checks: Vec<&Check<M>> = fuse_or_own(faults, fault)
            .into_iter()
            .flat_map(|fault| &fault.checks)
            .filter(|check| !is_moulded(board, check.target, headers))
            .collect();
        if checks.is_empty() {
            continue;
        }
        let exact = |sign: &(usize, &Shown)| {
            let ours: Vec<&ShownRow> = sign
                .1
                .rows
                .iter()
                .filter(|row| !row.practice() && row.correct_for(own).is_some())
                .collect();
            let each_has_a_check =
                ours.iter().all(|row| checks.iter().any(|check| is_row_of(row, check, own)));
            let each_has_a_row = checks.iter().all(|check| {
                ours.iter().any(|row| {
                    let correct = row.correct_for(own).unwrap_or_default();
                    let codes = code(board, check, headers);
                    is_row_of(row, check, own) && codes.iter().all(|code| says(correct, code))
                })
            });
            each_has_a_check && each_has_a_row
        };
        let all: Vec<(usize, &Shown)> = signs.iter().enumerate().collect();
        let fitting: Vec<(usize, &Shown)> = all.iter().filter(fits).copied().collect();
        let found = fitting.iter().find(|sign| exact(sign));
        let found = found.unwrap_or_else(|| {
            let heads: Vec<&str> = fitting.iter().map(|(_, sign)| sign.noticed.as_str()).collect();
            panic!("{name}: {:?} has not exactly its checks under {heads:?}", fault.sign)
        });
        given.insert((found.0, own));
    }
    for (at, sign) in signs.iter().enumerate() {
        let (devices, _) = subject(&sign.noticed, &known);
        let subjects: Vec<Option<Device>> = match devices.len() {
            0 => vec![None],
            _ => devices.into_iter().map(Some).collect(),
        };
        for own in subjects {
            let mut ours = sign.rows.iter().filter(|row| row.correct_for(own).is_some());
            let practice = ours.all(ShownRow::practice);
            let always = ALWAYS.iter().any(|start| sign.noticed.starts_with(start));
            let known = given.contains(&(at, own)) || practice || always;
            assert!(known, "{name}: {:?} of {own:?} is not of the data", sign.noticed);
        }
    }
    signs.len()
}

#[test]
fn the_fault_finder_of_a_board_is_its_data() {
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
        let blocks = of_board(&board);
        let rows = printed(&board, &board_faults(&board), &blocks, &headers, speeds, name);
        assert!(rows > 10, "{name}: {rows}");
    }
}

/// Calls `judge` with the back of the insert of demo jobs and of generated ones.
fn with_backs(count: usize, mut judge: impl FnMut(&PlannedCase<'_>, &Plan, &[Block], &str)) {
    with_jobs(count, |board: &Board, job: &Job, plan: &Plan, name: &str| {
        let planned = PlannedCase::new(board, job, plan.sound().expect("it is sound"));
        judge(&planned, plan, &of_job(board, job, plan), name);
    });
}

#[test]
fn the_fault_finder_of_a_job_is_its_data() {
    with_backs(25, |planned, _, blocks, name| {
        let (board, devices) = (planned.board, &planned.wiring.devices);
        let headers =
            devices.iter().map(|it| (it.device, vec![board[it.header].code.clone()])).collect();
        let speeds = |device: Device| {
            devices.iter().filter(|it| it.device == device).map(|it| it.speeds).collect()
        };
        let faults = fault_finder(planned, &consequences(planned));
        let rows = printed(board, &faults, blocks, &headers, speeds, name);
        assert!(rows > 10, "{name}: {rows}");
        let text: String = blocks
            .iter()
            .filter_map(|block| match block {
                Block::Paragraph(words) => Some(plain_text(words)),
                _ => None,
            })
            .collect();
        for wanted in [&planned.job.name, &board.about.name, &board.about.part] {
            assert!(says(&text, wanted), "{name}: {wanted}");
        }
    });
}

/// The rows of all backs and sections: numbered from 1, one box to tick, what is correct and where;
/// what is measured on live parts last, behind one heavy rule.
#[test]
fn rows_are_numbered_complete_and_live_ones_come_last() {
    let mut live = 0;
    let mut judge = |blocks: &[Block], name: &str| {
        for sign in shown(blocks) {
            let at = format!("{name}: {}", sign.noticed);
            assert!(!sign.rows.is_empty(), "{at}");
            // Each order is numbered from 1; every check has a number in one.
            let numbers = |of: fn(&ShownRow) -> &str| -> Vec<usize> {
                sign.rows.iter().filter_map(|row| of(row).parse().ok()).collect()
            };
            let new = numbers(|row| &row.number);
            let mut years = numbers(|row| &row.years);
            years.sort_unstable();
            let live_first = sign.rows.iter().position(ShownRow::live);
            let calm = &sign.rows[..live_first.unwrap_or(sign.rows.len())];
            assert!(calm.is_sorted_by_key(|row| row.number.is_empty()), "{at}");
            assert!(new == (1..=new.len()).collect::<Vec<_>>(), "{at}: {new:?}");
            assert!(years == (1..=years.len()).collect::<Vec<_>>(), "{at}: {years:?}");
            for row in &sign.rows {
                assert!(!row.number.is_empty() || !row.years.is_empty(), "{at}: {}", row.what);
                assert_eq!(row.ticks, 1, "{at}: {}", row.what);
                assert!(row.correct.iter().all(|(_, correct)| !correct.is_empty()), "{at}");
                assert!(
                    !row.what.is_empty() && (row.practice || !row.see.is_empty()),
                    "{at}: {}",
                    row.what
                );
            }
            let first = sign.rows.iter().position(ShownRow::live).unwrap_or(sign.rows.len());
            live += sign.rows.len() - first;
            for (index, row) in sign.rows.iter().enumerate() {
                assert_eq!(row.live(), index >= first, "{at}: {}", row.what);
                assert_eq!(row.apart, index == first, "{at}: {}", row.what);
                assert!(row.live() || !row.what.contains("LIVE"), "{at}: {}", row.what);
            }
        }
    };
    with_backs(25, |_, _, blocks, name| judge(blocks, name));
    for name in demo::BOARDS {
        judge(&of_board(&demo::board(name)), name);
    }
    assert!(live > 100, "{live}");
}

/// Two terminals, and the volts between them.
type Reading<'a> = ([&'a str; 2], f64);

/// A potential by hand: to the right and up, in volts.
fn potential(system: System, conductor: Conductor) -> Option<(f64, f64)> {
    let half = 3.0_f64.sqrt() / 2.0;
    let (volts, turn) = match (system, conductor) {
        (_, Conductor::N | Conductor::Pe) => (0.0, (0.0, 0.0)),
        (System::SplitPhase { to_neutral }, Conductor::L1) => (to_neutral.0, (1.0, 0.0)),
        (System::SplitPhase { to_neutral }, Conductor::L2) => (to_neutral.0, (-1.0, 0.0)),
        (System::Wye { to_neutral }, Conductor::L1) => (to_neutral.0, (1.0, 0.0)),
        (System::Wye { to_neutral }, Conductor::L2) => (to_neutral.0, (-0.5, -half)),
        (System::Wye { to_neutral }, Conductor::L3) => (to_neutral.0, (-0.5, half)),
        (System::SinglePhase { to_neutral }, Conductor::L) => (to_neutral.0, (1.0, 0.0)),
        _ => return None,
    };
    Some((volts * turn.0, volts * turn.1))
}

/// What a meter reads between two terminals by their codes, as the system is named.
fn reading(board: &Board, supply: SupplyId, pair: [&str; 2]) -> Option<f64> {
    reading_with(board, supply, pair, None)
}

/// The same where the second of two lines is taken from the first.
fn reading_with(
    board: &Board,
    supply: SupplyId,
    [a, b]: [&str; 2],
    same: Option<[Conductor; 2]>,
) -> Option<f64> {
    let at = |code: &str| {
        let found = board.terminals.iter().position(|terminal| terminal.code == code);
        let index = found.unwrap_or_else(|| panic!("{code:?} is no terminal"));
        let (_, lands) = board[supply].lands.iter().enumerate().find(|(it, _)| *it == index)?;
        let of = (*lands)?;
        let of = same.filter(|[_, taken]| *taken == of).map_or(of, |[line, _]| line);
        potential(board[supply].system, of)
    };
    let ((x, y), (u, v)) = (at(a)?, at(b)?);
    let volts = ((x - u).powi(2) + (y - v).powi(2)).sqrt();
    let star = matches!(board[supply].system, System::Wye { .. });
    Some(if star && (volts - 398.4).abs() < 0.1 { 400.0 } else { volts.round() })
}

/// `T1 to T2: 240 V; T1 to T3, T2 to T3: 120 V`.
fn pairs(correct: &str) -> Vec<([&str; 2], Vec<f64>)> {
    let mut all = Vec::new();
    for list in correct.split("; ") {
        let (pairs, volts) = list.rsplit_once(": ").unwrap_or_else(|| panic!("{list:?}"));
        let volts: Vec<f64> =
            volts.split([',', ' ']).filter_map(|word| word.parse().ok()).collect();
        assert!(!volts.is_empty(), "{list:?}");
        for pair in pairs.split(", ") {
            let (a, b) = pair.split_once(" to ").unwrap_or_else(|| panic!("{pair:?}"));
            all.push(([a, b], volts.clone()));
        }
    }
    all
}

/// Every reading that is asked for has the nominal voltage of the job's supply, and of every supply
/// that is wrong for a sign at least one reading under it differs.
#[test]
fn live_tests_expect_the_nominal_voltage_and_find_a_wrong_supply() {
    let (mut readings, mut found) = (0, 0);
    with_backs(40, |planned, _, blocks, name| {
        let (board, supply) = (planned.board, planned.job.supply.value);
        let signs = shown(blocks);
        let mut under: BTreeMap<(String, Option<Device>), Vec<Reading<'_>>> = BTreeMap::new();
        for sign in &signs {
            for row in sign.rows.iter().filter(|row| row.live()) {
                for (devices, correct) in &row.correct {
                    for (pair, volts) in pairs(correct) {
                        let read = reading(board, supply, pair);
                        assert_eq!(read.as_slice(), volts, "{name}: {} {pair:?}", sign.noticed);
                        readings += 1;
                        let of = devices.iter().copied().map(Some);
                        for device in of.chain(devices.is_empty().then_some(None)) {
                            let key = (sign.noticed.clone(), device);
                            under.entry(key).or_default().push((pair, volts[0]));
                        }
                    }
                }
            }
        }
        for fault in fault_finder(planned, &consequences(planned)) {
            let own = fault.sign.device();
            let houses = fault.checks.iter().filter(|check| check.target == CheckTarget::House);
            for mistake in houses.flat_map(|check| &check.mistakes) {
                let (other, same) = match *mistake {
                    Mistake::Supply(other) => (other, None),
                    Mistake::SameLine(both) => (supply, Some(both)),
                    _ => panic!("{mistake:?}"),
                };
                let Some(device) = own.filter(|_| fault.sign.is_noticed()) else { continue };
                let clause = clauses(board, fault.sign, &[]).remove(0);
                let listed = under.iter().filter(|((noticed, of), _)| {
                    let (devices, _) = subject(noticed, &BTreeSet::from([clause.clone()]));
                    noticed.contains(&clause)
                        && of.is_none_or(|of| of == device)
                        && devices.contains(&device)
                });
                let differs = listed.flat_map(|(_, pairs)| pairs).any(|(pair, volts)| {
                    reading_with(board, other, *pair, same)
                        .is_none_or(|read| (read - volts).abs() > 0.01 * volts)
                });
                let lands = (&board[supply].lands, &board[other].lands);
                assert!(differs, "{name}: {:?} with {other:?}: {lands:?} {under:?}", fault.sign);
                found += 1;
            }
        }
    });
    assert!(readings > 300 && found > 40, "{readings} readings, {found} wrong supplies");
}

/// A check that gives power is done with the cover closed.
#[test]
fn what_needs_power_is_checked_with_the_cover_closed() {
    let mut powered = 0;
    let mut judge = |blocks: &[Block], name: &str| {
        for sign in shown(blocks) {
            for row in sign.rows.iter().filter(|row| !row.live()) {
                let correct: Vec<&str> = row.correct.iter().map(|(_, words)| &words[..]).collect();
                let said = format!("{} {}", row.what, correct.join(" ")).to_lowercase();
                if ["supply on", "power on", "test trips"].iter().any(|on| said.contains(on)) {
                    let closed = row.what.contains("cover closed") && said.contains("supply on");
                    assert!(closed, "{name}: {}: {said}", sign.noticed);
                    powered += 1;
                }
            }
        }
    };
    with_backs(5, |_, _, blocks, name| judge(blocks, name));
    demo::BOARDS.iter().for_each(|name| judge(&of_board(&demo::board(name)), name));
    assert!(powered > 20, "{powered}");
}

/// Under a blown fuse stand only the causes of what is behind it.
#[test]
fn a_blown_fuse_is_looked_for_behind_it() {
    let (mut rows, mut left_out) = (0, 0);
    with_backs(60, |planned, _, blocks, name| {
        let jet = |device: Device| matches!(device, Device::Pump(_));
        let causes: [(&str, &dyn Fn(Device) -> bool); 4] = [
            ("shaft of the motor, turned by hand", &jet),
            ("motor plugs out: each pin to ground", &|device| device.is_motor()),
            ("hose of the ozonator, plug out", &|device| device == Device::Ozonator),
            ("blower and its air loop", &|device| device == Device::Blower),
        ];
        let wired = &planned.wiring.devices;
        for sign in shown(blocks).iter().filter(|sign| sign.noticed.starts_with("Fuse ")) {
            let named = wired.iter().filter(|it| {
                it.fuse.is_some_and(|fuse| says(&sign.noticed, &planned.board[fuse].code))
            });
            let behind: Vec<Device> = named.map(|it| it.device).collect();
            // Behind the fuse of a header that stays empty is nothing, until a plug is put there.
            let fuses = &planned.board.fuses;
            assert!(fuses.iter().any(|fuse| says(&sign.noticed, &fuse.code)), "{}", sign.noticed);
            for (what, is) in &causes {
                let listed = sign.rows.iter().any(|row| row.what == *what);
                let there = behind.iter().any(|device| is(*device));
                assert_eq!(listed, there, "{name}: {}: {what}: {behind:?}", sign.noticed);
                rows += usize::from(listed);
                left_out += usize::from(!listed && wired.iter().any(|it| is(it.device)));
            }
        }
    });
    assert!(rows > 20 && left_out > 5, "{rows} rows, {left_out} left out");
}

/// What several devices that do nothing can have in common is a fuse on which several headers are.
#[test]
fn a_shared_fuse_is_on_several_headers() {
    let listed = |blocks: &[Block]| -> Option<String> {
        let signs = shown(blocks);
        let several = signs.iter().find(|sign| sign.noticed.starts_with("Several devices"));
        let rows = several.expect("it is always listed").rows.iter();
        let mut fuses = rows.filter(|row| row.what.starts_with("fuse, taken out: continuity"));
        fuses.next().map(|row| row.correct[0].1.clone())
    };
    let judge = |board: &Board, headers: &BTreeSet<usize>, blocks: &[Block], name: &str| {
        let on = |fuse: usize| {
            let fuse_of = |at: &usize| board.headers[*at].fuse.map(|fuse| fuse.0);
            headers.iter().filter(|at| fuse_of(at) == Some(fuse)).count()
        };
        let said = listed(blocks).unwrap_or_default();
        for (index, fuse) in board.fuses.iter().enumerate() {
            let wanted = on(index) > 1;
            assert_eq!(says(&said, &fuse.code), wanted, "{name}: {}: {said:?}", fuse.code);
        }
        usize::from(!said.is_empty())
    };
    let mut shared = 0;
    with_backs(40, |planned, _, blocks, name| {
        let headers = planned.wiring.devices.iter().map(|it| it.header.0).collect();
        shared += judge(planned.board, &headers, blocks, name);
    });
    for name in demo::BOARDS {
        let board = demo::board(name);
        let serving = services(&board).into_iter().filter(|service| !service.served.is_empty());
        let headers = serving.map(|service| service.header.0).collect();
        shared += judge(&board, &headers, &of_board(&board), name);
    }
    assert!(shared > 8, "{shared}");
}

/// Some of what is common practice is drawn all the same: no sheet says that none of it is.
#[test]
fn what_is_drawn_is_not_said_to_have_no_drawing() {
    let mut drawn = 0;
    let mut judge = |blocks: &[Block], name: &str| {
        let rows = shown(blocks).into_iter().flat_map(|sign| sign.rows);
        let practice = rows.filter(ShownRow::practice);
        drawn += practice.filter(|row| !row.see.is_empty()).count();
        for block in blocks {
            if let Block::Paragraph(text) = block {
                assert!(!plain_text(text).contains("no drawing"), "{name}: {}", plain_text(text));
            }
        }
    };
    with_backs(1, |_, _, blocks, name| judge(blocks, name));
    demo::BOARDS.iter().for_each(|name| judge(&of_board(&demo::board(name)), name));
    assert!(drawn > 20, "{drawn}");
}

/// What is common practice is marked so, and is not said of what is not there.
#[test]
fn usual_causes_are_marked_and_fit_the_equipment() {
    let mut all = 0;
    with_backs(25, |planned, _, blocks, name| {
        let has = |device: Device| planned.wiring.devices.iter().any(|it| it.device == device);
        let about = [
            ("heater", Device::Heater),
            ("circulation pump", Device::Circulation),
            ("blower", Device::Blower),
            ("ozon", Device::Ozonator),
        ];
        for sign in shown(blocks) {
            for row in sign.rows.iter().filter(|row| row.practice()) {
                all += 1;
                for (word, device) in about {
                    let said =
                        row.what.contains(word) && row.what != "supply terminals and heater studs";
                    assert!(has(device) || !said, "{name}: {}: {}", sign.noticed, row.what);
                }
            }
        }
    });
    assert!(all > 500, "{all}");
    let jobs = demo::jobs();
    let of = |name: &str| {
        let planned = jobs.iter().find(|planned| planned.name == name).expect("it is there");
        shown(&of_job(&planned.board, &planned.job, &planned.plan))
    };
    let signs = of("2231");
    let under = |noticed: &str| {
        let sign = signs.iter().find(|sign| sign.noticed.contains(noticed)).expect(noticed);
        let row = |row: &ShownRow| (row.what.clone(), row.correct[0].1.clone(), row.see.clone());
        sign.rows.iter().map(row).collect::<Vec<_>>()
    };
    // On a new board the neutral is behind it most, after years the element that leaks.
    let trips = under("The ground-fault protection trips at once");
    assert_eq!(trips[0].0, "neutral at the ground-fault breaker");
    let leak = trips.iter().find(|row| row.0 == "heater element, wires off: stud to metal");
    assert!(leak.expect("it is listed").2.is_empty());
    assert_eq!(under("trips when the heater comes on")[0].0, leak.expect("it is").0);
    // 240 V squared by 4000 W, and 4000 W by 240 V; 860 and 409 times 4 kW.
    let slow = under("heats slowly");
    assert!(slow[0].1.contains("1636 \u{f7} gallons") && slow[0].1.contains("3440 \u{f7} liters"));
    let never = under("The heater never comes on");
    let ohms = "about 14.4 \u{3a9}; 16.7 A while on";
    assert!(never.iter().any(|row| row.1 == ohms), "{never:?}");
    let trips = under("The breaker trips when several");
    assert!(trips.iter().any(|row| row.1 == "50 A, not larger"), "{trips:?}");
}

/// The eight ways in which a fault finder that knows only mistakes misleads (1 to 8 of the list of usual
/// causes), each seen on the back of job 2231.
mod misleading {
    use super::*;
    use lidsheet::decide;
    use lidsheet::diagnostic::Problems;
    use lidsheet::source::Sources;
    use lidsheet::{board, spec};

    fn back(change: (&str, &str)) -> Vec<Block> {
        let text = include_str!("../../specs/jobs/2231.yaml");
        assert!(text.contains(change.0));
        let heron = demo::board("heron-8");
        let (mut sources, mut problems) = (Sources::default(), Problems::default());
        let file = sources.add("job.yaml", text.replacen(change.0, change.1, 1));
        let job = spec::parse_job(file, &sources, &mut problems)
            .and_then(|spec| board::check_job(&spec, &heron, &mut problems))
            .unwrap_or_else(|_| panic!("{:#?}", problems.sorted()));
        of_job(&heron, &job, &decide::plan(&heron, &job))
    }

    fn signs() -> Vec<Shown> {
        shown(&back(("Mill Lane", "Mill Lane")))
    }

    #[track_caller]
    fn under<'s>(signs: &'s [Shown], noticed: &str) -> &'s [ShownRow] {
        &signs.iter().find(|sign| sign.noticed.contains(noticed)).expect(noticed).rows
    }

    #[track_caller]
    fn row<'s>(rows: &'s [ShownRow], what: &str) -> &'s ShownRow {
        let found = rows.iter().find(|row| row.what.starts_with(what));
        found.unwrap_or_else(|| {
            panic!("no {what} among {:?}", rows.iter().map(|row| &row.what).collect::<Vec<_>>())
        })
    }

    /// 1: one order for all moments. In a spa that ran for years no mistake has a number but a layout or
    /// a bank that somebody can have set, and the first is never one.
    #[test]
    fn mistakes_come_last_in_a_spa_that_ran_for_years() {
        let signs = signs();
        for row in signs.iter().flat_map(|sign| &sign.rows) {
            let set = ["layout number", "switch bank"].contains(&row.what.as_str());
            let last = row.live();
            assert!(row.practice() || set || last || row.years.is_empty(), "{}", row.what);
        }
        let hums = under(&signs, "hums");
        assert_eq!((&*row(hums, "jumper").number, &*row(hums, "jumper").years), ("1", ""));
        assert_eq!(row(hums, "shaft of the motor").years, "1");
    }

    /// 2: a moulded plug that is turned. Its wires are looked at where somebody ended it anew, and
    /// always among what is checked even if all works.
    #[test]
    fn wires_in_a_plug_are_looked_at_where_it_was_ended_anew() {
        let is_cord = |row: &&ShownRow| row.what.starts_with("wires in the plug");
        let count = |blocks: &[Block]| {
            shown(blocks).iter().flat_map(|sign| &sign.rows).filter(is_cord).count()
        };
        assert_eq!(count(&back(("Mill Lane", "Mill Lane"))), 0);
        for cord in ["re-ended", "adapter"] {
            let blocks = back(("amps: 9.6 }", &format!("amps: 9.6, cord: {cord} }}")));
            assert!(count(&blocks) > 2);
            let signs = shown(&blocks);
            let trips = under(&signs, "protection trips when another");
            assert_eq!(row(trips, "wires in the plug of pump 2").see, "J3");
            assert!(trips.iter().filter(is_cord).count() == 1, "of no other");
        }
        let hidden = back(("Mill Lane", "Mill Lane"));
        let rows = &tables(&hidden)["Check these even if all works"].rows;
        assert!(rows.iter().any(|row| plain_text(&row[2]).starts_with("Wires in each plug")));
    }

    /// 3: the protection trips, and no word of when.
    #[test]
    fn the_protection_has_six_rows() {
        let signs = signs();
        let all = signs.iter().filter(|sign| sign.noticed.contains("ground-fault protection"));
        assert_eq!(all.count(), 6);
        assert_eq!(
            under(&signs, "protection trips at once")[0].what,
            "neutral at the ground-fault breaker"
        );
        let leak = row(under(&signs, "protection trips when the heater"), "heater element");
        assert_eq!((&*leak.number, &*leak.years), ("1", "1"));
        row(under(&signs, "protection trips when another"), "hose of the ozonator");
    }

    /// 4: no row for the commonest calls.
    #[test]
    fn what_is_commonest_has_a_row_on_every_insert() {
        for planned in demo::jobs() {
            let signs = shown(&of_job(&planned.board, &planned.job, &planned.plan));
            for noticed in
                ["breaker trips at once", "breaker trips when the heater", "smells of burning"]
            {
                assert!(!under(&signs, noticed).is_empty(), "{}", planned.name);
            }
            for wanted in ["hotter than", "noisy"] {
                under(&signs, wanted);
            }
            let (_, wiring) = planned.plan.sound().expect("it is sound");
            for fuse in wiring.devices.iter().filter_map(|device| device.fuse) {
                let code = &planned.board[fuse].code;
                let blows = |sign: &&Shown| sign.noticed.starts_with("Fuse ");
                let named = signs.iter().filter(blows).any(|sign| says(&sign.noticed, code));
                assert!(named, "{}: {code}", planned.name);
            }
            if !planned.board.panels.is_empty() {
                under(&signs, "The panel shows nothing");
            }
        }
    }

    /// 5: what cannot be turned off is mostly as it is set; a welded relay scalds.
    #[test]
    fn what_runs_as_it_is_set_is_asked_first() {
        let signs = signs();
        let first = &under(&signs, "cannot be turned off")[0];
        assert_eq!((&*first.what, &*first.years), ("settings on the panel", "1"));
        let hot = under(&signs, "hotter than");
        // As often as the sensor and the settings, which need no open box.
        assert_eq!(row(hot, "plug out: fuse or jumper to pin high").years, "3");
    }

    /// 6: no heat. What needs no open box comes first; what moves the water is named, and not the plug
    /// that changed places with it; ohms, amperes and the rise are of this job.
    #[test]
    fn a_cold_heater_is_looked_at_from_outside_first() {
        let signs = signs();
        let never = under(&signs, "The heater never comes on");
        assert_eq!(never[0].what, "settings on the panel");
        assert_eq!(never[1].what, "filter, valves, water level");
        let plugs: Vec<&str> = never
            .iter()
            .map(|row| row.what.as_str())
            .filter(|what| what.starts_with("plug of"))
            .collect();
        assert_eq!(plugs, ["plug of the circulation pump"]);
        let element = row(never, "heater element, wires off: stud to stud");
        assert_eq!(element.correct[0].1, "about 14.4 \u{3a9}; 16.7 A while on");
        let slow = &under(&signs, "heats slowly")[0];
        assert_eq!(slow.what, "rise in one hour, spa cover on, 4000 W");
    }

    /// 7: each device alone. What several share is one row; the neutral is tested to ground, too.
    #[test]
    fn several_dead_devices_have_one_cause() {
        let signs = signs();
        let several = under(&signs, "Several devices");
        assert_eq!(several[0].what, "supply wires");
        assert!(several[0].correct[0].1.contains("T3"), "{:?}", several[0].correct);
        let live: Vec<bool> = several.iter().map(ShownRow::live).collect();
        assert_eq!(live.iter().filter(|live| **live).count(), 1);
        for caution in ["front/isolate", "work-card/lock"] {
            let text = include_str!("../../templates/en/cautions.md");
            let (_, of) = text.split_once(&format!("# {caution}")).unwrap_or_default();
            let of = of.split("\n# ").next().unwrap_or_default();
            assert!(of.contains("neutral to ground"), "{caution}: {of}");
        }
    }

    /// 8: a fuse is right if it conducts. Its rating and kind are read, and it is looked at before what
    /// is behind it is taken apart; a sticky button is behind every second press.
    #[test]
    fn a_fuse_is_read_and_not_only_measured() {
        let signs = signs();
        let fuse = row(under(&signs, "does nothing"), "fuse, taken out");
        assert_eq!(fuse.what, "fuse, taken out: continuity and marking");
        assert!(fuse.correct.iter().any(|(_, correct)| correct == "F4, 5 A time-lag"));
        // Behind a motor that is only hot, before anything is taken apart.
        assert_eq!(fuse.years, "2");
        let blows = signs.iter().find(|sign| sign.noticed.starts_with("Fuse F1, ")).expect("fuses");
        row(&blows.rows, "fuse, taken out");
        row(&blows.rows, "hose of the ozonator");
        row(under(&signs, "second press"), "buttons of the panel");
    }
}
