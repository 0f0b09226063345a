"""One figure, one wording: page, finished vehicle and terminal say the same of a build."""

import io
from html import escape

import pytest
from rich.console import Console

from engine import cli_print
from engine.desk import ready_enquiry
from engine.document import FIGURES, check_document, figures_document
from engine.enquiry.climate import load_places
from engine.sheets.bar import worst_axle
from engine.sheets.figure_text import days_off_grid, figure_texts, mass_left, night_held
from engine.sheets.page import fragments
from engine.sheets.trip import asked
from engine.units import lifetime, show
from site_build.pages.ready import ready_pages
from tests.sheets.reading import read_html


@pytest.fixture
def printed(monkeypatch):
    """What the terminal prints about a scene, in one long line."""

    def run(scene):
        out = io.StringIO()
        monkeypatch.setattr(cli_print, "console", lambda: Console(file=out, width=300))
        cli_print.print_check(scene, every=True)
        return out.getvalue()

    return run


def warmth_with(scene, **changes):
    return scene.figures.warmth._replace(**changes)


def test_a_night_is_never_told_beyond_the_places_coldest(stage):
    for place, climate in load_places().items():
        held_degc = stage.with_trip(place=place, months=(7,)).figures.warmth.held_degc
        assert held_degc is not None and held_degc >= min(climate.coldest_night_degc)


@pytest.mark.parametrize(
    ("system", "held_degc", "said"),
    [
        ("metric", None, ("no heater", "coldest −18 °C")),
        ("metric", -12.0, ("−12 °C", "coldest −18 °C")),
        ("metric", -22.7, ("any night", "year's coldest −23 °C")),
        ("us", -22.7, ("any night", "year's coldest −9 °F")),
        ("us", -22.6, ("−9 °F", "coldest 0 °F")),
    ],
)
def test_the_words_of_a_night(stage, system, held_degc, said):
    warmth = warmth_with(stage.scene(), held_degc=held_degc, year_coldest_degc=-22.7, design_degc=-18.0)
    assert night_held(warmth, system) == said


def test_a_heater_beyond_all_weather_is_said_alike_everywhere(stage, printed):
    heaters = {
        o.id: 1 for s in stage.catalogue.sections for o in s.options
        if any(f.kind == "space-heater" and f.role != "spot" and f.fuel != "mains" for f in o.facets)
    }  # fmt: skip
    scene = stage.scene(stage.start.model_copy(update={"options": dict(stage.start.options) | heaters}))
    coldest = show(min(scene.build.climate.coldest_night_degc), "degc", scene.build.workshop.units)
    cell = read_html(fragments(scene)["bar"]).by_id("bar-night")
    assert cell.of_class("value")[0].text == "any night"
    assert cell.of_class("detail")[0].text == f"year's coldest {coldest}"
    assert figure_texts(scene)["held_degc"] == f"any night (year's coldest {coldest})"
    assert f"any night (year's coldest {coldest})" in printed(scene)
    assert figures_document(scene.figures)["held_degc"]["value"] == min(scene.build.climate.coldest_night_degc)


def test_days_off_the_grid_are_said_alike(stage, printed):
    bare = stage.start.model_copy(update={"options": {}})
    for scene in (stage.scene(), stage.scene(slow=True), stage.scene(bare)):
        said = str(days_off_grid(scene.figures, scene.build.trip.days_off_grid_d, scene.build.workshop.units))
        cell = read_html(fragments(scene)["bar"]).by_id("bar-days")
        details = [d.text for d in cell.of_class("detail") if d.text]
        assert said == cell.of_class("value")[0].text + (f" ({details[0]})" if details else "")
        line = next(x for x in printed(scene).splitlines() if FIGURES["off_grid_d"][1].split(";")[0] in x)
        assert f" {said} " in line
    assert said == "no battery"


@pytest.mark.parametrize(("left_kg", "said"), [(51.2, "113 lb"), (0.0, "0 lb"), (-51.2, "113 lb over")])
def test_less_than_nothing_left_is_told_in_words(left_kg, said):
    assert mass_left(left_kg, "us") == said


def test_an_overloaded_build_says_by_how_much(stage):
    scene = stage.with_options(**{o.id: o.most for section in stage.catalogue.sections for o in section.options})
    texts = figure_texts(scene)
    assert scene.figures.mass.gross_rating_kg < scene.figures.mass.heaviest.axles.total_kg
    assert texts["payload_left_kg"].endswith(" over")
    assert f'<span class="value">{texts["payload_left_kg"]}</span>' in fragments(scene)["bar"]


