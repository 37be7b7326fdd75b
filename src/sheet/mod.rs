//! Each sheet: templates and facts to a document.

mod markdown;
