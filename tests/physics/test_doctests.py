"""Every worked example in the docstrings of the physics holds, and every public function has one."""

import doctest
import inspect
from importlib import import_module
from pkgutil import iter_modules

import pytest

import engine.physics
from tests.reference import daily_sum

MODULES = [import_module(f"engine.physics.{m.name}") for m in iter_modules(engine.physics.__path__)] + [daily_sum]
FORMULAS = (
    "axle", "stability", "heat", "fuel", "direct_current", "strut", "payload_law",
    "metal_rib", "moist_air", "condensation", "glaser", "damp", "room_heat", "warm_up", "solar_gain",
    "cooling", "air_change", "fixed_vents", "hot_water", "freezing", "pipe_flow", "gas_vapour", "gas_supply",
    "gas_pipe", "damp_hours", "gas_rate", "taps",
)  # fmt: skip
"""Files of formulas: here each public function must show a worked number."""


@pytest.mark.parametrize("module", MODULES, ids=lambda m: m.__name__)
def test_worked_examples_hold(module):
    result = doctest.testmod(module, report=True)
    assert result.failed == 0


@pytest.mark.parametrize("name", FORMULAS)
def test_every_formula_has_a_worked_example(name):
    module = import_module(f"engine.physics.{name}")
    functions = [
        f
        for n, f in ((n, inspect.unwrap(f)) for n, f in inspect.getmembers(module, callable))
        if inspect.isfunction(f) and f.__module__ == module.__name__ and not n.startswith("_")
    ]
    assert functions
    without = [f.__name__ for f in functions if not doctest.DocTestFinder().find(f)[0].examples]
    assert without == []
    assert [f.__name__ for f in functions if "Source" not in (f.__doc__ or "")] == []
