"""The house bank: batteries in series and parallel, its charging voltage, resistance and short circuit."""

from functools import lru_cache
from typing import NamedTuple

from engine.build.battery_cold import cells_about, day_degc, morning_degc
from engine.build.model import Build, Part
from engine.build.warmth import WarmthFigures
from engine.catalogue.facets import Battery
from engine.physics.battery_bank import Bank, bank, battery_ohm, cells_in_series, cells_only_ohm, together_ohm
from engine.physics.battery_chemistry import CHEMISTRIES, Chemistry
from engine.physics.battery_sag import prospective_a
from engine.physics.battery_temperature import capacity_left_frac
from engine.physics.peukert import delivered_ah
from engine.physics.ranges import OutOfRangeError

CHARGE_OF_FULL_FRAC = 0.973
"""Usual charging voltage over the highest a cell stands: 3.55 of 3.65 V, 2.38 of 2.45 V (common practice)."""

LEAST_BANK_V = 10.0
"""A house bank has at least this; single cells and six-volt batteries are wired in series."""

RATED_H = 20.0
"""Hours over which a lead-acid capacity is rated (common practice)."""

LEAD = frozenset({"agm", "gel", "flooded"})
"""Lead-acid chemistries."""


class BatteryGroup(NamedTuple):
    """Batteries of one kind, all of them."""

    option_id: str
    name: str
    chemistry: str
    series: int
    parallel: int
    nominal_v: float
    """Of the group."""
    capacity_ah: float
    energy_wh: float
    usable_wh: float | None
    """What may be taken out at the mean temperature of the month; None colder than the chemistry's data go."""
    cell_degc: float
    morning_degc: float
    continuous_a: float
    peak_a: float
    peak_s: float
    charge_a: float
    charge_v: float | None
    inner_ohm: float | None
    """On the coldest morning; None where its data end, or its voltage is no whole number of cells."""
    short_a: float | None
    """Prospective short-circuit current at its terminals."""


class BankFigures(NamedTuple):
    """All house batteries together. Values are None while they do not make one bank."""

    groups: tuple[BatteryGroup, ...]
    odd_ids: tuple[str, ...]
    """Batteries whose number or voltage makes no bank of the voltage wanted."""
    nominal_v: float | None
    charge_v: float | None
    energy_wh: float
    usable_wh: float | None
    capacity_ah: float
    continuous_a: float
    peak_a: float
    peak_s: float
    charge_a: float
    inner_ohm: float | None
    short_a: float | None
    cells_least_degc: float
    """No cell gets colder."""
    cells_warmer_k: float
    """By so much they are warmer than the air outside."""

    @property
    def protected(self) -> bool:
        """Whether electronics switch a battery off at its limits; lead-acid batteries have none."""
        return any(g.chemistry not in LEAD for g in self.groups)


@lru_cache(maxsize=256)
def _chemical(chemistry: Chemistry, nominal_v: float, capacity_ah: float) -> tuple[float | None, float | None]:
    """(charging voltage, short-circuit current) of one battery; None when it is no whole number of cells."""
    try:
        cells = cells_in_series(chemistry, nominal_v)
    except ValueError:
        return None, None
    full_v = cells * chemistry.cell_full_v
    return full_v * CHARGE_OF_FULL_FRAC, prospective_a(full_v, cells_only_ohm(chemistry, nominal_v, capacity_ah))


@lru_cache(maxsize=256)
def _ohm(
    chemistry: Chemistry, nominal_v: float, capacity_ah: float, stated_ohm: float | None, degc: float
) -> float | None:
    try:
        if stated_ohm is not None:
            return stated_ohm * chemistry.resistance_multiple.between("cell_degc", degc)
        return battery_ohm(chemistry, nominal_v, capacity_ah, degc)
    except ValueError:  # no whole number of cells, or colder than the chemistry's data go
        return None


def _usable_frac(f: Battery, degc: float, mean_a: float) -> float | None:
    """Depth to plan with, or what cold and current leave when that is less."""
    chemistry = CHEMISTRIES[f.chemistry]
    try:
        left = capacity_left_frac(chemistry, degc)
        if mean_a > 0:
            left *= min(
                1.0,
                delivered_ah(f.capacity_ah, RATED_H, max(0.01, mean_a), chemistry.peukert_excess_frac) / f.capacity_ah,
            )
    except OutOfRangeError:
        return None
    return min(f.usable_frac, left)


