// The engine: Python with riglint, in a worker of its own. It answers one call at a time, in order.
// All that it needs comes with the first message, as addresses (an installed folder) or as bytes (one file).

const ELSEWHERE = "https://parts.invalid/"; // never asked: every fetch below it is answered from bytes
let engine = null;

function fetchFromBytes(bytes) {
  const outside = globalThis.fetch.bind(globalThis);
  globalThis.fetch = async (request, options) => {
    const name = String(request.url ?? request).split("/").pop();
    if (!(name in bytes)) return outside(request, options);
    const type = name.endsWith(".wasm") ? "application/wasm" : "application/octet-stream";
    return new Response(bytes[name], { headers: { "Content-Type": type } });
  };
}

async function start({ modules, folder, bytes, engineName }) {
  if (bytes) fetchFromBytes(bytes);
  const at = folder ?? ELSEWHERE;
  const [{ loadPyodide }, { default: createPyodideModule }, archive, lock] = await Promise.all([
    import(modules["pyodide.mjs"]),
    import(modules["pyodide.asm.mjs"]),
    fetch(at + engineName).then((r) => r.arrayBuffer()),
    fetch(at + "pyodide-lock.json").then((r) => r.json()),
  ]);
  const python = await loadPyodide({
    indexURL: at,
    createPyodideModule,
    lockFileContents: lock,
    packageBaseUrl: at,
    env: { PYDANTIC_DISABLE_PLUGINS: "1", HOME: "/home/pyodide" },
  });
  python.unpackArchive(archive, "zip", { extractDir: "/riglint" });
  engine = python.runPython(`
import gc, sys
gc.disable()
sys.path.insert(0, "/riglint/site")
from pathlib import Path
from riglint.tablet.engine import Engine
Path("/riglint/built_in").mkdir(exist_ok=True)
started = Engine(Path("/riglint/built_in"))
gc.freeze()  # what stands by now stays: nothing looks through it again
gc.set_threshold(50_000)
gc.enable()
started
`);
  return engine.about();
}

const calls = {
  start,
  work: ({ text, options }) => engine.work(text, JSON.stringify(options)),
  keep: ({ name, text }) => engine.keep(name, text),
  remedies: ({ text, options }, id) => engine.remedies(text, JSON.stringify(options), (tried) => self.postMessage({ id, tried })),
};

let before = Promise.resolve();
self.onmessage = ({ data: { id, call, given } }) => {
  before = before.then(async () => {
    try {
      const answer = await calls[call](given, id);
      self.postMessage({ id, answer });
    } catch (error) {
      self.postMessage({ id, error: String(error?.message ?? error) });
    }
  });
};
