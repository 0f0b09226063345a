"""Metal ribs through or into the insulation of a shell: extra heat and the coldest spot, without a field solver.

ISO 6946 excludes metal through insulation from its combined method. Here the wall without ribs is solved first; the rib
is then one more conductor between the place of its flange and the skin. By reciprocity of steady conduction the heat
it adds is ψ = φ² / (R_flange + R_web + R_skin), with φ the share of the wall's resistance that it spans; heat reaches
the flange over its own width and over a strip on both sides that lining and insulation feed as fins do, and leaves over
the skin as over a fin. Three numbers of that strip are fitted to 700 two-dimensional solutions; tests compare
others and hold the bounds.
"""

from functools import lru_cache
from math import log, pi, sqrt, tanh
from typing import NamedTuple

from engine.physics.heat import Layer
from engine.physics.ranges import within

BETWEEN_FED_FRAC, COVER_FED_FRAC, LINING_FED_FRAC = 0.145, 0.406, 0.624
"""How much of k·t of the insulation between ribs, of insulation over them and of a lining feeds the flange from the
side: fitted, see above."""

TRUE_LOW_FRAC, TRUE_HIGH_FRAC = 0.88, 1.05
"""The two-dimensional solution lies between these shares of the U-value found here, over all ranges of ``ribbed_u``;
that of three walls in four within 2 %."""

COLDEST_BAND_FRAC = 0.08
"""So far from the two-dimensional solution the temperature factor of the coldest spot can be."""


class Rib(NamedTuple):
    """A row of ribs of bent sheet: an angle or channel (one web) or a hat (two webs), flange towards the room."""

    depth_m: float
    """From the skin to the flange: so much of the insulation is bridged."""
    flange_m: float
    """Width of the flange on the room side; of a hat, between the outsides of its webs."""
    sheet_m: float
    webs: int
    spacing_m: float
    conductivity_w_mk: float = 50.0


class RibbedU(NamedTuple):
    """Mean transmittance of a ribbed wall with its band, and what the ribs do."""

    u_w_m2k: float
    low_w_m2k: float
    high_w_m2k: float
    clear_w_m2k: float
    """The same wall without ribs."""
    rib_w_mk: float
    """What each metre of rib adds."""
    coldest_frac: float
    """Temperature factor of the room-side surface over a rib: 1 as warm as the room, 0 as cold as outside."""


