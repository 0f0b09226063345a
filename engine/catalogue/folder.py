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
    files = _find(folder, problems)
    pages: list[Page] = []
    unread: set[str] = set()
    for name, kind, path in files:
        read = _page(name, kind, path)
        if isinstance(read, Page):
            pages.append(read)
        else:
            problems.append(read)
            unread.add(kind)
    unread |= {kind for kind in ("vehicle", "section") if all(k != kind for _, k, _ in files)}
    return Pages(tuple(pages), tuple(problems), frozenset(unread))


def _find(folder: Path, problems: list[Problem]) -> list[tuple[str, str, Path]]:
    """Name, kind and path of each file to read, in the order of their names."""
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
            found += _listed(path, problems)
        elif near := difflib.get_close_matches(path.name, FOLDERS, n=1, cutoff=0.75):
            problems.append(
                Problem(path.name, 0, said="This name is not read.", instead=f'Did you mean the folder "{near[0]}"?')
            )
        elif path.suffix.lower() == ".toml" and path.name != "workshop.toml":
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


def _listed(path: Path, problems: list[Problem]) -> list[tuple[str, str, Path]]:
    try:
        inside = sorted(path.iterdir(), key=lambda p: p.name)
    except OSError as error:
        problems.append(Problem(path.name, 0, said=f"The folder cannot be opened: {_reason(error)}."))
        return []
    found = []
    for item in inside:
        name = f"{path.name}/{item.name}"
        if item.suffix == ".toml":
            found.append((name, FOLDERS[path.name], item))
        elif not item.name.startswith((".", "~")) and item.suffix.lower() in {
            "",
            ".toml",
            ".tml",
            ".txt",
            ".json",
            ".yaml",
            ".yml",
        }:
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
    try:
        data = tomllib.loads(text, parse_float=_decimal)
        return Page(name, kind, text, {k: _fixed(v) for k, v in data.items()})
    except RecursionError:
        return Problem(
            name, 0, said="Brackets are nested too deeply.", instead="A shop file needs five levels at most."
        )
    except tomllib.TOMLDecodeError as error:
        return _syntax(name, text, str(error))
    except ValueError as error:
        return _number(name, text, str(error))


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


# How tomllib's message begins -> what that means, what to do.
_SYNTAX = {
    "Expected newline": (
        "The line goes on after its value",
        'Text and quantities need quotes, for example mass = "27 kg".',
    ),
    "Invalid value": (
        "There is no readable value",
        'After "=" comes a text in quotes, a number, true, false or a list in [ ].',
    ),
    "Invalid initial character for a key part": (
        "A key starts with a character it cannot have",
        "A key is made of letters, digits, - and _.",
    ),
    "Invalid statement": (
        "The line cannot be read",
        "A line is a comment (#), a [table], a [[list of tables]] or key = value.",
    ),
    "Expected '='": ('There is no "=" after the key', 'A key is followed by "=" and a value.'),
    "Cannot overwrite a value": ("This key is already written above", "The same key stands twice; keep one."),
    "Cannot declare": (
        "This table is already written above",
        "The same table stands twice; keep one, or write [[ ]] for a list.",
    ),
    "Cannot redefine namespace": (
        "A table and a list have the same name",
        "Write [[ ]] each time for a list of tables.",
    ),
    "Cannot mutate immutable": (
        "A key written on one line in { } or [ ] cannot be added to below",
        "Write all of it in one place.",
    ),
    "Unclosed array": ("A list is not closed before here", "A list is closed with ]."),
    "Unclosed inline table": ("A table is not closed before here", "A table on one line is closed with }."),
    "Unterminated string": ("A text is not closed", "A text is closed with the same quotes it began with."),
    "Illegal character '\\n'": (
        "A text is not closed on its line",
        "A text in single quotes ends on its own line; long texts stand between triple quotes.",
    ),
    "Illegal character": ("A text holds a control character", "Take the character out."),
    "Expected ']": ("The name of a table is not closed", "A table name is closed with ] or ]]."),
    "Unescaped '\\'": ("A backslash stands alone in a text", 'Write "\\\\" for a backslash.'),
    "Duplicate inline table key": ("This key stands twice in its table", "The same key stands twice; keep one."),
}


def _syntax(name: str, text: str, message: str) -> Problem:
    """A TOML mistake with line, column and what such a line should look like."""
    match = re.search(r"\s*\(at line (\d+), column (\d+)\)$", message)
    lines = text.split("\n")
    line, column = (int(match[1]), int(match[2])) if match else (len(lines), 0)
    plain = re.sub(r"\s*\(at [^)]*\)$", "", message)
    told = (words for start, words in _SYNTAX.items() if message.startswith(start))
    said, hint = next(told, (plain, "Compare it with a neighbouring line."))
    shown = lines[line - 1].strip() if 0 < line <= len(lines) else ""
    if len(shown) > 80:
        shown = shown[:76] + " …"
    return Problem(name, line, column, said=f"{said}: {shown}" if shown else f"{said}.", instead=hint)


def _number(name: str, text: str, message: str) -> Problem:
    """A number that TOML allows and Python does not hold: thousands of digits, or an exponent without end."""
    found = re.search(r"[0-9_]{4000,}", text)
    at = found.start() if found else text.find(message)
    line = text.count("\n", 0, at) + 1 if at >= 0 else 0
    return Problem(name, line, said="This number is out of all range.", instead="Write an ordinary number.")


def _reason(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()


_LAYOUT = (
    "A shop folder holds workshop.toml, vehicles/*.toml, sections/*.toml and, for finished vehicles, ready/*.toml."
)
