//! Each sheet: templates and facts to a document.

mod cautions;
mod compose;
mod facts;
mod figures;
mod markdown;
mod templates;

pub use compose::wiring_sheets;
pub use figures::{Figure, figures};
pub use templates::Templates;
