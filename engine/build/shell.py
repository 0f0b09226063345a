"""The shell of the living space surface by surface: layers from room to outside, heat lost, coldest spot."""

from functools import lru_cache
from typing import Literal, NamedTuple

from engine.build.model import Build
from engine.build.resolve import surface_m2
from engine.catalogue.facets import Door, InsulationLayer, Trim, Window
from engine.catalogue.shell import ShellCab
from engine.physics.condensation import surface_factor_frac
from engine.physics.heat import SURFACE_INSIDE_M2K_W, SURFACE_OUTSIDE_M2K_W, Layer, u_value
from engine.physics.metal_rib import Rib, RibbedU, ribbed_u

METAL_W_MK = 10.0
"""From this conductivity on a layer is metal: no vapour passes, and its own resistance to heat is as good as none."""

LEAST_COVERAGE_FRAC = 0.5
"""A lining that covers less of a surface than this is left out of its heat loss (assumption)."""

CAB_GLASS_W_M2K, CAB_BODY_W_M2K = 5.7, 2.5
"""Heat transmittance of a cab: single glass (ISO 10077-1), and trimmed sheet metal (common practice)."""

USUAL_CAB_M2 = 2.5, 6.0
"""Glass and the rest of the cab of a van, where the front is open to it and nobody states them (common practice; the
band reaches down to a front wall like the others)."""

USUAL_RIB = Rib(0.1, 0.04, 0.0012, 1, 0.5)
"""Ribs nobody measured: 1.2 mm steel with flanges of 40 mm every 500 mm, through all of the insulation (assumption; the
band reaches down to no ribs at all)."""

RIB_DEPTH_M, RIB_FILL_W_MK, RIB_OVER_M2K_W = (0.015, 0.1), (0.015, 0.06), 3.99
SKIN_M, SKIN_LEAST_W_MK = (0.0005, 0.004), 0.2
"""Where the sums on ribs hold. What lies beyond counts at the nearest value, and what a rib adds there is small."""

Part = Literal["lining", "insulation", "shell"]
Kind = Literal["surface", "glass", "door"]


class Ply(NamedTuple):
    """One layer of a surface."""

    name: str
    part: Part
    layer: Layer
    vapour_multiple: float | None
    """Its hindrance to vapour over that of still air; None where nobody stated it."""
    barrier_m: float = 0.0
    """Still air that a vapour layer on its room side is worth."""
    over_ribs_m: float = 0.0
    """What of it covers metal ribs however deep they are."""

    @property
    def metal(self) -> bool:
        """Whether it is sheet metal."""
        return self.layer.conductivity_w_mk >= METAL_W_MK


class SurfaceLoss(NamedTuple):
    """One part of the shell with the heat it loses per kelvin."""

    name: str
    area_m2: float
    u_w_m2k: float
    loss_w_k: float
    low_w_k: float
    high_w_k: float
    kind: Kind
    rib_w_k: float
    """What metal ribs add, within the loss."""
    face_frac: float
    """Temperature factor of its face: 1 as warm as the room, 0 as cold as outside."""
    coldest_frac: float
    """The same over a rib or batten."""
    plies: tuple[Ply, ...]
    """From the room outwards; none of glass and doors."""


def plies_of(build: Build, surface: str) -> tuple[Ply, ...]:
    """Layers of a surface from the room outwards: linings, chosen insulation, what the bare body has."""
    linings = [
        Ply(p.option.name, "lining", Layer(f.thickness_m, f.conductivity_w_mk), f.vapour_multiple)
        for p, f in build.facets(Trim)
        if surface in f.surfaces and f.coverage_frac > LEAST_COVERAGE_FRAC
    ]
    insulation = [
        Ply(
            p.option.name,
            "insulation",
            Layer(f.thickness_m * p.count, f.conductivity_w_mk, f.framing_frac, f.framing_conductivity_w_mk),
            f.vapour_multiple,
            f.vapour_layer_m or 0.0,
            f.over_ribs_m,
        )
        for p, f in build.facets(InsulationLayer)
        if surface in f.surfaces
    ]
    bare = [
        Ply(x.name, "shell", Layer(x.thickness_m, x.conductivity_w_mk), x.vapour_multiple)
        for x in build.vehicle.shell.layers
        if surface in x.surfaces
    ]
    return tuple(linings + insulation + bare)


