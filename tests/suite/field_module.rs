//! The module that stands in the field page, as it is committed: it answers as the sources do, needs nothing from
//! outside, and no question stops it.
//!
//! `FIELD_MODULE` names another module, packed or not, such as one that was built just now.

use std::collections::BTreeMap;
use std::fs;
use std::io::Read;
use std::ops::Range;
use std::path::PathBuf;
use std::sync::LazyLock;

use flate2::read::GzDecoder;
use lidsheet::build;
use lidsheet::compile::Content;
use lidsheet_field_page::answer_to;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use wasmi::{Engine, ExternType, Linker, Memory, Module, Store, TypedFunc};

use crate::field_page::{demo_files, jobs_of_the_demo};
use crate::generate::{boards, jobs};

const OLDER: &str = "The module of the field page is older than the sources: `bash src/field_page/build` builds it anew.";
/// More bytes than it has, packed: what makes it larger than this is looked at.
const LARGEST: usize = 3_000_000;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The file of the module; the note of what built it lies beside it.
fn file() -> PathBuf {
    std::env::var_os("FIELD_MODULE")
        .map_or_else(|| root().join("src/field_page/module.wasm.gz"), PathBuf::from)
}

/// The module, not packed.
fn unpacked() -> Vec<u8> {
    let file = fs::read(file()).expect("`bash src/field_page/build` builds it");
    if !file.starts_with(&[0x1F, 0x8B]) {
        return file;
    }
    let mut module = Vec::new();
    GzDecoder::new(file.as_slice()).read_to_end(&mut module).expect("gzip");
    module
}

/// Compiled once for all tests: that takes longer than a plan.
static MODULE: LazyLock<(Engine, Module)> = LazyLock::new(|| {
    let engine = Engine::default();
    let module = Module::new(&engine, unpacked()).expect("WebAssembly");
    (engine, module)
});

/// A module that was just loaded, as the page holds it.
struct Page {
    store: Store<()>,
    memory: Memory,
    room: TypedFunc<u32, u32>,
    answer: TypedFunc<(), u32>,
    answer_start: TypedFunc<(), u32>,
}

impl Page {
    fn open() -> Self {
        let (engine, module) = &*MODULE;
        let mut store = Store::new(engine, ());
        // Gives the module nothing from outside.
        let linker = Linker::new(engine);
        let instance = linker.instantiate_and_start(&mut store, module).expect("needs nothing");
        Self {
            memory: instance.get_memory(&store, "memory").expect("shared"),
            room: instance.get_typed_func(&store, "room").expect("exported"),
            answer: instance.get_typed_func(&store, "answer").expect("exported"),
            answer_start: instance.get_typed_func(&store, "answer_start").expect("exported"),
            store,
        }
    }

    fn room(&mut self, bytes: usize) -> usize {
        let bytes = u32::try_from(bytes).expect("a question is short");
        self.room.call(&mut self.store, bytes).expect("the module stops") as usize
    }

    fn answer(&mut self) -> Vec<u8> {
        let bytes = self.answer.call(&mut self.store, ()).expect("the module stops") as usize;
        let start = self.answer_start.call(&mut self.store, ()).expect("the module stops") as usize;
        self.memory.data(&self.store)[start..start + bytes].to_vec()
    }

    fn ask(&mut self, question: &[u8]) -> Vec<u8> {
        let start = self.room(question.len());
        self.memory.write(&mut self.store, start, question).expect("there is room");
        self.answer()
    }

    /// Asks the module and the sources; both must say the same, which is returned.
    #[track_caller]
    fn both(&mut self, question: &[u8]) -> Vec<u8> {
        let (told, native) = (self.ask(question), answer_to(question));
        if told != native {
            let asked = String::from_utf8_lossy(&question[..question.len().min(2000)]);
            let at = told.iter().zip(&native).take_while(|(a, b)| a == b).count();
            let near = |text: &[u8]| {
                let part = &text[at.saturating_sub(60).min(text.len())..(at + 60).min(text.len())];
                String::from_utf8_lossy(part).into_owned()
            };
            let (module, sources) = (near(&told), near(&native));
            panic!("{OLDER}\nasked: {asked}\nthe module: {module}\nthe sources: {sources}");
        }
        told
    }

