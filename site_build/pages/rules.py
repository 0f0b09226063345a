"""The handbook: one page per rule, made from the rule itself, its examples worked out by the engine."""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable
from itertools import groupby

from engine.catalogue.quantities import suffix_of
from engine.rule import Example, Inputs, Rule, Source, in_region
from engine.rules import all_rules
from engine.saying import say
from engine.spelling import begun, spelled
from engine.units import System
from site_build.pages.amounts import unit_name
from site_build.pages.facts import value_text
from site_build.pages.markdown import front, table, text
from site_build.pages.own_units import formula_of, in_own_units
from site_build.progress import SiteProblem

TOPIC_TITLES = {
    "choices": "Choices that go together",
    "mass": "Mass and axles",
    "roof": "Roof",
    "power": "Electricity",
    "warmth": "Warmth",
    "water": "Water",
    "gas": "Gas and alarms",
    "space": "Seats and beds",
    "money": "Money",
}
_CATEGORIES = {
    "safety": "Safety: getting it wrong can hurt somebody.",
    "legal": "Legal: a limit that the law or a plate sets.",
    "function": "Function: whether the build does what it is for.",
    "comfort": "Comfort: how well it does it.",
}
_REGIONS = {"us": "United States", "eu": "European Union", "uk": "United Kingdom", "au": "Australia"}


def handbook_pages(rules: Iterable[Rule], system: System, currency: str, region: str) -> dict[str, str]:
    """`handbook/index.md` and one page for each rule that the region has, with its own examples where they show a
    law. Raises `SiteProblem` when a rule lacks a part of its page."""
    every = _asked_in(region, rules)
    pages = {"handbook/index.md": _index(every, system)}
    for rule in every:
        pages[f"handbook/{rule.code}.md"] = _page(rule, system, currency, region)
    return pages


def _asked_in(region: str, rules: Iterable[Rule]) -> list[Rule]:
    return [rule for rule in rules if in_region(rule.regions, region)]


def handbook_nav(rules: Iterable[Rule], system: System, region: str) -> list[dict[str, object]]:
    """Pages of the handbook by topic, for the navigation."""
    nav: list[dict[str, object]] = [{"Overview": "handbook/index.md"}]
    for topic, group in groupby(_asked_in(region, rules), key=lambda rule: rule.topic):
        nav.append({TOPIC_TITLES[topic]: [{spelled(r.title, system): f"handbook/{r.code}.md"} for r in group]})
    return nav


def _index(rules: list[Rule], system: System) -> str:
    parts = [
        front("Handbook"),
        "# Handbook\n\nEvery check that a build goes through: what it asks, its formula, its sources and worked "
        "examples. The pages are made from the checks themselves.\n",
    ]
    for topic, group in groupby(rules, key=lambda rule: rule.topic):
        rows = [(f"[{text(spelled(rule.title, system))}]({rule.code}.md)", rule.category) for rule in group]
        parts.append(f"## {TOPIC_TITLES[topic]}\n\n" + table(("Check", "Kind"), rows) + "\n")
    return "\n".join(parts)


def _page(rule: Rule, system: System, currency: str, region: str) -> str:
    question, why = _docstring(rule, system)
    title = spelled(rule.title, system)
    examples = [e for e in rule.examples() if e.shown_in(region)]
    missing = [
        name
        for name, value in (
            ("a docstring", question),
            ("a source", rule.sources),
            ("a formula", rule.formula),
            ("an example that passes", any(e.verdict in ("ok", "tight", "note") for e in examples)),
            ("two examples", len(examples) > 1),
        )
        if not value
    ]
    if missing:
        raise SiteProblem(f"The rule {rule.code} has no page without {', '.join(missing)}.")
    parts = [front(title), f"# {text(title)}\n\n*{text(question)}*\n\n{why}\n"]
    if rule.caution:
        parts.append(f'!!! danger "Caution"\n    {text(spelled(rule.caution, system))}\n')
    formula, said = formula_of(rule.formula, system, region)
    # A part of a formula to a line; what is wider than a telephone wraps (assets/site.css).
    formula = formula.replace("; ", ";\n")
    parts.append(f"{_CATEGORIES[rule.category]}\n\n## Formula\n\n```{{.text .formula}}\n{formula}\n```\n")
    if said:
        parts.append(f"{text(said)}\n")
    parts.append("## What goes in\n\n" + _inputs(rule, system) + "\n")
    parts.append("## Worked examples\n\n" + _examples(rule, examples, system, currency))
    if rule.remedy:
        parts.append(f"## What helps\n\n{_helps(rule, examples, system, currency)}\n")
    parts.append("## Sources\n\n" + "".join(f"- {_source(s, region)}\n" for s in rule.sources_in(region)))
    parts.append(f"\nIn the engine since {text(rule.since)} as `{rule.code}`.\n")
    return "\n".join(parts)


