"""What a rule is, and what it says: inputs, judgement, finding.

A rule's file has ``read`` (from a build and its figures to inputs, or what is not known), ``judge`` (from inputs to a
comparison) and one ``RULE``. Everything shown about the rule, its handbook page and its tests come from these.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal, NamedTuple

from pydantic import BaseModel, ConfigDict, Field
from pydantic._internal._model_construction import ModelMetaclass

from engine.build import Build, Figures
from engine.spelling import begun, in_a_row
from engine.units import show

Verdict = Literal["ok", "tight", "fails", "unknown", "note"]
Category = Literal["safety", "legal", "function", "comfort"]
Topic = Literal["choices", "mass", "roof", "power", "warmth", "water", "gas", "space", "money"]
"""In the order in which findings are listed."""
Origin = Literal["chosen", "catalogue", "computed", "assumed", "regulation"]

EXACT = 1e-9
"""Relative difference below which two figures count as equal: exactly at a limit never fails."""

JUST_ENOUGH = 1.0001
"""For ``tight_from``: what reaches its limit is ok with nothing to spare. Only a limit of 0 is still tight at 0."""

MASS_TIGHT = 0.95
"""Share of a rating from which a mass is close to it."""


@lru_cache(maxsize=16384)
def _checked(model: Any, /, **values: Any) -> Any:
    return type.__call__(model, **values)


class _CheckedOnce(ModelMetaclass):
    """Of values that were found good, the same object: most rules ask after a pick what they asked before it, and
    neither their ranges nor their judgement need be gone through again."""

    def __call__(self, /, **values: Any) -> Any:
        return _checked(self, **values)


class Inputs(BaseModel, metaclass=_CheckedOnce):
    """What a rule judges: plain values, frozen, in ranges, none of them NaN or infinite. Several are a tuple."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)

    options: tuple[str, ...] = Field(default=(), description="ids of the options involved")
    lacks: str = Field(default="", description="facet kind that is missing, where that is what the rule finds")


def fact(description: str, origin: Origin, **limits: Any) -> Any:
    """A field of a rule's inputs: its meaning, where the value comes from, and its range (gt, ge, lt, le, default)."""
    return Field(description=description, json_schema_extra={"origin": origin}, **limits)


class Unknown(NamedTuple):
    """Something the rule needs and nobody stated: the field, and where a person reads it."""

    field: str
    ask: str
    options: tuple[str, ...] = ()
    lacks: str = ""
    """Facet kind of what is missing, where nothing of it is chosen."""


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


class Noted(NamedTuple):
    """A comparison that is worth a word even where it holds, for something that comes with it."""

    of: AtMost | AtLeast | Softened

    def verdict(self) -> Verdict:
        """Its own verdict, and a note in place of an ok."""
        found = self.of.verdict()
        return "note" if found == "ok" else found


Judgement = AtMost | AtLeast | Holds | Softened | Noted


class Source(NamedTuple):
    """A published source, or the plain statement that this is common practice."""

    title: str
    where: str = ""
    checked: str = ""
    """Day on which somebody last compared the rule with it; empty for common practice and own assumptions."""
    region: str = ""
    """Region whose law or standard it is, or several, with spaces. Empty: any."""

    def __str__(self) -> str:
        return f"{self.title}, {self.where}" if self.where else self.title


COMMON_PRACTICE = Source("Common practice")


ELSEWHERE = "eu uk au"
"""Every region but the United States."""


def in_region(named: str, region: str) -> bool:
    """Whether what is said of these regions holds in that one; what names none holds in all."""
    return not named or region in named.split()


