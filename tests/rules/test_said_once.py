"""One fault is told once, for all that it concerns; another is told beside it."""

import pytest

from engine.build import work_out
from engine.rules import judge
from tests.shops import catalogue, enquiry, resolver


def found(shop, code, vehicle=None, options=None, ready=None):
    """What one rule says of a build, what is fine apart."""
    build = resolver(shop).resolve(enquiry(shop, vehicle, options, ready))
    return [f for f in judge(build, work_out(build)) if f.rule == code and f.verdict != "ok"]


def test_all_that_need_the_same_missing_option_are_told_together():
    options = {"combi-gas-4": 1, "hob-gas": 1, "gas-system": 1, "pump": 1, "board-12v": 1}
    said = [f for f in found("hallamoor", "option-requires", "van-35", options) if "co-alarm" in f.options]
    assert len(said) == 1 and said[0].verdict == "fails"
    assert "“Combined gas heater 4 kW with 10 L boiler” and “Two-burner gas hob with glass lid” need" in said[0].cause
    assert {"combi-gas-4", "hob-gas"} <= set(said[0].options)
    assert said[0].cause.count("Anything that burns") == 1


def test_different_things_missing_are_told_apart():
    said = found("hallamoor", "option-requires", "van-35", {"combi-gas-4": 1})
    assert {f.options[-1] for f in said} >= {"co-alarm", "gas-system", "pump", "board-12v"}
    assert len(said) == len({f.options[-1] for f in said})
    assert all(" needs " in f.cause and "“" not in f.cause for f in said)


def test_all_that_need_one_of_the_same_are_told_together():
    options = {"water-heater-gas-6": 1, "heater-gas-furnace": 1, "hob-gas-2": 1, "gas-lines": 1, "gas-alarm": 1}
    said = [f for f in found("quillback", "option-needs-one-of", "bus", options) if "hold the propane" in f.cause]
    assert len(said) == 1 and {"water-heater-gas-6", "heater-gas-furnace", "hob-gas-2"} == set(said[0].options)
    assert not [
        f
        for f in found("quillback", "option-needs-one-of", "bus", options | {"gas-tank-10": 1})
        if "hold the propane" in f.cause
    ]


def test_two_that_rule_each_other_out_are_told_as_that_alone():
    both = {"bed-across": 0, "bed-along": 1, "washroom-van": 1}
    [said] = found("hallamoor", "option-excludes", ready="dry-stone", options=both)
    assert {"bed-along", "washroom-van"} == set(said.options)
    for code in ("modules-fit", "plan-length"):
        told = found("hallamoor", code, ready="dry-stone", options=both)
        assert not [f for f in told if {"bed-along", "washroom-van"} <= set(f.options)], code


def test_what_does_not_fit_though_nothing_is_ruled_out_is_still_told():
    crowded = {"bed-along-full": 0, "bed-across-van": 1}
    assert found("quillback", "modules-fit", ready="two-up-van", options=crowded)
    assert not found("quillback", "option-excludes", ready="two-up-van", options=crowded)


@pytest.mark.parametrize("name", ["quillback", "hallamoor"])
@pytest.mark.parametrize("code", ["option-requires", "option-needs-one-of", "option-excludes", "option-count"])
def test_choices_in_order_are_told_once_for_all_of_them(name, code):
    for ready in catalogue(name).ready:
        build = resolver(name).resolve(enquiry(name, ready=ready.id))
        told = [f for f in judge(build, work_out(build)) if f.rule == code]
        asking = {
            "option-requires": [p.option.requires for p in build.parts],
            "option-needs-one-of": [p.option.needs_one_of for p in build.parts],
            "option-excludes": [p.option.excludes for p in build.parts],
            "option-count": [p.count > 1 for p in build.parts],
        }[code]
        assert [f.verdict for f in told] == ["ok"] * any(asking), ready.id


def test_the_count_nearest_to_its_most_is_the_one_told():
    options = {"panel-200": 2, "window-small": 4}
    build = resolver("quillback").resolve(enquiry("quillback", "box", options))
    [told] = [f for f in judge(build, work_out(build)) if f.rule == "option-count"]
    assert (told.verdict, told.options, told.measured, told.limit) == ("ok", ("window-small",), 4, 4)
