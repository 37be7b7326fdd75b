//! The shortest series of questions that finds a layout number.
//!
//! Each question is about one column of the matrix: "How many speeds has pump 1?" Its answers are
//! the entries that still occur. Of all such trees this is the one that asks the fewest questions
//! in the worst case; among those the fewest on average, every layout counting alike; among those
//! the one whose questions come first in the order of the columns.

mod search;

use crate::board::{Board, Device, LayoutNumber, Speeds};

/// A tree of questions, and how many it asks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Questions {
    /// The first question, or the only layout.
    pub tree: Tree,
    /// How many are asked in the worst case.
    pub worst: usize,
    /// The sum over all layouts of how many are asked to reach each.
    pub total: usize,
    /// How many layouts there are.
    pub layouts: usize,
    /// Whether no other tree is better. False only for matrices that no sensible board has: there
    /// the search gave up after a fixed number of steps, and part of the tree was chosen by
    /// halving as well as one question can.
    pub optimal: bool,
}

impl Questions {
    /// How many are asked on average, every layout counting alike.
    pub fn average(&self) -> f64 {
        self.total as f64 / self.layouts.max(1) as f64
    }
}

/// A question or what it leads to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Tree {
    /// The layout is found.
    Layout(LayoutNumber),
    /// A question.
    Ask {
        /// Which of [`Board::columns`].
        column: usize,
        /// The device of that column.
        device: Device,
        /// Every entry that still occurs, in rising order, at least two, and what follows it.
        answers: Vec<(Speeds, Tree)>,
    },
}

impl Tree {
    /// The most questions on the way to a layout.
    pub fn worst(&self) -> usize {
        match self {
            Tree::Layout(_) => 0,
            Tree::Ask { answers, .. } => {
                1 + answers.iter().map(|(_, tree)| tree.worst()).max().unwrap_or(0)
            }
        }
    }

    /// How many layouts it leads to.
    pub fn layouts(&self) -> usize {
        match self {
            Tree::Layout(_) => 1,
            Tree::Ask { answers, .. } => answers.iter().map(|(_, tree)| tree.layouts()).sum(),
        }
    }

    /// The sum over its layouts of the questions on the way.
    pub fn total(&self) -> usize {
        match self {
            Tree::Layout(_) => 0,
            Tree::Ask { answers, .. } => {
                answers.iter().map(|(_, tree)| tree.total() + tree.layouts()).sum()
            }
        }
    }
}

/// The best tree for `board`; `None` if its matrix has no layout.
pub fn questions(board: &Board) -> Option<Questions> {
    let rows: Vec<&[Speeds]> = board.layouts.iter().map(|row| row.speeds.as_slice()).collect();
    let (choice, optimal) = search::best(&rows, board.columns.len())?;
    let tree = named(board, &choice)?;
    let (worst, total, layouts) = (tree.worst(), tree.total(), tree.layouts());
    Some(Questions { tree, worst, total, layouts, optimal })
}

/// A tree over row numbers as one over layouts and devices.
fn named(board: &Board, choice: &search::RowTree) -> Option<Tree> {
    Some(match choice {
        search::RowTree::Row(row) => Tree::Layout(board.layouts.get(*row)?.number),
        search::RowTree::Split { column, parts } => {
            let device = *board.columns.get(*column)?;
            let answers: Option<Vec<_>> =
                parts.iter().map(|(entry, part)| Some((*entry, named(board, part)?))).collect();
            Tree::Ask { column: *column, device, answers: answers? }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::super::sample::heron;
    use super::*;

    /// The tree as a person reads it, one line for each answer.
    fn lines(tree: &Tree, depth: usize, out: &mut Vec<String>) {
        if let Tree::Ask { device, answers, .. } = tree {
            for (entry, next) in answers {
                let step = format!("{}{device} {}", "  ".repeat(depth), entry.number());
                match next {
                    Tree::Layout(number) => out.push(format!("{step}: layout {number}")),
                    Tree::Ask { .. } => {
                        out.push(step);
                        lines(next, depth + 1, out);
                    }
                }
            }
        }
    }

    #[test]
    fn the_questions_of_heron_8() {
        let found = questions(&heron(&[])).expect("it has layouts");
        let mut text = Vec::new();
        lines(&found.tree, 0, &mut text);
        insta::assert_snapshot!(format!(
            "worst {}, total {} over {}, optimal {}\n{}",
            found.worst,
            found.total,
            found.layouts,
            found.optimal,
            text.join("\n")
        ));
    }
}
