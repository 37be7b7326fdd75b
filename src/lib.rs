//! Lidsheet compiles the specification of a control board into wiring sheets.
#![forbid(unsafe_code)]
#![warn(missing_docs)]

pub mod board;
pub mod build;
pub mod cli;
pub mod decide;
pub mod diagnostic;
pub mod document;
pub mod english;
pub mod figure;
pub mod geometry;
pub mod page;
pub mod reading;
pub mod scene;
pub mod sheet;
pub mod source;
pub mod spec;
pub mod standards;
pub mod text;
pub mod units;
pub mod words;
pub mod write;
