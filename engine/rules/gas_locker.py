"""Gas cylinders stand in a locker that is open below to outside.

Gas is heavier than air. What leaks in the locker must sink out of it, and never into the living space.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.mass_items import gas_content_kg
from engine.catalogue.facets import GasLocker, GasStore
from engine.physics.fixed_vents import locker_vent_us_m2
from engine.rule import ELSEWHERE, JUST_ENOUGH, AtLeast, Example, Holds, Inputs, Rule, Softened, Source, Unknown, fact

LEAST_CM2 = 100.0
"""Opening below that a locker has at least; in the United States it goes by the gas."""


class Locker(Inputs):
    """The opening in the locker's floor."""

    vent_cm2: float = fact("free opening through the locker's floor", "catalogue", ge=0)
    least_cm2: float = fact("opening wanted", "regulation", gt=0, default=LEAST_CM2)


def read(build: Build, figures: Figures) -> Locker | Unknown | None:
    """Nothing to ask without cylinders; unknown where no locker, or no opening, is stated."""
    ids = tuple(dict.fromkeys(p.option.id for p, f in build.facets(GasStore) if f.container == "cylinder"))
    if not ids:
        return None
    lockers = build.facets(GasLocker)
    if not lockers:
        return Unknown("locker of the gas cylinders", "Ask the workshop where they stand.", ids, "gas-locker")
    vents = [f.drop_vent_m2 for _, f in lockers]
    if any(v is None for v in vents):
        return Unknown(
            "opening through the floor of the gas locker", "Measure it, less its grille.", build.ids(GasLocker)
        )
    gas_kg = sum(gas_content_kg(f) * p.count for p, f in build.facets(GasStore) if f.container == "cylinder")
    least_cm2 = LEAST_CM2
    if build.workshop.region == "us":
        least_cm2 = locker_vent_us_m2(min(500.0, gas_kg)) * 1e4
    return Locker(
        options=build.ids(GasLocker), vent_cm2=min(v for v in vents if v is not None) * 1e4, least_cm2=least_cm2
    )


def judge(x: Locker) -> Softened | Holds:
    """Without any it fails; a small one is worth a warning."""
    if not x.vent_cm2:
        return Holds(False)
    return Softened(AtLeast(x.vent_cm2, x.least_cm2, "cm2", tight_from=JUST_ENOUGH), "tight")


_FORTY_LB = {"least_cm2": locker_vent_us_m2(40 * 0.45359237) * 1e4}
RULE = Rule(
    code="gas-locker",
    title="Vent of the gas locker",
    topic="gas",
    category="safety",
    inputs=Locker,
    read=read,
    judge=judge,
    formula="free opening ≥ 100 cm², in the United States 1 in² for each 7 lb of gas",
    sources=(
        Source("EN 1949", "2 % of the locker's floor, at least 100 cm² low down (from memory)", region=ELSEWHERE),
        Source("NFPA 1192", "1 in² for each 7 lb of gas (from memory)", region="us"),
    ),
    says={
        "ok": "The gas locker has {measured} of opening through its floor; {limit:# is|# are} usual.",
        "tight": "The gas locker has only {measured} of opening through its floor; {limit:# is|# are} usual.",
        "fails": "The gas locker has no opening through its floor: gas that leaks stays inside.",
    },
    remedy="Let the workshop cut a larger opening, away from flames, exhaust and anything that sparks.",
    examples=lambda: (
        Example({"vent_cm2": 120}, "ok", "a wide grille"),
        Example({"vent_cm2": 100}, "ok", "exactly enough", ELSEWHERE),
        Example({"vent_cm2": 40}, "tight", "a pipe of 7 cm", ELSEWHERE),
        Example(_FORTY_LB | {"vent_cm2": _FORTY_LB["least_cm2"]}, "ok", "exactly enough for two of 20 lb", "us"),
        Example(_FORTY_LB | {"vent_cm2": 20}, "tight", "a pipe of 2 in", "us"),
        Example({"vent_cm2": 0}, "fails", "none"),
    ),
    offers="gas-locker",
    caution=f"{cautions.GAS} {cautions.CYLINDER}",
)
