//! Judges that know nothing of the code that they judge.

pub mod board_plan;
pub mod drawing;
pub mod exam;
pub mod lost;
pub mod search;
pub mod wires;
pub mod words;
