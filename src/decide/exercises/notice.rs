//! What comes of one mistake.

use std::sync::Arc;

use super::super::mistakes::{
    AsBuilt, Mistake, Observation, PlannedCase, Sign, State, consequence, simulate, single_mistakes,
};
use super::super::plan::DeviceId;
use super::case::{Case, TableRow, rows};
use super::dice::Dice;
use super::{Exercise, Task};
use crate::board::{Board, Device};

/// How many answers there are to choose from.
pub const OPTIONS: usize = 4;

/// The most signs of an answer: more are not read.
const SIGNS: usize = 4;

/// How many other mistakes are simulated to find answers that tempt.
const OTHERS: usize = 16;

/// How many mistakes are tried on one job.
const MISTAKES: usize = 6;

/// What comes of one mistake on a job that is right but for it: which of four answers?
///
/// Each answer is all that comes of some mistake. Level: how many of the three wrong answers are
/// near: they tell of a device that the right one tells of, and of every device that the question
/// names and the right one tells of. Not trivial: at least one is; no answer names a field of a
/// switch bank or a header, because the question may. One answer alone is right: no other has the
/// same signs, and none is a part of the right one. Two questions are alike if supply, layout and
/// mistake are the same.
#[derive(Clone, Debug)]
pub struct Notice {
    /// Given: the job, wired as its plan says.
    pub case: Arc<Case>,
    /// Given: but for this.
    pub mistake: Mistake,
    /// The answers to choose from, in the order in which they are printed.
    pub options: Vec<Consequences>,
    /// Which of them is right.
    pub answer: usize,
    /// Where what is got wrong is looked up.
    pub rows: Vec<TableRow>,
}

/// What comes of a mistake; a wrong answer has the mistake that it would be right for.
#[derive(Clone, Debug, PartialEq)]
pub struct Consequences {
    /// The mistake.
    pub mistake: Mistake,
    /// All that comes of it, the most dangerous first; what [`Sign::is_noticed`] denies is there,
    /// but nobody notices it.
    pub signs: Vec<Observation>,
}

/// The exercise with a mistake on a job; `None` if none was found that leaves one answer.
pub fn pose(board: &Board, case: &Arc<Case>, dice: &mut Dice) -> Option<Exercise> {
    let planned = case.planned(board);
    let pool = MistakePool::new(&planned, dice);
    let tried = pool.mistakes.iter().take(MISTAKES);
    tried.into_iter().find_map(|mistake| ask(case, &pool, *mistake, dice))
}

fn ask(
    case: &Arc<Case>,
    pool: &MistakePool<'_>,
    mistake: Mistake,
    dice: &mut Dice,
) -> Option<Exercise> {
    let right = pool.comes_of(mistake).filter(fit_to_read)?;
    let named = named(pool.planned, mistake);
    let mut near: Vec<Consequences> = Vec::new();
    let mut far: Vec<Consequences> = Vec::new();
    for other in pool.others(mistake, dice) {
        let Some(found) = pool.comes_of(other).filter(fit_to_read) else { continue };
        let known = near.iter().chain(&far);
        let same = |known: &Consequences| signs(known) == signs(&found);
        if within(&found, &right) || known.into_iter().any(same) {
            continue;
        }
        if is_near(&found, &right, &named) { near.push(found) } else { far.push(found) }
    }
    let wanted = dice.within(1, OPTIONS - 1);
    let close = near.len().min(wanted);
    let mut options: Vec<Consequences> = near.drain(..close).collect();
    options.extend(far);
    options.extend(near);
    options.truncate(OPTIONS - 1);
    let level = options.iter().filter(|option| is_near(option, &right, &named)).count() as u8;
    if level == 0 || options.len() < OPTIONS - 1 {
        return None;
    }
    options.push(right);
    dice.shuffle(&mut options);
    let answer = options.iter().position(|option| option.mistake == mistake)?;
    let rows = rows(pool.planned, mistake);
    let task = Notice { case: Arc::clone(case), mistake, options, answer, rows };
    Some(Exercise { level, task: Task::Notice(task) })
}

