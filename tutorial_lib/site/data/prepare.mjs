// Turns the library's archive into what a page starts from at once: Python's memory with everything loaded, and what it still reads.
// Arguments: the archive, a folder for what is made, Pyodide's own list of packages.
import { fileURLToPath, pathToFileURL } from "node:url";
import { constants, zstdCompressSync } from "node:zlib";
import createModule from "./node_modules/pyodide/pyodide.asm.mjs";
import { loadPyodide } from "./node_modules/pyodide/pyodide.mjs";

const [source, target, lock] = Deno.args;
const beside = (name) => fileURLToPath(new URL(`./node_modules/${name}`, import.meta.url));
const made = pathToFileURL(`${target}/`);
const shared = { indexURL: beside("pyodide/"), lockFileContents: lock, env: { PYTHONHASHSEED: "0" } };

// 1. compiled: without docstrings, and what is compiled code already apart
const compiler = await loadPyodide(shared);
compiler.FS.writeFile("/source.zip", Deno.readFileSync(source));
compiler.runPython(`
import os, zipfile
from importlib._bootstrap_external import _code_to_timestamp_pyc as written

with zipfile.ZipFile("/source.zip") as archive:
    for name in archive.namelist():
        data = archive.read(name)
        if name.endswith(".py"):
            data, name = written(compile(data, name, "exec", dont_inherit=True, optimize=2), 0, 0), name + "c"
        os.makedirs(os.path.dirname("/library/" + name), exist_ok=True)
        with open("/library/" + name, "wb") as file:
            file.write(data)
`);
const found = {};
const walk = (folder) => {
  for (const name of compiler.FS.readdir(folder).sort()) {
    if (name === "." || name === "..") continue;
    const at = `${folder}/${name}`;
    if (compiler.FS.isDir(compiler.FS.stat(at).mode)) walk(at);
    else found[at] = compiler.FS.readFile(at);
  }
};
walk("/library");
const native = Object.keys(found).filter((name) => name.endsWith(".so"));

// 2. loaded: compiled code first, in a fixed order, so that it lies where the page will put it
for (const name of native) Deno.writeFileSync(new URL(name.split("/").pop(), made), found[name]);
const python = await loadPyodide({
  ...shared,
  _makeSnapshot: true,
  createPyodideModule: (settings) => {
    const { locateFile } = settings;
    settings.dynamicLibraries = native;
    settings.locateFile = (name) => (name.endsWith(".so") ? new URL(name.split("/").pop(), made).href : locateFile(name));
    return createModule(settings);
  },
});
for (const [name, data] of Object.entries(found)) {
  python.FS.mkdirTree(name.slice(0, name.lastIndexOf("/")));
  python.FS.writeFile(name, data);
}
const loaded = new Set(
  python.runPython(`
import sys
sys.path.insert(0, "/library")
from tutorial_lib.site.ready import ready
ready()
import gc
gc.collect()
" ".join(module.__spec__.origin for module in sys.modules.values() if getattr(module, "__spec__", None) and module.__spec__.has_location)
`).split(" "),
);
clear(python._module);
const memory = python.makeMemorySnapshot();

// What was freed lies in memory still: zeros pack better.
function clear(module) {
  const top = module.HEAPU8.length;
  const held = [];
  for (let size = 1 << 22; size >= 16; size >>= 1) {
    for (;;) {
      const at = module._malloc(size);
      held.push(at);
      if (!at || at + size > top || module.HEAPU8.length > top) break;
      module.HEAPU8.fill(0, at, at + size);
    }
  }
  held.filter(Boolean).forEach((at) => module._free(at));
}

// 3. what is still read: data, and modules that weren't loaded
compiler.globals.set("rest", compiler.toPy(Object.keys(found).filter((name) => !loaded.has(name) && !native.includes(name))));
compiler.runPython(`
with zipfile.ZipFile("/rest.zip", "w", zipfile.ZIP_DEFLATED) as made:
    for name in rest:
        info = zipfile.ZipInfo(name.removeprefix("/library/"), (1980, 1, 1, 0, 0, 0))
        info.compress_type = zipfile.ZIP_DEFLATED
        with open(name, "rb") as file:
            made.writestr(info, file.read())
`);
Deno.writeFileSync(new URL("python.zip", made), compiler.FS.readFile("/rest.zip"));

// 4. packed, as it goes out
const LEVEL = { params: { [constants.ZSTD_c_compressionLevel]: 15, [constants.ZSTD_c_windowLog]: 26 } };
const parts = { memory, ...Object.fromEntries(native.map((name) => [name.split("/").pop(), found[name]])) };
for (const name of ["pyodide/pyodide.asm.wasm", "highs/build/highs.wasm"]) parts[name.split("/").pop()] = Deno.readFileSync(beside(name));
for (const [name, data] of Object.entries(parts)) Deno.writeFileSync(new URL(`${name}.zst`, made), zstdCompressSync(data, LEVEL));
const sizes = Object.fromEntries(Object.entries(parts).map(([name, data]) => [name, data.length]));
Deno.writeTextFileSync(new URL("made.json", made), JSON.stringify({ native, sizes }));
