"""Taps and showers get water: there is a fresh tank, a pump that brings it to them, and a battery that runs it."""

from engine.build import Build, Figures
from engine.catalogue.facets import Battery, FreshTank, Pump, WaterOutlet
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed


class Fed(Inputs):
    """Taps and showers, and one thing that they need."""

    name: str = fact("what needs water", "chosen")
    lacking: str = fact("what it needs", "computed")
    fed: bool = fact("whether that is chosen", "chosen")


def read(build: Build, figures: Figures) -> list[Fed] | None:
    """Nothing to ask without taps and showers; else one question for the tank, one for the pump."""
    taps = [p for p, _ in build.facets(WaterOutlet)]
    if not taps:
        return None
    names = dict.fromkeys(p.option.name for p in taps)
    ids = tuple(dict.fromkeys(p.option.id for p in taps))
    pumps, battery = build.ids(Pump), bool(build.ids(Battery))
    tanks, name = build.ids(FreshTank), listed(names)
    still = "house battery to run the pump" if pumps and not battery else "water pump"
    kind = "" if pumps and battery else "battery" if pumps else "pump"
    return [
        Fed(options=ids + tanks, lacks="" if tanks else "fresh-tank", name=name, lacking="fresh tank", fed=bool(tanks)),
        Fed(options=ids + pumps, lacks=kind, name=name, lacking=still, fed=bool(pumps) and battery),
    ]


def judge(x: Fed) -> Holds:
    """Holds when it is chosen."""
    return Holds(x.fed)


RULE = Rule(
    code="taps-fed",
    title="Water to taps and showers",
    topic="water",
    category="function",
    inputs=Fed,
    read=read,
    judge=judge,
    formula="tap or shower → fresh tank, pump and battery chosen",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "There is a {lacking} for: {name}.",
        "fails": "There is no {lacking}, so no water comes to: {name}.",
    },
    remedy="Add a {lacking}, or leave the taps out.",
    examples=lambda: (
        Example({"name": "Galley with sink", "lacking": "water pump", "fed": True}, "ok", "a pump is chosen"),
        Example({"name": "Galley with sink", "lacking": "water pump", "fed": False}, "fails", "a tank, but no pump"),
        Example(
            {"name": "Galley with sink", "lacking": "house battery to run the pump", "fed": False},
            "fails",
            "a pump that nothing runs",
        ),
    ),
    offers="pump",
)
