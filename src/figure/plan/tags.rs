//! Which tab each jumper's lead ends at, and the tag over the tab that says which jumper it is.
//!
//! The language says how many tabs a group has, not which of them a jumper is on, because any free
//! one will do. The drawing takes them in the order of the jumpers' places, so that the leads of a
//! group do not cross, and far enough apart for the tags.

use std::sync::Arc;

use super::components::{Component, ComponentKind, moved};
use super::setup::Show;
use super::wording::flag_size;
use crate::board::{Board, GroupId, JumperId};
use crate::geometry::{Point, Rect, Side};
use crate::text::{Line, Typesetter};

/// White space between a tab and its tag, mm.
const GAP: f64 = 0.5;
/// White space between two tags, mm.
const BETWEEN: f64 = 0.6;
/// White space to anything else, mm.
const AIR: f64 = 0.7;
/// The least distance of two leads that end at neighbouring tabs, mm.
const LEADS: f64 = 2.2;

/// A tag over a tab.
#[derive(Clone, Debug)]
pub struct Tag {
    /// Its words: the code of a jumper.
    pub line: Arc<Line>,
    /// Its area, paper mm.
    pub area: Rect,
    /// The group, for its colour.
    pub group: GroupId,
}

/// Where the lead of a jumper ends.
#[derive(Clone, Debug)]
pub struct LeadEnd {
    /// Whose lead it is.
    pub jumper: JumperId,
    /// The group that it goes to.
    pub group: GroupId,
    /// The tab; `None` if the group has no tab that is far enough from the others.
    pub tab: Option<Rect>,
    /// The side of the tab that the lead comes from; any, if there is no tag.
    pub from: Option<Side>,
}

/// The tags and ends of all leads of a drawing.
#[derive(Clone, Debug, Default)]
pub struct Tags {
    /// The tags that are drawn.
    pub tags: Vec<Tag>,
    /// One for each lead.
    pub ends: Vec<LeadEnd>,
    /// The jumpers that their group's own label must name, because their tags have no room.
    pub listed: Vec<(GroupId, Vec<JumperId>)>,
}

impl Tags {
    /// The jumpers that the label of a group must name.
    pub fn listed(&self, group: GroupId) -> &[JumperId] {
        let found = self.listed.iter().find(|(listed, _)| *listed == group);
        found.map_or(&[], |(_, jumpers)| jumpers)
    }
}

/// The jumpers that have a lead, with the group at its end: of a board all, of a job those that it
/// uses or moves.
pub fn leads(board: &Board, show: Show<'_>) -> Vec<(JumperId, GroupId)> {
    (0..board.jumpers.len())
        .map(JumperId)
        .filter_map(|jumper| match show {
            Show::Board => Some((jumper, board[jumper].shipped)),
            Show::Job(setup) => (setup.uses_jumper(board, jumper) || moved(board, setup, jumper))
                .then(|| (jumper, setup.group(board, jumper))),
        })
        .collect()
}

/// Gives each lead of the drawing its tab, and each tab its tag where there is room for the tags of
/// all jumpers of the group. Without `tagged` the labels of the groups name them.
pub fn place(
    board: &Board,
    show: Show<'_>,
    components: &[Component],
    outlines: &[Rect],
    tagged: bool,
    set: &mut Typesetter,
) -> Tags {
    let all = leads(board, show);
    let foot = |jumper: JumperId| {
        let found = components.iter().find(|c| c.kind == ComponentKind::Jumper(jumper));
        found.map(|c| c.body.middle()).unwrap_or_default()
    };
    let mut placed = Tags::default();
    for group in components {
        let ComponentKind::Group(id) = group.kind else { continue };
        let mut jumpers: Vec<JumperId> =
            all.iter().filter(|(_, to)| *to == id).map(|(jumper, _)| *jumper).collect();
        if jumpers.is_empty() {
            continue;
        }
        // By place, then by number, so that equal places keep an order.
        jumpers.sort_by(|a, b| foot(*a).x.total_cmp(&foot(*b).x).then(a.0.cmp(&b.0)));
        let wished: Vec<f64> = jumpers.iter().map(|jumper| foot(*jumper).x).collect();
        let lines: Vec<Arc<Line>> = jumpers
            .iter()
            .map(|jumper| set.line(&board[*jumper].code, show.type_sizes().small))
            .collect();
        let below = jumpers.iter().filter(|j| foot(**j).y > group.body.middle().y).count();
        let sides = if below * 2 >= jumpers.len() {
            [Side::Up, Side::Down]
        } else {
            [Side::Down, Side::Up]
        };
        let widths: Vec<f64> = lines.iter().map(|line| flag_size(line).width + BETWEEN).collect();
        let found = tagged.then(|| spread(&group.cells, &wished, &widths)).flatten();
        let with_tags = found.and_then(|tabs| {
            sides.iter().find_map(|side| {
                let areas = tag_areas(&group.cells, &tabs, &lines, *side)?;
                let free =
                    areas.iter().all(|area| is_free(*area, group, components, outlines, &placed));
                free.then_some((tabs.clone(), areas, *side))
            })
        });
        match with_tags {
            Some((tabs, areas, side)) => {
                for (index, jumper) in jumpers.iter().enumerate() {
                    let tab = tabs.get(index).and_then(|tab| group.cells.get(*tab)).copied();
                    let from = Some(side.opposite());
                    placed.ends.push(LeadEnd { jumper: *jumper, group: id, tab, from });
                }
                let tags = lines.into_iter().zip(areas);
                placed.tags.extend(tags.map(|(line, area)| Tag { line, area, group: id }));
            }
            None => {
                let tabs = spread(&group.cells, &wished, &vec![LEADS; jumpers.len()]);
                for (index, jumper) in jumpers.iter().enumerate() {
                    let tab = tabs.as_ref().and_then(|tabs| tabs.get(index));
                    let tab = tab.and_then(|tab| group.cells.get(*tab)).copied();
                    placed.ends.push(LeadEnd { jumper: *jumper, group: id, tab, from: None });
                }
                jumpers.sort();
                placed.listed.push((id, jumpers));
            }
        }
    }
    placed
}

