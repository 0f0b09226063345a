"""The files of a shop folder: found, read and taken apart as TOML, with every trouble told and none raised."""

from __future__ import annotations

import difflib
import re
import stat
import tomllib
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from functools import cached_property
from pathlib import Path
from typing import Any

from engine.catalogue.positions import Positions
from engine.catalogue.problems import Problem
from engine.catalogue.syntax import number_problem, syntax_problem

LARGEST_BYTES = 1_000_000
MOST_FILES = 500
FOLDERS = {"vehicles": "vehicle", "sections": "section", "ready": "ready build"}
"""Folder names with what one file in each holds."""


@dataclass(frozen=True)
class Page:
    """One TOML file that could be read."""

    file: str
    kind: str
    """ "workshop", "vehicle", "section" or "ready build"."""
    text: str
    data: dict[str, Any]

    @cached_property
    def positions(self) -> Positions:
        """Lines of its keys; worked out only when a problem needs them."""
        return Positions(self.text)

    def line(self, *path: str | int) -> int:
        """The line of a key, or of the nearest table round it."""
        try:
            return self.positions.line(path)
        except RecursionError:
            return 1


@dataclass(frozen=True)
class Pages:
    """All files of a folder."""

    pages: tuple[Page, ...]
    problems: tuple[Problem, ...]
    unread: frozenset[str]
    """Kinds of which a file, or all files, could not be read, so that a missing id there proves nothing."""


def read_pages(folder: Path) -> Pages:
    """Every file a shop folder should hold, with what went wrong. Raises nothing for any folder or content."""
    problems: list[Problem] = []
    unread: set[str] = set()
    files = _find(folder, problems, unread)
    pages: list[Page] = []
    for name, kind, path in files:
        read = _page(name, kind, path)
        if isinstance(read, Page):
            pages.append(read)
            # Where a file has no id, or no option, what it was to bring is not missing elsewhere.
            if "id" not in read.data or (kind == "section" and not read.data.get("option")):
                unread.add(kind)
        else:
            problems.append(read)
            unread.add(kind)
    unread |= {kind for kind in ("vehicle", "section") if all(k != kind for _, k, _ in files)}
    return Pages(tuple(pages), tuple(problems), frozenset(unread))


def _find(folder: Path, problems: list[Problem], unread: set[str]) -> list[tuple[str, str, Path]]:
    """Name, kind and path of each file to read, in the order of their names; ``unread`` takes kinds passed over."""
    try:
        if not folder.is_dir():
            what = "This is a file, not a folder." if folder.is_file() else "There is no such folder."
            problems.append(Problem("", 0, of=str(folder), said=what, instead=_LAYOUT))
            return []
        top = sorted(folder.iterdir(), key=lambda p: p.name)
    except (OSError, ValueError) as error:
        problems.append(Problem("", 0, of=str(folder), said=f"The folder cannot be opened: {_reason(error)}."))
        return []
    found: list[tuple[str, str, Path]] = []
    names = {p.name for p in top}
    if "workshop.toml" in names:
        found.append(("workshop.toml", "workshop", folder / "workshop.toml"))
    else:
        problems.append(Problem("", 0, said="The folder has no workshop.toml.", instead=_LAYOUT))
    for path in top:
        if path.name in FOLDERS:
            found += _listed(path, problems, unread)
        elif near := difflib.get_close_matches(path.name.lower(), FOLDERS, n=1, cutoff=0.75):
            unread.add(FOLDERS[near[0]])
            problems.append(
                Problem(path.name, 0, said="This name is not read.", instead=f'Did you mean the folder "{near[0]}"?')
            )
        elif path.name != "workshop.toml" and "workshop.toml" not in names and _meant_as_workshop(path):
            problems.append(Problem(path.name, 0, said="This file is not read.", instead="Name it workshop.toml."))
        elif path.suffix.lower() == ".toml" and path.name != "workshop.toml":
            unread |= set(FOLDERS.values())
            problems.append(Problem(path.name, 0, said="This file is not read.", instead=_LAYOUT))
    for name in ("vehicles", "sections"):
        if not any(f.startswith(f"{name}/") for f, _, _ in found) and not any(p.file == name for p in problems):
            problems.append(
                Problem(
                    name,
                    0,
                    said=f"There is no file in {name}/.",
                    instead=f"Put one .toml file for each {FOLDERS[name]} there.",
                )
            )
    if len(found) > MOST_FILES:
        problems.append(
            Problem("", 0, said=f"The folder holds {len(found)} files; at most {MOST_FILES} are read.", instead=_LAYOUT)
        )
        return []
    return found


