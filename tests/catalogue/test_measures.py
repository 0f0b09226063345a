"""Quantities as people write them, against known values, against pint asked in another way, and against any text."""

import math
import string
from decimal import Decimal
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic_core import PydanticCustomError

from engine.catalogue.measures import UnreadableError, parse_quantity, read_text
from engine.catalogue.quantities import SUFFIXES
from engine.catalogue.unit_words import COMPOUND, KINDS, WORDS

# Exact by definition: pound 0.45359237 kg, inch 0.0254 m, US gallon 231 in³, International Table BTU 1055.05585262 J,
# 0 °C = 273.15 K (NIST Special Publication 811, 2008, appendix B).
# pint takes the BTU as 1055.056 J, as ISO 31-4 rounds it: 1.4e-7 more.
BTU_IN_PINT = 1055.056 / 1055.05585262
KNOWN = [
    ("60 lb", "kg", 27.2155422),
    ("2 oz", "kg", 0.05669904625),
    ("75 in", "m", 1.905),
    ("67 3/4 in", "m", 1.72085),
    ("3/4 in", "m", 0.01905),
    ("-1/2 in", "m", -0.0127),
    ("-1 1/2 in", "m", -0.0381),
    ("5 ft 11 in", "m", 1.8034),
    ("5 ft 11 1/2 in", "m", 1.8161),
    ("12 lb 8 oz", "kg", 5.669904625),
    ("5998 mm", "m", 5.998),
    ("12000 BTU/h", "W", 3516.85284207 * BTU_IN_PINT),
    ("3.5 kW", "W", 3500),
    ("300 Ah", "Ah", 300),
    ("100000 mAh", "Ah", 100),
    ("40 gal", "L", 151.416471360),
    ("10 imp gal", "L", 45.4609),
    ("90 %", "1", 0.9),
    ("-0.30 %/K", "1/K", -0.003),
    ("−0,30 %/°C".replace(",", "."), "1/K", -0.003),
    ("-0.18 %/°F", "1/K", -0.00324),
    ("20 degC", "°C", 20),
    ("68 °F", "°C", 20),
    ("68 ° F", "°C", 20),
    ("32 °F", "°C", 0),
    ("-40 degF", "°C", -40),
    ("293.15 K", "°C", 20),
    ("9 °F", "K", 5),
    ("15 lb/ft²", "kg/m²", 73.2364145457),
    ("15 lb/sq ft", "kg/m²", 73.2364145457),
    ("2 lb/ft³", "kg/m³", 32.0369267479),
    ("15 lb per sq ft", "kg/m²", 73.2364145457),
    ("1.67 per ft²", "1/m²", 17.9757303959),
    ("12.50 per m²", "1/m²", 12.5),
    ("1.4 W/m²/K", "W/(m²·K)", 1.4),
    ("1.4 W/m²K", "W/(m²·K)", 1.4),
    ("1.4 W/(m²·K)", "W/(m²·K)", 1.4),
    ("1.4 W/m2/K", "W/(m²·K)", 1.4),
    ("1.4 W / m^2 / K", "W/(m²·K)", 1.4),
    ("100 cfm", "m³/h", 169.9010795520),
    ("2 gpm", "L/min", 7.570823568),
    ("40 psi", "kPa", 275.790291729),
    ("90 lbf", "N", 400.339945373),
    ("2 weeks", "day", 14),
    ("90 min", "h", 1.5),
    ("1.5e3 W", "W", 1500),
    (".5 kg", "kg", 0.5),
    ("27\u00a0kg", "kg", 27),
    ("  27kg ", "kg", 27),
    ("1 t", "kg", 1000),
]


@pytest.mark.parametrize(("text", "unit", "expected"), KNOWN, ids=lambda v: str(v))
def test_known_values(text: str, unit: str, expected: float) -> None:
    # The values above are written to about ten digits.
    assert read_text(text, unit) == pytest.approx(expected, rel=3e-9, abs=1e-12)


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


@pytest.mark.parametrize("word", sorted(set(WORDS) - {"1", "°", "deg"}))
def test_every_unit_word_agrees_with_pint_read_as_text(word: str, registry: pint.UnitRegistry[float]) -> None:
    name = COMPOUND.get(WORDS[word], WORDS[word])
    dimension = registry.Unit(name).dimensionality
    takers = [
        (unit, target)
        for unit, target in TARGETS.items()
        if registry.Unit(target).dimensionality == dimension
        and not (unit == "h" and WORDS[word] in {"day", "week"})
        and not (unit == "W" and "A" in word)
        and unit != "°"
    ]
    assert takers, f"no field takes {word}"
    for unit, target in takers:
        expected = registry.Quantity(37.5, name).to(target).magnitude
        if unit == "K" and name.startswith("degree_"):
            expected = registry.Quantity(37.5, f"delta_{name}").to("kelvin").magnitude
        assert read_text(f"37.5 {word}", unit) == pytest.approx(expected, rel=1e-11, abs=1e-9 if unit == "°C" else 0)


