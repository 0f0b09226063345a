"""The published catalogue is exact, always the same bytes, and has no place for what only the workshop may see."""

import subprocess
import sys
from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any, get_args

import pytest
from pydantic import BaseModel, ValidationError

from engine.catalogue.published import catalogue_json, read_catalogue_json
from engine.catalogue.reading import read_shop
from engine.catalogue.section import Option, Section
from engine.catalogue.shop import Shop, ShopOption
from engine.catalogue.workshop import Catalogue
from engine.enquiry.climate import load_places

PRIVATE = {"cost_price", "supplier"}


def test_no_byte_of_a_private_field_is_published(spoilt: Callable[..., Path], climates: tuple[str, ...]) -> None:
    folder = spoilt(
        {"file": "sections/power.toml", "old": "cost_price = 512.40", "new": "cost_price = 90817.26"},
        {"file": "sections/power.toml", "old": "Invented Cells", "new": "Plantedmark Trading"},
        {"file": "sections/warmth.toml", "old": "price = 900", "new": "price = 900\ncost_price = 71625.34"},
        {"file": "sections/warmth.toml", "old": "price = 700", "new": 'price = 700\nsupplier = "Secondmark Ltd"'},
    )
    shop = read_shop(folder, climates)
    inside = shop.model_dump_json()
    published = catalogue_json(shop.public("2026-01-31"))
    for mark in ("90817.26", "Plantedmark", "71625.34", "Secondmark"):
        assert mark in inside  # the mark was really read
        assert mark not in published
    for key in PRIVATE:
        assert key in inside
        assert key not in published


@pytest.mark.parametrize("name", ["quillback", "hallamoor"])
def test_demo_workshops_publish_nothing_private(name: str) -> None:
    shop = read_shop(Path(__file__).parents[2] / "engine" / "demo" / name, tuple(load_places()))
    published = catalogue_json(shop.public("2026-01-31"))
    options = [o for s in shop.sections for o in s.options]
    suppliers = {o.supplier for o in options if o.supplier}
    assert suppliers and any(o.cost_price for o in options)
    assert not [s for s in suppliers if s in published]
    assert not [key for key in PRIVATE if key in published]
    assert read_catalogue_json(published) == shop.public("2026-01-31")


def test_public_classes_have_no_private_field() -> None:
    private = ShopOption.model_fields.keys() - Option.model_fields.keys()
    assert private == PRIVATE
    for model in models_under(Catalogue, set()):
        assert not PRIVATE & model.model_fields.keys()
        assert not issubclass(model, ShopOption)


def models_under(annotation: Any, seen: set[type[BaseModel]]) -> set[type[BaseModel]]:
    """Every model that can stand inside a value of this type."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel) and annotation not in seen:
        seen.add(annotation)
        for field in annotation.model_fields.values():
            models_under(field.annotation, seen)
    for part in get_args(annotation):
        models_under(part, seen)
    return seen


def test_the_walk_over_public_classes_reaches_facets() -> None:
    assert {"Option", "Battery", "RoofSpot", "Vehicle", "Trip"} <= {m.__name__ for m in models_under(Catalogue, set())}


def test_private_options_cannot_be_slipped_into_a_catalogue(small_shop: Shop) -> None:
    slipped = small_shop.public("2026-01-31").model_copy(update={"sections": small_shop.sections})
    with pytest.raises(TypeError, match="not the public view"):
        catalogue_json(slipped)


def test_public_view_is_made_of_public_classes(small_shop: Shop) -> None:
    public = small_shop.public("2026-01-31")
    assert {type(s) for s in public.sections} == {Section}
    assert {type(o) for s in public.sections for o in s.options} == {Option}
    assert [o.id for s in public.sections for o in s.options] == [o.id for s in small_shop.sections for o in s.options]


def test_reading_gives_si(small_shop: Shop) -> None:
    options = small_shop.public("2026-01-31").options_by_id
    battery = options["battery-100"][1]
    assert battery.mass_kg == pytest.approx(27 * 0.45359237)
    assert battery.lead_time_d == 14
    assert battery.price == Decimal("820")
    assert battery.facets[0].min_charge_degc == 0  # type: ignore[union-attr]
    assert options["stove"][1].facets[0].output_w == pytest.approx(3516.85284, rel=1e-6)  # type: ignore[union-attr]
    assert small_shop.workshop.trip.tallest_m == pytest.approx(1.8542)
    assert small_shop.workshop.labour_rate == Decimal("58.50")


def test_sections_come_in_their_order(small_shop: Shop) -> None:
    assert [s.id for s in small_shop.sections] == ["warmth", "power"]


def test_round_trip_is_lossless_and_always_the_same_bytes(small_shop: Shop) -> None:
    public = small_shop.public("2026-01-31")
    text = catalogue_json(public)
    again = read_catalogue_json(text)
    assert again == public
    assert catalogue_json(again) == text
    assert '"price":"240.00"' in text  # money is text, to the cent as the author wrote it
    assert '"mass_kg":12.24699399' in text
    assert "\n" not in text and ": " not in text


def test_a_default_is_still_known_from_a_stated_value(small_shop: Shop) -> None:
    again = read_catalogue_json(catalogue_json(small_shop.public("2026-01-31")))
    stove = again.options_by_id["stove"][1]
    assert "most" not in stove.model_fields_set
    assert "most" in again.options_by_id["battery-100"][1].model_fields_set


@pytest.mark.parametrize("dated", ["", "2026-1-1", "today", "2026-01-31T00:00"])
def test_the_day_has_one_form(small_shop: Shop, dated: str) -> None:
    with pytest.raises(ValidationError):
        small_shop.public(dated)


@pytest.mark.parametrize(
    "change",
    [
        ("", "{"),
        ('"mass_kg":11.0', '"mass_kg":"11 kg"'),
        ('"mass_kg"', '"mass"'),
        ('"price":"240.00"', '"price":"NaN"'),
    ],
)
def test_a_damaged_catalogue_is_refused(small_shop: Shop, change: tuple[str, str]) -> None:
    text = catalogue_json(small_shop.public("2026-01-31"))
    with pytest.raises(ValidationError):
        read_catalogue_json(text.replace(*change, 1))


def test_the_browsers_path_loads_nothing_of_the_authors_side() -> None:
    code = (
        "import sys; import engine.catalogue.published; "
        "print(sorted({'pint', 'tree_sitter', 'click', 'rich', 'tomllib'} & sys.modules.keys()))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.strip() == "[]"
