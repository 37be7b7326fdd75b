//! What one entry of a job's equipment draws.

use super::super::super::{Device, Heater, Speeds};
use super::super::{Cord, Current, CurrentSource, Fitted, Role};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::{Span, Spanned};
use crate::spec::{self, Field, OfSpeeds};
use crate::standards::nec;
use crate::units::{Amps, Horsepower, Volts};

/// What an entry stands for.
pub enum EquipmentEntry {
    /// An element in place of the board's own.
    Heater(Spanned<Heater>),
    /// A device.
    Fitted(Fitted),
}

/// Reads one entry; `None` if it was reported. `role` is `None` if its device is not known.
pub fn read(
    written: &spec::Fitted,
    role: Option<Role>,
    problems: &mut Problems,
) -> Option<EquipmentEntry> {
    let (role, word) = (role?, written.device.get()?);
    if role == Role::Named(Device::Heater) {
        return heater(written, word.span, problems);
    }
    let speeds = speeds(written, role, word.span, problems);
    let volts = written.volts.get().copied();
    // Each of the next judges what it can, so that one run shows every mistake.
    let drawn = drawn(written, role, volts, word.span, problems);
    let (speeds, drawn, volts) = (speeds?, drawn?, volts?);
    let low = match speeds {
        Speeds::Two => Some(low(role, &drawn, problems)),
        _ => None,
    };
    if written.power_factor.is_unread() {
        return None;
    }
    Some(EquipmentEntry::Fitted(Fitted {
        role,
        speeds,
        volts,
        high: drawn.high,
        low,
        cord: cord(written, problems)?,
        power_factor: written.power_factor.value().copied(),
        span: word.span,
    }))
}

/// What its cord is like: as it was made where the job does not say.
fn cord(written: &spec::Fitted, problems: &mut Problems) -> Option<Cord> {
    let word = match &written.cord {
        Field::Absent => return Some(Cord::AsMade),
        Field::Unread => return None,
        Field::Is(word) => word,
    };
    let found = Cord::parse(&word.value);
    if found.is_none() {
        let message = format!("`{}` is not known here", word.value);
        problems.error(
            Problem::new(Code::UnknownWord, word.span, message)
                .label("`re-ended` or `adapter` belongs here")
                .note("without the key the cord is as it was made: its plug cannot be turned"),
        );
    }
    found
}

/// Whether a device is a motor, whose plate may give horsepower.
fn is_motor(role: Role) -> bool {
    match role {
        Role::AnyPump => true,
        Role::Named(device) => device.is_motor(),
    }
}

fn heater(written: &spec::Fitted, span: Span, problems: &mut Problems) -> Option<EquipmentEntry> {
    let others = [
        ("amps", place(&written.amps)),
        ("hp", place(&written.hp)),
        ("speeds", place(&written.speeds)),
        ("power factor", place(&written.power_factor)),
        ("cord", place(&written.cord)),
    ];
    for (key, place) in others {
        if let Some(place) = place {
            problems.error(
                Problem::new(Code::CurrentUnclear, place, format!("a heater has no `{key}`"))
                    .label("does not belong to a heater")
                    .help("write the `watts` and `volts` of its element, and nothing else"),
            );
        }
    }
    if written.watts.is_absent() {
        problems.error(
            Problem::new(Code::CurrentUnclear, span, "the heater's element has no watts")
                .label("has no `watts`")
                .help("write the watts that its element has at `volts`, or remove the entry"),
        );
    }
    let element = Heater { watts: *written.watts.value()?, at: *written.volts.value()? };
    Some(EquipmentEntry::Heater(Spanned::new(element, written.span)))
}

fn place<T>(field: &Field<T>) -> Option<Span> {
    field.get().map(|value| value.span)
}

