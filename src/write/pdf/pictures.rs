//! Pictures from outside, cut at their area.

use std::hash::{Hash, Hasher};
use std::sync::Arc;

use krilla::geom::{Size, Transform};
use krilla::image::{BitsPerComponent, CustomImage, Image, ImageColorspace};
use krilla::paint::FillRule;
use krilla::surface::Surface;

use crate::geometry::Rect;
use crate::scene::{Outline, Picture, PictureContent, Pixels, Placement};

/// Draws a picture stretched to `area`, mm.
pub(super) fn draw(surface: &mut Surface<'_>, picture: &Arc<Picture>, area: Rect) {
    let Some(edge) = super::shapes::clip(area) else { return };
    surface.push_clip_path(&edge, &FillRule::NonZero);
    match &picture.content {
        PictureContent::Outlines(outlines) => {
            let scale = area.width() / picture.size.width;
            let place = Placement { scale, origin: area.corner() };
            outlines.iter().for_each(|it| outline(surface, it, place));
        }
        PictureContent::Pixels(_) => pixels(surface, picture, area),
    }
    surface.pop();
}

fn outline(
    surface: &mut Surface<'_>,
    Outline { path, fill, even_odd }: &Outline,
    place: Placement,
) {
    let Some(path) = super::shapes::outline(path, place) else { return };
    let rule = if *even_odd { FillRule::EvenOdd } else { FillRule::NonZero };
    surface.set_fill(Some(krilla::paint::Fill { rule, ..super::shapes::fill(*fill) }));
    surface.set_stroke(None);
    surface.draw_path(&path);
}

fn pixels(surface: &mut Surface<'_>, picture: &Arc<Picture>, area: Rect) {
    // Archives forbid that a viewer makes up pixels between those that there are (ISO 19005-2).
    let smoothed = false;
    let Ok(image) = Image::from_custom(Shared(Arc::clone(picture)), smoothed) else { return };
    let size = Size::from_wh(super::pt(area.width()), super::pt(area.height()));
    let Some(size) = size else { return };
    let (x, y) = (super::pt(area.left), super::pt(area.top));
    surface.push_transform(&Transform::from_translate(x, y));
    surface.draw_image(image, size);
    surface.pop();
}

/// The pixels of a picture, which may be drawn in many documents.
#[derive(Clone)]
struct Shared(Arc<Picture>);

impl Shared {
    fn pixels(&self) -> Option<&Pixels> {
        match &self.0.content {
            PictureContent::Pixels(pixels) => Some(pixels),
            PictureContent::Outlines(_) => None,
        }
    }
}

impl Hash for Shared {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.pixels().hash(state);
    }
}

impl CustomImage for Shared {
    fn color_channel(&self) -> &[u8] {
        self.pixels().map_or(&[], |pixels| &pixels.rgb)
    }

    fn alpha_channel(&self) -> Option<&[u8]> {
        None
    }

    fn bits_per_component(&self) -> BitsPerComponent {
        BitsPerComponent::Eight
    }

    fn size(&self) -> (u32, u32) {
        self.pixels().map_or((0, 0), |pixels| (pixels.width, pixels.height))
    }

    fn icc_profile(&self) -> Option<&[u8]> {
        None
    }

    fn color_space(&self) -> ImageColorspace {
        ImageColorspace::Rgb
    }
}
