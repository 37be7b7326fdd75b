//! What a breaker leaves for everything else while the heater is on. It needs no job: the rows are
//! standard breakers, from the smallest that carries the heater alone to the first that is not
//! below what the board may carry.

use super::heater::{SizingAmps, amps_on, sizing_amps, watts_on};
use super::rules::{Rules, RulesChoice, carries};
use super::voltages::{GroupVoltage, NoVoltage, group_voltage};
use crate::board::{Board, Conductor, Device, GroupId, HeaderId, Heater, SupplyId};
use crate::units::{Amps, Volts, Watts};

/// The heater under one supply.
#[derive(Clone, Debug, PartialEq)]
pub struct Headroom {
    /// The supply.
    pub supply: SupplyId,
    /// The rules that breakers are sized by, and why.
    pub rules: RulesChoice,
    /// One for each group that a header of the heater can be fed from. Empty if no header serves
    /// a heater or the specification gives no element.
    pub cases: Vec<HeaterCase>,
}

/// The heater on one group.
#[derive(Clone, Debug, PartialEq)]
pub struct HeaterCase {
    /// The heater's header.
    pub header: HeaderId,
    /// The group that feeds it.
    pub group: GroupId,
    /// What comes of it.
    pub outcome: Outcome,
}

/// What comes of a heater on a group.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// It heats.
    On(HeaterOn),
    /// The group gives nothing under this supply.
    NoVoltage(NoVoltage),
    /// The group is not fed by the supply directly, so no line current follows from the heater's.
    NotFromSupply {
        /// What the group gives.
        volts: Volts,
    },
    /// It draws more than a supply conductor of the board may carry.
    AboveBoard {
        /// What it draws.
        amps: Amps,
        /// What the board may carry.
        max: Amps,
    },
}

/// A heater that heats.
#[derive(Clone, Debug, PartialEq)]
pub struct HeaterOn {
    /// The voltage that it gets.
    pub volts: Volts,
    /// The power that it gives.
    pub watts: Watts,
    /// The current that it draws.
    pub amps: Amps,
    /// The current that a breaker is sized for, and why.
    pub sizing: SizingAmps,
    /// That current times the factor of the rules: what it takes of a breaker.
    pub counted: Amps,
    /// The lines that carry it.
    pub lines: Vec<Conductor>,
    /// Standard breakers, ascending. Empty if the largest standard size carries too little.
    pub rows: Vec<BreakerRow>,
}

/// One standard breaker.
#[derive(Clone, Debug, PartialEq)]
pub struct BreakerRow {
    /// Its size.
    pub breaker: Amps,
    /// What is left in each line of the supply, in the order L1, L2, L3, L. Under the NEC rules a
    /// load that can run for three hours or more takes 125 % of its current of it.
    pub left: Vec<LineLeft>,
}

/// What is left in one line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineLeft {
    /// The line.
    pub line: Conductor,
    /// What everything else may take.
    pub amps: Amps,
    /// What sets it.
    pub limit: HeadroomLimit,
}

/// What sets a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeadroomLimit {
    /// The breaker.
    Breaker,
    /// What a supply conductor of the board may carry.
    Board,
}

/// How many sizes are shown for a board that does not say what it may carry.
const ROWS_WITHOUT_MAX: usize = 6;

/// The table of every supply, in the specification's order.
pub fn headrooms(board: &Board) -> Vec<Headroom> {
    board.handles().map(|supply| headroom(board, supply)).collect()
}

/// What breakers leave for everything else while the heater is on under `supply`.
pub fn headroom(board: &Board, supply: SupplyId) -> Headroom {
    let rules = Rules::default_for(board[supply].system);
    let mut cases = Vec::new();
    if let Some(heater) = board.heater {
        for header in board.header_ids() {
            if board[header].serves.iter().any(|(_, device)| *device == Device::Heater) {
                for group in board.groups_of(header) {
                    let outcome = outcome(board, supply, group, heater, rules.rules);
                    cases.push(HeaterCase { header, group, outcome });
                }
            }
        }
    }
    Headroom { supply, rules, cases }
}

