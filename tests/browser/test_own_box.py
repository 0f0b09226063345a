"""A bulky thing of the buyer's own: typed at leisure, and taken when the buyer says so."""

from typing import Any

import pytest
from playwright.sync_api import Page, expect

from engine.enquiry.door import from_link
from tests.browser.conftest import until

TYPED = {"name": "Surf bag", "length": "80", "width": "20", "height": "12"}


def boxes(page: Page) -> tuple[Any, ...]:
    """The boxes of the build in the address."""
    link = page.evaluate("location.hash.slice(1)")
    return from_link(link).trip.boxes if link else ()


def fields(page: Page) -> dict[str, str]:
    return {key: page.locator(f"#in-box-{key}").input_value() for key in TYPED}


def type_slowly(page: Page) -> None:
    """Slower than the page waits for the next key, so that each digit is answered."""
    for key, text in TYPED.items():
        page.locator(f"#in-box-{key}").click()
        page.keyboard.type(text, delay=400 if key == "height" else 0)
    until(page, "document.getElementById('in-box-height').defaultValue === '12'")


@pytest.mark.parametrize("by", ["button", "Enter"])
def test_a_box_typed_slowly_is_taken_whole_when_it_is_added(configurator: Page, by: str) -> None:
    type_slowly(configurator)
    assert (fields(configurator), boxes(configurator)) == (TYPED, ())
    # Other picks leave it as it is, those before it and those after it in the form.
    configurator.locator("#in-adults").fill("3")
    configurator.locator("#in-box-turn").check()
    configurator.locator("#in-place").select_option("granada")
    until(configurator, "document.getElementById('in-place').querySelector('[value=granada]').defaultSelected")
    until(configurator, "document.getElementById('in-box-turn').defaultChecked")
    assert (fields(configurator), boxes(configurator)) == (TYPED, ())
    if by == "Enter":
        configurator.locator("#in-box-width").press("Enter")
    else:
        configurator.get_by_role("button", name="Add this box").click()
    expect(configurator.locator("#in-box-0")).to_have_value("1")
    expect(configurator.locator("label[for=in-box-0]")).to_contain_text("Surf bag")
    until(configurator, "location.hash.length > 1 && document.getElementById('in-box-name').value === ''")
    [box] = boxes(configurator)
    assert (box.name, box.any_way_up, box.count) == ("Surf bag", True, 1)
    assert (box.length_m, box.width_m, box.height_m) == pytest.approx((80 * 0.0254, 20 * 0.0254, 12 * 0.0254))
    assert fields(configurator) == dict.fromkeys(TYPED, "")
    assert not configurator.locator("#in-box-turn").is_checked()
    assert configurator.evaluate("document.activeElement.id") == "add-box"


def test_a_size_that_is_missing_is_named_and_the_others_stay(configurator: Page) -> None:
    for key in ("name", "length", "width"):
        configurator.locator(f"#in-box-{key}").fill(TYPED[key])
    configurator.get_by_role("button", name="Add this box").click()
    expect(configurator.locator("#trip-form [role=alert]")).to_contain_text("Own box, height: please enter a number")
    assert fields(configurator) == TYPED | {"height": ""}
    assert boxes(configurator) == ()
    configurator.locator("#in-box-height").fill("12")
    configurator.get_by_role("button", name="Add this box").click()
    until(configurator, "document.getElementById('in-box-name').value === ''")
    assert [box.name for box in boxes(configurator)] == ["Surf bag"]
    expect(configurator.locator("#trip-form [role=alert]")).to_be_hidden()
