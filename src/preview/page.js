'use strict';
// Shows what the server tells: problems as text, pages as drawings that are fetched once and kept while they
// are the same. Nothing that a file says becomes markup.

const byId = id => document.getElementById(id);
const [file, sheet, language, paper, follow] = ['file', 'sheet', 'language', 'paper', 'follow'].map(byId);
const SHEETS = {
  'wiring-sheets': 'Wiring sheets', 'fault-finder': 'Fault finder', 'intake-form': 'Intake form',
  'lid-insert': 'Lid insert', 'work-card': 'Work card',
};
const PAPERS = { A4: 'A4', A5: 'A5', letter: 'Letter' };

const chosen = Object.fromEntries(new URLSearchParams(location.search));
const drawn = new Map();   // pages by their place and the sum of their drawing
let stream = null;
let edit = null;           // number of the edit that was shown last; null before the first news
let news = 0;

const element = (name, className, text) => {
  const made = document.createElement(name);
  if (className) made.className = className;
  if (text !== undefined) made.textContent = text;
  return made;
};
// Words in which `this` is code.
const words = (name, className, text) => {
  const made = element(name, className);
  text.split('`').forEach((part, index) => made.append(index % 2 ? element('code', '', part) : part));
  return made;
};
const count = (number, one) => number === 1 ? `1 ${one}` : `${number} ${one}s`;
const setText = (where, text) => { if (where.textContent !== text) where.textContent = text; };

function options(select, pairs, value) {
  const wanted = JSON.stringify(pairs);
  // A list that is open must not be changed for nothing.
  if (select.dataset.options !== wanted) {
    select.dataset.options = wanted;
    const groups = new Map();
    select.replaceChildren();
    for (const [key, label, group] of pairs) {
      let into = select;
      if (group) {
        if (!groups.has(group)) {
          const made = element('optgroup');
          made.label = group;
          select.append(made);
          groups.set(group, made);
        }
        into = groups.get(group);
      }
      const option = element('option', '', label);
      option.value = key;
      into.append(option);
    }
  }
  if (value !== undefined) select.value = value;
}

let files = [];
let current = null;
function showChoices(choices) {
  files = choices.files;
  options(language, Object.entries(choices.languages));
  options(paper, choices.papers.map(name => [name, PAPERS[name] ?? name]));
  showFiles();
}

function showFiles() {
  const label = it => it.errors ? `${it.file} (${count(it.errors, 'error')})` : it.file;
  const pairs = files.map(it => [it.file, label(it), it.job ? 'Jobs' : 'Boards']);
  // A file that is gone stays chosen while its last good sheets are shown.
  const gone = current && current.choice.file;
  if (gone && !files.some(it => it.file === gone)) pairs.push([gone, `${gone} (gone)`, 'Gone']);
  options(file, pairs, current ? current.choice.file : undefined);
}

function showProblems(told) {
  const list = byId('list');
  list.replaceChildren(...told.map(problem => {
    const item = element('li', problem.severity);
    item.append(words('p', 'what', `${problem.severity} ${problem.code}: ${problem.message}`));
    const place = [problem.file, problem.line, problem.column].filter(part => part !== null && part !== '');
    let where = place.join(':');
    if (problem.label) where += `: ${problem.label}`;
    if (where) item.append(words('p', 'where', where));
    for (const note of problem.notes) item.append(words('p', 'note', `Note: ${note}`));
    if (problem.help) item.append(words('p', 'help', `Help: ${problem.help}`));
    if (problem.shape) item.append(element('pre', '', problem.shape));
    return item;
  }));
  byId('none').hidden = told.length > 0;
  byId('hint').hidden = told.length === 0;
}

function status(shown) {
  const errors = shown.problems.filter(it => it.severity === 'error');
  const warnings = shown.problems.length - errors.length;
  const parts = [];
  if (errors.length) parts.push(count(errors.length, 'error'));
  if (warnings) parts.push(count(warnings, 'warning'));
  let text = parts.length ? `${parts.join(', ')}.` : 'No problems.';
  if (errors.length) {
    const { line, message } = errors[0];
    text += line === null ? ` First: ${message}.` : ` First: line ${line}, ${message}.`;
  }
  return text;
}

const KEPT = 'These sheets are of the last good state: they do not say what the file says now.';

