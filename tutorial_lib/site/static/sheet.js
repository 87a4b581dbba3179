// The PDF's own worker: typst needs what the page's policy forbids, so it lives here, and only when asked for.
import { at, start, withoutSolver } from "./start.js";

let python = null;

onmessage = async ({ data: { parts, source } }) => {
  try {
    if (!python) {
      python = await start(withoutSolver(parts));
      const wheel = await fetch(at(parts.sheet));
      python.unpackArchive(await wheel.arrayBuffer(), "zip", { extractDir: "/library" });
    }
    const made = python.pyimport("tutorial_lib.publishing.typeset").compile_pdf(source);
    postMessage({ pdf: made.toJs() });
  } catch (error) {
    postMessage({ why: String(error.message || error).trim().split("\n").pop() });
  }
};
