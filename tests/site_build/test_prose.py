"""Hand-written pages: each reader has one spelling and one system of units; code, comments and addresses stay."""

import doctest
import re
from pathlib import Path

import pytest

from engine.spelling import AMERICAN, BOTH
from engine.units import System
from site_build.pages import prose
from site_build.pages.prose import regional
from site_build.prepare import DOCS

PAGES = sorted(DOCS.glob("*.md"))
CODE = re.compile(r"^```.*?^```|`(?:[^`\n]|\n(?!\n))+`|<!--.*?-->", re.DOTALL | re.MULTILINE)
METRIC = re.compile(r"(?:[^.;|]|\.(?=\d))*\d (?:mm|cm|m|m²|m³|K|°C|Pa|W/\(m²·K\))(?![\w/²³])[^.;|]*")
US = re.compile(r"(?:[^.;|]|\.(?=\d))*\d (?:in|ft|ft²|ft³|°F|lb|in w\.c\.)(?!\w)[^.;|]*")
TOLD_SO_EVERYWHERE = ("33 CFR 183.425", "ISO 13297", "150 lb in the United States", "40 °C, 104 °F")
"""American cable is sold by its insulation's Celsius, laws are cited in their own units, and so are shop files."""


def told(page: Path, system: System) -> str:
    """A page's words as that reader has them, in one line to a paragraph."""
    words = CODE.sub("`", regional(page.read_text(encoding="utf-8"), system))
    return re.sub(r"\n(?=\S)(?!\||- )", " ", words)


def test_worked_examples_hold() -> None:
    assert doctest.testmod(prose).failed == 0


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.stem)
def test_a_page_keeps_to_one_spelling(page: Path) -> None:
    both = {"curb", "license", "meter", "mold", "tire", "program", "draft"}
    british = re.compile(rf"\w*(?:{'|'.join(AMERICAN)})s?\b", re.IGNORECASE)
    american = re.compile(rf"\b(?:{'|'.join(set(AMERICAN.values()) - both)})s?\b", re.IGNORECASE)
    assert british.findall(told(page, "us")) == []
    assert american.findall(told(page, "metric")) == []


@pytest.mark.parametrize("page", PAGES, ids=lambda p: p.stem)
@pytest.mark.parametrize(("system", "foreign"), [("us", METRIC), ("metric", US)])
def test_a_page_keeps_to_one_system_of_units(page: Path, system: System, foreign: re.Pattern[str]) -> None:
    strange = [said for said in foreign.findall(told(page, system)) if not any(so in said for so in TOLD_SO_EVERYWHERE)]
    assert strange == []


def test_quantities_in_both_units_agree() -> None:
    """What stands in brackets is the same quantity: rounded by a fifteenth at most."""
    factors = {"in": 0.0254, "ft": 0.3048, "ft²": 0.3048**2, "ft³": 0.3048**3, "in w.c.": 249.0889, "K": 1 / 1.8}
    factors["gal"] = 0.003785412
    sizes = {"mm": 0.001, "cm": 0.01, "L": 0.001}
    seen = 0
    for page in PAGES:
        for ours, theirs in BOTH.findall(page.read_text(encoding="utf-8")):
            if theirs == "1/2 in":
                continue  # the step of an American drawing, no other name of 10 mm
            (a, unit), (b, other) = (re.split(r"\s", part.replace(" to ", "…"), maxsplit=1) for part in (ours, theirs))
            for n, m in zip(a.split("…"), b.split("…"), strict=True):
                metric, us = (float(x.replace("−", "-").replace(",", "")) for x in (n, m))
                if unit == "°C":
                    assert us == pytest.approx(metric * 1.8 + 32, abs=0.6), (ours, theirs)
                elif other.startswith("BTU"):
                    assert us == pytest.approx(metric / 5.678263, rel=0.03), (ours, theirs)
                else:
                    si = us * factors["K" if unit == "K" else other]
                    near = pytest.approx(metric * sizes.get(unit, 1), rel=1 / 15, abs=0.16 if other == "ft" else 0)
                    assert si == near, (ours, theirs)
                seen += 1
    assert seen > 80


def test_code_comments_and_addresses_stay() -> None:
    page = "Tyres: `tyres = 4`\n\n```toml\n[tyres]\n```\n\n<!-- grey --> [kerb](kerb.md#tyres) `a = {\ngrey }` grey\n"
    assert regional(page, "us") == (
        "Tires: `tyres = 4`\n\n```toml\n[tyres]\n```\n\n<!-- grey --> [curb](kerb.md#tyres) `a = {\ngrey }` gray\n"
    )
    assert regional(page, "metric") == page


def test_the_safety_page_of_each_region() -> None:
    us, metric = (regional((DOCS / "safety.md").read_text(encoding="utf-8"), s) for s in ("us", "metric"))
    for american, british in (("tire", "tyre"), ("licenses", "licences"), ("wrench", "spanner"), ("cooktop", "hob")):
        assert american in us and british not in us
        assert british in metric and american not in metric
