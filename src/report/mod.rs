//! What was found and decided, as data for machines and in the words of the command line.

mod board_form;
mod plan;
mod problems;
mod told;
pub mod words;
mod written;

pub use board_form::BoardForm;
pub use plan::PlanJson;
pub use problems::{EditJson, ProblemJson, danger_word};
pub use told::Told;
pub use written::WrittenJson;
