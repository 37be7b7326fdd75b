//! The things on a board: each built from what was written, its names resolved.

use super::super::{
    About, Designators, Feed, Fuse, FuseId, Group, GroupId, GroupSource, Header, Heater, Jumper,
    JumperId, LayoutSet, Link, LinkId, Node, Panel, Part, PartId, Pin, Socket, SocketId, Terminal,
    TerminalId,
};
use super::names::{Directory, Names};
use super::{Draft, sound, words};
use crate::diagnostic::{Code, Problem, Problems};
use crate::geometry::Point;
use crate::source::Span;
use crate::spec::{self, Field, Name, Serves, Spec};

/// The board's own data.
pub fn about(
    about: &spec::About,
    standard: Option<Designators>,
    problems: &mut Problems,
) -> Option<About> {
    let dated = words::date(&about.dated, problems);
    Some(About {
        name: about.name.value()?.clone(),
        maker: about.maker.value()?.clone(),
        part: about.part.value()?.clone(),
        revision: about.revision.value()?.clone(),
        dated: dated?,
        summary: about.summary.value()?.clone(),
        max_current: optional(&about.max_current)?,
        designators: standard?,
    })
}

/// `parts`.
pub fn parts(spec: &Spec) -> Vec<Option<Part>> {
    let part = |part: &spec::Part| {
        Some(Part {
            name: part.name.value.clone(),
            title: optional(&part.title)?,
            size: *part.size.value()?,
            at: *part.at.value()?,
            span: part.name.span,
        })
    };
    spec.parts.entries.iter().map(part).collect()
}

