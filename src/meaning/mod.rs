//! What a specification says, apart from how it is written: one *fact* for each thing that a person
//! could have written otherwise, under a key that says of what it is a fact.
//!
//! Order, comments, spelling of YAML and what is left out because it is the default make no
//! difference. Two specifications with the same facts give the same sheets; the content mark is made
//! from them ([`crate::mark`]).

mod board;
mod job;
mod value;

pub use board::of_board;
pub use job::of_job;
pub use value::{Value, code, positions_words, text};

use std::collections::BTreeMap;
use std::fmt;

macro_rules! words {
    ($(#[$enum_doc:meta])* $name:ident: $($(#[$doc:meta])* $variant:ident = $word:literal,)*) => {
        $(#[$enum_doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$doc])* $variant,)*
        }

        impl $name {
            /// All of them.
            pub const ALL: &'static [$name] = &[$($name::$variant,)*];

            /// The word of the specification language for it, or one made after it.
            pub fn word(self) -> &'static str {
                match self {
                    $($name::$variant => $word,)*
                }
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(self.word())
            }
        }
    };
}

words! {
    /// What a fact is about.
    Kind:
    /// The board as a whole.
    Board = "board",
    /// A device of the board's own.
    Device = "device",
    /// A circuit board of it.
    Part = "part",
    /// A terminal of the supply.
    Terminal = "terminal",
    /// A link.
    Link = "link",
    /// A supply.
    Supply = "supply",
    /// What feeds the board itself.
    Electronics = "electronics",
    /// A group.
    Group = "group",
    /// A jumper.
    Jumper = "jumper",
    /// A fuse.
    Fuse = "fuse",
    /// A connector type.
    Socket = "socket",
    /// A header.
    Header = "header",
    /// The heater's element.
    Heater = "heater",
    /// A layout.
    Layout = "layout",
    /// A switch bank.
    Bank = "bank",
    /// Switches of a bank that mean something together.
    Switches = "switches",
    /// A rotary selector.
    Selector = "selector",
    /// A panel.
    Panel = "panel",
    /// A job as a whole.
    Job = "job",
    /// A device of a job, by its place in the list.
    Equipment = "equipment",
}

words! {
    /// What a fact says of it.
    Property:
    /// The name that people know it by.
    Name = "name",
    /// Who makes it.
    Maker = "maker",
    /// The part number.
    PartNumber = "part number",
    /// The letter of the revision.
    Revision = "revision",
    /// Its date.
    Dated = "dated",
    /// A line about it.
    Summary = "summary",
    /// Whether a device has a motor.
    Motor = "motor",
    /// Whether it can run for three hours or more.
    Continuous = "continuous",
    /// Whether the heater allowance counts it.
    Counted = "counts for allowance",
    /// Whether it moves the water that the heater waits for.
    MovesWater = "moves water",
    /// The device that it runs with.
    RunsWith = "runs with",
    /// The device that it is a further cord of.
    CordOf = "cord of",
    /// The letters that labels begin with.
    Designators = "designators",
    /// The highest current.
    MaxCurrent = "max current",
    /// What it is called on sheets.
    Title = "title",
    /// Width and height.
    Size = "size",
    /// Where it is.
    At = "at",
    /// The circuit board that it is on.
    On = "part",
    /// The color of the wire.
    Wire = "wire",
    /// Whether it is for the ground wire.
    Ground = "ground",
    /// What it can be moved between, or connects.
    Between = "between",
    /// Where it is when it leaves the factory.
    Shipped = "shipped",
    /// The kind and voltage of the supply.
    System = "system",
    /// The supply wire on a terminal.
    Lands = "lands",
    /// The terminal that a link is set to.
    Links = "links",
    /// How many jumpers have room.
    Tabs = "tabs",
    /// The voltage.
    Volts = "volts",
    /// Whether a unit of its own feeds it.
    Isolated = "isolated",
    /// The groups that a jumper may be on.
    Groups = "groups",
    /// The rating of a fuse.
    Rating = "rating",
    /// The kind of a fuse.
    Speed = "speed",
    /// From pin to pin.
    Pitch = "pitch",
    /// The side of the key in the list of pins.
    KeyDrawn = "key drawn",
    /// The pins in their order.
    Pins = "pins",
    /// The colors of the wires in its plug.
    Wires = "wires",
    /// The connector type.
    Socket = "socket",
    /// The side of the key.
    Key = "key",
    /// What feeds it.
    Feed = "feed",
    /// The fuse in front of it.
    Fuse = "fuse",
    /// What it runs under a layout.
    Serves = "serves",
    /// The power.
    Watts = "watts",
    /// The speeds of a device.
    Speeds = "speeds",
    /// The edge where switches are on.
    OnSide = "on side",
    /// What switches do together.
    Effect = "effect",
    /// What a combination means.
    Setting = "setting",
    /// The layout that a position stands for.
    Position = "position",
    /// How the layout number is entered.
    Steps = "choose layout",
    /// Whose spa it is.
    Customer = "customer",
    /// The supply of a job.
    Supply = "supply",
    /// The breaker.
    Breaker = "breaker",
    /// The length of the supply run.
    Length = "length",
    /// The temperature of the terminals.
    Terminals = "terminals",
    /// How the wires lie.
    Method = "method",
    /// The insulation of the wires.
    Insulation = "insulation",
    /// The capacity that was stated.
    Capacity = "capacity",
    /// The panel of a job.
    Panel = "panel",
    /// The rules that breakers are chosen by.
    Rules = "rules",
    /// The minimum circuit ampacity on the nameplate.
    Circuit = "circuit",
    /// The largest breaker on the nameplate.
    Largest = "largest breaker",
    /// What a device is.
    Device = "device",
    /// The current on high, or when it is on.
    HighCurrent = "amps high",
    /// The current on low.
    LowCurrent = "amps low",
    /// What the cord is like.
    Cord = "cord",
    /// The power factor.
    PowerFactor = "power factor",
}

