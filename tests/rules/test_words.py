"""Sentences agree with their numbers, name things apart, and say nothing twice."""

import re

import pytest

from engine.rule import AtMost, Rule, listed
from engine.rules import all_rules
from engine.rules.heater_capacity import RULE as HEATER
from engine.saying import _Words, say
from tests.rules.test_examples import variants

BY_CODE = {r.code: r for r in all_rules()}


def told(code: str, **inputs: object) -> str:
    rule = BY_CODE[code]
    return say(rule, rule.inputs.model_validate(inputs), "metric", "EUR").cause


@pytest.mark.parametrize(
    ("code", "inputs", "said"),
    [
        ("berths", {"places_count": 2, "people_count": 1}, "2 sleeping places for 1 person."),
        ("berths", {"places_count": 1, "people_count": 1}, "1 sleeping place for 1 person."),
        ("berths", {"places_count": 0, "people_count": 2}, "No sleeping place for 2 people."),
        ("belted-seats", {"belts_count": 1, "people_count": 1}, "1 belted seat for 1 person."),
    ],
)
def test_one_is_not_many(code: str, inputs: dict[str, object], said: str) -> None:
    assert told(code, **inputs) == said


def test_a_step_of_one_tread_has_one() -> None:
    rule = BY_CODE["entry-step"]
    example = next(e for e in rule.examples() if e.inputs.get("treads_count"))
    inputs = rule.inputs.model_validate(dict(example.inputs) | {"treads_count": 1})
    for words in rule.says.values():
        assert "1 treads" not in words.format_map(_Words(inputs, AtMost(0.2, 0.3, "m"), "metric", "EUR"))
    assert "with 1 tread each" in rule.says["ok"].format_map(_Words(inputs, AtMost(0.2, 0.3, "m"), "metric", "EUR"))


@pytest.mark.parametrize("rule", all_rules(), ids=lambda r: r.code)
def test_no_sentence_counts_one_as_many_or_nothing_as_something(rule: Rule) -> None:
    many = r"(?<![\d.,])1 (people|treads|seats|beds|panels|places|ways|days|things|choices|sleepers)\b"
    seen = 0
    for inputs in (*variants(rule), *(rule.inputs.model_validate(dict(e.inputs)) for e in rule.examples())):
        for system, currency in (("us", "USD"), ("metric", "EUR")):
            found = say(rule, inputs, system, currency)  # type: ignore[arg-type]
            seen += 1
            for text in (found.cause, found.remedy):
                assert not re.search(many, text), text
                assert not re.search(r"(?<![\d.,])(only )?0 \S+ (is|are) left", text), text
                assert not (m := re.search(r"between (\S+ \S+) and (\S+ \S+)\)", text)) or m[1] != m[2], text
    assert seen


@pytest.mark.parametrize("rule", all_rules(), ids=lambda r: r.code)
def test_no_sentence_tells_less_than_nothing(rule: Rule) -> None:
    for example in rule.examples():
        found = say(rule, rule.inputs.model_validate(dict(example.inputs)), "metric", "EUR")
        assert not re.search(r"−[\d.,]+ (kg|mm|m|days?|h|min|L)\b", found.cause + found.remedy), found.cause


def test_a_full_inverter_has_nothing_left() -> None:
    said = told("inverter-continuous", loads="Microwave", together_va=2000, rating_w=2000)
    assert said == "Of the inverter's 2,000 VA, nothing is left while these run: Microwave."
    assert told("inverter-continuous", loads="Microwave", together_va=1550, rating_w=3000) == (
        "Of the inverter's 3,000 VA, 1,550 VA are taken while these run: Microwave."
    )


@pytest.mark.parametrize(
    ("code", "changes", "said"),
    [
        ("occupant-cargo-capacity", {"capacity_kg": -600.0},
         "No occupants or cargo may come aboard. It weighs 600 kg too much without them. Its 4 belted seats ask "
         "for 272 kg. The empty"),
        ("occupant-cargo-capacity", {"capacity_kg": 0.0},
         "No occupants or cargo may come aboard. Its 4 belted seats ask for 272 kg, 272 kg more. The empty"),
        ("occupant-cargo-capacity", {"capacity_kg": 172.0},
         "Occupants and cargo may weigh 172 kg together. Its 4 belted seats ask for 272 kg, 100 kg more. The empty"),
        ("minimum-payload", {"payload_kg": -120.0},
         "With all 4 seats taken nothing is left for belongings. It weighs 120 kg too much; the law asks for 100 kg. "
         "Ready"),
        ("minimum-payload", {"payload_kg": 0.0},
         "With all 4 seats taken nothing is left for belongings. That is 100 kg less than the law's 100 kg."),
        ("minimum-payload", {"payload_kg": 60.0},
         "With all 4 seats taken 60 kg are left for belongings. That is 40 kg less than the law's 100 kg."),
    ],
)  # fmt: skip
def test_less_than_nothing_is_told_in_words(code: str, changes: dict[str, float], said: str) -> None:
    assert told(code, **dict(BY_CODE[code].examples()[0].inputs) | changes).startswith(said)


def test_a_band_without_width_is_not_told() -> None:
    night = {
        "inside_degc": 18.0, "outside_degc": -7.0, "loss_heat_w": 1800.0, "low_heat_w": 1797.0, "high_heat_w": 1802.0,
        "output_heat_w": 2000.0, "largest": "walls",
    }  # fmt: skip
    assert told(HEATER.code, **night) == "At −7 °C outside it loses about 1.8 kW; the heating gives 2 kW."
    assert "1.8 kW (between 1.5 kW and 2.2 kW); the" in told(
        HEATER.code, **night | {"low_heat_w": 1500.0, "high_heat_w": 2200.0}
    )


