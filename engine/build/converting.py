"""Loads of one direct voltage on a house battery of another: which go through a converter, and what that costs."""

from typing import NamedTuple

from engine.build.loads import DC_V, Load
from engine.build.model import Build
from engine.catalogue.facets import Converter
from engine.physics.converter import Converter as Label
from engine.physics.converter import converted

SAME_FRAC = 0.25
"""Nominal voltages of one system differ by less than this (12 and 12.8, 24 and 25.6)."""

CLASS_V = 13.2
"""In the midst of all that a system of 12 V has, from its round voltage to the end of a charge; 24, 36 and 48 V have
two, three and four times that."""


def made_for(device_v: float, battery_v: float) -> bool:
    """Whether a device of that voltage, nominal or charging, belongs to a battery of this one."""
    one_class = round(device_v / CLASS_V) == round(battery_v / CLASS_V)
    return one_class and abs(device_v - battery_v) <= SAME_FRAC * battery_v


class Converting(NamedTuple):
    """The converters of a build, on its battery."""

    battery_v: float | None
    ids: tuple[str, ...]
    output_v: float | None
    """What they make; None without one."""
    output_a: float
    """All of them together."""
    efficiency_frac: float
    idle_w: float
    """All of them together, with nothing switched on."""

    def made_for_battery(self, load: Load) -> bool:
        """Whether a load takes the battery's own voltage."""
        if load.straight or self.battery_v is None:
            return True
        made_v = load.supply_v or DC_V
        return (1 - SAME_FRAC) * made_v <= self.battery_v <= (1 + SAME_FRAC) * max(made_v, load.highest_v or 0.0)

    def behind(self, load: Load) -> bool:
        """Whether a load at direct voltage hangs behind a converter."""
        return self.output_v is not None and not self.made_for_battery(load)

    def battery_w(self, load: Load, power_w: float) -> float:
        """What the battery gives for so much of a load; the converter's own draw is counted apart."""
        if not self.behind(load):
            return power_w
        assert self.output_v is not None and self.battery_v is not None  # held by `behind`
        label = Label(self.output_v, self.output_a, self.efficiency_frac)
        return converted(power_w, label, self.battery_v).input_w


def converting(build: Build, battery_v: float | None) -> Converting:
    """The converters of a build; several of one kind share the loads."""
    found = build.facets(Converter)
    first = found[0][1] if found else None
    return Converting(
        battery_v=battery_v,
        ids=tuple(p.option.id for p, _ in found),
        output_v=first.output_v if first else None,
        output_a=sum(f.output_a * p.count for p, f in found),
        efficiency_frac=min((f.efficiency_frac for _, f in found), default=1.0),
        idle_w=sum(f.idle_w * p.count for p, f in found),
    )
