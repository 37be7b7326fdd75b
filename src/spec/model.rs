//! The language as types: what was written, nothing decided, no name resolved.
//!
//! Two specifications are equal if they say the same, wherever it stands in their files.

use super::fields::{Field, Section};
use super::wording::Wording;
use crate::geometry::{Point, Side, Size};
use crate::source::{Span, Spanned};
use crate::units::{Amps, Length, Volts, Watts};

/// A name or word with its place.
pub type Name = Spanned<String>;

/// A whole specification.
#[derive(Clone, Debug, PartialEq)]
pub struct Spec {
    /// `board`.
    pub about: About,
    /// `parts`.
    pub parts: Section<Part>,
    /// `terminals`.
    pub terminals: Section<Terminal>,
    /// `links`.
    pub links: Section<Link>,
    /// `supplies`.
    pub supplies: Section<Supply>,
    /// `electronics`.
    pub electronics: Field<Electronics>,
    /// `groups`.
    pub groups: Section<Group>,
    /// `jumpers`.
    pub jumpers: Section<Jumper>,
    /// `fuses`.
    pub fuses: Section<Fuse>,
    /// `sockets`.
    pub sockets: Section<Socket>,
    /// `devices`: roles that the language lacks.
    pub devices: Section<OwnDevice>,
    /// `headers`.
    pub headers: Section<Header>,
    /// `heater`.
    pub heater: Field<Heater>,
    /// `layouts`.
    pub layouts: Layouts,
    /// `switches`.
    pub switches: Section<Bank>,
    /// `selectors`.
    pub selectors: Section<Selector>,
    /// `panels`.
    pub panels: Section<Panel>,
    /// `accepted`: codes of warnings, and why.
    pub accepted: Field<Vec<(Name, Name)>>,
}

/// What is printed on the board.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct About {
    /// `name`.
    pub name: Field<String>,
    /// `maker`.
    pub maker: Field<String>,
    /// `part`.
    pub part: Field<String>,
    /// `revision`.
    pub revision: Field<String>,
    /// `dated`, not yet read as a date.
    pub dated: Field<String>,
    /// `summary`.
    pub summary: Field<Wording>,
    /// `max current`.
    pub max_current: Field<Amps>,
    /// `designators`, the name of a standard.
    pub designators: Field<String>,
    /// `letters`: kinds of things, and what their codes begin with.
    pub letters: Field<Vec<(Name, Name)>>,
}

/// One of `parts`.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// Its name.
    pub name: Name,
    /// `title`.
    pub title: Field<Wording>,
    /// `size`, mm.
    pub size: Field<Size>,
    /// `at`, mm on the drawing.
    pub at: Field<Point>,
}

/// Where a thing sits.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// `part`.
    pub part: Field<String>,
    /// `at`, mm from the part's top left corner.
    pub at: Field<Point>,
}

/// One of `terminals`.
#[derive(Clone, Debug, PartialEq)]
pub struct Terminal {
    /// Its designator.
    pub name: Name,
    /// `part` and `at`.
    pub place: Place,
    /// `wire`: a colour's word or letters.
    pub wire: Field<String>,
    /// `ground`.
    pub ground: Field<bool>,
}

/// One of `links`.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// Its designator.
    pub name: Name,
    /// `part` and `at`.
    pub place: Place,
    /// `joins`: terminals.
    pub joins: Field<Vec<Name>>,
    /// `shipped`: a terminal.
    pub shipped: Field<String>,
}

/// One of `supplies`.
#[derive(Clone, Debug, PartialEq)]
pub struct Supply {
    /// Its name.
    pub name: Name,
    /// `title`.
    pub title: Field<Wording>,
    /// `system`, not yet read.
    pub system: Field<String>,
    /// `lands`: terminal to conductor.
    pub lands: Field<Vec<(Name, Name)>>,
    /// `links`: link to terminal.
    pub links: Field<Vec<(Name, Name)>>,
    /// `max current`.
    pub max_current: Field<Amps>,
}

/// `electronics`: what the board itself lives on.
#[derive(Clone, Debug, PartialEq)]
pub struct Electronics {
    /// `between`: terminals or links.
    pub between: Field<Vec<Name>>,
}

/// One of `devices`.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnDevice {
    /// Its word, wherever a device is named.
    pub name: Name,
    /// `motor`.
    pub motor: Field<bool>,
    /// `continuous`: it can run for three hours or more.
    pub continuous: Field<bool>,
    /// `counts for allowance`: it is held back while the heater is on.
    pub counts_for_allowance: Field<bool>,
    /// `moves water`: past the heater.
    pub moves_water: Field<bool>,
    /// `runs with`: the device that it always runs with.
    pub runs_with: Field<String>,
    /// `cord of`: the device whose further cord it is.
    pub cord_of: Field<String>,
}

/// One of `groups`.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// Its letter.
    pub name: Name,
    /// `part` and `at`.
    pub place: Place,
    /// `tabs`.
    pub tabs: Field<u8>,
    /// `between`: terminals or links.
    pub between: Field<Vec<Name>>,
    /// `volts`.
    pub volts: Field<Volts>,
    /// `isolated`.
    pub isolated: Field<Volts>,
}

