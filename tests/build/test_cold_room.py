"""One room for tanks, pipes, batteries and damp, where heaters do not hold the warmth wanted."""

import pytest

from engine.build import Build, Figures, work_out
from engine.build.room import above_outside_k, night_room_degc
from engine.build.trip_energy import trip_energy
from engine.rule import Finding
from engine.rules import all_rules
from engine.saying import findings_of
from tests.shops import enquiry, resolver

RULES = {r.code: r for r in all_rules()}
KIT = {"lfp-200": 1, "panel-400": 1, "controller": 1, "light-5": 1, "tank-20": 1}


def found(options: dict[str, int], **trip: object) -> tuple[Build, Figures]:
    build = resolver("proving-yard").resolve(enquiry("proving-yard", "plain-van", options, **trip))
    return build, work_out(build)


def said(code: str, build: Build, f: Figures) -> list[Finding]:
    return findings_of(RULES[code], build, f)


COLD = {"place": "northway", "months": [1]}  # −45.5 °C at its coldest, −24.2 °C on the mean


def test_a_heater_that_is_too_small_holds_what_it_can() -> None:
    build, f = found(KIT | {"heater-2": 1}, **COLD)
    # 2 kW and one person's 70 W over what is lost for each kelvin.
    warmer = (2000 + 70) / f.warmth.total_w_k
    assert above_outside_k(build, f.warmth) == pytest.approx(warmer)
    night = build.climate.coldest_night_degc[0]
    assert night_room_degc(build, f.warmth) == pytest.approx(night + 2 + warmer) and night + 2 + warmer < 0
    [tank] = f.cold_tanks
    assert tank.night_degc == pytest.approx(night + 2 + warmer)
    [pipe] = f.cold_pipes
    assert pipe.name == "Inside, with too little heating"
    assert f.power.bank.groups[0].morning_degc == pytest.approx(night + 4 + warmer)
    for code in ("tank-freezes", "battery-cold-charge"):
        [one] = said(code, build, f)
        assert "where the heating gives too little" in one.cause


def test_a_heater_that_is_large_enough_leaves_nothing_cold() -> None:
    build, f = found(KIT | {"heater-5": 2}, **COLD)
    assert f.cold_tanks == () and f.cold_pipes == ()
    assert night_room_degc(build, f.warmth) == build.trip.inside_degc
    assert f.power.bank.groups[0].morning_degc == f.power.bank.groups[0].cell_degc == 10
    assert f.damp is not None and f.damp.inside_degc == build.trip.inside_degc and f.damp.if_warm is None
    assert f.power.bank.cells_least_degc == 10


def test_a_lithium_battery_in_a_cold_room_takes_no_charge() -> None:
    build, f = found(KIT, **COLD)
    warmer = 70 / f.warmth.total_w_k
    [group] = f.power.bank.groups
    assert group.morning_degc == pytest.approx(build.climate.coldest_night_degc[0] + 4 + warmer)
    assert group.cell_degc == pytest.approx(build.climate.mean_degc[0] + warmer)
    assert (f.power.sun_wh_d, f.power.driving_wh_d) == (0, 0)
    [cold] = said("battery-cold-charge", build, f)
    assert cold.verdict == "fails" and cold.remedy.startswith("Heat the room")


def test_by_the_hour_only_warm_days_charge_it() -> None:
    """At Garmisch some January days are mild enough for the room of two people, most are not."""
    trip = {"place": "garmisch", "months": [1], "adults": 2, "days_off_grid_d": 5}
    sun = []
    for options in (KIT, KIT | {"heater-5": 1}):
        build, f = found(options, **trip)
        energy = trip_energy(build, f)
        assert energy is not None
        sun.append(energy.trip.spilled_wh_d)
    assert f.power.sun_wh_d > 0
    assert sun[0] > sun[1]


@pytest.mark.parametrize(
    ("place", "month", "verdict"), [("london", 7, "ok"), ("london", 4, "ok"), ("fichtelberg", 1, "fails")]
)
def test_an_unheated_battery_is_fine_where_it_is_mild(place: str, month: int, verdict: str) -> None:
    build, f = found(KIT, place=place, months=[month])
    assert [x.verdict for x in said("battery-cold-charge", build, f)] == [verdict]


@pytest.mark.parametrize(("foam", "verdict", "words"), [
    (1, "note", "Kept at 18 °C it stays dry there."),
    (0, "fails", "Kept at 18 °C it gets wet as well."),
])  # fmt: skip
def test_water_settles_in_a_cold_room_though_it_were_dry_in_a_warm_one(foam: int, verdict: str, words: str) -> None:
    options = {"diesel-2": 0, "foam-32": foam}
    trip = {"place": "potsdam", "months": [1], "adults": 2, "inside_degc": 18}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", options=options, **trip))
    f = work_out(build)
    d = f.damp
    # Two people's 140 W; a night of −10.1 °C, 2 K of it kept by what the room has stored.
    room = -10.1 + 2 + 140 / f.warmth.total_w_k
    assert d is not None and d.inside_degc == pytest.approx(room) and d.mean_inside_degc == pytest.approx(room + 8.6)
    # 90 g an hour in 29 m³/h are 3.1 g/m³; air of so few degrees below freezing holds less.
    assert d.humidity_frac == 1 and d.dew_point_degc == pytest.approx(room, abs=0.01)
    assert d.if_warm is not None and d.if_warm.humidity_frac < 0.5
    hidden = said("condensation-surfaces", build, f)[0]
    assert hidden.verdict == verdict and words in hidden.cause and "Without heat the room is at" in hidden.cause
    assert said("fresh-air-humidity", build, f) == []


@pytest.mark.parametrize(
    ("place", "month", "verdict"),
    [("amsterdam", 9, "tight"), ("london", 5, "ok"), ("london", 7, None), ("london", 9, None)],
)
def test_a_large_heater_is_judged_by_the_coldest_night_of_a_mild_month(
    place: str, month: int, verdict: str | None
) -> None:
    build, f = found({"heater-5": 1}, place=place, months=[month])
    assert build.climate.mean_degc[month - 1] >= 12
    judged = said("heater-too-large", build, f)
    if verdict is None:  # usual nights are warmer than 12 °C, and nobody heats for a single cold one
        assert judged == [] and f.warmth.mild_loss_w == 0
        return
    [large] = judged
    night = build.climate.coldest_night_degc[month - 1]
    assert large.verdict == verdict and f.warmth.mild_degc == night
    # Amsterdam's coldest hour of September has 6.7 °C: 58 W for each of 11.3 K, less than half of 1.5 kW.
    assert large.measured == pytest.approx(f.warmth.total_w_k * (build.trip.inside_degc - night))
