//! How strong each thing of a board is shown for one job, and the words beside it.

use std::sync::Arc;

use super::setup::{Setup, Strength};
use super::things::{Kind, Thing};
use crate::board::Board;
use crate::decide::group_voltage;
use crate::figure::look;
use crate::figure::supply::whole_volts;
use crate::text::{Line, Typesetter};

/// What is beside a header that nothing may be plugged into.
pub const EMPTY: &str = "leave empty";

/// Gives a thing the strength and the words that it has in a job.
pub fn put(board: &Board, setup: &Setup, thing: &mut Thing, set: &mut Typesetter) {
    let code = thing.code.clone();
    let inside = thing.inside.is_some();
    let full = |used: bool| if used { Strength::Full } else { Strength::Faint };
    match thing.kind {
        Kind::Terminal(id) => {
            let landed = board[setup.supply].lands[id];
            thing.strength = full(landed.is_some());
            let landed = landed.map_or("nothing".to_owned(), |conductor| conductor.to_string());
            let wire = board[id].wire.map(|wire| wire.words);
            let words = wire.map_or(landed.clone(), |wire| format!("{landed} {wire}"));
            thing.label = match inside {
                true => [words, landed].map(|w| vec![set.line(&w, look::SMALL_BOLD)]).to_vec(),
                false => {
                    let both = format!("{code} {landed}");
                    let code = set.line(&code, look::SMALL_BOLD);
                    let landed = set.line(&landed, look::SMALL);
                    vec![vec![set.line(&both, look::SMALL_BOLD)], vec![code, landed]]
                }
            };
        }
        Kind::Link(id) => {
            let moved = setup.terminal(board, id) != board[id].shipped;
            thing.label = moved_words(&code, moved, set);
        }
        Kind::Group(id) => {
            thing.strength = full(setup.uses_group(board, id));
            let words = match group_voltage(board, setup.supply, id).volts() {
                Some(volts) => whole_volts(volts),
                None => "no voltage".to_owned(),
            };
            let small = set.line(&words, look::SMALL);
            let code = set.line(&code, look::CODE);
            let both = format!("{} {words}", board[id].code);
            thing.label =
                vec![vec![set.line(&both, look::CODE)], vec![code.clone(), small], vec![code]];
        }
        Kind::Jumper(id) => {
            let moved = setup.group(board, id) != board[id].shipped;
            thing.strength = full(setup.uses_jumper(board, id) || moved);
            thing.label = moved_words(&code, moved, set);
            thing.far = 3;
        }
        Kind::Fuse(id) => {
            thing.strength = full(setup.uses_fuse(board, id));
            thing.label = vec![vec![set.line(&code, look::SMALL_BOLD)]];
        }
        Kind::Header(id) => match setup.device(id) {
            Some(device) => {
                let both = set.line(&format!("{code} {device}"), look::CODE);
                let device = set.line(&device.to_string(), look::TITLE_BOLD);
                let title = set.line(&board[id].title, look::SMALL);
                let same = board[id].title.eq_ignore_ascii_case(&device.text());
                let code_text = code;
                let code = (!inside).then(|| set.line(&code_text, look::CODE));
                let with_code = |rest: &[&Arc<Line>]| -> Vec<Arc<Line>> {
                    code.iter().chain(rest.iter().copied()).cloned().collect()
                };
                thing.label = vec![with_code(&[&device])];
                if !inside {
                    thing.label.push(vec![both]);
                    thing.label.push(vec![set.line(&code_text, look::CODE)]);
                    thing.far = 3;
                }
                if !same {
                    thing.label.insert(0, with_code(&[&device, &title]));
                }
            }
            None => {
                thing.strength = Strength::Empty;
                thing.far = 3;
                let words = set.line(EMPTY, look::SMALL_BOLD);
                thing.label = match inside {
                    true => vec![vec![words]],
                    false => {
                        let both = set.line(&format!("{code} {EMPTY}"), look::SMALL_BOLD);
                        let code = set.line(&code, look::CODE);
                        vec![vec![code.clone(), words], vec![both], vec![code]]
                    }
                };
            }
        },
        Kind::Bank(_) => {}
    }
    // What must stay empty is named in any case, then what is plugged in.
    thing.rank = match (thing.strength, thing.kind) {
        (Strength::Empty, _) => 0,
        (_, Kind::Header(_)) => 1,
        _ => 2,
    };
    // The steps say which fuses there are.
    thing.extra = thing.strength == Strength::Faint || matches!(thing.kind, Kind::Fuse(_));
    if thing.strength == Strength::Faint {
        thing.label = thing.label.split_off(thing.label.len().saturating_sub(1));
    }
}

/// The code of a lead, and that it was moved.
fn moved_words(code: &str, moved: bool, set: &mut Typesetter) -> Vec<Vec<Arc<Line>>> {
    if !moved {
        return vec![vec![set.line(code, look::CODE)]];
    }
    let both = set.line(&format!("{code} moved"), look::CODE);
    let code = set.line(code, look::CODE);
    vec![vec![both], vec![code.clone(), set.line("moved", look::SMALL_BOLD)], vec![code]]
}
