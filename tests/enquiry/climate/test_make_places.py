"""The script that makes the table: readers and sums on small made-up files, no network."""

import hashlib
import json
import tarfile
import zipfile
from io import BytesIO
from pathlib import Path

import pytest

from engine.enquiry.climate import load_places, make_places
from engine.enquiry.climate.make_places import (
    HERE,
    PAGE_FILE,
    PLACES_FILE,
    TABLE_START,
    fetch,
    monthly_figures,
    page_table,
    page_with,
    place_row,
    places_text,
    read_member,
)
from engine.enquiry.climate.place_list import LICENCES, PACKAGES, PLACES, Package, Place
from engine.enquiry.climate.weather_files import (
    READERS,
    humidity_frac,
    read_epw,
    read_psm3,
    read_tmy2,
    read_tmy3,
    read_try,
)

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
STAMPS = [
    (month, day, hour) for month in range(1, 13) for day in range(1, DAYS[month - 1] + 1) for hour in range(1, 25)
]

HERE_ROW = Place("here", "Here", "There", "pvlib", "here.epw", "epw", "nrel", "made up")


def sun_w_m2(month: int, hour: int) -> int:
    """100 W/m2 times the month for ten hours a day: a daily sum of one kWh times the month."""
    return 100 * month if 8 <= hour < 18 else 0


def air_degc(month: int, hour: int) -> float:
    """From the month's number less 10 at one hour to plus 10 at another, the month's number else."""
    return month + {5: -10.0, 15: 10.0}.get(hour, 0.0)


def epw() -> str:
    head = ["LOCATION,Here,-,XXX,Made up,999999,-12.5,130.25,9.5,42.0", *["HEADER"] * 7]
    rows = []
    for month, day, hour in STAMPS:
        fields = [str(n) for n in (2001, month, day, hour, 60)] + ["?"] + ["0"] * 29
        fields[6], fields[8], fields[13] = f"{air_degc(month, hour)}", "50", f"{sun_w_m2(month, hour)}"
        rows.append(",".join(fields))
    return "\n".join([*head, *rows]) + "\n"


EXPECTED = {
    "ghi_kwh_m2_d": [float(month) for month in range(1, 13)],
    "mean_degc": [float(month) for month in range(1, 13)],
    "coldest_night_degc": [month - 10.0 for month in range(1, 13)],
    "hottest_day_degc": [month + 10.0 for month in range(1, 13)],
    "humidity_frac": [0.5] * 12,
}


def test_epw_gives_the_sums_worked_out_by_hand() -> None:
    hours = read_epw(epw())
    assert (hours.latitude_deg, hours.longitude_deg, hours.altitude_m) == (-12.5, 130.25, 42.0)
    assert monthly_figures(hours) == EXPECTED


def test_tmy3_gives_the_same_sums() -> None:
    rows = [f"{m:02}/{d:02}/2001,{h:02}:00,{sun_w_m2(m, h)},{air_degc(m, h)},50" for m, d, h in STAMPS]
    head = '999999,"HERE, [THERE]",AK,-9.0,-12.500,130.250,42\n'
    names = "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),Dry-bulb (C),RHum (%)\n"
    hours = read_tmy3(head + names + "\n".join(rows))
    assert (hours.latitude_deg, hours.longitude_deg, hours.altitude_m) == (-12.5, 130.25, 42.0)
    assert monthly_figures(hours) == EXPECTED


def test_tmy2_gives_the_same_sums() -> None:
    # Column numbers from the TMY2 manual, table 3-2: 18-21 sun, 68-71 tenths of a degree, 80-82 humidity.
    rows = []
    for month, day, hour in STAMPS:
        line = list(f" 01{month:02}{day:02}{hour:02}".ljust(142, "0"))
        line[17:21] = f"{sun_w_m2(month, hour):04}"
        line[67:71] = f"{round(air_degc(month, hour) * 10):4}"
        line[79:82] = "050"
        rows.append("".join(line))
    hours = read_tmy2(" 99999 HERE                   XX   9 S 12 30 E 130 15    42\n" + "\n".join(rows))
    assert (hours.latitude_deg, hours.longitude_deg, hours.altitude_m) == (-12.5, 130.25, 42.0)
    assert monthly_figures(hours) == EXPECTED


