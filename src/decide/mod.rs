//! What is computed from a checked board. Pure functions, one file for each decision; every
//! result carries its reason as data.

mod pins;
mod questions;
mod serving;

pub use pins::{PinOrder, ReadFrom, pin_order, pin_order_for};
pub use questions::{Questions, Tree, questions};
pub use serving::{Served, Service, service, services};
