"""Figures on their way out: SI in, text in the reader's units out.

The other direction, text to SI, is the author's door (engine/catalogue). Conversion factors are exact definitions
(international yard and pound, US liquid gallon, International Table BTU) and are tested against pint.
"""

from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from functools import lru_cache
from typing import Literal, NamedTuple

System = Literal["us", "metric"]

INCH_M, FOOT_M, POUND_KG, GALLON_L = 0.0254, 0.3048, 0.45359237, 3.785411784
"""Exact by definition; the gallon is that of the United States, of liquids."""


class Shown(NamedTuple):
    """How one kind of quantity is shown: value·factor + offset, with a unit and so many decimal places."""

    unit: str
    factor: float
    offset: float = 0.0
    decimals: int = 2


METRIC: dict[str, Shown] = {
    "kg": Shown("kg", 1, decimals=0),
    "m": Shown("m", 1, decimals=2),
    "m2": Shown("m²", 1, decimals=1),
    "cm2": Shown("cm²", 1, decimals=0),
    "l": Shown("L", 1, decimals=0),
    "space_l": Shown("L", 1, decimals=0),
    "thick_m": Shown("mm", 1000, decimals=1),
    "l_d": Shown("L/day", 1, decimals=1),
    "w": Shown("W", 1, decimals=0),
    "heat_w": Shown("W", 1, decimals=0),
    "wh": Shown("Wh", 1, decimals=0),
    "heat_wh": Shown("Wh", 1, decimals=0),
    "wh_d": Shown("Wh/day", 1, decimals=0),
    "va": Shown("VA", 1, decimals=0),
    "v": Shown("V", 1, decimals=1),
    "a": Shown("A", 1, decimals=0),
    "ah": Shown("Ah", 1, decimals=0),
    "h": Shown("h", 1, decimals=1),
    "work_h": Shown("h", 1, decimals=1),
    "d": Shown("days", 1, decimals=1),
    "degc": Shown("°C", 1, decimals=0),
    "k": Shown("K", 1, decimals=1),
    "frac": Shown("%", 100, decimals=0),
    "water_kg_m2": Shown("g/m²", 1000, decimals=0),
    "w_mk": Shown("W/m·K", 1, decimals=3),
    "w_m2k": Shown("W/m²·K", 1, decimals=2),
    "w_k": Shown("W/K", 1, decimals=0),
    "m3_h": Shown("m³/h", 1, decimals=0),
    "kg_d": Shown("kg/day", 1, decimals=2),
    "kg_h": Shown("kg/h", 1, decimals=2),
    "l_min": Shown("L/min", 1, decimals=1),
    "minutes": Shown("min", 1, decimals=1),
    "s": Shown("s", 1, decimals=0),
    "kpa": Shown("kPa", 1, decimals=2),
    "gas_kpa": Shown("mbar", 10, decimals=1),
    "run_m": Shown("m", 1, decimals=1),
    "n": Shown("N", 1, decimals=0),
    "deg": Shown("°", 1, decimals=0),
    "count": Shown("", 1, decimals=0),
}
US: dict[str, Shown] = METRIC | {
    "kg": Shown("lb", 1 / POUND_KG, decimals=0),
    "m": Shown("in", 1 / INCH_M, decimals=1),
    "m2": Shown("ft²", 1 / FOOT_M**2, decimals=0),
    "cm2": Shown("in²", 1 / 2.54**2, decimals=1),
    "l": Shown("gal", 1 / GALLON_L, decimals=1),
    "thick_m": Shown("in", 1 / INCH_M, decimals=2),
    "space_l": Shown("ft³", 1 / 28.316846592, decimals=1),
    "heat_w": Shown("BTU/h", 1 / 0.2930710701722222, decimals=0),
    "heat_wh": Shown("BTU", 1 / 0.2930710701722222, decimals=0),
    "water_kg_m2": Shown("oz/ft²", 16 * FOOT_M**2 / POUND_KG),
    "l_d": Shown("gal/day", 1 / GALLON_L, decimals=1),
    "degc": Shown("°F", 1.8, 32, decimals=0),
    "k": Shown("°F", 1.8, decimals=1),
    "w_mk": Shown("BTU·in/h·ft²·°F", 1 / 0.14422789, decimals=3),
    "w_m2k": Shown("BTU/h·ft²·°F", 1 / 5.678263341, decimals=3),
    "w_k": Shown("BTU/h·°F", 1 / 0.52752792631, decimals=0),
    "m3_h": Shown("ft³/min", 1 / 1.69901082, decimals=0),
    "kg_d": Shown("lb/day", 1 / POUND_KG, decimals=2),
    "kg_h": Shown("lb/h", 1 / POUND_KG, decimals=2),
    "l_min": Shown("gal/min", 1 / GALLON_L, decimals=1),
    "kpa": Shown("psi", 1 / 6.894757293, decimals=2),
    "gas_kpa": Shown("in w.c.", 1 / 0.2490889083, decimals=1),
    "run_m": Shown("ft", 1 / FOOT_M, decimals=0),
    "n": Shown("lbf", 1 / 4.4482216152605, decimals=0),
}
SYSTEMS: dict[System, dict[str, Shown]] = {"us": US, "metric": METRIC}


