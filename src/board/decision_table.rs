//! Decision tables, judged as ISO 5806 asks of a single-hit table: complete, no contradiction, no
//! redundant rule.
//!
//! The verdict comes from trying every combination of condition values, not from counting rules: a
//! count of two to the power of the conditions proves nothing (two rules may cover the same half).

/// An entry of a condition in a rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Entry {
    /// A dash: the condition does not matter.
    Any,
    /// One of these values, counted from 0.
    OneOf(Vec<usize>),
}

impl Entry {
    fn matches(&self, value: usize) -> bool {
        match self {
            Entry::Any => true,
            Entry::OneOf(values) => values.contains(&value),
        }
    }
}

/// A rule: an entry for each condition, and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rule {
    /// One for each condition of the table.
    pub entries: Vec<Entry>,
    /// Which action; equal numbers are equal actions.
    pub action: usize,
}

impl Rule {
    fn matches(&self, values: &[usize]) -> bool {
        self.entries.iter().zip(values).all(|(entry, value)| entry.matches(*value))
    }
}

/// A table of conditions and rules.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// How many values each condition can have: 2 for a limited entry, more for an extended one.
    pub conditions: Vec<usize>,
    /// The rules in their order.
    pub rules: Vec<Rule>,
}

/// What is wrong with a table; nothing, if all are empty.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Verdict {
    /// Combinations of values that no rule covers.
    pub missing: Vec<Vec<usize>>,
    /// Pairs of rules that cover a combination both and say the same.
    pub redundant: Vec<(usize, usize)>,
    /// Pairs of rules that cover a combination both and say different things.
    pub contradictions: Vec<(usize, usize)>,
}

/// The most combinations that are tried.
pub const COMBINATIONS: usize = 1 << 16;

/// Judges `table` by every combination that `possible` lets through: what cannot occur can be
/// neither missing nor contradictory. `None` if there are more than [`COMBINATIONS`].
pub fn judge(table: &Table, possible: impl Fn(&[usize]) -> bool) -> Option<Verdict> {
    let count = table.conditions.iter().try_fold(1_usize, |all, values| all.checked_mul(*values));
    let count = count.filter(|count| *count <= COMBINATIONS)?;
    let mut verdict = Verdict::default();
    for number in 0..count {
        let values = combination(&table.conditions, number);
        if !possible(&values) {
            continue;
        }
        let hits: Vec<(usize, usize)> = table
            .rules
            .iter()
            .enumerate()
            .filter(|(_, rule)| rule.matches(&values))
            .map(|(index, rule)| (index, rule.action))
            .collect();
        if hits.is_empty() {
            verdict.missing.push(values);
        }
        for (place, (first, action)) in hits.iter().enumerate() {
            for (second, other) in hits.iter().skip(place + 1) {
                let pairs = if action == other {
                    &mut verdict.redundant
                } else {
                    &mut verdict.contradictions
                };
                if !pairs.contains(&(*first, *second)) {
                    pairs.push((*first, *second));
                }
            }
        }
    }
    Some(verdict)
}

