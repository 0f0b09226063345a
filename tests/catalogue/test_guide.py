"""What the guide for workshops shows as files is taken as it stands there."""

import re
import shutil
from pathlib import Path

import pytest

from engine.catalogue.reading import read_shop
from engine.catalogue.shop import Shop

GUIDE = Path(__file__).parents[2] / "docs" / "for-workshops.md"


def shown(heading: str) -> str:
    """The first file that stands under a heading."""
    found = re.search(rf"^## {heading}$.*?^```toml\n(.*?)^```$", GUIDE.read_text(encoding="utf-8"), re.M | re.S)
    assert found
    return found[1]


@pytest.fixture
def guided(tmp_path: Path, small_folder: Path) -> Shop:
    """A shop of the guide's workshop and vehicle, with one chapter."""
    for name, heading in (("workshop.toml", "Who you are"), ("vehicles/van.toml", "A base vehicle")):
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(shown(heading), encoding="utf-8")
    shutil.copytree(small_folder / "sections", tmp_path / "sections")
    power = tmp_path / "sections" / "power.toml"
    power.write_text(power.read_text(encoding="utf-8").replace('fits = ["long-van"]\n', ""), encoding="utf-8")
    ready = (
        shown("Finished vehicles").replace('place = "denver"', 'place = "aberdeen"').replace("lfp-200", "battery-100")
    )
    (tmp_path / "ready").mkdir()
    (tmp_path / "ready" / "first-van.toml").write_text(ready, encoding="utf-8")
    return read_shop(tmp_path, ("aberdeen",))


def test_the_guides_files_make_a_shop(guided: Shop) -> None:
    assert guided.workshop.name == "North Shed Campers" and guided.workshop.tax.in_prices
    assert [v.id for v in guided.vehicles] == ["van"] and guided.workshop.start == "first-van"
    assert guided.ready[0].options == {"battery-100": 2}


def test_the_least_of_a_vehicle_is_shown(guided: Shop) -> None:
    """Nothing in the guide's vehicle could be left out but its price, and the ribs that most vans have."""
    van = guided.vehicles[0]
    needed = {n for n, f in type(van).model_fields.items() if f.is_required()}
    assert van.model_fields_set == needed | {"price"}
    assert van.shell.model_fields_set == {n for n, f in type(van.shell).model_fields.items() if f.is_required()} | {
        "metal_ribs"
    }
