"""Its length, width and height stay within what may be on the road without a permit.

Mirrors and lamps do not count. Height counts with what stands on the roof. Laws change and states differ, so the last
word is the authority's.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.legal_limits import SIZES
from engine.rule import JUST_ENOUGH, AtMost, Example, Inputs, Rule, Softened, Source, fact
from engine.units import INCH_M


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
    return Softened(AtMost(x.size_m, x.limit_m, "m", tight_from=JUST_ENOUGH), "note")


def _wide(region: str, width_m: float) -> dict[str, object]:
    size = SIZES[region]
    return {"what": "width", "size_m": width_m, "limit_m": size.width_m, "law": size.law.title}


def _long(region: str, length_m: float) -> dict[str, object]:
    return _wide(region, 0) | {"what": "length", "size_m": length_m, "limit_m": SIZES[region].length_m}


_US_M = SIZES["us"].width_m
RULE = Rule(
    code="vehicle-size",
    title="Outside size on the road",
    topic="mass",
    category="legal",
    inputs=Outside,
    read=read,
    judge=judge,
    formula="length, width, height ≤ the region's limits",
    sources=tuple(Source(*s.law, region) for region, s in SIZES.items()),
    says={
        "ok": "Nearest to its limit is the {what}, {measured} of {limit}. Check with your authority.",
        "note": "Its {what} of {measured} is beyond the {limit} that need no permit ({law}). "
        "Check with your authority before you order.",
    },
    remedy="Choose a smaller vehicle.",
    examples=lambda: (
        Example(_wide("us", _US_M - 6 * INCH_M), "ok", "a box of 96 in", "us"),
        Example(_wide("us", _US_M), "ok", "exactly 102 in", "us"),
        Example(_wide("us", _US_M + 2 * INCH_M), "note", "a wide body of 104 in", "us"),
        Example(_wide("eu", 2.30), "ok", "a box of 2.30 m", "eu"),
        Example(_wide("uk", 2.30), "ok", "a box of 2.30 m", "uk"),
        Example(_wide("au", 2.30), "ok", "a box of 2.30 m", "au"),
        Example(_long("eu", 12.0), "ok", "exactly 12 m", "eu"),
        Example(_wide("uk", 2.55), "ok", "exactly 2.55 m", "uk"),
        Example(_wide("au", 2.50), "ok", "exactly 2.50 m", "au"),
        Example(_wide("eu", 2.60), "note", "a wide body of 2.60 m", "eu"),
        Example(_wide("uk", 2.60), "note", "a wide body of 2.60 m", "uk"),
        Example(_long("au", 12.6), "note", "a bus of 12.6 m", "au"),
    ),
    caution=f"{cautions.AUTHORITY} {cautions.STATES}",
)
