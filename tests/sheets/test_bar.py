"""The five figures show what the engine worked out, and the whole is never called better than it is."""

from decimal import Decimal

import pytest

from engine.rule import Finding
from engine.rules import all_rules
from engine.sheets.bar import BUDGET, ENERGY, FRONT, GROSS, NIGHT, REAR, alarm, fault, lead, whole
from engine.sheets.page import fragments, report_html
from engine.sheets.view import MARKS
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


def test_the_bar_tells_of_failures_that_its_figures_do_not_show(stage):
    calm = read_html(fragments(stage.scene())["bar"])
    assert not calm.of_class("trouble")
    scene = stage.with_trip(adults=7)
    parts = fragments(scene)
    trouble = read_html(parts["bar"]).of_class("trouble")[0]
    words = trouble.whole_text.removeprefix("✕ ")
    failing = sum(f.verdict == "fails" for f in scene.findings)
    assert failing and trouble.get("href") == "#verdict"
    assert words.startswith(f"{failing} check{'s' * (failing > 1)} fail")
    assert words in read_html(parts["verdict"]).whole_text
    unsure = alarm((finding("unknown"), finding("ok"), finding("tight")))
    assert unsure and unsure[1] == "1 cannot be answered" and alarm((finding("ok"), finding("tight"))) is None


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
    assert whole(tuple(finding(v) for v in verdicts), ()).mark.word == word


@pytest.mark.parametrize(
    ("category", "topic", "rule"),
    [
        ("safety", "power", "x"), ("legal", "mass", "x"), ("safety", "water", "x"),
        ("function", "space", "modules-fit"), ("function", "roof", "panels-on-roof"),
        ("function", "choices", "option-excludes"),
    ],
)  # fmt: skip
def test_what_is_unsafe_unlawful_or_has_no_room_cannot_be_built(category, topic, rule):
    bad = finding("fails", category, rule)._replace(topic=topic)
    said = whole((bad, finding("fails", "comfort")), ())
    assert said.sentence == "Cannot be built like this. 2 checks fail, 0 are fine." and said.mark.word == "fails"


@pytest.mark.parametrize(
    ("category", "topic", "rule"),
    [
        ("comfort", "water", "fresh-water-days"), ("comfort", "money", "budget"), ("function", "power", "energy-days"),
        ("comfort", "space", "bed-length"), ("function", "space", "cargo-fits"), ("function", "roof", "overall-height"),
    ],
)  # fmt: skip
def test_what_only_falls_short_of_wishes_is_not_called_impossible(category, topic, rule):
    short = finding("fails", category, rule)._replace(topic=topic)
    said = whole((short, finding("tight", "safety"), finding("ok")), ())
    assert said.sentence == "Does not meet your wishes. 1 check fails, 1 is tight, 1 is fine."
    assert said.mark.word == "fails"
    unsafe = whole((short, finding("unknown", "safety")), ()).sentence
    assert unsafe.startswith("Does not meet your wishes, and cannot be called safe yet.")


def test_a_day_of_water_too_few_can_still_be_built(stage):
    scene = stage.with_trip(days_between_fills_d=20.0)
    fails = {f.rule for f in scene.findings if f.verdict == "fails"}
    assert fails and fails <= {"fresh-water-days", "grey-water-days", "shower-hot"}
    assert whole(scene.findings, ()).sentence.startswith("Does not meet your wishes.")


def test_unknown_safety_is_never_called_fine():
    said = whole((finding("ok"), finding("unknown", "safety")), ()).sentence
    assert "Cannot be called safe yet" in said
    assert "1 cannot be answered" in said


def test_the_line_on_the_whole_is_announced_politely(stage):
    line = read_html(fragments(stage.scene())["verdict"]).by_id("verdict")
    assert line.get("aria-live") == "polite"


