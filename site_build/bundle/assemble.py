"""The two folders that a site serves: Python itself, which changes with the locks, and the shop's own application.

`python/` holds Pyodide and the wheels' modules; its name is a hash of its content, so a new price list makes no reader
fetch it again. The application's folder holds the engine, the catalogue and the scripts, under the build id.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

from site_build.bundle import trim
from site_build.bundle.archives import Files, packed, stored_zip
from site_build.bundle.engine_files import DOOR
from site_build.bundle.fetch import LOCKS, Fetched
from site_build.bundle.keeping import made_whole
from site_build.paths import BROWSER, cache_dir
from site_build.progress import Progress, SiteProblem

# Imported while the shop opens, besides what the engine's door names itself.
_ROOTS = ("pydantic", "jinja2", "loadstead_boot", "pyodide.code")


@dataclass(frozen=True)
class PythonParts:
    """Files of the Python folder by name, and the engine's modules as bytecode."""

    python: dict[str, bytes]
    engine: bytes
    """A zip of them."""
    versions: dict[str, str]
    """Versions of what travels, by package."""


def assemble(fetched: Fetched, engine: Files, outside: set[str], progress: Progress) -> PythonParts:
    """Trim, compile and pack. `outside` are the top-level modules that the engine imports besides itself."""
    stdlib = trim.stdlib_files(fetched)
    site, (binary_name, binary), licences = trim.site_files(fetched)
    boot = {"loadstead_boot.py": (BROWSER / "boot.py").read_bytes()}
    _check_reachable(fetched, stdlib, site, outside)
    key = _key(fetched, engine, boot)
    kept = cache_dir() / "compiled" / key
    if not kept.is_dir():
        progress("Compiling Python for the browser")
        _compile(fetched, stdlib, site | boot, engine, (binary_name, binary), kept)
    compiled_stdlib, compiled_site = _read(kept / "std"), _read(kept / "site")
    pyodide = fetched.npm / "pyodide"
    python = {
        "pyodide.js": _without_map((pyodide / "pyodide.mjs").read_bytes()),
        "pyodide.asm.js": (pyodide / "pyodide.asm.mjs").read_bytes(),
        "pyodide.asm.wasm.pack": packed((pyodide / "pyodide.asm.wasm").read_bytes()),
        "stdlib.zip.pack": packed(stored_zip(compiled_stdlib)),
        "packages.zip.pack": packed(stored_zip(compiled_site)),
        "pydantic_core.so.pack": packed(binary),
        "licences.txt": _licence_text(licences),
    }
    return PythonParts(python, stored_zip(_read(kept / "engine")), _versions(fetched))


def folder_hash(files: Files) -> str:
    """Twelve characters made from names and content."""
    sum_ = hashlib.sha256()
    for name in sorted(files):
        sum_.update(f"{name}\0{len(files[name])}\0".encode() + files[name])
    return sum_.hexdigest()[:12]


def _check_reachable(fetched: Fetched, stdlib: Files, site: Files, outside: set[str]) -> None:
    # Modules of the standard library that have no Python file are built into the interpreter.
    compiled_in = sys.stdlib_module_names - trim.stdlib_names(fetched)
    missing = trim.missing_from([*stdlib, *site], outside - compiled_in)
    if missing:
        raise SiteProblem(
            f"The engine imports {', '.join(missing)}, which does not travel to the browser. Import it on the author's "
            "side only, or take it off the list in site_build/bundle/trim.py."
        )


def _key(fetched: Fetched, engine: Files, boot: Files) -> str:
    own = {path.name: path.read_bytes() for path in LOCKS.glob("*.py")}
    own["precompile.mjs"] = (LOCKS / "precompile.mjs").read_bytes()
    return f"{fetched.key}-{folder_hash(own | dict(boot) | {f'e/{k}': v for k, v in engine.items()})}"


def _compile(
    fetched: Fetched, stdlib: Files, site: Files, engine: Files, binary: tuple[str, bytes], kept: Path
) -> None:
    with tempfile.TemporaryDirectory() as name:
        stage = Path(name)
        for folder, files in (("std", stdlib), ("site", site), ("engine", engine), ("binary", {binary[0]: binary[1]})):
            _write(stage / folder, files)
        module = binary[0].split(".")[0].replace("/", ".")
        job = {
            "roots": [*_ROOTS, DOOR],
            "paths": ["engine", "site"],
            "whole": ["engine"],
            "binary": {module: f"binary/{binary[0]}"},
        }
        (stage / "job.json").write_text(json.dumps(job))
        script = (str(fetched.node), str(LOCKS / "precompile.mjs"), str(fetched.npm / "pyodide"), name)
        done = subprocess.run(script, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            raise SiteProblem("The engine does not start in the browser's Python:\n" + done.stderr[-2500:])
        with made_whole(kept) as new:
            for folder in ("std", "site", "engine"):
                shutil.copytree(stage / folder, new / folder)


def _write(folder: Path, files: Files) -> None:
    for name, data in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


def _read(folder: Path) -> dict[str, bytes]:
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def _without_map(script: bytes) -> bytes:
    """The loader without the line that makes developer tools ask for a source map we do not serve."""
    return b"\n".join(line for line in script.splitlines() if not line.startswith(b"//# sourceMappingURL"))


def _versions(fetched: Fetched) -> dict[str, str]:
    lock = (LOCKS / "browser.lock").read_text(encoding="utf-8")
    lines = (line.split()[0] for line in lock.splitlines() if "==" in line and not line.startswith("#"))
    pins = {line.partition("==")[0]: line.partition("==")[2] for line in lines}
    pyodide = json.loads((fetched.npm / "pyodide" / "package.json").read_text(encoding="utf-8"))
    return pins | {"pyodide": pyodide["version"]}


def _licence_text(licences: dict[str, str]) -> bytes:
    parts = [f"{name}\n{'=' * len(name)}\n\n{text.strip()}\n" for name, text in sorted(licences.items())]
    parts.append(
        "pyodide\n=======\n\nPyodide is distributed under the Mozilla Public License 2.0, its source and licence are "
        "in the project's repository\n(pyodide/pyodide on GitHub). It contains CPython, under the Python Software "
        "Foundation License 2.\n"
    )
    return "\n\n".join(parts).encode()
