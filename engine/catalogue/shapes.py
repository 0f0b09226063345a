"""Questions about the models themselves: which keys a table may have, what a value of a key looks like."""

from __future__ import annotations

import math
import types
from collections.abc import Mapping
from decimal import Decimal
from typing import Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from engine.catalogue.measures import read_text
from engine.catalogue.quantities import Quantity, suffix_of
from engine.catalogue.wording import in_unit


def keys_of(model: type[BaseModel]) -> dict[str, FieldInfo]:
    """The keys an author may write in a table of this model."""
    return {field.alias or name: field for name, field in model.model_fields.items()}


def members(annotation: Any) -> list[Any]:
    """The types a value may have: unions opened, Annotated, tuples and None taken off."""
    origin = get_origin(annotation)
    if hasattr(annotation, "__metadata__"):
        return members(annotation.__origin__)
    if origin in (Union, types.UnionType):
        return [m for a in get_args(annotation) for m in members(a)]
    if origin is tuple:
        return members(get_args(annotation)[0])
    return [] if annotation in (None, type(None), Ellipsis) else [annotation]


def models_in(annotation: Any) -> list[type[BaseModel]]:
    """The models a value, or an item of a list value, may be."""
    return [m for m in members(annotation) if isinstance(m, type) and issubclass(m, BaseModel)]


def kind_of(model: type[BaseModel]) -> str | None:
    """The ``kind`` that tells a facet apart, or None for other models."""
    field = model.model_fields.get("kind")
    return get_args(field.annotation)[0] if field and get_origin(field.annotation) is Literal else None


def quantity_of(field: FieldInfo) -> Quantity | None:
    """The unit and example of a field that is a quantity."""
    return _quantity([*field.metadata, field.annotation])


def _quantity(parts: list[Any]) -> Quantity | None:
    for part in parts:
        if isinstance(part, Quantity):
            return part
        inside = [*getattr(part, "__metadata__", ()), *get_args(part)]
        if get_origin(part) is not tuple and inside and (found := _quantity(inside)):
            return found
    return None


def text_example(field: FieldInfo) -> str:
    """What a text of a certain form looks like, as its type says; "" for other fields."""
    parts: list[Any] = [field, field.annotation]
    while parts:
        part = parts.pop()
        if isinstance(part, FieldInfo) and part.examples:
            return str(part.examples[0])
        parts += [*getattr(part, "__metadata__", ()), *get_args(part)]
    return ""


BOUNDS = {"gt": "more than", "ge": "at least", "lt": "less than", "le": "at most"}


def bounds_of(field: FieldInfo) -> dict[str, float]:
    """The limits of a field by name, as {"gt": 0.2, "le": 2.6}."""
    found = {(name, getattr(part, name, None)) for part in field.metadata for name in BOUNDS}
    return {name: value for name in BOUNDS for n, value in found if n == name and value is not None}


def example_of(field: FieldInfo, quantity: Quantity) -> str:
    """A text for a quantity that this very field would take: the unit's usual example when it lies in range."""
    bounds = bounds_of(field)
    low = bounds.get("gt", bounds.get("ge"))
    high = bounds.get("lt", bounds.get("le"))
    usual = read_text(quantity.example, quantity.unit)
    if (low is None or low < usual) and (high is None or usual < high):
        return quantity.example
    if low is None or high is None:
        value = low if low is not None else high
    else:
        value = math.sqrt(low * high) if low > 0 else (low + high) / 2
    return in_unit(float(f"{value:.2g}"), quantity.unit)


def sample(model: type[BaseModel], key: str, table: str = "") -> str:
    """A line an author could write for a key, as ``mass = "27 kg"``; ``table`` is the table it lies in."""
    field = keys_of(model)[key]
    annotation = field.annotation
    item = _item(annotation)
    inner = members(annotation)
    header = f"{table}.{key}".lstrip(".")
    if inside := models_in(annotation):
        if item and len(inside) == 1 and (short := _short_table(inside[0])):
            return f"{key} = [{short}]"
        if item:
            kind = kind_of(inside[0])
            return f"[[{header}]] with " + (f'kind = "{kind}" and its other keys' if kind else "its keys") + " below it"
        return f"[{header}] with its keys below it"
    first = inner[0] if inner else str
    if shown := text_example(field):
        value = f'"{shown}"'
    elif quantity := _quantity([item]) if item else quantity_of(field):
        value = f'"{quantity.example if item else example_of(field, quantity)}"'
    elif get_origin(first) is Literal:
        value = f'"{get_args(first)[0]}"'
    elif first is bool:
        value = "true"
    elif first is Decimal:
        value = "120.00"
    elif first is int:
        value = "2"
    elif first is float:
        value = "1.5"
    elif get_origin(first) in (Mapping, dict):
        return f'{key} = {{ "some-id" = 1 }}'
    else:
        value = _TEXTS.get(key, '"a few words"')
    if item:
        return f"{key} = [{', '.join([value] * max(1, min(_least(field), 2)))}]"
    return f"{key} = {value}"


def _least(field: FieldInfo) -> int:
    """How many entries a list must have."""
    return max((getattr(part, "min_length", None) or 0 for part in field.metadata), default=0)


def _short_table(model: type[BaseModel]) -> str:
    """A table of a few texts, all of them needed, as it stands on one line; "" for any other."""
    keys = keys_of(model)
    if len(keys) > 2 or any(not f.is_required() or quantity_of(f) or models_in(f.annotation) for f in keys.values()):
        return ""
    return "{ " + ", ".join(sample(model, key) for key in keys) + " }"


def _item(annotation: Any) -> Any:
    """The type of a list's entries, or None for what is no list."""
    kinds = get_args(annotation) if get_origin(annotation) in (Union, types.UnionType) else (annotation,)
    return next((get_args(kind)[0] for kind in kinds if get_origin(kind) is tuple), None)


_TEXTS = {
    "id": '"lower-case-words"',
    "option": '"id-of-an-option"',
    "options": '"id-of-an-option"',
    "opened_by": '"id-of-an-option"',
    "closing_option": '"id-of-an-option"',
    "place": '"denver"',
    "vehicle": '"id-of-a-vehicle"',
    "fits": '"id-of-a-vehicle"',
    "start": '"id-of-a-ready-build"',
}


def without_unit(key: str) -> str | None:
    """The key without a unit that an author put at its end (``mass_kg``), or None."""
    suffix = suffix_of(key)
    return key.removesuffix(suffix) if suffix else None
