//! Which header serves what in which layouts, and where it stays empty.

use crate::board::{Board, Device, HeaderId, LayoutNumber, LayoutSet, Speeds};

/// What one header does over the whole matrix.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Service {
    /// The header.
    pub header: HeaderId,
    /// What it serves, by the first layout that it does so in. Empty if no layout uses it.
    pub served: Vec<Served>,
    /// The layouts in which nothing may be plugged in, as there it stays dead or belongs to a
    /// device that is not fitted; `None` if there is no such layout.
    pub empty: Option<LayoutSet>,
}

impl Service {
    /// Each device that it serves with the layouts in which it does so, at whatever speeds.
    pub fn devices(&self, board: &Board) -> Vec<(Device, LayoutSet)> {
        let mut devices: Vec<Device> = Vec::new();
        for served in &self.served {
            if !devices.contains(&served.device) {
                devices.push(served.device);
            }
        }
        let layouts = |device: Device| -> Vec<LayoutNumber> {
            let all = board.layouts.iter().map(|layout| layout.number);
            let mine: Vec<&Served> = self.served.iter().filter(|s| s.device == device).collect();
            all.filter(|number| mine.iter().any(|s| s.layouts.contains(*number))).collect()
        };
        devices.into_iter().map(|device| (device, set_of(board, &layouts(device)))).collect()
    }

    /// Whether it stays empty under every layout.
    pub fn never_used(&self) -> bool {
        self.served.is_empty()
    }
}

/// A device with its number of speeds, and the layouts in which a header serves it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Served {
    /// The device.
    pub device: Device,
    /// How many speeds the layouts give it. One for a device without a column in the matrix,
    /// which is there under every layout.
    pub speeds: Speeds,
    /// The layouts.
    pub layouts: LayoutSet,
}

/// Every header's service, in the specification's order of headers.
pub fn services(board: &Board) -> Vec<Service> {
    board.header_ids().map(|header| service(board, header)).collect()
}

/// What `header` does over the whole matrix.
pub fn service(board: &Board, header: HeaderId) -> Service {
    let mut found: Vec<(Device, Speeds, Vec<LayoutNumber>)> = Vec::new();
    let mut empty = Vec::new();
    for layout in &board.layouts {
        let Some(device) = board.device_at(header, layout) else {
            empty.push(layout.number);
            continue;
        };
        let speeds = board.speeds_at(layout, device).unwrap_or(Speeds::One);
        match found.iter_mut().find(|(d, s, _)| (*d, *s) == (device, speeds)) {
            Some((_, _, numbers)) => numbers.push(layout.number),
            None => found.push((device, speeds, vec![layout.number])),
        }
    }
    let served = found
        .into_iter()
        .map(|(device, speeds, numbers)| Served {
            device,
            speeds,
            layouts: set_of(board, &numbers),
        })
        .collect();
    let empty = (!empty.is_empty()).then(|| set_of(board, &empty));
    Service { header, served, empty }
}

/// Layout numbers as a set: [`LayoutSet::All`] if the matrix has no other, or the longest ranges
/// of neighbouring numbers. A range never spans a number that the matrix lacks.
pub(super) fn set_of(board: &Board, numbers: &[LayoutNumber]) -> LayoutSet {
    if numbers.len() == board.layouts.len() {
        return LayoutSet::All;
    }
    let mut ranges: Vec<(LayoutNumber, LayoutNumber)> = Vec::new();
    for number in numbers {
        match ranges.last_mut() {
            Some((_, last)) if u16::from(last.get()) + 1 == u16::from(number.get()) => {
                *last = *number;
            }
            _ => ranges.push((*number, *number)),
        }
    }
    LayoutSet::Ranges(ranges)
}

#[cfg(test)]
mod tests {
    use super::super::sample::{header, heron};
    use super::*;

    fn words(set: &LayoutSet) -> String {
        match set {
            LayoutSet::All => "all".to_owned(),
            LayoutSet::Ranges(ranges) => {
                let words: Vec<_> = ranges
                    .iter()
                    .map(|(a, b)| if a == b { a.to_string() } else { format!("{a}-{b}") })
                    .collect();
                words.join(", ")
            }
        }
    }

    fn says(board: &Board, code: &str) -> String {
        let service = service(board, header(board, code));
        let served: Vec<_> = service
            .served
            .iter()
            .map(|s| format!("{} ({}): {}", s.device, s.speeds.number(), words(&s.layouts)))
            .collect();
        let empty = service.empty.map_or("never".to_owned(), |set| words(&set));
        format!("{}; empty: {empty}", served.join("; "))
    }

    /// Read off the matrix by hand.
    #[test]
    fn heron_8_serves_what_its_matrix_says() {
        let board = heron(&[]);
        assert_eq!(says(&board, "J1"), "heater (1): all; empty: never");
        assert_eq!(says(&board, "J2"), "pump 1 (2): 1, 4-12; pump 1 (1): 2-3; empty: never");
        assert_eq!(says(&board, "J3"), "pump 2 (1): 6-11; pump 2 (2): 12; empty: 1-5");
        assert_eq!(says(&board, "J5"), "blower (1): 2-7; pump 3 (1): 8-12; empty: 1");
        assert_eq!(
            says(&board, "J6"),
            "circulation (1): 3, 5, 7, 9, 11-12; empty: 1-2, 4, 6, 8, 10"
        );
        assert_eq!(says(&board, "J7"), "ozonator (1): all; empty: never");
        assert_eq!(says(&board, "J8"), "blower (1): 10-12; empty: 1-9");
    }

    /// A range must not promise a layout that the matrix lacks.
    #[test]
    fn ranges_stop_at_gaps() {
        let board = heron(&[("    3:  [1, 1, 0, 0, 1]\n", "")]);
        assert_eq!(says(&board, "J2"), "pump 1 (2): 1, 4-12; pump 1 (1): 2; empty: never");
        assert_eq!(says(&board, "J3"), "pump 2 (1): 6-11; pump 2 (2): 12; empty: 1-2, 4-5");
    }
}
