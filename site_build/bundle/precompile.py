"""Runs inside Pyodide under node: imports what start-up imports, then compiles those modules where they lie.

`job_json` (set by precompile.mjs): {"roots": [modules that start-up imports], "paths": [folders below /stage],
"whole": [folders compiled whole], "binary": {module: path below /stage}}.

Only modules that start-up needs become bytecode: bytecode loads faster but packs worse than source, so the rest stays
source, is smaller on the wire and is compiled on the day somebody needs it.
"""

import importlib
import importlib.util
import json
import marshal
import os
import sys

job = json.loads(job_json)  # noqa: F821
for folder in reversed(job["paths"]):
    sys.path.insert(0, "/stage/" + folder)


class _Binary:
    @staticmethod
    def find_spec(name, _path=None, _target=None):
        place = job["binary"].get(name)
        return importlib.util.spec_from_file_location(name, "/stage/" + place) if place else None


sys.meta_path.insert(0, _Binary)
for root in job["roots"]:
    importlib.import_module(root)

hot = []
for module in list(sys.modules.values()):
    source = getattr(module, "__file__", None) or ""
    for prefix, folder in (("/lib/python314.zip/", "std/"), ("/stage/", "")):
        if source.startswith(prefix) and source.endswith(".py"):
            hot.append(folder + source[len(prefix) :])
for folder in job["whole"]:
    for base, _, names in os.walk("/stage/" + folder):
        hot += [os.path.join(base, name)[len("/stage/") :] for name in names if name.endswith(".py")]



def bytecode(path):
    """The content of a .pyc that is never compared with its source (PEP 552, unchecked hash)."""
    with open("/stage/" + path, "rb") as file:
        source = file.read()
    ours = path.startswith("engine/")
    # The engine keeps its docstrings, assertions and line numbers. Of the others nobody in the browser reads them,
    # and without their line tables the libraries are a quarter smaller.
    code = compile(source, path, "exec", dont_inherit=True, optimize=0 if ours else 2)
    code = code if ours else without_lines(code)
    return importlib.util.MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8) + marshal.dumps(code)


def without_lines(code):
    """The same code whose table says "no line" for every instruction: eight code units to an entry (0xFF)."""
    inner = tuple(without_lines(c) if hasattr(c, "co_linetable") else c for c in code.co_consts)
    eights, rest = divmod(len(code.co_code) // 2, 8)
    table = b"\xff" * eights + (bytes([0xF8 + rest - 1]) if rest else b"")
    return code.replace(co_linetable=table, co_consts=inner)


compiled = 0
for path in sorted(set(hot)):
    full = "/stage/" + path
    if os.path.exists(full):
        with open(full + "c", "wb") as file:
            file.write(bytecode(path))
        os.remove(full)
        compiled += 1
report = json.dumps({"hot": sorted(set(hot)), "compiled": compiled})
