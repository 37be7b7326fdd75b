//! What the YAML parser refuses, in plain words.

use granit_parser::ErrorKind;

use crate::diagnostic::{Code, Problem};
use crate::source::Span;

/// The problem that `kind` is, at `span`.
pub fn problem(span: Span, kind: &ErrorKind) -> Problem {
    let problem = |message: &str| Problem::new(Code::NotYaml, span, message);
    match kind {
        ErrorKind::UnexpectedEofFlowSequence
        | ErrorKind::ExpectedFlowSequenceSeparator
        | ErrorKind::UnclosedFlowCollection { open: '[' } => {
            problem("a list in square brackets is not closed, or lacks a comma")
                .label("a `,` or `]` was needed before here")
        }
        ErrorKind::UnexpectedEofFlowMapping
        | ErrorKind::UnexpectedEofImplicitFlowMapping
        | ErrorKind::ExpectedFlowMappingSeparator
        | ErrorKind::UnclosedFlowCollection { .. } => {
            problem("a map in curly brackets is not closed, or lacks a comma")
                .label("a `,` or `}` was needed before here")
        }
        ErrorKind::MismatchedFlowCollectionEnd { open, close } => {
            problem("a bracket is closed by one of the other kind")
                .label(format!("`{open}` was opened, `{close}` closes it"))
        }
        ErrorKind::MisplacedFlowCollectionEnd => {
            problem("a bracket is closed that was never opened")
        }
        ErrorKind::UnclosedQuotedScalar => {
            problem("a quoted text is not closed").label("the text starts or runs on here")
        }
        ErrorKind::TabNotAllowed
        | ErrorKind::TabInBlockIndentation
        | ErrorKind::TabInIndentation
        | ErrorKind::TabAtBlockScalarStart
        | ErrorKind::TabInPlainScalar => {
            problem("a tab stands where YAML wants spaces").help("indent with spaces")
        }
        ErrorKind::InvalidIndentation
        | ErrorKind::InvalidBlockScalarIndent
        | ErrorKind::InvalidQuotedScalarIndent
        | ErrorKind::InvalidFlowScalarIndent
        | ErrorKind::ExpectedBlockMappingKey
        | ErrorKind::ExpectedBlockSequenceEntry => {
            problem("a line is not indented like the ones it belongs to")
                .help("give the keys of one map the same number of spaces")
        }
        ErrorKind::SimpleKeyExpected | ErrorKind::InvalidSimpleKey => {
            problem("a key lacks its colon")
                .label("no `:` with a space after it was found for this line")
        }
        ErrorKind::MappingValueNotAllowed
        | ErrorKind::InvalidColonPlacement
        | ErrorKind::MappingKeyNotAllowed => problem("a colon stands where no key can be").help(
            "begin a new line for the next key; put a text that holds a colon and a space \
                 between quotes",
        ),
        ErrorKind::UnexpectedCharacter { character } => {
            problem("a text starts with a character that YAML keeps for itself")
                .label(format!("`{}`", character.escape_default()))
                .help("put the text between quotes")
        }
        ErrorKind::DirectiveDisallowed | ErrorKind::ExpectedDocumentStart => {
            problem("something stands before or after the document that does not belong to it")
        }
        ErrorKind::UnknownQuotedScalarEscape => {
            problem("a quoted text holds a backslash that means nothing")
                .help("write the backslash twice, or use single quotes")
        }
        other => problem("this is not YAML").note(other.to_string()),
    }
}
