"""The engine's alternator can give what the charger asks for.

A hot alternator gives less than its rating, and the vehicle itself takes part of that. A DC-DC charger asks for more
current than it delivers. Idling is worse still.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import AlternatorCharger
from engine.physics.direct_current import alternator_spare_a
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class Alternator(Inputs):
    """Alternator and charger."""

    wanted_a: float = fact("current the chargers take at the alternator", "computed", gt=0)
    rating_a: float = fact("alternator rating", "catalogue", gt=0)
    hot_frac: float = fact("share of the alternator left when hot", "assumed", gt=0, le=1)
    own_use_a: float = fact("current that the vehicle itself takes", "assumed", ge=0)
    chargers_count: float = fact("chargers on it", "chosen", default=1, ge=1)


def read(build: Build, figures: Figures) -> Alternator | None:
    """Nothing to ask without a charger on the alternator."""
    if not figures.power.alternator.input_a:
        return None
    engine = build.vehicle.engine
    return Alternator(
        options=build.ids(AlternatorCharger),
        wanted_a=figures.power.alternator.input_a,
        rating_a=engine.alternator_a,
        hot_frac=engine.hot_output_frac,
        own_use_a=engine.own_use_a,
        chargers_count=float(sum(p.count for p, _ in build.facets(AlternatorCharger))),
    )


def judge(x: Alternator) -> AtMost:
    """Current wanted against current to spare."""
    return AtMost(x.wanted_a, alternator_spare_a(x.rating_a, x.hot_frac, x.own_use_a), "a")


_TAKES = "{chargers_count:The charger takes|The chargers take} {measured}"
_VAN = {"rating_a": 120, "hot_frac": 0.75, "own_use_a": 45}
RULE = Rule(
    code="alternator-share",
    title="Alternator and its charger",
    topic="power",
    category="function",
    inputs=Alternator,
    read=read,
    judge=judge,
    formula="I_out·U_out/(η·U_in) ≤ rating·hot share − own use",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": _TAKES + " of the {limit} that a hot alternator can spare.",
        "tight": _TAKES + " of the {limit} that a hot alternator can spare.",
        "fails": _TAKES + "; a hot {rating_a} alternator has {limit} to spare.",
    },
    remedy="Choose {chargers_count:a smaller charger|smaller or fewer chargers}, or a larger alternator.",
    examples=lambda: (
        Example(_VAN | {"wanted_a": 34.3}, "ok", "30 A charger: 76 %"),
        Example(_VAN | {"wanted_a": 45}, "tight", "exactly what is to spare"),
        Example(_VAN | {"wanted_a": 40.5}, "tight", "exactly 90 %"),
        Example(_VAN | {"wanted_a": 68.6, "chargers_count": 2}, "fails", "two chargers of 30 A"),
        Example(_VAN | {"wanted_a": 68.6}, "fails", "60 A charger: 152 %"),
    ),
    offers="alternator-charger",
    caution=cautions.ALTERNATOR,
)
