//! The rows of every table: each field is a column, its comment what the column holds.

use super::{Column, Row, TableKind, Value};
use crate::tables::Cell;

macro_rules! table {
    (
        $(#[doc = $about:literal])+
        $row:ident = $name:literal;
        $($(#[doc = $of_column:literal])+ $field:ident: $type:ty,)+
    ) => {
        $(#[doc = $about])+
        pub(super) struct $row {
            $($(#[doc = $of_column])+ pub $field: $type,)+
        }

        impl Row for $row {
            const KIND: TableKind = TableKind {
                name: $name,
                about: concat!($($about),+),
                columns: &[$(Column {
                    name: stringify!($field),
                    about: concat!($($of_column),+),
                    kind: <$type as Value>::KIND,
                    optional: <$type as Value>::OPTIONAL,
                }),+],
            };

            fn cells(self) -> Vec<Cell> {
                vec![$(self.$field.cell()),+]
            }
        }
    };
}

pub(super) const KINDS: [TableKind; 9] = [
    HeaderRow::KIND,
    GroupRow::KIND,
    VoltageRow::KIND,
    LayoutRow::KIND,
    ServiceRow::KIND,
    SettingRow::KIND,
    AllowanceRow::KIND,
    LimitRow::KIND,
    PinRow::KIND,
];

table! {
    /// A header.
    HeaderRow = "headers";
    /// Its label.
    header: String,
    /// Its title, as printed beside it.
    title: String,
    /// The circuit board that it is on, by its name in the specification.
    part: String,
    /// Its middle on the board plan, from the left.
    x_mm: f64,
    /// Its middle on the board plan, from the top.
    y_mm: f64,
    /// Its connector family, by its name in the specification.
    socket: String,
    /// The title of that family.
    socket_title: String,
    /// From pin to pin.
    pitch_mm: f64,
    /// How many pins it has.
    pins: u8,
    /// The side that the key faces; empty for a socket without a key.
    key: Option<&'static str>,
    /// The jumper that sets its voltage; empty if its group is fixed.
    jumper: Option<String>,
    /// The voltage group that it is on when the board is delivered.
    group: String,
    /// The fuse in front of it.
    fuse: Option<String>,
    /// What that fuse is rated for.
    fuse_amps: Option<f64>,
    /// How fast that fuse opens, in the word of the specification.
    fuse_speed: Option<String>,
    /// The most that the header may carry; empty if the specification does not say it.
    max_amps: Option<f64>,
}

table! {
    /// A voltage group under a supply.
    GroupRow = "groups";
    /// The supply, by its name in the specification.
    supply: String,
    /// The group.
    group: String,
    /// The circuit board that it is on.
    part: String,
    /// How many tabs it has.
    tabs: u8,
    /// Whether it is apart from the mains, whatever the supply.
    isolated: bool,
    /// What it gives, as computed: 207.846089 where a sheet says 208 V. Empty if it gives nothing.
    volts: Option<f64>,
    /// The conductor at its first point.
    conductor: Option<String>,
    /// The conductor that *common* pins join.
    common_conductor: Option<String>,
    /// Whether *common* pins on it are live.
    common_live: bool,
}

table! {
    /// A header on a group that it can be on, under a supply.
    VoltageRow = "voltages";
    /// The supply, by its name in the specification.
    supply: String,
    /// The header.
    header: String,
    /// The jumper that sets it; empty if its group is fixed.
    jumper: Option<String>,
    /// The group.
    group: String,
    /// Whether the header is on this group when the board is delivered.
    shipped: bool,
    /// What it then has, as computed; empty if nothing.
    volts: Option<f64>,
    /// Whether its *common* pin is then live.
    common_live: bool,
}

table! {
    /// A device in a layout of the matrix.
    LayoutRow = "layouts";
    /// The number of the layout.
    layout: u8,
    /// The device: a column of the matrix.
    device: String,
    /// How many speeds it has in this layout; 0 if it is not installed.
    speeds: u8,
}

table! {
    /// What a header drives in a layout.
    ServiceRow = "services";
    /// The header.
    header: String,
    /// The number of the layout.
    layout: u8,
    /// The device that it drives there; empty if it stays empty.
    device: Option<String>,
    /// How many speeds that device has there.
    speeds: Option<u8>,
}

table! {
    /// A setting of some ways of a switch bank, or a position of a rotary selector.
    SettingRow = "settings";
    /// The bank or the selector.
    switch: String,
    /// `bank` or `selector`.
    kind: &'static str,
    /// The first of the ways that are set together; empty for a selector.
    first_way: Option<u8>,
    /// The last of them.
    last_way: Option<u8>,
    /// What they are for, in the words of the specification; empty if it gives none.
    effect: Option<String>,
    /// Whether they do anything.
    used: bool,
    /// The positions of the ways in their order, such as `off on`; the name of a selector's position.
    setting: String,
    /// Whether it is so when the board is delivered.
    shipped: bool,
    /// What it means, in the words of the specification, where it is none of the following.
    meaning: Option<String>,
    /// The heater allowance as a count: so many pumps and blowers on high beside the heater.
    allowance_loads: Option<u8>,
    /// The heater allowance as a current: what all that runs may add up to beside the heater.
    allowance_amps: Option<f64>,
    /// The layout that it sets; empty if it sets none.
    layout: Option<u8>,
}

table! {
    /// What a breaker leaves in a line beside the heater.
    AllowanceRow = "allowances";
    /// The supply, by its name in the specification.
    supply: String,
    /// The header of the heater.
    header: String,
    /// The group that the heater is on.
    group: String,
    /// The rules that size the breaker: `nec` or `iec`.
    rules: &'static str,
    /// What the heater then gets, as computed.
    heater_volts: f64,
    /// What it then gives.
    heater_watts: f64,
    /// What it then draws.
    heater_amps: f64,
    /// What it counts for on the breaker.
    heater_counted_amps: f64,
    /// The breaker.
    breaker_amps: f64,
    /// The line.
    line: String,
    /// What everything else may take there. Under `nec` a load that can run for three hours or more takes
    /// 125 % of its current of it.
    left_amps: f64,
    /// What sets that: `breaker` or `board`.
    limited_by: &'static str,
}

table! {
    /// A heater allowance that is a current, with the heater on a group.
    LimitRow = "limits";
    /// The heater allowance.
    allowance_amps: f64,
    /// The supply, by its name in the specification.
    supply: String,
    /// The header of the heater.
    header: String,
    /// The group that the heater is on.
    group: String,
    /// The smallest standard breaker that carries whatever the setting permits; empty above the largest.
    smallest_breaker_amps: Option<f64>,
    /// What everything else may add up to while the heater is on; empty if the heater alone is above it.
    left_amps: Option<f64>,
}

table! {
    /// A pin of a header, by the cord that is plugged in.
    PinRow = "pins";
    /// The header.
    header: String,
    /// How many speeds the device of the cord has; empty for a header that no layout uses.
    cord_speeds: Option<u8>,
    /// Where the counting begins, seen from the front: `top` or `left`.
    read_from: &'static str,
    /// Its place in that order, from 1.
    place: u8,
    /// What it is for; empty for a cavity that the cord leaves empty.
    pin: Option<String>,
    /// The color of the wire there, in letters of IEC 60757, or `bare`; empty if it is not known.
    wire: Option<&'static str>,
}
