//! Each sheet: templates and facts to a document.

mod cautions;
mod compose;
mod facts;
mod figures;
mod insert;
mod intake;
mod markdown;
mod templates;
pub mod words;

pub use compose::wiring_sheets;
pub use figures::{Figure, figures};
pub use insert::{InsertRoom, PlanDetail, lid_insert};
pub use intake::intake_form;
pub use templates::Templates;
