"""The page of a finished vehicle shows it on the trip it is meant for, and so does the configurator opened from it."""

import re

import pytest

from engine.catalogue.trip import TripPart
from engine.enquiry.door import from_link
from site_build.pages.ready import ready_pages
from tests.shops import catalogue, enquiry, quick_scene, resolver

LINK = re.compile(r"configurator/#([\w-]+)")


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_finished_vehicles_hold_what_their_makers_say(shop: str) -> None:
    shown = catalogue(shop)
    pages = ready_pages(shown, resolver(shop))
    for ready in shown.ready:
        page = pages[f"ready/{ready.id}.md"]
        assert "for the trip that it is meant for: 2 grown-ups" in page
        assert "**fails**" not in page and "**not known**" not in page, ready.id
        link = LINK.search(page)
        assert link
        opened = from_link(link[1])
        assert opened.trip == ready.trip.over(shown.workshop.trip)
        assert opened.options == ready.options


def test_a_vehicle_for_two_is_not_judged_by_the_usual_family() -> None:
    pages = ready_pages(catalogue("quillback"), resolver("quillback"))
    assert "2 grown-ups; Mount Shasta in April to October;" in pages["ready/two-up-van.md"]
    assert "2 grown-ups, 1 pet; Greensboro in May to September;" in pages["ready/sun-porch-bus.md"]
    assert "2 grown-ups, 1 child, 1 pet; Denver in February and March;" in pages["ready/long-winter-box.md"]
    family = {
        id_: {
            f.rule
            for f in quick_scene(resolver("quillback"), enquiry("quillback", ready=id_)).findings
            if f.verdict == "fails"
        }
        for id_ in ("two-up-van", "sun-porch-bus")
    }
    assert family == {"two-up-van": {"belted-seats", "berths"}, "sun-porch-bus": {"belted-seats", "gas-days"}}


def test_a_vehicle_without_a_trip_of_its_own_is_shown_on_the_usual_one() -> None:
    shown = catalogue("hallamoor")
    plain = shown.ready[0].model_copy(update={"trip": TripPart()})
    page = ready_pages(shown.model_copy(update={"ready": (plain,)}), resolver("hallamoor"))[f"ready/{plain.id}.md"]
    assert "for the trip that buyers of Hallamoor Fitters usually have in mind: 2 grown-ups; London" in page


@pytest.mark.parametrize(("shop", "words"), [("quillback", "Price before sales tax"), ("hallamoor", "Price with VAT")])
def test_an_asking_price_says_whether_tax_is_in_it(shop: str, words: str) -> None:
    pages = ready_pages(catalogue(shop), resolver(shop))
    assert len(pages) == 4 and all(words in page for page in pages.values())
    assert not any(re.search(r"[Pp]rice (with|before) tax", page) for page in pages.values())


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_an_asking_price_is_near_what_its_parts_and_work_come_to(shop: str) -> None:
    # A price that has tax in it, held against one without, would differ by the tax.
    for ready in catalogue(shop).ready:
        money = quick_scene(resolver(shop), enquiry(shop, ready=ready.id)).figures.money
        listed = money.total if catalogue(shop).workshop.tax.in_prices else money.total - money.tax
        assert float(ready.price) == pytest.approx(float(listed), rel=0.04)
