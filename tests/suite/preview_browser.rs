//! The preview in headless Chromium: what a reader sees and hears of an edit, with axe-core, the keyboard and
//! the tree that screen readers are given. As `axe.rs` it needs Node, two packages and Chromium, and is left
//! out unless it is asked for; `tests/all` asks for it wherever they are there.
#![allow(clippy::print_stderr)] // What was measured is told to who runs it with `--nocapture`.

use std::fs;
use std::path::Path;
use std::process::Command;

use serde_json::{Value, json};

use crate::readers::served::Served;

/// Opens the preview at the address that is given, edits the file that is given, and tells what is there.
const SCRIPT: &str = r#"
const { createRequire } = require('module');
const fs = require('fs');
const from = createRequire(process.env.AXE_MODULES + '/');
const { chromium } = from('playwright-core');
const axe = fs.readFileSync(from.resolve('axe-core/axe.min.js'), 'utf8');
const [url, path] = process.argv.slice(1);
const good = fs.readFileSync(path, 'utf8');
const told = { axe: [], console: [] };
const judge = async (page, name) => {
  // A script that is not the page's own may not run in it, so the rules run in a world of their own.
  const session = await page.context().newCDPSession(page);
  const { frameTree } = await session.send('Page.getFrameTree');
  const { executionContextId } = await session.send('Page.createIsolatedWorld', { frameId: frameTree.frame.id });
  const run = async expression => {
    const done = await session.send('Runtime.evaluate', { expression, contextId: executionContextId, awaitPromise: true, returnByValue: true });
    if (done.exceptionDetails) throw new Error(JSON.stringify(done.exceptionDetails));
    return done.result.value;
  };
  await run(axe + '; 1');
  const result = await run('axe.run()');
  const list = all => all.map(one => one.id + ': ' + one.nodes.slice(0, 3).map(n => n.target.join(' ') + ' ' + (n.any[0] || n.all[0] || n.none[0] || {}).message).join(', '));
  told.axe.push({ name, kept: result.passes.map(p => p.id), broken: list(result.violations), unclear: list(result.incomplete),
    wide: await page.evaluate(() => document.documentElement.scrollWidth - innerWidth),
    back: await page.evaluate(() => getComputedStyle(document.body).backgroundColor) });
};
const open = async (browser, options, wish = '') => {
  const page = await browser.newPage(options);
  page.on('console', message => { if (message.type() === 'error') told.console.push(message.text()); });
  page.on('pageerror', error => told.console.push(String(error)));
  await page.goto(url + wish);
  await page.waitForSelector('.page svg');
  return page;
};
const says = (page, text) => page.waitForFunction(text => document.getElementById('pages').textContent.includes(text), text);
(async () => {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ['--no-sandbox'] });
  const broken = good.replace('groups:', 'grups:');
  for (const colorScheme of ['light', 'dark']) for (const width of [1300, 360]) {
    fs.writeFileSync(path, good);
    const page = await open(browser, { colorScheme, viewport: { width, height: 800 } });
    await page.waitForFunction(() => document.getElementById('band').hidden);
    await judge(page, `${colorScheme} ${width} good`);
    fs.writeFileSync(path, broken);
    await page.waitForFunction(() => !document.getElementById('band').hidden);
    await judge(page, `${colorScheme} ${width} broken`);
    await page.close();
  }
  fs.writeFileSync(path, good);

  const page = await open(browser, { viewport: { width: 1300, height: 800 } });
  await page.waitForFunction(() => document.getElementById('band').hidden);
  // The keyboard: where Tab leads, and whether that is seen.
  told.walk = [];
  for (let step = 0; step < 12; step++) {
    await page.keyboard.press('Tab');
    told.walk.push(await page.evaluate(() => {
      const at = document.activeElement;
      const look = getComputedStyle(at.matches('.page a') ? at.querySelector('path') : at);
      const seen = at.matches('.page a') ? look.stroke !== 'none' : look.outlineStyle !== 'none' && parseFloat(look.outlineWidth) > 1;
      return { name: at.id || at.getAttribute('class') || at.getAttribute('aria-label') || at.textContent, tag: at.localName, seen };
    }));
  }
  await page.evaluate(() => document.activeElement.blur());
  await page.reload();
  await page.waitForSelector('.page svg');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  told.skipped = await page.evaluate(() => document.activeElement.id);
  await page.focus('#language');
  await page.keyboard.type('Deu');
  await page.waitForFunction(() => document.getElementById('pages').lang === 'de');
  told.german = await page.evaluate(() => ({ text: document.querySelector('.page svg').textContent, address: location.search, focus: document.activeElement.id }));
  // Letters that are typed at once are one word to a list.
  await page.waitForTimeout(1500);
  await page.keyboard.type('Eng');
  await page.waitForFunction(() => document.getElementById('pages').lang === 'en');
  told.tree = await page.locator('body').ariaSnapshot();

  // From a saved file to the picture; a link of the sheets that has the focus keeps it.
  await page.evaluate(() => document.querySelector('.page a').focus());
  told.focused = [await page.evaluate(() => document.activeElement.getAttribute('href'))];
  told.times = [];
  for (let round = 0; round < 15; round++) {
    const name = `Wren 3${round}x`;
    const seen = says(page, name);
    const start = performance.now();
    fs.writeFileSync(path, good.replace('name: Wren 3', 'name: ' + name));
    await seen;
    told.times.push(Math.round(performance.now() - start));
  }
  // A file that breaks keeps its sheets; one that is mended loses the band.
  told.focused.push(await page.evaluate(() => document.activeElement.getAttribute('href')));
  // A link of the sheets leads to its place.
  await page.evaluate(() => { document.documentElement.classList.remove('smooth'); scrollTo(0, 0); });
  await page.evaluate(() => document.querySelector('.page a[href$=socket-J2]').dispatchEvent(new MouseEvent('click', { bubbles: true, cancelable: true, view: window })));
  await page.waitForFunction(() => scrollY > 100);
  told.link = await page.evaluate(() => document.getElementById('at-socket-J2').getBoundingClientRect().top);
  const kept = await page.evaluate(() => document.querySelector('.page svg').textContent);
  fs.writeFileSync(path, broken);
  await page.waitForFunction(() => !document.getElementById('band').hidden);
  told.broken = await page.evaluate(() => ({ band: document.getElementById('band').textContent, status: document.getElementById('status').textContent,
    live: document.getElementById('status').getAttribute('role'), title: document.title, text: document.querySelector('.page svg').textContent,
    list: document.getElementById('list').textContent }));
  told.broken.kept = told.broken.text === kept;
  delete told.broken.text;
  // What is edited comes into view, unless that is switched off.
  const edited = text => text.replace(/^  J3:.*$/m, line => line + ' # edited');
  fs.writeFileSync(path, good);
  await page.waitForFunction(() => document.getElementById('band').hidden);
  await page.evaluate(() => { document.documentElement.classList.remove('smooth'); scrollTo(0, 0); });
  fs.writeFileSync(path, edited(good));
  const place = () => page.evaluate(() => {
    const bar = document.querySelector('.edited');
    return { top: bar && bar.getBoundingClientRect().top, scrolled: scrollY, page: bar && bar.parentElement.id, height: innerHeight,
      anchor: document.getElementById('at-socket-J3').getBoundingClientRect().top };
  });
  await page.waitForFunction(() => scrollY > 100);
  told.followed = await place();
  await page.uncheck('#follow');
  await page.evaluate(() => scrollTo(0, 0));
  fs.writeFileSync(path, good.replace(/^  J2:.*$/m, line => line + ' # edited').replace('name: Wren 3', 'name: Wren 7'));
  await says(page, 'Wren 7');
  told.unfollowed = await place();
  const calm = await open(browser, { reducedMotion: 'reduce', viewport: { width: 1300, height: 800 } });
  told.motion = [await page.evaluate(() => { document.documentElement.classList.add('smooth'); return getComputedStyle(document.documentElement).scrollBehavior; }),
    await calm.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior)];
  await browser.close();
  fs.writeFileSync(path, good);
  console.log(JSON.stringify(told));
})().catch(error => { console.error(error, JSON.stringify(told.console)); process.exit(1); });
"#;