def _resistance(layer: Layer) -> float:
    """Of a layer with its framing side by side (the lower limit of ISO 6946), m²K/W."""
    mean = (1 - layer.framing_frac) * layer.conductivity_w_mk + layer.framing_frac * layer.framing_conductivity_w_mk
    return layer.thickness_m / mean


def _between(value: float, ends: tuple[float, float]) -> float:
    return min(max(value, ends[0]), ends[1])


@lru_cache(maxsize=2048)
def _ribs(plies: tuple[Ply, ...], rib: Rib, inside_m2k_w: float) -> tuple[float, float, float, float] | None:
    """What ribs add to the U-value, its low and high, and the factor of the coldest spot; None without insulation.

    The rib stands on the outermost layer and reaches through what lies inside of it, linings apart; where insulation is
    thinner than the rib, so much of the rib counts. Insulation wrapped over ribs lies on their faces at its thickness.
    """
    if not plies or plies[-1].part != "shell":
        return None
    skin, spanned_m, spanned_m2k_w = plies[-1].layer, 0.0, 0.0
    inner: list[Layer] = []
    for ply in reversed(plies[:-1]):
        if ply.metal:
            continue
        part = ply.layer
        if ply.part != "lining" and spanned_m < rib.depth_m:
            taken_m = min(part.thickness_m, rib.depth_m - spanned_m)
            spanned_m += taken_m
            spanned_m2k_w += _resistance(part) * taken_m / part.thickness_m
            part = part._replace(thickness_m=max(part.thickness_m - taken_m, ply.over_ribs_m))
        if part.thickness_m >= 1e-5:
            # A layer thicker than the sums know lies nearer, with the same resistance.
            depth_m = min(1.0, part.thickness_m)
            mean = depth_m / _resistance(part)
            inner.insert(0, Layer(depth_m, _between(mean, (0.01, 1.0))))
    if not spanned_m:
        return None
    over_m2k_w = sum(x.thickness_m / x.conductivity_w_mk for x in inner)
    if over_m2k_w > RIB_OVER_M2K_W:
        inner = [x._replace(thickness_m=x.thickness_m * RIB_OVER_M2K_W / over_m2k_w) for x in inner]
    found: RibbedU = ribbed_u(
        tuple(x for x in inner if x.thickness_m >= 1e-5),
        _between(spanned_m / spanned_m2k_w, RIB_FILL_W_MK),
        Layer(_between(skin.thickness_m, SKIN_M), max(SKIN_LEAST_W_MK, skin.conductivity_w_mk)),
        rib._replace(depth_m=_between(spanned_m, RIB_DEPTH_M)),
        inside_m2k_w,
        SURFACE_OUTSIDE_M2K_W,
    )
    # A thinner layer than the sums know has so much less of a bridge.
    share = min(1.0, spanned_m / RIB_DEPTH_M[0])
    clear = found.clear_w_m2k
    add, low, high = (share * max(0.0, u - clear) for u in (found.u_w_m2k, found.low_w_m2k, found.high_w_m2k))
    return add, low, high, found.coldest_frac


@lru_cache(maxsize=2048)
def surface_loss(name: str, net_m2: float, plies: tuple[Ply, ...], rib: Rib | None, measured: bool) -> SurfaceLoss:
    """Heat loss of walls, roof or floor: the combined method of ISO 6946, and metal ribs on top.

    measured: whether somebody measured the ribs; if not, the band reaches down to none. Where timber takes so much that
    the combined method is not meant for it, the larger of its two limits counts.
    """
    inside_m2k_w = SURFACE_INSIDE_M2K_W[name]
    u = u_value(tuple(p.layer for p in plies), inside_m2k_w)
    value, low, high = u.u_w_m2k if u.holds else u.high_w_m2k, u.low_w_m2k, u.high_w_m2k
    framed_m2k_w = inside_m2k_w + SURFACE_OUTSIDE_M2K_W
    for ply in plies:
        x = ply.layer
        framed_m2k_w += x.thickness_m / (x.framing_conductivity_w_mk if x.framing_frac else x.conductivity_w_mk)
    face = surface_factor_frac(value, inside_m2k_w)
    coldest = min(face, 1 - inside_m2k_w / framed_m2k_w)
    added = 0.0
    ribs = _ribs(plies, rib, inside_m2k_w) if rib else None
    if ribs:
        added, low_rib, high_rib, over_rib = ribs
        low, high = low + (low_rib if measured else 0.0), high + high_rib
        coldest = min(coldest, over_rib)
    return SurfaceLoss(
        name, net_m2, value + added, net_m2 * (value + added), net_m2 * low, net_m2 * high, "surface",
        net_m2 * added, face, coldest, plies,
    )  # fmt: skip


