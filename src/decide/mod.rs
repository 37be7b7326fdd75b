//! What is computed from a checked board, and from a job on it. Pure functions, one file for each
//! decision; every result carries its reason as data. [`plan`] joins all that a job asks for. There
//! are no sentences here: what refuses a job is a [`Finding`], which [`crate::job_problems`] words.

pub mod arcs;
pub mod breaker;
pub mod budget;
pub mod currents;
pub mod exercises;
pub mod faults;
pub mod findings;
pub mod headroom;
pub mod heater;
pub mod jumpers;
pub mod lag;
pub mod layout;
pub mod limits;
pub mod loads;
pub mod mistakes;
pub mod nameplate;
pub mod pins;
mod plan;
pub mod questions;
pub mod reason;
pub mod rules;
pub mod serving;
pub mod supply_run;
pub mod switches;
pub mod usual;
pub mod voltages;
pub mod waits;
pub mod wire;

#[cfg(test)]
pub(crate) mod sample;

pub use breaker::{BreakerChoice, HeaterCount, SettingNeed};
pub use exercises::{Exercise, Task, exercises};
pub use faults::{board_faults, can_be_sampled, fault_finder};
pub use findings::Finding;
pub use headroom::{Headroom, headroom, headrooms};
pub use jumpers::suits;
pub use lag::Lag;
pub use layout::{Difference, NearLayout, Wanted, but_for_circulation, fitting, nearest, wanted};
pub use loads::{ConductorLoad, RatedLoad};
pub use nameplate::{Nameplate, PlateLoad, PumpMark, nameplate, pump_mark};
pub use pins::{PinOrder, ReadFrom, pin_order, pin_order_for};
pub use plan::{
    DeviceId, DevicePlan, HeaterPlan, JumperPlan, LayoutChoice, LinkPlan, NEAREST, Plan, Wiring,
    plan,
};
pub use questions::{Questions, Tree, questions};
pub use rules::{Rules, RulesChoice, RulesReason};
pub use serving::{Served, Service, service, services};
pub use supply_run::RunDrop;
pub use switches::{BankSetting, SelectorSetting};
pub use voltages::{GroupVoltage, SupplyVoltages, group_voltage};
pub use wire::{WireCheck, WireVerdict};
