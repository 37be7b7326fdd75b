//! Devices that no group gives their voltage, jumpers that must be in two places, and heaters.

use super::super::heater::watts_on;
use super::super::jumpers::{HeaderOption as Place, Plug, carried_by, plugs, suits};
use super::super::layout::Slot;
use super::super::rules::{Rules, RulesReason};
use super::super::voltages::{GroupVoltage, NoVoltage, group_voltage};
use super::super::wiring::Wiring;
use super::{heater_span, the_role};
use crate::board::{
    Board, Conductor, Device, Feed, Fitted, GroupId, HeaderId, Heater, Job, JumperId, Layout,
    SupplyId,
};
use crate::diagnostic::{Code, Problem, Problems};
use crate::english::and;
use crate::source::Span;
use crate::standards::ansi;
use crate::units::{Volts, shortest};

/// The most ways to spread the pumps that are looked through to find the one with the least amiss.
const SPREADS: usize = 2000;

/// Says why no choice of places and groups gives every device its voltage under `layout`.
pub fn voltages(board: &Board, job: &Job, layout: &Layout, problems: &mut Problems) {
    let element = job.heater.map(|heater| heater.value).or(board.heater);
    let (slots, plugs) = plugs(board, job, layout, Rules::Iec, element);
    let hopeless = |plug: &&Plug| plug.places.iter().all(|place| place.options.is_empty());
    for plug in plugs.iter().filter(hopeless) {
        if let Some(fitted) = plug.fitted.and_then(|index| job.equipment.get(index)) {
            let headers = plug.places.iter().filter_map(|place| slots.get(place.slot));
            let headers: Vec<HeaderId> = headers.map(|slot| slot.header).collect();
            no_voltage(board, job, fitted, &headers, problems);
        }
    }
    let rest: Vec<&Plug> = plugs.iter().filter(|plug| !hopeless(plug)).collect();
    for plug in &rest {
        overloaded_anywhere(board, job, &slots, plug, problems);
    }
    let spread = least_amiss(board, &slots, &rest);
    for amiss in spread.amiss {
        report(board, job, &slots, &amiss, problems);
    }
    if problems.failed().is_none() {
        // Each has its voltage somewhere, but with all where they can be a header that the layout
        // needs stays empty.
        let number = layout.number;
        let what = format!("not every header that layout {number} needs gets its device");
        let problem = Problem::new(Code::NoVoltage, job.equipment_span, what);
        problems.error(problem.help("give each pump its number, as in `device: pump 1`"));
    }
}

/// The same where no layout fits: each device against every header that can ever serve it.
pub fn anywhere(board: &Board, job: &Job, problems: &mut Problems) {
    for fitted in &job.equipment {
        let serves = |header: &HeaderId| {
            board[*header].serves.iter().any(|(_, device)| fitted.role.can_be(*device))
        };
        let headers: Vec<HeaderId> = board.header_ids().filter(serves).collect();
        let fed = headers.iter().flat_map(|header| board.groups_of(*header)).any(|group| {
            let volts = group_voltage(board, job.supply.value, group).volts();
            volts.is_some_and(|volts| suits(volts, fitted.volts.value))
        });
        if !fed && !headers.is_empty() {
            no_voltage(board, job, fitted, &headers, problems);
        }
    }
}

fn no_voltage(
    board: &Board,
    job: &Job,
    fitted: &Fitted,
    headers: &[HeaderId],
    problems: &mut Problems,
) {
    let plate = fitted.volts.value;
    let supply = &board[job.supply.value];
    let mut groups: Vec<GroupId> = headers.iter().flat_map(|h| board.groups_of(*h)).collect();
    groups.sort();
    groups.dedup();
    let (low, high) = (shortest(plate.0 * 0.9, 1), shortest(plate.0 * 1.1, 1));
    let mut problem = Problem::new(
        Code::NoVoltage,
        fitted.volts.span,
        format!("no group gives {} its {plate} on supply {}", the_role(fitted.role), supply.name),
    )
    .label(format!("from {low} to {high}\u{a0}V would do"));
    let codes: Vec<String> = headers.iter().map(|h| board[*h].code.clone()).collect();
    if let Some(first) = headers.first() {
        let feeds = format!("{} can be fed from {}", and(&codes), group_list(board, &groups));
        problem = problem.other(board[*first].span, feeds);
    }
    for group in &groups {
        problem = problem.note(what_it_gives(board, job.supply.value, *group));
    }
    let gives = |supply: SupplyId| {
        groups.iter().any(|group| {
            group_voltage(board, supply, *group).volts().is_some_and(|volts| suits(volts, plate))
        })
    };
    let other = (0..board.supplies.len()).map(SupplyId).find(|supply| gives(*supply));
    problem = match other {
        Some(other) => {
            let other = &board[other];
            let neutral = other.has_neutral() && !supply.has_neutral();
            let what = if neutral { ", which brings a neutral" } else { "" };
            problem.help(format!("feed the board by supply `{}`{what}", other.name))
        }
        None => problem.help("fit a device for one of these voltages, or feed it from elsewhere"),
    };
    problems.error(problem);
}

