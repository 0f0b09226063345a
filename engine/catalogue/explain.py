"""From what pydantic found to what an author can act on."""

from __future__ import annotations

import re
from typing import get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from engine.catalogue.folder import Page
from engine.catalogue.measures import read_text
from engine.catalogue.positions import Path
from engine.catalogue.problems import Problem
from engine.catalogue.shapes import (
    BOUNDS,
    bounds_of,
    keys_of,
    kind_of,
    models_in,
    quantity_of,
    sample,
    text_example,
    without_unit,
)
from engine.catalogue.spots import Spot
from engine.catalogue.wording import in_unit, listed, near, shown
from engine.spelling import begun


def explain(page: Page, model: type[BaseModel], error: ValidationError) -> list[Problem]:
    """One problem for each thing to put right on a page; an unknown key that replaces a missing one counts once."""
    details = [d for d in error.errors(include_url=False) if not _told_by_its_entries(d)]
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


def _told_by_its_entries(detail: ErrorDetails) -> bool:
    """Whether a list is called too short only because what stands in it could not be read."""
    least = detail.get("ctx", {}).get("min_length", 0)
    return detail["type"] == "too_short" and isinstance(detail["input"], tuple) and len(detail["input"]) >= least


def _near_key(key: str, table: type[BaseModel] | None, needed: list[str]) -> str | None:
    known = list(keys_of(table)) if table else []
    bare = without_unit(key)
    if bare in known:
        return bare
    return near(key, needed, 0.7) or near(key, known)


def _unknown_key(spot: Spot, key: str, meant: str | None) -> Problem:
    known = keys_of(spot.table) if spot.table else {}
    if key not in known and (elsewhere := _belongs(spot, key)):
        return spot.problem("This key is not known here.", elsewhere)
    if meant and spot.table:
        return spot.problem("This key is not known.", f"Did you mean {meant}? For example {spot.sample(meant)}")
    return spot.problem("This key is not known.", f"Keys here: {listed(known)}.")


def _belongs(spot: Spot, key: str) -> str:
    """Where this very key is known: in a table round it, which a heading in [ ] has ended, or in one further in."""
    if any(key in keys_of(table) for table in spot.around):
        return "It belongs to the table round this one: write it above the headings in [ ] that end that table."
    known = keys_of(spot.table) if spot.table else {}
    inside = [
        (name, model, "[[{}]]" if get_origin(field.annotation) is tuple else "[{}]")
        for name, field in known.items()
        for model in models_in(field.annotation)
        if key in keys_of(model)
    ]
    if len(inside) != 1:
        return ""
    name, model, heads = inside[0]
    heading = f"{spot.heading(key)}.{name}".lstrip(".")
    return f"It belongs under {heads.format(heading)}: {sample(model, key, heading)}"


def _missing(spot: Spot) -> Problem:
    if spot.table is None or spot.missing is None or spot.field is None:
        return spot.problem("Something is missing here.", key=spot.missing)
    about = f" ({spot.field.description})" if spot.field.description else ""
    return spot.problem(f"This is missing{about}.", f"Write for example {spot.sample(spot.missing)}", key=spot.missing)


_SLUG = 'An id is made of lower-case letters, digits and single hyphens, for example "roof-fan-40".'

_KEY = "[key]"
"""How pydantic marks that a key itself is meant and not what stands under it."""

_WANTED = {
    "string_type": "a text in quotes",
    "int_type": "a whole number without quotes",
    "float_type": "a number without quotes",
    "bool_type": "true or false, without quotes",
    "is_instance_of": "an amount of money without quotes",
    "tuple_type": "a list in [ ]",
    "model_type": "a table",
    "model_attributes_type": "a table",
    "dict_type": "a table of ids with how many",
    "finite_number": "an ordinary number",
    "decimal_max_digits": "an amount of at most 12 digits",
    "decimal_whole_digits": "an amount of at most 10 digits before the point",
    "decimal_max_places": "an amount with at most two decimals",
}


def _wrong_value(spot: Spot, detail: ErrorDetails) -> Problem:
    kind, ctx = detail["type"], detail.get("ctx", {})
    found = re.sub("^a ", "A ", shown(detail["input"] if detail["loc"][-1:] == (_KEY,) else spot.value))
    # What lies in a list or in a table of ids has no key of its own.
    known = keys_of(spot.table) if spot.table else {}
    key = next((step for step in reversed(spot.path) if isinstance(step, str) and step in known), None)
    example = f"For example {spot.sample(key)}" if key else ""
    if kind == "quantity":
        return spot.problem(ctx["said"], f"{ctx['hint']} {example}".strip())
    if kind in {"union_tag_invalid", "union_tag_not_found"}:
        kinds = [k.strip("' ") for k in str(ctx.get("expected_tags", "")).split(",") if k] or _facet_kinds(spot)
        meant = near(str(ctx.get("tag", "")), kinds)
        guess = f'Did you mean "{meant}"? ' if meant else ""
        said = f'"{str(ctx["tag"])[:60]}" is no kind of facet.' if "tag" in ctx else "This facet has no kind."
        spot.path = (*spot.path, "kind")
        return spot.problem(said, f"{guess}Kinds: {listed(kinds, 80)}.")
    if kind == "literal_error":
        choices = str(ctx["expected"]).replace("'", '"').replace(" or ", ", ")
        meant = near(str(spot.value), [c.strip(' "') for c in choices.split(",")])
        guess = f'Did you mean "{meant}"? ' if meant else ""
        return spot.problem(f"{found} is none of the choices.", f"{guess}Choices: {choices}.")
    if kind in {"greater_than", "greater_than_equal", "less_than", "less_than_equal"}:
        return _out_of_range(spot, detail, key)
    if kind == "string_pattern_mismatch":
        form = f"Wanted: {spot.field.description}. {example}" if spot.field and text_example(spot.field) else _SLUG
        return spot.problem(f"{found} has another form than wanted.", form)
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
        return spot.problem(begun(said) + ".")
    wanted = _WANTED.get(kind)
    if wanted:
        return spot.problem(f"{found} is not {wanted}.", example)
    return spot.problem(f"{found}: {detail['msg'].replace('Input should', 'this should')}.", example)


def _facet_kinds(spot: Spot) -> list[str]:
    field = spot.field
    return [k for m in models_in(field.annotation) if (k := kind_of(m))] if field else []


def _out_of_range(spot: Spot, detail: ErrorDetails, key: str | None) -> Problem:
    found = shown(spot.value)
    quantity = quantity_of(spot.field) if spot.field else None
    unit = quantity.unit if quantity else ""
    if quantity and isinstance(spot.value, str):
        ours = in_unit(read_text(spot.value, unit), unit)
        if ours not in found:
            found = f"{found} ({ours})"
    bounds = bounds_of(spot.field) if spot.field else {}
    bounds = bounds or {k: v for k, v in detail.get("ctx", {}).items() if k in BOUNDS}
    limits = [f"{BOUNDS[name]} {in_unit(value, unit)}" for name, value in bounds.items()]
    about = spot.field.description if spot.field and spot.field.description else key or "here"
    way = "too small" if detail["type"].startswith("greater") else "too large"
    return spot.problem(f"{found} is {way}.", f"Wanted ({about}): {' and '.join(limits)}.")
