"""What only the whole folder can tell: ids that point nowhere, ids used twice, choices that can never be made.

Works on the files as written, so that a trouble in one value hides no other. Where files of a kind could not be read,
ids of that kind are not called missing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from typing import Any

from engine.catalogue.contradictions import contradictions, out_of_reach
from engine.catalogue.folder import FOLDERS, Page, Pages
from engine.catalogue.linked import Option, options_of, problem, tables_of, text_of
from engine.catalogue.positions import Path
from engine.catalogue.problems import Problem
from engine.catalogue.wording import listed, near

_PAGES = {"section": ("index", "vehicles"), "ready build": ("index",)}
"""Names of pages that the site itself writes beside those named by an id."""

_FOLDER_OF = {kind: folder for folder, kind in FOLDERS.items()}


def check_references(read: Pages, climates: Collection[str]) -> list[Problem]:
    """Every problem between the things of a folder."""
    problems: list[Problem] = []
    pages = {
        kind: [p for p in read.pages if p.kind == kind] for kind in ("workshop", "vehicle", "section", "ready build")
    }
    options = [o for p in pages["section"] for o in options_of(p)]
    by_id = {o.id: o for o in reversed(options)}
    vehicles = {i for p in pages["vehicle"] if (i := text_of(p.data.get("id")))}
    ready = {i for p in pages["ready build"] if (i := text_of(p.data.get("id")))}
    for kind in ("vehicle", "section", "ready build"):
        problems += _twice((i, p, ("id",)) for p in pages[kind] if (i := text_of(p.data.get("id"))))
    problems += _twice((o.id, o.page, o.path("id")) for o in options)
    for kind, taken in _PAGES.items():
        for page in pages[kind]:
            if page.data.get("id") in taken:
                said = f'The site has a page "{page.data["id"]}" of its own beside those of this kind.'
                problems.append(problem(page, ("id",), said, "Give it another id."))

    look = Lookup(
        {
            "option": None if "section" in read.unread else set(by_id),
            "vehicle": None if "vehicle" in read.unread else vehicles,
            "ready build": None if "ready build" in read.unread else ready,
            "climate": set(climates),
        },
        problems,
    )
    for page in pages["workshop"] + pages["ready build"]:
        trip = page.data.get("trip")
        if isinstance(trip, dict):
            look.up(page, ("trip", "place"), "climate", trip.get("place"))
    for page in pages["workshop"]:
        look.up(page, ("start",), "ready build", page.data.get("start"))
        for index, interlock in tables_of(page.data.get("interlocks")):
            members = interlock.get("options")
            for place, member in enumerate(members if isinstance(members, tuple) else ()):
                look.up(page, ("interlocks", index, "options", place), "option", member)
    for page in pages["vehicle"]:
        interior = page.data.get("interior")
        way = interior.get("pass_through") if isinstance(interior, dict) else None
        if isinstance(way, dict):
            look.up(page, ("interior", "pass_through", "opened_by"), "option", way.get("opened_by"))
        shell = page.data.get("shell")
        cab = shell.get("cab") if isinstance(shell, dict) else None
        if isinstance(cab, dict):
            look.up(page, ("shell", "cab", "closing_option"), "option", cab.get("closing_option"))
    for option in options:
        _option_points(option, look)
    problems += contradictions(options, by_id)
    if not read.unread & {"vehicle", "section"}:
        problems += out_of_reach(options, by_id, vehicles)
    for page in pages["ready build"]:
        problems += _ready(page, by_id, pages["section"], pages["vehicle"], look)
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
        meant = near(wanted, sorted(known))
        guess = (
            f'Did you mean "{meant}"?'
            if meant
            else f"Known: {listed(sorted(known), 60)}."
            if known
            else f"There is none yet in {_FOLDER_OF.get(kind, 'sections')}/."
        )
        self.problems.append(problem(page, path, f'There is no {kind} "{wanted[:60]}".', guess))


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
        for index, entry in tables_of(data.get(key)):
            path = option.path(key, index, "option")
            if entry.get("option") == option.id:
                look.problems.append(
                    problem(page, path, f"The option {key} itself.", "Name another option, or take this out.")
                )
            else:
                look.up(page, path, "option", entry.get("option"))
    for index, entry in tables_of(data.get("needs_one_of")):
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


def _ready(
    page: Page, by_id: dict[str, Option], sections: list[Page], vehicles: list[Page], look: Lookup
) -> list[Problem]:
    """A finished vehicle whose parts are not there, do not fit it or are too many."""
    problems: list[Problem] = []
    vehicle = text_of(page.data.get("vehicle"))
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
        if _whole(count) and _whole(most) and count > most > 0:
            problems.append(
                problem(page, path, f"{count} are chosen; there may be {most} at most.", f"Write {most} or less.")
            )
        if _whole(count) and count < 1:
            problems.append(
                problem(page, path, f"{count} are chosen.", "Write how many, from 1, or take the line out.")
            )
    problems += _readings(page, vehicles, vehicle)
    for section in sections:
        ours = [o.id for o in options_of(section) if o.id in chosen and by_id[o.id].page is section]
        if section.data.get("pick") == "one" and len(ours) > 1:
            said = f"Of the section {section.data.get('id')} only one may be chosen; here are {listed(ours)}."
            problems.append(problem(page, ("options", ours[1]), said, "Keep one of them."))
    return problems


def _readings(page: Page, vehicles: list[Page], vehicle: str | None) -> list[Problem]:
    """Readings with fuel missing need to know where the tank is."""
    engines = [p.data.get("engine") for p in vehicles if p.data.get("id") == vehicle]
    if any(isinstance(e, dict) and "fuel_x" in e for e in engines) or not engines:
        return []
    return [
        problem(
            page, ("reading", index, "fuel"), f"The vehicle {vehicle} does not say where its fuel tank is.",
            "Write fuel_x under [engine] in the vehicle's file, or weigh with a full tank and take this line out.",
        )
        for index, reading in tables_of(page.data.get("reading"))
        if "fuel" in reading
    ]  # fmt: skip


def _whole(value: Any) -> bool:
    return isinstance(value, int) and not isinstance(value, bool)