fn fit_to_read(found: &Consequences) -> bool {
    let names_it =
        |seen: &Observation| matches!(seen.sign, Sign::SetOtherwise(..) | Sign::HeaderHot(..));
    found.signs.len() <= SIGNS && !found.signs.iter().any(names_it)
}

fn signs(of: &Consequences) -> Vec<Sign> {
    let mut all: Vec<Sign> = of.signs.iter().map(|seen| seen.sign).collect();
    all.sort_unstable();
    all
}

/// Whether all that `part` says is true of `whole`.
fn within(part: &Consequences, whole: &Consequences) -> bool {
    let whole = signs(whole);
    signs(part).iter().all(|sign| whole.contains(sign))
}

/// Whether `other` is as likely by its wording as `right`: it tells of a device that `right` tells
/// of, or both of none; and of all that are `named` and `right` tells of.
fn is_near(other: &Consequences, right: &Consequences, named: &[Device]) -> bool {
    let devices = |of: &Consequences| -> Vec<Device> {
        of.signs.iter().flat_map(|seen| seen.sign.devices()).collect()
    };
    let (other, right) = (devices(other), devices(right));
    let shares = right.iter().any(|device| other.contains(device));
    let mut asked = named.iter().filter(|device| right.contains(device));
    asked.all(|device| other.contains(device)) && (shares || (other.is_empty() && right.is_empty()))
}

/// The devices that a mistake names.
fn named(planned: &PlannedCase<'_>, mistake: Mistake) -> Vec<Device> {
    let device = |id: DeviceId| planned.wiring[id].device;
    match mistake {
        Mistake::Plug { device: id, .. } | Mistake::Cord { device: id, .. } => vec![device(id)],
        Mistake::PlugsSwapped(two) => two.map(device).to_vec(),
        _ => Vec::new(),
    }
}

/// Whether a mistake lies in the house, before the supply reaches the box: the tables of a board, which
/// exercises are about, say nothing of it.
fn before_the_box(mistake: Mistake) -> bool {
    matches!(mistake, Mistake::SameLine(_) | Mistake::NeutralPast | Mistake::NeutralGrounded)
}

/// A planned job and every single mistake on it, to draw questions from.
pub struct MistakePool<'a> {
    /// The job and its plan.
    pub planned: &'a PlannedCase<'a>,
    /// As it should be.
    pub built: AsBuilt,
    /// What it then does.
    pub before: State,
    /// Every single mistake, the sorts of them in turn: swapped plugs would crowd out the rest.
    pub mistakes: Vec<Mistake>,
}

impl<'a> MistakePool<'a> {
    /// Of a job.
    pub fn new(planned: &'a PlannedCase<'a>, dice: &mut Dice) -> Self {
        let built = AsBuilt::as_planned(planned);
        let before = simulate(planned, &built);
        let mut all = single_mistakes(planned);
        all.retain(|mistake| !before_the_box(*mistake));
        dice.shuffle(&mut all);
        let mut sorts: Vec<(std::mem::Discriminant<Mistake>, Vec<Mistake>)> = Vec::new();
        for mistake in all {
            let sort = std::mem::discriminant(&mistake);
            match sorts.iter_mut().find(|(known, _)| *known == sort) {
                Some((_, of)) => of.push(mistake),
                None => sorts.push((sort, vec![mistake])),
            }
        }
        dice.shuffle(&mut sorts);
        let mut mistakes = Vec::new();
        while !sorts.is_empty() {
            sorts.retain_mut(|(_, of)| {
                mistakes.extend(of.pop());
                !of.is_empty()
            });
        }
        Self { planned, built, before, mistakes }
    }

    /// What comes of a mistake; `None` if nothing does.
    pub fn comes_of(&self, mistake: Mistake) -> Option<Consequences> {
        let found = consequence(self.planned, &self.built, &self.before, mistake)?;
        Some(Consequences { mistake, signs: found.signs })
    }

    /// Some other mistakes, the sorts of them in turn.
    pub fn others(&self, mistake: Mistake, dice: &mut Dice) -> Vec<Mistake> {
        let others = self.mistakes.iter().copied().filter(|other| *other != mistake);
        let mut some: Vec<Mistake> = others.take(OTHERS).collect();
        dice.shuffle(&mut some);
        some
    }
}
