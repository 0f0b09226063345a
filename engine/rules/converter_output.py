"""The converter feeds everything behind it that plausibly runs together."""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class Output(Inputs):
    """Loads behind converters, and what these give."""

    load_w: float = fact("power of loads that plausibly run together behind it", "computed", ge=0)
    output_v: float = fact("voltage it makes", "catalogue", gt=0)
    output_a: float = fact("current it gives for long", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Output | None:
    """Nothing to ask without a converter that has something behind it."""
    p = figures.power
    if p.converting.output_v is None or not p.demand.converted_w:
        return None
    return Output(
        options=p.converting.ids,
        load_w=p.demand.converted_w,
        output_v=p.converting.output_v,
        output_a=p.converting.output_a,
    )


def judge(x: Output) -> AtMost:
    """Current of the loads against the rating."""
    return AtMost(x.load_w / x.output_v, x.output_a, "a")


RULE = Rule(
    code="converter-output",
    title="Converter with everything running",
    topic="power",
    category="function",
    inputs=Output,
    read=read,
    judge=judge,
    formula="Σ P / U_output ≤ rated output current",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "What plausibly runs together behind the converter takes {measured} of its {limit}.",
        "tight": "What plausibly runs together behind the converter takes {measured} of its {limit}.",
        "fails": "What plausibly runs together behind the converter takes {measured}; it gives {limit}.",
    },
    remedy="Choose a larger converter, or loads that take the battery's own voltage.",
    examples=lambda: (
        Example({"load_w": 300, "output_v": 12.5, "output_a": 30}, "ok", "24 A of 30 A"),
        Example({"load_w": 337.5, "output_v": 12.5, "output_a": 30}, "tight", "exactly 90 %"),
        Example({"load_w": 375, "output_v": 12.5, "output_a": 30}, "tight", "exactly what it gives"),
        Example({"load_w": 400, "output_v": 12.5, "output_a": 30}, "fails", "32 A of 30 A"),
    ),
    offers="converter",
    caution=cautions.BATTERY,
)
