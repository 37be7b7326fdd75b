//! Holds a board plan against the board: what every plan must keep.

use lidsheet::board::{Board, JumperId};
use lidsheet::figure::look;
use lidsheet::figure::plan::{Lead, LeadKind, Naming, Plan, Setup};
use lidsheet::geometry::{Point, Rect, Step};
use lidsheet::scene::{Item, Stroke, text_boxes};

use super::drawing;

/// White paper between two leads, mm.
const BETWEEN: f64 = 1.5;

/// Everything that is wrong with the pictures of a plan, in words; empty if nothing is. No type is
/// smaller than `least` points. `setup` is what a job makes of the board.
pub fn faults(board: &Board, setup: Option<&Setup>, plans: &[Plan], least: f64) -> Vec<String> {
    let mut faults = Vec::new();
    for plan in plans {
        if plan.bodies.is_empty() {
            faults.push("nothing is drawn".to_owned());
        }
        words_apart(plan, &mut faults);
        leaders(plan, &mut faults);
        let smallest = drawing::smallest_type(&plan.scene);
        if smallest < least {
            faults.push(format!("something is set in {smallest} pt"));
        }
        leads_clear(board, plan, &mut faults);
        leads_apart(plan, &mut faults);
        faults.extend(plan.lost.iter().map(|(code, _)| format!("{code} has no place")));
    }
    every_code(board, plans, &mut faults);
    both_flags(board, setup, plans, &mut faults);
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
            // A body holds its own code, and that of a switch bank the word ON.
            let own = text == code || text == "ON";
            let inside = body.contains(&area.grown(-1.2)) || body.grown(0.3).contains(area);
            if area.grown(-0.1).overlaps(body) && !(own && inside) {
                faults.push(format!("`{text}` at {area:?} lies across {code} at {body:?}"));
            }
        }
    }
}

/// The lines that are drawn with a stroke, corner by corner; what is cut at a frame is left out.
fn polylines(items: &[Item], of: Stroke, shift: Point, to: &mut Vec<Vec<Point>>) {
    for item in items {
        match item {
            Item::Group { shift: by, items, clip: None } => {
                polylines(items, of, shift.moved(by.x, by.y), to);
            }
            Item::Shape { path, stroke: Some(own), .. } if *own == of => {
                // A curve counts as its chord.
                let corner = |step: &Step| match step {
                    Step::Move(p) | Step::Line(p) | Step::Curve(_, _, p) => {
                        Some(p.moved(shift.x, shift.y))
                    }
                    Step::Close => None,
                };
                let mut line: Vec<Point> = path.steps.iter().filter_map(corner).collect();
                if path.steps.contains(&Step::Close) {
                    line.extend(line.first().copied());
                }
                to.push(line);
            }
            _ => {}
        }
    }
}

