"""Load cases of a build: the usual ones to show, and the worst ones that exist."""

from functools import cached_property
from math import sqrt
from typing import NamedTuple

from engine.build.mass_items import FUEL
from engine.catalogue.vehicle import Vehicle
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


class WheelEnd(NamedTuple):
    """The end of an axle that comes nearest to what its tyres carry."""

    name: str
    load_kg: float
    spread_kg: float
    limit_kg: float
    case: str


class Cases:
    """Works out cases of one build. What is built in is summed once, so that a case costs only what is aboard."""

    def __init__(self, vehicle: Vehicle, built_in: tuple[Load, ...], loading: Loading) -> None:
        self.vehicle, self.built_in, self.loading = vehicle, built_in, loading
        self._sums, self._doubt = sums(built_in), doubt(built_in)
        self._has_height = vehicle.masses.cg_height_m is not None
        self.front = load_cases.front(vehicle.wheelbase_m)
        self.rear = load_cases.rear(vehicle.wheelbase_m)

    def case(self, name: str, aboard: tuple[Load, ...]) -> LoadCase:
        """The case with these things aboard."""
        v, all_ = self.vehicle, self._sums.plus(sums(aboard))
        axles = axles_under(all_.mass_kg, all_.x_kgm, v.wheelbase_m)
        front, both, rear = self._doubt.plus(doubt(aboard)).axles_kg2(v.wheelbase_m)
        spread, of_front, of_rear = (sqrt(max(0.0, s)) for s in (front + 2 * both + rear, front, rear))
        wheels = None
        if v.front_track_m is not None and v.rear_track_m is not None:
            wheels = WheelLoads(*(all_.measured_kg(m) for _, m in self.ends))
        kg = all_.mass_kg
        cg = (all_.x_kgm / kg, all_.y_kgm / kg, all_.z_kgm / kg if self._has_height else None)
        return LoadCase(name, axles, spread, of_front, of_rear, cg, wheels)

    @cached_property
    def ends(self) -> tuple[tuple[str, Measure], ...]:
        """The four ends of the axles, in the order of WheelLoads; none without tracks."""
        v = self.vehicle
        if v.front_track_m is None or v.rear_track_m is None:
            return ()
        return tuple(
            (f"{axle} {'right' if right else 'left'}", load_cases.wheel(measure, track_m, right))
            for axle, measure, track_m in (("front", self.front, v.front_track_m), ("rear", self.rear, v.rear_track_m))
            for right in (False, True)
        )

    @cached_property
    def usual(self) -> tuple[LoadCase, LoadCase, LoadCase]:
        """What a workshop shows: as it leaves the yard, full of water, and on the way home."""
        of = self.loading
        aboard = of.always + of.people + tuple(load for load in of.free if load.mass_kg > 0)
        return (
            self.case("dry and empty", ()),
            self.case("full fresh water, all aboard", aboard + tuple(w for w in of.water if _is_fresh(w))),
            self.case("full waste tanks, all aboard", aboard + tuple(w for w in of.water if not _is_fresh(w))),
        )

    def all_tanks(self) -> LoadCase:
        """Fresh water filled in before waste is let out."""
        of = self.loading
        free = tuple(load for load in of.free if load.mass_kg > 0)
        return self.case("every tank full, all aboard", of.always + of.people + free + of.water)

    def worst(self, by: Measure) -> LoadCase:
        """The case with most of a measure, every mix of contents considered; a usual one where it is as bad."""
        found = most(self.loading, by)
        kg = self._sums.plus(sums(found.loads(self.loading))).measured_kg(by)
        for usual, aboard in zip(self.usual[1:], self._usual_kg(by), strict=True):
            if aboard >= kg - _SAME * max(1.0, abs(kg)):
                return usual
        return self.case(self.words(found), found.loads(self.loading))

    def _usual_kg(self, by: Measure) -> tuple[float, float]:
        of = self.loading
        aboard = sums(of.always + of.people + tuple(load for load in of.free if load.mass_kg > 0)).measured_kg(by)
        built_in = self._sums.measured_kg(by) + aboard
        fresh = sums(w for w in of.water if _is_fresh(w)).measured_kg(by)
        waste = sums(w for w in of.water if not _is_fresh(w)).measured_kg(by)
        return built_in + fresh, built_in + waste

    def steer_lightest(self) -> LoadCase:
        """The case with the smallest share of the mass on the front axle, the driver aboard."""
        found = least_ratio(self.loading, self._sums, self.front, load_cases.total())
        return self.case(self.words(found), found.loads(self.loading))

    def highest(self) -> LoadCase | None:
        """The case with the highest centre of gravity; None where the delivered one's height is not stated."""
        if not self._has_height:
            return None
        found = least_ratio(self.loading, self._sums, Measure(0.0, z=-1.0), load_cases.total())
        return self.case(self.words(found), found.loads(self.loading))

    def worst_end(self, limits_kg: tuple[float, float, float, float]) -> WheelEnd:
        """The axle's end that carries the largest share of its limit, in its worst case."""
        ends = []
        for i, ((name, by), limit_kg) in enumerate(zip(self.ends, limits_kg, strict=True)):
            case = self.worst(by)
            assert case.wheels is not None  # there are ends only where tracks are stated
            ends.append((case.wheels[i] / limit_kg, name, by, case, case.wheels[i], limit_kg))
        _, name, by, case, load_kg, limit_kg = max(ends, key=lambda e: e[0])
        return WheelEnd(name, load_kg, self._band_kg(by), limit_kg, case.name)

    def _band_kg(self, by: Measure) -> float:
        """Half-width of a measure's band with everything aboard that makes it worst."""
        aboard = self.built_in + most(self.loading, by).loads(self.loading)
        return band_kg(Error(i.spread_kg * by.per_kg(i.x_m, i.y_m, i.z_m), i.group) for i in aboard)

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
