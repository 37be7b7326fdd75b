// Looks at field pages in a browser without a window, with the network off: rules of axe-core, narrow and zoomed
// windows, rotation, without scripts, hostile words, and how long it takes. Arguments: the page of the demo, that of a
// board with hostile words, that of a large board with a job for it.
const { createRequire } = require('module');
const fs = require('fs');
const from = createRequire(process.env.AXE_MODULES + '/');
const { chromium, devices } = from('playwright-core');
const axe = fs.readFileSync(from.resolve('axe-core/axe.min.js'), 'utf8');
const [demo, hostile, large, largeJob, demoJob] = process.argv.slice(1);
const told = { console: [], dialogs: 0, axe: [] };

const open = async (browser, file, options, hash = '') => {
  const context = await browser.newContext({ ...devices['Pixel 5'], ...options });
  await context.setOffline(true);
  const page = await context.newPage();
  page.on('console', (message) => told.console.push(message.text()));
  page.on('pageerror', (error) => told.console.push(String(error)));
  page.on('dialog', (dialog) => { told.dialogs += 1; dialog.dismiss(); });
  await page.goto('file://' + file + hash);
  if (options.javaScriptEnabled !== false) await page.waitForSelector('#form section');
  return page;
};
const hash = (job) => '#job=' + encodeURIComponent(fs.readFileSync(job, 'utf8'));
const planned = (page) => page.waitForFunction(() => document.getElementById('plan')?.dataset.state === 'planned');

