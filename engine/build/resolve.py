"""From an enquiry and a catalogue to a build."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

from engine.build.model import Akin, Build, Part, Stray
from engine.build.plan import Moves, least_aisle_m, plan, plan_parts
from engine.build.plan_figures import PlanFigures
from engine.build.plan_place import centres
from engine.build.standstill import heat_branches
from engine.catalogue.facets import InsulationLayer, Trim
from engine.catalogue.section import Option, Section
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.weighed import WeighedReady, WeighedVehicle
from engine.catalogue.workshop import Catalogue, ReadyBuild
from engine.enquiry.climate import Climate
from engine.enquiry.model import Enquiry


class UnknownChoiceError(ValueError):
    """The enquiry names a vehicle or a place that does not exist; ``where`` is its key."""

    def __init__(self, where: str, found: str, known: list[str]) -> None:
        super().__init__(f"{where}: there is no {found!r} here; known are {', '.join(known)}")
        self.where = where


NEARLY = 1 - 1e-9
"""Share of a weighed vehicle where nothing that weighs is left out."""


def surface_m2(vehicle: Vehicle, name: str) -> float:
    """Gross area of a surface of the shell: walls, roof or floor."""
    shell = vehicle.shell
    return {"walls": shell.walls_m2, "roof": shell.roof_m2, "floor": shell.floor_m2}[name]


def _layers(option: Option, vehicle: Vehicle) -> tuple[float, float]:
    """Mass in kg and area in m² that an option's layers and linings have in this vehicle."""
    mass_kg = area_m2 = 0.0
    for facet in option.facets:
        if isinstance(facet, InsulationLayer):
            f = facet.framing_frac
            per_m2 = facet.thickness_m * ((1 - f) * facet.density_kg_m3 + f * facet.framing_density_kg_m3)
            share = 1.0
        elif isinstance(facet, Trim):
            per_m2, share = facet.area_mass_kg_m2, facet.coverage_frac
        else:
            continue
        m2 = share * sum(surface_m2(vehicle, s) for s in facet.surfaces)
        mass_kg += per_m2 * m2
        area_m2 += m2
    return mass_kg, area_m2


def _part(section: Section, option: Option, count: int, vehicle: Vehicle) -> Part:
    layer_kg, area_m2 = _layers(option, vehicle)
    mass_kg = option.mass_kg if option.mass_kg is not None else (layer_kg if area_m2 else None)
    tolerance = option.mass_tolerance_frac if option.mass_tolerance_frac is not None else section.mass_tolerance_frac
    place = vehicle.place(option.place)
    area_price = Decimal(0)
    if option.area_price_per_m2:
        area_price = (option.area_price_per_m2 * Decimal(str(round(area_m2, 3)))).quantize(Decimal("0.01"))
    return Part(
        option=option,
        section_id=section.id,
        count=count,
        mass_kg=None if mass_kg is None else mass_kg * count,
        mass_tolerance_frac=tolerance,
        x_m=place.x_m,
        y_m=place.y_m,
        z_m=place.z_m,
        price=(option.price + area_price) * count,
        labour_h=option.labour_h * count,
    )


def _moved(part: Part, x_m: float, y_m: float, z_m: float) -> Part:
    return replace(part, x_m=x_m, y_m=y_m, z_m=z_m)


