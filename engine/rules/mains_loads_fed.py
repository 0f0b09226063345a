"""Mains appliances that are to run off the grid have an inverter, and the inverter has a battery."""

from engine.build import Build, Figures
from engine.catalogue.facets import AcLoad, AirConditioner, Battery, Inverter
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed


class Fed(Inputs):
    """An appliance or inverter and what feeds it."""

    name: str = fact("what wants to be fed", "chosen")
    lacking: str = fact("what feeds it", "computed")
    fed: bool = fact("whether that is chosen", "chosen")


def read(build: Build, figures: Figures) -> list[Fed]:
    """One question for all mains loads together, one for the inverter."""
    loads = [p for p, f in build.facets(AcLoad) if not f.shore_only]
    loads += [p for p, f in build.facets(AirConditioner) if f.supply == "mains" and build.trip.cooling]
    inverters = build.ids(Inverter)
    found = []
    if loads:
        found.append(
            Fed(
                options=(*(p.option.id for p in loads[:3]), *inverters),
                name=listed(p.option.name for p in loads[:3]),
                lacking="an inverter",
                fed=bool(inverters),
            )
        )
    if inverters:
        found.append(
            Fed(options=inverters, name="the inverter", lacking="a house battery", fed=bool(build.ids(Battery)))
        )
    return found


def judge(x: Fed) -> Holds:
    """Holds when the feeder is chosen."""
    return Holds(x.fed)


RULE = Rule(
    code="mains-loads-fed",
    title="What feeds the mains appliances",
    topic="power",
    category="function",
    inputs=Fed,
    read=read,
    judge=judge,
    formula="mains loads chosen → inverter chosen → battery chosen",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Away from a hook-up {lacking} feeds: {name}.",
        "fails": "Away from a hook-up nothing feeds: {name}. It takes {lacking}, and none is chosen.",
    },
    remedy="Add {lacking}, or run it on a hook-up only.",
    examples=(
        Example({"name": "Microwave", "lacking": "an inverter", "fed": True}, "ok", "an inverter is chosen"),
        Example({"name": "Microwave", "lacking": "an inverter", "fed": False}, "fails", "no inverter"),
    ),
    offers="inverter",
    caution="Mains voltage kills: a licensed electrician installs and tests it under the local code.",
)
