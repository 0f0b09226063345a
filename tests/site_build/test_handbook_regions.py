"""A handbook has the checks, the limits and the law of its workshop's region, and says whose any other law is."""

import re
from dataclasses import replace

import pytest

from engine.build import work_out
from engine.rule import in_region
from engine.rules import all_rules, judge
from engine.units import System
from site_build.pages.rules import handbook_nav, handbook_pages
from tests.shops import catalogue, enquiry, resolver

REGIONS = ("us", "eu", "uk", "au")
ONLY_IN = {
    "height-notice": {"uk"}, "speed-limits": {"uk"}, "minimum-payload": {"eu"}, "occupant-cargo-capacity": {"us"},
}  # fmt: skip


def pages_of(region: str) -> dict[str, str]:
    system: System = "us" if region == "us" else "metric"
    return {n: p.replace("\\", "") for n, p in handbook_pages(all_rules(), system, "EUR", region).items()}


@pytest.mark.parametrize("region", REGIONS)
def test_a_check_has_a_page_exactly_where_its_law_holds(region: str) -> None:
    pages, nav = pages_of(region), str(handbook_nav(all_rules(), "metric", region))
    for code, where in ONLY_IN.items():
        has = region in where
        assert (f"handbook/{code}.md" in pages) == (f"handbook/{code}.md" in nav) == has
        assert (f"({code}.md)" in pages["handbook/index.md"]) == has
    assert len(pages) == 1 + len(all_rules()) - sum(region not in where for where in ONLY_IN.values())


@pytest.mark.parametrize("region", REGIONS)
def test_a_check_is_asked_exactly_where_it_has_a_page(region: str) -> None:
    asked: set[str] = set()
    for shop in ("quillback", "hallamoor"):
        for ready in catalogue(shop).ready:
            build = resolver(shop).resolve(enquiry(shop, ready=ready.id))
            build = replace(build, workshop=build.workshop.model_copy(update={"region": region}))
            asked |= {f.rule for f in judge(build, work_out(build))}
    assert asked & ONLY_IN.keys() == {code for code, where in ONLY_IN.items() if region in where}
    assert all(in_region(rule.regions, region) for rule in all_rules() if rule.code in asked)


@pytest.mark.parametrize(
    ("region", "has", "lacks"),
    [
        ("us", ("102 in", "23 CFR 658.15"), ("100.4 in", "Regulations 1986", "96/53", "Design Rule")),
        ("eu", ("2.55 m", "12 m", "96/53"), ("CFR", "1986", "Design Rule", "102 in")),
        ("uk", ("2.55 m", "Regulations 1986"), ("CFR", "96/53", "Design Rule", "102 in")),
        ("au", ("2.5 m", "12.5 m", "Design Rule 43"), ("CFR", "96/53", "1986", "2.55 m")),
    ],
)
def test_the_largest_size_is_the_region_s(region: str, has: tuple[str, ...], lacks: tuple[str, ...]) -> None:
    page = pages_of(region)["handbook/vehicle-size.md"]
    assert all(words in page for words in has) and not any(words in page for words in lacks)


def sources_on(region: str, code: str) -> str:
    return pages_of(region)[f"handbook/{code}.md"].partition("## Sources")[2]


def test_sources_are_the_region_s_own_or_marked() -> None:
    assert "CFR" not in sources_on("uk", "gross-mass") and "(EU) 2021/535" in sources_on("uk", "gross-mass")
    assert "2021/535" not in sources_on("us", "gross-mass") and "49 CFR" in sources_on("us", "gross-mass")
    assert "NFPA 1192" in sources_on("us", "gas-pressure") and "EN 1949" not in sources_on("us", "gas-pressure")
    assert "AS/NZS" in sources_on("au", "gas-pressure") and "NFPA" not in sources_on("au", "gas-pressure")
    # A definition that only the United States wrote down is said to be theirs.
    assert re.search(r"49 CFR 571.3, .*\(United States; compared on 2026-11-25\)", sources_on("uk", "rear-axle-load"))
    assert "United States" not in sources_on("us", "rear-axle-load")
    assert "(European Union and United Kingdom)" in sources_on("us", "steer-axle-share")


@pytest.mark.parametrize(("shop", "has", "lacks"), [
    ("quillback", "49 CFR 383.91(a)", "2006/126"), ("hallamoor", "Regulations 1999", "CFR"),
])  # fmt: skip
def test_a_finding_cites_the_law_of_the_region(shop: str, has: str, lacks: str) -> None:
    build = resolver(shop).resolve(enquiry(shop))
    [licence] = (f for f in judge(build, work_out(build)) if f.rule == "driving-licence")
    assert any(has in s for s in licence.sources) and not any(lacks in s for s in licence.sources)
