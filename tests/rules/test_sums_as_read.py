"""Three numbers of one sentence make a sum: what is over or left is the difference of the other two as read."""

from decimal import Decimal

import pytest

from engine.rule import Holds, Noted, Rule, Softened
from engine.rules import all_rules
from engine.saying import _Words
from engine.units import System

SIDES = ("measured", "limit", "margin")


def numbers(rule: Rule, system: System) -> list[tuple[Decimal, ...]]:
    """Measure, limit and margin of each example whose sentence has all three, as a reader takes them from it."""
    found = []
    for example in rule.examples():
        inputs = rule.inputs.model_validate(dict(example.inputs))
        judgement = rule.judge(inputs)
        of = judgement.of if isinstance(judgement, Softened | Noted) else judgement
        said = rule.says[judgement.verdict()].replace("{over", "{margin")
        if isinstance(of, Holds) or of.unit in ("money", "d") or not all("{" + side in said for side in SIDES):
            continue
        told = [str(_Words(inputs, of, system, "USD")[side]).partition(" ") for side in SIDES]
        thousands = [1000 if unit.startswith("kW") else 1 for _, _, unit in told]
        plain = (n.replace(",", "").replace("−", "-") for n, _, _ in told)
        found.append(tuple(Decimal(n) * k for n, k in zip(plain, thousands, strict=True)))
    return found


@pytest.mark.parametrize("system", ["us", "metric"])
def test_what_is_over_or_left_is_the_difference_as_read(system: System) -> None:
    seen = 0
    for rule in all_rules():
        for measured, limit, margin in numbers(rule, system):
            assert abs(measured - limit) == margin, (rule.code, measured, limit, margin)
            seen += 1
    assert seen > 30


def test_two_pounds_over_a_rating_are_two_pounds() -> None:
    rule = next(r for r in all_rules() if r.code == "gross-mass")
    assert (Decimal(7718), Decimal(7716), Decimal(2)) in numbers(rule, "us")
    assert (Decimal(3501), Decimal(3500), Decimal(1)) in numbers(rule, "metric")