class Example(NamedTuple):
    """A worked example: shown on the rule's page, run as a test."""

    inputs: Mapping[str, Any]
    verdict: Verdict
    note: str
    region: str = ""
    """Region whose law or practice it is about, or several, with spaces: only their handbooks have it. Empty: any."""

    def shown_in(self, region: str) -> bool:
        """Whether that region's handbook has it."""
        return in_region(self.region, region)


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
    facts: Iterable[Fact]
    because: tuple[str, ...]
    """Codes of the rules whose findings this one follows from."""
    sources: tuple[str, ...]
    missing: str | None = None
    lacks: str = ""
    """Facet kind of what the build lacks: the finding stands where that is sold, not beside what wants it."""


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
    {band}, the measure's band in brackets with its space before it. See ``saying`` for one and many."""
    remedy: str
    """What the reader can change; same placeholders."""
    examples: Callable[[], tuple[Example, ...]]
    """Worked out only where they are shown: a buyer's browser has no use for them."""
    offers: str = ""
    follows: tuple[str, ...] = ()
    caution: str = ""
    """Shown wherever the rule's subject can hurt somebody."""
    regions: str = ""
    """Regions whose law asks the question, with spaces. Empty: it is asked everywhere."""
    since: str = "0.1"

    def sources_in(self, region: str) -> tuple[Source, ...]:
        """A region's own sources with those of no region; where it has none of its own, all there are."""
        own = any(s.region and in_region(s.region, region) for s in self.sources)
        return tuple(s for s in self.sources if not own or in_region(s.region, region))


def sentence(words: str) -> str:
    """A workshop's own words as a sentence: they may be a fragment, and stand on their own in a finding."""
    words = words.strip()
    return begun(words) + ("" if words.endswith((".", "!", "?")) else ".")


def chance_words(exceed_frac: float) -> str:
    """A sentence, with its space before it, on the chance that a limit is exceeded; none where it is all but sure."""
    if not 0.01 <= exceed_frac <= 0.99:
        return ""
    return f" The chance that it is over is {exceed_frac * 100:.0f} %."


def each_once(names: Iterable[str]) -> list[str]:
    """Names in their order, several of one told as a number of them."""
    return [f"{n} × {name}" if n > 1 else name for name, n in Counter(names).items()]


def listed(names: Iterable[str]) -> str:
    """Names in a row; where one has a comma of its own, semicolons stand between them."""
    every = tuple(names)
    return ("; " if any("," in name for name in every) else ", ").join(every)


MOST_REASONS = 3
"""So many reasons of several options are still read."""


def asked_by(askers: Sequence[tuple[str, str]]) -> dict[str, Any]:
    """``name``, ``askers_count`` and ``because`` of what several options ask alike, from each one's name and reason.

    Several names are one subject of a sentence, told apart by quotation marks. A reason that one of them gives is no
    reason of the others, so either all reasons are told, or none where they are more than ``MOST_REASONS``.
    """
    names = [name for name, _ in askers]
    reasons = tuple(dict.fromkeys(reason for _, reason in askers))
    return {
        "name": in_a_row(f"“{n}”" for n in names) if len(names) > 1 else names[0],
        "askers_count": float(len(askers)),
        "because": "".join(f" {reason}" for reason in reasons if len(reasons) <= MOST_REASONS),
    }


def mass_unknown(build: Build, ids: Iterable[str], options: tuple[str, ...]) -> Unknown:
    """The masses of these options, which the catalogue does not state, as something not known."""
    names = listed(build.option_names[i] for i in ids)
    return Unknown(f"mass of {names}", "Weigh it, or copy it from its data sheet.", options)


def if_all_weighed(
    build: Build, found: Inputs, judged: Judgement, not_stated: tuple[str, ...]
) -> Inputs | Unknown | list[Inputs | Unknown]:
    """What was found, where every mass in it is stated.

    What has no mass could only make it worse: a failure stays one, anything better is not known.
    """
    if not not_stated:
        return found
    unknown = mass_unknown(build, not_stated, not_stated)
    return [found, unknown] if judged.verdict() == "fails" else unknown


def heaviest_words(build: Build, most: Iterable[tuple[str, float]]) -> str:
    """Names with the kilograms beside them, in a row."""
    return listed(f"{name} ({show(kg, 'kg', build.workshop.units)})" for name, kg in most)
