//! Two mistakes at once, for who asks: there are thousands.

use super::signs::Right;
use super::{AsBuilt, Mistake, Observation, PlannedCase, Simulation, State, single_mistakes};

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
/// show one by one.
pub fn pairs(planned: &PlannedCase<'_>) -> Vec<Pair> {
    let built = AsBuilt::as_planned(planned);
    let mut simulation = Simulation::new(planned);
    let before = simulation.state(&built);
    let right = Right::new(planned, &built, &before);
    let mut seen = |after: &AsBuilt| {
        let state = simulation.state(after);
        let signs = right.signs(after, &state);
        (state, signs)
    };
    let all: Vec<(Mistake, AsBuilt, Vec<Observation>)> = single_mistakes(planned)
        .into_iter()
        .map(|mistake| {
            let after = built.with(planned, mistake);
            let (_, signs) = seen(&after);
            (mistake, after, signs)
        })
        .collect();
    let mut found = Vec::new();
    for (index, (first, with_first, of_first)) in all.iter().enumerate() {
        for (second, with_second, of_second) in all.iter().skip(index + 1) {
            let both = with_first.with(planned, *second);
            // Whoever gets the same thing wrong twice has got it wrong once.
            let same_thing = both != with_second.with(planned, *first);
            if same_thing || both == *with_first || both == *with_second || both == built {
                continue;
            }
            let (state, signs) = seen(&both);
            let expected = of_first.iter().chain(of_second).map(|seen| seen.sign);
            let mut expected: Vec<_> = expected.collect();
            expected.sort();
            expected.dedup();
            let mut together: Vec<_> = signs.iter().map(|seen| seen.sign).collect();
            together.sort();
            if together != expected {
                found.push(Pair { mistakes: [*first, *second], state, signs });
            }
        }
    }
    found
}
