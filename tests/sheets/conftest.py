"""Scenes of both demo workshops for the tests of sheets."""

from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import engine.demo
from engine.build import Resolver, work_out
from engine.build.mass_readings import published
from engine.build.trip_energy import trip_energy
from engine.catalogue import Catalogue
from engine.catalogue.reading import read_shop
from engine.enquiry import Enquiry
from engine.enquiry.climate import load_places
from engine.rules import judge
from engine.sheets.view import Scene

WORKSHOPS = ("quillback", "hallamoor")


class Stage:
    """One workshop, and scenes of what can be chosen there."""

    def __init__(self, name: str) -> None:
        places = load_places()
        shop = read_shop(Path(engine.demo.__file__).parent / name, places.keys())
        self.catalogue: Catalogue = published(shop, "2026-11-25")
        self.resolver = Resolver(self.catalogue, places)
        start = next(r for r in self.catalogue.ready if r.id == self.catalogue.workshop.start)
        self.start = Enquiry(
            workshop=self.catalogue.workshop.id,
            vehicle=start.vehicle,
            options=dict(start.options),
            trip=self.catalogue.workshop.trip,
            catalogue_dated=self.catalogue.dated,
        )

    def scene(self, enquiry: Enquiry | None = None, slow: bool = False) -> Scene:
        """The scene of an enquiry; of the start build without one. slow: with the slow figures too."""
        enquiry = enquiry or self.start
        build = self.resolver.resolve(enquiry)
        figures = work_out(build)
        if slow:
            figures = figures._replace(energy=trip_energy(build, figures))
        return Scene(self.catalogue, enquiry, build, figures, judge(build, figures), "abc")

    def with_options(self, **changes: int) -> Scene:
        """The start build with other counts of some options; 0 takes one out. Underscores stand for hyphens."""
        options = {**self.start.options, **{k.replace("_", "-"): n for k, n in changes.items()}}
        return self.scene(self.start.model_copy(update={"options": {k: n for k, n in options.items() if n}}))

    def with_trip(self, **changes: Any) -> Scene:
        """The start build on another trip."""
        trip = self.start.trip.model_validate(self.start.trip.model_dump() | changes)
        return self.scene(self.start.model_copy(update={"trip": trip}))


@cache
def stage_of(name: str) -> Stage:
    """A workshop's stage, read once."""
    return Stage(name)


@pytest.fixture(params=WORKSHOPS)
def stage(request: pytest.FixtureRequest) -> Stage:
    """Each workshop in turn."""
    return stage_of(request.param)


@pytest.fixture
def stages() -> Callable[[str], Stage]:
    """A workshop by name."""
    return stage_of
