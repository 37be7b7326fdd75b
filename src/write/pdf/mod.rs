//! Pages to PDF 1.7, as PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1) at once, through
//! `krilla`, which refuses what these two do not allow.
//!
//! The same pages give the same bytes: no clock, no random identifier.

mod faults;
mod links;
mod metadata;
mod outline;
mod pictures;
mod shapes;
mod tags;
mod text;

use krilla::SerializeSettings;
use krilla::configure::{Accessibility, Archival, Configuration, ConfigurationBuilder};
use krilla::page::PageSettings;
use krilla::surface::Surface;

use crate::page::{Page, Pages};
use crate::scene::{Item, Placement};
use crate::units::Length;

pub use faults::PdfFault;
use links::Anchors;
use tags::Tags;

/// The document as a file, or everything that PDF/A-2a, PDF/UA-1 or we find wrong with it.
pub fn pdf(pages: &Pages) -> Result<Vec<u8>, Vec<PdfFault>> {
    let anchors = Anchors::of(pages);
    let mut faults = Vec::new();
    let mut tags = Tags::new(&pages.nodes);
    let mut document = krilla::Document::new_with(settings()?);
    for (number, page) in pages.pages.iter().enumerate() {
        let (width, height) = (pt(page.size.width), pt(page.size.height));
        let Some(settings) = PageSettings::from_wh(width, height) else {
            continue;
        };
        let mut written = document.start_page_with(settings);
        let mut surface = written.surface();
        faults::set_page(&mut surface, number);
        let found = draw_page(page, &mut surface, &mut tags);
        surface.finish();
        for link in found {
            match anchors.annotation(&link) {
                Ok(annotation) => {
                    let identifier = written.add_tagged_annotation(annotation);
                    tags.link(link.node, identifier, link.description);
                }
                Err(message) => faults.push(PdfFault { message, page: Some(number + 1) }),
            }
        }
        written.finish();
    }
    document.set_outline(outline::outline(&pages.headings, &pages.about.title));
    document.set_metadata(metadata::metadata(&pages.about));
    document.set_tag_tree(tags.tree(&pages.about.language));
    if !faults.is_empty() {
        return Err(faults);
    }
    document.finish().map(without_suspects).map_err(faults::refusal)
}

/// Takes out the key that says that no tag is in doubt. Leaving it out says the same (ISO 32000-1,
/// table 321), but readers built on poppler complain of its value `false`. Spaces take its place,
/// so that nothing else moves.
fn without_suspects(mut file: Vec<u8>) -> Vec<u8> {
    const MARKED: &[u8] = b"/MarkInfo<</Marked true";
    const DOUBT: &[u8] = b"/Suspects false";
    // The catalogue is the last object: what stands before it cannot be taken for it.
    let marked = file.windows(MARKED.len()).rposition(|window| window == MARKED);
    let doubt = marked.and_then(|at| file.get_mut(at + MARKED.len()..)?.get_mut(..DOUBT.len()));
    if let Some(doubt) = doubt
        && doubt == DOUBT
    {
        doubt.fill(b' ');
    }
    file
}

fn settings() -> Result<SerializeSettings, Vec<PdfFault>> {
    let built = ConfigurationBuilder::new()
        .with_archival_validator(Archival::A2_A)
        .with_accessibility_validator(Accessibility::UA1)
        .finish();
    let configuration: Configuration = built.map_err(|_| {
        let message = "PDF/A-2a and PDF/UA-1 exclude each other".to_owned();
        vec![PdfFault { message, page: None }]
    })?;
    Ok(SerializeSettings { configuration, ..SerializeSettings::default() })
}

/// Draws a page; returns the places to press that were found.
fn draw_page<'a>(
    page: &'a Page,
    surface: &mut Surface<'_>,
    tags: &mut Tags<'_>,
) -> Vec<links::Found<'a>> {
    let mut found = Vec::new();
    let lines = shapes::Lines::default();
    let mut pen = Pen { surface, tags, found: &mut found, node: None, tagged: false, lines };
    pen.items(&page.items, Placement::default());
    found
}

