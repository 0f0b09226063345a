"""A choice that a hand is about to make is worked out ahead: its answer is there at once, and the same as any other."""

from __future__ import annotations

import random
from typing import Any

import pytest
from playwright.sync_api import Locator, Page

from engine.desk import set_scene
from engine.document import figures_document
from engine.enquiry.door import from_link, to_link
from tests.at_rest import bring
from tests.browser.conftest import DONE, READY, SLOW_ANSWERS, until
from tests.browser.test_same_numbers import differences
from tests.shops import resolver

WATCHING = """() => {
  window.moments = [];
  for (const kind of ["answer", "later"]) {
    document.addEventListener(`loadstead:${kind}`, (e) => { window.told = e.detail.figures ?? window.told; });
  }
  const bar = () => document.getElementById("bar").textContent;
  document.addEventListener("loadstead:seen", () => moments.push(["seen", bar()]));
  document.addEventListener("loadstead:answer", () => moments.push(["answer", bar()]));
  window.before = bar();
}"""
TEXTS = "['bar', 'verdict', 'price', 'trip-out', 'parts'].map((id) => document.getElementById(id).textContent)"


def _in_sight(page: Page, option: str) -> Locator:
    """The option's box in the middle of the window, with nothing left to come into place."""
    until(page, DONE)
    bring(page, f"#in-{option}")
    return page.locator(f"#in-{option}")


def _agrees(page: Page) -> None:
    until(page, DONE)
    asked = from_link(page.evaluate("location.hash").removeprefix("#"))
    known = figures_document(set_scene(resolver("quillback"), asked).figures)
    assert differences(known, page.evaluate("told")) == []


def _rest_on(page: Page, box: Locator) -> None:
    place = box.bounding_box()
    assert place is not None
    page.mouse.move(place["x"] + place["width"] / 2, place["y"] + place["height"] / 2)
    until(page, f"window.foreseen === '{box.get_attribute('id')}'")


def _stood(page: Page, margin: str, box: Locator) -> list[dict[str, Any]]:
    """What stands in a margin when a choice rested on is pressed: as first seen, and with the answer."""
    page.evaluate(
        """(margin) => {
          window.stood = {};
          for (const kind of ["seen", "answer"]) document.addEventListener(`loadstead:${kind}`, () => {
            const part = document.querySelector(margin);
            stood[kind] ??= {
              text: part.innerText, height: part.getBoundingClientRect().height,
              notes: part.querySelectorAll(".note").length, folds: part.querySelectorAll("details").length,
              open: part.querySelectorAll("details[open]").length,
            };
          });
        }""",
        margin,
    )
    _rest_on(page, box)
    page.mouse.down()
    page.mouse.up()
    until(page, "stood.answer")
    return list(page.evaluate("[stood.seen, stood.answer]"))


def test_resting_on_a_choice_chooses_nothing_and_its_press_is_answered_at_once(configurator: Page) -> None:
    page = configurator
    box = _in_sight(page, "awning-wall")
    form = page.evaluate("new URLSearchParams(new FormData(configurator)).toString()")
    answers = len(page.evaluate("window.answers"))
    page.evaluate(WATCHING)
    _rest_on(page, box)
    assert page.evaluate("new URLSearchParams(new FormData(configurator)).toString()") == form
    assert len(page.evaluate("window.answers")) == answers and page.evaluate("moments") == []
    page.mouse.down()
    page.mouse.up()
    until(page, "moments.some(([kind]) => kind === 'answer')")
    (first, shown), *rest = page.evaluate("moments")
    # Seen first, then the answer itself, which finds all of it there.
    assert first == "seen" and rest[-1][0] == "answer"
    assert shown == rest[-1][1] != page.evaluate("before")
    assert len(rest) == 2
    # The build that the page opens with has it.
    assert not box.is_checked() and page.evaluate("document.activeElement.id") == "in-awning-wall"
    _agrees(page)


