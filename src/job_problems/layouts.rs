//! No layout fits: the nearest ones, with a sentence for each difference.

use super::phrases::the_role;
use crate::board::{Board, Device, Role, Speeds};
use crate::decide::findings::NoLayout;
use crate::decide::{Difference, NearLayout, Wanted};
use crate::diagnostic::{Code, Problem};

pub fn no_layout(board: &Board, found: &NoLayout) -> Problem {
    let NoLayout { asked, nearest, place } = found;
    let about = &board.about.name;
    let mut problem = Problem::new(
        Code::NoLayout,
        *place,
        format!("no layout of board {about} fits what is fitted"),
    );
    problem = problem.label(match nearest.first() {
        Some(near) => format!("the nearest is layout {}", near.layout),
        None => "the board has no layout".to_owned(),
    });
    for near in nearest {
        let sentences: Vec<String> =
            near.differences.iter().map(|one| difference_words(asked, *one)).collect();
        problem = problem.note(format!("layout {}: {}", near.layout, sentences.join("; ")));
    }
    if nearest.iter().any(NearLayout::is_mix_up) {
        problem.help(
            "follow the pump's pipes: a dedicated circulation pump is small, has one speed and no \
             jets; a pump that filters on low or by a timer is a `pump`",
        )
    } else {
        problem.help("look again at what is fitted, or take another board")
    }
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
        Device::Own(_) if device.counts_for_allowance() => {
            format!("{} with {}", device.the(), speed_words(speeds))
        }
        _ => device.the(),
    }
}

fn speed_words(speeds: Speeds) -> &'static str {
    match speeds {
        Speeds::Two => "two speeds",
        _ => "one speed",
    }
}
