//! Short texts of a course.

use super::key::phrases;
use crate::board::{Device, Speeds};
use crate::decide::ReadFrom;
use crate::decide::currents::Running;
use crate::geometry::Side;

phrases! {
    /// `two speeds`: how many a device or its cord has.
    device_speeds(speeds: Speeds);
    /// `circulation pump`: a device without an article.
    device_noun(device: Device);
    /// `a jet pump with two speeds`, which is fitted.
    fitted_jet_pump(speeds: Speeds);
    /// `jet pump 2 with one speed`, which is fitted.
    fitted_numbered_jet_pump(number: &str, speeds: Speeds);
    /// `a blower with one speed`, `an ozonator`, which is fitted.
    fitted_device(device: Device, speeds: Speeds);
    /// `pump 1, two speeds`: what a header serves.
    served_with_speeds(device: Device, speeds: Speeds);
    /// `at the right`: where a socket has its key.
    key_side(side: Side);
    /// `top`: where pins are read from, after *from the*.
    pins_read_from(from: ReadFrom);
    /// `all ways off`: how a switch bank stands.
    all_ways_off();
    /// `1 and 4 on, all others off`: how a switch bank stands; `count` of its ways are on.
    bank_ways_on(count: usize, ways: &str);
    /// `on low`: how a device runs when currents are added up.
    device_runs(running: Running, two_speeds: bool);
    /// `layout table, row 7`: where an answer is looked up.
    row_of_layout(layout: &str);
    /// `header table, row J5`
    row_of_header(header: &str);
    /// `jumper table, row W3`
    row_of_jumper(jumper: &str);
    /// `group table, group B`
    row_of_group(group: &str);
    /// `lists of pins, row “Three-pin keyed power header”`
    row_of_pins(socket: &str);
    /// `settings table of S1, switches 1–2`
    row_of_settings(bank: &str, ways: usize, label: &str);
    /// `settings table of S1`
    settings_table(bank: &str);
    /// `group table, column “240 V, four wires”`
    column_of_supply(supply: &str);
    /// `wiring sheets, supply, terminal T1`
    picture_of_terminal(terminal: &str);
    /// `wiring sheets, supply, link W11`
    picture_of_link(link: &str);
}
