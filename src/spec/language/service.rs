//! What devices are plugged into, and how the board is told which of them are there.

use super::{
    AMPS, AT, COLUMNS, Form, Kind, MEANING, MOST_LAYOUTS, PART, STEPS, TITLE, Thing, WAYS, Words,
    may, must, range,
};

/// One of `sockets`.
pub static SOCKET: Form = Form {
    name: "socket",
    says: "A connector family: headers of one shape, which the same plugs fit.",
    keys: &[
        must("title", Kind::Title(TITLE), "What the sheets call it."),
        must(
            "pitch",
            Kind::Quantity(range(1.0, 50.0, "mm")),
            "From the middle of a pin to the next.",
        ),
        may(
            "key drawn",
            Kind::Side,
            "The side that the key is on in the list of `pins`. With `right` or `left` the pins are \
             listed from the top down, with `up` or `down` from left to right.",
            "the family has no key; the pins are listed from the top down",
        ),
        must(
            "pins",
            Kind::List(&Kind::Word(Words::Pin), 1, 12),
            "What each pin is for, in the order in which they lie with the key as in `key drawn`.",
        ),
        may(
            "wires",
            Kind::List(&Kind::Word(Words::CordWire), 1, 12),
            "The colors of the cord that brings a wire to every pin, in the order of `pins`.",
            "the sheets leave room to write them down",
        ),
        may(
            "one speed wires",
            Kind::List(&Kind::Word(Words::CordWire), 1, 12),
            "The colors of the cord of a device with one speed, in the order of `pins` without `low`.",
            "the sheets leave room to write them down",
        ),
    ],
};

/// One of `devices`.
pub static DEVICE: Form = Form {
    name: "device",
    says: "A device that the language has no word for. Its name is its word, on the sheets and in jobs.",
    keys: &[
        may("motor", Kind::Truth, "Whether it is a motor.", "`false`"),
        may(
            "continuous",
            Kind::Truth,
            "Whether it can run for three hours or more, which counts at a breaker.",
            "`false`",
        ),
        may(
            "counts for allowance",
            Kind::Truth,
            "Whether the heater allowance holds it back while the heater is on.",
            "`false`",
        ),
        may("moves water", Kind::Truth, "Whether it moves water past the heater.", "`false`"),
        may(
            "runs with",
            Kind::Word(Words::Device),
            "The device that it is on and off with.",
            "it runs by itself",
        ),
        may(
            "cord of",
            Kind::Word(Words::Device),
            "The device whose further cord it is: it has a plug of its own and no column.",
            "it is a device with one cord",
        ),
    ],
};

const SERVES: Kind = Kind::Either(&[
    Kind::Word(Words::Device),
    Kind::Map(&Kind::Layouts, &Kind::Word(Words::Device), 1, usize::MAX),
]);

/// One of `headers`.
pub static HEADER: Form = Form {
    name: "header",
    says: "A row of pins on the board that the plug of a device goes into. Either `group` or `jumper` \
           feeds it.",
    keys: &[
        must("title", Kind::Title(TITLE), "What the sheets call it."),
        PART,
        AT,
        must("socket", Kind::Name(&[Thing::Socket]), "Its connector family."),
        may(
            "key",
            Kind::Side,
            "The side that its key faces as the board is mounted. The drawing of the family, turned so \
             far, gives the order of its pins.",
            "only of a family without `key drawn`",
        ),
        may(
            "group",
            Kind::Name(&[Thing::Group]),
            "The group that feeds it at all times.",
            "`jumper` must be there",
        ),
        may(
            "jumper",
            Kind::Name(&[Thing::Jumper]),
            "The jumper that picks its group. Headers that name the same one have the same voltage.",
            "`group` must be there",
        ),
        may("fuse", Kind::Name(&[Thing::Fuse]), "The fuse that it is behind.", "it is behind none"),
        may("max", AMPS, "The most that may flow through it.", "only the fuse limits it"),
        must(
            "serves",
            SERVES,
            "The device that it drives, or the device under each set of layouts. Under all others it is \
             dead.",
        ),
    ],
};

