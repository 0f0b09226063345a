"""The shell's heat loss: surfaces, ribs, and that more insulation never loses more."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from engine.build import work_out
from engine.build.shell import USUAL_RIB, Ply, shell_losses, surface_loss
from engine.build.warmth import warmth_figures
from engine.catalogue.shell import ShellCab
from engine.enquiry.climate import load_places
from engine.physics.heat import LIMIT_RATIO, Layer
from engine.physics.metal_rib import Rib
from engine.rules import all_rules
from engine.saying import findings_of
from tests.shops import catalogue, enquiry, resolver

RULES = {r.code: r for r in all_rules()}

STEEL = Ply("steel", "shell", Layer(0.0008, 50), None)
PLY = Ply("plywood", "lining", Layer(0.004, 0.13), None)


def foam(thickness_m: float, conductivity_w_mk: float = 0.035, framing_frac: float = 0.0) -> Ply:
    return Ply("foam", "insulation", Layer(thickness_m, conductivity_w_mk, framing_frac), None)


def test_ribs_through_all_insulation_and_with_cover():
    # A 40 mm wall with 1.2 mm ribs every 500 mm, solved in two dimensions: 1.146 W/(m²K), and 0.838 with 15 mm over
    # ribs of 25 mm.
    wall = (PLY, foam(0.040), STEEL)
    through = surface_loss("walls", 10, wall, USUAL_RIB, False)
    covered = surface_loss("walls", 10, wall, Rib(0.025, 0.040, 0.0012, 1, 0.5), True)
    plain = surface_loss("walls", 10, wall, None, False)
    assert through.u_w_m2k == pytest.approx(1.146, rel=0.02)
    assert covered.u_w_m2k == pytest.approx(0.838, rel=0.02)
    assert plain.u_w_m2k == pytest.approx(0.744, rel=0.002)
    assert through.rib_w_k == pytest.approx(through.loss_w_k - plain.loss_w_k)
    assert through.low_w_k == pytest.approx(plain.low_w_k)  # nobody measured: there may be none
    assert covered.high_w_k > plain.high_w_k
    assert through.coldest_frac < covered.coldest_frac < plain.coldest_frac
    assert through.coldest_frac == pytest.approx(0.431, abs=0.08)
    assert covered.coldest_frac == pytest.approx(0.811, abs=0.08)


def test_a_rib_deeper_than_the_insulation_stands_bare():
    deep = surface_loss("walls", 1, (foam(0.02), STEEL), Rib(0.06, 0.04, 0.0012, 1, 0.5), True)
    flush = surface_loss("walls", 1, (foam(0.02), STEEL), Rib(0.02, 0.04, 0.0012, 1, 0.5), True)
    assert deep == flush


def test_bare_steel_has_no_bridge_to_speak_of():
    bare = surface_loss("walls", 2, (STEEL,), USUAL_RIB, False)
    assert bare.rib_w_k == 0
    assert bare.u_w_m2k == pytest.approx(1 / 0.170016)
    assert bare.coldest_frac == pytest.approx(1 - 0.13 / 0.170016)


def test_the_batten_is_colder_than_the_foam():
    framed = surface_loss("floor", 1, (foam(0.04, 0.035, 0.1), STEEL), None, False)
    assert framed.coldest_frac == pytest.approx(1 - 0.17 / (0.21 + 0.04 / 0.13 + 0.0008 / 50))
    assert framed.coldest_frac < framed.face_frac


@given(
    st.floats(0.0011, 0.25), st.floats(0.0002, 0.1), st.floats(0.02, 0.2), st.sampled_from((0.0, 0.05, 0.1, 0.3)),
    st.sampled_from((None, USUAL_RIB, Rib(0.02, 0.04, 0.001, 1, 0.45), Rib(0.05, 0.05, 0.002, 2, 0.3))),
    st.sampled_from(("walls", "roof")),
)  # fmt: skip
def test_more_insulation_never_loses_more(thickness_m, more_m, conductivity_w_mk, framing_frac, rib, surface):
    thin, thick = (
        surface_loss(surface, 1, (PLY, foam(t, conductivity_w_mk, framing_frac), STEEL), rib, True)
        for t in (thickness_m, thickness_m + more_m)
    )
    assert thick.loss_w_k <= thin.loss_w_k + 1e-12
    for s in (thin, thick):
        assert s.low_w_k <= s.loss_w_k + 1e-12 and s.loss_w_k <= s.high_w_k + 1e-12
        assert 0 <= s.coldest_frac <= s.face_frac <= 1


def test_timber_that_carries_most_of_the_heat_counts_in_full():
    # Hardwood through 100 mm of the best foam, and 50 mm over it: the limits of R lie 1.6 apart.
    dense = Ply("framed foam", "insulation", Layer(0.1, 0.02, 0.1, 0.5), None)
    usual = surface_loss("walls", 1, (foam(0.05), STEEL), None, False)
    framed = surface_loss("walls", 1, (foam(0.1, 0.035, 0.1), STEEL), None, False)
    odd = surface_loss("walls", 1, (foam(0.05, 0.02), dense, STEEL), None, False)
    assert usual.low_w_k == pytest.approx(usual.high_w_k)
    assert framed.low_w_k < framed.loss_w_k < framed.high_w_k
    assert odd.high_w_k > LIMIT_RATIO * odd.low_w_k and odd.loss_w_k == odd.high_w_k


VAN = next(v for v in catalogue("hallamoor").vehicles if v.shell.cab)


def cab(*options, **changed):
    """Cab parts of the van's losses, with its cab changed; without any it states no cab at all."""
    stated = VAN.shell.cab.model_copy(update=changed) if changed else None
    shell = VAN.shell.model_copy(update={"cab": stated})
    build = resolver("hallamoor").resolve(enquiry("hallamoor", VAN.id, dict.fromkeys(options, 1)))
    losses = shell_losses(replace(build, vehicle=VAN.model_copy(update={"shell": shell})))
    return [s for s in losses if "cab" in s.name]


