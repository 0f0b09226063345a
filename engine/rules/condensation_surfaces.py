"""No water forms on walls, ribs and behind linings on the coldest night of the trip.

Air that sleepers have breathed holds water; where a surface is colder than the air's dew point, it gives it up. On
glass you see it and wipe it off. On bare steel, on ribs and behind linings nobody sees it: there rust and mould begin.
"""

from typing import Any

from pydantic import Field

from engine import cautions
from engine.build import Build, Figures
from engine.build.damp import DampFigures, DryNights, Spot, dry_nights
from engine.build.warmth import WarmthFigures
from engine.catalogue.facets import InsulationLayer, SpaceHeater, VentFan
from engine.physics.condensation import least_foam_m, surface_degc
from engine.physics.moist_air import dew_point_degc, vapour_kpa
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtLeast, Example, Inputs, Rule, Softened, Source, fact
from engine.units import show

ERROR_K = 0.7
"""How far off the temperature of a surface may be (assumption; over ribs the sums are good to some 8 %)."""


FILM_M2K_W, FOAM_W_MK = 0.13, 0.036
"""Film inside (ISO 6946:2017), and closed-cell foam (common practice)."""


class Surface(Inputs):
    """The wettest surface against the dew point of the air inside."""

    where: str = fact("the wettest place", "computed")
    inside_degc: float = fact("inside then: the warmth wanted, or what heaters and people hold", "computed")
    outside_degc: float = fact("coldest hour of the chosen months", "catalogue")
    humidity_frac: float = fact("humidity inside then", "computed", ge=0, le=1)
    dew_point_degc: float = fact("dew point of that air", "computed")
    surface_degc: float = fact("temperature of that place", "computed")
    dry_from_degc: float | None = fact("kept warm it stays dry from, outside", "computed", default=None)
    dry_to_degc: float | None = fact("and up to, outside", "computed", default=None)
    foam_thick_m: float = fact(
        "closed-cell foam of 0.036 W/(m·K) on that place that would keep it dry", "computed", ge=0
    )
    glass: bool = fact("it is glass or a door", "computed")
    cold_room: str = fact("that the room itself is cold", "computed", default="")
    dry_if_warm: bool = fact("whether it were dry in a room as warm as wanted", "computed", default=False)
    stays: str = Field(default="", description="on which nights it stays dry, a sentence with its space before it")

    @property
    def forms(self) -> str:
        """What settles there."""
        return "water" if self.surface_degc > 0 else "frost"


def _foam_m(factor_frac: float, inside_degc: float, humidity_frac: float, outside_degc: float) -> float:
    bare = FILM_M2K_W / max(0.01, 1 - factor_frac)
    if not 0.05 <= bare <= 10 or outside_degc > inside_degc - 0.1:
        return 0.0
    frac = min(0.99, max(0.05, humidity_frac))
    return least_foam_m(bare, FOAM_W_MK, inside_degc, frac, outside_degc)


def read(build: Build, figures: Figures) -> list[Surface] | None:
    """The wettest of the structure, and the wettest glass; nothing to ask on trips without cold."""
    d = figures.damp
    if d is None:
        return None
    found = [_hidden(build, d, figures.warmth)] if any(not s.glass for s in d.spots) else []
    glass = next((s for s in d.spots if s.glass), None)
    if glass is not None and glass.margin_k < 0:
        found.append(_surface(build, d, glass))
    return found


def _surface(build: Build, d: DampFigures, s: Spot, **more: Any) -> Surface:
    wanted, warm = float(build.trip.inside_degc), d.if_warm
    return Surface.model_validate(
        {
            "options": () if s.glass else build.ids(InsulationLayer, SpaceHeater, VentFan),
            "lacks": "" if s.glass or build.ids(InsulationLayer) else "insulation-layer",
            "where": s.name,
            "inside_degc": d.inside_degc,
            "outside_degc": d.night_degc,
            "humidity_frac": d.humidity_frac,
            "dew_point_degc": d.dew_point_degc,
            "surface_degc": s.surface_degc,
            "foam_thick_m": _foam_m(
                s.factor_frac,
                d.inside_degc if warm is None else wanted,
                d.humidity_frac if warm is None else warm.humidity_frac,
                d.night_degc,
            ),
            "glass": s.glass,
        }
        | more
    )


def _stays(build: Build, nights: DryNights | None) -> str:
    """On which nights it stays dry."""
    if nights is None:
        return ""
    low, high = (None if x is None else show(x, "degc", build.workshop.units) for x in nights)
    return f"stays dry down to {low} outside." if high is None else f"stays dry between {low} and {high} outside."


