//! The order in which a person sees the pins of a header.
//!
//! A socket family lists its pins as it is drawn: from the top down if the key is drawn to the
//! right or the left, from the left to the right if it is drawn upwards or downwards. A header
//! whose key faces another way is that drawing turned.

use crate::board::{Pin, Socket, Speeds, WireColour};
use crate::geometry::Side;

/// Where the reading of a header's pins begins, as the board is mounted, seen from the front.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum ReadFrom {
    /// The pins stand in a column: from the top down.
    Top,
    /// The pins stand in a row: from the left to the right.
    Left,
}

/// The pins of a header in the order in which a person sees them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PinOrder {
    /// Where the reading begins.
    pub read_from: ReadFrom,
    /// One for each cavity; `None` for one that the cord leaves empty.
    pub pins: Vec<Option<Pin>>,
    /// The colour of the wire in each cavity, in the same order: by place, because a socket may have
    /// several pins for ground, signal or screen. `None` for an empty cavity, and where the
    /// specification does not say it.
    pub colours: Vec<Option<WireColour>>,
}

impl PinOrder {
    /// Each cavity: its pin and the colour of its wire.
    pub fn cavities(&self) -> impl Iterator<Item = (Option<Pin>, Option<WireColour>)> {
        self.pins.iter().copied().zip(self.colours.iter().copied())
    }

    /// The same pins, with nothing said of colours.
    pub fn without_colours(self) -> Self {
        Self { colours: vec![None; self.pins.len()], ..self }
    }
}

/// The pins of `socket` on a header whose key faces `key`, all wired.
pub fn pin_order(socket: &Socket, key: Option<Side>) -> PinOrder {
    let along = list_ends(socket, key);
    let (read_from, backwards) = match along {
        Side::Down => (ReadFrom::Top, false),
        Side::Up => (ReadFrom::Top, true),
        Side::Right => (ReadFrom::Left, false),
        Side::Left => (ReadFrom::Left, true),
    };
    let mut pins: Vec<_> = socket.pins.iter().copied().map(Some).collect();
    let mut colours = socket.wires.clone();
    if backwards {
        pins.reverse();
        colours.reverse();
    }
    PinOrder { read_from, pins, colours }
}

/// The side towards which the list of a socket's pins runs on a header whose key faces `key`.
pub fn list_ends(socket: &Socket, key: Option<Side>) -> Side {
    let along = match socket.key_drawn {
        None | Some(Side::Right | Side::Left) => Side::Down,
        Some(Side::Up | Side::Down) => Side::Right,
    };
    match (socket.key_drawn, key) {
        (Some(drawn), Some(key)) => turned(along, drawn.turn_to(key).quarters()),
        _ => along,
    }
}

/// [`pin_order`] for the cord of a device with so many speeds. A cord for one speed brings no wire for
/// *low*, and that cavity stays empty; a device that is not fitted has no cord at all.
pub fn pin_order_for(socket: &Socket, key: Option<Side>, speeds: Speeds) -> PinOrder {
    let mut order = match speeds {
        Speeds::One if socket.has_one_speed_cord() => {
            pin_order(&Socket { wires: socket.one_speed_wires.clone(), ..socket.clone() }, key)
        }
        _ => pin_order(socket, key),
    };
    for (pin, colour) in order.pins.iter_mut().zip(&mut order.colours) {
        *pin = pin.filter(|pin| is_wired(socket, *pin, speeds));
        *colour = colour.filter(|_| pin.is_some());
    }
    order
}

/// Whether the cord of a device with so many speeds brings a wire for `pin`.
pub fn is_wired(socket: &Socket, pin: Pin, speeds: Speeds) -> bool {
    match speeds {
        Speeds::None => false,
        Speeds::One => pin != Pin::Low || !socket.has_one_speed_cord(),
        Speeds::Two => true,
    }
}

