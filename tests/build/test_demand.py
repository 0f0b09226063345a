"""Which loads run together: what runs by itself, the largest two by hand, one of each interlock."""

import pytest

from engine.build import work_out
from engine.build.demand import Demand, worst_together
from engine.build.loads import Load


def load(name, power_w, steady=False, groups=(), start_va=None, pieces=1):
    return Load(
        name, name, pieces, True, False, power_w, power_w, start_va or power_w, 0.5, 0.0, 1.0, "always",
        by_hand=not steady, wakes=steady, groups=frozenset(groups), supply_v=None, highest_v=None, keeps_degc=None,
        rated_degc=None, rated_hours_d=1.0, in_season=True,
    )  # fmt: skip


def names(loads, people):
    return [r.name for r in worst_together(tuple(loads), people).running]


def demand(build) -> Demand:
    return work_out(build).power.demand


FRIDGE = load("fridge", 80, steady=True)
COOLER = load("cooler", 900, steady=True)
HOB, KETTLE, OVEN, RADIO = (load(n, w) for n, w in (("hob", 2000), ("kettle", 1500), ("oven", 1800), ("radio", 20)))


def test_what_runs_by_itself_always_counts():
    assert names([FRIDGE, COOLER], 1) == ["cooler", "fridge"]


def test_the_two_largest_by_hand_count_for_two_people():
    assert names([RADIO, KETTLE, OVEN, HOB], 2) == ["hob", "oven"]
    assert names([RADIO, KETTLE, OVEN, HOB], 5) == ["hob", "oven"]


def test_one_person_switches_one_thing_on():
    assert names([RADIO, KETTLE, OVEN, HOB, FRIDGE], 1) == ["hob", "fridge"]


def test_every_piece_of_a_load_counts():
    assert worst_together((load("lamp", 100, pieces=3, steady=True),), 1).running_w == 300
    assert names([load("ring", 900, pieces=3)], 4) == ["ring", "ring"]


def test_of_an_interlock_only_one_counts():
    locked = [load("hob", 2000, groups=["one"]), load("kettle", 1500, groups=["one"]), OVEN]
    assert names(locked, 2) == ["hob", "oven"]
    heater = load("heater", 1000, steady=True, groups=["one"])
    assert names([*locked, heater], 2) == ["hob", "oven"]


def test_the_largest_of_an_interlock_is_not_always_the_worst():
    # The hob shuts out both kettle and heater, which together take more.
    two = [load("hob", 2000, groups=["a", "b"]), load("kettle", 1500, groups=["a"]), load("heater", 900, groups=["b"])]
    assert names(two, 2) == ["kettle", "heater"]
    assert names(two, 1) == ["hob"]


def test_another_interlock_is_another_matter():
    two = [load("hob", 2000, groups=["a"]), load("kettle", 1500, groups=["b"])]
    assert names(two, 2) == ["hob", "kettle"]


def test_a_start_of_something_small_can_be_the_worst():
    # A pump of 500 W takes six times that to start; the oven that could run in its place does not.
    found = worst_together((OVEN, HOB, load("pump", 500, start_va=3000)), 2)
    assert found.running_w == 3800
    assert found.start is not None and found.start.name == "pump"
    assert found.start_va == 2000 + 3000


def test_the_largest_start_counts_with_the_others_running(yard):
    need = demand(yard(options={"motor": 1, "hob-1400": 1}, adults=2))
    assert (need.ac_w, need.ac_va) == pytest.approx((2480, 2480))
    assert need.start is not None and need.start.option_id == "motor"
    # 1400 VA run while the motor of 1080 VA starts with 4800.
    assert need.start_va == pytest.approx(1400 + 4800, abs=0.1)


def test_without_a_motor_nothing_starts(yard):
    need = demand(yard(options={"microwave": 1}))
    assert need.start is None
    assert need.start_va == pytest.approx(1800)


def test_loads_at_battery_voltage_stand_apart(yard):
    need = demand(yard(options={"cooler": 1, "light-5": 1, "fan-3": 1}, adults=1))
    # The cooler cycles by itself; of the rest one person switches on the larger.
    assert need.dc_w == pytest.approx(45)
    assert need.together == () and need.ac_w == 0


def test_air_conditioning_counts_on_hot_days_only():
    from tests.shops import enquiry, resolver

    options = {"cooler-mains": 1, "lfp-230": 2, "inverter-3000": 1}
    for place, month, cooling, wanted in (
        ("seville", 7, True, True),
        ("seville", 7, False, False),
        ("helsinki", 1, True, False),
    ):
        asked = enquiry("hallamoor", "van-35", options, place=place, months=(month,), cooling=cooling)
        found = {r.option_id for r in demand(resolver("hallamoor").resolve(asked)).together}
        assert ("cooler-mains" in found) is wanted
