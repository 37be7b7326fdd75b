//! How a template is filled.
//!
//! A template is Markdown with placeholders. It can name facts and nothing else: no file, no
//! clock, no other template. Whatever is put in is escaped, so that a value is always shown and
//! never becomes structure. A template runs for a bounded number of steps.

use std::borrow::Cow;
use std::ops::Range;
use std::sync::LazyLock;

use minijinja::syntax::SyntaxConfig;
use minijinja::{
    AutoEscape, Environment, Error, ErrorKind, OutputSpan, OutputSpanKind, UndefinedBehavior, Value,
};

use super::markdown::{MarkdownFault, escaped};
use super::templates::Template;
use crate::diagnostic::{Code, Problem};
use crate::source::{FileId, Span};

/// How many steps a template may take; 64 bytes of text that it makes on the way, shown or not, count as one.
/// So no template takes more than 256 MB. The largest board that the language allows needs less than half.
const STEPS: u64 = 4_000_000;

/// The most text that a template may make, bytes.
const MOST_TEXT: usize = 64 << 20;

/// A filled template, which knows where each piece of it came from.
pub(super) struct Filled {
    /// The Markdown.
    pub text: String,
    file: FileId,
    template_length: usize,
    pieces: Vec<OutputSpan>,
}

impl Filled {
    /// A problem with a piece of the text. It is marked in the template: the same letters if they
    /// stand there, the placeholder if they were filled in.
    pub fn problem(&self, fault: &MarkdownFault) -> Problem {
        let Range { start, end } = fault.range.clone();
        let piece = self.pieces.iter().find(|piece| {
            let made = piece.output_range();
            made.start < end.max(start + 1) && start < made.end
        });
        let range = match piece {
            None => 0..0,
            Some(piece) if piece.kind() == OutputSpanKind::Raw => {
                let (made, source) = (piece.output_range(), piece.source_range());
                let from = source.start + start.saturating_sub(made.start);
                let to = source.start + end.min(made.end).saturating_sub(made.start);
                from..to.max(from)
            }
            Some(piece) => piece.source_range(),
        };
        let range = range.start.min(self.template_length)..range.end.min(self.template_length);
        Problem::new(Code::TemplateContent, Span::new(self.file, range), fault.message.clone())
    }
}

impl Filled {
    /// Where in the template the letter at `at` of the text comes from: its own place, or that of the
    /// placeholder that was filled in.
    pub fn origin(&self, at: usize) -> Option<usize> {
        let index = self.pieces.partition_point(|piece| piece.output_range().end <= at);
        let piece = self.pieces.get(index).filter(|piece| piece.output_range().contains(&at))?;
        let (made, source) = (piece.output_range(), piece.source_range());
        let into =
            if piece.kind() == OutputSpanKind::Raw { at.saturating_sub(made.start) } else { 0 };
        Some((source.start + into).min(self.template_length))
    }

    /// A place in the template.
    pub fn span(&self, range: Range<usize>) -> Span {
        Span::new(self.file, range)
    }
}

/// Fills `template` with `facts`.
pub(super) fn fill(template: &Template, facts: &Value) -> Result<Filled, Box<Problem>> {
    match render(&template.text, facts) {
        Ok((text, pieces)) => {
            let template_length = template.text.len();
            Ok(Filled { text, file: template.file, template_length, pieces })
        }
        Err(error) => {
            let range = error.range().unwrap_or(0..0);
            let place = Span::new(template.file, range);
            let problem = Problem::new(Code::TemplateUnfilled, place, message(&error));
            Err(Box::new(match error.detail() {
                Some(detail) => problem.note(format!("the template engine says: {detail}")),
                None => problem,
            }))
        }
    }
}

/// Fills the safety messages of a language.
#[expect(clippy::ptr_arg, reason = "whether a text is compiled in matters here")]
pub(super) fn fill_cautions(
    file: FileId,
    text: &Cow<'static, str>,
    facts: &Value,
) -> Result<String, Box<Problem>> {
    render(text, facts).map(|(text, _)| text).map_err(|error| {
        let place = Span::new(file, error.range().unwrap_or(0..0));
        Box::new(Problem::new(Code::TemplateUnfilled, place, message(&error)))
    })
}

