"""What must hold for every build, tried on many that nobody would think of."""

import json
import re
from collections.abc import Mapping
from typing import Any

import jsonschema
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.build import Build, Figures, work_out
from engine.catalogue.facets import GreyTank, InsulationLayer, RoofObject, SolarController, SolarPanel
from engine.desk import set_scene
from engine.document import check_document, document_schema
from engine.enquiry import Enquiry
from engine.enquiry.climate import load_places
from engine.rule import Finding
from engine.rules import judge
from engine.sheets.page import configurator_html, report_html
from tests.sheets.reading import read_html
from tests.shops import catalogue, enquiry, resolver
from tests.strategies import trips

SHOPS = ("quillback", "hallamoor")
PLACES = sorted(load_places())
VALIDATOR = jsonschema.Draft202012Validator(document_schema())


def option_ids(shop: str, *kinds: type) -> list[str]:
    """The shop's options, of these facets if any are named."""
    return [
        i
        for i, (_, o) in catalogue(shop).options_by_id.items()
        if not kinds or any(isinstance(f, kinds) for f in o.facets)
    ]


def counts(shop: str, most: int) -> st.SearchStrategy[dict[str, int]]:
    """Options of the shop with how many, and sometimes one that it does not have."""
    known = st.sampled_from(option_ids(shop))
    gone = st.sampled_from(["sold-out", "panel-1000", "a"])
    return st.dictionaries(known | known | known | gone, st.integers(1, 4) | st.integers(1, 20), max_size=most)


@st.composite
def anything(draw: st.DrawFn, most: int = 30) -> tuple[str, Enquiry]:
    """An enquiry that validates, on either shop: from nothing or round one of its ready builds."""
    shop = draw(st.sampled_from(SHOPS))
    shown = catalogue(shop)
    chosen = draw(counts(shop, most))
    vehicle = draw(st.sampled_from([v.id for v in shown.vehicles]))
    if draw(st.booleans()):
        ready = draw(st.sampled_from(shown.ready))
        vehicle, chosen = ready.vehicle, dict(ready.options) | chosen
    return shop, Enquiry(vehicle=vehicle, options=chosen, trip=draw(trips(PLACES)))


def worked(shop: str, asked: Enquiry) -> tuple[Build, Figures, tuple[Finding, ...]]:
    """Resolved, worked out and judged."""
    build = resolver(shop).resolve(asked)
    figures = work_out(build)
    return build, figures, judge(build, figures)


def document(shop: str, asked: Enquiry) -> dict[str, Any]:
    """The check's document, as it comes out of JSON."""
    _, figures, findings = worked(shop, asked)
    return json.loads(json.dumps(check_document(figures, findings), allow_nan=False))


def more(asked: Enquiry, options: Mapping[str, int]) -> Enquiry:
    """The same enquiry with other counts."""
    return asked.model_copy(update={"options": dict(asked.options) | dict(options)})


@settings(max_examples=150)
@given(anything())
def test_every_enquiry_is_resolved_and_judged(given_: tuple[str, Enquiry]) -> None:
    shop, asked = given_
    build, figures, findings = worked(shop, asked)
    # Nothing is dropped in silence: each choice is a part or a stray that a finding names.
    assert {p.option.id for p in build.parts} | {s.option_id for s in build.strays} == set(asked.options)
    named = {i for f in findings if f.rule == "choice-known" for i in f.options}
    assert named == {s.option_id for s in build.strays}
    for f in findings:
        told = f.cause + f.remedy
        for box in asked.trip.boxes:
            told = told.replace(box.name, "")  # a buyer may call a box "{"
        assert f.cause and "{" not in told
        assert (f.missing is not None) == (f.verdict == "unknown")
        if f.verdict in ("fails", "tight", "unknown"):
            assert f.remedy
    written = json.loads(json.dumps(check_document(figures, findings), allow_nan=False))
    VALIDATOR.validate(written)
    for key, figure in written["figures"].items():
        if "low" in figure:
            assert figure["low"] <= figure["value"] <= figure["high"], key
    for f in written["findings"]:
        if f["low"] is not None and f["measured"] is not None:
            assert f["low"] <= f["measured"] + 1e-9, f["rule"]
        if f["high"] is not None and f["measured"] is not None:
            assert f["measured"] <= f["high"] + 1e-9, f["rule"]


