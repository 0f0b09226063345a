"""From an enquiry to parts in their places; what cannot be honoured stays in sight."""

from decimal import Decimal

import pytest

from engine.build import UnknownChoiceError
from engine.enquiry import Enquiry
from tests.shops import catalogue, enquiry, resolver


def test_parts_come_in_catalogue_order_whatever_the_order_of_choices(yard):
    order = list(catalogue("proving-yard").options_by_id)
    chosen = ["bed-across", "lfp-100", "rack", "microwave"]
    for ids in (chosen, chosen[::-1], sorted(chosen)):
        parts = yard(options=dict.fromkeys(ids, 1)).parts
        assert [p.option.id for p in parts] == sorted(chosen, key=order.index)


def test_a_part_holds_all_its_pieces(yard):
    [part] = yard(options={"lfp-100": 3}).parts
    assert (part.count, part.mass_kg, part.price, part.labour_h) == (3, 36.0, Decimal(1500), 6.0)
    assert (part.x_m, part.y_m, part.z_m) == (2.0, 0.0, 0.8), "the garage of the plain van"
    assert part.section_id == "batteries"


def test_what_the_catalogue_lost_is_a_stray(yard):
    build = yard(options={"lfp-100": 1, "zeppelin": 2, "airship": 1})
    assert [p.option.id for p in build.parts] == ["lfp-100"]
    assert [(s.option_id, s.count) for s in build.strays] == [("airship", 1), ("zeppelin", 2)]
    assert all("no longer" in s.reason for s in build.strays)
    assert not build.has("zeppelin")


def test_what_does_not_fit_the_vehicle_is_a_stray():
    build = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", {"stove": 1, "fresh-100": 1}))
    assert [p.option.id for p in build.parts] == ["fresh-100"]
    [stray] = build.strays
    assert stray.option_id == "stove" and catalogue("hallamoor").vehicles_by_id["van-35"].name in stray.reason


@pytest.mark.parametrize(
    ("change", "where"), [({"vehicle": "rocket"}, "vehicle"), ({"place": "atlantis"}, "trip.place")]
)
def test_an_unknown_vehicle_or_place_is_told_with_what_is_known(change, where):
    asked = enquiry("proving-yard", change.get("vehicle", "plain-van"), place=change.get("place", "london"))
    with pytest.raises(UnknownChoiceError) as caught:
        resolver("proving-yard").resolve(asked)
    assert caught.value.where == where
    known = "plain-van" if where == "vehicle" else "helsinki"
    assert known in str(caught.value)


def test_masses_of_layers_follow_from_the_area(yard):
    # The van's wool has a stated mass; the demo van's foam has none: 19 mm over the walls and roof it names.
    assert next(p.mass_kg for p in yard(options={"wool-40": 1}).parts) == 20
    van = catalogue("hallamoor").vehicles_by_id["van-35"]
    _, option = catalogue("hallamoor").options_by_id["foam-19"]
    assert option.mass_kg is None
    areas = {"walls": 19.6, "roof": 7.0, "floor": 7.0}
    assert areas == {"walls": van.shell.walls_m2, "roof": van.shell.roof_m2, "floor": van.shell.floor_m2}
    mass_kg = area_m2 = 0.0
    for layer in option.facets:
        wood = layer.framing_frac
        kg_m2 = layer.thickness_m * (layer.density_kg_m3 * (1 - wood) + layer.framing_density_kg_m3 * wood)
        mass_kg += kg_m2 * sum(areas[s] for s in layer.surfaces)
        area_m2 += sum(areas[s] for s in layer.surfaces)
    [part] = resolver("hallamoor").resolve(enquiry("hallamoor", "van-35", {"foam-19": 1})).parts
    assert part.mass_kg == pytest.approx(mass_kg)
    assert part.price == option.price + (option.area_price_per_m2 * Decimal(str(round(area_m2, 3)))).quantize(
        Decimal("0.01")
    )


def test_an_options_own_tolerance_goes_before_the_sections():
    shown = catalogue("hallamoor")
    for option_id, (section, option) in shown.options_by_id.items():
        vehicle = option.fits[0] if option.fits else "van-35"
        [part] = resolver("hallamoor").resolve(enquiry("hallamoor", vehicle, {option_id: 1})).parts
        own = option.mass_tolerance_frac
        assert part.mass_tolerance_frac == (section.mass_tolerance_frac if own is None else own)


def test_facets_and_ids_tell_what_is_chosen(yard):
    from engine.catalogue.facets import AcLoad, Battery, Inverter

    build = yard(options={"lfp-100": 2, "microwave": 1})
    assert build.ids(Battery, AcLoad, Inverter) == ("lfp-100", "microwave")
    assert [p.count for p, _ in build.facets(Battery)] == [2]
    assert not build.facets(Inverter)
    assert build.chosen == {"lfp-100", "microwave"}


def test_the_enquiry_itself_is_not_changed():
    asked = enquiry("proving-yard", "plain-van", {"zeppelin": 1, "lfp-100": 1})
    copy = Enquiry.model_validate(asked.model_dump(), by_name=True)
    resolver("proving-yard").resolve(asked)
    assert asked == copy
