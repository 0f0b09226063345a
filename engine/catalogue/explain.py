"""From what pydantic found to what an author can act on."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from typing import Any

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from engine.catalogue.folder import Page
from engine.catalogue.measures import UnreadableError, read_text
from engine.catalogue.positions import Path
from engine.catalogue.problems import Problem
from engine.catalogue.shapes import keys_of, kind_of, models_in, quantity_of, sample, without_unit


def explain(page: Page, model: type[BaseModel], error: ValidationError) -> list[Problem]:
    """One problem for each thing to put right on a page; an unknown key that replaces a missing one counts once."""
    details = error.errors(include_url=False)
    spots = [Spot(page, model, d["loc"]) for d in details]
    absent = {(s.path, s.missing) for s, d in zip(spots, details, strict=True) if d["type"] == "missing"}
    problems: list[Problem] = []
    told: set[tuple[Path, str | None]] = set()
    for spot, detail in zip(spots, details, strict=True):
        if detail["type"] == "extra_forbidden":
            table, key = spot.path[:-1], str(spot.path[-1])
            needed = [k for p, k in absent if p == table and k]
            near = _near_key(key, spot.table, needed)
            if near in needed:
                told.add((table, near))
            problems.append(_unknown_key(spot, key, near))
    for spot, detail in zip(spots, details, strict=True):
        if detail["type"] == "missing" and (spot.path, spot.missing) not in told:
            problems.append(_missing(spot))
        elif detail["type"] not in {"missing", "extra_forbidden"}:
            problems.append(_wrong_value(spot, detail))
    return problems


class Spot:
    """A place in a page, followed through data and models at once."""

    def __init__(self, page: Page, model: type[BaseModel], loc: tuple[int | str, ...]) -> None:
        self.page = page
        self.path: Path = ()
        self.missing: str | None = None
        self.value: Any = page.data
        self.table: type[BaseModel] | None = model
        self.field: FieldInfo | None = None
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
            if isinstance(step, str):
                self.table = _told_apart(models, self.value)
                self.field = keys_of(self.table).get(step) if self.table else self.field
                models = models_in(self.field.annotation) if self.field else []
            self.path = (*self.path, step)
            self.value = inside
        if loc and isinstance(self.value, dict):
            self.inner = _told_apart(models, self.value)

    inner: type[BaseModel] | None = None

    def _inside(self, step: int | str) -> Any:
        if isinstance(self.value, dict) and step in self.value:
            return self.value[step]
        if isinstance(self.value, tuple) and isinstance(step, int) and step < len(self.value):
            return self.value[step]
        return _NOWHERE

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


def near(word: str, known: Iterable[str], cutoff: float = 0.6) -> str | None:
    """The known word that somebody most likely meant, or None."""
    found = difflib.get_close_matches(word.lower()[:80], list(known), n=1, cutoff=cutoff)
    return found[0] if found else None


def listed(words: Iterable[str], most: int = 40) -> str:
    """Words for a sentence, cut off where nobody would read on."""
    all_words = list(words)
    tail = f" … ({len(all_words)} in all)" if len(all_words) > most else ""
    return ", ".join(all_words[:most]) + tail


def _near_key(key: str, table: type[BaseModel] | None, needed: list[str]) -> str | None:
    known = list(keys_of(table)) if table else []
    bare = without_unit(key)
    if bare in known:
        return bare
    return near(key, needed, 0.7) or near(key, known)


def _unknown_key(spot: Spot, key: str, meant: str | None) -> Problem:
    known = keys_of(spot.table) if spot.table else {}
    if meant and spot.table:
        return spot.problem("This key is not known.", f"Did you mean {meant}? For example {sample(spot.table, meant)}")
    return spot.problem("This key is not known.", f"Keys here: {listed(known)}.")


def _missing(spot: Spot) -> Problem:
    if spot.table is None or spot.missing is None or spot.field is None:
        return spot.problem("Something is missing here.", key=spot.missing)
    about = f" ({spot.field.description})" if spot.field.description else ""
    return spot.problem(
        f"This is missing{about}.", f"Write for example {sample(spot.table, spot.missing)}", key=spot.missing
    )


def shown(value: Any) -> str:
    """A value as it stands in the file, cut to a readable length."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f'"{value}"' if len(value) <= 60 else f'"{value[:56]} …"'
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, tuple):
        return f"a list of {len(value)}"
    text = str(value)
    return text if len(text) <= 40 else text[:36] + " …"


_WANTED = {
    "string_type": "a text in quotes",
    "int_type": "a whole number without quotes",
    "float_type": "a number without quotes",
    "bool_type": "true or false, without quotes",
    "is_instance_of": "an amount of money without quotes",
    "tuple_type": "a list in [ ]",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "mapping_type": "a table of ids with how many",
    "finite_number": "an ordinary number",
    "decimal_max_digits": "an amount of at most 12 digits",
    "decimal_whole_digits": "an amount of at most 10 digits before the point",
    "decimal_max_places": "an amount with at most two decimals",
}


