"""What each value of a base vehicle allows and all together do not: a body that could not stand on its wheels."""

from __future__ import annotations

from collections.abc import Iterator

from engine.catalogue.folder import Page
from engine.catalogue.linked import problem
from engine.catalogue.positions import Path
from engine.catalogue.problems import Problem
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.wording import in_unit

SLACK_M = 0.02
"""Lengths are measured with a tape: this much over an edge is no error."""


def check_vehicle(page: Page, vehicle: Vehicle) -> list[Problem]:
    """Every pair of values that contradict each other, told at the one that is easier to have mistaken."""
    return [problem(page, path, said, instead) for path, said, instead in (*_masses(vehicle), *_lengths(vehicle))]


def _masses(v: Vehicle) -> Iterator[tuple[Path, str, str]]:
    m = v.masses
    for axle, empty_kg, rating_kg in (
        ("front", m.empty_front_kg, m.front_axle_rating_kg),
        ("rear", m.empty_rear_kg, m.rear_axle_rating_kg),
    ):
        if empty_kg >= rating_kg:
            said = f"The {axle} axle already carries {_kg(empty_kg)} as delivered; its rating here is {_kg(rating_kg)}."
            yield ("masses", f"{axle}_axle_rating"), said, "Read both from the plate and the scale again."
    if m.empty_front_kg + m.empty_rear_kg >= m.gross_kg:
        said = (
            f"As delivered it weighs {_kg(m.empty_front_kg + m.empty_rear_kg)}, and the gross rating here is "
            f"{_kg(m.gross_kg)}: nothing could be built in."
        )
        yield ("masses", "gross"), said, "Look at the units: kg and lb may be mixed up."
    elif m.front_axle_rating_kg + m.rear_axle_rating_kg < m.gross_kg:
        said = (
            f"The axle ratings add up to {_kg(m.front_axle_rating_kg + m.rear_axle_rating_kg)}, less than the gross "
            f"rating of {_kg(m.gross_kg)}."
        )
        yield ("masses", "gross"), said, "On a plate the axle ratings together are at least the gross rating."


def _lengths(v: Vehicle) -> Iterator[tuple[Path, str, str]]:
    behind_m = v.length_m - v.front_overhang_m
    if v.wheelbase_m > behind_m:
        said = f"The rear axle would stand {_m(v.wheelbase_m - behind_m)} behind the vehicle's own rear end."
        yield ("wheelbase",), said, "It is the distance from axle to axle, less than length and front_overhang leave."
        return
    for table, inside, what in (("cabin", v.cabin, "inside"), ("roof", v.roof, "roof")):
        over_m = inside.front_x_m + inside.length_m - behind_m
        if over_m > SLACK_M:
            said = f"The {what} would reach {_m(over_m)} beyond the vehicle's rear end."
            yield (table, "length"), said, f"front_x and length together reach at most {_m(behind_m)}."
        if inside.width_m > v.width_m + SLACK_M:
            said = f"The {what} would be {_m(inside.width_m - v.width_m)} wider than the vehicle."
            yield (table, "width"), said, f"The vehicle's own width is {_m(v.width_m)}."
    over_m = v.cabin.floor_z_m + v.cabin.height_m - v.height_m
    if over_m > SLACK_M:
        said = f"The inside would reach {_m(over_m)} above the vehicle's own roof."
        yield ("cabin", "height"), said, f"floor_z and height together reach at most {_m(v.height_m)}."


def _kg(value: float) -> str:
    return in_unit(value, "kg")


def _m(value: float) -> str:
    return in_unit(value, "m")
