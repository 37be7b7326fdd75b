//! The questions that find a layout number, as a tree from the left to the right.
//!
//! Every question is a box with one row for each answer; an arrow leads from the row to the head
//! of the next box, where its question stands. A subtree has a band of its own across the page,
//! and the lines of one box turn in lanes of their own, so no line crosses another. A tree that is
//! too high for a page is cut: the part cut off begins again in a drawing of its own, under
//! two letters.

use std::sync::Arc;

use super::look;
use super::mark;
use crate::board::{Board, Device, LayoutEntry, LayoutNumber, Speeds};
use crate::decide::Tree;
use crate::english::capital;
use crate::geometry::{Path, Point, Rect, Size};
use crate::scene::{Ink, Scene, Stroke};
use crate::text::{Line, Typesetter};
use crate::words::Words;

/// Height of the head and of each answer of a question's box, mm.
const ROW: f64 = 4.8;
/// Between two neighbouring bands, mm.
const BAND_GAP: f64 = 1.4;
/// Height and width of a layout's box, mm.
const LEAF: Size = Size::new(11.0, 5.8);
/// The least room between a box and the next ones, mm: lanes, and an arrow head.
const LANES: f64 = 7.0;
/// The most of it, mm: further apart, an answer and what it leads to are not seen together.
const WIDE_LANES: f64 = 16.0;
/// The widest that a box is drawn for the sake of a full width, mm.
const WIDE_BOX: f64 = 46.0;
/// Length of an arrow head, mm.
const ARROW: f64 = 2.0;
/// Above the tree, mm: room for a line of words over it, and for each further one.
const HEAD: f64 = 6.5;
const MORE_HEAD: f64 = 4.4;
/// Below the tree, mm.
const BELOW: f64 = 1.0;

/// What stands over the first question: how the number is entered on this board.
pub fn questions_start(board: &Board, words: &Words) -> String {
    match board.layout_entry() {
        LayoutEntry::Panel => words.questions_start(),
        LayoutEntry::Ways { bank, field } => {
            let Some(it) = board[bank].fields.get(field) else { return words.questions_start() };
            let count = usize::from(it.last - it.first) + 1;
            words.questions_start_switches(count, &it.label(), &board[bank].code)
        }
        LayoutEntry::Selector(id) => words.questions_start_selector(&board[id].code),
    }
}

