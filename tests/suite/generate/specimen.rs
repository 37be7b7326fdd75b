//! Documents to look at and to measure. The board and its words are invented.

use lidsheet::document::{Align, Block, Document, Inline, ListKind, Signal, Table};
use lidsheet::geometry::{Path, Point, Rect, Size};
use lidsheet::scene::{Dash, Ink, Item, Scene, Stroke, Target};
use lidsheet::text::{Style, Typesetter};

/// An empty document with everything but blocks.
pub fn document(blocks: Vec<Block>) -> Document {
    Document {
        house: lidsheet::document::House::default(),
        signal_words: lidsheet::document::Signal::ALL.map(|signal| signal.word().to_owned()),
        title: "Heron 8 wiring sheets".into(),
        language: "en".into(),
        author: "Otterbrook Controls".into(),
        dated: (2026, 9, 14),
        head: ("Heron 8, OC-8120 revision D".into(), "Otterbrook Controls".into()),
        foot: "Isolate and lock out before you open the box.".into(),
        page_of: "page {n} of {m}".into(),
        mark: None,
        density: lidsheet::document::Density::Roomy,
        blocks,
    }
}

pub fn plain(text: &str) -> Vec<Inline> {
    vec![Inline::Plain(text.into())]
}

pub fn heading(level: u8, text: &str, anchor: Option<&str>) -> Block {
    Block::Heading { level, text: plain(text), anchor: anchor.map(str::to_owned) }
}

pub fn paragraph(text: &str) -> Block {
    Block::Paragraph(plain(text))
}

pub fn table(columns: &[Align], head: &[&str], rows: &[Vec<String>]) -> Block {
    Block::Table(Table {
        columns: columns.to_vec(),
        head: head.iter().map(|text| plain(text)).collect(),
        rows: rows.iter().map(|row| row.iter().map(|text| plain(text)).collect()).collect(),
        marks: std::collections::BTreeMap::new(),
        summary: "What goes where.".into(),
        kind: lidsheet::document::TableKind::Reading,
    })
}

/// Numbers that look random and are the same everywhere (a linear congruential generator with
/// the constants of Numerical Recipes, from memory).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(7919).wrapping_add(1))
    }

    /// From 0 to `sides` - 1.
    pub fn roll(&mut self, sides: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6364136223846793005).wrapping_add(1442695040888963407);
        (self.0 >> 33) % sides
    }
}

const WORDS: &str = "Turn the power off and lock it out before you open the box then move the \
                     lead to the group that gives the voltage on the plate";

pub fn sentence(dice: &mut Dice, words: usize) -> String {
    let all: Vec<&str> = WORDS.split(' ').collect();
    let picked: Vec<&str> = (0..words).map(|_| all[dice.roll(all.len() as u64) as usize]).collect();
    let mut text = picked.join(" ").to_lowercase();
    text[..1].make_ascii_uppercase();
    text + "."
}

/// A drawing of 24 boxes with their words and 20 lines, 170 mm by 130 mm.
pub fn plan(types: &mut Typesetter, seed: u64) -> Scene {
    let mut dice = Dice::new(seed);
    let mut scene = Scene::new(Size::new(170.0, 130.0), "Board plan", "Headers and their jumpers.");
    let edge = Stroke::solid(Ink::BLACK, 0.3);
    for index in 0..24 {
        let corner =
            Point::new(8.0 + 27.0 * f64::from(index % 6), 20.0 + 26.0 * f64::from(index / 6));
        let area = Rect::at(corner, Size::new(18.0, 12.0));
        scene.shape(Path::rect(area), Some(Ink::WHITE), Some(edge));
        let code = types.line(&format!("J{}", index + 1), Style::bold(8.5));
        scene.text(corner.moved(1.0, 5.0), code);
        scene.text(corner.moved(0.0, 15.0), types.line("ground common low", Style::regular(7.0)));
    }
    for index in 0..20 {
        let mut point = || Point::new(5.0 + dice.roll(160) as f64, 5.0 + dice.roll(105) as f64);
        let points = [point(), point(), point(), point()];
        let dash = if index > 11 { Dash::Broken { on: 140, off: 90 } } else { Dash::Solid };
        scene.shape(Path::polyline(&points), None, Some(Stroke { dash, ..edge }));
    }
    scene
}

