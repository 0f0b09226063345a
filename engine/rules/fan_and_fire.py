"""A fan that draws air out does not draw a fire's burnt gas back into the room.

In a room with every window shut a range hood or roof fan sucks its air from wherever it comes: through a chimney it
brings smoke and carbon monoxide. A window open by a hand's breadth, or a switch that wants one, is the way out.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.fan_air import fan_opening_m2
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, Source, fact, listed


class Suction(Inputs):
    """Openings that let the fan's air in."""

    fan: str = fact("fans that may draw too much, each by itself", "chosen")
    fire: str = fact("fires with a chimney or open flue", "chosen")
    ducted: bool = fact("whether they take their air from outside", "catalogue")
    have_cm2: float = fact("openings that cannot be shut, with leaks", "catalogue", ge=0)
    want_cm2: float = fact("openings that the fan's air needs", "computed", gt=0)


def read(build: Build, figures: Figures) -> Suction | None:
    """Nothing to ask without both."""
    d = figures.draught
    if d is None:
        return None
    return Suction(
        options=(*d.fan_ids, *d.burner_ids), fan=listed(d.fans), fire=listed(d.burners), ducted=d.ducted,
        have_cm2=d.have_m2 * 1e4, want_cm2=d.want_m2 * 1e4,
    )  # fmt: skip


def judge(x: Suction) -> Softened:
    """Openings against those wanted. A window does it, so it never fails; with air from outside it is worth a note."""
    return Softened(AtLeast(x.have_cm2, x.want_cm2, "cm2", tight_from=JUST_ENOUGH), "note" if x.ducted else "tight")


def _hood(have_cm2: float | None = None, ducted: bool = False) -> dict[str, str | float | bool]:
    """A range hood of 236 m³/h beside a stove; by default with openings that are just enough."""
    want_cm2 = 1e4 * fan_opening_m2(236.0, ducted)
    return {
        "fan": "Range hood", "fire": "Wood stove", "ducted": ducted, "want_cm2": want_cm2,
        "have_cm2": want_cm2 if have_cm2 is None else have_cm2,
    }  # fmt: skip


_SAYS = (
    "With every window shut this can draw burnt gas back into the room from {fire}: {fan}. {measured} of openings "
    "let air in, {limit} are wanted. Run fans with a window open."
)
RULE = Rule(
    code="fan-and-fire",
    title="Fans beside an open fire",
    topic="warmth",
    category="safety",
    inputs=Suction,
    read=read,
    judge=judge,
    formula="A = Q·(1 − Δp/p₀) / (0.6·√(2·Δp/ρ)), Δp = 4 Pa, with air from outside 8 Pa",
    sources=(
        Source("Muster-Feuerungsverordnung", "§ 4: no more than 0.04 mbar of suction by fans (from memory)"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "Openings that cannot be shut let in what {fan} can draw beside {fire}: {measured}; {limit:# is|# are} "
        "wanted.",
        "tight": _SAYS,
        "note": _SAYS,
    },
    remedy="Fit a switch that lets the fan run with a window open only, or choose a fire with air from outside.",
    examples=lambda: (
        Example(_hood(400), "ok", "large openings that cannot be shut"),
        Example(_hood(), "ok", "exactly enough"),
        Example(_hood(55), "tight", "a stove in a tight room"),
        Example(_hood(55, ducted=True), "note", "a stove with its own air"),
    ),
    offers="fixed-vent",
    caution=f"{cautions.CARBON_MONOXIDE} Never run a fan that draws out while a fire dies down.",
)
