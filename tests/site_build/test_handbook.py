"""Handbook pages are finished sentences in the reader's units."""

import dataclasses
import re

import pytest

from engine.rule import Rule
from engine.rules import all_rules
from engine.units import System
from site_build.pages.rules import handbook_pages
from site_build.progress import SiteProblem

SHOPS: tuple[tuple[System, str], ...] = (("us", "USD"), ("metric", "GBP"))


def plain(page: str) -> str:
    return page.replace("\\", "")


@pytest.mark.parametrize(("system", "currency"), SHOPS)
def test_what_helps_has_no_name_left_in_it(system: System, currency: str) -> None:
    pages = handbook_pages(all_rules(), system, currency)
    depending = 0
    for rule in all_rules():
        helps = plain(pages[f"handbook/{rule.code}.md"]).partition("## What helps\n\n")[2].partition("\n")[0]
        assert helps.endswith(".") and "{" not in helps
        if "{" not in rule.remedy:
            assert helps == rule.remedy
            continue
        depending += 1
        assert helps.startswith("For the example “")
        # The placeholders are filled: what stands between the remedy's own words is something else than their names.
        fixed = [re.escape(part) for part in re.split(r"\{[^}]*\}", rule.remedy)]
        filled = re.search("(.*)".join(fixed) + "$", helps)
        assert filled, helps
        names = re.findall(r"\{([^}:]*)", rule.remedy)
        assert not set(filled.groups()) & {n.replace("_", " ") for n in names}
    assert depending


def test_a_rule_whose_help_no_example_shows_stops_the_site() -> None:
    rule = next(r for r in all_rules() if "{" in r.remedy)
    fine = tuple(e for e in rule.examples if e.verdict in ("ok", "note"))
    lacking: Rule = dataclasses.replace(rule, examples=fine * 2)
    with pytest.raises(SiteProblem, match=rule.code):
        handbook_pages([lacking], "metric", "GBP")


def test_units_of_what_goes_in_are_the_readers() -> None:
    page = handbook_pages(all_rules(), "us", "USD")["handbook/heater-capacity.md"]
    assert "| BTU/h |" in page and "| W |" not in page and "| °F |" in page
    assert "| W |" in handbook_pages(all_rules(), "metric", "GBP")["handbook/heater-capacity.md"]
