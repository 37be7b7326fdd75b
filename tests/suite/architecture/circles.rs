//! No circles between files: what a file imports must not import that file in turn, over however
//! many others. Files that know each other can only be read, changed and tested together.
//!
//! An import is a `use` or a path in code, outside of tests, that begins with `crate`, `super` or a
//! module's name. What a `mod.rs` only hands on counts as imported from the file that has it.
//!
//! A `mod.rs` calls the files below it, and they share what it defines: that alone is no circle.
//! So the files are gone through twice, once without what a `mod.rs` imports from below, once
//! without what is imported from a `mod.rs` above.

use std::collections::{BTreeMap, BTreeSet};

use super::sources;
use super::tokens::tokens;

/// Circles that are there. It is empty, and nothing is ever put on it.
const KNOWN: &[&[&str]] = &[];

/// The way from the crate's root to a module or a thing in it.
type Way = Vec<String>;

/// A name that a `use` brings in.
struct Import {
    way: Way,
    name: String,
    /// Whether it is handed on.
    public: bool,
}

/// What is read of one file.
#[derive(Default)]
struct File {
    path: String,
    imports: Vec<Import>,
    /// Paths in code, as they stand there.
    paths: Vec<Way>,
    /// What is defined outside of all braces.
    own: BTreeSet<String>,
    /// All names in code outside of `use`.
    names: BTreeSet<String>,
    /// The modules that exist for tests alone.
    tests: Vec<String>,
}

/// Files that import each other, and what each imports from which.
#[derive(Debug, Default)]
struct Circle {
    files: BTreeSet<String>,
    /// `a.rs imports b.rs: names`.
    imports: Vec<String>,
}

/// The module that a file is, by its path from `src`.
fn module(path: &str) -> Way {
    let path = path.trim_end_matches(".rs");
    let path = path.strip_suffix("/mod").unwrap_or(path);
    if path == "lib" { Vec::new() } else { path.split('/').map(str::to_owned).collect() }
}

fn is(token: Option<&String>, wanted: &str) -> bool {
    token.is_some_and(|token| token == wanted)
}

fn is_name(token: &str) -> bool {
    token.starts_with(|c: char| c.is_alphabetic() || c == '_')
}

/// Where the item that begins at `from` ends: after its `;` or its braces.
fn after_item(tokens: &[String], from: usize) -> usize {
    let (mut braces, mut others) = (0_usize, 0_usize);
    for (at, token) in tokens.iter().enumerate().skip(from) {
        match token.as_str() {
            "{" => braces += 1,
            "}" => {
                braces = braces.saturating_sub(1);
                if braces == 0 && others == 0 {
                    return at + 1;
                }
            }
            "(" | "[" => others += 1,
            ")" | "]" => others = others.saturating_sub(1),
            ";" if braces == 0 && others == 0 => return at + 1,
            _ => {}
        }
    }
    tokens.len()
}

/// Takes out what is compiled for tests alone; gives the files that are.
fn without_tests(tokens: &[String]) -> (Vec<String>, Vec<String>) {
    const TEST: [&str; 7] = ["#", "[", "cfg", "(", "test", ")", "]"];
    let (mut kept, mut files, mut at) = (Vec::new(), Vec::new(), 0);
    while at < tokens.len() {
        if tokens[at..].iter().take(TEST.len()).eq(TEST.iter()) {
            let end = after_item(tokens, at + TEST.len());
            if let [.., keyword, name, last] = &tokens[at..end]
                && keyword == "mod"
                && last == ";"
            {
                files.push(name.clone());
            }
            at = end;
        } else {
            kept.push(tokens[at].clone());
            at += 1;
        }
    }
    (kept, files)
}

/// Reads the tree of a `use` from `at` on, to the `,`, `}` or `;` behind it.
fn use_tree(tokens: &[String], mut at: usize, before: &Way, found: &mut Vec<Way>) -> usize {
    let mut way = before.clone();
    while let Some(token) = tokens.get(at) {
        match token.as_str() {
            "{" => {
                at += 1;
                while !is(tokens.get(at), "}") && at < tokens.len() {
                    at = use_tree(tokens, at, &way, found);
                    at += usize::from(is(tokens.get(at), ","));
                }
                return at + 1;
            }
            "::" => {}
            "," | "}" | ";" => break,
            token => way.push(token.to_owned()),
        }
        at += 1;
    }
    found.push(way);
    at
}

/// A way of a `use` with the name that it gets: `a::self` is `a`, `a as b` is called `b`.
fn named(mut way: Way) -> (Way, String) {
    let name = match way.iter().position(|part| part == "as") {
        Some(at) => way.drain(at..).next_back().unwrap_or_default(),
        None => String::new(),
    };
    if is(way.last(), "self") && way.len() > 1 {
        way.pop();
    }
    let name = if name.is_empty() { way.last().cloned().unwrap_or_default() } else { name };
    (way, name)
}

