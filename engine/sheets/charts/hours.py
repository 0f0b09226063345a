"""What comes in and what goes out in each hour of a day."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from engine.physics.energy_trace import HourBalance
from engine.sheets.charts.kit import BOTTOM, HEIGHT, LEFT, RIGHT, TOP, WIDTH, Key, along, bar, grid, plot
from engine.sheets.charts.scale import Scale, energy_unit
from engine.units import System, show

CAPTION = "In and out by the hour"

LEAST_WH = 1.0
"""Less than this a day is not worth a word."""


@lru_cache(maxsize=64)
def hours(day: tuple[HourBalance, ...], kind: str, meaning: str, month: str, units: System, below: Markup) -> Markup:
    """The chart ``energy-hours``: 24 bars upward and downward. below: the choice of another day."""
    most = max(1.0, *(h.sun_wh + h.alternator_wh + h.shore_wh for h in day))
    least = max(1.0, *(h.load_wh + h.loss_wh for h in day))
    x = Scale(0, 24, LEFT, WIDTH - RIGHT)
    y = Scale(-least * 1.05, most * 1.05, HEIGHT - BOTTOM, TOP)
    zero, width = y.at(0), (x.at(1) - x.at(0)) * 0.8
    body = [grid(y, 5, energy_unit(max(most, least), "W"), "up: in, down: out")]
    for i, h in enumerate(day):
        left = x.at(i + 0.1)
        up, more = zero - y.at(h.sun_wh), zero - y.at(h.alternator_wh)
        down, lost = y.at(-h.load_wh) - zero, y.at(-h.loss_wh) - zero
        body += [
            bar(left, zero - up, width, up, "sun"),
            bar(left, zero - up - more, width, more, "engine"),
            bar(left, zero, width, down, "load"),
            bar(left, zero + down, width, lost, "loss"),
        ]
    body.append(along([(x.at(h), f"{h:02d}") for h in range(0, 25, 3)], HEIGHT - BOTTOM / 2))
    sun, engine, load, loss = (
        show(sum(getattr(h, name) for h in day), "wh", units)
        for name in ("sun_wh", "alternator_wh", "load_wh", "loss_wh")
    )
    unmet_wh, spilled_wh = sum(h.unmet_wh for h in day), sum(h.spilled_wh for h in day)
    missing = "" if unmet_wh < LEAST_WH else show(unmet_wh, "wh", units)
    if missing:
        load += f", {missing} more wanted of an empty battery"
    full = "; as taken: a full battery takes no more" if spilled_wh >= LEAST_WH else ""
    key = (
        Key("sun", f"sun {sun}"), Key("engine", f"driving {engine}"), Key("load", f"loads {load}"),
        Key("loss", f"losses {loss}"), Key("none", f"{kind}: {meaning}{full}"),
    )  # fmt: skip
    said = (
        f"A {kind} in {month} ({meaning}), by the sundial: sun {sun} as the panels give it, driving {engine}; "
        f"loads {load}, lost on the way {loss}. What is more comes from the battery or goes into it."
    )
    caption = f"{CAPTION}, {kind} in {month}"
    return plot("energy-hours", caption, "Energy in and out by hour", said, body, key, below=below)
