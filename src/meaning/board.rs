//! The facts of a board.
//!
//! Every type is taken apart by its fields, so that a field that comes to the language does not
//! compile until it is a fact here.

use super::value::{Value, code, positions_words, text};
use super::{Facts, Kind, Meaning, Property as P};
use crate::board::{
    About, Bank, Board, Device, Effect, Electronics, Feed, Field, Fuse, Group, GroupSource, Header,
    HeaderId, Heater, Jumper, Layout, Link, Meaning as SettingMeaning, Node, OwnDevice, Panel,
    Part, PartId, Position, Selector, Setting, Socket, Supply, Terminal, Traits, WireColour,
};
use crate::geometry::Point;

/// Everything that a board says.
pub fn of_board(board: &Board) -> Meaning {
    let mut all = Meaning::default();
    let Board {
        about,
        devices,
        parts,
        terminals,
        links,
        supplies,
        electronics,
        groups,
        jumpers,
        fuses,
        sockets,
        headers: _,
        heater,
        columns,
        layouts,
        banks,
        selectors,
        panels,
        // How long texts are read: it follows from them.
        prose: _,
        // The words that stand in are marked themselves.
        stand_ins: _,
    } = board;
    of_about(&mut all, about);
    devices.iter().for_each(|own| of_device(&mut all, own));
    parts.iter().for_each(|part| of_part(&mut all, part));
    terminals.iter().for_each(|terminal| of_terminal(&mut all, board, terminal));
    links.iter().for_each(|link| of_link(&mut all, board, link));
    supplies.iter().for_each(|supply| of_supply(&mut all, board, supply));
    if let Some(Electronics { nodes }) = electronics {
        all.thing(Kind::Electronics, "")
            .say(P::Between, sorted(nodes, |node| node_code(board, *node)));
    }
    groups.iter().for_each(|group| of_group(&mut all, board, group));
    jumpers.iter().for_each(|jumper| of_jumper(&mut all, board, jumper));
    fuses.iter().for_each(|fuse| of_fuse(&mut all, board, fuse));
    sockets.iter().for_each(|socket| of_socket(&mut all, socket));
    board.header_ids().for_each(|header| of_header(&mut all, board, header));
    if let Some(Heater { watts, at }) = heater {
        all.thing(Kind::Heater, "").say(P::Watts, *watts).say(P::Volts, *at);
    }
    layouts.iter().for_each(|layout| of_layout(&mut all, columns, layout));
    banks.iter().for_each(|bank| of_bank(&mut all, board, bank));
    selectors.iter().for_each(|selector| of_selector(&mut all, board, selector));
    panels.iter().for_each(|panel| of_panel(&mut all, panel));
    all
}

fn of_about(all: &mut Meaning, about: &About) {
    let About { name, maker, part, revision, dated, summary, max_current, designators } = about;
    all.thing(Kind::Board, "")
        .say(P::Name, text(name))
        .say(P::Maker, text(maker))
        .say(P::PartNumber, text(part))
        .say(P::Revision, text(revision))
        .say(P::Dated, code(dated))
        .say(P::Summary, text(summary))
        .say(P::Designators, code(format!("{designators:?}")))
        .may(P::MaxCurrent, *max_current);
}

fn of_device(all: &mut Meaning, own: &OwnDevice) {
    let OwnDevice { device, runs_with, is_cord, span: _ } = own;
    let Traits { motor, continuous, counted, moves_water, follows: _ } = device.traits();
    all.thing(Kind::Device, device.to_string())
        .say(P::Motor, motor)
        .say(P::Continuous, continuous)
        .say(P::Counted, counted)
        .say(P::MovesWater, moves_water)
        .may(if *is_cord { P::CordOf } else { P::RunsWith }, *runs_with);
}

fn of_part(all: &mut Meaning, part: &Part) {
    let Part { name, title, size, at, span: _ } = part;
    all.thing(Kind::Part, name)
        .say(P::Size, *size)
        .say(P::At, *at)
        .may(P::Title, title.as_deref().map(text));
}

