//! Places for things on a circuit board: rows like shelves, so that nothing overlaps.

use super::dice::Dice;

/// Width and height in mm, whole halves.
pub type Room = (f64, f64);

/// The middles of `rooms`, in their order, and the size of the board that holds them. Things
/// stand in rows in a random order; between two, and to every edge, there are at least `gap` mm.
pub fn pack(dice: &mut Dice, rooms: &[Room], gap: f64) -> (Vec<(f64, f64)>, Room) {
    let mut order: Vec<usize> = (0..rooms.len()).collect();
    dice.shuffle(&mut order);
    let area: f64 = rooms.iter().map(|(w, h)| (w + gap) * (h + gap)).sum();
    let widest = rooms.iter().map(|room| room.0).fold(10.0, f64::max);
    let stretch = dice.within(11, 19) as f64 / 10.0;
    let limit = (area.sqrt() * stretch).max(widest + 2.0 * gap);

    let mut places = vec![(0.0, 0.0); rooms.len()];
    let (mut x, mut y, mut row, mut right) = (gap, gap, 0.0_f64, 0.0_f64);
    for index in order {
        let (width, height) = rooms[index];
        if x > gap && x + width + gap > limit {
            (x, y, row) = (gap, y + row + gap, 0.0);
        }
        places[index] = (x + width / 2.0, y + height / 2.0);
        right = right.max(x + width);
        row = row.max(height);
        x += width + gap + dice.within(0, 8) as f64 / 2.0;
    }
    (places, (half_up(right + gap), half_up(y + row + gap)))
}

/// Up to the next half millimetre.
pub fn half_up(mm: f64) -> f64 {
    (mm * 2.0).ceil() / 2.0
}

/// Room for `count` things of `pitch` mm in a row, on its end or lying.
pub fn row(count: usize, pitch: f64, depth: f64, lying: bool) -> Room {
    let length = half_up(count as f64 * pitch);
    if lying { (length, depth) } else { (depth, length) }
}
