"""Remedies about panels name only what helps on their controller: series where it tracks and survives it."""

from dataclasses import replace

import pytest

from engine.build import Build, work_out
from engine.catalogue.facets import SolarController
from engine.rule import Finding
from engine.rules import judge
from tests.shops import enquiry, resolver


def found(shop: str, code: str, options: dict[str, int], **changes: object) -> Finding:
    """The rule's first finding, with other data of the charge controllers."""
    build = resolver(shop).resolve(enquiry(shop, options=options))
    figures = work_out(controllers(build, **changes))
    return next(f for f in judge(controllers(build, **changes), figures) if f.rule == code)


def controllers(build: Build, **changes: object) -> Build:
    """The build with other data of its charge controllers."""
    return replace(
        build,
        parts=tuple(
            replace(
                p,
                option=p.option.model_copy(
                    update={
                        "facets": tuple(
                            f.model_copy(update=changes) if isinstance(f, SolarController) else f
                            for f in p.option.facets
                        )
                    }
                ),
            )
            for p in build.parts
        ),
    )


KIT = {"panel-37": 4, "controller": 1, "lfp-200": 1}


def test_too_much_current_on_a_switching_controller_is_no_reason_for_series() -> None:
    f = found("proving-yard", "controller-current", KIT, technology="pwm", max_input_a=5.0)
    assert f.verdict == "fails" and "in series lose nothing" in f.remedy and "Connect" not in f.remedy


def test_too_much_current_where_no_voltage_is_left_takes_another_controller() -> None:
    f = found("proving-yard", "controller-current", KIT, max_input_a=5.0, max_input_v=60.0)
    assert f.verdict == "fails" and f.remedy.startswith("Choose a controller for more current")


@pytest.mark.parametrize("highest_v", [60.0, 30.0])
def test_one_panel_by_itself_is_not_put_fewer_in_series(highest_v: float) -> None:
    one = KIT | {"panel-37": 1}
    f = found("proving-yard", "string-voltage-cold", one, max_input_v=highest_v)
    assert f.verdict == ("fails" if highest_v < 40 else "ok")
    assert "fewer" not in f.remedy


def test_one_kind_on_a_switching_controller_is_not_told_to_be_of_one_kind() -> None:
    f = found("proving-yard", "string-mix", KIT, technology="pwm")
    assert f.verdict == "tight" and "tracking controller" in f.remedy and "one kind" not in f.remedy


def test_more_in_series_is_advised_only_below_what_the_controller_survives() -> None:
    battery = {"panel-37": 1, "controller": 1, "lfp-24v-200": 1}
    wide = found("proving-yard", "string-voltage-hot", battery)
    narrow = found("proving-yard", "string-voltage-hot", battery, max_input_v=60.0)
    assert (wide.verdict, narrow.verdict) == ("fails", "fails")
    assert wide.remedy.startswith("Add another of these panels in series") and "series" not in narrow.remedy


def test_no_panel_is_added_to_a_roof_that_is_full() -> None:
    full = {"panel-425": 6, "solar-controller-150-70": 1, "battery-48v-100": 1}
    build = resolver("quillback").resolve(enquiry("quillback", "bus", full))
    [hot] = [f for f in judge(build, work_out(build)) if f.rule == "string-voltage-hot"]
    assert hot.verdict == "fails"  # two have a place, and 48 V take three
    assert hot.remedy == "Choose panels of a higher voltage, or a battery of a lower one."


def test_strings_side_by_side_are_connected_anew() -> None:
    four = {"panel-425": 4, "solar-controller-150-70": 1, "battery-48v-100": 1}
    build = resolver("quillback").resolve(enquiry("quillback", "box", four))
    [hot] = [f for f in judge(build, work_out(build)) if f.rule == "string-voltage-hot"]
    assert hot.remedy.startswith("Connect more in series") and "3 of them would work" in hot.remedy
