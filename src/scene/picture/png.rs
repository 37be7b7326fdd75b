//! PNG to pixels on white.

use std::io::Cursor;

use png::{Decoder, DecodingError, Limits, Transformations};

use super::{MOST_PICTURE_PIXELS, Picture, PictureContent, PictureFault, Pixels};
use crate::geometry::Size;

/// What the decoder may ask for beside the pixels: a colour profile, a line. A small file may
/// promise much more.
const MEMORY: usize = 16 << 20;

pub fn read(bytes: &[u8]) -> Result<Picture, PictureFault> {
    decoded(bytes).map_err(|fault| match fault {
        Fault::Ours(fault) => fault,
        Fault::Theirs(error) => PictureFault::Unreadable(error.to_string()),
    })
}

enum Fault {
    Ours(PictureFault),
    Theirs(DecodingError),
}

impl From<DecodingError> for Fault {
    fn from(error: DecodingError) -> Self {
        Fault::Theirs(error)
    }
}

fn decoded(bytes: &[u8]) -> Result<Picture, Fault> {
    let mut decoder = Decoder::new_with_limits(Cursor::new(bytes), Limits { bytes: MEMORY });
    decoder.set_ignore_text_chunk(true);
    decoder.set_transformations(Transformations::normalize_to_color8());
    let about = decoder.read_header_info()?;
    let (width, height) = (about.width, about.height);
    // Before anything is taken apart: a few bytes can say that they are a thousand million pixels.
    if u64::from(width) * u64::from(height) > MOST_PICTURE_PIXELS {
        return Err(Fault::Ours(PictureFault::TooManyPixels { width, height }));
    }
    let mut reader = decoder.read_info()?;
    let (color, _) = reader.output_color_type();
    let samples = color.samples();
    let unreadable = || Fault::Ours(PictureFault::Unreadable(String::new()));
    let mut data = vec![0; reader.output_buffer_size().ok_or_else(unreadable)?];
    let frame = reader.next_frame(&mut data)?;
    let data = data.get(..frame.buffer_size()).ok_or_else(unreadable)?;
    let rgb: Vec<u8> = data.chunks_exact(samples).flat_map(on_white).collect();
    if rgb.len() as u64 != u64::from(width) * u64::from(height) * 3 {
        return Err(unreadable());
    }
    if rgb.iter().all(|channel| *channel == u8::MAX) {
        return Err(Fault::Ours(PictureFault::Blank));
    }
    let content = PictureContent::Pixels(Pixels { width, height, rgb });
    Ok(Picture { size: Size::new(f64::from(width), f64::from(height)), content })
}

/// A pixel of one to four samples as red, green and blue on white paper.
fn on_white(pixel: &[u8]) -> [u8; 3] {
    let (rgb, alpha) = match *pixel {
        [gray] => ([gray; 3], u8::MAX),
        [gray, alpha] => ([gray; 3], alpha),
        [red, green, blue] => ([red, green, blue], u8::MAX),
        [red, green, blue, alpha, ..] => ([red, green, blue], alpha),
        [] => ([u8::MAX; 3], u8::MAX),
    };
    let alpha = u32::from(alpha);
    rgb.map(|channel| {
        let mixed = (u32::from(channel) * alpha + 255 * (255 - alpha) + 127) / 255;
        mixed.min(255) as u8
    })
}
