"""From a workshop's weighbridge readings to the correction that is published, and so to the published catalogue.

Two kinds of errors of a sum are shared by vehicles: that of the delivered mass in the catalogue, by all of one kind,
and that of the allowance for unlisted work, by all of a workshop. A reading shows both, mixed with errors of its own:
those of single parts, of that one vehicle's delivered mass, and of the scale. The update that tells them apart is the
normal one in closed form (``engine.physics.uncertainty.learned``), vehicle after vehicle.
"""

from math import sqrt
from typing import NamedTuple

from engine.build.mass_items import (
    ADULT_KG,
    boiler_water,
    delivered,
    fresh_tanks,
    fuel_burnt,
    gas,
    parts,
    travellers,
    unlisted,
    waste_tanks,
)
from engine.build.model import Build
from engine.build.resolve import Resolver
from engine.catalogue.shop import Shop, ShopReadyBuild
from engine.catalogue.weighed import Reading, WeighedReady, WeighedVehicle
from engine.catalogue.workshop import Catalogue
from engine.enquiry.climate import load_places
from engine.enquiry.model import Enquiry
from engine.physics import load_cases
from engine.physics.axle import axles_under
from engine.physics.load_cases import Load, doubt, sums
from engine.physics.uncertainty import BAND_SIGMAS_COUNT, Belief, learned, unlearned

SHARED_FRAC = 0.5
"""Part of the delivered mass's squared tolerance that all vehicles of a kind share; the rest is each one's own
(assumption: a catalogue's figure is as far off as single vehicles scatter about it)."""


class Difference(NamedTuple):
    """A weighed vehicle against its sum."""

    build: Build
    front_kg: float
    rear_kg: float
    front_right_kg: float
    rear_right_kg: float
    front_spread_kg: float
    rear_spread_kg: float


def published(shop: Shop, dated: str) -> Catalogue:
    """The public catalogue as of a day, with what weighings taught in place of the readings."""
    catalogue = shop.public(dated)
    resolver = Resolver(catalogue, load_places())
    found = {r.id: _difference(resolver, r) for r in shop.ready if r.readings}
    return catalogue.model_copy(
        update={
            "weighed_ready": tuple(
                WeighedReady(ready=id_, **{k: round(v, 3) for k, v in d._asdict().items() if k != "build"})
                for id_, d in found.items()
            ),
            "weighed": _shared(catalogue, list(found.values())),
        }
    )


def _difference(resolver: Resolver, ready: ShopReadyBuild) -> Difference:
    """Scale less sum, its readings weighted by how sure they are."""
    trip = resolver.catalogue.workshop.trip
    build = resolver.resolve(Enquiry(vehicle=ready.vehicle, options=dict(ready.options), trip=trip))
    v, fitted = build.vehicle, parts(build.parts)
    allowance = unlisted(build, fitted)
    built_in = sums(delivered(build) + fitted + ((allowance,) if allowance else ()))
    axles = [load_cases.front(v.wheelbase_m), load_cases.rear(v.wheelbase_m)]
    tracks = (v.front_track_m, v.rear_track_m)
    weights, kg, right_weights, right_kg = [0.0, 0.0], [0.0, 0.0], [0.0, 0.0], [0.0, 0.0]
    for reading in ready.readings:
        state = _aboard(build, reading)
        all_ = built_in.plus(sums(state))
        model = axles_under(all_.mass_kg, all_.x_kgm, v.wheelbase_m)
        front2, _, rear2 = doubt(state).axles_kg2(v.wheelbase_m)
        sides = (reading.front_right_kg, reading.rear_right_kg)
        for i, (seen, worked, square) in enumerate(
            ((reading.front_kg, model.front_kg, front2), (reading.rear_kg, model.rear_kg, rear2))
        ):
            weight = 1 / (square + reading.tolerance_kg**2)
            weights[i] += weight
            kg[i] += weight * (seen - worked)
            side, track_m = sides[i], tracks[i]
            if side is not None and track_m is not None:
                right_weights[i] += weight
                right_kg[i] += weight * (side - all_.measured_kg(load_cases.wheel(axles[i], track_m, right=True)))
    front, rear = (k / w for k, w in zip(kg, weights, strict=True))
    rights = (k / w if w else d / 2 for k, w, d in zip(right_kg, right_weights, (front, rear), strict=True))
    return Difference(build, front, rear, *rights, *(1 / sqrt(w) for w in weights))


