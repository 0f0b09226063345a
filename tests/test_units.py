"""Quantities and money on their way out."""

import math
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.units import METRIC, SYMBOLS, SYSTEMS, US, converted, day_words, money, read_number, show

# Suffix to the unit it stands for inside, and what each table shows it in, as pint writes them.
INSIDE = {
    "kg": "kg", "m": "m", "m2": "m**2", "cm2": "cm**2", "l": "L", "l_d": "L/day", "w": "W", "wh": "W*hour",
    "wh_d": "W*hour/day", "va": "V*A", "v": "V", "a": "A", "ah": "A*hour", "h": "hour", "d": "day", "degc": "degC",
    "work_h": "hour",
    "k": "delta_degC", "frac": "", "w_mk": "W/m/delta_degC", "w_m2k": "W/m**2/delta_degC", "w_k": "W/delta_degC",
    "m3_h": "m**3/hour", "kg_d": "kg/day", "kg_h": "kg/hour", "l_min": "L/min", "minutes": "minute", "n": "N",
    "deg": "degree", "count": "", "s": "second", "kpa": "kPa",
    "heat_w": "W", "space_l": "L", "thick_m": "m", "gas_kpa": "kPa", "run_m": "m",
    "heat_wh": "W*hour", "water_kg_m2": "kg/m**2",
}  # fmt: skip
SHOWN = {
    "kg": "kg", "m": "m", "mm": "mm", "m²": "m**2", "L": "L", "L/day": "L/day", "W": "W", "Wh": "W*hour",
    "Wh/day": "W*hour/day", "VA": "V*A", "V": "V", "A": "A", "Ah": "A*hour", "h": "hour", "days": "day",
    "°C": "degC", "K": "delta_degC", "%": "percent", "W/m·K": "W/m/delta_degC", "W/m²·K": "W/m**2/delta_degC",
    "W/K": "W/delta_degC", "m³/h": "m**3/hour", "kg/day": "kg/day", "N": "N", "°": "degree", "": "", "lb": "lb",
    "in": "inch", "ft²": "ft**2", "gal": "gallon", "gal/day": "gallon/day", "°F": "degF",
    "BTU·in/h·ft²·°F": "Btu_it*inch/hour/ft**2/delta_degF", "BTU/h·ft²·°F": "Btu_it/hour/ft**2/delta_degF",
    "BTU/h·°F": "Btu_it/hour/delta_degF", "ft³/min": "ft**3/min", "lb/day": "lb/day", "cm²": "cm**2",
    "in²": "inch**2", "kg/h": "kg/hour", "lb/h": "lb/hour", "L/min": "L/min", "gal/min": "gallon/min",
    "min": "minute", "lbf": "lbf", "BTU/h": "Btu_it/hour", "ft³": "ft**3", "s": "second", "kPa": "kPa", "psi": "psi",
    "mbar": "millibar", "in w.c.": "inH2O", "ft": "foot",
    "BTU": "Btu_it", "g/m²": "g/m**2", "oz/ft²": "oz/ft**2",
}  # fmt: skip
EVERY = [(system, unit) for system, table in SYSTEMS.items() for unit in table]
FINITE = st.floats(allow_nan=False, allow_infinity=False)


@pytest.mark.reference
@pytest.mark.parametrize(("system", "unit"), EVERY)
@pytest.mark.parametrize("value", [0.0, 1.0, -17.5, 1234.5])
def test_conversion_agrees_with_pint(system, unit, value):
    import pint

    registry = pint.get_application_registry()
    name = SYSTEMS[system][unit].unit
    to = "delta_degF" if unit == "k" and name == "°F" else SHOWN[name]
    expected = registry.Quantity(value, INSIDE[unit]).to(to).magnitude
    # Factors are exact definitions or carry eight figures at least.
    assert converted(value, unit, system) == pytest.approx(expected, rel=2e-8, abs=1e-12)


@pytest.mark.parametrize(
    ("hours", "said", "labour"),
    [
        (0.0, "0 h", "0 h"),
        (0.005, "0.3 min", "0 h"),
        (0.1, "6 min", "0.1 h"),
        (0.5, "30 min", "0.5 h"),
        (0.99, "59 min", "1 h"),
        (0.995, "1 h", "1 h"),
        (1.5, "1.5 h", "1.5 h"),
        (-0.25, "−15 min", "−0.2 h"),
    ],
)
def test_less_than_an_hour_is_minutes_and_labour_stays_hours(hours, said, labour):
    for system in SYSTEMS:
        assert (show(hours, "h", system), show(hours, "work_h", system)) == (said, labour)
        assert read_number(said, "h") == pytest.approx(hours, abs=0.5 / 60)


