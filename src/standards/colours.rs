//! Wire colours: the letters of IEC 60757.

/// A colour by its letters and its English words.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// IEC 60757 letters.
    pub letters: &'static str,
    /// English words, as the specification language writes them.
    pub words: &'static str,
}

/// IEC 60757:1983 (as reproduced in GOST 28763-90), in the standard's order, and the one pair that
/// it fixes, green and yellow.
pub const COLOURS: [Colour; 15] = [
    Colour { letters: "BK", words: "black" },
    Colour { letters: "BN", words: "brown" },
    Colour { letters: "RD", words: "red" },
    Colour { letters: "OG", words: "orange" },
    Colour { letters: "YE", words: "yellow" },
    Colour { letters: "GN", words: "green" },
    Colour { letters: "BU", words: "blue" },
    Colour { letters: "VT", words: "violet" },
    Colour { letters: "GY", words: "grey" },
    Colour { letters: "WH", words: "white" },
    Colour { letters: "PK", words: "pink" },
    Colour { letters: "GD", words: "gold" },
    Colour { letters: "TQ", words: "turquoise" },
    Colour { letters: "SR", words: "silver" },
    Colour { letters: "GNYE", words: "green and yellow" },
];

/// A conductor without insulation, which IEC 60757 gives no letters.
pub const BARE: Colour = Colour { letters: "bare", words: "bare" };

/// Where the neutral of a supply has a colour of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NeutralColours {
    /// Letters of the colours.
    pub letters: &'static [&'static str],
    /// The standard and its clause.
    pub standard: &'static str,
}

/// NEC 200.6(A): white or gray, for a grounded conductor of 6 AWG or smaller. From memory.
pub const NEC_NEUTRAL: NeutralColours =
    NeutralColours { letters: &["WH", "GY"], standard: "NEC 200.6" };
/// IEC 60445, 6.2.2 (IEC 60446, 5.2.2, before 2010): blue. From memory.
pub const IEC_NEUTRAL: NeutralColours = NeutralColours { letters: &["BU"], standard: "IEC 60445" };

/// Whether a protective conductor may look like this: green and yellow (IEC 60445, 6.3.2), or green or
/// bare (NEC 250.119). From memory.
pub fn is_protective(letters: &str) -> bool {
    matches!(letters, "GNYE" | "GN" | "bare")
}

/// The colour that `text` names, by its words or its letters.
pub fn colour(text: &str) -> Option<Colour> {
    // As it is spelt in the United States.
    let text = if text == "gray" { "grey" } else { text };
    COLOURS.iter().copied().find(|colour| colour.words == text || colour.letters == text)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Check-values section 8: "IEC 60757 codes, in order BK BN RD OG YE GN BU VT GY WH PK GD TQ
    /// SR; pair GNYE", and 8b: not YEGN.
    #[test]
    fn the_letters_stand_in_the_order_of_iec_60757() {
        let letters: Vec<_> = COLOURS.iter().map(|colour| colour.letters).collect();
        assert_eq!(letters.join(" "), "BK BN RD OG YE GN BU VT GY WH PK GD TQ SR GNYE");
        assert_eq!(colour("green and yellow").map(|c| c.letters), Some("GNYE"));
        assert_eq!(colour("YEGN"), None);
    }
}