    #[track_caller]
    fn begin(&mut self, files: &BTreeMap<String, String>) {
        let told = self.both(json!({ "ask": "begin", "files": files }).to_string().as_bytes());
        let told: Value = serde_json::from_slice(&told).expect("JSON");
        assert_eq!(told["ready"], files.len());
    }

    /// Whether the plan of a job, the same from both, is one that can be followed.
    #[track_caller]
    fn sound_plan(&mut self, name: &str, text: &str) -> bool {
        let question = json!({ "ask": "plan", "job": { "name": name, "text": text } });
        let told: Value =
            serde_json::from_slice(&self.both(question.to_string().as_bytes())).expect("JSON");
        assert!(told["problems"].is_array(), "{told}");
        told["devices"].is_array()
    }
}

/// The jobs of the demo: names and texts.
fn demo_jobs() -> Vec<(String, String)> {
    let named = jobs_of_the_demo().into_iter().map(|path| {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        (name, fs::read_to_string(path).unwrap())
    });
    named.collect()
}

#[test]
fn it_plans_the_demo_as_the_sources_do() {
    let mut page = Page::open();
    page.begin(&demo_files());
    let (mut sound, mut refused) = (0, 0);
    for (name, text) in demo_jobs() {
        let spoiled = text.replacen("breaker: ", "breaker: 1", 1);
        // Half of it, as while somebody types.
        let half: String = text.chars().take(text.chars().count() / 2).collect();
        for text in [text, spoiled, half] {
            let followed = page.sound_plan(&name, &text);
            sound += usize::from(followed);
            refused += usize::from(!followed);
        }
    }
    assert!(sound > 5 && refused > 5, "{sound}, {refused}");
}

/// Boards that nobody drew for it, by their numbers: ten on each of which a job is planned in little time, which many
/// jobs share, and ten as they come, each with one job. An interpreter takes many times as long for a plan as the
/// program does.
fn plans_of_made_up_boards(small: [u64; 10], others: Range<u64>) {
    let mut page = Page::open();
    let folder = tempfile::tempdir().unwrap();
    let (mut sound, mut all) = (0, 0);
    let jobs = small.into_iter().map(|seed| (seed, 25)).chain(others.map(|seed| (seed, 1)));
    for (seed, jobs_of_it) in jobs {
        let text = boards::generate(seed);
        let board = build::check_bytes("board.yaml", text.clone().into_bytes(), folder.path());
        let Content::Board(board) = board.content else { panic!("a made-up board is sound") };
        page.begin(&BTreeMap::from([("../board.yaml".to_owned(), text)]));
        for number in 0..jobs_of_it {
            let job = jobs::generate(&board, seed.wrapping_mul(100) + number);
            sound += usize::from(page.sound_plan("job.yaml", &job));
            all += 1;
        }
    }
    assert!(all > 250 && sound > all / 6 && sound < all, "{sound} of {all}");
}

#[test]
fn it_plans_made_up_boards_as_the_sources_do_1() {
    plans_of_made_up_boards([13, 33, 44, 77, 119, 157, 183, 201, 219, 240], 2000..2010);
}

#[test]
fn it_plans_made_up_boards_as_the_sources_do_2() {
    plans_of_made_up_boards([24, 37, 46, 79, 120, 160, 190, 205, 224, 251], 2010..2020);
}

#[test]
fn it_plans_made_up_boards_as_the_sources_do_3() {
    plans_of_made_up_boards([29, 39, 67, 88, 138, 170, 199, 210, 236, 254], 2020..2030);
}

#[test]
fn it_plans_made_up_boards_as_the_sources_do_4() {
    plans_of_made_up_boards([31, 41, 72, 118, 154, 178, 200, 211, 239, 255], 2030..2040);
}

#[test]
fn it_writes_the_file_that_the_sources_write() {
    let mut page = Page::open();
    page.begin(&demo_files());
    let (_, text) = demo_jobs().swap_remove(0);
    for (sheet, language) in [("lid-insert", "en"), ("work-card", "de")] {
        let look = json!({ "sheet": sheet, "language": language, "paper": "A4" });
        let job = json!({ "name": "job.yaml", "text": text });
        let question = json!({ "ask": "pdf", "job": job, "look": look });
        let file = page.both(question.to_string().as_bytes());
        assert!(file.starts_with(b"%PDF-"), "{}", String::from_utf8_lossy(&file));
    }
}

