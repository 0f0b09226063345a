"""A tank outside the warm shell, or in a room that heaters do not hold, does not freeze on the trip's cold nights.

A full tank holds much heat and seldom freezes in one night; a waste tank after its first day holds little. Days on end
are another matter, and thin pipes, the valve and a pump freeze long before the tank.
"""

from engine.build import Build, Figures
from engine.build.frost import ColdTank
from engine.rule import AtLeast, Example, Inputs, Rule, Softened, Source, fact
from engine.units import System, show


class Frost(Inputs):
    """A tank in the cold, without a heater of its own."""

    name: str = fact("tank", "chosen")
    drinking: bool = fact("whether it holds drinking water", "catalogue")
    outside: bool = fact("whether it is outside the warm shell", "catalogue", default=True)
    where: str = fact("where it stands, unless it is outside", "computed", default="")
    tank_l: float = fact("water in it: a fresh tank full, a waste tank after its first day", "computed", gt=0)
    cold_degc: float = fact("what it stands in", "catalogue", lt=0)
    around: str = fact("the same in words", "computed", default="in the frost")
    cold_h: float = fact("how long the cold at a tank lasts", "assumed", gt=0)
    freezes_h: float = fact("until its first ice, in still air", "computed", ge=0)
    windy_ice_frac: float = fact("ice after all that time, in moving air", "computed", ge=0, le=1)
    night_degc: float = fact("there on the coldest night", "computed")
    hold_w: float = fact("heat that holds it that night", "computed", ge=0)
    hold_low_w: float = fact("the same, sheltered", "computed", ge=0)
    hold_high_w: float = fact("the same, in moving air", "computed", ge=0)
    day_wh: float = fact("the same for a whole day", "computed", ge=0)
    helps: str = fact("what helps", "computed", default="Choose a tank with its own heater, insulate it")


def _around(degc: float, units: System) -> str:
    """So little below freezing that it would read as freezing itself."""
    return f"just below {show(0.0, 'degc', units)}" if degc > -1 else f"at {show(degc, 'degc', units)}"


def _helps(tank: ColdTank) -> str:
    if tank.heater_w is not None:
        return "Add a house battery for its heater"
    if not tank.outside:
        return "Heat the room"
    return "Choose a tank with its own heater" + ("" if tank.insulated else ", insulate it")


def read(build: Build, figures: Figures) -> list[Frost]:
    """One question for each such tank; none on a trip without frost."""
    return [
        Frost(
            options=(t.option_id,),
            name=t.name,
            drinking=t.drinking,
            outside=t.outside,
            where="" if t.outside else f" ({t.where})",
            tank_l=t.level_l,
            cold_degc=t.cold_degc,
            around=_around(t.cold_degc, build.workshop.units),
            cold_h=t.cold_h,
            freezes_h=t.freezes_h,
            windy_ice_frac=t.windy_ice_frac,
            night_degc=t.night_degc,
            hold_w=t.hold_w,
            hold_low_w=t.hold_low_w,
            hold_high_w=t.hold_high_w,
            day_wh=24 * t.hold_w,
            helps=_helps(t),
        )
        for t in figures.cold_tanks
        if not t.heated
    ]


def judge(x: Frost) -> AtLeast | Softened:
    """Hours to the first ice against hours of cold. A waste tank can be left open or empty, so it never fails; of a
    room without heat another rule says that it fails."""
    hours = AtLeast(x.freezes_h, x.cold_h, "h")
    return hours if x.drinking and x.outside else Softened(hours, "tight")


_BARE = {"name": "Tank under the floor", "drinking": True, "tank_l": 113.6}
_MILD = _BARE | {
    "cold_degc": -4, "cold_h": 8, "freezes_h": 12.9, "windy_ice_frac": 0.035, "night_degc": -4, "hold_w": 51,
    "hold_low_w": 32, "hold_high_w": 128, "day_wh": 1229,
}  # fmt: skip
_HARD = _BARE | {
    "cold_degc": -15, "cold_h": 8, "freezes_h": 5.2, "windy_ice_frac": 0.6, "night_degc": -15, "hold_w": 192,
    "hold_low_w": 120, "hold_high_w": 480, "day_wh": 4608,
}  # fmt: skip
RULE = Rule(
    code="tank-freezes",
    title="Frost at tanks outside",
    topic="water",
    category="function",
    inputs=Frost,
    read=read,
    judge=judge,
    formula="hours = m·c/(U·A) · ln((10 °C − θ_out) / (0 °C − θ_out)); holding takes U·A·(0 °C − θ_out)",
    sources=(
        Source("Heat balance of water", "c 1.163 Wh/(kg·K), heat of fusion 334 kJ/kg (any handbook)"),
        Source("Common practice", "bare tank 8 W/(m²·K) in still air, 20 in wind, 5 inside, good to 40 %"),
    ),
    says={
        "ok": "{name}{where}: with {tank_l} in it, {around}, it shows its first ice after {measured}; such "
        "cold lasts {limit}. Thin pipes, valve and pump there freeze first.",
        "tight": "{name}{where}: with {tank_l} in it, {around}, it freezes from {measured} on; such cold "
        "lasts {limit}. Holding it takes {hold_w} at {night_degc}. Pipes, valve and pump freeze first; leave it open "
        "or empty.",
        "fails": "{name}{where}: with {tank_l} in it, {around}, it freezes from {measured} on; such cold "
        "lasts {limit}. Holding it takes {hold_w} at {night_degc} ({hold_low_w} to {hold_high_w}), {day_wh} a day. "
        "Pipes freeze first.",
    },
    remedy="{helps}, or drain tank and pipes before the frost.",
    examples=(
        Example(_MILD, "ok", "a night at −4 °C: 2.4 °C are left in the morning"),
        Example(_MILD | {"freezes_h": 8}, "tight", "first ice at daybreak"),
        Example(_HARD, "fails", "a hard night at −15 °C"),
        Example(_HARD | {"drinking": False}, "tight", "a waste tank can be left open"),
        Example(
            _HARD | {"outside": False, "where": " (where nothing heats)", "cold_degc": -13, "freezes_h": 7.9},
            "tight",
            "a room that nothing heats",
        ),
    ),
    offers="fresh-tank",
)