/// The side that `side` becomes after clockwise quarter turns.
fn turned(side: Side, quarters: u8) -> Side {
    match (side.clockwise_from_up() + quarters) % 4 {
        0 => Side::Up,
        1 => Side::Right,
        2 => Side::Down,
        _ => Side::Left,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::Point;
    use crate::source::{FileId, Span};
    use crate::units::Length;

    fn socket(key_drawn: Option<Side>, pins: &[Pin]) -> Socket {
        Socket {
            name: "power".into(),
            title: "Power socket".into(),
            pitch: Length(6.35),
            key_drawn,
            pins: pins.to_vec(),
            wires: vec![None; pins.len()],
            one_speed_wires: vec![None; pins.len()],
            span: Span::new(FileId(0), 0..0),
        }
    }

    const POWER: [Pin; 4] = [Pin::Ground, Pin::Common, Pin::Low, Pin::High];

    fn words(order: &PinOrder) -> String {
        let from = match order.read_from {
            ReadFrom::Top => "top",
            ReadFrom::Left => "left",
        };
        let pins: Vec<_> =
            order.pins.iter().map(|p| p.map_or("-".to_owned(), |p| p.to_string())).collect();
        format!("{from}: {}", pins.join(" "))
    }

    /// The four cases in the words of the design, item 8.
    #[test]
    fn a_socket_drawn_with_its_key_to_the_right() {
        let power = socket(Some(Side::Right), &POWER);
        let seen = |key| words(&pin_order(&power, Some(key)));
        assert_eq!(seen(Side::Right), "top: ground common low high");
        assert_eq!(seen(Side::Up), "left: ground common low high");
        assert_eq!(seen(Side::Left), "top: high low common ground");
        assert_eq!(seen(Side::Down), "left: high low common ground");
    }

    #[test]
    fn a_socket_drawn_with_its_key_upwards_is_listed_from_the_left() {
        let power = socket(Some(Side::Up), &POWER);
        let seen = |key| words(&pin_order(&power, Some(key)));
        assert_eq!(seen(Side::Up), "left: ground common low high");
        assert_eq!(seen(Side::Right), "top: ground common low high");
        assert_eq!(seen(Side::Down), "left: high low common ground");
        assert_eq!(seen(Side::Left), "top: high low common ground");
    }

    #[test]
    fn a_cord_with_fewer_wires_leaves_a_gap_where_it_is_seen() {
        let power = socket(Some(Side::Right), &POWER);
        let seen = |speeds| words(&pin_order_for(&power, Some(Side::Left), speeds));
        assert_eq!(seen(Speeds::Two), "top: high low common ground");
        assert_eq!(seen(Speeds::One), "top: high - common ground");
        assert_eq!(seen(Speeds::None), "top: - - - -");
    }

    #[test]
    fn a_socket_without_a_key_reads_as_it_is_drawn() {
        let studs = socket(None, &[Pin::Common, Pin::High]);
        assert_eq!(words(&pin_order(&studs, None)), "top: common high");
    }

    proptest! {
        /// Draw the socket, turn the drawing, and read it off: the same order.
        #[test]
        fn turning_the_drawing_gives_the_same_order(
            drawn in prop::sample::select(&Side::ALL[..]),
            key in prop::sample::select(&Side::ALL[..]),
            count in 1usize..8,
        ) {
            let pins: Vec<_> =
                Pin::WORDS.iter().map(|(_, pin)| *pin).cycle().take(count).collect();
            let seen = pin_order(&socket(Some(drawn), &pins), Some(key));

            let column = matches!(drawn, Side::Left | Side::Right);
            let turn = drawn.turn_to(key);
            let mut places: Vec<(Point, Pin)> = pins
                .iter()
                .enumerate()
                .map(|(index, pin)| {
                    let step = index as f64;
                    let at = if column { Point::new(0.0, step) } else { Point::new(step, 0.0) };
                    (turn.apply(at), *pin)
                })
                .collect();
            let stands = count == 1 || places.iter().all(|(p, _)| p.x == 0.0);
            if count > 1 {
                prop_assert_eq!(seen.read_from == ReadFrom::Top, stands);
            }
            places.sort_by(|(a, _), (b, _)| (a.x + a.y).total_cmp(&(b.x + b.y)));
            let read: Vec<_> = places.into_iter().map(|(_, pin)| Some(pin)).collect();
            prop_assert_eq!(seen.pins, read);
        }
    }
}
