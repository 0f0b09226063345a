"""A build kept as a file, and opened again: what a buyer without a link in the mail does."""

import json
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Page, expect

from engine.desk import start_enquiry
from engine.enquiry.door import from_link, read_enquiry, write_enquiry
from tests.browser.conftest import STATUS, until
from tests.shops import catalogue


def saved(page: Page, folder: Path) -> Path:
    with page.expect_download() as download:
        page.get_by_role("link", name="Save as a file").click()
    path = folder / download.value.suggested_filename
    download.value.save_as(path)
    return path


def test_a_saved_build_is_the_build_of_the_address(configurator: Page, tmp_path: Path) -> None:
    configurator.locator("input[name=title]").fill("Für Ö, 100 % <b>")
    configurator.locator("input[name=title]").blur()
    until(configurator, "document.querySelector('[download]').download.startsWith('für')")
    path = saved(configurator, tmp_path)
    assert path.name == "für-ö-100-b.json"
    kept = read_enquiry(path.read_text(encoding="utf-8"))
    assert kept.title == "Für Ö, 100 % <b>"
    assert kept == from_link(configurator.evaluate("location.hash.slice(1)"))


def test_an_opened_file_replaces_what_was_picked(configurator: Page, tmp_path: Path) -> None:
    path = saved(configurator, tmp_path)
    build = json.loads(path.read_text(encoding="utf-8"))
    build["title"] = "From the drawer"
    build["trip"]["adults"] = 4
    dropped = next(iter(build["options"]))
    del build["options"][dropped]
    path.write_text(json.dumps(build), encoding="utf-8")
    configurator.locator("#open-file").set_input_files(path)
    expect(configurator.locator("input[name=title]")).to_have_value("From the drawer")
    expect(configurator.locator("[name='trip.adults']")).to_have_value("4")
    until(configurator, "location.hash.length > 1")
    shown = from_link(configurator.evaluate("location.hash.slice(1)"))
    assert shown == read_enquiry(path.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{", "it ends too early"),
        ('{"vehicle": "box", "trip": {"place": "denver", "months": [13]}}', "trip.months"),
        ('{"vehicle": "ox-cart", "trip": {"place": "denver", "months": [1]}}', "ox-cart"),
        (" " * 300_000, "larger than 256 kB"),
    ],
    ids=["cut short", "no such month", "no such vehicle", "huge"],
)
def test_a_file_that_is_none_changes_nothing_and_says_why(
    configurator: Page, tmp_path: Path, text: str, said: str
) -> None:
    before = configurator.evaluate("location.hash")
    path = tmp_path / "build.json"
    path.write_text(text, encoding="utf-8")
    configurator.locator("#open-file").set_input_files(path)
    expect(configurator.locator(STATUS)).to_contain_text(said)
    assert configurator.evaluate("location.hash") == before
    configurator.locator("input[name=title]").fill("Goes on")
    configurator.locator("input[name=title]").blur()
    until(configurator, f"location.hash !== {json.dumps(before)}")


def test_a_build_of_another_workshop_changes_nothing_and_says_whose_it_is(configurator: Page, tmp_path: Path) -> None:
    before = configurator.evaluate("location.hash")
    path = tmp_path / "build.json"
    path.write_text(write_enquiry(start_enquiry(catalogue("hallamoor"))), encoding="utf-8")
    configurator.locator("#open-file").set_input_files(path)
    expect(configurator.locator(STATUS)).to_contain_text("this build was made for 'hallamoor'")
    assert "there is no" not in configurator.locator(STATUS).inner_text()
    assert configurator.evaluate("location.hash") == before


def letter(page: Page) -> dict[str, list[str]]:
    """What the mail program would be handed. The page's own handler has run by then; nothing is opened."""
    page.evaluate("addEventListener('click', (e) => e.target.closest('a[href^=mailto]') && e.preventDefault())")
    link = page.get_by_role("link", name="Write to")
    link.click()
    return parse_qs(urlsplit(link.get_attribute("href") or "").query)


def test_the_letter_brings_the_build_that_is_on_the_screen(configurator: Page) -> None:
    configurator.get_by_role("link", name="Keep or send it").click()
    for adults in ("3", "4"):
        configurator.locator("[name='trip.adults']").fill(adults)
        configurator.locator("[name='trip.adults']").blur()
        until(configurator, f"document.querySelector(\"[name='trip.adults']\").defaultValue === '{adults}'")
        [body] = letter(configurator)["body"]
        said, _, address = body.partition("\r\n\r\n")
        assert said == "This is my build:"
        assert address.split("#")[0] == configurator.url.split("#")[0]
        assert from_link(address.split("#")[1]).trip.adults == int(adults)


def test_the_copied_link_opens_the_build(configurator: Page) -> None:
    configurator.context.grant_permissions(["clipboard-read", "clipboard-write"])
    configurator.locator("[name='trip.adults']").fill("4")
    configurator.locator("[name='trip.adults']").blur()
    until(configurator, "location.hash.length > 1")
    configurator.get_by_role("button", name="Copy the link").click()
    expect(configurator.locator("#copied")).to_have_text("Copied.")
    address = configurator.evaluate("navigator.clipboard.readText()")
    assert from_link(address.split("#")[1]) == from_link(configurator.evaluate("location.hash.slice(1)"))


def test_the_link_on_the_sheet_opens_the_build_it_was_taken_from(configurator: Page) -> None:
    title, adults = configurator.locator("input[name=title]"), configurator.locator("[name='trip.adults']")
    adults.fill("4")
    title.fill("Kept")
    title.blur()
    until(configurator, "document.querySelector('[download]').download === 'kept.json'")
    taken = configurator.get_by_role("link", name="Link to this build").get_attribute("href") or ""
    title.fill("Another")
    title.blur()
    until(configurator, "document.querySelector('[download]').download === 'another.json'")
    configurator.evaluate("(link) => { location.hash = link; }", taken)
    expect(title).to_have_value("Kept")
    expect(adults).to_have_value("4")


def test_where_the_browser_refuses_to_copy_the_page_says_where_the_link_is(configurator: Page) -> None:
    configurator.evaluate("Object.defineProperty(navigator, 'clipboard', { value: undefined })")
    configurator.get_by_role("button", name="Copy the link").click()
    expect(configurator.locator("#copied")).to_contain_text("Link to this build")