fn group_list(board: &Board, groups: &[GroupId]) -> String {
    let codes: Vec<String> = groups.iter().map(|group| board[*group].code.clone()).collect();
    let one = if codes.len() == 1 { "group" } else { "groups" };
    format!("{one} {}", and(&codes))
}

/// What a group gives under a supply, or why it gives nothing, as a sentence.
fn what_it_gives(board: &Board, supply: SupplyId, group: GroupId) -> String {
    let code = &board[group].code;
    match group_voltage(board, supply, group) {
        GroupVoltage::Between { volts, .. } | GroupVoltage::Isolated { volts } => {
            format!("group {code} gives {}", Volts((volts.0 * 10.0).round() / 10.0))
        }
        GroupVoltage::NotAvailable { because: NoVoltage::SamePotential { .. } } => {
            format!("group {code} gives nothing: both of its ends are on one conductor")
        }
        GroupVoltage::NotAvailable { because: NoVoltage::Missing(missing) } => {
            let words: Vec<String> = missing
                .iter()
                .map(|one| {
                    let terminal = &board[one.terminal].code;
                    if one.elsewhere == [Conductor::N] {
                        format!("nothing lands on {terminal}, as the supply has no neutral")
                    } else {
                        format!("nothing lands on {terminal}")
                    }
                })
                .collect();
            format!("group {code} gives nothing: {}", words.join(", and "))
        }
    }
}

/// Reports a device that every header which could take it carries too little for.
fn overloaded_anywhere(
    board: &Board,
    job: &Job,
    slots: &[Slot],
    plug: &Plug,
    problems: &mut Problems,
) {
    let Some(fitted) = plug.fitted.and_then(|index| job.equipment.get(index)) else { return };
    let places = plug.places.iter().filter_map(|place| slots.get(place.slot));
    let mut places = places.peekable();
    let first = places.peek().map(|slot| slot.header);
    let amps = fitted.high.amps;
    if places.any(|slot| carried_by(board, *slot, amps.0)) {
        return;
    }
    let Some(header) = first else { return };
    let code = &board[header].code;
    problems.error(
        Problem::new(
            Code::HeaderOverload,
            fitted.high.span,
            format!("{} draws more than header {code} or its fuse carries", the_role(fitted.role)),
        )
        .label(format!("draws {amps}"))
        .other(board[header].span, limits(board, header))
        .help("fit a smaller device, or feed it by a contactor of its own"),
    );
}

fn limits(board: &Board, header: HeaderId) -> String {
    let fuse = board[header].fuse.map(|fuse| {
        let fuse = &board[fuse];
        format!("fuse {} is for {}", fuse.code, fuse.rating)
    });
    let max = board[header].max.map(|max| format!("may carry {max}"));
    max.into_iter().chain(fuse).collect::<Vec<_>>().join("; ")
}

/// One thing that is amiss with a way to spread the devices over the headers.
enum Amiss<'p> {
    /// The header gives the device no voltage that suits it.
    Place { plug: &'p Plug, slot: usize },
    /// The devices on the jumper have no group in common.
    Jumper { jumper: JumperId, plugs: Vec<(&'p Plug, &'p Place)> },
}

struct Spread<'p> {
    amiss: Vec<Amiss<'p>>,
}

/// Looks through the ways to spread the devices over the headers, in the order of the job, for the
/// first with the least amiss.
fn least_amiss<'p>(board: &Board, slots: &[Slot], plugs: &[&'p Plug]) -> Spread<'p> {
    let mut all = Ways { board, slots, plugs, at: Vec::new(), left: SPREADS, best: None };
    all.walk();
    all.best.unwrap_or(Spread { amiss: Vec::new() })
}

struct Ways<'a, 'p> {
    board: &'a Board,
    slots: &'a [Slot],
    plugs: &'a [&'p Plug],
    at: Vec<&'p Place>,
    left: usize,
    best: Option<Spread<'p>>,
}

