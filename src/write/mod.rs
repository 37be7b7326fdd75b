//! Pages and scenes to files. A writer draws what it is given and decides nothing.

pub mod html;
mod pdf;
pub mod svg;

pub use pdf::{Fault, pdf};
