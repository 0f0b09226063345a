"""The schemas that editors complete from agree with the reader."""

import json
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from engine.catalogue.schema import file_schemas
from engine.cli_shop import shop

FOLDERS = [
    Path(__file__).parent / "small_shop",
    *sorted(p.parent for p in (Path(__file__).parents[2] / "engine" / "demo").glob("*/workshop.toml")),
]
PLACES = {
    "workshop.toml": "workshop",
    "vehicles/*.toml": "vehicle",
    "sections/*.toml": "section",
    "ready/*.toml": "ready",
}


@pytest.fixture(scope="module")
def validators() -> dict[str, Draft202012Validator]:
    made = {}
    for name, document in file_schemas().items():
        Draft202012Validator.check_schema(document)
        made[name] = Draft202012Validator(document)
    return made


def complaints(validator: Draft202012Validator, data: Any) -> list[str]:
    return [f"{e.json_path}: {e.message[:200]}" for e in validator.iter_errors(data)]


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda f: f.name)
def test_good_files_pass(folder: Path, validators: dict[str, Draft202012Validator]) -> None:
    seen = 0
    for pattern, name in PLACES.items():
        for file in sorted(folder.glob(pattern)):
            assert not complaints(validators[name], tomllib.loads(file.read_text(encoding="utf-8"))), file
            seen += 1
    assert seen >= 4


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("sections/power.toml", 'mass = "27 lb"', "mass = 27"),
        ("sections/power.toml", 'mass = "27 lb"', 'mass = "27"'),
        ("sections/power.toml", 'capacity = "100 Ah"', "capacity = 100"),
        ("sections/power.toml", 'kind = "battery"', 'kind = "accumulator"'),
        ("sections/power.toml", "most = 3", 'most = "3"'),
        ("sections/power.toml", "price = 820", 'price = "820"'),
        ("sections/power.toml", "price = 820", "prise = 820"),
        ("sections/power.toml", 'place = "garage"', 'place = "cellar"'),
        ("ready/first-van.toml", "battery-100 = 2", "Battery_100 = 2"),
        ("ready/first-van.toml", "battery-100 = 2", 'battery-100 = "2"'),
    ],
)
def test_schema_refuses_what_the_reader_refuses(
    file: str, old: str, new: str, spoilt: Callable[..., Path], validators: dict[str, Draft202012Validator]
) -> None:
    text = (spoilt({"file": file, "old": old, "new": new}) / file).read_text(encoding="utf-8")
    name = {"sections": "section", "ready": "ready"}[file.split("/")[0]]
    assert complaints(validators[name], tomllib.loads(text))


def test_every_quantity_shows_unit_and_example() -> None:
    found = 0
    for document in file_schemas().values():
        for table in [document, *document.get("$defs", {}).values()]:
            for key, value in table.get("properties", {}).items():
                if "x-unit" in value:
                    found += 1
                    assert value["type"] == "string", key
                    assert value["examples"] and value["examples"][0] in value["description"], key
                    assert isinstance(value.get("default", ""), str), key
    assert found > 100


def test_command_writes_four_files(tmp_path: Path) -> None:
    result = CliRunner().invoke(shop, ["schema", "-o", str(tmp_path / "new" / "schemas")])
    assert result.exit_code == 0
    written = sorted((tmp_path / "new" / "schemas").iterdir())
    assert [p.name for p in written] == [f"{n}.schema.json" for n in ("ready", "section", "vehicle", "workshop")]
    for path in written:
        Draft202012Validator.check_schema(json.loads(path.read_text(encoding="utf-8")))


def test_command_says_when_it_cannot_write(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    result = CliRunner().invoke(shop, ["schema", "-o", str(tmp_path / "file")])
    assert result.exit_code == 2
    assert "cannot be written" in result.output
