// The library's worker: loads Python, the solver and the library, then answers the page's choices.
// No number and no formula here: what is shown comes from the library.
import loadHighs from "./parts/highs/highs.mjs";
import { at, givenAway, start, withoutSolver } from "./start.js";

let live = null;
let ask = null; // the choices being worked out
let ways = 0; // beds looked at for them
let waiting = null; // newer choices that came meanwhile

async function open({ parts, bed, heard, link }) {
  let done = 0;
  const all = parts.parts.reduce((sum, { fetched }) => sum + fetched, 0);
  const report = (bytes) => {
    done += bytes;
    postMessage(done < all ? { kind: "progress", done, all } : { kind: "starting" });
  };
  const starting = start(parts, { report });
  const solver = { locateFile: (name) => at(`parts/highs/${name}`), print: () => {}, printErr: () => {} };
  const [python] = await Promise.all([starting, loadHighs(solver).then((highs) => (self.highs = highs))]);
  const Live = python.pyimport("tutorial_lib.site.live").Live;
  live = Live(bed, heard, () => postMessage({ kind: "tried", number: ask?.number, ways: (ways += 1) }));
  const linked = link ? live.from_link(link) : "";
  postMessage({ kind: "open", ...JSON.parse(live.form()), fault: linked });
  const given = withoutSolver(parts);
  const unpacked = await givenAway(given.parts);
  postMessage({ kind: "given", parts: given, unpacked }, Object.values(unpacked).map(({ buffer }) => buffer));
}

const pause = () => new Promise((resolve) => setTimeout(resolve));

async function work(choices) {
  ask = choices;
  while (ask) {
    const number = ask.number;
    ways = 0;
    postMessage({ kind: "first", number, ...JSON.parse(live.ask(JSON.stringify(ask.choices), !ask.drawn)) });
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
  linked: ({ link }) => postMessage({ kind: "open", fault: live.from_link(link), ...JSON.parse(live.form()) }),
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