/// One of `jumpers`.
#[derive(Clone, Debug, PartialEq)]
pub struct Jumper {
    /// Its designator.
    pub name: Name,
    /// `part` and `at`.
    pub place: Place,
    /// `groups`.
    pub groups: Field<Vec<Name>>,
    /// `shipped`: a group.
    pub shipped: Field<String>,
}

/// One of `fuses`.
#[derive(Clone, Debug, PartialEq)]
pub struct Fuse {
    /// Its designator.
    pub name: Name,
    /// `part` and `at`.
    pub place: Place,
    /// `rating`.
    pub rating: Field<Amps>,
    /// `speed`.
    pub speed: Field<String>,
}

/// One of `sockets`.
#[derive(Clone, Debug, PartialEq)]
pub struct Socket {
    /// Its name.
    pub name: Name,
    /// `title`.
    pub title: Field<Wording>,
    /// `pitch`.
    pub pitch: Field<Length>,
    /// `key drawn`.
    pub key_drawn: Field<Side>,
    /// `pins`: words of functions.
    pub pins: Field<Vec<Name>>,
    /// `wires`: the colours of the cord that brings a wire to every pin.
    pub wires: Field<Vec<Name>>,
    /// `one speed wires`: the colours of the cord for one speed, which has no wire for *low*.
    pub one_speed_wires: Field<Vec<Name>>,
}

/// One of `headers`.
#[derive(Clone, Debug, PartialEq)]
pub struct Header {
    /// Its designator.
    pub name: Name,
    /// `title`.
    pub title: Field<Wording>,
    /// `part` and `at`.
    pub place: Place,
    /// `socket`.
    pub socket: Field<String>,
    /// `key`.
    pub key: Field<Side>,
    /// `group`.
    pub group: Field<String>,
    /// `jumper`.
    pub jumper: Field<String>,
    /// `fuse`.
    pub fuse: Field<String>,
    /// `max`.
    pub max: Field<Amps>,
    /// `serves`.
    pub serves: Field<Serves>,
}

/// What a header serves.
#[derive(Clone, Debug, PartialEq)]
pub enum Serves {
    /// A device, under every layout.
    Always(Name),
    /// Ranges of layouts, and the device under each.
    Under(Vec<(Name, Name)>),
}

/// `heater`.
#[derive(Clone, Debug, PartialEq)]
pub struct Heater {
    /// `watts`.
    pub watts: Field<Watts>,
    /// `at volts`.
    pub at: Field<Volts>,
}

/// `layouts`, in the file or in a table of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Layouts {
    /// Words of devices.
    pub columns: Field<Vec<Name>>,
    /// The rows.
    pub rows: Section<Row>,
}

/// A row of the layout matrix.
#[derive(Clone, Debug)]
pub struct Row {
    /// Its number; `None` if it could not be read.
    pub number: Option<Spanned<u8>>,
    /// Its entries; `None` if they could not be read.
    pub cells: Option<Vec<Name>>,
    /// All of its entries.
    pub span: Span,
}

/// Equal rows are equal wherever they stand.
impl PartialEq for Row {
    fn eq(&self, other: &Self) -> bool {
        self.number == other.number && self.cells == other.cells
    }
}

/// One of `switches`.
#[derive(Clone, Debug, PartialEq)]
pub struct Bank {
    /// Its designator.
    pub name: Name,
    /// `part` and `at`.
    pub place: Place,
    /// `on side`.
    pub on_side: Field<Side>,
    /// `ways`.
    pub ways: Section<Ways>,
}

/// One or more ways of a bank.
#[derive(Clone, Debug, PartialEq)]
pub struct Ways {
    /// `3` or `1-2`.
    pub name: Name,
    /// What they are for.
    pub purpose: Use,
}

/// What ways are for.
#[derive(Clone, Debug, PartialEq)]
pub enum Use {
    /// `unused`.
    Nothing,
    /// It could not be read, and was reported.
    Unread,
    /// A field with its settings.
    Field(Box<SwitchField>),
}

/// A field of ways.
#[derive(Clone, Debug, PartialEq)]
pub struct SwitchField {
    /// `effect`, not yet read.
    pub effect: Field<String>,
    /// `title`.
    pub title: Field<Wording>,
    /// `settings`: positions to meaning, in the file or in a table of its own.
    pub settings: Field<Vec<(Name, Spanned<Wording>)>>,
    /// `when off`.
    pub when_off: Field<Wording>,
    /// `when on`.
    pub when_on: Field<Wording>,
    /// `shipped`: positions.
    pub shipped: Field<String>,
}

/// One of `selectors`: a rotary selector.
#[derive(Clone, Debug, PartialEq)]
pub struct Selector {
    /// Its designator.
    pub name: Name,
    /// `part` and `at`.
    pub place: Place,
    /// `positions`: what is printed at each, and the layout that it sets; clockwise from the top.
    pub positions: Field<Vec<(Name, Name)>>,
    /// `shipped`: a position.
    pub shipped: Field<String>,
}

/// One of `panels`.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// Its name.
    pub name: Name,
    /// `title`.
    pub title: Field<Wording>,
    /// `choose layout`: Markdown.
    pub choose_layout: Field<Wording>,
}
