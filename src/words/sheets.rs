//! Short texts of wiring sheets, lid inserts, forms and the list of sheets.

use super::key::phrases;
use crate::board::Device;
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
    /// `{bank} way {way} off`
    moved_way(bank: &str, way: &str, on: bool);
    // The intake form.
    /// `with jets`
    form_pump();
    /// `no jets, one speed`
    form_circulation();
    // The lid insert.
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
