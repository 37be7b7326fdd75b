//! The questions that find a layout number, as a tree from the left to the right.
//!
//! Every question is a box with one row for each answer; a line leads from the row to the next
//! box. A subtree has a band of its own across the page, and the lines of one box turn in lanes
//! of their own, so no line crosses another. A tree that is too high for a page is cut: the part
//! cut off begins again in a drawing of its own, under a letter.

use std::sync::Arc;

use super::look;
use super::mark;
use crate::board::{Device, LayoutNumber, Speeds};
use crate::decide::Tree;
use crate::english::capital;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::{Line, Typesetter};
use crate::words::Words;

/// Height of the head and of each answer of a question's box, mm.
const ROW: f64 = 4.4;
/// Between two neighbouring bands, mm.
const BAND_GAP: f64 = 1.6;
/// Height and width of a layout's box, mm.
const LEAF: Size = Size::new(10.0, 5.6);
/// Between a box and the next ones, mm: room for the lanes.
const LANES: f64 = 6.0;
/// Above the tree, mm: room for the words over it.
const HEAD: f64 = 6.0;
/// Below the tree, mm.
const BELOW: f64 = 1.0;

/// The tree in one drawing or more, `width` mm wide and at most about `height` mm high.
pub fn question_tree(
    tree: &Tree,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
    height: f64,
) -> Vec<Scene> {
    let size = BoxSize::of(tree, words, set);
    let room = height - HEAD - BELOW;
    // One column of boxes is given up to the layout at its end.
    let deepest = ((width - LEAF.width - 2.0) / (size.width + LANES)).floor().max(1.0) as usize;
    let mut cut = Cut { room, deepest, letters: 0, parts: Vec::new() };
    let first = cut.node(tree, deepest);
    let first = cut.fit(first);
    let mut drawings = vec![draw(&first, None, size, words, set, width)];
    let mut next = 0;
    while let Some((letter, part)) = cut.parts.get(next).cloned() {
        drawings.push(draw(&part, Some(letter), size, words, set, width));
        next += 1;
    }
    let count = drawings.len();
    if count > 1 {
        for (index, scene) in drawings.iter_mut().enumerate() {
            scene.title = words.questions_title_numbered(index + 1, count);
        }
    }
    drawings
}

/// A tree as it is drawn.
#[derive(Clone)]
enum QuestionNode {
    Layout(LayoutNumber),
    Ask {
        device: Device,
        answers: Vec<(Speeds, QuestionNode)>,
    },
    /// Goes on in the drawing of this number, counted from 0.
    Part(usize),
}

impl QuestionNode {
    /// The height of its band, mm.
    fn height(&self) -> f64 {
        match self {
            QuestionNode::Layout(_) | QuestionNode::Part(_) => LEAF.height,
            QuestionNode::Ask { answers, .. } => {
                let below: f64 = answers.iter().map(|(_, node)| node.height()).sum();
                let gaps = BAND_GAP * answers.len().saturating_sub(1) as f64;
                (below + gaps).max(box_height(answers.len()))
            }
        }
    }
}

fn box_height(answers: usize) -> f64 {
    ROW * (answers as f64 + 1.0)
}

/// Cuts a tree into parts that fit a page.
struct Cut {
    room: f64,
    deepest: usize,
    letters: usize,
    parts: Vec<(usize, QuestionNode)>,
}

impl Cut {
    /// `tree` with at most `levels` questions one after the other.
    fn node(&mut self, tree: &Tree, levels: usize) -> QuestionNode {
        match tree {
            Tree::Layout(number) => QuestionNode::Layout(*number),
            Tree::Ask { .. } if levels == 0 => {
                let part = self.node(tree, self.deepest);
                self.cut_off(part)
            }
            Tree::Ask { device, answers, .. } => QuestionNode::Ask {
                device: *device,
                answers: answers
                    .iter()
                    .map(|(speeds, tree)| (*speeds, self.node(tree, levels - 1)))
                    .collect(),
            },
        }
    }

