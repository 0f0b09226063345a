"""The drawings on the page: no words on one another, a part and its line light up together, modules moved by hand."""

import math
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from engine.build.figures import Figures
from engine.desk import set_scene, start_enquiry
from engine.document import figures_document
from engine.enquiry.door import from_link, to_link
from engine.enquiry.model import Enquiry
from site_build.serve import SiteServer
from tests.at_rest import bring
from tests.browser.conftest import DONE, READY, in_the_end, served, until
from tests.browser.test_same_numbers import differences, expected
from tests.shops import catalogue, enquiry, resolver

LISTENING = "window.answers = []; document.addEventListener('loadstead:answer', (e) => window.answers.push(e.detail));"
LIT = re.compile(r"\blit\b")
DESK, PHONE = {"width": 1280, "height": 900}, {"width": 390, "height": 844}
UNDER_BAR = """document.querySelector("{}").getBoundingClientRect().top
  >= document.querySelector(".bar").getBoundingClientRect().bottom"""
MEETING = """() => {
  const found = [];
  for (const svg of document.querySelectorAll("#drawings svg")) {
    const words = [...svg.querySelectorAll("text")].map((t) => [t.textContent, t.getBoundingClientRect()]);
    for (const [i, [one, a]] of words.entries())
      for (const [other, b] of words.slice(i + 1))
        if (Math.min(a.right, b.right) - Math.max(a.left, b.left) > 0.5
          && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0.5)
          found.push(`${svg.querySelector("title").textContent}: ${one} on ${other}`);
  }
  return found;
}"""
OUTSIDE = """() => [...document.querySelectorAll("#drawings svg")].flatMap((svg) => {
  const box = svg.getBoundingClientRect();
  return [...svg.querySelectorAll("text")].filter((t) => {
    const r = t.getBoundingClientRect();
    return r.left < box.left - 1 || r.right > box.right + 1 || r.top < box.top - 1 || r.bottom > box.bottom + 1;
  }).map((t) => `${svg.querySelector("title").textContent}: ${t.textContent}`);
})"""


@pytest.fixture(scope="module", params=["quillback", "hallamoor"])
def shop(request: pytest.FixtureRequest, sites: Callable[[str], Path]) -> Iterator[tuple[str, str]]:
    """A workshop's name and where its site is served."""
    with served(SiteServer(sites(request.param))) as server:
        yield request.param, server.address


def opened(chromium: Browser, address: str, link: str = "", touch: bool = False, **options: Any) -> Page:
    """The configurator with a build, answered by the engine."""
    context = chromium.new_context(viewport=PHONE if touch else DESK, has_touch=touch, **options)
    page = context.new_page()
    page.add_init_script(LISTENING)
    page.goto(f"{address}configurator/{'#' + link if link else ''}")
    page.wait_for_selector(READY)
    page.wait_for_selector("#draw-day [data-move]", state="attached")
    return page


def shown(page: Page) -> Enquiry:
    """The enquiry in the page's address, which a page has once something was picked."""
    link, name = page.evaluate("[location.hash, document.getElementById('configurator').dataset.workshop]")
    return from_link(link) if link else start_enquiry(catalogue(name))


def figures_of(name: str, asked: Enquiry) -> Figures:
    """CPython's figures."""
    return set_scene(resolver(name), asked).figures


def figures(name: str, asked: Enquiry) -> dict[str, Any]:
    """The same as the page gets them."""
    return figures_document(figures_of(name, asked))


def same_as_here(page: Page, name: str) -> None:
    """The page's last answer has CPython's figures, the slow ones as far as it has them."""
    answer = page.evaluate("window.answers.at(-1)")
    assert differences(expected(name, shown(page), answer)[0], answer["figures"]) == []


def ready_links(name: str) -> list[str]:
    return [to_link(enquiry(name, r.vehicle, dict(r.options))) for r in catalogue(name).ready]


def modules(page: Page) -> list[str]:
    return page.eval_on_selector_all("#draw-day [data-move]", "all => all.map((m) => m.dataset.part)")


