"""Masses and axle loads of a build in the load cases that matter."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.mass_cases import Frame, LoadCase, WheelEnd, worked
from engine.build.mass_items import (
    ADULT_KG,
    CHILD_KG,
    CONTENT_TOLERANCE_FRAC,
    PET_KG,
    boiler_water,
    delivered,
    fresh_tanks,
    gas_content_kg,
    loading,
    parts,
    unlisted,
    waste_tanks,
)
from engine.build.mass_weighed import Weighed, corrected
from engine.build.model import Build, Part
from engine.catalogue.vehicle import Vehicle
from engine.physics import load_cases
from engine.physics.load_cases import Load, Measure
from engine.physics.stability import static_stability_frac
from engine.physics.tyre import axle_end_kg, marking
from engine.physics.uncertainty import exceed_frac

__all__ = [
    "ADULT_KG", "CHILD_KG", "CONTENT_TOLERANCE_FRAC", "PET_KG", "Askew", "LoadCase", "MassFigures", "Pressing",
    "Stability", "WheelEnd", "gas_content_kg", "mass_figures",
]  # fmt: skip


class Askew(NamedTuple):
    """The axle that stands most unevenly, fully laden."""

    axle: str
    heavier: str
    difference_kg: float
    axle_kg: float
    case: str
    option_ids: tuple[str, ...]
    """The chosen options that press most on that side."""


class Pressing(NamedTuple):
    """What was chosen or comes aboard, by what it adds to a load."""

    option_ids: tuple[str, ...]
    """The chosen options that add most."""
    most_kg: tuple[tuple[str, float], ...]
    """What adds most, belongings and people too, with the kilograms it adds."""
    not_stated: tuple[str, ...]
    """Ids of chosen options that would add to it, if anybody had stated their mass."""


class Stability(NamedTuple):
    """How far from tipping sideways, with the highest centre of gravity that can occur."""

    height_m: float
    track_m: float
    """Mean of both axles."""
    factor_frac: float
    case: str
    option_ids: tuple[str, ...]
    """The chosen options that raise it most."""


class MassFigures(NamedTuple):
    """What a build weighs and where."""

    gross_rating_kg: float
    front_rating_kg: float
    rear_rating_kg: float
    fit_out_kg: float
    """Chosen parts and the allowance for what nobody lists."""
    unlisted_kg: float
    """That allowance alone."""
    fresh_water_kg: float
    water_kg: float
    """Water and waste in the heaviest case, in boilers too."""
    people_kg: float
    """With pets."""
    baggage_kg: float
    """Garage, cupboards and bicycles outside together."""
    cases: tuple[LoadCase, ...]
    """The usual three: dry and empty, full fresh water, full waste tanks."""
    heaviest: LoadCase
    front_worst: LoadCase
    rear_worst: LoadCase
    steer_lightest: LoadCase
    """The case with the smallest share of its mass on the front axle. This and the three before are the worst of
    every possible filling."""
    all_tanks: LoadCase
    """Fresh water filled in before waste is let out: beyond what the cases above allow."""
    gross_exceed_frac: float
    """How likely the heaviest case lies over the gross rating."""
    front_exceed_frac: float
    rear_exceed_frac: float
    front_pressing: Pressing
    rear_pressing: Pressing
    """What makes those two worst cases."""
    nose_kg: float
    """A trailer's, on the coupling."""
    gas_kg: float
    wheel_worst: WheelEnd | None
    """None where tracks or tyres are not stated."""
    wheel_pressing: Pressing | None
    steer_pressing: Pressing
    """What takes most from the front axle's share: by so many kilograms less than that share would it carry."""
    askew: Askew | None
    stability: Stability | None
    weighed: Weighed
    not_stated: tuple[str, ...]
    """Ids of chosen options whose mass neither the catalogue nor a weighing of this very vehicle tells."""
    largest: tuple[Load, ...]
    """The heaviest items of the fully loaded state, heaviest first."""
    largest_ids: tuple[str, ...]
    """Ids of the heaviest chosen options, heaviest first."""


