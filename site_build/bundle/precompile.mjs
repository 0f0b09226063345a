// Compiles Python files to bytecode with the very Python that will run them: npm's Pyodide under node.
// Arguments: the folder of npm's pyodide package, and the folder to compile in place; its job.json says what.
import { pathToFileURL } from "node:url";
import { join } from "node:path";
import { readFileSync } from "node:fs";

const [pyodideDir, stage] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(pyodideDir, "pyodide.mjs")).href);
// Hash randomisation off: sets in bytecode keep their order, so that equal sources give equal bytes.
// Tables of lines without columns: a fault still names its line, in half the bytes.
const py = await loadPyodide({ indexURL: pyodideDir, env: { HOME: "/home/pyodide", PYTHONHASHSEED: "0", PYTHONNODEBUGRANGES: "1", PYDANTIC_DISABLE_PLUGINS: "__all__" } });
py.FS.mkdir("/stage");
py.FS.mount(py.FS.filesystems.NODEFS, { root: stage }, "/stage");
py.runPython(readFileSync(new URL("./precompile.py", import.meta.url), "utf8"));
