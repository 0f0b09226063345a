"""The heater of a tank outside is strong enough for the coldest night."""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtMost, Example, Holds, Inputs, Rule, Source, fact


class Heater(Inputs):
    """Heat that the tank loses against what its heater gives."""

    name: str = fact("tank", "chosen")
    stated: bool = fact("whether its heater and insulation are stated", "catalogue")
    night_degc: float = fact("coldest night", "catalogue")
    hold_w: float = fact("heat that holds it that night", "computed", ge=0)
    hold_low_w: float = fact("the same, sheltered", "computed", ge=0)
    hold_high_w: float = fact("the same, in wind", "computed", ge=0)
    heater_w: float = fact("what its heater gives", "catalogue", ge=0)


def read(build: Build, figures: Figures) -> list[Heater]:
    """One question for each heated tank outside; none on a trip without frost."""
    return [
        Heater(
            options=(t.option_id,),
            name=t.name,
            stated=t.heater_w is not None and t.insulated,
            night_degc=t.night_degc,
            hold_w=t.hold_w,
            hold_low_w=t.hold_low_w,
            hold_high_w=t.hold_high_w,
            heater_w=t.heater_w or 0.0,
        )
        for t in figures.cold_tanks
        if t.heated
    ]


def judge(x: Heater) -> AtMost | Holds:
    """Heat lost against heat given; without both on paper there is only a note."""
    if not x.stated:
        return Holds(False, "note")
    return AtMost(x.hold_w, x.heater_w, "w", low=x.hold_low_w, high=x.hold_high_w)


_TANK = {"name": "Waste tank", "stated": True, "night_degc": -16, "hold_w": 22, "hold_low_w": 20, "hold_high_w": 23}
RULE = Rule(
    code="tank-heater",
    title="Heaters of tanks outside",
    topic="water",
    category="function",
    inputs=Heater,
    read=read,
    judge=judge,
    formula="A / (1/h + d/λ) · (0 °C − θ_out) ≤ heater",
    sources=(Source("Conduction through plane layers", "any text on heat"), COMMON_PRACTICE),
    says={
        "ok": "{name}: at {night_degc} it loses {measured}{band}; its heater gives {limit}.",
        "tight": "{name}: at {night_degc} it loses {measured}{band}; its heater gives {limit}.",
        "fails": "{name}: at {night_degc} it loses {measured}{band}; its heater gives only {limit}.",
        "note": "{name} has a heater for the frost; how strong it is, or how thick the insulation, is not stated.",
    },
    remedy="Choose a stronger heater or thicker insulation, or drain it before such a night.",
    examples=(
        Example(_TANK | {"heater_w": 40}, "ok", "30 mm of foam and a pad of 40 W"),
        Example(_TANK | {"heater_w": 22}, "tight", "exactly enough"),
        Example(_TANK | {"hold_w": 170, "hold_low_w": 106, "hold_high_w": 425, "heater_w": 40}, "fails", "bare"),
        Example(_TANK | {"stated": False, "heater_w": 0}, "note", "nobody says how strong"),
    ),
    offers="fresh-tank",
)
