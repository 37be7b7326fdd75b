//! Exact search for the best tree of questions over a matrix of 0, 1 and 2.
//!
//! What matters of a node is only the set of rows that are still possible. First the least depth
//! is found: "can this set be told apart with `depth` questions?", asked with a growing `depth`
//! and remembered for each set. Then, within that depth, the least sum of questions over all rows,
//! by branch and bound. Two lower bounds cut both searches:
//!
//! * Information. A path never asks the same column twice, so `k` questions lead to at most `P(k)`
//!   rows, the product of the `k` largest numbers of answers. By Kraft's inequality the leaves'
//!   `1 / P(depth)` sum to at most 1, and as that is convex, the cheapest conceivable tree has
//!   leaves on two neighbouring depths only.
//! * An adversary who always gives a column's commonest answer. Each question then removes at most
//!   the rows outside that answer, so the most that `k` questions can remove is the sum of the `k`
//!   largest such minorities.
//!
//! A count of steps, not a clock, ends a search that takes too long: the same input always gives
//! the same tree.

use std::collections::HashMap;

use crate::board::Speeds;

/// How many sets of rows may be looked at before the search gives up. Matrices without any order
/// of 64 layouts and 8 columns end far below it.
const STEPS: usize = 100_000;

/// A tree over row numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum RowTree {
    /// One row is left.
    Row(usize),
    /// Ask about a column.
    Split {
        /// The column.
        column: usize,
        /// Every entry that occurs, in rising order, and what follows.
        parts: Vec<(Speeds, RowTree)>,
    },
}

/// The best tree for `rows`, and whether that is proved; `None` if there is no row. Of equal rows
/// only the first is found. At most 256 rows count.
pub(super) fn best(rows: &[&[Speeds]], columns: usize) -> Option<(RowTree, bool)> {
    best_within(rows, columns, STEPS)
}

fn best_within(rows: &[&[Speeds]], columns: usize, steps: usize) -> Option<(RowTree, bool)> {
    let matrix = AnswerMatrix::new(rows, columns);
    let all = matrix.distinct;
    if all == EMPTY {
        return None;
    }
    let mut search =
        TreeSearch { matrix: &matrix, depths: HashMap::new(), totals: HashMap::new(), left: steps };
    Some(match search.exact(all) {
        Ok(choice) => (choice, true),
        Err(GaveUp) => (search.partly_exact(all, steps), false),
    })
}

/// A set of at most 256 rows.
type RowSet = [u64; 4];

const EMPTY: RowSet = [0; 4];

fn and(a: RowSet, b: RowSet) -> RowSet {
    [a[0] & b[0], a[1] & b[1], a[2] & b[2], a[3] & b[3]]
}

fn count(rows: RowSet) -> u32 {
    rows.iter().map(|word| word.count_ones()).sum()
}

fn with(mut rows: RowSet, row: usize) -> RowSet {
    if let Some(word) = rows.get_mut(row / 64) {
        *word |= 1 << (row % 64);
    }
    rows
}

/// The lowest row of a set; 0 if it is empty.
fn first(rows: RowSet) -> usize {
    let word = rows.iter().position(|word| *word != 0).unwrap_or(0);
    word * 64 + (rows[word.min(3)].trailing_zeros() as usize % 64)
}

const ENTRIES: [Speeds; 3] = [Speeds::None, Speeds::One, Speeds::Two];

/// For each column and entry the rows that have it.
struct AnswerMatrix {
    columns: Vec<[RowSet; 3]>,
    /// The first of every kind of row.
    distinct: RowSet,
}

impl AnswerMatrix {
    fn new(rows: &[&[Speeds]], columns: usize) -> Self {
        let mut matrix = Self { columns: vec![[EMPTY; 3]; columns], distinct: EMPTY };
        for (index, row) in rows.iter().enumerate().take(256) {
            if rows.iter().take(index).any(|earlier| earlier == row) {
                continue;
            }
            matrix.distinct = with(matrix.distinct, index);
            for (column, entry) in matrix.columns.iter_mut().zip(row.iter()) {
                for (set, value) in column.iter_mut().zip(ENTRIES) {
                    if value == *entry {
                        *set = with(*set, index);
                    }
                }
            }
        }
        matrix
    }