SMALL_COUNTS = frozenset(("kg", "l", "a", "m2", "w_k", "run_m"))
"""Units of which a few are worth a decimal place."""

TRACES = SMALL_COUNTS | {"frac", "gas_kpa"}
"""Units of which a little is told from nothing: 0.05 kg of gas a day is not 0 kg."""


SURELY_AN_HOUR = 0.9916
"""From here on a time rounds to no fewer than 60 minutes."""

DAYS_SURE, DAYS_LONG, DAYS_YEAR = 10, 60, 365
"""Days are told to a tenth below the first, in weeks and months from the second on, and no further than the last."""


def plain(number: float, places: int) -> str:
    """A number of at most so many decimals, without needless zeros.

    >>> plain(1234.50, 2), plain(-3.0, 1), plain(-0.04, 1)
    ('1,234.5', '−3', '0')
    """
    text = f"{number:,.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text.replace("-", "−")


def _days(number: float, finer: int) -> str:
    """Days as surely as they are known: not that gas lasts 78.7 of them. Whole ones are somebody's own word."""
    if number >= DAYS_YEAR and not finer:
        return "more than a year"
    if number >= DAYS_LONG and not finer and number != round(number):
        return f"about {number / 7:.0f} weeks" if number < 2 * DAYS_LONG else f"about {number / 30.44:.0f} months"
    # Tenths from ten days on only where two figures would read alike.
    places = max(0, finer - (number >= DAYS_LONG)) if number >= DAYS_SURE else 1 + finer
    text = plain(number, places)
    return "1 day" if text == "1" else f"{text} days"


def lifetime(days: float) -> str:
    """What wears for years, in words: nobody knows its days.

    >>> lifetime(5478.8), lifetime(600), lifetime(28)
    ('15 years', '20 months', '1 month')
    """
    years = days / 365.25
    if years >= 2:
        return f"{years:.0f} years"
    months = round(years * 12)
    return f"{months} months" if months > 1 else "1 month" if months else "less than a month"


def converted(value: float, unit: str, system: System) -> float:
    """The bare number in the reader's unit; ``unit`` is a suffix of this module's tables."""
    how = SYSTEMS[system][unit]
    return value * how.factor + how.offset


