"""Times in chromium: bare runtime, page interactive, and picks against a loop of additions in the same worker."""

from __future__ import annotations

import random
import shutil
import statistics
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, NamedTuple

from playwright.sync_api import Browser, ElementHandle, Page, sync_playwright

from site_build.bundle.fetch import fetch
from site_build.progress import silent
from site_build.serve import SiteServer
from site_build.test_browser import find
from tests.at_rest import bring

READY = "#configurator[data-engine=ready]"

# How long a hand rests on a choice before it presses, and how long it presses: from memory, short for both.
_REST_MS = 100
_PRESS_MS = 60

# A page that only loads the runtime, in a worker as the real page does. `pack` says whose files: ours or npm's.
_BARE_PAGE = '<!doctype html><title>bare</title><script type="module" src="bare_page.js"></script>'
_BARE_PAGE_JS = """
window.bare = (folder) => new Promise((resolve, reject) => {
  const worker = new Worker("bare_worker.js", { type: "module" });
  worker.onmessage = ({ data }) => (worker.terminate(), data.error ? reject(new Error(data.error)) : resolve(data.ms));
  worker.onerror = (event) => reject(new Error(event.message || "worker"));
  worker.postMessage(folder);
});
"""
_BARE_WORKER_JS = """
onmessage = async ({ data: folder }) => {
  try {
    const began = performance.now();
    const base = new URL(folder, location.href);
    const ours = folder.startsWith("app/");
    const own = fetch;
    if (ours) {
      const gunzip = (reply) => reply.body.pipeThrough(new DecompressionStream("gzip"));
      const opened = (name) => own(new URL(name, base)).then(gunzip);
      const wasm = opened("pyodide.asm.wasm.pack"), standard = opened("stdlib.zip.pack");
      self.fetch = async (target, options) => {
        const url = String(target.url ?? target);
        if (url.endsWith(".wasm")) return new Response(await wasm, { headers: { "content-type": "application/wasm" } });
        if (url.endsWith("python_stdlib.zip")) return new Response(await standard);
        return own(url, options);
      };
    }
    const ending = ours ? "js" : "mjs";
    const [{ loadPyodide }, { default: createPyodideModule }] = await Promise.all([
      import(new URL(`pyodide.${ending}`, base)), import(new URL(`pyodide.asm.${ending}`, base)),
    ]);
    await loadPyodide({
      indexURL: base.href, packageBaseUrl: base.href, createPyodideModule,
      lockFileContents: JSON.stringify({ info: INFO, packages: {} }),
    });
    postMessage({ ms: performance.now() - began });
  } catch (cause) {
    postMessage({ error: String(cause.stack ?? cause) });
  }
};
"""


class BootTimes(NamedTuple):
    """Milliseconds, each the least of several rounds."""

    bare_ms: float
    """`loadPyodide()` of the served files, nothing else."""
    stock_ms: float
    """`loadPyodide()` of npm's files as they come."""
    interactive_ms: float
    """From the start of the visit until the page shows the engine's first answer."""


def boot_times(site: Path, rounds: int, told: Callable[[], None]) -> BootTimes:
    """Start each of the three in turn, `rounds` times, every time with an empty cache."""
    with tempfile.TemporaryDirectory() as name, _chromium() as browser:
        folder = Path(name) / "site"
        shutil.copytree(site, folder)
        python = next((folder / "app").glob("python-*")).relative_to(folder).as_posix() + "/"
        shutil.copytree(fetch(silent).npm / "pyodide", folder / "stock")
        info = (folder / "stock" / "pyodide-lock.json").read_text(encoding="utf-8")
        (folder / "bare.html").write_text(_BARE_PAGE)
        (folder / "bare_page.js").write_text(_BARE_PAGE_JS)
        (folder / "bare_worker.js").write_text(_BARE_WORKER_JS.replace("INFO", f"({info}).info"))
        taken: dict[str, list[float]] = {"bare": [], "stock": [], "interactive": []}
        with _served(folder) as address:
            for _ in range(rounds):
                taken["bare"].append(_bare(browser, address, python))
                taken["interactive"].append(_interactive(browser, address))
                taken["stock"].append(_bare(browser, address, "stock/"))
                told()
        return BootTimes(*(min(taken[key]) for key in ("bare", "stock", "interactive")))


