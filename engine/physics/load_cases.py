"""The worst state of filling and occupancy, found exactly.

Whatever is asked (an axle's load, a wheel's, the whole mass) is a sum over masses of so much per kilogram, by where
each mass is. So every tank, bag and traveller has a sign of its own: what adds is aboard, what takes away is not, and
no mix in between can be worse. Three things tie contents together:

- Water is moved, not made: use turns fresh into waste, so all tanks together hold no more than the fresh tanks or the
  waste tanks do, whichever is more. The best use of such a common measure is to fill the tank that counts most per
  kilogram, then the next (a knapsack that may be cut, solved by greed).
- A traveller has one seat and a seat one traveller: the heaviest belongs in the seat that counts most, and so on down
  (rearrangement inequality). The driver is always aboard and always in front of the wheel.
- The smallest share on an axle is a ratio of two such sums. Dinkelbach's method (Management Science 13, 1967) asks for
  the least of N − λ·D and puts λ = N/D, until λ no longer falls; with finitely many corners it ends exactly.
"""

from collections.abc import Iterable
from typing import NamedTuple


class Load(NamedTuple):
    """A mass with its place and its uncertainty; x behind the front axle, y right of the centre line, z above the
    road (None: not known)."""

    name: str
    mass_kg: float
    x_m: float
    y_m: float = 0.0
    z_m: float | None = None
    spread_kg: float = 0.0
    """Half-width within which the mass lies nine times in ten."""
    group: str = ""
    """Errors of one group have one cause and go together; empty: independent."""

    def moved(self, seat: "Seat") -> "Load":
        """The same mass in another seat."""
        return self._replace(x_m=seat.x_m, y_m=seat.y_m, z_m=seat.z_m)


class Seat(NamedTuple):
    """Where somebody can sit."""

    x_m: float
    y_m: float
    z_m: float


class Measure(NamedTuple):
    """What each kilogram counts by its place: one + x·x_m + y·y_m + xy·x_m·y_m + z·z_m."""

    one: float
    x: float = 0.0
    y: float = 0.0
    xy: float = 0.0
    z: float = 0.0

    def per_kg(self, x_m: float, y_m: float, z_m: float | None) -> float:
        """What a kilogram there counts."""
        return self.one + self.x * x_m + (self.y + self.xy * x_m) * y_m + (self.z * z_m if z_m is not None else 0.0)


def total() -> Measure:
    """The whole mass."""
    return Measure(1.0)


def front(wheelbase_m: float) -> Measure:
    """The front axle's load."""
    return Measure(1.0, -1 / wheelbase_m)


def rear(wheelbase_m: float) -> Measure:
    """The rear axle's load."""
    return Measure(0.0, 1 / wheelbase_m)


def wheel(axle: Measure, track_m: float, right: bool) -> Measure:
    """The load of one end of an axle (see ``wheel_loads``)."""
    sign = 1.0 if right else -1.0
    return Measure(axle.one / 2, axle.x / 2, sign * axle.one / track_m, sign * axle.x / track_m)


class Sums(NamedTuple):
    """What is needed of many masses to measure them together."""

    mass_kg: float
    x_kgm: float
    y_kgm: float
    xy_kgm: float
    """Σ m·x·y, in kg·m²."""
    z_kgm: float

    def measured_kg(self, by: Measure) -> float:
        """Their common measure."""
        return by.one * self.mass_kg + by.x * self.x_kgm + by.y * self.y_kgm + by.xy * self.xy_kgm + by.z * self.z_kgm

    def plus(self, other: "Sums") -> "Sums":
        """Both together."""
        return Sums(
            self.mass_kg + other.mass_kg, self.x_kgm + other.x_kgm, self.y_kgm + other.y_kgm,
            self.xy_kgm + other.xy_kgm, self.z_kgm + other.z_kgm,
        )  # fmt: skip


def sums(loads: Iterable[Load]) -> Sums:
    """The sums over some masses; what has no known height counts none."""
    m = mx = my = mxy = mz = 0.0
    for _, kg, x, y, z, _, _ in loads:
        m += kg
        mx += kg * x
        my += kg * y
        mxy += kg * x * y
        if z is not None:
            mz += kg * z
    return Sums(m, mx, my, mxy, mz)


def by_name_kg(loads: Iterable[Load], by: Measure) -> dict[str, float]:
    """The measure of some masses, those of one name together."""
    found: dict[str, float] = {}
    for name, kg, x, y, z, _, _ in loads:
        found[name] = found.get(name, 0.0) + kg * by.per_kg(x, y, z)
    return found


