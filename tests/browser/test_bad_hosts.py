"""A host that fails gives a sentence, and a page that can still be read; never a spinner."""

from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import READY, STATUS, until
from tests.browser.hosts import BadHost, Fault, flipped, on

WITHOUT_WASM = on("", policy=lambda rule: rule.replace(" 'wasm-unsafe-eval'", ""))
IMPATIENT = on("manifest.js", body=lambda body: body.replace(b'"patience_ms": 60000', b'"patience_ms": 1500'))

FAULTS: dict[str, tuple[list[Fault], str]] = {
    "wasm missing": ([on(".wasm.pack", status=404)], "pyodide.asm.wasm.pack is missing on this site (HTTP 404)"),
    "standard library missing": ([on("stdlib.zip.pack", status=404)], "stdlib.zip.pack is missing"),
    "wasm damaged": ([on(".wasm.pack", body=flipped)], "pyodide.asm.wasm.pack arrived damaged"),
    "packages damaged": ([on("packages.zip.pack", body=flipped)], "packages.zip.pack arrived damaged"),
    "engine cut short": ([on("engine.zip.pack", body=lambda b: b[: len(b) // 2])], "engine.zip.pack arrived damaged"),
    "catalogue replaced by a page": (
        [on("catalogue.json.pack", body=b"<!doctype html><p>Welcome</p>", type="text/html")],
        "catalogue.json.pack arrived damaged",
    ),
    "WebAssembly forbidden": ([WITHOUT_WASM], "does not allow WebAssembly"),
    "connections forbidden": (
        [on("", policy=lambda rule: rule.replace("connect-src 'self'", "connect-src 'none'"))],
        "a policy of this site forbids it",
    ),
    "worker sent as text": ([on("/worker.js", type="text/plain")], "This site sends worker.js as text/plain"),
    "worker missing": ([on("/worker.js", status=404)], "worker.js is missing on this site (HTTP 404)"),
    "runtime script missing": ([on("pyodide.asm.js", status=404)], "pyodide.asm.js could not be started"),
    "runtime script sent as text": ([on("pyodide.js", type="text/plain")], "must be sent as text/javascript"),
    "wasm never finishes": ([IMPATIENT, on(".wasm.pack", stalls=True)], "Nothing more arrived for a long while"),
    "page script sent as text": ([on("/page.js", type="text/plain")], "The page's script could not be started"),
    "page script missing": ([on("/page.js", status=404)], "The page's script could not be started"),
}


@pytest.mark.parametrize("name", FAULTS)
def test_a_fault_of_the_host_becomes_a_sentence(name: str, bad_host: BadHost, page: Page) -> None:
    faults, sentence = FAULTS[name]
    for fault in faults:
        bad_host.fail(fault)
    page.goto(bad_host.address + "configurator/")
    expect(page.locator(STATUS)).to_have_attribute("data-state", "failed")
    expect(page.locator(STATUS)).to_contain_text(sentence)
    expect(page.locator(STATUS)).to_contain_text("stays readable")
    assert page.locator(f"{STATUS} progress:visible").count() == 0
    expect(page.locator("#bar")).to_be_visible()
    expect(page.locator("#draw-roof svg")).to_be_visible()


def test_wrong_types_of_packed_files_do_no_harm(bad_host: BadHost, page: Page) -> None:
    bad_host.fail(on(".pack", type="text/html"))
    page.goto(bad_host.address + "configurator/")
    page.wait_for_selector(READY)


def test_a_host_that_recovers_can_be_tried_again_with_the_picks_kept(bad_host: BadHost, page: Page) -> None:
    bad_host.fail(on(".wasm.pack", status=503))
    page.goto(bad_host.address + "configurator/")
    expect(page.locator(STATUS)).to_have_attribute("data-state", "failed")
    page.locator("input[name=title]").fill("Kept over a failure")
    page.locator("input[name=title]").blur()
    bad_host.faults.of.clear()
    page.get_by_role("button", name="Start the calculation again").click()
    page.wait_for_selector(READY)
    expect(page.locator("input[name=title]")).to_have_value("Kept over a failure")


def test_opened_as_a_file_the_page_says_what_to_do(site: object, page: Page) -> None:
    page.goto(f"file://{site}/configurator/index.html")
    # Scripts of a module do not even load from a file; the older kind of script tells.
    expect(page.locator(STATUS)).to_have_attribute("data-state", "failed")
    expect(page.locator(STATUS)).to_contain_text("Serve the folder")
    expect(page.locator("#bar")).to_be_visible()


def test_a_page_that_arrives_in_two_parts_loses_no_choice(bad_host: BadHost, page: Page, site: Path) -> None:
    # The first part ends below the line that tells of loading, before the choices.
    whole = (site / "configurator" / "index.html").read_bytes()
    first = whole.index(b'id="engine-status"') + 4000
    assert b'name="opt"' not in whole[:first] and b'name="opt"' in whole
    page.goto(bad_host.address + "configurator/")
    chosen = page.locator("#configurator :checked").count()
    bad_host.fail(on("configurator/", pauses_after=first))
    page.goto(bad_host.address + "configurator/", wait_until="commit")
    until(page, "document.querySelector('#engine-status progress:not([hidden])') !== null")
    assert page.evaluate("document.readyState") == "loading"
    page.wait_for_selector(READY)
    assert page.locator("#configurator :checked").count() == chosen
