"""Makes places.json, and the table in docs/climate-sources.md, from published typical-year files.

    python -m engine.enquiry.climate.make_places CACHE_FOLDER [--check]

Fetches the packages of `place_list.PACKAGES` by name with `pip download` into the cache folder (about 250 MB; what
is there already is not fetched again), checks each archive against its SHA-256, reads every place's hours and
writes the monthly figures. With --check nothing is written: exit status 1 when a file differs from what would be.

Author's side only, standard library only. The same archives always give the same bytes.
"""

import argparse
import calendar
import hashlib
import json
import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

from engine.enquiry.climate.place_list import LICENCES, PACKAGES, PLACES, Package, Place
from engine.enquiry.climate.weather_files import READERS, Hours
from engine.units import FOOT_M

HERE = Path(__file__).parent
PLACES_FILE = HERE / "places.json"
PAGE_FILE = HERE.parents[2] / "docs" / "climate-sources.md"
TABLE_START = "<!-- the table below is written by engine/enquiry/climate/make_places.py -->\n"

HOURS_A_YEAR = 8760


def monthly_figures(hours: Hours) -> dict[str, list[float]]:
    """Twelve values of each monthly field of `Climate` from the hours of one year.

    Sun: the month's sum of hourly means over its days. Coldest night and hottest day: the lowest and the highest
    hour of the month. Raises ValueError when the year is not 8760 hours or a month has a wrong number of them.
    """
    if len(hours.month) != HOURS_A_YEAR:
        raise ValueError(f"{len(hours.month)} hours where a typical year has {HOURS_A_YEAR}")
    figures: dict[str, list[float]] = {
        "ghi_kwh_m2_d": [],
        "mean_degc": [],
        "coldest_night_degc": [],
        "hottest_day_degc": [],
        "humidity_frac": [],
    }
    for month in range(1, 13):
        at = [i for i, m in enumerate(hours.month) if m == month]
        days = calendar.monthrange(2001, month)[1]  # 2001 is no leap year; a typical year has none either
        if len(at) != days * 24:
            raise ValueError(f"month {month} has {len(at)} hours, not {days * 24}")
        temperature = [hours.temperature_degc[i] for i in at]
        figures["ghi_kwh_m2_d"].append(round(sum(hours.ghi_w_m2[i] for i in at) / 1000 / days, 2))
        figures["mean_degc"].append(round(sum(temperature) / len(at), 1))
        figures["coldest_night_degc"].append(round(min(temperature), 1))
        figures["hottest_day_degc"].append(round(max(temperature), 1))
        # A few files write 101 to 103 % in fog; the air holds no more than saturation.
        figures["humidity_frac"].append(round(sum(min(hours.humidity_frac[i], 1.0) for i in at) / len(at), 2))
    return figures


def place_row(place: Place, hours: Hours) -> dict[str, object]:
    """One row of places.json."""
    altitude_m = hours.altitude_m if place.altitude_m is None else place.altitude_m
    return {
        "id": place.id,
        "name": place.name,
        "region": place.region,
        "latitude_deg": round(hours.latitude_deg, 2),
        "longitude_deg": round(hours.longitude_deg, 2),
        "altitude_m": round(altitude_m),
        "source": f"{place.data_set}; file in {PACKAGES[place.package].requirement.replace('==', ' ')}",
        "licence": place.licence,
        **monthly_figures(hours),
    }


def places_text(rows: list[dict[str, object]]) -> str:
    """The content of places.json: one line for each place, so that a change shows as one line."""
    used = {row["licence"] for row in rows}
    licences = {key: text for key, text in LICENCES.items() if key in used}
    lines = ",\n".join(json.dumps(row, ensure_ascii=False, separators=(",", ":")) for row in rows)
    return f'{{"licences":{json.dumps(licences, ensure_ascii=False, indent=0)},\n"places":[\n{lines}\n]}}\n'


