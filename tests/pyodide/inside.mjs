// Runs pytest inside npm's Pyodide under node. Arguments: pyodide's folder, the project, a folder of packages, a job.
// Prints what pytest prints, then one JSON line with the outcome.
import { pathToFileURL } from "node:url";
import { join } from "node:path";
import { readFileSync } from "node:fs";

const [pyodideDir, project, packages, jobFile] = process.argv.slice(2);
const { loadPyodide } = await import(pathToFileURL(join(pyodideDir, "pyodide.mjs")).href);
const py = await loadPyodide({ indexURL: pyodideDir, env: { HOME: "/home/pyodide", PYTHONDONTWRITEBYTECODE: "1" } });
for (const [place, root] of [["/project", project], ["/packages", packages]]) {
  py.FS.mkdir(place);
  py.FS.mount(py.FS.filesystems.NODEFS, { root }, place);
}
py.globals.set("job_json", readFileSync(jobFile, "utf8"));
py.runPython(readFileSync(new URL("./inside.py", import.meta.url), "utf8"));
console.log(py.globals.get("outcome"));