def test_as_many_faults_are_listed_as_are_counted():
    grave = [finding("fails"), finding("tight"), finding("unknown"), finding("fails"), *[finding("fails")] * 6]
    told = [(f, f"note-{n}") for n, f in enumerate([*grave, finding("note")])]
    said = whole((*grave, finding("ok"), finding("note")), told)
    assert said.sentence.endswith("8 checks fail, 1 cannot be answered, 1 is tight, 1 is fine.")
    assert len(said.links) == 6 and len(said.links) + len(said.more) == 10
    assert [css for _, _, css in said.links + said.more] == ["fails"] * 8 + ["unknown", "tight"]


@pytest.mark.parametrize(
    ("cause", "few_words"),
    [
        ("Front axle is 28 kg over: 2,028 kg on a rating of 2,000 kg (full fresh water, all aboard).",
         "Front axle is 28 kg over: 2,028 kg on a rating of 2,000 kg"),
        ("Room on the roof for 1 of 2 panels (200 W). In the way: Roof fan.", "Room on the roof for 1 of 2 panels"),
        ("No gas alarm is chosen.", "No gas alarm is chosen"),
        ("Bed across, 80 in by 60 in gives 68.7 in, 6.3 in less than wanted for the tallest person: that "
         "is 73 in when he stands upright.",
         "Bed across, 80 in by 60 in gives 68.7 in, 6.3 in less than wanted for the tallest person …"),
        ("It stands 2.83 m high, " + "and so on " * 12 + "in all.",
         "It stands 2.83 m high," + " and so on" * 9 + " and so …"),
    ],
)  # fmt: skip
def test_a_fault_is_said_in_a_few_words(cause, few_words):
    assert fault(cause) == few_words


def test_the_list_says_what_is_wrong_and_the_rest_unfolds(stages):
    stage = stages("hallamoor")
    scene = stage.scene(stage.start.model_copy(update={"options": {"panel-200": 9, "hob-gas": 1, "washroom-van": 1}}))
    parts = fragments(scene)
    line = read_html(parts["verdict"]).by_id("verdict")
    links = line.all("a")
    grave = [f for f in scene.findings if f.verdict in ("fails", "unknown", "tight")]
    assert len(links) == len(grave) > 6
    assert {f"{MARKS[f.verdict].symbol} {fault(f.cause)}" for f in grave} == {a.whole_text for a in links}
    assert line.all("summary")[0].whole_text == f"and {len(grave) - 6} more"
    paper = read_html(report_html(scene, "")).by_id("verdict")
    assert len(paper.all("a")) == len(grave) and not paper.all("summary")
    page = "".join(parts.values())
    assert all(f'id="{a.get("href")[1:]}"' in page for a in links)


def test_a_choice_left_out_is_seen_and_is_no_danger(stages):
    stage = stages("quillback")
    misfit = next(i for i, (_, o) in stage.catalogue.options_by_id.items() if o.fits and "box" not in o.fits)
    calm, asked = stage.scene(), stage.with_options(**{misfit.replace("-", "_"): 1})
    assert lead(calm.findings)[0] in ("ok", "tight")
    assert lead(asked.findings)[1] in ("Works, without all that you chose.", "Works, with little to spare.")
    line = read_html(fragments(asked)["verdict"]).by_id("verdict")
    assert " 1 choice is left out, " in line.of_class("whole")[0].whole_text
    name = stage.catalogue.options_by_id[misfit][1].name
    assert f"i “{name}” is left out: it is not for the {asked.build.vehicle.name}" in line.whole_text
    row = fragments(asked)[f"opt-{misfit}"]
    assert "checked" in row and row.count(f"Not for the {asked.build.vehicle.name}.") == 1
    assert row.count("Left out of the sums.") == 1 and "Take it out, or choose something else in its place." in row
    alone = whole((finding("note", "comfort", "choice-known"), finding("ok")), ())
    assert alone.sentence == "Works, without all that you chose. 1 choice is left out, 1 is fine."
