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
    /// A device of the board's own.
    Own(OwnRole),
}

/// What is computed from a role. Built-in ones and a board's own answer through the same questions.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Traits {
    /// A motor: its plate may give horsepower, and on a wrong voltage it hums or burns out.
    pub motor: bool,
    /// Its current on high can flow for three hours or more. On low every device's can.
    pub continuous: bool,
    /// It may run on high while the heater is on only within the heater allowance, has a button for
    /// that, and may have two speeds.
    pub counted: bool,
    /// It moves the water that the heater waits for.
    pub moves_water: bool,
    /// It runs exactly when another one runs; which, the board says ([`super::Board::leader`]).
    pub follows: bool,
}

/// A role that the board's specification declares. It carries its word and what is computed from it,
/// because a device is named and judged in many places that know no board.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct OwnRole {
    /// Its place among the board's own.
    index: u8,
    traits: Traits,
    length: u8,
    word: [u8; OwnRole::BYTES],
}

impl OwnRole {
    /// The longest word, bytes of UTF-8: 24 letters of most scripts.
    pub const BYTES: usize = 48;

    /// A role of that word; `None` if the word is too long.
    pub fn new(index: u8, word: &str, traits: Traits) -> Option<Self> {
        let mut bytes = [0; Self::BYTES];
        bytes.get_mut(..word.len())?.copy_from_slice(word.as_bytes());
        Some(Self { index, traits, length: u8::try_from(word.len()).ok()?, word: bytes })
    }

    /// Its word, in the specification, in jobs and on sheets.
    pub fn word(&self) -> &str {
        let bytes = self.word.get(..usize::from(self.length)).unwrap_or_default();
        std::str::from_utf8(bytes).unwrap_or_default()
    }
}

impl fmt::Debug for OwnRole {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:?}, {:?}", self.word(), self.traits)
    }
}

impl Device {
    /// What is computed from it.
    pub fn traits(self) -> Traits {
        let none = Traits::default();
        match self {
            Device::Heater | Device::Ozonator => Traits { continuous: true, ..none },
            Device::Circulation => {
                Traits { motor: true, continuous: true, moves_water: true, ..none }
            }
            Device::Pump(_) => Traits { motor: true, counted: true, moves_water: true, ..none },
            Device::Blower => Traits { motor: true, counted: true, ..none },
            Device::Light | Device::Sound => none,
            Device::Own(own) => own.traits,
        }
    }

    /// Reads a built-in word of the specification language: `circulation`, `pump 2`, `blower` …
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
        self.traits().moves_water
    }

    /// Whether it may run on high while the heater is on only within the heater allowance, as a jet
    /// pump or a blower does. Only such a device can have two speeds.
    pub fn counts_for_allowance(self) -> bool {
        self.traits().counted
    }

    /// Whether it is a motor.
    pub fn is_motor(self) -> bool {
        self.traits().motor
    }

    /// Whether its current on high can flow for three hours or more. On low every device's can.
    pub fn is_continuous(self) -> bool {
        self.traits().continuous
    }

    /// Whether a person turns it on and off with a button: it neither runs by itself for hours nor
    /// follows another one.
    pub fn has_button(self) -> bool {
        !self.is_continuous() && !self.traits().follows
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
            Device::Own(own) => f.write_str(own.word()),
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
