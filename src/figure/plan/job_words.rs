//! How strong each component of a board is shown for one job, and the words beside it.

use std::sync::Arc;

use super::components::{Component, ComponentKind};
use super::setup::{Setup, Strength};
use crate::board::{Board, HeaderId};
use crate::decide::group_voltage;
use crate::figure::look;
use crate::text::{Line, Typesetter};
use crate::words::Words;

/// Gives a component the strength and the words that it has in a job.
pub fn describe(
    board: &Board,
    setup: &Setup,
    component: &mut Component,
    words: &Words,
    set: &mut Typesetter,
) {
    let code = component.code.clone();
    let inside = component.inside.is_some();
    let full = |used: bool| if used { Strength::Full } else { Strength::Faint };
    match component.kind {
        ComponentKind::Terminal(id) => {
            let landed = board[setup.supply].lands[id];
            component.strength = full(landed.is_some());
            let landed = landed.map_or_else(|| words.no_wire(), |conductor| conductor.to_string());
            let wire = board[id].wire.map(|wire| words.wire_colour(wire));
            let both = wire.map_or(landed.clone(), |wire| words.code_and_words(&landed, &wire));
            component.label = match inside {
                true => [both, landed].map(|w| vec![set.line(&w, look::SMALL_BOLD)]).to_vec(),
                false => {
                    let both = words.code_and_words(&code, &landed);
                    let code = set.line(&code, look::SMALL_BOLD);
                    let landed = set.line(&landed, look::SMALL);
                    vec![vec![set.line(&both, look::SMALL_BOLD)], vec![code, landed]]
                }
            };
        }
        ComponentKind::Link(id) => {
            let moved = setup.terminal(board, id) != board[id].shipped;
            component.label = moved_words(&code, moved, words, set);
        }
        ComponentKind::Group(id) => {
            component.strength = full(setup.uses_group(board, id));
            let volts = match group_voltage(board, setup.supply, id).volts() {
                Some(volts) => words.whole_volts(volts),
                None => words.no_voltage(),
            };
            let small = set.line(&volts, look::SMALL);
            let code = set.line(&code, look::CODE);
            let both = words.code_and_words(&board[id].code, &volts);
            component.label =
                vec![vec![set.line(&both, look::CODE)], vec![code.clone(), small], vec![code]];
        }
        ComponentKind::Jumper(id) => {
            let moved = setup.group(board, id) != board[id].shipped;
            component.strength = full(setup.uses_jumper(board, id) || moved);
            component.label = moved_words(&code, moved, words, set);
            component.far = 3;
        }
        ComponentKind::Fuse(id) => {
            component.strength = full(setup.uses_fuse(board, id));
            component.label = vec![vec![set.line(&code, look::SMALL_BOLD)]];
        }
        ComponentKind::Header(id) => describe_header((board, setup), id, component, words, set),
        ComponentKind::Bank(_) => {}
    }
    // What must stay empty is named in any case, then what is plugged in.
    component.rank = match (component.strength, component.kind) {
        (Strength::Empty, _) => 0,
        (_, ComponentKind::Header(_)) => 1,
        _ => 2,
    };
    // The steps say which fuses there are.
    component.extra =
        component.strength == Strength::Faint || matches!(component.kind, ComponentKind::Fuse(_));
    if component.strength == Strength::Faint {
        component.label = component.label.split_off(component.label.len().saturating_sub(1));
    }
}

/// A header in use gets its device and its title, one that stays empty says so.
fn describe_header(
    (board, setup): (&Board, &Setup),
    id: HeaderId,
    component: &mut Component,
    words: &Words,
    set: &mut Typesetter,
) {
    let code = component.code.clone();
    let inside = component.inside.is_some();
    match setup.device(id) {
        Some(device) => {
            let device = words.device_name(device);
            let both = set.line(&words.code_and_words(&code, &device), look::CODE);
            let device = set.line(&device, look::TITLE_BOLD);
            let title = set.line(&board[id].title, look::SMALL);
            let same = board[id].title.eq_ignore_ascii_case(&device.text());
            let code_text = code;
            let code = (!inside).then(|| set.line(&code_text, look::CODE));
            let with_code = |rest: &[&Arc<Line>]| -> Vec<Arc<Line>> {
                code.iter().chain(rest.iter().copied()).cloned().collect()
            };
            component.label = vec![with_code(&[&device])];
            if !inside {
                component.label.push(vec![both]);
                component.label.push(vec![set.line(&code_text, look::CODE)]);
                component.far = 3;
            }
            if !same {
                component.label.insert(0, with_code(&[&device, &title]));
            }
        }
        None => {
            component.strength = Strength::Empty;
            component.far = 3;
            let empty = set.line(&words.leave_empty(), look::SMALL_BOLD);
            component.label = match inside {
                true => vec![vec![empty]],
                false => {
                    let both = words.code_and_words(&code, &words.leave_empty());
                    let both = set.line(&both, look::SMALL_BOLD);
                    let code = set.line(&code, look::CODE);
                    vec![vec![code.clone(), empty], vec![both], vec![code]]
                }
            };
        }
    }
}

/// The code of a lead, and that it was moved.
fn moved_words(
    code: &str,
    moved: bool,
    words: &Words,
    set: &mut Typesetter,
) -> Vec<Vec<Arc<Line>>> {
    if !moved {
        return vec![vec![set.line(code, look::CODE)]];
    }
    let mark = words.moved_mark();
    let both = set.line(&words.code_and_words(code, &mark), look::CODE);
    let code = set.line(code, look::CODE);
    vec![vec![both], vec![code.clone(), set.line(&mark, look::SMALL_BOLD)], vec![code]]
}
