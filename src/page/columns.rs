//! How wide the columns of a table are.
//!
//! They follow the automatic table layout of CSS 2.1 (section 17.5.2.2): each column has a least
//! width, at which its longest word fits, and a wished one, at which nothing is broken. If the
//! wished widths have no room, columns that ask for less than their fair share get what they ask
//! for, so that codes and values stay whole; the others share the rest in proportion.

use crate::document::Table;
use crate::units::Length;

use super::collector::Column;
use super::look::{self, Look};
use super::paragraph::UnbrokenText;

/// Room that a column has over what its words ask for, if the table is narrower than the page.
const SPARE: f64 = 7.0;
/// A table that would be wider than this, in widths of the page, is as wide as the page: edges
/// that nearly meet look like a mistake.
const NEARLY: f64 = 0.8;

/// How much smaller the type must be for so many columns: every column has room for its widest
/// letter.
pub(super) fn type_scale(look: &Look, count: usize, width: f64) -> f64 {
    let letter = Length::from_pt(look.cell.size_pt).0 * WIDEST_LETTER;
    let needed = count as f64 * (letter + 2.0 * look.cell_side);
    (width / needed).min(1.0)
}

/// Width of a narrow column of a matrix without the space at its sides, ems: a number of two digits.
const MATRIX_NUMBER: f64 = 1.25;
/// The same: a box to tick.
const MATRIX_BOX: f64 = 1.15;

/// Width of the widest letter, ems.
const WIDEST_LETTER: f64 = 1.2;

/// What the widths of columns follow from.
pub(super) struct Asked<'a> {
    pub head: &'a [UnbrokenText],
    pub rows: &'a [Vec<UnbrokenText>],
    pub count: usize,
    pub column: Column,
    pub scale: f64,
    pub look: &'static Look,
}

impl Asked<'_> {
    /// The widths at which the longest words fit.
    pub fn least(&self) -> Vec<f64> {
        self.widest(UnbrokenText::min_width)
    }

    /// Left edges of the columns, and the right edge of the last.
    pub fn edges(&self) -> Vec<f64> {
        let widths = share(
            &self.least(),
            &self.widest(UnbrokenText::max_width),
            self.floor(),
            self.column.width,
        );
        self.edges_of(widths)
    }

    /// The same for a form, which is as wide as its column: what its words leave goes to the
    /// columns that have something to be written into.
    pub fn edges_of_form(&self, table: &Table) -> Vec<f64> {
        let wished = self.widest(UnbrokenText::max_width);
        let spare = self.column.width - wished.iter().sum::<f64>();
        if spare <= 0.0 {
            return self.edges();
        }
        let open: Vec<bool> = (0..self.count)
            .map(|index| table.rows.iter().any(|row| row.get(index).is_none_or(Vec::is_empty)))
            .collect();
        let takers = open.iter().filter(|open| **open).count();
        let share = |open: bool| match takers {
            0 => spare / self.count as f64,
            _ if open => spare / takers as f64,
            _ => 0.0,
        };
        self.edges_of(wished.iter().zip(open).map(|(width, open)| width + share(open)).collect())
    }

    /// The same for a matrix in type of a size: they follow from the type and the width alone, so
    /// that the columns of one table stand above those of the next.
    pub fn edges_of_matrix(&self, size_pt: f64) -> Vec<f64> {
        let em = Length::from_pt(size_pt).0;
        let side = 2.0 * look::MATRIX_SIDE * self.scale;
        // One order of checks or two, a box, and the rest.
        let narrow: &[f64] = match self.count {
            3 => &[MATRIX_NUMBER, MATRIX_BOX],
            4 => &[MATRIX_NUMBER, MATRIX_NUMBER, MATRIX_BOX],
            _ => &[],
        };
        let narrow: Vec<f64> = narrow.iter().map(|ems| em * ems + side).collect();
        let rest = self.column.width - narrow.iter().sum::<f64>();
        let widths = match narrow.len() {
            0 => vec![self.column.width / self.count as f64; self.count],
            _ => narrow.into_iter().chain([rest]).collect(),
        };
        self.edges_of(widths)
    }

    fn edges_of(&self, widths: Vec<f64>) -> Vec<f64> {
        let mut edges = vec![self.column.left];
        let mut edge = self.column.left;
        for width in widths {
            edge += width;
            edges.push(edge);
        }
        edges
    }

    /// The largest of the widths that the words of each column ask for.
    fn widest(&self, width: fn(&UnbrokenText) -> f64) -> Vec<f64> {
        let side = 2.0 * self.look.cell_side * self.scale;
        let of_column = |index: usize| {
            let rows = self.rows.iter().filter_map(move |row| row.get(index));
            self.head.get(index).into_iter().chain(rows)
        };
        let widest = |index: usize| of_column(index).map(width).fold(0.0, f64::max) + side;
        (0..self.count).map(|index| widest(index).max(self.floor())).collect()
    }

    /// The width under which a column has no room for its widest letter.
    fn floor(&self) -> f64 {
        let letter = Length::from_pt(self.look.cell.size_pt * self.scale).0 * WIDEST_LETTER;
        2.0 * self.look.cell_side * self.scale + letter
    }
}

