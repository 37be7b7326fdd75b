//! Files to pictures by renderers that are not ours, and how far two pictures differ.
use std::sync::Arc;

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings};
use lidsheet::text::Face;
use resvg::{tiny_skia, usvg};

/// Points to a millimetre.
const PT: f32 = 72.0 / 25.4;

/// Grey values, 0 black to 255 white, row by row.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    pub width: usize,
    pub height: usize,
    pub grey: Vec<u8>,
}

impl Picture {
    fn from_rgba(width: usize, rgba: &[u8]) -> Self {
        // Rec. 601 weights, from memory; both pictures get the same.
        let grey = |p: &[u8]| {
            let sum = 299 * u32::from(p[0]) + 587 * u32::from(p[1]) + 114 * u32::from(p[2]);
            (sum / 1000) as u8
        };
        let grey: Vec<u8> = rgba.chunks_exact(4).map(grey).collect();
        Self { width, height: grey.len() / width.max(1), grey }
    }

    /// The part that begins at a pixel and has a size.
    pub fn cut(&self, left: usize, top: usize, width: usize, height: usize) -> Self {
        let rows = self.grey.chunks(self.width).skip(top).take(height);
        let grey: Vec<u8> =
            rows.flat_map(|row| row.iter().skip(left).take(width)).copied().collect();
        Self { width, height: grey.len() / width.max(1), grey }
    }

    /// The mean of each `by` by `by` block: what edges do to single pixels goes away.
    pub fn coarse(&self, by: usize) -> Self {
        let (width, height) = (self.width / by, self.height / by);
        let mut grey = Vec::with_capacity(width * height);
        for y in 0..height {
            for x in 0..width {
                let block = self.cut(x * by, y * by, by, by);
                let sum: usize = block.grey.iter().map(|grey| usize::from(*grey)).sum();
                grey.push((sum / (by * by)) as u8);
            }
        }
        Self { width, height, grey }
    }

    /// How many of 255 the darkest place lies below white.
    pub fn darkest(&self) -> u8 {
        255 - self.grey.iter().copied().min().unwrap_or(255)
    }

    /// The mean and the greatest difference of two pictures, of 255.
    pub fn difference(&self, other: &Self) -> (f64, u8) {
        assert_eq!((self.width, self.height), (other.width, other.height), "sizes");
        assert!(!self.grey.is_empty() && self.grey.len() == other.grey.len(), "nothing to compare");
        let pairs = || self.grey.iter().zip(&other.grey).map(|(a, b)| a.abs_diff(*b));
        let sum: f64 = pairs().map(f64::from).sum();
        (sum / self.grey.len().max(1) as f64, pairs().max().unwrap_or(0))
    }
}

/// A page of a PDF, from 0, with so many pixels to a millimetre, by hayro.
pub fn of_pdf(file: &[u8], page: usize, per_mm: f32) -> Picture {
    let pdf = Pdf::new(file.to_vec()).expect("a PDF");
    let scale = per_mm / PT;
    let cache = RenderCache::new();
    let settings = RenderSettings { hinting: false, ..RenderSettings::default() };
    let pixels = PixmapSettings { x_scale: scale, y_scale: scale, bg_color: WHITE };
    let page = pdf.pages().get(page).expect("a page");
    let drawn = hayro::render(page, &cache, &InterpreterSettings::default(), &settings, &pixels);
    Picture::from_rgba(usize::from(drawn.width()), drawn.data_as_u8_slice())
}

/// An SVG with so many pixels to a millimetre, by resvg. The fonts are the project's files, under
/// the names that the file gives them: resvg does not read fonts inside a file.
pub fn of_svg(file: &str, per_mm: f32) -> Picture {
    let mut options = usvg::Options { dpi: 25.4, ..usvg::Options::default() };
    let fonts = Arc::make_mut(&mut options.fontdb);
    for face in Face::ALL {
        fonts.load_font_data(face.file().to_vec());
    }
    let tree = usvg::Tree::from_str(file, &options).expect("an SVG");
    let pixels = |mm: f32| (mm * per_mm) as u32;
    let size = tree.size();
    let mut drawn =
        tiny_skia::Pixmap::new(pixels(size.width()), pixels(size.height())).expect("a picture");
    drawn.fill(tiny_skia::Color::WHITE);
    let transform = tiny_skia::Transform::from_scale(per_mm, per_mm);
    resvg::render(&tree, transform, &mut drawn.as_mut());
    Picture::from_rgba(drawn.width() as usize, drawn.data())
}

/// A drawing as its SVG shows it and as its PDF page does, at so many pixels to a millimetre, cut
/// to the drawing. It must fit on a page at its own size.
pub fn both(scene: &lidsheet::scene::Scene, per_mm: u8) -> (Picture, Picture) {
    use lidsheet::document::{Block, Document};
    use lidsheet::page::{Paper, Role, lay_out};
    let figure = Block::Figure {
        scene: scene.clone(),
        alternative: "A drawing".into(),
        caption: Vec::new(),
        anchor: None,
    };
    // A board plan alone on its page is as wide as the page is high.
    let on_its_page = match scene.size.width > Paper::A4.area().width() {
        true => vec![Block::Landscape(vec![figure])],
        false => vec![Block::PageBreak, figure],
    };
    // Bookmarks are required, so there must be a heading; the drawing has its own page.
    let mut blocks = vec![
        Block::Heading {
            level: 1,
            text: vec![lidsheet::document::Inline::Plain("A drawing".into())],
            anchor: None,
        },
        Block::Paragraph(vec![lidsheet::document::Inline::Plain("On the next page.".into())]),
    ];
    blocks.extend(on_its_page);
    let document = Document {
        house: lidsheet::document::House::default(),
        signal_words: lidsheet::document::Signal::ALL.map(|signal| signal.word().to_owned()),
        title: "A drawing".into(),
        language: "en".into(),
        author: String::new(),
        dated: (2026, 1, 1),
        head: Default::default(),
        foot: String::new(),
        page_of: String::new(),
        mark: None,
        density: lidsheet::document::Density::Roomy,
        blocks,
    };
    let pages = lay_out(&document, Paper::A4, &mut lidsheet::text::Typesetter::new());
    let figure = pages.nodes.iter().find_map(|node| match &node.role {
        Role::Figure { area, page, .. } => Some((*area, *page)),
        _ => None,
    });
    let (area, page) = figure.expect("a figure");
    assert!((area.width() - scene.size.width).abs() < 1e-9, "the drawing was made smaller");
    let file = lidsheet::write::pdf(&pages).expect("a PDF");
    let scale = f32::from(per_mm);
    let pixels = |mm: f64| (mm * f64::from(per_mm)).round() as usize;
    let svg = of_svg(&lidsheet::write::svg(scene), scale);
    let whole = of_pdf(&file, page, scale);
    let pdf = whole.cut(pixels(area.left), pixels(area.top), svg.width, svg.height);
    (svg, pdf)
}
