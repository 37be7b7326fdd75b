//! A plan as a person reads it.

use super::super::table::{paragraph, table};
use crate::board::{Allowance, Board, Device, Job, LayoutNumber, Pin, Speeds, WireColour};
use crate::compile::PlannedJob;
use crate::decide::reason::JumperReason;
use crate::decide::waits::waits;
use crate::decide::{
    DevicePlan, GroupVoltage, JumperPlan, LayoutChoice, PinOrder, ReadFrom, Wiring,
};
use crate::english::and;
use crate::report::words;
use crate::standards::colours::COLOURS;
use crate::units::fixed;

/// The whole text; `None` if something refuses the job.
pub fn text(planned: &PlannedJob) -> Option<String> {
    let (layout, wiring) = planned.plan.sound()?;
    let (board, job) = (&planned.board, &planned.job);
    let sections = [
        head(board, job),
        layout_section(board, layout, wiring),
        devices(board, job, wiring),
        pins(board, wiring),
        empty(board, layout.number, wiring),
        links(board, wiring),
        jumpers(board, wiring),
        switches(board, wiring),
        heater(board, wiring),
        currents(wiring),
        breaker(wiring),
        run(job, wiring),
    ];
    let sections: Vec<String> = sections.into_iter().filter(|text| !text.is_empty()).collect();
    // Numbers and units were kept together; a terminal needs plain spaces to be searched.
    Some(sections.join("\n").replace('\u{a0}', " "))
}

/// A section, unless there is nothing in it.
fn section(title: &str, body: String) -> String {
    if body.is_empty() { body } else { format!("{title}\n{body}") }
}

fn head(board: &Board, job: &Job) -> String {
    let supply = &board[job.supply.value];
    let about = &board.about;
    let whose = job.customer.as_ref().map_or_else(String::new, |whose| format!(", {whose}"));
    let conductors: Vec<String> = supply.conductors().iter().map(ToString::to_string).collect();
    let mut out = paragraph(&format!("Job {}{whose}", job.name), 0);
    out.push_str(&paragraph(
        &format!("Board {}, {}, revision {}", about.name, about.part, about.revision),
        0,
    ));
    out.push_str(&paragraph(
        &format!("Supply {}: {} ({})", supply.name, supply.title, conductors.join(", ")),
        0,
    ));
    out
}

fn layout_section(board: &Board, layout: &LayoutChoice, wiring: &Wiring) -> String {
    let has_circulation = wiring.devices.iter().any(|one| one.device == Device::Circulation);
    let mut out = paragraph(&words::layout(layout), 2);
    if let Some(line) = words::layout_set(board, wiring) {
        out.push_str(&paragraph(&line, 2));
    }
    if let Some(other) = layout.but_for_circulation {
        let line = format!(
            "Layout {other} is for a spa with{} a dedicated circulation pump. Check which one this is.",
            if has_circulation { "out" } else { "" }
        );
        out.push_str(&paragraph(&line, 2));
    }
    section(&format!("LAYOUT {}", layout.number), out)
}

fn devices(board: &Board, job: &Job, wiring: &Wiring) -> String {
    let rows: Vec<Vec<String>> = wiring
        .devices
        .iter()
        .map(|one| {
            let header = &board[one.header];
            let group = match one.jumper {
                Some(jumper) => format!("{} by {}", board[one.group].code, board[jumper].code),
                None => board[one.group].code.clone(),
            };
            let fuse = one.fuse.map(|fuse| format!("{}, {}", board[fuse].code, board[fuse].rating));
            vec![
                name(one),
                format!("{} {}", header.code, header.title),
                group,
                words::volts(one.volts),
                one.low.map_or_else(String::new, words::amps),
                words::amps(one.amps),
                fuse.unwrap_or_default(),
            ]
        })
        .collect();
    let mut out = table(&["device", "header", "group", "gets", "on low", "on high", "fuse"], &rows);
    let pumps = wiring.devices.iter().filter_map(|one| words::which_pump(job, wiring, one));
    let cords = wiring.devices.iter().filter_map(|one| words::cord_of(board, one));
    for note in pumps.chain(cords).chain(wiring.devices.iter().flat_map(words::source)) {
        out.push_str(&paragraph(&note, 2));
    }
    section("PLUG IN", out)
}

fn name(one: &DevicePlan) -> String {
    match one.speeds {
        Speeds::Two => format!("{}, 2 speeds", one.device),
        _ => one.device.to_string(),
    }
}

