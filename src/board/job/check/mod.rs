//! From a job as it is written to one whose names are resolved against a board.

mod loads;

use super::super::check::{likeness, strange};
use super::super::{Board, Device, Heater, PanelId, SupplyId};
use super::{Fitted, Job, Marked, Role, Rules, SupplyRun, Terminals};
use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::source::{Span, Spanned};
use crate::spec::{self, Field, Name};
use crate::standards::conductors::{Wire, WireSize};
use crate::standards::iec::{Insulation, Method};
use loads::EquipmentEntry;

/// Checks what `spec` says against the board that it names and gives the job.
///
/// # Errors
/// If `problems` holds an error, from here or from the reading of the job.
pub fn check_job(
    spec: &spec::Job,
    board: &Board,
    problems: &mut Problems,
) -> Result<Job, Reported> {
    let supply = named("supply", &spec.supply, board, |board| {
        board.supplies.iter().map(|supply| supply.name.as_str()).collect()
    });
    let supply = supply.resolve(problems);
    let panel = named("panel", &spec.panel, board, |board| {
        board.panels.iter().map(|panel| panel.name.as_str()).collect()
    });
    let panel = panel.resolve(problems);
    let rules = rules(&spec.rules, problems);
    let run = run(&spec.run, problems);
    let (heater, equipment) = equipment(&spec.equipment, board, problems);
    if let Some(reported) = problems.failed() {
        return Err(reported);
    }
    let marked = spec.marked.value();
    let only_panel = (board.panels.len() == 1).then_some(PanelId(0));
    let job = (|| {
        Some(Job {
            name: spec.name.value()?.clone(),
            customer: spec.customer.value().cloned(),
            supply: supply?.map(SupplyId),
            breaker: *spec.breaker.get()?,
            run,
            panel: panel.map(|panel| PanelId(panel.value)).or(only_panel),
            rules,
            marked: marked.map_or(Marked::default(), |marked| Marked {
                circuit: marked.circuit.get().copied(),
                largest: marked.largest.get().copied(),
            }),
            heater,
            equipment,
            equipment_span: spec.equipment_key,
            span: spec.place,
        })
    })();
    job.ok_or_else(|| {
        let message = "the job is incomplete, but nothing says why; this is a mistake in \
                       lidsheet, please report it";
        problems.error(Problem::new(Code::Internal, spec.place, message))
    })
}

/// A name of the job that is one of the board's.
struct Named<'a> {
    one: &'static str,
    name: Option<&'a Name>,
    board: &'a Board,
    known: Vec<&'a str>,
}

fn named<'a>(
    one: &'static str,
    field: &'a Field<String>,
    board: &'a Board,
    known: impl FnOnce(&'a Board) -> Vec<&'a str>,
) -> Named<'a> {
    Named { one, name: field.get(), board, known: known(board) }
}

impl Named<'_> {
    fn resolve(self, problems: &mut Problems) -> Option<Spanned<usize>> {
        let name = self.name?;
        let found = self.known.iter().position(|known| *known == name.value);
        if let Some(index) = found {
            return Some(Spanned::new(index, name.span));
        }
        let (one, about) = (self.one, &self.board.about.name);
        let mut problem = Problem::new(
            Code::UnknownName,
            name.span,
            format!("board {about} has no {one} `{}`", name.value),
        )
        .label(format!("no {one} of the board has this name"));
        // A name of other letters, which looks like the right one, would puzzle for long.
        let alike = |known: &&&str| likeness(&name.value, known).is_some();
        if let (Some(known), Some(note)) = (self.known.iter().find(alike), strange(&name.value)) {
            problems.error(problem.note(note).same_look(&name.value, known));
            return None;
        }
        problem = problem.nearest(&name.value, self.known.iter().copied());
        if problem.help.is_none() && !self.known.is_empty() {
            problem = problem.help(format!("the board has {}", self.known.join(", ")));
        }
        problems.error(problem);
        None
    }
}

