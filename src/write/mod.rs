//! Pages and scenes to files. A writer draws what it is given and decides nothing.

mod escape;
// It holds the compiler as a module, which is made without it.
#[cfg(feature = "program")]
mod field_page;
mod flowing;
pub mod html;
mod pdf;
mod png;
mod svg;

#[cfg(feature = "program")]
pub use field_page::{FieldBoard, FieldPage, field_page};
pub use flowing::{FLOWING_STYLE, first_cautions_html, flowing_html, folded_html};
pub use pdf::{PdfFault, pdf};
pub use png::{Dpi, MOST_PIXELS, PngFault, png};
pub use svg::{page_style, svg, svg_pages};
