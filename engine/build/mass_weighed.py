"""What weighings of finished vehicles change in the masses of a build."""

from collections.abc import Mapping
from math import sqrt
from operator import mul
from typing import NamedTuple

from engine.build.mass_items import CORRECTION, parts, unlisted
from engine.build.model import Akin, Build
from engine.catalogue.weighed import WeighedReady, WeighedVehicle
from engine.physics.load_cases import Load, front, rear, sums
from engine.physics.uncertainty import BAND_SIGMAS_COUNT


class Weighed(NamedTuple):
    """What was learned on the weighbridge, as far as it bears on this build."""

    how: str
    """ "own" when this very vehicle was weighed, "akin" when it was with more in it, "others" when its likes were, and
    empty when nothing was."""
    vehicles_count: int
    """Finished vehicles of this kind that were weighed."""
    more_kg: float
    """What they weighed more than was worked out, on average; for the build's own weighing the difference itself."""
    added_kg: float
    """What is added here in consequence."""


NOTHING = Weighed("", 0, 0.0, 0.0)


def corrected(
    build: Build, bare: tuple[Load, Load], fitted: tuple[Load, ...], extra: Load | None
) -> tuple[tuple[Load, ...], Weighed]:
    """Everything that is built in, corrected by weighings, and what they were."""
    allowance = (extra,) if extra is not None else ()
    known = build.weighed
    if isinstance(known, WeighedReady):
        return _by_its_own(build, known, bare, fitted, extra)
    if isinstance(known, WeighedVehicle):
        by_likes = _by_its_likes(known, bare, fitted, extra)
        return _by_its_kin(build, by_likes, fitted, extra) if build.akin else by_likes
    return bare + fitted + allowance, NOTHING


def _by_its_own(
    build: Build, known: WeighedReady, bare: tuple[Load, Load], fitted: tuple[Load, ...], extra: Load | None
) -> tuple[tuple[Load, ...], Weighed]:
    """The scale replaces the sum: the difference comes on top, and of what was weighed only the scale's own doubt is
    left. What was added since is as doubtful as ever."""
    added = _added(build, build.weighed_options)
    all_ = [_sure(i, 0.0) for i in bare] + [_sure(i, share) for i, share in zip(fitted, added, strict=True)]
    if extra is not None:
        all_.append(_sure(extra, _new_frac(fitted, added)))
    more_kg = known.front_kg + known.rear_kg
    return (*all_, *_seen(build, known, 1.0)), Weighed("own", 1, more_kg, more_kg)


def _added(build: Build, weighed: Mapping[str, int]) -> list[float]:
    """Of each part with a mass the share that was not on the weighbridge."""
    return [max(0.0, 1 - weighed.get(p.option.id, 0) / p.count) for p in build.parts if p.mass_kg is not None]


def _new_frac(fitted: tuple[Load, ...], added: list[float]) -> float:
    """Share of the parts' mass that was not on the weighbridge."""
    return sum(i.mass_kg * share for i, share in zip(fitted, added, strict=True)) / sums(fitted).mass_kg


def _seen(build: Build, known: WeighedReady, share_frac: float) -> list[Load]:
    """What the scale showed beyond the sum, as far as it counts, axle by axle."""
    v, z = build.vehicle, build.vehicle.masses.cg_height_m
    found = []
    for x_m, kg, right_kg, spread_kg, track_m in (
        (0.0, known.front_kg, known.front_right_kg, known.front_spread_kg, v.front_track_m),
        (v.wheelbase_m, known.rear_kg, known.rear_right_kg, known.rear_spread_kg, v.rear_track_m),
    ):
        half_m = (track_m or 0.0) / 2
        found += [
            Load(CORRECTION, (kg - right_kg) * share_frac, x_m, -half_m, z),
            Load(CORRECTION, right_kg * share_frac, x_m, half_m, z),
            Load(CORRECTION, 0.0, x_m, 0.0, z, spread_kg * sqrt(share_frac)),
        ]
    return found


