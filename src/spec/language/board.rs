//! A specification: its sections, what is printed on the board, its circuit boards.

use super::{
    ACCEPTED, AMPS, Form, Kind, MEANING, TITLE, Thing, Words, circuit, may, must, service,
};

/// A whole specification.
pub static BOARD: Form = Form {
    name: "specification",
    says: "One control board: what is on it, how it may be fed, and which layouts it knows.",
    keys: &[
        must("lidsheet", Kind::Version, "The version of the language; this is version 1."),
        must("board", Kind::Form(&ABOUT), "What is printed on the board."),
        must(
            "parts",
            Kind::Things(Thing::Part, &PART, 8),
            "The circuit boards of the product, placed on the drawing.",
        ),
        must(
            "terminals",
            Kind::Things(Thing::Terminal, &circuit::TERMINAL, 32),
            "Where the conductors of the supply land.",
        ),
        may(
            "links",
            Kind::Things(Thing::Link, &circuit::LINK, 16),
            "Straps that move with the supply.",
            "nothing has to be moved with the supply",
        ),
        must(
            "supplies",
            Kind::Things(Thing::Supply, &circuit::SUPPLY, 16),
            "Every way in which the board may be fed. The first is the one that `volts` of a group \
             refers to.",
        ),
        may(
            "electronics",
            Kind::Form(&circuit::ELECTRONICS),
            "What the board itself lives on.",
            "the sheets say nothing of a board that is dead",
        ),
        must(
            "groups",
            Kind::Things(Thing::Group, &circuit::GROUP, 16),
            "Voltage groups: rows of tabs that share one voltage.",
        ),
        may(
            "jumpers",
            Kind::Things(Thing::Jumper, &circuit::JUMPER, 64),
            "Jumper leads: each picks the group, and so the voltage, of the headers that name it.",
            "no voltage can be changed",
        ),
        may(
            "fuses",
            Kind::Things(Thing::Fuse, &circuit::FUSE, 64),
            "Fuses on the board.",
            "no header is behind a fuse",
        ),
        must(
            "sockets",
            Kind::Things(Thing::Socket, &service::SOCKET, 16),
            "Connector families: what all headers of one shape have in common.",
        ),
        may(
            "devices",
            Kind::Things(Thing::Device, &service::DEVICE, 16),
            "Devices that the language has no word for.",
            "the built-in words are enough",
        ),
        must(
            "headers",
            Kind::Things(Thing::Header, &service::HEADER, 64),
            "Where devices are plugged in.",
        ),
        may(
            "heater",
            Kind::Form(&service::HEATER),
            "The element of the heater that comes with the board.",
            "no element comes with it; a job names one",
        ),
        must("layouts", Kind::Form(&service::LAYOUTS), "The matrix of numbered layouts."),
        may(
            "switches",
            Kind::Things(Thing::Bank, &service::BANK, 8),
            "Switch banks.",
            "nothing is set by switches",
        ),
        may(
            "selectors",
            Kind::Things(Thing::Selector, &service::SELECTOR, 4),
            "Rotary selectors: each position is a layout.",
            "the layout number is entered on a panel or by switches",
        ),
        may(
            "panels",
            Kind::Things(Thing::Panel, &service::PANEL, 16),
            "Panels that the board works with.",
            "there is no panel",
        ),
        may(
            "accepted",
            ACCEPTED,
            "Warnings that are known and right as they are: the code of each, and why.",
            "every warning is shown",
        ),
    ],
};

/// `board`.
pub static ABOUT: Form = Form {
    name: "board",
    says: "What is printed on the board, and what holds for all of it.",
    keys: &[
        must("name", Kind::Line(TITLE), "The name of the product."),
        must("maker", Kind::Line(TITLE), "Who makes it."),
        must("part", Kind::Line(TITLE), "Its part number."),
        must("revision", Kind::Line(TITLE), "Its revision, as it is printed on it."),
        must("dated", Kind::Date, "The date of the revision."),
        must("summary", Kind::Prose(MEANING), "One sentence on what it is."),
        may(
            "max current",
            AMPS,
            "The most that any one conductor of the supply may carry.",
            "only breaker and wires limit it",
        ),
        may(
            "designators",
            Kind::Word(Words::Designators),
            "The standard that the letters of its codes follow.",
            "`ASME Y14.44`",
        ),
        may(
            "letters",
            Kind::Map(&Kind::Word(Words::Coded), &Kind::Letters, 0, usize::MAX),
            "The letters that codes begin with where the house has its own, by kind of thing.",
            "those of the standard",
        ),
    ],
};

/// One of `parts`.
pub static PART: Form = Form {
    name: "part",
    says: "One circuit board. All places on it are measured from its top left corner.",
    keys: &[
        may(
            "title",
            Kind::Title(TITLE),
            "What the sheets call it.",
            "its name in the specification",
        ),
        must("size", Kind::Size, "Its width and height, mm."),
        must(
            "at",
            Kind::Place,
            "Its top left corner on the drawing, mm to the right and down. Of a part it is a corner, of \
             everything else the middle.",
        ),
    ],
};
