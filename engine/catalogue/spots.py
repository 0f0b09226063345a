"""Where in a file a problem lies: followed through data and models at once, and named in words."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from engine.catalogue.folder import Page
from engine.catalogue.positions import Path
from engine.catalogue.problems import Problem
from engine.catalogue.shapes import keys_of, kind_of, models_in, sample


class Spot:
    """A place in a page, followed through data and models at once."""

    def __init__(self, page: Page, model: type[BaseModel], loc: tuple[int | str, ...]) -> None:
        self.page = page
        self.path: Path = ()
        self.missing: str | None = None
        self.value: Any = page.data
        self.table: type[BaseModel] | None = model
        self.field: FieldInfo | None = None
        self.around: list[type[BaseModel]] = []
        """Models of the tables that this spot's own table lies in."""
        models: list[type[BaseModel]] = [model]
        for step in loc:
            inside = self._inside(step)
            if inside is _NOWHERE:
                if isinstance(self.value, dict) and self.value.get("kind") == step:
                    continue  # pydantic names the facet's kind on the way to its keys
                self.missing = str(step)
                self.table = _told_apart(models, self.value)
                self.field = keys_of(self.table).get(self.missing) if self.table else None
                return
            if isinstance(step, str) and models:  # none: what lies in a table of ids
                outer, self.table = self.table, _told_apart(models, self.value)
                self.around += [outer] if outer and outer is not self.table else []
                self.field = keys_of(self.table).get(step) if self.table else self.field
                models = models_in(self.field.annotation) if self.field else []
            self.path = (*self.path, step)
            self.value = inside

    def _inside(self, step: int | str) -> Any:
        if isinstance(self.value, dict) and step in self.value:
            return self.value[step]
        if isinstance(self.value, tuple) and isinstance(step, int) and step < len(self.value):
            return self.value[step]
        return _NOWHERE

    def sample(self, key: str) -> str:
        """A line the author could write for a key of this spot's table."""
        if self.table is None:
            return ""
        return sample(self.table, key, self.heading(key))

    def heading(self, key: str) -> str:
        """What stands in the [ ] over this spot's table: the way to it, without ``key`` and a key not known there."""
        steps = self.path[:-1] if self.table and self.path and self.path[-1] not in keys_of(self.table) else self.path
        return ".".join(step for step in steps if isinstance(step, str) and step != key)

    def problem(self, said: str, instead: str = "", key: str | None = None) -> Problem:
        """A problem at this spot."""
        of, chain = names(self.page, self.path)
        whole = " › ".join([*chain, *([key] if key else [])])
        return Problem(self.page.file, self.page.line(*self.path), of=of, key=whole, said=said, instead=instead)


_NOWHERE = object()


def _told_apart(models: list[type[BaseModel]], value: Any) -> type[BaseModel] | None:
    """Which of several models a table is meant to be."""
    if len(models) == 1:
        return models[0]
    kind = value.get("kind") if isinstance(value, dict) else None
    return next((m for m in models if kind_of(m) == kind), None)


def names(page: Page, path: Path) -> tuple[str, list[str]]:
    """Who a path belongs to ("option lithium-200") and its keys in words (["facets", "battery", "capacity"])."""
    of, value, rest = page.kind, page.data, path
    if len(path) > 1 and path[0] == "option" and page.kind == "section":
        of, value, rest = "option", _step(_step(value, "option"), path[1]), path[2:]
    if page.kind == "workshop":
        of = ""
    elif isinstance(value, dict) and isinstance(value.get("id"), str):
        of = f"{of} {value['id'][:60]}"
    elif len(path) > 1 and of == "option":
        of = f"option number {int(path[1]) + 1}"
    chain: list[str] = []
    for step in rest:
        value = _step(value, step)
        if isinstance(step, str):
            chain.append(step[:60])
        elif isinstance(value, dict):
            called = next(
                (v for k in ("kind", "place", "name", "option", "id") if isinstance(v := value.get(k), str)), ""
            )
            chain.append(called[:40] or f"number {step + 1}")
    return of, chain


def _step(value: Any, step: str | int) -> Any:
    if isinstance(value, dict):
        return value.get(step)
    return value[step] if isinstance(value, tuple) and isinstance(step, int) and step < len(value) else None