fn outcome(
    board: &Board,
    supply: SupplyId,
    group: GroupId,
    heater: Heater,
    rules: Rules,
) -> Outcome {
    let (volts, conductors) = match group_voltage(board, supply, group) {
        GroupVoltage::Between { volts, conductors, .. } => (volts, conductors),
        GroupVoltage::Isolated { volts } => return Outcome::NotFromSupply { volts },
        GroupVoltage::NotAvailable { because } => return Outcome::NoVoltage(because),
    };
    let sizing = sizing_amps(heater, volts);
    let counted = Amps(sizing.amps.0 * rules.continuous_factor());
    let max = board.max_current(supply);
    if let Some(max) = max
        && !carries(max, sizing.amps)
    {
        return Outcome::AboveBoard { amps: sizing.amps, max };
    }
    let lines: Vec<_> = conductors.into_iter().filter(|c| c.is_line()).collect();
    let all_lines: Vec<_> =
        board[supply].conductors().into_iter().filter(|c| c.is_line()).collect();
    let rows = breakers(rules, counted, max)
        .into_iter()
        .map(|breaker| BreakerRow {
            breaker,
            left: all_lines
                .iter()
                .map(|line| {
                    let (real, counted) = if lines.contains(line) {
                        (sizing.amps, counted)
                    } else {
                        (Amps(0.0), Amps(0.0))
                    };
                    line_left(*line, breaker, max, real, counted)
                })
                .collect(),
        })
        .collect();
    Outcome::On(HeaterOn {
        volts,
        watts: watts_on(heater, volts),
        amps: amps_on(heater, volts),
        sizing,
        counted,
        lines,
        rows,
    })
}

/// The sizes that carry `counted`, up to and with the first that is not below `max`.
fn breakers(rules: Rules, counted: Amps, max: Option<Amps>) -> Vec<Amps> {
    let enough = rules.sizes().iter().copied().filter(|size| carries(*size, counted));
    let Some(max) = max else { return enough.take(ROWS_WITHOUT_MAX).collect() };
    let mut rows = Vec::new();
    for size in enough {
        rows.push(size);
        if size.0 >= max.0 {
            break;
        }
    }
    rows
}

/// What a breaker and the board leave in a line that already carries the heater: `real` amps of
/// it, which count as `counted` on the breaker.
fn line_left(
    line: Conductor,
    breaker: Amps,
    max: Option<Amps>,
    real: Amps,
    counted: Amps,
) -> LineLeft {
    // The last digits of the arithmetic must not make a nought negative.
    let by_breaker = (breaker.0 - counted.0).max(0.0);
    match max.map(|max| (max.0 - real.0).max(0.0)) {
        Some(by_board) if by_board < by_breaker => {
            LineLeft { line, amps: Amps(by_board), limit: HeadroomLimit::Board }
        }
        _ => LineLeft { line, amps: Amps(by_breaker), limit: HeadroomLimit::Breaker },
    }
}

#[cfg(test)]
mod tests {
    use super::super::heater::SizingReason;
    use super::super::sample::{heron, supply};
    use super::*;

    #[track_caller]
    fn on(board: &Board, name: &str) -> HeaterOn {
        let found = headroom(board, supply(board, name));
        let [case] = found.cases.as_slice() else { panic!("{found:?}") };
        assert_eq!(board[case.header].code, "J1");
        match &case.outcome {
            Outcome::On(on) => on.clone(),
            other => panic!("{other:?}"),
        }
    }

    /// `breaker: line left, line left`, two decimals.
    fn table(on: &HeaterOn) -> Vec<String> {
        on.rows
            .iter()
            .map(|row| {
                let left: Vec<_> = row
                    .left
                    .iter()
                    .map(|l| {
                        let mark = if l.limit == HeadroomLimit::Board { "*" } else { "" };
                        format!("{} {:.2}{mark}", l.line, l.amps.0)
                    })
                    .collect();
                format!("{}: {}", row.breaker.0, left.join(", "))
            })
            .collect()
    }

