"""The heating holds the wanted warmth on the coldest night of the trip.

Heat leaves through walls, roof, floor, glass and doors and with the air that sleepers need. Steel ribs carry more than
their share. The heating must replace all of it at the coldest hour of the chosen months at the chosen place.
"""

from engine import cautions
from engine.build import Build, Figures
from engine.build.habits import altitude_m
from engine.build.shell import open_cab
from engine.build.standstill import without_source
from engine.build.warmth import NEEDS_BATTERY, NEEDS_SOURCE, WarmthFigures
from engine.catalogue.facets import InsulationLayer, SpaceHeater
from engine.physics.fuel import thin_air_frac
from engine.rule import JUST_ENOUGH, AtMost, Example, Holds, Inputs, Rule, Softened, Source, fact, listed

_LARGER = "Insulate more, choose a larger main heater"
_BATTERY = "Add a house battery, choose a heater that needs none"


class Heating(Inputs):
    """Heat loss on the coldest night, and the heaters."""

    inside_degc: float = fact("warmth wanted inside", "chosen")
    outside_degc: float = fact("coldest hour of the chosen months", "catalogue")
    loss_heat_w: float = fact("heat lost then", "computed", ge=0)
    low_heat_w: float = fact("least it may be", "computed", ge=0)
    high_heat_w: float = fact("most it may be", "computed", ge=0)
    output_heat_w: float = fact("output of all heaters", "catalogue", ge=0)
    thin_air_frac: float | None = fact("of their rating gas heaters give at this height", "computed", default=None)
    season: bool = fact("whether any month or usual night is so cold that it is heated", "computed", default=True)
    heaters: str = fact("heaters that count, where there are several", "chosen", default="")
    largest: str = fact("where most heat goes", "computed")
    flame_m3_h: float = fact("fresh air for flames without a flue, of it all", "computed", ge=0, default=0.0)
    uncounted: str = fact("heaters that do not count, and why", "catalogue", default="")
    helps: str = fact("what helps", "computed", default=_LARGER)

    @property
    def thin_air(self) -> str:
        """A sentence on thin air, where it takes something from gas heaters."""
        if self.thin_air_frac is None:
            return ""
        return f" So high above the sea a gas heater gives {self.thin_air_frac * 100:.0f} % of its rating."


def _helps(build: Build, w: WarmthFigures, largest: str) -> str:
    """What this build lacks comes first: a battery for the heater it has, or a heater."""
    if w.for_battery:
        return _BATTERY
    if not w.output_w:
        sources = (without_source(build, p) for p, _ in build.facets(SpaceHeater))
        return next((f"Add {s}" for s in sources if s), "Choose a main heater")
    more = "Insulate more" if build.ids(InsulationLayer) else "Insulate it"
    cab = open_cab(build)
    closed = (
        f"Close off the cab with “{build.option_names[cab.closing_option]}”, " if cab and cab.closing_option else ""
    )
    more = more.lower() if closed else more
    return f"{closed}{more} (first: {largest}), choose a larger main heater"


def _uncounted(w: WarmthFigures) -> str:
    """A sentence for each reason, with all heaters that it holds for."""
    found = []
    for why in dict.fromkeys(u.why for u in w.uncounted):
        names = list(dict.fromkeys(u.name for u in w.uncounted if u.why == why))
        found.append(f"Not counted, for {'it' if len(names) == 1 else 'each'} {why}: {listed(names)}.")
    return " ".join(found)


def _thin_air(build: Build, w: WarmthFigures) -> float | None:
    """What thin air leaves of a gas heater; None where it takes nothing."""
    gas = any(f.fuel == "gas" for p, f in build.facets(SpaceHeater) if p.option.id in w.heater_ids)
    left = thin_air_frac(altitude_m(build))
    return left if gas and left < 1 else None


def read(build: Build, figures: Figures) -> Heating | None:
    """Nothing to ask when no night is colder than the wanted warmth."""
    w = figures.warmth
    if w.design_loss_w <= 0:
        return None
    largest = max(w.surfaces, key=lambda s: s.loss_w_k).name
    kelvins = build.trip.inside_degc - w.design_degc
    heaters = w.heater_ids + tuple(u.option_id for u in w.uncounted)
    return Heating(
        # Without any heater no insulation is to blame.
        options=heaters + build.ids(InsulationLayer) if heaters else (),
        lacks="" if heaters else "space-heater",
        inside_degc=build.trip.inside_degc,
        outside_degc=w.design_degc,
        loss_heat_w=w.design_loss_w,
        low_heat_w=min(w.design_loss_w, w.low_w_k * kelvins),
        high_heat_w=max(w.design_loss_w, w.high_w_k * kelvins),
        output_heat_w=w.output_w,
        thin_air_frac=_thin_air(build, w),
        season=w.mild_loss_w > 0,
        heaters=listed(build.option_names[i] for i in w.heater_ids) if len(w.heater_ids) > 1 else "",
        largest=largest,
        flame_m3_h=w.flame_m3_h,
        uncounted=_uncounted(w),
        helps=_helps(build, w, largest),
    )


