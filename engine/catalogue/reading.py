"""The author's door: a folder of TOML files becomes a Shop, or everything that is wrong with it is told at once."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path
from typing import Any

from pydantic import BaseModel, ValidationError

from engine.catalogue.explain import explain
from engine.catalogue.folder import FOLDERS, Page, Pages, read_pages
from engine.catalogue.measures import parse_quantity
from engine.catalogue.plausible import check_vehicle
from engine.catalogue.positions import Path as Path_
from engine.catalogue.problems import Problem, ShopProblems
from engine.catalogue.references import check_references
from engine.catalogue.shapes import keys_of
from engine.catalogue.shop import Shop, ShopReadyBuild, ShopSection
from engine.catalogue.spots import names
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.wording import shown
from engine.catalogue.workshop import Workshop

KINDS: dict[str, type[BaseModel]] = {
    "workshop": Workshop,
    "vehicle": Vehicle,
    "section": ShopSection,
    "ready build": ShopReadyBuild,
}
"""What one file of each kind holds."""


def read_shop(folder: Path, climates: Collection[str]) -> Shop:
    """The shop in a folder. ``climates`` are the ids that a trip's place may name.

    Raises ShopProblems with every problem of every file. Sections come in their ``order``, all else by file name.
    """
    read = _in_place(read_pages(folder))
    problems: list[Problem] = list(read.problems)
    models: dict[str, list[BaseModel]] = {kind: [] for kind in KINDS}
    for page in read.pages:
        problems += _strange_characters(page)
        result = _validated(page)
        if isinstance(result, list):
            problems += result
        else:
            models[page.kind].append(result)
            if isinstance(result, Vehicle):
                problems += check_vehicle(page, result)
    problems += check_references(read, climates)
    if problems:
        raise ShopProblems(problems)
    sections = [s for s in models["section"] if isinstance(s, ShopSection)]
    return Shop.model_validate(
        {
            "workshop": models["workshop"][0],
            "vehicles": tuple(models["vehicle"]),
            "sections": tuple(sorted(sections, key=lambda s: (s.order, s.id))),
            "ready": tuple(models["ready build"]),
        }
    )


def _in_place(read: Pages) -> Pages:
    """Without files that stand in another kind's folder: those are told once, and nothing of theirs is missing."""
    astray = [(page, kind) for page in read.pages if (kind := _kind_meant(page)) != page.kind]
    told = [
        Problem(
            page.file,
            0,
            said=f"This reads like a {kind}.",
            instead=next((f"Move it to {f}/." for f, k in FOLDERS.items() if k == kind), "Name it workshop.toml."),
        )
        for page, kind in astray
    ]
    return Pages(
        tuple(p for p in read.pages if all(p is not page for page, _ in astray)),
        (*read.problems, *told),
        read.unread | {k for page, kind in astray for k in (page.kind, kind)},
    )


def _kind_meant(page: Page) -> str:
    """The kind whose keys a page has: another than its folder's when all of the page is known there, and not here."""
    if page.kind == "workshop" or len(page.data) < 3 or set(page.data) <= set(keys_of(KINDS[page.kind])):
        return page.kind
    return next((kind for kind, model in KINDS.items() if set(page.data) <= set(keys_of(model))), page.kind)


def _strange_characters(page: Page) -> list[Problem]:
    """Control characters inside texts: nobody types them, and printers and terminals obey them."""
    found: list[Problem] = []
    todo: list[tuple[Path_, Any]] = [((), page.data)]
    while todo:
        path, value = todo.pop()
        if isinstance(value, dict):
            todo += [((*path, k), v) for k, v in value.items()]
        elif isinstance(value, tuple):
            todo += [((*path, i), v) for i, v in enumerate(value)]
        elif isinstance(value, str) and any((c < " " and c not in "\n\t") or c == "\x7f" for c in value):
            of, chain = names(page, path)
            said = f"{shown(value)} holds a control character."
            found.append(
                Problem(page.file, page.line(*path), of=of, key=" › ".join(chain), said=said, instead="Take it out.")
            )
    return found


def _validated(page: Page) -> BaseModel | list[Problem]:
    model = KINDS[page.kind]
    try:
        # Strict: "2" is not 2 and 1 is not true, here as in the published schema.
        return model.model_validate(
            page.data, strict=True, by_alias=True, by_name=False, context={"parse": parse_quantity}
        )
    except ValidationError as error:
        return explain(page, model, error)
