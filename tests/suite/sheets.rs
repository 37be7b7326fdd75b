//! The wiring sheets: what they must say whatever the templates are, and what never gets in.

use crate::compile::{self, demo};
use crate::generate;
use crate::oracle;
use lidsheet::board::{Board, LayoutEntry, Meaning};
use lidsheet::diagnostic::{Code, Problem, Problems};
use lidsheet::document::{Block, Document, Inline, ListKind, Signal, Table, plain_text};
use lidsheet::page::Paper;
use lidsheet::scene::Target;
use lidsheet::sheet::{Templates, figures, wiring_sheets};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;
use lidsheet::words::Words;
use proptest::prelude::*;

fn heron() -> String {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/version-1/heron-8.yaml");
    std::fs::read_to_string(path).expect("it is there")
}

/// The sheets with some templates replaced, or code, line and column of every problem.
fn sheets(
    board: &Board,
    replaced: &[(&str, &str)],
) -> Result<Document, Vec<(Code, usize, usize, String)>> {
    let mut sources = Sources::default();
    let mut templates = Templates::built_in(&mut sources);
    for (name, text) in replaced {
        let file = sources.add(format!("mine/{name}"), *text);
        assert!(templates.replace(name, file, text), "{name} is a template");
    }
    let mut figures = figures(board, &Words::english(), &mut Typesetter::new(), Paper::A4);
    // A board that is too full for its plan is refused; the rest of its sheets is judged all the same.
    figures.iter_mut().for_each(|figure| figure.lost.clear());
    let mut problems = Problems::default();
    wiring_sheets(board, &figures, &templates, Paper::A4, &mut problems).map_err(|_| {
        problems
            .sorted()
            .into_iter()
            .map(|problem| {
                let span = problem.primary.expect("every problem has a place").span;
                let (line, column) = sources.file(span.file).position(span.start);
                (problem.code, line, column, sources.text(span).to_owned())
            })
            .collect()
    })
}

fn good(board: &Board, replaced: &[(&str, &str)]) -> Document {
    sheets(board, replaced).unwrap_or_else(|problems| panic!("{problems:?}"))
}

/// Every run of words of the document, block by block; those of figures too if asked for.
fn words(blocks: &[Block], with_figures: bool) -> Vec<String> {
    let mut all = Vec::new();
    for block in blocks {
        match block {
            Block::Title { text, subtitle } => all.extend([text.clone(), subtitle.clone()]),
            Block::Heading { text, .. } | Block::Paragraph(text) => all.push(plain_text(text)),
            Block::List { items, .. } => {
                items.iter().for_each(|item| all.extend(words(item, with_figures)));
            }
            Block::Table(table) => {
                all.extend(table.head.iter().map(|cell| plain_text(cell)));
                all.extend(table.rows.iter().flatten().map(|cell| plain_text(cell)));
            }
            Block::Figure { scene, caption, .. } => {
                all.push(plain_text(caption));
                if with_figures {
                    all.extend(scene.text_boxes().into_iter().map(|(_, text)| text));
                }
            }
            Block::Caution { blocks, .. }
            | Block::Columns { blocks, .. }
            | Block::Together(blocks)
            | Block::Step { blocks, .. }
            | Block::Landscape(blocks) => {
                all.extend(words(blocks, with_figures));
            }
            Block::Cards(cards) | Block::Beside { parts: cards, .. } => {
                cards.iter().for_each(|card| all.extend(words(card, with_figures)));
            }
            Block::Contents { title } => all.push(title.clone()),
            Block::PageBreak => {}
        }
    }
    all
}

/// Whether `wanted` stands somewhere as a word of its own.
fn says(all: &[String], wanted: &str) -> bool {
    all.iter().any(|text| oracle::words::says(text, wanted))
}

