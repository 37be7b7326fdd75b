//! Which header serves what under which layout: each device once, and through a socket that fits.

use super::super::{Device, Header, Layout, LayoutNumber, LayoutSet, Pin, Socket, Speeds};
use super::{Draft, sound};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{self, Field, Serves, Spec};

/// One thing that a header serves.
struct ServesEntry<'a> {
    header: &'a Header,
    set: &'a LayoutSet,
    device: Device,
    /// Where the layouts are named; the device itself if it is always served.
    range: Span,
    place: Span,
}

/// Checks the headers against the layout matrix.
pub fn check(spec: &Spec, draft: &Draft, problems: &mut Problems) {
    let served = served(spec, draft);
    for header in draft.headers.iter().flatten() {
        let own: Vec<&ServesEntry<'_>> =
            served.iter().filter(|s| std::ptr::eq(s.header, header)).collect();
        serves_two(&own, problems);
    }
    let layouts: Option<Vec<&Layout>> = draft.layouts.iter().map(Option::as_ref).collect();
    let Some(mut layouts) = layouts.filter(|_| spec.layouts.rows.whole) else { return };
    let Some(columns) = &draft.columns else { return };
    if layouts.is_empty() {
        return;
    }
    layouts.sort_by_key(|layout| layout.number);
    let devices: Vec<Device> = columns.iter().map(|(device, _)| *device).collect();
    let own = draft.devices.iter().flatten().filter(|own| own.is_cord);
    let cords = own.filter_map(|own| Some((own.device, own.runs_with?))).collect();
    let matrix = Matrix { spec, columns, devices, cords, layouts };
    for one in &served {
        matrix.known(one, problems);
        matrix.pins(one, draft, problems);
    }
    matrix.served_twice(&served, problems);
    // A header that is broken may be the one that serves what seems to be unserved.
    let sound = spec.headers.whole && draft.headers.iter().all(Option::is_some);
    let unserved = if sound { matrix.unserved(&served, problems) } else { Vec::new() };
    matrix.unused(&served, draft, &unserved, problems);
}

fn served<'a>(spec: &'a Spec, draft: &'a Draft) -> Vec<ServesEntry<'a>> {
    let mut all = Vec::new();
    for (written, header) in spec.headers.entries.iter().zip(&draft.headers) {
        let (Some(header), Some(serves)) = (header, written.serves.value()) else { continue };
        let places: Vec<(Span, Span)> = match serves {
            Serves::Always(word) => vec![(word.span, word.span)],
            Serves::Under(pairs) => pairs.iter().map(|(r, d)| (r.span, d.span)).collect(),
        };
        for ((set, device), (range, place)) in header.serves.iter().zip(places) {
            all.push(ServesEntry { header, set, device: *device, range, place });
        }
    }
    all
}

/// A header that serves two devices under one layout: only one can be plugged in.
fn serves_two(own: &[&ServesEntry<'_>], problems: &mut Problems) {
    for (place, second) in own.iter().enumerate() {
        for first in own.iter().take(place) {
            let both = (1..=u8::MAX)
                .filter_map(LayoutNumber::new)
                .find(|number| first.set.contains(*number) && second.set.contains(*number));
            if let Some(number) = both {
                let code = &second.header.code;
                problems.error(
                    Problem::new(
                        Code::HeaderServesTwo,
                        second.range,
                        format!("header {code} serves two devices under layout {number}"),
                    )
                    .label(format!("{} here", second.device))
                    .other(first.range, format!("{} here", first.device))
                    .help("let the ranges of layouts lie apart"),
                );
            }
        }
    }
}

/// The matrix, sound.
struct Matrix<'a> {
    spec: &'a Spec,
    columns: &'a [(Device, Span)],
    devices: Vec<Device>,
    /// Further cords of devices, each with the device.
    cords: Vec<(Device, Device)>,
    layouts: Vec<&'a Layout>,
}

