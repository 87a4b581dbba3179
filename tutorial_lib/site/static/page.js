// The page: choices to the library's worker, its answers into their places. No number and no formula here.

const data = JSON.parse(document.getElementById("data").textContent);
const words = data.words;
const say = (name, values = {}) => words[name].replace(/\{(\w+)\}/g, (_, key) => values[key] ?? "");
const at = (id) => document.getElementById(id);
const place = new URL(".", location.href).href;
const form = at("form");
let number = 0; // of the newest choices
let told = 0; // the newest choices of which more than the drawing was shown
let worker = null;
let drawing = null; // the worker that only draws, once it can

// --- the library's workers: made from this page, so that its policy holds there too -----------------

function started(script, failed) {
  const source = `import ${JSON.stringify(new URL(script, place).href)};`;
  const made = new Worker(URL.createObjectURL(new Blob([source], { type: "text/javascript" })), { type: "module" });
  made.onmessage = ({ data: heard }) => HEARD[heard.kind](heard, made);
  made.onerror = failed;
  return made;
}

const bed = text("creator.toml");

function start() {
  HEARD.progress({ done: 0, all: data.parts.parts.reduce((sum, { fetched }) => sum + fetched, 0) });
  worker = started("library.js", (event) => HEARD.failed({ why: event.message || "" }));
  Promise.all([bed, text("heard.json")]).then(([bed, heard]) =>
    worker.postMessage({ act: "open", parts: data.parts, bed, heard, link: location.hash.slice(1) }),
  );
}

async function text(name) {
  const answer = await fetch(new URL(name, place));
  return answer.ok ? answer.text() : "";
}

const LITTLE = 4; // [GB] of memory: a device with less starts one Python only
const megabytes = (bytes) => (bytes / 1e6).toFixed(1);

const HEARD = {
  progress({ done, all }) {
    tell(say("loading", { done: megabytes(done), all: megabytes(all) }));
    at("progress").max = all;
    at("progress").value = done;
  },
  starting: () => tell(say("starting")),
  open({ form: fields, choices, keys, fault: linked }) {
    at("progress").hidden = true;
    form.innerHTML = fields;
    document.querySelectorAll("[data-live]").forEach((element) => (element.hidden = false));
    fill(choices);
    offer(keys);
    tell(linked || say("ready"));
    if (Object.keys(choices).length) ask();
    document.documentElement.dataset.live = "yes";
    performance.mark("live");
  },
  async given({ parts, unpacked }) {
    if (navigator.deviceMemory < LITTLE) return;
    const stop = () => (drawing = null); // the library's worker draws then
    const made = started("drawing.js", stop);
    made.postMessage({ act: "open", parts, unpacked, bed: await bed }, Object.values(unpacked).map(({ buffer }) => buffer));
  },
  drawn(_, made) {
    drawing = made;
    performance.mark("drawing");
  },
  tried({ number: asked, ways }) {
    if (asked === number && ways > 1) tell(say("working"), ` ${say("tried", { ways })}`);
  },
  first({ number: asked, regions, faults }) {
    if (asked <= told) return;
    show(regions);
    fault(faults);
    if (Object.keys(regions).length) performance.mark(`first ${asked}`);
    if (asked === number && Object.keys(faults).length) finished(true);
  },
  part({ number: asked, regions, faults, title, version, keys, whole, space: shape }) {
    if (asked !== number) return;
    told = asked;
    if (faults) fault(faults);
    show(regions);
    if (title) name(title, version);
    if (keys) offer(keys);
    if (shape) space.show(shape);
    if (whole) {
      finished(faults);
      performance.mark(`whole ${asked}`);
      if (!faults) worker.postMessage({ act: "link" });
    }
  },
  save({ text: file, name: called }) {
    hand(new Blob([file], { type: "application/toml" }), called);
  },
  link({ text: packed }) {
    history.replaceState(null, "", packed ? `#${packed}` : location.pathname + location.search);
  },
  sheet({ source, name: called }) {
    print(source, called);
  },
  failed({ why, act }) {
    at("progress").hidden = true;
    const starting = act === "open" || !act;
    const plainly = why.replace(/^[\w.]+(Error|Exception): /, "");
    tell(starting ? say("failed", { why: `${plainly}. ` }) : plainly);
    document.documentElement.dataset.live = starting ? "failed" : "yes";
  },
};

