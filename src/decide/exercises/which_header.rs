//! Which header takes a device under a layout, and which headers stay empty.

use super::lookup::BoardLookup;
use super::{Exercise, Task, Trap};
use crate::board::{Device, HeaderId, Layout, LayoutNumber, LayoutSet, Speeds};
use crate::source::Span;

/// Which header takes a device under a layout, and which stay empty.
///
/// Level 1: the header's title names the device; 2: it does not, or the header takes another
/// device under other layouts; 3: both. Not trivial: another header takes the device elsewhere, or
/// has the device's name, or takes its plug; and if the titles tell the header, some header stays
/// empty, which no title tells. Two questions are alike if they ask for the same device under the same
/// layout.
#[derive(Clone, Debug, PartialEq)]
pub struct WhichHeader {
    /// Given: the layout.
    pub layout: LayoutNumber,
    /// Given: the device.
    pub device: Device,
    /// Given: its speeds there.
    pub speeds: Speeds,
    /// The header that takes it.
    pub answer: HeaderId,
    /// The layouts in which that header serves the device.
    pub layouts: LayoutSet,
    /// The header's line.
    pub line: Span,
    /// The row of the matrix.
    pub row: Span,
    /// The headers that stay empty under the layout, in the specification's order; may be none.
    pub empty: Vec<EmptyHeader>,
    /// At least one.
    pub traps: Vec<Trap<HeaderId, HeaderSlip>>,
}

/// A header that stays empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EmptyHeader {
    /// The header.
    pub header: HeaderId,
    /// Why.
    pub because: EmptyWhy,
    /// Its line.
    pub line: Span,
}

/// Why a header stays empty under a layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EmptyWhy {
    /// It serves nothing under this layout.
    ServesNothing,
    /// It would serve this device, which the layout has not.
    DeviceNotFitted(Device),
}

/// How another header is chosen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HeaderSlip {
    /// It takes the device, but only under these layouts.
    OtherLayouts(LayoutSet),
    /// Its title names the device, and it stays empty here.
    TitleOfEmpty,
    /// Its title names the device, and it takes another one here.
    TitleOfOther(Device),
    /// It has the same connector, so the plug fits; it takes this one here, or stays empty.
    PlugFits(Option<Device>),
}

/// The most headers that tempt by nothing but their connector.
const SAME_CONNECTOR: usize = 3;

/// The exercise on `device` under `layout`; `None` if no header takes it, or no other tempts.
pub fn pose(lookup: &BoardLookup<'_>, layout: &Layout, device: Device) -> Option<Exercise> {
    let board = lookup.board;
    let slots = lookup.slots(layout.number);
    let mut takes = slots.iter().filter(|slot| slot.device == device);
    let (Some(slot), None) = (takes.next(), takes.next()) else { return None };
    let answer = slot.header;
    let mut fitting = 0;
    let traps: Vec<Trap<HeaderId, HeaderSlip>> = board
        .header_ids()
        .filter(|header| *header != answer)
        .filter_map(|header| {
            let here = slots.iter().find(|slot| slot.header == header).map(|slot| slot.device);
            let mistake = match (lookup.serving(header, device), here) {
                (Some(layouts), _) => HeaderSlip::OtherLayouts(layouts),
                (None, here) if !names(&board[header].title, device) => {
                    if board[header].socket != board[answer].socket || fitting == SAME_CONNECTOR {
                        return None;
                    }
                    fitting += 1;
                    HeaderSlip::PlugFits(here)
                }
                (None, None) => HeaderSlip::TitleOfEmpty,
                (None, Some(other)) => HeaderSlip::TitleOfOther(other),
            };
            Some(Trap { answer: header, mistake })
        })
        .collect();
    let takes_others = board[answer].serves.iter().any(|(_, other)| *other != device);
    let untitled = !names(&board[answer].title, device);
    let empty = empty(lookup, layout);
    let only_fits = traps.iter().all(|trap| matches!(trap.mistake, HeaderSlip::PlugFits(_)));
    if traps.is_empty() || only_fits && !untitled && empty.is_empty() {
        return None;
    }
    let task = WhichHeader {
        layout: layout.number,
        device,
        speeds: slot.speeds,
        answer,
        layouts: lookup.serving(answer, device)?,
        line: board[answer].span,
        row: layout.span,
        empty,
        traps,
    };
    let level = 1 + u8::from(takes_others) + u8::from(untitled);
    Some(Exercise { level, task: Task::WhichHeader(task) })
}

fn empty(lookup: &BoardLookup<'_>, layout: &Layout) -> Vec<EmptyHeader> {
    let board = lookup.board;
    let used = lookup.slots(layout.number);
    board
        .header_ids()
        .filter(|header| used.iter().all(|slot| slot.header != *header))
        .map(|header| {
            let mut serves = board[header].serves.iter();
            let because = match serves.find(|(set, _)| set.contains(layout.number)) {
                Some((_, device)) => EmptyWhy::DeviceNotFitted(*device),
                None => EmptyWhy::ServesNothing,
            };
            EmptyHeader { header, because, line: board[header].span }
        })
        .collect()
}

/// Whether a title says the device's name: `Far circulation` names the circulation pump.
pub fn names(title: &str, device: Device) -> bool {
    let lower = title.to_lowercase();
    let title: Vec<&str> = lower.split(|c: char| !c.is_alphanumeric()).collect();
    let device = device.to_string().to_lowercase();
    let apart = |c: char| !c.is_alphanumeric();
    let device: Vec<&str> = device.split(apart).collect();
    title.windows(device.len()).any(|words| words == device)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_names_a_device_by_whole_words() {
        assert!(names("Pump 1", Device::Pump(1)));
        assert!(names("Far circulation", Device::Circulation));
        assert!(names("Blower (add-on)", Device::Blower));
        assert!(!names("Pump 12", Device::Pump(1)));
        assert!(!names("Aux", Device::Blower));
        assert!(!names("Pump", Device::Pump(1)));
    }
}
