//! Each drawing as a scene: a pure function of the checked board.

mod bank;
mod directions;
pub mod look;
mod mark;
pub mod places;
pub mod plan;
mod questions;
mod selector;
mod setting;
mod small_bank;
mod socket;
mod steps;
mod supply;

pub use bank::{blank_bank, switch_bank};
pub use directions::directions;
pub use questions::{question_tree, questions_start};
pub use selector::{selector_layouts, selector_setting};
pub use setting::switch_settings;
pub use socket::{
    CommonLive, blank_socket, common_live, drawn_sides, drawn_socket, socket_pages, socket_turns,
};
pub use steps::{connections, jumper_moves, link_moves, lock_off, plug};
pub use supply::{supplies_fit, supply_landing};
