//! Holds a board plan against the board: what every plan must keep.

use lidsheet::board::Board;
use lidsheet::figure::plan::{LeadEnds, Plan};
use lidsheet::geometry::{Point, Rect};

/// Everything that is wrong with the plan, in words; empty if nothing is.
pub fn faults(board: &Board, plan: &Plan) -> Vec<String> {
    let mut faults = Vec::new();
    let whole = Rect::at(Point::default(), plan.scene.size);
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

    let body = |code: &str| plan.bodies.iter().find(|(c, _)| c == code).map(|(_, r)| *r);
    let drawn: Vec<_> =
        plan.leads.iter().filter_map(|lead| Some((lead, lead.path.as_ref()?))).collect();
    for (lead, path) in &drawn {
        let (from, to) = match lead.ends {
            LeadEnds::Jumper(j, g) => (&board[j].code, &board[g].code),
            LeadEnds::Link(l, t) => (&board[l].code, &board[t].code),
        };
        let name = format!("lead {from} to {to}");
        let touches = |code: &str, at: Option<&Point>| {
            let (Some(r), Some(at)) = (body(code), at) else { return false };
            let near = |a: f64, b: f64| (a - b).abs() < 1e-6;
            r.grown(1e-6).contains(&self::at(*at))
                && (near(at.x, r.left)
                    || near(at.x, r.right)
                    || near(at.y, r.top)
                    || near(at.y, r.bottom))
        };
        if !touches(from, path.first()) {
            faults.push(format!("{name} does not start at its foot"));
        }
        if !touches(to, path.last()) {
            faults.push(format!("{name} does not end at its goal"));
        }
        for pair in path.windows(2) {
            let stretch = stretch(pair);
            if stretch.width() > 1e-6 && stretch.height() > 1e-6 {
                faults.push(format!("{name} is not at right angles"));
            }
            for (code, r) in &plan.bodies {
                if thick(stretch).overlaps(&r.grown(-0.05)) {
                    faults.push(format!("{name} crosses {code}"));
                }
            }
            for (r, text) in &words {
                // Words in a body go with it; their line may be a little higher than the body.
                let inside = plan.bodies.iter().any(|(_, body)| body.contains(&at(r.middle())));
                if !inside && thick(stretch).overlaps(&r.grown(-0.05)) {
                    faults.push(format!("{name} runs through `{text}`"));
                }
            }
        }
    }
    for (i, (a, a_path)) in drawn.iter().enumerate() {
        for (b, b_path) in &drawn[i + 1..] {
            for p in a_path.windows(2) {
                for q in b_path.windows(2) {
                    if on_top(stretch(p), stretch(q)) {
                        faults.push(format!("{:?} lies on {:?}", a.ends, b.ends));
                    }
                }
            }
        }
    }
    for (code, r) in &plan.bodies {
        for (area, text) in &words {
            let inside = r.contains(&area.grown(-1.2)) || r.grown(0.3).contains(area);
            if area.grown(-0.1).overlaps(r) && !inside {
                faults.push(format!("`{text}` lies across {code}"));
            }
        }
    }
    faults
}

/// Every jumper with each of its groups and every link with each of its terminals, in words, sorted.
pub fn leads(board: &Board) -> Vec<String> {
    let jumpers = board.jumpers.iter().flat_map(|jumper| {
        jumper.groups.iter().map(|group| format!("{} to {}", jumper.code, board[*group].code))
    });
    let links = board.links.iter().flat_map(|link| {
        link.positions.iter().map(|at| format!("{} to {}", link.code, board[*at].code))
    });
    let mut all: Vec<String> = jumpers.chain(links).collect();
    all.sort();
    all
}

/// The same of what a plan draws or says that it cannot.
pub fn planned(board: &Board, plan: &Plan) -> Vec<String> {
    let words = |ends: LeadEnds| match ends {
        LeadEnds::Jumper(j, g) => format!("{} to {}", board[j].code, board[g].code),
        LeadEnds::Link(l, t) => format!("{} to {}", board[l].code, board[t].code),
    };
    let mut all: Vec<String> = plan.leads.iter().map(|lead| words(lead.ends)).collect();
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

fn thick(stretch: Rect) -> Rect {
    stretch.grown(0.01)
}

/// Whether two stretches run along the same line for more than a point.
fn on_top(a: Rect, b: Rect) -> bool {
    let shared = |a0: f64, a1: f64, b0: f64, b1: f64| a1.min(b1) - a0.max(b0) > 1e-6;
    let level = a.height() < 1e-6 && b.height() < 1e-6 && (a.top - b.top).abs() < 0.3;
    let upright = a.width() < 1e-6 && b.width() < 1e-6 && (a.left - b.left).abs() < 0.3;
    (level && shared(a.left, a.right, b.left, b.right))
        || (upright && shared(a.top, a.bottom, b.top, b.bottom))
}