/// Whom a difference concerns.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Concern {
    /// Who wires or sets the board: the wiring is another.
    Wiring,
    /// Who reads the sheets: the words are others.
    Words,
    /// Who looks for a thing on the board: the drawing is another.
    Drawing,
    /// Who keeps the sheets: revision and date.
    Record,
}

impl Property {
    /// Whom it concerns if this is another.
    pub fn concern(self) -> Concern {
        use Property as P;
        match self {
            P::Revision | P::Dated => Concern::Record,
            P::Name | P::Maker | P::PartNumber | P::Summary | P::Title | P::Designators => {
                Concern::Words
            }
            P::Steps | P::Customer => Concern::Words,
            P::Size | P::At | P::On | P::Pitch => Concern::Drawing,
            _ => Concern::Wiring,
        }
    }
}

/// What a fact is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Thing {
    /// What it is.
    pub kind: Kind,
    /// Its label or name; empty where there is one of its kind alone.
    pub name: String,
}

/// Which fact of a thing.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Which {
    /// What it says.
    pub property: Property,
    /// Of several, which: a terminal of a supply, a device of a layout, positions of switches.
    pub of: String,
}

/// All facts of a specification, by what they are about.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Meaning(BTreeMap<Thing, BTreeMap<Which, Value>>);

impl Meaning {
    /// The facts of each thing, things and facts in their order.
    pub fn things(&self) -> impl Iterator<Item = (&Thing, &BTreeMap<Which, Value>)> {
        self.0.iter()
    }

    /// The facts of a thing.
    pub fn of(&self, thing: &Thing) -> Option<&BTreeMap<Which, Value>> {
        self.0.get(thing)
    }

    /// One line for each fact, as text that is the same wherever it is made.
    pub fn lines(&self) -> String {
        let mut out = String::new();
        for (thing, facts) in &self.0 {
            for (which, value) in facts {
                let parts = [thing.kind.word(), &thing.name, which.property.word(), &which.of]
                    .map(line_part);
                out.push_str(&parts.join("\t"));
                out.push('\t');
                out.push_str(&line_part(&value.to_string()));
                out.push('\n');
            }
        }
        out
    }

    /// Begins the facts of a thing.
    fn thing(&mut self, kind: Kind, name: impl Into<String>) -> Facts<'_> {
        Facts(self.0.entry(Thing { kind, name: name.into() }).or_default())
    }
}

/// The number of a layout without the zeros that sort it among others.
pub fn unpadded(number: &str) -> &str {
    number.trim_start_matches('0')
}

/// A text without what parts lines, so that no two sets of facts have the same lines.
fn line_part(text: &str) -> String {
    text.replace('\\', "\\\\").replace('\t', "\\t").replace('\n', "\\n")
}

/// The facts of a thing, as they are gathered.
struct Facts<'a>(&'a mut BTreeMap<Which, Value>);

impl Facts<'_> {
    fn say(&mut self, property: Property, value: impl Into<Value>) -> &mut Self {
        self.say_of(property, "", value)
    }

    fn say_of(
        &mut self,
        property: Property,
        of: impl Into<String>,
        value: impl Into<Value>,
    ) -> &mut Self {
        self.0.insert(Which { property, of: of.into() }, value.into());
        self
    }

    /// Says it if it is there.
    fn may(&mut self, property: Property, value: Option<impl Into<Value>>) -> &mut Self {
        if let Some(value) = value {
            self.say(property, value);
        }
        self
    }
}
