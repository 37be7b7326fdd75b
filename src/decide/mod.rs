//! What is computed from a checked board, and from a job on it. Pure functions, one file for each
//! decision; every result carries its reason as data. [`plan`] joins all that a job asks for.

pub mod arcs;
pub mod breaker;
pub mod currents;
pub mod exercises;
pub mod faults;
pub mod headroom;
pub mod heater;
pub mod jumpers;
pub mod lag;
pub mod layout;
pub mod loads;
pub mod mistakes;
pub mod pins;
mod plan;
pub mod questions;
pub mod reason;
mod refusals;
pub mod rules;
pub mod serving;
pub mod supply_run;
pub mod switches;
pub mod voltages;
mod wiring;

#[cfg(test)]
pub(crate) mod sample;

pub use breaker::{BreakerChoice, SettingNeed};
pub use exercises::{Exercise, Task, exercises};
pub use faults::{board_faults, fault_finder};
pub use headroom::{Headroom, headroom, headrooms};
pub use jumpers::suits;
pub use lag::Lag;
pub use layout::{Difference, NearLayout, Wanted, but_for_circulation, fitting, nearest, wanted};
pub use loads::{ConductorLoad, RatedLoad};
pub use pins::{PinOrder, ReadFrom, pin_order, pin_order_for};
pub use plan::{LayoutChoice, NEAREST, Plan, plan};
pub use questions::{Questions, Tree, questions};
pub use refusals::difference_words;
pub use rules::{Rules, RulesChoice, RulesReason};
pub use serving::{Served, Service, service, services};
pub use supply_run::RunDrop;
pub use switches::BankSetting;
pub use voltages::{GroupVoltage, group_voltage, group_voltages};
pub use wiring::{DevicePlan, HeaterPlan, JumperPlan, LinkPlan, Wiring};
