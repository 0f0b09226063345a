"""The sheet can be read and walked by everybody: contrast, keyboard, a narrow screen, paper."""

from __future__ import annotations

import random
import re

import pytest
from playwright.sync_api import Browser, Page

from tests.at_rest import bring, rest
from tests.browser.conftest import DONE, READY, SLOW_ANSWERS, in_the_end, until

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
    # On a busy machine parts are still being painted; what counts is how they stay.
    faint = in_the_end(page, lambda: page.evaluate(TOO_FAINT)["faint"], [])
    read = page.evaluate(TOO_FAINT)["read"]
    page.close()
    assert read > 30
    assert faint == []


@pytest.mark.parametrize("width", [1280, 390])
def test_what_tab_reaches_is_seen(configurator: Page, width: int) -> None:
    """WCAG 2.2, 2.4.11 Focus Not Obscured."""
    configurator.set_viewport_size({"width": width, "height": 860})
    configurator.locator("#configurator .row input:enabled").last.focus()
    for _ in range(60):
        configurator.keyboard.press("Shift+Tab")
        # On a busy machine chapters near it are still being laid out; what counts is how it stays.
        rest(configurator, configurator.evaluate_handle("document.activeElement").as_element())
        assert in_the_end(configurator, lambda: configurator.evaluate(FOCUS_SEEN), "") == ""


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


def test_a_telephone_shows_every_word_of_the_five_figures_whole(configurator: Page) -> None:
    configurator.set_viewport_size({"width": 390, "height": 844})
    configurator.evaluate(
        "document.querySelectorAll('.bar .foot .mark').forEach((m) => m.lastChild.data = ' not known')"
    )
    cut = configurator.evaluate(
        """() => [...document.querySelectorAll(".bar .label, .bar .value, .bar .foot .mark")].flatMap((e) => {
          const box = e.closest(".cell").getBoundingClientRect(), broken = [];
          for (const text of [...e.childNodes].filter((n) => n.nodeType === Node.TEXT_NODE))
            for (const word of text.data.matchAll(/\\S+/g)) {
              const range = document.createRange();
              range.setStart(text, word.index);
              range.setEnd(text, word.index + word[0].length);
              const lines = [...range.getClientRects()];
              const tops = new Set(lines.map((line) => Math.round(line.top)));
              if (tops.size > 1 || lines.some((line) => line.right > box.right + 0.5)) broken.push(word[0]);
            }
          return broken.concat(e.closest(".foot")?.scrollWidth > e.closest(".foot")?.clientWidth ? [e.innerText] : []);
        })"""
    )
    assert cut == []


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


def test_paper_unfolds_chapters_and_of_the_rest_only_what_the_reader_had_unfolded(configurator: Page) -> None:
    page = configurator
    folds = "[...document.querySelectorAll('#configurator .know')]"
    shown = f"{folds}.filter((fold) => fold.checkVisibility()).length"
    page.emulate_media(media="print")
    page.evaluate("document.querySelector('details.chapter').open = false")
    page.evaluate(f"{folds}[2].open = true")
    until(page, f"{folds}[2].matches('[data-unfolded]')")
    # So it is with every theme that unfolds all for print. That a fold was moved is told to the page some time later.
    page.evaluate("window.told = 0; addEventListener('toggle', () => (told += 1), { capture: true })")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    until(page, f"told >= {folds}.length - 1")
    assert page.evaluate(f"{folds}.every((fold) => fold.open) && {folds}.length > 4")
    assert page.evaluate(shown) == 1 and page.evaluate(f"{folds}[2].checkVisibility()")
    assert page.evaluate("document.querySelector('details.chapter .row.chosen').checkVisibility()")
    assert not page.evaluate("document.querySelector('#wiring').checkVisibility()")
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    page.emulate_media(media="screen")
    assert page.evaluate(f"{folds}.filter((fold) => fold.open).length") == 1
    page.emulate_media(media="print")
    assert len(re.findall(rb"/Type /Page\n", page.pdf(format="Letter"))) in range(8, 20)


