//! Links and the places that they lead to.

use std::collections::BTreeMap;

use krilla::annotation::{Annotation, LinkAnnotation};
use krilla::destination::XyzDestination;

use crate::geometry::{Point, Rect};
use crate::page::Pages;
use crate::scene::{Item, Placement, Target};

/// A place to press that was found while drawing.
pub(super) struct Found<'a> {
    /// The node of the reading order that it lies in.
    pub node: Option<usize>,
    /// Where, on its page.
    pub area: Rect,
    pub target: &'a Target,
    pub description: &'a str,
}

/// Where each anchor is. If two have one name, the first counts: a drawing may be shown twice.
pub(super) struct Anchors<'a>(BTreeMap<&'a str, (usize, Point)>);

impl<'a> Anchors<'a> {
    pub fn of(pages: &'a Pages) -> Self {
        let mut anchors = Self(BTreeMap::new());
        for (number, page) in pages.pages.iter().enumerate() {
            anchors.collect(number, &page.items, Placement::default());
        }
        anchors
    }

    fn collect(&mut self, page: usize, items: &'a [Item], place: Placement) {
        for item in items {
            match item {
                Item::Anchor { name, at } => {
                    self.0.entry(name).or_insert((page, place.point(*at)));
                }
                Item::Group { shift, items, .. } => self.collect(page, items, place.moved(*shift)),
                Item::Scaled { by, items } => self.collect(page, items, place.scaled(*by)),
                Item::Tagged { items, .. } => self.collect(page, items, place),
                Item::Shape { .. }
                | Item::Text { .. }
                | Item::Picture { .. }
                | Item::Link { .. } => {}
            }
        }
    }

    /// The annotation of a place to press, or what is wrong with it.
    pub fn annotation(&self, link: &Found<'_>) -> Result<Annotation, String> {
        let Target::Anchor(name) = link.target;
        let Some((page, at)) = self.0.get(name.as_str()) else {
            return Err(format!("a link leads to `{name}`, which is nowhere in the document"));
        };
        let Some(area) = super::rect(link.area) else {
            return Err(format!("the link to `{name}` has no area to press"));
        };
        let target = krilla::annotation::Target::Destination(destination(*page, *at).into());
        let description = if link.description.is_empty() { name } else { link.description };
        let annotation = LinkAnnotation::new(area, target);
        Ok(Annotation::new_link(annotation, Some(description.to_owned())))
    }
}

/// A place to show: a little above the anchor, so that what is there is not at the very edge.
pub(super) fn destination(page: usize, at: Point) -> XyzDestination {
    let at = Point::new(0.0, (at.y - 4.0).max(0.0));
    XyzDestination::new(page, super::point(at))
}