    /// What a question about `column` makes of `rows`: up to three parts, some perhaps empty.
    fn parts(&self, rows: RowSet, column: usize) -> [RowSet; 3] {
        self.columns.get(column).map_or([rows, EMPTY, EMPTY], |sets| sets.map(|set| and(rows, set)))
    }

    /// Every column that tells some of `rows` apart, with its parts.
    fn splits(&self, rows: RowSet) -> Vec<(usize, [RowSet; 3])> {
        (0..self.columns.len())
            .map(|column| (column, self.parts(rows, column)))
            .filter(|(_, parts)| parts.iter().filter(|part| **part != EMPTY).count() > 1)
            .collect()
    }
}

/// The least depth and the least total that a set of rows could have.
#[derive(Clone, Copy, Default)]
struct Bound {
    depth: u32,
    total: u32,
}

fn bound(n: u32, splits: &[(usize, [RowSet; 3])]) -> Bound {
    if n <= 1 {
        return Bound::default();
    }
    let mut answers: Vec<u64> = Vec::with_capacity(splits.len());
    let mut minorities: Vec<u32> = Vec::with_capacity(splits.len());
    for (_, parts) in splits {
        let sizes = parts.map(count);
        answers.push(sizes.iter().filter(|size| **size > 0).count() as u64);
        minorities.push(n - sizes.into_iter().max().unwrap_or(0));
    }
    answers.sort_unstable_by(|a, b| b.cmp(a));
    minorities.sort_unstable_by(|a, b| b.cmp(a));
    let (information, adversary) = (by_information(n, &answers), by_adversary(n, &minorities));
    Bound {
        depth: information.depth.max(adversary.depth),
        total: information.total.max(adversary.total),
    }
}

/// `answers` fall.
fn by_information(n: u32, answers: &[u64]) -> Bound {
    let n = u64::from(n);
    let mut reach = 1;
    for (depth, answers) in (1u32..).zip(answers) {
        let next = reach * answers;
        if next >= n {
            let above = (next - n) / (answers - 1);
            let total = n * u64::from(depth) - above.min(reach);
            return Bound { depth, total: total as u32 };
        }
        reach = next;
    }
    Bound { depth: answers.len() as u32, total: 0 }
}

/// `minorities` fall.
fn by_adversary(n: u32, minorities: &[u32]) -> Bound {
    let (mut left, mut bound) = (n, Bound::default());
    for minority in minorities {
        if left <= 1 {
            break;
        }
        bound.depth += 1;
        bound.total += left;
        left = left.saturating_sub(*minority);
    }
    bound
}

/// The search ran out of steps.
struct GaveUp;

/// What is known of the least total of a set within a depth.
#[derive(Clone, Copy)]
enum Known {
    Exactly(u32),
    AtLeast(u32),
}

struct TreeSearch<'a> {
    matrix: &'a AnswerMatrix,
    /// For each set: the depth below which it cannot be told apart, and one at which it can.
    depths: HashMap<RowSet, (u32, u32)>,
    totals: HashMap<(RowSet, u32), Known>,
    left: usize,
}

