"""The heater of a tank outside is strong enough for the coldest night."""

from engine.build import Build, Figures
from engine.build.frost import tank_in_cold
from engine.rule import COMMON_PRACTICE, AtMost, Example, Holds, Inputs, Rule, Source, fact


class Heater(Inputs):
    """Heat that the tank loses against what its heater gives."""

    name: str = fact("tank", "chosen")
    stated: bool = fact("whether its heater and insulation are stated", "catalogue")
    volume_l: float = fact("what it holds", "catalogue", gt=0)
    insulation_thick_m: float | None = fact("insulation round it", "catalogue", default=None, ge=0)
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
            stated=t.heater_w is not None and t.insulation_m is not None,
            volume_l=t.volume_l,
            insulation_thick_m=t.insulation_m,
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


def _tank(insulation_m: float, heater_w: float | None = None) -> dict[str, str | float | bool]:
    """A waste tank of 80 L with a heater, by default just strong enough."""
    cold = tank_in_cold(80.0, 80.0, insulation_m, -16.0, 1.0, True)
    return {
        "name": "Waste tank", "stated": True, "volume_l": 80, "insulation_thick_m": insulation_m, "night_degc": -16,
        "hold_w": cold.hold_w, "hold_low_w": cold.hold_low_w, "hold_high_w": cold.hold_high_w,
        "heater_w": cold.hold_w if heater_w is None else heater_w,
    }  # fmt: skip


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
    examples=lambda: (
        Example(_tank(0.03, 40), "ok", "insulated, and a pad of 40 W"),
        Example(_tank(0.03), "tight", "exactly enough"),
        Example(_tank(0.0, 40), "fails", "bare, and the same pad"),
        Example(_tank(0.03, 0) | {"stated": False}, "note", "nobody says how strong"),
    ),
    offers="fresh-tank",
)