def _wrong_value(spot: Spot, detail: ErrorDetails) -> Problem:
    kind, ctx = detail["type"], detail.get("ctx", {})
    found = shown(spot.value)
    key = str(spot.path[-1]) if spot.path and isinstance(spot.path[-1], str) else None
    example = f"For example {sample(spot.table, key)}" if spot.table and key in keys_of(spot.table) else ""
    if kind == "quantity":
        tail = f'{key} = "{ctx["example"]}"' if key else f'"{ctx["example"]}"'
        return spot.problem(ctx["said"], f"{ctx['hint']} For example {tail}".strip())
    if kind in {"union_tag_invalid", "union_tag_not_found"}:
        kinds = [k.strip("' ") for k in str(ctx.get("expected_tags", "")).split(",") if k] or _facet_kinds(spot)
        meant = near(str(ctx.get("tag", "")), kinds)
        guess = f'Did you mean "{meant}"? ' if meant else ""
        said = f'"{str(ctx["tag"])[:60]}" is no kind of facet.' if "tag" in ctx else "This facet has no kind."
        spot.path = (*spot.path, "kind")
        return spot.problem(said, f"{guess}Kinds: {listed(kinds)}.")
    if kind == "literal_error":
        choices = str(ctx["expected"]).replace("'", '"').replace(" or ", ", ")
        meant = near(str(spot.value), [c.strip(' "') for c in choices.split(",")])
        guess = f'Did you mean "{meant}"? ' if meant else ""
        return spot.problem(f"{found} is none of the choices.", f"{guess}Choices: {choices}.")
    if kind in {"greater_than", "greater_than_equal", "less_than", "less_than_equal"}:
        return _out_of_range(spot, found, key)
    if kind == "string_pattern_mismatch":
        return spot.problem(f"{found} has another form than wanted.", _form(str(ctx["pattern"])))
    if kind in {"string_too_long", "too_long"}:
        most = ctx.get("max_length")
        what = "characters" if kind == "string_too_long" else "entries"
        return spot.problem(f"{found} has too many {what}.", f"At most {most} {what} fit here.")
    if kind in {"string_too_short", "too_short"}:
        said = "This text is empty." if kind == "string_too_short" else "This list is too short."
        least = f"At least {ctx.get('min_length', 1)} wanted. " if kind == "too_short" else ""
        return spot.problem(said, f"{least}{example}")
    if kind == "value_error":
        said = str(ctx.get("error", detail["msg"]))
        return spot.problem(said[:1].upper() + said[1:] + ".")
    wanted = _WANTED.get(kind)
    if wanted:
        return spot.problem(f"{found} is not {wanted}.", example)
    return spot.problem(f"{found}: {detail['msg'].replace('Input should', 'this should')}.", example)


def _facet_kinds(spot: Spot) -> list[str]:
    field = spot.field
    return [k for m in models_in(field.annotation) if (k := kind_of(m))] if field else []


def _form(pattern: str) -> str:
    if pattern == r"^[A-Z]{3}$":
        return 'Write the three-letter code of the currency, for example "EUR".'
    return 'An id is made of lower-case letters, digits and single hyphens, for example "roof-fan-40".'


def _out_of_range(spot: Spot, found: str, key: str | None) -> Problem:
    quantity = quantity_of(spot.field) if spot.field else None
    unit = quantity.unit if quantity else ""
    if quantity and isinstance(spot.value, str):
        try:
            si = read_text(spot.value, unit)
            if in_unit(si, unit) not in found:
                found = f"{found} ({in_unit(si, unit)})"
        except UnreadableError:  # the range was judged, so it was read before
            pass
    limits = []
    for part in spot.field.metadata if spot.field else []:
        for name, words in (("gt", "more than"), ("ge", "at least"), ("lt", "less than"), ("le", "at most")):
            if getattr(part, name, None) is not None:
                limits.append(f"{words} {in_unit(getattr(part, name), unit)}")
    about = spot.field.description if spot.field and spot.field.description else key or "this"
    said = f"{found} is outside what is believable here."
    return spot.problem(said, f"Wanted ({about}): {' and '.join(limits)}." if limits else "")


def in_unit(value: Any, unit: str) -> str:
    """An SI value in words a person would write; shares in percent."""
    if unit in {"1", "1/K"}:
        return f"{float(value) * 100:.6g} %{unit[1:]}"
    return f"{float(value):.6g} {'days' if unit == 'day' and value != 1 else unit}".strip()
