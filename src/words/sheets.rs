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
    /// What stands in the foot, and the mark of the contents: `{foot} · Mark 7F3A-94KD`
    foot_and_mark(foot: &str, mark: &str);
    /// That nobody of the trade has checked the words, where that is so.
    words_unchecked();
    /// What the mark behind words tells that the specification does not give in the language of the sheet:
    /// `† These words are in {languages}. …`
    stand_in_words(languages: &str);
    /// A language by its tag, within a sentence: `English`
    language_name(tag: &str);
    /// The same sheets in one of several languages: `{what}, {language}`
    index_in_language(what: &str, language: &str);
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
    // Places and sizes.
    /// `{width} by {height}`
    width_by_height(width: &str, height: &str);
    /// `{x} from the left, {y} from the top`
    place_on_plan(x: &str, y: &str);
    // Switches.
    /// `8 AWG copper`
    copper_wire(size: &str);
    /// `6 AWG aluminum`
    aluminum_wire(size: &str);
    /// `The heater counts 13 A, the current of its nameplate. It draws 12 A here.`
    heater_counts(nameplate: &str, drawn: &str);
    // Whether the supply wires suit.
    /// `This size suits a breaker of 50 A, with terminals for 60 °C. …`
    wire_suits_terminals(breaker: &str, celsius: usize);
    /// `This size suits a breaker of 20 A, installed by method B2 with PVC insulation. …`
    wire_suits_method(breaker: &str, method: &str, insulation: &str, loaded: usize);
    /// `This size suits a breaker of 20 A. The capacity was stated for this job.`
    wire_suits_stated(breaker: &str);
    /// `This size suits a breaker of 50 A only if … 75 °C …`
    wire_needs_75(breaker: &str);
    /// `Its size for this breaker was not judged here.`
    wire_unjudged();
    /// `Heater allowance {number}.`
    allowance_is(number: &str);
    /// `Layout {number}.`: what switches are set to.
    layout_is(number: &str);
    /// `10 (S2 at A)`: a layout number and how it is set.
    layout_set(number: &str, how: &str);
    /// `S2 at A`
    selector_at(selector: &str, position: &str);
    /// `S1: 1 ON, 2 OFF`
    switches_at(bank: &str, ways: &str);
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
    /// `The supply wires suit the breaker only if …`: `size` is empty if no size would do.
    warn_wire_needs_75(wire: &str, any: bool, size: &str);
    /// `The supply wires are said to carry {stated}. No table gives more than {most}. …`
    warn_capacity_above_tables(stated: &str, most: &str);
    /// `The equipment draws more than the nameplate permits: …`
    warn_mark_below_load(largest_breaker: bool, marked: &str, line: &str, amps: &str, devices: &[Device]);
    /// `The supply run loses up to 8 V, or 3.4 % of the voltage; a usual limit is 3 %.`
    warn_run_drop(drop: &str, percent: &str, limit: &str);
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
    /// `Allowance {next} loads the supply wires with {amps}, more than they can carry.`
    why_wire(next: &str, amps: &str);
    /// `An allowance of {next} would load a supply wire with {amps}, more than the board may
    /// carry.`
    why_board(next: &str, amps: &str);
    /// `With the heater on, the board keeps the sum of all currents to {amps}. …`
    allowance_amps(amps: &str, remains: &str);
    /// The same where nothing makes the heater wait.
    allowance_amps_all(amps: &str);
    /// The same with what makes it wait: `pump 1 on high and the blower; pump 1 on high and pump 2`
    /// That a device of a job has a plug in each of these headers.
    further_plug(device: Device, headers: &str);
    /// That a device of the board's own is a further cord of another one.
    cord_of(cord: Device, device: Device);
    /// That a device of the board's own runs with another one.
    runs_with(device: Device, leader: Device);
    allowance_amps_waits(amps: &str, sets: &str);
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
    /// `job 2231`: whose sheets they are.
    index_job(job: &str);
    /// `Wiring sheets of Heron 8`
    index_sheets_of(of: &str);
    /// `Intake form of Heron 8`
    index_form_of(of: &str);
    /// `Work card of job 2231`
    index_work_card_of(of: &str);
    /// `Lid insert of job 2231`
    index_insert_of(of: &str);
    index_finder_of(of: &str);
    /// `Course handout of Heron 8`
    index_handout_of(of: &str);
    /// `Course answers of Heron 8`
    index_answers_of(of: &str);
    /// `Course cards of Heron 8`
    index_cards_of(of: &str);
    /// `Board plan of Heron 8`
    index_plan_of(of: &str);
    /// `Drawing supply-1 of Heron 8`
    index_drawing_of(drawing: &str, of: &str);
    /// `Drawings of Heron 8`
    index_drawings_of(of: &str);
    /// `Wiring sheets of Heron 8, PDF, 9 pages`; no pages are given if they are 0.
    index_pdf(what: &str, pages: usize);
    /// `Board plan of Heron 8, SVG`
    index_svg(what: &str);
    /// `Skip to the sheets`
    index_skip();
    /// Where there are no sheets.
    index_empty();
    /// `Boards`
    index_boards();
    /// `Jobs`
    index_jobs();
    /// Over folders of which the build knows no more than their names.
    index_others();
    /// `Board`
    index_board();
    /// `Plan`
    index_plan();
    /// `Maker`
    index_maker();
    /// `Part number`
    index_part();
    /// `Revision`
    index_revision_head();
    /// The head of the column of content marks: `Mark`
    index_mark();
    /// `D, 2026-09-14`
    index_revision(revision: &str, date: &str);
    /// `Sheets`
    index_files();
    /// `Job`
    index_job_head();
    /// `Place`
    index_place();
    /// `Layout`
    index_layout();
    /// `Supply`
    index_supply();
    /// `Folder`
    index_folder();
    /// `–`: what nobody said, or what a refused job has not.
    index_unknown();
    /// `Refused: 2 errors. These sheets are from an earlier build.`
    index_refused(errors: usize, sheets: bool);
    /// `Made by an earlier build`
    index_earlier();
}
