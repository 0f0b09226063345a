"""Circuits of whole builds: what the demo workshops' builds come to."""

from dataclasses import replace

import pytest

from engine.build import work_out
from engine.build.circuit_hub import BUS
from engine.build.circuit_lines import Line, one_line
from engine.build.circuits import CircuitFigures, inverter_cable_ohm
from engine.build.circuits_battery import MAIN_CABLE
from engine.build.circuits_loads import SOCKET_12V_A
from engine.build.wiring_practice import practice
from engine.catalogue.facets import DcLoad, Outlet, Pump, VentFan
from engine.catalogue.wiring import Wiring
from engine.physics.conductor import AWG, WORKSHOP_METRIC
from engine.rules import judge
from tests.build.wiring import AREAS, METRIC, READY, US, ask, circuits, copper_m2, with_facet
from tests.shops import catalogue, enquiry, resolver


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_ready_builds_have_a_sound_schedule(shop: str, ready: str) -> None:
    c = circuits(shop, ready)
    assert len(c.lines) > 15
    assert len({x.number for x in c.lines}) == len(c.lines)
    for x in c.lines:
        assert x.faults == (), x
        assert x.size is not None and x.drop_frac <= x.ask.drop_limit_frac * (1 + 1e-9)
        if x.ask.device == "fuse":
            assert x.kind is not None and x.fuse_a is not None
            assert x.share_a <= x.fuse_a * (1 + 1e-9) <= x.ampacity_a * (1 + 2e-9)
            assert x.breaks_a >= (x.ask.prospective_a or 0)


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_every_electric_part_has_a_circuit(shop: str, ready: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready))
    figures = work_out(build)
    wired = {i for x in figures.circuits.lines for i in x.ask.option_ids}
    said = " ".join(r for x in figures.circuits.lines for r in x.ask.remarks)
    for load in figures.power.all_loads:
        shared = load.mains and (load.name in said or any("outlet" in i or "socket" in i for i in wired))
        assert load.option_id in wired or shared, load.name
    for ids in (figures.power.alternator.ids, figures.power.inverter.ids if figures.power.inverter else ()):
        assert set(ids) <= wired


def test_what_it_takes_adds_up() -> None:
    c = circuits("quillback", "two-up-van")
    runs_m: dict[str, float] = {}
    for x in c.lines:
        if not x.ask.mains and x.size:
            runs_m[x.size] = runs_m.get(x.size, 0) + 2 * x.ask.one_way_m * x.ask.pieces * x.parallel
    cables = {n.what: n.length_m for n in c.needed if n.kind == "single cable"}
    assert cables == {k: pytest.approx(1.1 * m) for k, m in runs_m.items()}
    fuses = sum(x.parallel * x.ask.pieces for x in c.lines if x.ask.device == "fuse")
    assert sum(n.pieces for n in c.needed if n.kind.endswith("fuse") or "fuse (" in n.kind) == fuses


def test_an_inverter_is_wired_for_its_rating_at_its_cut_off() -> None:
    c = circuits("proving-yard", lfp_100=2, inverter_fused_250_a=1)
    line = next(x for x in c.lines if x.ask.option_ids == ("inverter-fused-250-a",) and not x.ask.mains)
    assert line.ask.current_a == pytest.approx(2000 / 0.88 / 11)
    assert line.ask.design_a == pytest.approx(1.25 * 2000 / 0.88 / 12)
    assert line.ampacity_a == 330 and line.drop_v == pytest.approx(0.161, abs=0.005)


def test_two_cables_stand_in_for_one_that_nobody_makes() -> None:
    line = one_line(ask(500, 0.8), US, ())
    assert line.parallel == 2 and line.size is not None and line.fuse_a is not None
    assert one_line(ask(500, 0.8), US._replace(parallel_most=1), ()).size is None
    assert one_line(ask(4900, 0.8), US, ()).size is None
    assert one_line(ask(9000, 0.8), US, ()).size is None


