"""The storage holds the baggage, and where it is.

In 50 L (1.8 ft³) go some 10 kg of clothes, food and gear.
"""

from engine.build import Build, Figures
from engine.build.carriers import carried, garage_kg
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, fact

KG_PER_L = 0.2
"""Mass of packed clothes, food and gear for each litre (common practice)."""


class Storage(Inputs):
    """Litres by place, and the baggage."""

    garage_space_l: float = fact("garage", "catalogue", ge=0)
    overhead_space_l: float = fact("overhead lockers", "catalogue", ge=0)
    wardrobe_space_l: float = fact("wardrobe", "catalogue", ge=0)
    drawers_space_l: float = fact("drawers", "catalogue", ge=0)
    cupboards_space_l: float = fact("cupboards and lockers below seats and beds", "catalogue", ge=0)
    baggage_kg: float = fact("all baggage of the trip that rides inside", "computed", ge=0)


def read(build: Build, figures: Figures) -> Storage | None:
    """Nothing to ask without any storage."""
    litres = dict(figures.plan.storage_l)
    if not litres:
        return None
    return Storage(
        garage_space_l=litres.get("garage", 0.0),
        overhead_space_l=litres.get("overhead", 0.0),
        wardrobe_space_l=litres.get("wardrobe", 0.0),
        drawers_space_l=litres.get("drawers", 0.0),
        cupboards_space_l=litres.get("cupboard", 0.0) + litres.get("under-bed", 0.0),
        baggage_kg=garage_kg(build, carried(build)),
    )


def judge(x: Storage) -> Softened:
    """All litres against the baggage's; too few are a note."""
    total_l = x.garage_space_l + x.overhead_space_l + x.wardrobe_space_l + x.drawers_space_l + x.cupboards_space_l
    return Softened(AtLeast(total_l, x.baggage_kg / KG_PER_L, "space_l", tight_from=JUST_ENOUGH), "note")


_IN = {"overhead_space_l": 280.0, "wardrobe_space_l": 0.0, "drawers_space_l": 230.0, "cupboards_space_l": 90.0}
_WHERE = (
    "Garage {garage_space_l}, overhead {overhead_space_l}, wardrobe {wardrobe_space_l}, drawers {drawers_space_l}, "
    "cupboards {cupboards_space_l}"
)
RULE = Rule(
    code="storage-volume",
    title="Storage by place",
    topic="space",
    category="comfort",
    inputs=Storage,
    read=read,
    judge=judge,
    formula="Σ storage ≥ baggage / 0.2 kg/L",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": _WHERE + ".",
        "note": _WHERE + ": {measured} in all. {baggage_kg} of baggage take about {limit}.",
    },
    remedy="Add lockers or a wardrobe, or take less.",
    examples=lambda: (
        Example(_IN | {"garage_space_l": 1350.0, "baggage_kg": 100.0}, "ok", "1,950 L (69 ft³) for 100 kg"),
        Example(_IN | {"garage_space_l": 400.0, "baggage_kg": 200.0}, "ok", "exactly enough"),
        Example(_IN | {"garage_space_l": 0.0, "baggage_kg": 200.0}, "note", "600 L (21 ft³) for 200 kg"),
    ),
    offers="furniture",
)
