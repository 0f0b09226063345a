"""Worked examples' figures follow from the inputs that stand beside them, by the formula of their page."""

from math import log, pi
from typing import Any

import pytest

from engine.rule import Example
from engine.rules import all_rules

RULES = {r.code: r for r in all_rules()}
WATER_WH_KGK = 1.163
FUSION_WH_KG = 334 / 3.6


def each(*codes: str) -> Any:
    """Examples of these rules, as validated inputs."""
    examples: list[tuple[str, Example]] = [(code, e) for code in codes for e in RULES[code].examples]
    inputs = [(RULES[c].inputs.model_validate(dict(e.inputs)), f"{c}: {e.note}") for c, e in examples]
    return pytest.mark.parametrize("x", [pytest.param(x, id=name) for x, name in inputs])


def is_near(value: float) -> Any:
    return pytest.approx(value, rel=0.005, abs=1e-9)


def is_near_each(*values: float) -> Any:
    return pytest.approx(values, rel=0.005, abs=1e-9)


def first_ice_h(water_kg: float, loss_w_k: float, out_degc: float) -> float:
    return water_kg * WATER_WH_KGK / loss_w_k * log((10 - out_degc) / (0 - out_degc))


@each("pipe-freezes")
def test_pipes_freeze_by_their_own_size_and_lagging(x: Any) -> None:
    outer, lagged = x.outer_thick_m, x.outer_thick_m + 2 * x.lagging_thick_m
    loss = x.length_run_m / (log(lagged / outer) / (2 * pi * 0.035) + 1 / (pi * lagged * 8))
    kg = x.length_run_m * pi / 4 * x.bore_thick_m**2 * 1000
    assert x.freezes_h == is_near(first_ice_h(kg, loss, x.night_degc))
    assert x.hold_w == is_near(loss * -x.night_degc)
    assert x.solid_h == is_near(x.freezes_h + kg * FUSION_WH_KG / x.hold_w)


@each("tank-freezes")
def test_tanks_freeze_by_their_own_size(x: Any) -> None:
    assert x.tank_l == x.volume_l  # of a full one the whole surface counts
    surface = 6.8 * (x.volume_l / 1000) ** (2 / 3)
    low, usual, high = (
        surface / (1 / film + x.insulation_thick_m / 0.035) for film in ((5, 8, 20) if x.outside else (4, 5, 8))
    )
    assert x.freezes_h == is_near(first_ice_h(x.tank_l, usual, x.cold_degc))
    held = (x.hold_low_w, x.hold_w, x.hold_high_w)
    assert held == is_near_each(*(loss * -x.night_degc for loss in (low, usual, high)))
    assert x.day_wh == is_near(24 * x.hold_w)


@each("tank-heater")
def test_tanks_are_held_by_their_own_size_and_insulation(x: Any) -> None:
    surface = 6.8 * (x.volume_l / 1000) ** (2 / 3)
    losses = (surface / (1 / film + x.insulation_thick_m / 0.035) for film in (5, 8, 20))
    assert (x.hold_low_w, x.hold_w, x.hold_high_w) == is_near_each(*(loss * -x.night_degc for loss in losses))


def test_a_tank_of_thirty_gallons_shows_ice_after_thirteen_hours_at_25_f() -> None:
    mild = RULES["tank-freezes"].inputs.model_validate(dict(RULES["tank-freezes"].examples[0].inputs))
    assert (mild.cold_degc, mild.tank_l) == (-4, 113.6)  # type: ignore[attr-defined]
    assert mild.freezes_h == pytest.approx(13.0, abs=0.05)  # type: ignore[attr-defined]
