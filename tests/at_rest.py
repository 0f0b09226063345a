"""Waiting for what a page is still laying out, told by its frames and not by the clock: a busy machine takes longer."""

from __future__ import annotations

from playwright.sync_api import ElementHandle, Page

PATIENCE_S = 45.0

# Chapters that come into sight take on their height only in the frames after, and move what is below them.
_AT_REST = """async ([place, block, patience_ms]) => {
  const found = () => (typeof place === "string" ? document.querySelector(place) : place);
  const top = () => found().getBoundingClientRect().y;
  const end = performance.now() + patience_ms;
  for (let still = 0, last = null; still < 5; still = last === (last = top()) ? still + 1 : 0) {
    if (performance.now() > end) return false;
    if (block) found().scrollIntoView({ block, behavior: "instant" });
    await new Promise((painted) => requestAnimationFrame(() => setTimeout(painted)));
  }
  return !block || found().checkVisibility({ contentVisibilityAuto: true });
}"""


def bring(page: Page, place: str | ElementHandle, block: str = "center") -> None:
    """Scroll until an element, or the first that a selector names, stays in the window and is laid out there.

    block: which part of the window; as `scrollIntoView` of the CSSOM View Module names them.
    """
    assert page.evaluate(_AT_REST, [place, block, PATIENCE_S * 1000]), f"never in sight: {place}"


def rest(page: Page, place: str | ElementHandle) -> None:
    """Wait until an element has been at one place of the window for several frames."""
    assert page.evaluate(_AT_REST, [place, None, PATIENCE_S * 1000]), f"never at rest: {place}"
