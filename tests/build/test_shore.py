"""A hook-up: what has to be off, what a breaker holds, and how much of it is assumed."""

import pytest

from engine.build import work_out
from engine.rule import Finding
from engine.rules import judge
from tests.shops import enquiry, resolver


def found(shop: str, options: dict[str, int], **trip: object) -> Finding:
    """What is said of the hook-up."""
    build = resolver(shop).resolve(enquiry(shop, options=options, **trip))
    return next(f for f in judge(build, work_out(build)) if f.rule == "shore-supply")


DESERT = {"months": (7,), "place": "phoenix", "cooling": True, "adults": 2}
COOLED = {"shore-inlet-50": 1, "hob-induction-2": 1, "water-heater-electric-6": 1, "ac-roof-11000-soft": 1}


def test_what_warms_a_store_is_switched_off_before_what_cools_the_room() -> None:
    # 15 A, 11.7 A and 9.5 A on a pitch of 30 A: the water heater is enough, though the air conditioner takes less.
    said = found("quillback", COOLED, **DESERT)
    assert said.verdict == "fails" and "Switch off Electric water heater" in said.cause
    assert "air conditioner" not in said.cause.partition("Switch off")[2]


def test_where_no_store_is_warmed_the_fewest_others_are_switched_off() -> None:
    said = found(
        "proving-yard", {"inlet-16": 1, "cooler-7a": 1, "microwave-5a": 1, "toaster-9a": 1}, hookup_a=15, adults=2
    )
    assert said.verdict == "fails" and "Switch off Air conditioner of 7 A." in said.cause


@pytest.mark.parametrize(("pitch_a", "verdict"), [(16, "ok"), (14, "tight"), (13, "tight"), (12, "fails")])
def test_a_breaker_holds_a_little_over_its_rating_for_an_hour(pitch_a: float, verdict: str) -> None:
    # Toaster and microwave take 14 A: 1.13 times 13 A are 14.7 A, and 1.13 times 12 A are 13.6 A.
    said = found("proving-yard", {"inlet-16": 1, "microwave-5a": 1, "toaster-9a": 1}, hookup_a=pitch_a, adults=2)
    assert said.verdict == verdict, said.cause


def test_a_hookup_that_nobody_stated_is_said_to_be_assumed() -> None:
    usual, stated = found("quillback", COOLED, **DESERT), found("quillback", COOLED, **DESERT, hookup_a=30)
    assert "A hook-up of 30 A is assumed." in usual.cause and "assumed" not in stated.cause
    assert "a hook-up of 50 A, which the inlet takes" in usual.remedy
    origins = [{f.name: f.origin for f in x.facts if "breaker of the hook-up" in f.name} for x in (usual, stated)]
    assert [set(o.values()) for o in origins] == [{"assumed"}, {"chosen"}]
    enough = found("quillback", COOLED, **DESERT, hookup_a=50)
    assert enough.verdict == "ok"


def test_names_with_a_comma_of_their_own_are_told_apart() -> None:
    chosen = {"hookup": 1, "boiler-mains-10": 1, "heater-hookup": 1}
    said = found("hallamoor", chosen, months=(1,))
    assert "Fan heater 1 kW, hook-up only; Electric boiler 10 L, hook-up only" in said.cause
    plain = found("proving-yard", {"inlet-16": 1, "microwave-5a": 1, "toaster-9a": 1}, adults=2)
    assert "Toaster of 9 A, Microwave of 5 A" in plain.cause


@pytest.mark.parametrize(
    ("hookup_a", "inlet", "way"),
    [
        (50, "shore-inlet-30", "choose a larger inlet: the hook-up has 50 A, and this one takes 30 A."),
        (30, "shore-inlet-30", "ask for a stronger hook-up, and choose an inlet for it."),
        (15, "shore-inlet-30", "ask for a hook-up of 30 A, which the inlet takes."),
    ],
)
def test_the_smaller_of_hook_up_and_inlet_has_to_grow(hookup_a: float, inlet: str, way: str) -> None:
    loads = {"heater-electric-1500": 1, "heater-fan-shore": 1, "water-heater-electric-6": 1, "floor-heat-electric": 1}
    said = found("quillback", loads | {inlet: 1}, months=[1], hookup_a=hookup_a)
    assert said.verdict == "fails" and said.remedy.endswith(f", or {way}")
