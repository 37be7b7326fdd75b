//! What the old wiring does on the new board, and what that board does as it is shipped: each difference
//! is a mistake there, and the simulation of mistakes tells what comes of it.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use super::decisions::{DecisionChange, Plug, Subject};
use super::plugs::{self, PlugFit};
use super::same;
use super::steps::Compared;
use crate::board::{
    Board, GroupId, Handle, HeaderId, JumperId, LayoutEntry, LayoutNumber, LinkId, SelectorId,
    TerminalId,
};
use crate::decide::mistakes::{
    AsBuilt, CordFit, Danger, Mistake, Observation, Sign, State, signs, simulate, unnoticed, worst,
};
use crate::meaning::Value;

/// Something that is dangerous on the new board unless a step mends it.
#[derive(Clone, Debug)]
pub struct OldWiring {
    /// Why it can be so.
    pub origin: Origin,
    /// What is so, each as a mistake on the new board: one, or all of this origin together.
    pub mistakes: Vec<Mistake>,
    /// What the board does with it.
    pub state: State,
    /// What tells it from the right one, the most dangerous first. Of several mistakes together what none of
    /// them does alone.
    pub signs: Vec<Observation>,
}

/// Why something on the new board is not as it must be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Origin {
    /// It is as it was on the old board.
    Old,
    /// It is as the new board is shipped.
    Shipped,
    /// Both are the same.
    Both,
}

impl OldWiring {
    /// The worst of it. A current above what the board or a header may carry goes on unseen until something
    /// is too hot, so it is never less than a fire.
    pub fn danger(&self) -> Danger {
        let hot = |seen: &Observation| matches!(seen.sign, Sign::Overload(_) | Sign::HeaderHot(..));
        let worst = worst(&self.signs);
        if self.signs.iter().any(hot) { worst.max(Danger::Fire) } else { worst }
    }

    /// Whether nobody notices it who uses the spa.
    pub fn unnoticed(&self) -> bool {
        unnoticed(&self.signs)
    }
}

/// The dangers of wiring by the old decisions and of leaving what is shipped, one by one and, if that is
/// more, together; and the differences of work that are no mistake which the simulation knows.
pub fn old_wiring(job: &Compared<'_>) -> (Vec<OldWiring>, Vec<Subject>) {
    let new = job.new;
    let (mut mistakes, mut unjudged): (Vec<(Origin, Mistake)>, Vec<Subject>) = Default::default();
    let mut add = |origin: Origin, mistake: Mistake| match mistakes
        .iter_mut()
        .find(|(_, other)| *other == mistake)
    {
        Some((other, _)) if *other != origin => *other = Origin::Both,
        Some(_) => {}
        None => mistakes.push((origin, mistake)),
    };
    for change in job.changes {
        match mistake(job, change) {
            Judged::As(mistake) => add(Origin::Old, mistake),
            Judged::NoWork => {}
            Judged::Unknown => unknown(&change.subject, &mut unjudged),
        }
    }
    let settings = job.changes.iter().map(|change| match &change.subject {
        Subject::Shipped(subject) => &**subject,
        subject => subject,
    });
    for subject in settings.collect::<BTreeSet<_>>() {
        if let Some(mistake) = left_as_shipped(job, subject) {
            add(Origin::Shipped, mistake);
        }
    }
    let built = AsBuilt::as_planned(new);
    let state = simulate(new, &built);
    let of = |origin: Origin, mistakes: Vec<Mistake>| {
        let wrong = mistakes.iter().fold(built.clone(), |built, it| built.with(new, *it));
        let found = simulate(new, &wrong);
        let signs = signs(new, (&built, &state), (&wrong, &found));
        OldWiring { origin, mistakes, state: found, signs }
    };
    let mut all: Vec<OldWiring> =
        mistakes.iter().map(|(origin, mistake)| of(*origin, vec![*mistake])).collect();
    let known: BTreeSet<Sign> =
        all.iter().flat_map(|found| &found.signs).map(|seen| seen.sign).collect();
    for origin in [Origin::Old, Origin::Shipped] {
        let of_it = mistakes.iter().filter(|(it, _)| *it == origin || *it == Origin::Both);
        let of_it: Vec<Mistake> = of_it.map(|(_, mistake)| *mistake).collect();
        if of_it.len() > 1 {
            let mut together = of(origin, of_it);
            together.signs.retain(|seen| !known.contains(&seen.sign));
            all.push(together);
        }
    }
    all.retain(|found| found.danger() > Danger::None);
    all.sort_by_key(|found| (Reverse(found.danger()), Reverse(found.unnoticed())));
    (all, unjudged)
}

