//! Supplies, what they land, and the groups that they reach.

use super::super::voltage::magnitude;
use super::super::{Conductor, GroupSource, HandleMap, Node, Supply, System, Terminal, TerminalId};
use super::names::Directory;
use super::things::named;
use super::words::NAMING;
use super::{Draft, words};
use crate::diagnostic::{Code, Problem, Problems};
use crate::source::{Span, Spanned};
use crate::spec::{self, Field, Name, Spec};

/// `supplies`.
pub fn supplies(
    spec: &Spec,
    all: &Directory<'_>,
    draft: &Draft,
    problems: &mut Problems,
) -> Vec<Option<Supply>> {
    let mut build = |supply: &spec::Supply| {
        let system = supply.system.get().and_then(|text| words::system(text, problems));
        let lands = supply.lands.get().and_then(|lands| {
            let lands = Lands { spec, draft, supply, system, pairs: lands };
            lands.read(all, problems)
        });
        let links = places(spec, all, supply, problems);
        let (name, span) = named(&supply.name);
        let title = supply.title.value()?.shown();
        Some(Supply {
            name,
            title,
            system: system?,
            lands: HandleMap::new(lands?),
            links: HandleMap::new(links?),
            max_current: supply.max_current.value().copied(),
            span,
        })
    };
    spec.supplies.entries.iter().map(&mut build).collect()
}

/// What one supply lands, on its way to being read.
struct Lands<'a> {
    spec: &'a Spec,
    draft: &'a Draft,
    supply: &'a spec::Supply,
    system: Option<System>,
    pairs: &'a Spanned<Vec<(Name, Name)>>,
}

impl Lands<'_> {
    /// The conductor on each terminal.
    fn read(&self, all: &Directory<'_>, problems: &mut Problems) -> Option<Vec<Option<Conductor>>> {
        let asker = format!("supply {}", self.supply.name.value);
        let mut lands: Vec<Option<(Conductor, Span)>> =
            vec![None; self.spec.terminals.entries.len()];
        let mut good = not_repeated(&self.pairs.value, &asker, problems);
        for (terminal, word) in &self.pairs.value {
            let index = all.terminals.find(terminal, &asker, all, problems);
            let conductor = words::conductor(word, problems);
            let (Some(index), Some(conductor)) = (index, conductor) else {
                good = false;
                continue;
            };
            good &= self.fits(index, conductor, word, &lands, problems);
            if let Some(place) = lands.get_mut(index) {
                *place = Some((conductor, word.span));
            }
        }
        if good {
            good &= self.feeds_something(&lands, &asker, problems);
            self.earth(&lands, &asker, problems);
        }
        good.then(|| lands.into_iter().map(|land| land.map(|(conductor, _)| conductor)).collect())
    }

    /// Whether `conductor` may land on terminal `index` beside those that landed before.
    fn fits(
        &self,
        index: usize,
        conductor: Conductor,
        word: &Name,
        before: &[Option<(Conductor, Span)>],
        problems: &mut Problems,
    ) -> bool {
        let mut good = true;
        if let Some(system) = self.system
            && !system.conductors().contains(&conductor)
        {
            let mut problem = Problem::new(
                Code::ConductorLacking,
                word.span,
                format!("supply {} has no conductor {conductor}", self.supply.name.value),
            );
            if let Some(text) = self.supply.system.get() {
                let has: Vec<String> = system.conductors().iter().map(|c| c.to_string()).collect();
                problem = problem.other(text.span, format!("such a system has {}", has.join(", ")));
            }
            problems.error(problem);
            good = false;
        }
        // A neutral or an earth may need a terminal for each of several wires; a second terminal
        // for one line is a strap, which the language has `links` for.
        let shared = matches!(conductor, Conductor::N | Conductor::Pe);
        let first = before.iter().flatten().find(|(known, _)| *known == conductor && !shared);
        if let Some((_, first)) = first {
            problems.error(
                Problem::new(
                    Code::ConductorTwice,
                    word.span,
                    format!("supply {} lands {conductor} on two terminals", self.supply.name.value),
                )
                .label("again here")
                .other(*first, "first here")
                .help("where a strap carries it on, describe the strap under `links`"),
            );
            good = false;
        }
        let ground = self.spec.terminals.entries.get(index).map(|terminal| &terminal.ground);
        let ground = match ground {
            Some(Field::Is(ground)) => ground.value,
            Some(Field::Absent) => false,
            _ => return good,
        };
        if ground != (conductor == Conductor::Pe) {
            let code = self.spec.terminals.entries.get(index).map_or("", |t| &t.name.value);
            let (message, note) = if ground {
                (
                    format!(
                        "{conductor} is connected to {code}, the terminal for the ground wire (PE)"
                    ),
                    "all metalwork that is grounded through it would be live",
                )
            } else {
                (
                    format!(
                        "the ground wire (PE) is connected to {code}, which is not a ground terminal"
                    ),
                    "the metalwork would not be grounded",
                )
            };
            problems.error(
                Problem::new(Code::EarthMisplaced, word.span, message)
                    .note(note)
                    .help("PE belongs on a terminal with `ground: true`, and nothing else does"),
            );
            good = false;
        }
        good
    }

    /// Whether at least two conductors arrive that can carry a current.
    fn feeds_something(
        &self,
        lands: &[Option<(Conductor, Span)>],
        asker: &str,
        problems: &mut Problems,
    ) -> bool {
        let mut live: Vec<Conductor> = lands
            .iter()
            .flatten()
            .map(|(conductor, _)| *conductor)
            .filter(|conductor| *conductor != Conductor::Pe)
            .collect();
        live.sort();
        live.dedup();
        if live.len() < 2 {
            problems.error(
                Problem::new(
                    Code::SupplyFeedsNothing,
                    self.pairs.span,
                    format!("{asker} lands no two conductors that a load could lie between"),
                )
                .label("a line and a neutral, or two lines, are needed"),
            );
        }
        live.len() >= 2
    }

    /// Warns if a ground terminal stays empty.
    fn earth(&self, lands: &[Option<(Conductor, Span)>], asker: &str, problems: &mut Problems) {
        let ground = |terminal: &&Terminal| terminal.ground;
        let Some(terminal) = self.draft.terminals.iter().flatten().find(ground) else { return };
        if !lands.iter().flatten().any(|(conductor, _)| *conductor == Conductor::Pe) {
            problems.warning(
                Problem::new(
                    Code::EarthMissing,
                    self.pairs.span,
                    format!("{asker} leaves {} without the ground (PE)", terminal.code),
                )
                .label("no PE")
                .other(terminal.span, "a ground terminal")
                .help(format!("add `{}: PE`", terminal.code)),
            );
        }
    }
}