#[test]
fn the_words_name_everything_that_is_on_the_board() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        let all = words(&good(&board, &[]).blocks, false);
        let codes = board
            .headers
            .iter()
            .map(|h| &h.code)
            .chain(board.jumpers.iter().map(|j| &j.code))
            .chain(board.fuses.iter().map(|f| &f.code))
            .chain(board.terminals.iter().map(|t| &t.code))
            .chain(board.links.iter().map(|l| &l.code))
            .chain(board.groups.iter().map(|g| &g.code))
            .chain(board.banks.iter().map(|b| &b.code));
        for code in codes {
            assert!(says(&all, code), "{name}: nothing says {code}");
        }
        for text in
            board.headers.iter().map(|h| &h.title).chain(board.supplies.iter().map(|s| &s.title))
        {
            assert!(says(&all, text), "{name}: nothing says {text}");
        }
        // Matrix and settings are tables: whole rows must be there.
        let document = good(&board, &[]);
        let rows = rows(&document);
        let drawn = figures(&board, &Words::english(), &mut Typesetter::new(), Paper::A4);
        let banks: Vec<String> = drawn
            .into_iter()
            .filter(|figure| figure.name.starts_with("switches"))
            .map(|figure| figure.scene.description)
            .collect();
        for layout in &board.layouts {
            let entries = layout.speeds.iter().map(|s| match s.number() {
                0 => "\u{2013}".to_owned(),
                number => number.to_string(),
            });
            // The last column says how the layout is set, where it is not entered on a panel.
            let set = match board.layout_entry() {
                LayoutEntry::Panel => None,
                LayoutEntry::Selector(id) => {
                    let positions = &board[id].positions;
                    let sets = positions.iter().find(|it| it.layout == Some(layout.number));
                    Some(sets.expect("one sets it").name.clone())
                }
                LayoutEntry::Ways { bank, field } => {
                    let field = &board[bank].fields[field];
                    let wanted = Meaning::Layout(Some(layout.number));
                    let sets = field.settings.iter().find(|it| it.meaning == wanted);
                    let ways = sets.expect("one sets it").positions.iter().zip(field.first..);
                    let word = |on: &bool| if *on { "on" } else { "off" };
                    let all: Vec<_> = ways.map(|(on, way)| format!("{way} {}", word(on))).collect();
                    Some(all.join(", "))
                }
            };
            let row: Vec<String> =
                std::iter::once(layout.number.to_string()).chain(entries).chain(set).collect();
            assert!(rows.contains(&row), "{name}: no row {row:?}");
        }
        for field in board.banks.iter().flat_map(|bank| &bank.fields) {
            for setting in &field.settings {
                let positions: Vec<String> = setting
                    .positions
                    .iter()
                    .zip(field.first..)
                    .map(|(on, way)| format!("{way} {}", if *on { "on" } else { "off" }))
                    .collect();
                // Drawn one by one, and told to those who cannot see it.
                let shipped = setting.positions == field.shipped;
                let meaning = match &setting.meaning {
                    Meaning::Allowance(number) => number.to_string(),
                    Meaning::Layout(Some(number)) => format!("layout {number}"),
                    Meaning::Layout(None) => "no layout".to_owned(),
                    Meaning::Words(words) => words.trim_end_matches('.').to_owned(),
                };
                let end = if shipped { ", as shipped." } else { "." };
                let said = format!("{}: {meaning}{end}", positions.join(", "));
                let found = banks.iter().any(|bank| bank.contains(&said));
                assert!(found, "{name}: {said} in {banks:?}");
            }
        }
    }
}

/// The cells of all tables as plain words.
fn rows(document: &Document) -> Vec<Vec<String>> {
    fn tables(blocks: &[Block]) -> Vec<&Table> {
        let mut all = Vec::new();
        for block in blocks {
            match block {
                Block::Table(table) => all.push(table),
                Block::Beside { parts, .. } => {
                    parts.iter().for_each(|part| all.extend(tables(part)));
                }
                _ => {}
            }
        }
        all
    }
    let rows = tables(&document.blocks).into_iter().flat_map(|table| &table.rows);
    rows.map(|row| row.iter().map(|cell| plain_text(cell)).collect()).collect()
}

/// The table of headers stands beside the board plan only where all its rows have room: one for each
/// header and device.
#[test]
fn the_table_beside_the_plan_has_room_for_its_rows() {
    fn beside(blocks: &[Block]) -> bool {
        blocks.iter().any(|block| match block {
            Block::Beside { .. } => true,
            Block::Landscape(blocks) => beside(blocks),
            _ => false,
        })
    }
    let (mut with, mut without, mut few_headers) = (0, 0, 0);
    for seed in 0..400 {
        let board = compile::sound(&generate::boards::generate(seed));
        let all = lidsheet::decide::services(&board);
        let rows: usize = all.iter().map(|service| service.devices(&board).len().max(1)).sum();
        let few = rows > 16 && board.headers.len() <= 16;
        if seed >= 60 && !few {
            continue;
        }
        let document = good(&board, &[]);
        let landscape = document.blocks.iter().filter(|block| matches!(block, Block::Landscape(_)));
        let first: Vec<Block> = landscape.take(1).cloned().collect();
        assert_eq!(beside(&first), rows <= 16, "seed {seed}: {rows} rows");
        *(if rows <= 16 { &mut with } else { &mut without }) += 1;
        few_headers += usize::from(few);
    }
    assert!(with > 5 && without > 5 && few_headers > 2, "{with}, {without}, {few_headers}");
}

