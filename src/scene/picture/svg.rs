//! SVG to filled outlines. `usvg` leaves out what it cannot draw without a word, so the elements and
//! attributes are looked through first.

use resvg::usvg::roxmltree::{self, Document, Node, ParsingOptions};
use resvg::usvg::tiny_skia_path::{self, PathSegment, PathStroker, Transform};
use resvg::usvg::{self, BlendMode, FillRule, Group, ImageHrefResolver, Opacity, PaintOrder};

use super::{MOST_PICTURE_STEPS, NotTaken, Outline, Picture, PictureContent, PictureFault};
use crate::geometry::{Path, Point, Size, Step};
use crate::scene::Ink;

const NAMESPACE: &str = "http://www.w3.org/2000/svg";
/// How deep elements may lie in each other: `usvg` calls itself for each level.
const DEEPEST: usize = 64;
/// The most elements and texts.
const MOST_NODES: u32 = 10_000;
/// The longest rules of style, bytes: each is compared with each element.
const LONGEST_STYLE: usize = 16 << 10;
/// The larger side of a logo in steps as fine as a printer's dots: curves of widened lines are no
/// coarser.
const FINENESS: f32 = 2000.0;

pub fn read(text: &str) -> Result<Picture, PictureFault> {
    if text.contains("<!ENTITY") {
        return Err(PictureFault::Holds(NotTaken::Entities));
    }
    // Drawing programs write a DOCTYPE; without entities it says nothing.
    let options =
        ParsingOptions { allow_dtd: true, nodes_limit: MOST_NODES, ..ParsingOptions::default() };
    let unreadable = |error: String| PictureFault::Unreadable(error);
    let xml = Document::parse_with_options(text, options).map_err(|error| match error {
        roxmltree::Error::NodesLimitReached => PictureFault::TooIntricate,
        error => unreadable(error.to_string()),
    })?;
    look_through(&xml).map_err(PictureFault::Holds)?;
    let styles = xml.descendants().filter(|it| it.tag_name().name() == "style");
    let styles = styles.flat_map(|it| it.children()).filter_map(|it| it.text());
    if styles.map(str::len).sum::<usize>() > LONGEST_STYLE {
        return Err(PictureFault::TooIntricate);
    }
    let options = usvg::Options {
        image_href_resolver: ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(|_, _| None),
        },
        ..usvg::Options::default()
    };
    let tree = usvg::Tree::from_xmltree(&xml, &options).map_err(|it| unreadable(it.to_string()))?;
    let size = Size::new(f64::from(tree.size().width()), f64::from(tree.size().height()));
    let mut drawn = Drawn {
        fineness: FINENESS / tree.size().width().max(tree.size().height()),
        ..Drawn::default()
    };
    drawn.group(tree.root())?;
    if drawn.outlines.is_empty() {
        return Err(PictureFault::Blank);
    }
    Ok(Picture { size, content: PictureContent::Outlines(drawn.outlines) })
}

/// Finds what would be left out without a word, or what could take for ever.
fn look_through(xml: &Document<'_>) -> Result<(), NotTaken> {
    let mut open = vec![(xml.root_element(), 1)];
    while let Some((node, depth)) = open.pop() {
        if depth > DEEPEST {
            return Err(NotTaken::Depth);
        }
        // Notes of drawing programs, in namespaces of their own.
        if node.is_element() && node.tag_name().namespace() != Some(NAMESPACE) {
            if node == xml.root_element() {
                return Err(NotTaken::Element(node.tag_name().name().to_owned()));
            }
            continue;
        }
        if !node.is_element() || matches!(node.tag_name().name(), "metadata" | "title" | "desc") {
            continue;
        }
        element(node, node == xml.root_element())?;
        node.attributes().try_for_each(|it| attribute(it.name(), it.value()))?;
        if node.tag_name().name() == "style" {
            node.children().filter_map(|it| it.text()).try_for_each(style)?;
            continue;
        }
        open.extend(node.children().map(|child| (child, depth + 1)));
    }
    Ok(())
}

fn element(node: Node<'_, '_>, outermost: bool) -> Result<(), NotTaken> {
    let name = node.tag_name().name();
    Err(match name {
        "svg" if outermost => return Ok(()),
        "g" | "path" | "rect" | "circle" | "ellipse" | "line" | "polyline" | "polygon" => {
            return Ok(());
        }
        // They draw nothing by themselves; what refers to them is refused there.
        "defs" | "style" | "symbol" | "linearGradient" | "radialGradient" | "pattern" | "stop"
        | "clipPath" | "mask" | "filter" | "marker" => return Ok(()),
        name if name.starts_with("fe") && name != "feImage" => return Ok(()),
        "text" | "tspan" | "textPath" | "tref" | "altGlyph" => NotTaken::Text,
        "image" | "feImage" => NotTaken::Image,
        "script" => NotTaken::Script,
        "animate" | "animateTransform" | "animateMotion" | "animateColor" | "set" => {
            NotTaken::Animation
        }
        "use" => NotTaken::Copy,
        "svg" => NotTaken::Clip,
        name => NotTaken::Element(name.to_owned()),
    })
}

fn attribute(name: &str, value: &str) -> Result<(), NotTaken> {
    if name.starts_with("on") {
        return Err(NotTaken::Script);
    }
    if name == "href" && !value.trim_start().starts_with('#') {
        return Err(NotTaken::Outside);
    }
    match name {
        "style" => style(value),
        name => refers(name, value),
    }
}