/// What drawing an item needs.
struct Pen<'p, 's, 't, 'a> {
    surface: &'p mut Surface<'s>,
    tags: &'p mut Tags<'t>,
    found: &'p mut Vec<links::Found<'a>>,
    /// The node that items belong to.
    node: Option<usize>,
    /// Whether a marked content is open; they do not nest.
    tagged: bool,
    /// Lines of one look that are not drawn yet.
    lines: shapes::Lines,
}

impl<'a> Pen<'_, '_, '_, 'a> {
    fn items(&mut self, items: &'a [Item], place: Placement) {
        for item in items {
            match item {
                Item::Shape { path, fill: None, stroke: Some(stroke) } if self.tagged => {
                    self.lines.add(self.surface, path, *stroke, place);
                }
                Item::Shape { path, fill, stroke } => self.as_content(|pen| {
                    pen.lines.draw(pen.surface);
                    shapes::draw(pen.surface, path, *fill, *stroke, place);
                }),
                Item::Text { at, line, ink } => self.as_content(|pen| {
                    pen.lines.draw(pen.surface);
                    text::draw(pen.surface, line, *ink, *at, place);
                }),
                Item::Picture { area, picture } => self.as_content(|pen| {
                    pen.lines.draw(pen.surface);
                    pictures::draw(pen.surface, picture, place.rect(*area));
                }),
                Item::Group { shift, clip, items } => {
                    let place = place.moved(*shift);
                    let clipped = clip.and_then(|clip| shapes::clip(place.rect(clip)));
                    match clipped {
                        Some(path) => self.as_content(|pen| {
                            pen.lines.draw(pen.surface);
                            pen.surface.push_clip_path(&path, &Default::default());
                            pen.items(items, place);
                            pen.lines.draw(pen.surface);
                            pen.surface.pop();
                        }),
                        None => self.items(items, place),
                    }
                }
                Item::Scaled { by, items } => self.items(items, place.scaled(*by)),
                Item::Tagged { node, items } if !self.tagged => self.tagged(*node, items, place),
                Item::Tagged { items, .. } => self.items(items, place),
                Item::Link { area, target, description } => {
                    let area = place.rect(*area);
                    self.found.push(links::Found { node: self.node, area, target, description });
                }
                Item::Anchor { .. } => {}
            }
        }
    }

    fn tagged(&mut self, node: Option<usize>, items: &'a [Item], place: Placement) {
        self.tags.start(self.surface, node);
        (self.node, self.tagged) = (node, true);
        self.items(items, place);
        self.lines.draw(self.surface);
        (self.node, self.tagged) = (None, false);
        self.surface.end_tagged();
    }

    /// Draws as part of the open node, or else as decoration: nothing on a page may be neither.
    fn as_content(&mut self, draw: impl FnOnce(&mut Self)) {
        if self.tagged {
            return draw(self);
        }
        self.tags.start(self.surface, None);
        self.tagged = true;
        draw(self);
        self.tagged = false;
        self.surface.end_tagged();
    }
}

/// Millimetres to points, to a hundredth: finer than any printer, and short to write.
fn pt(mm: f64) -> f32 {
    let points = Length(mm).to_pt();
    // The conversion cannot lose what matters: nothing on a page is farther off than this. What
    // is no number is drawn at the edge, where it is seen, and the file stays a file.
    if points.is_nan() { 0.0 } else { ((points * 100.0).round() / 100.0).clamp(-3e4, 3e4) as f32 }
}

/// A place in points.
fn point(at: crate::geometry::Point) -> krilla::geom::Point {
    krilla::geom::Point::from_xy(pt(at.x), pt(at.y))
}

/// A rectangle in points; `None` if it has no inside.
fn rect(rect: crate::geometry::Rect) -> Option<krilla::geom::Rect> {
    krilla::geom::Rect::from_ltrb(pt(rect.left), pt(rect.top), pt(rect.right), pt(rect.bottom))
}
