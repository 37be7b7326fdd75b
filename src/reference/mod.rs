//! What the language says of itself: each key in words, examples, the JSON Schema, the reference, and
//! files to begin with. All of it is made of `spec::language`.

mod markdown;
mod samples;
mod schema;
mod starter;
mod values;

pub use markdown::markdown;
pub use samples::{SAMPLES, Sample, example};
pub use schema::schema;
pub use starter::{LIKE, Like, Starter, starter};
pub use values::{default_of, value};
