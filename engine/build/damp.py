"""Water in the air of the living space on a cold night of the trip, and where it settles."""

from functools import lru_cache
from math import inf
from typing import NamedTuple

from engine.build.habits import FREE_WARMTH_K, heating_from_degc, meals_for_two
from engine.build.model import Build
from engine.build.room import INDOORS_DEGC, LAG_K, above_outside_k, night_room_degc, room_degc
from engine.build.shell import Ply, SurfaceLoss
from engine.build.standstill import running_fans
from engine.build.warmth import WarmthFigures, gives_w
from engine.catalogue.facets import SpaceHeater
from engine.catalogue.trip import Trip
from engine.physics.condensation import surface_degc
from engine.physics.damp import (
    ASLEEP_KG_H,
    AWAKE_KG_H,
    COOKED_MEAL_KG,
    air_for_humidity_m3_h,
    burnt_water_kg_kg,
    settled_frac,
    source_kg_h,
)
from engine.physics.fuel import gas_gross_kwh_kg, gas_kg
from engine.physics.glaser import TIGHT_M, Climate, DampYear, VapourLayer, damp_year
from engine.physics.heat import SURFACE_INSIDE_M2K_W, SURFACE_OUTSIDE_M2K_W
from engine.physics.moist_air import dew_point_degc, saturation_kpa, vapour_kpa

WANTED_FRAC = 0.6
"""Relative humidity to stay below in the cold (common practice: 40 to 60 %)."""

MILD_DEGC, MILD_FRAC = (5.0, 12.0), 0.1
"""Between these means outside so much more humidity is borne inside, for surfaces are warm (common practice)."""

PET_PERSON_FRAC = 0.4
"""Breath of a dog over that of a person asleep (assumption)."""

ASLEEP_H, AWAKE_H = 9.0, 6.0
"""Hours a day that people sleep aboard, and that they sit inside awake (assumption for the cold season)."""

WET_GEAR_KG_D = 0.5
"""Water that jackets, towels and boots give off each day (assumption within the trade's 50 to 500 g/h)."""

NIGHT_FRAC = 0.9
"""Relative humidity outside in the coldest hour (common practice)."""

OPEN_MULTIPLE, BARRIER_M = 10.0, 2.0
"""Insulation that hinders vapour less than the first, without a vapour layer worth the second, lets room air through to
the skin (common practice)."""

INSULATING_W_MK = 0.1
"""Up to this conductivity a layer insulates."""

DRIEST_DEGC = -40.0
"""Colder outside air counts as this cold where its water is asked: it holds less than 0.2 g/m³, next to nothing."""

MOST_LAYERS, THICKNESS_M = 20, (1e-4, 1.0)
"""Where the sums on vapour end: no wall of sense lies beyond, and none is reckoned."""

LEAST_AIR_M = 0.001
"""The sums on vapour take no thinner layer of still air."""


def sleepers_count(trip: Trip) -> float:
    """People aboard by their breath, dogs as shares of one."""
    return trip.people + PET_PERSON_FRAC * trip.pets


def wanted_frac(outside_degc: float) -> float:
    """Relative humidity to stay below by the mean outside temperature."""
    mild = (outside_degc - MILD_DEGC[0]) / (MILD_DEGC[1] - MILD_DEGC[0])
    return WANTED_FRAC + MILD_FRAC * min(1.0, max(0.0, mild))


class Spot(NamedTuple):
    """A surface that room air reaches, on the coldest night."""

    name: str
    glass: bool
    """Glass and doors, where water is seen and wiped off."""
    factor_frac: float
    surface_degc: float
    margin_k: float
    """Above 0 it is dry."""


class NightAir(NamedTuple):
    """Air and cold places on the coldest night, the room at one temperature."""

    humidity_frac: float
    dew_point_degc: float
    spots: tuple[Spot, ...]


class DampFigures(NamedTuple):
    """Water, air and cold surfaces; only of trips that need heating."""

    people_kg_h: float
    flueless_kg_h: float
    """Water from heaters without a flue, in an hour of the night."""
    flueless_ids: tuple[str, ...]
    air_m3_h: float
    """Fresh air for people, through leaks or up a flue; what flames ask for on top is not counted on."""
    fan_m3_h: float
    """What fans add at their usual speed."""
    mean_degc: float
    """Outside, mean of the coldest month."""
    mean_inside_degc: float
    """Inside then: the warmth wanted, or what heaters and people hold."""
    mean_frac: float
    wanted_frac: float
    """Humidity to stay below in that month."""
    needed_m3_h: float | None
    """Fresh air that keeps the night's humidity down in that month, the room as warm as wanted; None where no amount
    does."""
    mean_night_frac: float
    """Humidity of such a night with the air that passes; above 1 it drips. A room that heaters do not hold lacks heat,
    and more air would only cool it further."""
    night_degc: float
    """Outside on the coldest night."""
    inside_degc: float
    """Inside on that night: the warmth wanted, or what heaters and people hold."""
    humidity_frac: float
    """Inside on that night, at most 1."""
    dew_point_degc: float
    spots: tuple[Spot, ...]
    """The wettest first."""
    if_warm: NightAir | None
    """The same night kept as warm as wanted; None where the room is so, or at least as warm as one that is lived in."""
    years: tuple[tuple[str, DampYear], ...]
    """Water within walls and roof over the year, of those whose layers are all known to vapour."""
    unknown: tuple[str, ...]
    """Layers that do not say how they hinder vapour."""


