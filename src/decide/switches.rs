//! How every switch must stand.

use crate::board::{Bank, BankId, Board, Effect, Field, Meaning};

/// How a bank must stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BankSetting {
    /// The bank.
    pub bank: BankId,
    /// Each way in order, `true` for on.
    pub positions: Vec<bool>,
    /// The ways, from 1, that a person must move from where they are shipped.
    pub moved: Vec<u8>,
}

/// Every bank with the heater allowance set; all other ways stand as they are shipped.
pub fn bank_settings(board: &Board, allowance: Option<u8>) -> Vec<BankSetting> {
    board
        .handles()
        .map(|bank: BankId| {
            let positions = positions(&board[bank], allowance);
            let moved = positions
                .iter()
                .zip(board[bank].shipped())
                .zip(1..)
                .filter(|((now, shipped), _)| **now != *shipped)
                .map(|(_, way)| way)
                .collect();
            BankSetting { bank, positions, moved }
        })
        .collect()
}

fn positions(bank: &Bank, allowance: Option<u8>) -> Vec<bool> {
    bank.fields
        .iter()
        .flat_map(|field| match (field.effect.as_ref(), allowance) {
            (Some(Effect::HeaterAllowance), Some(allowance)) => setting(field, allowance),
            _ => field.shipped.clone(),
        })
        .collect()
}

/// The positions that mean `allowance`: of several, those with the fewest ways to move.
fn setting(field: &Field, allowance: u8) -> Vec<bool> {
    let moved = |positions: &[bool]| {
        positions.iter().zip(&field.shipped).filter(|(now, shipped)| now != shipped).count()
    };
    let means = field.settings.iter().filter(|s| s.meaning == Meaning::Allowance(allowance));
    means
        .min_by_key(|setting| moved(&setting.positions))
        .map_or_else(|| field.shipped.clone(), |setting| setting.positions.clone())
}