def _hidden(build: Build, d: DampFigures, warmth: WarmthFigures) -> Surface:
    """The wettest of the structure; in a room that heaters do not hold that which would be so in a warm one."""
    wettest = next(s for s in (d.spots if d.if_warm is None else d.if_warm.spots) if not s.glass)
    dry = wettest.margin_k >= 0
    nights = None if dry else dry_nights(build, warmth, wettest.factor_frac, kept_warm=d.if_warm is not None)
    stays = _stays(build, nights)
    ends = dict(zip(("dry_from_degc", "dry_to_degc"), nights or (None, None), strict=True))
    if d.if_warm is None:
        return _surface(build, d, wettest, **ends, stays=f" It {stays}" if stays else "")
    at, wanted = (show(x, "degc", build.workshop.units) for x in (d.inside_degc, float(build.trip.inside_degc)))
    why = f"The heating holds the room at {at} only" if warmth.output_w > 0 else f"Without heat the room is at {at}"
    why += ", and air so cold takes up little of what people breathe out."
    s = next(s for s in d.spots if s.name == wettest.name)
    return _surface(
        build, d, s, cold_room=f"{why} Kept at {wanted} it stays dry there." if dry else why, dry_if_warm=dry,
        stays=f" {why} Kept at {wanted} it {stays or 'gets wet as well.'}", **ends,
    )  # fmt: skip


def judge(x: Surface) -> AtLeast | Softened:
    """Surface against dew point; on glass it is only worth knowing, and so where only heat is lacking, of which another
    rule says that it fails."""
    of = AtLeast(
        x.surface_degc, x.dew_point_degc, "degc", tight_from=JUST_ENOUGH,
        low=x.surface_degc - ERROR_K, high=x.surface_degc + ERROR_K,
    )  # fmt: skip
    return Softened(of, "note") if (x.glass or x.dry_if_warm) and of.verdict() == "fails" else of


_BARE_FRAC, _FOAM_FRAC = (1 - FILM_M2K_W / (FILM_M2K_W + 0.04 + r) for r in (0.0, 0.010 / FOAM_W_MK))
"""Temperature factors of bare sheet and of sheet with 10 mm of foam."""

_DEW_DEGC = dew_point_degc(vapour_kpa(18.0, 0.6))


def _night(where: str, outside_degc: float, factor_frac: float, glass: bool = False) -> dict[str, float | str | bool]:
    """A place with that temperature factor in a room of 18 °C and 60 %."""
    return {
        "where": where, "inside_degc": 18.0, "outside_degc": outside_degc, "humidity_frac": 0.6,
        "dew_point_degc": _DEW_DEGC, "surface_degc": surface_degc(18.0, outside_degc, factor_frac),
        "glass": glass,
        "foam_thick_m": _foam_m(factor_frac, 18.0, 0.6, outside_degc),
    }  # fmt: skip


RULE = Rule(
    code="condensation-surfaces",
    title="Water on cold surfaces",
    topic="warmth",
    category="function",
    inputs=Surface,
    read=read,
    judge=judge,
    formula="θ_e + f·(θ_i − θ_e) ≥ dew point, with f = 1 − U·R_si of the place that air reaches",
    sources=(
        Source("ISO 13788:2012", "temperature factor of a surface (from memory)"),
        Source("ASHRAE Handbook Fundamentals 2017", "chapter 1, saturation pressure", "2026-11-25"),
        COMMON_PRACTICE,
    ),
    says={
        "ok": "At {outside_degc} outside the coldest hidden place, {where}, is at {measured}; the air inside "
        "({humidity_frac}) gives up water below {limit}.",
        "tight": "At {outside_degc} outside the coldest hidden place, {where}, is at {measured}, hardly above the "
        "{limit} at which the air inside ({humidity_frac}) gives up water.",
        "fails": "At {outside_degc} outside {where}: {measured}, and the air inside ({humidity_frac}) gives up water "
        "below {limit}. Nobody sees it there.{stays} At least {foam_thick_m} of closed-cell foam on it would "
        "keep it dry on such a night.",
        "note": "At {outside_degc} outside {forms} forms on {where} ({measured}; dew point {limit}). "
        "{cold_room:Wipe it off in the morning, or cover it at night.|#|#}",
    },
    remedy="Cover steel and ribs with closed-cell insulation that air cannot get behind, let more air through, and "
    "cook and dry gear outside.",
    examples=lambda: (
        Example(_night("bare walls", 0, _BARE_FRAC), "fails", "bare steel at freezing point"),
        Example(_night("walls behind the lining", 0, _FOAM_FRAC), "ok", "10 mm (0.39 in) of closed-cell foam on it"),
        Example(_night("steel ribs of the walls", 0, _DEW_DEGC / 18), "tight", "exactly at the dew point"),
        Example(_night("steel ribs of the walls", 0, 10.5 / 18), "tight", "closer than the sums are good for"),
        Example(
            _night("walls behind the lining", -18, 0.82)
            | {
                "inside_degc": -13.0,
                "humidity_frac": 1.0,
                "dew_point_degc": -13.0,
                "surface_degc": surface_degc(-13.0, -18.0, 0.82),
                "cold_room": "Without heat the room is at −13 °C, and air so cold takes up little of what people "
                "breathe out. Kept at 18 °C it stays dry there.",
                "dry_if_warm": True,
            },
            "note",
            "a room that nothing heats",
        ),
        Example(_night("single glass", -10, 0.26, glass=True), "note", "single glass is always wet in the cold"),
    ),
    offers="insulation-layer",
    caution=f"Never stop up an opening against the cold: flames and sleepers need the air. {cautions.CARBON_MONOXIDE}",
)
