"""What weighings of finished vehicles change in the masses of a build."""

from typing import NamedTuple

from engine.build.mass_items import CORRECTION
from engine.build.model import Build
from engine.catalogue.weighed import WeighedReady, WeighedVehicle
from engine.physics.load_cases import Load, sums


class Weighed(NamedTuple):
    """What was learned on the weighbridge, as far as it bears on this build."""

    how: str
    """ "own" when this very vehicle was weighed, "others" when its likes were, empty when nothing was."""
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
        return _by_its_likes(known, bare, fitted, extra)
    return bare + fitted + allowance, NOTHING


def _by_its_own(
    build: Build, known: WeighedReady, bare: tuple[Load, Load], fitted: tuple[Load, ...], extra: Load | None
) -> tuple[tuple[Load, ...], Weighed]:
    """The scale replaces the sum: the difference comes on top, and of what was weighed only the scale's own doubt is
    left. What was added since is as doubtful as ever."""
    v, z = build.vehicle, build.vehicle.masses.cg_height_m
    added = [
        max(0.0, 1 - build.weighed_options.get(p.option.id, 0) / p.count) for p in build.parts if p.mass_kg is not None
    ]
    all_ = [_sure(i, 0.0) for i in bare] + [_sure(i, share) for i, share in zip(fitted, added, strict=True)]
    if extra is not None:
        new_kg = sum(i.mass_kg * share for i, share in zip(fitted, added, strict=True))
        all_.append(_sure(extra, new_kg / sums(fitted).mass_kg))
    found = []
    for x_m, kg, right_kg, spread_kg, track_m in (
        (0.0, known.front_kg, known.front_right_kg, known.front_spread_kg, v.front_track_m),
        (v.wheelbase_m, known.rear_kg, known.rear_right_kg, known.rear_spread_kg, v.rear_track_m),
    ):
        half_m = (track_m or 0.0) / 2
        found += [
            Load(CORRECTION, kg - right_kg, x_m, -half_m, z),
            Load(CORRECTION, right_kg, x_m, half_m, z),
            Load(CORRECTION, 0.0, x_m, 0.0, z, spread_kg),
        ]
    more_kg = known.front_kg + known.rear_kg
    return (*all_, *found), Weighed("own", 1, more_kg, more_kg)


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