impl File {
    fn read(path: &str, text: &str) -> Self {
        let (tokens, tests) = without_tests(&tokens(text));
        let mut file = Self { path: path.to_owned(), tests, ..Self::default() };
        let (mut at, mut depth) = (0, 0_usize);
        while let Some(token) = tokens.get(at) {
            let next = tokens.get(at + 1);
            match token.as_str() {
                // `impl Trait + use<>` is no import.
                "use" if !is(next, "<") => {
                    let before = |back: usize| at.checked_sub(back).and_then(|at| tokens.get(at));
                    // `pub`, `pub(crate)`.
                    let public = is(before(1), "pub") || is(before(1), ")") && is(before(4), "pub");
                    let mut ways = Vec::new();
                    at = use_tree(&tokens, at + 1, &Vec::new(), &mut ways);
                    for (way, name) in ways.into_iter().map(named) {
                        file.imports.push(Import { way, name, public });
                    }
                    continue;
                }
                "{" => depth += 1,
                "}" => depth = depth.saturating_sub(1),
                "fn" | "struct" | "enum" | "trait" | "type" | "const" | "static" | "union"
                | "mod"
                    // `mod a;` is another file.
                    if depth == 0 && !(token == "mod" && is(tokens.get(at + 2), ";")) =>
                {
                    file.own.extend(next.cloned());
                }
                token if is_name(token) => {
                    let mut way = vec![token.to_owned()];
                    while is(tokens.get(at + 1), "::") {
                        let Some(part) = tokens.get(at + 2).filter(|part| is_name(part)) else {
                            break;
                        };
                        way.push(part.clone());
                        at += 2;
                    }
                    file.names.extend(way.iter().cloned());
                    if way.len() > 1 {
                        file.paths.push(way);
                    }
                }
                _ => {}
            }
            at += 1;
        }
        file
    }
}

/// The files of a crate by their modules.
struct Crate(BTreeMap<Way, File>);

impl Crate {
    fn read(files: &[(String, String)]) -> Self {
        let files = files.iter().filter(|(path, _)| path != "main.rs");
        let mut all: BTreeMap<Way, File> =
            files.map(|(path, text)| (module(path), File::read(path, text))).collect();
        let tests: Vec<Way> = all
            .iter()
            .flat_map(|(module, file)| {
                file.tests
                    .iter()
                    .map(|name| [module.as_slice(), std::slice::from_ref(name)].concat())
            })
            .collect();
        all.retain(|module, _| !tests.iter().any(|test| module.starts_with(test)));
        Self(all)
    }

    /// A way from the root, for one that stands in a file; `None` if it leads out of the crate.
    fn rooted(&self, module: &Way, way: &[String]) -> Option<Way> {
        let (first, rest) = way.split_first()?;
        match first.as_str() {
            "crate" => Some(rest.to_vec()),
            "self" => Some([module, rest].concat()),
            "super" => {
                let above = module.split_last()?.1.to_vec();
                match rest.first().map(String::as_str) {
                    Some("super") => self.rooted(&above, rest),
                    _ => Some([above.as_slice(), rest].concat()),
                }
            }
            _ => {
                let below = [module.as_slice(), &way[..1]].concat();
                self.0.contains_key(&below).then(|| [module, way].concat())
            }
        }
    }

    /// The file that has what a way leads to.
    fn home(&self, way: &[String], seen: &mut BTreeSet<Way>) -> Way {
        let depth = (0..=way.len()).rev().find(|depth| self.0.contains_key(&way[..*depth]));
        let (here, rest) = way.split_at(depth.unwrap_or(0));
        let (Some(file), Some(name)) = (self.0.get(here), rest.first()) else {
            return here.to_vec();
        };
        if file.own.contains(name) || !seen.insert(way.to_vec()) {
            return here.to_vec();
        }
        for import in file.imports.iter().filter(|import| import.name == *name) {
            if let Some(to) = self.rooted(&here.to_vec(), &import.way) {
                return self.home(&[to.as_slice(), &rest[1..]].concat(), seen);
            }
        }
        for import in file.imports.iter().filter(|import| import.name == "*") {
            let module = import.way.split_last().map_or(&[][..], |(_, module)| module);
            if let Some(to) = self.rooted(&here.to_vec(), module) {
                let home = self.home(&[to.as_slice(), rest].concat(), seen);
                if self.0.get(&home).is_some_and(|file| file.own.contains(name)) {
                    return home;
                }
            }
        }
        here.to_vec()
    }

