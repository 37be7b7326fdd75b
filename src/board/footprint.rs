//! How much room a thing takes on its circuit board. The sizes are common practice for parts of
//! this kind, no standard; the checker refuses what overlaps by them and the plan draws by them.

use super::{
    BankId, Board, FuseId, GroupId, HeaderId, JumperId, LinkId, PartId, SelectorId, Socket,
    TerminalId,
};
use crate::geometry::{Point, Rect, Side, Size};

/// Width of a socket's housing across its row of pins, mm.
pub const SOCKET_WIDTH: f64 = 8.0;
/// A terminal for one supply conductor, mm.
const TERMINAL: Size = Size::new(8.0, 8.0);
/// The fixed end of a jumper or of a link, mm.
const FOOT: Size = Size::new(4.0, 4.0);
/// A fuse in its holder, mm.
const FUSE: Size = Size::new(8.0, 5.0);
/// One tab of a group, mm.
const TAB: Size = Size::new(5.0, 5.0);
/// Distance of the ways of a switch bank, mm.
const WAY: f64 = 2.54;
/// Housing of a switch bank beyond its ways, both ends together, and its width, mm.
const BANK: Size = Size::new(4.0, 9.0);

/// A rotary selector, mm.
pub const SELECTOR: Size = Size::new(10.0, 10.0);

/// Room of a socket whose key faces `key` on the board, mm.
pub fn socket_size(socket: &Socket, key: Option<Side>) -> Size {
    let length = socket.pitch.0 * socket.pins.len() as f64;
    let width = SOCKET_WIDTH.min(length.max(6.0));
    // A family with its key drawn to the right or left lists its pins in a column, else in a row.
    match (socket.key_drawn, key) {
        (_, Some(Side::Up | Side::Down)) => Size::new(length, width),
        _ => Size::new(width, length),
    }
}

/// Room of a switch bank of so many ways with ON printed at `on_side`, mm.
pub fn bank_size(ways: u8, on_side: Side) -> Size {
    let (length, width) = (f64::from(ways) * WAY + BANK.width, BANK.height);
    match on_side {
        Side::Up | Side::Down => Size::new(length, width),
        Side::Left | Side::Right => Size::new(width, length),
    }
}

/// Room of a group of so many tabs, mm.
pub fn group_size(tabs: u8) -> Size {
    Size::new(f64::from(tabs.max(1)) * TAB.width, TAB.height)
}

/// Room of a terminal, of a foot and of a fuse, mm.
pub const fn fixed_sizes() -> [Size; 3] {
    [TERMINAL, FOOT, FUSE]
}

impl Board {
    fn on_drawing(&self, part: PartId, at: Point, size: Size) -> Rect {
        Rect::around(self.place(part, at), size)
    }

    /// Where the terminal lies on the drawing, mm.
    pub fn terminal_footprint(&self, id: TerminalId) -> Rect {
        self.on_drawing(self[id].part, self[id].at, TERMINAL)
    }

    /// Where the link's fixed end lies on the drawing, mm.
    pub fn link_footprint(&self, id: LinkId) -> Rect {
        self.on_drawing(self[id].part, self[id].at, FOOT)
    }

    /// Where the group's row of tabs lies on the drawing, mm.
    pub fn group_footprint(&self, id: GroupId) -> Rect {
        self.on_drawing(self[id].part, self[id].at, group_size(self[id].tabs))
    }

    /// Where the jumper's fixed end lies on the drawing, mm.
    pub fn jumper_footprint(&self, id: JumperId) -> Rect {
        self.on_drawing(self[id].part, self[id].at, FOOT)
    }

    /// Where the fuse lies on the drawing, mm.
    pub fn fuse_footprint(&self, id: FuseId) -> Rect {
        self.on_drawing(self[id].part, self[id].at, FUSE)
    }

    /// Where the header lies on the drawing, turned by its key, mm.
    pub fn header_footprint(&self, id: HeaderId) -> Rect {
        let header = &self[id];
        self.on_drawing(header.part, header.at, socket_size(&self[header.socket], header.key))
    }

    /// Where the rotary selector lies on the drawing, mm.
    pub fn selector_footprint(&self, id: SelectorId) -> Rect {
        self.on_drawing(self[id].part, self[id].at, SELECTOR)
    }

    /// Where the switch bank lies on the drawing, mm.
    pub fn bank_footprint(&self, id: BankId) -> Rect {
        let bank = &self[id];
        self.on_drawing(bank.part, bank.at, bank_size(bank.ways(), bank.on_side))
    }
}