@lru_cache(maxsize=2048)
def _reached(s: SurfaceLoss) -> tuple[tuple[str, float], ...]:
    """(name, temperature factor) of the places of a surface that room air reaches."""
    if s.kind != "surface":
        return ((s.name, s.face_frac),)
    film = SURFACE_INSIDE_M2K_W[s.name]
    lining = sum(p.layer.thickness_m / p.layer.conductivity_w_mk for p in s.plies if p.part == "lining")
    # Linings of walls and roof are not tight: air gets behind them. Floor coverings are.
    behind = (film + lining) / film if s.name != "floor" else 1.0
    insulating = [p for p in s.plies if p.part != "lining" and p.layer.conductivity_w_mk <= INSULATING_W_MK]
    if not insulating:
        return ((f"bare {s.name}", max(0.0, 1 - (1 - s.face_frac) * behind)),)
    found = [(f"{s.name} behind the lining" if behind > 1 else s.name, max(0.0, 1 - (1 - s.face_frac) * behind))]
    if s.coldest_frac < s.face_frac - 1e-6:
        name = f"steel ribs of the {s.name}" if s.rib_w_k else f"battens in the {s.name}"
        found.append((name, max(0.0, 1 - (1 - s.coldest_frac) * behind)))
    is_open = all(
        p.vapour_multiple is not None and p.vapour_multiple < OPEN_MULTIPLE and p.barrier_m < BARRIER_M
        for p in insulating
    )
    # A sheet of metal further in keeps room air from the skin.
    if is_open and s.plies[-1].metal and not any(p.metal for p in s.plies[:-1]):
        found.append((f"skin behind open insulation in the {s.name}", SURFACE_OUTSIDE_M2K_W * s.u_w_m2k))
    return tuple(found)


@lru_cache(maxsize=1024)
def _spots(surfaces: tuple[SurfaceLoss, ...], inside: float, outside: float, dew: float) -> tuple[Spot, ...]:
    found = []
    for s in surfaces:
        if s.area_m2 <= 0:
            continue
        for name, factor in _reached(s):
            at = surface_degc(inside, outside, factor)
            found.append(Spot(name, s.kind != "surface", factor, at, at - dew))
    return tuple(sorted(found, key=lambda x: (x.margin_k, x.name)))


def still_air_m(ply: Ply) -> float | None:
    """Still air that hinders vapour as much as a layer; None where the layer does not say."""
    if ply.metal:
        return TIGHT_M
    return None if ply.vapour_multiple is None else max(LEAST_AIR_M, ply.vapour_multiple * ply.layer.thickness_m)


def _vapour(plies: tuple[Ply, ...]) -> tuple[VapourLayer, ...] | str:
    """Layers as vapour sees them, from outside in; or the name of one that does not say."""
    found: list[VapourLayer] = []
    for p in reversed(plies):
        x, air_m = p.layer, still_air_m(p)
        if air_m is None:
            return p.name
        mean = (1 - x.framing_frac) * x.conductivity_w_mk + x.framing_frac * x.framing_conductivity_w_mk
        found.append(VapourLayer(p.name, x.thickness_m, mean, min(1e4, air_m)))
        if p.barrier_m:
            found.append(VapourLayer("vapour layer", 0.0002, 0.3, max(LEAST_AIR_M, p.barrier_m)))
    return tuple(found)


def closed_by_the_skin(plies: tuple[Ply, ...]) -> bool:
    """Whether what insulates next to the skin hinders vapour by itself."""
    insulating = [p.vapour_multiple or 0.0 for p in plies if p.part == "insulation"]
    return bool(insulating) and insulating[-1] >= OPEN_MULTIPLE


class Flame(NamedTuple):
    """Heaters of one kind that burn gas without a flue."""

    option_id: str
    pieces_count: int
    least_w: float
    most_w: float
    efficiency_frac: float