@settings(max_examples=40)
@given(anything(60))
def test_every_enquiry_has_a_whole_sheet(given_: tuple[str, Enquiry]) -> None:
    """With the slow figures, all drawings and charts, on page and paper."""
    shop, asked = given_
    scene = set_scene(resolver(shop), asked)
    for page in (read_html(configurator_html(scene)), read_html(report_html(scene, ""))):
        ids = [e.get("id") for e in page.all() if e.has("id")]
        assert len(ids) == len(set(ids))
        assert not re.search(r"\b(nan|inf|None(?! of these)|NaN|Infinity)\b", page.whole_text)
        for e in page.all():
            for name in ("d", "x", "y", "cx", "cy", "width", "height", "points", "viewBox", "transform"):
                assert not re.search("nan|inf|None", e.get(name) or ""), (e.tag, name, e.get(name))


@settings(max_examples=40)
@given(anything(), st.randoms(use_true_random=False))
def test_the_order_of_choices_never_matters(given_: tuple[str, Enquiry], random: Any) -> None:
    shop, asked = given_
    items = list(asked.options.items())
    random.shuffle(items)
    months = list(asked.trip.months)
    random.shuffle(months)
    trip = asked.trip.model_copy(update={"months": tuple(months)})
    shuffled = asked.model_copy(update={"options": dict(items), "trip": trip})
    assert document(shop, shuffled) == document(shop, asked)


@settings(max_examples=60)
@given(anything(), st.data())
def test_one_option_more_never_leaves_more_payload(given_: tuple[str, Enquiry], data: st.DataObject) -> None:
    shop, asked = given_
    extra = data.draw(st.sampled_from(option_ids(shop)))
    assume(asked.options.get(extra, 0) < 20)
    before, after = (
        work_out(resolver(shop).resolve(e)).mass for e in (asked, more(asked, {extra: asked.options.get(extra, 0) + 1}))
    )
    assert after.heaviest.axles.total_kg >= before.heaviest.axles.total_kg - 1e-9
    assert after.fit_out_kg >= before.fit_out_kg - 1e-9


@settings(max_examples=40)
@given(st.sampled_from(SHOPS), st.data())
def test_one_panel_more_never_brings_less_sun(shop: str, data: st.DataObject) -> None:
    ready = data.draw(st.sampled_from(catalogue(shop).ready))
    on_roof = data.draw(st.lists(st.sampled_from(option_ids(shop, RoofObject)), max_size=3, unique=True))
    panel = data.draw(st.sampled_from(option_ids(shop, SolarPanel)))
    none = dict.fromkeys(option_ids(shop, SolarPanel), 0)
    asked = enquiry(
        shop,
        ready=ready.id,
        options=none | dict.fromkeys(on_roof, 1),
        place=data.draw(st.sampled_from(PLACES)),
        months=(data.draw(st.integers(1, 12)),),
    )
    sun = [work_out(resolver(shop).resolve(more(asked, {panel: n} if n else {}))).power.sun_wh_d for n in range(6)]
    assert sun == sorted(sun)
    assert sun[0] == 0


def tracking_panels(shop: str) -> list[tuple[str, str, str]]:
    """(controller, panel, another panel), of the shop's tracking controllers for 100 V and more."""
    known = catalogue(shop).options_by_id
    # Tilted ones take more of the roof, and another panel may take their place.
    panels = [i for i in option_ids(shop, SolarPanel) if not any(getattr(f, "tilt_deg", 0) for f in known[i][1].facets)]
    controllers = [
        i
        for i, (_, o) in known.items()
        for f in o.facets
        if isinstance(f, SolarController) and f.technology != "pwm" and f.max_input_v >= 100
    ]
    return [(c, i, j) for c in controllers for i in panels for j in panels if i != j]


