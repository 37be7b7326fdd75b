//! What is open around the present place: lists, quotations, tables, columns.

use std::mem::take;

use super::super::MarkdownFault;
use super::super::pieces::{caution, trim};
use super::{DEPTH, Frame, Reader};
use crate::document::{Block, ListKind, Table, TableKind, plain_text};

impl Reader<'_, '_> {
    /// Ends a run of words that is a paragraph of its own.
    pub(super) fn flush(&mut self) {
        let mut words = take(&mut self.words);
        let alone = take(&mut self.stands_alone);
        trim(&mut words);
        if words.is_empty() {
            return;
        }
        if alone {
            self.fault("a figure must stand alone in its paragraph");
        }
        self.push(Block::Paragraph(words));
    }

    pub(super) fn open(&mut self, frame: Frame) {
        self.flush();
        if self.frames.len() > 2 * DEPTH {
            self.skipped += 1;
        } else {
            self.frames.push(frame);
        }
    }

    pub(super) fn close(&mut self) {
        self.flush();
        if self.skipped > 0 {
            self.skipped -= 1;
            return;
        }
        let Some(frame) = self.frames.pop() else { return };
        match frame {
            Frame::Blocks(blocks) => self.frames.push(Frame::Blocks(blocks)),
            Frame::Quote(blocks) => match caution(blocks) {
                Ok(caution) => self.push(caution),
                Err(blocks) => blocks.into_iter().for_each(|block| self.push(block)),
            },
            Frame::Columns { count, blocks, .. } => self.push(Block::Columns { count, blocks }),
            Frame::Beside { shares, mut parts, blocks, at } => {
                parts.push(blocks);
                if parts.len() != shares.len() {
                    self.at = at;
                    self.fault(
                        "columns like `2:1` have as many parts, with a rule `---` between them",
                    );
                }
                self.push(Block::Beside { shares, parts });
            }
            Frame::Together { blocks, .. } => self.push(Block::Together(blocks)),
            Frame::Step { number, mut blocks, .. } => {
                for block in &mut blocks {
                    if let Block::List { kind: kind @ ListKind::Steps(_), .. } = block {
                        *kind = ListKind::Ticks;
                    }
                }
                self.push(Block::Step { number, blocks });
            }
            Frame::Landscape { blocks, .. } => self.push(Block::Landscape(blocks)),
            Frame::List { kind, items } => self.push(Block::List { kind, items }),
            Frame::Item(blocks) => match self.frames.last_mut() {
                Some(Frame::List { items, .. }) => items.push(blocks),
                _ => blocks.into_iter().for_each(|block| self.push(block)),
            },
            Frame::Table { mut table, .. } => {
                (table.kind, table.summary) = self.about_table(&table);
                self.push(Block::Table(table));
            }
        }
    }

    /// What the table is for, and the words of the paragraph `Table: …`, `Form: …`, `Matrix: …` or
    /// `Summary: …` before it, which is taken away; without one, the head of the table.
    fn about_table(&mut self, table: &Table) -> (TableKind, String) {
        let kinds = [
            ("Table: ", TableKind::Reading),
            ("Form: ", TableKind::Form),
            ("Summary: ", TableKind::Summary),
            ("Matrix: ", TableKind::Matrix),
        ];
        if let Some(blocks) = self.blocks()
            && let Some(Block::Paragraph(words)) = blocks.last()
        {
            let words = plain_text(words);
            for (mark, kind) in kinds {
                if let Some(summary) = words.strip_prefix(mark) {
                    blocks.pop();
                    return (kind, summary.to_owned());
                }
            }
        }
        let heads: Vec<String> = table.head.iter().map(|cell| plain_text(cell)).collect();
        (TableKind::Reading, heads.join(", "))
    }

    pub(super) fn end_row(&mut self) {
        let mark = self.row_mark.take();
        let Some(Frame::Table { table, row, in_head }) = self.frames.last_mut() else { return };
        let mut cells = take(row);
        cells.resize(table.columns.len(), Vec::new());
        if take(in_head) {
            table.head = cells;
        } else {
            table.marks.extend(mark.map(|mark| (table.rows.len(), mark)));
            table.rows.push(cells);
        }
    }

    pub(super) fn tick_box(&mut self) {
        let lists = self.frames.len().checked_sub(2).and_then(|index| self.frames.get_mut(index));
        if let Some(Frame::List { kind, .. }) = lists {
            *kind = match *kind {
                ListKind::Numbers(first) | ListKind::Steps(first) => ListKind::Steps(first),
                ListKind::Bullets | ListKind::Ticks => ListKind::Steps(1),
            };
        }
    }

    pub(super) fn push(&mut self, block: Block) {
        if let Some(blocks) = self.blocks() {
            blocks.push(block);
        }
    }

    /// Where the next block goes.
    fn blocks(&mut self) -> Option<&mut Vec<Block>> {
        self.frames.iter_mut().rev().find_map(|frame| match frame {
            Frame::Blocks(blocks)
            | Frame::Quote(blocks)
            | Frame::Item(blocks)
            | Frame::Columns { blocks, .. }
            | Frame::Beside { blocks, .. }
            | Frame::Together { blocks, .. }
            | Frame::Step { blocks, .. }
            | Frame::Landscape { blocks, .. } => Some(blocks),
            Frame::List { .. } | Frame::Table { .. } => None,
        })
    }

    pub(super) fn finish(mut self) -> (Vec<Block>, Vec<MarkdownFault>) {
        self.flush();
        while self.frames.len() > 1 {
            if let Some(at) = self.frames.last().and_then(Frame::command_at) {
                self.at = at.clone();
                self.fault("this is never closed by a line `:::`");
            }
            self.close();
        }
        match self.frames.pop() {
            Some(Frame::Blocks(blocks)) => (blocks, self.faults),
            _ => (Vec::new(), self.faults),
        }
    }
}
