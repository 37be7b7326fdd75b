//! Connector families and headers: pins, the side of the key, what feeds them and what they serve.

use super::super::{
    Device, Feed, FuseId, GroupId, Header, JumperId, LayoutSet, Pin, Socket, SocketId,
};
use super::names::Directory;
use super::roles::Roles;
use super::things::{named, optional, place};
use super::{Draft, cords, sound, words};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::{Span, Spanned};
use crate::spec::{self, Field, Name, Serves, Spec};

/// The most pins of a socket.
const PINS: usize = 12;

/// `sockets`.
pub fn sockets(spec: &Spec, problems: &mut Problems) -> Vec<Option<Socket>> {
    let mut build = |socket: &spec::Socket| {
        let pins = socket.pins.get().and_then(|words| pins(socket, words, problems));
        let cords = cords::cords(socket, pins.as_deref(), problems);
        let (name, span) = named(&socket.name);
        Some(Socket {
            name,
            title: socket.title.value()?.shown(),
            pitch: *socket.pitch.value()?,
            key_drawn: optional(&socket.key_drawn)?,
            pins: pins?,
            wires: cords.0?,
            one_speed_wires: cords.1?,
            span,
        })
    };
    spec.sockets.entries.iter().map(&mut build).collect()
}

fn pins(
    socket: &spec::Socket,
    words: &Spanned<Vec<Name>>,
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
        let serves = header.serves.value().and_then(|serves| serve(serves, &draft.roles, problems));
        let (part, at) = place?;
        let (code, span) = named(&header.name);
        let header = Header {
            code,
            title: header.title.value()?.shown(),
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
    roles: &Roles,
    problems: &mut Problems,
) -> Option<Vec<(LayoutSet, Device)>> {
    match serves {
        Serves::Always(word) => {
            roles.find(word, problems).map(|device| vec![(LayoutSet::All, device)])
        }
        Serves::Under(pairs) => {
            let read = |(range, word): &(Name, Name)| {
                let set = words::layout_set(range, problems);
                let device = roles.find(word, problems);
                set.zip(device)
            };
            // All are read before one is missed, so that all problems are reported.
            let all: Vec<_> = pairs.iter().map(read).collect();
            all.into_iter().collect()
        }
    }
}
