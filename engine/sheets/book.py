"""What a catalogue's sheet shows whatever is chosen: worked out once for each catalogue and vehicle."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build import Resolver
from engine.catalogue import Catalogue, Option, Vehicle
from engine.catalogue.facets import InsulationLayer, Trim
from engine.catalogue.section import Excludes, NeedsOneOf, Requires
from engine.catalogue.trip import Trip
from engine.enquiry import Enquiry
from engine.enquiry.climate import Climate
from engine.rule import Rule, listed
from engine.rules import all_rules
from engine.sheets.price_words import price_terms
from engine.sheets.templates import render
from engine.sheets.view import mass_text
from engine.spelling import spelled
from engine.units import System, money, money_of_one, show

_MOST_OPTIONS = 400  # an enquiry names no more
_NAMED = 3
"""How many options are named in a row before the rest are counted."""
BY_AREA = "by area"


def summed(mass_kg: float, whole: bool, units: System) -> str:
    """A sum of masses, which is the least that it can be while one of them is not stated."""
    return f"{'' if whole else 'at least '}{show(mass_kg, 'kg', units)}"


def layered(option: Option) -> bool:
    """Whether the mass of an option follows from the layers it is made of."""
    return option.mass_kg is None and any(isinstance(f, InsulationLayer | Trim) for f in option.facets)


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
    needs: tuple[Requires | NeedsOneOf, ...]
    """What else must come along."""


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
        self.terms = price_terms(shop)
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
        self._ruled_out = _ruled_out(o for s in ordered for o in s.options)
        self._climate = climate
        self.offers: Callable[[str], dict[str, Offer]] = lru_cache(maxsize=64)(self._offers)
        self._wanting = lru_cache(maxsize=4096)(self._with_needs)

    def offer(self, vehicle_id: str, option_id: str, chosen: frozenset[str]) -> Offer:
        """A chosen option as its row shows it: of what must come along only that which has not."""
        offer = self.offers(vehicle_id)[option_id]
        if not offer.needs:
            return offer
        left = tuple(n for n in offer.needs if chosen.isdisjoint(_named(n)))
        return offer if len(left) == len(offer.needs) else self._wanting(vehicle_id, option_id, left)

    def _with_needs(self, vehicle_id: str, option_id: str, needs: tuple[Requires | NeedsOneOf, ...]) -> Offer:
        offer, vehicle = self.offers(vehicle_id)[option_id], self.catalogue.vehicles_by_id[vehicle_id]
        option = self.catalogue.options_by_id[option_id][1]
        return offer._replace(body=self._body(option, vehicle, offer.fits, needs))

    def _offers(self, vehicle_id: str) -> dict[str, Offer]:
        parts = self._one_of_each(vehicle_id)
        vehicle = self.catalogue.vehicles_by_id[vehicle_id]
        return {o.id: self._offer(o, vehicle, parts) for s in self.catalogue.sections for o in s.options}

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
            found |= {p.option.id: (p.mass_kg, _price(p.option, p.price, shop.currency)) for p in build.parts}
        return found

    def _offer(self, option: Option, vehicle: Vehicle, parts: dict[str, tuple[float | None, str]]) -> Offer:
        fits = option.id in parts
        needs: tuple[Requires | NeedsOneOf, ...] = (*option.requires, *option.needs_one_of)
        mass_kg, price = parts.get(option.id, (option.mass_kg, _price(option, option.price, self.currency)))
        mass = mass_text(mass_kg, self.units)
        if not fits:  # there is no area to go by
            mass, price = BY_AREA if layered(option) else mass, BY_AREA if option.area_price_per_m2 else price
        figures = render(
            "option_figures",
            mass=mass,
            price=price,
            labour=show(option.labour_h, "work_h", self.units),
            each=option.most > 1,
        )
        body = self._body(option, vehicle, fits, needs)
        return Offer(option.id, body, figures, option.most, fits, option.name, needs)

    def _body(self, option: Option, vehicle: Vehicle, fits: bool, needs: tuple[Requires | NeedsOneOf, ...]) -> Markup:
        """Name, summary, and what goes with it: these needs, and what it cannot be with."""
        requires = [n for n in needs if isinstance(n, Requires)]
        goes_with = [f"Needs {self._some(ids)}: {why}" for why, ids in _by_reason(requires)]
        goes_with += [f"Needs {self._one_of(n.options)}: {n.because}" for n in needs if isinstance(n, NeedsOneOf)]
        ruled_out = self._ruled_out[option.id].values()
        goes_with += [f"Not with {self._some(ids)}: {why}" for why, ids in _by_reason(ruled_out)]
        return render(
            "option_body",
            id=option.id,
            name=option.name,
            summary=option.summary or "",
            unfit="" if fits else f"Not for the {vehicle.name}.",
            goes_with=tuple(goes_with),
            lead=show(option.lead_time_d, "d", self.units) if option.lead_time_d else "",
        )

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


def _price(option: Option, price: Decimal, currency: str) -> str:
    """What one costs: to the cent where the workshop says so, rounded where an area has made it."""
    return money(price, currency) if option.area_price_per_m2 else money_of_one(price, currency)


def _named(need: Requires | NeedsOneOf) -> tuple[str, ...]:
    """The options any one of which meets a need."""
    return (need.option,) if isinstance(need, Requires) else need.options


def _ruled_out(options: Iterable[Option]) -> dict[str, dict[str, Excludes]]:
    """What each option cannot come along with, whichever of the two says so; its own reason counts."""
    every = tuple(options)
    found = {o.id: {x.option: x for x in o.excludes} for o in every}
    for o in every:
        for x in o.excludes:
            found.get(x.option, {}).setdefault(o.id, Excludes(option=o.id, because=x.because))
    return found


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