fn pins(board: &Board, wiring: &Wiring) -> String {
    let rows: Vec<Vec<String>> = wiring
        .devices
        .iter()
        .map(|one| {
            let from = match one.pins.read_from {
                ReadFrom::Top => "from the top",
                ReadFrom::Left => "from the left",
            };
            let live = one.voltage.live_common().map(|line| line.to_string());
            vec![board[one.header].code.clone(), from.to_owned(), order(&one.pins, live.as_deref())]
        })
        .collect();
    let mut out = table(&["header", "read", "pins, seen from the front"], &rows);
    if wiring.devices.iter().any(|one| one.voltage.live_common().is_some()) {
        out.push_str(&paragraph(
            "LIVE: here common connects to a line wire. It is live while the supply is on.",
            2,
        ));
    }
    if let Some(colours) = colours(wiring) {
        out.push_str(&paragraph(&colours, 2));
    }
    section("PIN ORDER", out)
}

fn order(order: &PinOrder, live: Option<&str>) -> String {
    let one = |(pin, colour): (Option<Pin>, Option<WireColour>)| {
        let Some(pin) = pin else { return "(empty)".to_owned() };
        let colour = colour.map_or_else(String::new, |colour| format!("\u{a0}{}", colour.letters));
        match live {
            Some(line) if pin == Pin::Common => {
                format!("common{colour}\u{a0}(LIVE,\u{a0}{line})")
            }
            _ => format!("{pin}{colour}"),
        }
    };
    order.cavities().map(one).collect::<Vec<_>>().join(", ")
}

/// What the letters of wires mean, and how far they can be trusted.
fn colours(wiring: &Wiring) -> Option<String> {
    let all: Vec<&WireColour> =
        wiring.devices.iter().flat_map(|one| one.pins.colours.iter().flatten()).collect();
    let used = COLOURS.iter().filter(|colour| all.iter().any(|it| it.letters == colour.letters));
    let key: Vec<String> =
        used.map(|colour| format!("{} {}", colour.letters, colour.words)).collect();
    if all.is_empty() {
        return None;
    }
    let key = if key.is_empty() { "bare".to_owned() } else { key.join(", ") };
    Some(format!(
        "Wire colours: {key}. The colours in an old or re-ended cord can be wrong: find each wire by \
         its pin, not by its colour."
    ))
}