/// Leaders and the outlines of circuit boards run through no word, no two leaders cross, and in
/// columns each leads from a body to its own name. No line leaves the drawing.
fn leaders(plan: &Plan, faults: &mut Vec<String>) {
    let words = plan.scene.text_boxes();
    let lines = |stroke: Stroke| {
        let mut found = Vec::new();
        polylines(&plan.scene.items, stroke, Point::default(), &mut found);
        found
    };
    let leaders = lines(look::LEADER);
    for line in leaders.iter().chain(&lines(look::BOARD)) {
        for pair in line.windows(2) {
            for (area, text) in &words {
                // The box reaches from ascent to descent; letters fill less of it.
                let letters =
                    Rect { top: area.top + 0.6, bottom: area.bottom - 0.6, ..area.grown(-0.05) };
                if drawing::meets(&letters, pair[0], pair[1]) {
                    faults
                        .push(format!("a line at {:?} runs through `{text}` at {area:?}", pair[0]));
                }
            }
        }
    }
    for (index, one) in leaders.iter().enumerate() {
        for other in &leaders[index + 1..] {
            let crossed =
                one.windows(2).any(|a| other.windows(2).any(|b| cross([a[0], a[1]], [b[0], b[1]])));
            if crossed {
                faults.push(format!("two leaders cross at {:?}", one.first()));
            }
        }
    }
    let whole = Rect::at(Point::default(), plan.scene.size).grown(0.5);
    let mut all = Vec::new();
    let uncut = plan.scene.items.iter().filter(|i| !matches!(i, Item::Group { clip: Some(_), .. }));
    drawing::stretches(&uncut.cloned().collect::<Vec<_>>(), Point::default(), &mut all);
    for (a, b) in all {
        if !whole.contains(&at(a)) || !whole.contains(&at(b)) {
            faults.push(format!("a line leaves the drawing at {a:?}"));
        }
    }
    if plan.naming == Naming::InColumns {
        for (code, body) in &plan.bodies {
            let named = leaders.iter().any(|leader| {
                leader.first().is_some_and(|start| body.grown(1e-6).contains(&at(*start)))
                    && row_at(leader, &words).contains(&code.as_str())
            });
            if !named {
                faults.push(format!("no leader joins {code} to its name"));
            }
        }
    }
}

/// The texts of the label that a leader ends at, from its end outwards.
fn row_at<'a>(leader: &[Point], words: &'a [(Rect, String)]) -> Vec<&'a str> {
    let (Some(start), Some(end)) = (leader.first(), leader.last()) else { return Vec::new() };
    let leftwards = end.x < start.x;
    let mut row: Vec<&(Rect, String)> = words
        .iter()
        .filter(|(area, _)| area.top < end.y && end.y < area.bottom)
        .filter(|(area, _)| if leftwards { area.right < end.x } else { end.x < area.left })
        .collect();
    let near = |area: &Rect| if leftwards { -area.right } else { area.left };
    let far = |area: &Rect| if leftwards { -area.left } else { area.right };
    row.sort_by(|a, b| near(&a.0).total_cmp(&near(&b.0)));
    let mut edge = if leftwards { -end.x } else { end.x };
    let mut found = Vec::new();
    for (area, text) in row {
        // What stands farther off is the next column.
        if near(area) - edge > 2.05 {
            break;
        }
        found.push(text.as_str());
        edge = far(area);
    }
    found
}

/// Whether two lines have a point in common that is inside of both.
fn cross(a: [Point; 2], b: [Point; 2]) -> bool {
    let side = |l: [Point; 2], p: Point| {
        (l[1].x - l[0].x) * (p.y - l[0].y) - (l[1].y - l[0].y) * (p.x - l[0].x)
    };
    side(a, b[0]) * side(a, b[1]) < -1e-9 && side(b, a[0]) * side(b, a[1]) < -1e-9
}

