"""Every rule's worked examples run, and every rule has all that its handbook page and its readers need."""

import re
from collections.abc import Iterator
from decimal import Decimal
from importlib import import_module

import pytest
from pydantic import ValidationError

from engine.catalogue.facets import AnyFacet
from engine.catalogue.shapes import kind_of, models_in
from engine.physics.ranges import OutOfRangeError
from engine.rule import COMMON_PRACTICE, EXACT, Example, Finding, Holds, Inputs, Noted, Rule, Softened
from engine.rules import all_rules
from engine.saying import say
from engine.units import System

RULES = all_rules()
SYSTEMS: tuple[tuple[System, str], ...] = (("us", "USD"), ("metric", "EUR"))
SERIOUS = ("ok", "note", "tight", "fails")
CAUTIOUS_WORDS = {
    "gas", "monoxide", "smoke", "battery", "inverter", "mains", "alternator", "solar", "axle", "mass", "roof-load",
    "belted",
}  # fmt: skip
"""Subjects in which a mistake can hurt somebody, by words of the rules' codes."""

EVERY_EXAMPLE = [pytest.param(r, e, id=f"{r.code}: {e.note}") for r in RULES for e in r.examples()]
EVERY_RULE = [pytest.param(r, id=r.code) for r in RULES]


def facet_kinds() -> set[str]:
    """Kinds of all facets that an option can have."""
    return {kind for model in models_in(AnyFacet) if (kind := kind_of(model))}


def assert_readable(rule: Rule, found: Finding) -> None:
    """The finding's sentences are whole, in a reader's words, with a way out of every warning."""
    for text in (found.cause, found.remedy):
        assert not re.search(r"[{}]|\bNone\b|\bnan\b|\binf\b|\bTrue\b|\bFalse\b", text), text
        assert not re.search(r"[−-]0(\.0*)?(?![.\d])", text), text
        assert not re.search(r"\w_\w|Inputs|AtMost|AtLeast", text), text
        assert "  " not in text and not re.search(r" [.,;:)]|\( ", text) and not text.startswith(" "), text
    assert re.match(r"[“A-Z0-9−$€]", found.cause), found.cause
    assert found.cause.endswith((".", "?", "!")), found.cause
    assert bool(found.remedy) == (found.verdict in ("tight", "fails")), rule.code


def compared(rule: Rule, inputs: Inputs) -> tuple[float, float] | None:
    """Measure and limit of a judgement with a number, else None."""
    judgement = rule.judge(inputs)
    of = judgement.of if isinstance(judgement, Softened | Noted) else judgement
    return None if isinstance(of, Holds) else (of.measured, of.limit)


def variants(rule: Rule) -> Iterator[Inputs]:
    """The rule's examples with each number moved a little and a lot, as far as the model takes it."""
    for example in rule.examples():
        start = rule.inputs.model_validate(dict(example.inputs))
        for name in rule.inputs.model_fields:
            value = getattr(start, name)
            if isinstance(value, bool):
                changed: list[object] = [not value]
            elif isinstance(value, (float, int, Decimal)):
                changed = [type(value)(float(value) * f) for f in (0, 0.01, 0.5, 0.9, 0.96, 1, 1.04, 1.1, 2, 100)]
                changed += [type(value)(-30)]
            else:
                continue
            for other in changed:
                try:
                    moved = rule.inputs.model_validate(dict(example.inputs) | {name: other})
                    rule.judge(moved)
                except (ValidationError, OutOfRangeError):
                    continue
                yield moved


@pytest.mark.parametrize(("rule", "example"), EVERY_EXAMPLE)
def test_an_example_has_its_verdict_and_reads_well(rule: Rule, example: Example) -> None:
    inputs = rule.inputs.model_validate(dict(example.inputs))
    for system, currency in SYSTEMS:
        found = say(rule, inputs, system, currency)
        assert found.verdict == example.verdict, found.cause
        assert_readable(rule, found)


@pytest.mark.parametrize("rule", EVERY_RULE)
def test_every_verdict_within_reach_has_words(rule: Rule) -> None:
    seen = 0
    for inputs in variants(rule):
        seen += 1
        for system, currency in SYSTEMS:
            found = say(rule, inputs, system, currency)
            assert_readable(rule, found)
    assert seen >= 2


@pytest.mark.parametrize("rule", EVERY_RULE)
def test_examples_show_the_good_the_worst_and_the_limit(rule: Rule) -> None:
    shown = {e.verdict for e in rule.examples()}
    assert "ok" in shown
    reached = {rule.judge(i).verdict() for i in variants(rule)} | shown
    worst = max(reached, key=SERIOUS.index)
    assert worst in shown, f"no example for {worst}"
    assert set(rule.says) == reached, "words for verdicts that are never given, or verdicts without words"
    pairs = [compared(rule, rule.inputs.model_validate(dict(e.inputs))) for e in rule.examples()]
    numbers = [p for p in pairs if p]
    if numbers:
        at_limit = [(m, x) for m, x in numbers if abs(m - x) <= EXACT * max(1.0, abs(x))]
        assert at_limit, "no example exactly at the limit"


@pytest.mark.parametrize("rule", EVERY_RULE)
def test_exactly_at_the_limit_is_never_a_fail(rule: Rule) -> None:
    for inputs in variants(rule):
        pair = compared(rule, inputs)
        if pair and pair[0] == pair[1]:
            assert rule.judge(inputs).verdict() in ("ok", "tight")


@pytest.mark.parametrize("rule", EVERY_RULE)
def test_a_rule_has_all_that_its_page_needs(rule: Rule) -> None:
    module = import_module("engine.rules." + rule.code.replace("-", "_"))
    assert rule is module.RULE
    question = (module.__doc__ or "").strip()
    assert question.split("\n")[0].endswith("."), "the docstring opens with the question in one sentence"
    assert rule.title and not rule.title.endswith(".")
    assert rule.formula
    assert rule.remedy.endswith(".")
    assert rule.sources
    for source in rule.sources:
        assert source.title
        # Practice that everybody shares has no edition; anything published says where, and what was compared and when.
        if source.title == COMMON_PRACTICE.title:
            continue
        assert source.where, source
        if source.checked:
            assert re.fullmatch(r"20\d\d-\d\d-\d\d", source.checked)
    for function in (rule.read, rule.judge, rule.inputs):
        assert function.__doc__
    for name, field in rule.inputs.model_fields.items():
        assert field.description, name
    if rule.category == "safety" or any(word in rule.code for word in CAUTIOUS_WORDS):
        assert rule.caution.endswith("."), "its subject can hurt somebody"


@pytest.mark.parametrize("rule", EVERY_RULE)
def test_a_rule_points_to_things_that_exist(rule: Rule) -> None:
    codes = {r.code for r in RULES}
    assert set(rule.follows) <= codes - {rule.code}
    assert rule.offers in facet_kinds() | {""}


def test_codes_and_titles_are_unique() -> None:
    assert len(RULES) >= 35
    assert len({r.code for r in RULES}) == len(RULES)
    assert len({r.title for r in RULES}) == len(RULES)


@pytest.mark.parametrize("rule", EVERY_RULE)
def test_sentences_are_short_and_blame_nobody(rule: Rule) -> None:
    for text in (*rule.says.values(), rule.remedy, rule.caution):
        for sentence in re.split(r"(?<=[.!?]) ", text):
            assert len(sentence.split()) <= 30, sentence
        assert not re.search(r"\b(invalid|illegal|error|wrong|you must|please)\b", text, re.IGNORECASE), text
