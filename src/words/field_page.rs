//! Short texts of the field page.

use super::Words;
use super::key::phrases;

phrases! {
    /// The name of the page: `Field page`
    field_title();
    /// What it is for.
    field_lead();
    /// What stands there where nothing can be planned.
    field_no_script();
    /// While the planner is not there yet: `The planner starts …`
    field_starts();
    /// That it will not come.
    field_cannot_start();
    /// A choice: `Language`
    field_language();
    /// A choice: `Board`
    field_board();
    /// What is printed on the board: `Part number on the board`
    field_part();
    /// That no board has it.
    field_no_part();
    /// A choice: `Supply`
    field_supply();
    /// A current: `Breaker rating, A`
    field_breaker();
    /// The conductors from the breaker to the board: `Supply wires`
    field_run();
    /// One way: `Length, breaker to board`
    field_length();
    /// The unit of the length: `Unit of length`
    field_length_unit();
    /// As printed on it: `Wire size`
    field_size();
    /// Its unit: `Unit of size`
    field_size_unit();
    /// A choice: `Metal`
    field_metal();
    /// A metal: `copper`
    field_copper();
    /// A metal: `aluminum`
    field_aluminum();
    /// The lower mark of both ends: `Terminals marked for`
    field_terminals();
    /// Of IEC 60364-5-52: `Method of installation`
    field_method();
    /// Of the conductors: `Insulation`
    field_insulation();
    /// What one conductor may carry: `Capacity that an electrician states, A`
    field_capacity();
    /// What few jobs need: `More about the job`
    field_more();
    /// Of the job: `Job number or name`
    field_name();
    /// Of the job: `Whose spa, and where`
    field_for();
    /// A choice: `Panel`
    field_panel();
    /// Rules for breakers: `Rules for the breaker`
    field_rules();
    /// On a nameplate: `Nameplate: minimum circuit ampacity, A`
    field_ampacity();
    /// On a nameplate: `Nameplate: largest breaker, A`
    field_largest();
    /// The devices that are installed: `Installed equipment`
    field_equipment();
    /// What to do first.
    field_read_plates();
    /// When the heater is a device to add: `The heater: only if its nameplate differs from`
    field_heater_known();
    /// A device: a jet pump of any number: `jet pump`
    field_pump();
    /// Adds a device: `Add`
    field_add();
    /// Devices that no header of the board drives: `A device that is not in this list`
    field_other();
    /// Takes a device away: `Remove`
    field_remove();
    /// Of a device: `Speeds`
    field_speeds();
    /// On a nameplate: `Volts`
    field_volts();
    /// What the nameplate says of it: `Low speed`
    field_low();
    /// What the nameplate says of it: `High speed`
    field_high();
    /// What the nameplate says of a device with one speed: `On the nameplate`
    field_plate();
    /// Of what the nameplate says: `Unit`
    field_unit();
    /// A unit: `A (amps)`
    field_amps();
    /// A unit: `hp (horsepower)`
    field_hp();
    /// A unit: `W (watts)`
    field_watts();
    /// A choice on the card of a pump: `Which pump`
    field_which();
    /// A pump without a number: `whichever number fits`
    field_whichever();
    /// On a nameplate: `Power factor`
    field_power_factor();
    /// Of a device: `Cord`
    field_cord();
    /// A cord: `as it was made`
    field_cord_made();
    /// A cord: `re-ended`
    field_cord_ended();
    /// A cord: `with an adapter`
    field_cord_adapter();
    /// Nothing is chosen: `not known`
    field_unknown();
    /// What is decided: `Plan`
    field_plan();
    /// What a plan lacks, before a list: `To fill in for a plan`
    field_missing();
    /// What a refused job is told by: `Refused. Do not wire this.`
    field_refused();
    /// That there is a plan: `Layout`
    field_planned();
    /// Warnings: `Before you go on`
    field_problems();
    /// A choice: `Show`
    field_show();
    /// A sheet: `Work card`
    field_work_card();
    /// A sheet: `Lid insert`
    field_insert();
    /// A sheet: `Fault finder`
    field_finder();
    /// How a sheet is shown: `As printed pages`
    field_as_pages();
    /// A choice: `Paper`
    field_paper();
    /// Makes a file: `Save as PDF`
    field_pdf();
    /// Gives a file to another program: `Share the PDF`
    field_share_pdf();
    /// The file of the job: `Job file`
    field_job_file();
    /// Of the job file: `Copy`
    field_copy();
    /// That it is done: `Copied.`
    field_copied();
    /// Of the job file: `Save`
    field_save();
    /// Of the job file: `Share`
    field_share();
    /// Of the job file: `Open a job file`
    field_open();
    /// Empties the form: `New job`
    field_begin_again();
    /// That a file cannot be opened: `This file is no job file.`
    field_not_a_job();
    /// What is lost of a file that was opened: `Comments in the opened file are not kept.`
    field_comments();
    /// Before the tables of all boards: `Questions and tables of each board`
    field_boards();
    /// Before the questions: `Find the layout number by questions`
    field_questions();
    /// What to do with a layout number that was found.
    field_compare();
    /// Nothing leaves the page: `This page works offline. It sends nothing.`
    field_offline();
    /// What the page does not decide.
    field_limits();
    /// `4 wires: L1, L2, N, PE`
    field_wires(count: usize, conductors: &str);
    /// What to compare before anything is planned.
    field_compare_board(part: &str, revision: &str);
    /// The end of the questions.
    field_layout_found(layout: &str);
    /// What a header drives: `J5: pump 1, two speeds`
    field_plugged(header: &str, device: &str);
    /// Headers that stay empty.
    field_unplugged(headers: &str);
    /// How the number is set.
    field_enter_switches(bank: &str, positions: &str);
    /// How the number is set.
    field_enter_selector(selector: &str, position: &str);
    /// How the number is set.
    field_enter_panel();
    /// Which state of a board the page holds: name, part number, revision, date, mark.
    field_state(board: &str, part: &str, revision: &str, date: &str, mark: &str);
}

impl Words {
    /// The phrases of the page that take no values, by their keys.
    pub fn field_page(&self) -> impl Iterator<Item = (&'static str, String)> + '_ {
        let bare = KEYS.iter().filter(|key| key.values.is_empty());
        bare.map(|key| (key.name, self.say(key.name, &[])))
    }
}
