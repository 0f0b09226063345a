"""A pressure vessel keeps the pump from starting at every trickle.

Without one a small pump stutters at a tap that is half open, wears its switch and wakes sleepers. A vessel whose air is
stronger than the pressure at which the pump starts gives nothing: the flow falters before the pump comes on.
"""

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact

LEAST_S = 10.0
"""Starts that are farther apart are calm (assumption)."""


class Vessel(Inputs):
    """A vessel behind its pump."""

    gives_l: float = fact("water between two starts", "computed", ge=0)
    every_s: float = fact("time between two starts", "computed", ge=0)
    precharge_kpa: float = fact("pressure of its air while empty", "catalogue", gt=0)
    cut_in_kpa: float = fact("pressure at which the pump starts", "catalogue", gt=0)
    tap: str = fact("tap that is half open", "chosen")


def read(build: Build, figures: Figures) -> Vessel | None:
    """Nothing to ask without pump and vessel."""
    v = figures.vessel
    if v is None:
        return None
    return Vessel(
        options=v.ids, gives_l=v.gives_l, every_s=v.every_s, precharge_kpa=v.precharge_kpa, cut_in_kpa=v.cut_in_kpa,
        tap=v.tap_name,
    )  # fmt: skip


def judge(x: Vessel) -> Softened | Holds:
    """Air that is too strong makes the vessel useless; many starts are worth a note."""
    if not x.gives_l:
        return Holds(False, "tight")
    return Softened(AtLeast(x.every_s, LEAST_S, "s", tight_from=1.0001), "note")


_ONE = {"precharge_kpa": 130, "cut_in_kpa": 150, "tap": "Basin"}
RULE = Rule(
    code="pump-cycles",
    title="Starts of the water pump",
    topic="water",
    category="comfort",
    inputs=Vessel,
    read=read,
    judge=judge,
    formula="V·p₀·(1/p_in − 1/p_out), absolute pressures; emptied by the tap and filled again by the pump",
    sources=(Source("Boyle", "any text on gases"), COMMON_PRACTICE),
    says={
        "ok": "{tap}, half open: the pump starts every {every_s}; the vessel gives {gives_l} between.",
        "note": "{tap}, half open: the pump starts every {every_s}; the vessel gives {gives_l} only.",
        "tight": "The vessel's air is at {precharge_kpa}, more than the {cut_in_kpa} at which the pump starts: it "
        "gives nothing, and water falters.",
    },
    remedy="Set the air a little below the pressure at which the pump starts, or choose a larger vessel.",
    examples=lambda: (
        Example(_ONE | {"gives_l": 0.35, "every_s": 24}, "ok", "a vessel of 1 L"),
        Example(_ONE | {"gives_l": 0.15, "every_s": 10}, "ok", "exactly calm enough"),
        Example(_ONE | {"gives_l": 0.1, "every_s": 7}, "note", "a very small one"),
        Example(_ONE | {"gives_l": 0, "every_s": 0, "precharge_kpa": 200}, "tight", "pumped up too hard"),
    ),
    offers="pressure-vessel",
)
