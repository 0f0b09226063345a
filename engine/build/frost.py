"""Tanks and pipes on the trip's cold nights, outside or in a room that freezes: hours to freeze, heat that holds."""

from functools import lru_cache
from math import inf
from typing import NamedTuple

from engine.build.habits import coldest_degc, month_means
from engine.build.model import Build
from engine.build.room import night_room_degc, room_degc, why_cold
from engine.build.warmth import WarmthFigures
from engine.build.water import BLACK_L, COLD_DEGC, WaterFigures
from engine.catalogue.facets import Battery, BlackTank, FreshTank, GreyTank, OutsidePipe
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

SIDES_FRAC = 0.42
"""Share of such a tank's surface that its sides make; those above the water do not count."""

CALM_W_M2K = 5.0
"""Film of a tank that stands sheltered (common practice)."""

OUTSIDE_FILMS = CALM_W_M2K, BARE_TANK_W_M2K, WINDY_TANK_W_M2K
INSIDE_FILMS = 4.0, CALM_W_M2K, BARE_TANK_W_M2K
"""Least, usual and most, in W/(m²·K)."""


class ColdTank(NamedTuple):
    """A tank in the cold, a fresh or heated one full, a waste tank with what one day brings, all at 10 °C."""

    option_id: str
    name: str
    drinking: bool
    outside: bool
    where: str
    """Of one inside, why it is cold there."""
    volume_l: float
    level_l: float
    """Water in it."""
    insulation_m: float | None
    """None where nobody says."""
    heated: bool
    heater_w: float | None
    """What its own heater gives; None when it has none, or nobody says."""
    hold_w: float
    hold_low_w: float
    hold_high_w: float
    """Heat that keeps it liquid on the coldest night, with the film's band."""
    night_degc: float
    """Where it stands, on the coldest night."""
    cold_degc: float
    """What it stands in: that, or the mean of a month that stays below freezing."""
    cold_h: float
    """How long."""
    freezes_h: float
    """Hours until its first ice in that."""
    windy_ice_frac: float
    """Ice after that time, in wind."""


class ColdPipe(NamedTuple):
    """A pipe outside the warm shell, or in a room that freezes, full, on the coldest night."""

    option_id: str
    name: str
    stated: bool
    """False: a plain pipe as it leaves a tank there, of which nothing is stated."""
    inside: bool
    """Where the room freezes: of taps there pipes are sure to be, stated or not."""
    heated: bool
    length_m: float
    bore_m: float
    outer_m: float
    insulation_m: float
    night_degc: float
    freezes_h: float
    solid_h: float
    hold_w: float


class TankCold(NamedTuple):
    """What the cold does to a tank, in the words of ``ColdTank``."""

    cold_degc: float
    cold_h: float
    freezes_h: float
    windy_ice_frac: float
    hold_w: float
    hold_low_w: float
    hold_high_w: float


@lru_cache(maxsize=1024)
def tank_in_cold(
    volume_l: float, level_l: float, insulation_m: float, night_degc: float, mean_degc: float, outside: bool
) -> TankCold:
    """A tank on the coldest night, or through a month that stays below freezing where one night does it no harm."""
    surface = SHAPE_COUNT * (volume_l / 1000) ** (2 / 3) * (1 - SIDES_FRAC * (1 - level_l / volume_l))
    low, loss, high = (
        tank_loss_w_k(surface, insulation_m, film_w_m2k=film) for film in (OUTSIDE_FILMS if outside else INSIDE_FILMS)
    )
    cold_degc, cold_h = night_degc, NIGHT_H
    freezes = frost(level_l, COLD_DEGC, loss, night_degc).freezes_h
    if freezes >= NIGHT_H and mean_degc < 0:
        # One night does it no harm; days on end may.
        cold_degc, cold_h = mean_degc, SPELL_H
        freezes = frost(level_l, COLD_DEGC, loss, mean_degc).freezes_h
    ice = after_night(level_l, COLD_DEGC, high, cold_degc, cold_h).ice_frac
    return TankCold(cold_degc, cold_h, freezes, ice, loss * -night_degc, low * -night_degc, high * -night_degc)