    /// What each file imports from which other, by the ways as they stand there.
    fn imports(&self) -> BTreeMap<(Way, Way), BTreeSet<String>> {
        let mut all: BTreeMap<(Way, Way), BTreeSet<String>> = BTreeMap::new();
        for (module, file) in &self.0 {
            let mut local: BTreeMap<&str, Way> = BTreeMap::new();
            let mut add = |way: &[String], said: &[String]| {
                let home = self.home(way, &mut BTreeSet::new());
                if home != *module && !home.is_empty() && !module.is_empty() {
                    all.entry((module.clone(), home)).or_default().insert(said.join("::"));
                }
            };
            for import in &file.imports {
                let way = import.way.strip_suffix(&["*".to_owned()]).unwrap_or(&import.way);
                let Some(to) = self.rooted(module, way) else { continue };
                // What is handed on and not used here is no import.
                let below = to.starts_with(module);
                if !(import.public && below) || file.names.contains(&import.name) {
                    add(&to, &import.way);
                }
                local.insert(&import.name, to);
            }
            for way in &file.paths {
                let to = match local.get(way[0].as_str()) {
                    Some(to) => Some([to.as_slice(), &way[1..]].concat()),
                    None => self.rooted(module, way),
                };
                if let Some(to) = to {
                    add(&to, way);
                }
            }
        }
        all
    }

    fn circles(&self) -> Vec<Circle> {
        let imports = self.imports();
        let without = |leave_out: &dyn Fn(&Way, &Way) -> bool| {
            let mut graph: BTreeMap<&Way, Vec<&Way>> = BTreeMap::new();
            for (from, to) in imports.keys().filter(|(from, to)| !leave_out(from, to)) {
                graph.entry(from).or_default().push(to);
            }
            groups(&graph)
        };
        let mut all = without(&|from, to| to.starts_with(from));
        all.extend(without(&|from, to| from.starts_with(to)));
        all.sort_by_key(|group| std::cmp::Reverse(group.len()));
        let mut largest: Vec<BTreeSet<&Way>> = Vec::new();
        for group in all {
            if !largest.iter().any(|known| known.is_superset(&group)) {
                largest.push(group);
            }
        }
        largest.sort();
        let path = |way: &Way| self.0[way].path.clone();
        let circle = |group: &BTreeSet<&Way>| Circle {
            files: group.iter().map(|way| path(way)).collect(),
            imports: imports
                .iter()
                .filter(|((from, to), _)| group.contains(from) && group.contains(to))
                .map(|((from, to), said)| {
                    let said: Vec<&str> = said.iter().map(String::as_str).collect();
                    format!("{} imports {}: {}", path(from), path(to), said.join(", "))
                })
                .collect(),
        };
        largest.iter().map(circle).collect()
    }
}

/// Each group of two or more that can all be reached from each other.
fn groups<'a>(graph: &BTreeMap<&'a Way, Vec<&'a Way>>) -> Vec<BTreeSet<&'a Way>> {
    let reached = |from: &'a Way| {
        let (mut found, mut open) = (BTreeSet::new(), vec![from]);
        while let Some(at) = open.pop() {
            for to in graph.get(at).into_iter().flatten() {
                if found.insert(*to) {
                    open.push(*to);
                }
            }
        }
        found
    };
    let reach: BTreeMap<&Way, BTreeSet<&Way>> =
        graph.keys().map(|from| (*from, reached(from))).collect();
    let mut all: Vec<BTreeSet<&Way>> = Vec::new();
    for (from, found) in &reach {
        let group: BTreeSet<&Way> = found
            .iter()
            .copied()
            .filter(|to| reach.get(to).is_some_and(|back| back.contains(from)))
            .collect();
        if group.len() > 1 && !all.contains(&group) {
            all.push(group);
        }
    }
    all
}

#[test]
fn files_import_each_other_in_no_circle() {
    let circles = Crate::read(&sources()).circles();
    let known: Vec<BTreeSet<String>> =
        KNOWN.iter().map(|files| files.iter().map(|&file| file.to_owned()).collect()).collect();
    let unknown: Vec<String> = circles
        .iter()
        .filter(|circle| !known.contains(&circle.files))
        .map(|circle| {
            let files: Vec<&str> = circle.files.iter().map(String::as_str).collect();
            format!("{}\n    {}", files.join(", "), circle.imports.join("\n    "))
        })
        .collect();
    let gone: Vec<String> = known
        .iter()
        .filter(|files| !circles.iter().any(|circle| circle.files == **files))
        .map(|files| format!("{files:?}"))
        .collect();
    assert!(
        unknown.is_empty() && gone.is_empty(),
        "\nnew circles of files:\n{}\non the list of known ones, but no longer there:\n{}",
        unknown.join("\n"),
        gone.join("\n")
    );
}

