//! Each drawing as a scene: a pure function of the checked board.

mod bank;
pub mod look;
mod mark;
pub mod places;
pub mod plan;
mod questions;
mod setting;
mod socket;
mod supply;

pub use bank::{positions_words, switch_bank};
pub use questions::question_tree;
pub use setting::switch_settings;
pub use socket::{CommonLive, common_live, cord_rows, socket_pages};
pub use supply::{supply_landing, whole_volts};