@lru_cache(maxsize=8192)
def show(value: float, unit: str, system: System, finer: int = 0) -> str:
    """A quantity as a reader sees it, such as ``"3,130 lb"`` or ``"12.8 V"``.

    Whole numbers where the unit is fine, one place more below ten, kilowatts from 1,000 W on, milliamperes below 0.1 A,
    minutes below an hour; ``work_h`` is labour, of which half an hour is 0.5 h.
    ``heat_w`` is heat or cold and ``heat_wh`` as much of it as comes together, which US readers know in BTU/h and BTU,
    to three figures; ``space_l`` a volume for things and not for liquids; ``gas_kpa`` gas behind a regulator, in the
    trade's millibar or inches of water; ``run_m`` a length of pipe or cable; ``water_kg_m2`` damp in a wall.
    ``finer`` adds places, for two figures that would otherwise look alike. Raises KeyError for a unit the tables do not
    have.
    """
    how = SYSTEMS[system][unit]
    number = value * how.factor + how.offset
    if unit == "d":
        return _days(number, finer)
    name = how.unit
    decimals = how.decimals
    if name in ("W", "Wh", "Wh/day") and abs(number) >= 1000:
        number, name, decimals = number / 1000, "k" + name, 2
    elif unit == "a" and 0 < abs(number) < 0.095:
        number, name = number * 1000, "mA"
    elif unit == "h" and 0 < abs(number) < SURELY_AN_HOUR:
        number, name, decimals = number * 60, "min", 0 if abs(number) >= 1 / 60 else 1
    elif decimals == 0 and abs(number) < 10 and unit in SMALL_COUNTS:
        decimals = 1
    if unit in TRACES and 0.005 <= abs(number) < 0.5 * 0.1**decimals:
        decimals = 1 if abs(number) >= 0.05 else 2
    decimals += finer
    if name in ("BTU/h", "BTU") and abs(number) >= 1000:
        # Three figures, as many as heat can be told to.
        number = float(f"{number:.{3 + finer}g}")
    return f"{plain(number, decimals)} {name}".rstrip()


def read_number(shown: str, unit: str) -> float:
    """The number that a reader takes from a shown quantity, in that unit of the tables, which may be shown in its kilo
    or its milli, and hours in minutes.

    >>> read_number("1.45 kW", "W"), read_number("5 mA", "A"), read_number("−3,130 lb", "lb")
    (1450.0, 0.005, -3130.0)
    >>> read_number("45 min", "h")
    0.75
    """
    number, _, name = shown.partition(" ")
    times = 1 / 60 if (name, unit) == ("min", "h") else {f"k{unit}": 1000.0, f"m{unit}": 0.001}.get(name, 1.0)
    return float(number.replace(",", "").replace("−", "-")) * times


SYMBOLS: dict[str, str] = {"USD": "$", "EUR": "€", "GBP": "£", "AUD": "A$", "CAD": "CA$", "NZD": "NZ$"}


@lru_cache(maxsize=4096)
def money(amount: Decimal, currency: str, places: int = 0) -> str:
    """An amount rounded to whole units of its currency, as English-language readers write it: ``"$1,234"``.

    places: decimals to keep, for the price of one unit of something.
    """
    whole = amount.quantize(Decimal(1).scaleb(-places), rounding=ROUND_HALF_UP) + 0  # adding nothing turns −0 into 0
    symbol = SYMBOLS.get(currency, f"{currency}\u00a0")
    return f"−{symbol}{-whole:,}" if whole < 0 else f"{symbol}{whole:,}"


def money_of_one(amount: Decimal, currency: str) -> str:
    """The price of one of something, with its cents where it has any: people multiply it.

    >>> money_of_one(Decimal("58.50"), "EUR"), money_of_one(Decimal("60.00"), "EUR")
    ('€58.50', '€60')
    """
    return money(amount, currency, 0 if amount == int(amount) else 2)


MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip


def clock(hour: int, system: System) -> str:
    """A full hour of the day as its readers write it.

    >>> clock(18, "metric"), clock(18, "us"), clock(24, "us"), clock(12, "us")
    ('18:00', '6 pm', 'midnight', 'noon')
    """
    if system != "us":
        return f"{hour}:00"
    of_day = hour % 24
    return {0: "midnight", 12: "noon"}.get(of_day) or f"{of_day % 12} {'am' if of_day < 12 else 'pm'}"


def day_words(day: str, system: System) -> str:
    """A day (YYYY-MM-DD) as its readers write it: 5 September 2026 or September 5, 2026."""
    d = date.fromisoformat(day)
    return f"{d:%B} {d.day}, {d.year}" if system == "us" else f"{d.day} {d:%B} {d.year}"
