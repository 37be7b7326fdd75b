//! What is shown. Files that changed go in, pages and problems come out; there is no socket here, no clock and
//! no thread.

use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::PathBuf;
use std::sync::Arc;

use crate::build::{self, Input};
use crate::compile::{self, Checked, Content, OwnFolder, SheetKind, SheetOptions, SheetPages};
use crate::diagnostic::{Code, Problem, Problems};
use crate::mark::sum_of;
use crate::page::Paper;
use crate::report::Told;
use crate::sheet::Templates;
use crate::source::Sources;
use crate::text::Typesetter;
use crate::words::{LANGUAGES, Language, english};
use crate::write;

use super::edit::spot;
use super::edits::Edits;
use super::shown::{Choice, Choices, Leaf, Listed, Shown, Standing};

/// Sheets stand below the heading of the page that shows them and that of its part for sheets.
const FIRST_HEADING: u8 = 3;

/// What somebody wants to see; what is not said, or is not there, the desk chooses.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Asked {
    /// The file as people are shown it.
    pub file: Option<String>,
    /// The name of a kind of sheets.
    pub sheet: Option<String>,
    /// The tag of a language.
    pub language: Option<String>,
    /// The name of a paper.
    pub paper: Option<String>,
}

impl Asked {
    fn language(&self) -> &'static Language {
        let tag = self.language.as_deref();
        tag.and_then(Language::of_tag).unwrap_or_else(|| english())
    }

    fn paper(&self) -> Paper {
        let named = |paper: &Paper| Some(paper.name()) == self.paper.as_deref();
        Paper::ALL.into_iter().find(named).unwrap_or(Paper::A4)
    }

    /// The kind that was asked for, if a file has it, or else the first that it has.
    fn sheet(&self, kinds: &[SheetKind; 3]) -> SheetKind {
        let [first, ..] = *kinds;
        let named = |kind: &&SheetKind| Some(kind.name()) == self.sheet.as_deref();
        kinds.iter().find(named).copied().unwrap_or(first)
    }
}

/// All that is open, and the files that it comes from.
pub struct Desk {
    paths: Vec<PathBuf>,
    templates: Option<PathBuf>,
    set: Typesetter,
    found: Vec<Input>,
    /// What is wrong with the places that were searched.
    general: Problems,
    own: OwnFolder,
    /// What is wrong with the templates of the user's own.
    of_own: Problems,
    listed: BTreeMap<String, Listed>,
    choices: Arc<Choices>,
    /// Files whose errors are still to be counted.
    uncounted: VecDeque<String>,
    /// What was read for each file when its errors were counted.
    read_for: BTreeMap<String, BTreeSet<String>>,
    open: BTreeMap<Asked, View>,
    looks: BTreeMap<(&'static str, &'static str), SheetOptions>,
    edits: Edits,
    compiled_in: BTreeSet<String>,
}

/// Something open.
struct View {
    /// Its file, once there was one.
    input: Option<Input>,
    job: bool,
    shown: Arc<Shown>,
    /// The pages of the last good state.
    good: Option<(Vec<Leaf>, SheetPages)>,
    /// The files that it comes from.
    files: BTreeSet<String>,
    /// Whether a file of it could not be read.
    unread: bool,
}

impl Desk {
    /// A desk for the specifications at and under `paths`, with a folder of templates of one's own. Nothing
    /// is open.
    pub fn new(paths: Vec<PathBuf>, templates: Option<PathBuf>) -> Self {
        let mut desk = Self {
            paths,
            templates,
            set: Typesetter::new(),
            found: Vec::new(),
            general: Problems::default(),
            own: OwnFolder::default(),
            of_own: Problems::default(),
            listed: BTreeMap::new(),
            choices: Arc::new(choices(&BTreeMap::new())),
            uncounted: VecDeque::new(),
            read_for: BTreeMap::new(),
            open: BTreeMap::new(),
            looks: BTreeMap::new(),
            edits: Edits::default(),
            compiled_in: Templates::compiled_in(),
        };
        desk.read_own();
        desk.search();
        desk
    }

    /// All that can be chosen.
    pub fn choices(&self) -> &Arc<Choices> {
        &self.choices
    }

