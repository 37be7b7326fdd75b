//! What the file says of itself.

use krilla::metadata::{DateTime, Metadata};

use crate::page::About;

/// Title, author, language and date. The date is the source's, midnight UTC, never the clock's.
pub(super) fn metadata(about: &About) -> Metadata {
    let (year, month, day) = about.dated;
    let date = DateTime::new(year).month(month).day(day).hour(0).minute(0).second(0);
    let mut metadata = Metadata::new()
        .title(about.title.clone())
        .creator(format!("Lidsheet {}", env!("CARGO_PKG_VERSION")))
        .creation_date(date.utc_offset_hour(0).utc_offset_minute(0));
    if !about.language.is_empty() {
        metadata = metadata.language(about.language.clone());
    }
    if !about.author.is_empty() {
        metadata = metadata.authors(vec![about.author.clone()]);
    }
    if let Some(mark) = about.mark {
        metadata = metadata.keywords(vec![mark.to_string()]).document_id(mark.to_string());
    }
    metadata
}
