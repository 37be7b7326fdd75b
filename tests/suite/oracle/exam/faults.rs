//! What comes of a mistake, and what is wrong: decided by simulation, which has its own tests.

use lidsheet::board::{BankId, Board, HeaderId, JumperId, LayoutEntry};
use lidsheet::decide::exercises::{Case, Notice, OPTIONS, WhatsWrong};
use lidsheet::decide::mistakes::{
    AsBuilt, Mistake, Observation, PlannedCase, Sign, State, signs, simulate, single_mistakes,
};
use lidsheet::decide::{self, DeviceId};

use super::all_differ;

/// A job as it should be.
struct Bench<'a> {
    right: PlannedCase<'a>,
    built: AsBuilt,
    state: State,
}

impl<'a> Bench<'a> {
    fn new(board: &'a Board, case: &'a Case) -> Self {
        let right = PlannedCase::new(board, &case.job, (&case.layout, &case.wiring));
        let built = AsBuilt::as_planned(&right);
        let state = simulate(&right, &built);
        Self { right, built, state }
    }

    /// What tells a board from a right one.
    fn told(&self, built: &AsBuilt) -> Vec<Observation> {
        let state = simulate(&self.right, built);
        signs(&self.right, (&self.built, &self.state), (built, &state))
    }

    fn comes_of(&self, mistake: Mistake) -> Vec<Sign> {
        sorted(&self.told(&self.built.with(&self.right, mistake)))
    }
}

fn sorted(seen: &[Observation]) -> Vec<Sign> {
    let mut all: Vec<Sign> = seen.iter().map(|seen| seen.sign).collect();
    all.sort();
    all
}

/// The job is planned again: the plan is sound and the same.
fn sound(board: &Board, case: &Case) {
    let plan = decide::plan(board, &case.job);
    let (layout, wiring) = plan.sound().expect("it is sound");
    assert_eq!(layout, &case.layout);
    assert_eq!(format!("{wiring:?}"), format!("{:?}", case.wiring));
}

pub fn notice(board: &Board, task: &Notice) {
    sound(board, &task.case);
    let bench = Bench::new(board, &task.case);
    assert!(single_mistakes(&bench.right).contains(&task.mistake), "{task:?}");
    let truth = bench.comes_of(task.mistake);
    assert!(!truth.is_empty(), "{task:?}");
    assert_eq!(task.options.len(), OPTIONS);
    let all: Vec<Vec<Sign>> = task.options.iter().map(|it| sorted(&it.signs)).collect();
    let right: Vec<usize> = (0..OPTIONS).filter(|at| all[*at] == truth).collect();
    assert_eq!(right, [task.answer], "{task:?}");
    for (at, option) in task.options.iter().enumerate() {
        // Each is what comes of its own mistake, and says something that is not so here.
        assert_eq!(bench.comes_of(option.mistake), all[at], "{task:?}");
        assert_eq!(option.mistake == task.mistake, at == task.answer, "{task:?}");
        if at != task.answer {
            assert!(all[at].iter().any(|sign| !truth.contains(sign)), "{task:?}");
        }
    }
    assert!(all_differ(&all), "{task:?}");
    assert!(!task.rows.is_empty(), "{task:?}");
    // Not trivial: no option says which field or header it is, and if the right one tells of
    // devices, so does another.
    let names = |sign: &Sign| matches!(sign, Sign::SetOtherwise(..) | Sign::HeaderHot(..));
    assert!(!all.iter().flatten().any(names), "{task:?}");
    let words = |signs: &[Sign]| -> Vec<String> {
        let text = format!("{signs:?}");
        ["Circulation", "Pump(", "Blower", "Ozonator", "Light", "Sound", "Heater", "Own("]
            .into_iter()
            .flat_map(|word| text.match_indices(word).map(|(at, _)| word_at(&text, at)))
            .collect::<Vec<String>>()
    };
    let told = words(&truth);
    let shares = |at: &usize| words(&all[*at]).iter().any(|word| told.contains(word));
    let near = (0..OPTIONS).filter(|at| *at != task.answer);
    if told.is_empty() {
        assert!(near.into_iter().any(|at| words(&all[at]).is_empty()), "{task:?}");
    } else {
        assert!(near.into_iter().any(|at| shares(&at)), "{task:?}");
    }
}

/// The name of a device in a text, a pump with its number; `HeaterNever` tells of the heater.
fn word_at(text: &str, at: usize) -> String {
    let length = match &text[at..] {
        own if own.starts_with("Own(") => own.find(", ").unwrap_or(5),
        pump if pump.starts_with("Pump(") => 6,
        _ => 5,
    };
    text[at..].chars().take(length).collect()
}

