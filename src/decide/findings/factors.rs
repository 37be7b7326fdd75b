//! Power factors that nobody gives, where they can make a current larger than what is printed.

use super::super::plan::Wiring;
use super::super::rules::carries;
use super::finding::{FactorUnknown, Finding};
use crate::board::{Conductor, Job, Role};

/// Conductors that can carry more than is printed.
pub fn factors(job: &Job, wiring: &Wiring) -> Option<Finding> {
    let lag = wiring.lag.as_ref()?;
    let first = lag.unknown.first().and_then(|index| job.equipment.get(*index))?;
    let role = |index: &usize| {
        let plan = wiring.devices.iter().find(|plan| plan.fitted == Some(*index));
        let fitted = job.equipment.get(*index);
        plan.map(|plan| Role::Named(plan.device)).or(fitted.map(|fitted| fitted.role))
    };
    let neutral = lag.conductors.iter().find(|one| one.conductor == Conductor::N);
    // The neutral is as thick as the lines: what its wire may carry is no trouble there.
    let capacity = wiring.wire.capacity.map_or(job.breaker.value, |capacity| capacity.amps);
    let most = if capacity.0 > job.breaker.value.0 { capacity } else { job.breaker.value };
    Some(Finding::FactorUnknown(FactorUnknown {
        devices: lag.unknown.iter().filter_map(role).collect(),
        place: first.span,
        neutral_unseen: neutral.is_some_and(|one| !carries(most, one.amps)),
        lag: lag.clone(),
    }))
}
