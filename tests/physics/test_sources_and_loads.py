"""Laws of inverters, load sets, hook-ups and charging that hold whatever the numbers."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.battery_chemistry import AGM, CHEMISTRIES, LFP
from engine.physics.battery_temperature import charge_limit_a
from engine.physics.charging import Source, charge
from engine.physics.converter import Converter, converted
from engine.physics.curve import Curve
from engine.physics.inverter import continuous_w, largest_ac_w, surge_va
from engine.physics.load_set import Load, worst
from engine.physics.ranges import OutOfRangeError
from engine.physics.shore import SUPPLIES, Drawn, charger_left_a, charger_w, shed

quick = settings(max_examples=150, deadline=None)
LOADS = st.lists(
    st.builds(
        Load,
        name=st.sampled_from("abcdefgh"),
        running_w=st.floats(1, 3000),
        power_factor_frac=st.sampled_from((1.0, 0.8, 0.5)),
        start_multiple=st.sampled_from((1.0, 1.5, 3.0, 6.0)),
        not_together=st.frozensets(st.sampled_from("xyz"), max_size=2),
        by_hand=st.booleans(),
    ),
    max_size=8,
).map(tuple)


def _allowed(loads, by_hand_most):
    return (by_hand_most is None or sum(x.by_hand for x in loads) <= by_hand_most) and not any(
        a.not_together & b.not_together for a, b in combinations(loads, 2)
    )


@quick
@given(LOADS, st.none() | st.integers(0, 4))
def test_no_combination_is_worse_than_the_worst(loads, by_hand_most):
    found = worst(loads, by_hand_most)
    every = [s for n in range(len(loads) + 1) for s in combinations(loads, n) if _allowed(s, by_hand_most)]
    assert found.running_w == pytest.approx(max(sum(x.running_w for x in s) for s in every))
    assert found.running_va == pytest.approx(max(sum(x.running_va for x in s) for s in every))
    starts = [sum(x.running_va for x in s) + (y.start_va - y.running_va) for s in every for y in s]
    assert found.start_va == pytest.approx(max([found.running_va, *starts]))
    assert _allowed(found.running, by_hand_most) and _allowed(found.apparent, by_hand_most)
    if found.start is None:
        assert found.start_va == found.running_va
    else:
        assert _allowed((*found.beside, found.start), by_hand_most)
        assert sum(x.running_va for x in found.beside) + found.start.start_va == pytest.approx(found.start_va)


@quick
@given(LOADS, st.integers(0, 4), st.data())
def test_one_load_more_and_one_hand_more_are_never_better(loads, by_hand_most, data):
    before = worst(loads, by_hand_most)
    assert worst(loads, by_hand_most + 1).running_w >= before.running_w * (1 - 1e-9)
    assert worst(loads, None).start_va >= before.start_va * (1 - 1e-9)
    if loads:
        fewer = loads[: data.draw(st.integers(0, len(loads) - 1))]
        assert worst(fewer, by_hand_most).running_w <= before.running_w * (1 + 1e-9)


def test_no_loads_ask_for_nothing():
    assert worst(()) == ((), 0.0, (), 0.0, None, (), 0.0)


def test_many_loads_of_one_switch_are_quick():
    one = frozenset({"x"})
    many = tuple(Load(f"{i}", 10 + i, 1.0, 2.0, one if i % 2 else frozenset(), i % 3 == 0) for i in range(200))
    found = worst(many, 3)
    assert found.running_w > 0 and len([x for x in found.running if x.not_together]) == 1


def test_a_hub_that_excludes_many_is_quick():
    spokes = tuple(Load(f"s{i}", 100, not_together=frozenset({f"g{i}"})) for i in range(30))
    hub = Load("hub", 2999, not_together=frozenset(f"g{i}" for i in range(30)))
    assert worst((hub, *spokes)).running_w == 3000
    assert worst((hub._replace(running_w=3001), *spokes)).running[0].name == "hub"


@given(st.floats(100, 5000), st.floats(-20, 65), st.floats(-20, 65))
def test_hotter_never_gives_more(rated_w, one, other):
    cool, hot = sorted((one, other))
    assert continuous_w(rated_w, hot) <= continuous_w(rated_w, cool) <= rated_w


def test_a_rating_at_forty_degrees_holds_at_forty():
    assert continuous_w(2000, 40, rated_degc=40) == 2000
    assert continuous_w(2000, 65, rated_degc=40) == pytest.approx(2000 * 0.6 / 0.9)
    with pytest.raises(OutOfRangeError):
        continuous_w(2000, 66)


@given(st.floats(0.1, 100), st.floats(0.1, 100))
def test_a_longer_start_never_gets_more(one, other):
    surges = Curve(((0.5, 6000.0), (5.0, 4000.0), (60.0, 2500.0)))
    short, long = sorted((one, other))
    assert 2000 <= surge_va(2000, surges, long) <= surge_va(2000, surges, short) <= 6000


def test_loads_at_battery_voltage_may_leave_nothing_for_the_inverter():
    assert largest_ac_w(10, 12, 0.9, 500) == 0


@given(st.floats(0, 2000), st.floats(0.7, 1), st.sampled_from((25.6, 51.2)))
def test_a_converter_never_takes_less_than_its_loads(load_w, efficiency, battery_v):
    c = converted(load_w, Converter(12.5, 60, efficiency, 2), battery_v)
    assert c.input_w >= load_w and c.input_a == pytest.approx(c.input_w / battery_v)
    assert c.share_frac == pytest.approx(load_w / 750)


DRAWN = st.lists(
    st.builds(Drawn, st.sampled_from("abcdefgh"), st.sampled_from((50.0, 300.0, 700.0, 1200.0)) | st.floats(0, 3000),
              st.booleans()), max_size=9,
).map(tuple)  # fmt: skip


@quick
@given(DRAWN, st.floats(500, 8000))
def test_as_few_loads_as_can_be_are_switched_off(loads, limit_w):
    found = shed(loads, limit_w)
    left_w = found.wanted_w - sum(x.power_w for x in found.off)
    free = [x for x in loads if not x.essential]
    assert all(not x.essential for x in found.off)
    enough = [
        s
        for n in range(len(free) + 1)
        for s in combinations(free, n)
        if found.wanted_w - sum(x.power_w for x in s) <= limit_w * (1 + 1e-9)
    ]
    assert found.enough == bool(enough)
    if enough:
        fewest = min(len(s) for s in enough)
        least_w = min(sum(x.power_w for x in s) for s in enough if len(s) == fewest)
        assert len(found.off) == fewest
        assert sum(x.power_w for x in found.off) == pytest.approx(least_w)
        assert left_w <= limit_w * (1 + 1e-6)


def test_exactly_at_the_supply_s_limit_nothing_goes():
    assert shed((Drawn("a", 1000), Drawn("b", 2600)), 3600).off == ()
    assert shed((Drawn("a", 1000), Drawn("b", 2601)), 3600).off == (Drawn("a", 1000),)


def test_forty_loads_are_quick():
    loads = tuple(Drawn(f"{i}", 100 + 7.3 * i) for i in range(40))
    found = shed(loads, 0.6 * sum(x.power_w for x in loads))
    assert found.enough


@pytest.mark.parametrize("supply", SUPPLIES.values(), ids=SUPPLIES)
def test_supplies(supply):
    assert supply.continuous_w <= supply.supply_w == supply.supply_v * supply.breaker_a * supply.legs


@given(st.floats(0, 5000), st.floats(0, 5000), st.floats(1, 100))
def test_a_charger_turned_down_stays_within_the_supply(limit_w, loads_w, output_a):
    left_a = charger_left_a(limit_w, loads_w, output_a, 14.4, 0.9)
    assert 0 <= left_a <= output_a
    if left_a > 0:
        assert loads_w + charger_w(left_a, 14.4, 0.9) <= limit_w * (1 + 1e-9)


KINDS = st.sampled_from(tuple(CHEMISTRIES.values()))


@given(KINDS, st.floats(20, 800), st.floats(0, 1), st.floats(0, 1), st.floats(1, 300))
def test_an_emptier_battery_never_fills_sooner(kind, capacity_ah, one, other, amps):
    empty, full = sorted((one, other))
    source = Source("it", amps)
    longer, shorter = (charge(kind, capacity_ah, x, source) for x in (empty, full))
    assert longer.all_h >= shorter.all_h - 1e-9


@given(KINDS, st.floats(20, 800), st.floats(0, 1), st.floats(1, 300), st.floats(1, 300))
def test_a_stronger_source_never_takes_longer(kind, capacity_ah, charged, one, other):
    weak, strong = (charge(kind, capacity_ah, charged, Source("it", a)) for a in sorted((one, other)))
    assert strong.all_h <= weak.all_h * (1 + 1e-9)
    assert strong.accepted_a <= charge_limit_a(kind, capacity_ah, 25) + 1e-9


@given(KINDS, st.floats(20, 800), st.floats(0, 1), st.floats(1, 300))
def test_the_charge_that_flows_is_what_was_missing(kind, capacity_ah, charged, amps):
    c = charge(kind, capacity_ah, charged, Source("it", amps))
    missing_ah = (1 - charged) * capacity_ah / kind.coulombic_frac
    # During the tail the current lies between what it takes at first and what it ends with.
    least = c.constant_h * c.accepted_a + c.tail_h * kind.tail_frac * capacity_ah
    most = c.all_h * c.accepted_a
    assert least - 1e-6 <= missing_ah <= most + 1e-6


def test_cold_lithium_never_fills_and_a_full_battery_needs_nothing():
    assert charge(LFP, 100, 0.5, Source("it", 20), cell_degc=0) is None
    assert charge(LFP, 100, 1.0, Source("it", 20), cell_degc=0).all_h == 0
    assert charge(AGM, 100, 1.0, Source("it", 20)).all_h == 0
    assert charge(AGM, 100, 0.5, Source("it", 0)) is None
    assert charge(LFP, 100, 0.5, Source("it", 20), cell_degc=-1) is None


def test_a_source_weaker_than_the_tail_charges_evenly():
    c = charge(LFP, 100, 0.5, Source("it", 4))
    assert c.tail_h == 0 and c.constant_h == pytest.approx(50 / 0.99 / 4)
