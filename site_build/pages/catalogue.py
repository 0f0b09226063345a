"""The catalogue on paper, so to speak: one page per chapter, one per base vehicle, from the workshop's own files."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from engine.catalogue.section import Option, Section
from engine.catalogue.vehicle import Vehicle
from engine.catalogue.workshop import Catalogue
from engine.sheets.book import BY_AREA, layered
from engine.sheets.price_words import price_label, price_terms
from engine.sheets.view import NOT_STATED
from engine.spelling import spelled
from engine.units import SYSTEMS, System, day_words, money, money_of_one
from site_build.pages.amounts import amount
from site_build.pages.facts import facet_lines, kind_text
from site_build.pages.markdown import front, paragraphs, table, text


def catalogue_pages(catalogue: Catalogue) -> dict[str, str]:
    """`catalogue/index.md`, one page for each chapter and one for the base vehicles."""
    pages = {"catalogue/index.md": _index(catalogue), "catalogue/vehicles.md": _vehicles(catalogue)}
    for section in catalogue.sections:
        pages[f"catalogue/{section.id}.md"] = _chapter(catalogue, section)
    return pages


def chapter_titles(catalogue: Catalogue) -> list[tuple[str, str]]:
    """Title and path of every catalogue page, in reading order."""
    titled = [(section.title, f"catalogue/{section.id}.md") for section in catalogue.sections]
    return [("Overview", "catalogue/index.md"), ("Base vehicles", "catalogue/vehicles.md"), *titled]


def _index(catalogue: Catalogue) -> str:
    rows = [
        (f"[{text(s.title)}]({s.id}.md)", str(len(s.options)), "one" if s.pick == "one" else "any")
        for s in catalogue.sections
    ]
    shop = catalogue.workshop
    return (
        front("Catalogue") + f"# Catalogue\n\nWhat {text(shop.name)} builds in. {text(price_terms(shop))} "
        "[Base vehicles](vehicles.md) have a page of their own.\n\n"
        + table(("Chapter", "Options", "Choose"), rows)
        + f"\n\nCatalogue of {day_words(catalogue.dated, catalogue.workshop.units)}.\n"
    )


def _chapter(catalogue: Catalogue, section: Section) -> str:
    parts = [front(section.title), f"# {text(section.title)}\n"]
    if section.intro:
        parts.append(paragraphs(section.intro) + "\n")
    if section.pick == "one":
        parts.append("One of these is chosen.\n")
    parts.append(text(price_terms(catalogue.workshop)) + "\n")
    rows = [
        (f"[{text(o.name)}](#{o.id})", *_figures(o, catalogue.workshop.units, catalogue.workshop.currency))
        for o in section.options
    ]
    head = ("Option", "Price", "Mass", spelled("Labour", catalogue.workshop.units), "Wait")
    parts.append(table(head, rows) + "\n")
    parts += [_option(catalogue, section, option) for option in section.options]
    return "\n".join(parts)


def _figures(option: Option, units: System, currency: str) -> tuple[str, ...]:
    price = money_of_one(option.price, currency)
    if option.area_price_per_m2:
        area = SYSTEMS[units]["m2"]
        price += f" + {money(option.area_price_per_m2 / Decimal(str(area.factor)), currency, 2)}/{area.unit}"
    unweighed = BY_AREA if layered(option) else NOT_STATED
    mass = unweighed if option.mass_kg is None else amount(option.mass_kg, "kg", units)
    wait = amount(option.lead_time_d, "d", units) if option.lead_time_d else "–"
    # In a narrow column a number stays with its unit.
    return price, *(said.replace(" ", "\u00a0") for said in (mass, amount(option.labour_h, "work_h", units), wait))


def _option(catalogue: Catalogue, section: Section, option: Option) -> str:
    units: System = catalogue.workshop.units
    parts = [f"## {text(option.name)} {{#{option.id}}}\n"]
    if option.summary:
        parts.append(paragraphs(option.summary) + "\n")
    tolerance = section.mass_tolerance_frac if option.mass_tolerance_frac is None else option.mass_tolerance_frac
    lines = [("sits in", option.place.replace("-", " "))]
    if option.mass_kg is not None or layered(option):
        lines.append(("mass is known within", f"{tolerance * 100:.3g} %"))
    if option.most > 1:
        lines.append(("at most", str(option.most)))
    if option.fits:
        names = (catalogue.vehicles_by_id[v].name for v in option.fits)
        lines.append(("only for", ", ".join(names)))
    parts.append(_list(lines))
    for facet in option.facets:
        if lines := list(facet_lines(facet, units)):
            parts.append(f"**{text(spelled(kind_text(facet), units))}**\n\n" + _list(lines))
    parts.append(_relations(catalogue, option))
    if option.source:
        parts.append(f"Figures: {text(option.source)}.\n")
    return "\n".join(part for part in parts if part)


def _list(lines: Sequence[tuple[str, str]]) -> str:
    return "".join(f"- {text(meaning)}: {text(value)}\n" for meaning, value in lines)


def _relations(catalogue: Catalogue, option: Option) -> str:
    def link(option_id: str) -> str:
        section, other = catalogue.options_by_id[option_id]
        return f"[{text(other.name)}]({section.id}.md#{other.id})"

    lines = [f"- needs {link(r.option)}: {text(r.because)}" for r in option.requires]
    lines += [f"- not with {link(x.option)}: {text(x.because)}" for x in option.excludes]
    lines += [f"- needs one of {', '.join(map(link, n.options))}: {text(n.because)}" for n in option.needs_one_of]
    return "**Goes with**\n\n" + "\n".join(lines) + "\n" if lines else ""


def _vehicles(catalogue: Catalogue) -> str:
    units: System = catalogue.workshop.units
    parts = [front("Base vehicles"), "# Base vehicles\n"]
    for vehicle in catalogue.vehicles:
        parts.append(f"## {text(vehicle.name)} {{#{vehicle.id}}}\n\n{paragraphs(vehicle.summary)}\n")
        if vehicle.price is not None:
            parts.append(f"{price_label(catalogue.workshop)}: {money(vehicle.price, catalogue.workshop.currency)}\n")
        parts.append(table(("Figure", "Value"), _vehicle_rows(vehicle, units)) + "\n")
        parts.append(f"Masses: {text(vehicle.masses.source)}.\n")
        if vehicle.assumed:
            parts.append("Estimates:\n\n" + "".join(f"- {text(line)}\n" for line in vehicle.assumed))
    return "\n".join(parts)


def _vehicle_rows(vehicle: Vehicle, units: System) -> list[tuple[str, str]]:
    masses = vehicle.masses
    rows = [
        (
            "length × width × height",
            " × ".join(amount(v, "m", units) for v in (vehicle.length_m, vehicle.width_m, vehicle.height_m)),
        ),
        ("wheelbase", amount(vehicle.wheelbase_m, "m", units)),
        ("rear wheels", "twin" if vehicle.twin_rear_wheels else "single"),
        ("as delivered", amount(masses.empty_front_kg + masses.empty_rear_kg, "kg", units)),
    ]
    for name in ("gross_kg", "front_axle_rating_kg", "rear_axle_rating_kg"):
        meaning = type(masses).model_fields[name].description or name
        rows.append((meaning, amount(getattr(masses, name), "kg", units)))
    cabin = vehicle.cabin
    inside = " × ".join(amount(v, "m", units) for v in (cabin.length_m, cabin.width_m, cabin.height_m))
    rows += [
        ("inside length × width × height", inside),
        ("usable roof", f"{amount(vehicle.roof.length_m, 'm', units)} × {amount(vehicle.roof.width_m, 'm', units)}"),
        ("seats with belts", str(len(vehicle.seats))),
    ]
    return [(text(name), text(value)) for name, value in rows]
