//! Words in figures.

use super::Words;
use super::key::phrases;
use crate::board::{Conductor, Device, Effect, Field, Pin, Speeds, WireColour};
use crate::decide::{PinOrder, ReadFrom};
use crate::geometry::Side;

phrases! {
    // Supplies.
    /// `Terminals, from the top`
    terminals_heading(read_from: ReadFrom);
    /// `Voltage between conductors`
    voltages_heading();
    /// `120/240 V. The picture shows the terminals from the top. Connect PE to TG. …`: of a supply, by its title.
    supply_described(supply: &str, read_from: ReadFrom, terminals: &str);
    /// `Connect L1 to T1.`
    terminal_takes(terminal: &str, conductor: Conductor);
    /// `Connect nothing to T3.`
    terminal_takes_nothing(terminal: &str);
    /// `W11: move from X1 to X2.`
    link_moves(link: &str, from: &str, to: &str);
    /// `W11: leave on X1.`
    link_stays(link: &str, terminal: &str);
    /// `5 W11: leave on X1.`: a step's number and what it does.
    step_and_words(step: usize, words: &str);
    /// `L1 to N: 120 V.`
    voltage_between(from: &str, to: &str, volts: &str);
    /// How the numbers in a picture without links are followed.
    connect_in_order();
    /// The same with links.
    connect_and_link_in_order();
    /// `line wire 1`, `ground wire`
    conductor_name(conductor: Conductor);
    /// `green and yellow`: a colour of IEC 60757.
    wire_colour(colour: WireColour);
    /// `green and yellow (GNYE)`
    colour_and_letters(colour: WireColour);
    /// `GNYE`: the letters of a colour; a wire without insulation has a word.
    wire_letters(colour: WireColour);
    /// `green and yellow`: in the key of the letters.
    wire_colour_in_key(colour: WireColour);
    /// `connect nothing`: beside a terminal that takes nothing.
    nothing_lands();
    /// `marked green and yellow (GNYE)`
    terminal_marked(colour: WireColour);
    /// `A 240 V`: a group and what it gives.
    group_gives(group: &str, volts: &str);
    /// `Groups: A 240 V, B 120 V.`
    groups_give(groups: &str);
    /// `Groups B, C run no device with this supply. Their tabs can be live.`
    groups_not_available(count: usize, groups: &str);

    // Switch banks.
    /// `Switch bank S1`
    switch_bank_title(bank: &str);
    /// `Switch bank S1, 1 of 2`
    switch_bank_title_numbered(bank: &str, number: usize, count: usize);
    /// `Switch bank S1. ON is printed at the top edge. As shipped: 1 off, 2 on.`
    switch_bank_described(bank: &str, on_side: Side, positions: &str);
    /// Beside a bank as it is shipped: that, and where ON is.
    switch_bank_shipped(on_side: Side);
    /// `Switches 1–2: heater allowance`
    switches_and_effect(ways: usize, label: &str, effect: &Effect);
    /// `Switch 4`
    switches_named(ways: usize, label: &str);
    /// `Switches 6–7: not used`
    switches_not_used(ways: usize, label: &str);
    /// `4`: a heater allowance beside the bank that sets it.
    allowance_alone(allowance: usize);
    /// `layout 3`: beside the switches that set it.
    layout_meant(layout: &str);
    /// `no layout`: beside the switches or at the position that set none.
    no_layout_meant();
    /// `1 off, 2 off: 0, as shipped.` The meaning comes without a full stop.
    setting_described(positions: &str, meaning: &str, shipped: bool);
    /// `heater allowance`: what a field of a switch bank does.
    effect_name(effect: &Effect);
    /// `1 off`
    way_position(way: usize, on: bool);
    /// `1 on (moved)`
    way_moved(way: usize, on: bool);
    /// `S1 with 4 ways and no sliders. ON is printed at the top edge.`
    blank_bank_described(bank: &str, ways: usize, on_side: Side);
    /// `Selector S2`
    selector_title(selector: &str);
    /// `S2 at A (moved). Its positions, clockwise from the top: 0, 1, A.`
    selector_described(selector: &str, position: &str, moved: bool, positions: &str);
    /// `Switches`
    switches_title();
    /// `S1: 1 off, 2 on (moved).`
    switches_described(bank: &str, positions: &str);

    // The questions that find the layout.
    /// `Questions that find the layout`
    questions_title();
    /// `Questions that find the layout, 1 of 3`
    questions_title_numbered(number: usize, count: usize);
    /// `Start here`
    questions_start();
    /// The same where switches set the number.
    questions_start_switches(count: usize, ways: &str, bank: &str);
    /// The same where a selector sets it.
    questions_start_selector(selector: &str);
    /// `A begins here`
    questions_go_on(part: &str);
    /// `pump 1?`
    question_about(device: Device);
    /// `not fitted`, `one speed`, `two speeds`
    speeds_fitted(speeds: Speeds);
    /// `pump 1 two speeds`
    question_answered(device: Device, speeds: Speeds);
    /// `Layout 3.`: there is nothing to ask.
    layout_unasked(layout: &str);
    /// `Layout 3: pump 1 two speeds, blower not fitted.`
    layout_after(layout: &str, answers: &str);
    /// `Go on at A: pump 1 two speeds.`
    part_after(part: &str, answers: &str);

    // Sockets.
    /// `Headers from the front`
    sockets_title();
    /// `Headers from the front, 1 of 2`
    sockets_title_numbered(number: usize, count: usize);
    /// From which side headers and plugs are seen.
    sockets_view();
    /// `ground`
    pin_name(pin: Pin);
    /// `ground GNYE`: beside a cavity.
    pin_and_letters(pin: Pin, colour: WireColour);
    /// `ground (green and yellow)`
    pin_and_colour(pin: Pin, colour: WireColour);
    /// `empty`: a cavity that brings no wire.
    cavity_empty();
    /// `key`: beside the key of a header.
    key_mark();
    /// `live`: under *common*.
    live_mark();
    /// `can be live`: under *common*.
    can_be_live_mark();
    /// `live, L1`: under *common*.
    live_line_mark(line: Conductor);
    /// `Key to the right. Read from the top.`
    socket_reading(key: Side, read_from: ReadFrom);
    /// `No key. Read from the top.`
    socket_reading_without_key(read_from: ReadFrom);
    /// `two speeds` or `all pins`: over a socket that stands beside a cord with one speed.
    whole_socket(two_speeds: bool);
    /// `one speed`: over the socket with that cord.
    one_speed_cord();
    /// `J1 on the board plan`: where a link leads.
    header_on_plan(header: &str);
    /// `J1, Pump: Key to the right. Read from the top. high, low.`
    socket_described(header: &str, title: &str, reading: &str, pins: &str);
    /// `Common is live.`
    common_is_live();
    /// `Common can be live.`
    common_can_be_live();
    /// `Common is live: L1.`
    common_is_live_on(line: Conductor);
    /// `Plug of a one-speed device: high, empty, common, ground.`
    one_speed_cord_described(pins: &str);

    // Steps of a work card.
    /// `Lock off, tag and test`
    lock_off_title();
    /// `A breaker that is off, a padlock on it, a tag, and a meter that reads 0 V.`
    lock_off_described();
    /// `OFF`: the word that is printed on a breaker.
    off_mark();
    /// `TAG`: on the tag of who works.
    tag_mark();
    /// `Supply wires, ground wire first`
    connections_title();
    /// `first`: beside the wire that is connected first.
    first_mark();
    /// `Jumpers that move`
    jumper_moves_title();
    /// `Jumper W3 from group C to group B.`
    jumper_moves_told(jumper: &str, from: &str, to: &str);
    /// `Links that move`
    link_moves_title();
    /// `Link W11 from X1 to X2.`
    link_moves_told(link: &str, from: &str, to: &str);
    /// `seen from the front`: over a header.
    seen_from_front();
    /// `J1: pump 1, two speeds, 240 V.`
    cord_described(header: &str, device: Device, speeds: Speeds, volts: &str);
    /// `Pins from the top: ground, common, low, high.`
    cord_pins_described(read_from: ReadFrom, pins: &str);

    // Exercises.
    /// `Header J1, filled in`
    drawn_socket_title(header: &str);
    /// `From the top: ground, common, low, high.`
    drawn_socket_described(read_from: ReadFrom, pins: &str);
    /// `Header J1, not filled in`
    blank_socket_title(header: &str);
    /// `4 cavities to be named from the top.`
    blank_socket_described(cavities: usize, read_from: ReadFrom);
    /// `One list of pins, turned`
    turns_title();
    /// `as in the list`: over a socket whose key is where the list has it.
    turn_as_listed();
    /// `turned`: over a socket whose key is elsewhere.
    turn_turned();
    /// `key to the right`
    turn_key(key: Side);
    /// `Key to the right: from the top, places 1, 2, 3, 4.`
    turn_described(key: Side, read_from: ReadFrom, places: &str);

    // The board plan.
    /// `Heron 8: board plan`
    board_plan_of(board: &str);
    /// `Heron 8, set up`
    board_set_up(board: &str);
    /// `Plan of Heron 8 seen from the front, to scale: 2 circuit boards, 8 headers. …`
    board_plan_described(board: &str, counts: &str);
    /// `2 circuit boards`
    parts_counted(count: usize);
    /// `2 headers`
    headers_counted(count: usize);
    /// `2 voltage groups`
    groups_counted(count: usize);
    /// `2 jumpers`
    jumpers_counted(count: usize);
    /// `{count} switches`
    switches_counted(count: usize);
    /// `2 fuses`
    fuses_counted(count: usize);
    /// `2 switch banks`
    banks_counted(count: usize);
    /// `Heron 8 seen from the front, to scale, as this job sets it up.`
    board_set_up_described(board: &str);
    /// `J3: pump 1.`
    header_takes(header: &str, device: Device);
    /// `J5: leave empty.`
    header_stays_empty(header: &str);
    /// `Jumper W1 on group A, moved.`
    jumper_stands(jumper: &str, group: &str, moved: bool);
    /// `It may go to B, C.`: after the jumper.
    jumper_may_go(groups: &str);
    /// `J3 Pump 1: see its socket`
    see_socket(header: &str, title: &str);
    /// `leave empty`: at a header that nothing may be plugged into.
    leave_empty();
    /// `no voltage`: at a group that gives nothing.
    no_voltage();
    /// `moved`: at a jumper or a link.
    moved_mark();
    /// `group A`: what feeds a header.
    group_named(group: &str);
    /// `ON`: the word that is printed on a switch bank.
    on_mark();
    /// `Legend`
    legend_title();
    /// `on group A`: beside the flag of a jumper.
    legend_group(group: &str);
    /// `may go to these groups`: beside the letters in a broken frame.
    legend_may_go();
    /// `the tab that W1 is on`: beside the tag at a tab.
    legend_tag(jumper: &str);
    /// `as shipped`: at a switch that a job leaves.
    legend_shipped();
    /// `moved from shipped`
    legend_moved();
    /// `Where there is no line, the flags say where a jumper is.`
    legend_flags_alone();
    /// `This is a part of the board. Other pictures show the rest.`
    legend_part_of_board();
    /// `key side of a socket`
    legend_key();
    /// `ON side of a switch bank`
    legend_on();
}

impl Words {
    /// The positions of a field's ways, each with its number: `1 off, 2 on`. Each way is named,
    /// because a bank that is mounted the other way round shows them in the other order.
    pub fn way_positions(&self, field: &Field, positions: &[bool]) -> String {
        let ways = (field.first..=field.last).zip(positions);
        let all: Vec<String> =
            ways.map(|(way, on)| self.way_position(usize::from(way), *on)).collect();
        self.commas(&all)
    }

    /// The pins of a cord in a row, with the colours of the wires where they are known, and the word
    /// for a cavity that stays empty.
    pub fn pin_names(&self, order: &PinOrder) -> String {
        let names: Vec<String> =
            order.cavities().map(|(pin, colour)| self.cavity(pin, colour)).collect();
        self.commas(&names)
    }

    /// `ground (green and yellow)`, `ground` or `empty`.
    pub fn cavity(&self, pin: Option<Pin>, colour: Option<WireColour>) -> String {
        match (pin, colour) {
            (None, _) => self.cavity_empty(),
            (Some(pin), None) => self.pin_name(pin),
            (Some(pin), Some(colour)) => self.pin_and_colour(pin, colour),
        }
    }
}
