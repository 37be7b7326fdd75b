//! All that is decided for a job, piece by piece, so that two plans can be compared.

use std::collections::BTreeMap;

use crate::board::{Allowance, Board, Conductor, Job, LayoutEntry, Meaning, WireColour};
use crate::decide::{DevicePlan, LayoutChoice, PinOrder, ReadFrom, WireVerdict, Wiring};
use crate::meaning::{Kind, Value, code, text};

/// The cord of a device: which of the job's equipment it is; `None` for the heater.
pub type Plug = Option<usize>;

/// What is decided, in the order in which hands do it; what is no work comes last.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// What stood where a thing that the job uses now stands.
    Place {
        /// What it is.
        kind: Kind,
        /// What stands there.
        now: String,
    },
    /// The supply wire on a terminal.
    Terminal(String),
    /// The terminal that a link is set to.
    Link(String),
    /// The rating of a fuse in use.
    Fuse(String),
    /// The group of a jumper.
    Jumper(String),
    /// What the board takes a device for.
    Device(Plug),
    /// Its header.
    Header(Plug),
    /// The connector type there.
    Connector(Plug),
    /// The pins of its cord as a person sees them; empty cavities are `-`.
    Pins(Plug),
    /// Where the reading of the pins begins.
    ReadFrom(Plug),
    /// The side that the key of its header faces.
    Key(Plug),
    /// A header that must stay empty.
    Empty(String),
    /// One switch of a bank.
    Switch {
        /// The bank.
        bank: String,
        /// Which, from 1.
        number: u8,
    },
    /// What the switches of a bank from `first` to `last` mean as they are set, where nothing else that is
    /// decided says it.
    Meaning {
        /// The bank.
        bank: String,
        /// The first switch, from 1.
        first: u8,
        /// The last.
        last: u8,
    },
    /// The position of a rotary selector.
    Selector(String),
    /// How the layout number is entered.
    Entry,
    /// The layout.
    Layout,
    /// How the thing of a subject stands as the board is shipped: a [`Subject::Link`], [`Subject::Jumper`],
    /// [`Subject::Switch`] or [`Subject::Selector`].
    Shipped(Box<Subject>),
    /// The heater allowance.
    Allowance,
    /// The group that feeds a device.
    Group(Plug),
    /// The jumper that picks its group.
    JumperOf(Plug),
    /// The fuse in front of it.
    FuseOf(Plug),
    /// What it gets.
    Volts(Plug),
    /// Its current on high, or when it is on.
    Amps(Plug),
    /// Its current on low.
    LowAmps(Plug),
    /// The colors of the wires in its plug, by their letters; cavities without one are `-`.
    Colours(Plug),
    /// What the heater gives.
    HeaterWatts,
    /// What a supply conductor carries at the worst.
    Current(Conductor),
    /// What is needed of the breaker.
    Needed,
    /// The smallest breaker that carries it.
    Smallest,
    /// The rules that it is sized by.
    Rules,
    /// What a wire of the supply run may carry.
    Capacity,
    /// Whether the wires suit.
    Wires,
    /// What is lost on the way.
    Drop,
}

impl Subject {
    /// How its thing stands as the board is shipped.
    pub fn as_shipped(&self) -> Self {
        Subject::Shipped(Box::new(self.clone()))
    }
}

/// Everything that is decided.
pub type Decisions = BTreeMap<Subject, Value>;

/// One decision that is another; at least one of the values is there.
#[derive(Clone, Debug, PartialEq)]
pub struct DecisionChange {
    /// What is decided.
    pub subject: Subject,
    /// As it was.
    pub before: Option<Value>,
    /// As it is.
    pub after: Option<Value>,
}

/// What a sound plan decides.
pub fn decisions(
    board: &Board,
    job: &Job,
    (layout, wiring): (&LayoutChoice, &Wiring),
) -> Decisions {
    let mut all = Decisions::new();
    let mut say = |subject, value: Value| {
        all.insert(subject, value);
    };
    let supply = &board[job.supply.value];
    for (terminal, conductor) in board.terminals.iter().zip(supply.lands.iter()) {
        say(Subject::Terminal(terminal.code.clone()), (*conductor).into());
    }
    for link in &wiring.links {
        let subject = Subject::Link(board[link.link].code.clone());
        say(subject.as_shipped(), code(&board[board[link.link].shipped].code));
        say(subject, code(&board[link.terminal].code));
    }
    for load in &wiring.fuses {
        let fuse = &board[load.of];
        say(Subject::Fuse(fuse.code.clone()), fuse.rating.into());
    }
    for jumper in &wiring.jumpers {
        let subject = Subject::Jumper(board[jumper.jumper].code.clone());
        say(subject.as_shipped(), code(&board[board[jumper.jumper].shipped].code));
        say(subject, code(&board[jumper.group].code));
    }
    for device in wiring.devices.iter() {
        of_device(board, device, &mut say);
    }
    for (header, _) in &wiring.empty {
        say(Subject::Empty(board[*header].code.clone()), true.into());
    }
    of_settings(board, wiring, &mut say);
    say(Subject::Entry, code(entry(board)));
    say(Subject::Layout, code(layout.number));
    of_supply(job, wiring, &mut say);
    all
}

