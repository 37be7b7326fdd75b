//! What a meter reads between terminals if the supply is correct: numbers of the board's supplies,
//! by their nominal voltages.

use crate::board::voltage::magnitude;
use crate::board::{Board, GroupId, GroupSource, Node, SupplyId, TerminalId};
use crate::words::Words;

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

/// `T1 to T2: 240 V; T1 to T3, T2 to T3: 120 V`: what is expected between the pairs of terminals
/// that are `wanted`, all of them if there are none; with several supplies, `240 V or 208 V`.
pub fn expected(
    words: &Words,
    board: &Board,
    supplies: &[SupplyId],
    wanted: &[(TerminalId, TerminalId)],
) -> String {
    let ids = || (0..board.terminals.len()).map(TerminalId);
    let pairs = ids().flat_map(|a| ids().map(move |b| (a, b))).filter(|(a, b)| a < b);
    let pairs = pairs.filter(|pair| wanted.is_empty() || wanted.contains(pair));
    let mut found: Vec<(String, Vec<String>)> = Vec::new();
    for (a, b) in pairs {
        let mut volts: Vec<String> = Vec::new();
        for supply in supplies {
            let between = board[*supply].between([Node::Terminal(a), Node::Terminal(b)]);
            let Some(size) = between.map(magnitude).filter(|size| size.0 > 1.0) else { continue };
            let said = words.whole_volts(size);
            if !volts.contains(&said) {
                volts.push(said);
            }
        }
        if volts.is_empty() {
            continue;
        }
        let volts = words.or(&volts);
        let pair = words.from_to(&board[a].code, &board[b].code);
        match found.iter_mut().find(|(known, _)| *known == volts) {
            Some((_, pairs)) => pairs.push(pair),
            None => found.push((volts, vec![pair])),
        }
    }
    let all = found.iter().map(|(volts, pairs)| words.pairs_and_volts(&words.commas(pairs), volts));
    all.reduce(|listed, next| words.semicolon(&listed, &next)).unwrap_or_default()
}
