//! All tests from outside of the library, as one program: linking costs more than running. A part
//! of them runs by its name, as `cargo test sheets::`.
//!
//! `generate` makes what is tested, `compile` brings a text to a board or a plan, `oracle` judges
//! without the code that is judged, `readers` are programs and libraries that are not ours. Every
//! other module is one topic of tests. Snapshots and samples stand beside this folder.

mod compile;
mod fuzzing;
mod generate;
mod oracle;
mod readers;
#[macro_use]
mod snapshot;

mod another_language;
mod architecture;
mod axe;
mod board_plan;
mod boards;
mod catalogue;
mod changes;
mod check_cli;
mod check_fix;
mod check_formats;
mod cli;
mod conformance;
mod demo;
mod diagnostics;
mod editor;
mod exercises;
mod fault_matrix;
mod faults;
mod field_module;
mod field_page;
mod field_page_browser;
mod field_page_static;
mod figures;
mod flowing;
mod handout;
mod hostile;
mod house_style;
mod inserts;
mod interrupted;
mod jobs;
mod jobs_refused;
mod lag;
mod language;
mod language_check;
mod languages;
mod large;
mod layout_entry;
mod manifest;
mod marks;
mod matrix_pages;
mod mistakes;
mod mistakes_cli;
mod ngspice;
mod ngspice_mistakes;
mod packagers;
mod page_breaks;
mod pages;
mod paper;
mod plain_words;
mod plan_cli;
mod plans;
mod png;
mod preview;
mod preview_browser;
mod properties;
mod published;
mod published_wires;
mod reference;
mod schema;
mod sheets;
mod spoken;
mod stale;
mod start;
mod tables;
mod textstat;
mod version_1;
mod wording;
mod words_in_code;
mod work_cards;
