"""Water that vapour leaves inside walls and roof dries again within the year.

Vapour wanders through linings and open insulation to the cold skin and settles there as water or frost. A little that
dries in spring does no harm; what is left from year to year, or is too much at once, rots and rusts.
"""

from engine.build import Build, Figures
from engine.catalogue.facets import InsulationLayer
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Softened, Source, Unknown, fact

MOST_GRAMS = 500.0
"""Most water at a face that does not soak it up."""

LEFT_GRAMS = 5.0
"""What is left after a year counts from here on."""


class Layers(Inputs):
    """Water in a surface over the year, diffusion alone."""

    surface: str = fact("surface of the shell", "computed")
    place: str = fact("where most of it lies", "computed")
    peak_grams: int = fact("most water at a time, grams a square metre", "computed", ge=0)
    left_grams: int = fact("not dried after a year, grams a square metre", "computed", ge=0)


def read(build: Build, figures: Figures) -> list[Layers | Unknown] | None:
    """Nothing to ask on trips without cold or of walls without insulation of ours."""
    d = figures.damp
    if d is None:
        return None
    ids = build.ids(InsulationLayer)
    found: list[Layers | Unknown] = [
        Layers(
            options=ids,
            surface=name,
            place=y.place or "no layer",
            peak_grams=round(1000 * y.peak_kg_m2),
            left_grams=round(1000 * y.left_kg_m2),
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
    measured = x.peak_grams if x.left_grams <= LEFT_GRAMS else max(x.peak_grams, MOST_GRAMS + x.left_grams)
    return Softened(AtMost(measured, MOST_GRAMS, "count"), "tight")


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
        "ok": "Through the {surface} so little vapour passes that at most {peak_grams} g/m² settle and dry again.",
        "tight": "In the {surface} {peak_grams} g/m² of water settle at {place}; "
        "{left_grams:all of it dries within the year|# g/m² is left after a year|# g/m² are left after a year}. "
        "Lived in only in the chosen months, and by diffusion alone: gaps let in more.",
    },
    remedy="Put a vapour layer on the room side, take closed-cell insulation against the skin, or "
    "let more air through.",
    examples=(
        Example({"surface": "walls", "place": "steel", "peak_grams": 3, "left_grams": 0}, "ok", "closed-cell foam"),
        Example(
            {"surface": "walls", "place": "steel", "peak_grams": 440, "left_grams": 0},
            "ok",
            "under nine tenths, and it dries",
        ),
        Example(
            {"surface": "walls", "place": "steel", "peak_grams": 500, "left_grams": 0}, "tight", "exactly at the limit"
        ),
        Example(
            {"surface": "walls", "place": "steel", "peak_grams": 2700, "left_grams": 0},
            "tight",
            "open wool without a layer",
        ),
        Example({"surface": "walls", "place": "steel", "peak_grams": 90, "left_grams": 60}, "tight", "more each year"),
    ),
    offers="insulation-layer",
    follows=("fresh-air-humidity",),
)
