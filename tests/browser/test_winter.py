"""Charts of warmth and damp in a browser: they follow a pick, and on a phone no words meet."""

from __future__ import annotations

from playwright.sync_api import Page

from tests.browser.test_energy import LISTENING, pick, settle

MEETING = """
['warmth-wall', 'warmth-heat', 'warmth-damp', 'warmth-night'].flatMap((id) => {
  const svg = document.querySelector(`#${id} svg`), frame = svg.getBoundingClientRect();
  const words = [...svg.querySelectorAll('text')].map((t) => [t.textContent, t.getBoundingClientRect()]);
  return words.flatMap(([a, p], i) => [
    ...(p.left < frame.left - 6 || p.right > frame.right + 12 ? [`${id}: ${a} is cut off`] : []),
    ...words.slice(i + 1)
      .filter(([, q]) => p.left < q.right - 1 && q.left < p.right - 1 && p.top < q.bottom - 3 && q.top < p.bottom - 3)
      .map(([b]) => `${id}: ${a} meets ${b}`),
  ]);
})
"""


def test_winter_is_drawn_when_it_is_chosen_and_reads_on_a_phone(page: Page, address: str) -> None:
    page.set_viewport_size({"width": 390, "height": 844})
    page.add_init_script(LISTENING)
    page.goto(address + "configurator/")
    settle(page)
    before = page.text_content("#warmth-heat figcaption")
    place = "{ const s = document.getElementById('in-place'); s.value = 'helsinki'; "
    pick(page, place + "s.dispatchEvent(new Event('change', { bubbles: true })) }")
    after = page.text_content("#warmth-heat figcaption")
    assert after and after != before
    assert page.evaluate("document.querySelectorAll('#warmth-wall .ply').length") > 1
    assert page.evaluate(MEETING) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
