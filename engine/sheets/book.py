"""What a catalogue's sheet shows whatever is chosen: worked out once for each catalogue and vehicle."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build import Resolver
from engine.catalogue import Catalogue, Option, Section, Vehicle
from engine.catalogue.section import Excludes, Requires
from engine.catalogue.trip import Trip
from engine.enquiry import Enquiry
from engine.enquiry.climate import Climate
from engine.rule import Rule, listed
from engine.rules import all_rules
from engine.sheets.templates import render
from engine.spelling import spelled
from engine.units import System, money, show

_MOST_OPTIONS = 400  # an enquiry names no more
_NAMED = 3
"""How many options are named in a row before the rest are counted."""


class Offer(NamedTuple):
    """One option as it is offered for a vehicle."""

    id: str
    body: Markup
    """Name, summary and what goes with it."""
    figures: Markup
    """Mass, price and labour of one."""
    most: int
    fits: bool
    name: str


class Chapter(NamedTuple):
    """One section, numbered."""

    id: str
    number: str
    title: str
    intro: str
    pick_one: bool
    options: tuple[str, ...]


class Book:
    """A catalogue ready for drawing sheets from it."""

    def __init__(self, catalogue: Catalogue, climate: Climate) -> None:
        self.catalogue = catalogue
        shop = catalogue.workshop
        self.units: System = shop.units
        self.currency = shop.currency
        tax = shop.tax.name[:1].upper() + shop.tax.name[1:]
        tax = f"{tax} is in both" if shop.tax.in_prices else f"{tax} comes on top of both"
        self.terms = (
            f"Parts are priced without the work, which is {money(shop.labour_rate, shop.currency)} an hour. {tax}."
        )
        """What the prices in the rows are, and are not."""
        ordered = sorted(catalogue.sections, key=lambda s: s.order)
        self.chapters = tuple(
            Chapter(s.id, f"{n:02d}", s.title, s.intro or "", s.pick == "one", tuple(o.id for o in s.options))
            for n, s in enumerate(ordered, 1)
        )
        self.chapter_of = {i: c for c in self.chapters for i in c.options}
        self.offering: dict[str, str] = {}
        """Chapter that offers most options with a facet of this kind."""
        counts: dict[str, dict[str, int]] = {}
        for s in ordered:
            for o in s.options:
                for f in o.facets:
                    kind: str = f.kind
                    counts.setdefault(kind, {}).setdefault(s.id, 0)
                    counts[kind][s.id] += 1
        self.offering = {k: max(v, key=lambda s: v[s]) for k, v in counts.items()}
        power = ("battery", "inverter", "solar-panel", "alternator-charger", "shore-charger")
        chapters = {self.offering[k] for k in power if k in self.offering} or {self.chapters[-1].id}
        self.energy_after = max((c for c in self.chapters if c.id in chapters), key=lambda c: c.number).id
        """Last of the power chapters: the energy part stands after it."""
        self.charts: dict[str, tuple[str, ...]] = {}
        """Charts that stand in a chapter, below its head."""
        for kind, name in (
            ("fresh-tank", "water-course"), ("gas-store", "gas-course"), ("water-heater", "hot-showers"),
            ("insulation-layer", "warmth-wall"),
            ("insulation-layer", "warmth-heat"), ("insulation-layer", "warmth-damp"), ("space-heater", "warmth-night"),
        ):  # fmt: skip
            if kind in self.offering:
                home = self.offering[kind]
                self.charts[home] = (*self.charts.get(home, ()), name)
        self.cautions = {r.code: spelled(r.caution, catalogue.workshop.units) for r in all_rules()}
        self.assuming = frozenset(r.code for r in all_rules() if _assumes(r))
        """Rules that rest on something nobody stated."""
        self.part_rows: dict[tuple[str, str, int], Markup] = {}
        """Lines of the parts list already drawn, by vehicle, option and count."""
        self._climate = climate
        self.offers: Callable[[str], dict[str, Offer]] = lru_cache(maxsize=64)(self._offers)

    def _offers(self, vehicle_id: str) -> dict[str, Offer]:
        parts = self._one_of_each(vehicle_id)
        vehicle = self.catalogue.vehicles_by_id[vehicle_id]
        return {o.id: self._offer(s, o, vehicle, parts) for s in self.catalogue.sections for o in s.options}

    def _one_of_each(self, vehicle_id: str) -> dict[str, tuple[float | None, str]]:
        """Mass and price of one of every option in this vehicle: layers and linings depend on its areas."""
        shop = self.catalogue.workshop
        trip = Trip(place=self._climate.id, months=(1,))
        resolver = Resolver(self.catalogue, {self._climate.id: self._climate})
        ids = list(self.catalogue.options_by_id)
        found: dict[str, tuple[float | None, str]] = {}
        for start in range(0, len(ids), _MOST_OPTIONS):
            some = dict.fromkeys(ids[start : start + _MOST_OPTIONS], 1)
            build = resolver.resolve(Enquiry(vehicle=vehicle_id, options=some, trip=trip))
            found |= {p.option.id: (p.mass_kg, money(p.price, shop.currency)) for p in build.parts}
        return found

    def _offer(
        self, section: Section, option: Option, vehicle: Vehicle, parts: dict[str, tuple[float | None, str]]
    ) -> Offer:
        fits = option.id in parts
        mass_kg, price = parts.get(option.id, (option.mass_kg, money(option.price, self.currency)))
        goes_with = [f"Needs {self._some(ids)}: {why}" for why, ids in _by_reason(option.requires)]
        goes_with += [f"Needs {self._one_of(n.options)}: {n.because}" for n in option.needs_one_of]
        goes_with += [f"Not with {self._some(ids)}: {why}" for why, ids in _by_reason(option.excludes)]
        body = render(
            "option_body",
            id=option.id,
            name=option.name,
            summary=option.summary or "",
            unfit="" if fits else f"Not for the {vehicle.name}.",
            goes_with=tuple(goes_with),
            lead=show(option.lead_time_d, "d", self.units) if option.lead_time_d else "",
        )
        figures = render(
            "option_figures",
            mass="not stated" if mass_kg is None else show(mass_kg, "kg", self.units),
            price=price,
            labour=show(option.labour_h, "h", self.units),
            each=option.most > 1,
        )
        return Offer(option.id, body, figures, option.most, fits, option.name)

    def _one_of(self, options: tuple[str, ...]) -> str:
        names = [self._name(i) for i in options]
        if len(names) <= _NAMED:
            return " or ".join(names)
        return f"one of {self._some(options)}"

    def _some(self, options: Sequence[str]) -> str:
        """The first few by name."""
        names = listed(self._name(i) for i in options[:_NAMED])
        return names if len(options) <= _NAMED else f"{names} and {len(options) - _NAMED} more"

    def _name(self, option_id: str) -> str:
        known = self.catalogue.options_by_id.get(option_id)
        return known[1].name if known else option_id


def _by_reason(links: Iterable[Requires | Excludes]) -> Iterable[tuple[str, list[str]]]:
    """Options by the workshop's reason, which is often the same for several and then said once."""
    found: dict[str, list[str]] = {}
    for link in links:
        found.setdefault(link.because, []).append(link.option)
    return found.items()


def _assumes(rule: Rule) -> bool:
    extras = (field.json_schema_extra for field in rule.inputs.model_fields.values())
    return any(isinstance(extra, dict) and extra.get("origin") == "assumed" for extra in extras)


_books: list[Book] = []


def book_of(catalogue: Catalogue, climate: Climate) -> Book:
    """The book of a catalogue. Kept for the last few: a catalogue is too large to be looked up by its value."""
    for book in _books:
        if book.catalogue is catalogue:
            return book
    book = Book(catalogue, climate)
    _books.append(book)
    del _books[:-4]
    return book