pub fn whats_wrong(board: &Board, task: &WhatsWrong) {
    sound(board, &task.case);
    let bench = Bench::new(board, &task.case);
    let told = bench.told(&task.seen);
    let (noticed, unnoticed): (Vec<_>, Vec<_>) =
        told.into_iter().partition(|seen| seen.sign.is_noticed());
    assert_eq!((&noticed, &unnoticed), (&task.noticed, &task.unnoticed), "{task:?}");
    assert!(!noticed.is_empty(), "{task:?}");
    assert_eq!(bench.built.with(&bench.right, task.answer), task.seen, "{task:?}");
    // Landing, links and cords are right, as the question says.
    let links = &board[task.case.job.supply.value].links;
    assert_eq!((&task.seen.lands, &task.seen.links), (&bench.built.lands, links));
    // Of all boards that are one change away, one alone is not told from a right one.
    let mended: Vec<AsBuilt> = one_away(board, &bench, &task.seen)
        .into_iter()
        .filter(|it| bench.told(it).is_empty())
        .collect();
    assert_eq!(mended, std::slice::from_ref(&bench.built), "{task:?}");
    assert_eq!(task.seen.with(&bench.right, task.change), bench.built, "{task:?}");
    assert!(!task.rows.is_empty(), "{task:?}");
    // Not trivial: no sign names the field, and other mistakes would be noticed like this.
    let names = |seen: &Observation| matches!(seen.sign, Sign::SetOtherwise(..));
    assert!(!task.noticed.iter().chain(&task.unnoticed).any(names), "{task:?}");
    assert!(!task.traps.is_empty(), "{task:?}");
    let shown = sorted(&task.noticed);
    for trap in &task.traps {
        assert_ne!(trap.answer, task.answer);
        assert!(shown.contains(&trap.mistake), "{task:?}");
        assert!(bench.comes_of(trap.answer).contains(&trap.mistake), "{task:?}");
        assert_ne!(bench.built.with(&bench.right, trap.answer), task.seen, "{task:?}");
    }
    let answers: Vec<Mistake> = task.traps.iter().map(|trap| trap.answer).collect();
    assert!(all_differ(&answers), "{task:?}");
}

/// Every board that is one change away: each number, each group for each jumper, each two jumpers
/// changed, each plug in each free header of its family, each two plugs changed, each way flipped.
fn one_away(board: &Board, bench: &Bench<'_>, seen: &AsBuilt) -> Vec<AsBuilt> {
    let mut all = Vec::new();
    let mut add = |change: &dyn Fn(&mut AsBuilt)| {
        let mut other = seen.clone();
        change(&mut other);
        if other != *seen && !all.contains(&other) {
            all.push(other);
        }
    };
    match board.layout_entry() {
        LayoutEntry::Panel => {
            for layout in &board.layouts {
                add(&|it| it.entered = layout.number);
            }
        }
        LayoutEntry::Selector(selector) => {
            for position in 0..board[selector].positions.len() {
                add(&|it| it.selectors[selector] = position);
            }
        }
        // Among all other ways.
        LayoutEntry::Ways { .. } => {}
    }
    for (a, jumper) in board.jumpers.iter().enumerate() {
        for group in &jumper.groups {
            add(&|it| it.jumpers[JumperId(a)] = *group);
        }
        for (b, other) in board.jumpers.iter().enumerate().skip(a + 1) {
            if jumper.groups.contains(&seen.jumpers[JumperId(b)])
                && other.groups.contains(&seen.jumpers[JumperId(a)])
            {
                add(&|it| it.jumpers.swap(a, b));
            }
        }
    }
    let family = |device: usize| board[bench.right.wiring[DeviceId(device)].header].socket;
    for a in 0..seen.cords.len() {
        for header in (0..board.headers.len()).map(HeaderId) {
            let free = seen.cords.iter().all(|cord| cord.header != header);
            if free && board[header].socket == family(a) {
                add(&|it| it.cords[DeviceId(a)].header = header);
            }
        }
        for b in a + 1..seen.cords.len() {
            if family(a) == family(b) {
                add(&|it| it.cords.swap(a, b));
            }
        }
    }
    for (bank, ways) in seen.ways.iter().enumerate() {
        for way in 0..ways.len() {
            let field = board.banks[bank]
                .fields
                .iter()
                .find(|field| (field.first..=field.last).contains(&(way as u8 + 1)));
            if field.is_some_and(|field| !field.unused()) {
                add(&|it| it.ways[BankId(bank)][way] ^= true);
            }
        }
    }
    all
}