def test_both_systems_know_the_same_units():
    assert US.keys() == METRIC.keys() == INSIDE.keys()


@pytest.mark.reference
@pytest.mark.parametrize("currency", sorted(SYMBOLS))
@pytest.mark.parametrize("amount", [0, 1, 12, 999, 1000, 1234, 98765, 1234567, -1, -4321, -1234567])
def test_whole_amounts_look_as_babel_writes_them(currency, amount):
    from babel.numbers import format_currency

    # Unicode CLDR by way of Babel, English as in the United States; a true minus sign in place of the hyphen.
    expected = format_currency(Decimal(amount), currency, format="¤#,##0", locale="en_US", currency_digits=False)
    assert money(Decimal(amount), currency) == expected.replace("-", "−")


@pytest.mark.reference
@pytest.mark.parametrize(("currency", "home"), [("USD", "en_US"), ("EUR", "en_IE"), ("GBP", "en_GB")])
def test_a_buyer_at_home_sees_the_home_currency_as_usual(currency, home):
    from babel.numbers import format_currency

    expected = format_currency(Decimal(48200), currency, format="¤#,##0", locale=home, currency_digits=False)
    assert money(Decimal(48200), currency) == expected


@pytest.mark.reference
@pytest.mark.parametrize(("units", "home"), [("us", "en_US"), ("metric", "en_GB")])
def test_a_day_is_written_as_babel_writes_it(units, home):
    from babel.dates import format_date

    for month in range(1, 13):
        for day in (1, 9, 28):
            expected = format_date(date(2026, month, day), "long", locale=home)
            assert day_words(f"2026-{month:02}-{day:02}", units) == expected


def test_an_unknown_currency_keeps_its_code():
    assert money(Decimal("1234.5"), "CHF") == "CHF\u00a01,235"


@pytest.mark.parametrize(
    ("amount", "text"),
    [("0.49", "$0"), ("0.50", "$1"), ("-0.49", "$0"), ("-0.50", "−$1"), ("2.5", "$3"), ("999.50", "$1,000")],
)
def test_amounts_round_half_away_from_nothing(amount, text):
    assert money(Decimal(amount), "USD") == text


@given(st.decimals(min_value=-(10**10), max_value=10**10, places=2), st.sampled_from(sorted(SYMBOLS)))
def test_money_shows_the_nearest_whole_amount(amount, currency):
    text = money(amount, currency)
    digits = "".join(c for c in text if c.isdigit())
    shown = -int(digits) if text.startswith("−") else int(digits)
    assert abs(shown - amount) <= Decimal("0.5")
    assert "−" not in text or shown < 0


@given(FINITE, st.sampled_from(EVERY))
def test_show_copes_with_every_finite_number_and_never_shows_minus_nothing(value, where):
    system, unit = where
    text = show(value, unit, system)
    assert text == text.strip()
    assert "-" not in text.removesuffix(SYSTEMS[system][unit].unit)
    number = text.removesuffix(SYSTEMS[system][unit].unit).strip()
    assert not number.startswith("−0 ")
    assert number.rstrip(" k") != "−0"
    assert not (number.startswith("−") and not any(c in "123456789inf" for c in number))


@given(st.floats(10, 364.9))
def test_days_are_told_as_surely_as_they_are_known(days):
    text = show(days, "d", "metric")
    number, unit = text.removeprefix("about ").split(" ")
    assert "." not in number
    length, off = {"days": (1, 0.501), "weeks": (7, 3.51), "months": (30.44, 15.3)}[unit]
    assert float(number) * length == pytest.approx(days, abs=off)
    assert (unit == "days") == (days < 60 or days == round(days))


@pytest.mark.parametrize(("measured", "limit"), [(10.4, 10.0), (78.7, 78.2), (189.3, 190.0), (400.2, 401.0)])
def test_days_that_would_read_alike_are_told_finer(measured, limit):
    assert show(measured, "d", "metric", 1) != show(limit, "d", "metric", 1) or (
        show(measured, "d", "metric", 2) != show(limit, "d", "metric", 2)
    )