    /// 4000 W at 240 V is 16.667 A and counts as 20.833 A, so 25 A is the smallest; the board may
    /// carry 48 A, so 50 A is the last.
    #[test]
    fn what_breakers_leave_on_heron_8() {
        let on = on(&heron(&[]), "four-wire");
        assert!((on.counted.0 - 20.8333).abs() < 0.0001);
        assert_eq!(on.lines, [Conductor::L1, Conductor::L2]);
        assert_eq!(
            table(&on),
            [
                "25: L1 4.17, L2 4.17",
                "30: L1 9.17, L2 9.17",
                "35: L1 14.17, L2 14.17",
                "40: L1 19.17, L2 19.17",
                "45: L1 24.17, L2 24.17",
                "50: L1 29.17, L2 29.17",
            ]
        );
    }

    /// On 207.8 V the element gives 3000 W and 14.43 A: 240 V on the plate is another voltage.
    #[test]
    fn a_lower_nominal_voltage_draws_less() {
        let on = on(&heron(&[]), "wye");
        assert!((on.watts.0 - 3000.0).abs() < 0.01, "{}", on.watts.0);
        assert!((on.amps.0 - 14.4338).abs() < 0.0001, "{}", on.amps.0);
        assert_eq!(on.sizing.because, SizingReason::OtherVoltage);
        assert_eq!(table(&on).first().map(String::as_str), Some("20: L1 1.96, L2 1.96"));
    }

    /// 5760 W is 24 A; 30 A carries it exactly and leaves nothing.
    #[test]
    fn a_breaker_that_is_just_enough_is_listed() {
        let on = on(&heron(&[("watts: 4000", "watts: 5760")]), "four-wire");
        assert_eq!(table(&on).first().map(String::as_str), Some("30: L1 0.00, L2 0.00"));
    }

    /// The board carries 25 A, and 30 A is the first size that is not below: the board is what
    /// limits there. Without a word from the board there are six rows.
    #[test]
    fn the_board_limits_too() {
        let small = heron(&[("max current: 48 A", "max current: 26 A")]);
        assert_eq!(
            table(&on(&small, "four-wire")),
            ["25: L1 4.17, L2 4.17", "30: L1 9.17, L2 9.17"]
        );
        // At the IEC's factor of 1 the breaker leaves 32 - 17.39 A, the board 26 - 17.39 A.
        let european = heron(&[
            ("max current: 48 A", "max current: 26 A"),
            ("system: split-phase 120/240 V", "system: wye 230/400 V"),
            ("between: [T1, T2], volts: 240", "between: [T1, T3], volts: 230"),
            ("between: [T1, T3], volts: 120", "between: [T2, T3], volts: 230"),
            ("at volts: 240", "at volts: 230"),
        ]);
        assert_eq!(
            table(&on(&european, "four-wire")),
            ["20: L1 2.61, L2 20.00", "25: L1 7.61, L2 25.00", "32: L1 8.61*, L2 26.00*"]
        );
        let silent = heron(&[(
            "  max current: 48 A              # the most that any one supply conductor may carry\n",
            "",
        )]);
        assert_eq!(on(&silent, "four-wire").rows.len(), 6);
    }

    #[test]
    fn a_heater_without_voltage_or_beyond_the_board_says_so() {
        let board = heron(&[("group: A, serves: heater", "group: B, serves: heater")]);
        let found = headroom(&board, supply(&board, "three-wire"));
        assert!(matches!(
            found.cases.as_slice(),
            [HeaterCase { outcome: Outcome::NoVoltage(_), .. }]
        ));
        let board = heron(&[("max current: 48 A", "max current: 16 A")]);
        let found = headroom(&board, supply(&board, "four-wire"));
        let [HeaterCase { outcome: Outcome::AboveBoard { amps, max }, .. }] =
            found.cases.as_slice()
        else {
            panic!("{found:?}")
        };
        assert!((amps.0 - 16.667).abs() < 0.001 && max.0 == 16.0);
    }
}
