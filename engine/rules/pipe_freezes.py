"""Pipes outside the warm shell, or in a room that heaters do not hold, do not freeze on the trip's coldest night.

A thin pipe holds little heat: bare, it freezes in an hour or less, long before its tank, and ice splits it. Lagging
only delays that.
"""

from engine.build import Build, Figures
from engine.build.frost import NIGHT_H
from engine.rule import AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact

_OUTSIDE = "Lead it where it is warm, fit a heating cable"


class Pipe(Inputs):
    """A full pipe in the cold."""

    name: str = fact("where it belongs", "chosen")
    stated: bool = fact("whether the pipe is stated", "catalogue")
    inside: bool = fact("whether it is inside, in a room that freezes", "computed", default=False)
    heated: bool = fact("whether it has a heating cable", "catalogue")
    length_run_m: float = fact("length there", "catalogue", gt=0)
    lagging_m: float = fact("lagging all round it", "catalogue", ge=0)
    night_degc: float = fact("there on the coldest night", "computed")
    freezes_h: float = fact("until its first ice", "computed", ge=0)
    solid_h: float = fact("until it is solid", "computed", ge=0)
    hold_w: float = fact("heat that holds it", "computed", ge=0)
    helps: str = fact("what helps", "computed", default=_OUTSIDE)
    night_h: float = fact("how long the coldest hours of a night last", "assumed", default=NIGHT_H)


def read(build: Build, figures: Figures) -> list[Pipe]:
    """One question for each pipe; none on a trip without frost."""
    return [
        Pipe(
            options=(p.option_id,), name=p.name, stated=p.stated, inside=p.inside, heated=p.heated,
            length_run_m=p.length_m, lagging_m=p.insulation_m, night_degc=p.night_degc, freezes_h=p.freezes_h,
            solid_h=p.solid_h, hold_w=p.hold_w, helps="Heat the room" if p.inside else _OUTSIDE,
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


_BARE = {
    "name": "Waste pipe", "stated": True, "heated": False, "length_run_m": 2, "lagging_m": 0, "night_degc": -15,
    "freezes_h": 0.2, "solid_h": 2.1, "hold_w": 11,
}  # fmt: skip
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
        "ok": "{name}: the pipe stays liquid at {night_degc}. Holding it takes {hold_w}.",
        "tight": "{name}: {length_run_m} of full pipe freezes after {freezes_h} at {night_degc}; such cold lasts "
        "{night_h}.",
        "fails": "{name}: {length_run_m} of full pipe outside freezes after {freezes_h} at {night_degc} and is solid "
        "after {solid_h}. Holding it takes {hold_w}.",
        "note": "{name}: a plain full pipe there freezes after {freezes_h} at {night_degc}, long before the tank. "
        "Ask the workshop how it is kept warm or drained.",
    },
    remedy="{helps}, or drain it before such a night; lagging only delays it.",
    examples=(
        Example(_BARE | {"freezes_h": 12, "night_degc": -0.2}, "ok", "next to no frost"),
        Example(_BARE | {"heated": True}, "ok", "a heating cable"),
        Example(_BARE | {"freezes_h": 8, "night_degc": -0.3}, "tight", "first ice at daybreak"),
        Example(_BARE, "fails", "two metres, bare, at −15 °C"),
        Example(_BARE | {"stated": False}, "note", "nobody says anything of the pipe"),
        Example(
            _BARE | {"name": "Inside, with no heating", "stated": False, "inside": True, "helps": "Heat the room"},
            "tight",
            "a room that nothing heats",
        ),
    ),
    offers="outside-pipe",
)
