//! Why a document is refused, in words, with the page.

use krilla::configure::ValidationError;
use krilla::error::KrillaError;
use krilla::surface::{Location, Surface};

/// Why a document could not be written. Each is a mistake in lidsheet or its templates.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PdfFault {
    /// What is wrong.
    pub message: String,
    /// Where: a page from 1, or nothing if it is the document as a whole.
    pub page: Option<usize>,
}

/// Says which page, from 0, is drawn from here on.
pub(super) fn set_page(surface: &mut Surface<'_>, page: usize) {
    if let Some(location) = location(page) {
        surface.set_location(location);
    }
}

/// A page, from 0, as `krilla` hands it back with what it refuses.
pub(super) fn location(page: usize) -> Option<Location> {
    u64::try_from(page).ok().and_then(|page| Location::new(page.saturating_add(1)))
}

/// What `krilla` refuses.
pub(super) fn refusal(error: KrillaError) -> Vec<PdfFault> {
    match error {
        KrillaError::Validation(errors) => errors.iter().map(|(error, _)| fault(error)).collect(),
        error => vec![PdfFault { message: error.to_string(), page: None }],
    }
}

fn fault(error: &ValidationError) -> PdfFault {
    use ValidationError as E;
    let (what, place) = match error {
        E::NoDocumentTitle => ("the document has no title".to_owned(), None),
        E::NoDocumentLanguage => ("the document names no language".to_owned(), None),
        E::MissingDocumentOutline => ("the document has no bookmarks".to_owned(), None),
        E::MissingHeadingTitle => ("a heading has no words".to_owned(), None),
        E::TooLongString => ("a text is longer than 32767 bytes".to_owned(), None),
        E::MissingAltText(place) => ("a drawing has no alternative text".to_owned(), *place),
        E::MissingAnnotationAltText(place) => ("a link has no description".to_owned(), *place),
        E::ContainsNotDefGlyph(_, place, text) => (format!("no font has `{text}`"), *place),
        other => (format!("{other:?}"), None),
    };
    let page = place.and_then(|place| usize::try_from(place.get()).ok());
    PdfFault { message: format!("PDF/A-2a and PDF/UA-1 do not allow this: {what}"), page }
}
