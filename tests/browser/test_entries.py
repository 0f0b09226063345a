"""What a reader enters counts: none of it is lost, and what cannot be read is told where it is seen."""

import json

import pytest
from playwright.sync_api import Page, expect

from engine.desk import start_enquiry
from engine.enquiry import Enquiry
from engine.enquiry.door import from_link, to_link
from tests.browser.conftest import DONE, READY, SLOW_ANSWERS, STATUS, held_up, in_the_end, until
from tests.shops import catalogue


def build_of(page: Page) -> Enquiry:
    return from_link(page.evaluate("location.hash"))


def in_sight(page: Page, selector: str) -> None:
    """What a selector names comes to lie in the window, whole."""
    until(
        page,
        f"(({{ top, bottom }}) => top >= 0 && bottom <= innerHeight && bottom > top)"
        f"(document.querySelector({json.dumps(selector)}).getBoundingClientRect())",
    )


@pytest.fixture
def slow(page: Page, address: str) -> Page:
    """The configurator; `delay_ms` holds up what the worker says."""
    page.add_init_script(SLOW_ANSWERS)
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    until(page, DONE)
    return page


@pytest.mark.parametrize("width", [390, 1280])
def test_an_entry_that_cannot_be_read_is_told_in_sight_and_leads_to_its_field(configurator: Page, width: int) -> None:
    page = configurator
    page.set_viewport_size({"width": width, "height": 844})
    adults = page.locator("[name='trip.adults']")
    adults.fill("")
    adults.blur()
    page.locator("#in-grill-outdoor").click()
    expect(page.locator("#form-error")).to_contain_text("Grown-ups: please enter a number")
    in_sight(page, "#form-error")
    expect(adults).to_have_attribute("aria-invalid", "true")
    # It lies over no figure of the bar.
    foot, head = page.evaluate(
        "[bar.getBoundingClientRect().bottom, document.getElementById('form-error').getBoundingClientRect().top]"
    )
    assert foot <= head
    # Slow figures of the build before say nothing about it.
    until(page, DONE)
    in_sight(page, "#form-error")
    page.get_by_role("button", name="Show it").click()
    assert page.evaluate("document.activeElement.name") == "trip.adults"
    in_sight(page, "[name='trip.adults']")
    page.keyboard.type("3")
    until(page, "document.getElementById('form-error').hidden && location.hash.length > 1")
    assert page.locator("[aria-invalid]").count() == 0
    # What was picked meanwhile counts from now on.
    until(page, "document.getElementById('opt-grill-outdoor').matches('.chosen')")
    assert build_of(page).trip.adults == 3 and "grill-outdoor" in build_of(page).options


def test_a_number_that_only_the_reader_can_read_is_not_taken_for_none(configurator: Page) -> None:
    page = configurator
    budget = page.locator("[name='trip.budget']")
    budget.fill("150000")
    until(page, "location.hash.length > 1")
    budget.press("End")
    page.keyboard.type("-")
    expect(page.locator("#form-error")).to_contain_text("Budget with tax: please enter a number")
    assert build_of(page).trip.budget == 150000


def test_an_opened_build_takes_the_place_of_entries_that_were_refused(configurator: Page) -> None:
    page = configurator
    adults = page.locator("[name='trip.adults']")
    adults.fill("")
    adults.blur()
    page.locator("#in-grill-outdoor").click()
    expect(page.locator("#form-error")).to_be_visible()
    page.evaluate("(link) => { location.hash = link }", to_link(start_enquiry(catalogue("quillback"))))
    until(page, "document.getElementById('form-error').hidden")
    expect(adults).to_have_value("2")
    assert not page.locator("#in-grill-outdoor").is_checked()


def number_of(page: Page, option: str) -> int:
    value: int = page.evaluate("(n) => Number(document.querySelector(`[name='count.${n}']`).value)", option)
    return value


def press(page: Page, *options: str) -> None:
    """Presses of + one after the other, faster than any answer."""
    script = "(names) => names.forEach((n) => document.querySelector(`[name='step.${n}'][value='1']`).click())"
    page.evaluate(script, list(options))


def steppers(page: Page) -> list[str]:
    """Options of which several may be had, and some are still to be had."""
    names: list[str] = page.evaluate(
        "[...document.querySelectorAll('.only-number [type=number]:not(:disabled)')]"
        ".filter((f) => Number(f.max) - Number(f.value) > 3).map((f) => f.name.slice('count.'.length))"
    )
    return names


