"""Ways out at night count what the bare body has as well as what is chosen."""

from dataclasses import replace

import pytest

from engine.build import work_out
from engine.build.plan_escape import windows_to_climb
from engine.rules import all_rules
from engine.rules.escape_route import _helps
from engine.saying import findings_of
from tests.shops import catalogue, enquiry, resolver


def bus(*names: str, **hatch):
    """The demo's bus with a bed across, its own roof hatch changed."""
    build = resolver("quillback").resolve(enquiry("quillback", "bus", dict.fromkeys(names, 1)))
    [own] = [o for o in build.vehicle.roof.fixed if o.escape]
    roof = build.vehicle.roof.model_copy(update={"fixed": (own.model_copy(update=hatch),)})
    return replace(build, vehicle=build.vehicle.model_copy(update={"roof": roof}))


def test_the_bodys_own_escape_hatch_is_a_way_out():
    assert windows_to_climb(bus()) == 1
    assert windows_to_climb(bus("skylight-hatch")) == 1  # 20 in square is too small
    assert windows_to_climb(bus("skylight-panorama")) == 2


@pytest.mark.parametrize("hatch", [{"escape": False}, {"length_m": 0.4}, {"length_m": 0.5, "width_m": 0.5}])
def test_what_is_too_small_or_does_not_open_is_none(hatch):
    assert windows_to_climb(bus(**hatch)) == 0


def test_only_a_hatch_that_is_said_to_open_counts():
    fixed = [o for v in catalogue("quillback").vehicles + catalogue("hallamoor").vehicles for o in v.roof.fixed]
    assert [o.name for o in fixed if o.escape] == ["Escape hatch"]


@pytest.mark.parametrize(("shop", "words"), [
    ("quillback", "at least 17 in × 24 in near"), ("hallamoor", "at least 0.43 m × 0.6 m near"),
])  # fmt: skip
def test_the_opening_to_cut_is_told_in_the_readers_units(shop, words):
    assert words in _helps(resolver(shop).resolve(enquiry(shop)), 1, 0)


ESCAPE = next(r for r in all_rules() if r.code == "escape-route")


def said(shop, ready, **changed):
    options = {i.replace("_", "-"): n for i, n in changed.items()}
    build = resolver(shop).resolve(enquiry(shop, ready=ready, options=options))
    return findings_of(ESCAPE, build, work_out(build))


def test_the_way_to_the_cab_is_a_way_out_and_no_door():
    whole = said("quillback", "long-winter-box")
    assert {f.verdict for f in whole} == {"ok"} and all("one of them a door" in f.cause for f in whole)
    for f in said("quillback", "long-winter-box", entry_door=0):
        assert f.verdict == "fails" and "can be reached then: 0" in f.cause and "way to the cab is one more" in f.cause
    # Beside a door it makes up for a window.
    for f in said("quillback", "long-winter-box", window_medium=0, window_small=0, roof_fan=0):
        assert (f.verdict, f.measured) == ("ok", 2)


def test_of_a_bed_that_stands_nowhere_the_ways_out_are_not_known():
    found = {f.options: f for f in said("hallamoor", "dry-stone", guest_bed=1)}
    assert found["guest-bed",].verdict == "unknown" and "where Guest bed" in found["guest-bed",].missing
    assert found["bed-across",].verdict == "ok"
