"""Validation errors of an enquiry in plain words: place, what was found, what is accepted.

Read only when something is wrong, so that a sound enquiry never pays for it.
"""

from collections.abc import Mapping
from decimal import Decimal
from difflib import get_close_matches
from math import isfinite
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import BaseModel
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from engine.catalogue.quantities import Quantity
from engine.enquiry.model import Enquiry
from engine.enquiry.problems import EnquiryProblem, quoted

KEY = "[key]"
"""How pydantic marks that the key itself is meant and not what stands under it."""


def problem_of(error: ErrorDetails) -> EnquiryProblem:
    """One of pydantic's errors on an Enquiry, put into words."""
    loc, kind = error["loc"], error["type"]
    if kind == "extra_forbidden":
        return EnquiryProblem(place(loc), _unknown_key(loc))
    if loc and loc[-1] == KEY:
        return EnquiryProblem(place(loc[:-2]), f"got the key {found(error['input'])}; needs {accepted(_at(loc))}.")
    if kind == "value_error":
        return EnquiryProblem(place(loc), f"{error['ctx']['error']}.")
    if kind == "missing":
        return EnquiryProblem(place(loc), f"is missing; needs {accepted(_at(loc))}.")
    return EnquiryProblem(place(loc), f"got {found(error['input'])}; needs {accepted(_at(loc))}.")


def place(loc: tuple[int | str, ...]) -> str:
    """A place within the enquiry, as ``trip.months[2]``."""
    text = ""
    for step in loc:
        if isinstance(step, int):
            text += f"[{step}]"
        elif step.isascii() and step.replace("-", "").replace("_", "").isalnum() and len(step) <= 48:
            text += f".{step}" if text else step
        else:
            text += f"[{quoted(step)}]"
    return text or "file"


def found(value: Any) -> str:
    """What stands in the file, safe to repeat: text in quotes, a number as it is, groups and lists by their kind."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, Mapping):
        return "a group in braces"
    if isinstance(value, (list, tuple)):
        return f"a list of {len(value)}"
    if isinstance(value, int) and abs(value) >= 10**15:
        return "a very large number"
    if isinstance(value, float) and not isfinite(value):
        return "a number beyond all bounds"
    return str(value)[:40]


def accepted(hint: Any) -> str:
    """What a field takes, from its own type and limits."""
    kind, marks = _unwrapped(hint)
    low, high = _limit(marks, "ge"), _limit(marks, "le")
    above, longest = _limit(marks, "gt"), _limit(marks, "max_length")
    pattern = next((p for m in marks if (p := getattr(m, "pattern", None))), "")
    span = ""
    if high is not None and (low is not None or above is not None):
        span = f" from {low:g} to {high:g}" if low is not None else f" above {above:g}, up to {high:g}"
    if kind is bool:
        return "true or false"
    if kind is int:
        return f"a whole number{span}"
    if kind is float:
        unit = next((m.unit for m in marks if isinstance(m, Quantity)), "")
        return f"a number{span}" + (f" ({unit})" if unit else "")
    if kind is Decimal:
        return f'an amount above {above or 0:g} with at most two decimals, such as 45000 or "45000.50"'
    if kind is str and pattern.startswith(r"^\d"):
        return "a day, such as 2031-05-04"
    if kind is str and pattern:
        return f"an id: small letters and digits, joined by single hyphens, at most {longest} characters"
    if kind is str:
        return f"a text of 1 to {longest} characters"
    if get_origin(kind) is tuple:
        return f"a list of 1 to {longest} entries, each {accepted(get_args(kind)[0])}"
    if get_origin(kind) is dict:
        return f"a group of at most {longest} option ids, each with {accepted(get_args(kind)[1])}"
    if get_origin(kind) is Literal:
        return " or ".join(map(str, get_args(kind)))
    return "a group of keys in braces"


def _limit(marks: list[Any], name: str) -> Any:
    return next((v for m in marks if (v := getattr(m, name, None)) is not None), None)


def _unwrapped(hint: Any) -> tuple[Any, list[Any]]:
    """(bare type, everything that limits it): Annotated, Field and "or nothing" taken off."""
    marks: list[Any] = []
    while True:
        if isinstance(hint, FieldInfo):
            marks += hint.metadata
            hint = hint.annotation
        elif get_origin(hint) is Annotated:
            hint, *more = get_args(hint)
            for mark in more:
                marks += mark.metadata if isinstance(mark, FieldInfo) else [mark]
        elif get_origin(hint) in (Union, UnionType):
            hint = next(a for a in get_args(hint) if a is not NoneType)
        else:
            return hint, marks


def _at(loc: tuple[int | str, ...]) -> Any:
    """The type that belongs at a place of the enquiry."""
    hint: Any = Enquiry
    for i, step in enumerate(loc):
        kind, _ = _unwrapped(hint)
        if isinstance(kind, type) and issubclass(kind, BaseModel):
            hint = kind.model_fields[str(step)]
        elif get_origin(kind) is dict:
            if loc[i + 1 :] == (KEY,):
                return get_args(kind)[0]
            hint = get_args(kind)[1]
        else:
            hint = get_args(kind)[0]
    return hint


def _unknown_key(loc: tuple[int | str, ...]) -> str:
    key = str(loc[-1])
    model, _ = _unwrapped(_at(loc[:-1]))
    known = list(model.model_fields)
    near = get_close_matches(key[:80], known, n=1, cutoff=0.5) or [k for k in known if k.rsplit("_", 1)[0] == key]
    return "there is no such key. " + (f"Did you mean {near[0]}?" if near else f"Known are {', '.join(known)}.")