def test_presses_that_are_faster_than_the_answers_all_count(slow: Page) -> None:
    first, second = steppers(slow)[:2]
    before = number_of(slow, first), number_of(slow, second)
    slow.evaluate("window.delay_ms = 200")
    press(slow, first, second, first)
    slow.locator("#in-grill-outdoor").click()
    until(slow, "document.getElementById('opt-grill-outdoor').matches('.chosen')")
    slow.evaluate("window.delay_ms = 0")
    until(slow, DONE)
    assert (number_of(slow, first), number_of(slow, second)) == (before[0] + 2, before[1] + 1)
    assert build_of(slow).options[first] == before[0] + 2
    # They count once.
    press(slow, second)
    until(slow, f"Number(document.querySelector(\"[name='count.{second}']\").value) === {before[1] + 2}")
    assert (number_of(slow, first), build_of(slow).options[second]) == (before[0] + 2, before[1] + 2)


def test_presses_before_the_engine_is_ready_are_kept(page: Page, address: str) -> None:
    let_go = held_up(page, "**/*.wasm.pack")
    page.goto(address + "configurator/")
    until(page, "window.loadsteadPressed === null")
    first, second = steppers(page)[:2]
    before = number_of(page, first), number_of(page, second)
    press(page, first, second, first)
    assert page.locator(READY).count() == 0
    let_go()
    page.wait_for_selector(READY)
    assert (build_of(page).options[first], build_of(page).options[second]) == (before[0] + 2, before[1] + 1)


def test_a_press_before_the_pages_script_sends_nothing_to_the_host_and_is_kept(page: Page, address: str) -> None:
    let_go = held_up(page, "**/page.js")
    page.goto(address + "configurator/", wait_until="commit")
    until(page, "document.readyState !== 'loading' && document.querySelectorAll('.only-number').length > 1")
    first = steppers(page)[0]
    before = number_of(page, first)
    press(page, first)
    let_go()
    page.wait_for_selector(READY)
    assert page.evaluate("location.search") == ""
    assert build_of(page).options[first] == before + 1


def go_to(page: Page, chapter: str) -> None:
    page.evaluate("(c) => document.querySelector(`#index a[href='#${c}']`).click()", chapter)
    in_sight(page, f"#{chapter} h2")


def named(page: Page, name: str) -> None:
    page.locator("input[name=title]").fill(name)
    page.locator("input[name=title]").blur()
    until(page, f"document.querySelector('[download]').download === '{name}.json'")


def test_the_way_to_a_chapter_and_back_leaves_the_build_in_address_and_page(configurator: Page) -> None:
    page = configurator
    named(page, "ours")
    go_to(page, "ch-gas")
    assert build_of(page).title == "ours"
    page.evaluate("document.getElementById('in-grill-outdoor').click()")
    until(page, "document.getElementById('opt-grill-outdoor').matches('.chosen')")
    until(page, DONE)
    page.go_back()
    # The address of then is put right, and the page left alone.
    assert in_the_end(page, lambda: "grill-outdoor" in build_of(page).options, True)
    until(page, DONE)
    assert page.locator("#in-grill-outdoor").is_checked()
    assert "grill-outdoor" in build_of(page).options


def test_another_build_that_is_only_looked_at_does_not_replace_the_kept_one(configurator: Page, address: str) -> None:
    page = configurator
    named(page, "ours")
    other = start_enquiry(catalogue("quillback")).model_copy(update={"title": "theirs"})
    page.evaluate("(link) => { location.hash = link }", to_link(other))
    expect(page.locator("input[name=title]")).to_have_value("theirs")
    until(page, DONE)
    page.goto("about:blank")
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    expect(page.locator("input[name=title]")).to_have_value("ours")


def test_back_from_another_build_leads_to_the_one_before(configurator: Page) -> None:
    page = configurator
    named(page, "ours")
    page.get_by_role("button", name="Start anew").click()
    expect(page.locator("input[name=title]")).to_have_value("")
    until(page, DONE)
    page.go_back()
    expect(page.locator("input[name=title]")).to_have_value("ours")


def test_a_link_that_cannot_be_read_opens_what_was_kept_and_says_so(configurator: Page, address: str) -> None:
    page = configurator
    named(page, "ours")
    page.goto("about:blank")
    page.goto(address + "configurator/#1damaged")
    page.wait_for_selector(READY)
    expect(page.locator(STATUS)).to_have_attribute("data-state", "problem")
    expect(page.locator("input[name=title]")).to_have_value("ours")


@pytest.mark.parametrize(
    ("place", "seen"),
    [("send", "#send h2"), ("no-such-chapter", ".bar")],
)
def test_a_place_in_the_address_is_no_build(page: Page, address: str, place: str, seen: str) -> None:
    page.goto(f"{address}configurator/#{place}")
    page.wait_for_selector(READY)
    until(page, DONE)
    in_sight(page, seen)
    expect(page.locator(STATUS)).to_have_attribute("data-state", "ready")
    assert (page.evaluate("scrollY") == 0) == (place == "no-such-chapter")
