//! Problems for programs that show them beside the text: the most dangerous first, with paths that are
//! the same on every machine.

pub mod github;
pub mod sarif;

use std::path::{Component, Path};

use crate::diagnostic::{Problem, Problems, clean_line};
use crate::source::Sources;

/// What people are shown in place of the name of a file; a viewer finds no file of this name.
pub const STANDARD_INPUT: &str = "standard input";

/// A problem with the texts that its places are in.
pub struct Shown<'a> {
    pub problem: Problem,
    pub sources: &'a Sources,
    /// Why it is accepted, if it is.
    pub accepted: Option<String>,
}

/// All problems, with those that are accepted if they are asked for: by what can come of them, errors
/// before warnings, then in the order of the files and by place.
pub fn worst_first<'a>(
    parts: impl Iterator<Item = (&'a Problems, &'a Sources)>,
    with_accepted: bool,
) -> Vec<Shown<'a>> {
    let mut all: Vec<Shown<'a>> = Vec::new();
    for (problems, sources) in parts {
        let of = |problem, accepted| Shown { problem, sources, accepted };
        all.extend(problems.sorted().into_iter().map(|problem| of(problem, None)));
        if with_accepted {
            all.extend(problems.accepted().into_iter().map(|it| of(it.problem, Some(it.reason))));
        }
    }
    all.sort_by_key(|it| (it.problem.code.risk(), it.problem.code.severity()));
    all
}

/// What is wrong, then the facts and what to do, a line each.
fn words(problem: &Problem, here: &Path) -> String {
    let mut lines = vec![harmless(&problem.message, here)];
    lines.extend(problem.notes.iter().map(|note| harmless(&format!("note: {note}"), here)));
    if let Some(help) = &problem.help {
        lines.push(harmless(&format!("help: {}", help.text), here));
        lines.extend(problem.shape.map(str::to_owned));
    }
    lines.join("\n")
}

/// A text in one line. A specification may come from anybody, so no character of it steers a terminal; a
/// file that is named in it is named from this folder.
fn harmless(text: &str, here: &Path) -> String {
    let folder = format!("{}/", here.to_string_lossy().replace('\\', "/"));
    let text = if folder.len() > 1 { text.replace(&folder, "") } else { text.to_owned() };
    clean_line(&text)
}

/// The name of a file as a path from the folder that the program runs in, with `/`. An absolute path
/// says where somebody keeps their files, and leads nowhere on another machine.
fn relative(name: &str, here: &Path) -> String {
    let path = Path::new(name);
    let mut parts: Vec<String> = Vec::new();
    let mut components: Vec<Component> = path.components().collect();
    if path.is_absolute() {
        let own: Vec<Component> = here.components().collect();
        let same = own.iter().zip(&components).take_while(|(one, other)| one == other).count();
        let up = own.len().saturating_sub(same);
        parts.extend(std::iter::repeat_n("..".to_owned(), up));
        components.drain(..same);
    }
    for component in components {
        match component {
            Component::Normal(part) => parts.push(part.to_string_lossy().into_owned()),
            Component::ParentDir => parts.push("..".to_owned()),
            // A drive of another letter: no path leads there, and the name alone is left.
            Component::Prefix(_) | Component::RootDir => parts.clear(),
            Component::CurDir => {}
        }
    }
    parts.join("/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_are_those_from_this_folder() {
        let here = Path::new("/home/me/boards");
        for (name, from_here) in [
            ("specs/a.yaml", "specs/a.yaml"),
            ("./specs/./a.yaml", "specs/a.yaml"),
            ("../a.yaml", "../a.yaml"),
            ("/home/me/boards/specs/a.yaml", "specs/a.yaml"),
            ("/home/you/a.yaml", "../../you/a.yaml"),
        ] {
            assert_eq!(relative(name, here), from_here);
        }
    }
}
