"""Loads made for another voltage than the house battery's are fed by a converter.

Lights, pumps and fans are mostly made for 12 V. On a house battery of 24 or 48 V they burn out at once, unless a
converter feeds them, or they are made for several voltages as many fridges are. Asked for loads whose voltage the
catalogue states.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.converting import made_for
from engine.catalogue.facets import Battery, Converter
from engine.rule import COMMON_PRACTICE, Example, Holds, Inputs, Rule, fact, listed


class Supply(Inputs):
    """Loads of one voltage, and what there is for them."""

    names: str = fact("loads made for another voltage", "chosen")
    names_count: float = fact("how many they are", "chosen", default=2, ge=1)
    load_v: float = fact("voltage they are made for", "catalogue", gt=0)
    battery_v: float = fact("nominal battery voltage", "catalogue", gt=0)
    converter_v: float = fact("voltage that the converter makes; 0 without one", "catalogue", ge=0)


def read(build: Build, figures: Figures) -> list[Supply]:
    """One question for each voltage that the battery itself does not give."""
    p = figures.power
    if p.battery_v is None:
        return []
    other = [x for x in p.all_loads if not x.mains and x.supply_v and not p.converting.made_for_battery(x)]
    made_v = [f.output_v for _, f in build.facets(Converter)]
    found = []
    for volts in sorted({x.supply_v for x in other if x.supply_v}):
        these = [x for x in other if x.supply_v == volts]
        more = f" and {len(these) - 3} more" if len(these) > 3 else ""
        found.append(
            Supply(
                options=tuple(
                    dict.fromkeys((*(x.option_id for x in these[:3]), *p.converting.ids, *build.ids(Battery)))
                ),
                lacks="" if p.converting.ids else "converter",
                names=listed(x.name for x in these[:3]) + more,
                names_count=float(len(these)),
                load_v=volts,
                battery_v=p.battery_v,
                converter_v=min((abs(v - volts), v) for v in made_v)[1] if made_v else 0.0,
            )
        )
    return found


def judge(x: Supply) -> Holds:
    """Holds when a converter makes that voltage, a quarter up or down."""
    return Holds(made_for(x.converter_v, x.load_v))


_LIGHTS = {"names": "Lights, Pump", "load_v": 12, "battery_v": 25.6}
RULE = Rule(
    code="dc-voltage",
    title="Voltage of lights, pump and other loads",
    topic="power",
    category="safety",
    inputs=Supply,
    read=read,
    judge=judge,
    formula="battery voltage or converter voltage within 25 % of the load's",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{names} {names_count:is|are} made for {load_v} and {names_count:gets|get} it from the converter; the "
        "house battery has {battery_v}.",
        "fails": "{names} {names_count:is|are} made for {load_v}; the house battery has {battery_v}, and no converter "
        "makes {load_v} of it.",
    },
    remedy="Add a converter to {load_v}.",
    examples=lambda: (
        Example(_LIGHTS | {"converter_v": 12.5}, "ok", "a converter to 12 V"),
        Example(_LIGHTS | {"converter_v": 15}, "ok", "exactly a quarter above"),
        Example(_LIGHTS | {"converter_v": 0}, "fails", "none"),
        Example(_LIGHTS | {"names": "Lights", "names_count": 1, "converter_v": 0}, "fails", "one load"),
        Example(_LIGHTS | {"converter_v": 15.2}, "fails", "just over a quarter above"),
    ),
    offers="converter",
    caution=cautions.BATTERY,
)
