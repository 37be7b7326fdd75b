//! The list of sheets, and sheets as HTML, against axe-core, which looks for what keeps people with disabilities from
//! reading a page, in headless Chromium: in the light and the dark, wide and narrow. It needs Node
//! with the packages `playwright-core` and `axe-core`, and Chromium, so it is left out unless it is
//! asked for; `tests/all` asks for it wherever they are there, and says where they are not.
#![allow(clippy::print_stderr)] // What was judged is told to who runs it with `--nocapture`.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use lidsheet::build::{self, Order, Report};
use lidsheet::compile::{OwnFolder, SheetKind, SheetOptions, sheet_document};
use lidsheet::diagnostic::Problems;
use lidsheet::page::Paper;
use lidsheet::text::Typesetter;
use lidsheet::words::Language;
use lidsheet::write::{self, FLOWING_STYLE};
use serde_json::Value;

/// Judges each page given as an argument; prints what breaks a rule, and how many rules were kept.
const SCRIPT: &str = r#"
const { createRequire } = require('module');
const from = createRequire(process.env.AXE_MODULES + '/');
const { chromium } = from('playwright-core');
const axe = require('fs').readFileSync(from.resolve('axe-core/axe.min.js'), 'utf8');
(async () => {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ['--no-sandbox'] });
  const found = [];
  for (const file of process.argv.slice(1)) {
    for (const colorScheme of ['light', 'dark']) {
      for (const width of [1200, 340]) {
        const page = await browser.newPage({ colorScheme, viewport: { width, height: 800 } });
        await page.goto('file://' + file);
        await page.evaluate(() => document.querySelectorAll('details').forEach(d => { d.open = true; }));
        await page.evaluate(axe);
        const result = await page.evaluate(() => axe.run());
        const shown = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
        const wide = await page.evaluate(() => document.documentElement.scrollWidth);
        const told = one => one.id + ': ' + one.nodes.map(n => n.target.join(' ')).join(', ');
        found.push({ file, colorScheme, width, shown, wide, kept: result.passes.map(p => p.id),
          broken: result.violations.map(told), unclear: result.incomplete.map(told) });
        await page.close();
      }
    }
  }
  await browser.close();
  console.log(JSON.stringify(found));
})().catch(error => { console.error(error); process.exit(1); });
"#;

fn judged(pages: &[&Path]) -> Vec<Value> {
    let output =
        Command::new("node").args(["-e", SCRIPT]).args(pages).output().expect(
            "Node runs; AXE_MODULES names the folder with node_modules, CHROMIUM the browser",
        );
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("it answers in JSON")
}

fn built(paths: &[&Path], out: &Path) -> Report {
    let order = Order {
        paths: paths.iter().map(PathBuf::from).collect(),
        out: out.to_owned(),
        paper: Paper::A4,
        languages: vec![lidsheet::words::english()],
        templates: None,
        threads: None,
        prune: false,
        png: None,
        field_page: false,
    };
    build::run(&order, &|_| {}, &|| false)
}

#[test]
#[ignore = "needs Node, playwright-core, axe-core and Chromium; tests/all runs it where they are"]
fn the_list_of_sheets_keeps_every_rule_of_axe() {
    let folder = tempfile::tempdir().expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let job = folder.path().join("jobs/2233.yaml");
    fs::create_dir_all(folder.path().join("jobs")).expect("a folder");
    fs::copy(specs.join("wren-3.yaml"), folder.path().join("wren-3.yaml")).expect("a copy");
    let text = fs::read_to_string(specs.join("jobs/2233.yaml")).expect("a job");
    fs::write(&job, &text).expect("a job");
    // Boards, a job, a folder of another build, and a job whose sheets are of an earlier build.
    let out = folder.path().join("out");
    let board = folder.path().join("wren-3.yaml");
    assert!(built(&[&board, &job], &out).index.is_some());
    fs::create_dir_all(out.join("older")).expect("a folder");
    fs::copy(out.join("wren-3/intake-form.pdf"), out.join("older/intake-form.pdf"))
        .expect("a copy");
    let (head, equipment) = text.split_once("equipment:").expect("equipment");
    let refused = format!("{head}equipment:\n  - {{ device: circulation, volts: 17, amps: 1 }}\n");
    assert_ne!(equipment.len(), 0);
    fs::write(&job, refused).expect("a job");
    assert!(built(&[&board, &job], &out).index.is_some());
    let full = out.join("index.html");
    let text = fs::read_to_string(&full).expect("an index");
    for part in ["<caption id=\"table-3\"", "class=\"alert\"", "earlier build", "<details>"] {
        assert!(text.contains(part), "{part}: {text}");
    }
    // A page without anything to list.
    let empty = folder.path().join("empty.html");
    fs::write(&empty, lidsheet::write::html::index(&nothing())).expect("a page");

    let found = judged(&[&full, &empty]);
    assert_eq!(found.len(), 8);
    for page in &found {
        assert_eq!(page["broken"], serde_json::json!([]), "{page}");
        // What a narrow window has scrolled out of view cannot be judged there.
        let narrow = page["width"] == 340;
        assert!(narrow || page["unclear"] == serde_json::json!([]), "{page}");
        assert_eq!(page["wide"], page["width"], "the page itself scrolls sideways: {page}");
        let kept = page["kept"].as_array().expect("a list");
        assert!(kept.len() > 10 && kept.contains(&"color-contrast".into()), "{page}");
    }
    let shown = |scheme: &str| found.iter().find(|page| page["colorScheme"] == scheme);
    assert_ne!(shown("light").map(|page| &page["shown"]), shown("dark").map(|page| &page["shown"]));
    eprintln!("{} pages, no rule of axe-core broken", found.len());
}

