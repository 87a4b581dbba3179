// The PDF's own worker: typst needs what the page's policy forbids, so it lives here, and only when asked for.

onmessage = async ({ data }) => {
  const { place, parts, source } = data;
  const at = (name) => new URL(name, place).href;
  const bytes = async (name) => (await fetch(at(name))).arrayBuffer();
  try {
    const { loadPyodide } = await import(at("parts/pyodide/pyodide.mjs"));
    const python = await loadPyodide({ indexURL: at("parts/pyodide/"), lockFileContents: parts.lock });
    python.unpackArchive(await bytes("python.zip"), "zip", { extractDir: "/library" });
    python.unpackArchive(await bytes(parts.sheet), "zip", { extractDir: "/library" });
    python.runPython("import sys; sys.path.insert(0, '/library')");
    const made = python.pyimport("tutorial_lib.publishing.typeset").compile_pdf(source);
    postMessage({ pdf: made.toJs() });
  } catch (error) {
    postMessage({ why: String(error.message || error).trim().split("\n").pop() });
  }
};
