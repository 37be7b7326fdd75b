//! The catalogue of codes. Never reuse a number.

/// How bad a problem is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// No true sheet can be made.
    Error,
    /// The sheets are true, but somebody may go wrong.
    Warning,
}

/// A problem's stable code. The hundreds digit is the subject: 0 file, 1 names, 2 voltages,
/// 3 layouts, 4 switches, 5 drawing, 6 jobs, 7 prose, 9 our own faults.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Code {
    /// A mistake in the compiler itself.
    Internal,
}

impl Code {
    /// `L` and three digits.
    pub fn text(self) -> &'static str {
        match self {
            Code::Internal => "L900",
        }
    }

    /// Error or warning; fixed for each code.
    pub fn severity(self) -> Severity {
        match self {
            Code::Internal => Severity::Error,
        }
    }
}
