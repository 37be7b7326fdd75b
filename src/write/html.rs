//! The page that lists the sheets.