/// No sheet speaks of a circulation pump on a board that has none, the sum for the heater allowance
/// and its example included.
#[test]
fn a_circulation_pump_that_is_not_there_is_not_spoken_of() {
    let mut sums = 0;
    for seed in 0..300 {
        let board = compile::sound(&generate::boards::generate(seed));
        let all = lidsheet::decide::services(&board);
        let mut served = all.iter().flat_map(|service| &service.served);
        let circulation = lidsheet::board::Device::Circulation;
        if board.columns.contains(&circulation) || served.any(|it| it.device == circulation) {
            continue;
        }
        let all = words(&good(&board, &[]).blocks, true);
        for text in &all {
            let lower = text.to_lowercase();
            assert!(!lower.contains("circulation pump"), "seed {seed}: {text}");
        }
        sums += usize::from(all.iter().any(|text| text == "Remaining for your breaker"));
        if sums > 4 {
            return;
        }
    }
    panic!("only {sums} boards");
}

#[test]
fn every_link_leads_to_a_place_that_is_there() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        let document = good(&board, &[]);
        let places = places(&document.blocks);
        let mut links = Vec::new();
        links_of(&document.blocks, &mut links);
        for link in &links {
            assert!(places.contains(link), "{name}: nothing is at {link}");
        }
        for header in &board.headers {
            let to_socket = format!("socket-{}", header.code);
            assert!(links.contains(&to_socket), "{name}: nothing leads to {to_socket}");
            // The drawing of the header leads to the plan.
            for place in [to_socket, format!("plan-{}", header.code)] {
                let there = places.iter().filter(|p| **p == place).count();
                assert_eq!(there, 1, "{name}: {place}");
            }
        }
    }
}

fn places(blocks: &[Block]) -> Vec<String> {
    fn of_items(items: &[lidsheet::scene::Item], found: &mut Vec<String>) {
        for item in items {
            match item {
                lidsheet::scene::Item::Anchor { name, .. } => found.push(name.clone()),
                lidsheet::scene::Item::Group { items, .. } => of_items(items, found),
                _ => {}
            }
        }
    }
    let mut found = Vec::new();
    for block in blocks {
        match block {
            Block::Heading { anchor, .. } => found.extend(anchor.clone()),
            Block::Figure { scene, .. } => of_items(&scene.items, &mut found),
            Block::Landscape(blocks) | Block::Together(blocks) | Block::Columns { blocks, .. } => {
                found.extend(places(blocks));
            }
            Block::Beside { parts, .. } => {
                parts.iter().for_each(|blocks| found.extend(places(blocks)));
            }
            _ => {}
        }
    }
    found
}

fn links_of(blocks: &[Block], found: &mut Vec<String>) {
    fn take(inlines: &[Inline], found: &mut Vec<String>) {
        for inline in inlines {
            if let Inline::Link { target: Target::Anchor(name), .. } = inline {
                found.push(name.clone());
            }
        }
    }
    for block in blocks {
        match block {
            Block::Heading { text, .. } | Block::Paragraph(text) => take(text, found),
            Block::Table(table) => {
                let cells = table.head.iter().chain(table.rows.iter().flatten());
                cells.for_each(|cell| take(cell, found));
            }
            Block::List { items, .. } => items.iter().for_each(|item| links_of(item, found)),
            Block::Caution { blocks, .. }
            | Block::Landscape(blocks)
            | Block::Together(blocks)
            | Block::Columns { blocks, .. } => links_of(blocks, found),
            Block::Beside { parts, .. } => parts.iter().for_each(|blocks| links_of(blocks, found)),
            _ => {}
        }
    }
}

fn cautions(document: &Document) -> Vec<&Block> {
    document.blocks.iter().filter(|block| matches!(block, Block::Caution { .. })).collect()
}