def judge(x: Heating) -> AtMost | Softened | Holds:
    """Loss against output; without any heater it fails. In months in which nobody heats it is only worth knowing."""
    if not x.output_heat_w:
        return Holds(False, "fails" if x.season else "note")
    if not x.season:
        return Softened(AtMost(x.loss_heat_w, x.output_heat_w, "heat_w", tight_from=JUST_ENOUGH), "note")
    return AtMost(x.loss_heat_w, x.output_heat_w, "heat_w", low=x.low_heat_w, high=x.high_heat_w)


def _night(loss_heat_w: float, output_heat_w: float) -> dict[str, float | str]:
    return {
        "inside_degc": 18.3, "outside_degc": -6.7, "loss_heat_w": loss_heat_w, "low_heat_w": loss_heat_w,
        "high_heat_w": loss_heat_w, "output_heat_w": output_heat_w, "largest": "walls",
    }  # fmt: skip


_FLAMES = "{flame_m3_h:| Flames take # of air.| Flames take # of air.}"

RULE = Rule(
    code="heater-capacity",
    title="Heating on the coldest night",
    topic="warmth",
    category="comfort",
    inputs=Heating,
    read=read,
    judge=judge,
    formula="Q = (Σ A·U + 0.335 Wh/(m³K)·air flow)·(T_inside − T_outside) ≤ heater output",
    sources=(
        Source("ISO 6946:2017", "combined method for layers with timber framing", "2026-11-25"),
        Source("EN 12831-1", "form of the heat-loss sum"),
        Source("NFPA 54", "gas burners give 4 % less for each 1,000 ft above 2,000 ft (from memory)"),
        Source("Typical-year climate data", "see the page on climate sources", "2026-11-25"),
    ),
    says={
        "ok": "At {outside_degc} outside it loses {measured}; the heating gives {limit}.{heaters:|| That is #.}",
        "tight": "At {outside_degc} outside it loses about {measured}{band}; the heating gives {limit}."
        "{heaters:|| That is #.}{thin_air}" + _FLAMES + "{uncounted:|| #}",
        "fails": "At {outside_degc} outside it loses {loss_heat_w} (most: {largest})"
        "{output_heat_w:, and nothing heats it|; heating gives #|; heating gives #}.{thin_air}"
        + _FLAMES
        + "{uncounted:|| #}",
        "note": "In its coldest hour, at {outside_degc} outside, it loses {loss_heat_w}"
        "{output_heat_w:, and nothing heats it|; heating gives #|; heating gives #}. In months so mild people, cooking "
        "and the day's sun make up for most of it.{uncounted:|| #}",
    },
    remedy="{helps}, or travel in warmer months.",
    examples=lambda: (
        Example(_night(1480, 2000), "ok", "insulated van at −7 °C: 74 % of a 2 kW (6,820 BTU/h) heater"),
        Example(_night(1800, 2000), "tight", "exactly 90 %"),
        Example(_night(2000, 2000), "tight", "exactly at the output"),
        Example(_night(2300, 2000), "fails", "15 % short"),
        Example(_night(1480, 0), "fails", "no heater at all"),
        Example(_night(180, 0) | {"outside_degc": 14.7, "season": False}, "note", "none by the sea in summer"),
        Example(_night(180, 100) | {"outside_degc": 14.7, "season": False}, "note", "a weak one there"),
        Example(
            _night(1480, 0) | {"uncounted": "Not counted, for it warms one spot: Wood stove."},
            "fails",
            "a stove that warms one spot",
        ),
        Example(
            _night(1480, 0)
            | {
                "uncounted": f"Not counted, for it {NEEDS_SOURCE.format(source='“Water-loop heater”')}: Warm floor.",
                "helps": "Add “Water-loop heater”",
            },
            "fails",
            "a warm floor without the heater that feeds it",
        ),
        Example(
            _night(1480, 0)
            | {
                "uncounted": f"Not counted, for it {NEEDS_BATTERY}: Diesel heater.",
                "helps": _BATTERY,
            },
            "fails",
            "a heater whose fan nothing turns",
        ),
    ),
    offers="space-heater",
    caution=f"{cautions.CARBON_MONOXIDE} {cautions.GAS}",
)