fn nothing() -> lidsheet::write::html::Index {
    let words = ["en", "Sheets", "Skip to the sheets", "There are no sheets yet."];
    let [language, title, skip, empty] = words.map(str::to_owned);
    lidsheet::write::html::Index { language, title, skip, empty, first: None, tables: Vec::new() }
}

/// A page of its own for a document that flows, as who writes one may have it: nothing runs on it.
fn flowing_page(document: &lidsheet::document::Document) -> String {
    use base64::{Engine, engine::general_purpose::STANDARD};
    let fonts =
        write::page_style(&|face| format!("data:font/ttf;base64,{}", STANDARD.encode(face.file())));
    format!(
        "<!DOCTYPE html><html lang=\"{}\"><head><meta charset=\"utf-8\"><title>Sheet</title>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
         <meta name=\"color-scheme\" content=\"light dark\"><style>\
         :root{{--paper:#fff;--ink:#111;--line:#767676;--head:#e2e8ee;--link:#003c6e}}\
         @media screen and (prefers-color-scheme:dark){{:root{{--paper:#14171a;--ink:#eee;--link:#8cc8ff;\
         --head:#262c33;--line:#8a929b}}}}\
         body{{margin:0;padding:1rem;background:var(--paper);color:var(--ink);\
         font:1rem/1.5 'Atkinson Hyperlegible Next',system-ui,sans-serif}}a{{color:var(--link)}}\
         {fonts}{FLOWING_STYLE}</style></head><body><main>{}</main></body></html>",
        document.language,
        write::flowing_html(document, 1, "one-"),
    )
}

#[test]
#[ignore = "needs Node, playwright-core, axe-core and Chromium; tests/all runs it where they are"]
fn sheets_that_flow_keep_every_rule_of_axe() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("flowing");
    fs::create_dir_all(&folder).expect("a folder");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let paths = ["heron-8.yaml", "jobs/2231.yaml"].map(|name| specs.join(name));
    let mut pages = Vec::new();
    for mut checked in build::check(&paths, &mut Problems::default()) {
        let tags: &[&str] = if checked.shown.contains("2231") { &["en", "de"] } else { &["en"] };
        for tag in tags {
            let language = Language::of_tag(tag).expect("it is compiled in");
            let look = SheetOptions::new(Paper::A4, language, OwnFolder::default());
            for kind in SheetKind::ALL {
                let made = sheet_document(&mut checked, kind, &look, &mut Typesetter::new());
                let Some(document) = made.expect("it can be made") else { continue };
                let stem = checked.shown.rsplit('/').next().unwrap_or_default();
                let page = folder.join(format!("{stem}-{}-{tag}.html", kind.name()));
                fs::write(&page, flowing_page(&document)).expect("a page");
                pages.push(page);
            }
        }
    }
    assert_eq!(pages.len(), 9);
    let pages: Vec<&Path> = pages.iter().map(PathBuf::as_path).collect();
    for page in &judged(&pages) {
        assert_eq!(page["broken"], serde_json::json!([]), "{page}");
        assert_eq!(page["wide"], page["width"], "the page itself scrolls sideways: {page}");
        let kept = page["kept"].as_array().expect("a list");
        assert!(kept.len() > 10 && kept.contains(&"color-contrast".into()), "{page}");
    }
}
