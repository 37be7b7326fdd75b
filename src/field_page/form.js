// The form: what each part of it reads from the values of the job, and writes there.

/** `50 A` without its unit, and back. A text of another form is kept as it is. */
const amps = {
  /** @param {Values | undefined} value */
  out: (value) => plain(value).replace(/^\s*([0-9.]+)\s*A\s*$/, "$1"),
  /** @param {string} typed */
  in: (typed) => (/^[0-9.]+$/.test(typed) ? `${typed} A` : typed),
};

function boardPart() {
  const chosen = board();
  const all = boards.map((it) => /** @type {[string, string]} */ ([it.file, `${it.name}, ${it.part}`]));
  const choose = (/** @type {string} */ file) => {
    job.board = file;
    const fits = board();
    if (!fits?.supplies.some((it) => it.name === job.supply)) delete job.supply;
    if (!fits?.panels.some((it) => it.name === job.panel)) delete job.panel;
    draw();
  };
  const bare = (/** @type {string} */ part) => part.toUpperCase().replace(/[^A-Z0-9]/g, "");
  const note = make("p", { id: "part-note", role: "status" }, chosen?.compare ?? "");
  const search = make("input", { name: "part", autocomplete: "off", autocapitalize: "characters", "aria-describedby": "part-note" });
  search.addEventListener("input", () => {
    const typed = bare(/** @type {HTMLInputElement} */ (search).value);
    const found = boards.filter((it) => typed && bare(it.part) === typed);
    if (found.length === 1 && found[0]) {
      choose(found[0].file);
      document.getElementsByName("part")[0]?.focus();
    } else note.textContent = typed && !boards.some((it) => bare(it.part).startsWith(typed)) ? say("no_part") : (board()?.compare ?? "");
  });
  const value = chosen?.file ?? plain(job.board);
  return make(
    "section",
    {},
    make("h2", {}, say("board")),
    ...(boards.length > 1 ? [make("label", {}, make("span", {}, say("part")), search)] : []),
    choice(say("board"), "board", value, [["", "–"], ...all], choose, { required: true }),
    note,
  );
}

/** @param {Board} of */
function supplyPart(of) {
  const all = of.supplies.map((it) => /** @type {[string, string, string]} */ ([it.name, it.title, it.wires]));
  return make(
    "section",
    {},
    make("h2", {}, say("supply")),
    radios(say("supply"), "supply", plain(job.supply), all, (name) => {
      job.supply = name;
      draw();
    }),
    decimal(say("breaker"), "breaker", amps.out(job.breaker), (typed) => put(job, "breaker", amps.in(typed)), { required: true }),
    runPart(of),
  );
}

/** @param {Board} of */
function runPart(of) {
  const run = entry(job["supply run"]);
  const fits = of.supplies.find((it) => it.name === job.supply);
  const length = /^\s*([0-9.]+)\s*(m|ft)\s*$/.exec(plain(run.length));
  const wire = /^\s*(\S+)\s+(AWG|mm2)\s+(copper|aluminum)\s*$/.exec(plain(run.conductor));
  const parts = {
    length: length?.[1] ?? plain(run.length),
    unit: length?.[2] ?? (length || !run.length ? (fits?.awg ? "ft" : "m") : ""),
    size: wire?.[1] ?? plain(run.conductor),
    sizeUnit: wire?.[2] ?? (wire || !run.conductor ? (fits?.awg ? "AWG" : "mm2") : ""),
    metal: wire?.[3] ?? (wire || !run.conductor ? "copper" : ""),
  };
  const write = () => {
    put(run, "length", parts.length && `${parts.length} ${parts.unit}`.trim());
    put(run, "conductor", parts.size && `${parts.size} ${parts.sizeUnit} ${parts.metal}`.trim());
    if (Object.keys(run).length) job["supply run"] = run;
    else delete job["supply run"];
  };
  const set = (/** @type {(typed: string) => void} */ to) => (/** @type {string} */ typed) => {
    to(typed);
    write();
  };
  const own = (/** @type {string} */ key, change = (/** @type {string} */ it) => it) =>
    set((typed) => put(run, key, change(typed)));
  const awg = parts.sizeUnit !== "mm2";
  return make(
    "details",
    { open: Object.keys(run).length > 0, "data-part": "run" },
    make("summary", {}, say("run")),
    make(
      "div",
      { class: "row" },
      decimal(say("length"), "length", parts.length, set((typed) => (parts.length = typed))),
      choice(say("length_unit"), "length-unit", parts.unit, [["m", "m"], ["ft", "ft"]], set((it) => (parts.unit = it))),
    ),
    make(
      "div",
      { class: "row" },
      field(say("size"), "size", parts.size, set((typed) => (parts.size = number(typed)))),
      choice(say("size_unit"), "size-unit", parts.sizeUnit, [["AWG", "AWG"], ["mm2", "mm²"]], (it) => {
        parts.sizeUnit = it;
        write();
        draw();
      }),
      choice(say("metal"), "metal", parts.metal, [["copper", say("copper")], ["aluminum", say("aluminum")]], set((it) => (parts.metal = it))),
    ),
    make(
      "div",
      { class: "row" },
      ...(awg || run.terminals
        ? [choice(say("terminals"), "terminals", plain(run.terminals), [["", say("unknown")], ["60 C", "60 °C"], ["75 C", "75 °C"]], own("terminals"))]
        : []),
      ...(!awg || run.method || run.insulation
        ? [
            choice(say("method"), "method", plain(run.method), [["", say("unknown")], ...["A1", "A2", "B1", "B2", "C", "D1", "D2"].map((it) => /** @type {[string, string]} */ ([it, it]))], own("method")),
            choice(say("insulation"), "insulation", plain(run.insulation), [["", say("unknown")], ["PVC", "PVC"], ["XLPE", "XLPE"]], own("insulation")),
          ]
        : []),
    ),
    decimal(say("capacity"), "capacity", amps.out(run.capacity), own("capacity", amps.in)),
  );
}

