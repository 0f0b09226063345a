"""Who may drive it: the licence that the gross rating asks for.

Licences follow the rating on the plate, not what the scale shows. A fact to know before buying and no fault of the
build; laws change and states differ, so the last word is the authority's.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.legal_limits import LICENCES
from engine.rule import JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, Source, fact


class Licence(Inputs):
    """A gross rating among the region's licence classes."""

    rating_kg: float = fact("gross rating", "catalogue", gt=0)
    ordinary_kg: float = fact("up to where the ordinary licence reaches", "regulation", gt=0)
    ordinary: str = fact("the ordinary licence", "regulation")
    needed: str = fact("licence for this rating", "regulation")
    remark: str = fact("to know", "regulation")


def read(build: Build, figures: Figures) -> Licence:
    """The vehicle's rating against the region's classes."""
    legal = figures.legal
    assert legal.ordinary.upto_kg is not None  # the first class of every region has an end
    return Licence(
        rating_kg=legal.gross_kg,
        ordinary_kg=legal.ordinary.upto_kg,
        ordinary=legal.ordinary.licence,
        needed=legal.needed.licence,
        remark=legal.needed.remark,
    )


def judge(x: Licence) -> Softened:
    """Beyond the ordinary licence is worth a note, never a warning; exactly at its end it is enough."""
    return Softened(AtMost(x.rating_kg, x.ordinary_kg, "kg", tight_from=JUST_ENOUGH), "note")


def _example(region: str, rating_kg: float, at: int) -> dict[str, object]:
    steps = LICENCES[region].steps
    return {
        "rating_kg": rating_kg, "ordinary_kg": steps[0].upto_kg, "ordinary": steps[0].licence,
        "needed": steps[at].licence, "remark": steps[at].remark,
    }  # fmt: skip


RULE = Rule(
    code="driving-licence",
    title="Driving licence",
    topic="mass",
    category="legal",
    inputs=Licence,
    read=read,
    judge=judge,
    formula="gross rating ≤ end of the ordinary licence",
    sources=tuple(Source(*x.law, region) for region, x in LICENCES.items()),
    says={
        "ok": "Rated {measured}: {ordinary} is enough, up to {limit}. Check with your authority.",
        "note": "Rated {measured}, above the {limit} of {ordinary}. It takes {needed}. {remark} "
        "Check with your authority.",
    },
    remedy="Choose a vehicle with a lower rating, or have this one plated lower where the masses allow it.",
    examples=lambda: (
        Example(_example("uk", 3500, 0), "ok", "van of exactly 3,500 kg", "uk"),
        Example(_example("uk", 3501, 1), "note", "1 kg more", "uk"),
        Example(_example("uk", 7500, 1), "note", "exactly at the end of C1", "uk"),
        Example(_example("uk", 7501, 2), "note", "above C1", "uk"),
        Example(_example("eu", 4250, 1), "note", "where the new directive will reach", "eu"),
        Example(_example("eu", 7200, 2), "note", "C1", "eu"),
        Example(_example("us", 11770.72, 0), "ok", "box truck of 25,950 lb, private use", "us"),
        Example(_example("us", 13517.05, 1), "note", "bus of 29,800 lb, private use", "us"),
        Example(_example("au", 4500, 0), "ok", "exactly 4.5 t", "au"),
        Example(_example("au", 4495, 0), "ok", "just below 4.5 t", "au"),
        Example(_example("au", 7490, 1), "note", "light rigid", "au"),
    ),
    caution=f"{cautions.AUTHORITY} {cautions.STATES}",
)
