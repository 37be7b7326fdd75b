//! Pages and scenes to files. A writer draws what it is given and decides nothing.

mod escape;
pub mod html;
mod pdf;
mod svg;

pub use pdf::{Fault, pdf};
pub use svg::svg;
