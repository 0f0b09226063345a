"""Which modules of the engine travel to the browser: those that its door there can reach, and no others.

The public site must never carry a cost price, a supplier or the author's tools, so the set is not a list of what to
leave out; it grows from the door by following imports, and the rules, which are found by walking their folder.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

from site_build.progress import SiteProblem

DOOR = "engine.desk"
FOUND_BY_WALKING = "engine.rules"
"""Package whose modules are imported by walking its folder, so that no import statement names them."""
NEVER = (
    "engine.demo", "engine.cli", "engine.catalogue.reading", "engine.catalogue.shop", "engine.catalogue.measures",
    "engine.enquiry.climate.make_places",
)  # fmt: skip
"""Beginnings of names that stay with the author."""
_DATA = frozenset({".html", ".jinja", ".j2", ".svg", ".json", ".css", ".csv", ".txt"})


def engine_files(root: Path, door: str = DOOR) -> tuple[dict[str, bytes], set[str]]:
    """The engine's files for the browser, and the top-level names of everything else that they import.

    `root` is the folder that holds the package `engine`. Raises `SiteProblem` when the door reaches a module that
    must stay with the author.
    """
    modules: dict[str, Path] = {}
    outside: set[str] = set()
    waiting = [door, *_walked(root)]
    while waiting:
        name = waiting.pop()
        path = _file_of(root, name)
        if path is None or name in modules:
            continue
        if name.startswith(NEVER):
            raise SiteProblem(f"{name} belongs to the author's side, but the browser's door imports it.")
        modules[name] = path
        waiting.extend(parent for parent in _parents(name) if parent not in modules)
        for wanted in _imports(path, name):
            if wanted.split(".")[0] == "engine":
                waiting.append(wanted)
            else:
                outside.add(wanted.split(".")[0])
    files = {path.relative_to(root).as_posix(): path.read_bytes() for path in modules.values()}
    folders = {path.parent for path in modules.values() if path.name == "__init__.py"}
    for folder in folders:
        files |= {path.relative_to(root).as_posix(): path.read_bytes() for path in _data(folder)}
    return files, outside


def _walked(root: Path) -> Iterator[str]:
    for path in sorted((root / Path(*FOUND_BY_WALKING.split("."))).rglob("*.py")):
        relative = path.relative_to(root).with_suffix("")
        yield ".".join(relative.parts[:-1] if path.stem == "__init__" else relative.parts)


def _file_of(root: Path, name: str) -> Path | None:
    base = root / Path(*name.split("."))
    for path in (base.with_suffix(".py"), base / "__init__.py"):
        if path.is_file():
            return path
    return None


def _parents(name: str) -> Iterator[str]:
    parts = name.split(".")
    return (".".join(parts[:n]) for n in range(1, len(parts)))


def _imports(path: Path, name: str) -> Iterator[str]:
    """Every module a file may import, also inside functions; not those for type checkers alone."""
    package = name if path.name == "__init__.py" else name.rpartition(".")[0]
    tree = ast.parse(path.read_text(encoding="utf-8"), str(path))
    skipped = {id(node) for block in ast.walk(tree) if _for_checkers(block) for node in ast.walk(block)}
    for node in ast.walk(tree):
        if id(node) in skipped:
            continue
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                above = package.split(".")[: len(package.split(".")) - node.level + 1]
                base = ".".join([*above, *([node.module] if node.module else [])])
            yield base
            # `from package import module` names a module too.
            yield from (f"{base}.{alias.name}" for alias in node.names if base.startswith("engine"))


def _for_checkers(node: ast.AST) -> bool:
    return isinstance(node, ast.If) and ast.unparse(node.test) in ("TYPE_CHECKING", "typing.TYPE_CHECKING")


def _data(folder: Path) -> Iterator[Path]:
    """Templates and tables beside travelling modules, and in plain folders below them."""
    for path in sorted(folder.iterdir()):
        if path.suffix in _DATA:
            yield path
        elif path.is_dir() and not any(path.glob("*.py")) and not path.name.startswith(("_", ".")):
            yield from (inner for inner in sorted(path.rglob("*")) if inner.suffix in _DATA)
