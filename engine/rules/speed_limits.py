"""A heavy motor home has lower speed limits than a car.

In the United Kingdom they hold from an unladen mass on: without fuel, water, gas, people and belongings. A fact to know
before buying and no fault of the build.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.legal_limits import SLOWER
from engine.rule import JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, Source, Unknown, fact, mass_unknown


class Unladen(Inputs):
    """Unladen mass against the figure of the law."""

    unladen_kg: float = fact("unladen: no fuel, water, gas, people or belongings", "computed", gt=0)
    spread_kg: float = fact("half-width of its 90 % band", "computed", ge=0)
    above_kg: float = fact("unladen mass above which limits are lower", "regulation", gt=0)
    limits: str = fact("the lower limits", "regulation")


def read(build: Build, figures: Figures) -> Unladen | Unknown | None:
    """Nothing to ask where the region's law names no such figure."""
    legal, mass = figures.legal, figures.mass
    if legal.slower is None:
        return None
    if mass.not_stated:
        return mass_unknown(build, mass.not_stated, mass.not_stated)
    return Unladen(
        unladen_kg=legal.unladen_kg,
        spread_kg=legal.spread_kg,
        above_kg=legal.slower.above_kg,
        limits=legal.slower.remark,
    )


def judge(x: Unladen) -> Softened:
    """Above the figure is worth a note, and so is a band that reaches above it; exactly at it nothing changes."""
    low, high = x.unladen_kg - x.spread_kg, x.unladen_kg + x.spread_kg
    return Softened(AtMost(x.unladen_kg, x.above_kg, "kg", tight_from=JUST_ENOUGH, low=low, high=high), "note")


_UK = SLOWER["uk"]


def _example(unladen_kg: float, spread_kg: float = 0.0) -> dict[str, object]:
    return {"unladen_kg": unladen_kg, "spread_kg": spread_kg, "above_kg": _UK.above_kg, "limits": _UK.remark}


RULE = Rule(
    code="speed-limits",
    title="Speed limits of a heavy motor home",
    topic="mass",
    category="legal",
    inputs=Unladen,
    read=read,
    judge=judge,
    formula="unladen mass ≤ 3,050 kg",
    sources=(Source(*_UK.law),),
    says={
        "ok": "Unladen it stays within {limit}: the speed limits of cars hold. Check with your authority.",
        "note": "Unladen it weighs {measured}{band}. Above {limit} lower limits hold: {limits}. "
        "Weigh the finished vehicle without fuel, water and gas, and check with your authority.",
    },
    remedy="Weigh the finished vehicle and drive by its figure.",
    examples=lambda: (
        Example(_example(2810), "ok", "a van of 3,500 kg"),
        Example(_example(3050), "ok", "exactly 3,050 kg"),
        Example(_example(3051), "note", "1 kg more"),
        Example(_example(3000, 80), "note", "the band reaches above"),
    ),
    regions=" ".join(SLOWER),
    caution=f"{cautions.WEIGHBRIDGE} {cautions.AUTHORITY}",
)