def _opening(name: str, area_m2: float, u_w_m2k: float, kind: Kind) -> SurfaceLoss:
    loss = area_m2 * u_w_m2k
    face = surface_factor_frac(u_w_m2k)
    return SurfaceLoss(name, area_m2, u_w_m2k, loss, loss, loss, kind, 0.0, face, face, ())


def open_cab(build: Build) -> ShellCab | None:
    """The cab, where nothing that is chosen or belongs to the body parts it from the living space."""
    cab = build.vehicle.shell.cab
    if cab is None:
        return None
    lacking = cab.closing_option is not None and not build.has(cab.closing_option)
    return cab if cab.u_value_w_m2k is None or lacking else None


def _cab(build: Build) -> list[tuple[str, SurfaceLoss]]:
    """An open cab is heated with the rest; behind a curtain or bulkhead it is a room between warm and cold.

    Both resistances lie in a row, as ISO 13789 has it for an unheated space.
    """
    cab, inside = build.vehicle.shell.cab, build.vehicle.interior
    if cab is None and (inside is None or inside.pass_through is None or not inside.pass_through.open_front):
        return []
    glass_m2, body_m2 = (cab.glass_m2, cab.body_m2) if cab else USUAL_CAB_M2
    glass = _opening("cab windows", glass_m2, CAB_GLASS_W_M2K, "glass")
    body = _opening("cab body", body_m2, CAB_BODY_W_M2K, "door")
    if cab is None:
        return [("cab", x._replace(low_w_k=0.0)) for x in (glass, body)]
    if open_cab(build) or cab.u_value_w_m2k is None:
        return [("cab", glass), ("cab", body)]
    out_w_k = glass.loss_w_k + body.loss_w_k
    u = 1 / (1 / cab.u_value_w_m2k + cab.area_m2 / out_w_k)
    return [("cab", _opening(f"{cab.closed_by} to the cab", cab.area_m2, u, "door"))]


def _openings(build: Build) -> list[tuple[str, SurfaceLoss]]:
    """Every window and door with the surface it is in, the bare body's own first."""
    found = [
        (str(w.surface), _opening(w.name, w.area_m2, w.u_value_w_m2k, "glass")) for w in build.vehicle.shell.windows
    ]
    found += [
        (str(f.surface), _opening(p.option.name, f.width_m * f.height_m * p.count, f.u_value_w_m2k, "glass"))
        for p, f in build.facets(Window)
    ]
    found += [
        ("walls", _opening(p.option.name, f.width_m * f.height_m * p.count, f.u_value_w_m2k, "door"))
        for p, f in build.facets(Door)
    ]
    return found + _cab(build)


def shell_losses(build: Build) -> tuple[SurfaceLoss, ...]:
    """Walls, roof and floor less their openings, then every window and door."""
    openings = _openings(build)
    shell = build.vehicle.shell
    known = shell.ribs
    ribs = known is not None or shell.metal_ribs
    rib = (
        Rib(known.depth_m, known.flange_m, known.sheet_m, known.webs, known.spacing_m, known.conductivity_w_mk)
        if known
        else USUAL_RIB
    )
    found = []
    for name in ("walls", "roof", "floor"):
        net_m2 = max(0.0, surface_m2(build.vehicle, name) - sum(o.area_m2 for where, o in openings if where == name))
        here = rib if ribs and name != "floor" else None
        found.append(surface_loss(name, net_m2, plies_of(build, name), here, known is not None))
    return tuple(found + [o for _, o in openings])