# Units of fields, spelt for pint's own reader.
TARGETS = {
    "kg": "kg", "m": "m", "km": "km", "m²": "m**2", "cm²": "cm**2", "L": "L", "W": "W", "VA": "V*A", "Wh": "W*h",
    "V": "V", "A": "A", "Ah": "A*h", "ohm": "ohm", "h": "h", "s": "s", "day": "day", "K": "kelvin", "°C": "degC",
    "1": "dimensionless", "1/K": "1/K", "°": "degree", "kPa": "kPa", "N": "N", "m³/h": "m**3/h", "kg/h": "kg/h",
    "L/min": "L/min", "kg/m²": "kg/m**2", "kg/m³": "kg/m**3", "W/(m·K)": "W/m/K", "W/(m²·K)": "W/m**2/K",
    "kWh/m²/day": "kW*h/m**2/day", "1/m²": "1/m**2",
}  # fmt: skip


def test_every_suffix_has_a_kind_and_reads_its_own_example() -> None:
    for unit, example in SUFFIXES.values():
        assert unit in KINDS
        assert math.isfinite(parse_quantity(example, unit, example))
    assert set(TARGETS) == set(KINDS)


@pytest.mark.parametrize("unit", sorted(KINDS))
def test_every_unit_offered_in_a_message_is_taken(unit: str) -> None:
    for word in KINDS[unit][1].split(", "):
        if not (unit == "day" and word == "h"):
            assert math.isfinite(read_text(f"5 {word}", unit))


@pytest.mark.parametrize("value", [27, 27.5, Decimal("27"), "27", "", "kg", True, None, [27], {"kg": 27}])
def test_what_has_no_unit_is_refused(value: Any) -> None:
    with pytest.raises(PydanticCustomError) as caught:
        parse_quantity(value, "kg", "27 kg")
    assert caught.value.context and caught.value.context["example"] == "27 kg"


@pytest.mark.parametrize(
    ("text", "unit", "phrase"),
    [
        ("1e999 kg", "kg", "plain number"),
        ("9**9**9 kg", "kg", "cannot be read"),
        ("1 kg**9**9", "kg", "cannot be read"),
        ("1 kg^99", "kg", "cannot be read"),
        ("nan kg", "kg", "plain number"),
        ("inf kg", "kg", "plain number"),
        ("0x10 kg", "kg", "not known"),
        ("1_000 kg", "kg", "characters"),
        ("1,000 kg", "kg", "comma"),
        ("٣ kg", "kg", "characters"),
        ("３ kg", "kg", "characters"),
        ("½ in", "m", "characters"),
        ("12 12 kg", "kg", "plain number"),
        ("1.2.3 kg", "kg", "plain number"),
        ("1/0 in", "m", "divides by zero"),
        ("27 kg kg", "kg", "something else"),
        ("27 kg1", "kg", "cannot be read"),
        ("27 ()", "kg", "cannot be read"),
        ("27 kg/", "kg", "cannot be read"),
        ("5 ft 11 kg", "m", "cannot be read"),
        ("5 ft 11 oz", "m", "measures a mass"),
        ("27 __import__", "kg", "characters"),
        ("15 %", "°", "this wants an angle"),
        ("15 deg", "1", "this wants a share"),
        ("1 gr", "kg", "not read"),
        ("k" * 10_000, "kg", "at most"),
    ],
)
def test_strange_texts_are_told(text: str, unit: str, phrase: str) -> None:
    with pytest.raises(UnreadableError) as caught:
        read_text(text, unit)
    assert phrase in caught.value.said


NEARLY = st.text(alphabet="0123456789.+-/·*^()%°²³ eE" + "kglbinftWhVACFKBTU", max_size=48)
NUMBERED = st.builds(
    lambda n, w, p, v: f"{n} {w}{p}{v}",
    st.sampled_from(["1", "2.5", "-3", "1e9", "1e99", "99999 3/4", "1e-99"]),
    st.sampled_from(sorted(WORDS)),
    st.sampled_from(["", "²", "/", "·", " ", "^3"]),
    st.sampled_from(["", *sorted(WORDS)]),
)


@given(st.one_of(st.text(), NEARLY, NUMBERED, st.text(string.printable)), st.sampled_from(sorted(KINDS)))
def test_any_text_is_a_finite_number_or_a_clear_problem(text: str, unit: str) -> None:
    try:
        value = read_text(text, unit)
    except UnreadableError as problem:
        assert problem.said
    else:
        assert math.isfinite(value)


@given(st.floats(min_value=1e-3, max_value=1e6), st.sampled_from(["kg", "g", "lb", "oz", "t"]))
def test_more_is_more_in_every_unit(number: float, word: str) -> None:
    assert 0 < read_text(f"{number:.4f} {word}", "kg") <= read_text(f"{number * 1.5:.4f} {word}", "kg")
