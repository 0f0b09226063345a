"""Names tell units, fields tell meanings: walked over everything the engine declares."""

import dataclasses
import inspect
import typing
from collections.abc import Iterator
from importlib import import_module
from pkgutil import iter_modules, walk_packages
from types import ModuleType
from typing import Any

import pytest
from pydantic import BaseModel

import engine
import engine.physics
import engine.rules
from engine.catalogue.facets import Facet
from engine.catalogue.quantities import SUFFIXES, suffix_of
from engine.rule import Inputs
from engine.units import METRIC

COMPOUNDS = {
    "_wh_d", "_w_k", "_kg_d", "_l_d", "_m2k_w", "_kwh_kg", "_kwh_l", "_kg_l", "_wh_m3k", "_kgm", "_m3", "_ohm",
    "_kg2", "_kg2m", "_kg2m2", "_sigmas2",
}  # fmt: skip
"""Units that occur between parts of the engine and in no shop file, so SUFFIXES does not have them."""

UNIT_WORDS = {
    "days": "counts days in words",
    "minutes": "counts minutes in words",
    "per_day": "a number of times a day",
    "per_hour": "a number of times an hour",
    "per_fill": "person-days for each emptying, as makers state it",
    "multiple": "a ratio of two currents, above 1 and so no fraction",
    "count": "a number of things; the tables of units know it",
    "sigmas": "standard deviations of what was first believed",
    "cg": "a point, each part of it in metres",
}
"""Endings that say a unit without being a suffix, with the reason."""

UNIT_TRAVELS_ALONG = {
    "engine.rule.AtMost": "has a field for the unit",
    "engine.rule.AtLeast": "has a field for the unit",
    "engine.rule.Fact": "has a field for the unit",
    "engine.rule.Finding": "has a field for the unit",
    "engine.units.Shown": "says how units are converted",
    "engine.sheets.trip_fields.TripField": "says how one field of the form is converted",
    "engine.physics.ranges.within": "serves every unit",
    "engine.physics.load_cases.Measure": "says what a kilogram counts by its place",
    "engine.sheets.charts.scale.Scale": "an axis may be in any unit",
    "engine.sheets.charts.scale.Energy": "says how energy is converted",
    "engine.build.supplies.Level": "litres of water or kilograms of gas",
    "engine.sheets.charts.share.Part": "shares of whatever is shared",
}
"""Things whose numbers may be in any unit, with the reason."""

AUTHOR_OR_PAPER = ("engine.sheets.drawings",)
"""Drawings count in units of paper, not of the vehicle."""


def _modules(package: ModuleType = engine) -> Iterator[ModuleType]:
    for found in walk_packages(package.__path__, package.__name__ + "."):
        yield import_module(found.name)


def _has_float(hint: Any) -> bool:
    return hint is float or any(_has_float(part) for part in typing.get_args(hint))


def _records() -> Iterator[tuple[type, dict[str, Any]]]:
    """Every pydantic model, dataclass and named tuple of the engine, with the types of its fields."""
    for module in _modules():
        if module.__name__.startswith(AUTHOR_OR_PAPER):
            continue
        for thing in vars(module).values():
            if not isinstance(thing, type) or thing.__module__ != module.__name__:
                continue
            if issubclass(thing, BaseModel):
                yield thing, {name: field.annotation for name, field in thing.model_fields.items()}
            elif dataclasses.is_dataclass(thing) or (issubclass(thing, tuple) and hasattr(thing, "_fields")):
                yield thing, typing.get_type_hints(thing)


def _formulas() -> Iterator[tuple[str, Any]]:
    for module in _modules(engine.physics):
        for name, function in vars(module).items():
            public = inspect.isfunction(function) and not name.startswith("_")
            if public and function.__module__ == module.__name__:
                yield f"{module.__name__}.{name}", function


RECORDS = [(f"{c.__module__}.{c.__name__}", c, hints) for c, hints in _records()]


def says_its_unit(name: str) -> bool:
    return bool(
        suffix_of(name)
        or any(name.endswith(end) for end in COMPOUNDS)
        or any(name == word or name.endswith("_" + word) for word in UNIT_WORDS)
    )


def test_there_is_something_to_walk():
    assert len(RECORDS) > 80
    assert sum(_has_float(h) for _, _, hints in RECORDS for h in hints.values()) > 200
    assert len(list(_formulas())) >= 10


def test_every_number_with_a_fraction_says_its_unit():
    silent = [
        f"{where}.{name}"
        for where, _, hints in RECORDS
        if where not in UNIT_TRAVELS_ALONG
        for name, hint in hints.items()
        if _has_float(hint) and not says_its_unit(name)
    ]
    assert silent == []


def test_every_argument_of_a_formula_says_its_unit():
    silent = [
        f"{where}({name})"
        for where, function in _formulas()
        if where not in UNIT_TRAVELS_ALONG
        for name, hint in typing.get_type_hints(function).items()
        if name != "return" and _has_float(hint) and not says_its_unit(name)
    ]
    assert silent == []


def test_a_formula_that_gives_a_number_says_its_unit():
    silent = [
        where
        for where, function in _formulas()
        if where not in UNIT_TRAVELS_ALONG
        and typing.get_type_hints(function).get("return") is float
        and not says_its_unit(where)
    ]
    assert silent == []


def test_the_list_of_exceptions_has_nothing_in_it_that_is_gone():
    known = {where for where, _, _ in RECORDS} | {where for where, _ in _formulas()}
    assert set(UNIT_TRAVELS_ALONG) - known == set()
    names = {name for _, _, hints in RECORDS for name in hints}
    unused = [w for w in UNIT_WORDS if not any(n == w or n.endswith("_" + w) for n in names)]
    assert unused == []


def test_every_suffix_is_found_as_itself_and_not_as_the_end_of_a_longer_one():
    assert [s for s in SUFFIXES if suffix_of("x" + s) != s] == []


@pytest.mark.parametrize("model", [c for _, c, _ in RECORDS if issubclass(c, BaseModel)], ids=lambda c: c.__name__)
def test_every_field_of_a_model_has_a_description(model):
    without = [
        name
        for name, field in model.model_fields.items()
        # The kind of a facet tells facets apart; what it means is the docstring of its class.
        if not field.description and not (issubclass(model, Facet) and name == "kind")
    ]
    assert without == []
    assert (model.__doc__ or "").strip() or model.__name__.startswith("_")


def _rule_inputs() -> list[type[Inputs]]:
    modules = [import_module(f"engine.rules.{m.name}") for m in iter_modules(engine.rules.__path__)]
    return [m.RULE.inputs for m in modules]


@pytest.mark.parametrize("model", _rule_inputs(), ids=lambda c: c.__module__.rsplit(".", 1)[-1])
def test_what_a_rule_compares_can_be_shown(model):
    # A sentence shows an input by the suffix of its name: the table of units must have that unit, and the suffix must
    # be the whole unit (a name that ends in _wh_d would be shown in days).
    for name, field in model.model_fields.items():
        if _has_float(field.annotation):
            assert not name.endswith(tuple(COMPOUNDS)), name
            suffix = suffix_of(name)
            assert suffix is None or suffix[1:] in METRIC, name
