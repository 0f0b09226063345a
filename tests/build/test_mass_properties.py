"""What must hold for the masses of any build, on whole builds of both demo workshops."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.build import Build
from engine.build.masses import LoadCase, MassFigures, mass_figures
from tests.shops import catalogue, enquiry, resolver

SHOPS = ("quillback", "hallamoor")
TRIPS = st.fixed_dictionaries(
    {
        "adults": st.integers(1, 4), "children": st.integers(0, 3), "pets": st.integers(0, 2),
        "baggage_kg": st.floats(0, 300), "cupboards_kg": st.floats(0, 100), "nose_kg": st.sampled_from((0.0, 75.0)),
    }
)  # fmt: skip


@st.composite
def builds(draw: st.DrawFn) -> Build:
    """A ready build, some options of it missing and some others added."""
    shop = draw(st.sampled_from(SHOPS))
    ready = draw(st.sampled_from(catalogue(shop).ready))
    gone = draw(st.lists(st.sampled_from(sorted(ready.options)), max_size=4, unique=True))
    more = draw(st.lists(st.sampled_from(sorted(catalogue(shop).options_by_id)), max_size=4, unique=True))
    options = dict.fromkeys(more, 1) | dict.fromkeys(gone, 0)
    return resolver(shop).resolve(enquiry(shop, ready=ready.id, options=options, **draw(TRIPS)))


def all_cases(mass: MassFigures) -> tuple[LoadCase, ...]:
    return (*mass.cases, mass.heaviest, mass.front_worst, mass.rear_worst, mass.steer_lightest, mass.all_tanks)


def mirrored(build: Build) -> Build:
    """The same build with left and right exchanged."""

    def turned(entries):
        return tuple(e.model_copy(update={"y_m": -e.y_m}) for e in entries)

    v = build.vehicle
    engine = v.engine.model_copy(update={"fuel_y_m": -v.engine.fuel_y_m})

    def exchanged(known):
        rights = {k: getattr(known, k + "_kg") - getattr(known, k + "_right_kg") for k in ("front", "rear")}
        return known.model_copy(update={k + "_right_kg": kg for k, kg in rights.items()})

    weighed = build.weighed
    if weighed is not None and hasattr(weighed, "front_right_kg"):
        weighed = exchanged(weighed)
    return replace(
        build,
        vehicle=v.model_copy(update={"seats": turned(v.seats), "places": turned(v.places), "engine": engine}),
        parts=tuple(replace(p, y_m=-p.y_m) for p in build.parts),
        weighed=weighed,
        akin=tuple(a._replace(known=exchanged(a.known)) for a in build.akin),
    )


@settings(max_examples=60)
@given(builds())
def test_axles_and_sides_add_up(build):
    for case in all_cases(mass_figures(build)):
        w, axles = case.wheels, case.axles
        assert w is not None
        assert w.front_left_kg + w.front_right_kg == pytest.approx(axles.front_kg, abs=1e-6)
        assert w.rear_left_kg + w.rear_right_kg == pytest.approx(axles.rear_kg, abs=1e-6)
        # The centre of gravity says the same as the axles do.
        assert case.cg[0] == pytest.approx(axles.rear_kg / axles.total_kg * build.vehicle.wheelbase_m, abs=1e-9)
        assert 0.3 < case.cg[2] < build.vehicle.height_m


@settings(max_examples=60)
@given(builds())
def test_the_worst_cases_are_no_better_than_the_usual_ones(build):
    mass = mass_figures(build)
    on_the_road = mass.cases[1:]
    assert mass.heaviest.axles.total_kg >= max(c.axles.total_kg for c in on_the_road) - 1e-9
    assert mass.front_worst.axles.front_kg >= max(c.axles.front_kg for c in on_the_road) - 1e-9
    assert mass.rear_worst.axles.rear_kg >= max(c.axles.rear_kg for c in on_the_road) - 1e-9
    share = mass.steer_lightest.axles.front_kg / mass.steer_lightest.axles.total_kg
    assert share <= min(c.axles.front_kg / c.axles.total_kg for c in on_the_road) + 1e-12
    i = ("front left", "front right", "rear left", "rear right").index(mass.wheel_worst.name)
    assert mass.wheel_worst.load_kg >= max(c.wheels[i] for c in on_the_road) - 1e-9
    assert mass.stability.height_m >= max(c.cg[2] for c in on_the_road) - 1e-9


@settings(max_examples=40)
@given(builds())
def test_a_mirrored_build_swaps_left_and_right(build):
    here, there = mass_figures(build), mass_figures(mirrored(build))
    for a, b in zip(all_cases(here), all_cases(there), strict=True):
        assert b.axles == pytest.approx(a.axles, abs=1e-6)
    # In the worst case of an axle two seats side by side are as good as each other: its sides are anybody's choice.
    for a, b in zip((*here.cases, here.all_tanks), (*there.cases, there.all_tanks), strict=True):
        left, right = a.wheels[0::2], a.wheels[1::2]
        assert b.wheels[1::2] == pytest.approx(left, abs=1e-6)
        assert b.wheels[0::2] == pytest.approx(right, abs=1e-6)
    assert there.wheel_worst.load_kg == pytest.approx(here.wheel_worst.load_kg, abs=1e-6)
    assert there.askew.difference_kg == pytest.approx(here.askew.difference_kg, abs=1e-6)


@settings(max_examples=40)
@given(builds(), st.data())
def test_a_part_moved_rearward_never_loads_the_front_axle(build, data):
    i = data.draw(st.integers(0, len(build.parts) - 1))
    by_m = data.draw(st.floats(0, 3))
    part = build.parts[i]
    moved = replace(build, parts=(*build.parts[:i], replace(part, x_m=part.x_m + by_m), *build.parts[i + 1 :]))
    before, after = mass_figures(build), mass_figures(moved)
    shift_kg = (part.mass_kg or 0.0) * by_m / build.vehicle.wheelbase_m
    for a, b in zip(before.cases, after.cases, strict=True):
        assert b.axles.front_kg <= a.axles.front_kg + 1e-9
        assert b.axles.total_kg == pytest.approx(a.axles.total_kg, abs=1e-6)
        assert a.axles.front_kg - b.axles.front_kg >= shift_kg - 1e-6
    # Contents move along with the tanks' parts, so the worst case can only fall too.
    assert after.front_worst.axles.front_kg <= before.front_worst.axles.front_kg + 1e-9


@settings(max_examples=40)
@given(builds(), st.data())
def test_a_heavier_part_never_leaves_more_payload(build, data):
    i = data.draw(st.integers(0, len(build.parts) - 1))
    more_kg = data.draw(st.floats(0, 200))
    part = build.parts[i]
    heavier = replace(part, mass_kg=(part.mass_kg or 0.0) + more_kg)
    before = mass_figures(build)
    after = mass_figures(replace(build, parts=(*build.parts[:i], heavier, *build.parts[i + 1 :])))
    left_kg = [m.gross_rating_kg - m.heaviest.axles.total_kg for m in (before, after)]
    assert left_kg[1] <= left_kg[0] - more_kg + 1e-6
