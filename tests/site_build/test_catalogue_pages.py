"""The catalogue's pages speak the workshop's units, prices by area included."""

from decimal import Decimal

import pytest

from site_build.pages.catalogue import catalogue_pages
from tests.shops import catalogue


@pytest.mark.parametrize(("shop", "unit", "area_m2"), [("quillback", "ft²", "0.09290304"), ("hallamoor", "m²", "1")])
def test_a_price_by_area_is_told_in_the_shops_own_unit(shop: str, unit: str, area_m2: str) -> None:
    known = catalogue(shop)
    pages = catalogue_pages(known)
    by_area = [(s.id, o.area_price_per_m2) for s in known.sections for o in s.options if o.area_price_per_m2]
    assert by_area
    for section, price in by_area:
        assert f"{price * Decimal(area_m2):.2f}/{unit}" in pages[f"catalogue/{section}.md"]
