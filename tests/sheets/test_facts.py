"""What a finding rests on, as people write it."""

import re
from decimal import Decimal

import pytest

from engine.desk import set_scene
from engine.rules import all_rules
from engine.saying import say
from engine.sheets.notes import fact_text
from engine.units import money
from tests.shops import catalogue, enquiry, resolver


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_every_fact_of_every_example_is_a_number_that_people_write(shop):
    workshop, told = catalogue(shop).workshop, 0
    for rule in all_rules():
        for example in rule.examples():
            finding = say(rule, rule.inputs.model_validate(example.inputs), workshop.units, workshop.currency)
            for fact in finding.facts:
                text = fact_text(fact, workshop.units, workshop.currency)
                assert not re.search(r"\de[+-]?\d", text), (rule.code, fact)
                told += 1
    assert told > 500


def test_a_budget_is_told_in_money():
    scene = set_scene(resolver("quillback"), enquiry("quillback", "box", budget=Decimal("90000")))
    (found,) = (f for f in scene.findings if f.rule == "budget")
    facts = {f.name: fact_text(f, "us", "USD") for f in found.facts}
    assert facts["most the buyer wants to pay"] == "$90,000"
    assert facts["price with tax"] == money(scene.figures.money.total, "USD")
