//! What a heater allowance that is a current asks of a breaker and leaves beside the heater.

use super::rules::Rules;
use crate::units::Amps;

/// The smallest standard breaker that carries whatever `setting` permits; `None` above the largest.
/// Whatever runs, each line carries that sum at the most, and all of it may count as continuous.
pub fn breaker_for(setting: Amps, rules: Rules) -> Option<Amps> {
    rules.smallest_breaker(Amps(setting.0 * rules.continuous_factor()))
}

/// What everything else may add up to beside a heater that draws so much; `None` if the heater alone is
/// above the setting.
pub fn left_beside(setting: Amps, heater: Amps) -> Option<Amps> {
    (setting.0 > heater.0).then_some(Amps(setting.0 - heater.0))
}