def side_by_side(page: Page, name: str, side: str) -> str:
    """A module that stands at a side wall and has room to go back."""
    plan = figures_of(name, shown(page)).plan
    inside = plan.inside
    end_m = inside.bare_length_m - inside.rear_m
    return next(
        p.option_id
        for p in plan.day
        if p.movable and p.piece == 0 and p.side == side and p.z_m < 1 and p.x_m + p.length_m < end_m - 0.3
    )


@pytest.mark.parametrize("viewport", ["desk", "phone"])
def test_no_words_of_a_drawing_meet_or_are_cut_off(chromium: Browser, shop: tuple[str, str], viewport: str) -> None:
    name, address = shop
    for link in ready_links(name):
        page = opened(chromium, address, link, touch=viewport == "phone")
        assert page.locator("#drawings svg").count() == 5
        assert page.locator("#draw-day .tag text").count() > 2
        assert page.evaluate(MEETING) == []
        assert page.evaluate(OUTSIDE) == []
        page.context.close()


@pytest.mark.parametrize("viewport", ["desk", "phone"])
def test_a_part_and_its_line_light_up_together(chromium: Browser, shop: tuple[str, str], viewport: str) -> None:
    page = opened(chromium, shop[1], touch=viewport == "phone")
    module = modules(page)[0]
    line = page.locator(f'#parts-list tr[data-part="{module}"]')
    drawn = page.locator(f'#draw-day .part[data-part="{module}"]').first
    body = drawn.locator("> rect").first
    # From the list to the drawings, by keyboard.
    line.locator("a").focus()
    expect(drawn).to_have_class(LIT)
    lit = page.eval_on_selector_all(".lit", "all => [...new Set(all.map((m) => m.dataset.part))]")
    assert lit == [module]
    # From the drawing to the list; the list shows the line without scrolling the page.
    page.locator("#in-title").focus()
    expect(line).not_to_have_class(LIT)
    if viewport == "phone":
        body.tap(position={"x": 6, "y": 6})
    else:
        body.hover(position={"x": 6, "y": 6})
    expect(line).to_have_class(LIT)
    in_the_list = """(({ top, bottom }, list) => top >= list.top && bottom <= list.bottom + 1)(
      document.querySelector('#parts-list tr[data-part="{}"]').getBoundingClientRect(),
      document.getElementById("parts-list").getBoundingClientRect())"""
    until(page, in_the_list.replace("{}", module))
    page.context.close()


def test_light_survives_an_answer(chromium: Browser, shop: tuple[str, str]) -> None:
    page = opened(chromium, shop[1])
    module = modules(page)[0]
    page.locator(f'#parts-list tr[data-part="{module}"] a').focus()
    page.evaluate("document.getElementById('configurator').requestSubmit()")
    until(page, "window.answers.length >= 2")
    lit = page.eval_on_selector_all(".lit", "all => [...new Set(all.map((m) => m.dataset.part))]")
    assert lit == [module]
    page.context.close()


def test_keys_alone_move_a_module_and_the_axles_follow(chromium: Browser, shop: tuple[str, str]) -> None:
    name, address = shop
    page = opened(chromium, address)
    module = side_by_side(page, name, "left")
    before = figures(name, shown(page))
    handle = page.locator(f'#draw-day [data-move][data-part="{module}"]')
    handle.focus()
    for presses in range(1, 4):
        page.keyboard.press("ArrowRight")
        until(page, f"window.answers.length === {presses + 1}")
    # The focus is where it was, although the drawing has been drawn anew.
    assert page.evaluate("document.activeElement.dataset.part") == module
    asked = shown(page)
    assert asked.moves.keys() == {module}
    after = figures(name, asked)
    same_as_here(page, name)
    rear = [key for key in after if "rear" in key and "axle" in key]
    assert rear
    assert any(after[key] != before[key] for key in rear)
    # What is drawn is where the engine has put it: the focused handle too was drawn anew.
    handle_m = [float(handle.get_attribute(a)) / 100 for a in ("x", "y", "width", "height")]
    place = next(p for p in figures_of(name, asked).plan.day if p.option_id == module and p.piece == 0)
    width_m = catalogue(name).vehicles_by_id[asked.vehicle].cabin.width_m
    drawn_m = (place.x_m, width_m - place.y_m - place.depth_m, place.length_m, place.depth_m)
    assert all(math.isclose(a, b, abs_tol=2e-4) for a, b in zip(handle_m, drawn_m, strict=True))
    assert math.isclose(place.x_m, asked.moves[module].x_m, abs_tol=6e-4)
    # Over to the other wall and back to the engine's own place.
    page.keyboard.press("s")
    until(page, "window.answers.length === 5")
    assert shown(page).moves[module].side == "right"
    page.keyboard.press("Delete")
    until(page, "window.answers.length === 6")
    assert shown(page).moves == {}
    same_as_here(page, name)
    page.context.close()


