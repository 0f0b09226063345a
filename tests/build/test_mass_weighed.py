"""A weighed vehicle is what the scale said, its likes learn from it, and nothing private is published."""

import random
from dataclasses import replace
from math import sqrt

import pytest

from engine.build.mass_items import delivered, parts, unlisted
from engine.build.mass_readings import SHARED_FRAC, _aboard, published
from engine.build.masses import mass_figures
from engine.build.resolve import Resolver
from engine.catalogue.published import catalogue_json
from engine.catalogue.reading import read_shop
from engine.catalogue.weighed import Reading
from engine.enquiry.climate import load_places
from engine.enquiry.model import Enquiry
from engine.physics.axle import axles_under
from engine.physics.load_cases import sums
from tests.shops import FOLDERS, catalogue, enquiry, resolver

SHOPS = ("quillback", "hallamoor")


def shop_of(name):
    return read_shop(FOLDERS[name], load_places())


def weighed_builds():
    return [(name, ready) for name in SHOPS for ready in shop_of(name).ready if ready.readings]


@pytest.mark.parametrize(("name", "ready"), weighed_builds(), ids=lambda x: getattr(x, "id", x))
def test_a_weighed_vehicle_is_what_the_scale_said(name, ready):
    build = resolver(name).resolve(enquiry(name, ready=ready.id))
    mass = mass_figures(build)
    assert mass.weighed.how == "own"
    reading = ready.readings[0]
    # "Dry and empty" is what is built in, corrected; with what was aboard that day it is the reading again.
    aboard = sums(_aboard(build, reading))
    dry = mass.cases[0].axles
    then = axles_under(aboard.mass_kg, aboard.x_kgm, build.vehicle.wheelbase_m)
    assert dry.front_kg + then.front_kg == pytest.approx(reading.front_kg, abs=0.01)
    assert dry.rear_kg + then.rear_kg == pytest.approx(reading.rear_kg, abs=0.01)
    # Of what was weighed only the scale's own doubt is left, and that of the people who sat in it.
    assert mass.cases[0].front_spread_kg == pytest.approx(reading.tolerance_kg, abs=10)
    assert mass.cases[0].spread_kg < mass_figures(replace(build, weighed=None)).cases[0].spread_kg


def test_sides_that_were_weighed_are_what_the_scale_said():
    [ready] = [r for r in shop_of("hallamoor").ready if r.id == "dry-stone"]
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    reading, v = ready.readings[0], build.vehicle
    loads = _aboard(build, reading)
    front = sum(i.mass_kg * (1 - i.x_m / v.wheelbase_m) * (0.5 + i.y_m / v.front_track_m) for i in loads)
    rear = sum(i.mass_kg * i.x_m / v.wheelbase_m * (0.5 + i.y_m / v.rear_track_m) for i in loads)
    wheels = mass_figures(build).cases[0].wheels
    assert wheels.front_right_kg + front == pytest.approx(reading.front_right_kg, abs=0.01)
    assert wheels.rear_right_kg + rear == pytest.approx(reading.rear_right_kg, abs=0.01)


