//! Holds a drawing against what every drawing must keep, and writes one as text.

use lidsheet::geometry::{Path, Point, Rect, Step};
use lidsheet::scene::{Item, Scene, Target};
use lidsheet::units::fixed;

/// Everything that is wrong with the drawing, in words; empty if nothing is.
pub fn faults(scene: &Scene) -> Vec<String> {
    let mut faults = Vec::new();
    let whole = Rect::at(Point::default(), scene.size).grown(1e-6);
    let words = scene.text_boxes();
    for (index, (a, text)) in words.iter().enumerate() {
        if !whole.contains(a) {
            faults.push(format!("`{text}` lies outside the drawing"));
        }
        for (b, other) in &words[index + 1..] {
            if a.grown(-0.05).overlaps(&b.grown(-0.05)) {
                faults.push(format!("`{text}` lies on `{other}`"));
            }
        }
    }
    let mut lines = Vec::new();
    stretches(&scene.items, Point::default(), &mut lines);
    for (a, b) in &lines {
        if !whole.grown(0.5).contains(&around(*a, *b)) {
            faults.push(format!("a line leaves the drawing at {a:?}"));
        }
        for (area, text) in &words {
            // The box reaches from ascent to descent; letters fill less of it.
            let letters =
                Rect { top: area.top + 0.6, bottom: area.bottom - 0.6, ..area.grown(-0.05) };
            if meets(&letters, *a, *b) {
                faults.push(format!("a line runs through `{text}`"));
            }
        }
    }
    for item in &scene.items {
        small_type(item, &mut faults);
    }
    faults.sort();
    faults.dedup();
    faults
}

/// Nothing is set in less than 7 pt.
fn small_type(item: &Item, faults: &mut Vec<String>) {
    match item {
        Item::Text { line, .. } => {
            if line.runs.iter().any(|run| run.size_pt < 7.0) {
                faults.push(format!("`{}` is set too small", line.text()));
            }
        }
        Item::Group { items, .. } => items.iter().for_each(|item| small_type(item, faults)),
        Item::Scaled { .. } | Item::Tagged { .. } => faults.push("this belongs to a page".into()),
        Item::Shape { .. } | Item::Picture { .. } | Item::Anchor { .. } | Item::Link { .. } => {}
    }
}

/// The size of the smallest type of a drawing, pt; infinite if it has no words.
pub fn smallest_type(scene: &Scene) -> f64 {
    fn of(items: &[Item]) -> f64 {
        let size = |item: &Item| match item {
            Item::Text { line, .. } => {
                line.runs.iter().map(|run| run.size_pt).fold(f64::INFINITY, f64::min)
            }
            Item::Group { items, .. } => of(items),
            Item::Scaled { by, items } => by * of(items),
            Item::Tagged { items, .. } => of(items),
            Item::Shape { .. } | Item::Picture { .. } | Item::Anchor { .. } | Item::Link { .. } => {
                f64::INFINITY
            }
        };
        items.iter().map(size).fold(f64::INFINITY, f64::min)
    }
    of(&scene.items)
}

/// Every straight stretch that is drawn as a line; a curve counts as its chord.
pub fn stretches(items: &[Item], shift: Point, found: &mut Vec<(Point, Point)>) {
    for item in items {
        match item {
            Item::Shape { path, stroke: Some(_), .. } => {
                let moved = |p: &Point| p.moved(shift.x, shift.y);
                let (mut start, mut pen) = (Point::default(), Point::default());
                for step in &path.steps {
                    let to = match step {
                        Step::Move(p) => {
                            start = moved(p);
                            pen = start;
                            continue;
                        }
                        Step::Line(p) | Step::Curve(_, _, p) => moved(p),
                        Step::Close => start,
                    };
                    found.push((pen, to));
                    pen = to;
                }
            }
            Item::Group { shift: by, items, .. } => {
                stretches(items, shift.moved(by.x, by.y), found);
            }
            Item::Tagged { items, .. } => stretches(items, shift, found),
            _ => {}
        }
    }
}

fn around(a: Point, b: Point) -> Rect {
    Rect { left: a.x.min(b.x), top: a.y.min(b.y), right: a.x.max(b.x), bottom: a.y.max(b.y) }
}

/// Whether the stretch from `a` to `b` passes through the rectangle (Liang and Barsky's clipping).
pub fn meets(r: &Rect, a: Point, b: Point) -> bool {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    let (dx, dy) = (b.x - a.x, b.y - a.y);
    for (along, room) in
        [(-dx, a.x - r.left), (dx, r.right - a.x), (-dy, a.y - r.top), (dy, r.bottom - a.y)]
    {
        if along.abs() < 1e-9 {
            if room <= 0.0 {
                return false;
            }
        } else if along < 0.0 {
            from = from.max(room / along);
        } else {
            to = to.min(room / along);
        }
    }
    from < to
}

/// The drawing as text that a person reads: kind, place and words of every item, sorted.
pub fn scene_text(scene: &Scene) -> String {
    let mut lines = Vec::new();
    write(&scene.items, Point::default(), &mut lines);
    lines.sort();
    let size = format!("{} by {} mm", fixed(scene.size.width, 1), fixed(scene.size.height, 1));
    format!("{}\n{}\n{size}\n{}\n", scene.title, scene.description, lines.join("\n"))
}

fn write(items: &[Item], shift: Point, lines: &mut Vec<String>) {
    let place = |p: Point| format!("{:>5} {:>5}", fixed(p.x + shift.x, 1), fixed(p.y + shift.y, 1));
    for item in items {
        match item {
            Item::Text { at, line, .. } => {
                let size = line.runs.first().map_or(0.0, |run| run.size_pt);
                lines.push(format!("text  {} {} pt `{}`", place(*at), fixed(size, 1), line.text()));
            }
            Item::Shape { path, fill, stroke } => {
                let r = extent(path);
                let look = match (fill, stroke) {
                    (Some(_), Some(_)) => "filled, edged",
                    (Some(_), None) => "filled",
                    (None, Some(_)) => "edged",
                    (None, None) => "nothing",
                };
                let (width, height) = (fixed(r.width(), 1), fixed(r.height(), 1));
                lines.push(format!("shape {} {width} x {height} {look}", place(r.corner())));
            }
            Item::Picture { area, .. } => lines.push(format!("picture {}", place(area.corner()))),
            Item::Anchor { name, at } => lines.push(format!("place {} {name}", place(*at))),
            Item::Link { area, target: Target::Anchor(name), description } => {
                lines.push(format!("link  {} to {name}: {description}", place(area.corner())));
            }
            Item::Group { shift: by, items, .. } => {
                write(items, shift.moved(by.x, by.y), lines);
            }
            Item::Scaled { .. } | Item::Tagged { .. } => lines.push("page matter".into()),
        }
    }
}

fn extent(path: &Path) -> Rect {
    let points: Vec<Point> = path
        .steps
        .iter()
        .filter_map(|step| match step {
            Step::Move(p) | Step::Line(p) | Step::Curve(_, _, p) => Some(*p),
            Step::Close => None,
        })
        .collect();
    let all = points.iter().map(|p| around(*p, *p));
    all.reduce(|a, b| a.union(&b)).unwrap_or_default()
}