/// How many speeds it has: as given, two if it draws something on low, one for what never has two.
fn speeds(
    written: &spec::Fitted,
    role: Role,
    span: Span,
    problems: &mut Problems,
) -> Option<Speeds> {
    let has_two = match role {
        Role::AnyPump => true,
        Role::Named(device) => device.counts_for_allowance(),
    };
    let low = written.amps.value().and_then(|amps| amps.low).map(|low| low.span);
    let low = low.or_else(|| written.hp.value().and_then(|hp| hp.low).map(|low| low.span));
    if written.speeds.is_unread() {
        return None;
    }
    let given = written.speeds.get();
    let (two, place) = match (given, low) {
        (Some(given), _) => (given.value == 2, given.span),
        (None, Some(low)) => (true, low),
        (None, None) => {
            let is_pump =
                !matches!(role, Role::Named(device) if !matches!(device, Device::Pump(_)));
            if is_pump {
                problems.error(
                    Problem::new(
                        Code::SpeedsUnclear,
                        span,
                        "nothing says how many speeds the pump has",
                    )
                    .label("has no `speeds`")
                    .note("a layout is chosen by the speeds of its pumps")
                    .help("write `speeds: 1` or `speeds: 2`, as its nameplate or its cord shows"),
                );
                return None;
            }
            (false, span)
        }
    };
    if two && !has_two {
        let mut problem = Problem::new(
            Code::SpeedsUnclear,
            place,
            format!("a device of the kind `{role}` has one speed"),
        )
        .label("two speeds");
        if role == Role::Named(Device::Circulation) {
            problem = problem
                .note("a pump with jets that filters on low is no dedicated circulation pump")
                .help("write `pump` if it has jets");
        }
        problems.error(problem);
        return None;
    }
    if let (false, Some(low)) = (two, low) {
        problems.error(
            Problem::new(Code::SpeedsUnclear, low, "a device with one speed has nothing on low")
                .label("given for low")
                .other(place, "one speed")
                .help("write `speeds: 2`, or one value in place of `low` and `high`"),
        );
        return None;
    }
    Some(if two { Speeds::Two } else { Speeds::One })
}

/// Whether horsepower is given for a motor only, and watts for anything else only; `None` if it was
/// reported.
fn fits_the_device(written: &spec::Fitted, role: Role, problems: &mut Problems) -> Option<()> {
    if let (true, Some(hp)) = (!is_motor(role), written.hp.get()) {
        problems.error(
            Problem::new(
                Code::CurrentUnclear,
                hp.span,
                format!("`hp` does not belong to a device of the kind `{role}`"),
            )
            .label("only a motor has horsepower")
            .help("write the amps of its nameplate"),
        );
        return None;
    }
    if let (true, Some(watts)) = (is_motor(role), written.watts.get()) {
        problems.error(
            Problem::new(
                Code::CurrentUnclear,
                watts.span,
                "the watts of a motor do not tell its current",
            )
            .label("does not belong to a motor")
            .note("a nameplate's watts may be those at the shaft, and leave out the power factor")
            .help("write the amps of its nameplate, or its `hp`"),
        );
        return None;
    }
    Some(())
}

/// Whether exactly one key says what the device draws on high; `None` if it was reported.
fn one_source(given: &[Span], role: Role, span: Span, problems: &mut Problems) -> Option<()> {
    match given {
        [] => {
            let or = if is_motor(role) {
                "its `hp` if the nameplate has no amps"
            } else {
                "its `watts`"
            };
            problems.error(
                Problem::new(
                    Code::CurrentUnclear,
                    span,
                    format!("nothing says what the device `{role}` draws"),
                )
                .label("has no `amps`")
                .help(format!("write the `amps` of its nameplate, or {or}")),
            );
            None
        }
        [_] => Some(()),
        [first, second, ..] => {
            problems.error(
                Problem::new(
                    Code::CurrentUnclear,
                    *second,
                    format!("two keys say what the device `{role}` draws"),
                )
                .label("given again here")
                .other(*first, "first given here")
                .help("keep the `amps` of the nameplate, and remove the other"),
            );
            None
        }
    }
}

/// What it draws on high, and on low as far as that is given.
struct Drawn {
    high: Current,
    low: Option<Current>,
}

