//! Each drawing as a scene: a pure function of the checked board.

pub mod look;
pub mod plan;
