//! Short texts of a course.

use super::key::phrases;

phrases! {}
