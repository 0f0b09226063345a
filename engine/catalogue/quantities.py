"""Quantities with units: text at the author's door, SI floats behind it.

A shop file says ``mass = "27 kg"``; the model's field is ``mass_kg`` and holds 27.0. The same model reads the
published catalogue, where the key is ``mass_kg`` and the value already a number. Which of the two applies is decided
by the validation context: an author's door passes ``{"parse": function}``, everybody else passes nothing.
"""

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from functools import lru_cache
from typing import Annotated, Any

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    ValidationInfo,
)
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

# A field's suffix, with the unit it stands for and an example of how a person writes it.
SUFFIXES: dict[str, tuple[str, str]] = {
    "_kwh_m2_d": ("kWh/m²/day", "4.2 kWh/m²/day"),
    "_kg_h": ("kg/h", "0.3 kg/h"),
    "_per_m2": ("1/m²", "12.50 per m²"),
    "_kg_m3": ("kg/m³", "32 kg/m³"),
    "_kg_m2": ("kg/m²", "4.5 kg/m²"),
    "_w_m2k": ("W/(m²·K)", "1.4 W/m²/K"),
    "_w_mk": ("W/(m·K)", "0.035 W/m/K"),
    "_frac_k": ("1/K", "-0.30 %/K"),
    "_space_l": ("L", "80 L"),
    "_water_kg_m2": ("kg/m²", "0.5 kg/m²"),
    "_gas_kpa": ("kPa", "30 mbar"),
    "_run_m": ("m", "6 m"),
    "_thick_m": ("m", "20 mm"),
    "_heat_wh": ("Wh", "5 kWh"),
    "_heat_w": ("W", "2 kW"),
    "_m3_h": ("m³/h", "120 m³/h"),
    "_l_min": ("L/min", "8 L/min"),
    "_cm2": ("cm²", "100 cm²"),
    "_frac": ("1", "85 %"),
    "_ohm": ("ohm", "3 mohm"),
    "_degc": ("°C", "20 degC"),
    "_kpa": ("kPa", "250 kPa"),
    "_deg": ("°", "15 deg"),
    "_kg": ("kg", "27 kg"),
    "_m2": ("m²", "3.2 m²"),
    "_wh": ("Wh", "2400 Wh"),
    "_va": ("VA", "6000 VA"),
    "_ah": ("Ah", "200 Ah"),
    "_km": ("km", "60000 km"),
    "_w": ("W", "1.2 kW"),
    "_v": ("V", "12.8 V"),
    "_a": ("A", "30 A"),
    "_k": ("K", "5 K"),
    "_m": ("m", "1.72 m"),
    "_l": ("L", "80 L"),
    "_h": ("h", "2.5 h"),
    "_s": ("s", "5 s"),
    "_d": ("day", "14 days"),
    "_n": ("N", "400 N"),
}


@lru_cache(maxsize=8192)
def suffix_of(name: str) -> str | None:
    """The unit suffix at the end of a field name, or None when it names no unit."""
    at = name.find("_")
    while at >= 0 and name[at:] not in SUFFIXES:
        at = name.find("_", at + 1)
    return name[at:] if at >= 0 else None


def spoken_name(name: str) -> str:
    """The key an author writes for a field: the field's name without its unit (``mass_kg`` becomes ``mass``)."""
    suffix = suffix_of(name)
    return name.removesuffix(suffix) if suffix else name


class Quantity:
    """Marks a float field as a physical quantity in one SI-based unit.

    Raises (through pydantic) when a number comes without a unit at the author's door, or text at any other.
    """

    def __init__(self, unit: str, example: str, shown: str) -> None:
        self.unit = unit
        self.example = example
        self.shown = shown
        """How the tables of units know it: heat and electric power are both in W inside, and read in other units."""

    def _read(self, value: Any, info: ValidationInfo) -> Any:
        parse: Callable[[Any, str, str], float] | None = (info.context or {}).get("parse")
        if parse is not None:
            return parse(value, self.unit, self.example)
        if isinstance(value, (int, float)) and not isinstance(value, bool):
            return value
        raise PydanticCustomError("si_number", "needs a plain number in {unit}", {"unit": self.unit})

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_before_validator_function(self._read, handler(source))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"type": "string", "pattern": r"^\s*-?[0-9]", "examples": [self.example], "x-unit": self.unit}