    /// What is shown for a wish that is open.
    pub fn shown(&self, asked: &Asked) -> Option<&Arc<Shown>> {
        self.open.get(asked).map(|view| &view.shown)
    }

    /// The files that something open comes from.
    pub fn watched(&self) -> Vec<PathBuf> {
        let inputs = self.open.values().filter_map(|view| view.input.as_ref());
        let mut all: BTreeSet<PathBuf> = inputs.map(|input| input.path.clone()).collect();
        let known: BTreeSet<&str> = self.found.iter().map(|input| input.shown.as_str()).collect();
        let files = self.open.values().flat_map(|view| &view.files);
        all.extend(files.filter(|file| !known.contains(file.as_str())).map(PathBuf::from));
        let of = |file: &str| self.open.values().any(|view| view.files.contains(file));
        all.extend(self.found.iter().filter(|it| of(&it.shown)).map(|it| it.path.clone()));
        all.extend(self.own.files().map(PathBuf::from));
        all.into_iter().collect()
    }

    /// All files that were found.
    pub fn found(&self) -> Vec<PathBuf> {
        self.found.iter().map(|input| input.path.clone()).collect()
    }

    /// Opens these and closes all others.
    pub fn open(&mut self, asked: &[Asked]) {
        self.open.retain(|open, _| asked.contains(open));
        for asked in asked {
            if !self.open.contains_key(asked) {
                self.make(asked);
            }
        }
        let used: BTreeSet<&String> = self.open.values().flat_map(|view| &view.files).collect();
        self.edits.forget_all_but(&used);
    }

    /// Takes note that the content of files is not what it was.
    pub fn changed(&mut self, paths: &[PathBuf]) {
        let names: BTreeSet<String> = paths.iter().map(|path| build::shown(path)).collect();
        if self.own.files().any(|own| names.contains(own)) {
            self.read_own();
        }
        let touched = |view: &View| view.files.iter().any(|file| names.contains(file));
        let open = self.open.iter().filter(|(_, view)| touched(view));
        let open: Vec<Asked> = open.map(|(asked, _)| asked.clone()).collect();
        open.iter().for_each(|asked| self.make(asked));
        // A board counts for its jobs, a table for its board.
        let touched =
            |file: &String| self.read_for.get(file).is_none_or(|read| !read.is_disjoint(&names));
        let due = self.found.iter().map(|input| &input.shown).filter(|file| touched(file));
        let due: Vec<String> = due.filter(|file| !self.uncounted.contains(file)).cloned().collect();
        self.uncounted.extend(due);
    }

    /// Searches the places again, and reads what could not be read.
    pub fn look_round(&mut self) {
        let before: Vec<Input> = std::mem::take(&mut self.found);
        let general = self.general.sorted();
        self.search();
        let own = self.own_changed();
        if own {
            self.read_own();
        }
        let all = own || before != self.found || general != self.general.sorted();
        if all {
            self.count_anew();
        }
        let due = self.open.iter().filter(|(_, view)| all || view.unread || view.input.is_none());
        let due: Vec<Asked> = due.map(|(asked, _)| asked.clone()).collect();
        due.iter().for_each(|asked| self.make(asked));
    }

    /// Counts the errors of one more file for the list; gives whether others are left.
    pub fn count_next(&mut self) -> bool {
        let Some(file) = self.uncounted.pop_front() else { return false };
        if let Some(input) = self.found.iter().find(|input| input.shown == file) {
            let checked = build::check_one(input, &self.found);
            self.note(&checked);
        }
        !self.uncounted.is_empty()
    }

    fn count_anew(&mut self) {
        self.uncounted = self.found.iter().map(|input| input.shown.clone()).collect();
    }

    fn search(&mut self) {
        let mut general = Problems::default();
        self.found = build::find(&self.paths, &mut general);
        self.general = general;
        let before = std::mem::take(&mut self.listed);
        let found: BTreeSet<&String> = self.found.iter().map(|input| &input.shown).collect();
        self.read_for.retain(|file, _| found.contains(file));
        for input in &self.found {
            let listed = before.get(&input.shown).cloned();
            if listed.is_none() {
                self.uncounted.push_back(input.shown.clone());
            }
            let new = || Listed { file: input.shown.clone(), job: false, errors: None };
            self.listed.insert(input.shown.clone(), listed.unwrap_or_else(new));
        }
        self.list();
    }

