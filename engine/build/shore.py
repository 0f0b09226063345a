"""On a hook-up: what it gives, what charger and loads ask of it, and what has to be off."""

from typing import NamedTuple

from engine.build.demand import worst_together
from engine.build.loads import Load
from engine.build.model import Build
from engine.catalogue.facets import ShoreCharger, ShoreInlet
from engine.physics.shore import SUPPLIES, Drawn, Supply, charger_left_a, charger_w, shed

USUAL_A = {"us": 30.0, "eu": 16.0, "uk": 16.0, "au": 15.0}
"""Breaker of a usual hook-up by region (common practice); pitches of 6 and 10 A a buyer or a workshop states."""

WAITS = frozenset(("heating", "showers"))
"""Habits of loads that warm a store or a room: off for an hour they are missed least (assumption)."""

HOLDS_FRAC = {"us": 1.0, "eu": 1.13, "uk": 1.13, "au": 1.13}
"""What a breaker holds over its rating: at 1.13 times it must not trip within an hour (IEC 60898-1, table 7, from
memory); those of North America are held to their rating alone."""

TWO_LEGS_FROM_A = 50.0
"""In North America a hook-up of this size has two legs."""


class ShoreFigures(NamedTuple):
    """A hook-up with everything that plausibly runs on it at once."""

    supply_v: float
    breaker_a: float
    """Of pitch and inlet the smaller one."""
    legs: int
    pitch_a: float
    inlet_a: float | None
    supply_w: float
    continuous_w: float
    """What may run for hours."""
    stated: bool
    """The trip says what the pitch gives; else the usual of the region, or the workshop's, is assumed."""
    charger_w: float
    """All chargers at full current."""
    charger_a: float
    charger_left_a: float
    """Charging current that is left beside the loads."""
    loads: tuple[Load, ...]
    loads_va: float
    off: tuple[str, ...]
    """Names of the fewest loads that must be off, the charger at rest."""
    inlet_ids: tuple[str, ...]
    charger_ids: tuple[str, ...]


def _supply(build: Build, pitch_a: float, inlet_a: float | None, inlet_legs: int) -> Supply:
    shop = build.workshop
    pitch_legs = 2 if shop.region == "us" and pitch_a >= TWO_LEGS_FROM_A else 1
    amps = pitch_a if inlet_a is None else min(pitch_a, inlet_a)
    known = SUPPLIES.get(f"{'us' if shop.region == 'us' else 'eu'}-{pitch_a:g}")
    return Supply(
        "here", shop.mains_v, amps, min(pitch_legs, inlet_legs),
        known.continuous_frac if known else (0.8 if shop.region == "us" else 1.0), "",
    )  # fmt: skip


def _off(loads: tuple[Load, ...], supply_w: float) -> tuple[str, ...]:
    """The fewest loads to switch off; only such as can wait, where that is enough."""
    drawn = tuple(Drawn(x.name, x.apparent_va, x.habit not in WAITS) for x in loads)
    found = shed(drawn, supply_w)
    if not found.enough:
        found = shed(tuple(x._replace(essential=False) for x in drawn), supply_w)
    return tuple(x.name for x in found.off)


def shore_figures(build: Build, loads: tuple[Load, ...], charge_v: float | None) -> ShoreFigures | None:
    """What a hook-up bears; None for a build that has neither inlet nor charger for one."""
    inlets, chargers = build.facets(ShoreInlet), build.facets(ShoreCharger)
    if not inlets and not chargers:
        return None
    pitch_a = build.trip.hookup_a or build.workshop.hookup_a or USUAL_A[build.workshop.region]
    inlet = max((f for _, f in inlets), key=lambda f: f.rating_a * f.legs, default=None)
    supply = _supply(build, pitch_a, inlet.rating_a if inlet else None, inlet.legs if inlet else 2)
    running = worst_together(tuple(x for x in loads if x.mains and x.in_season), build.trip.people)
    loads_va = running.running_va
    charger = sum(charger_w(f.output_a, charge_v or f.output_v, f.efficiency_frac) * p.count for p, f in chargers)
    out_a = sum(f.output_a * p.count for p, f in chargers)
    # Without a battery, chargers of several voltages may stand beside each other: their mean counts.
    out_w = sum(f.output_a * (charge_v or f.output_v) * p.count for p, f in chargers)
    left_a = 0.0
    if chargers:
        left_a = charger_left_a(supply.continuous_w, loads_va, out_a, out_w / out_a, out_w / charger)
    return ShoreFigures(
        supply_v=supply.supply_v,
        breaker_a=supply.breaker_a,
        legs=supply.legs,
        pitch_a=pitch_a,
        inlet_a=inlet.rating_a if inlet else None,
        supply_w=supply.supply_w,
        continuous_w=supply.continuous_w,
        stated=build.trip.hookup_a is not None,
        charger_w=charger,
        charger_a=out_a,
        charger_left_a=left_a,
        loads=running.running,
        loads_va=loads_va,
        off=_off(running.running, supply.supply_w) if loads_va > supply.supply_w else (),
        inlet_ids=tuple(p.option.id for p, _ in inlets),
        charger_ids=tuple(p.option.id for p, _ in chargers),
    )