/// A tab for each of `wished` in turn, as near to it as may be, each tab once and two neighbours
/// at least half their `widths` apart. `None` if there are too few tabs for that.
fn spread(tabs: &[Rect], wished: &[f64], widths: &[f64]) -> Option<Vec<usize>> {
    let middle = |tab: usize| tabs.get(tab).map_or(f64::MAX, |tab| tab.middle().x);
    let apart = |index: usize| {
        let width = |i: usize| widths.get(i).copied().unwrap_or_default();
        (width(index) + width(index + 1)) / 2.0
    };
    // The last tab that each can have, from the right.
    let mut last = vec![0; wished.len()];
    let mut limit = (tabs.len().checked_sub(1)?, f64::MAX);
    for index in (0..wished.len()).rev() {
        let tab = (0..=limit.0).rev().find(|tab| middle(*tab) <= limit.1 + 1e-9)?;
        *last.get_mut(index)? = tab;
        if index > 0 {
            limit = (tab.checked_sub(1)?, middle(tab) - apart(index - 1));
        }
    }
    let mut chosen = Vec::new();
    let mut least: (usize, f64) = (0, f64::MIN);
    for (index, wish) in wished.iter().enumerate() {
        let can = (least.0..=*last.get(index)?).filter(|tab| middle(*tab) >= least.1 - 1e-9);
        let off = |tab: &usize| (middle(*tab) - wish).abs();
        let tab = can.min_by(|a, b| off(a).total_cmp(&off(b)))?;
        chosen.push(tab);
        least = (tab + 1, middle(tab) + apart(index));
    }
    Some(chosen)
}

fn tag_areas(cells: &[Rect], tabs: &[usize], lines: &[Arc<Line>], side: Side) -> Option<Vec<Rect>> {
    tabs.iter()
        .zip(lines)
        .map(|(tab, line)| {
            let cell = cells.get(*tab)?;
            let size = flag_size(line);
            let y = match side {
                Side::Up => cell.top - GAP - size.height / 2.0,
                _ => cell.bottom + GAP + size.height / 2.0,
            };
            Some(Rect::around(Point::new(cell.middle().x, y), size))
        })
        .collect()
}

fn is_free(
    area: Rect,
    own: &Component,
    components: &[Component],
    outlines: &[Rect],
    placed: &Tags,
) -> bool {
    let wide = area.grown(AIR);
    let home = outlines.get(own.part.0);
    home.is_none_or(|home| home.contains(&wide))
        && components.iter().all(|c| c.kind == own.kind || !c.body.overlaps(&wide))
        && placed.tags.iter().all(|tag| !tag.area.overlaps(&wide))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Size;

    fn row(count: usize, pitch: f64) -> Vec<Rect> {
        (0..count)
            .map(|i| Rect::at(Point::new(i as f64 * pitch, 0.0), Size::new(pitch, 4.0)))
            .collect()
    }

    #[test]
    fn tabs_are_near_what_is_wished_and_far_enough_apart() {
        // Middles at 2, 6, 10, 14, 18.
        let tabs = row(5, 4.0);
        assert_eq!(spread(&tabs, &[1.0, 17.0], &[6.0, 6.0]), Some(vec![0, 4]));
        // Two at one place part; what comes later finds room on the right.
        assert_eq!(spread(&tabs, &[10.0, 10.0], &[6.0, 6.0]), Some(vec![2, 4]));
        assert_eq!(spread(&tabs, &[99.0, 99.0, 99.0], &[6.0; 3]), Some(vec![0, 2, 4]));
        assert_eq!(spread(&tabs, &[0.0; 4], &[6.0; 4]), None);
        assert_eq!(spread(&tabs, &[0.0; 5], &[4.0; 5]), Some(vec![0, 1, 2, 3, 4]));
        assert_eq!(spread(&[], &[1.0], &[1.0]), None);
    }
}
