"""A site of each demo workshop with an invented private mark in its shop files, built once."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from site_build.command import build
from site_build.progress import silent
from tests.shops import DEMO


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """The built site of a demo workshop, by its name."""
    sites: dict[str, Path] = {}

    def site_of(shop: str) -> Path:
        if shop not in sites:
            folder = tmp_path_factory.mktemp("built")
            shutil.copytree(DEMO / shop, folder / "shop")
            mark_private(folder / "shop")
            build(folder / "shop", folder / "site", silent)
            sites[shop] = folder / "site"
        return sites[shop]

    return site_of


COST = 731_357.19
SUPPLIER = "Zephyrine Undermarket Trading"


def mark_private(shop: Path) -> None:
    """Give the first option of every chapter a cost price and a supplier that occur nowhere else."""
    for path in (shop / "sections").glob("*.toml"):
        lines = path.read_text(encoding="utf-8").splitlines()
        lines = [line for line in lines if not line.startswith(("cost_price", "supplier"))]
        at = next(i for i, line in enumerate(lines) if line.strip() == "[[option]]")
        lines[at + 1 : at + 1] = [f"cost_price = {COST}", f'supplier = "{SUPPLIER}"']
        path.write_text("\n".join(lines) + "\n", encoding="utf-8")