def _flames(build: Build) -> tuple[Flame, ...]:
    return tuple(
        Flame(p.option.id, p.count, f.min_output_w, gives_w(build, f), f.efficiency_frac)
        for p, f in build.facets(SpaceHeater)
        if f.flue == "none" and f.fuel == "gas"
    )


def _flames_kg_h(flames: tuple[Flame, ...], need_w: float) -> float:
    """The water that they give in an hour in which so much heat is needed."""
    water = 0.0
    for f in flames:
        burnt_w = max(f.least_w, min(f.most_w, need_w)) * f.pieces_count / f.efficiency_frac
        water += gas_kg(burnt_w, gas_gross_kwh_kg(1.0)) * burnt_water_kg_kg(1.0)
    return water


@lru_cache(maxsize=1024)
def _settled(water_kg_h: float, air_m3_h: float, inside: float, outside: float, frac: float) -> float:
    return settled_frac(water_kg_h, max(1.0, air_m3_h), inside, max(DRIEST_DEGC, outside), frac)


def _year(build: Build, warmth: WarmthFigures, day_kg: float, air_m3_h: float) -> tuple[Climate, ...]:
    """Inside and outside through the year: lived in during the trip's months, else as outside."""
    months = []
    for m in range(12):
        out, frac = build.climate.mean_degc[m], min(1.0, max(0.05, build.climate.humidity_frac[m]))
        if m + 1 in build.trip.months:
            inside = room_degc(build, warmth, out)
            held = _settled(day_kg / 24, air_m3_h, inside, out, frac)
            months.append(Climate(inside, min(1.0, max(0.05, held)), out, frac))
        else:
            months.append(Climate(out, frac, out, frac))
    return tuple(months)


class _Month(NamedTuple):
    """The trip's coldest month: outside air, water into the room's, and the fresh air it takes."""

    mean_degc: float
    mean_frac: float
    people_kg_h: float
    flames: tuple[Flame, ...]
    flueless_kg_h: float
    needed_m3_h: float | None


def _coldest_month(build: Build, warmth: WarmthFigures) -> _Month | None:
    """None where no month needs heating or it is no colder outside."""
    trip, climate = build.trip, build.climate
    month = min(trip.months, key=lambda m: (climate.mean_degc[m - 1], m))
    mean, mean_frac = climate.mean_degc[month - 1], min(1.0, climate.humidity_frac[month - 1])
    wanted = float(trip.inside_degc)
    if mean >= heating_from_degc(trip) or warmth.design_degc >= wanted - 1 or mean >= wanted:
        return None
    people = source_kg_h(sleepers_count(trip))
    flames = _flames(build)
    flueless = _flames_kg_h(flames, warmth.total_w_k * (wanted - mean))
    needed = air_for_humidity_m3_h(people + flueless, wanted, wanted_frac(mean), mean, mean_frac)
    return _Month(mean, mean_frac, people, flames, flueless, needed)


def leaks_too_little(build: Build, warmth: WarmthFigures) -> bool:
    """Whether the room's own air change does not carry off its damp in the trip's coldest month."""
    month = _coldest_month(build, warmth)
    return month is not None and (month.needed_m3_h is None or month.needed_m3_h > warmth.air_m3_h)


def cooking_kg_d(trip: Trip, room_gas_kg_d: float) -> float:
    """Water that a day's cooking brings into the room: steam from the pots, and what gas burns to without a flue."""
    return COOKED_MEAL_KG * meals_for_two(trip) + room_gas_kg_d * burnt_water_kg_kg(1.0)