    /// `node` with its highest bands cut off until it fits.
    fn fit(&mut self, node: QuestionNode) -> QuestionNode {
        let QuestionNode::Ask { device, answers } = node else { return node };
        let answers = answers.into_iter().map(|(speeds, node)| (speeds, self.fit(node))).collect();
        let mut node = QuestionNode::Ask { device, answers };
        while node.height() > self.room {
            let QuestionNode::Ask { answers, .. } = &mut node else { break };
            let highest = answers
                .iter()
                .enumerate()
                .filter(|(_, (_, node))| matches!(node, QuestionNode::Ask { .. }))
                .max_by(|(_, (_, a)), (_, (_, b))| a.height().total_cmp(&b.height()))
                .map(|(index, _)| index);
            let Some((_, answer)) = highest.and_then(|index| answers.get_mut(index)) else { break };
            let part = std::mem::replace(answer, QuestionNode::Part(0));
            *answer = self.cut_off(part);
        }
        node
    }

    fn cut_off(&mut self, node: QuestionNode) -> QuestionNode {
        let letter = self.letters;
        self.letters += 1;
        let node = self.fit(node);
        self.parts.push((letter, node));
        QuestionNode::Part(letter)
    }
}

/// The size that all question boxes of a tree share.
#[derive(Clone, Copy)]
struct BoxSize {
    width: f64,
}

impl BoxSize {
    fn of(tree: &Tree, words: &Words, set: &mut Typesetter) -> Self {
        let mut width = 0.0_f64;
        let mut open = vec![tree];
        while let Some(tree) = open.pop() {
            let Tree::Ask { device, answers, .. } = tree else { continue };
            width = width.max(set.line(&question(*device, words), look::SMALL_BOLD).width);
            for (speeds, tree) in answers {
                width = width.max(set.line(&words.speeds_fitted(*speeds), look::SMALL).width);
                open.push(tree);
            }
        }
        Self { width: width + 2.4 }
    }
}

fn question(device: Device, words: &Words) -> String {
    capital(&words.question_about(device))
}

/// A, B … Z, AA, AB …
fn letter(index: usize) -> String {
    let mut rest = index;
    let mut letters = Vec::new();
    loop {
        letters.push(char::from(b'A' + (rest % 26) as u8));
        if rest < 26 {
            break;
        }
        rest = rest / 26 - 1;
    }
    letters.iter().rev().collect()
}

fn draw(
    node: &QuestionNode,
    part: Option<usize>,
    size: BoxSize,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Scene {
    let height = HEAD + node.height() + BELOW;
    let mut text = String::new();
    describe(node, &mut Vec::new(), words, &mut text);
    let mut scene = Scene::new(Size::new(width, height), words.questions_title(), text);
    let head = match part {
        None => words.questions_start(),
        Some(index) => words.questions_go_on(&letter(index)),
    };
    let head = set.line(&head, look::CODE);
    mark::words_from(&mut scene, Point::new(0.5, HEAD / 2.0 - 0.4), head);
    let mut pen = Pen { scene: &mut scene, words, set, size };
    pen.node(node, Point::new(0.5, HEAD), node.height());
    scene
}

/// The tree in words: for each end one sentence with the answers that lead to it.
fn describe(
    node: &QuestionNode,
    answers_before: &mut Vec<String>,
    words: &Words,
    text: &mut String,
) {
    let answers = words.commas(answers_before);
    let sentence = match node {
        QuestionNode::Layout(number) if answers.is_empty() => {
            words.layout_unasked(&number.to_string())
        }
        QuestionNode::Layout(number) => words.layout_after(&number.to_string(), &answers),
        // Only what stands after a question is cut off.
        QuestionNode::Part(index) => words.part_after(&letter(*index), &answers),
        QuestionNode::Ask { device, answers } => {
            for (speeds, node) in answers {
                answers_before.push(words.question_answered(*device, *speeds));
                describe(node, answers_before, words, text);
                answers_before.pop();
            }
            return;
        }
    };
    text.push_str(&sentence);
    text.push(' ');
}

struct Pen<'a> {
    scene: &'a mut Scene,
    words: &'a Words,
    set: &'a mut Typesetter,
    size: BoxSize,
}

