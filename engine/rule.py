"""What a rule is, and what it says: inputs, judgement, finding.

A rule's file has ``read`` (from a build and its figures to inputs, or what is not known), ``judge`` (from inputs to a
comparison) and one ``RULE``. Everything shown about the rule, its handbook page and its tests come from these.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any, Literal, NamedTuple

from pydantic import BaseModel, ConfigDict, Field

from engine.build import Build, Figures
from engine.catalogue.quantities import suffix_of
from engine.spelling import spelled
from engine.units import System, money, show

Verdict = Literal["ok", "tight", "fails", "unknown", "note"]
Category = Literal["safety", "legal", "function", "comfort"]
Topic = Literal["choices", "mass", "roof", "power", "warmth", "water", "gas", "space", "money"]
Origin = Literal["chosen", "catalogue", "computed", "assumed", "regulation"]

EXACT = 1e-9
"""Relative difference below which two figures count as equal: exactly at a limit never fails."""


class Inputs(BaseModel):
    """What a rule judges: plain values, frozen, in ranges, none of them NaN or infinite."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    options: tuple[str, ...] = Field(default=(), description="ids of the options involved")


def fact(description: str, origin: Origin, **limits: Any) -> Any:
    """A field of a rule's inputs: its meaning, where the value comes from, and its range (gt, ge, lt, le, default)."""
    return Field(description=description, json_schema_extra={"origin": origin}, **limits)


class Unknown(NamedTuple):
    """Something the rule needs and nobody stated: the field, and where a person reads it."""

    field: str
    ask: str
    options: tuple[str, ...] = ()


class AtMost(NamedTuple):
    """``measured`` must not exceed ``limit``. ``high`` beyond the limit makes an ok tight: the truth may lie there."""

    measured: float
    limit: float
    unit: str
    tight_from: float = 0.9
    low: float | None = None
    high: float | None = None

    def verdict(self) -> Verdict:
        """ok, tight from ``tight_from`` of the limit, fails above it."""
        if self.measured > self.limit + EXACT * max(1.0, abs(self.limit)):
            return "fails"
        near = self.measured >= self.limit - (1 - self.tight_from) * abs(self.limit) - EXACT * abs(self.limit)
        return "tight" if near or (self.high is not None and self.high > self.limit) else "ok"

    @property
    def margin(self) -> float:
        """What is left; negative when it fails."""
        return self.limit - self.measured


class AtLeast(NamedTuple):
    """``measured`` must reach ``limit``; tight while it exceeds it by less than a tenth or so."""

    measured: float
    limit: float
    unit: str
    tight_from: float = 0.9
    low: float | None = None
    high: float | None = None

    def verdict(self) -> Verdict:
        """ok, tight when the limit is ``tight_from`` or more of the measure, fails below it."""
        if self.measured < self.limit - EXACT * max(1.0, abs(self.limit)):
            return "fails"
        near = self.limit >= self.tight_from * self.measured - EXACT * abs(self.limit)
        return "tight" if near or (self.low is not None and self.low < self.limit) else "ok"

    @property
    def margin(self) -> float:
        """What is left over the limit; negative when it fails."""
        return self.measured - self.limit


class Holds(NamedTuple):
    """A plain yes or no, without a number."""

    holds: bool
    otherwise: Verdict = "fails"

    def verdict(self) -> Verdict:
        """ok, or the stated verdict."""
        return "ok" if self.holds else self.otherwise


class Softened(NamedTuple):
    """A comparison whose failure is no fault of the build, only worth knowing: it is never worse than ``worst``."""

    of: AtMost | AtLeast
    worst: Verdict

    def verdict(self) -> Verdict:
        """The comparison's verdict, softened."""
        return self.worst if self.of.verdict() != "ok" else "ok"


Judgement = AtMost | AtLeast | Holds | Softened


class Source(NamedTuple):
    """A published source, or the plain statement that this is common practice."""

    title: str
    where: str = ""
    checked: str = ""
    """Day on which somebody last compared the rule with it; empty for common practice and own assumptions."""

    def __str__(self) -> str:
        return f"{self.title}, {self.where}" if self.where else self.title


COMMON_PRACTICE = Source("Common practice")


class Example(NamedTuple):
    """A worked example: shown on the rule's page, run as a test."""

    inputs: Mapping[str, Any]
    verdict: Verdict
    note: str


