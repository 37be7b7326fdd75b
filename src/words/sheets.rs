//! Short texts of sheets.

use super::key::phrases;

phrases! {}