fn of_terminal(all: &mut Meaning, board: &Board, terminal: &Terminal) {
    let Terminal { code: label, part, at, wire, ground, span: _ } = terminal;
    placed(all, Kind::Terminal, label, board, (*part, *at))
        .may(P::Wire, *wire)
        .say(P::Ground, *ground);
}

fn of_link(all: &mut Meaning, board: &Board, link: &Link) {
    let Link { code: label, part, at, positions, shipped, span: _ } = link;
    placed(all, Kind::Link, label, board, (*part, *at))
        .say(P::Between, sorted(positions, |id| board[*id].code.clone()))
        .say(P::Shipped, code(&board[*shipped].code));
}

fn of_supply(all: &mut Meaning, board: &Board, supply: &Supply) {
    let Supply { name, title, system, lands, links, max_current, span: _ } = supply;
    let mut facts = all.thing(Kind::Supply, name);
    facts.say(P::Title, text(title)).say(P::System, *system).may(P::MaxCurrent, *max_current);
    for (terminal, conductor) in board.terminals.iter().zip(lands.iter()) {
        facts.say_of(P::Lands, &terminal.code, *conductor);
    }
    for (link, on) in board.links.iter().zip(links.iter()) {
        facts.say_of(P::Links, &link.code, code(&board[*on].code));
    }
}

fn of_group(all: &mut Meaning, board: &Board, group: &Group) {
    let Group { code: label, part, at, tabs, source, span: _ } = group;
    let mut facts = placed(all, Kind::Group, label, board, (*part, *at));
    facts.say(P::Tabs, u32::from(*tabs));
    match source {
        // The second is where *common* is: their order counts.
        GroupSource::Between { nodes, declared } => facts
            .say(P::Between, nodes.map(|node| node_code(board, node)).to_vec())
            .say(P::Volts, *declared),
        GroupSource::Isolated(volts) => facts.say(P::Isolated, true).say(P::Volts, *volts),
    };
}

fn of_jumper(all: &mut Meaning, board: &Board, jumper: &Jumper) {
    let Jumper { code: label, part, at, groups, shipped, span: _ } = jumper;
    placed(all, Kind::Jumper, label, board, (*part, *at))
        .say(P::Groups, sorted(groups, |id| board[*id].code.clone()))
        .say(P::Shipped, code(&board[*shipped].code));
}

fn of_fuse(all: &mut Meaning, board: &Board, fuse: &Fuse) {
    let Fuse { code: label, part, at, rating, speed, span: _ } = fuse;
    placed(all, Kind::Fuse, label, board, (*part, *at))
        .say(P::Rating, *rating)
        .may(P::Speed, speed.as_ref().map(code));
}

fn of_socket(all: &mut Meaning, socket: &Socket) {
    let Socket { name, title, pitch, key_drawn, pins, wires, one_speed_wires, span: _ } = socket;
    all.thing(Kind::Socket, name)
        .say(P::Title, text(title))
        .say(P::Pitch, *pitch)
        .may(P::KeyDrawn, *key_drawn)
        .say(P::Pins, pins.clone())
        .say_of(P::Wires, "", colors(wires))
        .say_of(P::Wires, "one speed", colors(one_speed_wires));
}

/// The colors of a cord in the order of its pins.
fn colors(wires: &[Option<WireColour>]) -> Vec<String> {
    wires.iter().map(|wire| wire.map_or("none", |wire| wire.letters).to_owned()).collect()
}

fn of_header(all: &mut Meaning, board: &Board, id: HeaderId) {
    let Header { code: label, title, part, at, socket, key, feed, fuse, max, serves: _, span: _ } =
        &board[id];
    let mut facts = placed(all, Kind::Header, label, board, (*part, *at));
    facts
        .say(P::Title, text(title))
        .say(P::Socket, code(&board[*socket].name))
        .may(P::Key, *key)
        .may(P::Fuse, fuse.map(|fuse| code(&board[fuse].code)))
        .may(P::MaxCurrent, *max);
    facts.say(
        P::Feed,
        match feed {
            Feed::Group(group) => code(&board[*group].code),
            Feed::Jumper(jumper) => code(&board[*jumper].code),
        },
    );
    // What runs there counts, not in how many pieces it was written.
    for layout in &board.layouts {
        if let Some(device) = board.device_at(id, layout) {
            facts.say_of(P::Serves, number(layout), device);
        }
    }
}