/// The terminal that each link is on.
fn places(
    spec: &Spec,
    all: &Directory<'_>,
    supply: &spec::Supply,
    problems: &mut Problems,
) -> Option<Vec<TerminalId>> {
    let asker = format!("supply {}", supply.name.value);
    let none = Vec::new();
    let (pairs, at) = match &supply.links {
        Field::Unread => return None,
        Field::Absent => (&none, supply.name.span),
        Field::Is(links) => (&links.value, links.span),
    };
    let mut good = not_repeated(pairs, &asker, problems);
    let mut places: Vec<Option<TerminalId>> = vec![None; spec.links.entries.len()];
    let mut named = vec![false; spec.links.entries.len()];
    for (link, terminal) in pairs {
        let index = all.links.find(link, &asker, all, problems);
        let terminal_index = all.terminals.find(terminal, &asker, all, problems);
        if let Some(named) = index.and_then(|index| named.get_mut(index)) {
            *named = true;
        }
        let (Some(index), Some(terminal_index)) = (index, terminal_index) else {
            good = false;
            continue;
        };
        let Some(joins) = spec.links.entries.get(index).and_then(|link| link.joins.get()) else {
            good = false;
            continue;
        };
        if !joins.value.contains(terminal) {
            problems.error(
                Problem::new(
                    Code::LinkMisplaced,
                    terminal.span,
                    format!("link {} cannot be put on {}", link.value, terminal.value),
                )
                .label("not one of its terminals")
                .other(joins.span, "it joins these"),
            );
            good = false;
        }
        if let Some(place) = places.get_mut(index) {
            *place = Some(TerminalId(terminal_index));
        }
    }
    for (link, named) in spec.links.entries.iter().zip(named) {
        if !named {
            problems.error(
                Problem::new(
                    Code::LinkUnplaced,
                    at,
                    format!("{asker} does not say where link {} goes", link.name.value),
                )
                .label(format!("nothing about {}", link.name.value))
                .other(link.name.span, "this link must be on one of its terminals")
                .help(format!("add `{}:` under `links` of the supply", link.name.value)),
            );
            good = false;
        }
    }
    if good && spec.links.whole { places.into_iter().collect() } else { None }
}