def test_german_test_reference_year_adds_direct_and_diffuse() -> None:
    head = "\ufeffOrt : Here\nBreitengrad : -12.5\nLängengrad\t : 130.25\nHoehenlage : 42 Meter ueber NN\n\n"
    names = "RW HW MM DD HH t p WR WG N x RF B D A E IL\n"
    rows = [
        f"1 2 {m} {d} {h} {air_degc(m, h)} 1000 0 0 0 4 50 {sun_w_m2(m, h) * 0.25} {sun_w_m2(m, h) * 0.75} 0 0 1"
        for m, d, h in STAMPS
    ]
    hours = read_try(head + names + "\n".join(rows) + "\n")
    assert (hours.latitude_deg, hours.longitude_deg, hours.altitude_m) == (-12.5, 130.25, 42.0)
    assert monthly_figures(hours) == EXPECTED


def test_psm3_works_out_humidity_from_the_dew_point() -> None:
    head = "Source,Latitude,Longitude,Elevation\nNSRDB,-12.5,130.25,42\n"
    names = "Year,Month,Day,Hour,Minute,GHI,Dew Point,Temperature,,\n"
    rows = [f"2001,{m},{d},{h - 1},30,{sun_w_m2(m, h)},{air_degc(m, h)},{air_degc(m, h)},," for m, d, h in STAMPS]
    figures = monthly_figures(read_psm3(head + names + "\n".join(rows)))
    assert figures == {**EXPECTED, "humidity_frac": [1.0] * 12}


def test_humidity_from_dew_point() -> None:
    # psychrolib 2.5.0, GetRelHumFromTDewPoint: 25 C with dew point 13.9 C gives 0.501; 40 C with 0 C gives 0.083.
    assert humidity_frac(25.0, 13.9) == pytest.approx(0.501, abs=0.003)
    assert humidity_frac(40.0, 0.0) == pytest.approx(0.083, abs=0.001)
    assert humidity_frac(5.0, 5.2) == 1.0
    with pytest.raises(ValueError, match="far above"):
        humidity_frac(5.0, 15.0)


def test_humidity_above_saturation_counts_as_saturation() -> None:
    assert monthly_figures(read_epw(epw().replace(",50,", ",103,")))["humidity_frac"] == [1.0] * 12


@pytest.mark.parametrize(("column", "missing"), [(6, "99.9"), (8, "999"), (13, "9999")])
def test_a_missing_hour_is_an_error_and_not_a_number(column: int, missing: str) -> None:
    lines = epw().splitlines()
    fields = lines[500].split(",")
    fields[column] = missing
    lines[500] = ",".join(fields)
    with pytest.raises(ValueError, match="missing"):
        read_epw("\n".join(lines))


def test_a_year_that_is_short_is_an_error() -> None:
    with pytest.raises(ValueError, match="8759 hours"):
        monthly_figures(read_epw("\n".join(epw().splitlines()[:-1])))


def test_a_month_with_wrong_hours_is_an_error() -> None:
    lines = epw().splitlines()
    lines[8] = lines[8].replace("2001,1,", "2001,2,")
    with pytest.raises(ValueError, match="month 1 has 743 hours"):
        monthly_figures(read_epw("\n".join(lines)))


def test_a_file_of_another_kind_is_an_error() -> None:
    with pytest.raises(ValueError, match="LOCATION"):
        read_epw("something else\n" * 9000)


def test_the_same_input_gives_the_same_bytes_and_reads_back() -> None:
    texts = [places_text([place_row(HERE_ROW, read_epw(epw()))]) for _ in range(2)]
    assert texts[0] == texts[1]
    here = load_places(texts[0])["here"]
    assert (
        here.altitude_m == 42 and here.licence == LICENCES["nrel"] and here.source.startswith("made up; file in pvlib")
    )
    assert list(here.ghi_kwh_m2_d) == EXPECTED["ghi_kwh_m2_d"]


def test_a_stated_altitude_replaces_the_file_s() -> None:
    placed = Place("here", "Here", "There", "pvlib", "here.epw", "epw", "nrel", "made up", altitude_m=2122)
    assert place_row(placed, read_epw(epw()))["altitude_m"] == 2122


