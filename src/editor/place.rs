//! Places as editors count them: lines from 0, and in a line units of UTF-16.

/// A place as an editor counts it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// From 0.
    pub line: u32,
    /// Units of UTF-16 before it in its line.
    pub column: u32,
}

/// The byte of a place; behind the end of its line or of the text, that end.
pub fn offset_of(text: &str, place: Place) -> usize {
    let mut start = 0;
    for _ in 0..place.line {
        match text.get(start..).and_then(|rest| rest.find('\n')) {
            Some(end) => start += end + 1,
            None => return text.len(),
        }
    }
    let rest = text.get(start..).unwrap_or("");
    let line = rest.split('\n').next().unwrap_or("").trim_end_matches('\r');
    let mut left = place.column as usize;
    for (at, char) in line.char_indices() {
        if left < char.len_utf16() {
            return start + at;
        }
        left -= char.len_utf16();
    }
    start + line.len()
}

/// The place of a byte; of one inside a character, that character's.
pub fn place_of(text: &str, offset: usize) -> Place {
    let mut end = offset.min(text.len());
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    let before = text.get(..end).unwrap_or("");
    let line = before.bytes().filter(|byte| *byte == b'\n').count();
    let start = before.rfind('\n').map_or(0, |at| at + 1);
    let column: usize = before.get(start..).unwrap_or("").chars().map(char::len_utf16).sum();
    Place { line: to_u32(line), column: to_u32(column) }
}

fn to_u32(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The specification of the protocol: `a𐐀b` has b at character 3, as 𐐀 is two units of UTF-16.
    #[test]
    fn columns_count_units_of_utf_16() {
        let text = "x\r\na𐐀b\n";
        let place = |line, column| Place { line, column };
        assert_eq!(place_of(text, text.find('b').expect("there")), place(1, 3));
        assert_eq!(offset_of(text, place(1, 3)), text.find('b').expect("there"));
        // Inside the pair: its start. Behind the end of a line: that end, before its line feed.
        assert_eq!(offset_of(text, place(1, 2)), text.find('𐐀').expect("there"));
        assert_eq!(offset_of(text, place(0, 9)), 1);
        assert_eq!(offset_of(text, place(9, 0)), text.len());
        for (offset, _) in text.char_indices().filter(|(_, char)| *char != '\r' && *char != '\n') {
            assert_eq!(offset_of(text, place_of(text, offset)), offset);
        }
    }
}
