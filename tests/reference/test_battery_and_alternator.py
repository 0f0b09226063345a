"""Battery and alternator currents against cases from the trade, worked by hand."""

import pytest

from engine.physics.direct_current import alternator_spare_a, battery_current_a, charger_input_a

pytestmark = pytest.mark.reference


def test_a_microwave_on_one_lithium_battery():
    # The socket gives 1,800 W through an inverter of 88 %; one 12.8 V battery of 100 Ah may give 100 A for long.
    assert battery_current_a(1800, 0.88, 0, 12.8) == pytest.approx(160, abs=0.5)
    assert battery_current_a(1800, 0.88, 0, 12.0) == pytest.approx(170, abs=0.5)
    # The largest load that this battery can feed behind that inverter is 1,126 W.
    assert battery_current_a(1126.4, 0.88, 0, 12.8) == pytest.approx(100)
    # The label's 1,100 W would just fit, wrongly.
    assert battery_current_a(1100, 0.88, 0, 12.8) == pytest.approx(98, abs=0.5)


def test_an_inverter_lead_at_the_cut_off():
    # 3 kW at 90 %: 277.778 A at 12.0 V and 317.46 A at 10.5 V; 2 kW at 88 % and 11 V: 207 A.
    assert battery_current_a(3000, 0.9, 0, 12.0) == pytest.approx(277.778, abs=5e-4)
    assert battery_current_a(3000, 0.9, 0, 10.5) == pytest.approx(317.46, abs=5e-3)
    assert battery_current_a(2000, 0.88, 0, 11.0) == pytest.approx(207, abs=0.5)


@pytest.mark.parametrize(("output_a", "input_a", "share"), [(60, 68.6, 1.52), (30, 34.3, 0.76), (20, 22.9, 0.51)])
def test_a_charger_on_a_modest_alternator(output_a, input_a, share):
    # 120 A alternator, a quarter less when hot, 45 A for the vehicle itself; 92 %, 14.2 V out, 13.5 V in.
    spare_a = alternator_spare_a(120, 0.75, 45)
    assert spare_a == pytest.approx(45)
    wanted_a = charger_input_a(output_a, 14.2, 0.92, 13.5)
    assert wanted_a == pytest.approx(input_a, abs=0.05)
    assert wanted_a / spare_a == pytest.approx(share, abs=0.005)
    assert wanted_a > output_a


def test_a_swamped_alternator_has_nothing_to_spare():
    assert alternator_spare_a(70, 0.75, 80) == 0
