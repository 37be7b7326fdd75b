//! The wire colours of a connector family's cords.

use super::super::{Board, Pin, Socket, Supply, WireColour};
use super::words;
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Spanned;
use crate::spec::{self, Field, Name, Spec};
use crate::standards::colours::{IEC_NEUTRAL, NEC_NEUTRAL, NeutralColours, is_protective};

/// The supplies below this, line to neutral, are those of North America, volts: 120 V there, 220 V and
/// more elsewhere.
const NORTH_AMERICA: f64 = 150.0;

/// The wires of a cord, one for each pin of the family.
type Wires = Option<Vec<Option<WireColour>>>;

/// `wires` and `one speed wires`; `pins` are `None` if they are wrong themselves. `None` stands for a
/// cord that is wrong.
pub fn cords(
    socket: &spec::Socket,
    pins: Option<&[Pin]>,
    problems: &mut Problems,
) -> (Wires, Wires) {
    let all = cord(socket, &socket.wires, pins, |_| true, problems);
    let lacks_low =
        pins.is_some_and(|pins| !pins.contains(&Pin::Low) || !pins.contains(&Pin::High));
    let one_speed = match socket.one_speed_wires.get() {
        Some(wires) if lacks_low => {
            problems.error(
                Problem::new(
                    Code::CordWires,
                    wires.span,
                    format!("socket family {} has no other cord for one speed", socket.name.value),
                )
                .label("no pins `low` and `high` to tell the two by")
                .help("write the colors under `wires`"),
            );
            None
        }
        _ => cord(socket, &socket.one_speed_wires, pins, |pin| pin != Pin::Low, problems),
    };
    (all, one_speed)
}

/// The wires of the cord that brings one to each pin that is `wired`.
fn cord(
    socket: &spec::Socket,
    field: &Field<Vec<Name>>,
    pins: Option<&[Pin]>,
    wired: impl Fn(Pin) -> bool,
    problems: &mut Problems,
) -> Wires {
    let given = match field {
        Field::Absent => return pins.map(|pins| vec![None; pins.len()]),
        Field::Unread => return None,
        Field::Is(given) => given,
    };
    let read: Vec<Option<WireColour>> =
        given.value.iter().map(|word| words::cord_wire(word, problems)).collect();
    let colours: Vec<WireColour> = read.into_iter().collect::<Option<_>>()?;
    let pins = pins?;
    let needed: Vec<Pin> = pins.iter().copied().filter(|pin| wired(*pin)).collect();
    if needed.len() != colours.len() {
        wrong_number(socket, given, &needed, problems);
        return None;
    }
    let placed: Vec<Placed> = needed
        .iter()
        .zip(&colours)
        .zip(&given.value)
        .map(|((pin, colour), word)| Placed { pin: *pin, colour: *colour, word })
        .collect();
    let sound = earth(socket, &placed, problems);
    twice(socket, &placed, problems);
    let mut next = colours.into_iter();
    let places = pins.iter().map(|pin| if wired(*pin) { next.next() } else { None });
    sound.then(|| places.collect())
}

/// A wire in a cord and where it is written.
struct Placed<'w> {
    pin: Pin,
    colour: WireColour,
    word: &'w Name,
}

fn wrong_number(
    socket: &spec::Socket,
    given: &Spanned<Vec<Name>>,
    needed: &[Pin],
    problems: &mut Problems,
) {
    let list: Vec<String> = needed.iter().map(Pin::to_string).collect();
    let (wires, pins) = (given.value.len(), needed.len());
    let plural = |count: usize| if count == 1 { "" } else { "s" };
    problems.error(
        Problem::new(
            Code::CordWires,
            given.span,
            format!(
                "a cord of socket family {} has {wires} wire{} for {pins} pin{}",
                socket.name.value,
                plural(wires),
                plural(pins)
            ),
        )
        .label("one color for each wire")
        .help(format!("give the colors for {}, in this order", list.join(", "))),
    );
}

