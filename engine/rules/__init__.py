"""The rules, one to a file. A new file in this folder is a new rule; there is nothing to register."""

from functools import cache
from importlib import import_module
from pkgutil import iter_modules
from typing import get_args

from engine.build import Build, Figures
from engine.rule import Finding, Rule, Topic
from engine.saying import findings_of

TOPICS = get_args(Topic)
"""In the order in which findings are listed."""


@cache
def all_rules() -> tuple[Rule, ...]:
    """Every rule, by topic and code. Raises ValueError when a file is not named for its rule, or its topic is none."""
    rules: dict[str, Rule] = {}
    for module in iter_modules(__path__):
        rule: Rule = import_module(f"{__name__}.{module.name}").RULE
        if rule.code != module.name.replace("_", "-"):
            raise ValueError(f"engine/rules/{module.name}.py holds the rule {rule.code!r}; name both alike")
        if rule.topic not in TOPICS:
            raise ValueError(f"engine/rules/{module.name}.py has the topic {rule.topic!r}; known: {', '.join(TOPICS)}")
        rules[rule.code] = rule
    return tuple(sorted(rules.values(), key=lambda r: (TOPICS.index(r.topic), r.code)))


def judge(build: Build, figures: Figures) -> tuple[Finding, ...]:
    """Every rule's findings on a build, by topic."""
    return tuple(f for rule in all_rules() for f in findings_of(rule, build, figures))
