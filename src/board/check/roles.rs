//! The devices of a board's own: their words, what is computed from them, and what they run with.

use super::super::{Board, Device, Layout, LayoutNumber, OwnDevice, OwnRole, Speeds, Traits};
use super::looks::{self, Likeness, likeness};
use super::words::{self, DEVICES};
use super::{Draft, service};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Span;
use crate::spec::{self, Field, Name, Spec};

/// The devices that a specification declares, in its order; one that is broken is left out.
pub fn devices(spec: &Spec, problems: &mut Problems) -> Roles {
    let names = || spec.devices.entries.iter().map(|written| &written.name);
    for name in names() {
        built_in(name, problems);
    }
    looks::check(names().map(|name| ("device", name)), problems);
    let declare = |(index, written): (usize, &spec::OwnDevice)| {
        let is = |field: &Field<bool>| field.value().copied().unwrap_or(false);
        let traits = Traits {
            motor: is(&written.motor),
            continuous: is(&written.continuous),
            counted: is(&written.counts_for_allowance),
            moves_water: is(&written.moves_water),
            follows: !written.runs_with.is_absent() || !written.cord_of.is_absent(),
        };
        let role = OwnRole::new(u8::try_from(index).ok()?, &written.name.value, traits);
        let device = role.map(Device::Own);
        if device.is_none() {
            too_long(&written.name, problems);
        }
        Some((written.name.value.clone(), device))
    };
    let roles = Roles {
        whole: spec.devices.whole,
        all: spec.devices.entries.iter().enumerate().filter_map(declare).collect(),
    };
    roles.finish(spec, problems)
}

/// The devices that a specification declares, by their words.
#[derive(Clone, Debug, Default)]
pub struct Roles {
    /// Whether everything that was declared was taken in.
    whole: bool,
    /// Each with its word; `None` if it is broken.
    all: Vec<(String, Option<Device>)>,
}

impl Roles {
    /// The device of that word: one of the board's own, or a built-in one. Reports what is neither.
    pub fn find(&self, word: &Name, problems: &mut Problems) -> Option<Device> {
        match self.all.iter().find(|(own, _)| *own == word.value) {
            Some((_, device)) => *device,
            None if !self.whole && Device::parse(&word.value).is_none() => None,
            None => words::device(word, self.words(), problems),
        }
    }

    /// Their words.
    pub fn words(&self) -> impl Iterator<Item = &str> + Clone {
        self.all.iter().map(|(word, _)| word.as_str())
    }

    /// Finds what each runs with.
    fn finish(self, spec: &Spec, problems: &mut Problems) -> Self {
        // Judged here, so that it is told once; what is right is read again by `declared`.
        for (written, (_, device)) in spec.devices.entries.iter().zip(&self.all) {
            if let (Field::Is(runs), Field::Is(cord)) = (&written.runs_with, &written.cord_of) {
                let message = format!(
                    "`{}` is a cord of a device, so it runs with that device",
                    written.name.value
                );
                problems.error(
                    Problem::new(Code::RunsWithWrong, runs.span, message)
                        .label("not beside `cord of`")
                        .other(cord.span, "the device whose cord it is"),
                );
                continue;
            }
            let leader = [&written.runs_with, &written.cord_of].into_iter().find_map(Field::get);
            if let (Some(device), Some(leader)) = (device, leader) {
                self.follows(written, *device, leader, problems);
            }
        }
        self
    }

    /// Reports a device that cannot run with the one that it names.
    fn follows(
        &self,
        written: &spec::OwnDevice,
        device: Device,
        leader: &Name,
        problems: &mut Problems,
    ) {
        let Some(found) = self.find(leader, problems) else { return };
        let own = &written.name.value;
        let wrong = |message: String, note: &'static str| {
            Problem::new(Code::RunsWithWrong, leader.span, message).note(note)
        };
        if found == device {
            let message = format!("`{own}` cannot run with itself");
            problems.error(wrong(message, "name the device that it is on and off with"));
        } else if found == Device::Heater {
            let message = format!("`{own}` cannot run with the heater");
            let note = "the heater comes and goes with the temperature of the water";
            problems.error(wrong(message, note).help("name the pump that runs for the heater"));
        } else if found.traits().follows {
            let message = format!("`{own}` runs with `{found}`, which runs with another device");
            problems.error(wrong(message, "one device leads, all others name that one"));
        } else if device.counts_for_allowance() {
            let place = written.counts_for_allowance.get().map_or(leader.span, |it| it.span);
            let message =
                format!("`{own}` runs with `{found}`, so nothing holds it back by itself");
            problems.error(
                wrong(message, "what runs with another device is on exactly when that one is")
                    .other(place, "cannot be true beside `runs with`"),
            );
        }
    }

    /// What the board holds of them.
    pub fn declared(&self, spec: &Spec) -> Option<Vec<OwnDevice>> {
        let all = spec.devices.entries.iter().zip(&self.all).map(|(written, (_, device))| {
            let is_cord = !written.cord_of.is_absent();
            let leader = written.cord_of.value().or(written.runs_with.value()).map(|word| {
                let own = self.all.iter().find(|(own, _)| own == word);
                own.map_or_else(|| Device::parse(word), |(_, device)| *device)
            });
            let runs_with = match leader {
                Some(leader) => Some(leader?),
                None => None,
            };
            Some(OwnDevice { device: (*device)?, runs_with, is_cord, span: written.name.span })
        });
        all.collect()
    }
}