@given(st.floats(-1e9, 1e9), st.sampled_from(EVERY))
def test_what_is_shown_is_the_number_rounded(value, where):
    system, unit = where
    how = SYSTEMS[system][unit]
    exact = converted(value, unit, system)
    if unit == "d" and exact >= 10:
        return  # days have a test of their own
    shown = show(value, unit, system).split(" ")[0].replace(",", "").replace("−", "-")
    if unit == "a" and 0 < abs(exact) < 0.095:
        assert float(shown) == pytest.approx(exact * 1000, abs=0.0501 if abs(exact) < 0.01 else 0.501)
        return
    kilo = how.unit in ("W", "Wh", "Wh/day") and abs(exact) >= 1000
    step = 10.0 ** -(2 if kilo else how.decimals)
    if how.unit in ("BTU/h", "BTU") and abs(exact) >= 1000:
        step = 10.0 ** (len(f"{abs(exact):.0f}") - 3)  # three figures
    assert float(shown) * (1000 if kilo else 1) == pytest.approx(
        exact, rel=1e-12, abs=0.5001 * step * (1000 if kilo else 1)
    )


@pytest.mark.parametrize(
    ("value", "unit", "system", "text"),
    [
        (1419.7, "kg", "us", "3,130 lb"),
        (12.8, "v", "us", "12.8 V"),
        (12.0, "v", "metric", "12 V"),
        (-0.001, "w_mk", "metric", "−0.001 W/m·K"),
        (-0.0001, "w_mk", "metric", "0 W/m·K"),
        (-0.04, "d", "metric", "0 days"),
        (1.0, "d", "metric", "1 day"),
        (1.04, "d", "metric", "1 day"),
        (2.0, "d", "metric", "2 days"),
        (0.5, "d", "us", "0.5 days"),
        (9.94, "d", "metric", "9.9 days"),
        (10.0, "d", "metric", "10 days"),
        (10.4, "d", "metric", "10 days"),
        (59.6, "d", "metric", "60 days"),
        (60.0, "d", "metric", "60 days"),
        (78.7, "d", "us", "about 11 weeks"),
        (90.0, "d", "us", "90 days"),
        (189.3, "d", "metric", "about 6 months"),
        (364.9, "d", "metric", "about 12 months"),
        (365.0, "d", "metric", "more than a year"),
        (2634.2, "d", "metric", "more than a year"),
        (2500, "w", "metric", "2.5 kW"),
        (2500, "wh_d", "us", "2.5 kWh/day"),
        (-1500, "w", "metric", "−1.5 kW"),
        (-40, "degc", "us", "−40 °F"),
        (0.856, "frac", "us", "86 %"),
        (1.8, "m", "us", "70.9 in"),
        (3, "count", "us", "3"),
        (7000 * 0.29307107017, "heat_w", "us", "7,000 BTU/h"),
        (1502.3, "heat_w", "us", "5,130 BTU/h"),
        (98.2, "heat_w", "us", "335 BTU/h"),
        (19190, "heat_wh", "us", "65,500 BTU"),
        (19190, "heat_wh", "metric", "19.19 kWh"),
        (0.5, "water_kg_m2", "us", "1.64 oz/ft²"),
        (0.012, "water_kg_m2", "us", "0.04 oz/ft²"),
        (0.012, "water_kg_m2", "metric", "12 g/m²"),
        (1500, "w", "us", "1.5 kW"),
        (2051.5, "heat_w", "metric", "2.05 kW"),
        (2265.35, "space_l", "us", "80 ft³"),
        (2.74, "gas_kpa", "us", "11 in w.c."),
        (0.00428, "gas_kpa", "us", "0.02 in w.c."),
        (0.005, "a", "us", "5 mA"),
        (0.03, "a", "metric", "30 mA"),
        (0.1, "a", "metric", "0.1 A"),
        (-0.078, "a", "metric", "−78 mA"),
        (0.125, "gas_kpa", "us", "0.5 in w.c."),
        (2.75, "gas_kpa", "metric", "27.5 mbar"),
        (1.0, "run_m", "us", "3.3 ft"),
        (5.53, "run_m", "us", "18 ft"),
        (5.53, "run_m", "metric", "5.5 m"),
        (2265.35, "space_l", "metric", "2,265 L"),
        (0.049, "kg", "metric", "0.05 kg"),
        (0.02, "kg", "us", "0.04 lb"),
        (0.004, "kg", "metric", "0 kg"),
        (0.003, "frac", "us", "0.3 %"),
        (0.0, "l", "us", "0 gal"),
    ],
)
def test_known_examples(value, unit, system, text):
    assert show(value, unit, system) == text


@pytest.mark.parametrize("system", SYSTEMS)
def test_a_unit_nobody_knows_raises(system):
    with pytest.raises(KeyError):
        show(1, "furlong", system)


def test_a_wall_s_resistance_in_us_units():
    # R-1 is 0.17611 m²K/W, so a wall of 1 W/(m²·K) is 0.1761 BTU/(h·ft²·°F).
    assert converted(1, "w_m2k", "us") == pytest.approx(0.17611, abs=5e-6)
    assert math.isclose(converted(20, "degc", "us"), 68)
