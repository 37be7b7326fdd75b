//! `lidsheet check`

use std::io::Read;
use std::path::{Path, PathBuf};

use clap::ValueEnum;

use super::Status;
use super::mark;
use super::reading;
use super::tag::language;
use super::terminal::Terminal;
use super::verdict::{boards_and_jobs, count, judge};
use super::viewers::{STANDARD_INPUT, github, sarif, worst_first};
use crate::build::{self, MadeEdit};
use crate::compile::{Checked, Content};
use crate::diagnostic::{Problems, clean_line};
use crate::report::ProblemJson;
use crate::source::Sources;
use crate::spec;
use crate::words::Language;

/// Report problems in specifications; nothing but what `--fix` corrects is written
#[derive(Debug, clap::Args)]
#[command(after_help = "\
Examples:
  lidsheet check
  lidsheet check specs/heron-8.yaml --deny-warnings
  lidsheet check --format json - < draft.yaml
  lidsheet check --reading specs/heron-8.yaml
  lidsheet check --format sarif > lidsheet.sarif
  lidsheet check --fix specs/heron-8.yaml
  lidsheet check --explain L401
  lidsheet check --explain all --format json
  lidsheet check --mark 7F3A-94KD
  lidsheet check --language de
  lidsheet check --language de --templates my/de --looked-at supply.md")]
pub struct Args {
    /// Specifications, and folders to search for them; `-` is standard input
    #[arg(default_value = "specs", value_name = "PATH")]
    paths: Vec<PathBuf>,

    /// How to write what is found
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,

    /// Let warnings fail, too
    #[arg(long)]
    deny_warnings: bool,

    /// Show the warnings that a specification accepts, too, with the reasons that it gives
    #[arg(long)]
    accepted: bool,

    /// Tell how easy the words of each file and of its sheets are to read
    #[arg(long, conflicts_with = "format")]
    reading: bool,

    /// Correct slips in names, keys, words of the language and units in the files themselves, never a
    /// value, and show what was done; then check
    #[arg(long, conflicts_with_all = ["explain", "mark", "language", "reading"])]
    fix: bool,

    /// Explain a code instead, or `all`, with a sample that causes it and the same sample mended
    #[arg(long, value_name = "CODE", conflicts_with_all = ["paths", "deny_warnings", "accepted", "reading"])]
    explain: Option<String>,

    /// Tell whose sheets have this mark, which stands in the foot of each page, and whether they are today's
    #[arg(long, value_name = "MARK", conflicts_with_all = ["format", "deny_warnings", "accepted", "reading", "explain"])]
    mark: Option<String>,

    /// List what is missing, unused or outdated in a language instead; with --reading, measure the sheets in it
    #[arg(long, value_name = "LANGUAGE", value_parser = language, conflicts_with_all = ["explain", "mark", "accepted"])]
    language: Option<&'static Language>,

    /// Note that these phrases and pages of the folder with templates, or all, were compared with English
    #[arg(long, value_name = "NAME", num_args = 0.., requires = "templates", requires = "language", conflicts_with = "reading")]
    looked_at: Option<Vec<String>>,

    /// The folder of sheets, which knows the marks of earlier builds
    #[arg(long, default_value = "out", value_name = "DIR", requires = "mark")]
    out: PathBuf,

    /// The folder with templates of your own: those that the sheets were made with, or the language to be checked
    #[arg(long, value_name = "DIR", conflicts_with = "reading")]
    templates: Option<PathBuf>,
}

/// How problems are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For people, on standard error
    Text,
    /// For machines: one array on standard output
    Json,
    /// For viewers of what programs find: a log of SARIF 2.1.0 on standard output
    Sarif,
    /// For a GitHub workflow: as many annotations as it shows, the most dangerous first
    Github,
}

pub fn run(args: &Args, terminal: &Terminal) -> Status {
    let for_viewers = matches!(args.format, Format::Sarif | Format::Github);
    if for_viewers && (args.explain.is_some() || args.language.is_some()) {
        return terminal.trouble("`--explain` and `--language` write `text` or `json`");
    }
    if let Some(code) = &args.explain {
        return super::explain::run(code, args.format == Format::Json, terminal);
    }
    if let Some(mark) = &args.mark {
        return mark::run(mark, &args.paths, (&args.out, args.templates.as_deref()), terminal);
    }
    let folder = args.templates.as_deref();
    match (args.language.filter(|_| !args.reading), &args.looked_at, folder) {
        (Some(_), Some(names), Some(folder)) => {
            return super::language::look(folder, names, terminal);
        }
        (Some(language), ..) => {
            let how = (args.format == Format::Json, args.deny_warnings);
            return super::language::run(language, folder, how, terminal);
        }
        (None, _, Some(_)) => {
            return terminal.trouble("`--templates` belongs to `--mark` or `--language` here");
        }
        (None, ..) => {}
    }
    let mut general = Problems::default();
    let read = if args.fix {
        fixed(args, &mut general, terminal)
    } else {
        read(&args.paths, &mut general)
    };
    let mut files = match read {
        Ok(files) => files,
        Err(message) => return terminal.trouble(&message),
    };
    let measured = args.reading.then(|| {
        let language = args.language.unwrap_or_else(|| crate::words::english());
        reading::measured(&mut files, language)
    });
    let status = judge(&general, files.iter().map(|file| &file.problems), args.deny_warnings);
    status.max(write(args, &general, &files, (status, measured), terminal))
}