def damp_figures(build: Build, warmth: WarmthFigures, room_gas_kg_d: float) -> DampFigures | None:
    """Damp of the trip's coldest month and night; None where no month needs heating or it is no colder outside."""
    month = _coldest_month(build, warmth)
    if month is None:
        return None
    trip, sleepers = build.trip, sleepers_count(build.trip)
    mean, mean_frac, people, burners, flueless, needed = month
    wanted, night, air = float(trip.inside_degc), warmth.design_degc, warmth.air_m3_h
    inside, mean_inside = (
        max(DRIEST_DEGC, x) for x in (night_room_degc(build, warmth), room_degc(build, warmth, mean))
    )
    flueless_cold = _flames_kg_h(burners, warmth.design_loss_w)
    day = sleepers * (ASLEEP_H * ASLEEP_KG_H + AWAKE_H * AWAKE_KG_H) + WET_GEAR_KG_D + 24 * flueless
    day += cooking_kg_d(trip, room_gas_kg_d)

    def at(degc: float) -> NightAir:
        humidity = min(1.0, _settled(people + flueless_cold, air, degc, night, NIGHT_FRAC))
        dew = dew_point_degc(vapour_kpa(degc, humidity))
        return NightAir(humidity, dew, _spots(warmth.surfaces, degc, night, dew))

    real = at(inside)
    years, unknown = [], []
    year = _year(build, warmth, day, air)
    seen: set[tuple[Ply, ...]] = set()
    for s in warmth.surfaces[:2]:  # walls and roof; a floor's coverings are tight
        if not any(p.part == "insulation" for p in s.plies) or s.plies in seen:
            continue
        seen.add(s.plies)
        layers = _vapour(s.plies)
        if isinstance(layers, str):
            unknown.append(layers)
        elif len(layers) <= MOST_LAYERS and all(THICKNESS_M[0] <= x.thickness_m <= THICKNESS_M[1] for x in layers):
            years.append((s.name, damp_year(layers, year, SURFACE_INSIDE_M2K_W[s.name], SURFACE_OUTSIDE_M2K_W)))
    return DampFigures(
        people_kg_h=people,
        flueless_kg_h=flueless,
        flueless_ids=tuple(f.option_id for f in burners),
        air_m3_h=air,
        fan_m3_h=sum(f.flow_m3_h * f.power_share_frac * p.count for p, f in running_fans(build)),
        mean_degc=mean,
        mean_inside_degc=mean_inside,
        mean_frac=mean_frac,
        wanted_frac=wanted_frac(mean),
        needed_m3_h=needed,
        mean_night_frac=_settled(people + flueless, air, wanted, mean, mean_frac),
        night_degc=night,
        inside_degc=inside,
        humidity_frac=real.humidity_frac,
        dew_point_degc=real.dew_point_degc,
        spots=real.spots,
        if_warm=at(wanted) if inside < min(wanted, INDOORS_DEGC) else None,
        years=tuple(years),
        unknown=tuple(dict.fromkeys(unknown)),
    )


NIGHTS_COUNT, HALVINGS_COUNT = 7, 6
"""So many nights from the coldest to the mildest are looked at for dry ones, and an end of them is found by so many
halvings: to a tenth of a kelvin or so."""


class DryNights(NamedTuple):
    """Outside temperatures of the nights on which a spot stays dry that is wet on the coldest."""

    from_degc: float
    to_degc: float | None
    """None: as mild as nights are that want heat."""


def dry_nights(build: Build, warmth: WarmthFigures, factor_frac: float, kept_warm: bool) -> DryNights | None:
    """Nights on which a spot with this temperature factor stays dry, in a room as warm as wanted or as the heaters hold
    it; None where there are none between the coldest and those that want no heat.

    The milder the air outside, the warmer the spot, but the more water that air brings in. For each night the room's
    air settles anew: outside air of 90 %, as for the coldest, water of people and of flames as they burn then, and as
    much fresh air as on the coldest night (assumption).
    """
    lift_k = inf if kept_warm else LAG_K + above_outside_k(build, warmth)
    people = source_kg_h(sleepers_count(build.trip))
    return _dry_nights(
        factor_frac, float(build.trip.inside_degc), lift_k, warmth.design_degc, people, _flames(build),
        warmth.total_w_k, max(1.0, warmth.air_m3_h),
    )  # fmt: skip


@lru_cache(maxsize=1024)
def _dry_nights(
    factor_frac: float, wanted: float, lift_k: float, coldest: float, people_kg_h: float, flames: tuple[Flame, ...],
    total_w_k: float, air_m3_h: float,
) -> DryNights | None:  # fmt: skip
    """lift_k: how much warmer than outside the room is at most."""

    def dry(outside: float) -> bool:
        inside = max(DRIEST_DEGC, min(wanted, outside + lift_k))
        water = people_kg_h + (_flames_kg_h(flames, total_w_k * (wanted - outside)) if flames else 0.0)
        held = settled_frac(water, air_m3_h, inside, max(DRIEST_DEGC, outside), NIGHT_FRAC)
        return saturation_kpa(surface_degc(inside, outside, factor_frac)) >= held * saturation_kpa(inside)

    def end(wet: float, inner: float) -> float:
        for _ in range(HALVINGS_COUNT):
            middle = (wet + inner) / 2
            wet, inner = (wet, middle) if dry(middle) else (middle, inner)
        return inner

    mildest = wanted - FREE_WARMTH_K
    nights = [coldest + (mildest - coldest) * i / (NIGHTS_COUNT - 1) for i in range(NIGHTS_COUNT)]
    are_dry = [False, *map(dry, nights[1:])]
    if not any(are_dry):
        return None
    first = are_dry.index(True)
    last = next((i - 1 for i in range(first, NIGHTS_COUNT) if not are_dry[i]), None)
    to_degc = None if last is None else end(nights[last + 1], nights[last])
    return DryNights(end(nights[first - 1], nights[first]), to_degc)
