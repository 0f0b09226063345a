"""The price, with tax, stays within the buyer's budget."""

from decimal import Decimal

from engine.build import Build, Figures
from engine.rule import COMMON_PRACTICE, JUST_ENOUGH, AtMost, Example, Inputs, Rule, fact


class Budget(Inputs):
    """Price and budget."""

    price: Decimal = fact("price with tax", "computed", ge=0)
    budget: Decimal = fact("most the buyer wants to pay", "chosen", gt=0)


def read(build: Build, figures: Figures) -> Budget | None:
    """Nothing to ask without a budget."""
    if build.trip.budget is None:
        return None
    dearest = sorted(build.parts, key=lambda p: -p.price)[:2]
    return Budget(options=tuple(p.option.id for p in dearest), price=figures.money.total, budget=build.trip.budget)


def judge(x: Budget) -> AtMost:
    """Price against budget; spending all of it is no reason for a warning."""
    return AtMost(float(x.price), float(x.budget), "money", tight_from=JUST_ENOUGH)


RULE = Rule(
    code="budget",
    title="Price against the budget",
    topic="money",
    category="comfort",
    inputs=Budget,
    read=read,
    judge=judge,
    formula="vehicle + parts + labour + tax ≤ budget",
    sources=(COMMON_PRACTICE,),
    says={
        "ok": "{measured} with tax, {margin} within the budget of {limit}.",
        "fails": "{measured} with tax, {over} over the budget of {limit}.",
    },
    remedy="Leave something out, or do part of the work later.",
    examples=lambda: (
        Example({"price": "89000", "budget": "90000"}, "ok", "a little to spare"),
        Example({"price": "90000", "budget": "90000"}, "ok", "exactly the budget"),
        Example({"price": "90001", "budget": "90000"}, "fails", "over by one"),
    ),
)
