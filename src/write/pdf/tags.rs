//! The tag tree, which a screen reader follows.

use std::num::NonZeroU16;

use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, BBox, ContentTag, Identifier, ListNumbering, Node as Leaf, TableHeaderScope, Tag,
    TagGroup, TagKind, TagTree,
};

use crate::document::ListKind;
use crate::page::{Role, StructureNode};

/// The tree as it grows while the pages are drawn.
pub(super) struct Tags<'a> {
    nodes: &'a [StructureNode],
    /// What each node holds, in the order in which it was drawn.
    kids: Vec<Vec<Kid>>,
    /// What lies directly in the document.
    roots: Vec<Kid>,
    /// Whether a node hangs on its parent yet.
    hung: Vec<bool>,
}

enum Kid {
    Node(usize),
    Content(Identifier),
    /// A place to press inside something that is not itself a link, with where it leads in words.
    Link(Identifier, String),
}

impl<'a> Tags<'a> {
    pub fn new(nodes: &'a [StructureNode]) -> Self {
        let kids = nodes.iter().map(|_| Vec::new()).collect();
        Self { nodes, kids, roots: Vec::new(), hung: vec![false; nodes.len()] }
    }

    /// Begins content of a node, or decoration. The caller ends it.
    pub fn start(&mut self, surface: &mut Surface<'_>, node: Option<usize>) {
        let Some(node) = node.filter(|node| *node < self.nodes.len()) else {
            surface.start_tagged(ContentTag::Artifact(Artifact::default()));
            return;
        };
        let identifier = surface.start_tagged(ContentTag::Other);
        self.push(node, Kid::Content(identifier));
    }

    /// Adds a place to press to the node that it lies in.
    pub fn link(&mut self, node: Option<usize>, identifier: Identifier, description: &str) {
        let is_link = |node: usize| {
            matches!(self.nodes.get(node), Some(StructureNode { role: Role::Link, .. }))
        };
        match node {
            Some(node) if is_link(node) => self.push(node, Kid::Content(identifier)),
            Some(node) => self.push(node, Kid::Link(identifier, description.to_owned())),
            None => self.roots.push(Kid::Link(identifier, description.to_owned())),
        }
    }

    fn push(&mut self, node: usize, kid: Kid) {
        if let Some(kids) = self.kids.get_mut(node) {
            kids.push(kid);
        }
        self.hang(node);
    }

    /// Hangs a node on its parent, and that on its own, the first time that it is drawn.
    fn hang(&mut self, mut node: usize) {
        while let Some(hung @ false) = self.hung.get_mut(node) {
            *hung = true;
            // A parent comes before its children, so this ends.
            let parent = self.nodes.get(node).and_then(|of| of.parent).filter(|p| *p < node);
            let Some(parent) = parent else {
                self.roots.push(Kid::Node(node));
                return;
            };
            if let Some(kids) = self.kids.get_mut(parent) {
                kids.push(Kid::Node(node));
            }
            node = parent;
        }
    }

    /// The finished tree.
    pub fn tree(mut self, language: &str) -> TagTree {
        let mut groups: Vec<Option<TagGroup>> = self.nodes.iter().map(|_| None).collect();
        // Children come after their parents, so from the end each finds its own ready.
        for (index, node) in self.nodes.iter().enumerate().rev() {
            let kids = self.kids.get_mut(index).map(std::mem::take).unwrap_or_default();
            if kids.is_empty() {
                continue;
            }
            let mut group = TagGroup::new(tag(&node.role));
            for leaf in leaves(kids, &mut groups) {
                group.push(leaf);
            }
            if let Some(slot) = groups.get_mut(index) {
                *slot = Some(group);
            }
        }
        let mut tree = TagTree::new().with_lang(Some(language.to_owned()));
        for leaf in leaves(self.roots, &mut groups) {
            tree.push(leaf);
        }
        tree
    }
}

fn leaves(kids: Vec<Kid>, groups: &mut [Option<TagGroup>]) -> Vec<Leaf> {
    let leaf = |kid| match kid {
        Kid::Node(node) => groups.get_mut(node).and_then(Option::take).map(Leaf::Group),
        Kid::Content(identifier) => Some(Leaf::Leaf(identifier)),
        Kid::Link(identifier, description) => {
            let words = Some(description).filter(|words| !words.is_empty());
            let mut group = TagGroup::new(Tag::Link.with_alt_text(words));
            group.push(identifier);
            Some(Leaf::Group(group))
        }
    };
    kids.into_iter().filter_map(leaf).collect()
}

fn tag(role: &Role) -> TagKind {
    match role {
        Role::Heading { level, text } => {
            let level = NonZeroU16::new(u16::from(*level)).unwrap_or(NonZeroU16::MIN);
            Tag::Hn(level, Some(text.clone())).into()
        }
        Role::Paragraph => Tag::P.into(),
        Role::List(kind) => Tag::L(match kind {
            ListKind::Bullets => ListNumbering::Disc,
            ListKind::Ticks => ListNumbering::None,
            ListKind::Numbers(_) | ListKind::Steps(_) => ListNumbering::Decimal,
        })
        .into(),
        Role::ListItem => Tag::LI.into(),
        Role::Label(ListKind::Bullets) => Tag::Lbl.with_actual_text(Some("•".to_owned())).into(),
        Role::Label(ListKind::Ticks) => {
            Tag::Lbl.with_actual_text(Some("\u{2610}".to_owned())).into()
        }
        Role::Label(_) => Tag::Lbl.into(),
        Role::Body => Tag::LBody.into(),
        Role::Table(summary) => {
            let summary = Some(summary.clone()).filter(|summary| !summary.is_empty());
            Tag::Table.with_summary(summary).into()
        }
        Role::TableHead => Tag::THead.into(),
        Role::TableBody => Tag::TBody.into(),
        Role::Row => Tag::TR.into(),
        Role::HeadCell => Tag::TH(TableHeaderScope::Column).into(),
        Role::GroupHead(columns) => {
            Tag::TH(TableHeaderScope::Row).with_col_span(Some(*columns)).into()
        }
        Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        Role::Cell => Tag::TD.into(),
        Role::FigureBlock | Role::Part => Tag::Div.into(),
        Role::Figure { alternative, area, page } => {
            let area = super::rect(*area).map(|rect| BBox::new(*page, rect));
            let alternative = Some(alternative.clone()).filter(|words| !words.is_empty());
            let location = super::faults::location(*page);
            Tag::Figure(alternative).with_bbox(area).with_location(location).into()
        }
        Role::Caption => Tag::Caption.into(),
        Role::Link => Tag::Link.into(),
        // What is drawn, as characters that every language has.
        Role::Tick => Tag::Span.with_actual_text(Some("☐".to_owned())).into(),
        Role::Blank => Tag::Span.with_actual_text(Some("____".to_owned())).into(),
        Role::Caution => Tag::Section.into(),
        Role::Contents => Tag::TOC.into(),
        Role::ContentsLine => Tag::TOCI.into(),
    }
}