/** @param {Board} of */
function equipmentPart(of) {
  const add = (/** @type {Device} */ device) => {
    const known = equipment();
    known.push({ device: device.device });
    job.equipment = known;
    draw();
    document.getElementsByName(`device-${known.length}-${device.asks_speeds ? "speeds" : "volts"}`)[0]?.focus();
  };
  const buttons = (/** @type {boolean} */ other) => of.devices.filter((device) => device.other === other).map((device) =>
    button(`+ ${device.words}`, () => add(device), { "data-add": device.device, "aria-label": `${say("add")}: ${device.words}` }),
  );
  const heater = of.devices.find((device) => device.known);
  return make(
    "section",
    {},
    make("h2", {}, say("equipment")),
    make("p", {}, say("read_plates")),
    ...equipment().map((device, index) => card(of, device, index)),
    make("div", { class: "buttons" }, ...buttons(false)),
    make("details", { "data-part": "other" }, make("summary", {}, say("other")), make("div", { class: "buttons" }, ...buttons(true))),
    ...(heater ? [make("p", {}, `${say("heater_known")} ${heater.known}.`)] : []),
  );
}

/** One installed device. @param {Board} of @param {Entry} device @param {number} index */
function card(of, device, index) {
  const list = equipment();
  job.equipment = list;
  list[index] = device;
  const kind = of.devices.find((it) => it.device === plain(device.device).replace(/^pump [1-9]$/, "pump"));
  const name = (/** @type {string} */ key) => `device-${index + 1}-${key}`;
  const numbered = kind !== undefined && device.device !== kind.device;
  const title = `${index + 1}. ${kind?.numbers.find(([word]) => word === device.device)?.[1] ?? (kind && !numbered ? kind.words : plain(device.device))}`;
  const two = "low" in entry(device.amps) || "low" in entry(device.hp) || device.speeds === "2";
  const own = (/** @type {string} */ key) => (/** @type {string} */ value) => put(device, key, value);
  // A motor may have a second speed that no layout of the board has: then the compiler says so.
  const speeds = kind?.two_speeds || kind?.motor || device.speeds
    ? [
        radios(say("speeds"), name("speeds"), plain(device.speeds) || (two ? "2" : kind?.asks_speeds ? "" : "1"), [["1", "1"], ["2", "2"]], (value) => {
          device.speeds = value;
          if (value === "1") {
            const high = plate(device, "high");
            setPlate(device, "low", { unit: high.unit, value: "" });
          }
          draw();
        }),
      ]
    : [];
  const rows = two ? ["high", "low"] : ["high"];
  return make(
    "section",
    { class: "device", "aria-label": title, "data-device": index + 1 },
    make(
      "div",
      { class: "row head" },
      make("h3", {}, title),
      button(say("remove"), () => {
        list.splice(index, 1);
        draw();
      }, { "aria-label": `${say("remove")}: ${title}` }),
    ),
    ...speeds,
    make(
      "div",
      { class: "row" },
      decimal(say("volts"), name("volts"), plain(device.volts), own("volts"), { required: true }),
      ...rows.map((speed) => plateField(device, speed, two, kind?.motor ?? true, name)),
    ),
    make(
      "details",
      { open: Boolean(device["power factor"] || device.cord || numbered) },
      make("summary", {}, `${say("power_factor")}, ${say("cord")}`),
      make(
        "div",
        { class: "row" },
        ...(kind?.numbers.length
          ? [choice(say("which"), name("which"), plain(device.device), [[kind.device, say("whichever")], ...kind.numbers], (it) => {
              device.device = it;
              draw();
            })]
          : []),
        decimal(say("power_factor"), name("factor"), plain(device["power factor"]), own("power factor")),
        choice(say("cord"), name("cord"), plain(device.cord), [["", say("cord_made")], ["re-ended", say("cord_ended")], ["adapter", say("cord_adapter")]], own("cord")),
      ),
    ),
  );
}