#[test]
#[ignore = "needs Node, playwright-core, axe-core and Chromium; tests/all runs it where they are"]
fn a_reader_sees_and_hears_every_edit() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("wren-3.yaml");
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    fs::copy(specs.join("wren-3.yaml"), &path).expect("a copy");
    let program = assert_cmd::cargo::cargo_bin("lidsheet");
    let served = Served::start(&program, folder.path(), &["."]);
    let output = Command::new("node")
        .args(["-e", SCRIPT])
        .arg(format!("http://{}/", served.address))
        .arg(&path)
        .output()
        .expect("Node runs; AXE_MODULES names the folder with node_modules, CHROMIUM the browser");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let told: Value = serde_json::from_slice(&output.stdout).expect("it answers in JSON");
    assert_eq!(told["console"], json!([]), "the page breaks its own policy, or stops");

    let judged = told["axe"].as_array().expect("a list");
    assert_eq!(judged.len(), 8);
    for page in judged {
        assert_eq!(page["broken"], json!([]), "{page}");
        assert_eq!(page["wide"], 0, "the page itself scrolls sideways: {page}");
        let kept = page["kept"].as_array().expect("a list");
        assert!(kept.len() > 10 && kept.contains(&"color-contrast".into()), "{page}");
        assert!(kept.contains(&"heading-order".into()), "{page}");
    }
    assert_ne!(judged[0]["back"], judged[4]["back"], "dark is as light");

    let walk = told["walk"].as_array().expect("a list");
    let names: Vec<&str> = walk.iter().filter_map(|step| step["name"].as_str()).collect();
    let first = ["skip", "skip", "file", "sheet", "language", "paper", "follow", "problems"];
    assert_eq!(names[..8], first, "{walk:?}");
    assert!(walk[8..].iter().all(|step| step["tag"] == "a"), "the links of the sheets: {walk:?}");
    assert!(walk.iter().all(|step| step["seen"] == true), "a focus is not seen: {walk:?}");
    assert_eq!(told["skipped"], "sheets");
    let german = &told["german"];
    assert!(german["text"].to_string().contains("Verdrahtung"), "{german}");
    assert!(german["address"].to_string().contains("language=de") && german["focus"] == "language");

    let tree = told["tree"].as_str().expect("a tree");
    for part in [
        "- banner:",
        "- main \"Sheets\":",
        "- complementary \"Problems\":",
        "- status:",
        "- combobox \"Board or job\"",
        "- heading \"Lidsheet preview\" [level=1]",
        "- heading \"Sheets\" [level=2]",
        "[level=3]",
        "- group \"Page 1 of ",
        "figure \"Board plan, as it is mounted, seen from the front",
        "- heading \"Plugs and pins\"",
    ] {
        assert!(tree.contains(part), "{part}\n{tree}");
    }

    assert!(told["focused"][0].is_string() && told["focused"][0] == told["focused"][1], "{told}");
    let link = told["link"].as_f64().expect("a number");
    assert!(link > 0.0 && link < 400.0, "a link does not lead to its place: {link}");

    let broken = &told["broken"];
    assert_eq!((&broken["kept"], &broken["live"]), (&json!(true), &json!("status")), "{broken}");
    let text = |key: &str| broken[key].as_str().unwrap_or_default().to_owned();
    assert!(
        text("band").contains("last good state") && text("band").contains("1 error"),
        "{broken}"
    );
    assert!(text("status").contains("error") && text("status").contains("First: line"), "{broken}");
    assert!(text("title").starts_with("Errors: "), "{broken}");
    assert!(text("list").contains("grups") && text("list").contains("wren-3.yaml:"), "{broken}");

    let followed = &told["followed"];
    let number = |value: &Value| value.as_f64().expect("a number");
    let top = number(&followed["top"]);
    assert!(top > 0.0 && top < number(&followed["height"]), "{followed}");
    assert!((top - number(&followed["anchor"])).abs() < 3.0, "{followed}");
    assert_eq!(told["unfollowed"]["scrolled"], 0, "{}", told["unfollowed"]);
    assert_eq!(told["motion"], json!(["smooth", "auto"]));
    eprintln!("from a saved file to its text in the page, ms: {}", told["times"]);
}
