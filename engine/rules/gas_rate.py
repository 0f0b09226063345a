"""The gas cylinder can give gas as fast as it burns on the coldest night.

Liquid gas must boil before it burns, and takes the heat for that from the air round the cylinder. In the cold, and
nearly empty, it boils slowly; butane stops altogether about freezing. The rate is an estimate: published charts differ
threefold.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.gas_rate import SOME_KPA, GasRateFigures, cylinder_rates
from engine.physics.gas_vapour import coldest_feed_degc
from engine.rule import COMMON_PRACTICE, AtMost, Example, Inputs, Rule, Source, Unknown, fact
from engine.spelling import begun

PROPANE_FRAC = 0.9
"""What has so much propane is sold as propane (common practice)."""

MORE = "Use two cylinders at once or a larger one, change them before they are low, or heat with another fuel"


class Boiling(Inputs):
    """Gas burnt on a cold night against gas that boils."""

    name: str = fact("cylinder or tank in use", "chosen")
    burnt_kg_h: float = fact("burnt for hours on end", "computed", ge=0)
    boils_kg_h: float = fact("what it gives at this temperature, three tenths full", "computed", ge=0)
    low_kg_h: float = fact("the same at least", "computed", ge=0)
    high_kg_h: float = fact("the same at most", "computed", ge=0)
    full_kg_h: float = fact("what it gives when full", "computed", ge=0)
    night_degc: float = fact("coldest night", "catalogue")
    feeds_degc: float = fact("colder than this no gas comes", "computed")
    propane_frac: float = fact("propane in what is left then", "computed", ge=0, le=1)
    way: str = fact("what helps", "computed", default=MORE)


def read(build: Build, figures: Figures) -> Boiling | Unknown | None:
    """What burns for hours; a hob or a boiler alone is asked about only where no gas comes at all. In cold in which
    butane gives none it has to be known which gas it is."""
    g = figures.gas_rate
    if g is None:
        return None
    if not g.known and g.night_degc < coldest_feed_degc(0.0, SOME_KPA):
        return Unknown(f"which gas it is: {g.name}", "Its label says propane, butane or a mix of both.", g.store_ids)
    frozen = g.night_degc < g.feeds_degc
    if not g.steady_kg_h and not frozen:
        return None
    return Boiling(
        options=(*g.store_ids, *g.burner_ids),
        name=g.name,
        burnt_kg_h=g.steady_kg_h or g.short_kg_h,
        boils_kg_h=0.0 if frozen else g.rate.kg_h,
        low_kg_h=0.0 if frozen else g.rate.low_kg_h,
        high_kg_h=0.0 if frozen else g.rate.high_kg_h,
        full_kg_h=g.full_rate.kg_h,
        night_degc=g.night_degc,
        feeds_degc=g.feeds_degc,
        propane_frac=g.left_propane_frac,
        way=way(g),
    )


def way(g: GasRateFigures) -> str:
    """What helps on such a night: more cylinders only where any gives gas, propane only where there is none."""
    mixed = g.propane_frac < PROPANE_FRAC
    if g.frozen:
        if mixed and g.propane_helps:
            return "Use propane, which still gives gas then, or choose what burns no gas"
        return "Choose what burns no gas, or stay where nights are warmer; more gas does not help then"
    if g.cylinders_count:
        more = "use two cylinders at once" + (" or a larger one" if g.cylinders_count < 2 else "")
        ways = ["use propane"] * mixed + [more, "change them before they are low"]
    else:
        ways = ["choose a larger tank", "refill it before it is low"]
    told = ", ".join(ways)
    return f"{begun(told)}, or heat with another fuel"


def judge(x: Boiling) -> AtMost:
    """It fails where even the best of the charts gives less, and is close from the poorest of them on."""
    if x.burnt_kg_h <= x.low_kg_h:
        return AtMost(x.burnt_kg_h, x.low_kg_h, "kg_h", tight_from=1.0)
    return AtMost(x.burnt_kg_h, x.high_kg_h, "kg_h", tight_from=0.0)


def _cylinder(name: str, propane_frac: float, night_degc: float, burnt_kg_h: float = 0.0) -> dict[str, str | float]:
    """A cylinder of 11 kg on such a night; by default as much burns as it gives at best."""
    rate, full, left, feeds = cylinder_rates(11.0, propane_frac, night_degc)
    return {
        "name": name, "night_degc": night_degc, "feeds_degc": feeds, "propane_frac": left, "boils_kg_h": rate.kg_h,
        "low_kg_h": rate.low_kg_h, "high_kg_h": rate.high_kg_h, "full_kg_h": full.kg_h,
        "burnt_kg_h": burnt_kg_h or rate.high_kg_h,
    }  # fmt: skip


_PROPANE = ("Gas cylinder", 1.0, -15.0)
RULE = Rule(
    code="gas-rate",
    title="Gas in the cold",
    topic="gas",
    category="function",
    inputs=Boiling,
    read=read,
    judge=judge,
    formula="rate = U · wetted wall · (θ_air − θ_feed) / heat of evaporation, U = 7 to 20 W/(m²·K)",
    sources=(
        Source("Charts of propane cylinders", "US generator makers and a German trade table, three of them, fitted"),
        Source("The Properties of Gases and Liquids", "4th edition 1987, vapour pressures (from memory)"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "{name}: at {night_degc} it gives at least {low_kg_h} even three tenths full; {burnt_kg_h} burns for "
        "hours.",
        "tight": "{name}: at {night_degc}, three tenths full, it gives {low_kg_h} to {high_kg_h}; {burnt_kg_h} burns "
        "for hours. Full, it gives about {full_kg_h}.",
        "fails": "{name}: at {night_degc}, three tenths full, it gives {high_kg_h:no gas to speak of|# at best|# at "
        "best}; {burnt_kg_h} burns. Colder than {feeds_degc} no gas comes at all then."
        "{full_kg_h:| Full, it gives about #.| Full, it gives about #.}",
    },
    remedy="{way}.",
    examples=lambda: (
        Example(_cylinder(*_PROPANE, 0.2), "ok", "a small heater in hard frost"),
        Example(_cylinder(*_PROPANE, 0.5), "tight", "the charts disagree"),
        Example(_cylinder(*_PROPANE), "tight", "exactly the best of them"),
        Example(_cylinder(*_PROPANE, 0.9), "fails", "two heaters on one cylinder"),
        Example(
            _cylinder("Butane cylinder", 0.0, -5.0, 0.13)
            | {"way": "Use propane, which still gives gas then, or choose what burns no gas"},
            "fails",
            "butane in the frost",
        ),
    ),
    offers="gas-store",
    caution=f"{cautions.GAS} Never warm a cylinder with flame or heater.",
)
