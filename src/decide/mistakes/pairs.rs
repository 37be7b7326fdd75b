//! Two mistakes at once, for who asks: there are thousands.

use super::super::plan::DeviceId;
use super::device_circuit::Plugged;
use super::signs::Right;
use super::{
    AsBuilt, CordAt, Mistake, NeutralPath, Observation, PlannedCase, Sign, Simulation, State,
    single_mistakes,
};
use crate::board::{BankId, Conductor, HandleMap, LayoutNumber, LinkId, System, TerminalId};

/// Two mistakes that together show something else than each by itself.
#[derive(Clone, Debug)]
pub struct Pair {
    /// The mistakes.
    pub mistakes: [Mistake; 2],
    /// What the board does with both.
    pub state: State,
    /// What tells the board with both from the right one, the most dangerous first. Empty if the
    /// one makes up for the other.
    pub signs: Vec<Observation>,
}

/// Every pair of single mistakes about different things that together show more or less than the two
/// show one by one. `progress` hears how many of how many mistakes are done with.
pub fn pairs(planned: &PlannedCase<'_>, progress: &mut dyn FnMut(usize, usize)) -> Vec<Pair> {
    pairs_but(planned, Electrical::of, progress)
}

/// The same, where a board that is another one only in what `electrical` leaves out does the same.
fn pairs_but<E: PartialEq>(
    planned: &PlannedCase<'_>,
    electrical: impl Fn(&PlannedCase<'_>, &AsBuilt) -> E,
    progress: &mut dyn FnMut(usize, usize),
) -> Vec<Pair> {
    let built = AsBuilt::as_planned(planned);
    let mut simulation = Simulation::new(planned);
    let before = simulation.state(&built);
    let right = Right::new(planned, &built, &before);
    let mut seen = |after: &AsBuilt| {
        let state = simulation.state(after);
        let signs = right.signs(after, &state);
        (state, signs)
    };
    let all: Vec<(Mistake, AsBuilt, E, Vec<Sign>)> = single_mistakes(planned)
        .into_iter()
        .map(|mistake| {
            let after = built.with(planned, mistake);
            let (_, signs) = seen(&after);
            let known = electrical(planned, &after);
            (mistake, after, known, sorted(&signs))
        })
        .collect();
    let mut found = Vec::new();
    for (index, (first, with_first, does_first, of_first)) in all.iter().enumerate() {
        progress(index, all.len());
        for (second, with_second, does_second, of_second) in all.iter().skip(index + 1) {
            let both = with_first.with(planned, *second);
            if both == *with_first || both == *with_second || both == built {
                continue;
            }
            let mut expected: Vec<Sign> = of_first.iter().chain(of_second).copied().collect();
            expected.sort();
            expected.dedup();
            let does = electrical(planned, &both);
            // One of the two changes nothing where the other is: what is shown is known.
            let as_first = does == *does_first && expected == *of_first;
            let as_second = does == *does_second && expected == *of_second;
            // Whoever gets the same thing wrong twice has got it wrong once.
            if as_first || as_second || both != with_second.with(planned, *first) {
                continue;
            }
            let (state, signs) = seen(&both);
            if sorted(&signs) != expected {
                found.push(Pair { mistakes: [*first, *second], state, signs });
            }
        }
    }
    found
}

fn sorted(signs: &[Observation]) -> Vec<Sign> {
    let mut all: Vec<Sign> = signs.iter().map(|seen| seen.sign).collect();
    all.sort();
    all
}

/// All of a board as it is built that what it does and shows hangs on: a jumper that nothing is behind is
/// left out.
#[derive(Debug, PartialEq)]
struct Electrical {
    supply: (System, Option<[Conductor; 2]>, NeutralPath),
    lands: HandleMap<TerminalId, Option<Conductor>>,
    links: HandleMap<LinkId, TerminalId>,
    layout: Option<LayoutNumber>,
    ways: HandleMap<BankId, Vec<bool>>,
    cords: HandleMap<DeviceId, CordAt>,
    plugged: Vec<Plugged>,
}

impl Electrical {
    fn of(planned: &PlannedCase<'_>, built: &AsBuilt) -> Self {
        let board = planned.board;
        // What enters the layout number shows nothing else.
        let AsBuilt { system, same_line, neutral, lands, links, .. } = built;
        let AsBuilt { entered: _, selectors: _, jumpers: _, cords, ways, .. } = built;
        Self {
            supply: (*system, *same_line, *neutral),
            lands: lands.clone(),
            links: links.clone(),
            layout: built.layout(board),
            ways: ways.clone(),
            cords: cords.clone(),
            plugged: cords.entries().map(|(id, _)| Plugged::new(board, built, id)).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::sample::{Case, JOB};
    use super::*;

    /// Against all pairs, each simulated: what is left out would have shown nothing.
    #[test]
    fn no_pair_is_missed() {
        let case = Case::new(JOB);
        let planned = case.planned();
        let told = |pair: &Pair| (pair.mistakes, pair.signs.clone());
        let found: Vec<_> = pairs(&planned, &mut |_, _| {}).iter().map(told).collect();
        let all: Vec<_> = pairs_but(&planned, |_, built| built.clone(), &mut |_, _| {})
            .iter()
            .map(told)
            .collect();
        assert_eq!(found, all);
        assert!(found.len() > 100, "{}", found.len());
        // There is something to leave out: a jumper of an empty header.
        let built = AsBuilt::as_planned(&planned);
        let right = Electrical::of(&planned, &built);
        let idle = single_mistakes(&planned)
            .into_iter()
            .filter(|mistake| Electrical::of(&planned, &built.with(&planned, *mistake)) == right);
        assert!(idle.count() > 0);
    }
}
