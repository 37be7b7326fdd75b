//! Each sheet: templates and facts to a document.

mod board_facts;
mod card;
mod cautions;
mod changes;
mod compared;
mod compose;
mod course;
mod facts;
mod fault_finder;
mod figures;
mod filling;
mod insert;
mod intake;
mod links;
mod markdown;
mod panel;
mod pictured;
mod printed;
mod reading;
mod sentences;
mod templates;
pub mod words;

pub use board_facts::BoardFacts;
pub use card::work_card;
pub use changes::change_sheet;
pub use compared::{ChangeSheet, SheetJob};
pub use compose::{wiring_sheets, wiring_sheets_of};
pub use course::{Course, answer_sheet, course_cards, course_handout};
pub use fault_finder::{board_fault_finder, board_fault_finder_of, job_fault_finder};
pub use figures::{Figure, board_plan_room, figures};
pub use insert::{SoundJob, job_board_plans, job_plan_room, lid_insert};
pub use intake::{intake_form, intake_form_of};
pub use printed::{Printed, PrintedPage, PrintedSection};
pub use reading::{Section, sections};
pub use templates::{CAUTIONS_FILE, PHRASES, Templates, template_files};