def test_behind_a_curtain_the_cab_is_a_room_between_warm_and_cold():
    # 2.2 m² of 2.4 W/(m²K) are 5.28 W/K, the cab's 2.5·5.7 + 6.0·2.5 are 29.25 W/K: in a row 4.473 W/K.
    (curtain,) = cab(closing_option=None)
    assert curtain.name == "curtain to the cab" and curtain.loss_w_k == pytest.approx(4.473, abs=0.001)
    (bulkhead,) = cab(closed_by="bulkhead", u_value_w_m2k=1.0, closing_option=None)
    assert bulkhead.loss_w_k < curtain.loss_w_k


def test_an_open_cab_is_heated_with_the_rest():
    glass, body = cab(closed_by="open", u_value_w_m2k=None, closing_option=None)
    assert (glass.kind, glass.loss_w_k, body.loss_w_k) == ("glass", pytest.approx(14.25), pytest.approx(15.0))


def test_a_curtain_that_nobody_chose_closes_nothing():
    chosen, lacking = (cab(*options, closing_option="cab-curtain") for options in (["cab-curtain"], []))
    assert [s.loss_w_k for s in chosen] == [pytest.approx(4.473, abs=0.001)]
    assert [s.loss_w_k for s in lacking] == [pytest.approx(14.25), pytest.approx(15.0)]
    kit = {"diesel-2": 1, "foam-32": 1, "lfp-230": 1}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", VAN.id, kit, place="helsinki", months=[1]))
    (said,) = findings_of(RULES["heater-capacity"], build, work_out(build))
    assert said.remedy.startswith("Close off the cab with “Quilted cab curtain and windscreen mats”, insulate more")


def test_a_cab_nobody_states_behind_an_open_front_may_be_open():
    parts = cab()
    assert [(s.loss_w_k, s.low_w_k, s.high_w_k) for s in parts] == [(14.25, 0, 14.25), (15.0, 0, 15.0)]


def test_a_cab_says_what_parts_it():
    stated = VAN.shell.cab.model_dump()
    for wrong in ({"closed_by": "open"}, {"u_value_w_m2k": None}):
        with pytest.raises(ValidationError, match="u_value"):
            ShellCab.model_validate(stated | wrong)
    with pytest.raises(ValidationError, match="closing_option"):
        ShellCab.model_validate(stated | {"closed_by": "open", "u_value_w_m2k": None})


@pytest.mark.parametrize(("shop", "ready"), [("quillback", "two-up-van"), ("hallamoor", "dry-stone")])
def test_the_parts_are_the_whole(shop, ready):
    w = work_out(resolver(shop).resolve(enquiry(shop, ready=ready))).warmth
    assert sum(s.loss_w_k for s in w.surfaces) + w.air_loss_w_k == pytest.approx(w.total_w_k)
    assert min(w.surfaces, key=lambda s: s.coldest_frac).kind == "glass"
    assert {s.name for s in w.surfaces} >= {"walls", "roof", "floor"}
    assert w.surfaces[0].plies[-1].metal


OFFERED = {
    shop: [
        i for i, (_, o) in catalogue(shop).options_by_id.items() if any(f.kind == "insulation-layer" for f in o.facets)
    ]
    for shop in ("quillback", "hallamoor")
}


def losses(shop: str, vehicle: str, chosen: list[str], place: str, month: int):
    return warmth_figures(
        resolver(shop).resolve(enquiry(shop, vehicle, dict.fromkeys(chosen, 1), place=place, months=[month]))
    )


@settings(max_examples=60, deadline=None)
@given(st.data(), st.sampled_from(("quillback", "hallamoor")), st.sampled_from(sorted(load_places())),
       st.sampled_from(sorted(load_places())), st.integers(1, 12))  # fmt: skip
def test_a_colder_place_never_needs_a_smaller_heater_and_more_layers_never_a_larger(data, shop, one, other, month):
    vehicle = data.draw(st.sampled_from([v.id for v in catalogue(shop).vehicles]))
    chosen = data.draw(st.lists(st.sampled_from(OFFERED[shop]), unique=True, max_size=4))
    here, there = (losses(shop, vehicle, chosen, place, month) for place in (one, other))
    heights = {id(w): load_places()[place].altitude_m for w, place in ((here, one), (there, other))}
    cold, warm = sorted((here, there), key=lambda w: w.design_degc)
    # Thin air takes less heat with it, so that a high place may be the colder one and lose less.
    if heights[id(cold)] <= heights[id(warm)]:
        assert cold.design_loss_w >= warm.design_loss_w
    bare = losses(shop, vehicle, chosen[1:], one, month)
    assert here.design_loss_w <= bare.design_loss_w + 1e-9
