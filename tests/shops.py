"""Shops that several tests look at, each read once per run, and the terminal's check of a build against them."""

import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple
from unittest.mock import patch

from click.testing import CliRunner

import engine.cli
from engine.build import Resolver
from engine.build.mass_readings import published
from engine.catalogue.reading import read_shop
from engine.catalogue.workshop import Catalogue
from engine.desk import scene_with
from engine.enquiry import Enquiry
from engine.enquiry.climate import load_places
from engine.sheets.view import Scene

DEMO = Path(engine.cli.__file__).parent / "demo"
FOLDERS = {
    "quillback": DEMO / "quillback",
    "hallamoor": DEMO / "hallamoor",
    "proving-yard": Path(__file__).parent / "scenarios" / "shop",
}


@cache
def catalogue(name: str) -> Catalogue:
    """A shop's public catalogue by its name."""
    return published(read_shop(FOLDERS[name], load_places()), dated="2026-01-01")


@cache
def resolver(name: str) -> Resolver:
    """What turns enquiries into builds of that shop."""
    return Resolver(catalogue(name), load_places())


def quick_scene(with_: Resolver, asked: Enquiry) -> Scene:
    """An enquiry by its quick figures alone, as a pick is answered first."""
    return scene_with(with_, asked, lambda _build, _figures: None)


def enquiry(
    shop: str,
    vehicle: str | None = None,
    options: Mapping[str, int] | None = None,
    ready: str | None = None,
    **trip: Any,
) -> Enquiry:
    """An enquiry on the shop's usual trip, with what differs; from nothing, or from one of its ready builds.

    In ``options`` a count of 0 takes a ready build's option out.
    """
    shown = catalogue(shop)
    base = next((r for r in shown.ready if r.id == ready), None)
    assert (base is None) == (ready is None), f"{shop} has no ready build {ready}"
    chosen = dict(base.options if base else {}) | dict(options or {})
    usual = shown.workshop.trip.model_dump(exclude_none=True)
    return Enquiry.model_validate(
        {
            "workshop": shown.workshop.id,
            "vehicle": vehicle or (base.vehicle if base else shown.vehicles[0].id),
            "options": {i: n for i, n in chosen.items() if n},
            "trip": usual | trip,
        },
        by_name=True,
    )


class Checked(NamedTuple):
    """What the terminal's check of a build says."""

    status: int
    figures: dict[str, dict[str, Any]]
    findings: list[dict[str, Any]]


def check(shop: str, build_file: Path) -> Checked:
    """``loadstead check BUILD_FILE --json``, with the shop's folder read once per run only."""
    with patch.object(engine.cli, "load_catalogue", lambda folder: catalogue(shop)):
        result = CliRunner().invoke(
            engine.cli.main, ["check", str(build_file), "--shop", str(FOLDERS[shop]), "--json"], catch_exceptions=False
        )
    assert result.exit_code in (0, 1), result.output
    return Checked(result.exit_code, **json.loads(result.stdout))