/** What a nameplate says of a speed: a value and its key. @param {Entry} device @param {string} speed */
function plate(device, speed) {
  for (const unit of ["amps", "hp", "watts"]) {
    const value = device[unit];
    const own = typeof value === "string" ? (speed === "high" ? value : undefined) : entry(value)[speed];
    if (own !== undefined) return { unit, value: plain(own) };
  }
  return { unit: "", value: "" };
}

/** @param {Entry} device @param {string} speed @param {{ unit: string, value: string }} to */
function setPlate(device, speed, to) {
  const other = speed === "high" ? "low" : "high";
  const kept = plate(device, other);
  for (const unit of ["amps", "hp", "watts"]) {
    /** @type {Entry} */
    const both = {};
    if (kept.value && kept.unit === unit) put(both, other, kept.value);
    if (to.value && to.unit === unit) put(both, speed, to.value);
    if ("low" in both) device[unit] = both;
    else put(device, unit, plain(both.high));
  }
}

/** Units that were chosen for a field that is still empty. @type {WeakMap<Entry, { [speed: string]: string }>} */
const chosenUnits = new WeakMap();

/** @param {Entry} device @param {string} speed @param {boolean} two @param {boolean} motor @param {(key: string) => string} name */
function plateField(device, speed, two, motor, name) {
  const now = plate(device, speed);
  const units = chosenUnits.get(device) ?? {};
  chosenUnits.set(device, units);
  units[speed] ??= now.unit || "amps";
  const label = two ? say(speed) : say("plate");
  const write = (/** @type {string} */ value) => setPlate(device, speed, { unit: units[speed] ?? "amps", value });
  /** @type {[string, string][]} */
  const all = [["amps", say("amps")]];
  if (motor || now.unit === "hp") all.push(["hp", say("hp")]);
  if ((!motor && speed === "high") || now.unit === "watts") all.push(["watts", say("watts")]);
  const value = make("input", {
    name: name(speed), value: now.value, autocomplete: "off", required: speed === "high",
    inputmode: units[speed] === "hp" ? "text" : "decimal",
  });
  value.addEventListener("input", () => {
    const typed = /** @type {HTMLInputElement} */ (value).value;
    write(units[speed] === "hp" ? typed.trim() : number(typed));
    changed();
  });
  const unit = choice(say("unit"), name(`${speed}-unit`), units[speed] ?? "amps", all, (it) => {
    const typed = plate(device, speed).value;
    units[speed] = it;
    value.setAttribute("inputmode", it === "hp" ? "text" : "decimal");
    setPlate(device, speed, { unit: it, value: typed });
  }, { "aria-label": `${label}: ${say("unit")}` });
  return make("div", { class: "plate" }, make("label", {}, make("span", {}, label), value), unit);
}

/** @param {Board} of */
function morePart(of) {
  const marked = entry(job.marked);
  const mark = (/** @type {string} */ key) => (/** @type {string} */ typed) => {
    put(marked, key, amps.in(typed));
    if (Object.keys(marked).length) job.marked = marked;
    else delete job.marked;
  };
  const panels = of.panels.map((it) => /** @type {[string, string]} */ ([it.name, it.title]));
  const open = ["for", "panel", "rules", "marked"].some((key) => key in job);
  return make(
    "details",
    { open, "data-part": "more" },
    make("summary", {}, make("h2", {}, say("more"))),
    field(say("name"), "job", plain(job.job), (typed) => put(job, "job", typed), { required: true, maxlength: 60 }),
    field(say("for"), "for", plain(job.for), (typed) => put(job, "for", typed), { maxlength: 60 }),
    ...(panels.length ? [choice(say("panel"), "panel", plain(job.panel), [["", say("unknown")], ...panels], (it) => put(job, "panel", it))] : []),
    choice(say("rules"), "rules", plain(job.rules), [["", "–"], ["nec", "NEC"], ["iec", "IEC"]], (it) => put(job, "rules", it)),
    decimal(say("ampacity"), "ampacity", amps.out(marked["minimum circuit ampacity"]), mark("minimum circuit ampacity")),
    decimal(say("largest"), "largest", amps.out(marked["largest breaker"]), mark("largest breaker")),
  );
}

/** Draws the form anew, with the focus where it was. */
function draw() {
  const name = document.activeElement?.getAttribute("name");
  const value = document.activeElement?.getAttribute("value");
  const of = board();
  form.replaceChildren(boardPart(), ...(of ? [supplyPart(of), equipmentPart(of), morePart(of)] : []));
  const same = [...document.getElementsByName(name ?? "")];
  (same.find((it) => it.getAttribute("value") === value) ?? same[0])?.focus({ preventScroll: true });
  changed();
}

