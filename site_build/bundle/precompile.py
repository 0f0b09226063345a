"""Runs inside Pyodide under node: imports what start-up imports, then compiles those modules where they lie.

`/stage/job.json` says {"roots": [modules that start-up imports], "paths": [folders below /stage], "whole": [folders
compiled whole], "binary": {module: path below /stage}}.

Only modules that start-up needs become bytecode: bytecode loads faster but packs worse than source, so the rest stays
source, is smaller on the wire and is compiled on the day somebody needs it.
"""

import ast
import importlib
import importlib.util
import json
import marshal
import sys
from importlib.machinery import ModuleSpec
from pathlib import Path
from types import CodeType

STAGE = Path("/stage")
JOB = json.loads((STAGE / "job.json").read_text())


class StagedBinary:
    """Finds the binary modules that lie in a folder of their own."""

    @staticmethod
    def find_spec(name: str, _path: object = None, _target: object = None) -> ModuleSpec | None:
        """The place of a module that the job names."""
        place = JOB["binary"].get(name)
        return importlib.util.spec_from_file_location(name, STAGE / place) if place else None


def import_roots() -> None:
    """Import what start-up imports, from the staged sources."""
    sys.path[:0] = [str(STAGE / folder) for folder in JOB["paths"]]
    sys.meta_path.insert(0, StagedBinary)
    for root in JOB["roots"]:
        importlib.import_module(root)


def hot_files() -> set[Path]:
    """Staged sources of all modules that are imported now, and of the folders that are compiled whole."""
    found = {path for folder in JOB["whole"] for path in (STAGE / folder).rglob("*.py")}
    for module in list(sys.modules.values()):
        source = getattr(module, "__file__", None) or ""
        for prefix, folder in (("/lib/python314.zip/", "std"), ("/stage/", "")):
            if source.startswith(prefix) and source.endswith(".py"):
                found.add(STAGE / folder / source.removeprefix(prefix))
    return {path for path in found if path.is_file()}


def bytecode(path: Path) -> bytes:
    """The content of a .pyc that is never compared with its source (PEP 552, unchecked hash)."""
    name = path.relative_to(STAGE)
    ours = name.parts[0] == "engine"
    # Nobody in the browser reads docstrings. The engine keeps its assertions and line numbers; without their line
    # tables the libraries are a quarter smaller.
    tree = without_docstrings(ast.parse(path.read_bytes(), str(name)))
    code = compile(tree, str(name), "exec", dont_inherit=True, optimize=0 if ours else 2)
    code = code if ours else without_lines(code)
    return importlib.util.MAGIC_NUMBER + (1).to_bytes(4, "little") + bytes(8) + marshal.dumps(code)


def without_docstrings(tree: ast.Module) -> ast.Module:
    """The same tree; only decorated classes keep theirs, for a dataclass without one is given its whole signature."""
    for node in ast.walk(tree):
        if not isinstance(node, (ast.Module, ast.ClassDef, ast.FunctionDef)) or ast.get_docstring(node) is None:
            continue
        if not (isinstance(node, ast.ClassDef) and node.decorator_list):
            node.body = node.body[1:] or [ast.copy_location(ast.Pass(), node.body[0])]
    return tree


def without_lines(code: CodeType) -> CodeType:
    """The same code whose table says "no line" for every instruction: eight code units to an entry (0xFF)."""
    inner = tuple(without_lines(c) if isinstance(c, CodeType) else c for c in code.co_consts)
    eights, rest = divmod(len(code.co_code) // 2, 8)
    table = b"\xff" * eights + (bytes([0xF8 + rest - 1]) if rest else b"")
    return code.replace(co_linetable=table, co_consts=inner)


import_roots()
for file in sorted(hot_files()):
    file.with_suffix(".pyc").write_bytes(bytecode(file))
    file.unlink()
