"""A part whose mass nobody states lets no check of masses pass, and hides none that fails already."""

from dataclasses import replace

import pytest

from engine.build import Build, work_out
from engine.rules import judge
from tests.shops import enquiry, resolver

ASKED = ("front-axle-load", "gross-mass", "rear-axle-load", "steer-axle-share")
PASSING = {"ok", "tight"}


def without_mass(build: Build, option_id: str) -> Build:
    assert option_id in {p.option.id for p in build.parts}
    parts = tuple(replace(p, mass_kg=None) if p.option.id == option_id else p for p in build.parts)
    return replace(build, parts=parts)


def verdicts(build: Build) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for f in judge(build, work_out(build)):
        found.setdefault(f.rule, set()).add(f.verdict)
    return found


def unweighed(shop: str, ready: str) -> Build:
    return replace(resolver(shop).resolve(enquiry(shop, ready=ready)), weighed=None)


@pytest.mark.parametrize(("shop", "ready"), [("hallamoor", "dry-stone"), ("quillback", "two-up-van")])
def test_nothing_passes_while_a_mass_is_not_known(shop, ready):
    build = unweighed(shop, ready)
    before = verdicts(build)
    assert all(before[rule] <= PASSING for rule in ASKED)
    after = verdicts(without_mass(build, build.parts[0].option.id))
    assert {rule: after[rule] for rule in ASKED} == {rule: {"unknown"} for rule in ASKED}
    assert not after.get("tyre-load", set()) & PASSING
    assert not after.get("full-tanks", set()) & PASSING


def test_what_is_too_much_without_it_fails_as_before():
    build = unweighed("hallamoor", "dry-stone")
    masses = build.vehicle.masses.model_copy(update={"gross_kg": 2500.0, "rear_axle_rating_kg": 1200.0})
    build = replace(build, vehicle=build.vehicle.model_copy(update={"masses": masses}))
    after = verdicts(without_mass(build, build.parts[0].option.id))
    assert after["gross-mass"] == after["rear-axle-load"] == {"fails", "unknown"}
    assert after["front-axle-load"] == {"unknown"}


def test_the_scale_knows_what_the_catalogue_does_not():
    """A vehicle that was weighed with the part in it is what the scale said."""
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    part = build.parts[0]
    assert build.weighed_options[part.option.id] == part.count
    known = without_mass(build, part.option.id)
    assert work_out(known).mass.not_stated == ()
    assert all("unknown" not in verdicts(known)[rule] for rule in ASKED)
    more = replace(known, weighed_options={**build.weighed_options, part.option.id: part.count - 1})
    assert work_out(more).mass.not_stated == (part.option.id,)
