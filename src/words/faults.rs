//! Mistakes, signs and checks.

use super::key::phrases;

phrases! {}
