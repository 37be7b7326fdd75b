// Types jobs into the field page in a browser without a window, with the network off, as somebody would with a
// thumb; prints what the page then holds. Arguments: the page, and a file with the jobs.
const { createRequire } = require('module');
const fs = require('fs');
const from = createRequire(process.env.AXE_MODULES + '/');
const { chromium, devices } = from('playwright-core');
const [file, jobs] = process.argv.slice(1);

// What the page asks of its module, and what it is answered.
const LISTEN = () => {
  const real = WebAssembly.instantiate;
  const asked = { at: 0, length: 0 };
  globalThis.heard = { shown: null, plans: 0 };
  WebAssembly.instantiate = async (...given) => {
    const made = await real.apply(WebAssembly, given);
    const own = made.instance.exports;
    const exports = {
      memory: own.memory,
      room: (bytes) => { asked.length = bytes; return (asked.at = own.room(bytes)); },
      answer: () => {
        const question = new TextDecoder().decode(new Uint8Array(own.memory.buffer, asked.at, asked.length));
        const length = own.answer();
        if (question.startsWith('{"ask":"show"')) {
          const bytes = new Uint8Array(own.memory.buffer, own.answer_start(), length);
          // As it is: a number that is parsed here comes out in another form.
          globalThis.heard.shown = new TextDecoder().decode(bytes);
          globalThis.heard.plans += 1;
        }
        return length;
      },
      answer_start: own.answer_start,
    };
    return { instance: { exports }, module: made.module };
  };
};

const amps = (text) => (text ?? '').replace(/ A$/, '');

/** Fills in the form with the values of a job. */
async function fill(page, values) {
  const put = async (name, value) => { if (value !== undefined) await page.locator(`[name="${name}"]`).fill(value); };
  const pick = async (name, value) => { if (value !== undefined) await page.locator(`select[name="${name}"]`).selectOption(value); };
  const press = (name, value) => page.locator(`input[name="${name}"][value="${value}"]`).check();
  await page.locator('[data-do=new]').click();
  await pick('board', values.board.split('/').pop());
  await press('supply', values.supply);
  await put('breaker', amps(values.breaker));
  const run = values['supply run'];
  if (run) {
    const part = page.locator('[data-part=run]');
    if (!(await part.evaluate((it) => it.open))) await part.locator('summary').click();
    const [length, unit] = run.length.split(' ');
    await put('length', length);
    await pick('length-unit', unit);
    const [size, sizeUnit, metal] = run.conductor.split(' ');
    await put('size', size);
    await pick('size-unit', sizeUnit);
    await pick('metal', metal);
    await pick('terminals', run.terminals);
    await pick('method', run.method);
    await pick('insulation', run.insulation);
    if (run.capacity) await put('capacity', amps(run.capacity));
  }
  for (const [index, device] of values.equipment.entries()) {
    const name = (key) => `device-${index + 1}-${key}`;
    const which = device.device.replace(/^pump [1-9]$/, 'pump');
    const other = page.locator('[data-part=other]');
    if ((await other.locator(`[data-add="${which}"]`).count()) && !(await other.evaluate((it) => it.open))) await other.locator('summary').click();
    await page.locator(`[data-add="${which}"]`).click();
    const speeds = page.locator(`input[name="${name('speeds')}"]`);
    // What has no motor has one speed, and is not asked for it.
    if (device.speeds && (device.speeds !== '1' || (await speeds.count()))) await press(name('speeds'), device.speeds);
    else if (['amps', 'hp'].some((unit) => device[unit]?.low)) await press(name('speeds'), '2');
    await put(name('volts'), device.volts);
    for (const unit of ['amps', 'hp', 'watts']) {
      const value = device[unit];
      const of = typeof value === 'string' ? { high: value } : (value ?? {});
      for (const speed of Object.keys(of)) {
        if (unit !== 'amps') await pick(name(`${speed}-unit`), unit);
        await put(name(speed), of[speed]);
      }
    }
    if (device['power factor'] || device.cord || which !== device.device) {
      const more = page.locator(`[data-device="${index + 1}"] details`);
      if (!(await more.evaluate((it) => it.open))) await more.locator('summary').click();
      await put(name('factor'), device['power factor']);
      await pick(name('cord'), device.cord);
      if (which !== device.device) await pick(name('which'), device.device);
    }
  }
  const more = page.locator('[data-part=more]');
  if (!(await more.evaluate((it) => it.open))) await more.locator('summary').click();
  await put('job', values.job);
  await put('for', values.for);
  await pick('panel', values.panel);
  await pick('rules', values.rules);
  await put('ampacity', values.marked && amps(values.marked['minimum circuit ampacity']));
  await put('largest', values.marked && amps(values.marked['largest breaker']));
}