impl Matrix<'_> {
    /// What `device` is under `layout`: its entry, or one speed if it has no column.
    fn speeds(&self, layout: &Layout, device: Device) -> Speeds {
        if let Some((_, leader)) = self.cords.iter().find(|(cord, _)| *cord == device) {
            let speeds = layout.speeds_of(&self.devices, *leader);
            return speeds.map_or(Speeds::One, |speeds| speeds.min(Speeds::One));
        }
        layout.speeds_of(&self.devices, device).unwrap_or(Speeds::One)
    }

    /// The layouts of `set` under which `device` is there.
    fn there<'b>(&'b self, set: &'b LayoutSet, device: Device) -> impl Iterator<Item = &'b Layout> {
        self.layouts
            .iter()
            .copied()
            .filter(move |layout| set.contains(layout.number))
            .filter(move |layout| self.speeds(layout, device) != Speeds::None)
    }

    /// Reports ends of ranges that are no layouts.
    fn known(&self, served: &ServesEntry<'_>, problems: &mut Problems) {
        let LayoutSet::Ranges(ranges) = served.set else { return };
        let known = |number: &LayoutNumber| self.layouts.iter().any(|l| l.number == *number);
        let ends = ranges.iter().flat_map(|(first, last)| [*first, *last]);
        let (mut lacking, code): (Vec<LayoutNumber>, _) =
            (ends.filter(|number| !known(number)).collect(), &served.header.code);
        lacking.dedup();
        if let Some(number) = lacking.first() {
            let all: Vec<String> = self.layouts.iter().map(|l| l.number.to_string()).collect();
            let (first, last) = (all.first(), all.last());
            let range = first.zip(last).map_or_else(String::new, |(f, l)| format!("{f} to {l}"));
            problems.error(
                Problem::new(
                    Code::UnknownLayout,
                    served.range,
                    format!("header {code} names layout {number}, which the matrix lacks"),
                )
                .label(format!("the layouts run from {range}")),
            );
        }
    }

    /// Reports a socket that lacks a pin which its device needs.
    fn pins(&self, served: &ServesEntry<'_>, draft: &Draft, problems: &mut Problems) {
        let Some(socket) = sound(&draft.sockets, served.header.socket.0) else { return };
        let two = self
            .there(served.set, served.device)
            .find(|layout| self.speeds(layout, served.device) == Speeds::Two);
        let has = |pin: Pin| socket.pins.contains(&pin);
        let mains = has(Pin::Common) && has(Pin::High);
        let feeds = mains || has(Pin::Positive) && has(Pin::Negative) || has(Pin::Signal);
        let code = &served.header.code;
        let lacking = |message: String, label: &str, place: Span| {
            Problem::new(Code::PinsLacking, served.place, message)
                .label(label)
                .other(place, format!("the pins of {}", socket.name))
        };
        let place = self.pins_span(socket);
        if !feeds {
            problems.error(lacking(
                format!("nothing can run from the socket of header {code}"),
                "needs the pins `common` and `high`, `positive` and `negative`, or `signal`",
                place,
            ));
        } else if let Some(layout) = two.filter(|_| !(mains && has(Pin::Low))) {
            problems.error(
                lacking(
                    format!("the socket of header {code} has no pin for a low speed"),
                    "needs the pins `common`, `low` and `high`",
                    place,
                )
                .other(layout.span, format!("layout {} gives it two speeds", layout.number)),
            );
        }
    }

    fn pins_span(&self, socket: &Socket) -> Span {
        let written = self.spec.sockets.entries.iter().find(|s| s.name.value == socket.name);
        written.and_then(|s| s.pins.get()).map_or(socket.span, |pins| pins.span)
    }

    /// Reports two headers for one device under one layout.
    fn served_twice(&self, served: &[ServesEntry<'_>], problems: &mut Problems) {
        for (place, second) in served.iter().enumerate() {
            for first in served.iter().take(place) {
                if first.device != second.device || std::ptr::eq(first.header, second.header) {
                    continue;
                }
                let both: Vec<LayoutNumber> = self
                    .there(second.set, second.device)
                    .map(|layout| layout.number)
                    .filter(|number| first.set.contains(*number))
                    .collect();
                if !both.is_empty() {
                    let (one, two) = (&first.header.code, &second.header.code);
                    let device = second.device;
                    problems.error(
                        Problem::new(
                            Code::DeviceServedTwice,
                            second.place,
                            format!("headers {one} and {two} both serve {device}"),
                        )
                        .label(format!("{two} serves it here"))
                        .other(first.place, format!("{one} serves it here"))
                        .note(format!("under {}", numbers(&both)))
                        .help("let one of them serve it under these layouts"),
                    );
                }
            }
        }
    }

    /// Warns of headers that stay dead whatever number is entered, except those of a device that is
    /// reported as unserved: that is the same mistake.
    fn unused(
        &self,
        served: &[ServesEntry<'_>],
        draft: &Draft,
        unserved: &[Device],
        problems: &mut Problems,
    ) {
        let mut unused: Vec<&Header> = Vec::new();
        let mut columns: Vec<(Device, Span)> = Vec::new();
        for header in draft.headers.iter().flatten() {
            let own: Vec<&ServesEntry<'_>> =
                served.iter().filter(|s| std::ptr::eq(s.header, header)).collect();
            let used = |s: &&ServesEntry<'_>| self.there(s.set, s.device).next().is_some();
            if own.iter().any(|s| used(s) || unserved.contains(&s.device)) {
                continue;
            }
            unused.push(header);
            for one in &own {
                let column = self.columns.iter().find(|(device, _)| *device == one.device);
                columns.extend(column.filter(|column| !columns.contains(column)));
            }
        }
        let Some((first, others)) = unused.split_first() else { return };
        let codes: Vec<&str> = unused.iter().map(|header| header.code.as_str()).collect();
        let codes = codes.join(", ");
        let (headers, it) =
            if others.is_empty() { ("header", "it serves") } else { ("headers", "they serve") };
        let message = format!("no layout uses {headers} {codes}");
        let mut problem = Problem::new(Code::HeaderUnused, first.span, message)
            .label("no layout number makes it run a device");
        for header in others {
            problem = problem.other(header.span, "");
        }
        for (device, span) in columns {
            problem = problem.other(span, format!("no {device} in the rows that {it}"));
        }
        let uses = if others.is_empty() { "a row that uses it" } else { "rows that use them" };
        problems.warning(problem.help(format!("add {uses}, or remove {codes}")));
    }

    /// Reports devices of the matrix, and the heater, that no header serves; gives the former.
    fn unserved(&self, served: &[ServesEntry<'_>], problems: &mut Problems) -> Vec<Device> {
        let mut reported = Vec::new();
        for (index, (device, column)) in self.columns.iter().enumerate() {
            let serves = |number: LayoutNumber| {
                served.iter().any(|s| s.device == *device && s.set.contains(number))
            };
            let lacking: Vec<&Layout> = self
                .there(&LayoutSet::All, *device)
                .filter(|layout| !serves(layout.number))
                .collect();
            let Some(first) = lacking.first() else { continue };
            let cell = self.cell(first.number, index).unwrap_or(first.span);
            let all: Vec<LayoutNumber> = lacking.iter().map(|layout| layout.number).collect();
            let mut problem = Problem::new(
                Code::DeviceUnserved,
                cell,
                format!("layout {} has {device}, but no header serves it", first.number),
            )
            .label("nowhere to plug it in")
            .other(*column, format!("the column of {device}"));
            if all.len() > 1 {
                problem = problem.note(format!("this is so under {}", numbers(&all)));
            }
            problems.error(
                problem.help(format!("let a header serve `{device}` there, or set the entry to 0")),
            );
            reported.push(*device);
        }
        let heater = served.iter().any(|s| s.device == Device::Heater);
        if let (Field::Is(written), false) = (&self.spec.heater, heater) {
            problems.error(
                Problem::new(
                    Code::DeviceUnserved,
                    written.span,
                    "the board has a heater, but no header serves it",
                )
                .label("nowhere to plug it in")
                .help("let a header serve `heater`, or remove the heater"),
            );
        }
        reported
    }

    /// The place of an entry of the matrix.
    fn cell(&self, number: LayoutNumber, column: usize) -> Option<Span> {
        let row = self.spec.layouts.rows.entries.iter().find(|row: &&spec::Row| {
            row.number.as_ref().is_some_and(|written| written.value == number.get())
        })?;
        row.cells.as_ref()?.get(column).map(|cell| cell.span)
    }
}

/// `layout 3`, `layouts 1 to 7 and 9`.
pub(super) fn numbers(all: &[LayoutNumber]) -> String {
    let mut ranges: Vec<(u8, u8)> = Vec::new();
    for number in all {
        match ranges.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(number.get()) => *last = number.get(),
            _ => ranges.push((number.get(), number.get())),
        }
    }
    let text: Vec<String> = ranges
        .iter()
        .flat_map(|(a, b)| match b - a {
            0 => vec![a.to_string()],
            1 => vec![a.to_string(), b.to_string()],
            _ => vec![format!("{a} to {b}")],
        })
        .collect();
    let word = if all.len() == 1 { "layout" } else { "layouts" };
    match text.split_last() {
        Some((last, rest)) if !rest.is_empty() => {
            format!("{word} {} and {last}", rest.join(", "))
        }
        _ => format!("{word} {}", text.concat()),
    }
}
