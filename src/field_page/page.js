// The plan, the files and the whole page.

const form = make("form", { id: "form", autocomplete: "off" });
form.addEventListener("submit", (event) => event.preventDefault());
const tools = make("section", { id: "tools" });
const status = make("p", { id: "status", role: "status" });
const told = make("div", { id: "told", lang: "en" });
const sheets = make("div", { id: "sheets" });
const plan = make("section", { id: "plan", tabindex: "-1" });
/** What is decided, seen while the form is filled in, and the way there. */
const bar = button("", () => {
  plan.scrollIntoView();
  plan.focus({ preventScroll: true });
}, { id: "bar" });

let waiting = 0;

/** Something in the form is another: it is planned as soon as the page has a moment. */
function changed() {
  if (!waiting) waiting = window.setTimeout(show, 0);
}

const jobText = () => /** @type {string} */ (ask({ ask: "write", values: job }).written);
const jobFile = () => ({ name: fileName("yaml"), text: jobText() });
/** @param {string} ending */
const fileName = (ending) => `job-${plain(job.job).replace(/[^\p{L}\p{N}_-]+/gu, "-") || "1"}.${ending}`;

/** Fields that a plan cannot do without and that are empty, by their labels. */
function missing() {
  const empty = [...form.querySelectorAll("input[required], select[required]")].filter((it) => {
    const input = /** @type {HTMLInputElement} */ (it);
    return input.type === "radio" ? !form.querySelector(`input[name="${input.name}"]:checked`) : !input.value;
  });
  const seen = new Set();
  return empty.filter((it) => !seen.has(it.getAttribute("name")) && seen.add(it.getAttribute("name")));
}

/** @param {Element} input */
function labelOf(input) {
  const legend = input.closest("fieldset")?.querySelector("legend");
  const words = text(legend ?? input.closest("label")?.querySelector("span") ?? null);
  const card = input.closest(".device")?.querySelector("h3");
  return card ? `${text(card)}: ${words}` : words;
}

function show() {
  waiting = 0;
  const state = new URLSearchParams({ language: look.language, sheet: look.sheet, paper: look.paper, job: jobText() });
  history.replaceState(null, "", `#${state}`);
  const empty = missing();
  if (!board() || empty.length || !equipment().length) {
    const links = empty.map((input) => make("li", {}, button(labelOf(input), () => /** @type {HTMLElement} */ (input).focus())));
    if (board() && !equipment().length) links.push(make("li", {}, say("equipment")));
    tell(say("missing"), "waits");
    told.replaceChildren();
    sheets.replaceChildren(make("ul", { class: "missing" }, ...links));
    return;
  }
  const shown = ask({ ask: "show", job: jobFile(), look }).shown;
  const layout = shown.plan.layout;
  if (layout === null) tell(say("refused"), "refused");
  else tell(`${say("planned")} ${layout}`, "planned");
  told.replaceChildren(...shown.told.map(problem));
  if (layout === null) sheets.replaceChildren();
  else if (asPages) showPages();
  else setHtml(sheets, shown.flowing ?? "");
}

/** @param {string} what @param {string} state */
function tell(what, state) {
  status.textContent = bar.textContent = what;
  status.className = bar.className = plan.dataset.state = state;
}

function showPages() {
  const pages = /** @type {string[]} */ (ask({ ask: "pages", job: jobFile(), look }).pages);
  sheets.replaceChildren(
    ...pages.map((page) => {
      const leaf = make("div", { class: "leaf" });
      setHtml(leaf, page);
      return leaf;
    }),
  );
}

/** The compiler's own HTML: it escapes all that a specification or a form says. @param {HTMLElement} to @param {string} html */
function setHtml(to, html) {
  to.innerHTML = html;
}

/** @param {Told} it */
function problem(it) {
  const index = it.line === null ? -1 : jobText().split("\n").slice(0, it.line).filter((line) => line.startsWith("  - ")).length;
  const line = it.line === null ? "" : (jobText().split("\n")[it.line - 1] ?? "");
  const of = line.startsWith("  - ") ? form.querySelector(`[data-device="${index}"] h3`) : null;
  return make(
    "section",
    { class: `problem ${it.severity}` },
    make("h3", {}, `${it.code} ${it.message}`),
    ...(of ? [make("p", { class: "place" }, text(of))] : []),
    ...(it.label ? [make("p", {}, it.label)] : []),
    ...it.notes.map((note) => make("p", {}, note)),
    ...(it.help ? [make("p", { class: "help" }, it.help)] : []),
  );
}

// Files.