/// `terminals`.
pub fn terminals(
    spec: &Spec,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Vec<Option<Terminal>> {
    let terminal = |terminal: &spec::Terminal| {
        let asker = format!("terminal {}", terminal.name.value);
        let place = place(&terminal.place, &asker, all, problems);
        let wire = words::wire(&terminal.wire, problems);
        if !terminal.wire.is_absent() && wire.is_none() {
            return None;
        }
        let (part, at) = place?;
        let ground = optional(&terminal.ground)?.unwrap_or(false);
        let (code, span) = named(&terminal.name);
        Some(Terminal { code, part, at, wire, ground, span })
    };
    spec.terminals.entries.iter().map(terminal).collect()
}

/// `links`.
pub fn links(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Link>> {
    let mut build = |link: &spec::Link| {
        let asker = format!("link {}", link.name.value);
        let place = place(&link.place, &asker, all, problems);
        let positions = link.joins.get().and_then(|joins| {
            if joins.value.len() < 2 {
                problems.error(
                    Problem::new(
                        Code::NowhereToGo,
                        joins.span,
                        format!("{asker} joins fewer than two terminals"),
                    )
                    .help("a link that never moves is no link; give a group the terminal itself"),
                );
                return None;
            }
            let found = list(&joins.value, &all.terminals, &asker, all, problems)?;
            for (index, name) in found.iter().zip(&joins.value) {
                let terminal = spec.terminals.entries.get(*index);
                if terminal.is_some_and(|terminal| terminal.ground.value() == Some(&true)) {
                    problems.error(
                        Problem::new(
                            Code::GroupOnEarth,
                            name.span,
                            format!("{asker} joins the protective earth"),
                        )
                        .note("the earth terminal carries no current of any load"),
                    );
                    return None;
                }
            }
            Some(found)
        });
        let shipped = all.terminals.find_field(&link.shipped, &asker, all, problems);
        shipped_on(&link.joins, positions.as_deref(), &link.shipped, shipped, &asker, problems);
        let (part, at) = place?;
        let positions = positions?.into_iter().map(TerminalId).collect();
        let (code, span) = named(&link.name);
        Some(Link { code, part, at, positions, shipped: TerminalId(shipped?), span })
    };
    spec.links.entries.iter().map(&mut build).collect()
}

/// `groups`.
pub fn groups(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Group>> {
    let mut build = |group: &spec::Group| {
        let asker = format!("group {}", group.name.value);
        let place = place(&group.place, &asker, all, problems);
        let source = group_source(spec, group, &asker, all, problems);
        let (part, at) = place?;
        let tabs = optional(&group.tabs)?.unwrap_or(1);
        let (code, span) = named(&group.name);
        Some(Group { code, part, at, tabs, source: source?, span })
    };
    spec.groups.entries.iter().map(&mut build).collect()
}

fn group_source(
    spec: &Spec,
    group: &spec::Group,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<GroupSource> {
    let name = group.name.span;
    let unclear = |message: String| Problem::new(Code::SourceUnclear, name, message);
    match (&group.between, &group.isolated) {
        (Field::Unread, _) | (_, Field::Unread) => return None,
        (Field::Absent, Field::Absent) => {
            problems.error(
                unclear(format!("{asker} does not say where its voltage comes from"))
                    .label("has neither `between` nor `isolated`")
                    .help("add `between:` with the two points that it lies between, and `volts:`"),
            );
            return None;
        }
        (Field::Is(_), Field::Is(_)) => {
            problems.error(
                unclear(format!("{asker} has two sources"))
                    .label("has both `between` and `isolated`")
                    .help("keep the one that feeds it"),
            );
            return None;
        }
        (Field::Absent, Field::Is(isolated)) => {
            if !group.volts.is_absent() {
                problems.error(
                    unclear(format!("{asker} gives its voltage twice"))
                        .label("`isolated` has the voltage; `volts` repeats it")
                        .help("remove `volts`"),
                );
                return None;
            }
            return Some(GroupSource::Isolated(isolated.value));
        }
        (Field::Is(_), Field::Absent) => {}
    }
    if group.volts.is_absent() {
        problems.error(
            Problem::new(Code::MissingKey, name, format!("{asker} lacks the key `volts`"))
                .label("has no `volts`")
                .note("it is compared with the voltage that the first supply gives"),
        );
    }
    let between = group.between.get()?;
    let [first, second] = between.value.as_slice() else {
        let count = between.value.len();
        problems.error(
            Problem::new(
                Code::WrongValue,
                between.span,
                format!("{asker} lies between two points, not {count}"),
            )
            .label("two terminals or links belong here"),
        );
        return None;
    };
    let nodes = (node(spec, first, asker, all, problems), node(spec, second, asker, all, problems));
    if first == second {
        problems.error(
            Problem::new(
                Code::GroupShort,
                between.span,
                format!("{asker} lies between a point and itself"),
            )
            .label("the same point twice"),
        );
        return None;
    }
    let nodes = [nodes.0?, nodes.1?];
    Some(GroupSource::Between { nodes, declared: *group.volts.value()? })
}

/// The point that `name` stands for: a terminal or a link's inner point.
fn node(
    spec: &Spec,
    name: &Name,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<Node> {
    let link = all.links.find(name, asker, all, &mut Problems::default());
    if let Some(link) = link {
        return Some(Node::Link(LinkId(link)));
    }
    if !spec.links.whole {
        return None;
    }
    let terminal = all.terminals.find(name, asker, all, problems)?;
    let ground = spec.terminals.entries.get(terminal).and_then(|t| t.ground.value());
    if ground == Some(&true) {
        problems.error(
            Problem::new(
                Code::GroupOnEarth,
                name.span,
                format!("{asker} lies on the protective earth"),
            )
            .label("a ground terminal")
            .note("a load between a line and the earth makes metalwork live when the earth breaks"),
        );
        return None;
    }
    Some(Node::Terminal(TerminalId(terminal)))
}

/// `jumpers`.
pub fn jumpers(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Jumper>> {
    let mut build = |jumper: &spec::Jumper| {
        let asker = format!("jumper {}", jumper.name.value);
        let place = place(&jumper.place, &asker, all, problems);
        let groups = jumper.groups.get().and_then(|groups| {
            if groups.value.is_empty() {
                problems.error(
                    Problem::new(
                        Code::NowhereToGo,
                        groups.span,
                        format!("{asker} has no group to go to"),
                    )
                    .label("empty"),
                );
                return None;
            }
            list(&groups.value, &all.groups, &asker, all, problems)
        });
        let shipped = all.groups.find_field(&jumper.shipped, &asker, all, problems);
        shipped_on(&jumper.groups, groups.as_deref(), &jumper.shipped, shipped, &asker, problems);
        let (part, at) = place?;
        let groups = groups?.into_iter().map(GroupId).collect();
        let (code, span) = named(&jumper.name);
        Some(Jumper { code, part, at, groups, shipped: GroupId(shipped?), span })
    };
    spec.jumpers.entries.iter().map(&mut build).collect()
}

/// Reports a shipped position that is not one of those listed.
fn shipped_on(
    listed: &Field<Vec<Name>>,
    found: Option<&[usize]>,
    shipped: &Field<String>,
    on: Option<usize>,
    asker: &str,
    problems: &mut Problems,
) {
    let (Some(listed), Some(found), Some(shipped), Some(on)) =
        (listed.get(), found, shipped.get(), on)
    else {
        return;
    };
    if !found.contains(&on) {
        problems.error(
            Problem::new(
                Code::ShippedElsewhere,
                shipped.span,
                format!("{asker} is shipped on {}, which it does not list", shipped.value),
            )
            .label("not one of its own")
            .other(listed.span, "it may go to these")
            .help("list it, or ship it on one of the listed"),
        );
    }
}

/// `fuses`.
pub fn fuses(spec: &Spec, all: &Directory<'_>, problems: &mut Problems) -> Vec<Option<Fuse>> {
    let mut build = |fuse: &spec::Fuse| {
        let asker = format!("fuse {}", fuse.name.value);
        let (part, at) = place(&fuse.place, &asker, all, problems)?;
        let (code, span) = named(&fuse.name);
        let speed = optional(&fuse.speed)?;
        Some(Fuse { code, part, at, rating: *fuse.rating.value()?, speed, span })
    };
    spec.fuses.entries.iter().map(&mut build).collect()
}

/// The most pins of a socket.
const PINS: usize = 12;

/// `sockets`.
pub fn sockets(spec: &Spec, problems: &mut Problems) -> Vec<Option<Socket>> {
    let mut build = |socket: &spec::Socket| {
        let pins = socket.pins.get().and_then(|words| pins(socket, words, problems));
        let (name, span) = named(&socket.name);
        Some(Socket {
            name,
            title: socket.title.value()?.clone(),
            pitch: *socket.pitch.value()?,
            key_drawn: optional(&socket.key_drawn)?,
            pins: pins?,
            span,
        })
    };
    spec.sockets.entries.iter().map(&mut build).collect()
}

fn pins(
    socket: &spec::Socket,
    words: &crate::source::Spanned<Vec<Name>>,
    problems: &mut Problems,
) -> Option<Vec<Pin>> {
    let name = &socket.name.value;
    let count = words.value.len();
    if !(1..=PINS).contains(&count) {
        let code = if count == 0 { Code::NoValue } else { Code::TooMany };
        let message = format!("socket family {name} has {count} pins");
        problems.error(
            Problem::new(code, words.span, message).label(format!("from 1 to {PINS} are possible")),
        );
        return None;
    }
    let mut all: Vec<(Pin, Span)> = Vec::new();
    let mut good = true;
    for word in &words.value {
        let Some(pin) = words::pin(word, problems) else {
            good = false;
            continue;
        };
        let once = !matches!(pin, Pin::Signal | Pin::Screen | Pin::Ground);
        let first = all.iter().find(|(known, _)| *known == pin && once);
        if let Some((_, first)) = first {
            problems.error(
                Problem::new(
                    Code::PinTwice,
                    word.span,
                    format!("socket family {name} has two pins for `{pin}`"),
                )
                .label("the same again")
                .other(*first, "first here")
                .note("nobody could tell which of the two a wire belongs in"),
            );
            good = false;
        }
        all.push((pin, word.span));
    }
    good.then(|| all.into_iter().map(|(pin, _)| pin).collect())
}

/// `headers`.
pub fn headers(
    spec: &Spec,
    all: &Directory<'_>,
    draft: &Draft,
    problems: &mut Problems,
) -> Vec<Option<Header>> {
    let mut build = |header: &spec::Header| {
        let asker = format!("header {}", header.name.value);
        let place = place(&header.place, &asker, all, problems);
        let socket = all.sockets.find_field(&header.socket, &asker, all, problems);
        let family = socket.and_then(|socket| sound(&draft.sockets, socket));
        let keyed = family.is_none_or(|family| key_side(header, family, &asker, problems));
        let feed = feed(header, &asker, all, problems);
        let fuse = match &header.fuse {
            Field::Absent => Some(None),
            given => all.fuses.find_field(given, &asker, all, problems).map(|id| Some(FuseId(id))),
        };
        let serves = header.serves.value().and_then(|serves| serve(serves, problems));
        let (part, at) = place?;
        let (code, span) = named(&header.name);
        let header = Header {
            code,
            title: header.title.value()?.clone(),
            part,
            at,
            socket: SocketId(socket?),
            key: optional(&header.key)?,
            feed: feed?,
            fuse: fuse?,
            max: optional(&header.max)?,
            serves: serves?,
            span,
        };
        keyed.then_some(header)
    };
    spec.headers.entries.iter().map(&mut build).collect()
}

/// Whether `key` is given if and only if the family is keyed; reports it if not.
fn key_side(header: &spec::Header, family: &Socket, asker: &str, problems: &mut Problems) -> bool {
    match (&header.key, family.key_drawn) {
        (Field::Absent, Some(_)) => {
            let message = format!("{asker} does not say which side its key faces");
            problems.error(
                Problem::new(Code::KeySide, header.name.span, message)
                    .label("has no `key`")
                    .other(family.span, "this family has a key")
                    .help("add `key:` with the side that the key faces on the mounted board"),
            );
            false
        }
        (Field::Is(key), None) => {
            let message = format!("{asker} gives a key side, but its socket has no key");
            problems.error(
                Problem::new(Code::KeySide, key.span, message)
                    .label("no key to face anywhere")
                    .other(family.span, "this family has no `key drawn`"),
            );
            false
        }
        _ => true,
    }
}

fn feed(
    header: &spec::Header,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<Feed> {
    match (&header.group, &header.jumper) {
        (Field::Absent, Field::Absent) => {
            problems.error(
                Problem::new(
                    Code::FeedUnclear,
                    header.name.span,
                    format!("{asker} does not say what feeds it"),
                )
                .label("has neither `jumper` nor `group`"),
            );
            None
        }
        (Field::Is(group), Field::Is(jumper)) => {
            problems.error(
                Problem::new(
                    Code::FeedUnclear,
                    jumper.span,
                    format!("{asker} is fed by a jumper and by a group"),
                )
                .label("the jumper")
                .other(group.span, "the group")
                .help("keep `jumper` if a person picks the group, else keep `group`"),
            );
            None
        }
        (group, Field::Absent) => all
            .groups
            .find_field(group, asker, all, problems)
            .map(|group| Feed::Group(GroupId(group))),
        (Field::Absent, jumper) => all
            .jumpers
            .find_field(jumper, asker, all, problems)
            .map(|jumper| Feed::Jumper(JumperId(jumper))),
        _ => None,
    }
}

fn serve(
    serves: &Serves,
    problems: &mut Problems,
) -> Option<Vec<(LayoutSet, super::super::Device)>> {
    match serves {
        Serves::Always(word) => {
            words::device(word, problems).map(|device| vec![(LayoutSet::All, device)])
        }
        Serves::Under(pairs) => {
            let read = |(range, word): &(Name, Name)| {
                let set = words::layout_set(range, problems);
                let device = words::device(word, problems);
                set.zip(device)
            };
            // All are read before one is missed, so that all problems are reported.
            let all: Vec<_> = pairs.iter().map(read).collect();
            all.into_iter().collect()
        }
    }
}

/// `heater`. The outer `None` says that it could not be read.
pub fn heater(spec: &Spec) -> Option<Option<Heater>> {
    match &spec.heater {
        Field::Absent => Some(None),
        Field::Unread => None,
        Field::Is(heater) => {
            let heater = &heater.value;
            Some(Some(Heater { watts: *heater.watts.value()?, at: *heater.at.value()? }))
        }
    }
}

/// `panels`.
pub fn panels(spec: &Spec) -> Vec<Option<Panel>> {
    let panel = |panel: &spec::Panel| {
        let (name, span) = named(&panel.name);
        Some(Panel {
            name,
            title: panel.title.value()?.clone(),
            choose_layout: panel.choose_layout.value()?.clone(),
            span,
        })
    };
    spec.panels.entries.iter().map(panel).collect()
}

/// Indices of a list of names. Reports unknown ones, and ones that are there twice.
fn list(
    names: &[Name],
    known: &Names<'_>,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<Vec<usize>> {
    let mut found: Vec<(usize, Span)> = Vec::new();
    let mut good = true;
    for name in names {
        let Some(index) = known.find(name, asker, all, problems) else {
            good = false;
            continue;
        };
        if let Some((_, first)) = found.iter().find(|(known, _)| *known == index) {
            problems.error(
                Problem::new(
                    Code::ListedTwice,
                    name.span,
                    format!("{asker} lists {} twice", name.value),
                )
                .label("again here")
                .other(*first, "first here"),
            );
            good = false;
            continue;
        }
        found.push((index, name.span));
    }
    good.then(|| found.into_iter().map(|(index, _)| index).collect())
}

/// Part and position of a thing.
pub fn place(
    place: &spec::Place,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<(PartId, Point)> {
    let part = all.parts.find_field(&place.part, asker, all, problems)?;
    Some((PartId(part), *place.at.value()?))
}

/// The value of a field that may be absent; the outer `None` says that it could not be read.
pub fn optional<T: Clone>(field: &Field<T>) -> Option<Option<T>> {
    match field {
        Field::Absent => Some(None),
        Field::Unread => None,
        Field::Is(value) => Some(Some(value.value.clone())),
    }
}

/// A name's text and place.
pub fn named(name: &Name) -> (String, Span) {
    (name.value.clone(), name.span)
}