def _meant_as_workshop(path: Path) -> bool:
    """Whether a name is workshop.toml but for capitals, or an ending that an editor or file manager gave it."""
    return path.name.lower().split(".")[0] == "workshop" and path.is_file()


def _listed(path: Path, problems: list[Problem], unread: set[str]) -> list[tuple[str, str, Path]]:
    try:
        inside = sorted(path.iterdir(), key=lambda p: p.name)
    except OSError as error:
        problems.append(Problem(path.name, 0, said=f"The folder cannot be opened: {_reason(error)}."))
        return []
    found = []
    for item in inside:
        if item.name.startswith((".", "~")):  # left by editors and file managers
            continue
        name = f"{path.name}/{item.name}"
        if item.suffix == ".toml":
            found.append((name, FOLDERS[path.name], item))
        elif item.is_dir() or item.suffix.lower() in {"", ".toml", ".tml", ".txt", ".json", ".yaml", ".yml"}:
            if item.is_dir() or "tml" in item.name.lower() or "toml" in item.name.lower():
                unread.add(FOLDERS[path.name])
            problems.append(
                Problem(
                    name,
                    0,
                    said="This is not read.",
                    instead="Files here end in .toml; there are no folders further in.",
                )
            )
    return found


def _page(name: str, kind: str, path: Path) -> Page | Problem:
    try:
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):
            return Problem(name, 0, said="This is not an ordinary file.", instead="Put a TOML text file here.")
        with path.open("rb") as file:
            raw = file.read(LARGEST_BYTES + 1)
    except OSError as error:
        return Problem(name, 0, said=f"The file cannot be opened: {_reason(error)}.")
    if len(raw) > LARGEST_BYTES:
        return Problem(
            name,
            0,
            said="The file is larger than 1 MB.",
            instead="Shop files are short texts; split it by section or vehicle.",
        )
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        return Problem(
            name, line, said="The text is not UTF-8 here.", instead='Save the file with the encoding "UTF-8".'
        )
    if "\0" in text:
        return Problem(name, 1, said="The text is not UTF-8.", instead='Save the file with the encoding "UTF-8".')
    if "\r" in text.replace("\r\n", ""):
        line = re.split("\r(?!\n)", text)[0].count("\n") + 1
        return Problem(
            name, line, said="A line ends with a carriage return alone.", instead="Save the file with usual line ends."
        )
    try:
        data = tomllib.loads(text, parse_float=_decimal)
        return Page(name, kind, text, {k: _fixed(v) for k, v in data.items()})
    except RecursionError:
        return Problem(
            name, 0, said="Brackets are nested too deeply.", instead="A shop file needs five levels at most."
        )
    except tomllib.TOMLDecodeError as error:
        return syntax_problem(name, text, str(error))
    except ValueError as error:
        return number_problem(name, text, str(error))


def _decimal(text: str) -> Decimal:
    try:
        return Decimal(text)
    except InvalidOperation:
        raise ValueError(text) from None


def _fixed(value: Any) -> Any:
    """Lists as tuples, which is what the strict models take."""
    if isinstance(value, list):
        return tuple(map(_fixed, value))
    if isinstance(value, dict):
        return {k: _fixed(v) for k, v in value.items()}
    return value


def _reason(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()


_LAYOUT = (
    "A shop folder holds workshop.toml, vehicles/*.toml, sections/*.toml and, for finished vehicles, ready/*.toml."
)
