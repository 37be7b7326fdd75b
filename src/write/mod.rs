//! Pages and scenes to files. A writer draws what it is given and decides nothing.

mod escape;
mod flowing;
pub mod html;
mod pdf;
mod png;
mod svg;

pub use flowing::{FLOWING_STYLE, flowing_html};
pub use pdf::{PdfFault, pdf};
pub use png::{Dpi, MOST_PIXELS, PngFault, png};
pub use svg::{page_style, svg, svg_pages};