/// Reports a cord of a device without a column, or with a column of its own.
fn cord(one: &OwnDevice, leader: Device, place: Span, columns: &[Device], problems: &mut Problems) {
    let device = one.device;
    if columns.contains(&device) {
        let message = format!("`{device}` is a cord of `{leader}`, so it has no column of its own");
        problems.error(
            Problem::new(Code::WrongColumn, place, message)
                .label("there whenever that device is")
                .help(format!("remove the column of `{device}` and its entry of every row")),
        );
    } else if !columns.contains(&leader) {
        let message = format!("`{leader}` has no column, so nothing says when its cord is there");
        problems.error(
            Problem::new(Code::RunsWithWrong, place, message)
                .label("not in the layout matrix")
                .help(format!(
                    "give `{leader}` a column, or write `runs with` in place of `cord of`"
                )),
        );
    }
}

/// Reports a word that is, or looks like, one of the language.
fn built_in(name: &Name, problems: &mut Problems) {
    let word = name.value.as_str();
    let pump = word
        .strip_prefix("pump")
        .is_some_and(|rest| rest.is_empty() || rest.trim().chars().all(|c| c.is_ascii_digit()));
    if pump || Device::parse(word).is_some() {
        problems.error(
            Problem::new(
                Code::DefinedTwice,
                name.span,
                format!("`{word}` is a device of the language already"),
            )
            .label("declared again here")
            .help("remove it from `devices`, or give it another name"),
        );
        return;
    }
    let mut alike = DEVICES.iter().chain(&["pump"]);
    let alike = alike.find_map(|known| likeness(word, known).map(|how| (*known, how)));
    if let Some((known, how)) = alike {
        let message = match how {
            Likeness::Capitals => {
                format!("`{word}` and the device `{known}` differ in capitals alone")
            }
            _ => format!("`{word}` and the device `{known}` of the language look alike"),
        };
        let mut problem = Problem::new(Code::SameLook, name.span, message).label("declared here");
        if let Some(note) = looks::strange(word) {
            problem = problem.note(note);
        }
        problems.error(problem.help("give it another name"));
    }
}

fn too_long(name: &Name, problems: &mut Problems) {
    // A name of more letters is reported with all other names.
    if name.value.chars().count() <= 24 {
        let message = "the name of a device does not fit on a sheet";
        problems.error(
            Problem::new(Code::NameShape, name.span, message)
                .label(format!("at most {} bytes of UTF-8", OwnRole::BYTES)),
        );
    }
}

/// Warns of a device of the board's own that no header serves. Of one with a column that was told.
pub fn unused(board: &Board, problems: &mut Problems) {
    for one in &board.devices {
        let mut served = board.headers.iter().flat_map(|header| &header.serves);
        if served.all(|(_, device)| *device != one.device) {
            let message = format!("device `{}` is declared, but nothing serves it", one.device);
            problems.warning(
                Problem::new(Code::DeviceUnused, one.span, message)
                    .label("no header and no column names it")
                    .help("let a header serve it, or remove it"),
            );
        }
    }
}

/// Checks that under each layout of a device of the board's own what it runs with is there.
pub fn check(spec: &Spec, draft: &Draft, problems: &mut Problems) {
    let Some(own) = &draft.devices else { return };
    let columns: Option<Vec<Device>> =
        draft.columns.as_ref().map(|all| all.iter().map(|(device, _)| *device).collect());
    let Some(columns) = columns else { return };
    let headers: Vec<_> = draft.headers.iter().flatten().collect();
    let layouts: Vec<&Layout> = draft.layouts.iter().flatten().collect();
    // What is broken may be what seems to be lacking.
    if headers.len() != draft.headers.len() || layouts.len() != draft.layouts.len() {
        return;
    }
    let there = |device: Device, layout: &Layout| {
        let served = headers.iter().flat_map(|header| &header.serves);
        let mut served =
            served.filter(|(set, other)| *other == device && set.contains(layout.number));
        let cord = own.iter().find(|it| it.is_cord && it.device == device);
        let of = cord.and_then(|it| it.runs_with).unwrap_or(device);
        let speeds = layout.speeds_of(&columns, of).unwrap_or(Speeds::One);
        speeds != Speeds::None && served.next().is_some()
    };
    for (one, written) in own.iter().zip(&spec.devices.entries) {
        let device = one.device;
        let place = written.cord_of.get().or(written.runs_with.get());
        let (Some(leader), Some(place)) = (one.runs_with, place) else { continue };
        // What is no leader at all was told.
        if leader == Device::Heater || leader.traits().follows {
            continue;
        }
        if one.is_cord {
            cord(one, leader, place.span, &columns, problems);
        }
        let lacking: Vec<LayoutNumber> = layouts
            .iter()
            .filter(|layout| there(device, layout) && !there(leader, layout))
            .map(|layout| layout.number)
            .collect();
        if !lacking.is_empty() {
            problems.error(
                Problem::new(
                    Code::LeaderLacking,
                    place.span,
                    format!(
                        "`{device}` runs with `{leader}`, which is not there in every layout of it"
                    ),
                )
                .label("it would never run")
                .note(format!("under {}", service::numbers(&lacking)))
                .help(format!("give these layouts `{leader}`, or take `{device}` from them")),
            );
        }
    }
}
