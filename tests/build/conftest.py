"""Builds of the proving yard, whose numbers are round."""

from collections.abc import Callable
from typing import Any

import pytest

from engine.build import Build
from tests.shops import enquiry, resolver

Maker = Callable[..., Build]


@pytest.fixture(scope="session")
def yard() -> Maker:
    """Makes a build of the proving yard: ``yard("plain-van", {"lfp-100": 2}, months=(6,))``."""

    def make(vehicle: str = "plain-van", options: dict[str, int] | None = None, **trip: Any) -> Build:
        return resolver("proving-yard").resolve(enquiry("proving-yard", vehicle, options, **trip))

    return make