fn of_layout(all: &mut Meaning, columns: &[Device], layout: &Layout) {
    let Layout { number: _, speeds, span: _ } = layout;
    let mut facts = all.thing(Kind::Layout, number(layout));
    for (device, speeds) in columns.iter().zip(speeds) {
        facts.say_of(P::Speeds, device.to_string(), *speeds);
    }
}

fn of_bank(all: &mut Meaning, board: &Board, bank: &Bank) {
    let Bank { code: label, part, at, on_side, fields, span: _ } = bank;
    placed(all, Kind::Bank, label, board, (*part, *at)).say(P::OnSide, *on_side);
    for field in fields {
        let Field { first: _, last: _, effect, settings, shipped, span: _ } = field;
        let mut facts = all.thing(Kind::Switches, format!("{label} {}", field.label()));
        facts.say(P::Shipped, shipped.clone()).may(P::Effect, effect.as_ref().map(effect_value));
        for Setting { positions, meaning, written: _ } in settings {
            facts.say_of(P::Setting, positions_words(positions), setting_value(meaning));
        }
    }
}

fn effect_value(effect: &Effect) -> Value {
    match effect {
        Effect::Titled(title) => text(title),
        Effect::HeaterAllowance => code("heater allowance"),
        Effect::Frequency => code("frequency"),
        Effect::Restore => code("restore"),
        Effect::LayoutChange => code("layout change"),
        Effect::LayoutNumber => code("layout number"),
    }
}

fn setting_value(meaning: &SettingMeaning) -> Value {
    match meaning {
        SettingMeaning::Allowance(allowance) => code(allowance),
        SettingMeaning::Layout(Some(layout)) => code(layout),
        SettingMeaning::Layout(None) => code("none"),
        SettingMeaning::Words(words) => text(words),
    }
}

fn of_selector(all: &mut Meaning, board: &Board, selector: &Selector) {
    let Selector { code: label, part, at, positions, shipped, span: _ } = selector;
    let mut facts = placed(all, Kind::Selector, label, board, (*part, *at));
    for Position { name, layout } in positions {
        let layout = layout.map_or_else(|| code("none"), code);
        facts.say_of(P::Position, name, layout);
    }
    // They lie round it in this order.
    facts.say(P::Between, positions.iter().map(|it| it.name.clone()).collect::<Vec<_>>());
    facts.may(P::Shipped, positions.get(*shipped).map(|position| code(&position.name)));
}

fn of_panel(all: &mut Meaning, panel: &Panel) {
    let Panel { name, title, choose_layout, span: _ } = panel;
    all.thing(Kind::Panel, name)
        .say(P::Title, text(title))
        .may(P::Steps, choose_layout.as_deref().map(text));
}

/// The facts of a thing that is somewhere on a circuit board.
fn placed<'a>(
    all: &'a mut Meaning,
    kind: Kind,
    label: &str,
    board: &Board,
    (part, at): (PartId, Point),
) -> Facts<'a> {
    let mut facts = all.thing(kind, label);
    facts.say(P::On, code(&board[part].name)).say(P::At, at);
    facts
}

/// A layout as it stands among others, so that 9 comes before 10.
fn number(layout: &Layout) -> String {
    format!("{:03}", layout.number.get())
}

fn node_code(board: &Board, node: Node) -> String {
    match node {
        Node::Terminal(terminal) => board[terminal].code.clone(),
        Node::Link(link) => board[link].code.clone(),
    }
}

/// Codes whose order does not count.
fn sorted<T>(things: &[T], code: impl FnMut(&T) -> String) -> Vec<String> {
    let mut all: Vec<String> = things.iter().map(code).collect();
    all.sort();
    all
}
