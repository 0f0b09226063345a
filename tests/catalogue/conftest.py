"""A good small shop, and copies of it to spoil."""

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from engine.catalogue.reading import read_shop
from engine.catalogue.shop import Shop

SMALL = Path(__file__).parent / "small_shop"
CLIMATES = ("hamburg", "granada", "boston")


@pytest.fixture(scope="session")
def small_folder() -> Path:
    """The good folder itself; not to be written to."""
    return SMALL


@pytest.fixture(scope="session")
def climates() -> tuple[str, ...]:
    """Ids a trip may name in these tests."""
    return CLIMATES


@pytest.fixture(scope="session")
def small_shop() -> Shop:
    """The good folder, read."""
    return read_shop(SMALL, CLIMATES)


@pytest.fixture
def spoilt(tmp_path: Path) -> Callable[..., Path]:
    """Makes a copy of the good folder with changes such as tests/bad_input/shop lists."""

    def make(*changes: dict[str, Any]) -> Path:
        folder = tmp_path / "shop"
        shutil.copytree(SMALL, folder)
        for change in changes:
            _apply(folder, **change)
        return folder

    return make


def _apply(folder: Path, file: str, **change: Any) -> None:
    path = folder / file
    path.parent.mkdir(parents=True, exist_ok=True)
    if "delete" in change:
        path.unlink()
    elif "text" in change:
        path.write_text(change["text"], encoding="utf-8")
    elif "copy" in change:
        shutil.copy(path, folder / change["copy"])
    elif "link" in change:
        path.symlink_to(change["link"])
    else:
        old = change["old"].encode()
        raw = path.read_bytes()
        assert raw.count(old) >= 1, f"{file} no longer holds {change['old']}"
        new = bytes.fromhex(change["hex"]) if "hex" in change else change["new"].encode() * change.get("times", 1)
        path.write_bytes(raw.replace(old, change.get("before", "").encode() + new, 1))
