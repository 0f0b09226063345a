"""The climate a build travels in: twelve monthly figures for each of some fifty places.

`places.json` holds the figures. `make_places.py` made it from published typical-year data and is never
imported at run time; docs/climate-sources.md says where each place's data come from and how far to trust them.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from pkgutil import get_data

Months = tuple[float, ...]

MONTHLY_FIELDS = ("ghi_kwh_m2_d", "mean_degc", "coldest_night_degc", "hottest_day_degc", "humidity_frac")
"""The fields of a climate that hold one value for each month."""


@dataclass(frozen=True, slots=True)
class Climate:
    """A place and its typical year. Each monthly tuple holds twelve values, January first.

    `coldest_night_degc` and `hottest_day_degc` are the lowest and the highest hour of that month in the typical
    year. A typical year leaves out the rare extremes: once in some years it gets colder and hotter than this.
    """

    id: str
    name: str
    region: str
    latitude_deg: float
    longitude_deg: float
    altitude_m: float
    source: str
    licence: str
    ghi_kwh_m2_d: Months
    """Mean daily sun on a level surface (global horizontal irradiation)."""
    mean_degc: Months
    coldest_night_degc: Months
    hottest_day_degc: Months
    humidity_frac: Months
    """Mean relative humidity of the outside air, 0 to 1."""


_packaged: dict[str, Climate] = {}


def load_places(text: str | None = None) -> dict[str, Climate]:
    """All places by id, in the file's order.

    `text` is the content of a places file; without it the packaged one is read, once.
    Raises ValueError, naming the place and the field, when the text is not a sound places file.
    """
    if text is not None:
        return _read(text)
    if not _packaged:
        # Also out of a zip, and at a tenth of the start-up time of importlib.resources.
        content = get_data(__name__, "places.json")
        assert content is not None
        _packaged.update(_read(content.decode()))
    return dict(_packaged)


def darkest_month(climate: Climate, months: Iterable[int]) -> int:
    """The month (1..12) of `months` with the least sun; the first named of equals."""
    return min(_checked(months), key=lambda month: climate.ghi_kwh_m2_d[month - 1])


def coldest_night_degc(climate: Climate, months: Iterable[int]) -> float:
    """The lowest hourly temperature of the typical year in `months` (1..12)."""
    return min(climate.coldest_night_degc[month - 1] for month in _checked(months))


def hottest_day_degc(climate: Climate, months: Iterable[int]) -> float:
    """The highest hourly temperature of the typical year in `months` (1..12)."""
    return max(climate.hottest_day_degc[month - 1] for month in _checked(months))


def _checked(months: Iterable[int]) -> Sequence[int]:
    chosen = tuple(months)
    if not chosen:
        raise ValueError("at least one month is needed")
    for month in chosen:
        if not 1 <= month <= 12:
            raise ValueError(f"month {month} is not one of 1..12")
    return chosen


def _read(text: str) -> dict[str, Climate]:
    import json

    content = json.loads(text)
    if not isinstance(content, dict) or not isinstance(content.get("places"), list):
        raise ValueError("a places file is an object with a list called places")
    licences = content.get("licences")
    if not isinstance(licences, dict):
        raise ValueError("a places file has an object called licences")
    known = {field.name for field in fields(Climate)}
    places: dict[str, Climate] = {}
    for row in content["places"]:
        place = _place(row, known, licences)
        if place.id in places:
            raise ValueError(f"{place.id}: two places have this id")
        places[place.id] = place
    return places


def _place(row: object, known: set[str], licences: dict[str, str]) -> Climate:
    if not isinstance(row, dict):
        raise ValueError("each place is an object")
    where = row.get("id", "a place without an id")
    if row.keys() != known:
        raise ValueError(f"{where}: missing or unknown fields: {', '.join(sorted(row.keys() ^ known))}")
    if row["licence"] not in licences:
        raise ValueError(f"{where}: licence {row['licence']!r} is not among the file's licences")
    for name in ("id", "name", "region", "source"):
        if not isinstance(row[name], str) or not row[name]:
            raise ValueError(f"{where}: {name} is a text that is not empty")
    for name in ("latitude_deg", "longitude_deg", "altitude_m"):
        if not _is_number(row[name]):
            raise ValueError(f"{where}: {name} is a number")
    for name in MONTHLY_FIELDS:
        values = row[name]
        if not isinstance(values, list) or len(values) != 12 or not all(map(_is_number, values)):
            raise ValueError(f"{where}: {name} holds twelve numbers, January first")
    monthly = {name: tuple(row[name]) for name in MONTHLY_FIELDS}
    return Climate(**{**row, **monthly, "licence": licences[row["licence"]]})


def _is_number(value: object) -> bool:
    # NaN and infinity are read by json too, and a bool is an int to isinstance.
    return isinstance(value, (int, float)) and not isinstance(value, bool) and abs(value) < 1e6
