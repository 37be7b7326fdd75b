//! Switch banks for a template.

use serde::Serialize;

use super::part_title;
use crate::board::{self, Allowance, Board, Effect, Meaning};
use crate::words::Words;

#[derive(Serialize)]
pub struct Bank {
    code: String,
    part: String,
    /// Number from 1, for the figure's name.
    number: usize,
    /// The edge that ON is printed at.
    on_edge: String,
    fields: Vec<Field>,
    /// Whether one of its fields sets the heater allowance.
    sets_allowance: bool,
}

#[derive(Serialize)]
struct Field {
    ways: String,
    /// `None` if the specification gives no word.
    effect: Option<String>,
    unused: bool,
    settings: Vec<Setting>,
}

#[derive(Serialize)]
struct Setting {
    /// `1 off, 2 on`.
    positions: String,
    /// `None` for a heater allowance that is a count.
    meaning: Option<String>,
    allowance: Option<u8>,
    shipped: bool,
}

pub fn banks(words: &Words, board: &Board) -> Vec<Bank> {
    board
        .banks
        .iter()
        .enumerate()
        .map(|(index, bank)| Bank {
            code: bank.code.clone(),
            part: part_title(words, &board[bank.part]),
            number: index + 1,
            on_edge: words.side_name(bank.on_side),
            sets_allowance: bank
                .fields
                .iter()
                .any(|field| field.effect == Some(Effect::HeaterAllowance)),
            fields: bank.fields.iter().map(|one| field(words, one)).collect(),
        })
        .collect()
}

fn field(words: &Words, field: &board::Field) -> Field {
    Field {
        ways: field.label(),
        effect: field.effect.as_ref().map(|effect| words.effect_name(effect)),
        unused: field.unused(),
        settings: field
            .settings
            .iter()
            .map(|setting| Setting {
                positions: words.way_positions(field, &setting.positions),
                meaning: match &setting.meaning {
                    Meaning::Allowance(Allowance::Loads(_)) => None,
                    Meaning::Allowance(Allowance::Amps(amps)) => Some(words.amps(*amps)),
                    Meaning::Layout(Some(layout)) => Some(words.layout_meant(&layout.to_string())),
                    Meaning::Layout(None) => Some(words.no_layout_meant()),
                    Meaning::Words(text) => Some(text.clone()),
                },
                allowance: match setting.meaning {
                    Meaning::Allowance(Allowance::Loads(count)) => Some(count),
                    Meaning::Allowance(Allowance::Amps(_)) => None,
                    Meaning::Layout(_) | Meaning::Words(_) => None,
                },
                shipped: setting.positions == field.shipped,
            })
            .collect(),
    }
}
