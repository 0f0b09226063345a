"""Branches of the mains: hook-up, inverter, and what hangs on each."""

import pytest

from engine.build import work_out
from engine.build.circuit_lines import one_line
from engine.build.circuits_mains import AHEAD
from tests.build.wiring import METRIC, ask, circuits
from tests.shops import enquiry, resolver


def test_an_air_conditioner_hangs_on_its_own_breaker() -> None:
    # 680 W at 120 V are 5.7 A, little enough to share a branch of sockets.
    found = [x for x in circuits("quillback", "long-winter-box").lines if x.ask.option_ids == ("ac-bench-7000",)]
    assert [(x.ask.device, x.ask.current_a, x.fuse_a) for x in found] == [("breaker", pytest.approx(680 / 120), 15)]


def test_what_the_hook_up_gives_goes_through_an_inverter_charger() -> None:
    # 2,000 W at 230 V are 8.7 A; the pitch's 16 A pass through its change-over on their way to the board.
    lines = [x for x in circuits("hallamoor", "dry-stone").lines if x.ask.option_ids == ("inverter-charger-2000",)]
    supply, output = [x for x in lines if x.ask.mains]
    assert supply.ask.what.endswith(", supply") and output.ask.what.endswith(", output")
    assert [(x.ask.current_a, x.fuse_a) for x in (supply, output)] == [(16, 16), (16, 16)]
    # An inverter alone has a change-over of its own, and gives the board no more than it makes.
    [alone] = [x for x in circuits("hallamoor", "lapwing").lines if x.ask.mains and "inverter" in x.ask.option_ids[0]]
    assert alone.ask.current_a == pytest.approx(1200 / 230)


def test_what_the_inverter_must_not_feed_has_its_own_branch_ahead_of_the_change_over() -> None:
    with_inverter = {"inverter_3000": 1, "hookup_charger_30": 1, "hookup": 1, "sockets_230": 1, "lfp_230": 1}
    c = circuits("hallamoor", None, **with_inverter, boiler_mains_10=1, heater_hookup=1, microwave=1)
    ahead = {x.ask.option_ids[0]: x for x in c.lines if x.ask.start == AHEAD}
    # The boiler's 800 W are little enough to share a branch; a charger fed by the inverter would charge from itself.
    assert set(ahead) == {"boiler-mains-10", "heater-hookup", "hookup-charger-30"}
    assert all(x.ask.device == "breaker" and x.fuse_a is not None for x in ahead.values())
    shared = " ".join(r for x in c.lines if x.ask.start != AHEAD for r in x.ask.remarks)
    assert "boiler" not in shared and "heater" not in shared


def test_sockets_of_an_inverter_and_a_build_without_one_know_no_change_over() -> None:
    c = circuits("hallamoor", None, inverter_3000=1, hookup_charger_30=1, hookup=1, sockets_230=1, lfp_230=1)
    sockets = [x for x in c.lines if x.ask.option_ids == ("sockets-230",)]
    assert sockets and all(x.ask.start == "breaker board" for x in sockets)
    without = circuits("hallamoor", None, hookup_charger_30=1, hookup=1, lfp_230=1, boiler_mains_10=1)
    assert not any(x.ask.start == AHEAD for x in without.lines)
    assert any(x.ask.option_ids == ("boiler-mains-10",) for x in without.lines)


def test_a_mains_heater_without_a_stated_draw_has_a_branch_and_loads_the_hook_up() -> None:
    chosen = {"heater-electric-1500": 1, "mains-panel": 1}
    build = resolver("quillback").resolve(enquiry("quillback", "box", chosen, months=(1,)))
    figures = work_out(build)
    branch = [x for x in figures.circuits.lines if x.ask.option_ids == ("heater-electric-1500",)]
    assert [x.ask.current_a for x in branch] == [pytest.approx(1500 / 120)]
    heater = next(x for x in figures.power.all_loads if x.option_id == "heater-electric-1500")
    assert heater.shore_only and heater.in_season and figures.power.use_wh_d == 0
    # In a hot month nobody runs it.
    summer = work_out(resolver("quillback").resolve(enquiry("quillback", "box", chosen, months=(7,), place="phoenix")))
    assert not next(x for x in summer.power.all_loads if x.option_id == "heater-electric-1500").in_season


@pytest.mark.parametrize(
    ("amps", "size"), [(10, "1.5 mm²"), (13, "2.5 mm²"), (16, "2.5 mm²"), (20, "4 mm²"), (32, "6 mm²")]
)
def test_metric_mains_cables_lie_in_an_insulated_wall(amps: float, size: str) -> None:
    # IEC 60364-5-52, method A2: 1.5 mm² carries 14 A, 2.5 mm² 18.5 A, 4 mm² 25 A, 6 mm² 32 A.
    socket = ask(amps, 4.0, system_v=230.0)._replace(design_a=amps, mains=True, device="breaker")
    line = one_line(socket, METRIC, ())
    assert line.size == size and line.fuse_a is not None and line.fuse_a <= line.ampacity_a