def test_a_finished_vehicles_page_says_what_the_sheet_says(stage):
    pages = ready_pages(stage.catalogue, stage.resolver)
    for ready in stage.catalogue.ready:
        scene = stage.scene(ready_enquiry(stage.catalogue, ready), slow=True)
        texts, page = figure_texts(scene), pages[f"ready/{ready.id}.md"]
        axle, spare_kg = worst_axle(scene.figures.mass)
        for key in ("payload_left_kg", "off_grid_d", "held_degc", "fresh_water_d"):
            assert f"<b>{escape(texts[key])}</b>" in page  # HTML inside Markdown: nothing takes escapes back
        assert f"<b>{escape(texts[f'{axle}_axle_left_kg'])}, {axle}</b>" in page
        m = scene.figures.mass
        left = {"front": m.front_rating_kg - m.front_worst.axles.front_kg}
        left["rear"] = m.rear_rating_kg - m.rear_worst.axles.rear_kg
        assert spare_kg == left[axle]
        assert left[axle] / (m.front_rating_kg if axle == "front" else m.rear_rating_kg) == min(
            left["front"] / m.front_rating_kg, left["rear"] / m.rear_rating_kg
        )


def test_heat_is_told_in_the_trades_unit_and_electric_power_in_watts(stages, printed):
    us, metric = stages("quillback").scene(), stages("hallamoor").scene()
    loss_w = us.figures.warmth.design_loss_w
    assert figure_texts(us)["design_loss_w"] == f"{float(f'{loss_w / 0.2930710701722222:.3g}'):,.0f} BTU/h"
    row = next(line for line in asked(us) if line.name == "Heat, coldest night")
    assert row.need.startswith(figure_texts(us)["design_loss_w"]) and row.have.endswith(" BTU/h of heaters")
    assert next(f for f in us.findings if f.rule == "heater-capacity").cause.count("BTU/h") == 2
    assert " BTU/h " in printed(us) and figure_texts(us)["panel_w"].endswith("W")
    assert figure_texts(metric)["design_loss_w"].endswith("W")
    assert "BTU" not in str(fragments(metric))
    for scene in (us, metric):
        for finding in check_document(scene.figures, scene.findings)["findings"]:
            assert finding["unit"] in (None, "money") or finding["unit"] not in ("heat_w", "space_l")


def test_room_for_things_is_no_liquid(stages):
    scene = stages("quillback").scene()
    said = next(f for f in scene.findings if f.rule == "storage-volume").cause
    assert "ft³" in said and "gal" not in said


def test_a_heater_that_does_not_count_is_named_with_the_reason(stages, printed):
    stage = stages("quillback")
    spot = {
        o.id: (o.name, f.fuel) for s in stage.catalogue.sections for o in s.options for f in o.facets
        if f.kind == "space-heater" and (f.role == "spot" or f.fuel == "mains")
    }  # fmt: skip
    assert spot
    no_heat = {
        i: n for i, n in stage.start.options.items()
        if not any(f.kind == "space-heater" for f in stage.catalogue.options_by_id[i][1].facets)
    }  # fmt: skip
    for option_id, (name, fuel) in spot.items():
        scene = stage.scene(stage.start.model_copy(update={"options": no_heat | {option_id: 1}}))
        found = next(f for f in scene.findings if f.rule == "heater-capacity")
        why = "it runs on a hook-up only" if fuel == "mains" else "it warms one spot"
        assert found.verdict == "fails" and option_id in found.options
        assert found.cause.endswith(f", and nothing heats it. Not counted, for {why}: {name}.")
        assert night_held(scene.figures.warmth, "us").value == "no main heater"
        assert next(line for line in asked(scene) if line.name == "Heat, coldest night").have == "no main heater"
        assert "no main heater" in printed(scene)
    bare = stage.scene(stage.start.model_copy(update={"options": no_heat}))
    assert night_held(bare.figures.warmth, "us").value == "no heater"


@pytest.mark.parametrize(
    ("days", "words"),
    [(5478.8, "15 years"), (731, "2 years"), (729, "24 months"), (30, "1 month"), (5.0, "less than a month")],
)
def test_wear_is_told_in_years_or_months(days, words):
    assert lifetime(days) == words


def test_a_batterys_life_reads_as_its_finding_does(stages):
    for shop in ("quillback", "hallamoor"):
        scene = stages(shop).scene()
        told = figure_texts(scene)["battery_life_d"]
        assert told.startswith("about ") and told.endswith(" years")
        assert told[6:] in next(f.cause for f in scene.findings if f.rule == "battery-life")
