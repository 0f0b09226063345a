"""Whatever lifted bed an author may write down can be worked out: the door's ranges lie within those of physics."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from engine.build.moving import fine
from engine.catalogue.facets import GasStrutLift
from engine.physics.strut import Struts, lifting_arc, recommended


def _ends(name: str) -> st.SearchStrategy[float]:
    low, high = -math.inf, math.inf
    for limit in GasStrutLift.model_fields[name].metadata:
        low = max(low, getattr(limit, "ge", None) or getattr(limit, "gt", None) or -math.inf)
        high = min(high, getattr(limit, "le", None) or getattr(limit, "lt", None) or math.inf)
    low = 0.0 if low == -math.inf else low  # a lower end of 0 reads as none
    return st.floats(low, high) | st.sampled_from((low, high))


NUMBERS = [n for n in GasStrutLift.model_fields if n.rsplit("_", 1)[-1] in ("kg", "m", "deg", "n", "frac")]
REQUIRED = [n for n in NUMBERS if n not in ("drawn_out_m", "stroke_m")]


def test_the_ends_are_read():
    assert {"moved_kg", "eye_on_body_up_m", "opens_deg", "force_n", "rise_frac"} <= set(REQUIRED)
    with pytest.raises(ValidationError):
        GasStrutLift.model_validate({"kind": "gas-strut-lift", "struts": 2} | dict.fromkeys(REQUIRED, 1e9))


@settings(max_examples=300)
@given(st.fixed_dictionaries({n: _ends(n) for n in REQUIRED}), st.integers(1, 6), st.booleans(), st.floats(0, 2000))
def test_every_lift_that_is_let_in_is_worked_out(numbers, struts, catch, riding_kg):
    try:
        facet = GasStrutLift.model_validate({"kind": "gas-strut-lift", "struts": struts, "catch": catch} | numbers)
    except ValidationError as error:
        assert "within 5 cm" in str(error)
        return
    hinge = facet.hinge._replace(moved_kg=facet.moved_kg + riding_kg)
    arc = lifting_arc(hinge, Struts(facet.struts, facet.force_n, facet.rise_frac))
    assert all(math.isfinite(x) for x in arc)
    assert arc.push_n >= max(0.0, arc.shut_n, arc.open_n) - 1e-6
    assert arc.pull_n >= max(0.0, -arc.shut_n, -arc.open_n) - 1e-6
    found = recommended(hinge, facet.rise_frac, catch=catch)
    assert found is None or fine(lifting_arc(hinge, found), catch)