/// Widths of columns that have `width` together: at least `floor` each if there is room for that.
fn share(least: &[f64], wished: &[f64], floor: f64, width: f64) -> Vec<f64> {
    let (low, high): (f64, f64) = (least.iter().sum(), wished.iter().sum());
    let count = least.len() as f64;
    if high <= width {
        let all = (width - high) / count;
        let spare = if high + SPARE * count > width * NEARLY { all } else { SPARE };
        return wished.iter().map(|wished| wished + spare).collect();
    }
    if let Some(widths) = share_fairly(least, wished, width) {
        return widths;
    }
    let between = |from: f64, to: f64| if to > from { (width - from) / (to - from) } else { 0.0 };
    if low <= width {
        let part = between(low, high);
        return least
            .iter()
            .zip(wished)
            .map(|(least, wished)| least + (wished - least) * part)
            .collect();
    }
    let part = between(floor * count, low).clamp(0.0, 1.0);
    least.iter().map(|least| floor + (least - floor) * part).collect()
}

/// What they wish for to the modest columns, the rest to the others; `None` if that leaves one of
/// them too little for its longest word.
fn share_fairly(least: &[f64], wished: &[f64], width: f64) -> Option<Vec<f64>> {
    let mut order: Vec<(usize, f64)> = wished.iter().copied().enumerate().collect();
    order.sort_by(|(_, a), (_, b)| a.total_cmp(b));
    let mut widths = vec![None; order.len()];
    let (mut left, mut count) = (width, order.len() as f64);
    for (index, wish) in order {
        if wish > left / count {
            break;
        }
        (left, count) = (left - wish, count - 1.0);
        *widths.get_mut(index)? = Some(wish);
    }
    let greedy = |of: &[f64]| -> f64 {
        of.iter().zip(&widths).filter(|(_, width)| width.is_none()).map(|(of, _)| of).sum()
    };
    let (low, high) = (greedy(least), greedy(wished));
    if low > left || high <= low {
        return None;
    }
    let part = (left - low) / (high - low);
    let each = least.iter().zip(wished).zip(&widths);
    Some(each.map(|((low, high), width)| width.unwrap_or(low + (high - low) * part)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::Density;
    use crate::page::Paper;

    fn sum(widths: &[f64]) -> f64 {
        widths.iter().sum()
    }

    #[test]
    fn a_narrow_table_is_not_stretched_over_the_page() {
        let widths = share(&[10.0, 10.0], &[20.0, 30.0], 5.0, 100.0);
        assert_eq!(widths, [27.0, 37.0]);
        let widths = share(&[10.0, 10.0], &[20.0, 30.0], 5.0, 54.0);
        assert_eq!(widths, [22.0, 32.0]);
        // 50 mm of words and 14 mm of room: over four fifths of 75 mm, so all of it.
        assert_eq!(sum(&share(&[10.0, 10.0], &[20.0, 30.0], 5.0, 75.0)), 75.0);
        assert_eq!(sum(&share(&[10.0, 10.0], &[20.0, 30.0], 5.0, 85.0)), 64.0);
    }

    #[test]
    fn codes_stay_whole_and_prose_gets_the_rest() {
        let widths = share(&[8.0, 15.0, 6.0], &[12.0, 300.0, 9.0], 5.0, 100.0);
        assert_eq!(widths, [12.0, 79.0, 9.0]);
    }

    /// CSS 2.1, 17.5.2.2: between least and wished width in proportion.
    #[test]
    fn prose_in_all_columns_is_shared_in_proportion() {
        let widths = share(&[10.0, 20.0], &[110.0, 220.0], 5.0, 130.0);
        assert!((sum(&widths) - 130.0).abs() < 1e-9);
        assert!((widths[1] / widths[0] - 2.0).abs() < 1e-9);
    }

    #[test]
    fn too_many_columns_share_what_there_is() {
        for count in [1, 7, 30, 200] {
            let scale = type_scale(Look::of(Density::Roomy, Paper::A4), count, 174.0);
            let floor = 174.0_f64.min(14.0 * scale * count as f64) / count as f64;
            let widths = share(&vec![40.0; count], &vec![50.0; count], floor, 174.0);
            assert!(sum(&widths) <= 174.0 + 1e-6, "{count}: {}", sum(&widths));
        }
        // Equal columns that fill the width to the last digit.
        let third = 174.0 / 30.0;
        let mut wished = vec![third; 29];
        wished.push(60.0);
        let widths = share(&vec![third; 30], &wished, third, 174.0);
        assert!((sum(&widths) - 174.0).abs() < 1e-6, "{}", sum(&widths));
    }
}
