"""Every tyre carries what stands on it, in every load case.

Axle ratings are for the axle as a whole. A kitchen on one side can overload the tyres below it on an axle that is
legal. The worst case for each of the four ends of the axles is looked for among all that are possible; twin wheels
share their end's load and have a load index of their own. What a tyre carries holds at the pressure its maker names for
that load.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.physics.uncertainty import exceed_frac
from engine.rule import (
    MASS_TIGHT,
    AtMost,
    Example,
    Inputs,
    Rule,
    Source,
    Unknown,
    chance_words,
    fact,
    heaviest_words,
    if_all_weighed,
)


class TyreLoad(Inputs):
    """The end of an axle that comes nearest to what its tyres carry."""

    end: str = fact("axle and side", "computed")
    case: str = fact("load case", "computed")
    load_kg: float = fact("load on that end of the axle", "computed", ge=0)
    spread_kg: float = fact("half-width of its 90 % band", "computed", ge=0)
    tyres_kg: float = fact("what its tyres carry", "catalogue", gt=0)
    load_index: str = fact("load index on the sidewall", "catalogue")
    half_rating_kg: float = fact("half the axle's rating, for comparison", "catalogue", gt=0)
    most: str = fact("what presses most on it", "computed", default="")

    @property
    def chance(self) -> str:
        """A sentence on the chance, where there is one worth naming."""
        return chance_words(exceed_frac(self.load_kg, self.tyres_kg, self.spread_kg))


def read(build: Build, figures: Figures) -> Inputs | Unknown | list[Inputs | Unknown]:
    """The worst end of all axles; not known without tyres or tracks, or while a mass on it is not stated."""
    v, worst, pressing = build.vehicle, figures.mass.wheel_worst, figures.mass.wheel_pressing
    if v.tyres is None:
        return Unknown(f"tyres of the {v.name}", "Read the load index from their sidewall, such as 121/119.")
    if worst is None or pressing is None:
        return Unknown(
            f"track of the {v.name}", "Measure from the middle of the left wheels to that of the right ones."
        )
    front = worst.name.startswith("front")
    found = TyreLoad(
        options=pressing.option_ids,
        end=worst.name,
        case=worst.case,
        load_kg=worst.load_kg,
        spread_kg=worst.spread_kg,
        tyres_kg=worst.limit_kg,
        load_index=v.tyres.front if front else v.tyres.rear,
        half_rating_kg=(v.masses.front_axle_rating_kg if front else v.masses.rear_axle_rating_kg) / 2,
        most=heaviest_words(build, pressing.most_kg),
    )
    # What has no mass may make another end the worst.
    return if_all_weighed(build, found, judge(found), figures.mass.not_stated)


def judge(x: TyreLoad) -> AtMost:
    """Masses warn from 95 %, or when the band reaches over what the tyres carry."""
    return AtMost(
        x.load_kg, x.tyres_kg, "kg", tight_from=MASS_TIGHT, low=x.load_kg - x.spread_kg, high=x.load_kg + x.spread_kg
    )


_VAN = {
    "end": "rear left", "case": "full fresh water, all aboard", "spread_kg": 15, "tyres_kg": 1060,
    "load_index": "110/108", "half_rating_kg": 1000,
}  # fmt: skip
RULE = Rule(
    code="tyre-load",
    title="Load on the tyres",
    topic="mass",
    category="safety",
    inputs=TyreLoad,
    read=read,
    judge=judge,
    formula="R_side = Σ r·(1/2 ± y/track) ≤ load of the index, twice that of the second index for twin wheels",
    sources=(
        Source("ISO 4000-1 and the ETRTO standards manual", "load indices, as tyre makers print them", "2026-11-25"),
        Source("Statics, balance of moments", "any mechanics text"),
    ),
    says={
        "ok": "Nearest to its limit is the {end}: {measured} of the {limit} its tyres carry ({case}).",
        "tight": "The {end} has {measured}{spread_kg:|, give or take #,|, give or take #,} of the {limit} its tyres "
        "carry ({case}).{chance}",
        "fails": "The {end} is {over} over: {measured}, and its tyres carry {limit} by load index {load_index} "
        "({case})."
        "{most:| Most of that: #.| Most of that: #.}"
        "{chance}",
    },
    remedy="Move load to the other side or the other axle, or fit tyres with a higher load index.",
    examples=lambda: (
        Example(_VAN | {"load_kg": 900}, "ok", "85 %"),
        Example(_VAN | {"load_kg": 1007}, "tight", "exactly 95 %"),
        Example(_VAN | {"load_kg": 1060}, "tight", "exactly what they carry"),
        Example(_VAN | {"load_kg": 1075}, "fails", "15 kg over"),
    ),
    caution=f"{cautions.WEIGHBRIDGE} An overloaded tyre runs hot and bursts.",
)
