//! Between which terminals a group lies.

use crate::board::{Board, GroupId, GroupSource, Node, SupplyId, TerminalId};

/// The points that a group lies between under a supply; `None` for a group of its own transformer.
pub fn terminals_of(
    board: &Board,
    supply: SupplyId,
    group: GroupId,
) -> Option<(TerminalId, TerminalId)> {
    let terminal = |node: Node| match node {
        Node::Terminal(terminal) => terminal,
        Node::Link(link) => board[supply].links[link],
    };
    match board[group].source {
        GroupSource::Isolated(_) => None,
        GroupSource::Between { nodes: [a, b], .. } => {
            let (a, b) = (terminal(a), terminal(b));
            Some((a.min(b), a.max(b)))
        }
    }
}
