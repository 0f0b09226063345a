"""What only the whole folder can tell: ids that point nowhere, ids used twice, choices that can never be made.

Works on the files as written, so that a trouble in one value hides no other. Where files of a kind could not be read,
ids of that kind are not called missing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Any

from engine.catalogue.folder import Page, Pages
from engine.catalogue.positions import Path
from engine.catalogue.problems import Problem
from engine.catalogue.spots import names
from engine.catalogue.wording import listed, near


@dataclass
class Option:
    """An option as far as references need it."""

    page: Page
    index: int
    data: dict[str, Any]
    id: str
    requires: list[str] = field(default_factory=list)
    excludes: list[str] = field(default_factory=list)

    def path(self, *rest: str | int) -> Path:
        """A place inside this option."""
        return ("option", self.index, *rest)


def check_references(read: Pages, climates: Collection[str]) -> list[Problem]:
    """Every problem between the things of a folder."""
    problems: list[Problem] = []
    pages = {
        kind: [p for p in read.pages if p.kind == kind] for kind in ("workshop", "vehicle", "section", "ready build")
    }
    options = [o for p in pages["section"] for o in _options(p)]
    by_id = {o.id: o for o in reversed(options)}
    vehicles = {i for p in pages["vehicle"] if (i := _text(p.data.get("id")))}
    ready = {i for p in pages["ready build"] if (i := _text(p.data.get("id")))}
    for kind in ("vehicle", "section", "ready build"):
        problems += _twice((i, p, ("id",)) for p in pages[kind] if (i := _text(p.data.get("id"))))
    problems += _twice((o.id, o.page, o.path("id")) for o in options)

    look = Lookup(
        {
            "option": None if "section" in read.unread else set(by_id),
            "vehicle": None if "vehicle" in read.unread else vehicles,
            "ready build": None if "ready build" in read.unread else ready,
            "climate": set(climates),
        },
        problems,
    )
    for page in pages["workshop"]:
        look.up(page, ("start",), "ready build", page.data.get("start"))
        trip = page.data.get("trip")
        if isinstance(trip, dict):
            look.up(page, ("trip", "place"), "climate", trip.get("place"))
    for option in options:
        _option_points(option, look)
    problems += _contradictions(options, by_id)
    if not read.unread & {"vehicle", "section"}:
        problems += _out_of_reach(options, by_id, vehicles)
    for page in pages["ready build"]:
        problems += _ready(page, by_id, pages["section"], look)
    return problems


@dataclass
class Lookup:
    """Known ids by kind (None: not all files could be read), and where to tell of unknown ones."""

    known: dict[str, set[str] | None]
    problems: list[Problem]

    def up(self, page: Page, path: Path, kind: str, wanted: Any) -> None:
        """Tells of an id that is not there."""
        known = self.known[kind]
        if not isinstance(wanted, str) or known is None or wanted in known:
            return
        meant = near(wanted, known)
        guess = (
            f'Did you mean "{meant}"?'
            if meant
            else f"Known: {listed(sorted(known), 60)}."
            if known
            else "There is none yet."
        )
        self.problems.append(problem(page, path, f'There is no {kind} "{wanted[:60]}".', guess))


def problem(page: Page, path: Path, said: str, instead: str = "") -> Problem:
    """A problem at a place in a page."""
    of, chain = names(page, path)
    return Problem(page.file, page.line(*path), of=of, key=" › ".join(chain), said=said, instead=instead)


def _text(value: Any) -> str | None:
    return value if isinstance(value, str) else None


def _tables(value: Any) -> Iterator[tuple[int, dict[str, Any]]]:
    for index, item in enumerate(value if isinstance(value, tuple) else ()):
        if isinstance(item, dict):
            yield index, item


def _options(page: Page) -> Iterator[Option]:
    for index, data in _tables(page.data.get("option")):
        if id_ := _text(data.get("id")):
            option = Option(page, index, data, id_)
            option.requires = [o for _, r in _tables(data.get("requires")) if (o := _text(r.get("option")))]
            option.excludes = [o for _, r in _tables(data.get("excludes")) if (o := _text(r.get("option")))]
            yield option


def _twice(found: Iterable[tuple[str, Page, Path]]) -> list[Problem]:
    first: dict[str, tuple[Page, Path]] = {}
    problems = []
    for id_, page, path in found:
        if id_ in first:
            other, where = first[id_]
            said = f'The id "{id_}" is already used in {other.file}:{other.line(*where)}.'
            problems.append(problem(page, path, said, "Give one of the two another id."))
        else:
            first[id_] = (page, path)
    return problems


def _option_points(option: Option, look: Lookup) -> None:
    page, data = option.page, option.data
    for key in ("requires", "excludes"):
        for index, entry in _tables(data.get(key)):
            path = option.path(key, index, "option")
            if entry.get("option") == option.id:
                look.problems.append(
                    problem(page, path, f"The option {key} itself.", "Name another option, or take this out.")
                )
            else:
                look.up(page, path, "option", entry.get("option"))
    for index, entry in _tables(data.get("needs_one_of")):
        members = entry.get("options")
        for place, member in enumerate(members if isinstance(members, tuple) else ()):
            path = option.path("needs_one_of", index, "options", place)
            if member == option.id:
                said = "The option is in its own list, so that the list asks for nothing."
                look.problems.append(problem(page, path, said, "Take it out of the list."))
            else:
                look.up(page, path, "option", member)
    fits = data.get("fits")
    for place, vehicle in enumerate(fits if isinstance(fits, tuple) else ()):
        look.up(page, option.path("fits", place), "vehicle", vehicle)


def _contradictions(options: list[Option], by_id: dict[str, Option]) -> list[Problem]:
    """Rings of requirements, and options whose requirements shut each other out."""
    problems: list[Problem] = []
    rings: set[frozenset[str]] = set()
    for option in options:
        ways = _everything_required(option, by_id)
        if option.id in ways and len(ways[option.id]) > 2 and (ring := frozenset(ways[option.id])) not in rings:
            rings.add(ring)
            said = "Requirements go in a ring: " + " → ".join(ways[option.id]) + "."
            problems.append(
                problem(option.page, option.path("requires"), said, "Take one of them out, or make one option of all.")
            )
        needed = {option.id, *ways}
        clash = next(
            ((a, b) for a in [option.id, *ways] if a in by_id for b in by_id[a].excludes if b in needed and a != b),
            None,
        )
        if clash and (clash[0] == option.id or not _clashes(clash, option, by_id)):
            first, second = clash
            told = f"It requires {second}" if first == option.id else f"It requires {first} and {second}"
            if second == option.id:
                told = f"It requires {first}"
            end = "excludes it" if first == option.id else f"{first} excludes {second}"
            problems.append(
                problem(
                    option.page, option.path("requires"), f"This can never be chosen. {told}, but {end}.",
                    "Take out one of the two entries.",
                )
            )  # fmt: skip
    return problems


def _out_of_reach(options: list[Option], by_id: dict[str, Option], vehicles: set[str]) -> list[Problem]:
    """Options whose requirements do not fit a vehicle that they fit themselves, or share their pick-one section."""
    problems: list[Problem] = []
    for option in options:
        for key, index, members in _asked_for(option):
            known = [by_id[m] for m in members if m in by_id and m != option.id]
            if len(known) < len(members):
                continue  # told as an unknown id, or as its own requirement
            path = option.path(key, index)
            named = known[0].id if key == "requires" else "any of these"
            short = sorted(_fits(option, vehicles) - {v for m in known for v in _fits(m, vehicles)})
            if short:
                said = f"The option fits {listed(short)}, but {named} does not."
                problems.append(problem(option.page, path, said, "Name in fits only vehicles that both fit."))
            if option.page.data.get("pick") == "one" and all(m.page is option.page for m in known):
                said = f"Of this section only one may be chosen, so {named} can never come along."
                problems.append(problem(option.page, path, said, 'Write pick = "any", or take the entry out.'))
    return problems


def _asked_for(option: Option) -> Iterator[tuple[str, int, list[str]]]:
    for index, entry in _tables(option.data.get("requires")):
        if wanted := _text(entry.get("option")):
            yield "requires", index, [wanted]
    for index, entry in _tables(option.data.get("needs_one_of")):
        members = entry.get("options")
        if isinstance(members, tuple) and members and all(isinstance(m, str) for m in members):
            yield "needs_one_of", index, list(members)


def _fits(option: Option, vehicles: set[str]) -> set[str]:
    fits = option.data.get("fits")
    stated = {f for f in fits if isinstance(f, str)} & vehicles if isinstance(fits, tuple) else set()
    return stated or vehicles


def _clashes(clash: tuple[str, str], option: Option, by_id: dict[str, Option]) -> bool:
    """Whether something the option requires has the same clash by itself, where it is told already."""
    return any(
        r in by_id and set(clash) <= {r, *_everything_required(by_id[r], by_id)}
        for r in option.requires
        if r != option.id
    )


def _everything_required(option: Option, by_id: dict[str, Option]) -> dict[str, list[str]]:
    """All that an option brings along, each with the way to it (itself included when a ring leads back)."""
    ways: dict[str, list[str]] = {}
    todo = [(r, [option.id, r]) for r in option.requires]
    while todo:
        id_, way = todo.pop(0)
        if id_ in ways:
            continue
        ways[id_] = way
        if id_ in by_id and id_ != option.id:
            todo += [(r, [*way, r]) for r in by_id[id_].requires]
    return ways


def _ready(page: Page, by_id: dict[str, Option], sections: list[Page], look: Lookup) -> list[Problem]:
    """A finished vehicle whose parts are not there, do not fit it or are too many."""
    problems: list[Problem] = []
    vehicle = _text(page.data.get("vehicle"))
    look.up(page, ("vehicle",), "vehicle", vehicle)
    known_vehicles = look.known["vehicle"] or set()
    chosen = page.data.get("options")
    chosen = chosen if isinstance(chosen, dict) else {}
    for id_, count in chosen.items():
        path = ("options", id_)
        look.up(page, path, "option", id_)
        if id_ not in by_id:
            continue
        option = by_id[id_]
        fits = option.data.get("fits")
        stated = {f for f in fits if isinstance(f, str)} if isinstance(fits, tuple) else set()
        if stated & known_vehicles and vehicle in known_vehicles - stated:
            said = f"This option does not fit the vehicle {vehicle}."
            problems.append(problem(page, path, said, f"It fits: {listed(sorted(stated))}."))
        most = option.data.get("most", 1)
        if _whole(count) and _whole(most) and count > most:
            problems.append(
                problem(page, path, f"{count} are chosen; there may be {most} at most.", f"Write {most} or less.")
            )
        if _whole(count) and count < 1:
            problems.append(
                problem(page, path, f"{count} are chosen.", "Write how many, from 1, or take the line out.")
            )
    for section in sections:
        ours = [o.id for o in _options(section) if o.id in chosen and by_id[o.id].page is section]
        if section.data.get("pick") == "one" and len(ours) > 1:
            said = f"Of the section {section.data.get('id')} only one may be chosen; here are {listed(ours)}."
            problems.append(problem(page, ("options", ours[1]), said, "Keep one of them."))
    return problems


def _whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)
