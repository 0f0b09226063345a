"""The battery's voltage stays above the inverter's cut-out at the largest start.

Every battery has a resistance inside, and it grows in the cold. Under a heavy load its voltage sags, the inverter
takes more current to make up for it, and below its cut-out it switches off, though the battery is far from empty. Small
and old batteries and lead-acid ones in the cold do this first. Judged with the battery half empty; a full one stands
higher. Asked where the inverter's cut-out is stated.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.circuits import inverter_cable_ohm
from engine.build.loads import softer
from engine.catalogue.facets import Battery
from engine.physics.battery_sag import loaded_v
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Inputs, Rule, Unknown, fact

CABLE_DROP_FRAC = 0.03
"""Voltage lost in cables at the inverter's rated power where no cable of the schedule is enough (assumption)."""

COLD_DEGC = 10.0
"""Below this the resistance of a battery grows with every degree (common practice)."""


class Sag(Inputs):
    """Battery, cables and a heavy load."""

    moment: str = fact("what is asked for at that moment", "computed")
    softer: str = fact("what helps against the start", "computed", default="choose a motor with a soft start")
    warmer: str = Field(default=", keep it warm", description="what helps against its cold, in a sentence")
    load_w: float = fact("power at the inverter's battery side", "computed", ge=0)
    rest_v: float = fact("battery voltage at rest, half empty", "catalogue", gt=0)
    lost_v: float = fact("voltage lost inside battery and cables at 100 A", "computed", gt=0)
    cable_v: float = fact("of that, in cables and fuse joints as in the wiring schedule", "computed", ge=0, default=0.0)
    cells_degc: float = fact("its cells on the coldest morning", "computed")
    cutoff_v: float = fact("cut-out voltage of the inverter", "catalogue", gt=0)
    charge_v: float | None = fact(
        "its charging voltage: no full one rests higher", "computed", ge=2, le=100, default=None
    )

    @property
    def however(self) -> str:
        """That no charge helps, where that is certain."""
        if self.charge_v is None or _under_load_v(self, self.charge_v) >= self.cutoff_v:
            return ""
        return ", however full the battery is"


def read(build: Build, figures: Figures) -> Sag | Unknown | None:
    """Nothing to ask without battery, inverter and loads, where no cut-out is stated, or at a wrong voltage."""
    p, inverter = figures.power, figures.power.inverter
    if p.battery_v is None or inverter is None or not p.demand.together or inverter.ids[0] in p.unlike_ids:
        return None
    ids = (*build.ids(Battery), *inverter.ids)
    if inverter.cutoff_v is None:
        stated = any(f.internal_ohm is not None for _, f in build.facets(Battery))
        return Unknown("cut-out voltage of the inverter", "Read it from the inverter's sheet.", ids) if stated else None
    if p.bank.inner_ohm is None:
        return Unknown("resistance of the battery in such cold", "Ask its maker, or keep the battery warmer.", ids)
    start = p.demand.start
    cable_ohm = inverter_cable_ohm(figures.circuits, inverter.ids)
    if cable_ohm is None:
        cable_ohm = CABLE_DROP_FRAC * p.battery_v**2 * inverter.efficiency_frac / inverter.rated_w
    ohm = p.bank.inner_ohm + cable_ohm
    cells_degc = min(g.morning_degc for g in p.bank.groups)
    return Sag(
        options=ids,
        moment=f"When {start.name} starts" if start else f"With {p.demand.together[0].name} running",
        softer=softer(start),
        warmer=", keep it warm" if cells_degc < COLD_DEGC else "",
        load_w=max(p.demand.start_va, p.demand.ac_w) / inverter.efficiency_frac,
        rest_v=p.battery_v,
        lost_v=ohm * 100,
        cable_v=cable_ohm * 100,
        cells_degc=cells_degc,
        cutoff_v=inverter.cutoff_v,
        charge_v=p.bank.charge_v,
    )


def _under_load_v(x: Sag, rest_v: float) -> float:
    """A battery that cannot give the power at all counts as half its voltage."""
    loaded = loaded_v(rest_v, x.lost_v / 100, x.load_w)
    return rest_v / 2 if loaded is None else loaded


def judge(x: Sag) -> AtLeast:
    """Loaded voltage of the half-empty battery against the cut-out."""
    return AtLeast(_under_load_v(x, x.rest_v), x.cutoff_v, "v", tight_from=0.98)


_AIR = {"moment": "When Air conditioner starts", "cells_degc": 10, "rest_v": 12, "cutoff_v": 10.5}
RULE = Rule(
    code="battery-sag",
    title="Battery voltage under the heaviest load",
    topic="power",
    category="function",
    inputs=Sag,
    read=read,
    judge=judge,
    formula="U = (E + √(E² − 4·P·R))/2 ≥ cut-out of the inverter",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{moment} the voltage of a half-empty battery falls to {measured} with its cells at {cells_degc}; the "
        "inverter cuts out at {limit}.",
        "tight": "{moment} the voltage of a half-empty battery falls to {measured} with its cells at {cells_degc}, "
        "close to the {limit} at which the inverter cuts out.",
        "fails": "{moment} the voltage of a half-empty battery falls to {measured} with its cells at {cells_degc}; the "
        "inverter cuts out at {limit}{however}.",
    },
    remedy="Add a battery in parallel{warmer}, or {softer}.",
    examples=lambda: (
        Example(_AIR | {"load_w": 2045, "lost_v": 0.2}, "ok", "lithium: 11.65 V"),
        Example(_AIR | {"load_w": 2100, "lost_v": 0.75}, "tight", "exactly at the cut-out"),
        Example(_AIR | {"load_w": 2045, "lost_v": 0.75}, "tight", "just above it"),
        Example(_AIR | {"load_w": 2200, "lost_v": 0.75}, "fails", "small lead-acid battery: 10.4 V"),
        Example(_AIR | {"load_w": 2200, "lost_v": 0.75, "charge_v": 14.3}, "fails", "the same: full it may start"),
        Example(_AIR | {"load_w": 9000, "lost_v": 0.75, "charge_v": 14.3}, "fails", "more than it can give at all"),
    ),
    offers="battery",
    caution=cautions.BATTERY,
)
