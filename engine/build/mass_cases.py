"""Load cases of a build: the usual ones to show, and the worst ones that exist."""

from functools import lru_cache
from math import sqrt
from typing import NamedTuple

from engine.build.mass_items import FUEL
from engine.physics import load_cases
from engine.physics.axle import AxleLoads, WheelLoads, axles_under
from engine.physics.load_cases import Filling, Load, Loading, Measure, doubt, least_ratio, most, sums
from engine.physics.uncertainty import Error, band_kg

_SAME = 1e-9


class LoadCase(NamedTuple):
    """Axle loads in one state of filling and occupancy."""

    name: str
    axles: AxleLoads
    spread_kg: float
    """Half-width of the total's 90 % band."""
    front_spread_kg: float
    rear_spread_kg: float
    cg: tuple[float, float, float | None]
    """Centre of gravity in m: behind the front axle, right of the centre line, above the road. No height where the
    vehicle does not state that of its delivered mass."""
    wheels: WheelLoads | None
    """None where the vehicle does not state its tracks."""
    aboard: tuple[Load, ...]
    """People, tanks and belongings beside what is built in."""


class WheelEnd(NamedTuple):
    """The end of an axle that comes nearest to what its tyres carry."""

    name: str
    load_kg: float
    spread_kg: float
    limit_kg: float
    case: str
    by: Measure
    """What each kilogram counts there."""
    aboard: tuple[Load, ...]


class Frame(NamedTuple):
    """What of a vehicle decides where loads go."""

    wheelbase_m: float
    front_track_m: float | None
    rear_track_m: float | None
    has_height: bool
    """Whether the height of the delivered centre of gravity is stated."""
    ends_kg: tuple[float, float, float, float] | None
    """What the tyres of each end carry, in the order of WheelLoads."""


class Worked(NamedTuple):
    """The usual cases, and the worst of every possible one."""

    usual: tuple[LoadCase, LoadCase, LoadCase]
    heaviest: LoadCase
    front: LoadCase
    rear: LoadCase
    steer_lightest: LoadCase
    highest: LoadCase | None
    all_tanks: LoadCase
    wheel: WheelEnd | None


@lru_cache(maxsize=1024)
def worked(frame: Frame, built_in: tuple[Load, ...], loading: Loading) -> Worked:
    """All cases of a build, worked out once for each different one."""
    cases = _Cases(frame, built_in, loading)
    return Worked(
        usual=cases.usual,
        heaviest=cases.worst(load_cases.total()),
        front=cases.worst(cases.front),
        rear=cases.worst(cases.rear),
        steer_lightest=cases.steer_lightest(),
        highest=cases.highest(),
        all_tanks=cases.all_tanks(),
        wheel=cases.worst_end(),
    )