fn rules(field: &Field<String>, problems: &mut Problems) -> Option<Spanned<Rules>> {
    let word = field.get()?;
    let rules = Rules::parse(&word.value);
    if rules.is_none() {
        problems.error(
            Problem::new(
                Code::UnknownWord,
                word.span,
                format!("`{}` is not a set of rules known here", word.value),
            )
            .label("`nec` or `iec` belongs here"),
        );
    }
    rules.map(|rules| Spanned::new(rules, word.span))
}

fn run(field: &Field<spec::SupplyRun>, problems: &mut Problems) -> Option<SupplyRun> {
    let run = field.get()?;
    let conductor = run.value.conductor.get()?;
    let wire = Wire::parse(&conductor.value);
    if wire.is_none() {
        problems.error(
            Problem::new(
                Code::NoTableRow,
                conductor.span,
                format!("the resistance of `{}` is not known here", conductor.value),
            )
            .label("no conductor of this size and metal is in the tables")
            .help(format!("the conductors are {}", Wire::words().join(", "))),
        );
    }
    let read = &run.value;
    let terminals =
        one_of(&read.terminals, "`60 C` or `75 C` belongs here", Terminals::parse, problems);
    let method = one_of(&read.method, &methods(), method, problems);
    let insulation = one_of(&read.insulation, "`PVC` or `XLPE` belongs here", insulation, problems);
    let understood = [method.is_some(), terminals.is_some(), insulation.is_some()];
    silent_words(read, wire, understood, problems);
    Some(SupplyRun {
        length: *read.length.value()?,
        wire: wire?,
        terminals,
        method,
        insulation: insulation.unwrap_or(Insulation::Pvc),
        capacity: read.capacity.get().copied(),
        wire_span: conductor.span,
        span: run.span,
    })
}

/// Reports what is said of a run and changes nothing: the tables for sizes in AWG know no method of
/// installation, those for sizes in mm² no marks of terminals, and insulation counts with a method.
/// `understood` says of method, terminals and insulation whether the word is known.
fn silent_words(
    run: &spec::SupplyRun,
    wire: Option<Wire>,
    understood: [bool; 3],
    problems: &mut Problems,
) {
    let (Some(wire), Some(conductor)) = (wire, run.conductor.get()) else { return };
    let by_gauge = matches!(wire.size, WireSize::Awg(_));
    let no_method = matches!(run.method, Field::Absent);
    let (awg, mm2) = ("of a size in AWG", "of a size in mm2");
    let table = "its table, NEC 310.16, asks for `terminals`";
    let words: [(&str, &Field<String>, bool, String, &str); 3] = [
        ("method", &run.method, by_gauge, awg.to_owned(), table),
        (
            "terminals",
            &run.terminals,
            !by_gauge,
            mm2.to_owned(),
            "its tables, IEC 60364-5-52, ask for `method`",
        ),
        (
            "insulation",
            &run.insulation,
            by_gauge || no_method,
            if by_gauge { awg.to_owned() } else { format!("{mm2} without a `method`") },
            if by_gauge { table } else { "the tables of IEC 60364-5-52 are by method first" },
        ),
    ];
    // A word that means nothing anywhere was reported.
    for ((key, field, silent, of, note), understood) in words.into_iter().zip(understood) {
        let Some(word) = field.get().filter(|_| silent && understood) else { continue };
        problems.error(
            Problem::new(
                Code::RunWordSilent,
                word.span,
                format!("`{key}` says nothing about a conductor {of}"),
            )
            .label("nothing would be computed from this")
            .other(conductor.span, "the conductor")
            .note(note)
            .help(format!("remove `{key}`, or state the `capacity` of the conductor")),
        );
    }
}

fn method(word: &str) -> Option<Method> {
    Method::ALL.into_iter().find(|method| method.word() == word)
}

fn methods() -> String {
    let words: Vec<&str> = Method::ALL.iter().map(|method| method.word()).collect();
    format!("a method of IEC 60364-5-52 belongs here: {}", words.join(", "))
}

fn insulation(word: &str) -> Option<Insulation> {
    [Insulation::Pvc, Insulation::Xlpe].into_iter().find(|one| one.word() == word)
}

/// A word of a closed list; `known` says what may be written.
fn one_of<T>(
    field: &Field<String>,
    known: &str,
    read: impl Fn(&str) -> Option<T>,
    problems: &mut Problems,
) -> Option<T> {
    let word = field.get()?;
    let found = read(&word.value);
    if found.is_none() {
        let message = format!("`{}` is not known here", word.value);
        problems.error(Problem::new(Code::UnknownWord, word.span, message).label(known));
    }
    found
}