impl<'p> Ways<'_, 'p> {
    fn walk(&mut self) {
        let Some(plug) = self.plugs.get(self.at.len()).copied() else {
            self.left = self.left.saturating_sub(1);
            let amiss = self.judge();
            if self.best.as_ref().is_none_or(|best| amiss.len() < best.amiss.len()) {
                self.best = Some(Spread { amiss });
            }
            return;
        };
        for place in &plug.places {
            if self.left > 0 && self.at.iter().all(|taken| taken.slot != place.slot) {
                self.at.push(place);
                self.walk();
                self.at.pop();
            }
        }
    }

    fn judge(&self) -> Vec<Amiss<'p>> {
        let mut amiss = Vec::new();
        let mut jumpers: Vec<(JumperId, Vec<(&'p Plug, &'p Place)>)> = Vec::new();
        for (plug, place) in self.plugs.iter().copied().zip(self.at.iter().copied()) {
            if place.options.is_empty() {
                amiss.push(Amiss::Place { plug, slot: place.slot });
                continue;
            }
            let Some(slot) = self.slots.get(place.slot) else { continue };
            let Feed::Jumper(jumper) = self.board[slot.header].feed else { continue };
            match jumpers.iter_mut().find(|(known, _)| *known == jumper) {
                Some((_, plugs)) => plugs.push((plug, place)),
                None => jumpers.push((jumper, vec![(plug, place)])),
            }
        }
        for (jumper, plugs) in jumpers {
            let groups = &self.board[jumper].groups;
            let suits_all = |group: &&GroupId| {
                plugs.iter().all(|(_, place)| place.options.iter().any(|o| o.group == **group))
            };
            if !groups.iter().any(|group| suits_all(&group)) {
                amiss.push(Amiss::Jumper { jumper, plugs });
            }
        }
        amiss
    }
}

fn report(board: &Board, job: &Job, slots: &[Slot], amiss: &Amiss<'_>, problems: &mut Problems) {
    match amiss {
        Amiss::Place { plug, slot } => {
            let fitted = plug.fitted.and_then(|index| job.equipment.get(index));
            let (Some(fitted), Some(slot)) = (fitted, slots.get(*slot)) else { return };
            no_voltage(board, job, fitted, &[slot.header], problems);
        }
        Amiss::Jumper { jumper, plugs } => conflict(board, job, slots, *jumper, plugs, problems),
    }
}

fn conflict(
    board: &Board,
    job: &Job,
    slots: &[Slot],
    jumper: JumperId,
    plugs: &[(&Plug, &Place)],
    problems: &mut Problems,
) {
    let code = &board[jumper].code;
    let slot = |place: &Place| slots.get(place.slot).copied();
    let names: Vec<String> =
        plugs.iter().filter_map(|(_, place)| Some(slot(place)?.device.the())).collect();
    let fitted = |plug: &Plug| plug.fitted.and_then(|index| job.equipment.get(index));
    let needs = |place: &Place| {
        let groups: Vec<GroupId> = place.options.iter().map(|option| option.group).collect();
        format!("needs {code} on {}", group_list(board, &groups))
    };
    let last = plugs.iter().rev().find_map(|(plug, place)| Some((fitted(plug)?, place)));
    let Some((last, last_place)) = last else { return };
    let message = format!("jumper {code} cannot suit {} at once", and(&names));
    let mut problem = Problem::new(Code::JumperConflict, last.volts.span, message).label(format!(
        "{}, {}",
        needs(last_place),
        last.volts.value
    ));
    for (plug, place) in plugs {
        match fitted(plug) {
            Some(other) if other.volts.span != last.volts.span => {
                let label = format!("{}, {}", needs(place), other.volts.value);
                problem = problem.other(other.volts.span, label);
            }
            _ => {}
        }
        if let Some(slot) = slot(place) {
            let label = format!("feeds {}", slot.device.the());
            problem = problem.other(board[slot.header].span, label);
        }
    }
    let headers: Vec<String> = plugs
        .iter()
        .filter_map(|(_, place)| Some(board[slot(place)?.header].code.clone()))
        .collect();
    problems.error(problem.help(format!("fit devices of the same voltage on {}", and(&headers))));
}