@pytest.mark.parametrize("width", [390, 1280])
def test_what_a_note_knows_is_read_in_words_and_not_letter_by_letter(configurator: Page, width: int) -> None:
    page = configurator
    page.set_viewport_size({"width": width, "height": 900})
    page.evaluate("document.querySelectorAll('.know').forEach((fold) => (fold.open = true))")
    widths = page.evaluate("[...document.querySelectorAll('.know dt')].map((t) => t.getBoundingClientRect().width)")
    assert len(widths) > 10 and min(widths) > 60


def test_a_telephone_has_a_name_for_each_figure_of_a_row_and_its_chapters_in_a_fold(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    named = []
    for row in ("#veh-van", "#opt-heater-diesel-hydronic"):
        bring(page, row)
        named += page.locator(f"{row} .fig").all_inner_texts()
    assert [text.split()[0] for text in named] == ["Gross", "Price", "To", "Mass", "Parts", "Work"]
    assert (
        page.evaluate("Math.max(...[...document.querySelectorAll('.fig')].map((f) => f.getBoundingClientRect().right))")
        <= 390
    )
    assert not page.locator("#index").is_visible()
    page.locator("#chapters summary").click()
    entries = page.evaluate("[...document.querySelectorAll('#index a')].map((a) => a.getBoundingClientRect())")
    assert all(e["left"] >= 0 and e["right"] <= 390 and e["height"] >= 44 for e in entries)


def test_what_is_pressed_stays_under_the_finger(page: Page, address: str) -> None:
    """Far down the page much changes above: the verdict, drawings, chapters that take on their height only now."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    until(page, DONE)
    chance = random.Random(5)
    boxes = page.evaluate("[...document.querySelectorAll('[name=opt]:not(:disabled)')].map((box) => box.id)")
    for box in chance.sample(boxes, 8):
        bring(page, f"#{box}")
        place = page.locator(f"#{box}").bounding_box()
        assert place is not None
        answers = page.get_attribute("#configurator", "data-answers")
        page.mouse.click(place["x"] + 8, place["y"] + 8)
        until(page, f"document.getElementById('configurator').dataset.answers !== '{answers}'")
        until(page, DONE)
        rest(page, f"#{box}")
        now = page.locator(f"#{box}").bounding_box()
        assert now is not None and abs(now["y"] - place["y"]) < 2, box


def test_what_is_read_stays_where_it_is_when_slow_figures_come(page: Page, address: str) -> None:
    """The reader has scrolled on from what was pressed, and the chapter of the battery grows by its charts above."""
    page.add_init_script(SLOW_ANSWERS)
    page.goto(address + "configurator/")
    page.wait_for_selector(READY)
    until(page, DONE)
    page.evaluate("document.addEventListener('loadstead:answer', () => { window.held = [] }, { once: true })")
    page.locator("#in-battery-12v-300").click()
    until(page, "document.getElementById('opt-battery-12v-300').matches('.chosen')")
    bring(page, "#in-galley-48")
    measured = """[
      document.getElementById('in-galley-48').getBoundingClientRect().top,
      document.getElementById('ch-battery').getBoundingClientRect().height,
      document.getElementById('configurator').dataset.later,
    ]"""
    top, height, later = page.evaluate(measured)
    assert later == "working"
    page.evaluate("release()")
    until(page, DONE)
    rest(page, "#in-galley-48")
    then_top, then_height, _ = page.evaluate(measured)
    assert abs(then_height - height) > 20
    assert abs(then_top - top) < 2


def test_the_index_leads_to_the_very_chapter(configurator: Page) -> None:
    """Chapters out of sight are not laid out, and their estimated heights must not make a jump miss."""
    page = configurator
    tops = []
    for target in ("#sums", "#ch-gas", "#ch-inverter", "#ch-safety", "#trip"):
        page.evaluate("scrollTo(0, 0)")
        page.locator(f".index a[href='{target}']").first.click()
        until(page, "scrollY > 0")
        rest(page, target)
        tops.append(page.evaluate("(t) => document.querySelector(t).getBoundingClientRect().top", target))
    assert all(0 <= top < 320 for top in tops), tops