def test_what_is_added_to_a_weighed_vehicle_is_as_doubtful_as_ever():
    here = mass_figures(resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone")))
    shown = catalogue("hallamoor")
    option = next(
        o
        for _, o in shown.options_by_id.values()
        if (o.mass_kg or 0) > 10 and all(o.id not in r.options for r in shown.ready) and not o.fits
    )
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone", options={option.id: 1}))
    there = mass_figures(build)
    assert there.weighed.how == "own"
    part = next(p for p in build.parts if p.option.id == option.id)
    share = build.workshop.unlisted_work_frac
    gained = there.cases[0].axles.total_kg - here.cases[0].axles.total_kg
    assert gained == pytest.approx(part.mass_kg * (1 + share), abs=0.01)
    own = sqrt((part.mass_kg * part.mass_tolerance_frac) ** 2
               + (part.mass_kg * share * build.workshop.unlisted_work_tolerance_frac) ** 2)  # fmt: skip
    assert there.cases[0].spread_kg == pytest.approx(sqrt(here.cases[0].spread_kg ** 2 + own**2), abs=0.01)


def test_what_is_left_out_of_a_weighed_vehicle_saves_what_it_weighs():
    """A shower of 2.2 kg: by its sum with 3 % of unlisted work 2.27 kg, and next to nothing of the scale's 43 kg."""
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    here = mass_figures(build)
    of_kind = next(w for w in catalogue("hallamoor").weighed if w.vehicle == "van-35")
    likes = mass_figures(replace(build, weighed=of_kind, weighed_options={})).weighed.added_kg
    parts_kg = sum(p.mass_kg for p in build.parts)
    part = min((p for p in build.parts if p.mass_kg and p.mass_kg > 2), key=lambda p: p.mass_kg)
    less = enquiry("hallamoor", ready="dry-stone", options={part.option.id: 0})
    there = mass_figures(resolver("hallamoor").resolve(less))
    assert (here.weighed.how, there.weighed.how) == ("own", "akin")
    # By twice its share of what was weighed the vehicle is one of its kind rather than itself.
    share = 2 * part.mass_kg / parts_kg
    lost_kg = part.mass_kg * 1.03 + share * (here.weighed.added_kg - likes)
    assert here.cases[0].axles.total_kg - there.cases[0].axles.total_kg == pytest.approx(lost_kg, abs=0.02)
    assert part.mass_kg < lost_kg < part.mass_kg * 1.2
    assert here.cases[0].spread_kg < there.cases[0].spread_kg < here.cases[0].spread_kg + 1


def test_the_band_of_what_is_left_is_the_mixture_by_hand():
    """One reading of a van of two boxes, the smaller left out: law of total variance, worked out beside the engine."""
    shop = shop_of("proving-yard")
    full = {"box-120": 2, "tank-20": 1}
    catalogue_, places = shop.public("2026-01-31"), load_places()
    trip = catalogue_.workshop.trip
    built = Resolver(catalogue_, places).resolve(Enquiry(vehicle="plain-van", options=full, trip=trip))
    sum_kg = mass_figures(built).cases[0].axles
    reading = Reading(
        dated="2026-01-02", front_kg=sum_kg.front_kg + 12, rear_kg=sum_kg.rear_kg + 18, tolerance_kg=5, boiler_frac=0
    )
    ready = shop.ready[0].model_copy(update={"vehicle": "plain-van", "options": full, "readings": (reading,)})
    weighed = published(shop.model_copy(update={"ready": (ready,)}), "2026-01-31")
    again = Resolver(weighed, places)
    [own] = weighed.weighed_ready
    assert (own.front_kg, own.rear_kg) == pytest.approx((12, 18), abs=0.01)
    less = again.resolve(Enquiry(vehicle="plain-van", options={"box-120": 2}, trip=trip))
    tank_kg = next(p.mass_kg for p in built.parts if p.option.id == "tank-20")
    tank_off = next(p.mass_tolerance_frac for p in built.parts if p.option.id == "tank-20") * tank_kg
    share = 1 - 2 * tank_kg / sum(p.mass_kg for p in built.parts)
    mass, likes = mass_figures(less), mass_figures(replace(less, akin=()))
    assert [a.share_frac for a in less.akin] == pytest.approx([share])
    mean = share * 30 + (1 - share) * likes.weighed.added_kg
    assert mass.weighed.added_kg == pytest.approx(mean, abs=1e-6)
    u = (weighed.workshop.unlisted_work_frac or 0) * weighed.workshop.unlisted_work_tolerance_frac
    as_itself = 5**2 + 5**2 + tank_off**2 + (u * tank_kg) ** 2
    apart = share * (1 - share) * (1.645 * (30 - likes.weighed.added_kg)) ** 2
    square = share * as_itself + (1 - share) * likes.cases[0].spread_kg ** 2 + apart
    assert mass.cases[0].spread_kg == pytest.approx(sqrt(square), rel=1e-3)


@pytest.mark.parametrize(("name", "ready"), weighed_builds(), ids=lambda x: getattr(x, "id", x))
@pytest.mark.parametrize("seed", range(3))
def test_taking_parts_out_one_by_one_never_jumps(name, ready, seed):
    """Down to the bare vehicle: each part saves about what it weighs, and no single one changes what is known much."""
    left = dict(ready.options)
    order = sorted(left)
    random.Random(seed).shuffle(order)

    def now():
        asked = enquiry(name, ready.vehicle, left)
        return resolver(name).resolve(asked)

    before = now()
    mass, seen = mass_figures(before), set()
    for option_id in order:
        part_kg = next((p.mass_kg for p in before.parts if p.option.id == option_id), None) or 0.0
        del left[option_id]
        after = now()
        less = mass_figures(after)
        seen.add(less.weighed.how)
        saved_kg = mass.cases[0].axles.total_kg - less.cases[0].axles.total_kg
        assert 0.8 * part_kg - 1e-6 <= saved_kg <= 1.25 * part_kg + 1e-6, option_id
        # From the scale's own doubt to that of a vehicle nobody weighed, in steps no larger than the parts.
        assert abs(less.cases[0].spread_kg - mass.cases[0].spread_kg) <= 2 + 0.35 * part_kg, option_id
        before, mass = after, less
    assert seen == {"akin", "others"}


def test_its_likes_learn_from_it():
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", {"lfp-230": 1, "kitchen-van": 1}))
    mass, unweighed = mass_figures(build), mass_figures(replace(build, weighed=None))
    assert (mass.weighed.how, mass.weighed.vehicles_count) == ("others", 2)
    assert mass.weighed.more_kg > 0
    added = mass.cases[0].axles.total_kg - unweighed.cases[0].axles.total_kg
    assert added == pytest.approx(mass.weighed.added_kg, abs=1e-6)
    assert 0 < added < mass.weighed.more_kg
    # Known better than before, but a new vehicle's own scatter stays.
    own = sum(i.mass_kg for i in delivered(build)) * build.vehicle.masses.tolerance_frac * sqrt(1 - SHARED_FRAC)
    assert own < mass.cases[0].spread_kg < unweighed.cases[0].spread_kg


def test_one_weighing_of_a_bare_vehicle_by_hand():
    """Nothing listed, nothing unlisted: the delivered mass is off, half of its variance in common with its kind."""
    shop = shop_of("proving-yard")
    vehicle = next(v for v in shop.vehicles if v.id == "plain-van")
    vehicle = vehicle.model_copy(update={"masses": vehicle.masses.model_copy(update={"tolerance_frac": 0.03})})
    # 1200 kg in front and 800 in the rear, both weighed 2 per cent heavier on a scale that is right to a gram.
    reading = Reading(dated="2026-01-02", front_kg=1224, rear_kg=816, tolerance_kg=0.001)
    ready = shop.ready[0].model_copy(update={"vehicle": "plain-van", "options": {}, "readings": (reading,)})
    weighed = published(shop.model_copy(update={"vehicles": (vehicle,), "ready": (ready,)}), "2026-01-31")
    [line] = weighed.weighed
    # Shared and own error are equally likely to be the cause: half of the 2 per cent is shared.
    assert line.delivered_frac == pytest.approx(0.01, abs=1e-5)
    shared = 0.03 * sqrt(SHARED_FRAC)
    assert line.delivered_spread_frac == pytest.approx(shared * sqrt(0.5), abs=1e-5)
    assert (line.count, line.more_kg) == (1, pytest.approx(40, abs=0.01))
    assert line.unlisted_frac == 0
    places = load_places()
    trip = weighed.workshop.trip
    again = Resolver(weighed, places).resolve(Enquiry(vehicle="plain-van", options={"box-120": 1}, trip=trip))
    assert again.weighed == weighed.weighed_ready[0]
    assert mass_figures(again).cases[0].axles.total_kg == pytest.approx(2040 + 120, abs=0.01)


def test_people_and_things_on_the_scale_come_off_again():
    shop = shop_of("proving-yard")
    ready = shop.ready[0].model_copy(update={"vehicle": "plain-van", "options": {"tank-20": 1}})
    catalogue_ = shop.public("2026-01-31")
    build = Resolver(catalogue_, load_places()).resolve(
        Enquiry(vehicle="plain-van", options={"tank-20": 1}, trip=catalogue_.workshop.trip)
    )
    water = next(f for p in build.parts for f in p.option.facets).volume_l
    tank = build.parts[0]
    # 75 kg in the driver's seat, half a tank, 100 kg at the rear wall (4.5 m): worked out on paper.
    front = 1200 + 75 + (tank.mass_kg + water / 2) * (1 - tank.x_m / 3.65) + 100 * (1 - 4.5 / 3.65)
    rear = 800 + (tank.mass_kg + water / 2) * tank.x_m / 3.65 + 100 * 4.5 / 3.65
    reading = Reading.model_validate(
        {
            "dated": "2026-01-02", "front_kg": front + 7, "rear_kg": rear - 3, "fresh_water_frac": 0.5, "people": 1,
            "aboard": ({"name": "sand bags", "mass_kg": 100, "place": "rear-wall"},),
        }
    )  # fmt: skip
    weighed = published(
        shop.model_copy(update={"ready": (ready.model_copy(update={"readings": (reading,)}),)}), "2026-01-31"
    )
    [own] = weighed.weighed_ready
    assert (own.front_kg, own.rear_kg) == pytest.approx((7, -3), abs=0.001)


@pytest.mark.parametrize("name", SHOPS)
def test_readings_are_never_published(name):
    text = catalogue_json(catalogue(name))
    for ready in shop_of(name).ready:
        for reading in ready.readings:
            assert reading.dated not in text
            assert f"{reading.front_kg:.3f}"[:8] not in text
            assert all(thing.name not in text for thing in reading.aboard)
    assert '"readings"' not in text and "fuel_frac" not in text
    assert '"weighed"' in text


def test_several_readings_count_by_how_sure_they_are():
    shop = shop_of("proving-yard")
    ready = shop.ready[0].model_copy(update={"vehicle": "plain-van", "options": {}})
    readings = tuple(
        Reading(dated="2026-01-02", front_kg=1200 + kg, rear_kg=800, tolerance_kg=t) for kg, t in ((10, 10), (40, 20))
    )
    weighed = published(
        shop.model_copy(update={"ready": (ready.model_copy(update={"readings": readings}),)}), "2026-01-31"
    )
    [own] = weighed.weighed_ready
    # Weights 1/100 and 1/400: (4·10 + 40)/5 = 16 kg, half-width 1/√(1/100 + 1/400) = 8.944 kg.
    assert own.front_kg == pytest.approx(16, abs=0.001)
    assert own.front_spread_kg == pytest.approx(8.944, abs=0.001)
    assert own.rear_kg == 0


def test_the_allowance_for_unlisted_work_is_an_item():
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    mass = mass_figures(replace(build, weighed=None))
    fitted = parts(build.parts)
    item = unlisted(build, fitted)
    parts_kg = sum(i.mass_kg for i in fitted)
    assert mass.unlisted_kg == pytest.approx(0.03 * parts_kg)
    assert mass.fit_out_kg == pytest.approx(1.03 * parts_kg)
    assert item.x_m == pytest.approx(sum(i.mass_kg * i.x_m for i in fitted) / parts_kg)
    assert item.spread_kg == pytest.approx(0.4 * mass.unlisted_kg)
    assert mass.cases[0].axles.total_kg == pytest.approx(2085 + mass.fit_out_kg)