/// Banks and the rotary selector: how they are set, and how they are shipped.
fn of_settings(board: &Board, wiring: &Wiring, say: &mut impl FnMut(Subject, Value)) {
    let decided = wiring.heater.is_some_and(|heater| heater.allowance.is_some());
    for setting in &wiring.switches {
        let bank = &board[setting.bank];
        for ((number, on), shipped) in (1..).zip(&setting.positions).zip(bank.shipped()) {
            let subject = Subject::Switch { bank: bank.code.clone(), number };
            say(subject.as_shipped(), shipped.into());
            say(subject, (*on).into());
        }
        for field in &bank.fields {
            let meaning = match field.meaning_in(&setting.positions) {
                Some(meaning @ Meaning::Words(_)) => meaning,
                Some(meaning @ Meaning::Allowance(_)) if !decided => meaning,
                _ => continue,
            };
            let (first, last) = (field.first, field.last);
            say(Subject::Meaning { bank: bank.code.clone(), first, last }, text(&meant(meaning)));
        }
    }
    if let Some(setting) = wiring.selector {
        let selector = &board[setting.selector];
        let name = |at: usize| selector.positions.get(at).map(|position| code(&position.name));
        let subject = Subject::Selector(selector.code.clone());
        if let Some(shipped) = name(selector.shipped) {
            say(subject.as_shipped(), shipped);
        }
        if let Some(position) = name(setting.position) {
            say(subject, position);
        }
    }
}

/// What switches mean, in the words of the specification.
pub fn meant(meaning: &Meaning) -> String {
    match meaning {
        Meaning::Words(words) => words.clone(),
        Meaning::Allowance(allowance) => allowance.to_string(),
        Meaning::Layout(layout) => layout.map_or_else(String::new, |number| number.to_string()),
    }
}

/// The word for how the layout number is entered.
pub fn entry(board: &Board) -> &'static str {
    match board.layout_entry() {
        LayoutEntry::Panel => "panel",
        LayoutEntry::Ways { .. } => "switches",
        LayoutEntry::Selector(_) => "selector",
    }
}

fn of_device(board: &Board, device: &DevicePlan, say: &mut impl FnMut(Subject, Value)) {
    let plug = device.fitted;
    let header = &board[device.header];
    say(Subject::Device(plug), device.device.into());
    say(Subject::Header(plug), code(&header.code));
    say(Subject::Connector(plug), code(&board[header.socket].name));
    let PinOrder { read_from, pins, colours } = &device.pins;
    let pins = pins.iter().map(|pin| pin.map_or_else(|| "-".to_owned(), |pin| pin.to_string()));
    say(Subject::Pins(plug), pins.collect::<Vec<_>>().into());
    if colours.iter().any(Option::is_some) {
        let letters = |wire: &Option<WireColour>| wire.map_or("-", |wire| wire.letters).to_owned();
        say(Subject::Colours(plug), colours.iter().map(letters).collect::<Vec<_>>().into());
    }
    let read_from = match read_from {
        ReadFrom::Top => "top",
        ReadFrom::Left => "left",
    };
    say(Subject::ReadFrom(plug), code(read_from));
    if let Some(key) = header.key {
        say(Subject::Key(plug), key.into());
    }
    say(Subject::Group(plug), code(&board[device.group].code));
    if let Some(jumper) = device.jumper {
        say(Subject::JumperOf(plug), code(&board[jumper].code));
    }
    if let Some(fuse) = device.fuse {
        say(Subject::FuseOf(plug), code(&board[fuse].code));
    }
    say(Subject::Volts(plug), device.volts.into());
    say(Subject::Amps(plug), device.amps.into());
    if let Some(low) = device.low {
        say(Subject::LowAmps(plug), low.into());
    }
}

/// What the heater gets, and what breaker and supply run carry.
fn of_supply(job: &Job, wiring: &Wiring, say: &mut impl FnMut(Subject, Value)) {
    if let Some(heater) = wiring.heater {
        say(Subject::HeaterWatts, heater.watts.into());
        match heater.allowance {
            Some(Allowance::Loads(count)) => say(Subject::Allowance, u32::from(count).into()),
            Some(Allowance::Amps(amps)) => say(Subject::Allowance, amps.into()),
            None => {}
        }
    }
    for load in &wiring.conductors {
        say(Subject::Current(load.conductor), load.amps.into());
    }
    say(Subject::Needed, wiring.breaker.needed.into());
    if let Some(smallest) = wiring.breaker.smallest {
        say(Subject::Smallest, smallest.into());
    }
    say(Subject::Rules, code(wiring.breaker.rules.rules.word()));
    if let Some(capacity) = wiring.wire.capacity {
        say(Subject::Capacity, capacity.amps.into());
    }
    if job.run.is_some() {
        let verdict = match wiring.wire.verdict {
            WireVerdict::Suits => "suits",
            WireVerdict::OnlyAt75 { .. } => "only with terminals for 75 C",
            WireVerdict::TooThin(_) => "too thin",
            WireVerdict::Unjudged(_) => "not judged",
        };
        say(Subject::Wires, code(verdict));
    }
    if let Some(run) = &wiring.run {
        say(Subject::Drop, run.drop.into());
    }
}
