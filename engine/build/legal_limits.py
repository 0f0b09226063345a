"""What the law of each region says about driving licences and about the size of a motor home, as tables.

Facts to start from, not advice: laws change, states differ, and every finding sends the reader to the authority.
"""

from typing import NamedTuple

from engine.units import INCH_M, POUND_KG

CHECKED = "2026-11-25"
"""Day on which entries were last compared with their sources, or with reprints of these."""


class Law(NamedTuple):
    """A published text."""

    title: str
    where: str
    checked: str = CHECKED
    """Empty where the entry is from memory."""


class Step(NamedTuple):
    """A licence class that reaches up to a gross rating; None when it has no upper end."""

    upto_kg: float | None
    licence: str
    remark: str


class Licences(NamedTuple):
    """A region's licence classes by gross rating, the ordinary car licence first."""

    law: Law
    steps: tuple[Step, ...]


LICENCES: dict[str, Licences] = {
    # A whole number of pounds: "26,001 lb or more" begins above 26,000 lb.
    "us": Licences(
        Law("49 CFR 383.91(a) and 383.5", "commercial license from 26,001 lb, for use in commerce; read in 2026"),
        (
            Step(26000 * POUND_KG, "an ordinary driver's license", "The rating counts, not the scale."),
            Step(
                None,
                "no federal commercial license for private use: that is for use in commerce",
                "Some states ask for a class of their own, by mass or by length: check your state.",
            ),
        ),
    ),
    "eu": Licences(
        Law("Directive 2006/126/EC of 20 December 2006", "Article 4(4); to be replaced by (EU) 2025/2205"),
        (
            Step(3500, "a car licence (B)", "The rating counts, not the scale."),
            Step(
                4250,
                "a C1 licence today",
                "Directive (EU) 2025/2205 of 22 October 2025 lets B reach motor caravans up to 4,250 kg after a "
                "training or a test: announced, national law is pending.",
            ),
            Step(7500, "a C1 licence", "It reaches up to 7,500 kg."),
            Step(None, "a C licence", "C1 ends at 7,500 kg."),
        ),
    ),
    "uk": Licences(
        Law("The Motor Vehicles (Driving Licences) Regulations 1999", "Schedule 2, categories B, C1 and C"),
        (
            Step(3500, "a car licence (B)", "The rating counts, not the scale."),
            Step(7500, "a C1 licence", "Car tests passed before 1 January 1997 include it, up to the age of 70."),
            Step(None, "a C licence", "C1 ends at 7,500 kg."),
        ),
    ),
    "au": Licences(
        Law("National driver licence classes (Australia)", "C, LR and MR, as two states print them"),
        (
            Step(4500, "a car licence (C)", "The rating (GVM) counts, not the scale."),
            Step(8000, "a light rigid licence (LR)", "It reaches up to 8 t."),
            Step(None, "a medium rigid licence (MR)", "With three axles or more it is heavy rigid (HR)."),
        ),
    ),
}


class Size(NamedTuple):
    """The largest motor home that needs no permit; None where the region's law names no single figure."""

    law: Law
    length_m: float | None
    width_m: float
    height_m: float | None
    notice_above_m: float | None
    """Height from which the driver must have it on a notice in the cab."""


SIZES: dict[str, Size] = {
    # Length and height are the states'.
    "us": Size(Law("23 CFR 658.15", "102 in on the national network, from memory", ""), None, 102 * INCH_M, None, None),
    "eu": Size(
        Law("Directive 96/53/EC of 25 July 1996", "Annex I, 1.1 to 1.3; the height from memory"),
        12.0, 2.55, 4.0, None,
    ),
    "uk": Size(
        Law("The Road Vehicles (Construction and Use) Regulations 1986", "regulations 7, 8 and 10"),
        12.0, 2.55, None, 3.0,
    ),
    "au": Size(Law("Australian Design Rule 43", "configuration and dimensions, from memory", ""), 12.5, 2.5, 4.3, None),
}  # fmt: skip


class Slower(NamedTuple):
    """Where a motor home has lower speed limits than a car."""

    law: Law
    above_kg: float
    """Unladen mass above which they hold: no fuel, water, gas, people or belongings."""
    remark: str


SLOWER: dict[str, Slower] = {
    "uk": Slower(
        Law("Road Traffic Regulation Act 1984", "Schedule 6, from memory", ""),
        3050,
        "50 mph on single carriageways and 60 mph on dual ones, 70 mph on motorways",
    ),
}
"""Regions whose law names one figure for all."""


def step_of(region: str, gross_kg: float) -> Step:
    """The licence class in which a gross rating falls; exactly at an upper end it still belongs to that class.

    >>> step_of("uk", 3500).licence
    'a car licence (B)'
    """
    return next(s for s in LICENCES[region].steps if s.upto_kg is None or gross_kg <= s.upto_kg * (1 + 1e-9))
