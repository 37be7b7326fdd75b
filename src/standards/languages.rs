//! Codes of languages.

use super::{Clause, Known, Table};

/// The two-letter codes of languages, in the order of the alphabet.
pub const CODES: Table<&str> = Table {
    values: &[
        "aa", "ab", "ae", "af", "ak", "am", "an", "ar", "as", "av", "ay", "az", "ba", "be", "bg",
        "bi", "bm", "bn", "bo", "br", "bs", "ca", "ce", "ch", "co", "cr", "cs", "cu", "cv", "cy",
        "da", "de", "dv", "dz", "ee", "el", "en", "eo", "es", "et", "eu", "fa", "ff", "fi", "fj",
        "fo", "fr", "fy", "ga", "gd", "gl", "gn", "gu", "gv", "ha", "he", "hi", "ho", "hr", "ht",
        "hu", "hy", "hz", "ia", "id", "ie", "ig", "ii", "ik", "io", "is", "it", "iu", "ja", "jv",
        "ka", "kg", "ki", "kj", "kk", "kl", "km", "kn", "ko", "kr", "ks", "ku", "kv", "kw", "ky",
        "la", "lb", "lg", "li", "ln", "lo", "lt", "lu", "lv", "mg", "mh", "mi", "mk", "ml", "mn",
        "mr", "ms", "mt", "my", "na", "nb", "nd", "ne", "ng", "nl", "nn", "no", "nr", "nv", "ny",
        "oc", "oj", "om", "or", "os", "pa", "pi", "pl", "ps", "pt", "qu", "rm", "rn", "ro", "ru",
        "rw", "sa", "sc", "sd", "se", "sg", "si", "sk", "sl", "sm", "sn", "so", "sq", "sr", "ss",
        "st", "su", "sv", "sw", "ta", "te", "tg", "th", "ti", "tk", "tl", "tn", "to", "tr", "ts",
        "tt", "tw", "ty", "ug", "uk", "ur", "uz", "ve", "vi", "vo", "wa", "wo", "xh", "yi", "yo",
        "za", "zh", "zu",
    ],
    clause: Clause { edition: "ISO 639-1:2002", clause: "two-letter codes", known: Known::Memory },
};

/// Whether `tag` names a language: a two-letter code, and perhaps a country or script behind a hyphen
/// (`de`, `de-AT`).
pub fn is_tag(tag: &str) -> bool {
    let mut parts = tag.split('-');
    let known = parts.next().is_some_and(|code| CODES.values.contains(&code));
    let fits = |part: &str| {
        (2..=8).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_alphanumeric())
    };
    known && parts.all(fits)
}

/// The language that a tag begins with: `de` of `de-AT`.
pub fn language_of(tag: &str) -> &str {
    tag.split('-').next().unwrap_or(tag)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tags_are_codes_with_more_behind_a_hyphen() {
        for tag in ["de", "en-US", "pt-BR", "sr-Latn", "no"] {
            assert!(is_tag(tag), "{tag}");
        }
        for other in ["", "d", "german", "DE", "xx", "de-", "de_AT", "de-\u{e4}\u{e4}"] {
            assert!(!is_tag(other), "{other}");
        }
        let mut sorted = CODES.values.to_vec();
        sorted.sort_unstable();
        sorted.dedup();
        assert_eq!(sorted, CODES.values);
    }
}
