"""Flow at a shower while another tap is open, behind one pump and one run of pipe."""

from typing import NamedTuple

from engine.build.model import Build
from engine.catalogue.facets import Pump, WaterOutlet
from engine.physics.pipe_flow import ELBOW, TEE_BRANCH, Pipe
from engine.physics.taps import PumpCurve, Tap, two_taps

BORE_M = 0.010
TRUNK_M, BRANCH_M = 4.0, 2.0
"""Pipe of 10 mm bore, 4 m in common and 2 m to each tap (assumption; common practice of small conversions)."""

RISE_M = 1.0
"""Height of taps over the pump (assumption)."""


class TapFigures(NamedTuple):
    """Litres a minute."""

    ids: tuple[str, ...]
    shower_name: str
    other_name: str
    alone_l_min: float
    both_l_min: float
    """At the shower while the other tap runs too."""


def tap_figures(build: Build) -> TapFigures | None:
    """The most sparing shower and the strongest other tap inside; None without both, or without a pump."""
    taps = [(p, f) for p, f in build.facets(WaterOutlet) if f.use != "outdoor-shower"]
    showers = [x for x in taps if x[1].use == "shower"]
    others = [x for x in taps if x[1].use != "shower"]
    pumps = build.facets(Pump)
    if not showers or not others or not pumps:
        return None
    shower = min(showers, key=lambda x: x[1].flow_l_min)
    other = max(others, key=lambda x: x[1].flow_l_min)
    pump, f = max(pumps, key=lambda x: x[1].flow_l_min)
    curve = PumpCurve(min(60.0, f.flow_l_min * pump.count), f.pressure_kpa)
    trunk = Pipe(TRUNK_M, BORE_M, 4 * ELBOW)
    branch = Pipe(BRANCH_M, BORE_M, TEE_BRANCH + 2 * ELBOW)
    ways = tuple((branch, Tap(x[1].flow_l_min, rise_m=RISE_M)) for x in (shower, other))
    return TapFigures(
        tuple(dict.fromkeys((pump.option.id, shower[0].option.id, other[0].option.id))),
        shower[0].option.name,
        other[0].option.name,
        two_taps(curve, trunk, ways[0])[0],
        two_taps(curve, trunk, *ways)[0],
    )
