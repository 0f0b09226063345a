"""How fast the heaters warm the living space up, and how warm its floor gets."""

from functools import lru_cache
from math import inf
from typing import NamedTuple

from engine.build.gas import diesel_for_heat_l, propane_frac_of
from engine.build.habits import HALF_DAY_K
from engine.build.mass_items import gas_held_kg
from engine.build.model import Build
from engine.build.standstill import draw_w, heater_draws_w
from engine.build.warmth import WarmthFigures, gives_w, living_air_m3
from engine.catalogue.facets import FreshTank, FurnitureModule, SpaceHeater, Trim
from engine.physics.condensation import surface_degc
from engine.physics.fuel import DIESEL_KWH_L, gas_kg, gas_kwh_kg
from engine.physics.room_heat import INSIDE_FILM_W_M2K, Room, room_of
from engine.physics.solar_gain import air_day_degc
from engine.physics.warm_up import GRADE_HEAT_UP_H, cycle_h, heating_grade, warm_up_h, warm_up_w

FURNITURE_AREA_MULTIPLE = 1.5
"""Lining and furniture that face the air, over the shell's own area (assumption)."""

LIGHT_KG, LIGHT_PERSON_KG = 10.0, 15.0
"""Fronts and cushions, and for each person bedding and clothes, which warm as fast as the air (assumption)."""

HEAVY_KG = 60.0
"""What of the shell and of small fittings warms with the furniture (assumption)."""

FITTED_FRAC = 0.7
"""Heat that fitted furniture stores over that of as much wood: a part of it is metal, glass and appliances
(assumption)."""

TANK_FRAC = 0.25
"""Share of the fresh tanks' content that warms with the room: half full, and slow behind its panels (assumption)."""


DAY_RANGE_K = 2 * HALF_DAY_K
"""From the coldest to the warmest hour of a winter's day."""

EVENING_H, MORNING_H = 18, 9
"""The night that is looked at, by the sundial."""

THERMOSTAT_K = 2.0
"""Between a thermostat's switching on and off (common practice)."""

AFTER_RUN_S = 180.0
"""So long a burner's fan runs on before it may be lit again (common practice: 2 to 4 min)."""

MOST_W_K, MOST_HEAT_W = 2000.0, 100_000.0
"""Where the sums of a room end."""

FILM_OVER_SHELL = 1.1
"""The film at the walls lets through at least so many times what the shell loses, or the sums have no answer."""


class NightFuel(NamedTuple):
    """What the coldest night of the trip takes from evening to morning, once it is warm."""

    heat_wh: float
    gas_kg: float
    diesel_l: float
    battery_wh: float
    nights_count: float | None
    """So many such nights a fill of gas or half the vehicle's diesel lasts; None where neither is burnt or known."""
    lasting: str
    """Which of the two is gone first."""


class WarmUp(NamedTuple):
    """Warming up from a vehicle cold through on the coldest night, every main heater full on."""

    warm_up_h: float | None
    """None when the heaters never get there."""
    grade_count: int
    """Heating grade of EN 1646-1 that these sums would meet, 1 to 3."""
    floor_degc: float
    """Floor on the coldest night, the room being warm."""
    fuel: NightFuel
    needed_w: float
    """Output that warms it up within the test's time."""
    cycle_h: float
    """From one start to the next of the heater that runs in the mildest month; infinite where it runs through, or is
    fed by hand."""
    start_wh: float
    """What it takes from the battery for a start, over what it takes running."""


@lru_cache(maxsize=512)
def warming(room: Room, outside: float, inside: float, output_w: float) -> tuple[float | None, int, float]:
    """(hours to warm a room cold through, its grade, output that would do it within the test's time)."""
    needed_w = warm_up_w(room, outside, outside, inside, GRADE_HEAT_UP_H)
    return warm_up_h(room, outside, outside, inside, output_w), heating_grade(room, output_w), needed_w


