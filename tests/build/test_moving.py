"""Lifts, drawers and steps of whole builds."""

from dataclasses import replace

import pytest
from pydantic import ValidationError

from engine.build import work_out
from engine.build.moving import moving_figures
from engine.catalogue.facets import GasStrutLift
from engine.rules import strut_force, strut_hand_force, strut_shut
from engine.saying import findings_of

SOUND = {
    "kind": "gas-strut-lift", "moved_kg": 40, "centre_m": 0.95, "hand_m": 1.9, "eye_on_bed_m": 0.6,
    "eye_on_body_m": 0.3, "eye_on_body_up_m": -0.4, "opens_deg": 60, "struts": 2, "force_n": 300,
}  # fmt: skip


def test_what_rides_on_the_bed_is_lifted_with_it(yard):
    (bare,) = moving_figures(yard(options={"lift-350": 1})).lifts
    (loaded,) = moving_figures(yard(options={"lift-350": 1, "topper": 2})).lifts
    assert (bare.moved_kg, loaded.moved_kg) == (40, 50)
    assert loaded.option_ids == ("lift-350", "topper")
    assert loaded.arc.open_weight_n == pytest.approx(bare.arc.open_weight_n * 50 / 40)
    assert bare.instead == "these"
    assert loaded.instead == "2 of 450 N each"


def test_the_struts_named_instead_do_it(yard):
    (lift,) = moving_figures(yard(options={"lift-350": 1, "topper": 2})).lifts
    build = yard(options={"lift-350": 1, "topper": 2})
    (part,) = (p for p in build.parts if p.option.id == "lift-350")
    facet = part.option.facets[0].model_copy(
        update={"struts": 2, "force_n": 450.0, "drawn_out_m": None, "stroke_m": None}
    )
    stronger = replace(part, option=part.option.model_copy(update={"facets": (facet,)}))
    right = replace(build, parts=tuple(stronger if p is part else p for p in build.parts))
    assert lift.instead == "2 of 450 N each"
    for rule in (strut_force, strut_shut, strut_hand_force):
        (finding,) = findings_of(rule.RULE, right, work_out(right))
        assert finding.verdict == "ok", finding.cause


def test_a_topper_without_a_mass_leaves_it_open(yard):
    build = yard(options={"lift-350": 1, "topper": 1})
    unweighed = replace(
        build, parts=tuple(replace(p, mass_kg=None) if p.option.id == "topper" else p for p in build.parts)
    )
    figures = work_out(unweighed)
    (finding,) = findings_of(strut_force.RULE, unweighed, figures)
    assert finding.verdict == "unknown"
    assert "Topper" in finding.cause
    assert findings_of(strut_shut.RULE, unweighed, figures) == []


def test_a_load_at_another_place_does_not_ride_along(yard):
    build = yard(options={"lift-350": 1, "topper": 1})
    elsewhere = replace(
        build,
        parts=tuple(
            replace(p, option=p.option.model_copy(update={"place": "overhead"})) if p.option.id == "topper" else p
            for p in build.parts
        ),
    )
    (lift,) = moving_figures(elsewhere).lifts
    assert lift.moved_kg == 40


def test_treads_of_the_body_count(yard):
    build = yard(options={"step-120": 1})
    cabin = build.vehicle.cabin.model_copy(update={"treads_at_entry": 1})
    stepped = replace(build, vehicle=build.vehicle.model_copy(update={"cabin": cabin}))
    assert moving_figures(build).entry.rise_m == pytest.approx(0.6 / 2)
    assert moving_figures(stepped).entry.rise_m == pytest.approx(0.6 / 3)


def test_steps_of_two_doors_do_not_add_up(yard):
    entry = moving_figures(yard(options={"step-120": 1, "step-200": 1})).entry
    assert entry.treads_count == 2
    assert entry.rating_kg == 120
    assert entry.to_stow == ("Folding step for 120 kg",)


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"eye_on_body_m": 0.6, "eye_on_body_up_m": 0.0}, "within 5 cm"),
        ({"drawn_out_m": 0.9}, "belong together"),
        ({"drawn_out_m": 0.9, "stroke_m": 0.45}, "less than half"),
        ({"opens_deg": 5}, "10"),
        ({"force_n": 5}, "30"),
    ],
)
def test_struts_that_cannot_be_are_turned_away(changed, said):
    GasStrutLift.model_validate(SOUND)
    with pytest.raises(ValidationError, match=said):
        GasStrutLift.model_validate(SOUND | changed)
