// The library's worker: loads Python, the solver and the library, then answers the page's choices.
// No number and no formula here: what is shown comes from the library.

let live = null;
let ask = null; // the choices being worked out
let waiting = null; // newer choices that came meanwhile

async function load(place, parts) {
  const at = (name) => new URL(name, place).href;
  const whole = parts.sizes.reduce((sum, size) => sum + size, 0);
  let done = 0;
  const fetched = async (name) => {
    const answer = await fetch(at(name));
    if (!answer.ok) throw new Error(`${name} is not there (${answer.status})`);
    const bytes = await answer.arrayBuffer();
    await check(name, bytes, parts.hashes);
    done += bytes.byteLength;
    postMessage({ kind: "progress", done: Math.min(done, whole), all: whole });
    return bytes;
  };
  // All at once: the network is the slow part; Pyodide then finds its own files in the browser's cache.
  const [library] = await Promise.all(parts.fetched.map(fetched));
  postMessage({ kind: "starting" });
  const { loadPyodide } = await import(at("parts/pyodide/pyodide.mjs"));
  const python = await loadPyodide({ indexURL: at("parts/pyodide/"), lockFileContents: parts.lock });
  unpack(python, library);
  return { python, at };
}

function unpack(python, library) {
  python.unpackArchive(library, "zip", { extractDir: "/library" });
  python.runPython("import sys; sys.path.insert(0, '/library')");
}

async function check(name, bytes, hashes) {
  if (!self.crypto || !crypto.subtle) return; // only on https and this machine's own host
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const hash = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (hashes[name] && hashes[name] !== hash) throw new Error(`${name} is not the file this page was made with`);
}

async function open({ place, parts, bed, heard, link }) {
  const { python, at } = await load(place, parts);
  const { default: loadHighs } = await import(at("parts/highs/highs.mjs"));
  self.highs = await loadHighs({ locateFile: (name) => at(`parts/highs/${name}`), print: () => {}, printErr: () => {} });
  const Live = python.pyimport("tutorial_lib.site.live").Live;
  live = Live(bed, heard);
  const linked = link ? live.from_link(link) : "";
  postMessage({ kind: "open", ...JSON.parse(live.form()), fault: linked });
}

const pause = () => new Promise((resolve) => setTimeout(resolve));

async function work(choices) {
  ask = choices;
  while (ask) {
    const number = ask.number;
    postMessage({ kind: "first", number, ...JSON.parse(live.ask(JSON.stringify(ask.choices))) });
    await pause();
    while (!waiting) {
      const part = live.next();
      if (!part) break;
      postMessage({ kind: "part", number, ...JSON.parse(part) });
      await pause();
    }
    ask = waiting;
    waiting = null;
  }
}

const ACTS = {
  open,
  choices(message) {
    if (ask) waiting = message;
    else return work(message);
  },
  save: () => postMessage({ kind: "save", text: live.build_file(), name: live.file_name() }),
  read({ text, number }) {
    const fault = live.read(text);
    postMessage({ kind: "open", ...JSON.parse(live.form()), fault, number });
  },
  link: () => postMessage({ kind: "link", text: live.link() }),
  sheet: ({ paper }) => postMessage({ kind: "sheet", source: live.sheet(paper), name: live.sheet_name() }),
};

onmessage = async ({ data }) => {
  try {
    await ACTS[data.act](data);
  } catch (error) {
    ask = waiting = null;
    postMessage({ kind: "failed", act: data.act, why: String(error.message || error).trim().split("\n").pop() });
  }
};
