//! What blocks are collected into, with what they share.

use super::look::Look;
use super::strip::{After, Collected};
use super::{Role, StructureNode};
use crate::document::Logo;
use crate::scene::{Ink, Target};
use crate::text::{Style, Typesetter};

/// Where blocks stand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Column {
    /// From the left edge of the page's area.
    pub left: f64,
    pub width: f64,
}

/// What blocks are part of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Within {
    /// Their node's parent.
    pub parent: Option<usize>,
    /// How deep they lie.
    pub depth: usize,
}

/// A level 1 heading, for the contents.
#[derive(Clone, Debug)]
pub(super) struct Section {
    pub text: String,
    /// The anchor that the contents lead to.
    pub anchor: String,
}

/// Takes the blocks of a document, one after the other.
pub(super) struct Collector<'a> {
    pub types: &'a mut Typesetter,
    pub look: &'static Look,
    /// The signal words of the document's language.
    pub signal_words: &'a [String; 4],
    /// The logo, until it is drawn.
    pub logo: Option<&'a Logo>,
    /// The colour of headings and of the rule under the title.
    pub accent: Option<Ink>,
    /// Height of the area of a page as it lies.
    pub area_height: f64,
    /// Whether pages lie on their long side.
    pub landscape: bool,
    /// Height that is used already above columns on their page, as far as that is known.
    pub above: f64,
    /// All sections of the document.
    pub sections: Vec<Section>,
    /// How many of them have begun.
    pub section: usize,
    /// Level of the last heading, 0 before the first.
    pub level: u8,
    /// Whether the document has a title, which is a level of its own above the headings.
    pub titled: bool,
    /// The space above the strip of a number, whatever block it begins: the first one beside a
    /// label or in a frame.
    pub first: Option<(usize, f64)>,
    /// Height that frames still need below what they hold.
    pub below: f64,
    pub to: Collected,
}

impl Collector<'_> {
    /// A new node of the reading order.
    pub fn node(&mut self, role: Role, parent: Option<usize>) -> usize {
        self.to.nodes.push(StructureNode { role, parent });
        self.to.nodes.len() - 1
    }

    /// A new heading of the reading order, of a level below the title.
    pub fn heading_node(&mut self, level: u8, text: String, parent: Option<usize>) -> usize {
        let level = level + u8::from(self.titled);
        self.node(Role::Heading { level, text }, parent)
    }

    /// Height of a line of running text: the type's own, if the wished one is less.
    pub fn line_height(&mut self) -> f64 {
        let set = self.look.body_text();
        let line = self.types.line("", set.style).height();
        set.line_height().max(line)
    }

    /// Space above a block: less where it follows a heading.
    pub fn gap(&self, wished: f64) -> f64 {
        match self.fixed_gap() {
            Some(gap) => gap,
            None if self.after_heading() => wished.min(self.look.after_heading),
            None => wished,
        }
    }

    /// Space above the next strip if that is settled.
    pub fn fixed_gap(&self) -> Option<f64> {
        self.first.filter(|(strip, _)| *strip == self.to.strips.len()).map(|(_, gap)| gap)
    }

    /// Whether the last strip is a heading's.
    pub fn after_heading(&self) -> bool {
        self.to.headings.last().is_some_and(|heading| {
            let strips = self.to.strips.get(heading.strip..).unwrap_or_default();
            !strips.is_empty() && strips.iter().all(|strip| strip.after == After::Never)
        })
    }
}

/// The place that a link to an anchor leads to.
pub(super) fn link_target(anchor: &str) -> Target {
    Target::Anchor(anchor.to_owned())
}

/// The same style in bold.
pub(super) fn strong(style: Style) -> Style {
    Style::bold(style.size_pt)
}
