"""How a rule's judgement becomes a finding: the verdict, the figures, and the sentence, which is made last."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

from engine.build import Build, Figures
from engine.catalogue.quantities import suffix_of
from engine.rule import EXACT, AtLeast, AtMost, Fact, Finding, Holds, Inputs, Noted, Origin, Rule, Softened, Unknown
from engine.spelling import spelled
from engine.units import SYSTEMS, Shown, System, money, read_number, show


class _Said(str):
    """A value in words that chooses the words which depend on its number.

    ``{n:# bed|# beds}`` is "1 bed" or "2 beds"; of three forms the first is for nothing, and for less than that:
    ``{n:no bed|# bed|# beds}``.
    """

    __slots__ = ()

    def __format__(self, forms: str) -> str:
        if not forms:
            return str(self)
        *none, one, many = forms.split("|")
        number = self.partition(" ")[0]
        form = none[0] if none and (number in ("0", "") or number.startswith("−")) else one if number == "1" else many
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
            unit, between = self._judged.unit, key in ("margin", "over")
            value = abs(self._judged.margin) if between else getattr(self._judged, key)
            if unit == "money":
                return money(Decimal(str(round(value, 2))), self._currency)
            if between and unit != "d":
                value = self._between(SYSTEMS[self._system][unit])
            return show(value, "k" if between and unit == "degc" else unit, self._system, self._finer)
        value = getattr(self._inputs, key)
        if isinstance(value, Decimal):
            return money(value, self._currency)
        suffix = suffix_of(key)
        if isinstance(value, float) and suffix:
            return show(value, suffix[1:], self._system)
        if isinstance(value, float):
            return f"{value:,.0f}" if abs(value) >= 100 else f"{value:.3g}"
        return ", ".join(value) if isinstance(value, tuple) else str(value)

    def _between(self, how: Shown) -> float:
        """What lies between measure and limit as they are read: 600 lb less 597 lb is 3 lb for everybody."""
        measured, limit = (read_number(self._text(key), how.unit) for key in ("measured", "limit"))
        return abs(measured - limit) / how.factor


def _places(judged: AtMost | AtLeast, system: System) -> int:
    """Decimal places to add so that a measure and a limit that differ do not read alike ("3 days, not 3 days")."""
    if judged.unit == "money" or abs(judged.margin) <= EXACT * max(1.0, abs(judged.limit)):
        return 0
    for finer in (0, 1, 2):
        if show(judged.measured, judged.unit, system, finer) != show(judged.limit, judged.unit, system, finer):
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


@dataclass(frozen=True)
class _Facts:
    """Inputs as facts, worked out when somebody reads them: most findings are never unfolded."""

    inputs: Inputs
    system: System

    def __iter__(self) -> Iterator[Fact]:
        for name, meaning, unit, origin in _told(type(self.inputs), self.system):
            value = getattr(self.inputs, name)
            if value is not None and value != "" and not isinstance(value, tuple):
                if isinstance(value, Decimal):
                    unit = "money"
                yield Fact(meaning, value if isinstance(value, (str, bool)) else float(value), unit, origin)


@lru_cache(maxsize=16384)
def say(rule: Rule, inputs: Inputs, system: System, currency: str, region: str = "") -> Finding:
    """Judge inputs and put the result into words. The sentence is made last."""
    judgement = rule.judge(inputs)
    verdict = judgement.verdict()
    compared = judgement
    while isinstance(compared, Softened | Noted):
        compared = compared.of
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
        facts=_Facts(inputs, system),
        because=rule.follows,
        sources=_cited(rule, region),
        lacks=inputs.lacks,
    )


@lru_cache(maxsize=1024)
def _cited(rule: Rule, region: str) -> tuple[str, ...]:
    """A region's sources in words."""
    return tuple(map(str, rule.sources_in(region)))


def _cannot_tell(rule: Rule, unknown: Unknown, system: System, region: str) -> Finding:
    return Finding(
        rule=rule.code, title=spelled(rule.title, system), topic=rule.topic, category=rule.category, verdict="unknown",
        measured=None, low=None, high=None, limit=None, unit=None, margin=None,
        cause=spelled(f"Not known: {unknown.field}.", system), remedy=spelled(unknown.ask, system),
        options=unknown.options, offers=rule.offers,
        facts=(), because=rule.follows, sources=_cited(rule, region), missing=unknown.field,
        lacks=unknown.lacks,
    )  # fmt: skip


def findings_of(rule: Rule, build: Build, figures: Figures) -> list[Finding]:
    """Every finding of one rule on a build; none where the rule does not apply."""
    got = rule.read(build, figures)
    if got is None:
        return []
    shop = build.workshop
    # Inputs and Unknown are themselves no lists; a rule that asks several times hands over a list.
    every = got if isinstance(got, list) else [got]
    return [
        _cannot_tell(rule, one, shop.units, shop.region)
        if isinstance(one, Unknown)
        else say(rule, one, shop.units, shop.currency, shop.region)
        for one in every
    ]