def mass_figures(build: Build) -> MassFigures:
    """Masses and axle loads of a build: the usual cases, and the worst of every possible one."""
    v, m = build.vehicle, build.vehicle.masses
    fitted = parts(build.parts)
    extra = unlisted(build, fitted)
    built_in, weighed = corrected(build, delivered(build), fitted, extra)
    aboard = loading(build)
    cases = worked(_frame(v), built_in, aboard)
    heaviest, front, rear = cases.heaviest, cases.front, cases.rear
    fresh, waste = fresh_tanks(build), waste_tanks(build)
    wet = {i.name for i in fresh + waste + boiler_water(build)}
    people = aboard.always + aboard.people
    there = tuple(load for load in aboard.free if load.mass_kg > 0)
    wheel, steer = cases.wheel, cases.steer_lightest
    steer_frac = steer.axles.front_kg / steer.axles.total_kg

    not_stated = tuple(
        p
        for p in build.parts
        if p.mass_kg is None and not (weighed.how == "own" and p.count <= build.weighed_options.get(p.option.id, 0))
    )

    def pressing(with_it: tuple[Load, ...], by: Measure) -> Pressing:
        kg = _parts_kg(build.parts, by) | {}
        for name, more_kg in load_cases.by_name_kg((*((extra,) if extra else ()), *with_it), by).items():
            kg[name] = kg.get(name, 0.0) + more_kg
        most = sorted((-k, n) for n, k in kg.items() if k > 0)[:3]
        unknown = (p.option.id for p in not_stated if by.per_kg(p.x_m, p.y_m, p.z_m) > 0)
        return Pressing(_causes(build.parts, by), tuple((n, -k) for k, n in most), tuple(unknown))

    return MassFigures(
        gross_rating_kg=m.gross_kg,
        front_rating_kg=m.front_axle_rating_kg,
        rear_rating_kg=m.rear_axle_rating_kg,
        fit_out_kg=sum(i.mass_kg for i in fitted) + (extra.mass_kg if extra else 0.0),
        unlisted_kg=extra.mass_kg if extra else 0.0,
        fresh_water_kg=sum(i.mass_kg for i in fresh),
        water_kg=sum(i.mass_kg for i in heaviest.aboard if i.name in wet),
        people_kg=sum(i.mass_kg for i in (*people, *(i for i in there if i.name == "pets"))),
        baggage_kg=sum(i.mass_kg for i in there if i.group == "baggage"),
        cases=cases.usual,
        heaviest=heaviest,
        front_worst=front,
        rear_worst=rear,
        steer_lightest=steer,
        all_tanks=cases.all_tanks,
        gross_exceed_frac=exceed_frac(heaviest.axles.total_kg, m.gross_kg, heaviest.spread_kg),
        front_exceed_frac=exceed_frac(front.axles.front_kg, m.front_axle_rating_kg, front.front_spread_kg),
        rear_exceed_frac=exceed_frac(rear.axles.rear_kg, m.rear_axle_rating_kg, rear.rear_spread_kg),
        front_pressing=pressing(front.aboard, load_cases.front(v.wheelbase_m)),
        rear_pressing=pressing(rear.aboard, load_cases.rear(v.wheelbase_m)),
        nose_kg=build.trip.nose_kg,
        gas_kg=sum(i.mass_kg for i in there if i.name == "gas"),
        wheel_worst=wheel,
        wheel_pressing=pressing(wheel.aboard, wheel.by) if wheel else None,
        # A mass takes from the share what it adds to the axle less than its own share of it.
        steer_pressing=pressing(steer.aboard, Measure(steer_frac - 1, 1 / v.wheelbase_m)),
        askew=_askew(build, cases.usual[1:]),
        stability=_stability(build, cases.highest),
        weighed=weighed,
        not_stated=tuple(p.option.id for p in not_stated),
        largest=tuple(sorted(fitted + people + there + fresh, key=lambda i: -i.mass_kg)[:6]),
        largest_ids=_heaviest(build.parts),
    )


@lru_cache(maxsize=64)
def _ends_kg(front: str, rear: str, twin: bool) -> tuple[float, float, float, float]:
    front_kg, rear_kg = axle_end_kg(marking(front), twin=False), axle_end_kg(marking(rear), twin)
    return front_kg, front_kg, rear_kg, rear_kg


def _frame(v: Vehicle) -> Frame:
    ends_kg = _ends_kg(v.tyres.front, v.tyres.rear, v.twin_rear_wheels) if v.tyres is not None else None
    return Frame(v.wheelbase_m, v.front_track_m, v.rear_track_m, v.masses.cg_height_m is not None, ends_kg)


@lru_cache(maxsize=1024)
def _causes(parts_: tuple[Part, ...], by: Measure) -> tuple[str, ...]:
    """Ids of the three options that count most, as far as they add at all."""
    found = sorted((-p.mass_kg * by.per_kg(p.x_m, p.y_m, p.z_m), p.option.id) for p in parts_ if p.mass_kg)
    return tuple(id_ for worth, id_ in found[:3] if worth < 0)


@lru_cache(maxsize=1024)
def _parts_kg(parts_: tuple[Part, ...], by: Measure) -> dict[str, float]:
    return load_cases.by_name_kg(parts(parts_), by)


@lru_cache(maxsize=1024)
def _heaviest(parts_: tuple[Part, ...]) -> tuple[str, ...]:
    return tuple(p.option.id for p in sorted(parts_, key=lambda p: -(p.mass_kg or 0.0))[:3])


def _askew(build: Build, laden: tuple[LoadCase, ...]) -> Askew | None:
    found = []
    for case in laden:
        if case.wheels is None:
            return None
        w = case.wheels
        for axle, left_kg, right_kg in (
            ("front", w.front_left_kg, w.front_right_kg),
            ("rear", w.rear_left_kg, w.rear_right_kg),
        ):
            if left_kg + right_kg > 0:
                share = abs(right_kg - left_kg) / (left_kg + right_kg)
                found.append((share, axle, left_kg, right_kg, case.name))
    if not found:
        return None
    _, axle, left_kg, right_kg, name = max(found, key=lambda a: a[0])
    side, wheelbase_m = (1.0 if right_kg > left_kg else -1.0), build.vehicle.wheelbase_m
    measure = load_cases.front(wheelbase_m) if axle == "front" else load_cases.rear(wheelbase_m)
    ids = _causes(build.parts, Measure(0.0, y=side * measure.one, xy=side * measure.x))
    heavier = "right" if right_kg > left_kg else "left"
    return Askew(axle, heavier, abs(right_kg - left_kg), left_kg + right_kg, name, ids)


def _stability(build: Build, case: LoadCase | None) -> Stability | None:
    v = build.vehicle
    height_m = case.cg[2] if case is not None else None
    if case is None or height_m is None or v.front_track_m is None or v.rear_track_m is None:
        return None
    track_m = (v.front_track_m + v.rear_track_m) / 2
    factor_frac = static_stability_frac(track_m, height_m)
    return Stability(height_m, track_m, factor_frac, case.name, _causes(build.parts, Measure(-height_m, z=1.0)))
