//! Mistakes, what is noticed of them, and what to check.

use super::key::phrases;
use crate::board::{Conductor, Device};
use crate::decide::ReadFrom;
use crate::geometry::Side;

phrases! {
    // Mistakes: a clause that begins small and has no full stop.
    /// `the layout number is {number}`
    layout_number_is(number: &str);
    /// `selector {selector} is at {position}`
    selector_is_at(selector: &str, position: &str);
    /// `{jumper} is on group {group}`
    jumper_is_on(jumper: &str, group: &str);
    /// `{first} and {second} have changed places`
    jumpers_swapped(first: &str, second: &str);
    /// `the plug of {device} is in {header}`
    plug_is_in(device: Device, header: &str);
    /// `the plug of {first} is in {first_in} and that of {second} in {second_in}`
    plugs_swapped(first: Device, first_in: &str, second: Device, second_in: &str);
    /// `way {way} of {bank} is off`
    way_is(way: &str, bank: &str, on: bool);
    /// `ways {ways} of {bank} stand as shipped`
    ways_as_shipped(count: usize, ways: &str, bank: &str);
    /// `the house gives {supply}`
    house_gives(supply: &str);
    /// `L1 and L2 come from one line of the panelboard`
    lines_are_one(line: Conductor, taken: Conductor);
    /// `the neutral (N) is on a neutral bar, not on the ground-fault protection`
    neutral_is_past();
    /// `the neutral (N) touches the ground (PE) behind the ground-fault protection`
    neutral_is_grounded();
    /// A wire that has no letters.
    a_wire();
    /// In place of a wire.
    no_wire();
    /// A supply conductor with its word, where letters alone say too little.
    wire_name(conductor: Conductor);
    /// `{wire} is not landed on {terminal}`
    wire_not_landed(wire: &str, terminal: &str);
    /// `{wire} is on {terminal}`
    wire_is_on(wire: &str, terminal: &str);
    /// `{link} is on {terminal}`
    link_is_on(link: &str, terminal: &str);
    /// `the cord of {device} is right at {header}`
    cord_is_right(device: Device, header: &str);
    /// `the wires of {device} have changed ends at {header}`
    wires_changed_ends(device: Device, header: &str);
    /// `the cord of {device} is turned round at {header}`
    cord_is_turned(device: Device, header: &str);
    /// `the cord of {device} has no gap at {header}: its wires lie side by side`
    cord_has_no_gap(device: Device, header: &str);
    /// `the plug of {device} sits one pin too far to the left at {header}`
    plug_is_off(device: Device, side: Side, header: &str);
    /// `in the plug of the ozonator at J4, the wires are in their old cavities`
    wires_as_before(device: Device, header: &str);
    /// `the plug of the blower is not in J5`
    plug_is_out(device: Device, header: &str);
    // What is noticed: clauses.
    /// `there is a button for {device}, which is not fitted`
    spare_button(device: Device);
    /// The board itself runs what is not fitted.
    spare_call(device: Device);
    /// `the metal of {device} is live`
    metal_is_live(device: Device);
    /// `the button of {role} runs {device}`
    button_runs(role: Device, device: Device);
    /// A device with what it does: one of the phrases `does_…`.
    device_does(device: Device, does: &str);
    /// `the metal of all equipment is live`
    all_metal_is_live();
    /// `nothing is grounded`
    nothing_is_grounded();
    /// `the neutral touches the ground: if it opens, all metal is live`
    metal_on_neutral();
    /// `the circuit board burns out (voltage too high)`
    board_burns();
    /// `the panel shows nothing`
    panel_is_dead();
    /// Of a board without a panel: `nothing runs`
    board_is_dead();
    /// `the panel may show nothing`
    panel_is_weak();
    /// Of a board without a panel: `the board may not start`
    board_is_weak();
    /// `the ground-fault protection trips at once`
    ground_fault_at_once();
    /// `the ground-fault protection trips when the heater comes on`
    ground_fault_with_heat();
    /// `the ground-fault protection trips when another device comes on`
    ground_fault_with_device();
    /// `the ground-fault protection trips`
    ground_fault_trips();
    /// `the supply wires carry too much, and nothing trips`
    overloaded();
    /// `{header} carries too much and gets hot`
    header_is_hot(header: &str);
    /// `the breaker trips at once`
    breaker_trips_at_once();
    /// `the breaker trips when much runs together`
    breaker_trips();
    /// `the breaker trips after a while`
    breaker_trips_later();
    /// `fuse {fuse} may blow after a while`
    fuse_may_blow(fuse: &str);
    /// `fuse {fuse} blows`
    fuse_blows(fuse: &str);
    /// `ways {ways} of {bank} mean something else`
    ways_mean_otherwise(count: usize, ways: &str, bank: &str);
    /// `{bank} means something else`
    bank_means_otherwise(bank: &str);
    // What a device does: the end of a sentence that begins with the device.
    /// `has live metal`
    does_live_metal();
    /// `is not grounded`
    does_no_ground();
    /// `is off, but all its wires are live`
    does_stay_live();
    /// `burns out, its voltage is too high`
    does_burn_out();
    /// `hums, runs hot or is weak`
    does_hum();
    /// `works weakly or not at all`
    does_work_weakly();
    /// `cannot be turned off`
    does_never_stop();
    /// `does nothing`
    does_nothing();
    /// `runs on high only, or on every second press only`
    does_high_only_or_second_press();
    /// `runs on high only`
    does_high_only();
    /// `runs on every second press only`
    does_second_press();
    /// Of a device without a button: `runs at high speed only, or starts only when the board commands
    /// high speed`
    does_high_only_or_on_command();
    /// `starts only when the board commands high speed`
    does_on_command();
    /// `runs on low only`
    does_low_only();
    /// `runs on high for low, and on low for high`
    does_swap_speeds();
    /// `runs on the button of {role}`
    does_run_on_button(role: Device);
    /// `runs on another button`
    does_run_on_another_button();
    /// `runs in place of {role}`
    does_run_in_place(role: Device);
    /// `never comes on`
    does_never_come_on();
    /// `heats slowly`
    does_heat_slowly();
    /// `goes off while pumps or blowers are on high`
    does_go_off();
    /// The same where the allowance is a current.
    does_wait();
    /// `is not fitted`
    does_lack();
    // The same with the numbers of a case. `$what` is one of the clauses above.
    /// `{what}: {volts}, unless the ground-fault protection trips`
    unless_it_trips(what: &str, volts: &str);
    /// `{what}, if the metal is bonded`
    if_bonded(what: &str);
    /// `at once`
    at_once();
    /// `{what}: {volts} to ground`
    with_volts_to_ground(what: &str, volts: &str);
    /// `{what}, and nothing runs`
    and_nothing_runs(what: &str);
    /// `{what}: {volts}`
    with_volts(what: &str, volts: &str);
    /// `{device} gets {volts} in place of {plate} and burns out`
    burns_out_on(device: Device, swings: bool, volts: &str, plate: &str);
    /// `{what}, on a voltage that changes with what else runs`
    on_changing_volts(what: &str);
    /// `{what}, on {volts} in place of {plate}`
    on_wrong_volts(what: &str, volts: &str, plate: &str);
    /// `{what}: both speeds at once`
    both_speeds_at_once(what: &str);
    /// `even while {device} is off`
    even_while_off(device: Device);
    /// `when {device} is put on low`
    when_put_on_low(device: Device);
    /// `when {device} is put on high`
    when_put_on_high(device: Device);
    /// `when {device} is turned on`
    when_turned_on(device: Device);
    /// `{what} {when}`
    trips_when(what: &str, when: &str);
    /// `{device} on low`
    device_on_low(device: Device);
    /// `{device} on high`
    device_on_high(device: Device);
    /// `when {what} runs`
    when_one_runs(what: &str);
    /// `when {all} run together`
    when_all_run(all: &str);
    /// `the current in {conductor} is {amps} {when}, and the wires may carry {allowed}`
    overload_of_wire(amps: &str, conductor: Conductor, when: &str, allowed: &str);
    /// `{amps} flow in {conductor} {when}, and the board may carry {allowed}`
    overload_of_board(amps: &str, conductor: Conductor, when: &str, allowed: &str);
    /// `the breaker of {breaker} trips {when}: {amps} in {conductor}`
    breaker_trips_on(breaker: &str, when: &str, amps: &str, conductor: Conductor);
    /// `the breaker of {breaker} may trip after a while {when}: {amps} in {conductor}`
    breaker_may_trip_on(breaker: &str, when: &str, amps: &str, conductor: Conductor);
    /// `{header} carries {amps} and gets hot; it may carry {allowed}`
    header_carries(header: &str, amps: &str, allowed: &str);
    /// `{what}: {amps} flow, and it has {allowed}`
    fuse_carries(what: &str, amps: &str, allowed: &str);
    /// `{device} runs on high only`
    high_only(device: Device);
    /// `{device} runs on every second press of its button only`
    second_press_only(device: Device);
    /// `{device} starts only when the board commands high speed`
    on_command_only(device: Device);
    /// `{what}: {watts} in place of {full}`
    watts_in_place_of(what: &str, watts: &str, full: &str);
    /// `the heater goes off when more than {most} pumps and blowers are on high`
    heater_goes_off(most: usize);
    /// `the heater waits when the sum of all currents would be above {amps}`
    heater_waits(amps: &str);
    /// `{what}; it should be: “{meaning}”`
    should_mean(what: &str, meaning: &str);
    // What to check, and what right looks like: clauses.
    /// `layout number {number}`
    layout_number(number: &str);
    /// `{jumper} on group {group}`
    jumper_on(jumper: &str, group: &str);
    /// `{jumper} on group {group}, {volts}`
    jumper_on_volts(jumper: &str, group: &str, volts: &str);
    /// `plug of {device} in {header}`
    plug_of_in(device: Device, header: &str);
    /// `{device} at {header}: {pins}`
    cord_seen(device: Device, header: &str, keyed: bool, pins: &str);
    /// `the neutral on the ground-fault protection, not on a neutral bar`
    neutral_path();
    /// `no path from the neutral to the ground behind the protection`
    neutral_ground();
    /// `{link} on {terminal}`
    link_on(link: &str, terminal: &str);
    /// `from the left: {pins}`
    pins_from(from: ReadFrom, pins: &str);
    /// `{bank}: all ways off`
    bank_all_off(bank: &str);
    /// `{bank}: all ways on`
    bank_all_on(bank: &str);
    /// `{bank}: ways {ways} on, all others off`
    bank_some_on(bank: &str, count: usize, ways: &str);
    /// `{wire} on {terminal}`
    wire_on(wire: &str, terminal: &str);
    /// One list after another.
    semicolon(first: &str, rest: &str);
    /// `ways {ways} of {bank}`
    ways_of(count: usize, ways: &str, bank: &str);
    /// `ways {ways}`
    count_of_ways(count: usize, ways: &str);
    // The fault finder: what to check.
    /// `layout number`
    check_layout();
    /// `jumper`
    check_jumper();
    /// `jumper on the nameplate voltage`
    check_jumper_by_nameplate();
    /// `plug`
    check_plug();
    /// `plug of {device}`
    check_plug_of(device: Device);
    /// `wires in the plug`
    check_cord();
    /// `wires in the plug of {device}`
    check_cord_of(device: Device);
    /// `link`
    check_link();
    /// `supply wires`
    check_landing();
    /// `switch bank`
    check_bank();
    /// `heater allowance`
    check_allowance();
    /// `fuse, taken out: continuity`
    check_fuse();
    /// `supply voltage`
    check_voltage();
    /// `voltage while it runs`
    check_voltage_running();
    // The fault finder: what is correct.
    /// `with two speeds: {two}; with one speed: {one}`
    layout_by_speeds(two: &str, one: &str);
    /// `one of {layouts}`
    layout_one_of(layouts: &str);
    /// `the number for the installed equipment`
    layout_of_equipment();
    /// `in {header}`
    in_header(header: &str);
    /// `in {header} (layouts {layouts})`
    in_header_under(header: &str, layouts: &str);
    /// `{pins}; with one speed: {one}`
    pins_by_speeds(pins: &str, one: &str);
    /// `at {places}: {correct}`
    correct_at(places: &str, correct: &str);
    /// `{switches}, as planned for this spa`
    switches_as_planned(switches: &str);
    /// `{link} on the terminal for this supply`
    link_by_supply(link: &str);
    /// `{terminals}: each wire on its own terminal`
    landing_by_supply(terminals: &str);
    /// `{from} to {to}`
    terminal_pair(from: &str, to: &str);
    /// `{pairs}: {volts}`
    pairs_and_volts(pairs: &str, volts: &str);
    /// `{volts} (supply: {supplies})`
    volts_under(volts: &str, supplies: &str);
    /// `{volts} (not with {supplies})`
    volts_not_under(volts: &str, supplies: &str);
    /// `{device} {place}`, where the place is `in J2`
    plug_place(device: &str, place: &str);
    // The fault finder: where it is drawn.
    /// `plan`
    see_plan();
    /// `supply`
    see_supply();
    /// `voltages`
    see_voltages();
    /// `layouts`
    see_layouts();
    /// `panel`
    see_panel();
    /// Where the layout number of a job stands if there is no panel: `page 1`
    see_first_page();
    /// `headers`
    see_headers();
    // The fault finder: what to check even if all works.
    /// `The layout number fits the installed equipment`
    all_layout_fits();
    /// `Layout number {number}`
    all_layout_number(number: &str);
    /// `Each jumper is on the group with the nameplate voltage`
    all_jumpers();
    /// `Each plug is in its header`
    all_plugs();
    /// `Plugs: {places}`
    all_plugs_in(places: &str);
    /// `Wires in each plug: in the order of the header`
    all_cords_drawn();
    /// `Each switch is set as planned for this spa`
    all_switches();
    /// `Each link is on its terminal`
    all_links();
    /// `The ground wire (PE) is on {terminals}, each other wire on its terminal`
    all_landed(terminals: &str);
    /// `The neutral is on the ground-fault breaker, not on a neutral bar`
    all_neutral_path();
    /// `The neutral (N) does not touch the ground (PE) behind the breaker`
    all_neutral_ground();
    /// `incoming supply voltage {expected}`
    all_voltage(expected: &str);
    // The fault finder: what is so otherwise, as sentences.
    /// `All metal is live.`
    otherwise_all_live();
    /// `The metal of {devices} is live.`
    otherwise_live(devices: &str);
    /// `Nothing is grounded.`
    otherwise_nothing_grounded();
    /// `All metal is live when the neutral opens.`
    otherwise_neutral_grounded();
    /// `The metal of {devices} has no ground.`
    otherwise_no_ground(devices: &str);
    /// `The metal of {devices} has no ground or is live.`
    otherwise_no_ground_or_live(devices: &str);
    /// `All wires of {devices} stay live while it is off.`
    otherwise_stays_live(devices: &str);
    /// `The supply wires carry too much and can burn.`
    otherwise_overload(burns: bool);
    /// `{headers} carries too much and can burn.`
    otherwise_header_hot(headers: &str, burns: bool);
    // The fault finder: rows that gather several signs.
    /// `Fuse {fuses} blows`
    some_fuse_blows(fuses: &str);
    /// `the panel has a button for {devices}, which is not fitted`
    spare_buttons(devices: &str);
    /// `the board calls for {devices}, which is not fitted`
    spare_calls(devices: &str);
    /// `the panel has a button for {devices}, or the board calls for {called}, which is not fitted`
    spare_buttons_and_calls(devices: &str, called: &str);
    /// `the panel has a button for what is not fitted`
    some_spare_button();
    /// `the layout includes a device that is not installed`
    some_spare_call();
    /// `One of these holds, but should not: {meanings}`
    one_of_these_holds(meanings: &str);
    /// `“{words}”`
    quoted(words: &str);
    /// `A function does not work as wanted`
    some_setting_holds();
    /// `{devices} {does}`
    devices_do(devices: &str, does: &str);
    /// `{rating} {kind}`, where the kind is the letters of its standard: `T`
    fuse_rating(rating: &str, kind: &str);
    /// `{fuse}, {rating}`
    fuse_and_rating(fuse: &str, rating: &str);
}