def test_presses_faster_than_answers_add_up(chromium: Browser, shop: tuple[str, str]) -> None:
    name, address = shop
    page = opened(chromium, address)
    module = side_by_side(page, name, "left")
    start_m = float(page.locator(f'#draw-day [data-move][data-part="{module}"]').get_attribute("data-move").split()[0])
    page.evaluate(
        """(id) => { for (let i = 0; i < 4; i++) document.querySelector(`#draw-day [data-move][data-part="${id}"]`)
          .dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true })); }""",
        module,
    )
    step_m, snap_m = (0.0508, 0.0127) if catalogue(name).workshop.units == "us" else (0.05, 0.01)
    goal_m = start_m + 4 * step_m

    def moved() -> bool:
        move = shown(page).moves.get(module)
        return move is not None and abs(move.x_m - goal_m) <= snap_m / 2 + 1e-6

    assert in_the_end(page, moved, True), shown(page).moves
    # They add up once.
    until(page, DONE)
    assert moved()
    page.context.close()


def test_dragging_drops_a_module_on_the_grid(chromium: Browser, shop: tuple[str, str]) -> None:
    name, address = shop
    page = opened(chromium, address)
    module = side_by_side(page, name, "left")
    handle = page.locator(f'#draw-day [data-move][data-part="{module}"]')
    start_m, _ = map(float, handle.get_attribute("data-move").split())
    box = handle.bounding_box()
    px_per_m = page.evaluate("document.querySelector('#draw-day svg').getScreenCTM().a") * 100
    x, y = box["x"] + 5, box["y"] + box["height"] - 5
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 10, y)
    page.mouse.move(x + 0.2 * px_per_m, y)
    page.mouse.up()
    until(page, "window.answers.length === 2")
    move = shown(page).moves[module]
    snap_m = 0.0127 if catalogue(name).workshop.units == "us" else 0.01
    assert move.side == "left"
    assert abs(move.x_m - (start_m + 0.2)) < snap_m / 2 + 0.5 / px_per_m
    assert math.isclose(move.x_m / snap_m, round(move.x_m / snap_m), abs_tol=1e-3)
    same_as_here(page, name)
    assert page.locator("#draw-day [data-move][transform]").count() == 0
    # A reload brings the arrangement back from the link.
    page.reload()
    page.wait_for_selector(READY)
    assert shown(page).moves[module] == move
    page.context.close()


def stroke(page: Page, x: float, y: float, *way: tuple[float, float]) -> None:
    """A finger put down and drawn along a way from there, in steps as a screen reports them."""
    session = page.context.new_cdp_session(page)
    session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    last = (0.0, 0.0)
    for goal in way:
        for share in (k / 8 for k in range(1, 9)):
            page.wait_for_timeout(30)
            dx, dy = (a + share * (b - a) for a, b in zip(last, goal, strict=True))
            session.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": [{"x": x + dx, "y": y + dy}]})
        last = goal
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def corner(page: Page, module: str) -> tuple[float, float]:
    """A place on a module where nothing else is drawn over it, in sight and with room above."""
    handle = f'#draw-day [data-move][data-part="{module}"]'
    bring(page, handle)
    box = page.locator(handle).bounding_box()
    return box["x"] + 5, box["y"] + box["height"] - 5