/// Sixteen sockets with their pins, 170 mm by 230 mm.
pub fn sockets(types: &mut Typesetter) -> Scene {
    let mut scene =
        Scene::new(Size::new(170.0, 230.0), "Sockets", "Sixteen sockets from the front.");
    let edge = Stroke::solid(Ink::BLACK, 0.3);
    for index in 0..16 {
        let corner =
            Point::new(10.0 + 40.0 * f64::from(index % 4), 10.0 + 55.0 * f64::from(index / 4));
        scene.shape(Path::rect(Rect::at(corner, Size::new(14.0, 36.0))), None, Some(edge));
        for (pin, word) in ["ground", "common", "low", "high"].into_iter().enumerate() {
            let at = corner.moved(16.0, 4.0 + 9.0 * pin as f64);
            scene.text(at, types.line(word, Style::regular(8.0)));
        }
    }
    scene
}

fn figure(scene: Scene) -> Block {
    Block::Figure {
        alternative: scene.description.clone(),
        scene,
        caption: Vec::new(),
        anchor: None,
    }
}

/// The six pages of the common benchmark: plan, matrix, switches and voltages, sockets, prose,
/// summary.
pub fn six_pages(types: &mut Typesetter, seed: u64) -> Document {
    let mut dice = Dice::new(seed);
    let matrix: Vec<Vec<String>> =
        (0..32).map(|_| (0..8).map(|_| dice.roll(3).to_string()).collect()).collect();
    let switches: Vec<Vec<String>> = (1..=10)
        .map(|way| {
            let position = ["on", "off"][dice.roll(2) as usize];
            let meaning = "The circulation pump follows the filter timer.";
            vec![format!("S1-{way}"), position.into(), meaning.into()]
        })
        .collect();
    let volts: Vec<Vec<String>> = (1..=12)
        .map(|n| {
            vec![
                format!("J{n}"),
                format!("W{n}"),
                format!("F{n}"),
                "A 240 V".into(),
                "B 120 V".into(),
            ]
        })
        .collect();
    let columns = ["c0", "c1", "c2", "c3", "c4", "c5", "c6", "c7"];
    let volts_head = ["Header", "Jumper", "Fuse", "Group", "Group"];
    let mut blocks = vec![
        heading(1, "Board plan", Some("board-plan")),
        figure(plan(types, seed)),
        Block::PageBreak,
        heading(1, "Layouts", Some("layouts")),
        table(&[Align::Centre; 8], &columns, &matrix),
        Block::PageBreak,
        heading(1, "Switches", Some("switches")),
        table(&[Align::Left; 3], &["Way", "Position", "Meaning"], &switches),
        table(&[Align::Left; 5], &volts_head, &volts),
        Block::PageBreak,
        heading(1, "Sockets", Some("sockets")),
        figure(sockets(types)),
        Block::PageBreak,
        heading(1, "Panel", Some("panel")),
    ];
    blocks.extend((0..25).map(|_| paragraph(&sentence(&mut dice, 14))));
    blocks.extend([
        Block::PageBreak,
        heading(1, "Summary", Some("summary")),
        figure(plan(types, seed)),
        table(&[Align::Left; 5], &volts_head, &volts),
    ]);
    document(blocks)
}