def _quantity(suffix: str) -> Quantity:
    unit, example = SUFFIXES[suffix]
    return Quantity(unit, example, suffix[1:])


Kg = Annotated[float, _quantity("_kg")]
KgPerHour = Annotated[float, _quantity("_kg_h")]
KgPerM2 = Annotated[float, _quantity("_kg_m2")]
KgPerM3 = Annotated[float, _quantity("_kg_m3")]
Metre = Annotated[float, _quantity("_m")]
SquareMetre = Annotated[float, _quantity("_m2")]
Litre = Annotated[float, _quantity("_l")]
SpaceLitre = Annotated[float, _quantity("_space_l")]
"""Room for things, which is no liquid."""
LitrePerMinute = Annotated[float, _quantity("_l_min")]
CubicMetrePerHour = Annotated[float, _quantity("_m3_h")]
Watt = Annotated[float, _quantity("_w")]
HeatWatt = Annotated[float, _quantity("_heat_w")]
"""Heat or cold given, which is no electric power."""
VoltAmpere = Annotated[float, _quantity("_va")]
Volt = Annotated[float, _quantity("_v")]
Ampere = Annotated[float, _quantity("_a")]
Ohm = Annotated[float, _quantity("_ohm")]
AmpereHour = Annotated[float, _quantity("_ah")]
Hour = Annotated[float, _quantity("_h")]
Second = Annotated[float, _quantity("_s")]
Day = Annotated[float, _quantity("_d")]
Celsius = Annotated[float, _quantity("_degc")]
Fraction = Annotated[float, _quantity("_frac")]
FractionPerKelvin = Annotated[float, _quantity("_frac_k")]
Conductivity = Annotated[float, _quantity("_w_mk")]
UValue = Annotated[float, _quantity("_w_m2k")]
Kilopascal = Annotated[float, _quantity("_kpa")]
GasKilopascal = Annotated[float, _quantity("_gas_kpa")]
"""Of gas behind a regulator, which the trade tells in millibar or in inches of water."""
Degree = Annotated[float, _quantity("_deg")]
Newton = Annotated[float, _quantity("_n")]


def _money(value: Any, info: ValidationInfo) -> Any:
    """At the author's door a whole number is money too, and nothing else is turned into it."""
    if info.context and "parse" in info.context and isinstance(value, int) and not isinstance(value, bool):
        return Decimal(value)
    return value


Money = Annotated[Decimal, BeforeValidator(_money), Field(max_digits=12, decimal_places=2)]
"""An amount in the workshop's currency, exact to the cent, with or without tax as the workshop says."""


class _AreaMoney(Quantity):
    """Money by area, which an author writes with the area's unit: a shop that buys by the square foot says so."""

    def _read(self, value: Any, info: ValidationInfo) -> Any:
        if not (info.context and "parse" in info.context):
            return value
        return Decimal(str(super()._read(value, info))).quantize(Decimal("0.0001"))


MoneyPerM2 = Annotated[Decimal, _AreaMoney(*SUFFIXES["_per_m2"], "per_m2"), Field(max_digits=14, decimal_places=4)]
"""An amount in the workshop's currency for each square metre, with or without tax as the workshop says."""


def _calendar_day(text: str) -> str:
    try:
        date.fromisoformat(text)
    except ValueError:
        raise ValueError(f"no calendar has the day {text}") from None
    return text


Slug = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=48)]
"""An id: lower-case words joined by hyphens."""

CalendarDay = Annotated[
    str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$", examples=["2026-09-30"]), AfterValidator(_calendar_day)
]
"""A day as text, which has one form everywhere."""

Line = Annotated[str, Field(min_length=1, max_length=160)]
"""One line of text for a reader."""

Prose = Annotated[str, Field(min_length=1, max_length=1200)]
"""A few sentences for a reader."""


class Entry(BaseModel):
    """Base of every catalogue model: frozen, no unknown keys, no NaN or infinity, keys spoken without their unit."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        allow_inf_nan=False,
        alias_generator=spoken_name,
        validate_by_name=True,
        validate_by_alias=True,
        str_strip_whitespace=True,
    )
