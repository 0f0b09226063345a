"""Mains appliances that are to run off the grid have an inverter, and the inverter has a battery.

A generator feeds those that somebody switches on, and an air conditioner, while it runs; a fridge at mains voltage
wants to be fed day and night.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import AcLoad, AirConditioner, Battery, Generator, Inverter
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed


class Fed(Inputs):
    """Mains appliances, or an inverter by itself, and what feeds them."""

    name: str = fact("what wants to be fed", "chosen")
    feeds: str = fact("what feeds it, when all of it is chosen", "computed")
    fed: bool = fact("whether all of it is chosen", "chosen")
    lacking: str = fact("what of that is not chosen", "computed", default="a house battery")
    instead: str = Field(default="", description="what else would do, as the end of a sentence")


def read(build: Build, figures: Figures) -> Fed | None:
    """One question for all mains loads together, or for an inverter that has none."""
    loads = [p for p, f in build.facets(AcLoad) if not f.shore_only]
    loads += [p for p, f in build.facets(AirConditioner) if f.supply == "mains" and build.trip.cooling]
    inverters, generators = build.ids(Inverter), build.ids(Generator)
    if not loads and not inverters:
        return None
    always = [p for p, f in build.facets(AcLoad) if not f.shore_only and f.running != "now-and-then"]
    if generators and not inverters and not always:
        return Fed(
            options=(*(p.option.id for p in loads[:3]), *generators),
            name=listed(p.option.name for p in loads[:3]),
            feeds=f"{build.option_names[generators[0]]} (while it runs)",
            fed=True,
        )
    if generators and not inverters:
        loads = always
    lacking = ["an inverter"] if not inverters else []
    lacking += ["a house battery"] if not build.ids(Battery) else []
    return Fed(
        options=(*(p.option.id for p in loads[:3]), *inverters),
        lacks="inverter" if not inverters else "battery" if lacking else "",
        name=listed(p.option.name for p in loads[:3]) or "the inverter",
        feeds="an inverter on the house battery" if loads else "a house battery",
        fed=not lacking,
        lacking=" and ".join(lacking),
        instead=", or use it on a hook-up only" if loads else "",
    )


def judge(x: Fed) -> Holds:
    """Holds when all of it is chosen."""
    return Holds(x.fed)


_MICROWAVE = {
    "name": "Microwave", "feeds": "an inverter on the house battery", "instead": ", or use it on a hook-up only"
}  # fmt: skip
RULE = Rule(
    code="mains-loads-fed",
    title="What feeds the mains appliances",
    topic="power",
    category="function",
    inputs=Fed,
    read=read,
    judge=judge,
    formula="mains loads chosen → inverter chosen → battery chosen; or a generator for those not always on",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Away from a hook-up {feeds} feeds: {name}.",
        "fails": "Away from a hook-up nothing feeds: {name}. It takes {lacking}, and none is chosen.",
    },
    remedy="Add {lacking}{instead}.",
    examples=lambda: (
        Example(_MICROWAVE | {"fed": True}, "ok", "inverter and battery are chosen"),
        Example(_MICROWAVE | {"feeds": "a generator (while it runs)", "fed": True}, "ok", "a generator aboard"),
        Example(_MICROWAVE | {"fed": False, "lacking": "an inverter"}, "fails", "no inverter"),
        Example(_MICROWAVE | {"fed": False}, "fails", "an inverter with nothing behind it"),
        Example(
            {"name": "the inverter", "feeds": "a house battery", "fed": False},
            "fails",
            "an inverter by itself",
        ),
    ),
    offers="inverter",
    caution=cautions.MAINS,
)