def test_a_workshop_s_own_sizes_and_fuses_are_kept_to() -> None:
    stock = US._replace(stocked=("16 AWG", "10 AWG", "2/0 AWG"))
    assert one_line(ask(8, 7.62), stock, ()).size == "2/0 AWG"  # 8 AWG would do, and is not kept
    strong = ask(100, 0.8)._replace(prospective_a=9000.0)
    kind = one_line(strong, US, ("anl", "class-t")).kind
    assert kind is not None and kind.code == "class-t"
    assert one_line(strong, US, ("anl", "mega")).kind is None
    assert practice(US._replace(insulation_degc=75.0)).insulation_degc == 75
    assert practice(US._replace(insulation_degc=78.0)).insulation_degc == 75
    assert practice(METRIC._replace(insulation_degc=90.0)).insulation_degc == 70


def test_sizes_are_read_however_they_are_written() -> None:
    assert Wiring(stocked=("2.5 mm2", "4awg", "2/0 AWG")).stocked == ("2.5 mm²", "4 AWG", "2/0 AWG")
    with pytest.raises(ValueError, match="no usual size"):
        Wiring(stocked=("5 AWG",))


def test_nothing_electric_has_no_circuits() -> None:
    bare = work_out(resolver("proving-yard").resolve(enquiry("proving-yard", "plain-van", {}))).circuits
    assert bare.lines == () and bare.bonds == () and bare.needed == () and bare.main_a is None


def test_a_heavier_pick_moves_the_main_cable() -> None:
    light = circuits("proving-yard", lfp_100=2, inverter_1000_on_2_awg=1)
    heavy = circuits("proving-yard", lfp_100=2, inverter_2000=1)
    mains = [next(x for x in c.lines if x.ask.what == "Main cable") for c in (light, heavy)]
    assert copper_m2(mains[0]) < copper_m2(mains[1])


def test_the_inverters_cable_has_the_schedules_resistance(yard):
    build = yard(options={"lfp-200": 2, "inverter-2000": 1, "microwave": 1})
    figures = work_out(build)
    ohm = inverter_cable_ohm(figures.circuits, figures.power.inverter.ids)
    rows = {x.ask.what: x for x in figures.circuits.lines if x.group == "battery"}
    posts, main = rows["Each battery to the main fuse"], rows["Main cable"]
    own = next(x for x in figures.circuits.lines if x.group == "battery" and x.ask.option_ids == ("inverter-2000",))
    by_hand = sum(
        (x.drop_v / x.ask.current_a + 0.0002) / pieces for x, pieces in ((posts, 2), (main, 1), (own, 1))
    )  # fmt: skip
    assert ohm == pytest.approx(by_hand) and 0.0005 < ohm < 0.01
    # Two inverters side by side share the current.
    twin = work_out(yard(options={"lfp-200": 2, "inverter-2000": 2, "microwave": 1}))
    assert inverter_cable_ohm(twin.circuits, twin.power.inverter.ids) < ohm
    assert inverter_cable_ohm(figures.circuits._replace(lines=()), ("inverter-2000",)) is None


def test_a_board_that_no_option_brings_breaks_no_check() -> None:
    # An inverter and a sensor on 12 V, but no board among the choices.
    lone = {"lfp-100": 1, "inverter-charger-24-5000": 1, "grey-180": 1}
    build = resolver("hallamoor").resolve(enquiry("hallamoor", None, lone))
    figures = work_out(build)
    assert any(not x.ask.option_ids for x in figures.circuits.lines) and figures.power.inverter is not None
    assert {f.rule for f in judge(build, figures)} >= {"battery-voltage"}


@pytest.mark.parametrize(("shop", "least"), [("quillback", "12 AWG"), ("hallamoor", "4 mm²")])
def test_cables_down_from_the_roof_suit_the_panels_own_plugs(shop: str, least: str) -> None:
    ready = [r.id for r in catalogue(shop).ready if any(i.startswith("panel-") for i in r.options)]
    assert ready
    for build in ready:
        roof = [x for x in circuits(shop, build).lines if x.ask.start == "roof"]
        assert roof and all(copper_m2(x) >= AREAS[least] for x in roof)


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_the_boards_feed_carries_its_largest_start_on_top_of_the_rest(shop: str, ready: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready))
    figures = work_out(build)
    lines = figures.circuits.lines
    feed = next(x for x in lines if x.ask.what == "Board of direct-current circuits")
    on_it = [x for x in lines if x.ask.start == feed.ask.end]
    plugged = dict.fromkeys((p.option.id for p, f in build.facets(Outlet) if f.supply == "battery"), SOCKET_12V_A)
    running = {
        x.option_id: x.power_w / feed.ask.system_v + plugged.get(x.option_id, 0.0)
        for x in figures.power.all_loads
        if not x.mains
    }
    starts = [x.ask.current_a - running[i] for x in on_it for i in x.ask.option_ids if i in running]
    assert feed.ask.current_a >= max(x.ask.current_a for x in on_it)
    # Not every start at once.
    loads = [x for x in figures.power.all_loads if not x.mains]
    rest = sum(x.pieces_count * x.power_w / feed.ask.system_v + plugged.get(x.option_id, 0.0) for x in loads)
    sockets = sum(x.ask.current_a * x.ask.pieces for x in on_it if not any(i in running for i in x.ask.option_ids))
    assert feed.ask.current_a <= rest + sockets + max(starts) + 1e-9


