"""The second visit needs no network, and a new release waits until the reader agrees."""

import re
import shutil
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, expect

from site_build.serve import SiteServer
from tests.at_rest import bring
from tests.browser.conftest import READY, STATUS, served, until

KEPT = ".engine-status-offline"


def _visit(page: Page, address: str) -> None:
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    page.wait_for_selector(KEPT)


def _new_release(site: Path, target: Path) -> str:
    """A copy of a site as a later build would have written it: another application, another version."""
    shutil.copytree(site, target)
    (old,) = (p.name for p in (target / "app").iterdir() if not p.name.startswith("python-"))
    new = f"{int(old, 16) ^ 1:012x}"
    (target / "app" / old).rename(target / "app" / new)
    for path in target.rglob("*"):
        if path.is_file() and path.suffix in (".html", ".js", ".md"):
            path.write_bytes(path.read_bytes().replace(old.encode(), new.encode()))
    script = target / "sw.js"
    script.write_text(re.sub('(?<=const VERSION = ").+?(?=")', new, script.read_text()), encoding="utf-8")
    return new


def test_the_second_visit_works_with_the_network_off(site: Path, context: BrowserContext) -> None:
    with served(SiteServer(site)) as server:
        _visit(context.new_page(), server.address)
        address = server.address
    # The server is gone; a new tab has nothing but what the service worker kept.
    page = context.new_page()
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    before = page.locator("#bar").inner_text()
    choice = "#configurator input[type=checkbox]:not([disabled]):not(:checked)"
    bring(page, choice)
    page.locator(choice).first.check(force=True)
    expect(page.locator("#bar")).not_to_have_text(before)
    for path in ("", "handbook/gross-mass/", "safety/", "ready/"):
        page.goto(address + path)
        expect(page.locator("h1").first).to_be_visible()


def test_a_new_release_waits_for_the_reader(site: Path, tmp_path: Path, context: BrowserContext) -> None:
    folder = tmp_path / "site"
    shutil.copytree(site, folder)
    with served(SiteServer(folder)) as server:
        page = context.new_page()
        _visit(page, server.address)
        old = page.evaluate("document.querySelector('script[src*=page\\\\.js]').src")
        folder.rename(tmp_path / "old")
        new_id = _new_release(tmp_path / "old", folder)
        page.evaluate("navigator.serviceWorker.getRegistration().then((r) => r.update())")
        button = page.get_by_role("button", name="New version: reload")
        expect(button).to_be_visible()
        # Nothing happens by itself: the open page still computes with the version it came with.
        assert page.evaluate("document.querySelector('script[src*=page\\\\.js]').src") == old
        assert len(page.evaluate("caches.keys()")) == 2
        button.click()
        until(page, f"document.querySelector('script[src*=\"{new_id}\"]') !== null")
        page.wait_for_selector(READY)
        until(page, "caches.keys().then((keys) => keys.length === 1)")
        assert page.evaluate("caches.keys()")[0].endswith(new_id)


def test_the_kill_switch_leaves_nothing_of_ours_and_everything_of_the_neighbours(
    site: Path, tmp_path: Path, context: BrowserContext
) -> None:
    folder = tmp_path / "site"
    shutil.copytree(site, folder)
    with served(SiteServer(folder)) as server:
        page = context.new_page()
        _visit(page, server.address)
        page.evaluate("caches.open('somebody else').then((c) => c.put('/x', new Response('theirs')))")
        retire = Path(__file__).parents[2] / "site_build" / "browser" / "sw_retire.js"
        shutil.copy(retire, folder / "sw.js")
        page.evaluate("navigator.serviceWorker.getRegistration().then((r) => r.update())")
        until(page, "caches.keys().then((keys) => keys.length === 1)")
        assert page.evaluate("caches.keys()") == ["somebody else"]
        until(page, "navigator.serviceWorker.getRegistration().then((r) => !r || !r.active || !r.waiting)")
        page.goto(server.address)
        assert page.evaluate("navigator.serviceWorker.getRegistrations().then((r) => r.length)") == 0


def test_the_cache_is_named_for_its_place_and_build(site: Path, context: BrowserContext) -> None:
    with served(SiteServer(site, prefix="/shops/van/")) as server:
        page = context.new_page()
        _visit(page, server.address)
        (name,) = page.evaluate("caches.keys()")
        assert re.fullmatch(r"loadstead /shops/van/ [0-9a-f]{12}", name)
        expect(page.locator(STATUS)).to_contain_text("Ready for use without network")
