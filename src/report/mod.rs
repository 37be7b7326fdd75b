//! What was found and decided, as data for machines and in the words of the command line.

mod plan;
mod problems;
pub mod words;

pub use plan::PlanJson;
pub use problems::{EditJson, ProblemJson, danger_word};
