"""The catalogue's pages say what the shop's files state, in words and units of the shop's own buyers."""

import re
from collections.abc import Iterator
from decimal import Decimal
from typing import Any, Literal, get_args, get_origin

import pytest

from engine.catalogue.facets import AnyFacet, Facet, Inverter, SpaceHeater
from engine.catalogue.measures import read_text
from site_build.pages.catalogue import catalogue_pages
from site_build.pages.facts import DRAWN, facet_lines, quantity_of
from site_build.pages.labels import FIELDS, KINDS, WORDS, field_label, word
from site_build.pages.start import start_page
from tests.shops import catalogue

SHOPS = ("quillback", "hallamoor")
KINDS_OF_FACETS: tuple[type[Facet], ...] = get_args(get_args(AnyFacet)[0])
FIELDS_OF_FACETS = [
    (model.model_fields["kind"].annotation.__args__[0], name, field)  # type: ignore[union-attr]
    for model in KINDS_OF_FACETS
    for name, field in model.model_fields.items()
    if name != "kind"
]


def plain(page: str) -> str:
    return page.replace("\\", "")


def option_words(shop: str, section: str, option: str) -> str:
    """What a page says of one option."""
    page = plain(catalogue_pages(catalogue(shop))[f"catalogue/{section}.md"])
    return page.partition(f"{{#{option}}}")[2].partition("\n## ")[0]


def stated(shop: str) -> Iterator[tuple[Facet, str, Any]]:
    """Every field of a facet that a shop's files state."""
    for section in catalogue(shop).sections:
        for option in section.options:
            for facet in option.facets:
                yield from ((facet, n, getattr(facet, n)) for n in type(facet).model_fields if n in stated_of(facet))


def stated_of(facet: Facet) -> set[str]:
    return facet.model_fields_set - {"kind"}


@pytest.mark.parametrize(("shop", "unit", "area_m2"), [("quillback", "ft²", "0.09290304"), ("hallamoor", "m²", "1")])
def test_a_price_by_area_is_told_in_the_shops_own_unit(shop: str, unit: str, area_m2: str) -> None:
    known = catalogue(shop)
    pages = catalogue_pages(known)
    by_area = [(s.id, o.area_price_per_m2) for s in known.sections for o in s.options if o.area_price_per_m2]
    assert by_area
    for section, price in by_area:
        assert f"{price * Decimal(area_m2):.2f}/{unit}" in pages[f"catalogue/{section}.md"]


@pytest.mark.parametrize("shop", SHOPS)
def test_an_author_could_write_back_what_the_page_shows(shop: str) -> None:
    """Every quantity, read again by the author's door, is within half a per cent of the shop's file: none is rounded
    to nothing, none has fewer than the two figures that it takes."""
    read = 0
    units = catalogue(shop).workshop.units
    for facet, name, value in stated(shop):
        quantity = quantity_of(type(facet).model_fields[name])
        if quantity is None or isinstance(value, tuple) or name == "vapour_layer_m" or value is None:
            continue
        alone = type(facet).model_construct({name, "kind"}, **{**dict(facet), name: value})
        shown = next(iter(dict(facet_lines(alone, units)).values()))
        if shown == "none":
            assert value == 0, (facet, name)
            continue
        again = read_text(shown.replace(",", "").replace("in w.c.", "inwc"), quantity.unit)
        if quantity.unit == "°C":
            assert again == pytest.approx(value, abs=0.3), (facet, name, shown)
        else:
            assert again == pytest.approx(value, rel=0.005), (facet, name, shown)
        read += 1
    assert read > 600