def _by_its_kin(
    build: Build, by_likes: tuple[tuple[Load, ...], Weighed], fitted: tuple[Load, ...], extra: Load | None
) -> tuple[tuple[Load, ...], Weighed]:
    """A vehicle weighed with more in it is that very one less what is left out, or one more of its kind. The less is
    left of it, the less it counts as the former, so that no single part makes another vehicle of it.

    That is a mixture: its mean is theirs by shares, its variance theirs by shares and that of their means (law of
    total variance; any statistics text). Several weighed vehicles share as share/(1 − share), so that one of which
    nearly all is there counts nearly alone.
    """
    loads, weighed = by_likes
    odds = [a.share_frac / (1 - a.share_frac) for a in build.akin]
    shares = [o / (1 + sum(odds)) for o in odds]
    rest = 1 / (1 + sum(odds))
    added = [_added(build, a.options) for a in build.akin]
    found = []
    for i in loads[: len(loads) - len(fitted)]:
        square = rest * i.spread_kg**2
        if extra is not None and i.name == extra.name:
            square += sum(
                g * (extra.spread_kg * _new_frac(fitted, new)) ** 2 for g, new in zip(shares, added, strict=True)
            )
        kg = i.mass_kg * rest if i.name == CORRECTION else i.mass_kg
        found.append(i._replace(mass_kg=kg, spread_kg=sqrt(square)))
    of_kind = sums(i for i in loads if i.name == CORRECTION)
    on_front, on_rear = front(build.vehicle.wheelbase_m), rear(build.vehicle.wheelbase_m)
    likes_kg = of_kind.measured_kg(on_front), of_kind.measured_kg(on_rear)
    in_doubt = [rest + sum(map(mul, shares, map(mul, new, new))) for new in zip(*added, strict=True)]
    found += [_sure(i, sqrt(share)) for i, share in zip(fitted, in_doubt, strict=True)]
    for a, g in zip(build.akin, shares, strict=True):
        found += _seen(build, a.known, g)
        found += _left_out(build, a, g)
    means_kg = [likes_kg, *((a.known.front_kg, a.known.rear_kg) for a in build.akin)]
    found += _between(build, means_kg, [rest, *shares])
    added_kg = sum(i.mass_kg for i in found if i.name == CORRECTION)
    return tuple(found), weighed._replace(how="akin", added_kg=added_kg)


def _left_out(build: Build, akin: Akin, share_frac: float) -> list[Load]:
    """The doubt of what comes off the scale's figure: the parts, and what nobody listed of them."""
    gone = parts(akin.gone)
    extra = unlisted(build, gone)
    all_ = gone if extra is None else (*gone, extra)
    return [Load(CORRECTION, 0.0, i.x_m, i.y_m, i.z_m, i.spread_kg * sqrt(share_frac)) for i in all_]


def _between(build: Build, kinds_kg: list[tuple[float, float]], shares: list[float]) -> list[Load]:
    """The doubt which of them it is: each one's distance from their mean."""
    z, found = build.vehicle.masses.cg_height_m, []
    for axle, x_m in enumerate((0.0, build.vehicle.wheelbase_m)):
        mean_kg = sum(g * kg[axle] for g, kg in zip(shares, kinds_kg, strict=True))
        found += [
            Load(CORRECTION, 0.0, x_m, 0.0, z, BAND_SIGMAS_COUNT * sqrt(g) * (kg[axle] - mean_kg), f"kind {k}")
            for k, (g, kg) in enumerate(zip(shares, kinds_kg, strict=True))
        ]
    return found


def _sure(load: Load, doubted_frac: float) -> Load:
    """A mass of which only a share is still in doubt."""
    name, mass_kg, x_m, y_m, z_m, spread_kg, group = load
    return Load(name, mass_kg, x_m, y_m, z_m, spread_kg * doubted_frac, group if doubted_frac else "")


def _by_its_likes(
    known: WeighedVehicle, bare: tuple[Load, Load], fitted: tuple[Load, ...], extra: Load | None
) -> tuple[tuple[Load, ...], Weighed]:
    """What all vehicles of a kind share is corrected; what is one vehicle's own stays as doubtful as it was."""
    found = [i._replace(spread_kg=i.mass_kg * known.own_spread_frac) for i in bare]
    found += [
        i._replace(
            name=CORRECTION, mass_kg=i.mass_kg * known.delivered_frac,
            spread_kg=i.mass_kg * known.delivered_spread_frac, group="weighings",
        )
        for i in bare
    ]  # fmt: skip
    if extra is not None:
        parts_kg = sums(fitted).mass_kg
        found.append(extra._replace(spread_kg=parts_kg * known.unlisted_spread_frac))
        found.append(
            extra._replace(
                name=CORRECTION, mass_kg=parts_kg * known.unlisted_frac,
                spread_kg=parts_kg * known.unlisted_tied_frac, group="weighings",
            )
        )  # fmt: skip
    added_kg = sum(i.mass_kg for i in found if i.name == CORRECTION)
    return (*found, *fitted), Weighed("others", known.count, known.more_kg, added_kg)
