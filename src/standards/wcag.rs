//! Web Content Accessibility Guidelines 2.x of the World Wide Web Consortium.

use super::{Clause, Known};

/// Least contrast of text that is not large: level AA.
pub const TEXT_CONTRAST: f64 = 4.5;

/// Where [`TEXT_CONTRAST`], [`relative_luminance`] and [`contrast`] are defined.
pub const CLAUSE: Clause =
    Clause { edition: "WCAG 2.2", clause: "1.4.3", known: Known::Reproduction };

/// Relative luminance of an opaque sRGB colour: 0 for black, 1 for white.
pub fn relative_luminance(rgb: [u8; 3]) -> f64 {
    let [r, g, b] = rgb.map(linear);
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// Contrast ratio of two colours in any order: 1 for the same colour, 21 for black on white.
///
/// Compare it unrounded: 4.499 is not enough where 4.5 is asked for.
pub fn contrast(a: [u8; 3], b: [u8; 3]) -> f64 {
    let (a, b) = (relative_luminance(a), relative_luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// An 8-bit sRGB channel as linear light, 0 to 1.
fn linear(channel: u8) -> f64 {
    let c = f64::from(channel) / 255.0;
    if c <= 0.04045 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
}
