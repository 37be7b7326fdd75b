//! What is computed from a checked board. Pure functions, one file for each decision; every
//! result carries its reason as data.

pub mod headroom;
pub mod heater;
pub mod pins;
pub mod questions;
pub mod rules;
pub mod serving;
pub mod voltages;

#[cfg(test)]
mod sample;

pub use headroom::{Headroom, headroom, headrooms};
pub use pins::{PinOrder, ReadFrom, pin_order, pin_order_for};
pub use questions::{Questions, Tree, questions};
pub use rules::{Rules, RulesChoice, RulesReason};
pub use serving::{Served, Service, service, services};
pub use voltages::{GroupVoltage, group_voltage, group_voltages};