def _bare(browser: Browser, address: str, folder: str) -> float:
    context = browser.new_context()
    page = context.new_page()
    page.goto(address + "bare.html")
    page.wait_for_load_state("networkidle")
    ms = float(page.evaluate("(folder) => bare(folder)", folder))
    context.close()
    return ms


def _interactive(browser: Browser, address: str) -> float:
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script(
        "document.addEventListener('loadstead:answer', () => { window.first ??= performance.now(); });"
    )
    page.goto(address + "configurator/", wait_until="commit")
    page.wait_for_selector(READY)
    ms = float(page.evaluate("first"))
    context.close()
    return ms


class PickTimes(NamedTuple):
    """Milliseconds. Medians: a pick that meets nothing remembered counts like any other."""

    pick_ms: float
    """From a pick by mouse to the new sheet on screen. The pointer rests on the choice first, as a hand does."""
    sudden_ms: float
    """The same for a pick that no pointer, finger or focus announces."""
    empty_ms: float
    """From nothing to the next frame on screen, by the same measure: less is not to be had."""
    loop_ms: float
    """A million float additions in the same worker, one loop before each pick by mouse: a median as well, so that a
    machine that slows down for a while slows down both."""


def pick_times(site: Path, picks: int = 40, rest: bool = True) -> PickTimes:
    """Picks of the page, with frames and additions to hold them against.

    rest: each pick comes when the slow figures of the one before are there; else in the middle of that work.
    """
    with _timed_page(site) as page:
        _wait(page, "performance.now() - window.lastAnswer > 1500")
        chance = random.Random(3)
        taken: dict[bool, list[float]] = {True: [], False: []}
        empty, loops = [], []
        for by_hand in (True, False) * picks:
            box = _some_choice(page, chance)
            if rest:
                _wait(page, "document.getElementById('configurator').dataset.later === 'done'")
                page.wait_for_timeout(200)
            empty.append(float(page.evaluate("timedFrame()")))
            if by_hand:
                loops.append(_loop(page))
            taken[by_hand].append(_pick(page, box, by_hand))
    return PickTimes(*map(statistics.median, (taken[True], taken[False], empty, loops)))


def ms_in_browser(site: Path, definitions: str, call: str) -> float:
    """Milliseconds that a call of Python code returns in the worker of the page itself, once the engine is ready."""
    with _timed_page(site) as page:
        return float(page.evaluate("(code) => run(code[0], code[1])", [definitions, call]))


@contextmanager
def _timed_page(site: Path) -> Iterator[Page]:
    """The page of a copy of the site, its engine ready and its worker able to time what it is told to run."""
    with tempfile.TemporaryDirectory() as name, _chromium() as browser:
        folder = Path(name) / "site"
        shutil.copytree(site, folder)
        _add_calibration(folder)
        with _served(folder) as address:
            page = browser.new_page()
            page.add_init_script(_TIMING)
            page.goto(address + "configurator/")
            page.wait_for_selector(READY)
            yield page