def page_table(rows: list[dict[str, object]]) -> str:
    """The table of docs/climate-sources.md in Markdown."""
    lines = ["| Place | Latitude | Altitude | Data | Terms |", "|---|---|---|---|---|"]
    for row in rows:
        latitude = float(str(row["latitude_deg"]))
        side = "N" if latitude >= 0 else "S"
        altitude = int(str(row["altitude_m"]))
        lines.append(
            f"| {row['name']}, {row['region']} | {abs(latitude):.2f}° {side} "
            f"| {altitude} m ({altitude / FOOT_M:.0f} ft) | {row['source']} | {row['licence']} |"
        )
    lines += ["", "| Terms | What they say |", "|---|---|"]
    used = {row["licence"] for row in rows}
    lines += [f"| {key} | {text} |" for key, text in LICENCES.items() if key in used]
    return "\n".join(lines) + "\n"


def fetch(package: Package, cache: Path) -> Path:
    """The package's archive in the cache folder, downloaded when it is not there. Raises when its SHA-256 differs."""
    archive = cache / package.archive
    if not archive.exists():
        kind = "--no-binary" if package.is_sdist else "--only-binary"
        command = [sys.executable, "-m", "pip", "download", "--quiet", "--no-deps", kind, ":all:", "--dest", str(cache)]
        if package.platform:
            command += ["--platform", package.platform]
        subprocess.run([*command, package.requirement], check=True)
    digest = hashlib.sha256(archive.read_bytes()).hexdigest()
    if digest != package.sha256:
        raise ValueError(f"{archive.name}: SHA-256 is {digest}, expected {package.sha256}")
    return archive


def read_member(archive: Path, ending: str) -> str:
    """The text of the one file in the archive whose path ends so. Raises when there is none, or more than one."""
    if archive.suffix == ".whl":
        with zipfile.ZipFile(archive) as wheel:
            content = wheel.read(_only(wheel.namelist(), ending, archive))
    else:
        with tarfile.open(archive) as sdist:
            member = sdist.extractfile(_only(sdist.getnames(), ending, archive))
            if member is None:
                raise ValueError(f"{archive.name}: {ending} is not a file")
            content = member.read()
    # The weather columns are plain ASCII; only comments hold other letters, in whatever encoding.
    return content.decode("utf-8", errors="replace")


def _only(names: list[str], ending: str, archive: Path) -> str:
    found = [name for name in names if name.endswith(ending)]
    if len(found) != 1:
        raise ValueError(f"{archive.name}: {len(found)} files end in {ending}, one is needed")
    return found[0]


def make(cache: Path) -> tuple[str, str]:
    """The texts of places.json and of the page's table."""
    rows = []
    for place in PLACES:
        text = read_member(fetch(PACKAGES[place.package], cache), place.ending)
        try:
            rows.append(place_row(place, READERS[place.form](text)))
        except (ValueError, KeyError, IndexError) as error:
            raise ValueError(f"{place.id} ({place.ending}): {error}") from error
    return places_text(rows), page_table(rows)


def page_with(table: str, page: str) -> str:
    """The page with its table replaced; the prose above the table's mark stays."""
    prose, mark, _ = page.partition(TABLE_START)
    if not mark:
        raise ValueError("the page has no mark where its table begins")
    return f"{prose}{mark}\n{table}"


def main() -> int:
    """Command line; see the top of this file."""
    parser = argparse.ArgumentParser(description="Make places.json from published typical-year files.")
    parser.add_argument("cache", type=Path, help="folder that keeps the downloaded archives")
    parser.add_argument("--check", action="store_true", help="write nothing; say whether the files are up to date")
    asked = parser.parse_args()
    asked.cache.mkdir(parents=True, exist_ok=True)
    places, table = make(asked.cache)
    page = page_with(table, PAGE_FILE.read_text(encoding="utf-8"))
    wanted = {PLACES_FILE: places, PAGE_FILE: page}
    stale = [path for path, text in wanted.items() if not path.exists() or path.read_text(encoding="utf-8") != text]
    for path in stale:
        sys.stdout.write(f"{path.name} {'differs' if asked.check else 'written'}\n")
        if not asked.check:
            path.write_text(wanted[path], encoding="utf-8")
    sys.stdout.write(f"{len(PLACES)} places, {len(places.encode())} bytes\n")
    return 1 if stale and asked.check else 0


if __name__ == "__main__":
    sys.exit(main())
