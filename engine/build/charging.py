"""What charges the house battery, and how long an empty one takes to fill from each source."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.battery_bank import BankFigures
from engine.build.converting import made_for
from engine.build.demand import worst_together
from engine.build.loads import Load, softer
from engine.build.model import Build
from engine.build.shore import ShoreFigures
from engine.catalogue.facets import AlternatorCharger, Battery, Generator
from engine.physics.battery_chemistry import CHEMISTRIES
from engine.physics.charging import Source, charge
from engine.physics.direct_current import alternator_spare_a, charger_input_a
from engine.physics.fuel import generator_l

_MOST_H = 1000.0
"""Longest charge whose fuel is told."""


class ChargeTime(NamedTuple):
    """From empty (at the depth planned with) to full by one source alone, nothing else running."""

    source: str
    charge_a: float
    """What reaches the battery; less than the source's own when the battery takes no more."""
    full_h: float | None
    """None when the battery takes no charge at its temperature."""
    fuel_l: float | None = None
    """A generator's fuel for it; None for other sources and where its use is not stated."""


class GeneratorFigures(NamedTuple):
    """A generator with the loads of a hook-up on it."""

    option_id: str
    name: str
    continuous_w: float
    surge_va: float | None
    running_va: float
    """Loads that plausibly run together."""
    start: str
    """The load whose start asks most; empty when none does."""
    softer: str
    """What to do about that start."""
    start_va: float
    """The same with others running."""
    day_h: float | None
    """Hours of charging that put back what a day takes from the battery; None where nothing charges from it."""
    day_l: float | None
    """Fuel for them; None where its use is not stated."""


class AlternatorFigures(NamedTuple):
    """Engine and chargers on it."""

    ids: tuple[str, ...]
    input_a: float
    """Current that the chargers ask of the alternator."""
    spare_a: float
    """What a hot alternator has left."""
    idle_spare_a: float | None
    """The same at idle; None where the vehicle's file does not say."""
    output_a: float
    """Current at the house battery while driving."""
    output_w: float


def alternator_figures(build: Build, battery_v: float | None) -> AlternatorFigures:
    """What the chargers on the engine ask for and bring; one made for another voltage brings none."""
    engine = build.vehicle.engine
    spare_a = alternator_spare_a(engine.alternator_a, engine.hot_output_frac, engine.own_use_a)
    found = build.facets(AlternatorCharger)
    wanted_a = sum(
        p.count * charger_input_a(f.output_a, f.output_v, f.efficiency_frac, engine.voltage_v) for p, f in found
    )
    share = min(1.0, spare_a / wanted_a) if wanted_a else 0.0
    brings = [(p, f) for p, f in found if battery_v is None or made_for(f.output_v, battery_v)]
    idle = engine.idle_output_frac
    return AlternatorFigures(
        ids=tuple(p.option.id for p, _ in found),
        input_a=wanted_a,
        spare_a=spare_a,
        idle_spare_a=None if idle is None else alternator_spare_a(engine.alternator_a, idle, engine.own_use_a),
        output_a=share * sum(p.count * f.output_a for p, f in brings),
        output_w=share * sum(p.count * f.output_a * f.output_v for p, f in brings),
    )


@lru_cache(maxsize=512)
def _charge(
    code: str, capacity_ah: float, left_frac: float, charge_a: float, cell_degc: float
) -> tuple[float, float | None]:
    """(what the battery takes, hours until it is full) by one source; no hours where it takes no charge."""
    got = charge(CHEMISTRIES[code], capacity_ah, left_frac, Source(code, charge_a), cell_degc)
    return (0.0, None) if got is None else (got.accepted_a, got.all_h)


def charge_times(
    build: Build, bank: BankFigures, alternator: AlternatorFigures, shore: ShoreFigures | None
) -> tuple[ChargeTime, ...]:
    """Hours to full from each source there is; none without one sound bank."""
    if bank.nominal_v is None or not bank.groups or not bank.usable_wh:
        return ()
    sources: list[Source] = []
    if alternator.output_a:
        sources.append(Source("driving", alternator.output_a))
        if alternator.idle_spare_a is not None:
            share = min(1.0, alternator.idle_spare_a / alternator.input_a)
            full_a = alternator.output_a / min(1.0, alternator.spare_a / alternator.input_a)
            sources.append(Source("engine at idle", full_a * share))
    burns: dict[str, tuple[float, float]] = {}
    if shore is not None and shore.charger_a:
        sources.append(Source("hook-up", shore.charger_a * min(1.0, shore.supply_w / shore.charger_w)))
        for p, g in build.facets(Generator):
            share = min(1.0, g.continuous_w / shore.charger_w)
            sources.append(Source(p.option.name, shore.charger_a * share))
            if g.hourly_l is not None:
                burns[p.option.name] = g.hourly_l, shore.charger_w / shore.charger_a / g.continuous_w
    group = bank.groups[0]
    facet = build.facets(Battery)[0][1]
    cells = max(group.cell_degc, facet.min_charge_degc + 5) if facet.heated else group.cell_degc
    left_frac = max(0.0, 1 - bank.usable_wh / bank.energy_wh)
    found = []
    for source in sources:
        if source.charge_a <= 0:
            continue
        limited = source._replace(charge_a=min(source.charge_a, bank.charge_a))
        accepted_a, full_h = _charge(group.chemistry, bank.capacity_ah, left_frac, limited.charge_a, cells)
        fuel_l = None
        if source.name in burns and full_h is not None and full_h <= _MOST_H:
            full_l_h, load_per_a = burns[source.name]
            fuel_l = generator_l(full_l_h, min(1.0, accepted_a * load_per_a), full_h)
        found.append(ChargeTime(source.name, accepted_a, full_h, fuel_l))
    return tuple(found)


def generator_figures(
    build: Build, loads: tuple[Load, ...], bank: BankFigures, charges: tuple[ChargeTime, ...], use_wh_d: float
) -> tuple[GeneratorFigures, ...]:
    """Each generator by itself, with all that plausibly runs on mains voltage; the charger may wait for a start."""
    found = []
    for part, f in build.facets(Generator):
        on = worst_together(tuple(x for x in loads if x.mains and x.in_season), build.trip.people)
        charge = next((c for c in charges if c.source == part.option.name and c.full_h), None)
        day_h = day_l = None
        if charge is not None and charge.full_h and bank.usable_wh:
            # Of a full charge that share which the day took; more than a full one runs on.
            day_h = charge.full_h * use_wh_d / bank.usable_wh
            day_l = None if charge.fuel_l is None else charge.fuel_l * use_wh_d / bank.usable_wh
        found.append(
            GeneratorFigures(
                part.option.id, part.option.name, f.continuous_w * part.count,
                None if f.surge_va is None else f.surge_va * part.count, on.running_va,
                on.start.name if on.start else "", softer(on.start), max(on.start_va, on.running_va), day_h, day_l,
            )
        )  # fmt: skip
    return tuple(found)
