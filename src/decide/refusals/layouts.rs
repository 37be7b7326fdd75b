//! No layout fits: the nearest ones, with a sentence for each difference.

use super::super::layout::{Difference, NearLayout, Wanted, wanted};
use super::the_role;
use super::voltages::anywhere;
use crate::board::{Board, Device, Job, Role, Speeds};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;

/// Says what the nearest layouts differ in, and which devices get no voltage in any case.
pub fn no_layout(board: &Board, job: &Job, nearest: &[NearLayout], problems: &mut Problems) {
    let about = &board.about.name;
    let place = place(job, nearest);
    let asked = wanted(job);
    let mut problem = Problem::new(
        Code::NoLayout,
        place,
        format!("no layout of board {about} fits what is fitted"),
    );
    problem = problem.label(match nearest.first() {
        Some(near) => format!("the nearest is layout {}", near.layout),
        None => "the board has no layout".to_owned(),
    });
    for near in nearest {
        let sentences: Vec<String> =
            near.differences.iter().map(|one| difference_words(&asked, *one)).collect();
        problem = problem.note(format!("layout {}: {}", near.layout, sentences.join("; ")));
    }
    let circulation = nearest.iter().flat_map(|near| &near.differences).any(|difference| {
        matches!(difference, Difference::IsCirculation { .. } | Difference::IsJetPump { .. })
    });
    problem = if circulation {
        problem.help(
            "follow the pump's pipes: a dedicated circulation pump is small, has one speed and no \
             jets; a pump that filters on low or by a timer is a `pump`",
        )
    } else {
        problem.help("look again at what is fitted, or take another board")
    };
    problems.error(problem);
    anywhere(board, job, problems);
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
    let whole = job.equipment.first().zip(job.equipment.last());
    first.or(whole.map(|(first, _)| first.span)).unwrap_or(job.equipment_span)
}

/// One difference as a sentence about the layout; `asked` is what it counts in.
pub fn difference_words(asked: &[Wanted], difference: Difference) -> String {
    let role = |wanted: usize| asked.get(wanted).map(|fitted| (fitted.role, fitted.speeds));
    match difference {
        Difference::Lacking { device, speeds } => {
            format!("it has {}, which is not fitted", a(device, speeds))
        }
        Difference::NoPlace { wanted } => match role(wanted) {
            Some((Role::AnyPump, speeds)) => {
                format!("it has no place for another pump with {}", speed_words(speeds))
            }
            Some((role, _)) => format!("it has no place for {}", the_role(role)),
            None => "it has no place for one device".to_owned(),
        },
        Difference::OtherSpeeds { wanted, device, speeds } => {
            let fitted = role(wanted).map_or(Speeds::One, |(_, speeds)| speeds);
            format!(
                "its {device} has {}, and the one that is fitted has {}",
                speed_words(speeds),
                speed_words(fitted)
            )
        }
        Difference::IsCirculation { .. } => {
            "it fits if one of the pumps with one speed is the dedicated circulation pump"
                .to_owned()
        }
        Difference::IsJetPump { device, speeds, .. } => format!(
            "it fits if the circulation pump is in truth {device}, with {} and jets",
            speed_words(speeds)
        ),
    }
}

fn a(device: Device, speeds: Speeds) -> String {
    match device {
        Device::Pump(_) => format!("a {device} with {}", speed_words(speeds)),
        Device::Circulation => "a dedicated circulation pump".to_owned(),
        Device::Ozonator => "an ozonator".to_owned(),
        Device::Blower => format!("a blower with {}", speed_words(speeds)),
        _ => device.the(),
    }
}

fn speed_words(speeds: Speeds) -> &'static str {
    match speeds {
        Speeds::Two => "two speeds",
        _ => "one speed",
    }
}
