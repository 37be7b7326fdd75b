//! The checked model: every name resolved, every table complete. If a [`Board`] exists, it is
//! sound, and nothing behind it asks again.

mod check;
pub mod decision_table;
mod device;
pub mod footprint;
mod handle;
pub mod job;
mod layout;
mod model;
mod selector;
mod switch;
mod vocabulary;
pub mod voltage;

pub use check::{
    Acceptances, SpokenBoard, check, check_languages, effect_word, in_other_language, known_effect,
    lacks_language,
};
pub use device::{Device, OwnRole, Speeds, Traits};
pub use handle::{Handle, HandleMap};
pub use job::{
    Cord, Current, CurrentSource, Fitted, Job, Marked, Role, Rules, SupplyRun, Terminals, check_job,
};
pub use layout::{Layout, LayoutNumber, LayoutSet};
pub use model::*;
pub use selector::{Position, Selector};
pub use switch::{Allowance, Bank, Effect, Field, Meaning, Setting};
pub use vocabulary::{Word, vocabulary};
