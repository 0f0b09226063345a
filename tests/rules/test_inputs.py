"""A rule's inputs are checked against their ranges, and the same values only once."""

import pytest
from pydantic import ValidationError

from engine.rule import Inputs, fact


class Plank(Inputs):
    """What a rule might ask."""

    length_m: float = fact("its length", "chosen", gt=0)
    oak: bool = fact("whether it is oak", "chosen", default=False)


class Beam(Inputs):
    """Another rule's, with the same fields."""

    length_m: float = fact("its length", "chosen", gt=0)
    oak: bool = fact("whether it is oak", "chosen", default=False)


def test_the_same_values_are_the_same_object():
    assert Plank(length_m=1.5, oak=True) is Plank(length_m=1.5, oak=True)
    assert Plank(length_m=1.5) is not Plank(length_m=1.6)


def test_another_rules_inputs_of_the_same_values_are_its_own():
    assert type(Beam(length_m=1.5)) is Beam and type(Plank(length_m=1.5)) is Plank


def test_values_that_only_count_as_equal_are_checked_apart():
    assert Plank(length_m=1.0, oak=True).oak is True
    assert isinstance(Plank(length_m=1).length_m, float)
    assert Plank(length_m=1.0, oak=True).length_m == 1.0
    for _ in range(2):
        with pytest.raises(ValidationError):
            Plank(length_m="1 m", oak=True)


def test_what_is_out_of_range_is_refused_each_time():
    for _ in range(2):
        with pytest.raises(ValidationError, match="greater than 0"):
            Plank(length_m=-1.0)


def test_they_cannot_be_changed():
    with pytest.raises(ValidationError, match="frozen"):
        Plank(length_m=2.0).length_m = 3.0
