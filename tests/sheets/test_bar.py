"""The five figures show what the engine worked out, and the whole is never called better than it is."""

from decimal import Decimal

import pytest

from engine.rule import Finding
from engine.rules import all_rules
from engine.sheets.bar import BUDGET, ENERGY, FRONT, GROSS, NIGHT, REAR, whole
from engine.sheets.page import fragments
from engine.units import money, show
from tests.sheets.reading import read_html


def finding(verdict, category="function", rule="some-rule"):
    return Finding(
        rule=rule, title="Some rule", topic="power", category=category, verdict=verdict, measured=None, low=None,
        high=None, limit=None, unit=None, margin=None, cause="It is so.", remedy="", options=(), offers="", facts=(),
        because=(), sources=("Common practice",),
    )  # fmt: skip


def test_the_rules_behind_the_figures_exist():
    known = {r.code for r in all_rules()}
    for codes in (BUDGET, ENERGY, FRONT, GROSS, NIGHT, REAR):
        assert set(codes) <= known


def test_figures_are_those_of_the_engine(stage):
    scene = stage.scene()
    bar = read_html(fragments(scene)["bar"])
    shop, mass, plate = scene.build.workshop, scene.figures.mass, scene.build.vehicle.masses
    value = {k: bar.by_id(f"bar-{k}").of_class("value")[0].text for k in ("price", "payload", "axle", "days", "night")}
    assert value["price"] == money(scene.figures.money.total, shop.currency)
    assert value["payload"] == show(plate.gross_kg - mass.heaviest.axles.total_kg, "kg", shop.units)
    left = {
        "front": (plate.front_axle_rating_kg - mass.front_worst.axles.front_kg) / plate.front_axle_rating_kg,
        "rear": (plate.rear_axle_rating_kg - mass.rear_worst.axles.rear_kg) / plate.rear_axle_rating_kg,
    }
    assert bar.by_id("bar-axle").of_class("detail")[0].text == min(left, key=left.__getitem__)


def test_each_figure_has_symbol_and_word(stage):
    scene = stage.with_trip(budget=Decimal(1000), adults=7, baggage_kg=1400.0, days_off_grid_d=80.0)
    bar = read_html(fragments(scene)["bar"])
    for cell in bar.of_class("cell"):
        mark = cell.of_class("mark")[0]
        assert mark.whole_text.split(" ", 1)[1] in ("ok", "tight", "fails", "not known", "note")
    assert bar.by_id("bar-price").of_class("mark")[0].whole_text.endswith("fails")
    assert bar.by_id("bar-price").get("href") == "#note-budget"


@pytest.mark.parametrize(
    ("verdicts", "word"),
    [
        ((), "not known"),
        (("ok",), "ok"),
        (("ok", "note"), "ok"),
        (("ok", "tight"), "tight"),
        (("ok", "unknown"), "not known"),
        (("tight", "unknown"), "not known"),
        (("unknown", "fails", "ok"), "fails"),
    ],
)
def test_the_whole_takes_the_gravest(verdicts, word):
    assert whole(tuple(finding(v) for v in verdicts), {}).mark.word == word


def test_unknown_safety_is_never_called_fine():
    said = whole((finding("ok"), finding("unknown", "safety")), {}).sentence
    assert "Cannot be called safe yet" in said
    assert "1 cannot be answered" in said


def test_the_line_on_the_whole_is_announced_politely(stage):
    line = read_html(fragments(stage.scene())["verdict"]).by_id("verdict")
    assert line.get("aria-live") == "polite"
