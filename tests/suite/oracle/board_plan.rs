//! Holds a board plan against the board: what every plan must keep.

use lidsheet::board::Board;
use lidsheet::figure::plan::{Lead, LeadKind, Naming, Plan};
use lidsheet::geometry::{Point, Rect};
use lidsheet::scene::Item;

use super::drawing;

/// White paper between two leads, mm.
const BETWEEN: f64 = 1.5;

/// Everything that is wrong with the plan, in words; empty if nothing is. No type is smaller than
/// `least` points.
pub fn faults(board: &Board, plans: &[Plan], least: f64) -> Vec<String> {
    let mut faults = Vec::new();
    for plan in plans {
        if plan.bodies.is_empty() {
            faults.push("nothing is drawn".to_owned());
        }
        words_apart(plan, &mut faults);
        type_sizes(&plan.scene.items, least, &mut faults);
        leads_clear(board, plan, &mut faults);
        leads_apart(plan, &mut faults);
        faults.extend(plan.lost.iter().map(|(code, _)| format!("{code} has no place")));
    }
    every_code(board, plans, &mut faults);
    both_flags(board, plans, &mut faults);
    faults.sort();
    faults.dedup();
    faults
}

fn words_apart(plan: &Plan, faults: &mut Vec<String>) {
    let whole = Rect::at(Point::default(), plan.scene.size).grown(1e-6);
    let words = plan.scene.text_boxes();
    for (i, (a, text)) in words.iter().enumerate() {
        if !whole.contains(a) {
            faults.push(format!("`{text}` lies outside the drawing"));
        }
        for (b, other) in &words[i + 1..] {
            if a.grown(-0.05).overlaps(&b.grown(-0.05)) {
                faults.push(format!("`{text}` lies on `{other}`"));
            }
        }
    }
    for (code, body) in &plan.bodies {
        for (area, text) in &words {
            let inside = body.contains(&area.grown(-1.2)) || body.grown(0.3).contains(area);
            if area.grown(-0.1).overlaps(body) && !inside {
                faults.push(format!("`{text}` lies across {code}"));
            }
        }
    }
    // A slanting line is a leader: it runs through no word.
    let mut lines = Vec::new();
    drawing::stretches(&plan.scene.items, Point::default(), &mut lines);
    let slanting = lines.iter().filter(|(a, b)| a.x != b.x && a.y != b.y);
    for (a, b) in slanting.filter(|(a, b)| libm::hypot(a.x - b.x, a.y - b.y) > 2.5) {
        for (area, text) in &words {
            if drawing::meets(&area.grown(-0.4), *a, *b) {
                faults.push(format!("a leader runs through `{text}`"));
            }
        }
    }
}

fn type_sizes(items: &[Item], least: f64, faults: &mut Vec<String>) {
    for item in items {
        match item {
            Item::Text { line, .. } if line.runs.iter().any(|run| run.size_pt < least) => {
                faults.push(format!("`{}` is set too small", line.text()));
            }
            Item::Group { items, .. } => type_sizes(items, least, faults),
            _ => {}
        }
    }
}

/// All texts of the pictures.
fn texts(plans: &[Plan]) -> Vec<String> {
    let boxes = plans.iter().flat_map(|plan| plan.scene.text_boxes());
    boxes.map(|(_, text)| text).collect()
}

/// Everything that the specification gives a code is named on one of the pictures.
fn every_code(board: &Board, plans: &[Plan], faults: &mut Vec<String>) {
    let texts = texts(plans);
    let codes = (board.terminals.iter().map(|t| &t.code))
        .chain(board.links.iter().map(|l| &l.code))
        .chain(board.groups.iter().map(|g| &g.code))
        .chain(board.jumpers.iter().map(|j| &j.code))
        .chain(board.fuses.iter().map(|f| &f.code))
        .chain(board.headers.iter().map(|h| &h.code))
        .chain(board.banks.iter().map(|b| &b.code));
    for code in codes.filter(|code| !texts.contains(code)) {
        faults.push(format!("{code} is not named"));
    }
}

/// A drawn lead has its jumper's code at the jumper and at the tabs, and the group's letter at both.
fn both_flags(board: &Board, plans: &[Plan], faults: &mut Vec<String>) {
    let Some(plan) = plans.first() else { return };
    let texts = texts(plans);
    let times = |code: &str| texts.iter().filter(|text| *text == code).count();
    for lead in &plan.leads {
        let jumper = &board[lead.jumper].code;
        let wanted = if plan.naming == Naming::InPlace { 2 } else { 1 };
        if times(jumper) < wanted {
            faults.push(format!("{jumper} has no flag at its group"));
        }
    }
    for (index, group) in board.groups.iter().enumerate() {
        let on = plan.leads.iter().filter(|lead| lead.group.0 == index).count();
        // Once at the group and once at each jumper that is on it.
        if times(&group.code) < 1 + on {
            faults.push(format!("a jumper on {} does not say so", group.code));
        }
    }
}

