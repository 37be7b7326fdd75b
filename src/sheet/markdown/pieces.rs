//! Blocks and words made of what the parser gives.

use pulldown_cmark::{Alignment, HeadingLevel};

use crate::document::{Align, Block, Inline, Signal};
use crate::scene::Scene;

/// A figure with its words: what the template says, then what the drawing says of itself.
pub(super) fn figure(scene: &Scene, words: &str, caption: String) -> Block {
    let mut alternative = words.trim().to_owned();
    if !scene.description.is_empty() {
        if !alternative.is_empty() && !alternative.ends_with(['.', ':']) {
            alternative.push('.');
        }
        if !alternative.is_empty() {
            alternative.push(' ');
        }
        alternative.push_str(scene.description.trim());
    }
    let caption = if caption.is_empty() { Vec::new() } else { vec![Inline::Plain(caption)] };
    Block::Figure { scene: scene.clone(), alternative, caption, anchor: None }
}

/// A quotation that begins with a bold signal word is a safety message; any other is given back.
pub(super) fn caution(mut blocks: Vec<Block>) -> Result<Block, Vec<Block>> {
    let signal = match blocks.first() {
        Some(Block::Paragraph(words)) => match words.first() {
            Some(Inline::Strong(word)) => signal(word.trim_end_matches([':', '.'])),
            _ => None,
        },
        _ => None,
    };
    let Some(signal) = signal else { return Err(blocks) };
    if let Some(Block::Paragraph(words)) = blocks.first_mut() {
        words.remove(0);
        trim(words);
        if words.is_empty() {
            blocks.remove(0);
        }
    }
    Ok(Block::Caution { signal, blocks })
}

/// The signal words of ANSI Z535 (check-values.md, section 9).
pub(super) fn signal(word: &str) -> Option<Signal> {
    match word {
        "DANGER" => Some(Signal::Danger),
        "WARNING" => Some(Signal::Warning),
        "CAUTION" => Some(Signal::Caution),
        "NOTICE" => Some(Signal::Notice),
        _ => None,
    }
}

/// Takes white space and breaks from both ends.
pub(super) fn trim(words: &mut Vec<Inline>) {
    while let Some(first) = words.first_mut() {
        match first {
            Inline::Break => {}
            Inline::Plain(text) => {
                *text = text.trim_start().to_owned();
                if !text.is_empty() {
                    break;
                }
            }
            _ => break,
        }
        words.remove(0);
    }
    while let Some(last) = words.last_mut() {
        match last {
            Inline::Break => {}
            Inline::Plain(text) => {
                *text = text.trim_end().to_owned();
                if !text.is_empty() {
                    break;
                }
            }
            _ => break,
        }
        words.pop();
    }
}

/// How a column's words stand.
pub(super) fn align(alignment: Alignment) -> Align {
    match alignment {
        Alignment::None | Alignment::Left => Align::Left,
        Alignment::Center => Align::Centre,
        Alignment::Right => Align::Right,
    }
}

/// 1 to 3.
pub(super) fn level_number(level: HeadingLevel) -> u8 {
    match level {
        HeadingLevel::H1 => 1,
        HeadingLevel::H2 => 2,
        _ => 3,
    }
}
