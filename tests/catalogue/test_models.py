"""What every catalogue model has in common, so that authors' keys and units stay without surprises."""

from collections import Counter
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from engine.catalogue.measures import read_text
from engine.catalogue.quantities import SUFFIXES, suffix_of
from engine.catalogue.shapes import bounds_of, example_of, keys_of, quantity_of, sample
from engine.catalogue.shop import Shop


def models_under(annotation: Any, seen: dict[str, type[BaseModel]]) -> dict[str, type[BaseModel]]:
    """Every model that can stand inside a value of this type, by name."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel) and annotation.__name__ not in seen:
        seen[annotation.__name__] = annotation
        for field in annotation.model_fields.values():
            models_under(field.annotation, seen)
    for part in get_args(annotation):
        models_under(part, seen)
    return seen


MODELS = models_under(Shop, {})
QUANTITIES = [
    (model, name) for model in MODELS.values() for name, field in model.model_fields.items() if quantity_of(field)
]


def test_the_walk_finds_models_and_quantities() -> None:
    assert len(MODELS) > 45
    assert len(QUANTITIES) > 120


@pytest.mark.parametrize("model", MODELS.values(), ids=MODELS)
def test_no_two_fields_share_a_key(model: type[BaseModel]) -> None:
    keys = Counter(field.alias or name for name, field in model.model_fields.items())
    assert max(keys.values()) == 1, keys.most_common(1)


@pytest.mark.parametrize("model", MODELS.values(), ids=MODELS)
def test_the_suffix_of_a_name_is_the_unit_of_the_field(model: type[BaseModel]) -> None:
    for name, field in model.model_fields.items():
        suffix, quantity = suffix_of(name), quantity_of(field)
        if quantity:
            assert suffix and SUFFIXES[suffix][0] == quantity.unit, name
        elif suffix:
            assert field.annotation is not float, f"{name} takes a bare number"


@pytest.mark.parametrize(("model", "name"), QUANTITIES, ids=lambda v: v if isinstance(v, str) else v.__name__)
def test_the_example_in_a_message_would_be_taken(model: type[BaseModel], name: str) -> None:
    field = model.model_fields[name]
    quantity = quantity_of(field)
    assert quantity
    value = read_text(example_of(field, quantity), quantity.unit)
    bounds = bounds_of(field)
    assert bounds.get("gt", -1e9) < value < bounds.get("lt", 1e9)
    assert bounds.get("ge", -1e9) <= value <= bounds.get("le", 1e9)


@pytest.mark.parametrize("model", MODELS.values(), ids=MODELS)
def test_every_key_has_a_sample(model: type[BaseModel]) -> None:
    for key in keys_of(model):
        assert key in sample(model, key)
