"""The five figures that decide, and the sentence on the whole."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from functools import lru_cache
from typing import Literal, NamedTuple

from markupsafe import Markup

from engine.build.masses import MassFigures
from engine.rule import Finding, Verdict
from engine.sheets.figure_text import days_off_grid, mass_left, night_held
from engine.sheets.templates import render
from engine.sheets.view import GRAVITY, MARKS, SENTENCE_END, Mark, Scene
from engine.units import MONTHS, money

# Rules whose verdicts each of the five figures takes; the gravest counts.
BUDGET = ("budget",)
GROSS = ("gross-mass",)
FRONT = ("front-axle-load",)
REAR = ("rear-axle-load",)
ENERGY = ("energy-days", "battery-refilled")
NIGHT = ("heater-capacity",)

_NAMED = 6
"""So many faults are listed before the rest are folded."""
_FAULT_LETTERS = 120
_ASIDE = re.compile(r" \([^()]*\)")


class Cell(NamedTuple):
    """One of the five figures."""

    key: str
    label: str
    value: str
    detail: str
    mark: Mark
    anchor: str
    """Element to go to for the why; empty when there is none."""


def gravest(by_rule: Mapping[str, str], codes: tuple[str, ...]) -> str:
    """The gravest verdict that any of these rules gave; empty when none spoke."""
    return max((by_rule[c] for c in codes if c in by_rule), key=GRAVITY.__getitem__, default="")


def verdicts_by_rule(findings: tuple[Finding, ...]) -> dict[str, str]:
    """The gravest verdict of each rule."""
    found: dict[str, str] = {}
    for f in findings:
        if GRAVITY[f.verdict] > GRAVITY[found.get(f.rule, "")]:
            found[f.rule] = f.verdict
    return found


WORST_AXLE = "Spare on worst axle"


def worst_axle(mass: MassFigures) -> tuple[Literal["front", "rear"], float]:
    """The axle that comes nearest to its rating, and the kilograms it has left."""
    front_kg = mass.front_rating_kg - mass.front_worst.axles.front_kg
    rear_kg = mass.rear_rating_kg - mass.rear_worst.axles.rear_kg
    front_first = front_kg / mass.front_rating_kg < rear_kg / mass.rear_rating_kg
    return ("front", front_kg) if front_first else ("rear", rear_kg)


def cells(scene: Scene, by_rule: Mapping[str, str], anchors: Mapping[str, str]) -> tuple[Cell, ...]:
    """The five figures of a build."""
    units, currency = scene.build.workshop.units, scene.build.workshop.currency
    mass, warmth, cash = scene.figures.mass, scene.figures.warmth, scene.figures.money
    plate = scene.build.vehicle.masses

    def cell(key: str, label: str, value: str, detail: str, codes: tuple[str, ...]) -> Cell:
        verdict = gravest(by_rule, codes)
        anchor = next((anchors[c] for c in codes if c in anchors and by_rule[c] == verdict), "")
        return Cell(key, label, value, detail, MARKS[verdict], anchor)

    left_kg = plate.gross_kg - mass.heaviest.axles.total_kg
    axle, spare_kg = worst_axle(mass)
    month = MONTHS[scene.figures.hardest.sun_month - 1]
    night, off_grid = night_held(warmth, units), days_off_grid(scene.figures, scene.build.trip.days_off_grid_d, units)
    budget = scene.build.trip.budget
    return (
        cell(
            "price", "Price with tax", money(cash.total, currency),
            "no budget set" if budget is None else f"of {money(budget, currency)}", BUDGET,
        ),
        cell("payload", "Payload left", mass_left(left_kg, units), "fully loaded", GROSS),
        cell(
            "axle", WORST_AXLE, mass_left(spare_kg, units), axle, FRONT if axle == "front" else REAR,
        ),
        cell("days", f"Power, {month[:3]}", off_grid.value, off_grid.detail, ENERGY),
        cell("night", "Coldest night held", night.value, night.detail, NIGHT),
    )  # fmt: skip


_COUNTED: dict[Verdict, tuple[str, str]] = {
    "fails": ("check fails", "checks fail"),
    "unknown": ("cannot be answered", "cannot be answered"),
    "tight": ("is tight", "are tight"),
    "ok": ("is fine", "are fine"),
}
"""What is said of one check, and of several, with each verdict."""


def counted(findings: tuple[Finding, ...], *verdicts: Verdict) -> dict[Verdict, str]:
    """How many checks gave each of these verdicts, in words; those that none gave are left out."""
    count = Counter(f.verdict for f in findings)
    return {v: f"{count[v]} {_COUNTED[v][count[v] > 1]}" for v in verdicts if count[v]}


def alarm(findings: tuple[Finding, ...]) -> tuple[Mark, str] | None:
    """What the five figures may not show: that the build fails elsewhere, or that something is not known."""
    said = counted(findings, "fails", "unknown")
    return (MARKS[next(iter(said))], ", ".join(said.values())) if said else None


@lru_cache(maxsize=512)
def bar(five: tuple[Cell, ...], trouble: tuple[Mark, str] | None) -> Markup:
    """The slim bar, ``bar``."""
    return render("bar", cells=five, trouble=trouble)


class Whole(NamedTuple):
    """The sentence on the whole build."""

    mark: Mark
    sentence: str
    links: tuple[tuple[str, str, str], ...]
    """(anchor, fault in a few words, css) of the gravest findings."""
    more: tuple[tuple[str, str, str], ...]
    """The same of all the others that the sentence counts."""


_FIT = ("choices", "roof", "space")
CHOICE = "choice-known"
_ON_THIS_TRIP = ("cargo-fits", "overall-height")
"""Room that the trip asks for, not the fit-out."""


def _forbids(f: Finding) -> bool:
    """Whether a failure leaves nothing to build: safety, law, or parts that have no room or rule each other out."""
    if f.category in ("safety", "legal"):
        return True
    return f.category == "function" and f.topic in _FIT and f.rule not in _ON_THIS_TRIP


def _left_out(f: Finding) -> bool:
    """Whether it says that a choice is not in the build: no fault, but a build without it is not what was asked for."""
    return f.verdict == "note" and f.rule == CHOICE


def lead(findings: tuple[Finding, ...]) -> tuple[Verdict, str]:
    """The verdict on the whole and its sentence. Where anything is not known, a build is never called fine."""
    verdicts = {f.verdict for f in findings}
    unsafe = any(f.verdict == "unknown" and f.category in ("safety", "legal") for f in findings)
    if "fails" in verdicts:
        if any(f.verdict == "fails" and _forbids(f) for f in findings):
            return "fails", "Cannot be built like this."
        return "fails", f"Does not meet your wishes{', and cannot be called safe yet' if unsafe else ''}."
    if unsafe:
        return "unknown", "Cannot be called safe yet."
    if "unknown" in verdicts:
        return "unknown", "Not everything is known yet."
    if "tight" in verdicts:
        return "tight", "Works, with little to spare."
    if any(map(_left_out, findings)):
        return "note", "Works, without all that you chose."
    return ("ok", "Every check is fine.") if "ok" in verdicts else ("unknown", "Nothing has been checked.")


@lru_cache(maxsize=4096)
def fault(cause: str) -> str:
    """What is wrong, in a few words: the first sentence of a finding's cause without what stands in brackets."""
    words = _ASIDE.sub("", SENTENCE_END.split(cause, maxsplit=1)[0]).removesuffix(".")
    if len(words) <= _FAULT_LETTERS:
        return words
    short = words[:_FAULT_LETTERS].rsplit(" ", 1)[0]
    clauses = max(short.rfind(stop + " ") for stop in ",;:")
    return (short[:clauses] if clauses > _FAULT_LETTERS / 2 else short).rstrip(",;:") + " …"


