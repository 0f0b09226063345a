"""The browser's figures are the terminal's figures: the same engine in two Pythons, compared number by number."""

import json
import math
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page

from engine.desk import set_scene
from engine.document import figures_document
from engine.enquiry.climate import load_places
from engine.enquiry.door import check_enquiry, to_link
from engine.enquiry.model import Enquiry
from site_build.serve import SiteServer
from tests.browser.conftest import DONE, READY, served, until
from tests.shops import catalogue, enquiry, quick_scene, resolver

LISTENING = "window.answers = []; document.addEventListener('loadstead:answer', (e) => window.answers.push(e.detail));"
BUILDS = 16
"""Random builds for each demo workshop."""


def random_enquiry(shop: str, seed: int) -> Enquiry:
    """Any vehicle, a handful to most options, any trip; the same for the same seed."""
    chance = random.Random(seed)
    shown = catalogue(shop)
    vehicle = chance.choice(shown.vehicles)
    ids = sorted(shown.options_by_id)
    chosen = chance.sample(ids, chance.randint(3, min(60, len(ids))))
    counts = {i: chance.randint(1, shown.options_by_id[i][1].most) for i in chosen}
    return enquiry(
        shop,
        vehicle.id,
        counts,
        place=chance.choice(sorted(load_places())),
        months=tuple(sorted(chance.sample(range(1, 13), chance.randint(1, 5)))),
        adults=chance.randint(1, 4),
        children=chance.randint(0, 3),
        days_off_grid_d=float(chance.randint(1, 14)),
        driving_h=chance.choice((0.0, 1.0, 2.5)),
        inside_degc=float(chance.randint(12, 22)),
        cooling=chance.random() < 0.5,
        baggage_kg=float(chance.randint(20, 300)),
    )


def expected(shop: str, asked: Enquiry, answer: dict[str, Any]) -> tuple[dict[str, Any], list[list[str]]]:
    """Figures and verdicts from CPython, by as much of the slow figures as the answer rests on."""
    known = answer["figures"]["off_grid_seen_d"]["value"] is not None
    scene = (quick_scene if answer["later"] and not known else set_scene)(resolver(shop), asked)
    figures = figures_document(scene.figures)
    if answer["later"]:
        figures["sun_alone_frac"] = answer["figures"]["sun_alone_frac"]  # comes later than the trip
    return figures, [[f.rule, f.verdict] for f in scene.findings]


def differences(here: dict[str, Any], there: dict[str, Any]) -> list[str]:
    """Figures that are not the same number. Both Pythons use IEEE doubles; their mathematics libraries may differ in
    the last place of sin or exp, so a relative difference of 1e-12 is allowed and no more."""
    assert here.keys() == there.keys()
    found = []
    for key, mine in here.items():
        theirs = there[key]
        assert mine.keys() == theirs.keys(), key
        for part in mine.keys() - {"unit"}:
            a, b = mine[part], theirs[part]
            same = a == b if a is None or b is None else math.isclose(a, b, rel_tol=1e-12, abs_tol=1e-12)
            if not same:
                found.append(f"{key}.{part}: {a} here, {b} in the browser")
    return found


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_random_builds_give_the_same_figures_and_verdicts(
    shop: str, sites: Callable[[str], Path], context: BrowserContext
) -> None:
    page = context.new_page()
    page.add_init_script(LISTENING)
    with served(SiteServer(sites(shop))) as server:
        page.goto(server.address + "configurator/")
        page.wait_for_selector(READY)
        compared = 0
        for seed in range(BUILDS):
            asked = random_enquiry(shop, seed)
            page.evaluate("window.answers.length = 0")
            page.evaluate("(link) => { location.hash = link }", to_link(asked))
            until(page, "answers.length > 0")
            answer = page.evaluate("answers.at(-1)")
            figures, verdicts = expected(shop, asked, answer)
            assert not differences(figures, answer["figures"]), f"seed {seed}"
            assert answer["verdicts"] == verdicts, f"seed {seed}"
            compared += 1
        assert compared == BUILDS


def test_picks_on_the_page_give_the_figures_of_what_was_picked(configurator: Page) -> None:
    """Clicks on the real controls; the enquiry that the page then shows is worked out once more in CPython."""
    page = configurator
    page.evaluate("for (const d of document.querySelectorAll('#configurator details')) d.open = true")
    chance = random.Random(7)
    seen = set()
    for _ in range(14):
        boxes = page.locator(
            "#configurator :is(input[type=checkbox][name=opt], input[type=radio]):not([disabled]):not(:checked)"
        )
        before = page.evaluate("answers.length")
        boxes.nth(chance.randrange(boxes.count())).evaluate("(box) => box.click()")
        until(page, f"answers.length > {before}")
        answer = page.evaluate("answers.at(-1)")
        asked = check_enquiry(answer["enquiry"])
        figures, verdicts = expected("quillback", asked, answer)
        assert not differences(figures, answer["figures"])
        assert answer["verdicts"] == verdicts
        seen.add(json.dumps(answer["figures"], sort_keys=True))
    assert len(seen) > 7, "picks should change figures"


def test_what_is_on_the_screen_is_what_was_answered(configurator: Page) -> None:
    """After any number of picks the page equals a page drawn from nothing for the same build."""
    page = configurator
    page.evaluate("for (const d of document.querySelectorAll('#configurator details')) d.open = true")
    chance = random.Random(11)
    for _ in range(8):
        boxes = page.locator("#configurator input[type=checkbox][name=opt]:not([disabled])")
        before = page.evaluate("answers.length")
        boxes.nth(chance.randrange(boxes.count())).evaluate("(box) => box.click()")
        until(page, f"answers.length > {before}")
    until(page, DONE)
    # Notes that came with a pick arrive folded.
    page.evaluate("for (const d of document.querySelectorAll('#configurator details')) d.open = true")
    # All text there is: what the browser saves itself the rendering of counts too.
    shown = page.locator("#configurator").text_content()
    checked = page.evaluate("[...document.querySelectorAll('#configurator :checked')].map((e) => e.id).sort()")
    page.reload()
    page.wait_for_selector(READY)
    until(page, DONE)
    page.evaluate("for (const d of document.querySelectorAll('#configurator details')) d.open = true")
    assert page.locator("#configurator").text_content() == shown
    again = page.evaluate("[...document.querySelectorAll('#configurator :checked')].map((e) => e.id).sort()")
    assert again == checked
