//! Class letters of reference designators.
//!
//! ASME Y14.44 (which took over IEEE 315 clause 22): J jack or fixed connector, F fuse, W cable,
//! wire or lead, TB terminal block, S switch. T for a single terminal is this language's own
//! shortening of TB. IEC 81346-2: X connect, F protect, W conduct, S hand input.

/// A kind of thing with a designator.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Class {
    /// A place to plug in.
    Header,
    /// A fuse.
    Fuse,
    /// A lead that a person moves.
    Jumper,
    /// A strap that a person moves.
    Link,
    /// A terminal.
    Terminal,
    /// A switch bank.
    Bank,
}

/// The class letters of ASME Y14.44 for `class`; the first is the usual one.
pub fn y14_44(class: Class) -> &'static [&'static str] {
    match class {
        Class::Header => &["J"],
        Class::Fuse => &["F"],
        Class::Jumper | Class::Link => &["W"],
        Class::Terminal => &["T", "TB"],
        Class::Bank => &["S"],
    }
}

/// The class letters of IEC 81346-2 for `class`.
pub fn iec_81346_2(class: Class) -> &'static [&'static str] {
    match class {
        Class::Header | Class::Terminal => &["X"],
        Class::Fuse => &["F"],
        Class::Jumper | Class::Link => &["W"],
        Class::Bank => &["S"],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Check-values section 9: connector J (IEEE 315) and X (IEC 81346-2); F protects in both.
    #[test]
    fn the_same_part_has_two_letters() {
        assert_eq!((y14_44(Class::Header)[0], iec_81346_2(Class::Header)[0]), ("J", "X"));
        assert_eq!((y14_44(Class::Fuse)[0], iec_81346_2(Class::Fuse)[0]), ("F", "F"));
        assert_eq!((y14_44(Class::Bank)[0], iec_81346_2(Class::Bank)[0]), ("S", "S"));
    }
}
