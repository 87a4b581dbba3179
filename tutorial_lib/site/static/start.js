// Starts Python in a worker: from the parts of this page alone, each checked, with the library loaded already.
// The memory it starts from was kept when the page was made; so compiled code has to lie where it lay then.
import { ZSTDDecoder } from "./parts/zstddec/zstddec.mjs";
import createModule from "./parts/pyodide/pyodide.asm.mjs";
import { loadPyodide } from "./parts/pyodide/pyodide.mjs";

const outside = self.fetch.bind(self);
const asked = new Map(); // a part's address: its bytes, on the way
const place = new URL(".", import.meta.url).href;
export const at = (name) => new URL(name, place).href;

// Whoever asks for a part, Pyodide too, gets the checked and unpacked one.
self.fetch = async (address, ...more) => {
  const known = String(address.url ?? address);
  if (!asked.has(known)) return outside(address, ...more);
  const type = known.endsWith(".wasm") ? "application/wasm" : "application/octet-stream";
  return new Response(await asked.get(known), { headers: { "Content-Type": type } });
};

const unpacker = new ZSTDDecoder();
const unpacks = unpacker.init();

async function part({ name, packed, size }, hashes, report) {
  const answer = await outside(at(packed));
  if (!answer.ok) throw new Error(`${packed} is not there (${answer.status})`);
  const bytes = await received(answer, report);
  await check(packed, bytes, hashes);
  if (name === packed) return bytes;
  await unpacks;
  return unpacker.decode(bytes, size);
}

// Told piece by piece: one of the parts is half of all there is to fetch.
async function received(answer, report) {
  const reader = answer.body.getReader();
  const pieces = [];
  for (let piece = await reader.read(); !piece.done; piece = await reader.read()) {
    pieces.push(piece.value);
    report(piece.value.length);
  }
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}

async function check(name, bytes, hashes) {
  if (!self.crypto || !crypto.subtle) return; // only on https and this machine's own host
  const digest = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  const hash = Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
  if (hashes[name] !== hash) throw new Error(`${name} is not the file this page was made with`);
}

export async function start(parts, { report = () => {}, unpacked = {} } = {}) {
  for (const wanted of parts.parts) asked.set(at(wanted.name), unpacked[wanted.name] ?? part(wanted, parts.hashes, report));
  const bytes = async (name) => asked.get(at(name));
  const { size } = parts.parts.find(({ name }) => name === parts.memory);
  const python = await loadPyodide({
    indexURL: at("parts/pyodide/"),
    lockFileContents: parts.lock,
    env: { PYTHONHASHSEED: "0" },
    _loadSnapshot: bytes(parts.memory),
    createPyodideModule: (settings) => createModule(placed(settings, parts.native, size)),
  });
  python.unpackArchive(await bytes("python.zip"), "zip", { extractDir: "/library" });
  return python;
}

// What Python without the solver starts from.
export const withoutSolver = (parts) => ({ ...parts, parts: parts.parts.filter(({ name }) => !name.startsWith("parts/highs/")) });

// The unpacked parts, for a second Python: given away, so that no memory holds them twice.
export async function givenAway(parts) {
  const bytes = await Promise.all(parts.map(({ name }) => asked.get(at(name))));
  asked.clear();
  return Object.fromEntries(parts.map(({ name }, n) => [name, bytes[n]]));
}

function placed(settings, native, size) {
  const { locateFile, instantiateWasm } = settings;
  settings.dynamicLibraries = native;
  settings.locateFile = (name) => (native.includes(name) ? at(`parts/${name.split("/").pop()}`) : locateFile(name));
  settings.instantiateWasm = (imports, receive) =>
    instantiateWasm(imports, (instance, module) => {
      const { memory } = instance.exports; // room for the memory that was kept
      const missing = size - memory.buffer.byteLength;
      if (missing > 0) memory.grow(Math.ceil(missing / 65536));
      receive(instance, module);
    });
  return settings;
}