class Fact(NamedTuple):
    """One value a finding rests on, with its origin."""

    name: str
    value: float | str | bool
    unit: str | None
    origin: Origin


class Finding(NamedTuple):
    """One rule's word on a build."""

    rule: str
    title: str
    topic: Topic
    category: Category
    verdict: Verdict
    measured: float | None
    low: float | None
    high: float | None
    limit: float | None
    unit: str | None
    margin: float | None
    cause: str
    remedy: str
    options: tuple[str, ...]
    offers: str
    """Facet kind of the options that could help, to place the finding when none is chosen yet."""
    facts: tuple[Fact, ...]
    because: tuple[str, ...]
    """Codes of the rules whose findings this one follows from."""
    sources: tuple[str, ...]
    missing: str | None = None


@dataclass(frozen=True, kw_only=True, eq=False)
class Rule:
    """One question the engine asks of every build."""

    code: str
    title: str
    topic: Topic
    category: Category
    inputs: type[Inputs]
    read: Callable[[Build, Figures], Inputs | Unknown | Sequence[Inputs | Unknown] | None]
    judge: Callable[[Any], Judgement]
    formula: str
    sources: tuple[Source, ...]
    says: Mapping[Verdict, str]
    """The cause, for each verdict the rule can give; placeholders are input fields, {measured}, {limit}, {margin} and
    {band}, the measure's band in brackets with its space before it. See `_Said` for one and many."""
    remedy: str
    """What the reader can change; same placeholders."""
    examples: tuple[Example, ...]
    offers: str = ""
    follows: tuple[str, ...] = ()
    caution: str = ""
    """Shown wherever the rule's subject can hurt somebody."""
    since: str = "0.1"


def sentence(words: str) -> str:
    """A workshop's own words as a sentence: they may be a fragment, and stand on their own in a finding."""
    words = words.strip()
    return words[:1].upper() + words[1:] + ("" if words.endswith((".", "!", "?")) else ".")


def chance_words(exceed_frac: float) -> str:
    """A sentence, with its space before it, on the chance that a limit is exceeded; none where it is all but sure."""
    if not 0.01 <= exceed_frac <= 0.99:
        return ""
    return f" The chance that it is over is {exceed_frac * 100:.0f} %."


def listed(names: Iterable[str]) -> str:
    """Names in a row; where one has a comma of its own, semicolons stand between them."""
    every = tuple(names)
    return ("; " if any("," in name for name in every) else ", ").join(every)


def mass_unknown(build: Build, ids: Iterable[str], options: tuple[str, ...]) -> Unknown:
    """The masses of these options, which the catalogue does not state, as something not known."""
    names = listed(build.option_names[i] for i in ids)
    return Unknown(f"mass of {names}", "Weigh it, or copy it from its data sheet.", options)


class _Said(str):
    """A value in words that chooses the words which depend on its number.

    ``{n:# bed|# beds}`` is "1 bed" or "2 beds"; of three forms the first is for nothing: ``{n:no bed|# bed|# beds}``.
    """

    __slots__ = ()

    def __format__(self, forms: str) -> str:
        if not forms:
            return str(self)
        *none, one, many = forms.split("|")
        number = self.partition(" ")[0]
        form = none[0] if none and number in ("0", "") else one if number == "1" else many
        return form.replace("#", str(self))


class _Words(dict[str, str]):
    """Placeholders for a sentence, rendered when asked for."""

    def __init__(self, inputs: Inputs, judged: AtMost | AtLeast | None, system: System, currency: str) -> None:
        super().__init__()
        self._inputs, self._judged, self._system, self._currency = inputs, judged, system, currency
        self._finer = _places(judged, system) if judged is not None else 0

    def __missing__(self, key: str) -> str:
        return _Said(self._band() if key == "band" else self._text(key))

    def _band(self) -> str:
        """How wide the measure's band is, with its space before it; nothing where both ends read alike."""
        of = self._judged
        if of is None or of.low is None or of.high is None:
            return ""
        low, high = (show(x, of.unit, self._system, self._finer) for x in (of.low, of.high))
        return "" if low == high else f" (between {low} and {high})"

    def _text(self, key: str) -> str:
        if self._judged is not None and key in ("measured", "limit", "margin", "over"):
            value = abs(self._judged.margin) if key in ("margin", "over") else getattr(self._judged, key)
            if key in ("margin", "over") and self._judged.unit == "degc":
                return show(value, "k", self._system)
            if self._judged.unit == "money":
                return money(Decimal(str(round(value, 2))), self._currency)
            return show(value, self._judged.unit, self._system, self._finer)
        value = getattr(self._inputs, key)
        if isinstance(value, Decimal):
            return money(value, self._currency)
        suffix = suffix_of(key)
        if isinstance(value, float) and suffix:
            return show(value, suffix[1:], self._system)
        if isinstance(value, float):
            return f"{value:,.0f}" if abs(value) >= 100 else f"{value:.3g}"
        return ", ".join(value) if isinstance(value, tuple) else str(value)


