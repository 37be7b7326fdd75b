//! What is best of all that keeps to a budget: each thing is left out or taken in one of a few ways,
//! each with its cost, and the costs together may not be above the budget.
//!
//! A board that lets its heater wait adds up the current of all that runs. What may run beside the
//! heater are the choices whose sum keeps to a current, and the worst of them is looked for. It is
//! found by branch and bound: a branch cannot reach more than the sum of what is taken and of the
//! rest, the best for its cost first, until the budget is used up.

/// A way to take a thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Take {
    /// The most that it can add to the value of a choice. Not negative.
    pub worth: f64,
    /// What it takes of the budget. Not negative.
    pub cost: f64,
}

/// Whether a sum of costs keeps to a budget. What differs in the last digits is the same.
pub fn keeps(budget: f64, cost: f64) -> bool {
    cost <= budget * (1.0 + 1e-9)
}

/// The choice with the largest value above `known`: for each thing which of its ways, counted from 1,
/// or 0 for none. `value` gives the value of a choice, never more than the sum of what it takes is
/// worth. `None` if no choice is above `known`.
pub fn best(
    things: &[Vec<Take>],
    budget: f64,
    known: f64,
    value: &mut dyn FnMut(&[usize]) -> f64,
) -> Option<(f64, Vec<usize>)> {
    let mut order: Vec<Bound> = things.iter().enumerate().map(Bound::of).collect();
    order.sort_by(|a, b| b.rate.total_cmp(&a.rate).then(a.thing.cmp(&b.thing)));
    let chosen = vec![0; things.len()];
    let mut search = Search { things, order, value, known, chosen, best: None };
    search.next(0, budget * (1.0 + 1e-9), 0.0);
    search.best.map(|chosen| (search.known, chosen))
}

/// What a thing can add at the most.
struct Bound {
    thing: usize,
    /// The most worth for a unit of cost.
    rate: f64,
    /// The most worth.
    most: f64,
}

impl Bound {
    fn of((thing, ways): (usize, &Vec<Take>)) -> Self {
        let rate = |take: &Take| if take.cost > 0.0 { take.worth / take.cost } else { f64::MAX };
        Self {
            thing,
            rate: ways.iter().map(rate).fold(0.0, f64::max),
            most: ways.iter().map(|take| take.worth).fold(0.0, f64::max),
        }
    }
}

struct Search<'a> {
    things: &'a [Vec<Take>],
    /// The best for its cost first.
    order: Vec<Bound>,
    value: &'a mut dyn FnMut(&[usize]) -> f64,
    known: f64,
    chosen: Vec<usize>,
    best: Option<Vec<usize>>,
}

impl Search<'_> {
    /// Goes on with the thing at `place` of the order: `left` is what is left of the budget, `worth`
    /// what is taken so far.
    fn next(&mut self, place: usize, left: f64, worth: f64) {
        // What differs in the last digits is the same, and the first found is kept.
        if worth + self.rest(place, left) <= self.known * (1.0 + 1e-12) + 1e-12 {
            return;
        }
        let Some(thing) = self.order.get(place).map(|bound| bound.thing) else {
            let found = (self.value)(&self.chosen);
            if found > self.known * (1.0 + 1e-12) + 1e-12 {
                self.known = found;
                self.best = Some(self.chosen.clone());
            }
            return;
        };
        let ways = self.things.get(thing).map(Vec::as_slice).unwrap_or_default();
        // The largest first: what is found early cuts off the rest.
        for (way, take) in ways.iter().enumerate().rev() {
            if take.cost <= left {
                self.choose(thing, way + 1);
                self.next(place + 1, left - take.cost, worth + take.worth);
            }
        }
        self.choose(thing, 0);
        self.next(place + 1, left, worth);
    }

    fn choose(&mut self, thing: usize, way: usize) {
        self.chosen.get_mut(thing).into_iter().for_each(|chosen| *chosen = way);
    }

    /// The most that the things from `place` on can add within `left`, if they could be cut.
    fn rest(&self, place: usize, mut left: f64) -> f64 {
        let mut sum = 0.0;
        for bound in self.order.iter().skip(place) {
            let worth = if bound.rate == f64::MAX { bound.most } else { bound.rate * left };
            let worth = worth.min(bound.most);
            sum += worth;
            if bound.rate > 0.0 && bound.rate < f64::MAX {
                left = (left - worth / bound.rate).max(0.0);
            }
        }
        sum
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn thing() -> impl Strategy<Value = Vec<Take>> {
        let take = (0_u32..60, 0_u32..60)
            .prop_map(|(worth, cost)| Take { worth: f64::from(worth), cost: f64::from(cost) });
        prop::collection::vec(take, 0..3)
    }

    /// The value of a choice: some of it may cancel, as currents do that flow against each other.
    fn value(things: &[Vec<Take>], chosen: &[usize]) -> f64 {
        let worth = chosen.iter().zip(things).enumerate().map(|(at, (way, ways))| {
            let worth = way.checked_sub(1).map_or(0.0, |way| ways[way].worth);
            if at % 3 == 2 { -worth } else { worth }
        });
        worth.sum::<f64>().abs()
    }

    proptest! {
        #![proptest_config(ProptestConfig {
            failure_persistence: None,
            ..ProptestConfig::with_cases(3000)
        })]

        #[test]
        fn no_choice_within_the_budget_is_better(
            things in prop::collection::vec(thing(), 0..7),
            budget in 0_u32..150,
            known in 0_u32..100,
        ) {
            let (budget, known) = (f64::from(budget), f64::from(known));
            let mut tried = known;
            let count: usize = things.iter().map(|ways| ways.len() + 1).product();
            for mut number in 0..count {
                let mut chosen = Vec::new();
                for ways in &things {
                    chosen.push(number % (ways.len() + 1));
                    number /= ways.len() + 1;
                }
                let cost = chosen.iter().zip(&things);
                let cost = cost.filter_map(|(way, ways)| way.checked_sub(1).map(|way| ways[way].cost));
                if cost.sum::<f64>() <= budget {
                    tried = tried.max(value(&things, &chosen));
                }
            }
            let found = best(&things, budget, known, &mut |chosen| value(&things, chosen));
            match found {
                None => prop_assert_eq!(tried, known),
                Some((found, chosen)) => {
                    prop_assert_eq!(found, tried);
                    prop_assert_eq!(value(&things, &chosen), tried);
                }
            }
        }
    }
}
