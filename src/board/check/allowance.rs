//! A heater allowance as it is written.

use super::super::Allowance;
use crate::diagnostic::{Code, Problem, Problems};
use crate::spec::Name;
use crate::units::Amps;

/// The highest heater allowance as a current, A.
const MOST_AMPS: f64 = 1000.0;
/// The highest heater allowance as a count: nine pumps and a blower would be ten loads.
const ALLOWANCE: u8 = 10;

/// `4`, or `32 A`.
pub fn allowance(text: &Name, problems: &mut Problems) -> Option<Allowance> {
    let digits = text.value.bytes().all(|b| b.is_ascii_digit());
    let number = text.value.parse::<u8>().ok().filter(|n| digits && *n <= ALLOWANCE);
    let amps = Amps::parse(&text.value).filter(|amps| amps.0 > 0.0 && amps.0 <= MOST_AMPS);
    let found = number.map(Allowance::Loads).or(amps.map(Allowance::Amps));
    if found.is_none() {
        problems.error(
            Problem::new(
                Code::WrongAllowance,
                text.span,
                format!("`{}` is not a heater allowance", text.value),
            )
            .label(format!(
                "a whole number from 0 to {ALLOWANCE} or a current such as `32 A` belongs here"
            ))
            .note(
                "a number says how many pumps and blowers may run on high while the heater is on; a \
                 current, what all that runs may add up to, the heater included",
            ),
        );
    }
    found
}
