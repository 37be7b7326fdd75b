//! What a fact says.

use std::fmt;

use crate::board::{Conductor, Device, Pin, Speeds, System, WireColour};
use crate::geometry::{Point, Side, Size};
use crate::units::{Amps, Length, Volts, Watts, shortest};

/// What a fact says.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Words for readers, as they are written.
    Text(String),
    /// A label or name, or a word of the specification language.
    Code(String),
    /// Several of these, in the order that counts or sorted.
    Codes(Vec<String>),
    /// A current.
    Amps(Amps),
    /// A voltage.
    Volts(Volts),
    /// A power.
    Watts(Watts),
    /// A length, mm.
    Length(Length),
    /// A place, mm.
    At(Point),
    /// Width and height, mm.
    Size(Size),
    /// An edge.
    Side(Side),
    /// Yes or no.
    Flag(bool),
    /// A whole number.
    Number(u32),
    /// A number without a unit.
    Factor(f64),
    /// A device.
    Device(Device),
    /// Speeds, or that it is not installed.
    Speeds(Speeds),
    /// The color of a wire.
    Color(WireColour),
    /// A conductor, or that nothing is connected.
    Conductor(Option<Conductor>),
    /// The kind of a supply.
    System(System),
    /// Pins in their order.
    Pins(Vec<Pin>),
    /// Switches, on or off.
    Positions(Vec<bool>),
}

macro_rules! from {
    ($($of:ty => $variant:ident;)*) => {$(
        impl From<$of> for Value {
            fn from(value: $of) -> Self {
                Value::$variant(value)
            }
        }
    )*};
}

from! {
    Vec<String> => Codes;
    Amps => Amps;
    Volts => Volts;
    Watts => Watts;
    Length => Length;
    Point => At;
    Size => Size;
    Side => Side;
    bool => Flag;
    u32 => Number;
    f64 => Factor;
    Device => Device;
    Speeds => Speeds;
    WireColour => Color;
    Option<Conductor> => Conductor;
    System => System;
    Vec<Pin> => Pins;
    Vec<bool> => Positions;
}

/// Words for readers.
pub fn text(words: &str) -> Value {
    Value::Text(words.to_owned())
}

/// A label, a name or a word of the language.
pub fn code(code: impl fmt::Display) -> Value {
    Value::Code(code.to_string())
}

/// The same for every machine and language: numbers to a ten thousandth, units as they are written.
impl fmt::Display for Value {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let number = |value: f64| shortest(value, 4);
        match self {
            Value::Text(text) | Value::Code(text) => f.write_str(text),
            Value::Codes(codes) => f.write_str(&codes.join(", ")),
            Value::Amps(Amps(value)) => write!(f, "{} A", number(*value)),
            Value::Volts(Volts(value)) => write!(f, "{} V", number(*value)),
            Value::Watts(Watts(value)) => write!(f, "{} W", number(*value)),
            Value::Length(Length(value)) => write!(f, "{} mm", number(*value)),
            Value::At(Point { x, y }) => write!(f, "{}, {} mm", number(*x), number(*y)),
            Value::Size(Size { width, height }) => {
                write!(f, "{} mm by {} mm", number(*width), number(*height))
            }
            Value::Side(side) => f.write_str(side.word()),
            Value::Flag(flag) => f.write_str(if *flag { "yes" } else { "no" }),
            Value::Number(value) => value.fmt(f),
            Value::Factor(value) => f.write_str(&number(*value)),
            Value::Device(device) => device.fmt(f),
            Value::Speeds(speeds) => speeds.number().fmt(f),
            Value::Color(colour) => f.write_str(colour.letters),
            Value::Conductor(Some(conductor)) => conductor.fmt(f),
            Value::Conductor(None) => f.write_str("none"),
            Value::System(system) => {
                let (word, Volts(volts)) = match system {
                    System::SplitPhase { to_neutral } => ("split-phase", to_neutral),
                    System::Wye { to_neutral } => ("wye", to_neutral),
                    System::SinglePhase { to_neutral } => ("single-phase", to_neutral),
                };
                write!(f, "{word}, {} V to neutral", number(*volts))
            }
            Value::Pins(pins) => {
                let words: Vec<String> = pins.iter().map(ToString::to_string).collect();
                f.write_str(&words.join(", "))
            }
            Value::Positions(positions) => f.write_str(&positions_words(positions)),
        }
    }
}

/// `on off on`.
pub fn positions_words(positions: &[bool]) -> String {
    let words: Vec<&str> = positions.iter().map(|on| if *on { "on" } else { "off" }).collect();
    words.join(" ")
}
