//! No page for the sake of a few lines: where pages begin once it is known how many there are.
//!
//! A run of pages ends where a page break is asked for, or the document ends. If the last page of a
//! run would hold very little, the run is set with less space between its blocks. If that does not
//! spare the page, it takes over what stands at the end of the page before.

use std::ops::Range;

use super::break_pages::{BrokenPage, Heights, Material, break_pages};
use super::strip::{After, Begins, Collected};

/// How much of the space between blocks may be left, tried in this order.
const TIGHTER: [f64; 5] = [0.9, 0.8, 0.7, 0.6, 0.5];

/// Breaks into pages. A run's last page holds `least` mm if that can be had.
pub(super) fn break_and_settle(
    collected: &mut Collected,
    heights: Heights,
    least: f64,
) -> Vec<BrokenPage> {
    let broken = broken(collected, heights);
    let mut settled = false;
    for run in runs(collected, &broken) {
        let pages = broken.get(run).unwrap_or_default();
        let [.., before, last] = pages else { continue };
        if bottom(collected, last) >= least {
            continue;
        }
        let strips = pages.first().map_or(0, |page| page.strips.start)..last.strips.end;
        settled |= tighten(collected, strips, heights, pages.len())
            || take_over(collected, before, last, least);
    }
    if settled { self::broken(collected, heights) } else { broken }
}

fn broken(collected: &Collected, heights: Heights) -> Vec<BrokenPage> {
    break_pages(material(collected, 0..collected.strips.len()), heights)
}

fn material(collected: &Collected, strips: Range<usize>) -> Material<'_> {
    Material {
        strips: collected.strips.get(strips).unwrap_or_default(),
        frames: &collected.frames,
        heads: &collected.heads,
    }
}

/// The pages from one that must begin where it does to the next such.
fn runs(collected: &Collected, pages: &[BrokenPage]) -> Vec<Range<usize>> {
    let mut runs: Vec<Range<usize>> = Vec::new();
    for (index, page) in pages.iter().enumerate() {
        let first = collected.strips.get(page.strips.start);
        let forced = first.is_none_or(|strip| strip.begins == Begins::Page);
        let turned = index.checked_sub(1).and_then(|before| pages.get(before));
        let turned = turned.is_none_or(|before| before.landscape != page.landscape);
        match runs.last_mut() {
            Some(run) if !forced && !turned => run.end = index + 1,
            _ => runs.push(index..index + 1),
        }
    }
    runs
}

/// How far down the last strip of a page ends.
fn bottom(collected: &Collected, page: &BrokenPage) -> f64 {
    let last = page.strips.end.checked_sub(1).and_then(|last| collected.strips.get(last));
    page.tops.last().copied().unwrap_or_default() + last.map_or(0.0, |strip| strip.height)
}

/// Takes space from between the blocks of a run, as little as spares its last page. Says whether
/// that could be done.
fn tighten(collected: &mut Collected, run: Range<usize>, heights: Heights, pages: usize) -> bool {
    let strips = collected.strips.get(run.clone()).unwrap_or_default();
    let spaces: Vec<f64> = strips.iter().map(|strip| strip.before).collect();
    for part in TIGHTER.into_iter().chain([1.0]) {
        let strips = collected.strips.get_mut(run.clone()).unwrap_or_default();
        for (strip, space) in strips.iter_mut().zip(&spaces) {
            strip.before = space * part;
        }
        if break_pages(material(collected, run.clone()), heights).len() < pages {
            return true;
        }
    }
    false
}

/// Lets the last page of a run begin earlier. Says whether there is a place where it can.
fn take_over(
    collected: &mut Collected,
    before: &BrokenPage,
    last: &BrokenPage,
    least: f64,
) -> bool {
    let place = [After::Free, After::Avoid]
        .into_iter()
        .find_map(|after| earlier_begin(collected, before, last, (least, after)));
    let strip = place.and_then(|index| collected.strips.get_mut(index));
    let Some(strip) = strip else { return false };
    strip.begins = Begins::Page;
    true
}

/// The last strip that the last page can begin with to hold `least` mm, where the strip before it
/// is at most as unwilling to end a page as `after` says; never so much that the page before holds
/// less.
fn earlier_begin(
    collected: &Collected,
    before: &BrokenPage,
    last: &BrokenPage,
    (least, after): (f64, After),
) -> Option<usize> {
    let strips = &collected.strips;
    let mut height = bottom(collected, last);
    for index in before.strips.clone().rev() {
        let strip = strips.get(index)?;
        let end = index.checked_sub(1).and_then(|end| strips.get(end))?;
        height += strip.before + strip.height;
        let left = before.tops.get(index - before.strips.start).copied().unwrap_or_default();
        if left < height {
            return None;
        }
        if height >= least && end.after <= after {
            return Some(index);
        }
    }
    None
}
