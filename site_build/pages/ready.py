"""Finished vehicles for sale: each with the engine's own figures and findings for the trip it is meant for."""

from __future__ import annotations

from html import escape

from engine.build import Resolver
from engine.catalogue.workshop import Catalogue, ReadyBuild
from engine.desk import ready_enquiry, set_scene
from engine.sheets.bar import WORST_AXLE, worst_axle
from engine.sheets.figure_text import figure_texts
from engine.sheets.price_words import price_label
from engine.sheets.trip import summary as trip_sentence
from engine.sheets.view import GRAVITY, MARKS, Scene
from engine.units import money
from site_build.pages.markdown import front, paragraphs, table, text

_OF_MASS = ("payload_left_kg", "front_axle_left_kg", "rear_axle_left_kg")
_STATUS = {"for-sale": "For sale", "reserved": "Reserved", "sold": "Sold"}


def ready_pages(catalogue: Catalogue, resolver: Resolver) -> dict[str, str]:
    """`ready/index.md` and one page for each finished vehicle."""
    pages = {}
    rows = []
    for ready in catalogue.ready:
        scene = set_scene(resolver, ready_enquiry(catalogue, ready))
        pages[f"ready/{ready.id}.md"] = _page(catalogue, ready, scene)
        rows.append(
            (
                f"[{text(ready.name)}]({ready.id}.md)",
                text(catalogue.vehicles_by_id[ready.vehicle].name),
                _STATUS[ready.status],
                money(ready.price, catalogue.workshop.currency),
            )
        )
    words = (
        table(("Vehicle", "Base", "Status", price_label(catalogue.workshop)), rows)
        if rows
        else "None at the moment. [Put one together](../configurator/index.md)."
    )
    pages["ready/index.md"] = front("Finished vehicles") + f"# Finished vehicles\n\n{words}\n"
    return pages


def _page(catalogue: Catalogue, ready: ReadyBuild, scene: Scene) -> str:
    currency = catalogue.workshop.currency
    figures = figure_texts(scene)
    shown = [(price_label(catalogue.workshop), money(ready.price, currency)), ("Status", _STATUS[ready.status])]
    axle, _ = worst_axle(scene.figures.mass)
    for key, label in (
        ("payload_left_kg", "Payload left"),
        (f"{axle}_axle_left_kg", WORST_AXLE),
        ("off_grid_d", "Days off the grid"),
        ("held_degc", "Coldest night held"),
        ("fresh_water_d", "Days of water"),
    ):
        value = f"{figures[key]}, {axle}" if label == WORST_AXLE else figures[key]
        lacking = key in _OF_MASS and scene.figures.mass.not_stated
        shown.append((label, f"{value}, without parts of unknown mass" if lacking else value))
    own = ready.trip.model_fields_set
    meant = "it is meant for" if own else f"buyers of {text(catalogue.workshop.name)} usually have in mind"
    parts = [
        front(ready.name),
        f"# {text(ready.name)}\n\n{paragraphs(ready.summary)}\n",
        '<div class="facts">' + "".join(f"<p>{escape(a)}<b>{escape(b)}</b></p>" for a, b in shown) + "</div>\n",
        f'<p class="way"><a href="../../configurator/#{scene.link}">Try it with your own trip</a></p>\n',
        f"The figures are for the trip that {meant}: {text(trip_sentence(scene))}\n",
        "## What to know about it\n",
    ]
    told = sorted((f for f in scene.findings if f.verdict != "ok"), key=lambda f: -GRAVITY[f.verdict])
    parts += [
        f"- **{MARKS[f.verdict].word}**: [{text(f.title)}](../handbook/{f.rule}.md). {text(f.cause)} {text(f.remedy)}\n"
        for f in told
    ]
    passed = sum(f.verdict == "ok" for f in scene.findings)
    parts.append(f"\n{passed} other checks are ok.\n\n## What is in it\n")
    base = catalogue.vehicles_by_id[ready.vehicle]
    parts.append(f"Base vehicle: [{text(base.name)}](../catalogue/vehicles.md#{base.id})\n")
    for section in catalogue.sections:
        chosen = [(o, ready.options[o.id]) for o in section.options if o.id in ready.options]
        if chosen:
            parts.append(f"**{text(section.title)}**\n")
            parts.append(
                "".join(
                    f"- [{text(o.name)}](../catalogue/{section.id}.md#{o.id})" + (f" × {n}" if n > 1 else "") + "\n"
                    for o, n in chosen
                )
            )
    return "\n".join(parts)
