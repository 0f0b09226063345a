"""Values that nobody stated are listed by themselves: each names its subject, in no units but the reader's."""

import re

import pytest

from engine.build import work_out
from engine.rules import all_rules, judge
from tests.shops import catalogue, enquiry, resolver

FACTS = [
    (rule.code, name, field.description or "", field.json_schema_extra["origin"])
    for rule in all_rules()
    for name, field in rule.inputs.model_fields.items()
    if isinstance(field.json_schema_extra, dict)
]
ASSUMED = [(code, name, said) for code, name, said, origin in FACTS if origin == "assumed"]


def test_there_are_assumed_facts():
    assert len(ASSUMED) > 15


@pytest.mark.parametrize(("code", "name", "said"), ASSUMED)
def test_an_assumed_value_names_its_subject(code, name, said):
    assert not re.search(r"\b(its|it|that lasts|the same)\b", said), said
    assert len(said.split()) >= 4, said


def test_one_name_stands_for_one_value():
    by_name = {}
    for _, name, said in ASSUMED:
        by_name.setdefault(said, set()).add(name)
    assert {said: names for said, names in by_name.items() if len(names) > 1} == {}


@pytest.mark.parametrize(("code", "name", "said", "origin"), FACTS)
def test_no_fact_is_named_in_metric_units_alone(code, name, said, origin):
    """Where a name has to have a number with a unit, American ones stand beside it."""
    metric = re.search(r"\d ?(kg|mm|cm|m|km|L|L/min|kPa)\b", said)
    assert not metric or re.search(r"\d ?(lb|lb/gal|in|ft|gal)\b", said), said


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_nothing_is_assumed_where_it_plays_no_part(shop):
    """A value of nothing among the assumptions says nothing; where it plays no part it is not told at all."""
    for ready in catalogue(shop).ready:
        build = resolver(shop).resolve(enquiry(shop, ready=ready.id))
        for finding in judge(build, work_out(build)):
            for fact in finding.facts:
                if fact.origin == "assumed" and not isinstance(fact.value, str):
                    assert fact.value > 0, (ready.id, finding.rule, fact.name)