/// Fills a text that is compiled in; it has no place to point at.
pub(super) fn fill_own(
    name: &str,
    text: &'static str,
    facts: &Value,
) -> Result<String, Box<Problem>> {
    render(&Cow::Borrowed(text), facts).map(|(text, _)| text).map_err(|error| {
        let file = format!("templates/en/{name}.md");
        Box::new(Problem::of_file(Code::Internal, file, error.to_string()))
    })
}

/// What fills templates. Those that are compiled in go by their own texts in place of names, and are parsed
/// once for all documents.
static ENGINE: LazyLock<Environment<'static>> = LazyLock::new(|| {
    let mut engine = Environment::empty();
    add_functions(&mut engine);
    engine.set_undefined_behavior(UndefinedBehavior::Strict);
    engine.set_recursion_limit(50);
    engine.set_fuel(Some(STEPS));
    engine.set_auto_escape_callback(|_| AutoEscape::Custom("markdown".into()));
    // Every value passes here, whatever the template says about escaping.
    engine.set_formatter(|out, _, value| {
        if value.is_none() {
            Ok(())
        } else if value.is_safe() {
            out.write_str(value.as_str().unwrap_or_default()).map_err(write_failed)
        } else {
            out.write_str(&escaped(&value.to_string())).map_err(write_failed)
        }
    });
    if let Ok(syntax) = SyntaxConfig::builder().trim_blocks(true).lstrip_blocks(true).build() {
        engine.set_syntax(syntax);
    }
    engine.set_loader(|text| Ok(Some(text.to_owned())));
    engine
});

#[expect(clippy::ptr_arg, reason = "whether a text is compiled in matters here")]
fn render(text: &Cow<'static, str>, facts: &Value) -> Result<(String, Vec<OutputSpan>), Error> {
    let engine: &Environment<'_> = &ENGINE;
    let template = match text {
        Cow::Borrowed(compiled_in) => engine.get_template(compiled_in),
        Cow::Owned(own) => engine.template_from_str(own),
    };
    let (text, pieces) = template?.render_with_spans(facts.clone())?;
    if text.len() > MOST_TEXT {
        return Err(ErrorKind::WriteFailure.into());
    }
    Ok((text, pieces))
}

/// The engine's own filters that only change or choose values; none that marks text as safe.
fn add_functions(engine: &mut Environment<'_>) {
    use minijinja::{filters, functions, tests};
    engine.add_filter("length", filters::length);
    engine.add_filter("join", filters::join);
    engine.add_filter("first", filters::first);
    engine.add_filter("last", filters::last);
    engine.add_filter("upper", filters::upper);
    engine.add_filter("lower", filters::lower);
    // The usual filter makes all but the first letter small: `Uv lamp` of a UV lamp.
    engine.add_filter("capitalize", |words: String| crate::english::capital(&words));
    engine.add_filter("selectattr", filters::selectattr);
    engine.add_filter("rejectattr", filters::rejectattr);
    engine.add_filter("select", filters::select);
    engine.add_filter("reject", filters::reject);
    engine.add_filter("map", filters::map);
    engine.add_filter("list", filters::list);
    engine.add_filter("unique", filters::unique);
    engine.add_filter("default", filters::default);
    engine.add_function("range", functions::range);
    engine.add_test("defined", tests::is_defined);
    engine.add_test("none", tests::is_none);
    engine.add_test("odd", tests::is_odd);
    engine.add_test("even", tests::is_even);
    engine.add_test("eq", tests::is_eq);
    engine.add_test("ne", tests::is_ne);
    engine.add_test("in", tests::is_in);
}

fn write_failed(_: std::fmt::Error) -> Error {
    Error::from(ErrorKind::WriteFailure)
}

/// What is wrong, in our words.
fn message(error: &Error) -> &'static str {
    match error.kind() {
        ErrorKind::SyntaxError => "the template has a placeholder that cannot be read",
        ErrorKind::UndefinedError => "the template names a fact that does not exist",
        ErrorKind::UnknownFilter => "the template uses a filter that does not exist",
        ErrorKind::UnknownTest => "the template uses a test that does not exist",
        ErrorKind::UnknownFunction => "the template uses a function that does not exist",
        ErrorKind::OutOfFuel => "the template takes too many steps, or makes too much text",
        ErrorKind::WriteFailure => "the template makes more than 64 MiB of text",
        _ => "the template cannot be filled",
    }
}