/// Texts that ask nothing, or nothing that the module knows.
fn strange_questions() -> Vec<Vec<u8>> {
    let mut all: Vec<Vec<u8>> = [
        "",
        " ",
        "{",
        "[]",
        "null",
        "\u{0}",
        "\u{FEFF}{}",
        "1e999",
        "{\"ask\":\"dance\"}",
        "{\"ask\":\"plan\"}",
        "{\"ask\":\"begin\",\"files\":[]}",
        "{\"ask\":\"begin\",\"files\":{\"../board.yaml\":7}}",
        "{\"ask\":\"begin\",\"ask\":\"plan\"}",
        "{\"ask\":\"plan\",\"job\":{\"name\":\"a\",\"text\":\"\",\"text\":\"\"}}",
        "{\"ask\":\"plan\",\"job\":{\"name\":\"\\ud800\",\"text\":\"\"}}",
    ]
    .map(|text| text.as_bytes().to_vec())
    .into();
    all.push(vec![0xFF; 9]);
    all.push(vec![b'['; 100_000]);
    all.push(b"{\"ask\":".repeat(20_000));
    all.push(vec![0; 3_000_000]);
    all
}

#[test]
fn what_is_no_question_never_stops_it() {
    let mut page = Page::open();
    // Before anybody asked for room.
    let told = page.answer();
    assert_eq!(told, answer_to(b""));
    let (name, text) = demo_jobs().swap_remove(0);
    let job = json!({ "ask": "plan", "job": { "name": name, "text": text } }).to_string();
    for question in strange_questions() {
        let told = page.both(&question);
        let told: Value = serde_json::from_slice(&told).expect("JSON");
        assert!(told["unknown"].is_string(), "{told}");
    }
    page.room(0);
    assert_eq!(page.answer(), answer_to(b""));
    // Asked again without a word.
    assert_eq!(page.answer(), answer_to(b""));
    // What it does not know beside what it knows, and a job before there is a board.
    let further =
        job.replacen('{', "{\"mood\":[1,{}],", 1).replacen("\"name\"", "\"b\":null,\"name\"", 1);
    for question in [&further, &job, "{\"ask\":\"begin\",\"files\":{},\"more\":1}"] {
        let told: Value = serde_json::from_slice(&page.both(question.as_bytes())).expect("JSON");
        assert!(told.is_object(), "{told}");
    }
    // And all of it changed nothing.
    page.begin(&demo_files());
    assert!(page.sound_plan(&name, &text));
    let before = page.answer();
    assert_eq!(page.answer(), before, "the same question gives the same answer");
}

#[test]
fn it_needs_nothing_and_offers_three_functions() {
    let (_, module) = &*MODULE;
    let imports: Vec<String> = module.imports().map(|it| it.name().to_owned()).collect();
    assert_eq!(imports, Vec::<String>::new());
    // The linker adds numbers that say where the data ends.
    let offered = module.exports().filter(|it| !matches!(it.ty(), ExternType::Global(_)));
    let mut offered: Vec<&str> = offered.map(|it| it.name()).collect();
    offered.sort_unstable();
    assert_eq!(offered, ["answer", "answer_start", "memory", "room"]);
}

/// The note says which module it is of; the module says nothing of the machine that built it, and is not too
/// large.
#[test]
fn it_is_the_module_that_its_note_tells_of() {
    let module = unpacked();
    let note = fs::read_to_string(file().with_file_name("module.txt")).expect("beside it");
    let mark: String = Sha256::digest(&module).iter().map(|byte| format!("{byte:02x}")).collect();
    assert!(note.contains(&mark), "{mark} is not in\n{note}");
    for path in ["/root/", "/home/", "/Users/", "/work/", "/tmp/", ".cargo", ".rustup"] {
        let found = module.windows(path.len()).position(|part| part == path.as_bytes());
        let around = found.map(|at| {
            let part = &module[at.saturating_sub(40)..(at + 80).min(module.len())];
            String::from_utf8_lossy(part).into_owned()
        });
        assert_eq!(around, None, "{path}");
    }
    let packed = fs::metadata(file()).expect("it is there").len() as usize;
    assert!(packed < LARGEST, "{packed} bytes");
}