/// `heater`.
pub static HEATER: Form = Form {
    name: "heater",
    says: "The element of the heater that comes with the board.",
    keys: &[
        must(
            "watts",
            Kind::Number(range(1.0, 100_000.0, "W")),
            "Its power at `at volts`; at another voltage it follows from its resistance.",
        ),
        must("at volts", Kind::Number(range(1.0, 1000.0, "V")), "The voltage of that power."),
    ],
};

const ROWS: Kind = Kind::Either(&[
    Kind::Table,
    Kind::Map(&Kind::Layout, &Kind::List(&Kind::Speeds, 1, COLUMNS), 1, MOST_LAYOUTS),
]);

/// `layouts`.
pub static LAYOUTS: Form = Form {
    name: "layout matrix",
    says: "Which devices there are under each layout number, and with how many speeds.",
    keys: &[
        may(
            "columns",
            Kind::List(&Kind::Word(Words::Device), 1, COLUMNS),
            "The devices that the columns are for. A device without a column may be there under every \
             layout in which a header serves it.",
            "only where `rows` is a table, which has them in its first line",
        ),
        must(
            "rows",
            ROWS,
            "By the number of each layout an entry for each column: 0 not fitted, 1 one speed, 2 two \
             speeds. Or the path of a CSV table beside the specification.",
        ),
    ],
};

/// One of `switches`.
pub static BANK: Form = Form {
    name: "switch bank",
    says: "A row of small switches, called ways.",
    keys: &[
        PART,
        AT,
        must(
            "on side",
            Kind::Side,
            "The edge that ON is printed at. With `up` way 1 is at the left; every other side is that \
             picture turned: `right` has way 1 at the top, `down` at the right, `left` at the bottom.",
        ),
        must(
            "ways",
            Kind::Map(
                &Kind::Ways,
                &Kind::Either(&[Kind::Exactly("unused"), Kind::Form(&FIELD)]),
                1,
                WAYS,
            ),
            "Every way once: alone, or several side by side that are set together.",
        ),
    ],
};

const SETTINGS: Kind =
    Kind::Either(&[Kind::Table, Kind::Map(&Kind::Positions, &Kind::Prose(MEANING), 1, usize::MAX)]);

/// Ways of a bank.
pub static FIELD: Form = Form {
    name: "ways",
    says: "One way or several that are set together. One way has `when off` and `when on`, several have \
           `settings`.",
    keys: &[
        may(
            "effect",
            Kind::Word(Words::Effect),
            "What they are for, where something depends on it.",
            "nothing depends on them; `title` says what they are for",
        ),
        may(
            "title",
            Kind::Title(TITLE),
            "What they are for, where no `effect` is true of them.",
            "the sheets have only the meanings",
        ),
        may(
            "settings",
            SETTINGS,
            "What each combination does, every one once, in the order of the ways: `off on` is the first \
             off and the second on. For `heater allowance` a count or a current, for `layout number` a \
             layout or `no layout`. Or the path of a CSV table.",
            "`when off` and `when on` must be there",
        ),
        may(
            "when off",
            Kind::Prose(MEANING),
            "What a single way does when it is off.",
            "`settings` must be there",
        ),
        may(
            "when on",
            Kind::Prose(MEANING),
            "What a single way does when it is on.",
            "`settings` must be there",
        ),
        must("shipped", Kind::Positions, "How they are set as delivered."),
    ],
};

/// One of `selectors`.
pub static SELECTOR: Form = Form {
    name: "selector",
    says: "A rotary selector that sets the layout number.",
    keys: &[
        PART,
        AT,
        must(
            "positions",
            Kind::Map(&Kind::PositionName, &Kind::LayoutOrNone, 2, 24),
            "What is printed at each position, clockwise from the top, and the layout that it sets.",
        ),
        must("shipped", Kind::PositionName, "The position that it is at as delivered."),
    ],
};

/// One of `panels`.
pub static PANEL: Form = Form {
    name: "panel",
    says: "A panel that the board works with.",
    keys: &[
        must("title", Kind::Title(TITLE), "What the sheets call it."),
        may(
            "choose layout",
            Kind::Prose(STEPS),
            "The steps that enter a layout number on it, in Markdown, with the cover closed; a step at a \
             switch begins with locking off. `{{ layout }}` stands for the number.",
            "only where switches or a selector set the number; else every panel has steps",
        ),
    ],
};
