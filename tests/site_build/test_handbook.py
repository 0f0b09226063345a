"""Handbook pages are finished sentences in the reader's units."""

import dataclasses
import re

import pytest

from engine.rule import Rule, in_region
from engine.rules import all_rules
from engine.spelling import AMERICAN, spelled
from engine.units import System
from site_build.pages.rules import handbook_nav, handbook_pages
from site_build.progress import SiteProblem

SHOPS: tuple[tuple[System, str], ...] = (("us", "USD"), ("metric", "GBP"))


def plain(page: str) -> str:
    return page.replace("\\", "")


@pytest.mark.parametrize(("system", "currency"), SHOPS)
def test_what_helps_has_no_name_left_in_it(system: System, currency: str) -> None:
    region = "us" if system == "us" else "uk"
    pages = handbook_pages(all_rules(), system, currency, region)
    depending = 0
    for rule in (r for r in all_rules() if in_region(r.regions, region)):
        helps = plain(pages[f"handbook/{rule.code}.md"]).partition("## What helps\n\n")[2].partition("\n")[0]
        assert helps.endswith(".") and "{" not in helps
        if "{" not in rule.remedy:
            assert helps == spelled(rule.remedy, system)
            continue
        depending += 1
        assert helps.startswith("For the example “")
        # The placeholders are filled: what stands between the remedy's own words is something else than their names.
        fixed = [re.escape(part) for part in re.split(r"\{[^}]*\}", spelled(rule.remedy, system))]
        filled = re.search("(.*)".join(fixed) + "$", helps)
        assert filled, helps
        names = re.findall(r"\{([^}:]*)", rule.remedy)
        assert not set(filled.groups()) & {n.replace("_", " ") for n in names}
    assert depending


def test_a_rule_whose_help_no_example_shows_stops_the_site() -> None:
    rule = next(r for r in all_rules() if "{" in r.remedy)
    fine = tuple(e for e in rule.examples() if e.verdict in ("ok", "note"))
    lacking: Rule = dataclasses.replace(rule, examples=lambda: fine * 2)
    with pytest.raises(SiteProblem, match=rule.code):
        handbook_pages([lacking], "metric", "GBP", "uk")


def test_units_of_what_goes_in_are_the_readers() -> None:
    page = handbook_pages(all_rules(), "us", "USD", "us")["handbook/heater-capacity.md"]
    assert "| BTU/h |" in page and "| W |" not in page and "| °F |" in page
    assert "| W |" in handbook_pages(all_rules(), "metric", "GBP", "uk")["handbook/heater-capacity.md"]


@pytest.mark.parametrize(
    ("system", "region", "has", "lacks"),
    [
        ("us", "us", ("bus of 29,800 lb",), ("C1", "van of exactly", "rigid")),
        ("metric", "uk", ("van of exactly 3,500 kg", "C1"), ("29,800 lb", "rigid", "new directive")),
        ("metric", "au", ("light rigid",), ("C1", "29,800 lb")),
    ],
)
def test_examples_of_a_law_are_the_readers_region(
    system: System, region: str, has: tuple[str, ...], lacks: tuple[str, ...]
) -> None:
    pages = handbook_pages(all_rules(), system, "USD", region)
    shown = plain(pages["handbook/driving-licence.md"]).partition("## Worked examples")[2].partition("## ")[0].lower()
    assert all(words.lower() in shown for words in has) and not any(words.lower() in shown for words in lacks)
    # What no law of one region is about stands in every handbook.
    assert "exactly 95 %" in plain(pages["handbook/gross-mass.md"]).lower()


@pytest.mark.parametrize(("system", "currency"), SHOPS)
def test_given_inputs_are_parts_of_one_sentence(system: System, currency: str) -> None:
    pages = handbook_pages(all_rules(), system, currency, "us" if system == "us" else "uk")
    given = [line for page in pages.values() for line in plain(page).splitlines() if line.startswith("*Given: ")]
    assert len(given) > 300
    for line in given:
        assert not re.search(r" [.,;]|[,;]{2}|\.\.|w\.c(?!\.)", line), line


def test_words_for_a_finding_are_no_inputs() -> None:
    page = handbook_pages(all_rules(), "metric", "GBP", "uk")["handbook/berths.md"]
    assert "sleeping places" in page and "the way out" not in page and "as sentences" not in page


def test_an_american_handbook_is_spelled_so_but_for_names_of_laws() -> None:
    pages = handbook_pages(all_rules(), "us", "USD", "us")
    british = re.compile(rf"\b({'|'.join(AMERICAN)})s?\b", re.IGNORECASE)
    for rule in (r for r in all_rules() if in_region(r.regions, "us")):
        said = plain(pages[f"handbook/{rule.code}.md"]).partition("## Sources")[0]
        assert not british.search(said), (rule.code, british.search(said))
    assert "# Driving license" in pages["handbook/driving-licence.md"]
    assert "# Driving licence" in handbook_pages(all_rules(), "metric", "GBP", "uk")["handbook/driving-licence.md"]
    assert any("Driving license" in str(part) for part in handbook_nav(all_rules(), "us", "us"))


def test_pages_open_with_the_reader_s_own_of_two_units() -> None:
    for system, own in (("us", "each 5 °F below the 68 °F at which"), ("metric", "each 3 °C below the 20 °C at which")):
        page = handbook_pages(all_rules(), system, "USD", "us")["handbook/strut-force.md"]
        assert own in page.replace("\n", " ")


SLIPS = re.compile(r"(?<!\.)\.\.(?!\.)|[,;:] ?[.;,]|(?<=\w) [,.;:](?=\s)|\(\)|\\`|``|: \(|(?<=[^\s|])  (?=[^\s|])")
"""Doubled stops and commas, gaps before them, words of code."""


@pytest.mark.parametrize(("system", "region"), [("us", "us"), ("metric", "uk"), ("metric", "eu"), ("metric", "au")])
def test_pages_have_no_slips_of_punctuation(system: System, region: str) -> None:
    for name, page in handbook_pages(all_rules(), system, "USD", region).items():
        before, _, rest = page.partition("## Formula")
        words = before + rest.partition("## What goes in")[2]
        found = SLIPS.search(words)
        assert not found, (name, words[max(0, found.start() - 60) : found.end() + 20])


def test_a_check_named_in_a_reason_is_a_link() -> None:
    page = handbook_pages(all_rules(), "us", "USD", "us")["handbook/string-voltage-hot.md"]
    title = next(r.title for r in all_rules() if r.code == "string-current-hot")
    assert f"controllers have a check of their own: [{title}](string-current-hot.md)." in page.replace("\\", "")


def test_what_is_told_as_a_fact_stands_on_its_own() -> None:
    """The tail of a sentence is no fact: it is a plain field of the inputs."""
    for rule in all_rules():
        for example in rule.examples():
            for name, value in example.inputs.items():
                if isinstance(value, str) and rule.inputs.model_fields[name].json_schema_extra:
                    assert not re.search(r"^\s*[,;.(]|[,;]\s*$", value), (rule.code, name, value)
