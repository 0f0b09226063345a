"""Its length, width and height stay within what may be on the road without a permit.

Mirrors and lamps do not count. Height counts with what stands on the roof. Laws change and states differ, so the last
word is the authority's.
"""

from engine.build import Build, Figures
from engine.build.legal_limits import SIZES
from engine.rule import AtMost, Example, Inputs, Rule, Softened, Source, fact


class Outside(Inputs):
    """The outside measure that comes nearest to its limit."""

    what: str = fact("length, width or height", "computed")
    size_m: float = fact("that measure", "catalogue", gt=0)
    limit_m: float = fact("largest without a permit", "regulation", gt=0)
    law: str = fact("law", "regulation")


def read(build: Build, figures: Figures) -> Outside:
    """The measure that fills most of its limit."""
    size = figures.legal.size
    measures = (
        ("length", build.vehicle.length_m, size.length_m),
        ("width", build.vehicle.width_m, size.width_m),
        ("height", figures.roof_load.height_m, size.height_m),
    )
    what, size_m, limit_m = max(
        ((what, m, limit) for what, m, limit in measures if limit is not None), key=lambda x: x[1] / x[2]
    )
    return Outside(what=what, size_m=size_m, limit_m=limit_m, law=size.law.title)


def judge(x: Outside) -> Softened:
    """Beyond the limit it takes an approval of its own: worth a note. Exactly at the limit is within it."""
    return Softened(AtMost(x.size_m, x.limit_m, "m", tight_from=1.0001), "note")


_UK = {"law": SIZES["uk"].law.title}
RULE = Rule(
    code="vehicle-size",
    title="Outside size on the road",
    topic="mass",
    category="legal",
    inputs=Outside,
    read=read,
    judge=judge,
    formula="length, width, height ≤ the region's limits",
    sources=tuple(Source(*s.law) for s in SIZES.values()),
    says={
        "ok": "Nearest to its limit is the {what}, {measured} of {limit}. Check with your authority.",
        "note": "Its {what} of {measured} is beyond the {limit} that need no permit ({law}). "
        "Check with your authority before you order.",
    },
    remedy="Choose a smaller vehicle.",
    examples=(
        Example(_UK | {"what": "width", "size_m": 2.30, "limit_m": 2.55}, "ok", "a box of 2.30 m"),
        Example(_UK | {"what": "length", "size_m": 12.0, "limit_m": 12.0}, "ok", "exactly 12 m"),
        Example(_UK | {"what": "width", "size_m": 2.55, "limit_m": 2.55}, "ok", "exactly 2.55 m"),
        Example(_UK | {"what": "width", "size_m": 2.60, "limit_m": 2.55}, "note", "a wide body of 2.60 m"),
    ),
    caution="Ratings, licences and approvals are law: check with your authority. Licences and permits differ by state.",
)