/// How wide a lead is drawn, mm.
fn width(lead: &Lead) -> f64 {
    match lead.kind {
        LeadKind::Shipped => 0.6,
        LeadKind::Moved => 1.0,
    }
}

fn leads_clear(board: &Board, plan: &Plan, faults: &mut Vec<String>) {
    let body = |code: &str| plan.bodies.iter().find(|(c, _)| c == code).map(|(_, r)| *r);
    let words = plan.scene.text_boxes();
    for lead in &plan.leads {
        let Some(path) = &lead.path else { continue };
        let (from, to) = (&board[lead.jumper], &board[lead.group]);
        let name = format!("lead {} to {}", from.code, to.code);
        let touches = |area: Option<Rect>, at: Option<&Point>| {
            let (Some(r), Some(at)) = (area, at) else { return false };
            let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
            r.grown(1e-6).contains(&self::at(*at))
                && (near(at.x, r.left)
                    || near(at.x, r.right)
                    || near(at.y, r.top)
                    || near(at.y, r.bottom))
        };
        if !touches(body(&from.code), path.first()) {
            faults.push(format!("{name} does not start at its jumper"));
        }
        let tab = lead.tab;
        let of_group = tab.zip(body(&to.code)).is_some_and(|(tab, g)| g.grown(1e-6).contains(&tab));
        if !of_group || !touches(tab, path.last()) {
            faults.push(format!("{name} does not end at a tab of its group"));
        }
        let outline = |part: usize| plan.outlines.get(part).copied().unwrap_or_default();
        for pair in path.windows(2) {
            let stretch = stretch(pair);
            if stretch.width() > 1e-6 && stretch.height() > 1e-6 {
                faults.push(format!("{name} is not at right angles"));
            }
            if from.part == to.part && !outline(from.part.0).contains(&stretch) {
                faults.push(format!("{name} leaves its circuit board"));
            }
            let thick = stretch.grown(width(lead) / 2.0);
            for (code, r) in &plan.bodies {
                let own = *code == from.code || *code == to.code;
                if thick.overlaps(&r.grown(if own { -0.6 } else { -0.05 })) {
                    faults.push(format!("{name} crosses {code}"));
                }
            }
            for (r, text) in &words {
                // Words in a body go with it; their line may be a little higher than the body.
                let inside = plan.bodies.iter().any(|(_, body)| body.contains(&at(r.middle())));
                if !inside && thick.overlaps(&r.grown(-0.05)) {
                    faults.push(format!("{name} runs through `{text}`"));
                }
            }
        }
    }
}

fn leads_apart(plan: &Plan, faults: &mut Vec<String>) {
    let drawn: Vec<(&Lead, &Vec<Point>)> =
        plan.leads.iter().filter_map(|lead| Some((lead, lead.path.as_ref()?))).collect();
    for (i, (a, a_path)) in drawn.iter().enumerate() {
        for (b, b_path) in &drawn[i + 1..] {
            let least = BETWEEN + (width(a) + width(b)) / 2.0 - 1e-6;
            for p in a_path.windows(2).map(stretch) {
                for q in b_path.windows(2).map(stretch) {
                    if side_by_side(p, q, least) {
                        faults.push(format!("{:?} runs too near to {:?}", a.jumper, b.jumper));
                    }
                }
            }
        }
    }
}

/// The jumpers that must have a lead on the plan of a board as it is delivered: all, each to the
/// group that it is shipped on.
pub fn leads(board: &Board) -> Vec<String> {
    let mut all: Vec<String> =
        board.jumpers.iter().map(|j| format!("{} to {}", j.code, board[j.shipped].code)).collect();
    all.sort();
    all
}

/// The same of what a plan draws or tells by its flags.
pub fn planned(board: &Board, plan: &Plan) -> Vec<String> {
    let words = |lead: &Lead| format!("{} to {}", board[lead.jumper].code, board[lead.group].code);
    let mut all: Vec<String> = plan.leads.iter().map(words).collect();
    all.sort();
    all
}

/// A point as a rectangle.
fn at(point: Point) -> Rect {
    Rect::at(point, Default::default())
}

fn stretch(pair: &[Point]) -> Rect {
    Rect {
        left: pair[0].x.min(pair[1].x),
        right: pair[0].x.max(pair[1].x),
        top: pair[0].y.min(pair[1].y),
        bottom: pair[0].y.max(pair[1].y),
    }
}

/// Whether two stretches run in the same direction beside each other, nearer than `least`.
fn side_by_side(a: Rect, b: Rect, least: f64) -> bool {
    let shared = |a0: f64, a1: f64, b0: f64, b1: f64| a1.min(b1) - a0.max(b0) > 1e-6;
    let (level, upright) = (|r: Rect| r.height() < 1e-6, |r: Rect| r.width() < 1e-6);
    (level(a)
        && level(b)
        && (a.top - b.top).abs() < least
        && shared(a.left, a.right, b.left, b.right))
        || (upright(a)
            && upright(b)
            && (a.left - b.left).abs() < least
            && shared(a.top, a.bottom, b.top, b.bottom))
}