def test_a_new_note_stands_at_once_as_it_will_and_its_fold_opens(configurator: Page) -> None:
    page = configurator
    box = _in_sight(page, "ac-roof-11000-soft")
    margin = "#opt-ac-roof-11000-soft .margin"
    assert not box.is_checked() and page.locator(f"{margin} .note").count() == 0
    seen, answer = _stood(page, margin, box)
    assert seen["notes"] == answer["notes"] > 0
    assert (seen["text"], seen["height"]) == (answer["text"], answer["height"])
    # New folds come with the answer: each costs the browser more than the note around it.
    assert seen["folds"] == 0 < answer["folds"]
    fold = page.locator(f"{margin} .note details").first
    fold.locator("summary").click()
    assert fold.evaluate("(d) => d.open && d.querySelector('dl').getBoundingClientRect().height > 0")


def test_a_fold_that_the_reader_opened_stays_open_beside_new_notes(configurator: Page) -> None:
    page = configurator
    margin = "#opt-ac-roof-11000-soft .margin"
    _in_sight(page, "ac-roof-11000-soft").check()
    until(page, DONE)
    page.locator(f"{margin} .note details").first.locator("summary").click()
    before = page.locator(f"{margin} .note").count()
    box = _in_sight(page, "ac-roof-dc-8000")
    seen, answer = _stood(page, margin, box)
    assert seen["notes"] == answer["notes"] > before
    assert seen["open"] == answer["open"] == 1


def test_another_choice_than_the_one_rested_on_gets_its_own_answer(configurator: Page) -> None:
    page = configurator
    box = _in_sight(page, "awning-wall")
    had = page.locator("#in-ladder-rear").is_checked()
    page.evaluate(WATCHING)
    _rest_on(page, box)
    page.evaluate("document.getElementById('in-ladder-rear').click()")
    box.click()
    # The form changes at once; what it is held against is the answer to the second pick.
    until(page, "answers.some((a) => a.enquiry && !('awning-wall' in a.enquiry.options))")
    until(page, DONE)
    boxes = page.evaluate("new FormData(configurator).getAll('opt')")
    chosen = from_link(page.evaluate("location.hash").removeprefix("#")).options
    assert ("ladder-rear" in boxes) == ("ladder-rear" in chosen) == (not had) and "awning-wall" not in chosen
    _agrees(page)
    after = page.evaluate(TEXTS)
    page.reload()
    page.wait_for_selector(READY)
    until(page, DONE)
    assert page.evaluate(TEXTS) == after


def test_a_radio_button_rested_on_leaves_the_chosen_one_chosen(configurator: Page) -> None:
    page = configurator
    chosen = page.evaluate("document.querySelector('[name=vehicle]:checked').id")
    other = page.evaluate("document.querySelector('[name=vehicle]:not(:checked)').id").removeprefix("in-")
    box = _in_sight(page, other)
    page.evaluate(WATCHING)
    _rest_on(page, box)
    assert page.evaluate("document.querySelector('[name=vehicle]:checked').id") == chosen
    page.mouse.down()
    page.mouse.up()
    until(page, "moments.some(([kind]) => kind === 'answer')")
    assert page.evaluate("document.querySelector('[name=vehicle]:checked').id") == f"in-{other}"
    _agrees(page)


def test_what_was_typed_since_the_pointer_came_to_rest_counts_with_the_press(configurator: Page) -> None:
    page = configurator
    box = _in_sight(page, "awning-wall")
    page.evaluate(WATCHING)
    _rest_on(page, box)
    page.evaluate(
        "const bags = document.getElementById('in-baggage_kg'); bags.value = '321';"
        "bags.dispatchEvent(new Event('input', { bubbles: true }));"
        "document.getElementById('in-awning-wall').click()"
    )
    until(page, "moments.some(([kind]) => kind === 'answer')")
    _agrees(page)
    asked = from_link(page.evaluate("location.hash").removeprefix("#"))
    assert "awning-wall" not in asked.options and not box.is_checked()
    assert asked.trip.baggage_kg == pytest.approx(321 * 0.45359237, abs=0.01)