def living_room(build: Build, warmth: WarmthFigures) -> Room | None:
    """The living space as two stores of heat; None where it loses more than any vehicle of sense."""
    shell_w_k = sum(s.loss_w_k for s in warmth.surfaces if s.kind != "glass")
    glass_w_k = sum(s.loss_w_k for s in warmth.surfaces if s.kind == "glass")
    direct_w_k = glass_w_k + warmth.air_loss_w_k
    if max(shell_w_k, direct_w_k) > MOST_W_K:
        return None
    shell = build.vehicle.shell
    area_m2 = FURNITURE_AREA_MULTIPLE * (shell.walls_m2 + shell.roof_m2 + shell.floor_m2)
    fitted = {p.option.id: p.mass_kg or 0.0 for kind in (FurnitureModule, Trim) for p, _ in build.facets(kind)}
    return room_of(
        max(0.5, shell_w_k),
        direct_w_k,
        # The film must let through what the shell loses, however many doors there are.
        max(area_m2, FILM_OVER_SHELL * shell_w_k / INSIDE_FILM_W_M2K),
        living_air_m3(build),
        min(500.0, LIGHT_KG + LIGHT_PERSON_KG * build.trip.people),
        min(5000.0, HEAVY_KG + FITTED_FRAC * sum(fitted.values())),
        min(2000.0, TANK_FRAC * sum(f.volume_l * p.count for p, f in build.facets(FreshTank))),
    )


def winter_air_degc(coldest_degc: float) -> tuple[float, ...]:
    """Outside air at the end of each of 24 hours of a winter's day."""
    return air_day_degc(coldest_degc, min(60.0, coldest_degc + DAY_RANGE_K))


def night_hours() -> tuple[int, ...]:
    """Hours of the night, each by the hour from midnight at which it begins."""
    return (*range(EVENING_H, 24), *range(MORNING_H))


def night_fuel(build: Build, warmth: WarmthFigures) -> NightFuel:
    """Heat and fuel of the coldest night; what burns fuel heats first, each by its share of their output."""
    inside, air = build.trip.inside_degc, winter_air_degc(warmth.design_degc)
    losses_w = [warmth.total_w_k * max(0.0, inside - air[h]) for h in night_hours()]
    heat_wh = sum(min(warmth.output_w, w) for w in losses_w)
    burnt = {"gas": 0.0, "diesel": 0.0, "battery": 0.0}
    for part, f in build.facets(SpaceHeater):
        if part.option.id in warmth.heater_ids and f.role != "spot" and f.fuel != "mains" and not warmth.comforts(f):
            full_h = sum(warmth.duty_frac(f, w) for w in losses_w)
            given_wh = full_h * gives_w(build, f) * part.count
            burnt[f.fuel] = burnt.get(f.fuel, 0.0) + given_wh / f.efficiency_frac
            burnt["battery"] += given_wh / gives_w(build, f) * draw_w(f)
    kg = gas_kg(burnt["gas"], gas_kwh_kg(propane_frac_of(build)))
    litres = burnt["diesel"] / 1000 / DIESEL_KWH_L
    fills = [(gas_held_kg(build), kg, "A fill of gas"), (diesel_for_heat_l(build), litres, "Half the diesel tank")]
    lasting = [(have / takes, what) for have, takes, what in fills if have and takes > 1e-6]
    nights, what = min(lasting, default=(None, ""))
    return NightFuel(heat_wh, kg, litres, burnt["battery"], nights, what)


_known_cycle_h = lru_cache(maxsize=512)(cycle_h)


def _cycling(warmth: WarmthFigures, room: Room) -> tuple[float, float]:
    """(hours from one start to the next in the mild, energy of a start). A burner runs at least as long as it takes to
    light and to run on: in less it gives no steady heat (assumption)."""
    heater = warmth.mild_heater
    if heater is None or heater.fuel == "wood":
        return inf, 0.0
    running_w, lighting_w = heater_draws_w(heater)
    least_run_h = (heater.start_s + AFTER_RUN_S) / 3600 if heater.burns else 0.0
    every_h = _known_cycle_h(room, THERMOSTAT_K, min(MOST_HEAT_W, warmth.mild_loss_w), heater.min_output_w, least_run_h)
    return every_h, (lighting_w - running_w) * heater.start_s / 3600


def warm_up_figures(build: Build, warmth: WarmthFigures) -> WarmUp | None:
    """Warming up on the trip's coldest night; None without a heater, or when no night is colder than wanted."""
    if warmth.design_loss_w <= 0 or not warmth.output_w:
        return None
    room = living_room(build, warmth)
    if room is None:
        return None
    inside, outside = float(build.trip.inside_degc), warmth.design_degc
    takes_h, grade, needed_w = warming(room, outside, inside, min(MOST_HEAT_W, warmth.output_w))
    floor = next(s for s in warmth.surfaces if s.name == "floor")
    return WarmUp(
        takes_h, grade, surface_degc(inside, outside, floor.face_frac), night_fuel(build, warmth),
        needed_w, *_cycling(warmth, room),
    )  # fmt: skip