/// Reports keys that are there twice.
fn not_repeated(pairs: &[(Name, Name)], asker: &str, problems: &mut Problems) -> bool {
    let mut good = true;
    for (index, (key, _)) in pairs.iter().enumerate() {
        let first = pairs.iter().take(index).find(|(known, _)| known == key);
        if let Some((first, _)) = first {
            problems.error(
                Problem::new(
                    Code::RepeatedKey,
                    key.span,
                    format!("{asker} has the key `{}` twice", key.value),
                )
                .label("given again here")
                .other(first.span, "first given here")
                .help("remove one of the two"),
            );
            good = false;
        }
    }
    good
}

/// Checks that every group is reached and has the voltage that is declared.
pub fn check(spec: &Spec, draft: &Draft, problems: &mut Problems) {
    // A group's nodes are indices into these; what is missing could be what reaches it.
    let supplies: Option<Vec<&Supply>> = draft.supplies.iter().map(Option::as_ref).collect();
    let supplies = supplies.filter(|_| spec.supplies.whole && spec.terminals.whole);
    if let Some(supplies) = supplies.filter(|supplies| !supplies.is_empty()) {
        for (written, group) in spec.groups.entries.iter().zip(&draft.groups) {
            let Some(group) = group else { continue };
            if let GroupSource::Between { nodes, declared } = group.source {
                let reach = Reach { spec, nodes, code: &group.code, written };
                reach.check(&supplies, declared.0, problems);
            }
        }
    }
}

/// A group and the points that it lies between.
struct Reach<'a> {
    spec: &'a Spec,
    nodes: [Node; 2],
    code: &'a str,
    written: &'a spec::Group,
}

impl Reach<'_> {
    /// The first supply that reaches the group is the one that its declared volts refer to.
    fn check(&self, supplies: &[&Supply], declared: f64, problems: &mut Problems) {
        let reached = |supply: &&&Supply| supply.between(self.nodes).is_some();
        let Some(supply) = supplies.iter().find(reached) else {
            let place = self.written.between.get().map_or(self.written.name.span, |b| b.span);
            let dead = self
                .nodes
                .iter()
                .find(|node| supplies.iter().all(|supply| supply.conductor_at(**node).is_none()));
            let mut problem = Problem::new(
                Code::GroupDead,
                place,
                format!("no supply reaches group {}", self.code),
            );
            problem = match dead.and_then(|node| self.name(*node)) {
                Some(name) => problem.label(format!("nothing lands on {name} under any supply")),
                None => problem.label("no supply lands both at once"),
            };
            problems.error(problem.help("land a conductor there under one of the supplies"));
            return;
        };
        let Some(volts) = supply.between(self.nodes).map(magnitude) else { return };
        if (volts.0 - declared).abs() <= NAMING * volts.0.max(declared) {
            return;
        }
        let Some(written) = self.written.volts.get() else { return };
        let [first, second] = self.nodes.map(|node| supply.conductor_at(node));
        let (Some(first), Some(second)) = (first, second) else { return };
        problems.error(
            Problem::new(
                Code::VoltsContradicted,
                written.span,
                format!("group {} does not have {declared} V", self.code),
            )
            .label(format!("supply {} gives {volts}", supply.name))
            .other(supply.span, "the supply that declared volts refer to")
            .note(format!("under it, the group lies between {first} and {second}"))
            .help("correct the volts, the two points, or what the supply lands"),
        );
    }

    fn name(&self, node: Node) -> Option<&str> {
        match node {
            Node::Terminal(id) => self.spec.terminals.entries.get(id.0).map(|t| &*t.name.value),
            Node::Link(id) => self.spec.links.entries.get(id.0).map(|l| &*l.name.value),
        }
    }
}
