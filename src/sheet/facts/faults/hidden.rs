//! What nobody notices, turned round once more: from what to check to what is so otherwise.

use serde::Serialize;

use super::{Tongue, Words, names, or};
use crate::board::{Board, Device, HeaderId};
use crate::decide::faults::Fault;
use crate::decide::mistakes::{Danger, Sign};

/// Something to check even if all works.
#[derive(Serialize)]
pub struct Hidden {
    check: Words,
    /// What is so if it is not right, as sentences.
    otherwise: Vec<String>,
}

/// A kind of sign that nobody notices.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    AllLive,
    Live,
    AllLoose,
    Loose,
    /// Both of a device: it takes as many words as one.
    LiveOrLoose,
    Stays,
    Overload,
    Hot,
}

/// What a sign that nobody notices is about.
#[derive(Clone, Copy, PartialEq)]
enum About {
    All,
    Device(Device),
    Header(HeaderId),
}

/// Kinds of signs, each with all that it is about.
type Kinds = Vec<(Kind, Vec<About>)>;

/// What to check even if all works, the most dangerous first; under each what is so otherwise.
pub fn hidden<M: Clone>(faults: &[Fault<M>], tongue: &impl Tongue<M>) -> Vec<Hidden> {
    let mut all: Vec<(Words, Kinds)> = Vec::new();
    let dangerous =
        |fault: &&Fault<M>| !fault.sign.is_noticed() && fault.sign.danger() > Danger::None;
    for fault in faults.iter().filter(dangerous) {
        let Some((kind, about)) = kind(fault.sign) else { continue };
        for check in &fault.checks {
            let words = tongue.check_all(check.target);
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
    all.into_iter()
        .map(|(check, kinds)| Hidden {
            check,
            otherwise: kinds
                .iter()
                .map(|(kind, all)| kind_words(tongue.board(), *kind, all))
                .collect(),
        })
        .collect()
}

fn join_metal(kinds: &mut Kinds) {
    let of = |wanted: Kind| kinds.iter().find(|(kind, _)| *kind == wanted).map(|(_, names)| names);
    if of(Kind::Live).is_some() && of(Kind::Live) == of(Kind::Loose) {
        kinds.retain(|(kind, _)| *kind != Kind::Loose);
        let live = kinds.iter_mut().find(|(kind, _)| *kind == Kind::Live);
        live.into_iter().for_each(|(kind, _)| *kind = Kind::LiveOrLoose);
    }
}

fn kind(sign: Sign) -> Option<(Kind, About)> {
    Some(match sign {
        Sign::AllMetalLive => (Kind::AllLive, About::All),
        Sign::MetalLive(device) => (Kind::Live, About::Device(device)),
        Sign::AllUngrounded => (Kind::AllLoose, About::All),
        Sign::Ungrounded(device) => (Kind::Loose, About::Device(device)),
        Sign::StaysLive(device) => (Kind::Stays, About::Device(device)),
        Sign::Overload => (Kind::Overload, About::All),
        Sign::HeaderHot(header) => (Kind::Hot, About::Header(header)),
        _ => return None,
    })
}

fn kind_words(board: &Board, kind: Kind, all: &[About]) -> String {
    let devices: Vec<Device> = all
        .iter()
        .filter_map(|about| match about {
            About::Device(device) => Some(*device),
            _ => None,
        })
        .collect();
    let names = names(&devices);
    match kind {
        Kind::AllLive => "All metal is live.".to_owned(),
        Kind::Live => format!("The metal of {names} is live."),
        Kind::AllLoose => "Nothing is grounded.".to_owned(),
        Kind::Loose => format!("The metal of {names} has no ground."),
        Kind::LiveOrLoose => format!("The metal of {names} has no ground or is live."),
        Kind::Stays => format!("All wires of {names} stay live while it is off."),
        Kind::Overload => "The supply wires carry too much and can burn.".to_owned(),
        Kind::Hot => {
            let codes = all.iter().filter_map(|about| match about {
                About::Header(header) => Some(board[*header].code.clone()),
                _ => None,
            });
            let codes: Vec<String> = codes.collect();
            format!("{} carries too much and can burn.", or(&codes))
        }
    }
}
