//! Programs and libraries that are not ours: they read, draw and solve what we wrote.

pub mod pictures;
pub mod reading;
pub mod served;
pub mod spice;
pub mod validity;