impl TreeSearch<'_> {
    fn step(&mut self) -> Result<(), GaveUp> {
        self.left = self.left.checked_sub(1).ok_or(GaveUp)?;
        Ok(())
    }

    fn exact(&mut self, rows: RowSet) -> Result<RowTree, GaveUp> {
        let mut depth = 0;
        while !self.fits(rows, depth)? {
            depth += 1;
            if depth as usize > self.matrix.columns.len() {
                return Err(GaveUp);
            }
        }
        // No tree asks more than every question of every row.
        let most = count(rows) * depth;
        let total = self.least(rows, depth, most)?.ok_or(GaveUp)?;
        self.grow(rows, depth, total)
    }

    /// Whether `rows` can be told apart with `depth` questions.
    fn fits(&mut self, rows: RowSet, depth: u32) -> Result<bool, GaveUp> {
        let n = count(rows);
        if n <= 1 {
            return Ok(true);
        }
        let (low, high) = self.depths.get(&rows).copied().unwrap_or((0, u32::MAX));
        if depth < low {
            return Ok(false);
        }
        if depth >= high {
            return Ok(true);
        }
        self.step()?;
        let mut splits = self.matrix.splits(rows);
        let least = bound(n, &splits).depth;
        let mut found = false;
        if least <= depth {
            splits.sort_by_key(|(_, parts)| parts.map(count).into_iter().max());
            for (_, mut parts) in splits {
                parts.sort_by_key(|part| u32::MAX - count(*part));
                found = true;
                for part in parts {
                    if !self.fits(part, depth - 1)? {
                        found = false;
                        break;
                    }
                }
                if found {
                    break;
                }
            }
        }
        let known = if found { (low, depth) } else { (least.max(depth + 1), high) };
        self.depths.insert(rows, known);
        Ok(found)
    }

    /// The least total of `rows` within `depth`, if it is at most `limit`.
    fn least(&mut self, rows: RowSet, depth: u32, limit: u32) -> Result<Option<u32>, GaveUp> {
        let n = count(rows);
        if n <= 1 {
            return Ok(Some(0));
        }
        if !self.fits(rows, depth)? {
            return Ok(None);
        }
        match self.totals.get(&(rows, depth)) {
            Some(Known::Exactly(total)) => return Ok((*total <= limit).then_some(*total)),
            Some(Known::AtLeast(total)) if *total > limit => return Ok(None),
            _ => {}
        }
        self.step()?;
        let splits = self.matrix.splits(rows);
        let floor = bound(n, &splits).total;
        let mut found = None;
        if floor <= limit {
            let mut ways: Vec<_> = splits
                .into_iter()
                .map(|(_, parts)| {
                    let floors = parts.map(|part| self.floor(part));
                    (n + floors.iter().sum::<u32>(), parts, floors)
                })
                .collect();
            ways.sort_by_key(|(floor, _, _)| *floor);
            let mut limit = limit;
            for (floor_here, parts, floors) in ways {
                if floor_here > limit {
                    break;
                }
                if let Some(total) = self.least_of_parts(n, parts, floors, depth - 1, limit)? {
                    found = Some(total);
                    if total == floor {
                        break;
                    }
                    limit = total - 1;
                }
            }
        }
        let known = match found {
            Some(total) => Known::Exactly(total),
            None => Known::AtLeast(limit.max(floor.saturating_sub(1)) + 1),
        };
        self.totals.insert((rows, depth), known);
        Ok(found)
    }

    /// `n` and the least totals of the parts, if together at most `limit`.
    fn least_of_parts(
        &mut self,
        n: u32,
        parts: [RowSet; 3],
        floors: [u32; 3],
        depth: u32,
        limit: u32,
    ) -> Result<Option<u32>, GaveUp> {
        let mut sum = n + floors.iter().sum::<u32>();
        for (part, floor) in parts.into_iter().zip(floors) {
            if sum > limit {
                return Ok(None);
            }
            let spare = limit - sum;
            let Some(total) = self.least(part, depth, floor + spare)? else {
                return Ok(None);
            };
            sum += total - floor;
        }
        Ok(Some(sum))
    }

    /// A lower bound of the total of `rows`.
    fn floor(&self, rows: RowSet) -> u32 {
        match count(rows) {
            0 | 1 => 0,
            2 => 2,
            n => bound(n, &self.matrix.splits(rows)).total,
        }
    }

    /// The tree of exactly `total` within `depth` whose columns come first.
    fn grow(&mut self, rows: RowSet, depth: u32, total: u32) -> Result<RowTree, GaveUp> {
        let n = count(rows);
        if n <= 1 {
            return Ok(RowTree::Row(first(rows)));
        }
        for (column, parts) in self.matrix.splits(rows) {
            let Some(mut left) = total.checked_sub(n) else { break };
            let mut totals = [0; 3];
            let mut fits = true;
            for (part, slot) in parts.into_iter().zip(&mut totals) {
                match self.least(part, depth - 1, left)? {
                    Some(least) => (*slot, left) = (least, left - least),
                    None => fits = false,
                }
                if !fits {
                    break;
                }
            }
            if fits && left == 0 {
                let mut grown = Vec::new();
                for ((part, total), entry) in parts.into_iter().zip(totals).zip(ENTRIES) {
                    if part != EMPTY {
                        grown.push((entry, self.grow(part, depth - 1, total)?));
                    }
                }
                return Ok(RowTree::Split { column, parts: grown });
            }
        }
        Err(GaveUp)
    }

    /// A tree whose first questions are chosen by their largest part alone, and whose branches are
    /// exact as soon as `steps` suffice for them.
    fn partly_exact(&mut self, rows: RowSet, steps: usize) -> RowTree {
        let split = self.matrix.splits(rows).into_iter().min_by_key(|(column, parts)| {
            let sizes = parts.map(count);
            let squares: u32 = sizes.iter().map(|size| size * size).sum();
            (sizes.into_iter().max(), squares, *column)
        });
        let Some((column, parts)) = split else { return RowTree::Row(first(rows)) };
        let mut grown = Vec::new();
        for (part, entry) in parts.into_iter().zip(ENTRIES) {
            if part == EMPTY {
                continue;
            }
            self.left = steps / 3;
            let choice = match self.exact(part) {
                Ok(choice) => choice,
                Err(GaveUp) => self.partly_exact(part, steps / 3),
            };
            grown.push((entry, choice));
        }
        RowTree::Split { column, parts: grown }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn rows(matrix: &[Vec<u8>]) -> Vec<Vec<Speeds>> {
        matrix.iter().map(|row| row.iter().map(|e| ENTRIES[usize::from(*e)]).collect()).collect()
    }

    /// Worst case and total of a tree, and that it really leads each row to itself.
    fn judge(rows: &[Vec<Speeds>], choice: &RowTree) -> (usize, usize) {
        let (mut worst, mut total) = (0, 0);
        for (index, row) in rows.iter().enumerate() {
            if rows[..index].contains(row) {
                continue;
            }
            let (mut at, mut asked) = (choice, 0);
            while let RowTree::Split { column, parts } = at {
                assert!(parts.len() > 1, "a question with one answer");
                let answer = parts.iter().find(|(entry, _)| *entry == row[*column]);
                at = &answer.expect("an answer for every entry that occurs").1;
                asked += 1;
            }
            assert_eq!(*at, RowTree::Row(index));
            worst = worst.max(asked);
            total += asked;
        }
        (worst, total)
    }

    /// Every tree there is, by brute force: for each worst case the least total.
    fn brute(rows: &[Vec<Speeds>], alive: &[usize]) -> Vec<Option<usize>> {
        let columns = rows[0].len();
        let mut best = vec![None; columns + 1];
        if alive.len() <= 1 {
            best.fill(Some(0));
            return best;
        }
        for column in 0..columns {
            let parts: Vec<Vec<usize>> = ENTRIES
                .iter()
                .map(|e| alive.iter().copied().filter(|r| rows[*r][column] == *e).collect())
                .filter(|part: &Vec<usize>| !part.is_empty())
                .collect();
            if parts.len() < 2 {
                continue;
            }
            let parts: Vec<_> = parts.iter().map(|part| brute(rows, part)).collect();
            for depth in 1..=columns {
                let sum: Option<usize> = parts.iter().map(|part| part[depth - 1]).sum();
                if let Some(sum) = sum {
                    let total = sum + alive.len();
                    best[depth] = Some(best[depth].map_or(total, |b: usize| b.min(total)));
                }
            }
        }
        best
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(400))]
        #[test]
        fn no_tree_is_better(
            matrix in (1usize..=5).prop_flat_map(|columns| {
                prop::collection::vec(prop::collection::vec(0u8..3, columns), 1..14)
            })
        ) {
            let rows = rows(&matrix);
            let slices: Vec<&[Speeds]> = rows.iter().map(Vec::as_slice).collect();
            let (choice, optimal) = best(&slices, rows[0].len()).unwrap();
            prop_assert!(optimal);
            let alive: Vec<_> = (0..rows.len()).filter(|i| !rows[..*i].contains(&rows[*i])).collect();
            let table = brute(&rows, &alive);
            let worst = table.iter().position(Option::is_some).unwrap();
            prop_assert_eq!(judge(&rows, &choice), (worst, table[worst].unwrap()));
        }

        /// Giving up early must still lead every row to itself.
        #[test]
        fn a_tree_that_gave_up_is_still_right(
            matrix in prop::collection::vec(prop::collection::vec(0u8..3, 6), 2..60)
        ) {
            let rows = rows(&matrix);
            let slices: Vec<&[Speeds]> = rows.iter().map(Vec::as_slice).collect();
            let matrix = AnswerMatrix::new(&slices, 6);
            let mut search = TreeSearch {
                matrix: &matrix,
                depths: HashMap::new(),
                totals: HashMap::new(),
                left: 0,
            };
            let choice = search.partly_exact(matrix.distinct, 9);
            judge(&rows, &choice);
        }
    }

    /// Numbers without order, the same in every run (a linear congruential generator).
    fn noise(rows: usize, columns: usize, seed: u64) -> Vec<Vec<Speeds>> {
        let mut state = seed;
        let mut next = || {
            state = state.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
            (state >> 33) as usize % 3
        };
        (0..rows).map(|_| (0..columns).map(|_| ENTRIES[next()]).collect()).collect()
    }

    fn solve(rows: &[Vec<Speeds>], steps: usize) -> (usize, usize, bool) {
        let slices: Vec<&[Speeds]> = rows.iter().map(Vec::as_slice).collect();
        let (choice, optimal) = best_within(&slices, rows[0].len(), steps).unwrap();
        let (worst, total) = judge(rows, &choice);
        (worst, total, optimal)
    }

    /// All combinations of some columns' entries.
    fn product(choices: &[&[u8]]) -> Vec<Vec<Speeds>> {
        let mut all = vec![vec![]];
        for column in choices {
            all = all
                .iter()
                .flat_map(|row: &Vec<u8>| {
                    column.iter().map(move |e| row.iter().copied().chain([*e]).collect())
                })
                .collect();
        }
        rows(&all)
    }

    /// Two to the power of four times three times two: nothing is better than all six questions.
    #[test]
    fn a_matrix_of_all_combinations_asks_every_question() {
        let whole = product(&[&[0, 1], &[1, 2], &[0, 1, 2], &[0, 1], &[0, 1], &[0, 1]]);
        assert_eq!(solve(&whole, STEPS), (6, 6 * 96, true));
    }

    /// One device in each layout: the answer is yes only once, so all 16 columns may be asked.
    /// 16 + 16 + 15 + ... + 1 = 152.
    #[test]
    fn a_matrix_of_single_devices_asks_in_a_row() {
        let matrix: Vec<Vec<u8>> =
            (0..17).map(|r| (0..16).map(|c| u8::from(r == c)).collect()).collect();
        assert_eq!(solve(&rows(&matrix), STEPS), (16, 152, true));
    }

    /// Far larger and wilder than a board: still exact, within the steps.
    #[test]
    fn wild_matrices_are_solved_exactly() {
        for (n, columns, least) in [(24, 6, 3), (64, 8, 4), (96, 10, 5), (255, 16, 6)] {
            let (worst, total, optimal) = solve(&noise(n, columns, 7), STEPS);
            assert!(optimal, "{n} x {columns}");
            assert!(
                worst >= least && total >= n * (least - 1),
                "{n} x {columns}: {worst}, {total}"
            );
        }
    }

    #[test]
    fn a_search_that_runs_out_of_steps_says_so() {
        let matrix = noise(64, 8, 7);
        let (worst, total, optimal) = solve(&matrix, 20);
        let (best_worst, best_total, _) = solve(&matrix, STEPS);
        assert!(!optimal);
        assert!((worst, total) >= (best_worst, best_total));
    }
}
