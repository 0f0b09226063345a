"""The builders' part on the page: folded at first, follows each pick without folding, readable on a telephone."""

import re
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Browser, Page, expect

from engine.desk import set_scene
from engine.enquiry.door import from_link
from engine.sheets.page import fragments
from site_build.serve import SiteServer
from tests.browser.conftest import READY, served, until
from tests.shops import resolver

MEETING = """() => [...document.querySelectorAll(".one-line")].flatMap((svg) => {
  const words = [...svg.querySelectorAll("text")].map((t) => [t.textContent, t.getBoundingClientRect()]);
  const box = svg.getBoundingClientRect();
  const out = words.filter(([, r]) => r.left < box.left - 1 || r.right > box.right + 1).map(([t]) => `outside: ${t}`);
  for (const [i, [one, a]] of words.entries())
    for (const [other, b] of words.slice(i + 1))
      if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5
        && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 2.5)
        out.push(`${one} on ${other}`);
  return out;
})"""
LETTERS_PX = """() => Math.min(...[...document.querySelectorAll(".one-line text:not(.in)")].map((t) =>
  parseFloat(getComputedStyle(t).fontSize) * t.getScreenCTM().a))"""


def cells(html: str) -> list[str]:
    """Cable and protection of every circuit in a schedule."""
    return [
        " ".join(re.sub(r"<[^>]+>", "", c).split()) for c in re.findall(r'data-l="(?:Cable|Protection)">([^<]*)<', html)
    ]


def opened(chromium: Browser, address: str, width: int, height: int) -> Page:
    """The configurator, answered by the engine."""
    page = chromium.new_context(viewport={"width": width, "height": height}).new_page()
    page.goto(f"{address}configurator/")
    page.wait_for_selector(READY)
    return page


def test_the_schedule_follows_a_pick(sites: Callable[[str], Path], chromium: Browser) -> None:
    with served(SiteServer(sites("quillback"))) as server:
        page = opened(chromium, server.address, 1280, 900)
        plan = page.locator("#wiring-plan")
        expect(plan).to_be_hidden()
        page.locator("#wiring > summary").click()
        expect(plan).to_be_visible()
        before = cells(plan.inner_html())
        page.locator("#opt-inverter-charger-24v-5000 input[type=radio]").check()
        until(
            page, "location.hash.length > 1 && document.querySelector('#wiring-plan').textContent.includes('5,000 W')"
        )
        expect(plan).to_be_visible()
        after = cells(plan.inner_html())
        asked = from_link(page.evaluate("location.hash"))
        assert asked.options.get("inverter-charger-24v-5000") == 1
        assert after == cells(fragments(set_scene(resolver("quillback"), asked))["wiring-plan"])
        assert after != before
        assert page.evaluate(MEETING) == []
        page.context.close()


def test_on_a_telephone_nothing_is_cut_off(sites: Callable[[str], Path], chromium: Browser) -> None:
    with served(SiteServer(sites("quillback"))) as server:
        page = opened(chromium, server.address, 390, 844)
        page.locator("#wiring > summary").click()
        expect(page.locator("#wiring-plan")).to_be_visible()
        assert page.evaluate(MEETING) == []
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        assert page.evaluate(LETTERS_PX) >= 9.5
        page.context.close()
