//! A job made up for an exercise, and its plan.

use super::super::layout::Slot;
use super::super::mistakes::{Mistake, PlannedCase};
use super::super::plan::{DeviceId, LayoutChoice, Wiring, plan};
use super::super::rules::Rules;
use super::super::voltages::SupplyVoltages;
use super::dice::Dice;
use super::lookup::BoardLookup;
use super::plates::plate_for;
use crate::board::{
    BankId, Board, Cord, Current, CurrentSource, Device, Feed, Fitted, HeaderId, Job, JumperId,
    Layout, LayoutNumber, LinkId, Role, SocketId, Speeds, SupplyId, TerminalId,
};
use crate::source::{FileId, Span, Spanned};
use crate::units::{Amps, Volts};

/// What a header is taken to carry where the specification does not say.
const UNRATED: Amps = Amps(10.0);

/// A job and its plan, which nothing refuses.
#[derive(Clone, Debug)]
pub struct Case {
    /// The job. It stands in no file: its places mean nothing.
    pub job: Job,
    /// Its layout.
    pub layout: LayoutChoice,
    /// What follows from it.
    pub wiring: Wiring,
}

impl Case {
    /// For [`super::super::mistakes`].
    pub fn planned<'a>(&'a self, board: &'a Board) -> PlannedCase<'a> {
        PlannedCase::new(board, &self.job, (&self.layout, &self.wiring))
    }
}

/// Where a reader of the tables looks up what a mistake gets wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TableRow {
    /// A row of the layout table.
    Layout(LayoutNumber),
    /// A row of the header table.
    Header(HeaderId),
    /// A row of the jumper table.
    Jumper(JumperId),
    /// The list of pins of a connector type.
    Pins(SocketId),
    /// The settings of a whole bank.
    Bank(BankId),
    /// The settings of the field that a switch belongs to.
    Settings {
        /// The bank.
        bank: BankId,
        /// The switch, from 1.
        way: u8,
    },
    /// What the groups give under a supply.
    Supply(SupplyId),
    /// A terminal of the supply.
    Terminal(TerminalId),
    /// A link.
    Link(LinkId),
}

/// The rows that tell what a mistake gets wrong.
pub fn rows(planned: &PlannedCase<'_>, mistake: Mistake) -> Vec<TableRow> {
    let header = |device: DeviceId| planned.wiring[device].header;
    match mistake {
        Mistake::Layout(_) | Mistake::Selector { .. } => {
            vec![TableRow::Layout(planned.layout.number)]
        }
        Mistake::Jumper { jumper, .. } => vec![TableRow::Jumper(jumper)],
        Mistake::JumpersSwapped(two) => two.map(TableRow::Jumper).to_vec(),
        Mistake::Plug { device, into } => [header(device), into].map(TableRow::Header).to_vec(),
        Mistake::PlugsSwapped(two) => two.map(|device| TableRow::Header(header(device))).to_vec(),
        Mistake::Way { bank, way } => vec![TableRow::Settings { bank, way }],
        Mistake::BankAsShipped(bank) => vec![TableRow::Bank(bank)],
        Mistake::Supply(_)
        | Mistake::SameLine(_)
        | Mistake::NeutralPast
        | Mistake::NeutralGrounded => vec![TableRow::Supply(planned.job.supply.value)],
        Mistake::Missing(terminal) => vec![TableRow::Terminal(terminal)],
        Mistake::Swapped(two) => two.map(TableRow::Terminal).to_vec(),
        Mistake::Link { link, .. } => vec![TableRow::Link(link)],
        Mistake::Cord { device, .. } => {
            vec![TableRow::Pins(planned.board[header(device)].socket)]
        }
    }
}

