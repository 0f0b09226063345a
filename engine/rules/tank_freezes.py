"""A tank outside the warm shell, or in a room that heaters do not hold, does not freeze on the trip's cold nights.

A full tank holds much heat and seldom freezes in one night; a waste tank after its first day holds little. Days on end
are another matter, and thin pipes, the valve and a pump freeze long before the tank.
"""

from pydantic import Field

from engine.build import Build, Figures
from engine.build.frost import NIGHT_H, ColdTank, tank_in_cold
from engine.build.water import COLD_DEGC
from engine.physics.freezing import lasting_degc
from engine.rule import AtLeast, Example, Inputs, Rule, Softened, Source, fact


class Frost(Inputs):
    """A tank in the cold, without a heater of its own."""

    name: str = fact("tank", "chosen")
    drinking: bool = fact("whether it holds drinking water", "catalogue")
    outside: bool = fact("whether it is outside the warm shell", "catalogue", default=True)
    where: str = Field(default="", description="where it stands, unless it is outside, in brackets")
    volume_l: float = fact("what it holds", "catalogue", gt=0)
    insulation_thick_m: float = fact("insulation round it", "catalogue", ge=0)
    tank_l: float = fact("water in it: a fresh tank full, a waste tank after its first day", "computed", gt=0)
    cold_degc: float = fact("what it stands in", "catalogue", lt=0)
    cold_h: float = fact("how long the cold at a tank lasts", "assumed", gt=0)
    freezes_h: float = fact("until its first ice, in still air", "computed", ge=0)
    windy_ice_frac: float = fact("ice after all that time, in moving air", "computed", ge=0, le=1)
    night_degc: float = fact("there on the coldest night", "computed")
    hold_w: float = fact("heat that holds it that night", "computed", ge=0)
    hold_low_w: float = fact("the same, sheltered", "computed", ge=0)
    hold_high_w: float = fact("the same, in moving air", "computed", ge=0)
    day_wh: float = fact("the same for a whole day", "computed", ge=0)
    helps: str = fact("what helps", "computed", default="Choose a tank with its own heater, insulate it")

    @property
    def around(self) -> str:
        """Word before the cold it stands in."""
        return at(self.cold_degc)

    @property
    def around_degc(self) -> float:
        """That cold as it is told."""
        return told_degc(self.cold_degc)

    @property
    def night(self) -> str:
        """Word before the coldest night's."""
        return at(self.night_degc)

    @property
    def told_night_degc(self) -> float:
        """The coldest night as it is told."""
        return told_degc(self.night_degc)


def at(degc: float) -> str:
    """The word before a frost; so little of it that it would read as freezing itself is just below that."""
    return "just below" if degc > -1 else "at"


def told_degc(degc: float) -> float:
    """The frost behind that word."""
    return 0.0 if degc > -1 else degc


def _helps(tank: ColdTank) -> str:
    if tank.heater_w is not None:
        return "Add a house battery for its heater"
    if not tank.outside:
        return "Heat the room"
    return "Choose a tank with its own heater" + (", insulate it" if tank.insulation_m is None else "")


def read(build: Build, figures: Figures) -> list[Frost]:
    """One question for each such tank; none on a trip without frost."""
    return [
        Frost(
            options=(t.option_id,),
            name=t.name,
            drinking=t.drinking,
            outside=t.outside,
            where="" if t.outside else f" ({t.where})",
            volume_l=t.volume_l,
            insulation_thick_m=t.insulation_m or 0.0,
            tank_l=t.level_l,
            cold_degc=t.cold_degc,
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


_TANK_L = 113.6


def _bare(night_degc: float, outside: bool = True) -> dict[str, str | float | bool]:
    """A full, bare tank of 30 US gallons on such a night, in a month that is mostly above freezing."""
    cold = tank_in_cold(_TANK_L, _TANK_L, 0.0, night_degc, 1.0, outside)
    return {
        "name": "Tank under the floor" if outside else "Tank under the bed", "drinking": True, "outside": outside,
        "where": "" if outside else " (where nothing heats)", "volume_l": _TANK_L, "insulation_thick_m": 0.0,
        "tank_l": _TANK_L, "night_degc": night_degc, **cold._asdict(), "day_wh": 24 * cold.hold_w,
    }  # fmt: skip


_LOSS_W_K = tank_in_cold(_TANK_L, _TANK_L, 0.0, -1.0, 1.0, True).hold_w
_DAYBREAK_DEGC = lasting_degc(_TANK_L, COLD_DEGC, _LOSS_W_K, NIGHT_H)
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
        "ok": "{name}{where}: with {tank_l} in it, {around} {around_degc}, it shows its first ice after {measured}; "
        "such cold lasts {limit}. Thin pipes, valve and pump there freeze first.",
        "tight": "{name}{where}: with {tank_l} in it, {around} {around_degc}, it freezes from {measured} on; such cold "
        "lasts {limit}. Holding it takes {hold_w} {night} {told_night_degc}. Pipes, valve and pump freeze first; "
        "leave it open or empty.",
        "fails": "{name}{where}: with {tank_l} in it, {around} {around_degc}, it freezes from {measured} on; such cold "
        "lasts {limit}. Holding it takes {hold_w} {night} {told_night_degc} ({hold_low_w} to {hold_high_w}), {day_wh} "
        "a day. Pipes freeze first.",
    },
    remedy="{helps}, or drain tank and pipes before the frost.",
    examples=lambda: (
        Example(_bare(-4), "ok", "a mild frost: it lasts the night"),
        Example(_bare(_DAYBREAK_DEGC), "tight", "first ice at daybreak"),
        Example(_bare(-15), "fails", "a hard night"),
        Example(_bare(-15) | {"name": "Waste tank", "drinking": False}, "tight", "a waste tank can be left open"),
        Example(_bare(-18, outside=False), "tight", "a room that nothing heats"),
    ),
    offers="fresh-tank",
)