fn drawn(
    written: &spec::Fitted,
    role: Role,
    volts: Option<Spanned<Volts>>,
    span: Span,
    problems: &mut Problems,
) -> Option<Drawn> {
    fits_the_device(written, role, problems)?;
    if written.amps.is_unread() || written.hp.is_unread() || written.watts.is_unread() {
        return None;
    }
    let amps = written.amps.value().copied();
    let hp = written.hp.value().copied();
    // Sources of the current on high; there must be exactly one.
    let plate = amps.and_then(|amps| amps.high);
    let power = hp.and_then(|hp| hp.high);
    let watts = written.watts.get();
    let given: Vec<Span> =
        [plate.map(|amps| amps.span), power.map(|power| power.span), watts.map(|watts| watts.span)]
            .into_iter()
            .flatten()
            .collect();
    one_source(&given, role, span, problems)?;
    let volts = volts?;
    let high = if let Some(amps) = plate {
        Current { amps: amps.value, source: CurrentSource::Plate, span: amps.span }
    } else if let Some(power) = power {
        from_table(power, volts, problems)?
    } else {
        let watts = watts?;
        let amps = Amps(watts.value.0 / volts.value.0);
        Current { amps, source: CurrentSource::Watts(watts.value), span: watts.span }
    };
    let low = low_given(amps, hp, volts, problems)?;
    if let Some(low) = low.filter(|low| low.amps.0 > high.amps.0) {
        problems.error(
            Problem::new(
                Code::SpeedsUnclear,
                low.span,
                "the device draws more on low than on high",
            )
            .label(format!("{} on low", low.amps))
            .other(high.span, format!("{} on high", high.amps))
            .help("exchange the two, or read the nameplate again"),
        );
        return None;
    }
    Some(Drawn { high, low })
}

/// What is given for low; the outer `None` if it was reported.
#[allow(clippy::option_option)]
fn low_given(
    amps: Option<OfSpeeds<Amps>>,
    hp: Option<OfSpeeds<Horsepower>>,
    volts: Spanned<Volts>,
    problems: &mut Problems,
) -> Option<Option<Current>> {
    let plate = amps.and_then(|amps| amps.low);
    let power = hp.and_then(|hp| hp.low);
    match (plate, power) {
        (Some(amps), Some(power)) => {
            problems.error(
                Problem::new(Code::CurrentUnclear, power.span, "two keys say what it draws on low")
                    .label("given again here")
                    .other(amps.span, "first given here")
                    .help("keep the `amps` of the nameplate, and remove the other"),
            );
            None
        }
        (Some(amps), None) => {
            let source = CurrentSource::Plate;
            Some(Some(Current { amps: amps.value, source, span: amps.span }))
        }
        (None, Some(power)) => Some(Some(from_table(power, volts, problems)?)),
        (None, None) => Some(None),
    }
}

/// The full-load current of NEC table 430.248.
fn from_table(
    power: Spanned<Horsepower>,
    volts: Spanned<Volts>,
    problems: &mut Problems,
) -> Option<Current> {
    if let Some(amps) = nec::motor_amps(power.value, volts.value) {
        let source = CurrentSource::Table(power.value);
        return Some(Current { amps, source, span: power.span });
    }
    let clause = nec::MOTOR_AMPS.clause;
    let problem = if nec::motor_column(volts.value).is_none() {
        Problem::new(
            Code::NoTableRow,
            volts.span,
            format!("the motor table has no column for {}", volts.value),
        )
        .label("the nameplate's voltage")
        .other(power.span, "whose current is to be looked up")
        .note(format!("{clause} has 115, 200, 208 and 230 V"))
    } else {
        let rows: Vec<_> = nec::MOTOR_AMPS.values.iter().map(|row| row.power.to_string()).collect();
        Problem::new(
            Code::NoTableRow,
            power.span,
            format!("the motor table has no {}", power.value),
        )
        .label("no row of this power")
        .note(format!("{clause} has {}", rows.join(", ")))
    };
    problems.error(problem.help("write the `amps` of the nameplate; nothing is read between rows"));
    None
}

/// What a device of two speeds draws on low: as given, else what it draws on high at the most.
fn low(role: Role, drawn: &Drawn, problems: &mut Problems) -> Current {
    if let Some(low) = drawn.low {
        return low;
    }
    problems.warning(
        Problem::new(
            Code::LowAssumed,
            drawn.high.span,
            format!("nothing says what the device `{role}` draws on low"),
        )
        .label("its current on high alone")
        .note("it is taken to draw as much as on high, which may ask for a larger breaker")
        .help(
            "write `amps: { low: \u{2026}, high: \u{2026} }` with both currents of its nameplate",
        ),
    );
    Current { source: CurrentSource::NoMoreThanHigh, ..drawn.high }
}
