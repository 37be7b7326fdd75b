//! Lidsheet compiles the specification of a control board into wiring sheets, and the
//! specification of a job on such a board into a work card and a lid insert.
//!
//! A board goes through these phases. Each is one function; what is wrong on the way is collected
//! in [`diagnostic::Problems`], with its place.
//!
//! | phase | from | to |
//! | --- | --- | --- |
//! | [`spec::admit`] | bytes | a text that can be read |
//! | [`spec::parse`] | text | [`spec::Spec`]: every value with its place |
//! | [`board::check`] | [`spec::Spec`] | [`board::Board`], which is sound: nothing behind it asks again |
//! | [`decide`] | [`board::Board`] | what follows from it, each result with its reason |
//! | [`sheet::figures`] | [`board::Board`] | drawings, each a [`scene::Scene`] |
//! | [`sheet::wiring_sheets`] | the board, its drawings, templates | a [`document::Document`] |
//! | [`page::lay_out`] | [`document::Document`] | [`page::Pages`] |
//! | [`write::pdf`], [`write::svg()`] | [`page::Pages`], a [`scene::Scene`] | a file |
//!
//! A job is read by [`spec::parse_job`] and checked against its board by [`board::check_job`];
//! [`decide::plan()`] decides what it asks for, or refuses it, [`sheet::work_card`] gives the steps and
//! [`sheet::lid_insert`] says how the box is then wired.
//! [`build::run`] does all of this for many files at once, and [`cli::run`] is the program.
//!
//! # From a specification to a PDF
//!
//! ```
//! use lidsheet::diagnostic::{Problems, Reported};
//! use lidsheet::page::Paper;
//! use lidsheet::sheet::Templates;
//! use lidsheet::source::Sources;
//! use lidsheet::text::Typesetter;
//! use lidsheet::{board, page, sheet, spec, write};
//!
//! const SANDPIPER: &str = "
//! lidsheet: 1
//! board:
//!   name: Sandpiper 4
//!   maker: Otterbrook Controls
//!   part: OC-4110
//!   revision: A
//!   dated: 2026-09-14
//!   summary: A small board.
//! parts:
//!   main: { size: [120, 80], at: [0, 0] }
//! terminals:
//!   T1: { part: main, at: [8, 10], wire: black }
//!   T2: { part: main, at: [8, 22], wire: red }
//!   T3: { part: main, at: [8, 34], wire: white }
//!   TG: { part: main, at: [8, 46], wire: green, ground: true }
//! supplies:
//!   four-wire:
//!     title: Four wires
//!     system: split-phase 120/240 V
//!     lands: { T1: L1, T2: L2, T3: N, TG: PE }
//! groups:
//!   north: { part: main, at: [30, 10], between: [T1, T2], volts: 240 }
//!   south: { part: main, at: [30, 30], between: [T1, T3], volts: 120 }
//! jumpers:
//!   W1: { part: main, at: [45, 20], groups: [north, south], shipped: north }
//! sockets:
//!   power-4: { title: Power, pitch: 6.35 mm, key drawn: right, pins: [ground, common, low, high] }
//! headers:
//!   J1: { title: Pump 1, part: main, at: [60, 30], socket: power-4, key: right, jumper: W1, serves: pump 1 }
//!   J2: { title: Blower, part: main, at: [90, 30], socket: power-4, key: right, group: south, serves: blower }
//! layouts:
//!   columns: [pump 1, blower]
//!   rows:
//!     1: [2, 0]
//!     2: [1, 1]
//! ";
//!
//! fn wiring_sheets(text: &str, problems: &mut Problems) -> Result<Vec<u8>, Reported> {
//!     let mut sources = Sources::default();
//!     let file = spec::admit("sandpiper-4.yaml", text.into(), &mut sources, problems)?;
//!     let mut no_tables = |_: &str| Err("this board has no tables".to_owned());
//!     let spec = spec::parse(file, &mut sources, &mut no_tables, problems)?;
//!     let board = board::check(&spec, &sources, problems)?;
//!
//!     let mut typesetter = Typesetter::new();
//!     let templates = Templates::built_in(&mut sources);
//!     let figures = sheet::figures(&board, templates.words(), &mut typesetter, Paper::A4);
//!     let document = sheet::wiring_sheets(&board, &figures, &templates, Paper::A4, problems)?;
//!     let pages = page::lay_out(&document, Paper::A4, &mut typesetter);
//!     Ok(write::pdf(&pages).expect("it keeps the rules for archives and for screen readers"))
//! }
//!
//! let mut problems = Problems::default();
//! let file = wiring_sheets(SANDPIPER, &mut problems).expect("the board is sound");
//! assert!(file.starts_with(b"%PDF-"));
//! assert!(problems.is_empty());
//!
//! // A jumper that is shipped where it cannot go: no sheets, and a problem with its place.
//! let wrong = SANDPIPER.replace("shipped: north", "shipped: west");
//! assert!(wiring_sheets(&wrong, &mut problems).is_err());
//! assert_eq!(problems.counts(), (1, 0));
//! ```
#![forbid(unsafe_code)]
#![warn(missing_docs)]

pub mod board;
#[cfg(feature = "program")]
pub mod build;
#[cfg(feature = "program")]
pub mod cli;
pub mod compare;
pub mod compile;
pub mod decide;
pub mod diagnostic;
pub mod document;
#[cfg(feature = "program")]
pub mod editor;
pub mod english;
pub mod figure;
pub mod geometry;
pub mod job_problems;
pub mod mark;
pub mod meaning;
pub mod page;
#[cfg(feature = "program")]
pub mod preview;
pub mod reading;
pub mod reference;
pub mod report;
pub mod scene;
pub mod sheet;
pub mod source;
pub mod spec;
pub mod standards;
pub mod tables;
pub mod text;
pub mod units;
pub mod words;
pub mod write;