/// The tree in one drawing or more, with `start` over the first, `width` mm wide and at most about `height` mm high.
pub fn question_tree(
    tree: &Tree,
    start: &str,
    (words, set): (&Words, &mut Typesetter),
    width: f64,
    height: f64,
) -> Vec<Scene> {
    let narrowest = narrowest_box(tree, words, set);
    let lines = set.lines(start, look::NOTE_BOLD, width - 1.0).len();
    let room = height - head_height(lines) - BELOW;
    // One column of boxes is given up to the layout at its end.
    let deepest = ((width - LEAF.width - 1.0) / (narrowest + LANES)).floor().max(1.0) as usize;
    let mut cut = Cut { room, deepest, letters: 0, parts: Vec::new() };
    let first = cut.node(tree, deepest);
    let first = cut.fit(first);
    // A reader looks for B after A, whichever was cut off first.
    cut.parts.sort_by_key(|(letter, _)| *letter);
    let mut pen_for = |node: &QuestionNode, head: &str| {
        let columns = Columns::of(node, narrowest, width);
        draw(node, head, columns, words, set, width)
    };
    let mut drawings = vec![pen_for(&first, start)];
    for (number, part) in &cut.parts {
        drawings.push(pen_for(part, &words.questions_go_on(&letter(*number))));
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

    /// The most questions one after the other.
    fn levels(&self) -> usize {
        match self {
            QuestionNode::Layout(_) | QuestionNode::Part(_) => 0,
            QuestionNode::Ask { answers, .. } => {
                1 + answers.iter().map(|(_, node)| node.levels()).max().unwrap_or(0)
            }
        }
    }
}

/// The room for so many lines of words over the tree, mm.
fn head_height(lines: usize) -> f64 {
    HEAD + MORE_HEAD * lines.saturating_sub(1) as f64
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

/// The width that the longest words of a tree's boxes need, mm.
fn narrowest_box(tree: &Tree, words: &Words, set: &mut Typesetter) -> f64 {
    let mut width = 0.0_f64;
    let mut open = vec![tree];
    while let Some(tree) = open.pop() {
        let Tree::Ask { device, answers, .. } = tree else { continue };
        width = width.max(set.line(&question(*device, words), look::NOTE_BOLD).width);
        for (speeds, tree) in answers {
            width = width.max(set.line(&words.speeds_fitted(*speeds), look::NOTE).width);
            open.push(tree);
        }
    }
    width + 2.4
}

/// The columns of one drawing, mm.
#[derive(Clone, Copy)]
struct Columns {
    /// Width of every question's box.
    box_width: f64,
    /// From a box to the next ones.
    lanes: f64,
}

impl Columns {
    /// As wide as the drawing has room for, shared between boxes and lanes.
    fn of(node: &QuestionNode, narrowest: f64, width: f64) -> Self {
        let levels = node.levels().max(1) as f64;
        let spare = ((width - LEAF.width - 1.0) / levels - narrowest - LANES).max(0.0);
        let box_width = (narrowest + 0.6 * spare).min(WIDE_BOX.max(narrowest));
        let lanes = (LANES + spare - (box_width - narrowest)).min(WIDE_LANES);
        Self { box_width, lanes }
    }
}

fn question(device: Device, words: &Words) -> String {
    capital(&words.question_about(device))
}

/// AA, BB … ZZ, AAA, BBB …: a single letter can be a group, or a position of a selector.
fn letter(index: usize) -> String {
    let letter = char::from(b'A' + (index % 26) as u8);
    std::iter::repeat_n(letter, 2 + index / 26).collect()
}

fn draw(
    node: &QuestionNode,
    head: &str,
    columns: Columns,
    words: &Words,
    set: &mut Typesetter,
    width: f64,
) -> Scene {
    let lines = set.lines(head, look::NOTE_BOLD, width - 1.0);
    let above = head_height(lines.len());
    let height = above + node.height() + BELOW;
    let mut text = String::new();
    describe(node, &mut Vec::new(), words, &mut text);
    let mut scene = Scene::new(Size::new(width, height), words.questions_title(), text);
    for (at, line) in lines.into_iter().enumerate() {
        let y = HEAD / 2.0 - 0.6 + MORE_HEAD * at as f64;
        mark::words_from(&mut scene, Point::new(0.5, y), line);
    }
    let mut pen = Pen { scene: &mut scene, words, set, columns };
    pen.node(node, Point::new(0.5, above), node.height());
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
    columns: Columns,
}

impl Pen<'_> {
    /// Draws `node` in a band that begins at `corner` and is `height` mm high; gives the y of the
    /// place that an arrow to it ends at: the middle of a layout, the head of a question.
    fn node(&mut self, node: &QuestionNode, corner: Point, height: f64) -> f64 {
        let middle = corner.y + height / 2.0;
        match node {
            QuestionNode::Layout(number) => {
                self.leaf(corner.x, middle, &number.to_string(), true);
                middle
            }
            QuestionNode::Part(index) => {
                self.leaf(corner.x, middle, &letter(*index), false);
                middle
            }
            QuestionNode::Ask { device, answers } => self.ask(*device, answers, corner, height),
        }
    }

    fn leaf(&mut self, left: f64, middle: f64, words: &str, layout: bool) {
        let size = Size::new(LEAF.width - 0.3, LEAF.height - 0.6);
        let area = Rect::at(Point::new(left, middle - size.height / 2.0), size);
        let edge = if layout { Stroke { width: 0.6, ..look::EDGE } } else { look::EDGE };
        let fill = if layout { Ink::WHITE } else { look::HEAD_TINT };
        let radius = if layout { 0.4 } else { LEAF.height / 2.0 };
        self.scene.shape(Path::rounded(area, radius), Some(fill), Some(edge));
        let line = self.set.line(words, look::NAME);
        mark::words_over(self.scene, area.middle(), line);
    }

    /// Gives the y of the middle of its head.
    fn ask(
        &mut self,
        device: Device,
        answers: &[(Speeds, QuestionNode)],
        corner: Point,
        height: f64,
    ) -> f64 {
        let Columns { box_width, lanes } = self.columns;
        let size = Size::new(box_width, box_height(answers.len()));
        let top = corner.y + (height - size.height) / 2.0;
        let area = Rect::at(Point::new(corner.x, top), size);
        let head = Rect { bottom: area.top + ROW, ..area };
        self.scene.shape(Path::rect(area), Some(Ink::WHITE), None);
        self.scene.shape(Path::rect(head), Some(look::HEAD_TINT), None);
        let line = self.set.line(&question(device, self.words), look::NOTE_BOLD);
        self.row_words(head, line);

        let below: f64 = answers.iter().map(|(_, node)| node.height()).sum();
        let gaps = BAND_GAP * answers.len().saturating_sub(1) as f64;
        let mut band = corner.y + (height - below - gaps) / 2.0;
        let next = area.right + lanes;
        let count = answers.len();
        let mut leads = Vec::with_capacity(count);
        for (index, (speeds, node)) in answers.iter().enumerate() {
            let row_top = area.top + ROW * (index as f64 + 1.0);
            let row = Rect { top: row_top, bottom: row_top + ROW, ..area };
            let line = self.set.line(&self.words.speeds_fitted(*speeds), look::NOTE);
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
            let turns = lanes - ARROW - 1.0;
            let x = area.right + turns * (lane + 1.0) / (count as f64 + 1.0);
            let points = [
                Point::new(area.right, *from),
                Point::new(x, *from),
                Point::new(x, *to),
                Point::new(next - ARROW + 0.2, *to),
            ];
            mark::rule(self.scene, &points, look::EDGE);
            mark::arrow_head(self.scene, Point::new(next, *to), (1.0, 0.0), ARROW);
        }
        head.middle().y
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
        assert_eq!(letter(0), "AA");
        assert_eq!(letter(25), "ZZ");
        assert_eq!(letter(26), "AAA");
        assert_eq!(letter(27), "BBB");
    }
}
