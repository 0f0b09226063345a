"""What is said of stated fuses can be done: no range that ends below its beginning."""

import pytest

from engine.build import work_out
from engine.build.circuit_lines import KINDS
from engine.rule import Finding
from engine.rules.fuse_interrupts import RULE as FUSE_INTERRUPTS
from engine.rules.fuse_interrupts import _instead
from engine.rules.fuse_size import RULE
from engine.saying import findings_of, say
from tests.shops import enquiry, resolver

INVERTER = {"circuit": "Inverter 2 kW", "share_a": 206.6, "wanted_a": 236.7, "options": ()}


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            {"cable": "4 AWG", "fuse_a": 250, "carries_a": 160},
            "Inverter 2 kW: the fuse is 250 A. The load takes 207 A and 4 AWG carries 160 A, so no fuse suits both.",
        ),
        (
            {"cable": "2/0 AWG", "fuse_a": 20, "carries_a": 330},
            "Inverter 2 kW: the fuse is 20 A, and it must be between 207 A for the load and 330 A for 2/0 AWG.",
        ),
        (
            {"cable": "3/0 AWG", "fuse_a": 225, "carries_a": 206.6},
            "Inverter 2 kW: the fuse is 225 A, and it must be between 207 A for the load and 207 A for 3/0 AWG.",
        ),
    ],
)
def test_a_range_for_a_fuse_is_told_only_where_there_is_one(more: dict[str, object], said: str) -> None:
    found = say(RULE, RULE.inputs.model_validate(INVERTER | more), "us", "USD")
    assert found.verdict == "fails" and found.cause == said


def interrupts(shop: str, ready: str, options: dict[str, int]) -> Finding:
    build = resolver(shop).resolve(enquiry(shop, ready=ready, options=options))
    found = findings_of(FUSE_INTERRUPTS, build, work_out(build))
    return next(f for f in found if f.cause.startswith("Main cable"))


def test_the_remedy_is_no_fuse_that_is_there_already() -> None:
    found = interrupts("hallamoor", "dry-stone", {"lfp-230": 3})
    assert found.verdict == "tight"
    assert found.cause.endswith("close to the 25,000 A that the proposed NH fuse for direct current of 350 A breaks.")
    assert found.remedy == (
        "No fuse in common use breaks more. Split the battery, each part with its own fuses, or choose less of it; or "
        "ask for the short-circuit current in the battery's datasheet."
    )
    beyond = interrupts("hallamoor", "dry-stone", {"lfp-230": 4})
    assert beyond.verdict == "fails" and beyond.remedy.startswith("No fuse in common use breaks that much. Split")


@pytest.mark.parametrize(
    ("short_a", "kind", "said"),
    [
        (5500.0, "anl",
         "Fit one of these at the battery: terminal fuse (MRBF), class T fuse, NH fuse for direct current"),
        (19000.0, "class-t", "Fit one of these at the battery: NH fuse for direct current"),
        (24000.0, "class-t", "Fit one of these at the battery: NH fuse for direct current"),
        (24000.0, "nh", "No fuse in common use breaks more. Split the battery, each part with its own fuses, or choose "
         "less of it"),
    ],
)  # fmt: skip
def test_what_helps_breaks_more_than_what_is_stated(short_a: float, kind: str, said: str) -> None:
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    line = next(x for x in work_out(build).circuits.lines if x.ask.prospective_a)
    ask = line.ask._replace(prospective_a=short_a, fuse_kind=kind)
    assert _instead(line._replace(ask=ask, kind=KINDS[kind], fuse_a=300.0)) == said
