//! How a result is written.

use clap::ValueEnum;

/// How a result is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum ResultFormat {
    /// For people, with problems on standard error
    Text,
    /// For machines: one object on standard output, problems included
    Json,
}
