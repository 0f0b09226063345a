"""A site built once, servers that serve it well or badly, and a chromium that visits them."""

import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TypeVar

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Page, Route, expect, sync_playwright

from site_build.command import build
from site_build.progress import silent
from site_build.serve import SiteServer
from site_build.test_browser import find
from tests.at_rest import PATIENCE_S
from tests.browser.hosts import BadHost
from tests.shops import DEMO

READY = "#configurator[data-engine=ready]"
STATUS = "#engine-status"
# The page shows all of its last answer, slow figures too.
DONE = "document.getElementById('configurator').dataset.later === 'done'"
# What the worker says comes `window.delay_ms` later, or is kept while `window.held` is an array.
SLOW_ANSWERS = """
const Real = Worker;
window.Worker = class extends Real {
  set onmessage(hear) {
    super.onmessage = (event) =>
      window.held ? held.push(() => hear(event)) : setTimeout(() => hear(event), window.delay_ms ?? 0);
  }
};
window.release = () => { const kept = held; window.held = null; kept.forEach((say) => say()); };
"""
Seen = TypeVar("Seen")
expect.set_options(timeout=PATIENCE_S * 1000)


def _holds(page: Page, expression: str) -> bool:
    try:
        return bool(page.evaluate(expression))
    except Error as error:
        if "context was destroyed" in error.message:
            return False  # the page is just being replaced by the next one
        raise


def until(page: Page, expression: str) -> None:
    """Wait until an expression is true on the page. (Playwright's own waiting needs eval, which the site's policy
    forbids to everybody.)"""
    assert in_the_end(page, lambda: _holds(page, expression), True), f"never true: {expression}"


def in_the_end(page: Page, look: Callable[[], Seen], wanted: Seen) -> Seen:
    """What is seen as soon as it is as wanted; else what is seen when patience is at an end."""
    end = time.monotonic() + PATIENCE_S
    while (seen := look()) != wanted and time.monotonic() < end:
        page.wait_for_timeout(30)
    return seen


def held_up(page: Page, path: str) -> Callable[[], None]:
    """Requests for a path wait until what is returned is called."""
    waiting: list[Route] = []
    page.route(path, lambda route: waiting.append(route))

    def let_go() -> None:
        for route in waiting:
            route.continue_()
        page.unroute(path)

    return let_go


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Everything in this folder needs a browser."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)


@pytest.fixture(scope="session")
def sites(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """The built site of a demo workshop, by its name; each is built at most once."""
    built: dict[str, Path] = {}

    def site_of(shop: str) -> Path:
        if shop not in built:
            out = tmp_path_factory.mktemp("sites") / shop
            build(DEMO / shop, out, silent)
            built[shop] = out
        return built[shop]

    return site_of


@pytest.fixture(scope="session")
def site(sites: Callable[[str], Path]) -> Path:
    """The site of the US demo workshop."""
    return sites("quillback")


@contextmanager
def served(server: SiteServer) -> Iterator[SiteServer]:
    """A server at work in the background."""
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        server.server_close()


@pytest.fixture(scope="session")
def address(site: Path) -> Iterator[str]:
    """Where the site is served as it should be."""
    with served(SiteServer(site)) as server:
        yield server.address


@pytest.fixture
def bad_host(site: Path) -> Iterator[BadHost]:
    """A host of the same site that can be told to fail."""
    with served(BadHost(site)) as server:
        yield server  # type: ignore[misc]


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser for all tests; each test gets a context, and so a cache and storage, of its own."""
    path = find()
    assert path, "no chromium; `python -m site_build.test_browser` gets one"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(path), args=["--no-sandbox"])
        yield browser
        browser.close()


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    """A fresh visitor at a desk."""
    fresh = chromium.new_context(viewport={"width": 1300, "height": 900})
    fresh.set_default_timeout(PATIENCE_S * 1000)
    yield fresh
    fresh.close()


@pytest.fixture
def page(context: BrowserContext) -> Page:
    """The visitor's first tab."""
    return context.new_page()


@pytest.fixture
def configurator(page: Page, address: str) -> Page:
    """The configurator, computing; `window.answers` collects what the engine answers from then on, and
    `window.foreseen` names the choice that was last worked out ahead."""
    page.add_init_script(
        "window.answers = []; document.addEventListener('loadstead:answer', (e) => window.answers.push(e.detail));"
        "document.addEventListener('loadstead:foreseen', (e) => { window.foreseen = e.detail; });"
    )
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    return page
