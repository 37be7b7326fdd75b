//! Which part of a file was edited, and where the sheets show it.
//!
//! A file is looked at by its lines alone, because while it is being written it is often no YAML.

use crate::figure::places;
use crate::geometry::Point;
use crate::page::{Pages, Role};
use crate::scene::{Item, Placement};

use super::shown::Spot;

/// What a line of a specification belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Edited {
    /// The line, from 1.
    pub line: usize,
    /// The outermost key: `headers`; empty above the first.
    pub section: String,
    /// The entry of the section, `J2`, and which it is there, from 0.
    pub entry: Option<(String, usize)>,
}

/// A place of a sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Target {
    /// What links lead to.
    Anchor(String),
    /// A drawing, by its name.
    Drawing(String),
    /// The first page.
    Top,
}

/// The first line of `new` that is not as it was in `old`, from 1; the line where something was taken out.
/// `None` if nothing changed.
pub fn first_changed_line(old: &str, new: &str) -> Option<usize> {
    if old == new {
        return None;
    }
    let same = old.lines().zip(new.lines()).take_while(|(old, new)| old == new).count();
    // What was taken off the end leaves no line of its own.
    Some((same + 1).min(new.lines().count().max(1)))
}

/// What a line of a file, from 1, belongs to.
pub fn edited_place(text: &str, line: usize) -> Edited {
    let lines: Vec<&str> = text.lines().take(line).collect();
    let says = |line: &str| !line.trim().is_empty() && !line.trim_start().starts_with('#');
    let start = lines.iter().rposition(|line| says(line) && indent(line) == 0);
    let Some(start) = start else { return Edited { line, section: String::new(), entry: None } };
    let section = lines.get(start).and_then(|line| key(line)).unwrap_or_default();
    let inside = lines.get(start + 1..).unwrap_or_default();
    let inside: Vec<&str> = inside.iter().copied().filter(|line| says(line)).collect();
    let outermost = inside.first().map_or(0, |line| indent(line));
    let entries = inside.iter().filter(|line| indent(line) <= outermost);
    let entries: Vec<String> = entries.filter_map(|line| key(line)).collect();
    let entry = entries.last().map(|name| (name.clone(), entries.len() - 1));
    Edited { line, section: section.to_owned(), entry }
}

/// How far a line is moved in.
fn indent(line: &str) -> usize {
    line.len() - line.trim_start().len()
}

/// The key that a line begins with.
fn key(line: &str) -> Option<String> {
    let line = line.trim();
    let quote = line.chars().next().filter(|first| matches!(first, '"' | '\''));
    let (key, rest) = match quote {
        Some(quote) => line.get(1..)?.split_once(quote)?,
        None => line.split_at(line.find(": ").or_else(|| line.strip_suffix(':').map(str::len))?),
    };
    (rest.trim_start().starts_with(':') && !key.is_empty()).then(|| key.trim().to_owned())
}

/// Where the sheets show what was edited, the best place first. The last is always there.
pub fn targets(edited: &Edited) -> Vec<Target> {
    let anchor = |name: &str| Target::Anchor(name.to_owned());
    let drawing = |kind: &str, index: usize| Target::Drawing(format!("{kind}-{}", index + 1));
    let (name, index) = match &edited.entry {
        Some((name, index)) => (name.as_str(), *index),
        None => ("", 0),
    };
    let mut all = match edited.section.as_str() {
        "headers" => vec![
            Target::Anchor(places::socket(name)),
            Target::Anchor(places::plan(name)),
            anchor("sockets"),
        ],
        "sockets" => vec![anchor("sockets")],
        "switches" => vec![drawing("switches", index), anchor("switches")],
        "selectors" => vec![drawing("selector", index), anchor("layouts")],
        "layouts" => vec![anchor("layouts")],
        "supplies" => vec![drawing("supply", index), anchor("supply")],
        "terminals" | "links" | "electronics" => vec![anchor("supply")],
        "heater" => vec![anchor("voltages"), anchor("switches")],
        "panels" => vec![anchor("panel")],
        "parts" | "groups" | "jumpers" | "fuses" | "devices" => Vec::new(),
        _ => return vec![Target::Top],
    };
    all.extend([Target::Drawing("board-plan".to_owned()), anchor("plan"), Target::Top]);
    all
}

/// The first of some targets that is on the pages. `drawings` tells the description of each by its name.
pub fn spot(targets: &[Target], pages: &Pages, drawings: &[(String, String)]) -> Spot {
    let found = targets.iter().find_map(|target| match target {
        Target::Anchor(name) => {
            let mut on_page = pages.pages.iter().enumerate();
            on_page.find_map(|(page, on)| {
                let at = anchor(&on.items, name, Placement::default())?;
                Some(Spot { page, top: at.y })
            })
        }
        Target::Drawing(name) => {
            let (_, description) = drawings.iter().find(|(drawing, _)| drawing == name)?;
            pages.nodes.iter().find_map(|node| match &node.role {
                Role::Figure { alternative, area, page }
                    if !description.is_empty() && alternative.ends_with(description.trim()) =>
                {
                    Some(Spot { page: *page, top: area.top })
                }
                _ => None,
            })
        }
        Target::Top => Some(Spot::default()),
    });
    found.unwrap_or_default()
}