@pytest.mark.parametrize("shop", SHOPS)
def test_an_unlike_panel_never_lowers_the_sun_of_one_controller(shop: str) -> None:
    known = tracking_panels(shop)
    assert known
    none = dict.fromkeys(option_ids(shop, SolarPanel, SolarController), 0)
    shown = catalogue(shop)
    for controller, one, other in known:
        for ready in shown.ready[:3]:
            asked = enquiry(shop, ready=ready.id, options=none | {controller: 1, one: 2})
            alone, both = (work_out(resolver(shop).resolve(e)).power.sun_wh_d for e in (asked, more(asked, {other: 1})))
            # Shade is told for all panels together.
            assert both >= 0.995 * alone


@settings(max_examples=40)
@given(anything(most=6), st.data())
def test_more_insulation_never_loses_more_heat(given_: tuple[str, Enquiry], data: st.DataObject) -> None:
    shop, asked = given_
    layer = data.draw(st.sampled_from(option_ids(shop, InsulationLayer)))
    now = asked.options.get(layer, 0)
    assume(now < 20)
    before, after = (work_out(resolver(shop).resolve(e)).warmth for e in (asked, more(asked, {layer: now + 1})))
    assert after.total_w_k <= before.total_w_k + 1e-9
    assert after.design_loss_w <= before.design_loss_w + 1e-9
    assert after.low_w_k <= before.low_w_k + 1e-9 and after.high_w_k <= before.high_w_k + 1e-9


@settings(max_examples=40)
@given(anything(most=6), st.data())
def test_a_larger_waste_tank_never_fills_sooner(given_: tuple[str, Enquiry], data: st.DataObject) -> None:
    shop, asked = given_
    tank = data.draw(st.sampled_from(option_ids(shop, GreyTank)))
    now = asked.options.get(tank, 0)
    assume(now < 20)
    before, after = (work_out(resolver(shop).resolve(e)).water for e in (asked, more(asked, {tank: now + 1})))
    assert after.grey_l >= before.grey_l
    if before.grey_days is not None:
        assert after.grey_days is not None and after.grey_days >= before.grey_days


@pytest.mark.parametrize("shop", SHOPS)
def test_everything_twenty_times_over_is_still_judged(shop: str) -> None:
    shown = catalogue(shop)
    trip = {"adults": 8, "children": 8, "pets": 6, "baggage_kg": 1500, "months": tuple(range(1, 13)), "cooling": True}
    for vehicle in shown.vehicles:
        _, figures, findings = worked(shop, enquiry(shop, vehicle.id, dict.fromkeys(shown.options_by_id, 20), **trip))
        assert {f.rule for f in findings if f.verdict == "fails"} >= {"gross-mass", "option-count", "rear-axle-load"}
        json.dumps(check_document(figures, findings), allow_nan=False)


def test_months_alike_in_sun_count_in_one_order() -> None:
    # Two months of equal sun and different warmth: Bogotá has some.
    ghi = load_places()["bogota"].ghi_kwh_m2_d
    [(a, b)] = [(i + 1, j + 1) for i in range(12) for j in range(i + 1, 12) if ghi[i] == ghi[j]][:1]
    for months in ((a, b), (b, a)):
        asked = enquiry("hallamoor", ready="dry-stone", place="bogota", months=months)
        assert work_out(resolver("hallamoor").resolve(asked)).power.sun_month == a


@pytest.mark.parametrize("shop", SHOPS)
def test_every_single_option_can_be_judged_on_every_vehicle(shop: str) -> None:
    shown = catalogue(shop)
    for vehicle in shown.vehicles:
        for option in shown.options_by_id:
            _, _, findings = worked(shop, enquiry(shop, vehicle.id, {option: 1}))
            assert findings