    /// Notes in the list what a file is and how many errors it has.
    fn note(&mut self, checked: &Checked) {
        let read = self.read_files(checked);
        let Some(listed) = self.listed.get_mut(&checked.shown) else { return };
        // What it needed while it could still be read may be what it needs again.
        self.read_for.entry(checked.shown.clone()).or_default().extend(read);
        match checked.content {
            Content::Board(_) => listed.job = false,
            Content::Job(_) => listed.job = true,
            // While it is being written a file stays what it was.
            Content::Refused => {}
        }
        listed.errors = Some(checked.problems.counts().0);
        self.list();
    }

    fn list(&mut self) {
        let choices = choices(&self.listed);
        if *self.choices != choices {
            self.choices = Arc::new(choices);
        }
    }

    fn read_own(&mut self) {
        let Some(folder) = &self.templates else { return };
        let mut problems = Problems::default();
        self.own = build::own_folder(folder, &mut problems);
        self.of_own = problems;
        self.looks.clear();
        // Pages of other words are no last good state.
        let open: Vec<Asked> = self.open.keys().cloned().collect();
        open.iter().for_each(|asked| self.make(asked));
    }

    /// Whether there are other files in the folder of templates than there were.
    fn own_changed(&self) -> bool {
        let Some(folder) = &self.templates else { return false };
        let mut problems = Problems::default();
        let now = build::own_folder(folder, &mut problems);
        let names = |all: &OwnFolder| all.files().map(str::to_owned).collect::<Vec<_>>();
        names(&now) != names(&self.own) || problems.sorted() != self.of_own.sorted()
    }

    /// The file of a wish: the one that is named, or the first board, or the first file.
    fn input_of(&mut self, asked: &Asked) -> Option<Input> {
        let named = |input: &&Input| Some(&input.shown) == asked.file.as_ref();
        if let Some(input) = self.found.iter().find(named) {
            return Some(input.clone());
        }
        while !self.found.is_empty() && !self.listed.values().any(|it| it.is_counted_board()) {
            if self.uncounted.is_empty() {
                break;
            }
            self.count_next();
        }
        let first = self.found.iter().find(|input| {
            self.listed.get(&input.shown).is_some_and(|listed| listed.is_counted_board())
        });
        first.or(self.found.first()).cloned()
    }