def test_a_little_gas_is_not_none() -> None:
    said = told(
        "gas-days", content_kg=10.0, use_kg=0.349, cooking_kg=0.3, heating_kg=0.0, hot_water_kg=0.049, wanted_d=5.0
    )
    assert "(cooking 0.3 kg; hot water 0.05 kg; 0.3 kg a day in all)" in said
    assert "heating" not in said


def test_air_for_flames_is_told_where_there_are_any() -> None:
    rule = BY_CODE["heater-capacity"]
    short = dict(next(e for e in rule.examples() if e.verdict == "fails").inputs)
    assert "flames" not in told(rule.code, **short)
    assert " Flames take 49 m³/h of air." in told(rule.code, **short | {"flame_m3_h": 49.0})


def test_a_waste_tank_that_is_nearly_enough_is_not_called_half_of_it() -> None:
    said = told("waste-tank-turns", fresh_l=345.0, waste_l=185.0, tank_l=180.0)
    assert said.endswith("its tank holds 180 L and is full while 9.3 L of fresh water are still aboard.")
    assert "aboard" not in told("waste-tank-turns", fresh_l=345.0, waste_l=180.0, tank_l=180.0)
    often = told("waste-tank-turns", fresh_l=300.0, waste_l=270.0, tank_l=180.0)
    assert often.endswith("It must be emptied 2 times for each filling.")


def test_a_year_of_fuel_is_told_as_such() -> None:
    said = told("heater-fuel-days", burnt_for="Hot water", use_l=0.1, half_tank_l=40.0, available_d=365.0, wanted_d=5.0)
    assert said == "Hot water: 0.1 L of diesel a day; half a tank lasts more than a year."


def test_ways_out_in_a_row_say_which_of_them_are_a_choice() -> None:
    remedies = [
        (rule.code, say(rule, rule.inputs.model_validate(dict(e.inputs)), "metric", "EUR").remedy)
        for rule in all_rules()
        for e in rule.examples()
    ]
    verbs = {text.partition(" ")[0].lower() for _, text in remedies if text} - {"a", "it", "struts"}
    rows = [(code, s) for code, text in remedies for s in re.split(r"(?<=[.;]) ", text)
            if any(f", {verb} " in s for verb in verbs)]  # fmt: skip
    assert len(rows) > 20
    assert [row for row in rows if not re.search(r"\b(or|and)\b", row[1])] == []


def test_no_battery_is_called_too_weak_when_full_that_may_start_its_load_then() -> None:
    # 12 V at rest with 7.5 mΩ and 2,200 W: 10.4 V. At 14.3 V it is 13.0 V; 9,000 W it cannot give at any voltage.
    sag = {"moment": "When it starts", "rest_v": 12.0, "lost_v": 0.75, "cells_degc": 10.0, "cutoff_v": 10.5}
    may = told("battery-sag", **sag, load_w=2200.0, charge_v=14.3)
    never = told("battery-sag", **sag, load_w=9000.0, charge_v=14.3)
    not_known = told("battery-sag", **sag, load_w=9000.0)
    assert all("voltage of a half-empty battery falls to" in said for said in (may, never, not_known))
    assert [("however full" in said) for said in (may, never, not_known)] == [False, True, False]


def test_many_nights_are_counted_in_plain_figures() -> None:
    rule = BY_CODE["warm-up-time"]
    night = dict(rule.examples()[0].inputs) | {"lasting": "A fill of gas lasts 2,634 such nights"}
    assert told(rule.code, **night).endswith("electricity. A fill of gas lasts 2,634 such nights.")
    assert told(rule.code, **night | {"lasting": ""}).endswith("electricity.")


def test_names_with_commas_are_told_apart() -> None:
    assert listed(("Microwave", "Kettle")) == "Microwave, Kettle"
    assert listed(("Microwave, 1,000 W", "Kettle")) == "Microwave, 1,000 W; Kettle"
    assert listed(()) == ""


def test_cautions_that_mean_the_same_say_it_in_the_same_words() -> None:
    said = sorted({s for r in all_rules() for s in re.split(r"(?<=[.!?]) ", r.caution) if s})
    words = {s: {w for w in re.findall(r"\w+", s.lower()) if len(w) > 3} - {"never", "with", "without"} for s in said}
    alike = [
        (a, b)
        for i, a in enumerate(said)
        for b in said[i + 1 :]
        if len(words[a] & words[b]) >= max(3, 0.5 * min(len(words[a]), len(words[b])))
    ]
    assert alike == []


@pytest.mark.parametrize(("surface_degc", "what"), [(4.0, "water"), (0.0, "frost"), (-3.0, "frost")])
def test_what_settles_below_freezing_is_frost(surface_degc: float, what: str) -> None:
    inputs = {
        "where": "door glass", "inside_degc": 18.0, "outside_degc": -18.0, "humidity_frac": 0.6, "dew_point_degc": 10.0,
        "surface_degc": surface_degc, "foam_thick_m": 0.0, "glass": True,
    }  # fmt: skip
    assert f"outside {what} forms on door glass" in told("condensation-surfaces", **inputs)