/// With every template emptied, each safety message of the full sheets is still there.
#[test]
fn no_template_can_take_a_caution_away() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        let full = good(&board, &[]);
        let emptied: Vec<(String, &str)> =
            Templates::built_in(&mut Sources::default()).file_names().map(|n| (n, "")).collect();
        let emptied: Vec<(&str, &str)> =
            emptied.iter().map(|(name, text)| (name.as_str(), *text)).collect();
        let bare = good(&board, &emptied);
        assert!(cautions(&full).len() >= 7, "{name}");
        for caution in cautions(&full) {
            assert!(cautions(&bare).contains(&caution), "{name}: {caution:?} is gone");
        }
        let bare_words = words(&bare.blocks, false).join(" ");
        for wanted in [
            "Turn the breaker off",
            "Lock it off",
            "One person does this work",
            "Your local code and a licensed electrician decide",
            "The nameplate comes first",
        ] {
            assert!(bare_words.contains(wanted), "{name}: nothing says `{wanted}`");
        }
    }
}

#[test]
fn a_caution_keeps_its_place_and_stands_there_once() {
    let board = demo::board("heron-8");
    let document = good(&board, &[]);
    let mut seen: Vec<&Block> = Vec::new();
    for caution in cautions(&document) {
        assert!(!seen.contains(&caution), "{caution:?} stands there twice");
        seen.push(caution);
    }
    let supply = document.blocks.iter().position(|block| {
        matches!(block, Block::Heading { level: 1, text, .. } if plain_text(text) == "Supply")
    });
    let next = &document.blocks[supply.expect("there is a supply section") + 1];
    assert!(matches!(next, Block::Caution { signal: Signal::Warning, .. }), "{next:?}");
}

/// Signal words go by harm (ANSI Z535 as check-values.md section 9 has it): a shock is never a
/// mere CAUTION or NOTICE.
#[test]
fn a_shock_hazard_is_never_called_less_than_a_warning() {
    let board = demo::board("heron-8");
    let mut shocks = 0;
    for block in cautions(&good(&board, &[])) {
        let Block::Caution { signal, blocks } = block else { continue };
        let text = words(blocks, false).join(" ").to_lowercase();
        let shock = ["live", "voltage", "kill", "burn", "power on"];
        if shock.iter().any(|word| text.contains(word)) {
            assert!(*signal <= Signal::Warning, "{text}");
            shocks += 1;
        }
    }
    assert!(shocks >= 5, "only {shocks} cautions tell of a shock");
}

#[test]
fn the_sheets_never_claim_approval() {
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let all = words(&good(&demo::board(name), &[]).blocks, true).join("\n").to_lowercase();
        for claim in ["complies with", "code approved", "code-approved", "certified", "compliant"] {
            assert!(!all.contains(claim), "{name}: {claim}");
        }
        assert!(all.contains("licensed electrician"), "{name}");
    }
}

/// Titles that look like structure to a reader of Markdown, HTML or templates.
const HOSTILE: [&str; 9] = [
    "](javascript:alert(1))",
    "<script>alert(1)</script>",
    "| x | y |",
    "![x](figure:board-plan)",
    "{{ board.name }} {% if x %}",
    "# 1. [ ] x",
    "**x** _y_ `z` ~~w~~",
    "[x](#plan) <https://x.example>",
    "&amp; \\| \\\\",
];

#[test]
fn what_is_put_into_a_template_is_shown_and_never_structure() {
    let plain = good(&compile::sound(&heron()), &[]);
    for hostile in HOSTILE {
        let text = heron()
            .replace("title: Pump 1,", &format!("title: '{hostile}',"))
            .replace("name: Heron 8", &format!("name: '{hostile}'"))
            .replace("title: 240 V, four wires\n", &format!("title: '{hostile}'\n"))
            .replace("title: Panel with six buttons", &format!("title: '{hostile}'"));
        let document = good(&compile::sound(&text), &[]);
        assert_eq!(shape(&document.blocks), shape(&plain.blocks), "{hostile}");
        assert_eq!(document.title, format!("{hostile}: wiring sheets"));
        let all = words(&document.blocks, false);
        // Title, headings, cells and sentences each show it letter by letter.
        let exactly = all.iter().filter(|text| *text == hostile).count();
        assert!(exactly >= 3, "{hostile} stands {exactly} times by itself");
    }
}