function finished(faults) {
  tell(faults ? document.querySelector(".fault:not([hidden])")?.textContent || "" : summed());
  form.removeAttribute("aria-busy");
}

function tell(words, count = "") {
  const counted = document.createElement("span"); // seen, not read out: it changes many times a second
  counted.setAttribute("aria-hidden", "true");
  counted.textContent = count;
  at("state").replaceChildren(words, counted);
}

function summed() {
  if (document.querySelector(".cautions .stop")) return say("stopped");
  const outside = Array.from(document.querySelectorAll(".sums > div"), ({ children: [what, value] }) => `${what.textContent} ${value.firstChild.textContent}`);
  return say("worked out", { sums: outside.slice(0, 2).join(", ") });
}

function name(title, version) {
  at("title").textContent = title;
  document.title = title;
  at("version").textContent = say("version", { version });
}

// --- regions ----------------------------------------------------------------------------------------

function show(regions) {
  for (const [region, html] of Object.entries(regions)) {
    const target = document.querySelector(`[data-region="${region}"]`);
    const open = Array.from(target.querySelectorAll("details"), (details) => details.open);
    target.innerHTML = html;
    target.querySelectorAll("details").forEach((details, n) => (details.open = open[n] || false));
    recall(target);
    if (region === "steps") walk(0);
  }
}

// --- ticks stay on this device ----------------------------------------------------------------------

const kept = () => JSON.parse(localStorage.getItem(`ticks ${data.name}`) || "{}");

function recall(target) {
  const ticks = kept();
  target.querySelectorAll("[data-tick]").forEach((box) => (box.checked = Boolean(ticks[box.dataset.tick])));
}

document.addEventListener("change", ({ target }) => {
  if (!target.dataset.tick) return;
  const ticks = kept();
  if (target.checked) ticks[target.dataset.tick] = 1;
  else delete ticks[target.dataset.tick];
  localStorage.setItem(`ticks ${data.name}`, JSON.stringify(ticks));
});

// --- choices ----------------------------------------------------------------------------------------

const fields = () => Array.from(form.querySelectorAll("[name]"));

function chosen() {
  const choices = { ...extra };
  for (const field of fields()) if (field.value.trim()) choices[field.name] = field.value;
  return choices;
}

let extra = {}; // what a build file asked for that the form has no field for

function fill(choices) {
  extra = { ...choices };
  for (const field of fields()) {
    field.value = choices[field.name] ?? "";
    if (field.tagName === "SELECT" && field.value !== (choices[field.name] ?? "")) field.value = "";
    if (field.value || !(field.name in choices)) delete extra[field.name];
  }
  mark();
}

function mark() {
  for (const field of fields()) field.closest(".field").classList.toggle("mine", Boolean(field.value.trim()));
}

function ask() {
  number += 1;
  mark();
  tell(say("working"));
  form.setAttribute("aria-busy", "true");
  performance.mark(`asked ${number}`);
  const choices = chosen();
  drawing?.postMessage({ number, choices });
  worker.postMessage({ act: "choices", number, choices, drawn: Boolean(drawing) });
}

let typing = 0;
form.addEventListener("input", ({ target }) => {
  if (target.name === "mattress" && target.value) form.elements.measured.value = "";
  if (target.name === "measured" && target.value) form.elements.mattress.value = "";
  clearTimeout(typing);
  typing = setTimeout(ask, target.tagName === "SELECT" ? 0 : 500);
});
form.addEventListener("submit", (event) => event.preventDefault());

function offer(keys) {
  const shown = new Set(keys);
  form.querySelectorAll(".group").forEach((group) => {
    const inside = Array.from(group.querySelectorAll(".field"));
    for (const field of inside) {
      const { key } = field.dataset;
      field.hidden = !key.startsWith("price ") && !shown.has(key);
    }
    group.hidden = inside.every((field) => field.hidden);
  });
}

function fault(faults) {
  form.querySelectorAll(".fault").forEach((place) => (place.hidden = true));
  form.querySelectorAll("[aria-invalid]").forEach((field) => field.removeAttribute("aria-invalid"));
  const loose = [];
  for (const [key, why] of Object.entries(faults)) {
    const field = form.querySelector(`.field[data-key="${CSS.escape(key)}"]`);
    if (!field) {
      loose.push(why);
      continue;
    }
    const control = field.querySelector("[name]");
    control.setAttribute("aria-invalid", "true");
    control.setAttribute("aria-describedby", `${control.id}-fault`);
    Object.assign(field.querySelector(".fault"), { textContent: why, hidden: false });
    for (let folded = field.closest("details"); folded; folded = folded.parentElement.closest("details")) folded.open = true;
  }
  at("loose").textContent = loose.join(" ");
  at("loose").hidden = !loose.length;
}

