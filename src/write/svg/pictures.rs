//! Pictures from outside: a drawing inside the drawing, which cuts them at their area.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use super::{Drawing, colour, number, push_path};
use crate::geometry::Rect;
use crate::scene::{Picture, PictureContent, Pixels};
use crate::units::shortest;

impl Drawing<'_, '_> {
    /// Draws a picture stretched to `area`.
    pub(super) fn picture(&mut self, area: Rect, picture: &Picture) {
        let at = [area.left, area.top, area.width(), area.height()].map(number);
        let [x, y, width, height] = at;
        let (own_width, own_height) =
            (shortest(picture.size.width, 4), shortest(picture.size.height, 4));
        self.add(format_args!(
            "<svg x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" \
             viewBox=\"0 0 {own_width} {own_height}\" preserveAspectRatio=\"none\">\n"
        ));
        match &picture.content {
            PictureContent::Outlines(outlines) => {
                // Places are written to a hundredth: in units of their own they could be too coarse.
                let scale = HUNDREDTHS / picture.size.width.max(picture.size.height);
                let back = shortest(1.0 / scale, 9);
                self.add(format_args!("<g transform=\"scale({back})\">\n"));
                for outline in outlines {
                    self.to.push_str("<path d=\"");
                    push_path(&mut self.to, &outline.path.scaled(scale));
                    self.add(format_args!("\" fill=\"{}\"", colour(outline.fill)));
                    if outline.even_odd {
                        self.to.push_str(" fill-rule=\"evenodd\"");
                    }
                    self.to.push_str("/>\n");
                }
                self.to.push_str("</g>\n");
            }
            PictureContent::Pixels(pixels) => {
                let data = STANDARD.encode(png(pixels).unwrap_or_default());
                self.add(format_args!(
                    "<image width=\"{own_width}\" height=\"{own_height}\" \
                     href=\"data:image/png;base64,{data}\"/>\n"
                ));
            }
        }
        self.to.push_str("</svg>\n");
    }
}

/// The longer side of outlines as they are written.
const HUNDREDTHS: f64 = 1000.0;

fn png(pixels: &Pixels) -> Result<Vec<u8>, png::EncodingError> {
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, pixels.width, pixels.height);
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&pixels.rgb)?;
    writer.finish()?;
    Ok(file)
}
