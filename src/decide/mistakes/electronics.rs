//! Whether the board itself runs: what its electronics get, against what its supplies give them.

use num_complex::Complex;

use super::super::currents::size;
use super::super::jumpers::suits;
use super::AsBuilt;
use super::signs::HUM_THRESHOLD;
use super::state::Power;
use crate::board::voltage::magnitude;
use crate::board::{Board, Conductor, TerminalId};
use crate::units::Volts;

/// What the electronics of a board get as it is built. Where a conductor is missing, the terminal takes
/// the potential of the other end: with nothing running there is no other way to it.
pub fn power(board: &Board, built: &AsBuilt) -> Power {
    let Some(electronics) = board.electronics else { return Power::NotSaid };
    let [Some(first), Some(second)] =
        electronics.nodes.map(|node| potential(built, built.terminal(node)))
    else {
        return Power::Dead;
    };
    let volts = Volts(size(first - second));
    let rated = board.supplies.iter().filter_map(|supply| supply.between(electronics.nodes));
    let rated: Vec<Volts> = rated.map(magnitude).collect();
    let most = rated.iter().copied().reduce(|a, b| if b.0 > a.0 { b } else { a });
    let least = rated.iter().copied().reduce(|a, b| if b.0 < a.0 { b } else { a });
    let (Some(least), Some(most)) = (least, most) else { return Power::NotSaid };
    if volts.0 < least.0 * HUM_THRESHOLD {
        Power::Dead
    } else if rated.iter().any(|rated| suits(volts, *rated)) {
        Power::Suits
    } else if volts.0 > most.0 {
        Power::Burns(volts)
    } else if volts.0 < least.0 {
        Power::Weak(volts)
    } else {
        // Between what two supplies give.
        Power::Suits
    }
}

/// The terminal whose conductor is missing and that the electronics join to a conductor, with the
/// potential that it takes from there: what hangs on it can be live although nothing runs.
pub fn reached(board: &Board, built: &AsBuilt) -> Option<(TerminalId, Complex<f64>)> {
    let nodes = board.electronics?.nodes.map(|node| built.terminal(node));
    let [first, second] = nodes.map(|terminal| potential(built, terminal));
    match (nodes, first, second) {
        ([_, lost], Some(there), None) | ([lost, _], None, Some(there)) => Some((lost, there)),
        _ => None,
    }
}

/// Whether a wire of the electronics is the neutral: it then carries a current at all times.
pub fn on_neutral(board: &Board, built: &AsBuilt) -> bool {
    board.electronics.is_some_and(|electronics| {
        let lands = electronics.nodes.map(|node| built.lands[built.terminal(node)]);
        let [first, second] = lands;
        lands.contains(&Some(Conductor::N)) && first != second && lands.iter().all(Option::is_some)
    })
}

fn potential(built: &AsBuilt, terminal: TerminalId) -> Option<Complex<f64>> {
    built.lands[terminal].and_then(|conductor| built.phasor(conductor))
}