/// The kinds of blocks with how many parts they have, without their words.
fn shape(blocks: &[Block]) -> Vec<String> {
    blocks
        .iter()
        .map(|block| match block {
            Block::Heading { level, anchor, .. } => format!("heading {level} {anchor:?}"),
            Block::Title { .. } => "title".into(),
            Block::Paragraph(inlines) => {
                let links = inlines.iter().filter(|i| matches!(i, Inline::Link { .. })).count();
                format!("paragraph with {links} links")
            }
            Block::List { kind, items } => {
                let items: Vec<_> = items.iter().map(|item| shape(item)).collect();
                format!("{kind:?} {items:?}")
            }
            Block::Table(table) => format!("table {} {}", table.columns.len(), table.rows.len()),
            Block::Figure { .. } => "figure".into(),
            Block::Caution { signal, blocks } => format!("{signal:?} {:?}", shape(blocks)),
            Block::Columns { count, blocks } => format!("{count} columns {:?}", shape(blocks)),
            Block::Together(blocks) => format!("together {:?}", shape(blocks)),
            Block::Step { number, blocks } => format!("step {number} {:?}", shape(blocks)),
            Block::Cards(cards) => format!("{} cards", cards.len()),
            Block::Beside { shares, parts } => {
                format!("{shares:?} {:?}", parts.iter().map(|part| shape(part)).collect::<Vec<_>>())
            }
            Block::Landscape(blocks) => format!("landscape {:?}", shape(blocks)),
            Block::Contents { .. } => "contents".into(),
            Block::PageBreak => "page break".into(),
        })
        .collect()
}

/// The steps of a panel are a user's prose: lists are steps, the number is words, links and HTML
/// are only text, and a template inside does nothing.
#[test]
fn the_steps_of_a_panel_are_read_and_never_run() {
    let text = heron().replace(
        "3. Press **Up** until the panel shows **{{ layout }}**.",
        "3. Press **Up** [here](#plan) <b>until</b> shows **{{layout}}**. ![p](figure:board-plan)",
    );
    let document = good(&compile::sound(&text), &[]);
    let steps = document.blocks.iter().rev().find_map(|block| match block {
        Block::List { kind: ListKind::Steps(1), items } => Some(items),
        _ => None,
    });
    let items = steps.expect("the panel has steps");
    assert_eq!(items.len(), 4);
    let Block::Paragraph(step) = &items[2][0] else { panic!("{:?}", items[2]) };
    assert_eq!(plain_text(step), "Press Up here <b>until</b> shows the layout number. p");
    assert!(step.contains(&Inline::Strong("the layout number".into())));
    assert!(step.iter().all(|inline| !matches!(inline, Inline::Link { .. })));
}

#[test]
fn a_template_of_ones_own_takes_the_place_of_ours() {
    let board = demo::board("heron-8");
    let mine =
        "# Meine Tafel ![](anchor:panel)\n\nSee [sockets](#sockets), **{{ board.name }}**.\n";
    let document = good(&board, &[("panel.md", mine)]);
    let all = words(&document.blocks, false);
    assert!(all.contains(&"See sockets, Heron 8.".to_owned()));
    let mut sources = Sources::default();
    let mut templates = Templates::built_in(&mut sources);
    let file = sources.add("other.md", "");
    assert!(!templates.replace("other.md", file, ""));
    assert!(!templates.replace("cautions.md", file, ""));
}

/// Each with the piece of the template that is marked, and where it stands.
#[test]
fn what_a_sheet_cannot_hold_is_marked_in_the_template() {
    let board = demo::board("heron-8");
    let problems = |text: &str| sheets(&board, &[("panel.md", text)]).expect_err("it is refused");
    let content = Code::TemplateContent;
    assert_eq!(
        problems("# Panel\n\n<b>x</b>\n"),
        [(content, 3, 1, "<b>".into()), (content, 3, 5, "</b>".into())]
    );
    assert_eq!(
        problems("# Panel\n\n![x](figure:nope)\n"),
        [(content, 3, 1, "![x](figure:nope)".into())]
    );
    assert_eq!(
        problems("See [this](https://example.org).\n"),
        [(content, 1, 5, "[this](https://example.org)".into())]
    );
    assert_eq!(problems("See [this](#nowhere).\n"), [(content, 1, 10, "](#nowhere)".into())]);
    assert_eq!(
        problems("Words ![x](figure:board-plan)\n"),
        [(content, 1, 7, "![x](figure:board-plan)".into())]
    );
    assert_eq!(problems("a\n\n    b\n"), [(content, 3, 5, "b".into())]);
    assert_eq!(
        problems("a\n{{ board.nmae }}\n"),
        [(Code::TemplateUnfilled, 2, 4, "board.nmae".into())]
    );
    assert_eq!(problems("a\n\n{% for x in %}\n")[0].0, Code::TemplateUnfilled);
    assert_eq!(problems("{{ board.name | safe }}")[0].0, Code::TemplateUnfilled);
    assert_eq!(problems("{% include 'front' %}")[0].0, Code::TemplateUnfilled);
}

