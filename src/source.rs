//! Files that people wrote, and places in them.
//!
//! Lines and columns count from 1; a column is a code point, as the diagnostics' renderer counts.

use std::borrow::Cow;
use std::ops::Range;
use std::sync::OnceLock;

/// Which file of a [`Sources`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct FileId(pub u32);

/// A place in a file: bytes from `start` up to, not including, `end`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A place of `range` in `file`.
    pub fn new(file: FileId, range: Range<usize>) -> Self {
        Self { file, start: range.start as u32, end: range.end as u32 }
    }

    /// The bytes, as a range.
    pub fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }

    /// From the start of `self` to the end of `other`, in the same file.
    pub fn to(self, other: Span) -> Span {
        Span { end: other.end.max(self.end), ..self }
    }
}

/// A value and the place that it was read from.
#[derive(Clone, Copy, Debug)]
pub struct Spanned<T> {
    /// The value.
    pub value: T,
    /// Where it stands.
    pub span: Span,
}

impl<T> Spanned<T> {
    /// Joins a value and its place.
    pub fn new(value: T, span: Span) -> Self {
        Self { value, span }
    }

    /// The same place with another value.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Spanned<U> {
        Spanned { value: change(self.value), span: self.span }
    }
}

/// Equal values are equal wherever they stand.
impl<T: PartialEq> PartialEq for Spanned<T> {
    fn eq(&self, other: &Self) -> bool {
        self.value == other.value
    }
}

/// One file: the name that people know it by, and its text.
#[derive(Clone, Debug)]
pub struct File {
    /// As it is shown in a diagnostic: a path with `/`, as it was given.
    pub name: String,
    /// The whole text.
    pub text: Cow<'static, str>,
    /// Found when somebody first asks for a line: of most files nobody does.
    line_starts: OnceLock<Vec<u32>>,
}

impl File {
    fn line_starts(&self) -> &[u32] {
        self.line_starts.get_or_init(|| {
            let ends = self.text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n');
            std::iter::once(0).chain(ends.map(|(at, _)| at as u32 + 1)).collect()
        })
    }

    /// Line and column of a byte offset, both from 1.
    pub fn position(&self, offset: u32) -> (usize, usize) {
        let starts = self.line_starts();
        let line = starts.partition_point(|start| *start <= offset);
        let start = starts[line - 1] as usize;
        let end = (offset as usize).clamp(start, self.text.len());
        let column = self.text.get(start..end).map_or(0, |before| before.chars().count());
        (line, column + 1)
    }
}

/// All files of one compilation, in the order in which they were read.
#[derive(Clone, Debug, Default)]
pub struct Sources {
    files: Vec<File>,
}

impl Sources {
    /// Adds a file and gives its handle.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<String>) -> FileId {
        self.push(name.into(), Cow::Owned(text.into()))
    }

    /// Adds a text that is compiled in: it is not copied.
    pub fn add_built_in(&mut self, name: impl Into<String>, text: &'static str) -> FileId {
        self.push(name.into(), Cow::Borrowed(text))
    }

    fn push(&mut self, name: String, text: Cow<'static, str>) -> FileId {
        self.files.push(File { name, text, line_starts: OnceLock::new() });
        FileId(self.files.len() as u32 - 1)
    }

    /// The file of a handle that this set gave out.
    pub fn file(&self, id: FileId) -> &File {
        &self.files[id.0 as usize]
    }

    /// The file of a handle, if this set has it.
    pub fn get(&self, id: FileId) -> Option<&File> {
        self.files.get(id.0 as usize)
    }

    /// The text at a place.
    pub fn text(&self, span: Span) -> &str {
        self.file(span.file).text.get(span.range()).unwrap_or("")
    }

    /// Line and column, both from 1, of what follows a place.
    pub fn end(&self, span: Span) -> (usize, usize) {
        self.file(span.file).position(span.end.max(span.start))
    }

    /// All files with their handles.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &File)> {
        self.files.iter().enumerate().map(|(index, file)| (FileId(index as u32), file))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_code_points() {
        let mut sources = Sources::default();
        let id = sources.add("a.yaml", "äö: 1\nb: 2\n");
        let file = sources.file(id);
        assert_eq!(file.position(0), (1, 1));
        assert_eq!(file.position(4), (1, 3));
        assert_eq!(file.position(8), (2, 1));
        assert_eq!(file.position(99), (3, 1));
    }
}
