"""The energy part in a browser: it follows every pick to the engine's own values, and no pick waits for it."""

from __future__ import annotations

import re
from typing import Any

import pytest
from playwright.sync_api import Page

from engine.desk import set_scene
from engine.document import figures_document
from engine.enquiry.door import check_enquiry
from engine.sheets.page import fragments
from tests.browser.conftest import DONE, until
from tests.browser.test_same_numbers import differences
from tests.shops import resolver

CHARTS = (
    "energy-course", "energy-hours", "energy-months", "energy-share", "energy-limit", "energy-words", "warmth-wall",
    "warmth-heat", "warmth-night", "warmth-damp",
)  # fmt: skip
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")
SECOND_SOON_AFTER_THE_FIRST = """document.addEventListener("loadstead:answer", () => {
  window.unfinished = document.getElementById("energy-months").textContent;
  setTimeout(() => {
    window.again = performance.now();
    document.querySelector('.months input[value="11"]').click();
  }, 50);
}, { once: true })"""
LISTENING = """
window.events = [];
for (const kind of ['answer', 'later'])
  document.addEventListener(`loadstead:${kind}`, (e) => events.push({ kind, at: performance.now(), ...e.detail }));
"""


def settle(page: Page) -> None:
    """Wait until no slow figure is to come for the last answer."""
    until(page, f"{DONE} && events.length > 0")


def pick(page: Page, change: str) -> None:
    """Change a control of the form and wait for all that follows."""
    page.evaluate("events.length = 0")
    page.evaluate(change)
    until(page, "events.some((e) => e.kind === 'answer')")
    settle(page)


def same_as_here(page: Page) -> dict[str, Any]:
    """The page's charts against the same engine in CPython: same words, same places to a tenth of a unit."""
    answer: dict[str, Any] = page.evaluate("events.findLast((e) => e.enquiry)")
    scene = set_scene(resolver("quillback"), check_enquiry(answer["enquiry"]))
    assert not differences(figures_document(scene.figures), answer["figures"])
    mine = fragments(scene)
    for name in CHARTS:
        there = page.evaluate("(id) => document.getElementById(id).outerHTML", name)
        here = page.evaluate(
            "(html) => { const t = document.createElement('template'); t.innerHTML = html; return "
            "t.content.firstElementChild.outerHTML }",
            str(mine[name]),
        )
        assert NUMBER.sub("#", there) == NUMBER.sub("#", here), name
        ours, theirs = (list(map(float, NUMBER.findall(x))) for x in (here, there))
        assert theirs == pytest.approx(ours, abs=0.11), name
    return answer


@pytest.fixture
def energy_page(page: Page, address: str) -> Page:
    """The configurator, settled."""
    page.add_init_script(LISTENING)
    page.goto(address + "configurator/")
    settle(page)
    return page


def test_place_month_and_load_move_the_charts_to_the_engines_values(energy_page: Page) -> None:
    page = energy_page
    seen = [page.evaluate("document.getElementById('energy-course').innerHTML")]
    same_as_here(page)
    for change in (
        "{ const s = document.getElementById('in-place'); s.value = 'aberdeen'; "
        "s.dispatchEvent(new Event('change', { bubbles: true })) }",
        "document.querySelector('.months input[value=\"12\"]').click()",
        "document.querySelector('#ch-kitchen input[type=checkbox]:not(:checked):not(:disabled)').click()",
    ):
        pick(page, change)
        answer = same_as_here(page)
        assert page.evaluate("events.at(-1).later") is False
        assert answer["figures"]["sun_alone_frac"]["value"] is not None
        seen.append(page.evaluate("document.getElementById('energy-course').innerHTML"))
    assert len(set(seen)) >= 3


def test_a_pick_during_slow_work_is_answered_first(energy_page: Page) -> None:
    page = energy_page
    page.evaluate("events.length = 0; window.beats = [performance.now()]; "
                  "(function beat() { beats.push(performance.now()); requestAnimationFrame(beat) })()")  # fmt: skip
    page.evaluate(SECOND_SOON_AFTER_THE_FIRST)
    page.evaluate("document.querySelector('.months input[value=\"12\"]').click()")
    until(page, "events.filter((e) => e.kind === 'answer').length === 2")
    first = page.evaluate("events.find((e) => e.enquiry)")
    assert first["later"] is True
    assert "working it out" in page.evaluate("unfinished")
    events = page.evaluate("events.map((e) => [e.kind, e.later, e.at - again])")
    second = next(i for i, e in enumerate(events) if e[0] == "answer" and e[2] > 0)
    # Nothing of the first pick was finished before the second was answered.
    assert not any(kind == "later" and not more for kind, more, _ in events[:second])
    settle(page)
    asked = page.evaluate("events.at(-1).enquiry.trip.months")
    assert 11 in asked and 12 in asked
    same_as_here(page)
    # The work is done in slices and elsewhere: the page itself stands still for a small part of it.
    longest, whole = page.evaluate("[Math.max(...beats.slice(1).map((b, i) => b - beats[i])), beats.at(-1) - beats[0]]")
    assert longest < whole / 3, f"the page itself stood still for {longest:.0f} ms of {whole:.0f} ms"


def test_the_reader_chooses_the_day_that_is_shown(energy_page: Page) -> None:
    page = energy_page
    course = page.evaluate("document.getElementById('energy-course').outerHTML")
    asked = page.evaluate("events.findLast((e) => e.enquiry).enquiry")
    for field, value, words in (("look-kind", "dull", "dull day in"), ("look-month", "6", "dull day in June")):
        page.evaluate("events.length = 0")
        page.select_option(f"#{field}", value)
        until(page, f"document.querySelector('#energy-hours figcaption').textContent.includes('{words}')")
        settle(page)
        assert page.evaluate("events.findLast((e) => e.enquiry).enquiry") == asked
        assert page.evaluate("(id) => document.getElementById(id).value", field) == value
    # The day is no part of the build.
    assert page.evaluate("document.getElementById('energy-course').outerHTML") == course