/// Each would take a lifetime, or all the memory that there is.
#[test]
fn no_template_runs_on_or_grows_without_end() {
    let board = demo::board("heron-8");
    for text in [
        "{% for a in range(9999) %}{% for b in range(9999) %}x{% endfor %}{% endfor %}",
        "{{ 'x' * 900000000 }}",
        "{% macro d(s, n) %}{{ d(s ~ s, n - 1) }}{% endmacro %}{{ d('xxxxxxxx', 40) }}",
        "{% macro d() %}{{ d() }}{{ d() }}{% endmacro %}{{ d() }}",
        "{% for a in range(9999) %}{{ range(9999) | join('xxxxxxxxxxxxxxxx') }}{% endfor %}",
        "{% for a in range(9999) %}{{ 'x' * 99999 }}{% endfor %}",
    ] {
        let refused = sheets(&board, &[("panel.md", text)]).expect_err("it is refused");
        assert_eq!(refused[0].0, Code::TemplateUnfilled, "{text}");
    }
}

#[test]
fn no_sheets_are_made_with_a_figure_that_lost_something() {
    let board = crate::compile::demo::board("heron-8");
    let mut figures = figures(&board, &Words::english(), &mut Typesetter::new(), Paper::A4);
    let lost = Problem::new(Code::Internal, board.jumpers[0].span, "a name is lost");
    figures[0].lost.push(lost.clone());
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    // That the template does not show the figure is no way out: it is also a file of its own.
    let mut templates = Templates::built_in(&mut sources);
    let file = sources.add("front.md", "");
    assert!(templates.replace("front.md", file, ""));
    assert!(wiring_sheets(&board, &figures, &templates, Paper::A4, &mut problems).is_err());
    assert_eq!(problems.sorted(), [lost]);
}

#[test]
fn problems_of_all_templates_come_in_one_run() {
    let board = demo::board("heron-8");
    let replaced =
        [("voltages.md", "<b>\n"), ("panel.md", "{{ nothing }}\n"), ("supply.md", "<i>\n")];
    let problems = sheets(&board, &replaced).expect_err("all three are refused");
    assert_eq!(problems.len(), 3, "{problems:?}");
}

#[test]
fn a_link_to_a_section_that_was_left_out_becomes_words() {
    let board = demo::board("heron-8");
    let to_sockets = |document: &Document| {
        let mut links = Vec::new();
        links_of(&document.blocks, &mut links);
        let sockets = links.iter().filter(|link| link.starts_with("socket-")).count();
        (sockets, links.len())
    };
    assert!(to_sockets(&good(&board, &[])).0 >= board.headers.len());
    let document = good(&board, &[("sockets.md", "# Sockets ![](anchor:sockets)\n")]);
    let (sockets, others) = to_sockets(&document);
    assert!(sockets == 0 && others > 0, "{sockets} links to sockets, {others} in all");
    assert!(says(&words(&document.blocks, false), "J2"));
}

proptest! {
    #![proptest_config(crate::generate::cases(48))]

    #[test]
    fn any_board_has_sheets(text in generate::any_board()) {
        let board = compile::sound(&text);
        let document = sheets(&board, &[]);
        let document = match document {
            Ok(document) => document,
            Err(problems) => return Err(TestCaseError::fail(format!("{problems:?}"))),
        };
        let all = words(&document.blocks, false);
        for header in &board.headers {
            prop_assert!(all.contains(&header.title), "{}", header.title);
            prop_assert!(all.contains(&header.code), "{}", header.code);
        }
        let rows = rows(&document);
        for layout in &board.layouts {
            let number = layout.number.to_string();
            prop_assert!(rows.iter().any(|row| row.first() == Some(&number)), "{number}");
        }
    }
}
