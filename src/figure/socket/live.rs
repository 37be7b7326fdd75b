//! Whether a header's *common* pin is live.

use crate::board::{Board, HeaderId, Pin, SupplyId};
use crate::decide::{GroupVoltage, group_voltage};

/// Whether the voltage of a line is on a header's *common* pin.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CommonLive {
    /// It is the neutral, or there is no such pin.
    Never,
    /// On some of its groups, under some supply.
    Sometimes,
    /// On every group that gives a voltage, under every supply.
    Always,
}

/// Whether the *common* pin of a header is live, over all its groups and all supplies.
pub fn common_live(board: &Board, header: HeaderId) -> CommonLive {
    if !board[board[header].socket].pins.contains(&Pin::Common) {
        return CommonLive::Never;
    }
    let (mut live, mut dead) = (false, false);
    for supply in (0..board.supplies.len()).map(SupplyId) {
        for group in board.groups_of(header) {
            match group_voltage(board, supply, group) {
                GroupVoltage::NotAvailable { .. } => {}
                voltage if voltage.live_common().is_some() => live = true,
                _ => dead = true,
            }
        }
    }
    match (live, dead) {
        (true, true) => CommonLive::Sometimes,
        (true, false) => CommonLive::Always,
        (false, _) => CommonLive::Never,
    }
}
