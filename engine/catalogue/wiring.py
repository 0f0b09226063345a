"""How a workshop wires: a table ``[wiring]`` in its file, every entry with a default."""

import re
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from engine.catalogue.quantities import Ampere, Celsius, Entry, Fraction, Metre
from engine.physics.conductor import AWG, CLASS_5
from engine.physics.voltage_drop import CRITICAL_FRAC, ORDINARY_FRAC

LABELS = frozenset(c.label for c in (*AWG, *CLASS_5))

FuseCode = Literal["blade", "maxi", "midi", "mega", "anl", "mrbf", "nh", "class-t"]
"""Kinds of fuse, as `engine.physics.overcurrent` lists them."""


def _label(text: str) -> str:
    """The label of a known size, however its unit is written."""
    number = re.sub(r"\s*(awg|mm2|mm²)$", "", text.strip(), flags=re.IGNORECASE)
    label = f"{number} {'AWG' if text.strip().casefold().endswith('awg') else 'mm²'}"
    if label not in LABELS:
        raise ValueError(f'"{text}" is no usual size; write one such as "4 AWG", "2/0 AWG" or "2.5 mm²"')
    return label


ConductorLabel = Annotated[str, Field(max_length=16, examples=["2.5 mm²"]), AfterValidator(_label)]
"""A size of conductor: an American gauge from 18 to 4/0, or 0.75 to 150 mm²."""


class Wiring(Entry):
    """What the sums take for granted about cables and fuses."""

    sizes: Literal["awg", "metric"] | None = Field(
        default=None,
        description="kind of conductor sizes; absent: gauges in the United States, square millimetres elsewhere",
    )
    stocked: tuple[ConductorLabel, ...] = Field(
        default=(), max_length=30, description="sizes it keeps; absent: every usual one"
    )
    insulation_degc: Celsius | None = Field(
        default=None,
        ge=70,
        le=200,
        description="highest temperature of its cables' insulation; absent: 105 °C in the US, 70 °C elsewhere",
    )
    critical_drop_frac: Fraction = Field(
        default=CRITICAL_FRAC,
        ge=0.01,
        le=0.1,
        description="voltage that feeders, chargers, motors and electronics may lose",
    )
    ordinary_drop_frac: Fraction = Field(
        default=ORDINARY_FRAC, ge=0.01, le=0.15, description="the same for lights, fans and sockets"
    )
    slack_m: Metre = Field(
        default=0.8, ge=0, le=5, description="added to each run along the body for going up, round and into boxes"
    )
    bundled: int = Field(
        default=6, ge=1, le=40, description="loaded conductors that lie together in the loom of small circuits"
    )
    parallel_most: int = Field(
        default=2, ge=1, le=4, description="how many equal cables may run side by side, each with its own fuse"
    )
    fuse_kinds: tuple[FuseCode, ...] = Field(
        default=(), max_length=8, description="kinds of fuse it fits; absent: every common one"
    )
    residual_current_a: Ampere | None = Field(
        default=None,
        ge=0.004,
        le=0.5,
        description="residual current of the protection that every build with mains gets",
    )
