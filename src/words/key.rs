//! Keys of phrases, and the values that phrases take.

use fluent_bundle::FluentValue;

use crate::board::{Conductor, Device, Effect, OwnRole, Pin, Speeds, Traits, WireColour};
use crate::decide::ReadFrom;
use crate::decide::currents::Running;
use crate::geometry::Side;
use crate::standards::colours::{BARE, COLOURS};

/// Values of a phrase by their names.
pub type Values = Vec<(&'static str, FluentValue<'static>)>;

/// Gives samples of a value.
pub type Samples = fn() -> Vec<FluentValue<'static>>;

/// One phrase that Rust asks for.
pub struct Key {
    /// Its name in the files of phrases.
    pub name: &'static str,
    /// The values that it takes, with samples of each.
    pub values: &'static [(&'static str, Samples)],
}

impl Key {
    /// Every combination of samples of its values; of a phrase with very many, each sample at least
    /// once.
    pub fn samples(&self) -> impl Iterator<Item = Values> {
        const MOST: usize = 2000;
        let of_each: Vec<_> =
            self.values.iter().map(|(name, samples)| (*name, samples())).collect();
        let lengths: Vec<usize> = of_each.iter().map(|(_, samples)| samples.len().max(1)).collect();
        let all: usize = lengths.iter().product();
        let longest = lengths.iter().copied().max().unwrap_or(1);
        let count = if all <= MOST { all } else { longest };
        (0..count).map(move |number| {
            let mut rest = number;
            let mut values = Vec::with_capacity(of_each.len());
            for ((name, samples), length) in of_each.iter().zip(&lengths) {
                let at = rest % length;
                if all <= MOST {
                    rest /= length;
                }
                values.extend(samples.get(at).map(|sample| (*name, sample.clone())));
            }
            values
        })
    }
}

/// What a phrase can take.
pub trait Argument {
    /// As the phrase sees it.
    fn value(&self) -> FluentValue<'static>;
    /// One of each kind that a phrase may want to say in another way.
    fn samples() -> Vec<FluentValue<'static>>;
}

/// Text that is put in as it is: a code, a title, another phrase.
impl Argument for &str {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::String((*self).to_owned().into())
    }

    fn samples() -> Vec<FluentValue<'static>> {
        vec![FluentValue::from("X1")]
    }
}

/// A number that is counted: it chooses the plural and prints without a decimal mark.
impl Argument for usize {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(*self)
    }

    fn samples() -> Vec<FluentValue<'static>> {
        // One of each plural of CLDR's languages: zero, one, two, few, many.
        [0_usize, 1, 2, 3, 5, 11, 21, 100].into_iter().map(FluentValue::from).collect()
    }
}

fn words(words: &[&'static str]) -> Vec<FluentValue<'static>> {
    words.iter().copied().map(FluentValue::from).collect()
}

/// `yes` or `no`.
impl Argument for bool {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(if *self { "yes" } else { "no" })
    }

    fn samples() -> Vec<FluentValue<'static>> {
        words(&["yes", "no"])
    }
}

/// The words of the specification language, `pump 2`; a phrase says it with `DEVICE($device)`.
impl Argument for Device {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::String(keyed(*self).into())
    }

    fn samples() -> Vec<FluentValue<'static>> {
        let own = OwnRole::new(0, "X1", Traits::default()).map(Device::Own);
        let all = [
            Device::Heater,
            Device::Circulation,
            Device::Pump(1),
            Device::Pump(3),
            Device::Blower,
            Device::Ozonator,
            Device::Light,
            Device::Sound,
        ];
        all.iter().chain(&own).map(Argument::value).collect()
    }
}

/// The word of a device behind the key of its phrase: `own UV lamp` for one of the board's own.
fn keyed(device: Device) -> String {
    match device {
        Device::Own(own) => format!("own {}", own.word()),
        device => device.to_string(),
    }
}