def whole(findings: tuple[Finding, ...], told: Iterable[tuple[Finding, str]]) -> Whole:
    """The verdict on the whole, with how many checks say what, and each of them that is not fine.

    told: findings that have a note, with its id.
    """
    verdict, led = lead(findings)
    if verdict == "ok":
        fine = sum(f.verdict == "ok" for f in findings)
        return Whole(MARKS["ok"], f"{led.removesuffix('.')}: {fine} of {fine}.", (), ())
    said = [*counted(findings, "fails", "unknown", "tight").values()]
    if out := sum(map(_left_out, findings)):
        said.append(f"{out} {'choice is' if out == 1 else 'choices are'} left out")
    said.append(counted(findings, "ok").get("ok", "0 are fine"))
    grave = [(f, anchor) for f, anchor in told if f.verdict != "note" or _left_out(f)]
    grave.sort(key=lambda g: -GRAVITY[g[0].verdict])
    links = tuple((a, f"{MARKS[f.verdict].symbol} {fault(f.cause)}", MARKS[f.verdict].css) for f, a in grave)
    return Whole(MARKS[verdict], f"{led} {', '.join(said)}.", links[:_NAMED], links[_NAMED:])


@lru_cache(maxsize=512)
def verdict(view: Whole) -> Markup:
    """The line on the whole, ``verdict``, announced politely."""
    return render("verdict", w=view)
