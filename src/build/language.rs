//! A language compared with English: what it lacks, what nothing asks for, and what follows an English text
//! that has changed since.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use super::find::{reason, shown};
use super::own::own_folder;
use crate::compile::OwnTemplate;
use crate::diagnostic::{Code, Problem, Problems};
use crate::sheet::{Templates, template_files};
use crate::source::{FileId, Sources, Span};
use crate::spec;
use crate::words::{
    FollowedText, LOOKED_AT, Language, followed_texts, read_looked_at, write_looked_at,
};

/// A language that was compared with English.
#[derive(Debug, Default)]
pub struct LanguageReport {
    /// Its tag.
    pub tag: String,
    /// Its files.
    pub sources: Sources,
    /// What is wrong with them.
    pub problems: Problems,
    /// How many phrases it has.
    pub phrases: usize,
    /// How many pages.
    pub pages: usize,
}

/// The files of a language: those that are compiled in, or those of a folder.
struct Files {
    texts: Vec<(String, FileId, String)>,
    /// Whether they are all that the language has.
    whole: bool,
    /// Which English texts they were last compared with; `None` if nothing says so.
    looked_at: Option<BTreeMap<String, String>>,
}

/// Compares a language with English: the one that is compiled in, or the templates of a folder.
pub fn check_language(language: &'static Language, folder: Option<&Path>) -> LanguageReport {
    let mut report = LanguageReport { tag: language.tag.to_owned(), ..LanguageReport::default() };
    let Some(files) = read(language, folder, &mut report) else { return report };
    let LanguageReport { sources, problems, .. } = &mut report;
    let given: Vec<(&str, FileId, String)> =
        files.texts.iter().map(|(name, file, text)| (name.as_str(), *file, text.clone())).collect();
    // What is missing and what nothing asks for is found as it is for a build.
    let mut templates = Templates::in_language(language, sources);
    let _ = templates.put_over(&given, files.whole, problems);
    let own = followed_texts(files.texts.iter().map(|(name, _, text)| (&**name, &**text)));
    report.tag = templates.words().tag().to_owned();
    report.phrases = own.iter().filter(|it| it.phrase.is_some()).count();
    report.pages = own.len() - report.phrases;
    outdated(&own, &files, &mut report.problems);
    report
}

fn read(language: &Language, folder: Option<&Path>, report: &mut LanguageReport) -> Option<Files> {
    let Some(folder) = folder else {
        let texts = language.phrases.iter().chain(language.templates);
        let texts = texts.map(|(name, text)| {
            let file = report.sources.add(format!("templates/{}/{name}", language.tag), *text);
            ((*name).to_owned(), file, (*text).to_owned())
        });
        return Some(Files {
            texts: texts.collect(),
            whole: !language.templates.is_empty(),
            looked_at: (!language.looked_at.is_empty()).then(|| read_looked_at(language.looked_at)),
        });
    };
    let own = own_folder(folder, &mut report.problems);
    let whole = own.is_whole_language();
    let LanguageReport { sources, problems, .. } = &mut *report;
    if let Some(house) = own.house {
        let _ = house.judge(sources, problems);
    }
    let mut texts = Vec::new();
    for OwnTemplate { name, shown, bytes } in own.templates {
        let LanguageReport { sources, problems, .. } = &mut *report;
        let Ok(file) = spec::admit(shown, bytes, sources, problems) else { continue };
        texts.push((name, file, report.sources.file(file).text.to_string()));
    }
    let looked_at = match fs::read_to_string(folder.join(LOOKED_AT)) {
        Ok(text) => Some(read_looked_at(&text)),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => None,
        Err(error) => {
            let message = format!("this cannot be read: {}", reason(&error));
            let path = shown(&folder.join(LOOKED_AT));
            report.problems.error(Problem::of_file(Code::FileUnread, path, message));
            return None;
        }
    };
    (report.problems.failed().is_none()).then_some(Files { texts, whole, looked_at })
}

