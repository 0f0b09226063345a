"""Water that vapour leaves inside walls and roof dries again within the year.

Vapour wanders through linings and open insulation to the cold skin and settles there as water or frost. A little that
dries in spring does no harm; what is left from year to year, or is too much at once, rots and rusts.
"""

from engine.build import Build, Figures
from engine.build.damp import closed_by_the_skin
from engine.catalogue.facets import InsulationLayer
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, Source, Unknown, fact

MOST_KG_M2 = 0.5
"""Most water at a face that does not soak it up."""

LEFT_KG_M2 = 0.005
"""What is left after a year counts from here on."""


class Layers(Inputs):
    """Water in a surface over the year, diffusion alone."""

    surface: str = fact("surface of the shell", "computed")
    place: str = fact("where most of it lies", "computed")
    peak_water_kg_m2: float = fact("most water at a time", "computed", ge=0)
    left_water_kg_m2: float = fact("not dried after a year", "computed", ge=0)
    has_layer: bool = fact("it has a vapour layer on the room side", "catalogue", default=False)
    has_closed: bool = fact("what insulates next to the skin hinders vapour by itself", "catalogue", default=False)

    @property
    def tighter(self) -> str:
        """What the vapour layer has to be, beside one that is there."""
        return "tighter " if self.has_layer else ""

    @property
    def closed(self) -> str:
        """Other insulation, where the wall has none such."""
        return "" if self.has_closed else ", take closed-cell insulation against the skin"


def read(build: Build, figures: Figures) -> list[Layers | Unknown] | None:
    """Nothing to ask on trips without cold or of walls without insulation of ours."""
    d = figures.damp
    if d is None:
        return None
    ids = build.ids(InsulationLayer)
    plies = {s.name: s.plies for s in figures.warmth.surfaces}
    found: list[Layers | Unknown] = [
        Layers(
            options=ids,
            surface=name,
            place=y.place or "no layer",
            peak_water_kg_m2=round(y.peak_kg_m2, 3),
            left_water_kg_m2=round(y.left_kg_m2, 3),
            has_layer=any(p.barrier_m for p in plies[name]),
            has_closed=closed_by_the_skin(plies[name]),
        )
        for name, y in d.years
    ]
    found += [
        Unknown(
            f"how much {name} hinders vapour",
            "Its data sheet gives a vapour resistance factor (µ); ask the workshop to state it.",
            ids,
        )
        for name in d.unknown
    ]
    return found


def judge(x: Layers) -> Softened:
    """Peak against what a face bears; what does not dry counts as too much. It is never more than a warning."""
    left, peak = x.left_water_kg_m2, x.peak_water_kg_m2
    measured = peak if left <= LEFT_KG_M2 else max(peak, MOST_KG_M2 + left)
    return Softened(AtMost(measured, MOST_KG_M2, "water_kg_m2"), "tight")


def _water(peak_kg_m2: float, left_kg_m2: float = 0.0, **more: bool) -> dict[str, object]:
    return {
        "surface": "walls", "place": "steel", "peak_water_kg_m2": peak_kg_m2, "left_water_kg_m2": left_kg_m2,
    } | more  # fmt: skip


RULE = Rule(
    code="condensation-in-layers",
    title="Water inside the walls",
    topic="warmth",
    category="function",
    inputs=Layers,
    read=read,
    judge=judge,
    formula="months of condensing and drying by vapour diffusion (Glaser); peak ≤ 500 g/m², and dry again after a year",
    sources=(
        Source("ISO 13788:2012", "6, month by month (from memory)"),
        Source("DIN 4108-3", "most water at a face that does not soak it up (from memory)"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "Through the {surface} so little vapour passes that at most {peak_water_kg_m2} settle and dry again.",
        "tight": "In the {surface} {peak_water_kg_m2} of water settle at {place}; "
        "{left_water_kg_m2:all of it dries within the year|# is left after a year|# are left after a year}. "
        "Lived in only in the chosen months, and by diffusion alone: gaps let in more.",
    },
    remedy="Put a {tighter}vapour layer on the room side{closed}, or let more air through.",
    examples=lambda: (
        Example(_water(0.003, has_closed=True), "ok", "closed-cell foam"),
        Example(_water(0.44), "ok", "under nine tenths, and it dries"),
        Example(_water(0.5), "tight", "exactly at the limit"),
        Example(_water(2.7), "tight", "open wool without a layer"),
        Example(_water(0.09, 0.06, has_layer=True), "tight", "more each year, in spite of a vapour layer"),
    ),
    offers="insulation-layer",
    follows=("fresh-air-humidity",),
)