/// Where the anchor of a name is among the items.
fn anchor(items: &[Item], wanted: &str, place: Placement) -> Option<Point> {
    items.iter().find_map(|item| match item {
        Item::Anchor { name, at } if name == wanted => Some(place.point(*at)),
        Item::Group { shift, items, .. } => anchor(items, wanted, place.moved(*shift)),
        Item::Scaled { by, items } => anchor(items, wanted, place.scaled(*by)),
        Item::Tagged { items, .. } => anchor(items, wanted, place),
        Item::Anchor { .. }
        | Item::Shape { .. }
        | Item::Text { .. }
        | Item::Picture { .. }
        | Item::Link { .. } => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOARD: &str = "\
# A board
lidsheet: 1

headers:                 # what runs
  J1: { title: Heater,
        part: main }
  # The pumps
  'J 2': { title: Pump 1,

        part: main }
switches:
  S1:
    part: main
    ways:
      1-2:
        effect: heater allowance
  S2: { part: main }
layouts:
  columns: [pump 1]
  rows:
    1: [0]
";

    fn place(line: usize) -> (String, String, usize) {
        let Edited { section, entry, .. } = edited_place(BOARD, line);
        let (name, index) = entry.unwrap_or_default();
        (section, name, index)
    }

    fn is(section: &str, name: &str, index: usize) -> (String, String, usize) {
        (section.to_owned(), name.to_owned(), index)
    }

    #[test]
    fn a_line_belongs_to_an_entry_of_a_section() {
        let expected = [
            (1, is("", "", 0)),
            (2, is("lidsheet", "", 0)),
            (3, is("lidsheet", "", 0)),
            (4, is("headers", "", 0)),
            (5, is("headers", "J1", 0)),
            (6, is("headers", "J1", 0)),
            (7, is("headers", "J1", 0)),
            (8, is("headers", "J 2", 1)),
            (9, is("headers", "J 2", 1)),
            (10, is("headers", "J 2", 1)),
            (11, is("switches", "", 0)),
            (12, is("switches", "S1", 0)),
            (16, is("switches", "S1", 0)),
            (17, is("switches", "S2", 1)),
            (21, is("layouts", "rows", 1)),
            (900, is("layouts", "rows", 1)),
        ];
        for (line, expected) in expected {
            assert_eq!(place(line), expected, "line {line}");
        }
    }

    #[test]
    fn the_first_line_that_differs_is_the_edited_one() {
        let changed = |old, new| first_changed_line(old, new);
        assert_eq!(changed("a\nb\n", "a\nb\n"), None);
        assert_eq!(changed("a\nb\nc\n", "a\nB\nC\n"), Some(2));
        assert_eq!(changed("a\nb\n", "a\nb\nc\n"), Some(3));
        assert_eq!(changed("a\nb\nc\n", "a\nc\n"), Some(2));
        assert_eq!(changed("a\nb\nc\n", "a\nb\n"), Some(2));
        assert_eq!(changed("a\n", ""), Some(1));
        assert_eq!(changed("", "a\n"), Some(1));
    }

    #[test]
    fn each_section_of_a_board_leads_somewhere() {
        let first = |section: &str, entry: Option<(&str, usize)>| {
            let entry = entry.map(|(name, index)| (name.to_owned(), index));
            targets(&Edited { line: 1, section: section.to_owned(), entry }).remove(0)
        };
        let anchor = |name: &str| Target::Anchor(name.to_owned());
        let drawing = |name: &str| Target::Drawing(name.to_owned());
        assert_eq!(first("headers", Some(("J2", 1))), anchor("socket-J2"));
        assert_eq!(first("switches", Some(("S2", 1))), drawing("switches-2"));
        assert_eq!(first("selectors", Some(("S2", 0))), drawing("selector-1"));
        assert_eq!(first("supplies", Some(("wye", 2))), drawing("supply-3"));
        assert_eq!(first("layouts", None), anchor("layouts"));
        assert_eq!(first("jumpers", Some(("W1", 0))), drawing("board-plan"));
        assert_eq!(first("terminals", Some(("T1", 0))), anchor("supply"));
        assert_eq!(first("board", None), Target::Top);
        assert_eq!(first("", None), Target::Top);
        assert_eq!(first("no such key", None), Target::Top);
    }

    #[test]
    fn nothing_that_is_typed_stops_it() {
        for text in
            ["", "\n\n", ":", "  :", "'", "\"a", "a:\n\t- b:", "é: \n ü", "a:\r\n  b: 1\r\n"]
        {
            for line in 0..4 {
                let edited = edited_place(text, line);
                assert!(!targets(&edited).is_empty());
            }
        }
    }
}
