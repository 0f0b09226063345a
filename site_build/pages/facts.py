"""The technical sides of an option in words: every field of its facets with its value in the reader's units."""

from __future__ import annotations

from collections.abc import Iterator

from engine.catalogue.facets import Facet
from engine.catalogue.quantities import Quantity, suffix_of
from engine.units import METRIC, System, show


def facet_lines(facet: Facet, system: System) -> Iterator[tuple[str, str]]:
    """Pairs of meaning and value. Values that are lists of their own (spots on a roof) are left out."""
    for name, field in type(facet).model_fields.items():
        value = getattr(facet, name)
        if name == "kind" or value is None or isinstance(value, tuple):
            continue
        unit = next((m.shown for m in field.metadata if isinstance(m, Quantity)), None)
        if unit == "heat_w" and getattr(facet, "fuel", None) in ("mains", "battery"):
            unit = "w"  # its plate says watts
        yield field.description or name.replace("_", " "), value_text(name, value, system, unit)


def value_text(name: str, value: object, system: System, unit: str | None = None) -> str:
    """One value; the unit is at the end of the field's name, where it is not given."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    unit = unit or (suffix_of(name) or "").removeprefix("_")
    if isinstance(value, (int, float)) and unit in METRIC:
        fine = 2 if unit in ("m", "frac") and abs(value) < 0.05 else 0
        return show(float(value), unit, system, fine)
    if isinstance(value, float):
        return f"{value:.4g}" + (f" {_plain(unit)}" if unit else "")
    return str(value)


def _plain(unit: str) -> str:
    return {"frac_k": "per kelvin", "ohm": "Ω", "s": "s", "l_min": "L/min"}.get(unit, unit.replace("_", "/"))


def kind_text(facet: Facet) -> str:
    """The kind of a facet as a heading."""
    kind: str = getattr(facet, "kind", "")
    return kind.replace("-", " ").capitalize()
