// The field page: a form for a job, and what the compiler says of it.
//
// Nothing is decided here. The compiler runs as the module that the page carries; the page asks it with every change
// and shows its answer. The parts are one script: this one has the module, the values and the elements, `form.js` the
// form, `page.js` the plan and the files.

/**
 * @typedef {{ [key: string]: Values }} Entry
 * @typedef {string | Entry | Entry[]} Values
 * @typedef {{ device: string, words: string, other: boolean, numbers: [string, string][], two_speeds: boolean, asks_speeds: boolean, motor: boolean, known?: string }} Device
 * @typedef {{ name: string, title: string, wires: string, awg: boolean }} Supply
 * @typedef {{ file: string, name: string, part: string, compare: string, supplies: Supply[], panels: { name: string, title: string }[], devices: Device[] }} Board
 * @typedef {{ severity: string, code: string, message: string, line: number | null, label: string, notes: string[], help: string | null }} Told
 */

const data = JSON.parse(text(document.getElementById("data")));
const desk = element("desk");

/** @param {string} id */
function element(id) {
  const found = document.getElementById(id);
  if (!found) throw new Error(id);
  return found;
}

/** @param {Element | null} of */
function text(of) {
  return of?.textContent ?? "";
}

// The module.

/** @type {{ memory: WebAssembly.Memory, room(bytes: number): number, answer(): number, answer_start(): number }} */
let compiler;

/** The bytes of a text with five letters for four of them, from `(` on, but `}` for `<`. @param {HTMLElement} of */
function unpack(of) {
  const letters = text(of);
  const bytes = new DataView(new ArrayBuffer(Math.ceil(letters.length / 5) * 4));
  for (let from = 0, to = 0; from < letters.length; from += 5, to += 4) {
    let value = 0;
    for (let at = from; at < from + 5; at++) {
      const code = letters.charCodeAt(at);
      value = value * 85 + (code === 125 ? 60 : code) - 40;
    }
    bytes.setUint32(to, value);
  }
  return new Uint8Array(bytes.buffer, 0, Number(of.dataset.bytes));
}

async function start() {
  const unpacked = new Blob([unpack(element("module"))]).stream().pipeThrough(new DecompressionStream("gzip"));
  const bytes = await new Response(unpacked).arrayBuffer();
  const { instance } = await WebAssembly.instantiate(bytes, {});
  compiler = /** @type {any} */ (instance.exports);
}

/** What the compiler answers, as bytes. @param {object} question */
function askBytes(question) {
  const asked = new TextEncoder().encode(JSON.stringify(question));
  const room = compiler.room(asked.length);
  new Uint8Array(compiler.memory.buffer, room, asked.length).set(asked);
  const length = compiler.answer();
  return new Uint8Array(compiler.memory.buffer, compiler.answer_start(), length).slice();
}

/** @param {object} question @returns {any} */
function ask(question) {
  const answer = JSON.parse(new TextDecoder().decode(askBytes(question)));
  if ("unknown" in answer) throw new Error(answer.unknown);
  return answer;
}

// What the form holds.

/** @type {{ [key: string]: string }} */
let words = {};
/** @type {Board[]} */
let boards = [];
/** @type {Entry} */
let job = {};
const look = { sheet: "work-card", language: data.language, paper: data.paper };
let asPages = false;

/** @param {string} key */
const say = (key) => words[`field_${key}`] ?? key;
/** @param {Values | undefined} value @returns {string} */
const plain = (value) => (typeof value === "string" ? value : "");
/** @param {Values | undefined} value @returns {Entry} */
const entry = (value) => (value && typeof value === "object" && !Array.isArray(value) ? value : {});
/** @returns {Entry[]} */
const equipment = () => (Array.isArray(job.equipment) ? job.equipment.map(entry) : []);
/** @param {string} path */
const lastPart = (path) => path.split("/").pop() ?? "";
const board = () => boards.find((it) => it.file === lastPart(plain(job.board)));

const newJob = () => ({
  job: "1",
  board: boards.length === 1 && boards[0] ? boards[0].file : "",
  equipment: [],
});

/** A number as it is typed, as a file has it. @param {string} typed */
const number = (typed) => typed.trim().replace(/^([0-9]+),([0-9]+)$/, "$1.$2");

/** Puts a value under a key, or takes the key away. @param {Entry} of @param {string} key @param {Values} value */
function put(of, key, value) {
  if (value === "") delete of[key];
  else of[key] = value;
}

// Elements.

/**
 * @param {string} tag @param {{ [name: string]: any }} [more] @param {(Node | string)[]} inside
 * @returns {HTMLElement}
 */
function make(tag, more = {}, ...inside) {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(more)) {
    if (name.startsWith("on")) made.addEventListener(name.slice(2), value);
    else if (value === true) made.setAttribute(name, "");
    else if (value !== false && value !== undefined) made.setAttribute(name, String(value));
  }
  made.append(...inside);
  return made;
}

/**
 * A labelled field for a text or a number.
 * @param {string} label @param {string} name @param {string} value @param {(value: string) => void} set
 * @param {{ [name: string]: any }} [more]
 */
function field(label, name, value, set, more = {}) {
  const read = (/** @type {Event} */ event) => {
    const input = /** @type {HTMLInputElement} */ (event.target);
    set(more.inputmode === "decimal" ? number(input.value) : input.value);
    changed();
  };
  const input = make("input", { name, value, autocomplete: "off", oninput: read, ...more });
  return make("label", {}, make("span", {}, label), input);
}

/** @param {string} label @param {string} name @param {string} value @param {(value: string) => void} set */
const decimal = (label, name, value, set, more = {}) =>
  field(label, name, value, set, { inputmode: "decimal", ...more });

/**
 * A labelled choice of few.
 * @param {string} label @param {string} name @param {string} value @param {[string, string][]} all
 * @param {(value: string) => void} set @param {{ [name: string]: any }} [more]
 */
function choice(label, name, value, all, set, more = {}) {
  // What a file says and the page does not know is kept.
  const known = all.some(([it]) => it === value) ? all : [...all, /** @type {[string, string]} */ ([value, value])];
  const options = known.map(([it, title]) => make("option", { value: it, selected: it === value }, title));
  const read = (/** @type {Event} */ event) => {
    set(/** @type {HTMLSelectElement} */ (event.target).value);
    changed();
  };
  return make("label", {}, make("span", {}, label), make("select", { name, onchange: read, ...more }, ...options));
}

/**
 * Big buttons of which one is pressed.
 * @param {string} label @param {string} name @param {string} value @param {[string, string, string?][]} all
 * @param {(value: string) => void} set
 */
function radios(label, name, value, all, set) {
  const one = (/** @type {[string, string, string?]} */ [it, title, more]) => {
    const input = make("input", { type: "radio", name, value: it, checked: it === value, required: true });
    input.addEventListener("change", () => {
      set(it);
      changed();
    });
    return make("label", { class: "radio" }, input, make("span", {}, title, ...(more ? [make("small", {}, more)] : [])));
  };
  return make("fieldset", { class: "radios" }, make("legend", {}, label), ...all.map(one));
}

/** @param {string} label @param {() => void} press @param {{ [name: string]: any }} [more] */
const button = (label, press, more = {}) => make("button", { type: "button", onclick: press, ...more }, label);

