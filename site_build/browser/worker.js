// The worker that holds Python. The page sends JSON text, Python answers with JSON text; nothing else crosses.
//
// A host can fail in ways that Pyodide itself never reports (it then waits for ever), so every file is fetched here,
// and each failure becomes one sentence for the reader.
import { manifest } from "./manifest.js";

const python = new URL(manifest.python, import.meta.url);
let finished = false;
let arrived = 0;
let lastSign = performance.now();

function tell(message) {
  lastSign = performance.now();
  postMessage(message);
}

function fail(text, detail = "") {
  if (finished) return;
  finished = true;
  postMessage({ kind: "failed", text, detail: String(detail) });
}

class HostFault extends Error {}

const damage = (name) => `The file ${name} arrived damaged or incomplete.`;

// Fetches one packed file and gives a stream of its content.
async function unpacked(url) {
  const name = url.pathname.split("/").pop();
  let reply;
  try {
    reply = await fetch(url);
  } catch (cause) {
    throw new HostFault(`The file ${name} could not be loaded. The network may be down, or a policy of this site forbids it.`);
  }
  if (!reply.ok) throw new HostFault(`The file ${name} is missing on this site (HTTP ${reply.status}).`);
  const damaged = (cause) => fail(damage(name), `${url.href}: ${cause}`);
  const count = new TransformStream({
    transform(chunk, out) {
      arrived += chunk.byteLength;
      tell({ kind: "progress", step: "load", share: Math.min(1, arrived / manifest.bytes) });
      out.enqueue(chunk);
    },
  });
  const opened = new DecompressionStream("gzip");
  reply.body.pipeThrough(count).pipeTo(opened.writable).catch(damaged);
  return opened.readable;
}

async function whole(url) {
  const content = await unpacked(url);
  try {
    return new Uint8Array(await new Response(content).arrayBuffer());
  } catch (cause) {
    throw new HostFault(damage(url.pathname.split("/").pop()));
  }
}

function checkWebAssembly() {
  try {
    new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0));
  } catch (cause) {
    throw new HostFault("This browser, or a security policy of this site, does not allow WebAssembly, which the calculation needs.");
  }
}

async function script(url) {
  try {
    return await import(url.href);
  } catch (cause) {
    throw new HostFault(`The script ${url.pathname.split("/").pop()} could not be started. It is missing, damaged or sent with a wrong type; scripts must be sent as text/javascript.`);
  }
}

// Gives Python's dynamic loader a module that is compiled already. This reaches into Pyodide; where a later version
// has no such door, the loader compiles the file itself, which only takes longer.
async function handOver(py, path, module) {
  try {
    const { preloadedWasm, loadWebAssemblyModule } = py._module;
    preloadedWasm[path] = await loadWebAssemblyModule(module, { loadAsync: true, nodelete: true }, path, {});
  } catch (cause) {
    console.info("The loader compiles pydantic's binary half itself:", cause);
  }
}

async function start() {
  checkWebAssembly();
  // All downloads start at once. Pyodide's own requests are answered from these streams.
  const wasm = unpacked(new URL("pyodide.asm.wasm.pack", python));
  const standard = unpacked(new URL("stdlib.zip.pack", python));
  const packages = whole(new URL("packages.zip.pack", python));
  const binary = whole(new URL("pydantic_core.so.pack", python));
  const engine = whole(new URL("engine.zip.pack", import.meta.url));
  const catalogue = whole(new URL("catalogue.json.pack", import.meta.url));
  // The binary half of pydantic is compiled while Python itself starts.
  const compiled = binary.then((bytes) => WebAssembly.compile(bytes)).catch(() => null);
  const parts = [wasm, standard, packages, binary, engine, catalogue];
  for (const part of parts) part.catch((cause) => fail(cause.message, cause));

  const own = self.fetch.bind(self);
  self.fetch = async (target, options) => {
    const url = String(target.url ?? target);
    // WebAssembly is compiled while it streams in, which browsers do for this type only.
    if (url.endsWith(".wasm")) return new Response(await wasm, { headers: { "content-type": "application/wasm" } });
    if (url.endsWith("python_stdlib.zip")) return new Response(await standard);
    return own(url, options);
  };

  const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([
    script(new URL("pyodide.js", python)),
    script(new URL("pyodide.asm.js", python)),
  ]);
  const py = await loadPyodide({
    indexURL: python.href,
    packageBaseUrl: python.href,
    lockFileContents: manifest.lock,
    createPyodideModule,
    env: { HOME: "/home/pyodide", PYDANTIC_DISABLE_PLUGINS: "__all__" },
  });
  tell({ kind: "progress", step: "python" });
  const [packageZip, binaryFile, engineZip, catalogueText] = await Promise.all([packages, binary, engine, catalogue]);
  py.FS.writeFile("/lib/packages.zip", packageZip);
  py.FS.writeFile("/lib/engine.zip", engineZip);
  py.FS.writeFile("/lib/pydantic_core.so", binaryFile);
  py.runPython('import sys; sys.path[1:1] = ["/lib/packages.zip", "/lib/engine.zip"]');
  await handOver(py, "/lib/pydantic_core.so", await compiled);
  const boot = py.pyimport("loadstead_boot");
  tell({ kind: "progress", step: "shop" });
  const about = JSON.parse(boot.open_shop(new TextDecoder().decode(catalogueText)));
  return { answer: boot.answer, about };
}

// Requests are answered in the order in which they came, also those that came while Python was starting.
const started = start();
started.then(
  ({ about }) => {
    if (finished) return;
    finished = true;
    postMessage({ kind: "ready", about });
  },
  (cause) => fail(cause instanceof HostFault ? cause.message : "The calculation could not be started.", cause.stack ?? cause),
);

onmessage = async ({ data }) => {
  const { answer } = await started.catch(() => ({}));
  if (!answer) return;
  const began = performance.now();
  try {
    const body = answer(data.body);
    postMessage({ kind: "result", id: data.id, body, took_ms: performance.now() - began });
  } catch (cause) {
    // A fault of ours, not of the reader's build: said as such, and never shown as a verdict.
    postMessage({ kind: "fault", id: data.id, text: String(cause.message ?? cause) });
  }
};

// Pyodide never settles when compiling fails; silence for this long after the last sign of life is a failure.
const watch = setInterval(() => {
  if (finished) clearInterval(watch);
  else if (performance.now() - lastSign > manifest.patience_ms) {
    fail("Nothing more arrived for a long while, so the start was given up. The network may be very slow, or a file of this site may be blocked.");
  }
}, 500);
