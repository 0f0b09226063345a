"""A finished vehicle states the trip it is meant for, as far as it differs from the workshop's usual one."""

from collections.abc import Callable
from pathlib import Path

import pytest
from pydantic import ValidationError

from engine.catalogue.published import catalogue_json, read_catalogue_json
from engine.catalogue.reading import read_shop
from engine.catalogue.schema import file_schemas
from engine.catalogue.trip import Trip, TripPart
from tests.shops import catalogue

OWN = '[trip]\nchildren = 0\nplace = "granada"\nmonths = [11, 12]\nbaggage = "200 lb"\n\n[options]'


def test_what_is_stated_goes_over_the_usual_trip_and_nothing_else() -> None:
    usual = Trip(place="denver", months=(2, 3), adults=3, children=2, showers_per_day=1, driving_h=2.5)
    own = TripPart(children=0, months=(7,), showers_per_day=0)
    assert own.over(usual) == Trip(place="denver", months=(7,), adults=3, children=0, showers_per_day=0, driving_h=2.5)
    assert TripPart().over(usual) == usual
    # A default that was stated counts as stated.
    assert TripPart(adults=2).over(usual).adults == 2


def test_it_is_as_strict_as_a_whole_trip() -> None:
    for wrong in ({"adults": 0}, {"months": ()}, {"months": (4, 4)}, {"months": (13,)}, {"place": "A place"}, {"x": 1}):
        with pytest.raises(ValidationError):
            TripPart.model_validate(wrong)


def test_it_is_read_with_units_and_published_as_it_was_stated(
    spoilt: Callable[..., Path], climates: tuple[str, ...]
) -> None:
    shop = read_shop(spoilt({"file": "ready/first-van.toml", "old": "[options]", "new": OWN}), climates)
    public = shop.public("2026-01-31")
    [again] = read_catalogue_json(catalogue_json(public)).ready
    assert again.trip == public.ready[0].trip
    assert again.trip.model_fields_set == {"children", "place", "months", "baggage_kg"}
    whole = again.trip.over(shop.workshop.trip)
    assert (whole.place, whole.months, whole.children) == ("granada", (11, 12), 0)
    assert whole.baggage_kg == pytest.approx(90.718474)
    assert whole.tallest_m == shop.workshop.trip.tallest_m


def test_the_schema_asks_for_nothing_and_promises_no_default() -> None:
    schemas = file_schemas()
    own, usual = schemas["ready"]["$defs"]["TripPart"], schemas["workshop"]["$defs"]["Trip"]
    assert "required" not in own and usual["required"] == ["place", "months"]
    assert own["properties"].keys() == usual["properties"].keys()
    assert not any("default" in p for p in own["properties"].values())
    assert usual["properties"]["adults"]["default"] == 2
    assert "default" not in schemas["ready"]["properties"]["trip"]


@pytest.mark.parametrize("shop", ["quillback", "hallamoor"])
def test_every_demo_vehicle_says_for_whom_when_and_where(shop: str) -> None:
    for ready in catalogue(shop).ready:
        assert {"adults", "months", "place"} <= ready.trip.model_fields_set, ready.id
