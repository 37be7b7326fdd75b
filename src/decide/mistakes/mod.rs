//! What happens if somebody gets one thing wrong.
//!
//! From a plan that is right, every single mistake that a person can make is made, the board with
//! it is computed, and what differs is put into a small closed list of [`Sign`]s. Turned round, that
//! is the fault finder ([`super::faults`]).

mod as_built;
mod bound;
mod circuit;
mod combinations;
mod cords;
mod device_circuit;
mod device_load;
mod draws;
mod electronics;
mod pairs;
mod sign;
mod signs;
mod simulate;
mod single;
mod state;

#[cfg(test)]
mod tests;

pub use as_built::{AsBuilt, CordAt, NeutralPath};
pub use cords::{Cavities, CordFit};
pub use pairs::{Pair, pairs};
pub use sign::{Danger, Heat, House, Limit, Observation, Sign, Trip, unnoticed, worst};
pub use signs::signs;
pub use simulate::{Simulation, simulate};
pub use single::single_mistakes;
pub use state::{
    Command, DeviceState, Loads, Measured, Metal, Power, Range, RoleState, Run, State,
};

use super::{DeviceId, LayoutChoice, Wiring};
use crate::board::{
    BankId, Board, Conductor, GroupId, HeaderId, Job, JumperId, LayoutEntry, LayoutNumber, LinkId,
    Meaning, SelectorId, SupplyId, TerminalId,
};
use draws::Asked;
use signs::Right;

/// A job with its sound plan: the right case that mistakes are made from.
#[derive(Clone, Copy, Debug)]
pub struct PlannedCase<'a> {
    /// The board.
    pub board: &'a Board,
    /// The job.
    pub job: &'a Job,
    /// Its layout.
    pub layout: &'a LayoutChoice,
    /// What follows from it.
    pub wiring: &'a Wiring,
}

impl<'a> PlannedCase<'a> {
    /// `decided` is what [`super::Plan::sound`] gives: mistakes on anything else would mean nothing.
    pub fn new(
        board: &'a Board,
        job: &'a Job,
        (layout, wiring): (&'a LayoutChoice, &'a Wiring),
    ) -> Self {
        Self { board, job, layout, wiring }
    }
}

/// One thing that a person gets wrong. A device is one of [`Wiring::devices`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Mistake {
    /// This layout number is entered.
    Layout(LayoutNumber),
    /// A rotary selector is at another of its positions.
    Selector {
        /// The selector.
        selector: SelectorId,
        /// Which of its positions.
        position: usize,
    },
    /// A jumper is on this group.
    Jumper {
        /// The jumper.
        jumper: JumperId,
        /// Where it is.
        on: GroupId,
    },
    /// Each of two jumpers is where the other belongs.
    JumpersSwapped([JumperId; 2]),
    /// A plug is in a header that must stay empty.
    Plug {
        /// The device whose plug it is.
        device: DeviceId,
        /// The header.
        into: HeaderId,
    },
    /// Each of two plugs is where the other belongs.
    PlugsSwapped([DeviceId; 2]),
    /// A way stands the other way round.
    Way {
        /// The bank.
        bank: BankId,
        /// The way, from 1.
        way: u8,
    },
    /// Nobody set a bank of which more than one way must be moved.
    BankAsShipped(BankId),
    /// The house gives this supply, and it is landed as the board asks for it; all else is left.
    Supply(SupplyId),
    /// Two lines of the supply are taken from one line of the house, as from two poles that are side by
    /// side on one bar: there is no voltage between them, and the neutral carries the sum.
    SameLine([Conductor; 2]),
    /// The spa's neutral is on a neutral bar, not on the ground-fault protection.
    NeutralPast,
    /// The neutral touches the ground at the spa, behind the protection.
    NeutralGrounded,
    /// The conductor of this terminal is not landed.
    Missing(TerminalId),
    /// The conductors of two terminals have changed places.
    Swapped([TerminalId; 2]),
    /// A link is on this terminal.
    Link {
        /// The link.
        link: LinkId,
        /// Where it is.
        on: TerminalId,
    },
    /// The wires of a cord do not meet their pins.
    Cord {
        /// The device whose cord it is.
        device: DeviceId,
        /// How they lie instead.
        fit: CordFit,
    },
}

/// A mistake and what comes of it.
#[derive(Clone, Debug)]
pub struct Consequence {
    /// The mistake.
    pub mistake: Mistake,
    /// What the board then does.
    pub state: State,
    /// What tells it from the right state, the most dangerous first. Never empty.
    pub signs: Vec<Observation>,
}

impl Consequence {
    /// The worst of it.
    pub fn danger(&self) -> Danger {
        worst(&self.signs)
    }

