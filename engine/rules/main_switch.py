"""The main switch carries what the main cable carries."""

from engine import cautions
from engine.build import Build, Figures
from engine.catalogue.facets import BatterySwitch
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, fact


class Switch(Inputs):
    """The switch that cuts the battery off."""

    main_a: float = fact("current with inverter at its rating and all on, short starts aside", "computed", gt=0)
    rating_a: float = fact("current the switch carries for long", "catalogue", gt=0)


def read(build: Build, figures: Figures) -> Switch | None:
    """Nothing to ask without battery, or where no option states a switch."""
    c = figures.circuits
    if c.main_a is None or c.switch_a is None:
        return None
    return Switch(options=build.ids(BatterySwitch), main_a=c.main_a, rating_a=c.switch_a)


def judge(x: Switch) -> AtMost:
    """Main current against the switch's rating."""
    return AtMost(x.main_a, x.rating_a, "a", tight_from=0.95)


RULE = Rule(
    code="main-switch",
    title="Main switch of the battery",
    topic="power",
    category="safety",
    inputs=Switch,
    read=read,
    judge=judge,
    formula="I_main ≤ rating",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "Everything at once takes {measured}; the main switch carries {limit}.",
        "tight": "Everything at once takes {measured}, close to the {limit} that the main switch carries.",
        "fails": "Everything at once takes {measured}; the main switch carries {limit}.",
    },
    remedy="Choose a switch with a higher rating, or a battery of higher voltage.",
    examples=lambda: (
        Example({"main_a": 263, "rating_a": 350}, "ok", "75 %"),
        Example({"main_a": 300, "rating_a": 300}, "tight", "exactly at the rating"),
        Example({"main_a": 360, "rating_a": 300}, "fails", "120 %"),
    ),
    offers="battery-switch",
    caution=cautions.BATTERY,
)
