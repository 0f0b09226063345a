"""What is said of a missing thing stands in the chapter that sells it, and what wants it points there."""

from functools import cache

import pytest

from engine.build import work_out
from engine.enquiry.climate import load_places
from engine.rules import judge
from engine.sheets.book import book_of
from engine.sheets.chapters import gravest_by_chapter
from engine.sheets.notes import place
from engine.sheets.view import GRAVITY
from tests.rules.test_examples import facet_kinds
from tests.sheets.reading import read_html
from tests.shops import catalogue, enquiry, resolver

SHOPS = ("hallamoor", "quillback")


@cache
def findings_without(shop, ready, kinds):
    """Findings on a ready build without every option that has one of these facets."""
    out = {i: 0 for i, (_, o) in catalogue(shop).options_by_id.items() if {f.kind for f in o.facets} & set(kinds)}
    build = resolver(shop).resolve(enquiry(shop, ready=ready, options=out))
    return judge(build, work_out(build))


def book(shop):
    shown = catalogue(shop)
    return book_of(shown, load_places()[shown.workshop.trip.place])


@pytest.mark.parametrize(
    ("shop", "ready", "kinds", "rule", "chapter", "pointing"),
    [
        ("hallamoor", "dry-stone", ("space-heater",), "heater-capacity", "heating", ""),
        ("quillback", "long-winter-box", ("space-heater",), "heater-capacity", "heating", ""),
        ("hallamoor", "dry-stone", ("insulation-layer",), "condensation-surfaces", "insulation", "diesel-2"),
        ("hallamoor", "dry-stone", ("fresh-tank",), "fresh-water-days", "water", "washroom-van"),
        ("hallamoor", "dry-stone", ("fresh-tank",), "taps-fed", "water", "washroom-van"),
        ("hallamoor", "dry-stone", ("pump",), "taps-fed", "water", "washroom-van"),
        ("hallamoor", "dry-stone", ("battery",), "taps-fed", "battery", "washroom-van"),
        ("hallamoor", "dry-stone", ("grey-tank",), "waste-water-kept", "water", "washroom-van"),
        ("hallamoor", "dry-stone", ("gas-store",), "gas-days", "gas", "hob-gas"),
        ("hallamoor", "dry-stone", ("gas-locker",), "gas-locker", "gas", "cylinder-6-light"),
        ("hallamoor", "dry-stone", ("fixed-vent",), "fixed-vents", "gas", "hob-gas"),
        ("hallamoor", "dry-stone", ("water-heater",), "shower-hot", "hot-water", ""),
        ("hallamoor", "dry-stone", ("battery",), "energy-days", "battery", "panel-200"),
        ("hallamoor", "dry-stone", ("inverter",), "mains-loads-fed", "inverter", "microwave"),
        ("hallamoor", "dry-stone", ("solar-controller",), "solar-controller", "charging", "panel-200"),
        ("quillback", "long-winter-box", ("converter",), "dc-voltage", "wiring-lighting", "antenna-dome"),
        ("quillback", "two-up-van", ("mains-protection",), "shore-inlet-protected", "wiring-lighting", ""),
    ],
)  # fmt: skip
def test_a_missing_thing_is_told_where_it_is_sold(shop, ready, kinds, rule, chapter, pointing):
    findings = findings_without(shop, ready, kinds)
    placed = place(findings, book(shop), handbook=True)
    anchor = placed.anchors[rule]
    assert f'id="{anchor}"' in placed.heads[chapter].html
    mark, said = gravest_by_chapter(book(shop), placed)[chapter], {f.verdict for f in findings if f.rule == rule}
    assert GRAVITY[mark] >= max(GRAVITY[v] for v in said) > 0
    if pointing:
        pointers = read_html(placed.beside[pointing].html).of_class("pointer")
        assert f"#{anchor}" in [p.all("a")[0].get("href") for p in pointers]


@pytest.mark.parametrize("shop", SHOPS)
def test_nothing_is_called_missing_that_is_there(shop):
    shown, seen = catalogue(shop), set()
    for ready in shown.ready:
        for kind in sorted({f.kind for _, o in shown.options_by_id.values() for f in o.facets}):
            for f in findings_without(shop, ready.id, (kind,)):
                if not f.lacks:
                    continue
                assert f.lacks in facet_kinds()
                there = {x.kind for i in f.options for x in shown.options_by_id[i][1].facets}
                assert f.lacks not in there, f
                seen.add(f.rule)
    assert "heater-capacity" in seen and len(seen) >= 10