/// Several devices, separated by `|`; a phrase says them with `DEVICE($devices)`.
impl Argument for &[Device] {
    fn value(&self) -> FluentValue<'static> {
        let all: Vec<String> = self.iter().map(|device| keyed(*device)).collect();
        FluentValue::String(all.join("|").into())
    }

    fn samples() -> Vec<FluentValue<'static>> {
        let three = [Device::Blower, Device::Pump(1), Device::Circulation];
        [&three[..1], &three[..2], &three[..]].iter().map(Argument::value).collect()
    }
}

/// `up`, `right`, `down` or `left`.
impl Argument for Side {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(match self {
            Side::Up => "up",
            Side::Right => "right",
            Side::Down => "down",
            Side::Left => "left",
        })
    }

    fn samples() -> Vec<FluentValue<'static>> {
        words(&["up", "right", "down", "left"])
    }
}

/// `top` or `left`.
impl Argument for ReadFrom {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(match self {
            ReadFrom::Top => "top",
            ReadFrom::Left => "left",
        })
    }

    fn samples() -> Vec<FluentValue<'static>> {
        words(&["top", "left"])
    }
}

/// The words of the specification language.
impl Argument for Pin {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::String(self.to_string().into())
    }

    fn samples() -> Vec<FluentValue<'static>> {
        Pin::WORDS.iter().map(|(_, pin)| pin.value()).collect()
    }
}

/// Its letters.
impl Argument for Conductor {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::String(self.to_string().into())
    }

    fn samples() -> Vec<FluentValue<'static>> {
        let all = [
            Conductor::L1,
            Conductor::L2,
            Conductor::L3,
            Conductor::L,
            Conductor::N,
            Conductor::Pe,
        ];
        all.iter().map(Argument::value).collect()
    }
}

/// The letters of IEC 60757, or `bare`.
impl Argument for WireColour {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(self.letters)
    }

    fn samples() -> Vec<FluentValue<'static>> {
        COLOURS.iter().chain([&BARE]).map(|colour| FluentValue::from(colour.letters)).collect()
    }
}

/// `heater_allowance`, `frequency`, `restore` or `layout_change`; anything else in the words of the
/// specification.
impl Argument for &Effect {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(match self {
            Effect::HeaterAllowance => "heater_allowance",
            Effect::Frequency => "frequency",
            Effect::Restore => "restore",
            Effect::LayoutChange => "layout_change",
            Effect::LayoutNumber => "layout_number",
            Effect::Titled(words) => return words.as_str().value(),
        })
    }

    fn samples() -> Vec<FluentValue<'static>> {
        words(&["heater_allowance", "frequency", "restore", "layout_change", "layout_number", "X1"])
    }
}

/// `none`, `one` or `two`.
impl Argument for Speeds {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(match self {
            Speeds::None => "none",
            Speeds::One => "one",
            Speeds::Two => "two",
        })
    }

    fn samples() -> Vec<FluentValue<'static>> {
        words(&["none", "one", "two"])
    }
}

/// `off`, `low` or `high`.
impl Argument for Running {
    fn value(&self) -> FluentValue<'static> {
        FluentValue::from(match self {
            Running::Off => "off",
            Running::Low => "low",
            Running::High => "high",
        })
    }

    fn samples() -> Vec<FluentValue<'static>> {
        words(&["off", "low", "high"])
    }
}

/// Declares phrases: a method of [`Words`](super::Words) for each, and the list of their keys.
macro_rules! phrases {
    ($($(#[$doc:meta])* $name:ident($($value:ident: $type:ty),* $(,)?);)*) => {
        impl $crate::words::Words {
            $(
                $(#[$doc])*
                pub(crate) fn $name(&self, $($value: $type),*) -> String {
                    let values = [
                        $((stringify!($value), $crate::words::key::Argument::value(&$value))),*
                    ];
                    self.say(stringify!($name), &values)
                }
            )*
        }

        /// The phrases of this file.
        pub const KEYS: &[$crate::words::key::Key] = &[$(
            $crate::words::key::Key {
                name: stringify!($name),
                values: &[$((
                    stringify!($value),
                    <$type as $crate::words::key::Argument>::samples,
                )),*],
            },
        )*];
    };
}

pub(super) use phrases;