/// The combination of that number; the first condition changes slowest.
fn combination(conditions: &[usize], number: usize) -> Vec<usize> {
    let mut rest = number;
    let mut values: Vec<usize> = conditions
        .iter()
        .rev()
        .map(|count| {
            let value = rest % count.max(&1);
            rest /= count.max(&1);
            value
        })
        .collect();
    values.reverse();
    values
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Rules as text: an entry for each condition, digits for the values it accepts, `-` for any.
    fn table(conditions: &[usize], rules: &[(&[&str], usize)]) -> Table {
        let entry = |text: &str| match text {
            "-" => Entry::Any,
            digits => Entry::OneOf(
                digits.chars().filter_map(|c| c.to_digit(10)).map(|d| d as usize).collect(),
            ),
        };
        let rules = rules
            .iter()
            .map(|(entries, action)| Rule {
                entries: entries.iter().map(|text| entry(text)).collect(),
                action: *action,
            })
            .collect();
        Table { conditions: conditions.to_vec(), rules }
    }

    fn verdict(table: &Table) -> Verdict {
        judge(table, |_| true).expect("few combinations")
    }

    const Y: &str = "0";
    const N: &str = "1";

    /// Check-values 11a [S85]: C1 X > 60, C2 X > 40; YY twice with different actions, no NN. X = 70
    /// makes YY occur: a real contradiction. X = 30 makes NN occur: missing. NY is X = 50; YN
    /// (X over 60 and not over 40) cannot occur.
    #[test]
    fn a_real_contradiction_of_published_rules() {
        let table = table(&[2, 2], &[(&[Y, Y], 1), (&[Y, Y], 2), (&[N, Y], 3)]);
        let possible = |v: &[usize]| {
            [70, 50, 30].iter().any(|x| v == [usize::from(*x <= 60), usize::from(*x <= 40)])
        };
        let verdict = judge(&table, possible).expect("few");
        assert_eq!(verdict.contradictions, vec![(0, 1)]);
        assert_eq!(verdict.missing, vec![vec![1, 1]]);
    }

    /// Check-values 11b [S85]: the same with C2 X < 40. YY cannot occur, so that the contradiction
    /// is apparent only; NN (X = 50) can, so that the table is really incomplete.
    #[test]
    fn an_apparent_contradiction_of_published_rules() {
        let table = table(&[2, 2], &[(&[Y, Y], 1), (&[Y, Y], 2), (&[N, Y], 3), (&[Y, N], 4)]);
        let possible = |v: &[usize]| {
            [70, 50, 30].iter().any(|x| v == [usize::from(*x <= 60), usize::from(*x >= 40)])
        };
        let verdict = judge(&table, possible).expect("few");
        assert_eq!(verdict.contradictions, vec![]);
        assert_eq!(verdict.missing, vec![vec![1, 1]]);
    }

    /// Check-values 11c [S31]: DMN TCK 0004. Conditions: age >= 18, < 18; risk High, Medium, Low;
    /// affordable true, false. Complete, no overlap.
    #[test]
    fn a_unique_table_is_complete_and_apart() {
        let unique = table(
            &[2, 3, 2],
            &[
                (&["0", "12", "0"], 1),
                (&["1", "12", "0"], 2),
                (&["-", "0", "0"], 2),
                (&["-", "-", "1"], 2),
            ],
        );
        assert_eq!(verdict(&unique), Verdict::default());
    }

    /// Check-values 11d [S31]: DMN TCK 0006. Complete; rules 2, 3, 4 overlap with equal output.
    #[test]
    fn a_priority_table_overlaps_with_equal_output() {
        let priority = table(
            &[2, 3, 2],
            &[
                (&["0", "12", "0"], 1),
                (&["1", "-", "-"], 2),
                (&["-", "0", "-"], 2),
                (&["-", "-", "1"], 2),
            ],
        );
        let verdict = verdict(&priority);
        assert!(verdict.missing.is_empty() && verdict.contradictions.is_empty());
        assert_eq!(verdict.redundant.len(), 3);
        for pair in [(1, 2), (1, 3), (2, 3)] {
            assert!(verdict.redundant.contains(&pair), "{pair:?}");
        }
    }

    /// Check-values 11e [S31]: DMN TCK 0108 without its default. Conditions: age >= 18, 12 to 17,
    /// < 12; risk High, Medium, Low; affordable. Rules 1 and 2 contradict each other, and there are
    /// gaps, for example 5 years, High, affordable.
    #[test]
    fn a_first_hit_table_contradicts_itself() {
        let first = table(
            &[3, 3, 2],
            &[(&["0", "1", "0"], 1), (&["01", "1", "0"], 2), (&["2", "2", "0"], 3)],
        );
        let verdict = verdict(&first);
        assert_eq!(verdict.contradictions, vec![(0, 1)]);
        assert!(verdict.redundant.is_empty());
        assert!(verdict.missing.contains(&vec![2, 0, 0]));
    }

    /// Check-values 11f [S89]: grade A or B by loan. Conditions: grade; loan under 100k, 100 to
    /// 300k, exactly 300k, 300 to 600k, 600k and more. With closed ends both middle rows take 300k.
    #[test]
    fn ranges_closed_at_both_ends_overlap() {
        let rows = |third: &'static str| {
            let mut rules: Vec<(Vec<&str>, usize)> = Vec::new();
            for grade in ["0", "1"] {
                for loan in ["0", "1", third, "4"] {
                    rules.push((vec![grade, loan], rules.len()));
                }
            }
            // Exactly 300k belongs to the third row; with closed ends to the second as well.
            rules
        };
        let half_open = rows("23");
        let as_rules: Vec<(&[&str], usize)> =
            half_open.iter().map(|(entries, action)| (entries.as_slice(), *action)).collect();
        assert_eq!(verdict(&table(&[2, 5], &as_rules)), Verdict::default());
        let mut closed = half_open.clone();
        for (entries, _) in &mut closed {
            if entries[1] == "1" {
                entries[1] = "12";
            }
        }
        let as_rules: Vec<(&[&str], usize)> =
            closed.iter().map(|(entries, action)| (entries.as_slice(), *action)).collect();
        assert_eq!(verdict(&table(&[2, 5], &as_rules)).contradictions, vec![(1, 2), (5, 6)]);
    }

    /// Check-values 11g: Y--, NY-, NN- cover 4 + 2 + 2 = 8 of 8; and its warning: Y-- and Y-- count
    /// 4 + 4 = 8 yet miss every N.
    #[test]
    fn a_count_is_no_proof() {
        let complete =
            table(&[2, 2, 2], &[(&[Y, "-", "-"], 1), (&[N, Y, "-"], 2), (&[N, N, "-"], 3)]);
        assert_eq!(verdict(&complete), Verdict::default());
        let twice = table(&[2, 2, 2], &[(&[Y, "-", "-"], 1), (&[Y, "-", "-"], 1)]);
        let verdict = verdict(&twice);
        assert_eq!(verdict.missing.len(), 4);
        assert_eq!(verdict.redundant, vec![(0, 1)]);
    }

    #[test]
    fn the_bound_holds_on_both_sides() {
        assert!(judge(&table(&[2; 16], &[]), |_| true).is_some());
        assert!(judge(&table(&[2; 17], &[]), |_| true).is_none());
        assert!(judge(&table(&[usize::MAX, 2], &[]), |_| true).is_none());
    }
}