class _Cases:
    """Works out cases of one build. What is built in is summed once, so that a case costs only what is aboard."""

    def __init__(self, frame: Frame, built_in: tuple[Load, ...], loading: Loading) -> None:
        self.frame, self.built_in, self.loading = frame, built_in, loading
        self._sums, self._doubt = sums(built_in), doubt(built_in)
        self.front = load_cases.front(frame.wheelbase_m)
        self.rear = load_cases.rear(frame.wheelbase_m)
        self.ends = self._ends()
        all_ = loading.always + loading.people + tuple(load for load in loading.free if load.mass_kg > 0)
        fresh = tuple(w for w in loading.water if _is_fresh(w))
        waste = tuple(w for w in loading.water if not _is_fresh(w))
        self._laden = (all_ + fresh, all_ + waste)
        self._laden_sums = tuple(self._sums.plus(sums(loads)) for loads in self._laden)
        self.usual = (
            self.case("dry and empty", ()),
            self.case("full fresh water, all aboard", self._laden[0]),
            self.case("full waste tanks, all aboard", self._laden[1]),
        )

    def _ends(self) -> tuple[tuple[str, Measure], ...]:
        """The four ends of the axles, in the order of WheelLoads; none without tracks."""
        f = self.frame
        if f.front_track_m is None or f.rear_track_m is None:
            return ()
        return tuple(
            (f"{axle} {'right' if right else 'left'}", load_cases.wheel(measure, track_m, right))
            for axle, measure, track_m in (("front", self.front, f.front_track_m), ("rear", self.rear, f.rear_track_m))
            for right in (False, True)
        )

    def case(self, name: str, aboard: tuple[Load, ...]) -> LoadCase:
        """The case with these things aboard."""
        all_ = self._sums.plus(sums(aboard))
        axles = axles_under(all_.mass_kg, all_.x_kgm, self.frame.wheelbase_m)
        front, both, rear = self._doubt.plus(doubt(aboard)).axles_kg2(self.frame.wheelbase_m)
        spread, of_front, of_rear = (sqrt(max(0.0, s)) for s in (front + 2 * both + rear, front, rear))
        wheels = WheelLoads(*(all_.measured_kg(m) for _, m in self.ends)) if self.ends else None
        kg = all_.mass_kg
        cg = (all_.x_kgm / kg, all_.y_kgm / kg, all_.z_kgm / kg if self.frame.has_height else None)
        return LoadCase(name, axles, spread, of_front, of_rear, cg, wheels, aboard)

    def all_tanks(self) -> LoadCase:
        """Fresh water filled in before waste is let out."""
        waste = tuple(w for w in self.loading.water if not _is_fresh(w))
        return self.case("every tank full, all aboard", self._laden[0] + waste)

    def _most(self, by: Measure) -> tuple[float, str, tuple[Load, ...]]:
        """The largest a measure can be, with the case's name and what is aboard; a usual one where it is as bad."""
        found = most(self.loading, by)
        aboard = found.loads(self.loading)
        kg = self._sums.plus(sums(aboard)).measured_kg(by)
        for usual, loads, laden in zip(self.usual[1:], self._laden, self._laden_sums, strict=True):
            if laden.measured_kg(by) >= kg - _SAME * max(1.0, abs(kg)):
                return kg, usual.name, loads
        return kg, self.words(found), aboard

    def worst(self, by: Measure) -> LoadCase:
        """The case with most of a measure, every mix of contents considered."""
        _, name, aboard = self._most(by)
        return next((u for u in self.usual if u.name == name), None) or self.case(name, aboard)

    def steer_lightest(self) -> LoadCase:
        """The case with the smallest share of the mass on the front axle, the driver aboard."""
        found = least_ratio(self.loading, self._sums, self.front, load_cases.total())
        return self.case(self.words(found), found.loads(self.loading))

    def highest(self) -> LoadCase | None:
        """The case with the highest centre of gravity; None where the delivered one's height is not stated."""
        if not self.frame.has_height:
            return None
        found = least_ratio(self.loading, self._sums, Measure(0.0, z=-1.0), load_cases.total())
        return self.case(self.words(found), found.loads(self.loading))

    def worst_end(self) -> WheelEnd | None:
        """The axle's end that carries the largest share of what its tyres do, in its worst case."""
        if self.frame.ends_kg is None or not self.ends:
            return None
        ends = [
            (*self._most(by), end, by, limit_kg)
            for (end, by), limit_kg in zip(self.ends, self.frame.ends_kg, strict=True)
        ]
        load_kg, name, aboard, end, by, limit_kg = max(ends, key=lambda e: e[0] / e[-1])
        errors = (
            Error(i.spread_kg * by.per_kg(i.x_m, i.y_m, i.z_m), i.group) for i in self.built_in + aboard if i.spread_kg
        )
        return WheelEnd(end, load_kg, band_kg(errors), limit_kg, name, by, aboard)

    def words(self, filling: Filling) -> str:
        """A filling as a reader says it."""
        of, said = self.loading, []
        for name, fresh in (("fresh water", True), ("waste tanks", False)):
            tanks = [(w.mass_kg, f) for w, f in zip(of.water, filling.water_frac, strict=True) if _is_fresh(w) == fresh]
            if tanks:
                share = sum(kg * f for kg, f in tanks) / sum(kg for kg, _ in tanks)
                full = "empty" if share == 0 else "full" if share == 1 else f"{share * 100:.0f} % full"
                said.append(f"{name} {full}")
        if of.people:
            n = len(filling.people)
            said.append("all aboard" if n == len(of.people) else "driver alone" if not n else f"{n + 1} aboard")
        out = [w.name for w, there in zip(of.free, filling.free, strict=True) if not there and w.mass_kg > 0]
        if out:
            said.append("without " + " and ".join(dict.fromkeys(out)))
        if any(there and w.name == FUEL for w, there in zip(of.free, filling.free, strict=True)):
            said.append("fuel used up")
        return ", ".join(said) or "driver aboard"


def _is_fresh(load: Load) -> bool:
    return load.name == "fresh water"
