//! The switches that a person sets or checks.

use super::types::Switches;
use crate::board::{Board, Effect, Field, Meaning};
use crate::decide::Wiring;
use crate::words::Words;

/// The fields that are moved, and those whose meaning must be known: what sets the layout number and
/// the heater allowance, and the frequency.
pub fn switches(words: &Words, board: &Board, wiring: &Wiring) -> Vec<Switches> {
    let mut found = Vec::new();
    for setting in &wiring.switches {
        let bank = &board[setting.bank];
        for field in &bank.fields {
            let first = usize::from(field.first.saturating_sub(1));
            let Some(positions) = setting.positions.get(first..usize::from(field.last)) else {
                continue;
            };
            let moved = (field.first..=field.last).any(|way| setting.moved.contains(&way));
            let known = matches!(
                field.effect,
                Some(Effect::HeaterAllowance | Effect::Frequency | Effect::LayoutNumber)
            );
            let says = field.settings.iter().find(|s| s.positions == positions);
            let Some(says) = says.filter(|_| moved || known) else { continue };
            let meaning = match &says.meaning {
                Meaning::Allowance(allowance) => words.allowance_is(&allowance.to_string()),
                Meaning::Layout(Some(layout)) => words.layout_is(&layout.to_string()),
                Meaning::Layout(None) => words.no_layout_meant(),
                Meaning::Words(text) => text.clone(),
            };
            let ways = ways(words, field, positions);
            found.push(Switches { bank: bank.code.clone(), ways, meaning });
        }
    }
    found
}

/// `1 ON, 2 OFF`: each is named, because a bank that is mounted the other way round shows them in
/// the other order.
fn ways(words: &Words, field: &Field, positions: &[bool]) -> String {
    let ways = (field.first..=field.last).zip(positions);
    let all: Vec<String> = ways.map(|(way, on)| words.set_way(usize::from(way), *on)).collect();
    words.commas(&all)
}
