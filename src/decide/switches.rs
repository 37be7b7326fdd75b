//! How every switch must stand.

use crate::board::{
    Allowance, Bank, BankId, Board, Effect, Field, LayoutEntry, LayoutNumber, Meaning, SelectorId,
};

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

/// How a rotary selector must stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SelectorSetting {
    /// The selector.
    pub selector: SelectorId,
    /// The position, by its place among the selector's.
    pub position: usize,
    /// Whether a person must turn it from where it is shipped.
    pub moved: bool,
}

/// The selector at the position of a layout; `None` if the board has none.
pub fn selector_setting(board: &Board, layout: LayoutNumber) -> Option<SelectorSetting> {
    let LayoutEntry::Selector(selector) = board.layout_entry() else { return None };
    let position = board[selector].position_of(layout)?;
    Some(SelectorSetting { selector, position, moved: position != board[selector].shipped })
}

/// Every bank with the heater allowance set, and the layout number if ways set it; all other ways
/// stand as they are shipped.
pub fn bank_settings(
    board: &Board,
    allowance: Option<Allowance>,
    layout: LayoutNumber,
) -> Vec<BankSetting> {
    board
        .handles()
        .map(|bank: BankId| {
            let positions = positions(&board[bank], allowance, layout);
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

fn positions(bank: &Bank, allowance: Option<Allowance>, layout: LayoutNumber) -> Vec<bool> {
    bank.fields
        .iter()
        .flat_map(|field| match (field.effect.as_ref(), allowance) {
            (Some(Effect::HeaterAllowance), Some(allowance)) => {
                setting(field, &Meaning::Allowance(allowance))
            }
            (Some(Effect::LayoutNumber), _) => setting(field, &Meaning::Layout(Some(layout))),
            _ => field.shipped.clone(),
        })
        .collect()
}

/// The positions with a meaning: of several, those with the fewest ways to move.
fn setting(field: &Field, meaning: &Meaning) -> Vec<bool> {
    let moved = |positions: &[bool]| {
        positions.iter().zip(&field.shipped).filter(|(now, shipped)| now != shipped).count()
    };
    let means = field.settings.iter().filter(|s| s.meaning == *meaning);
    means
        .min_by_key(|setting| moved(&setting.positions))
        .map_or_else(|| field.shipped.clone(), |setting| setting.positions.clone())
}
