"""What heats room and water takes its air from outside and leaves its burnt gas there.

A flame that burns the room's air, where people sleep behind shut windows, makes carbon monoxide, uses up the air and
puts water into it.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import Example, Holds, Inputs, Rule, Source, Unknown, fact, listed


class Flame(Inputs):
    """What burns, and where it takes its air."""

    name: str = fact("what burns", "chosen")
    gas: bool = fact("whether it burns gas", "catalogue")
    flueless: bool = fact("whether its burnt gas stays in the room", "catalogue", default=False)
    sealed: bool = fact("whether it takes its air from outside", "catalogue")

    @property
    def fuel(self) -> str:
        """What it burns."""
        return "gas" if self.gas else "its fuel"

    @property
    def stays(self) -> str:
        """Words on burnt gas that has no way out."""
        return ", and its burnt gas stays there" if self.flueless else ""


def read(build: Build, figures: Figures) -> list[Flame | Unknown]:
    """Each that burns the room's air, or of which nobody says; hobs and ovens are used awake and do not count."""
    o = figures.openings
    each = {b.option_id: b for b in o.breathers}
    found: list[Flame | Unknown] = [
        Flame(options=(i,), name=b.name, gas=b.gas, flueless=b.flueless, sealed=False) for i, b in each.items()
    ]
    found += [
        Unknown(
            f"where {name} takes its air and leaves its burnt gas",
            "Its data sheet says whether it is room-sealed; ask the workshop.",
            (option_id,),
        )
        for option_id, name in o.unstated
    ]
    if found or not o.sealed:
        return found
    ids, names = zip(*o.sealed, strict=True)
    return [Flame(options=ids, name=listed(dict.fromkeys(names)), gas=True, sealed=True)]


def judge(x: Flame) -> Holds:
    """What burns gas, or has no flue, must be room-sealed; a stove is for somebody who sits by it."""
    return Holds(x.sealed, "fails" if x.gas or x.flueless else "tight")


RULE = Rule(
    code="room-sealed",
    title="Where flames take their air",
    topic="gas",
    category="safety",
    inputs=Flame,
    read=read,
    judge=judge,
    formula="heater of gas, or without a flue → room-sealed",
    sources=(
        Source("EN 1949", "heaters of gas in vehicles are room-sealed, cookers apart (from memory)"),
        Source("NFPA 1192", "sealed combustion, cookers apart (from memory)"),
    ),
    says={
        "ok": "With air from outside, and burnt gas led there: {name}.",
        "tight": "{name} burns the room's air. It wants somebody awake beside it, an open vent and an alarm.",
        "fails": "{name} burns {fuel} with the room's air{stays}. Where people sleep that can kill.",
    },
    remedy="Choose one that is room-sealed.",
    examples=lambda: (
        Example({"name": "Gas heater", "gas": True, "sealed": True}, "ok", "room-sealed"),
        Example({"name": "Wood stove", "gas": False, "sealed": False}, "tight", "a stove for evenings"),
        Example({"name": "Water heater", "gas": True, "sealed": False}, "fails", "gas with an open flue"),
        Example(
            {"name": "Catalytic heater", "gas": True, "flueless": True, "sealed": False}, "fails", "gas without a flue"
        ),
        Example(
            {"name": "Paraffin heater", "gas": False, "flueless": True, "sealed": False}, "fails", "no flue at all"
        ),
    ),
    offers="space-heater",
    caution=f"{cautions.CARBON_MONOXIDE} {cautions.GAS}",
)
