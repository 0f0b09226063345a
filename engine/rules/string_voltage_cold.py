"""Panels in series stay below what their charge controller survives, on the coldest morning.

A panel's open-circuit voltage rises as its cells get colder, and it is highest at sunrise after the coldest night,
before any current flows. The voltages of panels in series add up. A controller whose limit is passed once is ruined.
The label's figure at 25 °C is not the one that counts.
"""

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.solar_strings import StringGroup, words
from engine.physics.string_voltage import cold_open_v
from engine.rule import AtMost, Example, Inputs, Rule, Source, fact
from engine.units import System, show

FEWER = "Connect fewer in series, or choose a controller for a higher voltage"
LOWER = "Choose a controller for a higher voltage, or panels of a lower one"


class ColdString(Inputs):
    """A string on the coldest morning."""

    name: str = fact("panels and how many", "chosen")
    controller: str = fact("the controller they feed", "chosen")
    wired: str = fact("how they are connected", "computed")
    cold_v: float = fact("open-circuit voltage of a string on the coldest morning", "computed", gt=0)
    label_v: float = fact("the same at 25 °C, by the label", "catalogue", gt=0)
    coldest_degc: float = fact("coldest night of the year at this place", "computed")
    highest_v: float = fact("panel voltage that the controller survives", "catalogue", gt=0)
    already: str = fact("when the limit is passed", "computed", default="")
    way: str = fact("what lowers it", "computed", default=FEWER)
    instead: str = Field(default="", description="what would work, as the end of a sentence")


def _already(g: StringGroup, system: System) -> str:
    """A sentence, with its space before it, on the temperature from which the limit is passed; none where it is not."""
    if g.over_below_degc is None:
        return ""
    return f" It is passed whenever the cells are colder than {show(g.over_below_degc, 'degc', system)}."


def read(build: Build, figures: Figures) -> list[ColdString]:
    """One question for each group of panels on a controller."""
    found = []
    for g in figures.power.strings:
        if g.idle:
            continue
        better = f"; {g.better.panel_count} of them would work, {words(g.better)}" if g.better else ""
        found.append(
            ColdString(
                options=(g.panel_id, g.controller_id),
                name=f"{g.panel_count} × {g.panel_name}",
                controller=g.controller_name,
                wired=g.wired,
                cold_v=g.layout.cold_open_v,
                label_v=g.panel.open_circuit_v * g.layout.series,
                coldest_degc=g.coldest_degc,
                highest_v=g.into.highest_v,
                already=_already(g, build.workshop.units),
                way=FEWER if g.layout.series > 1 and g.better else LOWER,
                instead=better,
            )
        )
    return found


def judge(x: ColdString) -> AtMost:
    """Cold voltage against the controller's limit. Panels differ little, so close to it is close only from 97 %."""
    return AtMost(x.cold_v, x.highest_v, "v", tight_from=0.97)


def _row(count: int, open_v: float = 37.0, **more: str) -> dict[str, str | float]:
    """So many panels in series on a controller for 150 V, at −20 °C, losing 0.3 % of their voltage per kelvin."""
    return {
        "name": f"{count} × Panel", "controller": "Controller", "wired": f"all {count} in series",
        "cold_v": count * cold_open_v(open_v, -0.003, -20.0), "label_v": count * open_v, "coldest_degc": -20,
        "highest_v": 150, **more,
    }  # fmt: skip


_EXACT_V = 150 / 4 / cold_open_v(1.0, -0.003, -20.0)
RULE = Rule(
    code="string-voltage-cold",
    title="Panel voltage on the coldest morning",
    topic="power",
    category="safety",
    inputs=ColdString,
    read=read,
    judge=judge,
    formula="n·U_oc·(1 + β·(T_coldest − 25 °C)) ≤ highest input voltage of the controller",
    sources=(
        Source(
            "NFPA 70 (NEC) 2023",
            "690.7(A): voltage at the lowest temperature, by the maker's coefficient",
            "2026-11-25",
        ),
        Source("IEC 60891", "linear temperature coefficients (from memory)"),
    ),
    says={
        "ok": "{name} on {controller}, {wired}: at most {measured} on the coldest morning ({coldest_degc}) of the "
        "{limit} "
        "it survives.",
        "tight": "{name} on {controller}, {wired}: {measured} on the coldest morning ({coldest_degc}), close to the "
        "{limit} "
        "it survives.",
        "fails": "{name} on {controller}, {wired}: {measured} on the coldest morning ({coldest_degc}), more than "
        "the {limit} "
        "it survives, though the labels add up to {label_v}.{already}",
    },
    remedy="{way}{instead}.",
    examples=lambda: (
        Example(
            _row(
                4,
                already=" It is passed whenever the cells are colder than 20 °C.",
                instead="; 4 of them would work, 2 in series, 2 such strings",
            ),
            "fails",
            "four panels of 37 V at −20 °C: 168 V",
        ),
        Example(_row(3), "ok", "three of them: 126 V, 84 %"),
        Example(_row(4, _EXACT_V), "tight", "four of a lower voltage, exactly at the limit"),
        Example(_row(4, 0.98 * _EXACT_V), "tight", "98 %"),
        Example(_row(4, 1.003 * _EXACT_V), "fails", "just over it"),
    ),
    follows=("panels-on-roof",),
    offers="solar-controller",
    caution=cautions.PANELS,
)
