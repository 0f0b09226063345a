"""The sheet can be read and walked by everybody: contrast, keyboard, a narrow screen, paper."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import READY

TOO_FAINT = """() => {
  const light = (c) => {
    const [r, g, b] = c.map((v) => (v /= 255) <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  // Colours that fade in after the theme is chosen are read as they end.
  for (const fading of document.getAnimations())
    if (fading.effect.getComputedTiming().endTime < Infinity) fading.finish();
  const paint = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
  const rgba = (css) => {
    paint.clearRect(0, 0, 1, 1);
    paint.fillStyle = css;
    paint.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = paint.getImageData(0, 0, 1, 1).data;
    return [r, g, b, a / 255];
  };
  const over = (top, below) => [0, 1, 2].map((i) => top[i] * top[3] + below[i] * (1 - top[3]));
  const faint = new Set();
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let read = 0;
  while (walk.nextNode()) {
    const element = walk.currentNode.parentElement;
    const box = element.getClientRects()[0];
    if (!walk.currentNode.data.trim() || !box || box.width < 2) continue;
    if (element.closest("svg, script, style, noscript, .vh, :disabled")) continue;
    const chain = [];
    for (let e = element; e; e = e.parentElement) chain.unshift(getComputedStyle(e));
    const seen = chain.some((s) => s.visibility === "hidden") ? 0 : chain.reduce((share, s) => share * s.opacity, 1);
    if (!seen) continue;
    const below = chain.reduce((b, s) => over(rgba(s.backgroundColor), b), [255, 255, 255]);
    const own = getComputedStyle(element);
    const [r, g, b, a] = rgba(own.color);
    const pair = [light(over([r, g, b, a * seen], below)), light(below)];
    const ratio = (Math.max(...pair) + 0.05) / (Math.min(...pair) + 0.05);
    const size = parseFloat(own.fontSize);
    const large = size >= 24 || (size >= 18.66 && own.fontWeight >= 700);
    read += 1;
    if (ratio < (large ? 3 : 4.5)) faint.add(`${element.localName}.${element.className} ${ratio.toFixed(2)}`);
  }
  return { read, faint: [...faint] };
}"""

# Whether what has the focus is on the screen and nothing lies over it; the label of an unseen box counts as the box.
FOCUS_SEEN = """() => {
  const e = document.activeElement, box = e.getBoundingClientRect();
  const at = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height / 2, innerHeight / 2));
  const seen = at && (e.contains(at) || at.contains(e) && !at.closest(".bar") || at.closest("label")?.contains(e));
  return seen || e === document.body ? "" : `${e.id || e.outerHTML.slice(0, 80)} at ${box.top}`;
}"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("path", ["configurator/", "for-workshops/", "ready/", "handbook/heater-capacity/"])
def test_every_word_stands_out_from_its_ground(chromium: Browser, address: str, path: str, scheme: str) -> None:
    """WCAG 2.2, 1.4.3 Contrast (Minimum): 4.5 to 1, and 3 to 1 for large type."""
    page = chromium.new_page(color_scheme=scheme)  # type: ignore[arg-type]
    page.goto(address + path)
    if path == "configurator/":
        page.wait_for_selector(READY)
    found = page.evaluate(TOO_FAINT)
    # On a busy machine parts are still being painted; what counts is how they stay.
    for _ in range(20):
        if not found["faint"]:
            break
        page.wait_for_timeout(300)
        found = page.evaluate(TOO_FAINT)
    page.close()
    assert found["read"] > 30
    assert found["faint"] == []


@pytest.mark.parametrize("width", [1280, 390])
def test_what_tab_reaches_is_seen(configurator: Page, width: int) -> None:
    """WCAG 2.2, 2.4.11 Focus Not Obscured."""
    configurator.set_viewport_size({"width": width, "height": 860})
    configurator.locator("#configurator .row input:enabled").last.focus()
    hidden = []
    for _ in range(60):
        configurator.keyboard.press("Shift+Tab")
        configurator.wait_for_timeout(150)
        if seen := configurator.evaluate(FOCUS_SEEN):
            hidden.append(seen)
    assert hidden == []


def test_the_keyboard_can_skip_to_the_trip(configurator: Page) -> None:
    configurator.keyboard.press("Tab")
    assert configurator.evaluate("document.activeElement.hash") == "#verdict"
    configurator.keyboard.press("Tab")
    configurator.keyboard.press("Enter")
    for _ in range(3):
        configurator.keyboard.press("Tab")
        if configurator.evaluate("document.activeElement.id") == "in-place":
            break
    assert configurator.evaluate("document.activeElement.id") == "in-place"


def test_nothing_is_wider_than_a_telephone(configurator: Page) -> None:
    configurator.set_viewport_size({"width": 390, "height": 844})
    assert configurator.evaluate("document.documentElement.scrollWidth") == 390
    # What scrolls by itself holds what is placed in it, or unseen words in it would widen the page.
    loose = configurator.evaluate(
        """() => [...document.querySelectorAll(".sheet *")].filter((e) => {
          const s = getComputedStyle(e);
          return /auto|scroll/.test(s.overflowX + s.overflowY) && s.position === "static" && e.querySelector(".vh");
        }).map((e) => e.className)"""
    )
    assert loose == []


def test_paper_shows_counts_beside_names_and_no_empty_boxes(configurator: Page) -> None:
    configurator.emulate_media(media="print")
    laid_over = configurator.evaluate(
        """() => [...document.querySelectorAll(".row.chosen")].filter((row) => {
          const name = row.querySelector(".name");
          const box = document.createRange();
          box.selectNodeContents(name);
          const left = box.getBoundingClientRect().left;
          return [...row.querySelectorAll(".pick input")].some((e) => e.getBoundingClientRect().right > left);
        }).map((row) => row.id)"""
    )
    assert laid_over == []
    assert not configurator.locator("#in-title").is_visible()
    configurator.emulate_media(media="screen")
    configurator.locator("#in-title").fill("Winter van")
    configurator.emulate_media(media="print")
    assert configurator.locator("#in-title").is_visible()


def test_the_index_leads_to_the_very_chapter(configurator: Page) -> None:
    """Chapters out of sight are not laid out, and their estimated heights must not make a jump miss."""
    page = configurator
    tops = []
    for target in ("#sums", "#ch-gas", "#ch-inverter", "#ch-safety", "#trip"):
        page.evaluate("scrollTo(0, 0)")
        page.locator(f".index a[href='{target}']").first.click()
        page.wait_for_timeout(600)
        tops.append(page.evaluate("(t) => document.querySelector(t).getBoundingClientRect().top", target))
    assert all(0 <= top < 320 for top in tops), tops