@pytest.mark.parametrize("viewport", [PHONE, {"width": 1000, "height": 844}], ids=["phone", "tablet"])
def test_a_finger_moves_the_module_it_holds_as_a_mouse_does(
    chromium: Browser, shop: tuple[str, str], viewport: dict[str, int]
) -> None:
    name, address = shop
    moved = []
    for by_finger in (False, True):
        page = opened(chromium, address, touch=True)
        page.set_viewport_size(viewport)
        module = side_by_side(page, name, "left")
        x, y = corner(page, module)
        dx = 0.2 * page.evaluate("document.querySelector('#draw-day svg').getScreenCTM().a") * 100
        if by_finger:
            page.touchscreen.tap(x, y)
            expect(page.locator(f'[data-tool="{module}"]')).to_be_visible()
            x, y = corner(page, module)
            # Farther than any browser waits before it takes a stroke for scrolling.
            stroke(page, x, y, (80, 0), (dx, 0))
        else:
            page.mouse.move(x, y)
            page.mouse.down()
            page.mouse.move(x + 80, y, steps=8)
            page.mouse.move(x + dx, y, steps=8)
            page.mouse.up()
        until(page, "window.answers.length === 2")
        moved.append(shown(page).moves)
        assert moved[-1].keys() == {module}
        same_as_here(page, name)
        assert page.locator("#draw-day [data-move][transform]").count() == 0
        page.context.close()
    assert moved[0] == moved[1]


def test_a_finger_scrolls_the_page_across_the_plan(chromium: Browser, shop: tuple[str, str]) -> None:
    name, address = shop
    page = opened(chromium, address, touch=True)
    module = side_by_side(page, name, "left")
    held = page.locator("#draw-day [data-move].held")
    # Over a module that nobody holds, and beside one that is held.
    x, y = corner(page, module)
    before = page.evaluate("scrollY")
    stroke(page, x, y, (0, -150))
    until(page, f"scrollY > {before} + 100")
    expect(held).to_have_count(1)
    x, y = corner(page, module)
    box = page.locator("#draw-day svg").bounding_box()
    before = page.evaluate("scrollY")
    stroke(page, x, box["y"] + 2, (0, -150))
    until(page, f"scrollY > {before} + 100")
    expect(held).to_have_count(0)
    assert page.evaluate("window.answers.length") == 1
    page.context.close()


def test_a_telephone_moves_modules_with_buttons(chromium: Browser, shop: tuple[str, str]) -> None:
    name, address = shop
    page = opened(chromium, address, touch=True)
    module = side_by_side(page, name, "left")
    page.locator(f'#draw-day [data-move][data-part="{module}"]').tap(position={"x": 6, "y": 6})
    tool = page.locator(f'[data-tool="{module}"]')
    expect(tool).to_be_visible()
    assert page.locator("[data-tool]:visible").count() == 1
    for button in tool.locator("button").all():
        box = button.bounding_box()
        assert box["height"] >= 44
        assert box["width"] >= 44
        assert box["x"] + box["width"] <= PHONE["width"]
    tool.get_by_role("button", name="Other side").tap()
    until(page, "window.answers.length === 2")
    assert shown(page).moves[module].side == "right"
    expect(page.locator(f'[data-tool="{module}"]')).to_be_visible()
    tool.get_by_role("button", name="Automatic").tap()
    until(page, "window.answers.length === 3")
    assert shown(page).moves == {}
    assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]
    page.context.close()


@pytest.mark.parametrize("motion", ["reduce", "no-preference"])
@pytest.mark.parametrize("height", [PHONE["height"], 640])
def test_each_drawing_is_brought_whole_into_the_window_of_a_telephone(
    chromium: Browser, shop: tuple[str, str], height: int, motion: str
) -> None:
    page = opened(chromium, shop[1], touch=True, reduced_motion=motion)
    page.set_viewport_size({"width": PHONE["width"], "height": height})
    for link in page.locator(".views a").all():
        link.tap()
        expect(link).to_have_attribute("aria-current", "true")
        drawing = f"{link.get_attribute('href')} svg"
        expect(page.locator(drawing)).to_be_in_viewport(ratio=0.99)
        until(page, UNDER_BAR.format(drawing))
        assert page.locator(".views [aria-current]").count() == 1
    page.context.close()


def test_with_scripts_off_the_plan_is_a_picture(chromium: Browser, shop: tuple[str, str]) -> None:
    context = chromium.new_context(viewport=DESK, java_script_enabled=False)
    page = context.new_page()
    page.goto(shop[1] + "configurator/")
    expect(page.locator("#draw-day svg[role=img]")).to_be_visible()
    assert page.locator("#drawings [tabindex], #draw-day button").count() == 0
    assert page.locator("#parts-list tbody tr").count() > 5
    context.close()