/// A job under a supply and a layout, on a breaker that just carries one of the settings of the
/// heater allowance; `None` if what was thrown gives no sound plan.
pub fn case(
    lookup: &BoardLookup<'_>,
    supply: SupplyId,
    layout: &Layout,
    dice: &mut Dice,
) -> Option<Case> {
    let board = lookup.board;
    let equipment = equipment(lookup, supply, layout, dice)?;
    let rules = Rules::default_for(board[supply].system).rules;
    let mut job =
        Job { equipment, ..Job::bare(here(supply), here(*rules.sizes().last()?), nowhere()) };
    let first = plan(board, &job);
    let (_, wiring) = first.sound()?;
    let sizes: Vec<Amps> =
        wiring.breaker.settings.iter().filter_map(|setting| setting.smallest).collect();
    job.breaker = here(*dice.pick(&sizes)?);
    let plan = plan(board, &job);
    let (found, wiring) = plan.sound()?;
    if found.number != layout.number || !wiring.optimal {
        return None;
    }
    let (layout, wiring) = (found.clone(), wiring.clone());
    Some(Case { job, layout, wiring })
}

/// What a layout has and some of what it may have, in any order.
fn equipment(
    lookup: &BoardLookup<'_>,
    supply: SupplyId,
    layout: &Layout,
    dice: &mut Dice,
) -> Option<Vec<Fitted>> {
    let board = lookup.board;
    let slots = lookup.slots(layout.number);
    let voltages = SupplyVoltages::of(board, supply);
    let mut meant: Vec<(JumperId, Volts)> = Vec::new();
    let mut all = Vec::new();
    for slot in slots {
        if slot.device == Device::Heater || (!slot.needed && dice.below(2) == 0) {
            continue;
        }
        let volts = volts(board, &voltages, slot.header, &mut meant, dice)?;
        let plate = plate_for(volts, dice)?;
        all.push(fitted(slot, plate, limit(board, slots, slot.header), dice));
    }
    dice.shuffle(&mut all);
    Some(all)
}

/// What a header gets: of a jumper's groups any that gives something, the same for all on it.
fn volts(
    board: &Board,
    voltages: &SupplyVoltages,
    header: HeaderId,
    meant: &mut Vec<(JumperId, Volts)>,
    dice: &mut Dice,
) -> Option<Volts> {
    let Feed::Jumper(jumper) = board[header].feed else {
        let group = *board.groups_of(header).first()?;
        return voltages.volts(group);
    };
    if let Some((_, volts)) = meant.iter().find(|(other, _)| *other == jumper) {
        return Some(*volts);
    }
    let groups = board[jumper].groups.iter();
    let fed: Vec<Volts> = groups.filter_map(|group| voltages.volts(*group)).collect();
    let volts = *dice.pick(&fed)?;
    meant.push((jumper, volts));
    Some(volts)
}

/// The most that a header may be given: its own rating, and its part of the fuse in front of it.
fn limit(board: &Board, slots: &[Slot], header: HeaderId) -> Amps {
    let own = board[header].max.map_or(f64::INFINITY, |max| max.0);
    let fuse = board[header].fuse.map_or(f64::INFINITY, |fuse| {
        let sharing = slots.iter().filter(|slot| board[slot.header].fuse == Some(fuse)).count();
        board[fuse].rating.0 / sharing.max(1) as f64
    });
    let least = own.min(fuse);
    if least.is_finite() { Amps(least) } else { UNRATED }
}

/// A device whose plate says `volts`, of whole tenths of an ampere up to nine tenths of `limit`.
fn fitted(slot: &Slot, volts: Volts, limit: Amps, dice: &mut Dice) -> Fitted {
    let most = ((limit.0 * 9.0) as usize).clamp(1, 1_000_000);
    let high = dice.within(most.div_ceil(3), most);
    let low = (high * dice.within(25, 45) / 100).max(1);
    let role = match slot.device {
        Device::Pump(_) => Role::AnyPump,
        device => Role::Named(device),
    };
    Fitted {
        role,
        speeds: slot.speeds,
        volts: here(volts),
        high: plate_amps(high),
        low: (slot.speeds == Speeds::Two).then(|| plate_amps(low)),
        cord: Cord::AsMade,
        power_factor: None,
        span: nowhere(),
    }
}

fn plate_amps(tenths: usize) -> Current {
    Current { amps: Amps(tenths as f64 / 10.0), source: CurrentSource::Plate, span: nowhere() }
}

fn here<T>(value: T) -> Spanned<T> {
    Spanned::new(value, nowhere())
}

/// The place of what stands in no file.
fn nowhere() -> Span {
    Span::new(FileId(0), 0..0)
}
