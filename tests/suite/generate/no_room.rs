//! Jobs whose lid insert is refused because their board plan has no room for all that they need. To
//! be emptied when the plan is drawn anew.

use lidsheet::page::Paper;

/// The stem of the job's file, and the paper.
pub const NO_ROOM: &[(&str, Paper)] = &[];