async function show(shown) {
  const mine = ++news;
  current = shown;
  showFiles();
  options(sheet, shown.sheets.map(name => [name, SHEETS[name] ?? name]), shown.choice.sheet);
  language.value = shown.choice.language;
  paper.value = shown.choice.paper;
  showProblems(shown.problems);
  const failed = shown.problems.some(it => it.severity === 'error');
  byId('status').classList.toggle('errors', failed);
  setText(byId('status'), status(shown));
  const kept = shown.standing === 'kept';
  setText(byId('band'), kept ? `${KEPT} ${status(shown)}` : '');
  byId('band').hidden = !kept;
  shown.pages.forEach((page, index) => { page.key = `${index} ${page.id}`; });
  const missing = shown.pages.filter(page => !drawn.has(page.key));
  try {
    await Promise.all(missing.map(async page => drawn.set(page.key, await drawing(page))));
  } catch {
    // These pages were replaced while they were fetched: the next news tells of others.
    return;
  }
  if (mine !== news) return;
  const pages = byId('pages');
  pages.classList.toggle('kept', kept);
  pages.lang = shown.choice.language;
  const boxes = shown.pages.map((page, index) => {
    const box = drawn.get(page.key);
    box.id = `page-${index + 1}`;
    // A drawing would be an image, whose parts nobody reads.
    box.firstElementChild.setAttribute('role', 'group');
    box.firstElementChild.setAttribute('aria-label', `Page ${index + 1} of ${shown.pages.length}`);
    return box;
  });
  const link = document.activeElement.closest('.page a');
  place(pages, boxes);
  // A link that had the focus is another one now, on the same words.
  if (link && !link.isConnected) {
    const same = it => ['href', 'aria-label'].every(name => it.getAttribute(name) === link.getAttribute(name));
    const again = [...pages.querySelectorAll('a')].find(same);
    if (again) again.focus({ preventScroll: true });
  }
  for (const key of drawn.keys()) if (!shown.pages.some(page => page.key === key)) drawn.delete(key);
  const empty = byId('empty');
  empty.hidden = shown.pages.length > 0;
  setText(empty, failed ? 'There are no sheets yet: mend the errors first.' : 'The file has no sheets of this kind.');
  const name = shown.choice.file.split('/').pop();
  document.title = `${failed ? 'Errors: ' : ''}${name ? `${name} – ` : ''}Lidsheet preview`;
  mark(shown, boxes);
}

// Puts the pages in their order; what is there already is not moved, so that nothing jumps or loses the focus.
function place(pages, boxes) {
  for (const old of [...pages.children]) if (!boxes.includes(old)) old.remove();
  boxes.forEach((box, index) => {
    if (pages.children[index] !== box) pages.insertBefore(box, pages.children[index] ?? null);
  });
}

async function drawing(page) {
  const answer = await fetch(`/pages/${page.id}.svg`);
  if (!answer.ok) throw new Error(answer.statusText);
  const read = new DOMParser().parseFromString(await answer.text(), 'image/svg+xml');
  const box = element('div', 'page');
  box.append(document.importNode(read.documentElement, true));
  return box;
}

function mark(shown, boxes) {
  const number = shown.edited ? shown.edited.number : 0;
  const isNew = edit !== null && number > edit;
  edit = number;
  if (!isNew || !shown.spot) return;
  document.querySelectorAll('.edited').forEach(old => old.remove());
  const box = boxes[shown.spot.page];
  const page = shown.pages[shown.spot.page];
  if (!box || !page) return;
  const bar = element('div', 'edited');
  bar.setAttribute('aria-hidden', 'true');
  bar.style.top = `${100 * shown.spot.top / page.height}%`;
  box.append(bar);
  if (!follow.checked) return;
  const top = bar.getBoundingClientRect().top;
  const head = headHeight();
  if (top > head && top < window.innerHeight * 0.75) return;
  window.scrollTo({ top: window.scrollY + top - head - 60 });
}

const headHeight = () => getComputedStyle(document.querySelector('header')).position === 'sticky'
  ? document.querySelector('header').offsetHeight : 0;
const measure = () => document.documentElement.style.setProperty('--head', `${headHeight()}px`);
new ResizeObserver(measure).observe(document.querySelector('header'));
document.documentElement.classList.add('smooth');

function connect() {
  if (stream) stream.close();
  const wish = new URLSearchParams(chosen);
  stream = new EventSource(`/events?${wish}`);
  const mine = stream;
  // A server that was started anew counts edits from 1.
  stream.onopen = () => { edit = null; };
  stream.addEventListener('choices', event => showChoices(JSON.parse(event.data)));
  stream.addEventListener('shown', event => show(JSON.parse(event.data)));
  stream.onerror = () => {
    if (mine !== stream) return;
    byId('status').classList.add('errors');
    setText(byId('status'), 'The preview is not connected. Is lidsheet preview still running? Trying again.');
    setText(byId('band'), 'The preview is not connected: these sheets may be old.');
    byId('band').hidden = false;
    // The browser tries again by itself unless it was refused.
    if (stream.readyState === EventSource.CLOSED) setTimeout(() => { if (mine === stream) connect(); }, 2000);
  };
}

for (const select of [file, sheet, language, paper]) {
  select.addEventListener('change', () => {
    chosen[select.id] = select.value;
    history.replaceState(null, '', `?${new URLSearchParams(chosen)}`);
    edit = null;
    connect();
  });
}
byId('choices').addEventListener('submit', event => event.preventDefault());
connect();
