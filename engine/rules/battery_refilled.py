"""Something fills the house battery again.

Days off the grid are days from one full battery to the next. A charger on a hook-up or a generator makes it full, with
the inlet that feeds it, and so does the engine of a vehicle with a charger on it. A build with none of them has only
its sun, which then has to bring in the hardest month what a day takes: else the battery runs empty sooner or later, and
stays so.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.sun_power import too_dark
from engine.catalogue.facets import AlternatorCharger, Battery, ShoreCharger, ShoreInlet, SolarPanel
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Holds, Inputs, Rule, fact
from engine.units import MONTHS

_ENGINE = "Add a charger for a hook-up with its inlet, or a charger on the alternator"
_SUN = "Add a charger for a hook-up with its inlet, a charger on the alternator, or more panels"


class Refilled(Inputs):
    """What can fill the battery."""

    filled_by: str = fact("what can fill it beside the sun", "chosen")
    month: str = fact("hardest of the chosen months", "chosen")
    sun_wh: float = fact("from the sun on its mean day", "computed", ge=0)
    use_wh: float = fact("taken a day, at the battery", "computed", gt=0)
    ways: str = Field(default=_SUN, description="the ways out")
    still: bool = fact("only the engine fills it, and the trip has no driving", "chosen", default=False)


def read(build: Build, figures: Figures) -> Refilled | None:
    """Nothing to ask without a battery, or while nothing takes power."""
    p = figures.hardest
    if not p.bank.groups or not p.use_wh_d:
        return None
    plugged = build.ids(ShoreInlet) or "shore-inlet" not in build.offered_kinds
    chargers, engine = build.ids(ShoreCharger) if plugged else (), build.ids(AlternatorCharger)
    drives = engine and (build.trip.driving_h or not chargers)
    every = [*(["a hook-up"] if chargers else []), *(["driving"] if drives else [])]
    return Refilled(
        options=build.ids(Battery, ShoreCharger, AlternatorCharger, SolarPanel),
        lacks="" if chargers or engine else "shore-charger" if plugged else "shore-inlet",
        filled_by=" and ".join(every),
        month=MONTHS[p.sun_month - 1],
        sun_wh=p.sun_wh_d,
        use_wh=p.use_wh_d,
        # A roof that has no place for all the chosen panels has none for more.
        ways=_SUN if figures.roof.packing.complete and not too_dark(build, p.sun_month) else _ENGINE,
        still=bool(engine) and not chargers and not build.trip.driving_h and p.sun_wh_d < p.use_wh_d,
    )


def judge(x: Refilled) -> Holds | AtLeast:
    """Holds with a charger on a hook-up or on the engine; else the sun against the use, both on a mean day."""
    if x.filled_by:
        return Holds(not x.still, "note")
    return AtLeast(x.sun_wh, x.use_wh, "wh")


_WINTER = {"month": "December", "use_wh": 770}
RULE = Rule(
    code="battery-refilled",
    title="What fills the battery again",
    topic="power",
    category="function",
    inputs=Refilled,
    read=read,
    judge=judge,
    formula="a charger on a hook-up or on the engine; else sun ≥ use, on a mean day of the hardest chosen month",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "The house battery is filled again by {filled_by:the sun alone: on a mean day in {month} it brings "
        "{sun_wh}, and {use_wh} are used|#|#}.",
        "note": "Only the engine can fill the house battery again, and this trip has no driving: in {month} the sun "
        "brings {sun_wh} of the {use_wh} used on a mean day.",
        "tight": "Nothing but the sun fills the house battery again. On a mean day in {month} it brings {measured}, "
        "and {limit} are used.",
        "fails": "Neither a hook-up nor the engine charges the house battery in this build. In {month} the sun brings "
        "{measured} a day of the {limit} used: once empty, the battery stays so.",
    },
    remedy="{ways}.",
    examples=lambda: (
        Example(_WINTER | {"filled_by": "a hook-up and driving", "sun_wh": 90}, "ok", "two chargers"),
        Example(_WINTER | {"filled_by": "", "sun_wh": 90}, "fails", "two panels in a northern winter, nothing else"),
        Example(_WINTER | {"filled_by": "", "sun_wh": 2, "ways": _ENGINE}, "fails", "the same in the polar night"),
        Example(_WINTER | {"filled_by": "", "sun_wh": 770}, "tight", "exactly what is used"),
        Example(
            {"filled_by": "", "month": "June", "sun_wh": 2100, "use_wh": 600}, "ok", "the same build lives from the sun"
        ),
        Example(_WINTER | {"filled_by": "driving", "sun_wh": 90, "still": True}, "note", "an engine that rests"),
    ),
    offers="shore-charger",
    follows=("battery-cold-charge", "hookup-inlet"),
    caution=cautions.BATTERY,
)