    /// Makes what is shown for a wish anew.
    fn make(&mut self, asked: &Asked) {
        let before = self.open.remove(asked);
        let (input, job, good, was, files) = match before {
            Some(View { input, job, good, shown, files, .. }) => {
                (input, job, good, Some(shown), files)
            }
            None => (None, false, None, None, BTreeSet::new()),
        };
        let Some(input) = input.or_else(|| self.input_of(asked)) else {
            let view = self.nothing(asked);
            self.open.insert(asked.clone(), view);
            return;
        };
        let mut checked = build::check_one(&input, &self.found);
        let job = match &checked.content {
            Content::Board(_) => false,
            Content::Job(_) => true,
            Content::Refused => self.listed.get(&input.shown).map_or(job, |listed| listed.job),
        };
        self.note(&checked);
        let kinds = if job { &SheetKind::OF_JOB } else { &SheetKind::OF_BOARD };
        let kind = asked.sheet(kinds);
        let (language, paper) = (asked.language(), asked.paper());
        let look = self
            .looks
            .entry((language.tag, paper.name()))
            .or_insert_with(|| SheetOptions::new(paper, language, self.own.clone()));
        checked.warn_of_language(look.words.tag());
        let blocked = self.of_own.failed().is_some();
        let made = match blocked {
            true => Ok(None),
            false => compile::sheet_pages(&mut checked, kind, look, &mut self.set),
        };
        let (standing, good) = match made {
            _ if blocked => (Standing::Kept, good),
            Ok(Some(made)) => (Standing::Fresh, Some((leaves(&made), made))),
            Ok(None) => (Standing::Nothing, None),
            Err(_) => (Standing::Kept, good),
        };
        let standing = if good.is_none() { Standing::Nothing } else { standing };
        let read = self.read_files(&checked);
        let is_template = |name: &str| self.own.files().any(|own| own == name);
        let written = checked.sources.iter().map(|(_, file)| file);
        let written = written.filter(|it| read.contains(&it.name) && !is_template(&it.name));
        self.edits.note(&written.collect::<Vec<_>>());
        // What the last good state came from stays watched: the file may not say any more what it needs.
        let files = match standing {
            Standing::Fresh => read,
            Standing::Kept | Standing::Nothing => files.into_iter().chain(read).collect(),
        };
        let edited = self.edits.last().filter(|last| files.contains(&last.edit.file));
        let spot = edited
            .zip(good.as_ref())
            .map(|(last, (_, made))| spot(&last.targets, &made.pages, &made.drawings));
        let shown = Shown {
            choice: Choice {
                file: input.shown.clone(),
                sheet: kind.name(),
                language: language.tag,
                paper: paper.name(),
            },
            sheets: kinds.iter().map(|kind| kind.name()).collect(),
            standing,
            problems: self.told(&checked),
            pages: good.as_ref().map(|(leaves, _)| leaves.clone()).unwrap_or_default(),
            edited: edited.map(|last| last.edit.clone()),
            spot,
        };
        let shown = match was {
            Some(was) if *was == shown => was,
            _ => Arc::new(shown),
        };
        let unread = |problem: &Problem| {
            matches!(problem.code, Code::FileUnread | Code::TableUnread | Code::FileTooLarge)
        };
        let unread = checked.problems.sorted().iter().any(unread);
        let view = View { input: Some(input), job, shown, good, files, unread };
        self.open.insert(asked.clone(), view);
    }

    /// What is wrong with the places that were searched, with one's own templates, and with a file.
    fn told(&self, checked: &Checked) -> Vec<Told> {
        let mut all = Told::all(&self.general, &Sources::default());
        all.extend(Told::all(&self.of_own, &Sources::default()));
        all.extend(Told::all(&checked.problems, &checked.sources));
        all
    }

    /// What is shown where there is no file.
    fn nothing(&self, asked: &Asked) -> View {
        let kinds = &SheetKind::OF_BOARD;
        let shown = Shown {
            choice: Choice {
                file: String::new(),
                sheet: asked.sheet(kinds).name(),
                language: asked.language().tag,
                paper: asked.paper().name(),
            },
            sheets: kinds.iter().map(|kind| kind.name()).collect(),
            standing: Standing::Nothing,
            problems: Told::all(&self.general, &Sources::default()),
            pages: Vec::new(),
            edited: None,
            spot: None,
        };
        View {
            input: None,
            job: false,
            shown: Arc::new(shown),
            good: None,
            files: BTreeSet::new(),
            unread: true,
        }
    }

    /// The files that were read for what was checked, but for those that are part of the program.
    fn read_files(&self, checked: &Checked) -> BTreeSet<String> {
        let names = checked.sources.iter().map(|(_, file)| file.name.clone());
        let read = names.filter(|name| !self.compiled_in.contains(name));
        read.chain([checked.shown.clone()]).collect()
    }
}

impl Listed {
    fn is_counted_board(&self) -> bool {
        !self.job && self.errors.is_some()
    }
}

fn leaves(made: &SheetPages) -> Vec<Leaf> {
    let drawn = write::svg_pages(&made.pages, FIRST_HEADING);
    let leaf = |(svg, page): (String, &crate::page::Page)| Leaf {
        id: sum_of(svg.as_bytes()),
        width: page.size.width,
        height: page.size.height,
        svg: svg.into(),
    };
    drawn.into_iter().zip(&made.pages.pages).map(leaf).collect()
}

fn choices(listed: &BTreeMap<String, Listed>) -> Choices {
    let mut files: Vec<Listed> = listed.values().cloned().collect();
    files.sort_by_key(|listed| listed.job);
    Choices {
        files,
        languages: LANGUAGES.iter().map(|language| (language.tag, language.name)).collect(),
        papers: Paper::ALL.iter().map(|paper| paper.name()).collect(),
    }
}
