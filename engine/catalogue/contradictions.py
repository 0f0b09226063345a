"""Options that could never be chosen: rings of requirements, and requirements that shut each other out."""

from __future__ import annotations

from collections.abc import Iterator

from engine.catalogue.linked import Option, problem, tables_of, text_of
from engine.catalogue.problems import Problem
from engine.catalogue.wording import listed


def contradictions(options: list[Option], by_id: dict[str, Option]) -> list[Problem]:
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
        for key, told in (("requires", _clash(option, ways, by_id)), ("needs_one_of", _no_way(option, ways, by_id))):
            if told:
                said = f"This can never be chosen. {told}"
                problems.append(problem(option.page, option.path(key), said, "Take out one of these entries."))
    return problems


def _clash(option: Option, ways: dict[str, list[str]], by_id: dict[str, Option]) -> str:
    """Why an option and all it requires cannot stand together; "" when they can, or when a required one tells it."""
    needed = [option.id, *(w for w in ways if w != option.id)]
    for first in needed:
        for second in by_id[first].excludes if first in by_id else ():
            if second == first or second not in needed or _told_by_another((first, second), option, by_id):
                continue
            if first == option.id:
                return f"It requires {second}, but excludes it."
            told = f"It requires {first}" + (f" and {second}" if second != option.id else "")
            return f"{told}, but {first} excludes {second}."
    alone: dict[str, str] = {}
    for id_ in needed[1:]:
        page = by_id[id_].page if id_ in by_id else None
        if page is None or page is option.page or page.data.get("pick") != "one":
            continue
        other = alone.setdefault(page.file, id_)
        if other != id_ and not _told_by_another((other, id_), option, by_id):
            return f"It requires {other} and {id_}, but of their section only one may be chosen."
    return ""


def _no_way(option: Option, ways: dict[str, list[str]], by_id: dict[str, Option]) -> str:
    """Why a group is asked for of which nothing can come along with all that the option requires; "" otherwise."""
    needed = {option.id, *ways}
    if _apart(needed, by_id):
        return ""  # told by itself
    for owner in (by_id[i] for i in sorted(needed) if i in by_id):
        theirs = _everything_required(owner, by_id)
        if owner is not option and option.id not in theirs and _no_way(owner, theirs, by_id):
            continue  # told there
        for key, _, members in _asked_for(owner):
            if key == "requires" or any(m not in by_id or m == owner.id for m in members):
                continue
            if owner.page.data.get("pick") == "one" and all(by_id[m].page is owner.page for m in members):
                continue  # told by out_of_reach
            brought = [{m, *_everything_required(by_id[m], by_id)} for m in members]
            if any(_apart(ids, by_id) for ids in brought):
                continue  # told at the member that can never be chosen
            if all(whys := [_apart(needed | ids, by_id) for ids in brought]):
                of = "It needs" if owner is option else f"It requires {owner.id}, which needs"
                return (
                    f"{of} one of {listed(members)}, and none of them can come along: {'; '.join(dict.fromkeys(whys))}."
                )
    return ""


def _apart(ids: set[str], by_id: dict[str, Option]) -> str:
    """Which two of some options cannot stand together, or ""."""
    known = [by_id[i] for i in sorted(ids) if i in by_id]
    for place, one in enumerate(known):
        for other in known[place + 1 :]:
            if other.id in one.excludes or one.id in other.excludes:
                return f"{one.id} and {other.id} exclude each other"
            if one.page is other.page and one.page.data.get("pick") == "one":
                return f"of {one.id} and {other.id} only one may be chosen"
    return ""


def out_of_reach(options: list[Option], by_id: dict[str, Option], vehicles: set[str]) -> list[Problem]:
    """Options whose requirements do not fit a vehicle that they fit themselves, or share their pick-one section."""
    problems: list[Problem] = []
    for option in options:
        for key, index, members in _asked_for(option):
            known = [by_id[m] for m in members if m in by_id and m != option.id]
            if len(known) < len(members):
                continue  # told as an unknown id, or as its own requirement
            path = option.path(key, index)
            named = known[0].id if key == "requires" else "none of these"
            short = sorted(_fits(option, vehicles) - {v for m in known for v in _fits(m, vehicles)})
            if short:
                verb = "does not" if key == "requires" else "does"
                said = f"The option fits {listed(short)}, but {named} {verb}."
                problems.append(problem(option.page, path, said, "Name in fits only vehicles that both fit."))
            if option.page.data.get("pick") == "one" and all(m.page is option.page for m in known):
                said = "Of this section only one may be chosen, so this asks for what can never come along."
                problems.append(problem(option.page, path, said, 'Write pick = "any", or take the entry out.'))
    return problems


def _asked_for(option: Option) -> Iterator[tuple[str, int, list[str]]]:
    for index, entry in tables_of(option.data.get("requires")):
        if wanted := text_of(entry.get("option")):
            yield "requires", index, [wanted]
    for index, entry in tables_of(option.data.get("needs_one_of")):
        members = entry.get("options")
        if isinstance(members, tuple) and members and all(isinstance(m, str) for m in members):
            yield "needs_one_of", index, list(members)


def _fits(option: Option, vehicles: set[str]) -> set[str]:
    fits = option.data.get("fits")
    stated = {f for f in fits if isinstance(f, str)} & vehicles if isinstance(fits, tuple) else set()
    return stated or vehicles


def _told_by_another(pair: tuple[str, str], option: Option, by_id: dict[str, Option]) -> bool:
    """Whether something the option requires brings the same two together by itself, and so is told already."""
    return any(
        r in by_id and set(pair) <= {r, *_everything_required(by_id[r], by_id)}
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