// --- on paper all is open -------------------------------------------------------------------------------

let folded = [];
addEventListener("beforeprint", () => {
  folded = Array.from(document.querySelectorAll("[data-region] details:not([open])"));
  for (const details of folded) details.open = true;
});
addEventListener("afterprint", () => {
  for (const details of folded) details.open = false;
});

// --- what goes out ----------------------------------------------------------------------------------

function hand(blob, called) {
  const link = Object.assign(document.createElement("a"), { href: URL.createObjectURL(blob), download: called });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

let press = null;
function print(source, called) {
  tell(say("pdf making"));
  press ??= new Worker(new URL("sheet.js", place), { type: "module" });
  press.onmessage = ({ data: made }) => {
    if (made.why) return tell(say("pdf failed", { why: made.why }));
    hand(new Blob([made.pdf], { type: "application/pdf" }), called);
    tell(summed());
    performance.mark("pdf");
  };
  press.onerror = (event) => tell(say("pdf failed", { why: event.message || "" }));
  press.postMessage({ parts: data.parts, source });
}

const CLICKED = {
  save: () => worker.postMessage({ act: "save" }),
  open: () => at("file").click(),
  pdf: () => worker.postMessage({ act: "sheet", paper: at("paper").value }),
  print: () => window.print(),
  back: () => (fill({}), ask()),
  link: () => navigator.clipboard?.writeText(location.href).then(() => tell(say("link copied"))),
  next: () => walk(1),
  previous: () => walk(-1),
  all: () => walk(null),
};
document.addEventListener("click", ({ target }) => CLICKED[target.closest("[data-act]")?.dataset.act]?.());
at("file").addEventListener("change", async ({ target }) => {
  const [file] = target.files;
  if (file) worker.postMessage({ act: "read", text: await file.text() });
  target.value = "";
});
addEventListener("hashchange", () => {
  const link = location.hash.slice(1);
  if (link) worker.postMessage({ act: "linked", link });
  else fill({}), ask();
});

// --- steps one at a time ------------------------------------------------------------------------------

let step = 0;
function walk(by) {
  const steps = Array.from(document.querySelectorAll(".steps > li"));
  const one = at("steps").classList;
  if (by === null) one.toggle("one");
  step = Math.max(0, Math.min(steps.length - 1, step + (by || 0)));
  steps.forEach((item, n) => item.classList.toggle("now", n === step));
  const [previous, all, next] = ["previous", "all", "next"].map((act) => document.querySelector(`[data-act="${act}"]`));
  all.textContent = say(one.contains("one") ? "all steps" : "one step");
  previous.hidden = next.hidden = !one.contains("one");
  previous.setAttribute("aria-disabled", step === 0); // not disabled: that would lose the keyboard's place
  next.setAttribute("aria-disabled", step === steps.length - 1);
  if (by !== 0) steps[step].scrollIntoView({ block: "start" });
  space.light(one.contains("one") ? (steps[step]?.dataset.pieces || "").split("|") : []);
}

// --- the bed in space, when it is asked for -------------------------------------------------------------

const space = {
  shape: data.space,
  view: null,
  lit: [],
  show(shape) {
    this.shape = shape;
    this.view?.show(shape);
  },
  light(labels) {
    this.lit = labels.filter(Boolean);
    this.view?.light(this.lit);
  },
};
at("space-part").addEventListener("toggle", async () => {
  if (!at("space-part").open || space.view) return;
  try {
    const { Space } = await import(new URL("space.js", place).href);
    space.view = new Space(at("space"), at("explode"));
    await space.view.show(space.shape);
    space.view.light(space.lit);
  } catch (error) {
    at("space").hidden = at("explode").parentElement.hidden = true;
    at("no-space").hidden = false;
  }
});

at("no-script").hidden = true;
document.querySelectorAll("[data-script]").forEach((element) => (element.hidden = false));
recall(document);
walk(0);
start();
if ("serviceWorker" in navigator) navigator.serviceWorker.register(new URL("keep.js", place));