@pytest.mark.parametrize(
    ("shop", "ready", "power_w", "fuse_a"), [("hallamoor", "dry-stone", 36, 4), ("quillback", "two-up-van", 40, 5)]
)
def test_a_fan_is_wired_for_its_full_speed(shop: str, ready: str, power_w: float, fuse_a: float) -> None:
    # On a usual day it takes a share of that; the cable has to carry all of it.
    [fan] = [x for x in circuits(shop, ready).lines if x.ask.option_ids == ("roof-fan",)]
    assert (fan.ask.current_a, fan.fuse_a) == (pytest.approx(power_w / 12), fuse_a)
    build = resolver(shop).resolve(enquiry(shop, ready=ready, months=[7]))
    [load] = [x for x in work_out(build).power.all_loads if x.option_id == "roof-fan"]
    [usual] = [f for p, f in build.facets(VentFan) if p.option.id == "roof-fan"]
    assert load.power_w * load.hours_d == pytest.approx(power_w * usual.power_share_frac * usual.hours_per_day_h)


def test_a_socket_beside_a_lamp_carries_what_is_plugged_in() -> None:
    lines = circuits("hallamoor", "dry-stone").lines
    for option, lamp_w in (("outside-light-socket", 8), ("usb-points", 24)):
        [x] = [x for x in lines if x.ask.option_ids == (option,)]
        assert x.ask.current_a == pytest.approx(lamp_w / 12 + 10)
        assert x.fuse_a == 15 and x.ampacity_a >= 15


def test_sockets_of_a_kind_have_a_circuit_each() -> None:
    build = resolver("quillback").resolve(enquiry("quillback", ready="two-up-van", options={"outlet-outside-12v": 1}))
    parts = tuple(replace(p, count=3) if p.option.id == "outlet-outside-12v" else p for p in build.parts)
    one, three = work_out(build).circuits, work_out(replace(build, parts=parts)).circuits

    def row(found: CircuitFigures, what: str) -> Line:
        return next(x for x in found.lines if x.ask.what == what)

    assert [row(c, "Outside 12 V outlet").ask.pieces for c in (one, three)] == [1, 3]
    assert three.board_lines == one.board_lines + 2
    feeds = [row(c, "Board of direct-current circuits").ask.current_a for c in (one, three)]
    assert feeds[1] - feeds[0] == pytest.approx(2 * SOCKET_12V_A)


def test_what_is_plugged_in_beside_a_large_load_reaches_the_main_cable() -> None:
    """A load too large for a blade fuse is wired to the busbars, its socket with it."""
    build = resolver("hallamoor").resolve(enquiry("hallamoor", ready="dry-stone"))
    outlets = {p.option.id for p, f in build.facets(Outlet) if f.supply == "battery"}
    large = next(p.option.id for p, f in build.facets(DcLoad) if p.option.id in outlets)
    mains = []
    for rating_a in (10.0, 15.0):
        changed = with_facet(build, large, "dc-load", power_w=600.0)
        changed = with_facet(changed, large, "outlet", rating_a=rating_a)
        lines = work_out(changed).circuits.lines
        [own] = [x for x in lines if x.ask.option_ids == (large,)]
        assert own.ask.start == BUS
        mains.append(next(x.ask.current_a for x in lines if x.ask.what == MAIN_CABLE))
    assert mains[1] - mains[0] == pytest.approx(5.0)


