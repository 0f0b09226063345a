"""A pressure vessel keeps the pump from starting at every trickle.

Without one a small pump stutters at a tap that is half open, wears its switch and wakes sleepers. A vessel whose air is
stronger than the pressure at which the pump starts gives nothing: the flow falters before the pump comes on.
"""

from engine.build import Build, Figures
from engine.physics.taps import between_starts_s, drawdown_l
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact

LEAST_S = 10.0
"""Starts that are farther apart are calm (assumption)."""


class Vessel(Inputs):
    """A vessel behind its pump."""

    volume_l: float = fact("size of the vessel", "catalogue", gt=0)
    precharge_kpa: float = fact("pressure of its air while empty", "catalogue", gt=0)
    cut_in_kpa: float = fact("pressure at which the pump starts", "catalogue", gt=0)
    cut_out_kpa: float = fact("pressure at which the pump stops", "catalogue", gt=0)
    drawn_l_min: float = fact("flow of the tap while half open", "computed", ge=0)
    pump_l_min: float = fact("flow of the pump against that pressure, half of its free flow", "computed", gt=0)
    gives_l: float = fact("water between two starts", "computed", ge=0)
    every_s: float = fact("time between two starts", "computed", ge=0)
    tap: str = fact("tap that is half open", "chosen")


def read(build: Build, figures: Figures) -> Vessel | None:
    """Nothing to ask without pump and vessel."""
    v = figures.vessel
    if v is None:
        return None
    return Vessel(
        options=v.ids, volume_l=v.volume_l, precharge_kpa=v.precharge_kpa, cut_in_kpa=v.cut_in_kpa,
        cut_out_kpa=v.cut_out_kpa, drawn_l_min=v.drawn_l_min, pump_l_min=v.pump_l_min, gives_l=v.gives_l,
        every_s=v.every_s, tap=v.tap_name,
    )  # fmt: skip


def judge(x: Vessel) -> Softened | Holds:
    """Air that is too strong makes the vessel useless; many starts are worth a note."""
    if not x.gives_l:
        return Holds(False, "tight")
    return Softened(AtLeast(x.every_s, LEAST_S, "s", tight_from=JUST_ENOUGH), "note")


def _vessel(volume_l: float, precharge_kpa: float = 130.0) -> dict[str, float | str]:
    """Behind a pump of 10 L/min, before a basin half open."""
    cut_in_kpa, cut_out_kpa, drawn_l_min, pump_l_min = 150.0, 280.0, 1.5, 5.0
    gives_l = drawdown_l(volume_l, precharge_kpa, cut_in_kpa, cut_out_kpa) if precharge_kpa <= cut_in_kpa else 0.0
    return {
        "volume_l": volume_l, "precharge_kpa": precharge_kpa, "cut_in_kpa": cut_in_kpa, "cut_out_kpa": cut_out_kpa,
        "drawn_l_min": drawn_l_min, "pump_l_min": pump_l_min, "gives_l": gives_l,
        "every_s": between_starts_s(gives_l, drawn_l_min, pump_l_min), "tap": "Basin",
    }  # fmt: skip


RULE = Rule(
    code="pump-cycles",
    title="Starts of the water pump",
    topic="water",
    category="comfort",
    inputs=Vessel,
    read=read,
    judge=judge,
    formula="V·p₀·(1/p_in − 1/p_out), absolute pressures; every V_out/q_tap + V_out/(q_pump − q_tap)",
    sources=(Source("Boyle", "any text on gases"), COMMON_PRACTICE),
    says={
        "ok": "{tap}, half open: the pump starts every {every_s}; the vessel gives {gives_l} between.",
        "note": "{tap}, half open: the pump starts every {every_s}; the vessel gives {gives_l} only.",
        "tight": "The vessel's air is at {precharge_kpa}, more than the {cut_in_kpa} at which the pump starts: it "
        "gives nothing, and water falters.",
    },
    remedy="Set the air a little below the pressure at which the pump starts, or choose a larger vessel.",
    examples=lambda: (
        Example(_vessel(1.0), "ok", "a vessel of 1 L"),
        Example(_vessel(LEAST_S / float(_vessel(1.0)["every_s"])), "ok", "exactly calm enough"),
        Example(_vessel(0.4), "note", "a very small one"),
        Example(_vessel(1.0, precharge_kpa=200), "tight", "pumped up too hard"),
    ),
    offers="pressure-vessel",
)