@lru_cache(maxsize=1024)
def ribbed_u(
    inner: tuple[Layer, ...],
    insulation_w_mk: float,
    skin: Layer,
    rib: Rib,
    inside_m2k_w: float,
    outside_m2k_w: float = 0.04,
) -> RibbedU:
    """U-value of a wall whose insulation is bridged by metal ribs that stand on the outer skin.

    inner: what lies between room and flange, from the room on (lining, insulation over the ribs), from nothing to
    4 m²K/W; bridges within it are not counted. insulation_w_mk: between the ribs, 0.015 to 0.06. skin: 0.0005
    to 0.004 m, 0.2 to 250 W/(m·K).
    rib: depth_m 0.015 to 0.1, flange_m 0.02 to 0.1, sheet_m 0.0006 to 0.003, 1 or 2 webs, spacing_m 0.2 to 1.2 and at
    least three times the flange, conductivity_w_mk 10 to 250. inside_m2k_w 0.10 to 0.17, outside_m2k_w 0.01 to 0.05.

    The true value lies within the band; the coldest spot is good to ``COLDEST_BAND_FRAC``. A hat's hollow is taken as
    filled: left empty it loses more. Source: own method, reciprocity and fins (H. S. Carslaw and J. C. Jaeger,
    Conduction of Heat in Solids, 1959, 4.2 for the fin), fitted to finite volumes.

    >>> steel, ply = Layer(0.0008, 50), Layer(0.004, 0.13)
    >>> through = ribbed_u((ply,), 0.035, steel, Rib(0.040, 0.040, 0.0012, 1, 0.5), 0.13)
    >>> covered = ribbed_u((ply, Layer(0.015, 0.035)), 0.035, steel, Rib(0.025, 0.040, 0.0012, 1, 0.5), 0.13)
    >>> [round(w.u_w_m2k / w.clear_w_m2k, 2) for w in (through, covered)]
    [1.53, 1.12]
    """
    _check(inner, insulation_w_mk, skin, rib, inside_m2k_w, outside_m2k_w)
    over = sum(x.thickness_m / x.conductivity_w_mk for x in inner)
    room_side, spanned = inside_m2k_w + over, rib.depth_m / insulation_w_mk
    whole = room_side + spanned + skin.thickness_m / skin.conductivity_w_mk + outside_m2k_w
    span_frac = spanned / whole
    # Flange: its own width as a fin that is fed from both faces, and a strip on either side.
    fed_w_m2k = 1 / room_side + 1 / (spanned + outside_m2k_w)
    # What lies over the flange feeds it the less, the nearer to the room it is.
    side_w_k, so_far = BETWEEN_FED_FRAC * insulation_w_mk * rib.depth_m, inside_m2k_w
    for x in inner:
        so_far += x.thickness_m / x.conductivity_w_mk
        fed_frac = LINING_FED_FRAC if x.conductivity_w_mk > 2 * insulation_w_mk else COVER_FED_FRAC
        side_w_k += fed_frac * x.conductivity_w_mk * x.thickness_m * so_far / room_side
    half = sqrt(fed_w_m2k / (rib.conductivity_w_mk * rib.sheet_m)) * rib.flange_m / 2
    flange_w_mk = fed_w_m2k * (rib.flange_m * tanh(half) / half + 2 * sqrt(side_w_k / fed_w_m2k))
    web_mk_w = rib.depth_m / (rib.conductivity_w_mk * rib.sheet_m * rib.webs)
    # A poor skin also hinders heat that spreads from the thin edge into its thickness.
    web_mk_w += max(0.0, log(4 * skin.thickness_m / (pi * rib.sheet_m))) / (2 * pi * skin.conductivity_w_mk)
    skin_w_k = skin.conductivity_w_mk * skin.thickness_m + BETWEEN_FED_FRAC * insulation_w_mk * rib.depth_m
    spread_m = sqrt(skin_w_k * outside_m2k_w)
    between_m = rib.flange_m if rib.webs == 2 else 0.0
    reach = tanh((rib.spacing_m - between_m) / 2 / spread_m) + tanh(between_m / 2 / spread_m)
    skin_w_mk = 2 * spread_m * reach / outside_m2k_w
    path_mk_w = 1 / flange_w_mk + web_mk_w + 1 / skin_w_mk
    rib_w_mk = span_frac**2 / path_mk_w
    flange_frac = 1 - room_side / whole - span_frac / path_mk_w / flange_w_mk
    u = 1 / whole + rib_w_mk / rib.spacing_m
    return RibbedU(
        u_w_m2k=u,
        # No rib makes a wall lose less than it would without.
        low_w_m2k=max(1 / whole, u * TRUE_LOW_FRAC),
        high_w_m2k=u * TRUE_HIGH_FRAC,
        clear_w_m2k=1 / whole,
        rib_w_mk=rib_w_mk,
        coldest_frac=1 - (1 - flange_frac) * inside_m2k_w / room_side,
    )


def _check(
    inner: tuple[Layer, ...],
    insulation_w_mk: float,
    skin: Layer,
    rib: Rib,
    inside_m2k_w: float,
    outside_m2k_w: float,
) -> None:
    for layer in inner:
        within("thickness_m", layer.thickness_m, 1e-5, 1)
        within("conductivity_w_mk", layer.conductivity_w_mk, 0.01, 1)
    within("inner_m2k_w", sum(x.thickness_m / x.conductivity_w_mk for x in inner), 0, 4)
    within("insulation_w_mk", insulation_w_mk, 0.015, 0.06)
    within("thickness_m", skin.thickness_m, 0.0005, 0.004)
    within("conductivity_w_mk", skin.conductivity_w_mk, 0.2, 250)
    within("depth_m", rib.depth_m, 0.015, 0.1)
    within("flange_m", rib.flange_m, 0.02, 0.1)
    within("sheet_m", rib.sheet_m, 0.0006, 0.003)
    within("webs", rib.webs, 1, 2)
    within("spacing_m", rib.spacing_m, max(0.2, 3 * rib.flange_m), 1.2)
    within("conductivity_w_mk", rib.conductivity_w_mk, 10, 250)
    within("inside_m2k_w", inside_m2k_w, 0.10, 0.17)
    within("outside_m2k_w", outside_m2k_w, 0.01, 0.05)
