//! The preview: shows the sheets of a specification beside what is wrong with it while it is being written.
//!
//! | file | holds |
//! | --- | --- |
//! | `edit` | which part of a file was edited, and where the sheets show it |
//! | `desk` | what is shown: files in, pages and problems out; knows no socket, no clock and no thread |
//! | `shown` | what a reader is told, and its form on the wire |
//! | `watch` | which files changed |
//! | `http` | a request, read and judged; an answer, written |
//! | `edits` | the texts as they were read last, and the edit that was seen last |
//! | `contents` | what a path stands for |
//! | `shared` | what the threads share: what is shown, and who looks at it |
//! | `connection` | one connection: a request answered, or a stream of news |
//! | `server` | the threads: one looks at files and lays out, one listens, one for each connection |
//!
//! Whatever is served was made in memory or is part of the program: no request names a file to be opened.

mod connection;
mod contents;
mod desk;
mod edit;
mod edits;
mod http;
mod server;
mod shared;
mod shown;
mod watch;

pub use desk::{Asked, Desk};
pub use edit::{Edited, Target, edited_place, first_changed_line, targets};
pub use server::{Order, ServeFault, serve};
pub use shown::{Choice, Choices, Edit, Leaf, Listed, Shown, Spot, Standing};