def test_a_fridge_alone_on_a_board_sizes_its_feed_by_its_start(yard) -> None:
    def rows(start_multiple: float) -> dict[str, Line]:
        build = yard(options={"lfp-200": 1, "cooler": 1})
        parts = [
            replace(p, option=p.option.model_copy(update={"facets": (
                p.option.facets[0].model_copy(update={"start_multiple": start_multiple}), *p.option.facets[1:])}))
            if p.option.id == "cooler" else p for p in build.parts
        ]  # fmt: skip
        return {x.ask.what: x for x in work_out(replace(build, parts=tuple(parts))).circuits.lines}

    found = rows(3.0)
    # 40 W at 12 V run at 3.3 A and start at 10 A.
    feed, main = found["Board of direct-current circuits"], found["Main cable"]
    assert feed.ask.current_a == pytest.approx(10) and main.ask.current_a >= 10
    assert "largest start" in feed.ask.remarks[0]
    # What starts as it runs adds nothing.
    feed = rows(1.0)["Board of direct-current circuits"]
    assert feed.ask.current_a == pytest.approx(40 / 12)
    assert feed.ask.remarks == ("everything on the board switched on",)


@pytest.mark.parametrize(
    ("shop", "heater", "start_a", "fuse_a"),
    [
        ("hallamoor", "diesel-2", 100 / 12, 15),  # fan 20 W: 1.7 A, a fuse of 3 A would blow at the first start
        ("hallamoor", "diesel-8", 130 / 12, 15),
        ("quillback", "heater-diesel-4", 110 / 12, 15),
    ],
)
def test_a_diesel_heater_is_wired_for_its_glow_plug(shop: str, heater: str, start_a: float, fuse_a: float) -> None:
    battery = {"hallamoor": "lfp-230", "quillback": "battery-12v-100"}[shop]
    c = circuits(shop, None, **{heater: 1, battery: 1})
    line = next(x for x in c.lines if x.ask.option_ids == (heater,))
    assert (line.ask.current_a, line.fuse_a) == (pytest.approx(start_a), fuse_a)
    assert line.ampacity_a >= fuse_a and line.drop_frac <= 0.03
    assert f"{start_a:.3g} A while it starts" in line.ask.remarks


def test_what_lights_without_a_glow_plug_is_wired_for_its_fan() -> None:
    c = circuits("hallamoor", None, combi_gas_4=1, lfp_230=1)
    line = next(x for x in c.lines if x.ask.option_ids == ("combi-gas-4",))
    assert line.ask.current_a == pytest.approx(14 / 12) and line.fuse_a == 2
    assert not any("while it starts" in r for r in line.ask.remarks)


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_copper_under_hot_panels_loses_more(shop: str, ready: str) -> None:
    figures = work_out(resolver(shop).resolve(enquiry(shop, ready=ready)))
    hottest = {g.hottest_cell_degc for g in figures.power.strings}
    for x in figures.circuits.lines:
        warm = x.ask.start == "roof"
        assert (x.ask.conductor_degc in hottest) if warm else (x.ask.conductor_degc == 20)
        if warm and x.size:
            metre_ohm = {c.label: c.metre_ohm for c in (*AWG, *WORKSHOP_METRIC)}[x.size]
            cold_v = 2 * x.ask.one_way_m * metre_ohm * x.ask.current_a / x.parallel
            # 0.393 % for each kelvin over 20 °C (IEC 60028).
            assert x.drop_v == pytest.approx(cold_v * (1 + 0.00393 * (x.ask.conductor_degc - 20)))
            assert 1.1 < x.drop_v / cold_v < 1.35


@pytest.mark.parametrize(("shop", "ready"), READY)
def test_pumps_get_the_three_percent_of_motors_and_lamps_the_ten_of_others(shop: str, ready: str) -> None:
    build = resolver(shop).resolve(enquiry(shop, ready=ready))
    lines = work_out(build).circuits.lines
    pumps = {p.option.id for p, _ in build.facets(Pump)}
    found = [x for x in lines if x.group == "loads" and x.ask.option_ids[0] in pumps]
    assert found and all(x.ask.drop_limit_frac == 0.03 and x.drop_frac <= 0.03 for x in found)
    lights = [x for x in lines if x.group == "loads" and "light" in x.ask.option_ids[0] and "socket" not in x.ask.what]
    assert lights and all(x.ask.drop_limit_frac == 0.1 for x in lights)
