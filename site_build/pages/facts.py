"""The technical sides of an option in words: what the shop's file states of its facets, in the reader's units."""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from pydantic import BaseModel
from pydantic.fields import FieldInfo

from engine.catalogue.facets import Alarm, Facet
from engine.catalogue.facets.standing import FreeSpace, Night
from engine.catalogue.quantities import Quantity, suffix_of
from engine.spelling import in_a_row, spelled
from engine.units import System
from site_build.pages.amounts import AS_GIVEN, AS_STATED, amount, vapour_layer
from site_build.pages.labels import KINDS, field_label, word

DRAWN = frozenset(("spots",))
"""Fields that only a drawing can show."""

NONE_OF = frozenset(("h", "l", "w", "heat_w"))
"""Units of which nothing is said in a word: time, water, power and heat."""

_ELECTRIC = frozenset(("mains", "battery"))


def facet_lines(facet: Facet, system: System) -> Iterator[tuple[str, str]]:
    """Pairs of meaning and value of the fields that the shop's file states. What the checks assume where a file says
    nothing is no fact about the thing on sale, and is left out."""
    kind: str = getattr(facet, "kind", "")
    for name, field in type(facet).model_fields.items():
        value = getattr(facet, name)
        if name not in facet.model_fields_set or name == "kind" or name in DRAWN or value is None or value == ():
            continue
        if name == "detects":
            yield from ((spelled(meaning, system), said) for meaning, said in _alarm(value))
            continue
        label = spelled(field_label(kind, name, field.description), system)
        yield label, spelled(_said(facet, name, value, system), system)


def value_text(name: str, value: object, system: System) -> str:
    """One value of an example, as closely as a sum can be made from it; the unit is at the end of the field's name."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    suffix = suffix_of(name)
    if isinstance(value, (int, float)) and suffix:
        return amount(value, suffix[1:], system, AS_GIVEN)
    return f"{value:.4g}" if isinstance(value, float) else str(value)


def kind_text(facet: Facet) -> str:
    """The kind of a facet as a heading."""
    kind: str = getattr(facet, "kind", "")
    if isinstance(facet, Alarm) and set(facet.detects) == {"fire-extinguisher"}:
        return "Safety equipment"
    return KINDS.get(kind) or kind.replace("-", " ").capitalize()


def _alarm(detects: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    warns = [word("detects", d) for d in detects if d != "fire-extinguisher"]
    if warns:
        yield field_label("alarm", "detects", None), in_a_row(warns)
    if "fire-extinguisher" in detects:
        yield "kind", "fire extinguisher"


def _said(facet: BaseModel, name: str, value: object, system: System) -> str:
    """A value in words; values that have values of their own one after the other."""
    if name == "vapour_layer_m" and isinstance(value, float):
        return vapour_layer(value, system)
    if name == "vapour_multiple" and isinstance(value, float):
        return f"{value:,g} times"
    if isinstance(value, Night):
        return ", ".join(_parts(value, system))
    if isinstance(value, tuple):
        return in_a_row([_item(facet, name, v, system) for v in value])
    if isinstance(value, bool):
        return "yes" if value else "no"
    unit = _unit(facet, name)
    if isinstance(value, (int, float)) and unit:
        return "none" if value == 0 and unit in NONE_OF else amount(value, unit, system, AS_STATED)
    return f"{value:.4g}" if isinstance(value, float) else word(name, value)


def _item(facet: BaseModel, name: str, value: object, system: System) -> str:
    if isinstance(value, FreeSpace):
        return word("use", value.use)
    if isinstance(value, BaseModel):
        return " for ".join(reversed(list(_parts(value, system, named=False))))
    return _said(facet, name, value, system)


def _parts(value: BaseModel, system: System, named: bool = True) -> Iterator[str]:
    for name in type(value).model_fields:
        if name in value.model_fields_set:
            label = "underside at" if name == "base_m" else name.removesuffix(suffix_of(name) or "")
            said = _said(value, name, getattr(value, name), system)
            yield f"{label} {said}" if named else said


def _unit(facet: BaseModel, name: str) -> str:
    """The unit that the reader's table is asked for. Heat from mains or battery is told in watts, as its plate does."""
    mark = quantity_of(type(facet).model_fields[name])
    unit = mark.shown if mark else (suffix_of(name) or "")[1:]
    electric = getattr(facet, "fuel", None) in _ELECTRIC or getattr(facet, "energy", None) in _ELECTRIC
    return "w" if unit == "heat_w" and (electric or name == "frost_heater_w") else unit


def quantity_of(field: FieldInfo) -> Quantity | None:
    """What quantity a field holds, whether it may be left out or not."""
    inside = (m for part in get_args(field.annotation) for m in getattr(part, "__metadata__", ()))
    return next((m for m in (*field.metadata, *inside) if isinstance(m, Quantity)), None)