class Resolver:
    """Turns enquiries into builds against one catalogue. Holds nothing but what the catalogue says."""

    def __init__(self, catalogue: Catalogue, climates: Mapping[str, Climate]) -> None:
        self.catalogue = catalogue
        self.climates = climates
        self._order = {option_id: i for i, option_id in enumerate(catalogue.options_by_id)}
        self._one = tuple((s.id, s.title) for s in catalogue.sections if s.pick == "one")
        self._names = {option_id: option.name for option_id, (_, option) in catalogue.options_by_id.items()}
        self._kinds = frozenset(f.kind for _, option in catalogue.options_by_id.values() for f in option.facets)
        self._branches = heat_branches({i: option for i, (_, option) in catalogue.options_by_id.items()})
        ready = {r.id: r for r in catalogue.ready}
        # What has most in it comes first, so that a vehicle is matched with its nearest kin.
        self._weighed_ready = sorted(
            ((ready[w.ready], w) for w in catalogue.weighed_ready), key=lambda pair: (-len(pair[0].options), pair[0].id)
        )
        self._weighed_parts = {w.ready: self._masses(ready[w.ready]) for w in catalogue.weighed_ready}
        self._weighed_vehicle = {w.vehicle: w for w in catalogue.weighed}
        self._cached_part = lru_cache(maxsize=4096)(self._make_part)
        self._moved_part = lru_cache(maxsize=4096)(_moved)
        self._cached_layout = lru_cache(maxsize=512)(self._lay_out)

    def _make_part(self, option_id: str, count: int, vehicle_id: str) -> Part:
        section, option = self.catalogue.options_by_id[option_id]
        return _part(section, option, count, self.catalogue.vehicles_by_id[vehicle_id])

    def _weighed(self, enquiry: Enquiry) -> tuple[WeighedReady | WeighedVehicle | None, Mapping[str, int]]:
        """What was weighed of this very vehicle, more added or not, or else of its kind."""
        for ready, own in self._weighed_ready:
            if ready.vehicle == enquiry.vehicle and all(
                enquiry.options.get(i, 0) >= n for i, n in ready.options.items()
            ):
                return own, ready.options
        return self._weighed_vehicle.get(enquiry.vehicle), {}

    def _masses(self, ready: ReadyBuild) -> tuple[dict[str, float], float]:
        """Mass of a piece of everything in a finished vehicle, and of all; nothing where some mass is not stated."""
        parts = [self._make_part(i, n, ready.vehicle) for i, n in ready.options.items()]
        if any(p.mass_kg is None for p in parts):
            return {}, 0.0
        return {p.option.id: (p.mass_kg or 0.0) / p.count for p in parts}, sum(p.mass_kg or 0.0 for p in parts)

    def _akin(self, enquiry: Enquiry) -> tuple[Akin, ...]:
        """Weighed vehicles of which this one has more than half, by mass, and not all."""
        found = []
        for ready, own in self._weighed_ready:
            each_kg, all_kg = self._weighed_parts[ready.id]
            if ready.vehicle != enquiry.vehicle or not all_kg:
                continue
            gone = {i: n - had for i, n in ready.options.items() if (had := enquiry.options.get(i, 0)) < n}
            share = min(1 - 2 * sum(each_kg[i] * n for i, n in gone.items()) / all_kg, NEARLY)
            if share > 0:
                left_out = tuple(self._cached_part(i, n, ready.vehicle) for i, n in gone.items())
                found.append(Akin(own, share, ready.options, left_out))
        return tuple(found)

    def _lay_out(self, vehicle_id: str, parts: tuple[Part, ...], moves: Moves) -> tuple[PlanFigures, tuple[Part, ...]]:
        """The floor plan, and the parts, those with a module where the plan puts it."""
        vehicle = self.catalogue.vehicles_by_id[vehicle_id]
        planned = plan(vehicle, plan_parts(vehicle, parts), moves, least_aisle_m(self.catalogue.workshop))
        cabin = vehicle.cabin
        at = {i: (x, y, z) for i, x, y, z in centres(planned.day, cabin.front_x_m, cabin.width_m, cabin.floor_z_m)}
        return planned, tuple(self._moved_part(p, *at[p.option.id]) if p.option.id in at else p for p in parts)

    def resolve(self, enquiry: Enquiry) -> Build:
        """The build that an enquiry describes.

        Options that the catalogue does not have, or not for this vehicle, are kept as strays. Parts come in catalogue
        order, so the order of choices never matters. Raises UnknownChoiceError for a vehicle or place nobody knows.
        """
        vehicle = self.catalogue.vehicles_by_id.get(enquiry.vehicle)
        if vehicle is None:
            raise UnknownChoiceError("vehicle", enquiry.vehicle, list(self.catalogue.vehicles_by_id))
        climate = self.climates.get(enquiry.trip.place)
        if climate is None:
            raise UnknownChoiceError("trip.place", enquiry.trip.place, list(self.climates))
        parts: list[Part] = []
        strays: list[Stray] = []
        for option_id in sorted(enquiry.options, key=lambda i: (self._order.get(i, len(self._order)), i)):
            count = enquiry.options[option_id]
            known = self.catalogue.options_by_id.get(option_id)
            if known is None:
                strays.append(Stray(option_id, count, "the catalogue no longer has it", option_id))
            elif known[1].fits and vehicle.id not in known[1].fits:
                why = f"it does not fit the {vehicle.name}"
                strays.append(Stray(option_id, count, why, known[1].name, vehicle.name))
            else:
                parts.append(self._cached_part(option_id, count, vehicle.id))
        planned, standing = self._cached_layout(vehicle.id, tuple(parts), tuple(sorted(enquiry.moves.items())))
        weighed, weighed_options = self._weighed(enquiry)
        akin = self._akin(enquiry) if isinstance(weighed, WeighedVehicle) else ()
        return Build(
            workshop=self.catalogue.workshop,
            vehicle=vehicle,
            parts=standing,
            plan=planned,
            trip=enquiry.trip,
            climate=climate,
            strays=tuple(strays),
            sections_one=self._one,
            option_names=self._names,
            offered_kinds=self._kinds,
            branches=self._branches,
            weighed=weighed,
            weighed_options=weighed_options,
            akin=akin,
        )