/// The heater's element, if the job gives one, and everything else that is fitted.
fn equipment(
    field: &Field<Vec<spec::Fitted>>,
    board: &Board,
    problems: &mut Problems,
) -> (Option<Spanned<Heater>>, Vec<Fitted>) {
    let (mut heater, mut fitted) = (None, Vec::new());
    let mut seen: Vec<(Device, Span)> = Vec::new();
    for written in field.value().into_iter().flatten() {
        let role = written.device.get().and_then(|word| role(word, board, problems));
        if let (Some(role), Some(word)) = (role, written.device.get()) {
            served(role, word.span, board, problems);
            if let Role::Named(device) = role {
                match seen.iter().find(|(known, _)| *known == device) {
                    Some((_, first)) => twice(device, word.span, *first, problems),
                    None => seen.push((device, word.span)),
                }
            }
        }
        match loads::read(written, role, problems) {
            Some(EquipmentEntry::Heater(element)) => heater = heater.or(Some(element)),
            Some(EquipmentEntry::Fitted(device)) => fitted.push(device),
            None => {}
        }
    }
    (heater, fitted)
}

/// Every word for a device of a job.
const WORDS: [&str; 16] = [
    "pump",
    "circulation",
    "blower",
    "ozonator",
    "light",
    "sound",
    "heater",
    "pump 1",
    "pump 2",
    "pump 3",
    "pump 4",
    "pump 5",
    "pump 6",
    "pump 7",
    "pump 8",
    "pump 9",
];

fn role(word: &Name, board: &Board, problems: &mut Problems) -> Option<Role> {
    if word.value == "pump" {
        return Some(Role::AnyPump);
    }
    if let Some(device) = board.device(&word.value) {
        return Some(Role::Named(device));
    }
    let own: Vec<String> = board.devices.iter().map(|own| own.device.to_string()).collect();
    let mut problem =
        Problem::new(Code::UnknownWord, word.span, format!("`{}` is not a device", word.value))
            .label("no device of the language")
            .nearest(&word.value, WORDS.into_iter().chain(own.iter().map(String::as_str)));
    if problem.help.is_none() {
        problem = problem.help(
            "the devices are circulation, pump, blower, ozonator, light, sound and heater; write \
             `pump 2` for a jet pump that must have this number",
        );
        if !own.is_empty() {
            problem = problem.note(format!("the board's own are {}", own.join(", ")));
        }
    }
    problems.error(problem);
    None
}

/// Reports a device that no header of the board serves under any layout.
fn served(role: Role, span: Span, board: &Board, problems: &mut Problems) {
    let mut all = board.headers.iter().flat_map(|header| &header.serves);
    if !all.any(|(_, device)| role.can_be(*device)) {
        let about = &board.about.name;
        let article = if matches!(role, Role::Named(Device::Ozonator)) { "an" } else { "a" };
        let what = match role {
            Role::Named(Device::Sound) => "a sound system".to_owned(),
            Role::Named(Device::Circulation) => "a circulation pump".to_owned(),
            Role::Named(own @ Device::Own(_)) => own.the(),
            role => format!("{article} {role}"),
        };
        problems.error(
            Problem::new(Code::NotOnBoard, span, format!("board {about} has no header for {what}"))
                .label("no header serves it under any layout")
                .help("feed it from elsewhere and remove it here, or take another board"),
        );
    }
}

fn twice(device: Device, span: Span, first: Span, problems: &mut Problems) {
    let mut problem =
        Problem::new(Code::FittedTwice, span, format!("the job has the device `{device}` twice"))
            .label("given again here")
            .other(first, "first given here");
    problem = match device {
        Device::Circulation => problem
            .note("a pump with jets, also one that filters on low, is a `pump`")
            .help("write `pump` for the one that has jets"),
        Device::Pump(_) => problem.help("write `pump` without a number where any number will do"),
        _ => problem.help("a board drives one; remove the other entry"),
    };
    problems.error(problem);
}