def _docstring(rule: Rule, system: System) -> tuple[str, str]:
    """The question and the reason, from the docstring of the rule's file."""
    module = sys.modules[rule.read.__module__]
    first, _, rest = in_own_units((module.__doc__ or "").strip(), system).partition("\n\n")
    return " ".join(first.split()), "\n\n".join(_linked(part, system) for part in rest.split("\n\n") if part.strip())


_CODE = re.compile(r"\\`\\`([a-z-]+)\\`\\`")


def _linked(words: str, system: System) -> str:
    """Words of which a check's code, between double backticks, has become a link to its page."""
    titles = {rule.code: spelled(rule.title, system) for rule in all_rules()}
    return _CODE.sub(lambda found: f"[{text(titles[found[1]])}]({found[1]}.md)", text(words))


def _inputs(rule: Rule, system: System) -> str:
    rows = []
    for name, field in rule.inputs.model_fields.items():
        extra = field.json_schema_extra
        if not isinstance(extra, dict):  # ids, and words for the finding
            continue
        unit = unit_name((suffix_of(name) or "").removeprefix("_"), system)
        rows.append((text(in_own_units(field.description or name, system)), unit, str(extra.get("origin", ""))))
    return table(("Value", "Unit", "From"), rows) if rows else "The choices themselves.\n"


def _examples(rule: Rule, examples: list[Example], system: System, currency: str) -> str:
    """Each example with its inputs, what the engine finds and how it says it. Names in it are ours, and so spelled for
    the reader too."""
    parts = []
    for example in examples:
        inputs = _example_inputs(rule, example, system)
        finding = say(rule, inputs, system, currency)
        given = [
            text(in_own_units(f"{f.description or name} {_fragment(value_text(name, value, system))}", system))
            for name, f in rule.inputs.model_fields.items()
            if f.json_schema_extra
            and name in inputs.model_fields_set
            and (value := getattr(inputs, name)) not in (None, (), "")
        ]
        note = in_own_units(begun(example.note), system)
        parts.append(f"**{text(note)}: {finding.verdict}.** {text(finding.cause)}\n")
        if given:
            parts.append(f"*Given: {'; '.join(given)}.*\n")
    return "\n".join(parts)


def _example_inputs(rule: Rule, example: Example, system: System) -> Inputs:
    """An example's inputs, words of it in the reader's units as a build's would be."""
    return rule.inputs.model_validate(
        {k: in_own_units(v, system) if isinstance(v, str) else v for k, v in example.inputs.items()}
    )


def _fragment(words: str) -> str:
    """What may be a sentence of its own or the tail of one, as a part of another; a unit keeps its stop."""
    words = words.strip(" ,;")
    return words if words.endswith("w.c.") else words.removesuffix(".")


def _helps(rule: Rule, examples: list[Example], system: System, currency: str) -> str:
    """What helps. Where the words depend on the build, as they are said of an example that needs help."""
    if "{" not in rule.remedy:
        return text(spelled(rule.remedy, system))
    for example in sorted(examples, key=lambda e: e.verdict != "fails"):
        finding = say(rule, _example_inputs(rule, example, system), system, currency)
        if finding.remedy:
            return f"For the example “{text(in_own_units(example.note, system))}”: {text(finding.remedy)}"
    raise SiteProblem(f"The rule {rule.code} has no page without an example of what helps.")


def _source(source: Source, region: str) -> str:
    """A source in words. Where the region has none of its own, it is said whose law this is."""
    whose = () if in_region(source.region, region) else (" and ".join(_REGIONS[r] for r in source.region.split()),)
    remarks = (*whose, *((f"compared on {source.checked}",) if source.checked else ()))
    return text(str(source)) + (f" ({'; '.join(remarks)})" if remarks else "")