/** @param {BlobPart} content @param {string} name @param {string} type */
function save(content, name, type) {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = make("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** @param {BlobPart} content @param {string} name @param {string} type */
function share(content, name, type) {
  const files = [new File([content], name, { type })];
  // Who gives up sharing wants to hear nothing.
  navigator.share({ files }).catch(() => {});
}

const canShare = () => Boolean(navigator.canShare?.({ files: [new File([""], "job.yaml", { type: "text/yaml" })] }));

/** @param {(bytes: Uint8Array<ArrayBuffer>, name: string) => void} give */
function pdf(give) {
  const bytes = askBytes({ ask: "pdf", job: jobFile(), look });
  if (new TextDecoder().decode(bytes.slice(0, 5)) === "%PDF-") give(bytes, fileName("pdf").replace(/^job/, look.sheet));
}

/** Takes the values of a job's file into the form. @param {string} content */
function open(content) {
  const opened = ask({ ask: "open", text: content }).opened;
  if (!opened || !("job" in opened.values || "equipment" in opened.values)) return say("not_a_job");
  job = opened.values;
  delete job.lidsheet;
  draw();
  return opened.comments ? say("comments") : "";
}

function drawTools() {
  const note = make("p", { role: "status", id: "file-note" });
  const picker = make("input", { type: "file", accept: ".yaml,.yml,text/plain", name: "open" });
  picker.addEventListener("change", async () => {
    const file = /** @type {HTMLInputElement} */ (picker).files?.[0];
    if (file) note.textContent = open(await file.text());
  });
  const languages = Object.entries(data.languages).map(([tag, name]) => /** @type {[string, string]} */ ([tag, String(name)]));
  tools.replaceChildren(
    choice(say("language"), "language", look.language, languages, (tag) => {
      look.language = tag;
      speak();
    }),
    make("label", { class: "file" }, make("span", {}, say("open")), picker),
    button(say("begin_again"), () => {
      job = newJob();
      draw();
    }, { "data-do": "new" }),
    note,
  );
}

function drawPlan() {
  /** @type {[string, string][]} */
  const kinds = [["work-card", say("work_card")], ["lid-insert", say("insert")], ["fault-finder", say("finder")]];
  const papers = data.papers.map((/** @type {string} */ it) => /** @type {[string, string]} */ ([it, it]));
  const pages = make("input", { type: "checkbox", name: "pages", checked: asPages });
  pages.addEventListener("change", () => {
    asPages = /** @type {HTMLInputElement} */ (pages).checked;
    changed();
  });
  const copied = make("span", { role: "status" });
  const type = "text/yaml";
  plan.replaceChildren(
    make("h2", {}, say("plan")),
    status,
    told,
    make(
      "div",
      { class: "row choices" },
      choice(say("show"), "sheet", look.sheet, kinds, (it) => (look.sheet = it)),
      choice(say("paper"), "paper", look.paper, papers, (it) => (look.paper = it)),
      make("label", { class: "tick" }, pages, make("span", {}, say("as_pages"))),
    ),
    make(
      "div",
      { class: "buttons pdf" },
      button(say("pdf"), () => pdf((bytes, name) => save(bytes, name, "application/pdf")), { "data-do": "pdf" }),
      ...(canShare() ? [button(say("share_pdf"), () => pdf((bytes, name) => share(bytes, name, "application/pdf")))] : []),
    ),
    sheets,
    make(
      "div",
      { class: "buttons", role: "group", "aria-label": say("job_file") },
      make("strong", {}, say("job_file")),
      button(say("copy"), async () => {
        await navigator.clipboard.writeText(jobText());
        copied.textContent = say("copied");
      }, { "data-do": "copy" }),
      button(say("save"), () => save(jobText(), fileName("yaml"), type), { "data-do": "save" }),
      ...(canShare() ? [button(say("share"), () => share(jobText(), fileName("yaml"), type))] : []),
      copied,
    ),
  );
}

/** Says everything in the language that was chosen. */
function speak() {
  const answer = ask({ ask: "form", language: look.language, boards: data.boards }).form;
  words = answer.words;
  boards = answer.boards;
  document.documentElement.lang = look.language;
  document.title = say("title");
  element("title").textContent = say("title");
  element("lead").textContent = say("lead");
  drawTools();
  drawPlan();
  draw();
  return answer.faces;
}

/** The whole faces that drawings are lettered in: somebody may type any letter. @param {{ family: string, bold: boolean }[]} faces */
function loadFaces(faces) {
  faces.forEach(({ family, bold }, face) => {
    const file = askBytes({ ask: "font", face });
    document.fonts.add(new FontFace(family, file, { weight: bold ? "700" : "400" }));
  });
}

async function run() {
  desk.replaceChildren(make("p", { role: "status", id: "starts" }, data.starts));
  try {
    await start();
    ask({ ask: "begin", files: data.files, own: data.own });
    desk.replaceChildren(tools, form, bar, plan);
    const state = new URLSearchParams(location.hash.slice(1));
    if (Object.hasOwn(data.languages, state.get("language") ?? "")) look.language = state.get("language");
    if (data.papers.includes(state.get("paper"))) look.paper = state.get("paper");
    look.sheet = ["lid-insert", "fault-finder"].find((it) => it === state.get("sheet")) ?? look.sheet;
    job = newJob();
    const faces = speak();
    const written = state.get("job");
    if (written) open(written);
    setTimeout(() => loadFaces(faces), 0);
  } catch (why) {
    desk.replaceChildren(make("p", { class: "band", role: "alert" }, `${data.cannot_start} (${why})`));
  }
}

run();
