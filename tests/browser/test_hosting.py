"""Any path, any visitor: sub-paths, scripts off, a telephone, a keyboard, and no request to anybody else."""

import json
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, expect

from site_build.serve import SiteServer
from tests.at_rest import bring, rest
from tests.browser.conftest import READY, STATUS, held_up, served, until

PICK = "#configurator input[type=checkbox][name=opt]:not([disabled]):not(:checked)"


@pytest.mark.parametrize("prefix", ["/", "/a/", "/people/some one/shop/"])
def test_the_site_works_below_any_path(site: Path, prefix: str, page: Page) -> None:
    with served(SiteServer(site, prefix=prefix)) as server:
        asked: list[Request] = []
        page.on("request", lambda request: asked.append(request))
        page.goto(server.address + "configurator/")
        page.wait_for_selector(READY)
        # The theme's page shows its own way home.
        page.locator("a.md-logo").first.click()
        expect(page.locator("h1")).to_be_visible()
        inside = prefix.replace(" ", "%20")
        strays = [r.url for r in asked if not urlsplit(r.url).path.startswith(inside)]
        assert not strays


def test_no_request_leaves_the_site(site: Path, address: str, context: BrowserContext) -> None:
    asked: set[str] = set()
    context.on("request", lambda request: asked.add(request.url))
    page = context.new_page()
    troubles: list[str] = []
    page.on("console", lambda m: troubles.append(m.text) if "Content Security Policy" in m.text else None)
    pages = sorted(p.parent.relative_to(site).as_posix() for p in site.rglob("index.html"))
    assert len(pages) > 50
    by_folder = {p.split("/")[0]: p for p in pages}
    for path in by_folder.values():
        page.goto(address + ("" if path == "." else path + "/"))
        page.wait_for_load_state("networkidle")
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    page.wait_for_selector(".engine-status-offline")
    page.get_by_role("textbox", name="Search").click()
    page.keyboard.type("heater")
    page.wait_for_selector(".md-search-result__item")
    assert {urlsplit(url).netloc for url in asked} == {urlsplit(address).netloc}
    assert not troubles


def test_with_scripts_off_the_sheet_is_all_there(chromium: Browser, address: str) -> None:
    context = chromium.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address + "configurator/")
    expect(page.locator(f"{STATUS} noscript p")).to_be_visible()
    for part in ("#bar", "#verdict", "#draw-roof svg", "#draw-side svg", "#price", "#parts"):
        expect(page.locator(part)).to_be_visible()
    assert "$" in page.locator("#bar").inner_text()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_telephone_needs_no_sideways_scrolling_and_picks_by_touch(
    chromium: Browser, address: str, scheme: str
) -> None:
    context = chromium.new_context(
        viewport={"width": 390, "height": 780},
        has_touch=True,
        is_mobile=True,
        color_scheme=scheme,  # type: ignore[arg-type]
    )
    page = context.new_page()
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    scheme_of_page = page.evaluate("document.body.dataset.mdColorScheme")
    assert scheme_of_page == {"light": "default", "dark": "slate"}[scheme]
    answers = int(page.get_attribute("#configurator", "data-answers") or 0)
    page.evaluate("for (const d of document.querySelectorAll('#configurator details')) d.open = true")
    bring(page, PICK)
    page.locator(PICK).first.tap(force=True)
    page.wait_for_selector(f"#configurator[data-answers='{answers + 1}']")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


def test_a_pick_with_the_keyboard_keeps_focus_and_place(configurator: Page) -> None:
    page = configurator
    page.evaluate("for (const d of document.querySelectorAll('#configurator details')) d.open = true")
    box = page.locator(PICK).nth(3)
    name = box.get_attribute("id")
    box.focus()
    # Where the reader looks must stay, however much is written or struck out above it. Before that, chapters that come
    # into sight with the focus get their height.
    rest(page, f"#{name}")
    where = f"document.getElementById('{name}').getBoundingClientRect().top"
    top = page.evaluate(where)
    before = page.evaluate("answers.length")
    page.keyboard.press("Space")
    until(page, f"answers.length > {before}")
    rest(page, f"#{name}")
    assert page.evaluate("document.activeElement.id") == name
    assert page.evaluate(f"document.getElementById('{name}').checked")
    assert abs(page.evaluate(where) - top) < 2
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") != name


def test_picks_made_while_it_starts_are_kept_and_applied(address: str, page: Page) -> None:
    let_go = held_up(page, "**/*.wasm.pack")
    page.goto(address + "configurator/")
    title = page.locator("input[name=title]")
    title.fill("Picked early")
    title.blur()
    assert page.locator(READY).count() == 0
    let_go()
    page.wait_for_selector(READY)
    expect(title).to_have_value("Picked early")
    link = page.evaluate("location.hash")
    page.goto("about:blank")
    page.goto(address + "configurator/" + link)
    page.wait_for_selector(READY)
    expect(title).to_have_value("Picked early")


def test_a_reload_and_a_later_visit_bring_the_build_back(configurator: Page, address: str) -> None:
    page = configurator
    page.locator("input[name=title]").fill("Ours")
    page.locator("input[name=title]").blur()
    until(page, "answers.length > 1")
    page.reload()
    page.wait_for_selector(READY)
    expect(page.locator("input[name=title]")).to_have_value("Ours")
    page.goto(address + "safety/")
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    expect(page.locator("input[name=title]")).to_have_value("Ours")


HOSTILE = (
    "<img src=x onerror=alert(1)>",
    "1" + "A" * 5000,
    "1" + "-" * 200_000,
    "%3Cscript%3Ealert(1)%3C/script%3E",
    "__proto__[x]=1",
    "1eNqrVkrLz1eyUkpKLFKqBQAdegQ5",
)


@pytest.mark.parametrize("link", HOSTILE, ids=range(len(HOSTILE)))
def test_a_hostile_link_gives_a_sentence_and_runs_nothing(link: str, address: str, page: Page) -> None:
    dialogs: list[str] = []
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    page.goto(address + "configurator/#" + link)
    expect(page.locator(STATUS)).to_have_attribute("data-state", "problem")
    assert page.locator(f"{STATUS} img, {STATUS} script").count() == 0
    assert not dialogs
    # The page goes on: a pick is answered.
    page.locator("input[name=title]").fill("Still at work")
    page.locator("input[name=title]").blur()
    page.wait_for_selector(READY)
    expect(page.locator(STATUS)).to_have_attribute("data-state", "ready")


@pytest.mark.parametrize("prefix", ["/", "/people/some one/shop/"])
@pytest.mark.parametrize("missing", ["nothing", "catalogue/long/gone/"])
def test_a_page_that_is_not_there_leads_back_to_the_start(site: Path, prefix: str, missing: str, page: Page) -> None:
    lost = (site / "404.html").read_text(encoding="utf-8")
    with served(SiteServer(site, prefix=prefix)) as server:
        # Hosts serve the file for every path that they do not have.
        page.route("**/" + missing, lambda route: route.fulfill(status=404, content_type="text/html", body=lost))
        page.goto(server.address + missing)
        home = prefix.replace(" ", "%20")
        until(page, f"document.getElementById('start').getAttribute('href') === {json.dumps(home)}")
        assert page.evaluate("getComputedStyle(document.querySelector('main')).borderTopStyle") == "solid"
        page.click("#start")
        page.wait_for_selector("h2#how-this-works")
