//! Pages as SVG, to be shown in one HTML document: the fonts come from its style sheet, links lead from page
//! to page, and a screen reader is told what is a heading, a drawing or mere decoration.

use std::collections::BTreeSet;
use std::fmt::Write;

use super::{Drawing, collect_anchors, fonts, number};
use crate::page::{Pages, Role, StructureNode};
use crate::scene::Item;
use crate::text::{Face, Weight};
use crate::write::escape;

/// Every page as an `<svg>` element of its own, in their order. Headings begin at level `first_level`.
///
/// What could clash in one HTML document does not: names of clips differ from page to page, and an anchor
/// that is on several pages leads to the first.
pub fn svg_pages(pages: &Pages, first_level: u8) -> Vec<String> {
    let mut anchors = BTreeSet::new();
    for page in &pages.pages {
        collect_anchors(&page.items, &mut anchors);
    }
    let mut reader = Reader::new(&pages.nodes, first_level);
    let mut written = Vec::with_capacity(pages.pages.len());
    for (index, page) in pages.pages.iter().enumerate() {
        let mut drawing = Drawing {
            to: String::with_capacity(64 * 1024),
            anchors: &anchors,
            clips: 0,
            clip_name: format!("page{}-clip", index + 1),
            names: "",
            dense: false,
            reader: Some(&mut reader),
        };
        let (width, height) = (number(page.size.width), number(page.size.height));
        drawing.add(format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" lang=\""
        ));
        escape::push(&mut drawing.to, &pages.about.language);
        drawing.to.push_str("\">\n");
        drawing.items(&page.items);
        drawing.to.push_str("</svg>\n");
        written.push(drawing.to);
    }
    written
}

/// The style sheet that [`svg_pages`] count on: each face, its file at the path that `file` gives, and its class.
pub fn page_style(file: &dyn Fn(Face) -> String) -> String {
    let mut style = String::new();
    for face in Face::ALL {
        let family = face.family();
        let weight = match face.weight() {
            Weight::Regular => 400,
            Weight::Bold => 700,
        };
        let font = format!("font-family:'{family}';font-weight:{weight}");
        let (class, path) = (fonts::class(face), file(face));
        // Writing to a string cannot fail.
        let _ = writeln!(style, "@font-face{{{font};src:url({path})}}");
        let _ = writeln!(style, "svg .{class}{{{font};font-kerning:none}}");
    }
    style
}

/// What screen readers are told of a document's parts.
pub(super) struct Reader<'a> {
    nodes: &'a [StructureNode],
    first_level: u8,
    /// The nodes whose words were told.
    told: BTreeSet<usize>,
    /// The anchors that were there.
    anchors: BTreeSet<&'a str>,
}

impl<'a> Reader<'a> {
    fn new(nodes: &'a [StructureNode], first_level: u8) -> Self {
        Self { nodes, first_level, told: BTreeSet::new(), anchors: BTreeSet::new() }
    }

    /// Whether no anchor of this name was there before.
    pub fn is_first(&mut self, name: &'a str) -> bool {
        self.anchors.insert(name)
    }

    /// The attributes of the group that holds what belongs to a node.
    pub fn told(&mut self, node: Option<usize>, items: &[Item]) -> String {
        let Some((node, role)) = node.and_then(|node| self.spoken(node)) else {
            return match node {
                Some(_) => String::new(),
                None => " aria-hidden=\"true\"".to_owned(),
            };
        };
        // A part that lies on several lines is told as a whole with the first.
        let first = self.told.insert(node);
        match role {
            Role::Heading { .. } if !first => " aria-hidden=\"true\"".to_owned(),
            Role::Heading { level, text } => {
                let level = level.saturating_sub(1).saturating_add(self.first_level);
                let text = escape::escaped(text);
                format!(" role=\"heading\" aria-level=\"{level}\" aria-label=\"{text}\"")
            }
            Role::Figure { alternative, .. } => {
                // The parts of an image are not read, so what leads somewhere must not be one.
                let role = if leads(items) { "figure" } else { "img" };
                let alternative = escape::escaped(alternative);
                format!(" role=\"{role}\" aria-label=\"{alternative}\"")
            }
            _ => String::new(),
        }
    }

    /// The heading or drawing that a node is or lies in.
    fn spoken(&self, mut node: usize) -> Option<(usize, &'a Role)> {
        loop {
            let StructureNode { role, parent } = self.nodes.get(node)?;
            if matches!(role, Role::Heading { .. } | Role::Figure { .. }) {
                return Some((node, role));
            }
            // A parent comes before its children, so this ends.
            node = parent.filter(|parent| *parent < node)?;
        }
    }
}

/// Whether there is a link among the items.
fn leads(items: &[Item]) -> bool {
    items.iter().any(|item| match item {
        Item::Link { .. } => true,
        Item::Group { items, .. } | Item::Scaled { items, .. } | Item::Tagged { items, .. } => {
            leads(items)
        }
        Item::Shape { .. } | Item::Text { .. } | Item::Picture { .. } | Item::Anchor { .. } => {
            false
        }
    })
}
