"""People's heat and water against published tables, the demo's insulations against published conductivities."""

import pytest

from engine.catalogue.facets import InsulationLayer
from engine.physics.cooling import PERSON_LATENT_W, PERSON_SENSIBLE_W
from engine.physics.damp import AWAKE_KG_H
from tests.shops import catalogue

pytestmark = pytest.mark.reference

PUBLISHED = {
    "insulation-xps-25": "Expanded polystyrene, extruded",
    "insulation-pir-50": "Polyisocyanurate, aged, with facers",
    "insulation-wool-50": "Mineral wool, felted, 32 kg/m^3",
    "insulation-spray-50": "Spray-applied Polyurethane foam, 40 kg/m^3",
    "insulation-rubber-25": "Expanded rubber",
}
"""Nearest material of the handbook's table (ASHRAE Fundamentals, as the library `ht` prints it)."""


def test_a_person_at_light_work():
    # ASHRAE Handbook Fundamentals 2013, chapter 18, table 1, seated, very light work: 70 W sensible, 45 W latent.
    from CoolProp.CoolProp import PropsSI

    assert (PERSON_SENSIBLE_W, PERSON_LATENT_W) == (70, 45)
    vapour_j_kg = PropsSI("H", "T", 273.15 + 0.01, "Q", 1, "Water") - PropsSI("H", "T", 273.15 + 0.01, "Q", 0, "Water")
    assert pytest.approx(45 * 3600 / vapour_j_kg, rel=0.01) == AWAKE_KG_H


@pytest.mark.parametrize("option_id", PUBLISHED)
def test_no_insulation_is_told_better_than_published(option_id):
    # Design values lie at the table's or above: fresh or dry samples lose less. None is twice it either.
    from ht.insulation import ASHRAE

    _, option = catalogue("quillback").options_by_id[option_id]
    [layer] = [f for f in option.facets if isinstance(f, InsulationLayer)]
    published_w_mk = ASHRAE[PUBLISHED[option_id]][2]
    assert 0.95 * published_w_mk <= layer.conductivity_w_mk <= 1.45 * published_w_mk
