"""Who is named where an axle carries too much, and what is advised. Wheelbase 3.65 m; the rear wall is at 4.5 m."""

from dataclasses import replace

import pytest

from engine.build import Build, work_out
from engine.build.masses import mass_figures
from engine.rule import Finding
from engine.rules import all_rules
from engine.saying import findings_of
from tests.shops import enquiry, resolver

RULES = {r.code: r for r in all_rules()}
ON_AXLES = ("front-axle-load", "rear-axle-load", "tyre-load", "steer-axle-share")


def told(build: Build, *codes: str) -> list[Finding]:
    figures = work_out(build)
    return [f for code in codes for f in findings_of(RULES[code], build, figures)]


def placed(build: Build, **at: tuple[float | None, float]) -> Build:
    """The build with some parts' masses and places changed: ``lfp_200=(150, 0)``."""
    parts = tuple(
        replace(p, mass_kg=kg_x[0], x_m=kg_x[1]) if (kg_x := at.get(p.option.id.replace("-", "_"))) else p
        for p in build.parts
    )
    return replace(build, parts=parts)


def test_an_axle_names_what_stands_on_it_and_not_the_heaviest_part(yard):
    # 150 kg right over the front axle, 120 kg behind the rear one: 120·4.5/3.65 = 148 kg in the rear, −28 in front.
    build = placed(yard(options={"box-120": 1, "lfp-200": 1}), lfp_200=(150.0, 0.0))
    front, rear, tyre, steer = told(build, *ON_AXLES)
    assert front.options == ("lfp-200",) and rear.options == ("box-120",) and steer.options == ("box-120",)
    assert tyre.options in (front.options, rear.options)
    mass = mass_figures(build)
    assert dict(mass.front_pressing.most_kg)["people"] == pytest.approx(75)
    assert dict(mass.rear_pressing.most_kg) == {"Box of 120 kg on the rear wall": pytest.approx(120 * 4.5 / 3.65)}
    # It takes from the front's share what it lifts there and its own part of that share.
    share = mass.steer_lightest.axles.front_kg / mass.steer_lightest.axles.total_kg
    taken = dict(mass.steer_pressing.most_kg)["Box of 120 kg on the rear wall"]
    assert taken == pytest.approx(120 * (4.5 / 3.65 - 1 + share))


def test_a_trailers_nose_is_told_where_it_overloads(yard):
    build = yard(options={"tank-20": 1}, nose_kg=500, baggage_kg=950, adults=2)
    gross, rear = told(build, "gross-mass", "rear-axle-load")
    # 2000 + 150 + 500 + 950 + 76 kg of water; 500·5.05/3.65 = 692 kg on the rear axle.
    assert gross.verdict == rear.verdict == "fails"
    assert "trailer's nose 500 kg" in gross.cause and "weight on the coupling" in gross.remedy
    assert "trailer's nose (692 kg)" in rear.cause
    alone = told(yard(baggage_kg=1500), "gross-mass")[0]
    assert "nose" not in alone.cause and "gas" not in alone.cause and alone.remedy.startswith(
        "Leave out something heavy, carry less baggage, or"
    )  # fmt: skip


@pytest.mark.parametrize("ready", ["dry-stone", "high-fell", "lapwing"])
def test_what_is_told_of_the_heaviest_case_adds_up(ready: str) -> None:
    build = replace(resolver("hallamoor").resolve(enquiry("hallamoor", ready=ready, nose_kg=50)), weighed=None)
    m, empty = mass_figures(build), build.vehicle.masses
    told_kg = m.fit_out_kg + m.water_kg + m.people_kg + m.baggage_kg + m.gas_kg + m.nose_kg
    assert empty.empty_front_kg + empty.empty_rear_kg + told_kg == pytest.approx(m.heaviest.axles.total_kg)


def test_load_is_moved_only_to_an_axle_that_has_room(yard):
    # 330 kg at 4.5 m: 800 + 407 in the rear, and the front has half a ton to spare.
    heavy = yard(options={"box-120": 1})
    roomy = told(placed(heavy, box_120=(1000.0, 4.5)), "rear-axle-load")[0]
    assert roomy.verdict == "fails" and roomy.remedy.startswith("Move load towards the front")
    # With 700 kg more over the front axle both are too heavy.
    full = placed(yard(options={"box-120": 1, "lfp-200": 1}), box_120=(1000.0, 4.5), lfp_200=(900.0, 0.2))
    rear, front = told(full, "rear-axle-load", "front-axle-load")
    assert (rear.verdict, front.verdict) == ("fails", "fails")
    assert "front axle has no room" in rear.remedy and "rear axle has no room" in front.remedy
    # Close to its rating an axle is no better off where the other one is over.
    close = placed(yard(options={"box-120": 1, "lfp-200": 1}), box_120=(1000.0, 4.5), lfp_200=(770.0, 0.0))
    front = told(close, "front-axle-load")[0]
    assert front.verdict == "tight" and "rear axle has no room" in front.remedy


def test_an_axle_is_not_known_while_a_mass_on_it_is_not(yard):
    build = placed(yard(options={"box-120": 1}), box_120=(None, 4.5))
    front, rear, tyre, steer = told(build, *ON_AXLES)
    # Behind the rear axle it can only lighten the front.
    assert front.verdict == "ok"
    assert {f.verdict for f in (rear, steer, tyre)} == {"unknown"}
    assert rear.missing == steer.missing == tyre.missing == "mass of Box of 120 kg on the rear wall"
    # A failure stays one, whatever that mass is.
    over = placed(yard(options={"box-120": 1, "lfp-200": 1}), box_120=(None, 4.5), lfp_200=(1400.0, 4.0))
    assert [f.verdict for f in told(over, "rear-axle-load")] == ["fails", "unknown"]