@pytest.mark.parametrize(
    ("shop", "section", "option", "lines"),
    [
        ("hallamoor", "gas", "gas-system", ("free area high up: 110 cm²", "free area at the floor: 25 cm²")),
        (
            "hallamoor",
            "gas",
            "gas-system",
            ("bore of the pipe: 8 mm", "length of the hose behind the regulator: 0.45 m"),
        ),
        ("hallamoor", "gas", "gas-locker", ("free opening through its floor to outside: 120 cm²",)),
        ("quillback", "gas", "gas-locker", ("free opening through its floor to outside: 18 in²",)),
        ("quillback", "gas", "gas-lines", ("bore of the pipe: 0.43 in", "gas pressure behind it: 11 in w.c.")),
        ("quillback", "wiring-lighting", "mains-panel", ("residual current at which it trips: 5 mA",)),
        ("quillback", "insulation", "insulation-wool-50", ("thickness as fitted: 2 in", "density: 1.4 lb/ft³")),
        ("hallamoor", "insulation", "wool-60", ("vapour layer on its room side: s_d 20 m",)),
        ("quillback", "safety", "fire-extinguisher", ("**Safety equipment**", "kind: fire extinguisher")),
        ("quillback", "safety", "combined-gas-co-alarm", ("**Alarm**", "warns of: carbon monoxide and gas")),
    ],
)
def test_figures_that_matter(shop: str, section: str, option: str, lines: tuple[str, ...]) -> None:
    said = option_words(shop, section, option)
    for line in lines:
        assert line in said, said


@pytest.mark.parametrize("shop", SHOPS)
def test_only_what_the_file_states_is_told(shop: str) -> None:
    """No heater without a flame has a flue, and nothing starts in 0 s: what checks assume is no fact."""
    heaters = 0
    for section in catalogue(shop).sections:
        for option in section.options:
            for facet in option.facets:
                lines = list(facet_lines(facet, catalogue(shop).workshop.units))
                assert len(lines) == len(stated_of(facet) - DRAWN), (option.id, facet)
                if isinstance(facet, SpaceHeater) and facet.fuel in ("mains", "battery"):
                    heaters += 1
                    assert not [m for m, _ in lines if "flue" in m or "light" in m], option.id
    assert heaters
    every = plain("".join(catalogue_pages(catalogue(shop)).values()))
    assert "0 s\n" not in every and "None" not in every


@pytest.mark.parametrize("shop", SHOPS)
def test_no_heading_stands_over_nothing(shop: str) -> None:
    for page in catalogue_pages(catalogue(shop)).values():
        assert not re.search(r"^\*\*.*\*\*\n\n(?!- )", page, re.M)


def test_every_label_is_a_buyers() -> None:
    for kind, name, field in FIELDS_OF_FACETS:
        label = field_label(kind, name, field.description)
        assert 2 <= len(label) <= 75 and not label[0].isdigit(), label
        assert not re.search(r"[;_]|\babsent\b|\bdefault\b|when (known|stated)|\bfalse\b|such as", label), label


def options_of(annotation: Any) -> Iterator[object]:
    """The words of a list that a field may hold."""
    if get_origin(annotation) is Literal:
        yield from get_args(annotation)
    else:
        for part in get_args(annotation):
            yield from options_of(part)


def test_every_word_of_a_list_is_a_buyers() -> None:
    for kind, name, field in FIELDS_OF_FACETS:
        for value in options_of(field.annotation):
            said = word(name, value)
            assert "_" not in said and ("-" not in str(value) or said != value), (kind, name, said)
    assert word("chemistry", "lfp") == "lithium iron phosphate (LFP)"
    assert word("technology", "pwm") == "switching (PWM)"


def test_no_label_is_left_over() -> None:
    kinds = {kind for kind, _, _ in FIELDS_OF_FACETS}
    names = {name for _, name, _ in FIELDS_OF_FACETS} | {"use"}
    assert set(KINDS) <= kinds | {m.model_fields["kind"].annotation.__args__[0] for m in KINDS_OF_FACETS}  # type: ignore[union-attr]
    assert set(WORDS) <= names
    pairs = {f"{kind}.{name}" for kind, name, _ in FIELDS_OF_FACETS}
    assert set(FIELDS) <= names | pairs


