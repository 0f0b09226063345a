"""A page that opens untouched shows what the site build worked out, and goes on showing it while the engine wakes."""

from __future__ import annotations

from playwright.sync_api import Page

from engine.desk import set_scene, start_enquiry
from engine.document import figures_document
from engine.enquiry.door import to_link
from tests.at_rest import rest
from tests.browser.conftest import DONE, READY, until
from tests.browser.test_same_numbers import differences
from tests.shops import catalogue, resolver

WATCHING = """
window.unsettled = 0;
document.addEventListener("loadstead:later", (e) => { if (e.detail.figures) window.told = e.detail; });
document.addEventListener("DOMContentLoaded", () => new MutationObserver(() => {
  if (document.getElementById("configurator").textContent.includes("working it out")) window.unsettled += 1;
}).observe(document.getElementById("configurator"), { childList: true, subtree: true, characterData: true }));
"""


def test_nothing_flickers_and_the_engine_agrees(page: Page, address: str) -> None:
    page.add_init_script(WATCHING)
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    before = page.text_content("#energy"), page.text_content("#bar")
    until(page, DONE)
    assert page.evaluate("unsettled") == 0
    assert (page.text_content("#energy"), page.text_content("#bar")) == before
    assert page.evaluate("location.hash") == ""
    scene = set_scene(resolver("quillback"), start_enquiry(catalogue("quillback")))
    assert differences(figures_document(scene.figures), page.evaluate("told.figures")) == []
    # The first pick is an answer like any other.
    page.locator(".months input[value='12']").click()
    until(page, "location.hash !== ''")
    until(page, DONE)
    assert page.evaluate("unsettled") > 0


def test_a_build_from_a_link_is_read_from_its_beginning(page: Page, address: str) -> None:
    """Faults make the verdict long, and what is below it gives way, not the beginning."""
    asked = start_enquiry(catalogue("quillback"))
    heavy = asked.model_copy(update={"trip": asked.trip.model_copy(update={"baggage_kg": 1500.0, "months": (7,)})})
    page.goto(f"{address}configurator/#{to_link(heavy)}")
    page.wait_for_selector(READY)
    until(page, DONE)
    rest(page, "#verdict")
    assert page.locator("#verdict .stand a").count() > 3
    assert page.evaluate("scrollY") == 0
