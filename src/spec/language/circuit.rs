//! What feeds the headers: terminals, links, supplies, groups, jumpers, fuses.

use super::{AMPS, AT, Form, Kind, PART, TITLE, Thing, Words, may, must, range};

/// One of `terminals`.
pub static TERMINAL: Form = Form {
    name: "terminal",
    says: "A terminal that a conductor of the supply lands on. Its name is the code printed beside it.",
    keys: &[
        PART,
        AT,
        may(
            "wire",
            Kind::Word(Words::Color),
            "The color of the board's own wire or marking there, as a word or in letters of IEC 60757.",
            "the sheets name no color",
        ),
        may("ground", Kind::Truth, "Whether it is for the ground wire (PE).", "`false`"),
    ],
};

/// One of `links`.
pub static LINK: Form = Form {
    name: "link",
    says: "A strap that joins a point of its own to one of two or more terminals. Groups may lie at \
           that point.",
    keys: &[
        PART,
        AT,
        must(
            "joins",
            Kind::List(&Kind::Name(&[Thing::Terminal]), 2, usize::MAX),
            "The terminals that it can be put on.",
        ),
        must(
            "shipped",
            Kind::Name(&[Thing::Terminal]),
            "The one that it is on as delivered; one of `joins`.",
        ),
    ],
};

/// One of `supplies`.
pub static SUPPLY: Form = Form {
    name: "supply",
    says: "One way in which the board may be fed.",
    keys: &[
        must(
            "title",
            Kind::Title(TITLE),
            "What the sheets call it; say voltage and number of wires.",
        ),
        must("system", Kind::System, "The system that it comes from, with its voltages."),
        must(
            "lands",
            Kind::Map(
                &Kind::Name(&[Thing::Terminal]),
                &Kind::Word(Words::Conductor),
                1,
                usize::MAX,
            ),
            "Which conductor goes on which terminal.",
        ),
        may(
            "links",
            Kind::Map(&Kind::Name(&[Thing::Link]), &Kind::Name(&[Thing::Terminal]), 0, usize::MAX),
            "The terminal that each link must be on under this supply.",
            "only of a board without `links`",
        ),
        may(
            "max current",
            AMPS,
            "The most that any one of its conductors may carry, for example through its plug.",
            "`max current` of the board",
        ),
    ],
};

const POINTS: Kind = Kind::List(&Kind::Name(&[Thing::Terminal, Thing::Link]), 2, 2);

/// `electronics`.
pub static ELECTRONICS: Form = Form {
    name: "electronics",
    says: "What the board's own electronics are fed from.",
    keys: &[must("between", POINTS, "The two terminals or links that they lie between.")],
};

/// One of `groups`.
pub static GROUP: Form = Form {
    name: "group",
    says: "A row of tabs that share one voltage. It has either `between` and `volts`, or `isolated`.",
    keys: &[
        PART,
        AT,
        may("tabs", Kind::Whole(1, 40), "How many tabs it has: so many plugs fit on it.", "`1`"),
        may(
            "between",
            POINTS,
            "The two terminals or links that it lies between. The second is the one that *common* pins \
             join.",
            "`isolated` must be there",
        ),
        may(
            "volts",
            Kind::Number(range(1.0, 1000.0, "V")),
            "Its voltage under the first supply, which is held against the computed one.",
            "only with `isolated`",
        ),
        may(
            "isolated",
            Kind::Quantity(range(1.0, 1000.0, "V")),
            "The voltage of a transformer or supply unit on the board, apart from the mains.",
            "`between` must be there",
        ),
    ],
};

/// One of `jumpers`.
pub static JUMPER: Form = Form {
    name: "jumper",
    says: "A lead with one fixed end; its plug goes onto a tab of one of several groups.",
    keys: &[
        PART,
        AT,
        must(
            "groups",
            Kind::List(&Kind::Name(&[Thing::Group]), 1, usize::MAX),
            "The groups that its plug reaches.",
        ),
        must("shipped", Kind::Name(&[Thing::Group]), "The one that it is on as delivered."),
    ],
};

/// One of `fuses`.
pub static FUSE: Form = Form {
    name: "fuse",
    says: "A fuse that a person can take out.",
    keys: &[
        PART,
        AT,
        must("rating", AMPS, "The current that is printed on it."),
        may(
            "speed",
            Kind::Word(Words::Fuse),
            "How fast it opens, or what it protects, as a word or in the letters printed on fuses.",
            "the sheets do not say it",
        ),
    ],
};
