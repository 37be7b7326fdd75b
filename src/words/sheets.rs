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