# From the click's arrival to the frame after what the reader sees of the answer was put in place.
_TIMING = """
window.lastAnswer = 0;
window.pick = null;
document.addEventListener("loadstead:answer", () => {
  window.lastAnswer = performance.now();
  if (window.pick) window.pick.answered = true;
});
addEventListener("click", () => { if (window.pick) window.pick.began ??= performance.now(); }, true);
document.addEventListener("loadstead:seen", () => {
  const { pick } = window;
  if (!pick?.began || pick.seen) return;
  pick.seen = true;
  requestAnimationFrame(() => setTimeout(() => { pick.ms = performance.now() - pick.began; }));
});
window.timedFrame = () => new Promise((resolve) => {
  const began = performance.now();
  requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - began)));
});
const RealWorker = Worker;
window.Worker = class extends RealWorker {
  constructor(url, options) {
    super(url, options);
    if (String(url).endsWith("/worker.js")) window.engineWorker = this;
  }
};
window.run = (definitions, call) => new Promise((resolve) => {
  const hear = ({ data }) => {
    if (data.kind !== "run") return;
    window.engineWorker.removeEventListener("message", hear);
    resolve(data.value);
  };
  window.engineWorker.addEventListener("message", hear);
  window.engineWorker.postMessage({ kind: "run", definitions, call });
});
window.loop = () => new Promise((resolve) => {
  const hear = ({ data }) => {
    if (data.kind !== "loop") return;
    window.engineWorker.removeEventListener("message", hear);
    resolve(data.ms);
  };
  window.engineWorker.addEventListener("message", hear);
  window.engineWorker.postMessage({ kind: "loop" });
});
"""

# Added to the served copy's worker only: the loop runs in the very Python that answers.
_CALIBRATION = """
const answering = onmessage;
onmessage = async (event) => {
  if (event.data.kind !== "loop" && event.data.kind !== "run") return answering(event);
  const { py } = await started;
  if (event.data.kind === "run") {
    py.runPython(event.data.definitions);
    postMessage({ kind: "run", value: py.runPython(event.data.call) });
    return;
  }
  py.runPython("def _loop():\\n    x = 0.0\\n    for _ in range(1_000_000):\\n        x += 1.5\\n    return x");
  const began = performance.now();
  py.runPython("_loop()");
  postMessage({ kind: "loop", ms: performance.now() - began });
};
"""


def _add_calibration(folder: Path) -> None:
    for path in (folder / "app").glob("*/worker.js"):
        text = path.read_text(encoding="utf-8")
        changed = text.replace("return { answer: boot.answer, about };", "return { answer: boot.answer, about, py };")
        assert changed != text, "the worker's last line of start() has changed; adapt the bench"
        path.write_text(changed + _CALIBRATION, encoding="utf-8")


def _some_choice(page: Page, chance: random.Random) -> ElementHandle:
    boxes = page.locator(
        "#configurator :is(input[type=checkbox][name=opt], input[type=radio]):not([disabled]):not(:checked)"
    )
    box = boxes.nth(chance.randrange(boxes.count())).element_handle()
    # Where it rests after the last pick, the next choice may come to lie below it.
    page.mouse.move(1, 1)
    bring(page, box)
    return box


def _pick(page: Page, box: ElementHandle, by_hand: bool) -> float:
    """Milliseconds from the click to the sheet. The least times of a hand: nobody rests or presses shorter."""
    page.evaluate("window.pick = {}")
    if by_hand:
        _rest_on(page, box)
        page.mouse.down()
        page.wait_for_timeout(_PRESS_MS)
        page.mouse.up()
    else:
        page.evaluate("(box) => box.click()", box)
    _wait(page, "window.pick.ms && window.pick.answered")
    return float(page.evaluate("window.pick.ms"))


def _rest_on(page: Page, box: ElementHandle) -> None:
    """The pointer on a box. What slow work brings further up may move it: then the hand follows before it presses."""
    rested = None
    while (place := box.bounding_box()) != rested:
        assert place is not None
        page.mouse.move(place["x"] + place["width"] / 2, place["y"] + place["height"] / 2)
        page.wait_for_timeout(_REST_MS)
        rested = place


def _loop(page: Page) -> float:
    return float(page.evaluate("loop()"))


def _wait(page: Page, expression: str) -> None:
    end = time.monotonic() + 60
    while not page.evaluate(expression):
        assert time.monotonic() < end, expression
        page.wait_for_timeout(20)


@contextmanager
def _served(folder: Path) -> Iterator[str]:
    server = SiteServer(folder)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield server.address
    finally:
        server.shutdown()
        server.server_close()


@contextmanager
def _chromium() -> Iterator[Any]:
    path = find()
    assert path, "no chromium; `python -m site_build.test_browser` gets one"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(path), args=["--no-sandbox"])
        yield browser
        browser.close()
