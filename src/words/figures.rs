//! Words in figures.

use super::key::phrases;

phrases! {}