/// One of everything that a document can hold.
pub fn everything(types: &mut Typesetter) -> Document {
    let mut dice = Dice::new(3);
    let link = |text: &str, to: &str| Inline::Link {
        text: text.into(),
        strong: false,
        target: Target::Anchor(to.into()),
    };
    let mut small = Scene::new(Size::new(80.0, 30.0), "Header J5", "The socket of header J5.");
    let outline = Path::rounded(Rect::at(Point::new(2.0, 2.0), Size::new(76.0, 26.0)), 3.0);
    small.shape(outline, Some(Ink(246, 246, 240)), Some(Stroke::solid(Ink::BLACK, 0.5)));
    small.text_centred(Point::new(40.0, 16.5), types.line("J5  Aux", Style::bold(8.5)));
    small.items.push(Item::Link {
        area: Rect::at(Point::new(2.0, 2.0), Size::new(76.0, 26.0)),
        target: Target::Anchor("switches".into()),
        description: "The switches".into(),
    });
    small.items.push(Item::Anchor { name: "J5".into(), at: Point::new(2.0, 2.0) });
    let steps = vec![
        vec![paragraph(
            "Turn the power off at the breaker and lock it out. Keep the key with you.",
        )],
        vec![Block::Paragraph(vec![
            Inline::Plain("Put way ".into()),
            Inline::Strong("8".into()),
            Inline::Plain(" of S1 ".into()),
            Inline::Strong("on".into()),
            Inline::Plain(", as drawn under ".into()),
            link("Switches", "switches"),
            Inline::Plain(". The panel then accepts a new layout number.".into()),
        ])],
        vec![
            paragraph("Move these leads:"),
            Block::List {
                kind: ListKind::Bullets,
                items: vec![
                    vec![paragraph("W1 from group A to group B")],
                    vec![paragraph("W3 from group B to group A")],
                ],
            },
        ],
        vec![paragraph("Turn the power on. The panel shows the present layout number.")],
    ];
    let caution = |signal, text: &str| Block::Caution { signal, blocks: vec![paragraph(text)] };
    let wide: Vec<Vec<String>> = (1..=45)
        .map(|n| {
            vec![format!("J{n}"), sentence(&mut dice, 4), sentence(&mut dice, 22), "240 V".into()]
        })
        .collect();
    let mut blocks = vec![
        Block::Title {
            text: "Heron 8 wiring sheets".into(),
            subtitle: "Control board OC-8120, revision D, of 14 September 2026".into(),
        },
        paragraph(
            "These sheets say where each lead goes and what each switch does. They never \
                   override the plate on the equipment.",
        ),
        Block::Contents { title: "Contents".into() },
        heading(1, "Before you begin", None),
        caution(
            Signal::Danger,
            "Water and mains voltage kill. Isolate the supply and lock it out before you open the box.",
        ),
        caution(
            Signal::Warning,
            "One person competent for the work does it. Follow your local code, and call a licensed electrician where it asks for one.",
        ),
        caution(Signal::Caution, "Edges of the box are sharp. Wear gloves."),
        caution(Signal::Notice, "A jumper on the wrong group puts double voltage on a motor."),
        heading(1, "Setting the layout", Some("layout")),
        heading(2, "Enter the number", None),
        paragraph("Do these steps in order and tick each box when it is done."),
        Block::List { kind: ListKind::Steps(1), items: steps },
        heading(2, "What the numbers mean", None),
        Block::List {
            kind: ListKind::Numbers(9),
            items: (0..3).map(|_| vec![paragraph(&sentence(&mut dice, 25))]).collect(),
        },
        heading(3, "A note on names", None),
        paragraph(
            "Мост и Ωμέγα: Greek and Cyrillic letters come from the second font; 中 has no font.",
        ),
        heading(1, "Switches", Some("switches")),
        table(
            &[Align::Left, Align::Centre, Align::Left],
            &["Way", "Position", "Meaning"],
            &(1..=8)
                .map(|n| vec![n.to_string(), "off".into(), sentence(&mut dice, 9)])
                .collect::<Vec<_>>(),
        ),
        heading(1, "Sockets", None),
        paragraph("The socket of header J5 as you see it from the front."),
        Block::Figure {
            scene: small,
            alternative: "Socket J5 from the front.".into(),
            caption: vec![
                Inline::Strong("Figure 1.".into()),
                Inline::Plain(" Socket J5; see ".into()),
                link("Switches", "switches"),
                Inline::Plain(" for its bank.".into()),
            ],
            anchor: Some("figure-j5".into()),
        },
        heading(1, "Board plan", None),
        Block::Figure {
            scene: plan(types, 5),
            alternative: "Board plan, seen from the front.".into(),
            caption: plain(
                "Board plan, seen from the front. A solid line is a jumper on the group that it is shipped on; a dashed line leads to another group that it may go to.",
            ),
            anchor: None,
        },
        heading(1, "A long table", None),
        table(
            &[Align::Left, Align::Left, Align::Left, Align::Right],
            &["Header", "Serves", "What it is for and what to mind", "Volts"],
            &wide,
        ),
    ];
    for _ in 0..6 {
        blocks.push(paragraph(&sentence(&mut dice, 60)));
    }
    let mut document = document(blocks);
    document.title = "Heron 8 wiring sheets".into();
    document
}
