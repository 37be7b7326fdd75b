//! Short texts of wiring sheets, lid inserts, forms and the list of sheets.

use super::key::phrases;
use crate::board::{Device, Speeds};
use crate::geometry::Side;

phrases! {
    // Names that several sheets use.
    /// A circuit board that has no title: by its name: `{name} board`
    part_named(name: &str);
    /// `{first}–{last}`
    layout_range(first: &str, last: &str);
    /// `layout {layouts}`
    serves_layouts(several: bool, layouts: &str);
    /// `all`
    all_layouts();
    /// An edge: `left`
    side_name(side: Side);
    // Signal words of ANSI Z535; in other languages as ISO 3864-2 has them.
    /// `DANGER`
    signal_danger();
    /// `WARNING`
    signal_warning();
    /// `CAUTION`
    signal_caution();
    /// `NOTICE`
    signal_notice();
    // Supplies.
    /// `{letters}, {name}`
    conductor_and_name(letters: &str, name: &str);
    /// `{volts} V, split phase`
    split_phase(volts: &str);
    /// `{volts} V, wye`
    wye(volts: &str);
    /// `{volts} V, single phase`
    single_phase(volts: &str);
    // Switches.
    /// `8 AWG copper`
    copper_wire(size: &str);
    /// `Heater allowance {number}.`
    allowance_is(number: &str);
    // The intake form.
    /// `with jets`
    form_pump();
    /// `no jets, one speed`
    form_circulation();
    // The work card and the lid insert.
    /// `2 links`
    links_counted(count: usize);
    /// `L1 to L2`: two wires between which a meter reads.
    measured_between(one: &str, other: &str);
    /// `two speeds, 240 V, 10.8 A`: what a nameplate says. `none` of speeds: a device that cannot
    /// have two.
    nameplate_says(speeds: Speeds, volts: &str, load: &str);
    /// `10.8 A at high speed, 3.1 A at low speed`
    load_high_and_low(high: &str, low: &str);
    /// `The pump with two speeds and 10.8 A on its nameplate is pump 1.`
    pump_by_load(device: Device, speeds: Speeds, load: &str);
    /// `The pump with this nameplate is pump 1: two speeds, 240 V, 10.8 A.`
    pump_by_nameplate(device: Device, plate: &str);
    /// `The nameplates of pump 2 and pump 3 are the same. Either pump can be pump 2.`
    pump_alike(device: Device, all: &[Device], any: bool);
    /// `1 ON`
    set_way(way: usize, on: bool);
    // Warnings of a plan.
    /// `The heater gets 208 V. Its nameplate says 240 V. …`
    warn_heater_weak(volts: &str, plate: &str, watts: &str, full: &str);
    /// `Pump 1 gets 208 V. …`
    warn_voltage_edge(device: Device, volts: &str, end: &str, low: &str, high: &str);
    /// `45 A is not a standard size of a breaker. …`
    warn_odd_breaker(breaker: &str);
    /// `The supply run loses 8 V, or 3.4 %. …`
    warn_run_drop(drop: &str, percent: &str);
    /// `A nameplate gives no power factor. …`: `currents` is empty if no conductor carries more.
    warn_factor_unknown(any: bool, currents: &str);
    /// `The current in N can be above 16 A. …`
    warn_neutral_unseen(breaker: &str);
    /// `The load on the breaker can then be 18 A, …`
    warn_breaker_lag(amps: &str, breaker: &str);
    /// `The current in L1 can then be 52 A, …`
    warn_board_lag(conductor: &str, amps: &str);
    /// `{conductor} {amps}`
    conductor_amps(conductor: &str, amps: &str);
    /// `{kind}: {codes}`
    fuses_listed(kind: &str, codes: &str);
    /// `{watts} at {volts}`
    element_at(watts: &str, volts: &str);
    /// `An allowance of {next} would need {amps} of the breaker.`
    why_breaker(next: &str, amps: &str);
    /// `An allowance of {next} would load a supply wire with {amps}, more than the board may
    /// carry.`
    why_board(next: &str, amps: &str);
    /// `With the heater on, none of {devices} may run on high.`
    allowance_none(count: usize, devices: &[Device]);
    /// `With the heater on, {devices} may all run on high.`
    allowance_all(count: usize, devices: &[Device]);
    /// `With the heater on, {allowed} of {devices} may run on high.`
    allowance_some(allowed: usize, devices: &[Device]);
    // The wiring sheets.
    /// Stands for the number in the steps of a panel: `the layout number`
    any_layout_number();
    // The list of sheets.
    /// `Wiring sheets and lid inserts`
    index_title();
    /// `Wiring sheets, PDF`
    index_sheets();
    /// `Intake form, PDF`
    index_form();
    /// `Work card, PDF`
    index_card();
    /// `Lid insert, PDF`
    index_insert();
    /// `Course handout, PDF`
    index_handout();
    /// `Answers of the course, PDF`
    index_answers();
    /// `Cards of the course, PDF`
    index_cards();
    /// `Job {job}`
    index_job(job: &str);
    /// `Job {job}, {customer}`
    index_job_of(job: &str, customer: &str);
    /// `{name}, {part}`
    index_board(name: &str, part: &str);
    /// `{maker}, {part}, revision {revision}, {date}`
    index_about(maker: &str, part: &str, revision: &str, date: &str);
    /// `Made by an earlier build`
    index_earlier();
}
