"""Gas lasts from one stop to the next, in the coldest chosen month.

The 80 % that a cylinder or tank may be filled to is counted once: a cylinder's stated content already has it off.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.gas_rate import gas_burner_ids
from engine.catalogue.facets import GasAppliance, GasStore
from engine.rule import AtLeast, Example, Holds, Inputs, Rule, Softened, Source, fact
from engine.rules.fresh_water_days import lasts

MOST_D = 365.0
"""A year and longer is told as such, and no further."""

_MORE = "Carry more gas, heat with something else, or refill sooner"

_GOES_INTO = (
    "{cooking_kg:|cooking #; |cooking #; }{other_kg:|{other} #; |{other} #; }"
    "{heating_kg:|heating #; |heating #; }"
    "{hot_water_kg:|hot water #; |hot water #; }"
    "{use_kg} a day in all"
)


class Gas(Inputs):
    """Gas and its use on a mean day of the coldest chosen month."""

    content_kg: float = fact("gas when legally full", "catalogue", ge=0)
    use_kg: float = fact("burnt a day", "computed", gt=0)
    cooking_kg: float = fact("of that for cooking", "computed", ge=0)
    other_kg: float = fact("of that for a fridge, a fire and the like", "computed", default=0, ge=0)
    other: str = fact("what that is", "chosen", default="fridge")
    heating_kg: float = fact("of that for heating", "computed", ge=0)
    hot_water_kg: float = fact("of that for hot water", "computed", ge=0)
    wanted_d: float = fact("days from one hook-up to the next", "chosen", gt=0)
    helps: str = fact("what helps first", "computed", default=_MORE)


def read(build: Build, figures: Figures) -> Gas | None:
    """Nothing to ask when nothing burns gas."""
    g = figures.gas
    if not g.uses_gas or not g.gas_kg_d:
        return None
    others = [f for _, f in build.facets(GasAppliance) if f.habit not in ("cooking", "outdoors")]
    return Gas(
        options=tuple(dict.fromkeys((*build.ids(GasStore), *gas_burner_ids(build)))),
        lacks="" if build.ids(GasStore) else "gas-store",
        content_kg=g.gas_kg,
        use_kg=g.gas_kg_d,
        cooking_kg=g.cooking_kg_d,
        other_kg=g.other_kg_d,
        other="fridge" if all(f.habit == "always" for f in others) else "fire and others",
        heating_kg=g.heating_kg_d,
        hot_water_kg=g.hot_water_kg_d,
        wanted_d=build.trip.days_off_grid_d,
        helps=_MORE if g.gas_kg else "Add a cylinder or a tank, or choose what burns no gas",
    )


def judge(x: Gas) -> AtLeast | Softened | Holds:
    """Days of gas against days wanted; without any store it fails."""
    if not x.content_kg:
        return Holds(False)
    return lasts(min(MOST_D, x.content_kg / x.use_kg), x.wanted_d)


def _burnt(
    wanted_d: float, heating_kg: float = 1.0115, cooking_kg: float = 0.127, content_kg: float = 9.07
) -> dict[str, float]:
    """A cylinder of 20 lb, with cooking and heating."""
    return {
        "content_kg": content_kg, "use_kg": cooking_kg + heating_kg, "cooking_kg": cooking_kg,
        "heating_kg": heating_kg, "hot_water_kg": 0, "wanted_d": wanted_d,
    }  # fmt: skip


RULE = Rule(
    code="gas-days",
    title="Days of gas",
    topic="gas",
    category="function",
    inputs=Gas,
    read=read,
    judge=judge,
    formula="days = legal content / Σ (plate input / 13.98 kWh/kg + heater output / η / 12.87 kWh/kg)",
    sources=(
        Source("Standard enthalpies of combustion", "propane 50.33 MJ/kg gross, 46.34 MJ/kg net", "2026-11-25"),
        Source("NFPA 58", "filling to 80 % of a tank's volume (figure from memory)"),
    ),
    says={
        "ok": f"Gas lasts {{measured}}; {{limit:# is|# are}} wanted ({_GOES_INTO}).",
        "tight": f"Gas lasts {{measured}}, close to {{limit}} wanted ({_GOES_INTO}).",
        "fails": "For {wanted_d} there is {content_kg:no gas at all|only # of gas|only # of gas}. "
        f"It burns: {_GOES_INTO}.",
    },
    remedy="{helps}.",
    examples=lambda: (
        Example(_burnt(3), "ok", "a cylinder for a long weekend"),
        Example(_burnt(7.5), "tight", "a week of it"),
        Example(_burnt(4, heating_kg=9.07 / 4 - 0.127), "tight", "twice the heating, exactly enough"),
        Example(_burnt(10), "fails", "too long"),
        Example(_burnt(3, content_kg=0), "fails", "no cylinder at all"),
        Example(
            _burnt(4) | {"other_kg": 1.5, "use_kg": 2.6385, "other": "fire and others"}, "fails", "with a gas fire"
        ),
    ),
    offers="gas-store",
    caution=f"{cautions.GAS} {cautions.CYLINDER}",
)
