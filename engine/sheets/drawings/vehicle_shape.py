"""A base vehicle's outline from its left: a plain one for each kind of body, to scale in length and height."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.catalogue.vehicle import Vehicle
from engine.sheets.drawings.scale import cm
from engine.sheets.templates import render
from engine.units import System

WHEEL_RADIUS_M = 0.36
"""Wheels are drawn at this size (assumption; catalogues do not state it)."""


class Shape(NamedTuple):
    """The vehicle as it is drawn, whatever is built into it."""

    body: str
    length_m: float
    height_m: float
    front_overhang_m: float
    wheelbase_m: float
    cabin_front_m: float
    cabin_length_m: float
    floor_m: float
    roof_front_m: float
    units: System


def shape_of(v: Vehicle, units: System) -> Shape:
    """A base vehicle's shape."""
    return Shape(
        body=v.body,
        length_m=v.length_m,
        height_m=v.height_m,
        front_overhang_m=v.front_overhang_m,
        wheelbase_m=v.wheelbase_m,
        cabin_front_m=v.cabin.front_x_m,
        cabin_length_m=v.cabin.length_m,
        floor_m=v.cabin.floor_z_m,
        roof_front_m=v.roof.front_x_m,
        units=units,
    )


def outline(s: Shape) -> tuple[str, ...]:
    """Paths of the body, in centimetres: x behind the front axle, y down from the top of the vehicle."""
    nose, tail = -s.front_overhang_m, s.length_m - s.front_overhang_m
    top, h = 0.0, s.height_m
    sill = h - max(0.22, s.floor_m - 0.18)

    def path(*points: tuple[float, float]) -> str:
        return "M" + "L".join(f"{cm(x)} {cm(y)}" for x, y in points) + "Z"

    if s.body == "box":
        start, end = s.cabin_front_m - 0.06, min(tail, s.cabin_front_m + s.cabin_length_m + 0.06)
        cab_top = max(top + 0.1, h - 2.3)
        screen = nose + 0.75
        cab = path(
            (nose, sill), (nose, h - 1.05), (nose + 0.12, h - 1.18), (screen, h - 1.32),
            (screen + 0.55, cab_top + 0.06), (screen + 0.7, cab_top), (start, cab_top), (start, sill),
        )  # fmt: skip
        body = path((start, top), (end, top), (end, h - s.floor_m + 0.06), (start, h - s.floor_m + 0.06))
        return (cab, body)
    if s.body == "bus":
        return (
            path(
                (nose, sill), (nose + 0.02, h - 1.2), (nose + 0.28, top + 0.16), (nose + 0.45, top), (tail - 0.12, top),
                (tail, top + 0.12), (tail, sill),
            ),
        )  # fmt: skip
    roof = max(s.roof_front_m - 0.25, nose + 1.3)
    return (
        path(
            (nose, sill), (nose, h - 0.95), (nose + 0.1, h - 1.08), (nose + 0.85, h - 1.28), (roof - 0.12, top + 0.14),
            (roof + 0.1, top), (tail - 0.1, top), (tail, top + 0.12), (tail, sill),
        ),
    )  # fmt: skip


@lru_cache(maxsize=64)
def frame(s: Shape) -> Markup:
    """Body, floor, wheels and ground."""
    tail_m = s.length_m - s.front_overhang_m
    return render(
        "side_frame",
        paths=outline(s),
        ground=cm(s.height_m),
        ground_from=cm(-s.front_overhang_m - 0.2),
        ground_to=cm(tail_m + 0.2),
        wheel_y=cm(s.height_m - WHEEL_RADIUS_M),
        wheel_r=cm(WHEEL_RADIUS_M),
        hub_r=cm(WHEEL_RADIUS_M * 0.45),
        rear=cm(s.wheelbase_m),
        floor_y=cm(s.height_m - s.floor_m),
        floor_from=cm(s.cabin_front_m),
        floor_to=cm(s.cabin_front_m + s.cabin_length_m),
    )
