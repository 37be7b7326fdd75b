//! `lidsheet check --language`

use std::path::Path;

use super::Status;
use super::terminal::Terminal;
use super::verdict::{count, judge};
use crate::build::{check_language, note_looked_at};
use crate::diagnostic::Code;
use crate::report::ProblemJson;
use crate::words::Language;

/// Lists what is missing, unused or outdated in a language that is compiled in, or in a folder.
pub fn run(
    language: &'static Language,
    folder: Option<&Path>,
    (json, deny_warnings): (bool, bool),
    terminal: &Terminal,
) -> Status {
    let report = check_language(language, folder);
    if report.tag != language.tag {
        let message = format!("the language of that folder is `{}`", report.tag);
        return terminal.trouble(&message);
    }
    let status = judge(&report.problems, std::iter::empty(), deny_warnings);
    let written = if json {
        terminal.json(&ProblemJson::all(&report.problems, &report.sources))
    } else {
        terminal.problems(&report.problems, &report.sources);
        let all = report.problems.sorted();
        let of = |codes: &[Code]| all.iter().filter(|it| codes.contains(&it.code)).count();
        let missing = of(&[Code::PhraseMissing, Code::LanguageIncomplete]);
        let (unused, outdated) = (of(&[Code::PhraseUnknown]), of(&[Code::PhraseOutdated]));
        let name = folder.map_or_else(|| language.name.to_owned(), |it| it.display().to_string());
        terminal.summary(&format!(
            "{name}: {} and {} checked: {missing} missing, {unused} unused, {outdated} outdated\n",
            count(report.phrases, "phrase"),
            count(report.pages, "page"),
        ))
    };
    status.max(written)
}

/// Notes that texts of a folder were compared with English.
pub fn look(folder: &Path, names: &[String], terminal: &Terminal) -> Status {
    match note_looked_at(folder, names) {
        Ok(noted) => terminal.summary(&format!("{} noted\n", count(noted, "text"))),
        Err(why) => terminal.trouble(&why),
    }
}
