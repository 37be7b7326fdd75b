//! Voltage groups: where their voltage comes from, and the leads that lie on them.

use super::super::{Feed, Group, GroupId, GroupSource, Jumper, LinkId, Node, TerminalId};
use super::names::Directory;
use super::things::{named, optional, place};
use super::{Draft, sound};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::Spanned;
use crate::spec::{self, Field, Name, Spec};

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
    let nodes = two_points(spec, between, asker, all, problems)?;
    Some(GroupSource::Between { nodes, declared: *group.volts.value()? })
}

/// The two points that something lies between.
pub fn two_points(
    spec: &Spec,
    between: &Spanned<Vec<Name>>,
    asker: &str,
    all: &Directory<'_>,
    problems: &mut Problems,
) -> Option<[Node; 2]> {
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
    Some([nodes.0?, nodes.1?])
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
                format!("{asker} lies on the ground (PE)"),
            )
            .label("a ground terminal")
            .note("a load between a line and the ground (PE) makes metalwork live when the ground wire opens"),
        );
        return None;
    }
    Some(Node::Terminal(TerminalId(terminal)))
}

/// Checks the groups together with the jumpers and headers that use them.
pub fn check(spec: &Spec, draft: &Draft, problems: &mut Problems) {
    for (written, jumper) in spec.jumpers.entries.iter().zip(&draft.jumpers) {
        if let Some(jumper) = jumper {
            crosses(written, jumper, draft, problems);
        }
    }
    let jumpers: Option<Vec<_>> = draft.jumpers.iter().map(Option::as_ref).collect();
    let headers: Option<Vec<_>> = draft.headers.iter().map(Option::as_ref).collect();
    let whole = spec.jumpers.whole && spec.headers.whole && spec.groups.whole;
    let (Some(jumpers), Some(headers), true) = (jumpers, headers, whole) else { return };
    let mut unused: Vec<&spec::Group> = Vec::new();
    for (index, written) in spec.groups.entries.iter().enumerate() {
        let Some(group) = sound(&draft.groups, index) else { continue };
        let id = GroupId(index);
        crowded(group, id, written, &jumpers, problems);
        let by_header = headers.iter().any(|header| header.feed == Feed::Group(id));
        if !by_header && !jumpers.iter().any(|jumper| jumper.groups.contains(&id)) {
            unused.push(written);
        }
    }
    let Some((first, others)) = unused.split_first() else { return };
    let codes: Vec<&str> = unused.iter().map(|group| group.name.value.as_str()).collect();
    let message = match others {
        [] => format!("nothing is fed from group {}", first.name.value),
        _ => format!("nothing is fed from groups {}", codes.join(", ")),
    };
    let it = if others.is_empty() { "it" } else { "them" };
    let mut problem = Problem::new(Code::GroupUnused, first.name.span, message)
        .label(format!("no jumper may go to {it} and no header names {it}"));
    for group in others {
        problem = problem.other(group.name.span, "");
    }
    problems.warning(problem.help(format!("add {it} to a jumper's `groups`, or remove {it}")));
}

/// Warns of a jumper that may go to the mains and to what is apart from the mains.
fn crosses(written: &spec::Jumper, jumper: &Jumper, draft: &Draft, problems: &mut Problems) {
    let source = |id: &GroupId| sound(&draft.groups, id.0).map(|group| group.source);
    let isolated = |id: &&GroupId| matches!(source(id), Some(GroupSource::Isolated(_)));
    let mains = |id: &&GroupId| matches!(source(id), Some(GroupSource::Between { .. }));
    let groups = &jumper.groups;
    let (Some(isolated), Some(mains)) = (groups.iter().find(isolated), groups.iter().find(mains))
    else {
        return;
    };
    let code = |id: &GroupId| sound(&draft.groups, id.0).map_or("", |group| &group.code);
    let span = written.groups.get().map_or(jumper.span, |groups| groups.span);
    problems.warning(
        Problem::new(
            Code::CrossesIsolation,
            span,
            format!("jumper {} may go to the mains and to an isolated group", jumper.code),
        )
        .label(format!("{} is mains, {} is not", code(mains), code(isolated)))
        .note("on the wrong one, what is meant for a low voltage is on the mains")
        .help("give the isolated group a jumper or a header of its own"),
    );
}

/// Reports a group on which more leads are shipped than it has tabs.
fn crowded(
    group: &Group,
    id: GroupId,
    written: &spec::Group,
    jumpers: &[&Jumper],
    problems: &mut Problems,
) {
    let shipped: Vec<&str> =
        jumpers.iter().filter(|jumper| jumper.shipped == id).map(|j| j.code.as_str()).collect();
    let tabs = usize::from(group.tabs);
    if shipped.len() <= tabs {
        return;
    }
    let span = written.tabs.get().map_or(written.name.span, |tabs| tabs.span);
    let count = shipped.len();
    let noun = if tabs == 1 { "tab" } else { "tabs" };
    problems.error(
        Problem::new(
            Code::TabsLacking,
            span,
            format!("group {} has {tabs} {noun} for {count} jumpers", group.code),
        )
        .label("too few")
        .note(format!("{} are shipped on it, and each needs a tab of its own", shipped.join(", ")))
        .help("correct `tabs`, or where the jumpers are shipped"),
    );
}