fn empty(board: &Board, layout: LayoutNumber, wiring: &Wiring) -> String {
    let rows: Vec<Vec<String>> = wiring
        .empty
        .iter()
        .map(|(header, because)| {
            let header = &board[*header];
            vec![format!("{} {}", header.code, header.title), words::empty(*because)]
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    section(&format!("KEEP EMPTY under layout {layout}"), table(&["header", "why"], &rows))
}

fn links(board: &Board, wiring: &Wiring) -> String {
    let rows: Vec<Vec<String>> = wiring
        .links
        .iter()
        .map(|one| {
            let link = &board[one.link];
            vec![
                link.code.clone(),
                board[one.terminal].code.clone(),
                shipped(one.moved, &board[link.shipped].code),
                "this supply asks for it".to_owned(),
            ]
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    section("LINKS", table(&["link", "to", "from", "why"], &rows))
}

fn jumpers(board: &Board, wiring: &Wiring) -> String {
    let rows: Vec<Vec<String>> = wiring
        .jumpers
        .iter()
        .map(|one| {
            let jumper = &board[one.jumper];
            vec![
                jumper.code.clone(),
                board[one.group].code.clone(),
                shipped(one.moved, &board[jumper.shipped].code),
                words::jumper(board, one),
            ]
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    let mut out = table(&["jumper", "to", "from", "why"], &rows);
    let together = |one: &JumperPlan| matches!(one.because, JumperReason::Together { .. });
    if wiring.jumpers.iter().any(together) {
        out.push_str(&paragraph(
            "Where several groups give the voltage, all jumpers were chosen together: first for \
             the highest heater allowance, then for the smallest breaker, then for the fewest moves.",
            2,
        ));
    }
    if !wiring.optimal {
        out.push_str(&paragraph(
            "There are so many choices that not all were tried; another may be better.",
            2,
        ));
    }
    section("JUMPERS", out)
}

/// Whether a person must move it, and from where.
fn shipped(moved: bool, from: &str) -> String {
    if moved { format!("MOVE from {from}") } else { "as shipped".to_owned() }
}

fn switches(board: &Board, wiring: &Wiring) -> String {
    let rows: Vec<Vec<String>> = wiring
        .switches
        .iter()
        .map(|one| {
            let ways = |wanted: bool| {
                let ways = one.positions.iter().zip(1_usize..).filter(|(on, _)| **on == wanted);
                none_or(ways.map(|(_, way)| way.to_string()).collect())
            };
            let moved = none_or(one.moved.iter().map(ToString::to_string).collect());
            vec![board[one.bank].code.clone(), ways(true), ways(false), moved]
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    section(
        "SWITCHES",
        table(&["bank", "switches on", "switches off", "moved from shipped"], &rows),
    )
}

fn none_or(words: Vec<String>) -> String {
    if words.is_empty() { "none".to_owned() } else { words.join(" ") }
}

fn heater(board: &Board, wiring: &Wiring) -> String {
    let mut out = String::new();
    if let Some(heater) = &wiring.heater {
        let whose = if heater.from_job { "the job's" } else { "the board's own" };
        let line = format!(
            "{}\u{a0}W on {}. Its element, {whose}, is {} at {}.",
            fixed(heater.watts.0, 0),
            words::volts(heater.volts),
            heater.element.watts,
            heater.element.at
        );
        out.push_str(&paragraph(&line, 2));
        let line = match heater.allowance {
            Some(Allowance::Loads(count)) => words::allowance(count, &wiring.devices),
            _ => waits(board, wiring).map(|found| words::waits(&found)),
        };
        if let Some(line) = line {
            let why = words::allowance_reason(&wiring.breaker).unwrap_or_default();
            out.push_str(&paragraph(&format!("{line} {why}"), 2));
        }
    }
    section("HEATER", out)
}

fn currents(wiring: &Wiring) -> String {
    let rows: Vec<Vec<String>> = wiring
        .conductors
        .iter()
        .map(|load| {
            vec![load.conductor.to_string(), words::amps(load.amps), words::running(&load.running)]
        })
        .collect();
    let mut out = table(&["on", "carries", "with"], &rows);
    let isolated = |one: &&DevicePlan| matches!(one.voltage, GroupVoltage::Isolated { .. });
    let isolated: Vec<String> =
        wiring.devices.iter().filter(isolated).map(|one| one.device.the()).collect();
    if !isolated.is_empty() {
        let line = format!(
            "Not in these figures: the little that the board itself draws to feed {}.",
            and(&isolated)
        );
        out.push_str(&paragraph(&line, 2));
    }
    section("CURRENT at the worst", out)
}

fn breaker(wiring: &Wiring) -> String {
    let breaker = &wiring.breaker;
    let mut out = paragraph(&words::needed(breaker), 2);
    out.push_str(&paragraph(&words::rules(breaker), 2));
    if breaker.settings.iter().any(|setting| setting.allowance.is_some()) {
        let rows: Vec<Vec<String>> = breaker
            .settings
            .iter()
            .map(|setting| {
                let taken = if setting.allowance == breaker.allowance { "taken" } else { "" };
                let carried = match (setting.by_breaker, setting.by_wire, setting.by_board) {
                    (true, true, true) if !setting.heats => "heater waits",
                    (true, true, true) => "yes",
                    (false, ..) => "not by the breaker",
                    (true, false, _) => "not by the wire",
                    (true, true, false) => "not by the board",
                };
                vec![
                    setting.allowance.map_or_else(String::new, |number| number.to_string()),
                    words::amps(setting.counted),
                    setting.line.map_or_else(String::new, |line| line.to_string()),
                    setting.smallest.map_or_else(|| "none".to_owned(), |size| size.to_string()),
                    carried.to_owned(),
                    taken.to_owned(),
                ]
            })
            .collect();
        out.push_str(&table(&["allowance", "counts", "in", "breaker", "carried", ""], &rows));
    }
    section("BREAKER", out)
}

fn run(job: &Job, wiring: &Wiring) -> String {
    let judged = paragraph(&words::wire(job, &wiring.wire), 2);
    let (Some(run), Some(drop)) = (&job.run, &wiring.run) else {
        return section("SUPPLY RUN", judged);
    };
    let [a, b] = drop.between;
    let line = format!(
        "{}\u{a0}m of {}: {}\u{a0}ohm in each conductor ({}). At the worst {}\u{a0}V of {} between \
         {a} and {b} are lost, {}\u{a0}%, with {}.",
        crate::units::shortest(run.length.to_metres(), 2),
        run.wire,
        fixed(drop.ohms, 4),
        drop.clause,
        fixed(drop.drop.0, 2),
        words::volts(drop.volts),
        fixed(drop.percent, 2),
        words::running(&drop.running)
    );
    section("SUPPLY RUN", paragraph(&line, 2) + &judged)
}
