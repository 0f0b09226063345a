"""What the alternator spares at idle, for those who would charge with the engine running on the spot.

At idle an alternator gives a part of its rating, and no wind cools it. Asked where the vehicle's file states that
part.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, fact


class Idling(Inputs):
    """Charger and alternator at idle."""

    wanted_a: float = fact("current that the chargers ask for", "computed", gt=0)
    spare_a: float = fact("what the alternator spares at idle", "computed", ge=0)


def read(build: Build, figures: Figures) -> Idling | None:
    """Nothing to ask without a charger on the engine, or where nothing is known of idling."""
    a = figures.power.alternator
    if not a.input_a or a.idle_spare_a is None:
        return None
    return Idling(options=a.ids, wanted_a=a.input_a, spare_a=a.idle_spare_a)


def judge(x: Idling) -> Softened:
    """Too little at idle is a note: it is made for driving."""
    return Softened(AtMost(x.wanted_a, x.spare_a, "a", tight_from=JUST_ENOUGH), "note")


RULE = Rule(
    code="alternator-idle",
    title="Alternator at idle",
    topic="power",
    category="comfort",
    inputs=Idling,
    read=read,
    judge=judge,
    formula="I_out·U_out/(η·U_in) ≤ rating·share at idle − own use",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "At idle the alternator spares {limit}; the charger takes {measured}.",
        "note": "At idle the alternator spares {limit} and the charger asks for {measured}: charge while driving, "
        "not with "
        "the engine running on the spot.",
    },
    remedy="Charge while driving.",
    examples=lambda: (
        Example({"wanted_a": 34.3, "spare_a": 40}, "ok", "a small charger"),
        Example({"wanted_a": 40, "spare_a": 40}, "ok", "exactly what it spares"),
        Example({"wanted_a": 68.6, "spare_a": 15}, "note", "60 A charger on 120 A, half of it at idle"),
    ),
    offers="alternator-charger",
    caution=cautions.ALTERNATOR,
)
