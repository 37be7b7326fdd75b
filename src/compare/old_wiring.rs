//! What the old wiring does on the new board: each difference is a mistake there, and the simulation
//! of mistakes tells what comes of it.

use std::cmp::Reverse;

use super::decisions::{DecisionChange, Decisions, Plug, Subject};
use crate::board::{Board, Handle, HeaderId, LayoutEntry, LayoutNumber, SelectorId};
use crate::decide::DeviceId;
use crate::decide::mistakes::{
    AsBuilt, CordFit, Danger, Mistake, Observation, PlannedCase, State, signs, simulate, unnoticed,
    worst,
};
use crate::meaning::Value;

/// Old wiring that is dangerous on the new board.
#[derive(Clone, Debug)]
pub struct OldWiring {
    /// What is as it was, each as a mistake on the new board: one, or all together.
    pub mistakes: Vec<Mistake>,
    /// What the board does with it.
    pub state: State,
    /// What tells it from the right one, the most dangerous first.
    pub signs: Vec<Observation>,
}

impl OldWiring {
    /// The worst of it.
    pub fn danger(&self) -> Danger {
        worst(&self.signs)
    }

    /// Whether nobody notices it who uses the spa.
    pub fn unnoticed(&self) -> bool {
        unnoticed(&self.signs)
    }
}

/// The dangers of wiring by the old decisions, one by one and, if there are several, together; and
/// the differences of work that are no mistake which the simulation knows.
pub fn old_wiring(
    new: &PlannedCase<'_>,
    before: &Decisions,
    after: &Decisions,
    changes: &[DecisionChange],
) -> (Vec<OldWiring>, Vec<Subject>) {
    let (mut mistakes, mut unjudged) = (Vec::new(), Vec::new());
    for change in changes {
        match mistake(new, (before, after), change) {
            Judged::As(mistake) if !mistakes.contains(&mistake) => mistakes.push(mistake),
            Judged::As(_) | Judged::NoWork => {}
            Judged::Unknown => unjudged.push(change.subject.clone()),
        }
    }
    let built = AsBuilt::as_planned(new);
    let state = simulate(new, &built);
    let of = |mistakes: Vec<Mistake>| {
        let wrong = mistakes.iter().fold(built.clone(), |built, it| built.with(new, *it));
        let found = simulate(new, &wrong);
        let signs = signs(new, (&built, &state), (&wrong, &found));
        OldWiring { mistakes, state: found, signs }
    };
    let mut all: Vec<OldWiring> = Vec::new();
    if mistakes.len() > 1 {
        all.push(of(mistakes.clone()));
    }
    all.extend(mistakes.into_iter().map(|mistake| of(vec![mistake])));
    all.retain(|found| found.danger() > Danger::None);
    all.sort_by_key(|found| (Reverse(found.unnoticed()), Reverse(found.danger())));
    (all, unjudged)
}

/// What a difference is for the simulation.
enum Judged {
    /// This mistake.
    As(Mistake),
    /// Nothing that hands do: it follows from something else.
    NoWork,
    /// Work that is no single mistake.
    Unknown,
}

impl From<Option<Mistake>> for Judged {
    fn from(mistake: Option<Mistake>) -> Self {
        mistake.map_or(Judged::Unknown, Judged::As)
    }
}