/// Says what is wrong with the heater's voltage under `layout`, and where nobody gives its element.
pub fn heater(
    board: &Board,
    job: &Job,
    layout: &Layout,
    element: Option<Heater>,
    problems: &mut Problems,
) {
    let place = heater_span(job);
    for header in board.header_ids() {
        if board.device_at(header, layout) != Some(Device::Heater) {
            continue;
        }
        let Some(element) = element else {
            problems.error(
                Problem::new(
                    Code::HeaterUnknown,
                    job.equipment_span,
                    "nothing says what the heater's element draws",
                )
                .label("has no entry for the heater")
                .other(board[header].span, "feeds a heater")
                .note("the board's specification gives no element")
                .help("add `{ device: heater, watts: \u{2026}, volts: \u{2026} }` from its plate"),
            );
            continue;
        };
        let groups = board.groups_of(header);
        let volts: Vec<Volts> = groups
            .iter()
            .filter_map(|group| group_voltage(board, job.supply.value, *group).volts())
            .collect();
        if volts.is_empty() {
            let supply = &board[job.supply.value].name;
            let mut problem = Problem::new(
                Code::NoVoltage,
                job.supply.span,
                format!("no group gives the heater any voltage on supply {supply}"),
            )
            .other(board[header].span, "feeds the heater");
            for group in &groups {
                problem = problem.note(what_it_gives(board, job.supply.value, *group));
            }
            problems.error(problem.help("feed the board by another supply"));
        } else if volts.iter().any(|volts| suits(*volts, element.at)) {
            continue;
        } else if let Some(best) = highest_below(&volts, element.at) {
            weak(board, header, element, best, place, problems);
        } else {
            let lowest = volts.iter().map(|volts| volts.0).fold(f64::INFINITY, f64::min);
            let watts = watts_on(element, Volts(lowest));
            problems.error(
                Problem::new(
                    Code::HeaterTooHigh,
                    place,
                    format!(
                        "the heater's element is for {}, and gets {}",
                        element.at,
                        round(lowest)
                    ),
                )
                .label(format!("would give {} W", shortest(watts.0, 0)))
                .other(board[header].span, "feeds the heater")
                .note(format!("its plate says {} W", shortest(element.watts.0, 0)))
                .help("fit an element for the voltage that it gets"),
            );
        }
    }
}

fn highest_below(volts: &[Volts], plate: Volts) -> Option<Volts> {
    let below = volts.iter().filter(|volts| volts.0 < plate.0);
    below.copied().max_by(|a, b| a.0.total_cmp(&b.0))
}

fn weak(
    board: &Board,
    header: HeaderId,
    element: Heater,
    volts: Volts,
    place: Span,
    problems: &mut Problems,
) {
    let watts = shortest(watts_on(element, volts).0, 0);
    let (got, full) = (round(volts.0), shortest(element.watts.0, 0));
    problems.warning(
        Problem::new(
            Code::HeaterWeak,
            place,
            format!("the heater gets {got} in place of {}, and gives {watts} W", element.at),
        )
        .label(format!("{watts} W in place of {full} W"))
        .other(board[header].span, "feeds the heater")
        .note("watts fall with the square of the voltage")
        .help("tell the customer that heating takes longer, or fit an element for this voltage"),
    );
}

fn round(volts: f64) -> Volts {
    Volts((volts * 10.0).round() / 10.0)
}

/// How far a service voltage may lie from its nominal one: ANSI C84.1, range A.
const SERVICE: f64 = 0.05;

/// Warns of motors whose voltage suits their plate, but not at the ends of what the service may
/// bring.
pub fn edges(board: &Board, job: &Job, wiring: &Wiring, problems: &mut Problems) {
    let listed = Rules::default_for(board[job.supply.value].system).because;
    if listed != RulesReason::Listed(ansi::NOMINAL_SYSTEMS.clause) {
        return;
    }
    for device in &wiring.devices {
        let Some(fitted) = device.fitted.and_then(|index| job.equipment.get(index)) else {
            continue;
        };
        let motor = matches!(device.device, Device::Circulation | Device::Pump(_) | Device::Blower);
        let mains = matches!(device.voltage, GroupVoltage::Between { .. });
        let ends = [1.0 - SERVICE, 1.0 + SERVICE].map(|part| Volts(device.volts.0 * part));
        let Some(end) = ends.into_iter().find(|end| !suits(*end, device.plate)) else { continue };
        if !motor || !mains {
            continue;
        }
        let (name, end) = (device.device.the(), round(end.0));
        problems.warning(
            Problem::new(
                Code::VoltageEdge,
                fitted.volts.span,
                format!("{name} is at the edge of its voltage"),
            )
            .label(format!(
                "gets {} from group {}",
                round(device.volts.0),
                board[device.group].code
            ))
            .note(format!(
                "ANSI C84.1 lets the service bring {end}, and its plate allows {} to {}",
                round(device.plate.0 * 0.9),
                round(device.plate.0 * 1.1)
            ))
            .help("measure the voltage under load before you leave"),
        );
    }
}
