//! Roles that a board can drive.

use std::fmt;

/// A role that the board can drive.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Device {
    /// The water heater.
    Heater,
    /// A pump that only circulates: small, one speed, its own column in the layout matrix.
    Circulation,
    /// A jet pump with its number, from 1.
    Pump(u8),
    /// An air blower.
    Blower,
    /// An ozone generator.
    Ozonator,
    /// A light.
    Light,
    /// A sound system.
    Sound,
}

impl Device {
    /// Reads the word of the specification language: `circulation`, `pump 2`, `blower` …
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "heater" => Some(Device::Heater),
            "circulation" => Some(Device::Circulation),
            "blower" => Some(Device::Blower),
            "ozonator" => Some(Device::Ozonator),
            "light" => Some(Device::Light),
            "sound" => Some(Device::Sound),
            _ => {
                let number: u8 = text.strip_prefix("pump ")?.parse().ok()?;
                (1..=9).contains(&number).then_some(Device::Pump(number))
            }
        }
    }

    /// As it stands in a sentence: `the blower`, `pump 2`.
    pub fn the(self) -> String {
        match self {
            Device::Pump(_) => self.to_string(),
            Device::Circulation => "the circulation pump".to_owned(),
            Device::Sound => "the sound system".to_owned(),
            _ => format!("the {self}"),
        }
    }

    /// Whether it moves the water that the heater waits for. If several do, the board runs the first
    /// of them for the heater (common practice, no source).
    pub fn moves_water(self) -> bool {
        matches!(self, Device::Circulation | Device::Pump(_))
    }

    /// Whether it is a motor that may run on high while the heater is on only within the heater
    /// allowance: a jet pump or a blower.
    pub fn counts_for_allowance(self) -> bool {
        matches!(self, Device::Pump(_) | Device::Blower)
    }
}

/// The word of the specification language, which is also the word on the sheets.
impl fmt::Display for Device {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Device::Heater => f.write_str("heater"),
            Device::Circulation => f.write_str("circulation"),
            Device::Pump(number) => write!(f, "pump {number}"),
            Device::Blower => f.write_str("blower"),
            Device::Ozonator => f.write_str("ozonator"),
            Device::Light => f.write_str("light"),
            Device::Sound => f.write_str("sound"),
        }
    }
}

/// An entry of the layout matrix.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Speeds {
    /// 0: not fitted.
    None,
    /// 1: one speed.
    One,
    /// 2: two speeds, low and high.
    Two,
}

impl Speeds {
    /// Reads `0`, `1` or `2`.
    pub fn parse(text: &str) -> Option<Self> {
        match text {
            "0" => Some(Speeds::None),
            "1" => Some(Speeds::One),
            "2" => Some(Speeds::Two),
            _ => None,
        }
    }

    /// 0, 1 or 2.
    pub fn number(self) -> u8 {
        match self {
            Speeds::None => 0,
            Speeds::One => 1,
            Speeds::Two => 2,
        }
    }
}