impl Pen<'_> {
    /// Draws `node` in a band that begins at `corner` and is `height` mm high; gives the y of the
    /// place that a line to it ends at.
    fn node(&mut self, node: &QuestionNode, corner: Point, height: f64) -> f64 {
        let middle = corner.y + height / 2.0;
        match node {
            QuestionNode::Layout(number) => self.leaf(corner.x, middle, &number.to_string(), true),
            QuestionNode::Part(index) => self.leaf(corner.x, middle, &letter(*index), false),
            QuestionNode::Ask { device, answers } => self.ask(*device, answers, corner, height),
        }
        middle
    }

    fn leaf(&mut self, left: f64, middle: f64, words: &str, layout: bool) {
        let area = Rect::at(Point::new(left, middle - LEAF.height / 2.0), LEAF).grown(-0.3);
        let edge = if layout { Stroke { width: 0.6, ..look::EDGE } } else { look::EDGE };
        let fill = if layout { Ink::WHITE } else { look::HEAD_TINT };
        let radius = if layout { 0.4 } else { LEAF.height / 2.0 };
        self.scene.shape(Path::rounded(area, radius), Some(fill), Some(edge));
        let line = self.set.line(words, look::CODE);
        mark::words_over(self.scene, area.middle(), line);
    }

    fn ask(
        &mut self,
        device: Device,
        answers: &[(Speeds, QuestionNode)],
        corner: Point,
        height: f64,
    ) {
        let size = Size::new(self.size.width, box_height(answers.len()));
        let top = corner.y + (height - size.height) / 2.0;
        let area = Rect::at(Point::new(corner.x, top), size);
        let head = Rect { bottom: area.top + ROW, ..area };
        self.scene.shape(Path::rect(area), Some(Ink::WHITE), None);
        self.scene.shape(Path::rect(head), Some(look::HEAD_TINT), None);
        let line = self.set.line(&question(device, self.words), look::SMALL_BOLD);
        self.row_words(head, line);

        let below: f64 = answers.iter().map(|(_, node)| node.height()).sum();
        let gaps = BAND_GAP * answers.len().saturating_sub(1) as f64;
        let mut band = corner.y + (height - below - gaps) / 2.0;
        let next = area.right + LANES;
        let count = answers.len();
        let mut leads = Vec::with_capacity(count);
        for (index, (speeds, node)) in answers.iter().enumerate() {
            let row_top = area.top + ROW * (index as f64 + 1.0);
            let row = Rect { top: row_top, bottom: row_top + ROW, ..area };
            let line = self.set.line(&self.words.speeds_fitted(*speeds), look::SMALL);
            self.row_words(row, line);
            let top_edge = [Point::new(row.left, row.top), Point::new(row.right, row.top)];
            mark::rule(self.scene, &top_edge, look::FINE);
            let node_height = node.height();
            let to = self.node(node, Point::new(next, band), node_height);
            band += node_height + BAND_GAP;
            leads.push((row.middle().y, to));
        }
        self.scene.shape(Path::rect(area), None, Some(look::EDGE));
        for (index, (from, to)) in leads.iter().enumerate() {
            let lane = lane(index, &leads);
            let x = area.right + LANES * (lane + 1.0) / (count as f64 + 1.0);
            let points = [
                Point::new(area.right, *from),
                Point::new(x, *from),
                Point::new(x, *to),
                Point::new(next + 0.3, *to),
            ];
            mark::rule(self.scene, &points, look::EDGE);
        }
    }

    fn row_words(&mut self, row: Rect, line: Arc<Line>) {
        mark::words_from(self.scene, Point::new(row.left + 1.2, row.middle().y), line);
    }
}

/// Which lane, counted from the box, the lead at `index` turns in. Leads come in order of both
/// their ends. Of those that rise, an upper one turns nearer to the box; of those that fall, a
/// lower one: then a lead never meets the upright of another.
fn lane(index: usize, leads: &[(f64, f64)]) -> f64 {
    let rises = |(from, to): &(f64, f64)| to < from;
    let Some(own) = leads.get(index) else { return 0.0 };
    let nearer = leads
        .iter()
        .enumerate()
        .filter(|(other, lead)| {
            rises(lead) == rises(own) && if rises(own) { *other < index } else { *other > index }
        })
        .count();
    nearer as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_go_on_after_z() {
        assert_eq!(letter(0), "A");
        assert_eq!(letter(25), "Z");
        assert_eq!(letter(26), "AA");
        assert_eq!(letter(27), "AB");
    }
}
