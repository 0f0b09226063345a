"""The loaded vehicle stays within its gross rating.

Everything counts: the vehicle with full fuel, the fit-out, work that nobody lists, people, baggage, gas, a trailer's
nose, and whichever of fresh or waste water weighs more. Where vehicles of this kind were weighed, what they came to
more or less than was worked out is added. The rating is a legal limit and what brakes and tyres were made for. The
exact mass is known on the weighbridge only.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.rule import ELSEWHERE, MASS_TIGHT, AtMost, Example, Inputs, Rule, Source, Unknown, chance_words, fact


class Gross(Inputs):
    """The heaviest load case."""

    case: str = fact("load case", "computed")
    loaded_kg: float = fact("mass in that case", "computed", gt=0)
    spread_kg: float = fact("half-width of its 90 % band", "computed", ge=0)
    rating_kg: float = fact("gross rating", "catalogue", gt=0)
    exceed_frac: float = fact("chance that the rating is exceeded", "computed", default=0, ge=0, le=1)
    fit_out_kg: float = fact("all chosen parts and unlisted work", "computed", ge=0)
    water_kg: float = fact("water and waste aboard", "computed", ge=0)
    people_kg: float = fact("people aboard", "computed", ge=0)
    baggage_kg: float = fact("baggage, what is in cupboards with it", "computed", ge=0)
    gas_kg: float = fact("gas in all cylinders and tanks", "computed", default=0.0, ge=0)
    nose_kg: float = fact("a trailer's nose on the coupling", "chosen", default=0.0, ge=0)
    largest: str = fact("heaviest part", "computed")
    unlisted_kg: float | None = fact(
        "fixings, glue, wire and plumbing that nobody lists", "assumed", default=None, ge=0
    )
    weighed_count: int | None = fact("finished vehicles weighed before", "computed", default=None, ge=0)
    weighed_more_kg: float | None = fact("what they weighed more than was worked out", "computed", default=None)
    correction_kg: float | None = fact("added here after weighings", "computed", default=None)

    @property
    def more_kg(self) -> float:
        """What weighings add."""
        return max(0.0, self.correction_kg or 0.0)

    @property
    def off_kg(self) -> float:
        """What weighings take off."""
        return max(0.0, -(self.correction_kg or 0.0))

    @property
    def less(self) -> str:
        """What the owner could carry less of, as a part of a sentence; none of it where none is aboard."""
        named = (("water", self.water_kg), ("baggage", self.baggage_kg), ("weight on the coupling", self.nose_kg))
        *rest, last = [name for name, kg in named if kg] or [""]
        return f" carry less {', '.join(rest)}{' or ' if rest else ''}{last}," if last else ""

    @property
    def chance(self) -> str:
        """A sentence on the chance, where there is one worth naming."""
        return chance_words(self.exceed_frac)


def read(build: Build, figures: Figures) -> list[Gross | Unknown]:
    """The heaviest case, and a loud word for every part whose mass nobody stated. While there is one, the rest is told
    only where it is too much already."""
    m = figures.mass
    found: list[Gross | Unknown] = []
    if not m.not_stated or m.heaviest.axles.total_kg > build.vehicle.masses.gross_kg:
        found.append(
            Gross(
                options=tuple(i for i in m.largest_ids),
                case=m.heaviest.name,
                loaded_kg=m.heaviest.axles.total_kg,
                spread_kg=m.heaviest.spread_kg,
                rating_kg=build.vehicle.masses.gross_kg,
                exceed_frac=m.gross_exceed_frac,
                fit_out_kg=m.fit_out_kg,
                water_kg=m.water_kg,
                people_kg=m.people_kg,
                baggage_kg=m.baggage_kg,
                gas_kg=m.gas_kg,
                nose_kg=m.nose_kg,
                largest=build.option_names[m.largest_ids[0]] if m.largest_ids else "none",
                unlisted_kg=m.unlisted_kg or None,
                weighed_count=m.weighed.vehicles_count or None,
                weighed_more_kg=m.weighed.more_kg if m.weighed.vehicles_count else None,
                correction_kg=m.weighed.added_kg if m.weighed.how else None,
            )
        )
    found += [
        Unknown(
            f"mass of {build.option_names[i]}", "Weigh it, or copy it from its data sheet into the catalogue.", (i,)
        )
        for i in m.not_stated
    ]
    return found


def judge(x: Gross) -> AtMost:
    """Masses warn from 95 % of the rating, or when the band reaches over it."""
    return AtMost(
        x.loaded_kg,
        x.rating_kg,
        "kg",
        tight_from=MASS_TIGHT,
        low=x.loaded_kg - x.spread_kg,
        high=x.loaded_kg + x.spread_kg,
    )


_VAN = {
    "case": "full fresh water, all aboard", "spread_kg": 0, "rating_kg": 3500, "fit_out_kg": 600, "water_kg": 100,
    "people_kg": 150, "baggage_kg": 100, "largest": "Kitchen block",
}  # fmt: skip
RULE = Rule(
    code="gross-mass",
    title="Loaded mass against the gross rating",
    topic="mass",
    category="legal",
    inputs=Gross,
    read=read,
    judge=judge,
    formula="vehicle + parts + people + baggage + gas + water ≤ gross rating",
    sources=(
        Source("49 CFR 571.3 and 567.4", "definition of GVWR, 150 lb for each seat", "2026-11-25", "us"),
        Source("Regulation (EU) 2021/535, Annex XIII", "mass of 75 kg for each person", "2026-11-25", ELSEWHERE),
    ),
    says={
        "ok": "Loaded ({case}) it weighs {measured}{spread_kg:|, give or take #,|, give or take #,} of {limit}; "
        "{margin:nothing is|# is|# are} left.",
        "tight": "Loaded ({case}) it weighs {measured}{spread_kg:|, give or take #,|, give or take #,} of {limit}: "
        "{margin:nothing is|# is|# are} left."
        "{chance}",
        "fails": "Loaded ({case}) it weighs {measured}, {over} over the rating of {limit}. "
        "{more_kg:|Weighings add #. |Weighings add #. }{off_kg:|Weighings take off #. |Weighings take off #. }"
        "Parts {fit_out_kg}, water {water_kg}, people {people_kg}, baggage {baggage_kg}"
        "{gas_kg:|, gas #|, gas #}{nose_kg:|, trailer's nose #|, trailer's nose #}; heaviest part: "
        "{largest}.{chance}",
    },
    remedy="Leave out something heavy,{less} or choose a vehicle with a higher rating. "
    "Have it weighed before the first trip.",
    examples=lambda: (
        Example(_VAN | {"loaded_kg": 3320}, "ok", "94.9 % of the rating"),
        Example(_VAN | {"loaded_kg": 3325}, "tight", "exactly 95 %"),
        Example(_VAN | {"loaded_kg": 3500}, "tight", "exactly at the rating"),
        Example(_VAN | {"loaded_kg": 3501}, "fails", "1 kg over"),
        Example(
            _VAN | {"loaded_kg": 3540, "correction_kg": -21.5}, "fails", "40 kg over, though its likes weighed less"
        ),
        Example(
            _VAN | {"loaded_kg": 3300, "spread_kg": 210, "exceed_frac": 0.059},
            "tight",
            "the band reaches over the rating",
        ),
        Example(
            _VAN | {"rating_kg": 3900.9, "loaded_kg": 3963.0}, "fails", "8,737 lb on a rating of 8,600 lb: 137 lb over"
        ),
    ),
    caution=f"{cautions.WEIGHBRIDGE} {cautions.AUTHORITY}",
)
