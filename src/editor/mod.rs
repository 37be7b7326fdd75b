//! What an editor asks about a file that somebody is writing: problems, completion, help, names.
//!
//! `complete`, `hover` and `names` are pure functions of texts; `workspace` has the files that are open
//! over those on disk; `answers` and `server` speak the protocol.

mod answers;
mod complete;
mod document;
mod hover;
mod names;
mod place;
mod server;
mod uri;
mod workspace;

pub use complete::{Proposal, ProposalKind, complete};
pub use document::{Document, Mark, What};
pub use hover::hover;
pub use names::{Name, Names, Occurrence, name_at, names_of, occurrences, table_occurrences};
pub use place::{Place, offset_of, place_of};
pub use server::{capabilities, roots_of, serve};
pub use workspace::Workspace;
