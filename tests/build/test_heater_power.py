"""What heaters take from the battery, in the plain balance and hour by hour."""

import pytest

from engine.build import work_out
from engine.build.day_plan import day_plan, warmth_loads
from engine.build.energy_inputs import asked
from engine.physics.warmth_loads import load_w
from tests.shops import enquiry, resolver


def figures(ready: str = "dry-stone", options: dict[str, int] | None = None, **trip: object):
    build = resolver("hallamoor").resolve(enquiry("hallamoor", None, options, ready, **{"months": [1]} | trip))
    return build, work_out(build)


def test_a_heaters_power_follows_the_cold_and_rests_when_it_is_warm() -> None:
    build, f = figures()
    heater = next(x for x in f.power.all_loads if x.heats_degc)
    mean, inside = heater.heats_degc
    assert (mean, inside) == (build.climate.mean_degc[0], 18)
    load = next(x for x in warmth_loads(f.power, 18.0) if x.duty_frac_k < 0)
    assert 24 * load_w(load, mean) == pytest.approx(heater.daily_wh)
    assert load_w(load, mean - 5) > load_w(load, mean) > load_w(load, mean + 5) > load_w(load, inside) == 0
    # Twice as cold against the room is twice the power.
    assert load_w(load, inside - 2 * (inside - mean)) == pytest.approx(2 * load_w(load, mean))


def test_nothing_is_counted_twice() -> None:
    build, f = figures()
    without = f.power._replace(all_loads=tuple(x for x in f.power.all_loads if not x.heats_degc))
    assert day_plan(f.power, 1.0).dc_w == day_plan(without, 1.0).dc_w
    assert asked(build, f.power, f.roof).system.by_warmth != asked(build, without, f.roof).system.by_warmth


def test_a_floor_heated_from_the_battery_takes_more_than_a_heaters_fan() -> None:
    _, plain = figures()
    _, warm = figures(options={"floor-heat-12v": 1})
    more = warm.power.use_wh_d - plain.power.use_wh_d
    floor = next(x for x in warm.power.loads if x.option_id == "floor-heat-12v")
    fan = next(x for x in warm.power.loads if x.option_id == "diesel-2")
    assert floor.energy_wh_d > 3 * fan.energy_wh_d
    assert more == pytest.approx(floor.energy_wh_d, rel=0.1)


def test_no_heating_in_months_that_need_none() -> None:
    _, f = figures(months=[7], place="tucson")
    assert not any(x.heats_degc for x in f.power.all_loads)