def _aboard(build: Build, r: Reading) -> tuple[Load, ...]:
    """What was in the vehicle on the scale."""
    waste = waste_tanks(build)
    state = [*fuel_burnt(build, 1 - r.fuel_frac), *travellers(build, [ADULT_KG[build.workshop.region]] * r.people)[0]]
    for tanks, share in (
        (fresh_tanks(build), r.fresh_water_frac),
        (tuple(w for w in waste if w.name == "grey water"), r.grey_water_frac),
        (tuple(w for w in waste if w.name != "grey water"), r.toilet_frac),
        (boiler_water(build), r.boiler_frac),
        (gas(build), r.gas_frac),
    ):
        state += [t._replace(mass_kg=t.mass_kg * share) for t in tanks if share]
    for thing in r.aboard:
        at = build.vehicle.place(thing.place)
        state.append(Load(thing.name, thing.mass_kg, at.x_m, at.y_m, at.z_m))
    return tuple(state)


def _shared(catalogue: Catalogue, found: list[Difference]) -> tuple[WeighedVehicle, ...]:
    """What all weighings say of the errors that vehicles share. One with a part of unknown mass says nothing."""
    known = [d for d in found if all(p.mass_kg is not None for p in d.build.parts)]
    if not known:
        return ()
    ids = [v.id for v in catalogue.vehicles]
    belief = unlearned(len(ids) + 1)
    for d in known:
        belief = _learn(belief, ids.index(d.build.vehicle.id), d)
    shop = catalogue.workshop
    allowance = (shop.unlisted_work_frac or 0.0) * shop.unlisted_work_tolerance_frac
    lines = []
    for i, v in enumerate(catalogue.vehicles):
        more = [d.front_kg + d.rear_kg for d in known if d.build.vehicle.id == v.id]
        shared = v.masses.tolerance_frac * sqrt(SHARED_FRAC)
        own = sqrt(belief.covariance_sigmas2[i][i])
        tied = belief.covariance_sigmas2[i][-1] / own
        alone = sqrt(max(0.0, belief.covariance_sigmas2[-1][-1] - tied**2))
        lines.append(
            WeighedVehicle(
                vehicle=v.id,
                count=len(more),
                more_kg=round(sum(more) / len(more), 3) if more else 0.0,
                delivered_frac=round(shared * belief.mean_sigmas[i] / BAND_SIGMAS_COUNT, 6),
                unlisted_frac=round(allowance * belief.mean_sigmas[-1] / BAND_SIGMAS_COUNT, 6),
                delivered_spread_frac=round(shared * own, 6),
                own_spread_frac=round(v.masses.tolerance_frac * sqrt(1 - SHARED_FRAC), 6),
                unlisted_spread_frac=round(allowance * alone, 6),
                unlisted_tied_frac=round(allowance * tied, 6),
            )
        )
    return tuple(lines)


def _learn(belief: Belief, vehicle: int, d: Difference) -> Belief:
    """Belief after one vehicle's difference: what it says of its kind's delivered mass and of the allowance."""
    build, wheelbase_m = d.build, d.build.vehicle.wheelbase_m
    bare, fitted = delivered(build), parts(build.parts)
    allowance = unlisted(build, fitted)
    common = [i.spread_kg * sqrt(SHARED_FRAC) / BAND_SIGMAS_COUNT for i in bare]
    front, rear = [0.0] * len(belief.mean_sigmas), [0.0] * len(belief.mean_sigmas)
    front[vehicle], rear[vehicle] = common
    if allowance is not None:
        one_kg, share = allowance.spread_kg / BAND_SIGMAS_COUNT, allowance.x_m / wheelbase_m
        front[-1], rear[-1] = one_kg * (1 - share), one_kg * share
    own = tuple(i._replace(spread_kg=i.spread_kg * sqrt(1 - SHARED_FRAC)) for i in bare)
    ff, fr, rr = (s / BAND_SIGMAS_COUNT**2 for s in doubt(own + fitted).axles_kg2(wheelbase_m))
    scale_f, scale_r = ((s / BAND_SIGMAS_COUNT) ** 2 for s in (d.front_spread_kg, d.rear_spread_kg))
    noise = ((ff + scale_f, fr), (fr, rr + scale_r))
    return learned(belief, (tuple(front), tuple(rear)), (d.front_kg, d.rear_kg), noise)