/// Warns of each phrase and page whose English one has changed since they were compared.
fn outdated(own: &[FollowedText], files: &Files, problems: &mut Problems) {
    let english = sums(&english());
    let span = |it: &FollowedText| {
        let file = files.texts.iter().find(|(name, ..)| *name == it.file);
        file.map(|(_, file, _)| Span::new(*file, it.place.clone()))
    };
    let help = "compare the two; then note it with `--looked-at`";
    // A phrase may stand in another file than the English one, a page is its file.
    let mut theirs = own.iter().filter_map(|it| Some((it, english.get(it.name())?, span(it)?)));
    let Some(looked_at) = &files.looked_at else {
        // Phrases put in place of single ones need no record.
        if let Some((_, _, place)) = theirs.find(|_| files.whole) {
            let message =
                format!("nothing says which English texts these follow: no `{LOOKED_AT}`");
            problems.warning(
                Problem::new(Code::PhraseOutdated, Span::new(place.file, 0..0), message)
                    .help("compare them with English; then note it with `--looked-at`"),
            );
        }
        return;
    };
    for (it, now, place) in theirs {
        let what = if it.phrase.is_some() { "phrase" } else { "page" };
        let message = match looked_at.get(&it.key()) {
            Some(then) if then == now => continue,
            Some(_) => format!("the English {what} `{}` has changed since", it.name()),
            None => format!("nothing says which English {what} `{}` follows", it.name()),
        };
        problems.warning(Problem::new(Code::PhraseOutdated, place, message).help(help));
    }
}

fn english() -> Vec<FollowedText> {
    let files = template_files(crate::words::english());
    followed_texts(files.iter().map(|(name, text)| (name.as_str(), *text)))
}

/// Sums by the names of phrases and pages.
fn sums(texts: &[FollowedText]) -> BTreeMap<String, String> {
    texts.iter().map(|it| (it.name().to_owned(), it.sum.clone())).collect()
}

/// Notes in the folder of a language that its texts of these names, or all if there are none, were compared
/// with English as it is now. Gives how many.
///
/// # Errors
/// A name that no text of the folder has; why the folder cannot be read or written.
pub fn note_looked_at(folder: &Path, names: &[String]) -> Result<usize, String> {
    let mut general = Problems::default();
    let files = own_folder(folder, &mut general).templates;
    if let Some(problem) = general.sorted().first() {
        return Err(problem.message.clone());
    }
    let texts: Vec<(String, String)> = files
        .into_iter()
        .map(|own| (own.name, String::from_utf8_lossy(&own.bytes).into_owned()))
        .collect();
    let own = followed_texts(texts.iter().map(|(name, text)| (&**name, &**text)));
    let unknown = names.iter().find(|name| !own.iter().any(|it| it.name() == name.as_str()));
    if let Some(unknown) = unknown {
        return Err(format!("no phrase and no page of {} is called `{unknown}`", shown(folder)));
    }
    let english = sums(&english());
    let path = folder.join(LOOKED_AT);
    let kept = fs::read_to_string(&path).map(|text| read_looked_at(&text)).unwrap_or_default();
    // What the folder no longer has is forgotten.
    let mut noted: BTreeMap<String, String> =
        kept.into_iter().filter(|(key, _)| own.iter().any(|it| it.key() == *key)).collect();
    let mut count = 0;
    for it in own.iter().filter(|it| names.is_empty() || names.iter().any(|name| name == it.name()))
    {
        if let Some(sum) = english.get(it.name()) {
            noted.insert(it.key(), sum.clone());
            count += 1;
        }
    }
    let why =
        |error: std::io::Error| format!("{} cannot be written: {}", shown(&path), reason(&error));
    fs::create_dir_all(folder.join("about")).map_err(why)?;
    fs::write(&path, write_looked_at(&noted)).map_err(why)?;
    Ok(count)
}
