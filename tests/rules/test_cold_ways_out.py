"""Remedies for gas, diesel and damp in the cold name only what can help the build and the trip."""

from dataclasses import replace

import pytest

from engine.build import work_out
from engine.build.gas_rate import GasRateFigures
from engine.catalogue.facets import GasStore
from engine.physics.gas_rate import Rate
from engine.rule import Finding
from engine.rules import judge
from engine.rules.gas_rate import way
from tests.build.test_hot_and_cold_water import _with
from tests.shops import enquiry, resolver


def found(
    code: str, options: dict[str, int], shop: str = "hallamoor", vehicle: str = "box-72", **trip: object
) -> Finding:
    """The rule's finding on such a build."""
    build = resolver(shop).resolve(enquiry(shop, vehicle, options, **trip))
    return next(f for f in judge(build, work_out(build)) if f.rule == code)


def a_night(degc: float, propane_frac: float, count: int, gives_kg_h: float) -> GasRateFigures:
    """A cylinder on such a night; 0 cylinders are a tank."""
    feeds = {1.0: -41.0, 0.6: -5.0, 0.0: 1.0}[propane_frac]
    rate = Rate(gives_kg_h, gives_kg_h / 2, gives_kg_h * 1.5)
    return GasRateFigures(
        (), (), "Store", 0.3, 0.0, rate, rate, propane_frac, degc, feeds, propane_frac, degc >= -30, count
    )  # fmt: skip


@pytest.mark.parametrize(
    ("night", "said", "unsaid"),
    [
        (a_night(-15, 1.0, 1, 0.2), ("two cylinders at once or a larger one", "another fuel"), ("propane",)),
        (a_night(-15, 1.0, 2, 0.2), ("two cylinders at once,",), ("propane", "larger")),
        (a_night(-15, 1.0, 0, 0.2), ("larger tank", "refill"), ("propane", "cylinder")),
        (a_night(-2, 0.6, 1, 0.1), ("Use propane, use two cylinders",), ()),
        (a_night(-10, 0.0, 1, 0.0), ("Use propane, which still gives gas then",), ("cylinders",)),
        (a_night(-35, 0.0, 1, 0.0), ("warmer", "burns no gas"), ("propane", "cylinders")),
        (a_night(-46, 1.0, 1, 0.0), ("warmer", "burns no gas"), ("propane", "cylinders")),
        (a_night(-46, 1.0, 0, 0.0), ("warmer", "burns no gas"), ("propane", "tank")),
    ],
)
def test_gas_in_the_cold_is_helped_by_what_still_gives_gas(
    night: GasRateFigures, said: tuple[str, ...], unsaid: tuple[str, ...]
) -> None:
    told = way(night)
    assert all(x in told for x in said) and not any(x in told for x in unsaid), told


def test_where_no_gas_comes_no_fill_lasts() -> None:
    kit = {"combi-gas-4": 1, "cylinder-11": 1, "gas-system": 1, "lfp-230": 1, "foam-32": 1}
    north = {"place": "northway", "months": (1,)}
    rate, warm = (found(code, kit, **north) for code in ("gas-rate", "warm-up-time"))
    assert rate.verdict == "fails" and "it gives no gas to speak of; " in rate.cause and "0 kg/h" not in rate.cause
    assert "Full, it gives" not in rate.cause
    propane = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", kit, place="london", months=(1,)))
    mixed = _with(propane, GasStore, propane_frac=0.4)
    [full] = [f for f in judge(mixed, work_out(mixed)) if f.rule == "gas-rate"]
    # At −8 °C: three tenths full it is butane, but full its propane still boils.
    assert full.verdict == "fails" and ", three tenths full, it gives no gas" in full.cause
    assert "Full, it gives about 0.68 kg/h" in full.cause
    assert "gives no gas" in warm.cause and "lasts" not in warm.cause
    assert "lasts" in found("warm-up-time", kit, place="london", months=(1,)).cause


def test_which_gas_it_is_has_to_be_known_in_the_cold() -> None:
    kit = {"combi-gas-4": 1, "cylinder-11": 1, "gas-system": 1, "lfp-230": 1}
    for shop, vehicle, options, month, verdict in (
        ("hallamoor", "box-72", kit, 1, "unknown"),
        ("hallamoor", "box-72", kit | {"hob-gas": 1}, 8, "ok"),
        ("quillback", "box", {"heater-gas-furnace": 1, "gas-cylinder-20": 1, "battery-24v-200": 1}, 1, "ok"),
    ):
        stated = resolver(shop).resolve(enquiry(shop, vehicle, options, place="london", months=[month]))
        silent = _with(stated, GasStore, propane_frac=None)
        got = [f for f in judge(silent, work_out(silent)) if f.rule == "gas-rate"]
        assert [f.verdict for f in got] == [verdict]
        assert verdict != "unknown" or "which gas it is" in (got[0].missing or "")


@pytest.mark.parametrize(("driving_h", "verdict"), [(0, "fails"), (1.5, "note")])
def test_diesel_runs_short_only_where_nobody_drives(driving_h: float, verdict: str) -> None:
    kit = {"diesel-2": 1, "lfp-230": 1, "foam-32": 1}
    f = found("heater-fuel-days", kit, place="london", months=(1,), days_off_grid_d=60, driving_h=driving_h)
    assert f.verdict == verdict and ("filled on the way" in f.cause) == (driving_h > 0)


@pytest.mark.parametrize(("place", "told"), [("northway", True), ("garmisch", False)])
def test_in_deep_frost_ordinary_diesel_clogs(place: str, told: bool) -> None:
    f = found("heater-fuel-days", {"diesel-2": 1, "lfp-230": 1}, place=place, months=(1,), driving_h=0)
    assert ("Colder than −20 °C ordinary winter diesel clogs" in f.cause) is told