def test_the_list_agrees_with_itself_and_with_the_table() -> None:
    assert [place.id for place in PLACES] == list(load_places())
    assert {place.package for place in PLACES} == set(PACKAGES)
    assert {place.licence for place in PLACES} == set(LICENCES)
    assert all(place.form in READERS for place in PLACES)
    packaged = json.loads(PLACES_FILE.read_text(encoding="utf-8"))
    for place, row in zip(PLACES, packaged["places"], strict=True):
        assert (place.name, place.region, place.licence) == (row["name"], row["region"], row["licence"])
        assert row["source"] == f"{place.data_set}; file in {PACKAGES[place.package].requirement.replace('==', ' ')}"


def test_the_table_is_small_with_a_line_for_each_place() -> None:
    text = PLACES_FILE.read_text(encoding="utf-8")
    assert len(text.encode()) < 40_000
    rows = json.loads(text)["places"]
    assert places_text(rows) == text
    assert sum(line.startswith('{"id":') for line in text.splitlines()) == len(rows)


def test_the_page_s_table_is_the_packaged_one() -> None:
    rows = json.loads(PLACES_FILE.read_text(encoding="utf-8"))["places"]
    page = PAGE_FILE.read_text(encoding="utf-8")
    assert page == page_with(page_table(rows), page)
    assert page.count("\n| ") == len(rows) + len(LICENCES) + 2


def test_a_page_without_its_mark_is_an_error() -> None:
    with pytest.raises(ValueError, match="no mark"):
        page_with("| table |", "prose")
    assert page_with("| new |\n", f"prose\n{TABLE_START}\n| old |\n") == f"prose\n{TABLE_START}\n| new |\n"


def archives(folder: Path) -> list[Path]:
    names = {"pkg/data/here.epw": "sun", "pkg/data/there.epw": "rain", "pkg/more/there.epw": "snow"}
    wheel, sdist = folder / "pkg-1.0-py3-none-any.whl", folder / "pkg-1.0.tar.gz"
    with zipfile.ZipFile(wheel, "w") as out:
        for name, content in names.items():
            out.writestr(name, content)
    with tarfile.open(sdist, "w:gz") as out:
        for name, content in names.items():
            info = tarfile.TarInfo(name)
            info.size = len(content)
            out.addfile(info, BytesIO(content.encode()))
    return [wheel, sdist]


def test_the_one_file_with_the_ending_is_read_from_wheel_and_sdist(tmp_path: Path) -> None:
    for archive in archives(tmp_path):
        assert read_member(archive, "/here.epw") == "sun"
        assert read_member(archive, "more/there.epw") == "snow"
        with pytest.raises(ValueError, match="2 files end in there"):
            read_member(archive, "there.epw")
        with pytest.raises(ValueError, match="0 files"):
            read_member(archive, "nowhere.epw")


def test_an_archive_that_is_there_is_checked_and_not_fetched(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_network(*_: object, **__: object) -> None:
        raise AssertionError("nothing should be run")

    monkeypatch.setattr(make_places.subprocess, "run", no_network)
    for archive in archives(tmp_path):
        digest = hashlib.sha256(archive.read_bytes()).hexdigest()
        assert fetch(Package("pkg==1.0", archive.name, digest), tmp_path) == archive
        with pytest.raises(ValueError, match="SHA-256"):
            fetch(Package("pkg==1.0", archive.name, "0" * 64), tmp_path)


def test_an_archive_that_is_not_there_is_asked_for_by_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[list[str]] = []

    def pretend(command: list[str], *, check: bool) -> None:
        assert check
        asked.append(command)
        archives(tmp_path)

    monkeypatch.setattr(make_places.subprocess, "run", pretend)
    with pytest.raises(ValueError, match="SHA-256"):
        fetch(Package("pkg==1.0", "pkg-1.0.tar.gz", "0" * 64, platform="any"), tmp_path)
    assert asked[0][-1] == "pkg==1.0" and "--no-binary" in asked[0] and "--no-deps" in asked[0]
    assert asked[0][asked[0].index("--platform") + 1] == "any"
    assert not any("index" in word or "http" in word for word in asked[0])


def test_the_table_ships_beside_its_code() -> None:
    assert PLACES_FILE.parent == HERE and PLACES_FILE.is_file()