    /// Whether there is a house in which nothing of it is noticed by who uses the spa.
    pub fn unnoticed(&self) -> bool {
        unnoticed(&self.signs)
    }
}

impl Mistake {
    /// The layout that is set instead, where it is one about the layout number; the inner `None` says
    /// that none is.
    pub fn layout(self, planned: &PlannedCase<'_>) -> Option<Option<LayoutNumber>> {
        let board = planned.board;
        match (self, board.layout_entry()) {
            (Mistake::Layout(number), _) => Some(Some(number)),
            (Mistake::Selector { selector, position }, _) => {
                Some(board[selector].positions.get(position)?.layout)
            }
            (Mistake::Way { bank, way }, LayoutEntry::Ways { bank: ours, field })
                if bank == ours =>
            {
                let it = board[bank].fields.get(field)?;
                if !(it.first..=it.last).contains(&way) {
                    return None;
                }
                let built = AsBuilt::as_planned(planned).with(planned, self);
                match built.meaning(board, bank, field)? {
                    Meaning::Layout(number) => Some(*number),
                    _ => None,
                }
            }
            _ => None,
        }
    }

    /// How common it is, 0 for what happens most. Common practice, without a source: what a person
    /// does not know to do (the layout's column for a circulation pump, a jumper that is shipped on
    /// the other group) is got wrong more often than what the hand or the eye would notice.
    pub fn rarity(self, planned: &PlannedCase<'_>) -> u8 {
        let but_for_circulation = planned.layout.but_for_circulation;
        if let Some(number) = self.layout(planned) {
            return u8::from(number.is_none() || number != but_for_circulation);
        }
        match self {
            Mistake::Jumper { jumper, on } if planned.board[jumper].shipped == on => 0,
            Mistake::Plug { .. } | Mistake::Layout(_) | Mistake::Selector { .. } => 1,
            Mistake::BankAsShipped(_) => 1,
            Mistake::Cord { fit: CordFit::Turned | CordFit::Closed | CordFit::Out, .. } => 1,
            Mistake::NeutralPast => 1,
            Mistake::NeutralGrounded | Mistake::SameLine(_) => 2,
            Mistake::Way { .. } | Mistake::PlugsSwapped(_) | Mistake::Jumper { .. } => 2,
            Mistake::Supply(_) | Mistake::Link { .. } | Mistake::JumpersSwapped(_) => 2,
            Mistake::Cord { .. } | Mistake::Missing(_) | Mistake::Swapped(_) => 3,
        }
    }
}

/// Every single mistake that changes anything, with what comes of it: what is dangerous and nobody
/// notices comes first, then by danger, then what is common, then in the order of the board.
pub fn consequences(planned: &PlannedCase<'_>) -> Vec<Consequence> {
    in_order(&mut Simulation::new(planned), planned, Asked::All)
}

/// The same mistakes in the same order, with what tells each: loads that show nothing are not found.
/// `simulation` is of any job on the board and goes on with this one.
pub fn noticed<'a>(
    simulation: &mut Simulation<'a>,
    planned: &PlannedCase<'a>,
) -> Vec<(Mistake, Vec<Observation>)> {
    simulation.go_on(planned);
    let all = in_order(simulation, planned, Asked::Above(signs::least_that_shows(planned)));
    all.into_iter().map(|found| (found.mistake, found.signs)).collect()
}

fn in_order(
    simulation: &mut Simulation<'_>,
    planned: &PlannedCase<'_>,
    asked: Asked,
) -> Vec<Consequence> {
    let built = AsBuilt::as_planned(planned);
    let before = simulation.state_with(&built, asked);
    let right = Right::new(planned, &built, &before);
    let mut all: Vec<Consequence> = single_mistakes(planned)
        .into_iter()
        .filter_map(|mistake| {
            let after = built.with(planned, mistake);
            let state = simulation.state_with(&after, asked);
            let signs = right.signs(&after, &state);
            (!signs.is_empty()).then_some(Consequence { mistake, state, signs })
        })
        .collect();
    all.sort_by_cached_key(|found| {
        let hidden = found.unnoticed() && found.danger() > Danger::None;
        (!hidden, std::cmp::Reverse(found.danger()), found.mistake.rarity(planned))
    });
    all
}

/// What comes of one mistake; `None` if nothing does.
pub fn consequence(
    planned: &PlannedCase<'_>,
    built: &AsBuilt,
    before: &State,
    mistake: Mistake,
) -> Option<Consequence> {
    let after = built.with(planned, mistake);
    let state = simulate(planned, &after);
    let signs = signs::signs(planned, (built, before), (&after, &state));
    (!signs.is_empty()).then_some(Consequence { mistake, state, signs })
}