@pytest.mark.parametrize(("shop", "vehicle", "insulation", "remedy"), [
    ("quillback", "van", "insulation-wool-50", "Put a vapor layer on the room side, take closed-cell insulation "
     "against the skin, or let more air through."),
    ("quillback", "van", "insulation-spray-50", "Put a vapor layer on the room side, or let more air through."),
    ("hallamoor", "van-35", "wool-60", "Put a tighter vapour layer on the room side, take closed-cell insulation "
     "against the skin, or let more air through."),
])  # fmt: skip
def test_nobody_is_told_to_add_what_keeps_vapour_out_already(
    shop: str, vehicle: str, insulation: str, remedy: str
) -> None:
    heated = {"hallamoor": {"diesel-2": 1, "lfp-230": 1, "lining-felt": 1},
              "quillback": {"heater-diesel-2": 1, "battery-12v-300": 1, "lining-light-panel": 1}}[shop]  # fmt: skip
    f = found("condensation-in-layers", heated | {insulation: 1}, shop, vehicle, place="northway", months=(1, 12, 3))
    assert (f.verdict, f.remedy) == ("tight", remedy)


@pytest.mark.parametrize(("driving_h", "days_off_grid_d"), [(0, 2), (1.5, 2), (1.5, 60), (0, 60)])
def test_diesel_that_clogs_is_told_however_long_it_lasts(driving_h: float, days_off_grid_d: int) -> None:
    kit = {"diesel-2": 1, "lfp-230": 1, "foam-32": 1}
    trip = {"place": "northway", "months": (1,), "driving_h": driving_h, "days_off_grid_d": days_off_grid_d}
    f = found("heater-fuel-days", kit, **trip)  # type: ignore[arg-type]
    assert f.verdict == ("fails" if (driving_h, days_off_grid_d) == (0, 60) else "note")
    assert "ordinary winter diesel clogs" in f.cause
    assert ("filled on the way" in f.cause) == ((driving_h, days_off_grid_d) == (1.5, 60))


def test_of_a_boiler_alone_it_is_not_known_either_where_its_diesel_comes_from() -> None:
    kit = {"combi-diesel-6": 1, "pump": 1, "fresh-220": 1, "lfp-230": 1, "washroom-box": 1}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "box-72", kit, place="seville", months=(7,)))
    engine = build.vehicle.engine.model_copy(update={"fuel": "petrol"})
    petrol = replace(build, vehicle=build.vehicle.model_copy(update={"engine": engine}))
    [f] = [f for f in judge(petrol, work_out(petrol)) if f.rule == "heater-fuel-days"]
    assert (f.verdict, f.options) == ("unknown", ("combi-diesel-6",))


def test_damp_is_helped_by_what_is_not_there_yet() -> None:
    kit = {"diesel-2": 1, "lfp-230": 1, "foam-32": 1}
    damp = {"code": "fresh-air-humidity", "vehicle": "van-35", "place": "london", "months": (12,)}
    fitted = found(options=kit | {"roof-fan": 1}, **damp)  # type: ignore[arg-type]
    bare = found(options=kit, **damp)  # type: ignore[arg-type]
    flueless = {"heater-gas-catalytic": 1, "gas-cylinder-20": 1, "roof-fan": 1}
    still = found("fresh-air-humidity", flueless, "quillback", "van", place="mount-shasta", months=(12,))
    assert (fitted.verdict, bare.verdict) == ("tight", "fails")
    assert "flue" not in fitted.remedy + bare.remedy
    assert "Let the fan run slowly" in fitted.remedy and "Fit a fan" in bare.remedy
    assert "a heater with a flue" in still.remedy and "give the fan a battery" in still.remedy


BARE = {"foam-32": 1, "cab-curtain": 1, "lfp-230": 1}


@pytest.mark.parametrize(("place", "month", "verdict"), [("sydney", 1, "note"), ("lisbon", 7, "note"),
                                                         ("sydney", 7, "fails"), ("helsinki", 6, "fails")])  # fmt: skip
def test_nobody_needs_a_heater_where_nobody_heats(place: str, month: int, verdict: str) -> None:
    # The mean of the first two is above 20 °C, and of their usual nights above 12 °C.
    without = found("heater-capacity", BARE, vehicle="van-35", place=place, months=(month,))
    assert without.verdict == verdict
    # Nor is a weak one worse than none.
    floor = found("heater-capacity", BARE | {"floor-heat-12v": 1}, vehicle="van-35", place=place, months=(month,))
    assert floor.verdict == verdict or (verdict, floor.verdict) == ("note", "ok")


def test_in_the_mild_the_smaller_of_two_heaters_runs() -> None:
    both = BARE | {"diesel-2": 1, "diesel-8": 1}
    mild = found("heater-too-large", both, vehicle="van-35", place="london", months=(4,))
    large = found("heater-too-large", BARE | {"diesel-8": 1}, vehicle="van-35", place="london", months=(4,))
    assert (mild.verdict, large.verdict) == ("ok", "tight")
    assert "800 W" in mild.cause and "3.5 kW" in large.cause


def test_a_room_that_is_too_cold_wants_heat_and_not_air() -> None:
    damp = {"code": "fresh-air-humidity", "vehicle": "van-35", "place": "garmisch", "months": (1,)}
    for heater in ("diesel-2", "floor-heat-12v"):
        kept = found(options=BARE | {heater: 1}, **damp)  # type: ignore[arg-type]
        assert (kept.verdict, kept.measured) == ("ok", pytest.approx(16, abs=0.6))
