"""What of Python and of the wheels travels to the browser, and what stays behind.

Left behind is what cannot work there (processes, sockets, terminals, test and packaging tools) and what no path of
the engine reaches. The engine's own tests run inside the trimmed bundle, so a module that is missed shows up there.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from site_build.bundle.archives import read_tar, read_zip
from site_build.bundle.fetch import LOCKS, Fetched
from site_build.progress import SiteProblem

# Names of top-level modules and packages of the standard library.
STDLIB_LEFT_BEHIND = frozenset((LOCKS / "left_behind.txt").read_text(encoding="utf-8").split())
# Parts of packages of the standard library.
_STDLIB_PARTS = ("concurrent/interpreters/", "html/parser", "logging/config", "logging/handlers", "site-packages/")
# Character sets nobody sends: the engine reads and writes UTF-8.
_ENCODINGS_KEPT = frozenset(
    (
        "__init__",
        "aliases",
        "ascii",
        "cp437",
        "idna",
        "latin_1",
        "unicode_escape",
        "utf_8",
        "utf_8_sig",
        "utf_16",
        "utf_16_le",
    )
)

_SITE_LEFT_BEHIND = (
    "pydantic/v1/",
    "pydantic/mypy.py",
    "pydantic/_hypothesis_plugin.py",
    "pydantic/experimental/",
    "pydantic/color.py",
    "jinja2/ext.py",
    "jinja2/sandbox.py",
)


def stdlib_files(fetched: Fetched) -> dict[str, bytes]:
    """The standard library's modules that travel, as source."""
    every = read_zip(fetched.npm / "pyodide" / "python_stdlib.zip")
    return {name: data for name, data in every.items() if _stdlib_kept(name)}


def stdlib_names(fetched: Fetched) -> frozenset[str]:
    """Top-level names of all modules that Pyodide's standard library has as Python files."""
    every = read_zip(fetched.npm / "pyodide" / "python_stdlib.zip")
    return frozenset(name.split("/")[0].removesuffix(".py") for name in every)


def _stdlib_kept(name: str) -> bool:
    top = name.split("/")[0].removesuffix(".py")
    if top in STDLIB_LEFT_BEHIND or name.startswith(_STDLIB_PARTS):
        return False
    if top == "encodings":
        return Path(name).stem in _ENCODINGS_KEPT
    if top == "email":
        # importlib.metadata, which pydantic imports, names the package but reads no message with it.
        return name == "email/__init__.py"
    return not name.endswith((".pyi", ".txt", ".exe")) and "__pycache__" not in name


def site_files(fetched: Fetched) -> tuple[dict[str, bytes], tuple[str, bytes], dict[str, str]]:
    """The third-party modules as source, pydantic-core's binary with its path, and the licence texts by package."""
    modules: dict[str, bytes] = {}
    binaries: dict[str, bytes] = {}
    licences: dict[str, str] = {}
    for path in sorted(fetched.wheels.iterdir()):
        package = path.name.split("-")[0]
        files = _markupsafe(path) if path.name.endswith(".tar.gz") else read_zip(path)
        for name, data in files.items():
            base = Path(name).name.upper()
            if base.startswith(("LICENSE", "LICENCE", "COPYING")):
                licences[package] = data.decode("utf-8", "replace")
            elif name.endswith(".so"):
                binaries[name] = data
            elif name.endswith(".py") and not name.startswith(_SITE_LEFT_BEHIND):
                modules[name] = data
    if len(binaries) != 1:
        raise SiteProblem(f"Expected one binary module among the wheels, found {sorted(binaries) or 'none'}.")
    return modules, next(iter(binaries.items())), licences


def _markupsafe(path: Path) -> dict[str, bytes]:
    """MarkupSafe without its speed-ups: `__init__` falls back to `_native` when the binary is absent."""
    files = read_tar(path)
    pure = {f"markupsafe/{name}": files[f"src/markupsafe/{name}"] for name in ("__init__.py", "_native.py")}
    return pure | {name: data for name, data in files.items() if name == "LICENSE.txt"}


def missing_from(kept: Iterable[str], wanted: Iterable[str]) -> list[str]:
    """Those of the wanted top-level modules that did not stay in."""
    tops = {name.split("/")[0].removesuffix(".py").removesuffix(".pyc") for name in kept}
    return sorted(set(wanted) - tops)