/// The same of rules of style, `fill: url(#a); …`.
fn style(text: &str) -> Result<(), NotTaken> {
    if text.contains("@import") {
        return Err(NotTaken::Outside);
    }
    text.split(['{', '}', ';']).try_for_each(|rule| {
        let (name, value) = rule.split_once(':').unwrap_or(("", rule));
        refers(name.trim(), value)
    })
}

/// What a property is refused for if its value refers to something.
fn refers(name: &str, value: &str) -> Result<(), NotTaken> {
    let Some((_, to)) = value.split_once("url(") else { return Ok(()) };
    let inside = to.trim_start().trim_start_matches(['"', '\'']).starts_with('#');
    Err(match name {
        _ if !inside => NotTaken::Outside,
        "clip-path" => NotTaken::Clip,
        "mask" => NotTaken::Mask,
        "filter" => NotTaken::Filter,
        name if name.starts_with("marker") => NotTaken::Marker,
        _ => NotTaken::Gradient,
    })
}

/// What is drawn so far.
#[derive(Default)]
struct Drawn {
    outlines: Vec<Outline>,
    steps: usize,
    /// Steps of the finest curve to the user unit.
    fineness: f32,
}

impl Drawn {
    fn group(&mut self, group: &Group) -> Result<(), PictureFault> {
        let held = if group.opacity() != Opacity::ONE || group.blend_mode() != BlendMode::Normal {
            Some(NotTaken::SeeThrough)
        } else if group.clip_path().is_some() {
            Some(NotTaken::Clip)
        } else if group.mask().is_some() {
            Some(NotTaken::Mask)
        } else if !group.filters().is_empty() {
            Some(NotTaken::Filter)
        } else {
            None
        };
        if let Some(held) = held {
            return Err(PictureFault::Holds(held));
        }
        for node in group.children() {
            match node {
                usvg::Node::Group(group) => self.group(group)?,
                usvg::Node::Path(path) if path.is_visible() => self.path(path)?,
                usvg::Node::Path(_) => {}
                usvg::Node::Image(_) => return Err(PictureFault::Holds(NotTaken::Image)),
                usvg::Node::Text(_) => return Err(PictureFault::Holds(NotTaken::Text)),
            }
        }
        Ok(())
    }

    fn path(&mut self, path: &usvg::Path) -> Result<(), PictureFault> {
        let to = path.abs_transform();
        let fill = |drawn: &mut Self| match path.fill() {
            Some(fill) => {
                let ink = ink(fill.paint(), fill.opacity())?;
                drawn.push(path.data(), to, ink, fill.rule() == FillRule::EvenOdd)
            }
            None => Ok(()),
        };
        let stroke = |drawn: &mut Self| match path.stroke() {
            Some(stroke) => {
                let ink = ink(stroke.paint(), stroke.opacity())?;
                if stroke.dasharray().is_some() {
                    return Err(PictureFault::Holds(NotTaken::Dashes));
                }
                let fineness = PathStroker::compute_resolution_scale(&to) * drawn.fineness;
                match path.data().stroke(&stroke.to_tiny_skia(), fineness) {
                    Some(widened) => drawn.push(&widened, to, ink, false),
                    None => Ok(()),
                }
            }
            None => Ok(()),
        };
        match path.paint_order() {
            PaintOrder::FillAndStroke => fill(self).and_then(|()| stroke(self)),
            PaintOrder::StrokeAndFill => stroke(self).and_then(|()| fill(self)),
        }
    }

    fn push(
        &mut self,
        path: &tiny_skia_path::Path,
        to: Transform,
        fill: Ink,
        even_odd: bool,
    ) -> Result<(), PictureFault> {
        self.steps += path.len();
        if self.steps > MOST_PICTURE_STEPS {
            return Err(PictureFault::TooIntricate);
        }
        // What lies beyond all numbers is not on the drawing.
        let Some(path) = path.clone().transform(to) else { return Ok(()) };
        self.outlines.push(Outline { path: steps(&path), fill, even_odd });
        Ok(())
    }
}

fn ink(paint: &usvg::Paint, opacity: Opacity) -> Result<Ink, PictureFault> {
    match paint {
        usvg::Paint::Color(color) if opacity == Opacity::ONE => {
            Ok(Ink(color.red, color.green, color.blue))
        }
        usvg::Paint::Color(_) => Err(PictureFault::Holds(NotTaken::SeeThrough)),
        _ => Err(PictureFault::Holds(NotTaken::Gradient)),
    }
}

fn steps(path: &tiny_skia_path::Path) -> Path {
    let at = |point: tiny_skia_path::Point| Point::new(f64::from(point.x), f64::from(point.y));
    let mut last = Point::default();
    let mut steps = Vec::with_capacity(path.len());
    for segment in path.segments() {
        let (step, end) = match segment {
            PathSegment::MoveTo(to) => (Step::Move(at(to)), at(to)),
            PathSegment::LineTo(to) => (Step::Line(at(to)), at(to)),
            PathSegment::QuadTo(by, to) => {
                let (by, to) = (at(by), at(to));
                // The same curve with two control points.
                let third = |from: Point| {
                    Point::new(
                        from.x + (by.x - from.x) * TWO_THIRDS,
                        from.y + (by.y - from.y) * TWO_THIRDS,
                    )
                };
                (Step::Curve(third(last), third(to), to), to)
            }
            PathSegment::CubicTo(first, second, to) => {
                (Step::Curve(at(first), at(second), at(to)), at(to))
            }
            PathSegment::Close => (Step::Close, last),
        };
        last = end;
        steps.push(step);
    }
    Path { steps }
}

const TWO_THIRDS: f64 = 2.0 / 3.0;
