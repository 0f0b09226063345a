"""Laws of cables and fuses that hold whatever the numbers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.physics.ampacity import (
    BOATS_METRIC,
    BOATS_US,
    BUILDINGS_US,
    TABLES,
    ambient_frac,
    ampacity_a,
    bundled_frac,
    fuse_cap_a,
)
from engine.physics.circuit_schedule import Circuit, schedule, scheduled
from engine.physics.conductor import (
    AWG,
    CLASS_5,
    CLASS_5_TINNED,
    SERIES,
    WORKSHOP_METRIC,
    awg,
    resistance_ohm,
    sized,
)
from engine.physics.conductor_choice import Practice, Run, cable, drop_allows, thinnest
from engine.physics.overcurrent import (
    FUSE_KINDS,
    RATINGS_SMALL_US,
    RATINGS_US,
    RATINGS_VEHICLE,
    breaks_a,
    fuse_for,
    kinds_that_break,
    least_fuse_a,
)
from engine.physics.voltage_drop import drop_v

US = Practice(AWG, BOATS_US, 105, RATINGS_SMALL_US, parallel_most=3)
METRIC = Practice(CLASS_5, BOATS_METRIC, 105, RATINGS_VEHICLE, parallel_most=3)
BUILDING = Practice(AWG, BUILDINGS_US, 75, RATINGS_US)
PRACTICES = st.sampled_from((US, METRIC, BUILDING, US._replace(parallel_most=1), METRIC._replace(insulation_degc=70)))
RUNS = st.builds(
    Run,
    current_a=st.floats(0.1, 400),
    one_way_m=st.floats(0.1, 15),
    system_v=st.sampled_from((12.0, 24.0, 48.0)),
    drop_frac=st.sampled_from((0.02, 0.03, 0.10)),
    bundled_count=st.sampled_from((1, 2, 3, 6, 12, 30)),
    continuous=st.booleans(),
    ambient_degc=st.sampled_from((-20.0, 30.0, 45.0)),
)
quick = settings(max_examples=60, deadline=None)


def _rank(practice, found):
    """How thick a cable is: number of cables, then size; beyond any when none will do."""
    if found is None:
        return (99, 0.0)
    return (found.parallel, found.conductor.area_m2)


@quick
@given(RUNS, PRACTICES, st.floats(1, 4))
def test_a_longer_run_never_gets_a_thinner_cable(run, practice, times):
    longer = run._replace(one_way_m=run.one_way_m * times)
    assert _rank(practice, thinnest(longer, practice)) >= _rank(practice, thinnest(run, practice))


@quick
@given(RUNS, PRACTICES, st.floats(1, 4))
def test_more_current_never_gets_a_thinner_cable(run, practice, times):
    more = run._replace(current_a=run.current_a * times)
    assert _rank(practice, thinnest(more, practice)) >= _rank(practice, thinnest(run, practice))


@quick
@given(RUNS, PRACTICES, st.sampled_from((3, 6, 12, 30)))
def test_a_bigger_bundle_never_gets_a_thinner_cable(run, practice, more):
    bigger = run._replace(bundled_count=max(run.bundled_count, more))
    assert _rank(practice, thinnest(bigger, practice)) >= _rank(practice, thinnest(run, practice))


@quick
@given(RUNS, PRACTICES)
def test_what_is_chosen_is_enough_and_the_next_thinner_is_not(run, practice):
    found = thinnest(run, practice)
    if found is None:
        return
    assert drop_allows(found.drop_v, run)
    assert found.fuse.rating_a <= found.ampacity_a + 1e-9
    assert found.fuse.rating_a >= run.current_a / found.parallel * (1.25 if run.continuous else 1) - 1e-9
    usable = [c for c in practice.series if c.label in practice.table.sizes]
    least = sized(practice.table.least, practice.series).area_m2
    for thinner in usable:
        if least <= thinner.area_m2 < found.conductor.area_m2:
            tried = cable(run, practice, thinner, found.parallel)
            assert tried.fuse.rating_a is None or not drop_allows(tried.drop_v, run)


@quick
@given(RUNS, PRACTICES)
def test_a_chosen_cable_has_no_faults_in_the_schedule(run, practice):
    row = scheduled(Circuit("it", run.current_a, run.one_way_m, run.system_v, run.drop_frac, None, run.bundled_count,
                            run.engine_space, run.ambient_degc, run.continuous), practice)  # fmt: skip
    if row.size is not None:
        assert row.faults == ()
        assert row.drop_frac * run.system_v == pytest.approx(row.drop_v)
    else:
        assert row.faults[0] == "no-cable-enough"


@given(st.sampled_from(tuple(TABLES.values())), st.data())
def test_thicker_hotter_rated_and_freer_conductors_never_carry_less(table, data):
    columns = dict(table.columns_a)
    insulation = data.draw(st.sampled_from(sorted(columns)))
    i = data.draw(st.integers(0, len(table.sizes) - 2))
    assert ampacity_a(table, table.sizes[i], insulation) <= ampacity_a(table, table.sizes[i + 1], insulation)
    hotter = [t for t in columns if t >= insulation]
    assert all(columns[t][i] >= columns[insulation][i] for t in hotter)
    few, many = sorted((data.draw(st.integers(1, 60)), data.draw(st.integers(1, 60))))
    assert bundled_frac(table, few) >= bundled_frac(table, many)


@given(st.sampled_from((60, 75, 90, 105)), st.floats(-40, 50), st.floats(-40, 50))
def test_hotter_air_never_leaves_more(insulation, one, other):
    cool, hot = sorted((one, other))
    assert ambient_frac(insulation, hot) <= ambient_frac(insulation, cool)
    assert ampacity_a(BOATS_US, "8 AWG", insulation, ambient_degc=hot) <= ampacity_a(
        BOATS_US, "8 AWG", insulation, ambient_degc=cool
    )


def test_a_table_without_a_factor_for_engine_spaces_takes_air_of_fifty_degrees():
    hot_a = ampacity_a(BUILDINGS_US, "8 AWG", 75, ambient_degc=50)
    assert ampacity_a(BUILDINGS_US, "8 AWG", 75, engine_space=True) == hot_a


def test_at_the_table_s_own_air_nothing_changes():
    assert ambient_frac(105, 30) == 1
    assert ampacity_a(BOATS_US, "2 AWG", 105, ambient_degc=-10) == 210


@pytest.mark.parametrize("insulation", [60, 75, 80, 90, 105, 125])
def test_factors_for_engine_spaces_are_air_of_fifty_degrees(insulation):
    assert dict(BOATS_US.engine_frac)[insulation] == pytest.approx(ambient_frac(insulation, 50), abs=0.008)


@given(st.integers(-3, 20))
def test_three_gauges_up_double_the_area_and_six_the_diameter(gauge):
    # 92^(3/39) is 1.4160 for the diameter, so 2.005 for the area.
    assert awg(gauge).area_m2 / awg(gauge + 3).area_m2 == pytest.approx(2.005, abs=5e-4)


@pytest.mark.parametrize("series", SERIES.values(), ids=SERIES)
def test_series_run_from_thin_to_thick(series):
    areas, ohms = [c.area_m2 for c in series], [c.metre_ohm for c in series]
    assert areas == sorted(areas) and ohms == sorted(ohms, reverse=True)
    assert len({c.label for c in series}) == len(series)


def test_standard_flexible_cable_has_more_resistance_than_its_copper_alone():
    for flexible, tinned, copper in zip(CLASS_5, CLASS_5_TINNED, WORKSHOP_METRIC, strict=True):
        assert copper.metre_ohm < flexible.metre_ohm < tinned.metre_ohm
        assert flexible.metre_ohm / copper.metre_ohm < 1.15


@given(st.sampled_from(AWG), st.floats(0, 300), st.floats(0, 30), st.integers(1, 4), st.floats(-40, 150))
def test_parallel_cables_share_the_loss_and_warm_ones_lose_more(conductor, current_a, length_m, n, degc):
    one = drop_v(conductor, current_a, length_m, degc)
    assert drop_v(conductor, current_a, length_m, degc, n) * n == pytest.approx(one)
    assert one == pytest.approx(drop_v(conductor, current_a, length_m) * (1 + 0.00393 * (degc - 20)))
    assert resistance_ohm(conductor, length_m, degc + 10) >= resistance_ohm(conductor, length_m, degc)


@given(st.floats(0.1, 600), st.floats(1, 600), st.booleans(), st.booleans())
def test_a_fuse_lies_between_load_and_conductor(load_a, ampacity, continuous, next_up):
    fuse = fuse_for(load_a, ampacity, RATINGS_US, continuous, next_up)
    if fuse.rating_a is None:
        return
    assert fuse.rating_a >= fuse.least_a - 1e-9
    if fuse.above_conductor:
        assert next_up and ampacity < fuse.rating_a <= 1.5 * ampacity
        assert not [r for r in RATINGS_US if ampacity < r < fuse.rating_a]
    else:
        assert fuse.rating_a <= ampacity + 1e-9


def test_exactly_at_both_limits_a_fuse_will_do():
    assert fuse_for(80, 100, RATINGS_US).rating_a == 100
    assert fuse_for(80.1, 100, RATINGS_US).rating_a is None
    assert fuse_for(100, 100, RATINGS_US, continuous=False).rating_a == 100
    assert fuse_for(80, 99.9, RATINGS_US).rating_a is None
    assert fuse_for(80, 99.9, RATINGS_US, next_size_up=True)[0::3] == (100, True)


def test_the_next_size_up_ends_at_one_and_a_half():
    # 16 AWG at 10 A: the first rating above is 15 A, 1.5 times.
    assert fuse_for(9, 10, RATINGS_US, next_size_up=True).rating_a == 15
    assert fuse_for(9, 9.9, RATINGS_US, next_size_up=True).rating_a is None


def test_a_load_beyond_every_rating_gets_none():
    assert least_fuse_a(700, RATINGS_US) is None
    assert fuse_for(700, 2000, RATINGS_US).rating_a is None


def test_small_conductors_in_buildings_have_small_fuses():
    assert fuse_for(17, 25, RATINGS_US, cap_a=fuse_cap_a(BUILDINGS_US, "12 AWG")).rating_a is None
    assert fuse_for(16, 25, RATINGS_US, cap_a=fuse_cap_a(BUILDINGS_US, "12 AWG")).rating_a == 20


@given(st.floats(0, 30_000), st.floats(0, 30_000), st.floats(5, 130), st.sampled_from(RATINGS_US))
def test_fewer_kinds_break_a_larger_fault(one_a, other_a, system_v, rating_a):
    small, large = sorted((one_a, other_a))
    assert set(kinds_that_break(large, system_v, rating_a)) <= set(kinds_that_break(small, system_v, rating_a))
    assert all(breaks_a(k, system_v) >= large for k in kinds_that_break(large, system_v, rating_a))


def test_no_kind_breaks_more_at_a_higher_voltage():
    for kind in FUSE_KINDS:
        amps = [breaks_a(kind, v) for v in (12, 14, 28, 32, 56, 100, 300)]
        assert amps == sorted(amps, reverse=True)


def test_faults_of_what_is_already_there():
    def faults(**kw):
        plain = {"name": "it", "current_a": 20, "one_way_m": 1, "system_v": 12, "drop_frac": 0.1}
        return scheduled(Circuit(**plain | kw), US).faults

    assert faults(chosen="10 AWG", chosen_fuse_a=30) == ()
    assert faults(chosen="10 AWG", chosen_fuse_a=60) == ()
    assert faults(chosen="10 AWG", chosen_fuse_a=70) == ("fuse-above-cable",)
    assert faults(chosen="10 AWG", chosen_fuse_a=25) == ()
    assert faults(chosen="10 AWG", chosen_fuse_a=20) == ("fuse-without-margin",)
    assert faults(chosen="10 AWG", chosen_fuse_a=20, continuous=False) == ()
    assert faults(chosen="10 AWG", chosen_fuse_a=15) == ("fuse-below-load",)
    assert faults(chosen="10 AWG", chosen_fuse_a=28) == ("fuse-not-standard",)
    assert faults(chosen="10 AWG", one_way_m=10) == ("drop-too-large",)
    assert faults(chosen="10 AWG", current_a=61) == ("cable-too-thin", "no-fuse-fits")
    assert faults(chosen="18 AWG", current_a=5) == ("below-least-size",)
    assert faults(chosen="10 AWG", at_least="8 AWG") == ("below-least-size",)
    assert faults(chosen="1/0 AWG", chosen_fuse_a=250, prospective_a=12_000) == ()
    assert faults(chosen="1/0 AWG", chosen_fuse_a=250, prospective_a=26_000) == ("nothing-breaks-fault",)
    assert faults(current_a=4000)[0] == "no-cable-enough"


def test_a_minimum_is_kept_and_order_too():
    # Bow: 0.36 V over 80 m at 5 A leaves 0.9 mΩ a metre; 4 AWG has 0.815.
    rows = schedule(
        [
            Circuit("Light", 1, 2, 12, 0.1),
            Circuit("Pump", 1, 2, 12, 0.1, at_least="10 AWG"),
            Circuit("Bow", 5, 40, 12, 0.03),
        ],
        US,
    )
    assert [(r.name, r.size) for r in rows] == [("Light", "16 AWG"), ("Pump", "10 AWG"), ("Bow", "4 AWG")]


def test_what_a_list_lacks_is_refused():
    with pytest.raises(ValueError, match="no conductor"):
        sized("11 AWG", AWG)
    with pytest.raises(ValueError, match="no 8 AWG"):
        ampacity_a(BOATS_US, "8 AWG", 85)
    with pytest.raises(ValueError, match="no conductor"):
        thinnest(Run(5, 2, 12, 0.03), METRIC, "8 AWG")