/// The ground wire looks like one, and nothing else does.
fn earth(socket: &spec::Socket, placed: &[Placed<'_>], problems: &mut Problems) -> bool {
    let mut sound = true;
    for Placed { pin, colour, word } in placed {
        let name = &socket.name.value;
        // A screen's drain wire is bare; NEC 250.119 lets power-limited cords below 50 V have a plain
        // green wire for other things.
        let small = matches!(pin, Pin::Positive | Pin::Negative | Pin::Signal | Pin::Screen);
        let harmless = match colour.letters {
            "bare" => *pin == Pin::Screen,
            "GN" => small,
            letters => !is_protective(letters),
        };
        let problem = match pin {
            Pin::Ground if !is_protective(colour.letters) => Problem::new(
                Code::EarthColour,
                word.span,
                format!("a {} wire is on the pin `ground` of socket family {name}", colour.words),
            )
            .label("no color of a ground wire")
            .help("a ground wire is green and yellow, green, or bare"),
            Pin::Ground => continue,
            _ if harmless => continue,
            pin => Problem::new(
                Code::EarthColour,
                word.span,
                format!("a {} wire is on the pin `{pin}` of socket family {name}", colour.words),
            )
            .label("this looks like the ground wire")
            .help("compare the order of the colors with that of `pins`"),
        };
        problems.error(problem.note(
            "somebody would connect a line to bare metal by this color (IEC 60445, NEC 250.119)",
        ));
        sound = false;
    }
    sound
}

/// Two wires that nobody can tell apart, unless their pins are for the same.
fn twice(socket: &spec::Socket, placed: &[Placed<'_>], problems: &mut Problems) {
    for (index, wire) in placed.iter().enumerate() {
        let earlier = placed.iter().take(index);
        let same = |other: &&Placed<'_>| other.colour == wire.colour && other.pin != wire.pin;
        let Some(first) = earlier.clone().find(same) else { continue };
        problems.warning(
            Problem::new(
                Code::ColourTwice,
                wire.word.span,
                format!(
                    "a cord of socket family {} has two {} wires, for `{}` and `{}`",
                    socket.name.value, wire.colour.words, first.pin, wire.pin
                ),
            )
            .label("the same again")
            .other(first.word.span, "first here")
            .help("correct one of the two; if the cord is like this, accept the warning"),
        );
    }
}

/// A wire on `low` or `high` that somebody would take for the neutral, in a region that the board can
/// be fed in. The board switches the line to these pins.
pub fn neutrals(spec: &Spec, board: &Board, problems: &mut Problems) {
    let north_america = |supply: &Supply| supply.system.to_neutral().0 < NORTH_AMERICA;
    let mut regions: Vec<NeutralColours> = Vec::new();
    if board.supplies.iter().any(north_america) {
        regions.push(NEC_NEUTRAL);
    }
    if board.supplies.iter().any(|supply| !north_america(supply)) {
        regions.push(IEC_NEUTRAL);
    }
    for (socket, written) in board.sockets.iter().zip(&spec.sockets.entries) {
        for (wires, field) in
            [(&socket.wires, &written.wires), (&socket.one_speed_wires, &written.one_speed_wires)]
        {
            for (pin, colour, word) in on_lines(socket, wires, field) {
                let region = regions.iter().find(|it| it.letters.contains(&colour.letters));
                let Some(region) = region else { continue };
                problems.warning(
                    Problem::new(
                        Code::NeutralColour,
                        word.span,
                        format!(
                            "a {} wire is on the pin `{pin}` of socket family {}",
                            colour.words, socket.name
                        ),
                    )
                    .label("somebody will take it for the neutral")
                    .note(format!(
                        "`{pin}` is on a line; {} keeps this color for the neutral",
                        region.standard
                    ))
                    .help("compare with the cord; if it is like this, accept the warning"),
                );
            }
        }
    }
}

/// The wires on pins that the board switches to a line.
fn on_lines<'w>(
    socket: &Socket,
    wires: &[Option<WireColour>],
    field: &'w Field<Vec<Name>>,
) -> Vec<(Pin, WireColour, &'w Name)> {
    let placed = socket.pins.iter().zip(wires).filter_map(|(pin, wire)| Some((*pin, (*wire)?)));
    placed
        .zip(field.value().into_iter().flatten())
        .map(|((pin, colour), word)| (pin, colour, word))
        .filter(|(pin, ..)| matches!(pin, Pin::Low | Pin::High))
        .collect()
}
