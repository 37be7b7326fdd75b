//! One specification: read, checked, and made into sheets, all in memory. What it names is asked for by its
//! path, so that files may lie on a disk or inside of a page.

mod board_sheets;
mod checked;
mod field_board;
mod files;
mod house;
mod job_sheets;
mod look;
mod making;
mod planned_job;
mod reading;
mod sheet_kind;
mod sheet_pages;
mod spoken;

pub use board_sheets::{pdf, sheet_file, sheets};
pub use checked::{Checked, Content, check, check_board};
pub use field_board::{FieldBoardHtml, field_board};
pub use files::{InMemory, NamedFiles, Unread};
pub use house::{HOUSE, OwnHouse};
pub use job_sheets::{job_document, job_pages, job_sheets};
pub use look::{OwnFolder, OwnTemplate, SheetOptions, templates};
pub use making::{FileContext, OutFile, catching_panics};
pub use planned_job::{PlannedJob, mark_of_board, mark_of_job, plan_on};
pub use reading::{Reading, reading};
pub use sheet_kind::SheetKind;
pub use sheet_pages::{SheetPages, sheet_document, sheet_pages};