/// All texts of the pictures but those of the legend, which is drawn last.
fn texts(plans: &[Plan]) -> Vec<String> {
    let bodies = plans.iter().flat_map(|plan| {
        let without = plan.scene.items.split_last().map_or(&[][..], |(_, rest)| rest);
        text_boxes(without)
    });
    bodies.map(|(_, text)| text).collect()
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

/// A jumper and its group name each other, and so do a link and its terminal; the groups that a
/// jumper may go to stand at it. In columns the jumpers alone say where they are.
fn both_flags(board: &Board, setup: Option<&Setup>, plans: &[Plan], faults: &mut Vec<String>) {
    let Some(plan) = plans.first() else { return };
    let texts = texts(plans);
    let times = |code: &str| texts.iter().filter(|text| *text == code).count();
    let in_place = plan.naming == Naming::InPlace;
    for lead in &plan.leads {
        let jumper = &board[lead.jumper].code;
        // At the jumper, and at the tab or beside the group.
        if times(jumper) < if in_place { 2 } else { 1 } {
            faults.push(format!("{jumper} has no flag at its group"));
        }
    }
    let on = |jumper: JumperId| match setup {
        Some(setup) => setup.group(board, jumper),
        None => board[jumper].shipped,
    };
    let codes: Vec<&str> = board.groups.iter().map(|group| group.code.as_str()).collect();
    let letters: Vec<&str> = texts
        .iter()
        .filter(|text| text.split(' ').all(|word| codes.contains(&word)))
        .flat_map(|text| text.split(' '))
        .collect();
    for (index, group) in board.groups.iter().enumerate() {
        let jumpers = (0..board.jumpers.len()).map(JumperId);
        let here = jumpers.clone().filter(|jumper| on(*jumper).0 == index).count();
        let may_come = jumpers
            .filter(|jumper| on(*jumper).0 != index)
            .filter(|jumper| board[*jumper].groups.iter().any(|group| group.0 == index))
            .count();
        // Once at the group, once at each jumper that is on it or may come.
        let exact = in_place && setup.is_none();
        let wanted = 1 + here + if exact { may_come } else { 0 };
        let found = letters.iter().filter(|letter| **letter == group.code).count();
        if found < wanted || exact && found != wanted {
            faults.push(format!("{} stands {found} times in place of {wanted}", group.code));
        }
    }
    for (index, terminal) in board.terminals.iter().enumerate() {
        let here = board.links.iter().enumerate().filter(|(link, known)| match setup {
            Some(setup) => setup.terminal(board, lidsheet::board::LinkId(*link)).0 == index,
            None => known.shipped.0 == index,
        });
        let here: Vec<&str> = here.map(|(_, link)| link.code.as_str()).collect();
        if times(&terminal.code) < 1 + here.len() {
            faults.push(format!("a link on {} does not say so", terminal.code));
        }
        for link in here.iter().filter(|link| times(link) < 2) {
            faults.push(format!("{} does not name {link}", terminal.code));
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
    let mut drawn = Vec::new();
    drawing::stretches(&plan.scene.items, Point::default(), &mut drawn);
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
        let ends = path.first().into_iter().chain(path.last());
        if !ends.into_iter().all(|end| drawn.iter().any(|(a, b)| a == end || b == end)) {
            faults.push(format!("{name} is not drawn"));
        }
        for pair in path.windows(2) {
            let stretch = stretch(pair);
            if stretch.width() > 1e-6 && stretch.height() > 1e-6 {
                faults.push(format!("{name} is not at right angles"));
            }
            let thick = stretch.grown(width(lead) / 2.0);
            // On its own circuit board, or between the two that it joins.
            let home = outline(from.part.0).union(&outline(to.part.0));
            if !home.contains(&thick) {
                faults.push(format!("{name} leaves its circuit board"));
            }
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
            if a.tab == b.tab {
                faults.push(format!("{:?} and {:?} end at one tab", a.jumper, b.jumper));
            }
            let least = BETWEEN + (width(a) + width(b)) / 2.0 - 1e-6;
            for p in a_path.windows(2).map(stretch) {
                for q in b_path.windows(2).map(stretch) {
                    if gap(p, q) < least && !through(p, q) && !through(q, p) {
                        faults.push(format!("{:?} runs too near to {:?}", a.jumper, b.jumper));
                    }
                }
            }
        }
    }
}

/// The distance of two rectangles, 0 if they touch.
fn gap(a: Rect, b: Rect) -> f64 {
    let apart = |low: f64, high: f64| (low - high).max(0.0);
    let across = apart(b.left, a.right).max(apart(a.left, b.right));
    libm::hypot(across, apart(b.top, a.bottom).max(apart(a.top, b.bottom)))
}

/// Whether an upright stretch goes right through a level one, as a bridge does.
fn through(level: Rect, upright: Rect) -> bool {
    level.left + 0.1 < upright.left
        && upright.left < level.right - 0.1
        && upright.top + 0.1 < level.top
        && level.top < upright.bottom - 0.1
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
