"""Readers of the published weather-file formats: text in, the hours of one year out.

Author's side only: `make_places.py` uses it. Each reader takes the whole text of a file.
"""

import csv
import math
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Hours:
    """One typical year, hour by hour, and where it is."""

    latitude_deg: float
    longitude_deg: float
    altitude_m: float
    month: list[int]
    """1..12 for each hour."""
    ghi_w_m2: list[float]
    temperature_degc: list[float]
    humidity_frac: list[float]


def read_epw(text: str) -> Hours:
    """EnergyPlus weather file: eight header lines, then comma-separated hours.

    Source of the columns: EnergyPlus, Auxiliary Programs, "EnergyPlus Weather File (EPW) Data Dictionary".
    """
    lines = text.splitlines()
    place = lines[0].split(",")
    if place[0] != "LOCATION":
        raise ValueError("an EPW file begins with LOCATION")
    rows = [line.split(",") for line in lines[8:] if line.strip()]
    return Hours(
        latitude_deg=float(place[6]),
        longitude_deg=float(place[7]),
        altitude_m=float(place[9]),
        month=[int(row[1]) for row in rows],
        ghi_w_m2=[_present(row[13], 9999) for row in rows],
        temperature_degc=[_present(row[6], 99.9) for row in rows],
        humidity_frac=[_present(row[8], 999) / 100 for row in rows],
    )


def read_tmy3(text: str) -> Hours:
    """TMY3 in its own comma-separated form. Source: NREL/TP-581-43156, "Users Manual for TMY3 Data Sets", 2008."""
    first, *rest = text.splitlines()
    place = next(csv.reader([first]))
    rows = list(csv.DictReader(rest))
    return Hours(
        latitude_deg=float(place[4]),
        longitude_deg=float(place[5]),
        altitude_m=float(place[6]),
        month=[int(row["Date (MM/DD/YYYY)"][:2]) for row in rows],
        ghi_w_m2=[_present(row["GHI (W/m^2)"], -9900) for row in rows],
        temperature_degc=[_present(row["Dry-bulb (C)"], -9900) for row in rows],
        humidity_frac=[_present(row["RHum (%)"], -9900) / 100 for row in rows],
    )


def read_tmy2(text: str) -> Hours:
    """TMY2, fixed columns. Source: NREL/SP-463-7668, "User's Manual for TMY2s", 1995, tables 3-1 and 3-2."""
    first, *rest = text.splitlines()
    north, south_or_east = (1 if first[37] == "N" else -1), (1 if first[45] == "E" else -1)
    rows = [line for line in rest if line.strip()]
    return Hours(
        latitude_deg=north * (int(first[39:41]) + int(first[42:44]) / 60),
        longitude_deg=south_or_east * (int(first[47:50]) + int(first[51:53]) / 60),
        altitude_m=float(first[55:59]),
        month=[int(row[3:5]) for row in rows],
        ghi_w_m2=[_present(row[17:21], 9999) for row in rows],
        temperature_degc=[_present(row[67:71], 9999) / 10 for row in rows],
        humidity_frac=[_present(row[79:82], 999) / 100 for row in rows],
    )


def read_try(text: str) -> Hours:
    """German test reference year: a header with place and column names, then columns.

    Global radiation is direct plus diffuse on the level. Source: the file's own header, which explains every column.
    """
    lines = text.removeprefix("\ufeff").splitlines()
    head = dict(line.split(":", 1) for line in lines[:8] if ":" in line)
    place = {name.strip(): value.split()[0] for name, value in head.items() if value.strip()}
    start = next(i for i, line in enumerate(lines) if line.split()[:3] == ["RW", "HW", "MM"])
    name = lines[start].split()
    rows = [line.split() for line in lines[start + 1 :] if len(line.split()) == len(name)]
    month, direct, diffuse = name.index("MM"), name.index("B"), name.index("D")
    return Hours(
        latitude_deg=float(place["Breitengrad"]),
        longitude_deg=float(place["Längengrad"]),
        altitude_m=float(place["Hoehenlage"]),
        month=[int(row[month]) for row in rows],
        ghi_w_m2=[float(row[direct]) + float(row[diffuse]) for row in rows],
        temperature_degc=[float(row[name.index("t")]) for row in rows],
        humidity_frac=[float(row[name.index("RF")]) / 100 for row in rows],
    )


def read_psm3(text: str) -> Hours:
    """Typical year of the National Solar Radiation Database (PSM v3): two header lines, then named columns.

    It carries the dew point and no humidity; that is worked out.
    """
    head, place, *rest = text.splitlines()
    where = dict(zip(head.split(","), place.split(","), strict=False))
    rows = list(csv.DictReader(rest))
    return Hours(
        latitude_deg=float(where["Latitude"]),
        longitude_deg=float(where["Longitude"]),
        altitude_m=float(where["Elevation"]),
        month=[int(row["Month"]) for row in rows],
        ghi_w_m2=[float(row["GHI"]) for row in rows],
        temperature_degc=[float(row["Temperature"]) for row in rows],
        humidity_frac=[humidity_frac(float(row["Temperature"]), float(row["Dew Point"])) for row in rows],
    )


def humidity_frac(temperature_degc: float, dew_point_degc: float) -> float:
    """Relative humidity from air temperature and dew point, over water, at most 1.

    Source: Magnus formula with the constants of Alduchov and Eskridge, "Improved Magnus form approximation of
    saturation vapor pressure", J. Appl. Meteor. 35 (1996), equation 21.

    >>> round(humidity_frac(25.0, 13.9), 2)
    0.5
    """
    # Rounding of the two readings can put the dew point a little over the temperature.
    ratio = _magnus_hpa(dew_point_degc) / _magnus_hpa(temperature_degc)
    if ratio > 1.1:
        raise ValueError(f"dew point {dew_point_degc} is far above the temperature {temperature_degc}")
    return min(ratio, 1.0)


def _magnus_hpa(degc: float) -> float:
    return 6.1094 * math.exp(17.625 * degc / (243.04 + degc))


def _present(field: str, missing: float) -> float:
    value = float(field)
    if value == missing:
        raise ValueError(f"a value is missing ({field}): this file cannot give sound monthly figures")
    return value


READERS: dict[str, Callable[[str], Hours]] = {
    "epw": read_epw,
    "tmy3": read_tmy3,
    "tmy2": read_tmy2,
    "try": read_try,
    "psm3": read_psm3,
}
"""A reader for each value of `Place.form` in the list of places."""