/** What the page holds once it has planned. */
async function held(page) {
  const waits = page.waitForFunction(() => document.getElementById('plan').dataset.state !== 'waits', null, { timeout: 5000 });
  await waits.catch(async () => {
    throw new Error(`no plan: ${await page.locator('#plan').innerText()} ${await page.evaluate(() => location.hash)}`);
  });
  // A plan is made as soon as the page has a moment.
  await page.evaluate(() => new Promise((done) => setTimeout(done, 0)));
  return page.evaluate(() => ({
    job: new URLSearchParams(location.hash.slice(1)).get('job'),
    shown: globalThis.heard.shown,
    state: document.getElementById('plan').dataset.state,
    status: document.getElementById('status').textContent,
    told: [...document.querySelectorAll('#told h3')].map((it) => it.textContent),
    sheets: document.getElementById('sheets').textContent.length,
  }));
}

(async () => {
  const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ['--no-sandbox'] });
  const context = await browser.newContext({ ...devices['Pixel 5'], acceptDownloads: true });
  await context.setOffline(true);
  const told = { console: [], requests: [], jobs: [] };
  const page = await context.newPage();
  page.on('console', (message) => told.console.push(message.text()));
  page.on('pageerror', (error) => told.console.push(String(error)));
  page.on('request', (request) => told.requests.push(request.url().slice(0, 60)));
  await page.addInitScript(LISTEN);
  await page.goto('file://' + file);
  await page.waitForSelector('#form section');
  const all = JSON.parse(fs.readFileSync(jobs, 'utf8'));
  for (const one of all.typed) {
    await fill(page, one);
    told.jobs.push(await held(page));
  }

  // A job that was opened, changed and saved, and its PDF.
  told.opened = [];
  for (const one of all.opened) {
    await page.locator('input[name=open]').setInputFiles({ name: 'job.yaml', mimeType: 'text/yaml', buffer: Buffer.from(one.text) });
    await page.waitForFunction((name) => document.querySelector('input[name=job]')?.value === name, one.name);
    await page.locator('input[name=breaker]').fill(one.breaker);
    const kept = await held(page);
    const save = async (what) => {
      const [download] = await Promise.all([page.waitForEvent('download'), page.locator(`[data-do=${what}]`).click()]);
      return { name: download.suggestedFilename(), bytes: fs.readFileSync(await download.path()).toString('base64') };
    };
    const pdfs = [];
    // A refused job has no sheets to choose.
    for (const sheet of kept.state === 'planned' ? ['lid-insert', 'fault-finder', 'work-card'] : []) {
      await page.locator('select[name=sheet]').selectOption(sheet);
      pdfs.push({ sheet, ...(await save('pdf')) });
    }
    // The address holds it all: somebody may keep it, or come back to it.
    const address = page.url();
    const again = await context.newPage();
    await again.addInitScript(LISTEN);
    await again.goto(address);
    await again.waitForSelector('#form section');
    const same = await held(again);
    await again.close();
    told.opened.push({ ...kept, note: await page.locator('#file-note').textContent(), saved: await save('save'), pdfs, again: same.job });
  }
  await browser.close();
  console.log(JSON.stringify(told));
})().catch((error) => { console.error(error); process.exit(1); });
