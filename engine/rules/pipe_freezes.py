"""Pipes outside the warm shell, or in a room that heaters do not hold, do not freeze on the trip's coldest night.

A thin pipe holds little heat: bare, it has its first ice within the hour, long before its tank, and ice splits it.
Lagging only delays that.
"""

from engine.build import Build, Figures
from engine.build.frost import NIGHT_H, pipe_in_cold
from engine.build.water import COLD_DEGC
from engine.physics.freezing import lasting_degc, pipe_l, pipe_loss_w_k
from engine.rule import AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact
from engine.rules.tank_freezes import at, told_degc

_OUTSIDE = "Lead it where it is warm, fit a heating cable"


class Pipe(Inputs):
    """A full pipe in the cold."""

    name: str = fact("where it belongs", "chosen")
    stated: bool = fact("whether the pipe is stated", "catalogue")
    inside: bool = fact("whether it is inside, in a room that freezes", "computed", default=False)
    heated: bool = fact("whether it has a heating cable", "catalogue")
    length_run_m: float = fact("length there", "catalogue", gt=0)
    bore_thick_m: float = fact("inside diameter", "catalogue", gt=0)
    outer_thick_m: float = fact("outside diameter", "catalogue", gt=0)
    lagging_thick_m: float = fact("lagging all round it", "catalogue", ge=0)
    night_degc: float = fact("there on the coldest night", "computed")
    freezes_h: float = fact("until its first ice", "computed", ge=0)
    solid_h: float = fact("until it is solid", "computed", ge=0)
    hold_w: float = fact("heat that holds it", "computed", ge=0)
    helps: str = fact("what helps", "computed", default=_OUTSIDE)
    night_h: float = fact("how long the coldest hours of a night last", "assumed", default=NIGHT_H)

    @property
    def around(self) -> str:
        """Word before the cold it stands in."""
        return at(self.night_degc)

    @property
    def around_degc(self) -> float:
        """That cold as it is told."""
        return told_degc(self.night_degc)


def read(build: Build, figures: Figures) -> list[Pipe]:
    """One question for each pipe; none on a trip without frost."""
    return [
        Pipe(
            options=(p.option_id,), name=p.name, stated=p.stated, inside=p.inside, heated=p.heated,
            length_run_m=p.length_m, bore_thick_m=p.bore_m, outer_thick_m=p.outer_m,
            lagging_thick_m=p.insulation_m, night_degc=p.night_degc, freezes_h=p.freezes_h, solid_h=p.solid_h,
            hold_w=p.hold_w, helps="Heat the room" if p.inside else _OUTSIDE,
        )
        for p in figures.cold_pipes
    ]  # fmt: skip


def judge(x: Pipe) -> AtLeast | Holds | Softened:
    """Hours to the first ice against hours of cold; of a pipe outside that nobody states there is only a note. One
    inside is there for sure; that the room is cold fails by another rule."""
    if x.heated:
        return Holds(True)
    if x.inside:
        return Softened(AtLeast(x.freezes_h, x.night_h, "h"), "tight")
    return AtLeast(x.freezes_h, x.night_h, "h") if x.stated else Holds(False, "note")


def _pipe(night_degc: float, bore_m: float, outer_m: float, lagging_m: float = 0.0) -> dict[str, str | float | bool]:
    """Two metres of full pipe on such a night."""
    cold = pipe_in_cold(2.0, bore_m, outer_m, lagging_m, night_degc)
    return {
        "name": "Waste pipe", "stated": True, "heated": False, "length_run_m": 2, "bore_thick_m": bore_m,
        "outer_thick_m": outer_m, "lagging_thick_m": lagging_m, "night_degc": night_degc, **cold._asdict(),
    }  # fmt: skip


_BARE = _pipe(-15, 0.013, 0.016)
_LAGGED = (0.04, 0.044, 0.025)
_DAYBREAK_DEGC = lasting_degc(pipe_l(2, 0.04), COLD_DEGC, pipe_loss_w_k(2, 0.044, 0.025), NIGHT_H)
RULE = Rule(
    code="pipe-freezes",
    title="Frost in pipes outside",
    topic="water",
    category="function",
    inputs=Pipe,
    read=read,
    judge=judge,
    formula="hours = m·c/(U·A) · ln((10 °C − θ_out) / (0 °C − θ_out)), U·A = l / (ln(D/d)/(2πλ) + 1/(π·D·h))",
    sources=(
        Source("Incropera and DeWitt, Fundamentals of Heat and Mass Transfer", "3.3, radial conduction"),
        Source("Common practice", "8 W/(m²·K) in still air; wind halves the time"),
    ),
    says={
        "ok": "{name}: the pipe stays liquid {around} {around_degc}. Holding it takes {hold_w}.",
        "tight": "{name}: {length_run_m} of full pipe has its first ice after {freezes_h} {around} {around_degc}; "
        "such cold lasts {night_h}.",
        "fails": "{name}: {length_run_m} of full pipe outside has its first ice after {freezes_h} {around} "
        "{around_degc} and is solid after {solid_h}. Holding it takes {hold_w}.",
        "note": "{name}: a plain full pipe there has its first ice after {freezes_h} {around} {around_degc}, long "
        "before the tank. Ask the workshop how it is kept warm or drained.",
    },
    remedy="{helps}, or drain it before such a night; lagging only delays it.",
    examples=lambda: (
        Example(_pipe(-2, *_LAGGED), "ok", "a wide, lagged pipe in a slight frost"),
        Example(_pipe(_DAYBREAK_DEGC, *_LAGGED), "tight", "the same pipe, its first ice at daybreak"),
        Example(_pipe(-0.9, 0.013, 0.016), "fails", "a thin, bare pipe in next to no frost"),
        Example(_BARE, "fails", "the same on a hard night"),
        Example(_BARE | {"heated": True}, "ok", "with a heating cable"),
        Example(_BARE | {"stated": False}, "note", "nobody says anything of the pipe"),
        Example(
            _BARE | {"name": "Inside, with no heating", "stated": False, "inside": True, "helps": "Heat the room"},
            "tight",
            "a room that nothing heats",
        ),
    ),
    offers="outside-pipe",
)