/// The files at and under the paths as they are once the edits of spelling are made, each of which is
/// told.
fn fixed(args: &Args, general: &mut Problems, terminal: &Terminal) -> Result<Vec<Checked>, String> {
    if args.paths.iter().any(|path| path == Path::new("-")) {
        return Err("`--fix` corrects files; standard input is none".into());
    }
    let (files, made) = build::fix(&args.paths, general);
    for MadeEdit { file, line, column, old, new, code } in made {
        let (code, old, new) = (code.text(), clean_line(&old), clean_line(&new));
        terminal.say(&format!("fixed[{code}] {file}:{line}:{column}: `{old}` is now `{new}`\n"));
    }
    Ok(files)
}

/// Writes what was found in the format that is asked for.
fn write(
    args: &Args,
    general: &Problems,
    files: &[Checked],
    (status, measured): (Status, Option<String>),
    terminal: &Terminal,
) -> Status {
    let none = Sources::default();
    let parts = || {
        let of_files = files.iter().map(|file| (&file.problems, &file.sources));
        std::iter::once((general, &none)).chain(of_files)
    };
    let here = std::env::current_dir().unwrap_or_default();
    match args.format {
        Format::Text => {
            for (problems, sources) in parts() {
                terminal.problems(problems, sources);
                if args.accepted {
                    terminal.accepted(problems, sources);
                }
            }
            let told = measured.map_or(Status::Clean, |text| terminal.result(&text));
            told.max(terminal.summary(&summary(general, files)))
        }
        Format::Json => {
            let mut all = Vec::new();
            for (problems, sources) in parts() {
                all.extend(ProblemJson::all(problems, sources));
                if args.accepted {
                    all.extend(ProblemJson::accepted(problems, sources));
                }
            }
            terminal.json(&all)
        }
        Format::Sarif => {
            let all = worst_first(parts(), args.accepted);
            terminal.json(&sarif::log(&all, args.accepted, status, &here))
        }
        Format::Github => {
            let all = worst_first(parts(), false);
            terminal.result(&github::commands(&all, &summary(general, files), &here))
        }
    }
}

/// The files at and under `paths`, checked, in their order.
pub fn read(paths: &[PathBuf], general: &mut Problems) -> Result<Vec<Checked>, String> {
    let standard_input = Path::new("-");
    if !paths.iter().any(|path| path == standard_input) {
        return Ok(build::check(paths, general));
    }
    if paths.len() > 1 {
        return Err("`-` stands alone: standard input is read as the only specification".into());
    }
    let mut bytes = Vec::new();
    let limit = spec::LARGEST_FILE as u64 + 1;
    match std::io::stdin().lock().take(limit).read_to_end(&mut bytes) {
        Ok(_) => Ok(vec![build::check_bytes(STANDARD_INPUT, bytes, Path::new("."))]),
        Err(error) => Err(format!("standard input cannot be read: {error}")),
    }
}

/// The only file at or under `path`, checked; `None` if it could not be read, which is then told
/// among the problems. Of several `wish` says what to do: `name one`.
pub fn read_one(
    path: &Path,
    wish: &str,
    general: &mut Problems,
) -> Result<Option<Checked>, String> {
    let mut files = read(&[path.to_owned()], general)?;
    match files.len() {
        0 | 1 => Ok(files.pop()),
        many => Err(format!("there are {} here; {wish}", count(many, "specification"))),
    }
}

fn summary(general: &Problems, files: &[Checked]) -> String {
    let jobs = files.iter().filter(|file| matches!(file.content, Content::Job(_))).count();
    let what = boards_and_jobs(files.len() - jobs, jobs);
    let all: Vec<_> = std::iter::once(general)
        .chain(files.iter().map(|f| &f.problems))
        .map(Problems::counts)
        .collect();
    let errors: usize = all.iter().map(|(errors, _)| errors).sum();
    let warnings: usize = all.iter().map(|(_, warnings)| warnings).sum();
    let accepted: usize = files.iter().map(|file| file.problems.accepted().len()).sum();
    let accepted = if accepted == 0 { String::new() } else { format!(", {accepted} accepted") };
    let (errors, warnings) = (count(errors, "error"), count(warnings, "warning"));
    format!("{what} checked: {errors}, {warnings}{accepted}\n")
}
