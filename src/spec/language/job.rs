//! A job: one installation of a board.

use super::{ACCEPTED, AMPS, EQUIPMENT, Form, Kind, TITLE, Thing, Words, may, must, range};

/// A whole job.
pub static JOB: Form = Form {
    name: "job",
    says: "One installation of a board: what is fitted, and what feeds it.",
    keys: &[
        must("lidsheet", Kind::Version, "The version of the language; this is version 1."),
        must("job", Kind::Line(TITLE), "The number or name of the job."),
        must(
            "board",
            Kind::Path,
            "The specification of the board, by its path from the job's file.",
        ),
        may("for", Kind::Line(TITLE), "Whose it is.", "the insert leaves it out"),
        must("supply", Kind::Name(&[Thing::Supply]), "How the board is fed; one of its supplies."),
        must("breaker", AMPS, "The rating of the breaker in front of it."),
        may(
            "supply run",
            Kind::Form(&RUN),
            "The conductors from the breaker to the board.",
            "nothing is said of wire size and voltage drop",
        ),
        may(
            "panel",
            Kind::Name(&[Thing::Panel]),
            "The panel that is fitted; one of the board's.",
            "the board's only one; of several, the work card refers to the wiring sheets",
        ),
        may(
            "rules",
            Kind::Word(Words::Rules),
            "The rules that the breaker is sized by.",
            "those that go with the system of the supply",
        ),
        may(
            "marked",
            Kind::Form(&MARKED),
            "What the plate of the pack or of the tub says about its circuit. It governs.",
            "the breaker is sized by computation alone",
        ),
        must(
            "equipment",
            Kind::List(&Kind::Form(&FITTED), 0, EQUIPMENT),
            "Every device that is fitted. The board's own heater need not stand here.",
        ),
        may(
            "accepted",
            ACCEPTED,
            "Warnings that are known and right as they are: the code of each, and why.",
            "every warning is shown",
        ),
    ],
};

/// `supply run`.
pub static RUN: Form = Form {
    name: "supply run",
    says: "The conductors from the breaker to the board.",
    keys: &[
        must("length", Kind::Run(range(0.1, 1000.0, "m")), "How long it is, one way, in m or ft."),
        must("conductor", Kind::Wire, "Size and metal of each conductor, as printed on it."),
        may(
            "terminals",
            Kind::Word(Words::Terminals),
            "What the terminals at both ends are marked for; for sizes in AWG.",
            "60 C up to 100 A, with a warning where only 75 C would do",
        ),
        may(
            "method",
            Kind::Word(Words::Method),
            "The method of installation of IEC 60364-5-52; for sizes in mm2.",
            "a size in mm2 is not judged",
        ),
        may(
            "insulation",
            Kind::Word(Words::Insulation),
            "What the conductors are insulated with; with `method`.",
            "`PVC`",
        ),
        may(
            "capacity",
            AMPS,
            "What one conductor may carry where it is installed, if an electrician states it.",
            "what the tables give",
        ),
    ],
};

/// `marked`.
pub static MARKED: Form = Form {
    name: "marked",
    says: "What the plate of the pack or of the tub says about its circuit.",
    keys: &[
        may("minimum circuit ampacity", AMPS, "The least that the wires must carry.", "not marked"),
        may("largest breaker", AMPS, "The largest breaker that is allowed.", "not marked"),
    ],
};

const WATTAGE: Kind = Kind::Number(range(1.0, 100_000.0, "W"));
const PLATE_AMPS: Kind = Kind::Number(range(0.01, 200.0, "A"));
const PLATE_HP: Kind = Kind::Horsepower(range(0.01, 100.0, "hp"));

/// `amps` for each speed.
pub static SPEED_AMPS: Form = Form {
    name: "amps",
    says: "A current for each speed.",
    keys: &[
        must("low", PLATE_AMPS, "The current on low."),
        may("high", PLATE_AMPS, "The current on high.", "`hp` or `watts` tells it"),
    ],
};

/// `hp` for each speed.
pub static SPEED_HP: Form = Form {
    name: "hp",
    says: "A power for each speed.",
    keys: &[
        must("low", PLATE_HP, "The power on low."),
        may("high", PLATE_HP, "The power on high.", "`amps` tells it"),
    ],
};

/// One of `equipment`.
pub static FITTED: Form = Form {
    name: "device",
    says: "A device that is fitted, with what its nameplate says. Its current follows from one of \
           `amps`, `hp` and `watts`.",
    keys: &[
        must(
            "device",
            Kind::Word(Words::Fitted),
            "What it is. `pump` alone is a jet pump of whichever number fits.",
        ),
        may(
            "speeds",
            Kind::Whole(1, 2),
            "How many speeds it has.",
            "`2` where `low` is given, else `1`; of a pump one of the two must be there",
        ),
        must("volts", Kind::Number(range(1.0, 1000.0, "V")), "The voltage on its nameplate."),
        may(
            "amps",
            Kind::Either(&[PLATE_AMPS, Kind::Form(&SPEED_AMPS)]),
            "The current on its nameplate, or one for each speed.",
            "`hp` or `watts` must be there",
        ),
        may(
            "hp",
            Kind::Either(&[PLATE_HP, Kind::Form(&SPEED_HP)]),
            "The horsepower of a motor whose nameplate gives no amps.",
            "`amps` or `watts` must be there",
        ),
        may(
            "power factor",
            Kind::Number(range(0.05, 1.0, "")),
            "The power factor on its nameplate.",
            "the worst that is possible is counted, down to 0.5",
        ),
        may(
            "watts",
            WATTAGE,
            "The power of a device that is no motor, where its nameplate gives no amps; of a heater, its \
             element.",
            "`amps` or `hp` must be there",
        ),
        may(
            "cord",
            Kind::Word(Words::Cord),
            "What its cord is like, if somebody has changed it.",
            "as it was made",
        ),
    ],
};
