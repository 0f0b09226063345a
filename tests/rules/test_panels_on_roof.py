"""What the rule says when the search stopped before it was sure."""

import pytest

from engine.build import Resolver, work_out
from engine.rule import Unknown
from engine.rules import judge
from engine.rules.panels_on_roof import Panels, read
from tests.shops import enquiry, resolver


def figures_with(bound_w: float, proven: bool):
    """Four panels of 300 W wanted on a roof for two, with what a search is said to have proved."""
    by: Resolver = resolver("proving-yard")
    build = by.resolve(enquiry("proving-yard", "plain-van", {"panel-300": 4}))
    figures = work_out(build)
    packing = figures.roof.packing._replace(bound_w=bound_w, proven=proven)
    assert packing.counts == (("panel-300", 2),)
    return build, figures._replace(roof=figures.roof._replace(packing=packing))


@pytest.mark.parametrize(
    ("bound_w", "proven", "words"),
    [(600.0, True, "2"), (899.0, False, "2"), (900.0, False, "at least 2, at most 3"), (600.0, False, "2")],
)
def test_a_limit_that_was_proved_is_told_with_what_was_found(bound_w, proven, words):
    asked = read(*figures_with(bound_w, proven))
    assert isinstance(asked, Panels)
    assert asked.how_many == words


def test_nothing_is_claimed_when_all_might_still_fit():
    asked = read(*figures_with(1200.0, False))
    assert isinstance(asked, Unknown)
    assert "At least 2 fit" in asked.ask


def told(options):
    """The rule's words on a panel of the demo's van, beside other things on its roof."""
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", options))
    [found] = [f for f in judge(build, work_out(build)) if f.rule == "panels-on-roof"]
    return found


def test_what_is_in_the_way_only_together_is_named_together():
    both = told({"panel-430": 2, "roof-fan": 1, "roof-light-40": 1})
    assert both.verdict == "fails"
    assert "“Roof light, 400 x 400 mm” and “Roof fan, 400 x 400 mm, reversible”, together." in both.cause
    assert "clear the roof" in both.remedy and {"roof-fan", "roof-light-40"} <= set(both.options)
    assert told({"panel-430": 2}).verdict == "ok"


def test_only_a_roof_that_is_too_small_bare_is_called_so():
    small = told({"panel-430": 6})
    assert small.verdict == "fails" and small.cause.endswith("In the way: the size of the roof itself.")
    assert small.remedy == "Choose fewer or smaller panels."


def on_the_van(options):
    """The rule's words on panels of the other demo's van."""
    build = resolver("quillback").resolve(enquiry("quillback", "van", options))
    [found] = [f for f in judge(build, work_out(build)) if f.rule == "panels-on-roof"]
    return found


def test_what_helps_was_tried():
    fans = {"roof-fan": 2}
    assert on_the_van(fans | {"panel-200": 2, "antenna-dome": 1}).verdict == "ok", "a usual roof"
    three = on_the_van(fans | {"panel-200": 3})
    assert three.remedy == (
        "Without one “Roof fan, 14 in, reversible” all of them would fit. Choose fewer or smaller panels, or take that "
        "out."
    )
    assert on_the_van({"roof-fan": 1, "panel-200": 3}).verdict == "ok"
    seven = on_the_van(fans | {"panel-200": 7})
    assert seven.remedy.startswith("Without one “Roof fan, 14 in, reversible” 4 would fit. ")
    assert "4 of 7" in on_the_van({"roof-fan": 1, "panel-200": 7}).cause


def test_fewer_panels_are_no_way_out_where_none_fits():
    none = on_the_van({"roof-fan": 2, "skylight-hatch": 1, "panel-200": 2})
    assert none.remedy == (
        "Without “Roof light, 20 in by 20 in” or one “Roof fan, 14 in, reversible” all of them would fit. "
        "Choose smaller panels, or take that out."
    )
    assert on_the_van({"roof-fan": 1, "skylight-hatch": 1, "panel-200": 2}).verdict == "ok"
    assert on_the_van({"roof-fan": 2, "panel-200": 2}).verdict == "ok"


def test_one_of_several_fans_is_blamed_only_where_taking_one_out_helps():
    kit = {"panel-425": 6, "roof-fan": 2}

    def on_the_bus(options):
        build = resolver("quillback").resolve(enquiry("quillback", "bus", options))
        return work_out(build).roof, judge(build, work_out(build))

    two, said = on_the_bus(kit)
    # The fan in the middle is in the way; with one fan it is the one that stays.
    assert "roof-fan" in two.blocking_ids and two.freed == ()
    assert on_the_bus(kit | {"roof-fan": 1})[0].panels_placed == two.panels_placed
    [remedy] = [f.remedy for f in said if f.rule == "panels-on-roof"]
    assert "would fit" not in remedy and remedy.endswith("or clear the roof of what is in the way.")