/// Notes what no simulation tells, each thing once: all that is known of a plug is one.
fn unknown(subject: &Subject, unjudged: &mut Vec<Subject>) {
    let subject = match subject {
        Subject::ReadFrom(plug) | Subject::Key(plug) => Subject::Pins(*plug),
        other => other.clone(),
    };
    if !unjudged.contains(&subject) {
        unjudged.push(subject);
    }
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

fn mistake(job: &Compared<'_>, change: &DecisionChange) -> Judged {
    let board = job.new.board;
    let Some(was) = &change.before else {
        return match change.subject {
            // What the old board does not have stands as it is shipped: that is judged by itself.
            Subject::Link(_)
            | Subject::Jumper(_)
            | Subject::Switch { .. }
            | Subject::Selector(_)
            | Subject::Fuse(_) => Judged::NoWork,
            Subject::Connector(_) | Subject::Entry => Judged::Unknown,
            Subject::Terminal(_) => terminal(job, change),
            Subject::Header(plug) => plugged(job, plug).into(),
            Subject::Meaning { .. } => Judged::Unknown,
            _ => Judged::NoWork,
        };
    };
    match &change.subject {
        Subject::Terminal(_) => terminal(job, change),
        Subject::Link(_) | Subject::Jumper(_) | Subject::Switch { .. } | Subject::Selector(_) => {
            match change.after {
                Some(_) => set_to(board, &change.subject, was).into(),
                None => Judged::NoWork,
            }
        }
        Subject::Header(plug) => plugged(job, *plug).into(),
        Subject::Pins(plug) | Subject::ReadFrom(plug) | Subject::Key(plug) => cord(job, *plug),
        Subject::Layout if board.layout_entry() == LayoutEntry::Panel => (|| {
            let number = LayoutNumber::new(was.to_string().parse().ok()?)?;
            board.layout(number).map(|_| Mistake::Layout(number))
        })()
        .into(),
        Subject::Fuse(_) if change.after.is_none() => Judged::NoWork,
        Subject::Fuse(_) | Subject::Connector(_) | Subject::Entry | Subject::Meaning { .. } => {
            Judged::Unknown
        }
        _ => Judged::NoWork,
    }
}

/// A thing that is set as the new board is shipped, where it belongs otherwise.
fn left_as_shipped(job: &Compared<'_>, subject: &Subject) -> Option<Mistake> {
    let (shipped, belongs) = (job.after.get(&subject.as_shipped())?, job.after.get(subject)?);
    if same(Some(shipped), Some(belongs)) {
        return None;
    }
    set_to(job.new.board, subject, shipped)
}

/// A link, jumper, switch or selector that is set to a value in place of where it belongs.
fn set_to(board: &Board, subject: &Subject, to: &Value) -> Option<Mistake> {
    let name = to.to_string();
    match subject {
        Subject::Link(link) => {
            let link: LinkId = named(&board.links, link, |it| &it.code)?;
            let on: TerminalId = named(&board.terminals, &name, |it| &it.code)?;
            Some(Mistake::Link { link, on })
        }
        Subject::Jumper(jumper) => {
            let jumper: JumperId = named(&board.jumpers, jumper, |it| &it.code)?;
            let on: GroupId = named(&board.groups, &name, |it| &it.code)?;
            Some(Mistake::Jumper { jumper, on })
        }
        // It has two positions, and this is the wrong one.
        Subject::Switch { bank, number } => {
            let bank = named(&board.banks, bank, |it| &it.code)?;
            Some(Mistake::Way { bank, way: *number })
        }
        Subject::Selector(selector) => {
            let selector: SelectorId = named(&board.selectors, selector, |it| &it.code)?;
            let mut positions = board[selector].positions.iter();
            let position = positions.position(|position| position.name == name)?;
            Some(Mistake::Selector { selector, position })
        }
        _ => None,
    }
}

/// A supply wire that was elsewhere: it changed places with another, or was not connected.
fn terminal(job: &Compared<'_>, change: &DecisionChange) -> Judged {
    let of = |code: &str| named(&job.new.board.terminals, code, |it| &it.code);
    let Subject::Terminal(code) = &change.subject else { return Judged::NoWork };
    let nothing = Value::Conductor(None);
    let was = change.before.as_ref().unwrap_or(&nothing);
    let Some(now) = change.after.as_ref() else { return Judged::Unknown };
    if was == now {
        return Judged::NoWork;
    }
    let swapped = job.after.iter().find_map(|(subject, theirs)| match subject {
        Subject::Terminal(other) if other != code => {
            let theirs_before = job.before.get(subject).unwrap_or(&nothing);
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
fn plugged(job: &Compared<'_>, plug: Plug) -> Option<Mistake> {
    let (new, board) = (job.new, job.new.board);
    let was = job.before.get(&Subject::Header(plug))?.to_string();
    let into: HeaderId = named(&board.headers, &was, |it| &it.code)?;
    let (device, own) = plugs::device_of(new, plug)?;
    if board[into].socket != board[own.header].socket {
        return None;
    }
    let Some((other, there)) = new.wiring.devices.entries().find(|(_, it)| it.header == into)
    else {
        return Some(Mistake::Plug { device, into });
    };
    let theirs = job.before.get(&Subject::Header(there.fitted));
    let both = theirs == job.after.get(&Subject::Header(plug)) && theirs.is_some();
    both.then(|| Mistake::PlugsSwapped([device.min(other), device.max(other)]))
}

/// A plug that is as it was: with its wires where they were, or the other way round because the key of its
/// header is. A plug that has a quarter turn to make, or another header to go to, tells so itself.
fn cord(job: &Compared<'_>, plug: Plug) -> Judged {
    let Some((device, _)) = plugs::device_of(job.new, plug) else { return Judged::NoWork };
    let fit = match plugs::fit(job.old, job.new, plug) {
        None => return Judged::NoWork,
        Some(PlugFit::Other) => return Judged::Unknown,
        Some(PlugFit::Rewired(rewiring)) => CordFit::Rearranged(rewiring.cavities),
        Some(PlugFit::AsItIs) => {
            match plugs::turn(job.old, job.new, plug, &job.header_before(plug)) {
                Some((2, _)) => CordFit::Turned,
                _ => return Judged::NoWork,
            }
        }
    };
    Judged::As(Mistake::Cord { device, fit })
}

/// The thing with this name.
fn named<H: Handle, T>(things: &[T], name: &str, name_of: impl Fn(&T) -> &String) -> Option<H> {
    things.iter().position(|thing| name_of(thing) == name).map(H::new)
}