def test_what_was_foreseen_for_one_build_is_not_shown_for_the_next(configurator: Page) -> None:
    page = configurator
    page.evaluate(WATCHING)
    page.evaluate("document.getElementById('in-ladder-rear').click()")
    until(page, "moments.some(([kind]) => kind === 'answer')")
    box = _in_sight(page, "awning-wall")
    own = from_link(page.evaluate("location.hash").removeprefix("#"))
    toggled = own.options | {"ladder-rear": 1}
    if "ladder-rear" in own.options:
        del toggled["ladder-rear"]
    other = own.model_copy(update={"options": toggled})
    _rest_on(page, box)
    page.evaluate("moments = []")
    page.evaluate("(link) => { location.hash = link }", to_link(other))
    until(page, "moments.some(([kind]) => kind === 'answer')")
    page.evaluate("moments = []")
    page.evaluate("document.getElementById('in-awning-wall').click()")
    until(page, "moments.some(([kind]) => kind === 'answer')")
    _agrees(page)
    asked = from_link(page.evaluate("location.hash").removeprefix("#"))
    assert "awning-wall" not in asked.options
    assert ("ladder-rear" in asked.options) == ("ladder-rear" not in own.options)


SHOWN = """[...configurator.querySelectorAll("[id]")]
  .filter((part) => part.matches(".chapter, #bar, .drawings, .row"))
  .map((part) => [part.id, part.textContent.replace(/\\s+/g, " "),
                  [...part.querySelectorAll("input")].map((i) => [i.id, i.checked, i.value])])"""


def test_after_several_such_picks_the_page_is_as_if_opened_with_them(configurator: Page) -> None:
    page = configurator
    # A low window: of what a pick changes in a chapter, most is out of sight.
    page.set_viewport_size({"width": 1000, "height": 420})
    page.evaluate(WATCHING)
    chance = random.Random(8)
    options = page.evaluate("[...document.querySelectorAll('[name=opt]:not(:disabled)')].map((b) => b.value)")
    for option in chance.sample(options, 6):
        _rest_on(page, _in_sight(page, option))
        page.evaluate("moments = []")
        page.mouse.down()
        page.mouse.up()
        until(page, "moments.some(([kind]) => kind === 'answer')")
        assert page.evaluate("moments[0][0]") == "seen" and len(page.evaluate("moments")) == 3
    _agrees(page)
    left = page.evaluate(SHOWN)
    assert len(left) > 90
    page.reload()
    page.wait_for_selector(READY)
    until(page, DONE)
    assert page.evaluate(SHOWN) == left


def test_a_pointer_that_sweeps_on_is_answered_for_where_it_presses(page: Page, address: str) -> None:
    page.add_init_script(SLOW_ANSWERS)
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    page.evaluate(WATCHING)
    names = ("lights-outside", "grill-outdoor")
    box = _in_sight(page, names[1])
    passed, last = (page.locator(f"#in-{name}").bounding_box() for name in names)
    assert passed is not None and last is not None
    page.evaluate("window.delay_ms = 150")
    page.mouse.move(passed["x"] + passed["width"] / 2, passed["y"] + passed["height"] / 2)
    page.wait_for_timeout(50)
    # The answer about what the pointer rested on comes while it presses elsewhere, whose own answer is still to come.
    page.mouse.move(last["x"] + last["width"] / 2, last["y"] + last["height"] / 2)
    page.mouse.down()
    page.wait_for_timeout(210)
    page.mouse.up()
    seen = "(n) => document.getElementById(`opt-${n}`).matches('.chosen')"
    before = [page.evaluate(seen, name) for name in names]
    until(page, "moments.some(([kind]) => kind === 'answer')")
    chosen = from_link(page.evaluate("location.hash").removeprefix("#")).options
    assert (names[1] in chosen) == box.is_checked()
    assert [page.evaluate(seen, name) for name in names] == [name in chosen for name in names]
    assert before[0] == (names[0] in chosen) == page.locator(f"#in-{names[0]}").is_checked()
    _agrees(page)
