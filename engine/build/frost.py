"""Tanks outside the warm shell on the trip's cold nights: hours to freeze, and the heat that holds them."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.habits import coldest_degc, month_means
from engine.build.model import Build
from engine.build.water import COLD_DEGC
from engine.catalogue.facets import BlackTank, FreshTank, GreyTank, OutsidePipe
from engine.physics.freezing import (
    BARE_TANK_W_M2K,
    WINDY_TANK_W_M2K,
    Frost,
    after_night,
    frost,
    pipe_l,
    pipe_loss_w_k,
    tank_loss_w_k,
)

NIGHT_H = 8.0
"""How long the coldest hours of a night last, where days are above freezing (assumption)."""

SPELL_H = 72.0
"""How long it stays cold in a month whose mean is below freezing (assumption)."""

SHAPE_COUNT = 6.8
"""Surface of a tank over its volume to the power of two thirds: a flat box (a cube has 6)."""

CALM_W_M2K = 5.0
"""Film of a tank that stands sheltered (common practice)."""


class ColdTank(NamedTuple):
    """A tank outside the warm shell, full, its water at the temperature of the trip's cold water."""

    option_id: str
    name: str
    drinking: bool
    volume_l: float
    insulated: bool
    heated: bool
    heater_w: float | None
    """What its own heater gives; None when it has none, or nobody says."""
    hold_w: float
    hold_low_w: float
    hold_high_w: float
    """Heat that keeps it liquid on the coldest night, with the film's band."""
    night_degc: float
    cold_degc: float
    """What it stands in: the coldest night, or the mean of a month that stays below freezing."""
    cold_h: float
    """How long."""
    freezes_h: float
    """Hours until its first ice in that."""
    windy_ice_frac: float
    """Ice after that time, in wind."""


class ColdPipe(NamedTuple):
    """A pipe outside the warm shell, full, on the coldest night."""

    option_id: str
    name: str
    stated: bool
    """False: a plain pipe as it leaves a tank out there, of which nothing is stated."""
    heated: bool
    length_m: float
    insulation_m: float
    night_degc: float
    freezes_h: float
    solid_h: float
    hold_w: float


class _Cold(NamedTuple):
    cold_degc: float
    cold_h: float
    freezes_h: float
    windy_ice_frac: float
    hold_w: float
    hold_low_w: float
    hold_high_w: float


@lru_cache(maxsize=1024)
def _cold(volume_l: float, insulation_m: float, night_degc: float, mean_degc: float) -> _Cold:
    surface = SHAPE_COUNT * (volume_l / 1000) ** (2 / 3)
    low, loss, high = (
        tank_loss_w_k(surface, insulation_m, film_w_m2k=film)
        for film in (CALM_W_M2K, BARE_TANK_W_M2K, WINDY_TANK_W_M2K)
    )
    cold_degc, cold_h = night_degc, NIGHT_H
    freezes = frost(volume_l, COLD_DEGC, loss, night_degc).freezes_h
    if freezes >= NIGHT_H and mean_degc < 0:
        # One night does it no harm; days on end may.
        cold_degc, cold_h = mean_degc, SPELL_H
        freezes = frost(volume_l, COLD_DEGC, loss, mean_degc).freezes_h
    ice = after_night(volume_l, COLD_DEGC, high, cold_degc, cold_h).ice_frac
    return _Cold(cold_degc, cold_h, freezes, ice, loss * -night_degc, low * -night_degc, high * -night_degc)


def cold_tanks(build: Build) -> tuple[ColdTank, ...]:
    """Every tank outside the warm shell; none on a trip without frost."""
    night, mean = coldest_degc(build), min(month_means(build))
    if night >= 0:
        return ()
    found = []
    for kind in (FreshTank, GreyTank, BlackTank):
        for part, f in build.facets(kind):
            if f.position != "outside":
                continue
            cold = _cold(f.volume_l, f.insulation_m or 0.0, night, mean)
            found.append(
                ColdTank(
                    part.option.id, part.option.name, kind is FreshTank, f.volume_l, f.insulation_m is not None,
                    f.heated or f.frost_heater_w is not None, f.frost_heater_w, cold.hold_w, cold.hold_low_w,
                    cold.hold_high_w, night, cold.cold_degc,
                    cold.cold_h, cold.freezes_h, cold.windy_ice_frac,
                )
            )  # fmt: skip
    return tuple(found)


def cold_pipes(build: Build) -> tuple[ColdPipe, ...]:
    """Every stated pipe outside; where none is, one metre of plain pipe for the first tank out there. None without
    frost."""
    night = coldest_degc(build)
    if night >= 0:
        return ()
    pipes = [(p.option.id, p.option.name, True, f) for p, f in build.facets(OutsidePipe)]
    if not pipes:
        outside = [(p, f) for kind in (FreshTank, GreyTank) for p, f in build.facets(kind) if f.position == "outside"]
        tanks = [p for p, f in outside if not f.heated and f.frost_heater_w is None]
        plain = OutsidePipe(kind="outside-pipe", length_m=1.0)
        pipes = [(p.option.id, p.option.name, False, plain) for p in tanks[:1]]
    found = []
    for option_id, name, stated, f in pipes:
        cold = _pipe(f.length_m, f.bore_m, max(f.bore_m, f.outer_m), f.insulation_m, night)
        found.append(ColdPipe(option_id, name, stated, f.heated, f.length_m, f.insulation_m, night, *cold))
    return tuple(found)


@lru_cache(maxsize=256)
def _pipe(length_m: float, bore_m: float, outer_m: float, insulation_m: float, night_degc: float) -> Frost:
    loss = pipe_loss_w_k(length_m, outer_m, insulation_m)
    return frost(pipe_l(length_m, bore_m), COLD_DEGC, loss, night_degc)
