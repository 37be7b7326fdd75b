//! What the board's own electronics are fed from.

use super::super::voltage::magnitude;
use super::super::{Electronics, Supply};
use super::Draft;
use super::groups::two_points;
use super::names::Directory;
use crate::diagnostic::{Code, Problem, Problems};
use crate::spec::{Field, Spec};

/// `electronics`: `Some(None)` if the specification does not say.
pub fn electronics(
    spec: &Spec,
    all: &Directory<'_>,
    draft: &Draft,
    problems: &mut Problems,
) -> Option<Option<Electronics>> {
    let written = match &spec.electronics {
        Field::Absent => return Some(None),
        Field::Unread => return None,
        Field::Is(written) => &written.value,
    };
    let between = written.between.get()?;
    let nodes = two_points(spec, between, "the board's electronics", all, problems)?;
    let mut fed = true;
    for (supply, written) in draft.supplies.iter().zip(&spec.supplies.entries) {
        let volts = |supply: &Supply| supply.between(nodes).map(magnitude);
        let Some(supply) = supply else { continue };
        if volts(supply).is_some_and(|volts| volts.0 > 1.0) {
            continue;
        }
        fed = false;
        problems.error(
            Problem::new(
                Code::ElectronicsUnfed,
                between.span,
                format!("supply {} does not feed the board's electronics", supply.name),
            )
            .label("no voltage between these under that supply")
            .other(written.name.span, "this supply")
            .note("without them the panel shows nothing, and nothing runs")
            .help("name two points that every supply reaches, or correct what it lands"),
        );
    }
    fed.then_some(Some(Electronics { nodes }))
}
