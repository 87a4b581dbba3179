// The drawing's own worker: a second Python that draws a change at once while the first still works out the last one.
import { start } from "./start.js";

let live = null;
let waiting = null; // the newest choices

async function open({ parts, unpacked, bed }) {
  const python = await start(parts, { unpacked });
  live = python.pyimport("tutorial_lib.site.live").Live(bed, "");
  live.warm();
  postMessage({ kind: "drawn" });
}

function draw() {
  if (!waiting) return;
  const { number, choices } = waiting;
  waiting = null;
  postMessage({ kind: "first", number, ...JSON.parse(live.ask(JSON.stringify(choices), true)) });
}

onmessage = async ({ data }) => {
  if (data.act === "open") return open(data);
  waiting = data;
  setTimeout(draw); // the newest of those that came together
};
