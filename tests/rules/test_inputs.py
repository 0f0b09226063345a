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


def test_numbers_that_count_as_equal_come_out_as_their_fields_have_them():
    for length_m, oak in ((1, True), (1.0, 1), (True, 1.0)):
        plank = Plank(length_m=length_m, oak=oak)
        assert (plank.length_m, plank.oak) == (1.0, True)
        assert type(plank.length_m) is float and type(plank.oak) is bool
    for _ in range(2):
        with pytest.raises(ValidationError):
            Plank(length_m="1 m", oak=True)


def test_a_field_may_have_any_name():
    class Van(Inputs):
        model: str = fact("what it is called", "chosen")

    assert Van(model="long").model == "long"


def test_what_is_out_of_range_is_refused_each_time():
    for _ in range(2):
        with pytest.raises(ValidationError, match="greater than 0"):
            Plank(length_m=-1.0)


def test_they_cannot_be_changed():
    with pytest.raises(ValidationError, match="frozen"):
        Plank(length_m=2.0).length_m = 3.0