// A script that is not the page's own may not run in it, so the rules run in a world of their own.
const judge = async (page, name) => {
  const session = await page.context().newCDPSession(page);
  const { frameTree } = await session.send('Page.getFrameTree');
  const { executionContextId } = await session.send('Page.createIsolatedWorld', { frameId: frameTree.frame.id });
  const run = async (expression) => {
    const done = await session.send('Runtime.evaluate', { expression, contextId: executionContextId, awaitPromise: true, returnByValue: true });
    if (done.exceptionDetails) throw new Error(JSON.stringify(done.exceptionDetails));
    return done.result.value;
  };
  await run(axe + '; 1');
  const result = await run('axe.run()');
  const list = (all) => all.map((one) => one.id + ': ' + one.nodes.slice(0, 3).map((node) => node.target.join(' ') + ' ' + (node.any[0] || node.all[0] || node.none[0] || {}).message).join(', '));
  told.axe.push({ name, kept: result.passes.length, broken: list(result.violations), unclear: list(result.incomplete),
    wide: await run('document.documentElement.scrollWidth - innerWidth') });
};

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ['--no-sandbox'] });
  // A small window in the light, or 1280 by 1024 at 400 %, and a large one in the dark.
  for (const [colorScheme, width, height] of [['light', 320, 256], ['dark', 1280, 900]]) {
    {
      const viewport = { width, height };
      const page = await open(browser, demo, { colorScheme, viewport, isMobile: false }, hash(demoJob));
      await planned(page);
      await judge(page, `${colorScheme} ${viewport.width} planned`);
      await page.locator('select[name=sheet]').selectOption('lid-insert');
      await page.locator('input[name=pages]').check();
      await page.waitForSelector('.leaf svg');
      await judge(page, `${colorScheme} ${viewport.width} as pages`);
      await page.locator('input[name=breaker]').fill('10');
      await page.waitForFunction(() => document.getElementById('plan').dataset.state === 'refused');
      await judge(page, `${colorScheme} ${viewport.width} refused`);
      await page.locator('[data-do=new]').click();
      await judge(page, `${colorScheme} ${viewport.width} new`);
      await page.locator('details').evaluateAll((all) => all.forEach((it) => { it.open = true; }));
      await judge(page, `${colorScheme} ${viewport.width} all open`);
      await page.context().close();
    }
  }

  // A phone that is turned keeps what was typed.
  const phone = await open(browser, demo, {}, hash(demoJob));
  await planned(phone);
  const before = await phone.evaluate(() => [location.hash, document.getElementById('status').textContent]);
  await phone.setViewportSize({ width: 851, height: 393 });
  told.rotated = { same: JSON.stringify(before) === JSON.stringify(await phone.evaluate(() => [location.hash, document.getElementById('status').textContent])),
    wide: await phone.evaluate(() => document.documentElement.scrollWidth - innerWidth), status: before[1] };
  // By the keyboard: every stop is seen.
  await phone.evaluate(() => { scrollTo(0, 0); document.activeElement.blur(); });
  told.walk = [];
  for (let step = 0; step < 25; step++) {
    await phone.keyboard.press('Tab');
    told.walk.push(await phone.evaluate(() => {
      const at = document.activeElement;
      const seen = [at, at.closest('.radio'), at.closest('.file')?.querySelector('span')].some((it) => it && (getComputedStyle(it).outlineStyle !== 'none' && parseFloat(getComputedStyle(it).outlineWidth) > 1));
      return { name: at.name || at.id || at.textContent, seen };
    }));
  }
  told.german = await (async () => {
    await phone.locator('select[name=language]').selectOption('de');
    await phone.waitForFunction(() => document.querySelector('#sheets article')?.lang === 'de');
    return phone.evaluate(() => ({ lang: document.documentElement.lang, status: document.getElementById('status').textContent, legend: document.querySelector('legend').textContent }));
  })();
  await phone.context().close();

  // Without a script: the questions lead to a number.
  const bare = await open(browser, demo, { javaScriptEnabled: false });
  const note = await bare.locator('noscript').innerText().catch(() => '');
  const board = bare.locator('details.board').nth(1);
  await board.locator('> summary').click();
  let fold = board.locator('details.fold').first();
  const way = [];
  for (;;) {
    await fold.locator('> summary').click();
    way.push(await fold.locator('> summary').innerText());
    const next = fold.locator('> .folded > details.fold');
    if ((await next.count()) === 0) break;
    fold = next.first();
  }
  told.bare = { note, way, end: await fold.locator('> .folded').innerText() };
  await bare.context().close();

  // Words that would be markup.
  const nasty = await open(browser, hostile, {});
  await nasty.locator('select[name=board]').selectOption({ index: 1 }).catch(() => {});
  await nasty.locator('input[name=supply]').first().check();
  await nasty.locator('[data-part=more] > summary').click();
  await nasty.locator('input[name=job]').fill('<img src=x onerror=alert(1)>');
  await nasty.locator('input[name=for]').fill(']]></script><script>alert(2)</script>\u202e');
  await nasty.locator('input[name=breaker]').fill('<svg onload=alert(3)>');
  const add = nasty.locator('[data-add]').first();
  await add.click();
  await nasty.locator('input[name=device-1-volts]').fill('"><b>');
  await nasty.locator('input[name=device-1-high]').fill('1');
  const speeds = nasty.locator('input[name=device-1-speeds]');
  if (await speeds.count()) await speeds.first().check();
  await nasty.waitForFunction(() => document.getElementById('plan').dataset.state === 'refused');
  told.hostile = await nasty.evaluate(() => ({ images: document.querySelectorAll('img, b, #told script, #sheets script').length,
    told: document.getElementById('told').textContent, board: document.querySelector('select[name=board] option:checked').textContent }));
  // The breaker and the voltage are put right: what is planned is made of the same words.
  await nasty.locator('input[name=breaker]').fill('20');
  await nasty.locator('input[name=device-1-volts]').fill('120');
  await nasty.waitForTimeout(500);
  told.hostile.after = await nasty.evaluate(() => ({ images: document.querySelectorAll('#sheets img, #sheets b, #sheets script').length, text: document.getElementById('sheets').textContent }));
  await nasty.context().close();

  const many = await open(browser, large, {}, hash(largeJob));
  await planned(many);
  told.large = await many.evaluate(() => ({ status: document.getElementById('status').textContent, wide: document.documentElement.scrollWidth - innerWidth }));
  await many.context().close();

  // How long it takes, as it is and with a processor four times as slow.
  told.times = {};
  for (const slower of [1, 4]) {
    const context = await browser.newContext(devices['Pixel 5']);
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
    await page.goto('file://' + demo + hash(demoJob));
    await planned(page);
    const first = await page.evaluate(() => performance.now());
    await page.waitForTimeout(1500 * slower);
    const changes = await page.evaluate(async () => {
      const input = document.querySelector('input[name=breaker]');
      const times = [];
      for (const value of ['60', '50', '60', '50', '60', '50', '60', '50', '60', '50', '60']) {
        const start = performance.now();
        input.value = value;
        input.dispatchEvent(new Event('input', { bubbles: true }));
        await new Promise((done) => setTimeout(done, 0));
        await new Promise((done) => requestAnimationFrame(() => setTimeout(done, 0)));
        times.push(performance.now() - start);
      }
      return times.sort((a, b) => a - b);
    });
    told.times[slower] = { first, median: changes[5], worst: changes[10] };
    await context.close();
  }
  await browser.close();
  console.log(JSON.stringify(told));
})().catch((error) => { console.error(error, JSON.stringify(told.console)); process.exit(1); });
