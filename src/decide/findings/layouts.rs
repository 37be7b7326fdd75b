//! No layout fits: the nearest ones.

use super::super::layout::{Difference, NearLayout, Wanted};
use super::finding::{Finding, NoLayout};
use crate::board::Job;
use crate::source::Span;

/// No layout fits what is `asked`, and these are the nearest.
pub fn no_layout(job: &Job, asked: &[Wanted], nearest: Vec<NearLayout>) -> Finding {
    let place = place(job, &nearest);
    Finding::NoLayout(NoLayout { asked: asked.to_vec(), nearest, place })
}

/// What the nearest layout stumbles over, if that is one thing that is fitted; else the list.
fn place(job: &Job, nearest: &[NearLayout]) -> Span {
    let first = nearest.first().and_then(|near| match near.differences.as_slice() {
        [Difference::NoPlace { wanted } | Difference::OtherSpeeds { wanted, .. }]
        | [Difference::IsCirculation { wanted } | Difference::IsJetPump { wanted, .. }] => {
            job.equipment.get(*wanted).map(|fitted| fitted.span)
        }
        _ => None,
    });
    first.or(job.equipment.first().map(|first| first.span)).unwrap_or(job.equipment_span)
}
