"""Price, parts and assumptions."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from markupsafe import Markup

from engine.build import Part
from engine.build.gas import FUEL_FOR_HEAT_FRAC
from engine.build.mass_items import ADULT_KG, ADULT_SOURCE, CHILD_KG, OTHER_SOURCE, PET_KG, UNLISTED
from engine.build.mass_weighed import Weighed
from engine.build.warmth import LIVING_FURNITURE_FRAC
from engine.sheets.book import Book
from engine.sheets.notes import Margin, fact_text
from engine.sheets.price_words import labour_rate
from engine.sheets.templates import joined, render
from engine.sheets.view import Scene, mass_text
from engine.spelling import begun, spelled
from engine.units import System, money, plain, show


class PriceLine(NamedTuple):
    """One line of the price."""

    name: str
    amount: str
    total: bool = False


def price_lines(scene: Scene) -> tuple[PriceLine, ...]:
    """From the base vehicle to the total, in the order a quotation has."""
    shop, cash = scene.build.workshop, scene.figures.money
    vehicle = "yours" if cash.vehicle is None else money(cash.vehicle, shop.currency)
    hours = f"{show(cash.labour_h, 'work_h', shop.units)} at {labour_rate(shop)}"
    labour = f"{spelled('Labour', shop.units)}, {hours}"
    tax = f"{'Of which' if shop.tax.in_prices else 'Plus'} {shop.tax.name}, {plain(shop.tax.rate_frac * 100, 2)} %"
    return (
        PriceLine("Base vehicle", vehicle),
        PriceLine("Parts", money(cash.parts, shop.currency)),
        PriceLine(labour, money(cash.labour, shop.currency)),
        PriceLine(tax, money(cash.tax, shop.currency)),
        PriceLine("Total with tax", money(cash.total, shop.currency), total=True),
    )


@lru_cache(maxsize=512)
def price(lines: tuple[PriceLine, ...], lead_time: str, margin: Margin) -> Markup:
    """The price table, ``price``."""
    return render("price", lines=lines, lead_time=lead_time, margin=margin)


def part_rows(scene: Scene, book: Book) -> tuple[Markup, ...]:
    """One line for each chosen option."""
    vehicle = scene.build.vehicle.id
    drawn = book.part_rows
    rows = []
    for p in scene.build.parts:
        key = (vehicle, p.option.id, p.count)
        row = drawn.get(key)
        if row is None:
            row = drawn[key] = _part_row(p, book)
        rows.append(row)
    if unlisted_kg := scene.figures.mass.unlisted_kg:
        rows.append(_allowance_row(show(unlisted_kg, "kg", book.units)))
    return tuple(rows)


@lru_cache(maxsize=256)
def _allowance_row(mass: str) -> Markup:
    """What nobody lists, as the workshop allows for it; its price and hours are in the parts'."""
    return render("part", name=UNLISTED.capitalize(), count=1, mass=mass, labour="", price="")


def _part_row(part: Part, book: Book) -> Markup:
    return render(
        "part",
        name=part.option.name,
        count=part.count,
        mass=mass_text(part.mass_kg, book.units),
        labour=show(part.labour_h, "work_h", book.units),
        price=money(part.price, book.currency),
    )


@lru_cache(maxsize=512)
def parts(rows: tuple[Markup, ...], mass: str, labour: str, amount: str) -> Markup:
    """The parts list with masses, ``parts``."""
    return render("parts", rows=joined(rows), mass=mass, labour=labour, price=amount)


def assumed(scene: Scene, book: Book) -> tuple[tuple[str, str], ...]:
    """What nobody stated and the sums took: (what, value)."""
    build, units = scene.build, scene.build.workshop.units
    found: dict[str, str] = {}
    if build.trip.adult_kg is None:
        region = build.workshop.region
        source = ADULT_SOURCE.get(region, OTHER_SOURCE)
        found["Mass of a grown-up"] = f"{show(ADULT_KG[region], 'kg', units)} ({source}); state yours in the trip"
    if build.trip.children:
        found["Mass of a child"] = show(CHILD_KG, "kg", units)
    if build.trip.pets:
        found["Mass of a dog with its gear"] = show(PET_KG, "kg", units)
    if scene.figures.plan.inside.assumed:
        found["Inside of the vehicle"] = "a plain box of the cabin's size; no doors and wheel arches are stated"
    found |= _assumed_of_masses(scene)
    found["Share of the cabin that is air, the rest furniture"] = show(LIVING_FURNITURE_FRAC, "frac", units)
    if scene.figures.gas.diesel_l_d:
        found["Share of the vehicle's diesel that may be burnt for heat"] = show(FUEL_FOR_HEAT_FRAC, "frac", units)
    for f in scene.findings:
        for fact in f.facts if f.rule in book.assuming else ():
            if fact.origin == "assumed":
                found.setdefault(begun(fact.name), fact_text(fact, units, build.workshop.currency))
    return tuple(found.items())


def _assumed_of_masses(scene: Scene) -> dict[str, str]:
    build, mass, units = scene.build, scene.figures.mass, scene.build.workshop.units
    share = build.workshop.unlisted_work_frac
    counted = f"{show(share, 'frac', units)} of the parts, {show(mass.unlisted_kg, 'kg', units)}" if share else "none"
    found = {f"{UNLISTED.capitalize()} that nobody lists": counted}
    if build.vehicle.engine.fuel_x_m is None:
        found["Fuel in every load case"] = "as delivered; the tank's place is not stated"
    if mass.weighed.how:
        found["Added after weighings"] = weighed_words(mass.weighed, units)
    return found


def weighed_words(weighed: Weighed, system: System) -> str:
    """What the weighbridge taught, in a sentence's part."""
    added = show(weighed.added_kg, "kg", system)
    if weighed.how == "own":
        return f"{added}, for this very vehicle was weighed"
    if weighed.how == "akin":
        return f"{added}, as this vehicle was weighed with more in it"
    if not weighed.vehicles_count:
        return f"{added}, as other vehicles of the workshop were weighed"
    more = f"{show(abs(weighed.more_kg), 'kg', system)} {'less' if weighed.more_kg < 0 else 'more'}"
    said = "one weighed vehicle" if weighed.vehicles_count == 1 else f"{weighed.vehicles_count} weighed vehicles"
    return f"{added}; {said} of this kind came to {more} than was worked out"


@lru_cache(maxsize=256)
def assumptions(values: tuple[tuple[str, str], ...], of_vehicle: tuple[str, ...]) -> Markup:
    """The panel of assumptions, ``assumed``."""
    return render("assumed", values=values, of_vehicle=of_vehicle)