def cold_tanks(build: Build, warmth: WarmthFigures, water: WaterFigures) -> tuple[ColdTank, ...]:
    """Every tank outside the warm shell, and those inside where the room itself freezes; none on a trip without
    frost."""
    night, mean = coldest_degc(build), min(month_means(build))
    if night >= 0:
        return ()
    night_inside, mean_inside = night_room_degc(build, warmth), room_degc(build, warmth, mean)
    # Pads and cables take their heat from the battery.
    powered, found = bool(build.facets(Battery)), []
    black_l = sum(f.volume_l * p.count for p, f in build.facets(BlackTank))
    for kind, waste_l_d, all_l in (
        (FreshTank, inf, 1.0),
        (GreyTank, water.grey_l_d, max(1.0, water.grey_l)),
        (BlackTank, BLACK_L * build.trip.people, max(1.0, black_l)),
    ):
        for part, f in build.facets(kind):
            outside = f.position == "outside"
            heated = powered and (f.heated or f.frost_heater_w is not None)
            at_night, at_mean = (night, mean) if outside else (night_inside, mean_inside)
            if at_night >= 0 or (heated and not outside):
                continue
            level_l = f.volume_l * (1.0 if heated else min(1.0, waste_l_d / all_l))
            cold = tank_in_cold(f.volume_l, level_l, f.insulation_m or 0.0, at_night, at_mean, outside)
            found.append(
                ColdTank(
                    part.option.id, part.option.name, kind is FreshTank, outside, why_cold(warmth), f.volume_l, level_l,
                    f.insulation_m, heated, f.frost_heater_w, cold.hold_w, cold.hold_low_w,
                    cold.hold_high_w, at_night, cold.cold_degc, cold.cold_h, cold.freezes_h, cold.windy_ice_frac,
                )
            )  # fmt: skip
    return tuple(found)


def cold_pipes(build: Build, warmth: WarmthFigures) -> tuple[ColdPipe, ...]:
    """Every stated pipe outside; where none is, one metre of plain pipe for the first tank out there, and one for the
    first inside where the room itself freezes. None without frost."""
    night = coldest_degc(build)
    if night >= 0:
        return ()
    pipes = [(p.option.id, p.option.name, True, False, f, night) for p, f in build.facets(OutsidePipe)]
    tanks = [(p, f) for kind in (FreshTank, GreyTank) for p, f in build.facets(kind)]
    plain = OutsidePipe(kind="outside-pipe", length_m=1.0)
    if not pipes:
        bare = [p for p, f in tanks if f.position == "outside" and not f.heated and f.frost_heater_w is None]
        pipes = [(p.option.id, p.option.name, False, False, plain, night) for p in bare[:1]]
    room = night_room_degc(build, warmth)
    name = f"Inside, with {'too little' if warmth.output_w else 'no'} heating"
    inside = [p.option.id for p, f in tanks if f.position == "inside" and room < 0]
    pipes += [(i, name, False, True, plain, room) for i in inside[:1]]
    found, powered = [], bool(build.facets(Battery))
    for option_id, name, stated, indoors, f, around in pipes:
        run = (f.length_m, f.bore_m, max(f.bore_m, f.outer_m), f.insulation_m, around)
        found.append(ColdPipe(option_id, name, stated, indoors, f.heated and powered, *run, *pipe_in_cold(*run)))
    return tuple(found)


@lru_cache(maxsize=256)
def pipe_in_cold(length_m: float, bore_m: float, outer_m: float, insulation_m: float, night_degc: float) -> Frost:
    """A full pipe on the coldest night."""
    loss = pipe_loss_w_k(length_m, outer_m, insulation_m)
    return frost(pipe_l(length_m, bore_m), COLD_DEGC, loss, night_degc)
