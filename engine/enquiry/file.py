"""Enquiries as files, and the strict check that everything from outside passes."""

import json
from collections.abc import Iterator, Mapping
from decimal import Decimal
from typing import Any

from pydantic import ValidationError
from pydantic_core import from_json

from engine.enquiry.model import FORMAT, Enquiry
from engine.enquiry.problems import EnquiryProblem, EnquiryProblems

MOST_BYTES = 256 * 1024
"""Largest file that is looked at; a full enquiry has some 20 kB at most."""

_NOT_JSON = (
    ("EOF", "it ends too early"),
    ("trailing characters", "something follows after its end"),
    ("recursion limit", "it is nested too deeply"),
    ("control character", "a line break or another control character stands inside quotes"),
    ("number out of range", "a number is far too long"),
    ("invalid number", "a number is not written as JSON writes numbers"),
    ("trailing comma", "a comma has nothing after it"),
    ("expected value", "a value is missing, or is none that JSON has (NaN and Infinity are not allowed)"),
    ("expected ident", "a word is none that JSON has (only true, false and null are)"),
    ("key must be", "a key is not in quotes"),
)


def read_enquiry(text: str) -> Enquiry:
    """The enquiry in a file's text.

    Raises EnquiryProblems, with everything found and nothing else, when it is none.
    """
    # Counted before anything is worked on, and in characters before bytes are made of them.
    if len(text) > MOST_BYTES or len(text.encode("utf-8", "replace")) > MOST_BYTES:
        raise EnquiryProblems.one("file", f"is larger than {MOST_BYTES // 1024} kB, far more than an enquiry needs.")
    return check_enquiry(_parsed(text.removeprefix("\ufeff")))


def write_enquiry(enquiry: Enquiry) -> str:
    """The file's text. The same enquiry always gives the same text; what nobody stated is left out."""
    return json.dumps(plain(enquiry), indent=2, ensure_ascii=False) + "\n"


_SELDOM = ("cupboards_kg", "nose_kg")
"""What few trips have, and is left out where there is none, so that links stay short."""


def plain(enquiry: Enquiry) -> dict[str, Any]:
    """An enquiry as plain values in SI: options sorted by id, whole numbers without a point, money as text so that no
    cent is lost. Equal enquiries give equal values."""
    values = enquiry.model_dump(exclude_none=True)
    values["options"] = dict(sorted(enquiry.options.items()))
    moves = values.pop("moves")
    if moves:
        values["moves"] = {i: {k: _whole(v) for k, v in move.items()} for i, move in sorted(moves.items())}
    trip = values["trip"]
    boxes = trip.pop("boxes")
    if boxes:
        trip["boxes"] = [{k: _whole(v) for k, v in box.items()} for box in boxes]
    for name in _SELDOM:
        if not trip[name]:
            del trip[name]
    for name, value in trip.items():
        trip[name] = _whole(value)
    if enquiry.trip.budget is not None:
        trip["budget"] = f"{enquiry.trip.budget:.2f}".removesuffix(".00")
    return values


def _whole(value: Any) -> Any:
    return int(value) if type(value) is float and value.is_integer() else value


def check_enquiry(data: object) -> Enquiry:
    """The enquiry in plain values, as JSON or a form gives them. Text is no number here, and 1 is not true.

    Raises EnquiryProblems with everything found.
    """
    if not isinstance(data, Mapping):
        raise EnquiryProblems.one("file", 'is no enquiry; it needs a group in braces with "vehicle" and "trip".')
    _check_format(data.get("format", FORMAT))
    try:
        return Enquiry.model_validate(_typed(data), strict=True, by_name=True, by_alias=False)
    except ValidationError as error:
        from engine.enquiry.wording import problem_of

        errors = error.errors(include_url=False)
        # A list of which no entry is sound is also called too short; its entries' own problems say all there is.
        inner = {e["loc"][:n] for e in errors for n in range(len(e["loc"]))}
        raise EnquiryProblems(problem_of(e) for e in errors if e["loc"] not in inner) from None


def check_workshop(enquiry: Enquiry, workshop_id: str) -> None:
    """Raises EnquiryProblems for a build of another workshop, whose ids mean other things or nothing here. One that
    names no workshop is taken for this one's."""
    if enquiry.workshop and enquiry.workshop != workshop_id:
        raise EnquiryProblems.one(
            "workshop",
            f"this build was made for {enquiry.workshop!r}, and this is the shop of {workshop_id!r}. "
            f"Open it in the shop of {enquiry.workshop!r}.",
        )


def _check_format(version: object) -> None:
    if type(version) is int and version > FORMAT:
        raise EnquiryProblems.one(
            "format",
            f"made by a newer version of this configurator (it reads formats up to {FORMAT}).",
        )
    if type(version) is not int or version != FORMAT:
        from engine.enquiry.wording import found

        raise EnquiryProblems.one("format", f"got {found(version)}; needs {FORMAT}.")


def _typed(data: Mapping[str, Any]) -> dict[str, Any]:
    """The types that JSON has no word for: tuples, and money."""
    values = dict(data)
    trip = values.get("trip")
    if isinstance(trip, Mapping):
        trip = values["trip"] = dict(trip)
        budget = trip.get("budget")
        for name in ("months", "boxes"):
            if isinstance(trip.get(name), list):
                trip[name] = tuple(trip[name])
        if isinstance(budget, (int, float)) and not isinstance(budget, bool):
            budget = repr(budget) if abs(budget) < 1e15 else budget
        if isinstance(budget, str) and _is_amount(budget):
            trip["budget"] = Decimal(budget)
    return values


def _is_amount(text: str) -> bool:
    whole, _, cents = text.removeprefix("-").partition(".")
    return text.isascii() and len(text) <= 20 and whole.isdigit() and (cents.isdigit() or "." not in text)


class _Group(dict[str, Any]):
    """A JSON object that remembers which of its keys came twice."""

    def __init__(self, pairs: list[tuple[str, Any]]) -> None:
        super().__init__(pairs)
        self.doubled: tuple[str, ...] = ()
        if len(self) < len(pairs):
            seen: set[str] = set()
            self.doubled = tuple(dict.fromkeys(k for k, _ in pairs if k in seen or seen.add(k)))  # type: ignore[func-returns-value]


def _parsed(text: str) -> Any:
    try:
        # This parser refuses NaN and deep nesting, the one below hands over every pair of a group.
        from_json(text, allow_inf_nan=False, cache_strings="none")
        value = json.loads(text, object_pairs_hook=_Group)
    except (TypeError, ValueError, RecursionError) as error:
        raise EnquiryProblems.one("file", _why_no_json(str(error))) from None
    if doubled := list(_doubled(value, ())):
        from engine.enquiry.wording import place

        raise EnquiryProblems(EnquiryProblem(place(loc), "is there twice; keep one of them.") for loc in doubled)
    return value


def _why_no_json(message: str) -> str:
    reason, _, at = message.partition(" at line ")
    why = next((text for start, text in _NOT_JSON if start in reason), "a sign stands where JSON has none")
    line, _, column = at.partition(" column ")
    spot = f" (line {line}, column {column})" if line.isdigit() and column.isdigit() else ""
    return f"the text is no JSON: {why}{spot}."


def _doubled(value: Any, loc: tuple[int | str, ...]) -> Iterator[tuple[int | str, ...]]:
    if isinstance(value, _Group):
        yield from ((*loc, key) for key in value.doubled)
        for key, inner in value.items():
            yield from _doubled(inner, (*loc, key))
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from _doubled(inner, (*loc, i))