def test_currents_told_of_inverters_are_those_of_their_figures() -> None:
    told = 0
    for shop in SHOPS:
        for option, facet in ((o, f) for s in catalogue(shop).sections for o in s.options for f in o.facets):
            if isinstance(facet, Inverter):
                for amperes, volts in re.findall(r"([\d,]+) A (?:at|.*?\bat) ([\d.]+) V", option.summary):
                    told += 1
                    exact = facet.continuous_w / facet.efficiency_frac / float(volts)
                    assert float(amperes.replace(",", "")) == round(exact), (option.id, amperes, volts)
    assert told == 2  # 281 A at 12 V and 321 A at 10.5 V


@pytest.mark.parametrize(
    ("shop", "terms", "vehicle"),
    [
        (
            "quillback",
            "Parts are priced without the work, which is $115 an hour. Sales tax comes on top of both.",
            "Price before sales tax: $78,500",
        ),
        (
            "hallamoor",
            "Parts are priced without the work, which is £72 an hour. VAT is in both.",
            "Price with VAT: £38,900",
        ),
    ],
)
def test_every_page_with_prices_says_what_they_are(shop: str, terms: str, vehicle: str) -> None:
    pages = catalogue_pages(catalogue(shop))
    for section in catalogue(shop).sections:
        assert terms in pages[f"catalogue/{section.id}.md"]
    assert terms in pages["catalogue/index.md"] and vehicle in pages["catalogue/vehicles.md"]


def test_a_mass_that_nobody_stated_is_not_told_as_one_by_area() -> None:
    shown = catalogue("hallamoor")
    section = next(s for s in shown.sections if s.id == "battery")
    first, *others = section.options
    bare = first.model_copy(update={"mass_kg": None})
    changed = section.model_copy(update={"options": (bare, *others)})
    sections = tuple(changed if s is section else s for s in shown.sections)
    page = plain(catalogue_pages(shown.model_copy(update={"sections": sections}))["catalogue/battery.md"])
    row = next(line for line in page.split("\n") if line.startswith(f"| [{first.name}](#{first.id})"))
    assert "not\u00a0stated" in row and "by\u00a0area" not in row
    assert "mass is known within" not in page.partition(f"{{#{first.id}}}")[2].partition("\n## ")[0]
    linings = plain(catalogue_pages(shown)["catalogue/linings.md"])
    assert "by\u00a0area" in linings and "mass is known within" in linings


def test_the_price_of_one_has_its_cents() -> None:
    shown = catalogue("hallamoor")
    section = shown.sections[0]
    first = section.options[0].model_copy(update={"price": Decimal("310.50"), "area_price_per_m2": Decimal(0)})
    shop = shown.workshop.model_copy(update={"labour_rate": Decimal("58.50")})
    changed = section.model_copy(update={"options": (first, *section.options[1:])})
    odd = shown.model_copy(update={"workshop": shop, "sections": (changed, *shown.sections[1:])})
    page = plain(catalogue_pages(odd)[f"catalogue/{section.id}.md"])
    assert "£310.50" in page and "which is £58.50 an hour" in page


@pytest.mark.parametrize(
    ("shop", "words"),
    [
        ("quillback", "Work is charged at $115 an hour before sales tax."),
        ("hallamoor", "Work is charged at £72 an hour with VAT."),
    ],
)
def test_the_start_page_says_whether_tax_is_in_an_hour_of_work(shop: str, words: str) -> None:
    assert words in plain(start_page(catalogue(shop))["index.md"])


@pytest.mark.parametrize("subject", ["gas", "battery", "water", "panel", "bed", "roof", "vapour", "fuse", "cable"])
def test_a_label_speaks_of_what_the_field_speaks_of(subject: str) -> None:
    """A name that several kinds share has a label of its own where it means another thing: a drawer holds no gas."""
    for kind, name, field in FIELDS_OF_FACETS:
        about = f"{kind} {name} {field.description} {KINDS.get(kind, '')}".lower()
        if subject in field_label(kind, name, field.description).lower().split():
            assert subject in about, (kind, name)