class Doubt(NamedTuple):
    """What is needed of many masses' errors to know the band of either axle and of both (see ``band_kg``)."""

    own_kg2: float
    """Σ h² of the independent errors, h being their half-widths."""
    own_kg2m: float
    """Σ h²·x."""
    own_kg2m2: float
    """Σ h²·x²."""
    groups_kg: tuple[tuple[str, float, float], ...]
    """Group, Σ h and (in kg·m) Σ h·x of its errors."""

    def plus(self, other: "Doubt") -> "Doubt":
        """Both together."""
        found = {name: (kg, kgm) for name, kg, kgm in self.groups_kg}
        for name, kg, kgm in other.groups_kg:
            had = found.get(name, (0.0, 0.0))
            found[name] = (had[0] + kg, had[1] + kgm)
        return Doubt(
            self.own_kg2 + other.own_kg2, self.own_kg2m + other.own_kg2m, self.own_kg2m2 + other.own_kg2m2,
            tuple((name, kg, kgm) for name, (kg, kgm) in found.items()),
        )  # fmt: skip

    def axles_kg2(self, wheelbase_m: float) -> tuple[float, float, float]:
        """Squared half-width in front, its product with the rear, and squared half-width in the rear."""
        rear = self.own_kg2m2 / wheelbase_m**2
        both = self.own_kg2m / wheelbase_m - rear
        front = self.own_kg2 - 2 * both - rear
        for _, kg, kgm in self.groups_kg:
            on_rear = kgm / wheelbase_m
            front += (kg - on_rear) ** 2
            both += (kg - on_rear) * on_rear
            rear += on_rear**2
        return front, both, rear


def doubt(loads: Iterable[Load]) -> Doubt:
    """What the errors of some masses come to."""
    a = b = c = 0.0
    groups: dict[str, tuple[float, float]] = {}
    for _, _, x, _, _, h, group in loads:
        if group:
            had = groups.get(group, (0.0, 0.0))
            groups[group] = (had[0] + h, had[1] + h * x)
        elif h:
            a += h * h
            b += h * h * x
            c += h * h * x * x
    return Doubt(a, b, c, tuple((name, kg, kgm) for name, (kg, kgm) in groups.items()))


class Loading(NamedTuple):
    """All that can be aboard beyond what is built in."""

    always: tuple[Load, ...]
    """Aboard whenever the vehicle is on the road: the driver."""
    free: tuple[Load, ...]
    """Each aboard or not, as it comes. A negative mass is what can be missing, such as burnt fuel."""
    water: tuple[Load, ...]
    """Full fresh and waste tanks."""
    water_kg: float
    """Most that those hold together, unless fresh water is filled in before waste is let out."""
    people: tuple[Load, ...]
    """Travellers beside the driver, each in a usual seat."""
    seats: tuple[Seat, ...]
    """Where they may sit."""


class Filling(NamedTuple):
    """One state of it."""

    free: tuple[bool, ...]
    water_frac: tuple[float, ...]
    people: tuple[Load, ...]
    """Those aboard, in the seats they took."""

    def loads(self, of: Loading) -> tuple[Load, ...]:
        """Everything aboard beyond what is built in."""
        tanks = tuple(
            load if f == 1 else load._replace(mass_kg=load.mass_kg * f)
            for load, f in zip(of.water, self.water_frac, strict=True)
            if f
        )
        aboard = tuple(load for load, there in zip(of.free, self.free, strict=True) if there)
        return of.always + self.people + aboard + tanks


_NIL = 1e-9
"""Kilograms that count as nothing: what is left over when numbers are subtracted is no water in a tank."""


def most(loading: Loading, by: Measure) -> Filling:
    """The filling with the largest measure; exact. What counts nothing is left out.

    >>> van = Loading((), (Load("baggage", 100, 4.5),), (), 0.0, (), ())
    >>> most(van, rear(3.6)).free, most(van, front(3.6)).free
    ((True,), (False,))
    """
    free = tuple(load.mass_kg * by.per_kg(load.x_m, load.y_m, load.z_m) > _NIL for load in loading.free)
    per_kg = [by.per_kg(load.x_m, load.y_m, load.z_m) for load in loading.water]
    water_frac, left_kg = [0.0] * len(per_kg), loading.water_kg
    for i in sorted(range(len(per_kg)), key=lambda i: -per_kg[i]):
        capacity_kg = loading.water[i].mass_kg
        if per_kg[i] <= _NIL or left_kg <= _NIL:
            break
        water_frac[i] = 1.0 if capacity_kg <= left_kg else left_kg / capacity_kg
        left_kg -= capacity_kg
    good = sorted(((c, s) for s in loading.seats if (c := by.per_kg(s.x_m, s.y_m, s.z_m)) > _NIL), reverse=True)
    heavy = sorted(loading.people, key=lambda p: -p.mass_kg)
    people = tuple(p.moved(seat) for p, (_, seat) in zip(heavy, good, strict=False))
    return Filling(free, tuple(water_frac), people)


def least_ratio(loading: Loading, built_in: Sums, top: Measure, bottom: Measure) -> Filling:
    """The filling with the smallest ratio of two measures, fixed masses included; exact (Dinkelbach).

    bottom must be positive for every filling, as the whole mass is.
    """
    best = most(loading, Measure(0.0))
    ratio = _ratio(built_in, best, loading, top, bottom)
    while True:
        filling = most(loading, Measure(*(ratio * b - t for t, b in zip(top, bottom, strict=True))))
        now = _ratio(built_in, filling, loading, top, bottom)
        if now >= ratio - 1e-12 * abs(ratio):
            return best
        best, ratio = filling, now


def _ratio(built_in: Sums, filling: Filling, loading: Loading, top: Measure, bottom: Measure) -> float:
    everything = built_in.plus(sums(filling.loads(loading)))
    return everything.measured_kg(top) / everything.measured_kg(bottom)
