"""The builders' part: schedule, one-line diagram and list, on page and paper."""

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from markupsafe import Markup

from engine.desk import set_scene
from engine.sheets.one_line import TEXT, WIDTH
from engine.sheets.page import configurator_html, fragments, report_html
from engine.sheets.view import Scene
from tests.shops import catalogue, enquiry, resolver

READY = [(shop, r.id) for shop in ("quillback", "hallamoor") for r in catalogue(shop).ready]
EM = 12.0


def scene(shop: str, ready: str | None, **options: int) -> Scene:
    """A scene of one build."""
    named = {k.replace("_", "-"): n for k, n in options.items()}
    return set_scene(resolver(shop), enquiry(shop, ready=ready, options=named))


def sheets(html: str) -> list[ElementTree.Element]:
    """The diagrams in a part."""
    found = re.findall(r"<svg[^>]*one-line.*?</svg>", html, re.DOTALL)
    return [ElementTree.fromstring(svg) for svg in found]


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_the_schedule_names_every_circuit_once(shop: str, ready: str) -> None:
    shown = scene(shop, ready)
    html = fragments(shown)["wiring-plan"]
    numbers = re.findall(r'<th scope="row"><b>(\w+)</b>', html)
    assert numbers == [x.number for x in sorted(shown.figures.circuits.lines, key=lambda x: "BCDM".index(x.number[0]))]
    assert "licensed electrician" in html and "NaN" not in html and "None" not in html


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_the_diagram_shows_every_circuit_and_no_words_meet(shop: str, ready: str) -> None:
    shown = scene(shop, ready)
    drawn = sheets(fragments(shown)["wiring-plan"])
    assert len(drawn) == 3
    seen = set()
    for svg in drawn:
        ids = {e.get("id") for e in svg.iter() if e.get("id")}
        assert set((svg.get("aria-labelledby") or "").split()) <= ids
        assert svg.find("title") is not None and len(svg.find("desc").text or "") > 40  # type: ignore[union-attr]
        width, height = map(float, (svg.get("viewBox") or "").split()[2:])
        rows: dict[float, list[tuple[float, float]]] = {}
        for t in svg.iter("text"):
            x, y, words = float(t.get("x") or 0), float(t.get("y") or 0), t.text or ""
            assert x >= 0 and 6 <= y <= height - 6
            if t.get("class") != "in":
                assert x + len(words) * 0.6 * EM <= width, words
                rows.setdefault(y, []).append((x, x + len(words) * 0.6 * EM))
            if m := re.match(r"([BCDM]\d+) ", words):
                assert x == TEXT
                seen.add(m[1])
        ys = sorted(rows)
        assert all(b - a >= EM for a, b in pairwise(ys)), "lines of words are too close"
        assert all(len(spans) == 1 for spans in rows.values())
        assert width == WIDTH
    assert seen == {x.number for x in shown.figures.circuits.lines}


def test_what_cannot_be_wired_is_marked() -> None:
    html = fragments(scene("proving-yard", None, lfp_100=4, inverter_6000=1))["wiring-plan"]
    assert "none found" in html and "no usual cable is enough" in html.casefold()
    assert re.search(r'class="box trouble"', html)


def test_page_and_paper_have_the_same_schedule() -> None:
    shown = scene("hallamoor", "dry-stone")
    part = fragments(shown)["wiring-plan"]
    page, paper = configurator_html(shown), report_html(shown, "")
    assert part in page and part in paper
    assert re.search(r'<details class="chapter wiring" id="wiring"><summary', page), "folded, shut, on the page"
    assert '<section class="chapter wiring"' in paper


def test_words_of_a_workshop_stay_words() -> None:
    shown = scene("hallamoor", "dry-stone")
    html = fragments(shown)["wiring-plan"]
    assert isinstance(Markup(html), Markup)
    ElementTree.fromstring(f"<x>{html}</x>")


def test_a_build_without_electricity_says_so() -> None:
    html = fragments(set_scene(resolver("proving-yard"), enquiry("proving-yard", "plain-van", {})))["wiring-plan"]
    assert "Nothing electric is chosen" in html and "<table" not in html


def test_lengths_are_in_the_reader_s_units() -> None:
    us, metric = (fragments(scene(*b))["wiring-plan"] for b in (("quillback", "two-up-van"), ("hallamoor", "lapwing")))
    assert re.search(r'data-l="Length">\d+ ft<', us) and " AWG" in us and " mm²" not in us
    assert re.search(r'data-l="Length">[\d.]+ m<', metric) and " mm²" in metric and "AWG" not in metric
