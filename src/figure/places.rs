//! Names of the places that links lead to, the same for drawings and sheets.

/// The place of a thing on the board plan.
pub fn plan(code: &str) -> String {
    format!("plan-{}", plain(code))
}

/// The close-up of a header.
pub fn socket(code: &str) -> String {
    format!("socket-{}", plain(code))
}

/// Letters, digits and points as they are, anything else as its number, so that two codes never
/// share a place.
fn plain(code: &str) -> String {
    let mut name = String::new();
    for c in code.chars() {
        if c.is_ascii_alphanumeric() || c == '.' {
            name.push(c);
        } else {
            name.push_str(&format!("_{:x}_", u32::from(c)));
        }
    }
    name
}

#[cfg(test)]
mod tests {
    #[test]
    fn two_codes_never_share_a_place() {
        assert_eq!(super::socket("J2"), "socket-J2");
        assert_ne!(super::plan("A B"), super::plan("A-B"));
        assert_ne!(super::plan("A B"), super::plan("A_20_B"));
    }
}
