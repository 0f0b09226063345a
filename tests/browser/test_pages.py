"""The pages round the configurator: formulas fit on a telephone, and the words of the trade find their pages."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import until

# How far the widest part of each formula, and the page itself, reach beyond what is seen of them.
BEYOND = """() => [...document.querySelectorAll(".formula, .formula pre, .formula code"), document.documentElement]
  .map((e) => e.scrollWidth - e.clientWidth)"""

LINKS = "[...document.querySelectorAll('.md-search-result__link')]"


def test_no_formula_is_cut_off_on_a_telephone(chromium: Browser, address: str, site: Path) -> None:
    """390 CSS pixels, as many telephones have."""
    page = chromium.new_page(viewport={"width": 390, "height": 800})
    checks = sorted(path.parent.name for path in site.glob("handbook/*/index.html"))
    assert len(checks) > 100
    for check in checks:
        page.goto(f"{address}handbook/{check}/")
        beyond = page.evaluate(BEYOND)
        assert len(beyond) == 4, check
        assert max(beyond) <= 0, (check, beyond)
    page.close()


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("GFCI", "handbook/shore-inlet-protected/"),
        ("RCD", "handbook/shore-inlet-protected/"),
        ("PWM", "handbook/string-current-hot/"),
        ("MPPT", "catalogue/roof-solar/"),
        ("GVWR", "catalogue/vehicles/"),
        ("GAWR", "catalogue/vehicles/"),
        ("tire", "handbook/tyre-load/"),
        ("wrench", "safety/"),
        ("LFP", "catalogue/battery/"),
        ("12.8", "catalogue/battery/"),
    ],
)
def test_a_word_of_the_trade_finds_its_page(page: Page, address: str, words: str, found: str) -> None:
    page.goto(address + "method/")
    page.click(".md-search__input")
    page.keyboard.type(words)
    # Each letter typed is searched for; the last result is the one that counts.
    until(page, f"{LINKS}.some((a) => a.pathname === '/{found}')")
