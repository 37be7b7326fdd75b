//! What nobody notices, turned round once more: from what to check to what is so otherwise.

use serde::Serialize;

use super::{FinderCase, names};
use crate::board::{Board, Device, HeaderId};
use crate::decide::faults::Fault;
use crate::decide::mistakes::{Danger, Heat, Sign};
use crate::words::Words;

/// Something to check even if all works.
#[derive(Serialize)]
pub struct Hidden {
    number: usize,
    check: HiddenCheck,
    /// The first of those that are measured on live parts.
    first_live: bool,
    /// What is so if it is not right, as sentences.
    otherwise: Vec<String>,
}

/// What to check of all devices at once, with what is correct.
#[derive(Clone, PartialEq, Serialize)]
pub struct HiddenCheck {
    pub check: String,
    /// Where it is drawn.
    pub see: Vec<String>,
    /// It is measured on live parts.
    pub live: bool,
}

/// A kind of sign that nobody notices.
#[derive(Clone, Copy, PartialEq)]
enum HiddenSign {
    AllLive,
    Live,
    AllLoose,
    NeutralGrounded,
    Loose,
    /// Both of a device: it takes as many words as one.
    LiveOrLoose,
    Stays,
    Overload(Heat),
    Hot(Heat),
}

/// What a sign that nobody notices is about.
#[derive(Clone, Copy, PartialEq)]
enum Subject {
    All,
    Device(Device),
    Header(HeaderId),
}

/// HiddenSigns of signs, each with all that it is about.
type HiddenSigns = Vec<(HiddenSign, Vec<Subject>)>;

/// What to check even if all works, the most dangerous first; under each what is so otherwise.
pub fn hidden<M: Clone>(faults: &[Fault<M>], case: &impl FinderCase<M>) -> Vec<Hidden> {
    let mut all: Vec<(HiddenCheck, HiddenSigns)> = Vec::new();
    let dangerous =
        |fault: &&Fault<M>| !fault.sign.is_noticed() && fault.sign.danger() > Danger::None;
    for fault in faults.iter().filter(dangerous) {
        let Some((kind, about)) = kind(fault.sign) else { continue };
        for check in &fault.checks {
            let words = case.check_all(check.target);
            let at = all.iter().position(|(known, _)| *known == words);
            let at = at.unwrap_or_else(|| {
                all.push((words, Vec::new()));
                all.len() - 1
            });
            let Some((_, kinds)) = all.get_mut(at) else { continue };
            match kinds.iter_mut().find(|(known, _)| *known == kind) {
                Some((_, names)) if names.contains(&about) => {}
                Some((_, names)) => names.push(about),
                None => kinds.push((kind, vec![about])),
            }
        }
    }
    all.sort_by_key(|(check, _)| check.live);
    all.iter_mut().for_each(|(_, kinds)| join_metal(kinds));
    let first_live = all.iter().position(|(check, _)| check.live);
    all.into_iter()
        .enumerate()
        .map(|(index, (check, kinds))| Hidden {
            number: index + 1,
            check,
            first_live: first_live == Some(index),
            otherwise: kinds
                .iter()
                .map(|(kind, all)| kind_words(case.words(), case.board(), *kind, all))
                .collect(),
        })
        .collect()
}

fn join_metal(kinds: &mut HiddenSigns) {
    let of =
        |wanted: HiddenSign| kinds.iter().find(|(kind, _)| *kind == wanted).map(|(_, names)| names);
    if of(HiddenSign::Live).is_some() && of(HiddenSign::Live) == of(HiddenSign::Loose) {
        kinds.retain(|(kind, _)| *kind != HiddenSign::Loose);
        let live = kinds.iter_mut().find(|(kind, _)| *kind == HiddenSign::Live);
        live.into_iter().for_each(|(kind, _)| *kind = HiddenSign::LiveOrLoose);
    }
}

fn kind(sign: Sign) -> Option<(HiddenSign, Subject)> {
    Some(match sign {
        Sign::AllMetalLive => (HiddenSign::AllLive, Subject::All),
        Sign::MetalLive(device) => (HiddenSign::Live, Subject::Device(device)),
        Sign::AllUngrounded => (HiddenSign::AllLoose, Subject::All),
        Sign::MetalOnNeutral => (HiddenSign::NeutralGrounded, Subject::All),
        Sign::Ungrounded(device) => (HiddenSign::Loose, Subject::Device(device)),
        Sign::StaysLive(device) => (HiddenSign::Stays, Subject::Device(device)),
        Sign::Overload(heat) => (HiddenSign::Overload(heat), Subject::All),
        Sign::HeaderHot(header, heat) => (HiddenSign::Hot(heat), Subject::Header(header)),
        _ => return None,
    })
}

fn kind_words(words: &Words, board: &Board, kind: HiddenSign, all: &[Subject]) -> String {
    let devices: Vec<Device> = all
        .iter()
        .filter_map(|subject| match subject {
            Subject::Device(device) => Some(*device),
            _ => None,
        })
        .collect();
    let names = names(words, &devices);
    match kind {
        HiddenSign::AllLive => words.otherwise_all_live(),
        HiddenSign::Live => words.otherwise_live(&names),
        HiddenSign::AllLoose => words.otherwise_nothing_grounded(),
        HiddenSign::NeutralGrounded => words.otherwise_neutral_grounded(),
        HiddenSign::Loose => words.otherwise_no_ground(&names),
        HiddenSign::LiveOrLoose => words.otherwise_no_ground_or_live(&names),
        HiddenSign::Stays => words.otherwise_stays_live(&names),
        HiddenSign::Overload(heat) => words.otherwise_overload(heat == Heat::Burns),
        HiddenSign::Hot(heat) => {
            let codes = all.iter().filter_map(|subject| match subject {
                Subject::Header(header) => Some(board[*header].code.clone()),
                _ => None,
            });
            words.otherwise_header_hot(&words.or(&codes.collect::<Vec<_>>()), heat == Heat::Burns)
        }
    }
}