def _wired(count: int, f: Battery) -> Bank | None:
    system_v = f.bank_v or f.nominal_v
    if system_v < LEAST_BANK_V:
        return None
    try:
        return bank(count, f.nominal_v, f.capacity_ah, system_v)
    except ValueError:
        return None


def _group(
    build: Build, warmth: WarmthFigures, part: Part, f: Battery, month: int, use_w: float
) -> BatteryGroup | None:
    wired = _wired(part.count, f)
    if wired is None:
        return None
    chemistry = CHEMISTRIES[f.chemistry]
    degc, morning = day_degc(build, warmth, part, month), morning_degc(build, warmth, part)
    usable = _usable_frac(f, degc, use_w / wired.nominal_v / wired.parallel)
    charge_v, estimated_a = _chemical(chemistry, f.nominal_v, f.capacity_ah)
    short_a = f.short_circuit_a or estimated_a
    one_ohm = _ohm(chemistry, f.nominal_v, f.capacity_ah, f.internal_ohm, morning)
    return BatteryGroup(
        option_id=part.option.id,
        name=part.option.name,
        chemistry=f.chemistry,
        series=wired.series,
        parallel=wired.parallel,
        nominal_v=wired.nominal_v,
        capacity_ah=wired.capacity_ah,
        energy_wh=wired.energy_wh,
        usable_wh=None if usable is None else wired.energy_wh * usable,
        cell_degc=degc,
        morning_degc=morning,
        continuous_a=f.continuous_discharge_a * wired.parallel,
        peak_a=f.peak_discharge_a * wired.parallel,
        peak_s=f.peak_s,
        charge_a=f.charge_a * wired.parallel,
        charge_v=None if charge_v is None else charge_v * wired.series,
        inner_ohm=None if one_ohm is None else together_ohm(one_ohm, wired.series, wired.parallel),
        short_a=None if short_a is None else short_a * wired.parallel,
    )


def bank_v(build: Build) -> float | None:
    """Nominal voltage of the house bank; None without one, or while batteries of several voltages are mixed."""
    voltages = set()
    for part, f in build.facets(Battery):
        wired = _wired(part.count, f)
        voltages.add(None if wired is None else wired.nominal_v)
    return voltages.pop() if len(voltages) == 1 else None


def bank_figures(build: Build, warmth: WarmthFigures, month: int, use_w: float) -> BankFigures:
    """The house bank in a month, with a mean load that lead-acid batteries feel."""
    found = [(p, _group(build, warmth, p, f, month, use_w)) for p, f in build.facets(Battery)]
    groups = tuple(g for _, g in found if g is not None)
    odd = tuple(p.option.id for p, g in found if g is None)
    one = len({g.nominal_v for g in groups}) == 1 and not odd
    usable = [g.usable_wh for g in groups if g.usable_wh is not None]
    charging = [g.charge_v for g in groups if g.charge_v is not None]
    ohms = [g.inner_ohm for g in groups if g.inner_ohm is not None]
    shorts = [g.short_a for g in groups if g.short_a is not None]
    whole = one and len(ohms) == len(groups)
    least_degc, warmer_k = cells_about(build, warmth)
    return BankFigures(
        groups=groups,
        odd_ids=odd,
        nominal_v=groups[0].nominal_v if one else None,
        charge_v=min(charging) if one and len(charging) == len(groups) else None,
        energy_wh=sum(g.energy_wh for g in groups),
        usable_wh=sum(usable) if len(usable) == len(groups) else None,
        capacity_ah=sum(g.capacity_ah for g in groups) if one else 0.0,
        continuous_a=sum(g.continuous_a for g in groups),
        peak_a=sum(g.peak_a for g in groups),
        peak_s=min((g.peak_s for g in groups), default=0.0),
        charge_a=sum(g.charge_a for g in groups),
        inner_ohm=1 / sum(1 / r for r in ohms) if whole else None,
        short_a=sum(shorts) if one and len(shorts) == len(groups) else None,
        cells_least_degc=least_degc,
        cells_warmer_k=warmer_k,
    )