def _places(judged: AtMost | AtLeast, system: System) -> int:
    """Decimal places to add so that a measure and a limit that differ do not read alike ("3 days, not 3 days")."""
    if judged.unit == "money" or abs(judged.margin) <= EXACT * max(1.0, abs(judged.limit)):
        return 0
    for finer in (0, 1, 2):
        pair = (show(x, judged.unit, system, finer) for x in (judged.measured, judged.limit))
        if len(set(pair)) == 2:
            return finer
    return 3


@lru_cache(maxsize=256)
def _told(model: type[Inputs], system: System) -> tuple[tuple[str, str, str | None, Origin], ...]:
    """(field, meaning, unit, origin) of the inputs that are told as facts."""
    found = []
    for name, field in model.model_fields.items():
        if isinstance(field.json_schema_extra, dict):
            suffix = suffix_of(name)
            origin: Any = field.json_schema_extra["origin"]
            found.append((name, spelled(field.description or name, system), suffix[1:] if suffix else None, origin))
    return tuple(found)


def _facts(inputs: Inputs, system: System) -> tuple[Fact, ...]:
    found = []
    for name, meaning, unit, origin in _told(type(inputs), system):
        value = getattr(inputs, name)
        if value is not None and not isinstance(value, tuple):
            told = value if isinstance(value, (str, bool)) else float(value)
            found.append(Fact(meaning, told, unit, origin))
    return tuple(found)


@lru_cache(maxsize=16384)
def say(rule: Rule, inputs: Inputs, system: System, currency: str) -> Finding:
    """Judge inputs and put the result into words. The sentence is made last."""
    judgement = rule.judge(inputs)
    verdict = judgement.verdict()
    compared = judgement.of if isinstance(judgement, Softened) else judgement
    judged = None if isinstance(compared, Holds) else compared
    words = _Words(inputs, judged, system, currency)
    return Finding(
        rule=rule.code,
        title=spelled(rule.title, system),
        topic=rule.topic,
        category=rule.category,
        verdict=verdict,
        measured=judged.measured if judged else None,
        low=judged.low if judged else None,
        high=judged.high if judged else None,
        limit=judged.limit if judged else None,
        unit=judged.unit if judged else None,
        margin=judged.margin if judged else None,
        cause=spelled(rule.says[verdict], system).format_map(words),
        remedy=spelled(rule.remedy, system).format_map(words) if verdict in ("tight", "fails") else "",
        options=inputs.options,
        offers=rule.offers,
        facts=_facts(inputs, system),
        because=rule.follows,
        sources=tuple(map(str, rule.sources)),
    )


def _cannot_tell(rule: Rule, unknown: Unknown, system: System) -> Finding:
    return Finding(
        rule=rule.code, title=spelled(rule.title, system), topic=rule.topic, category=rule.category, verdict="unknown",
        measured=None, low=None, high=None, limit=None, unit=None, margin=None,
        cause=spelled(f"Not known: {unknown.field}.", system), remedy=spelled(unknown.ask, system),
        options=unknown.options, offers=rule.offers,
        facts=(), because=rule.follows, sources=tuple(map(str, rule.sources)), missing=unknown.field,
    )  # fmt: skip


def findings_of(rule: Rule, build: Build, figures: Figures) -> list[Finding]:
    """Every finding of one rule on a build; none where the rule does not apply."""
    got = rule.read(build, figures)
    if got is None:
        return []
    # Inputs and Unknown are themselves no lists; a rule that asks several times hands over a list.
    every = got if isinstance(got, list) else [got]
    return [
        _cannot_tell(rule, one, build.workshop.units)
        if isinstance(one, Unknown)
        else say(rule, one, build.workshop.units, build.workshop.currency)
        for one in every
    ]
