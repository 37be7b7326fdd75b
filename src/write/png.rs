//! A scene as a PNG file: its SVG, drawn with the project's fonts.

use std::sync::{Arc, OnceLock};

use resvg::tiny_skia::{Color, Pixmap, Transform};
use resvg::usvg::{self, fontdb};

use crate::scene::Scene;
use crate::text::Face;

/// Dots to the inch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Dpi(u16);

impl Dpi {
    /// The least and the most.
    pub const RANGE: [u16; 2] = [24, 2400];

    /// `None` outside [`Dpi::RANGE`].
    pub fn new(dots: u16) -> Option<Self> {
        let [least, most] = Self::RANGE;
        (least..=most).contains(&dots).then_some(Self(dots))
    }

    /// Dots to the inch.
    pub fn get(self) -> u16 {
        self.0
    }

    fn per_mm(self) -> f64 {
        f64::from(self.0) / 25.4
    }
}

/// The most pixels that one picture has.
pub const MOST_PIXELS: u64 = 50_000_000;

/// Why there is no picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PngFault {
    /// It would have so many pixels, more than [`MOST_PIXELS`].
    TooLarge {
        /// How wide it would be.
        width: u64,
        /// How high.
        height: u64,
        /// With so many dots to the inch, or fewer, it would not be too large.
        most: u16,
    },
    /// The program's own fault: what the renderer said.
    Undrawn(String),
}

/// The scene as a PNG file on white, of its size on paper: the same bytes on every run.
///
/// # Errors
/// If it has too many pixels.
pub fn png(scene: &Scene, dpi: Dpi) -> Result<Vec<u8>, PngFault> {
    let pixels = |mm: f64| (mm * dpi.per_mm()).ceil().max(1.0);
    let (width, height) = (pixels(scene.size.width), pixels(scene.size.height));
    if width * height > MOST_PIXELS as f64 {
        let area = scene.size.width * scene.size.height;
        // One dot less, because each side is rounded up.
        let most = (25.4 * (MOST_PIXELS as f64 / area).sqrt()).floor() - 1.0;
        let (width, height) = (width as u64, height as u64);
        return Err(PngFault::TooLarge { width, height, most: most.max(0.0) as u16 });
    }
    draw(scene, dpi, (width as u32, height as u32)).map_err(PngFault::Undrawn)
}

fn draw(scene: &Scene, dpi: Dpi, (width, height): (u32, u32)) -> Result<Vec<u8>, String> {
    // A user unit of the file is a millimetre.
    let options = usvg::Options { dpi: 25.4, fontdb: fonts(), ..usvg::Options::default() };
    let tree = usvg::Tree::from_str(&super::svg(scene), &options).map_err(|it| it.to_string())?;
    let mut pixels = Pixmap::new(width, height).ok_or("the picture has no size")?;
    pixels.fill(Color::WHITE);
    let scale = dpi.per_mm() as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    encode(&pixels, dpi).map_err(|it| it.to_string())
}

/// The fonts under the names that their files give them: the renderer reads none that lie in a file.
fn fonts() -> Arc<fontdb::Database> {
    static FONTS: OnceLock<Arc<fontdb::Database>> = OnceLock::new();
    let read = || {
        let mut fonts = fontdb::Database::new();
        for face in Face::ALL {
            fonts.load_font_data(face.file().to_vec());
        }
        Arc::new(fonts)
    };
    Arc::clone(FONTS.get_or_init(read))
}

/// Three bytes a pixel: all lies on white, so nothing shows through.
fn encode(pixels: &Pixmap, dpi: Dpi) -> Result<Vec<u8>, png::EncodingError> {
    let colors: Vec<u8> =
        pixels.data().chunks_exact(4).flat_map(|pixel| pixel.iter().take(3)).copied().collect();
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, pixels.width(), pixels.height());
    encoder.set_color(png::ColorType::Rgb);
    encoder.set_depth(png::BitDepth::Eight);
    let per_metre = (dpi.per_mm() * 1000.0).round() as u32;
    let unit = png::Unit::Meter;
    encoder.set_pixel_dims(Some(png::PixelDimensions { xppu: per_metre, yppu: per_metre, unit }));
    let mut writer = encoder.write_header()?;
    writer.write_image_data(&colors)?;
    writer.finish()?;
    Ok(file)
}