fn mistake(
    new: &PlannedCase<'_>,
    (before, after): (&Decisions, &Decisions),
    change: &DecisionChange,
) -> Judged {
    let board = new.board;
    let was = change.before.as_ref().map(ToString::to_string);
    let was = was.as_deref();
    match &change.subject {
        Subject::Terminal(_) => terminal(board, (before, after), change),
        Subject::Link(link) => (|| {
            let link = named(&board.links, link, |it| &it.code)?;
            let on = named(&board.terminals, was?, |it| &it.code)?;
            Some(Mistake::Link { link, on })
        })()
        .into(),
        Subject::Jumper(jumper) => (|| {
            let jumper = named(&board.jumpers, jumper, |it| &it.code)?;
            let on = named(&board.groups, was?, |it| &it.code)?;
            Some(Mistake::Jumper { jumper, on })
        })()
        .into(),
        Subject::Header(plug) => plugged(new, (before, after), *plug).into(),
        Subject::Pins(plug) => turned(new, change, *plug).into(),
        Subject::Switch { bank, number } => match (&change.before, &change.after) {
            (Some(_), Some(_)) => named(&board.banks, bank, |it| &it.code)
                .map(|bank| Mistake::Way { bank, way: *number })
                .into(),
            // A switch that the old board does not have is as it is shipped.
            _ => Judged::Unknown,
        },
        Subject::Selector(selector) => (|| {
            let selector: SelectorId = named(&board.selectors, selector, |it| &it.code)?;
            let is_it = |position: &crate::board::Position| Some(position.name.as_str()) == was;
            let position = board[selector].positions.iter().position(is_it)?;
            Some(Mistake::Selector { selector, position })
        })()
        .into(),
        Subject::Layout if board.layout_entry() == LayoutEntry::Panel => (|| {
            let number = LayoutNumber::new(was?.parse().ok()?)?;
            board.layout(number).map(|_| Mistake::Layout(number))
        })()
        .into(),
        Subject::Fuse(_) | Subject::Connector(_) | Subject::Entry => Judged::Unknown,
        _ => Judged::NoWork,
    }
}

/// A supply wire that was elsewhere: it changed places with another, or was not connected.
fn terminal(
    board: &Board,
    (before, after): (&Decisions, &Decisions),
    change: &DecisionChange,
) -> Judged {
    let of = |code: &str| named(&board.terminals, code, |it| &it.code);
    let Subject::Terminal(code) = &change.subject else { return Judged::NoWork };
    let nothing = Value::Conductor(None);
    let was = change.before.as_ref().unwrap_or(&nothing);
    let Some(now) = change.after.as_ref() else { return Judged::Unknown };
    if was == now {
        return Judged::NoWork;
    }
    let swapped = after.iter().find_map(|(subject, theirs)| match subject {
        Subject::Terminal(other) if other != code => {
            let theirs_before = before.get(subject).unwrap_or(&nothing);
            (theirs == was && theirs_before == now).then_some(other)
        }
        _ => None,
    });
    if let Some(other) = swapped {
        let (first, second) = if code < other { (code, other) } else { (other, code) };
        let pair = of(first).zip(of(second));
        return pair.map(|(first, second)| Mistake::Swapped([first, second])).into();
    }
    match was == &nothing {
        true => of(code).map(Mistake::Missing).into(),
        false => Judged::Unknown,
    }
}

/// A plug that is where it was.
fn plugged(
    new: &PlannedCase<'_>,
    (before, after): (&Decisions, &Decisions),
    plug: Plug,
) -> Option<Mistake> {
    let board = new.board;
    let was = before.get(&Subject::Header(plug))?.to_string();
    let into: HeaderId = named(&board.headers, &was, |it| &it.code)?;
    let device = device_id(new, plug)?;
    if board[into].socket != board[new.wiring[device].header].socket {
        return None;
    }
    let Some((other, there)) = new.wiring.devices.entries().find(|(_, it)| it.header == into)
    else {
        return Some(Mistake::Plug { device, into });
    };
    let theirs = before.get(&Subject::Header(there.fitted));
    let both = theirs == after.get(&Subject::Header(plug)) && theirs.is_some();
    both.then(|| Mistake::PlugsSwapped([device.min(other), device.max(other)]))
}

/// A plug that is as it was, where the pins are now the other way round.
fn turned(new: &PlannedCase<'_>, change: &DecisionChange, plug: Plug) -> Option<Mistake> {
    let (Some(Value::Codes(before)), Some(Value::Codes(after))) = (&change.before, &change.after)
    else {
        return None;
    };
    let device = device_id(new, plug)?;
    let reversed = before.iter().rev().eq(after);
    reversed.then_some(Mistake::Cord { device, fit: CordFit::Turned })
}

fn device_id(new: &PlannedCase<'_>, plug: Plug) -> Option<DeviceId> {
    let mut devices = new.wiring.devices.entries();
    devices.find(|(_, device)| device.fitted == plug).map(|(id, _)| id)
}

/// The thing with this name.
fn named<H: Handle, T>(things: &[T], name: &str, name_of: impl Fn(&T) -> &String) -> Option<H> {
    things.iter().position(|thing| name_of(thing) == name).map(H::new)
}