/// The reader finds what is known to be there: were it blind, there would be no circle either.
#[test]
fn imports_of_the_crate_are_found() {
    let imports = Crate::read(&sources()).imports();
    let has = |from: &str, to: &str| imports.contains_key(&(module(from), module(to)));
    assert!(imports.len() > 600, "{} imports", imports.len());
    assert!(has("decide/mistakes/signs.rs", "decide/mistakes/sign.rs"));
    assert!(has("decide/rules.rs", "board/job/mod.rs"), "over two that hand it on");
    assert!(!has("decide/mod.rs", "decide/mistakes/mod.rs"), "what is handed on");
    let floors = imports.keys().any(|(from, to)| from[0] == "board" && to[0] == "decide");
    assert!(!floors, "no import leads up");
}

/// The test above must be able to fail.
#[test]
fn a_circle_is_seen() {
    let of = |files: &[(&str, &str)]| -> Vec<String> {
        let mut files: Vec<(String, String)> =
            files.iter().map(|(path, text)| ((*path).to_owned(), (*text).to_owned())).collect();
        files.push(("lib.rs".to_owned(), "pub mod a;\npub mod b;\npub mod c;".to_owned()));
        let circles = Crate::read(&files).circles();
        circles
            .iter()
            .map(|circle| circle.files.iter().cloned().collect::<Vec<_>>().join(" "))
            .collect()
    };
    let one = |text: &str| of(&[("a.rs", text), ("b.rs", "use crate::a::A;")]);
    assert_eq!(one("use crate::b::B;"), ["a.rs b.rs"]);
    assert_eq!(one("use crate::{b::{self, B as C}, c};"), ["a.rs b.rs"]);
    assert_eq!(one("fn f() -> crate::b::B { g() }"), ["a.rs b.rs"]);
    assert_eq!(one("fn f() { super::b::g() }"), ["a.rs b.rs"]);
    assert_eq!(one("use super::*; fn f() { super::super::b::g() }"), [""; 0]);
    assert_eq!(one("// use crate::b::B;\nfn f() { \"crate::b::g()\" }"), [""; 0]);
    assert_eq!(one("#[cfg(test)]\nmod tests { use crate::b::B; }"), [""; 0]);
    assert_eq!(one("#[cfg(test)]\nuse crate::b::B;"), [""; 0]);
    assert_eq!(
        one("#[cfg(test)]\nfn f(x: [u8; 2]) { crate::b::g() }\nuse crate::b::B;"),
        ["a.rs b.rs"]
    );
    assert_eq!(
        of(&[("a.rs", "use super::b;"), ("b.rs", "use super::c;"), ("c.rs", "use super::a;")]),
        ["a.rs b.rs c.rs"]
    );
    // Tests in a file of their own.
    let tests = [
        ("a/mod.rs", "#[cfg(test)]\nmod tests;\npub struct A;"),
        ("a/tests.rs", "use crate::b::B;"),
        ("b.rs", "use crate::a::A;"),
    ];
    assert_eq!(of(&tests), [""; 0]);
    // What is handed on is the other file's.
    let handed_on = |a: &str| {
        of(&[
            ("a/mod.rs", a),
            ("a/x.rs", "pub struct X; pub struct Z;"),
            ("a/y.rs", "use crate::b::B;"),
            ("b.rs", "use crate::a::X;"),
        ])
    };
    assert_eq!(handed_on("mod x;\nmod y;\npub use x::X;\npub use y::Y;"), [""; 0]);
    assert_eq!(handed_on("mod x;\nmod y;\npub use x::*;"), [""; 0]);
    assert_eq!(handed_on("mod x;\nmod y;\npub use y::X;"), ["a/y.rs b.rs"]);
    // A folder's own words and its files are no circle by themselves, but over another file they are.
    let folder = |a: &str, x: &str, b: &str| of(&[("a/mod.rs", a), ("a/x.rs", x), ("b.rs", b)]);
    let words = "mod x;\npub struct A;\nfn f() { x::g() }";
    assert_eq!(folder(words, "use super::A;\npub fn g() {}", ""), [""; 0]);
    assert_eq!(folder(words, "use crate::b::B;", "use crate::a::A;"), ["a/mod.rs a/x.rs b.rs"]);
    assert_eq!(
        folder("mod x;\nuse crate::b::B;\npub struct A;", "use super::A;", "use crate::a::x::X;"),
        ["a/mod.rs a/x.rs b.rs"]
    );
}
