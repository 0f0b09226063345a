"""What stands on the roof and what may stand there."""

from engine.build.roof_load import roof_load_figures


def test_racks_come_off_what_the_roof_carries(yard):
    assert roof_load_figures(yard()).allowed_kg == 150
    with_rack = roof_load_figures(yard(options={"rack": 1, "rack-box": 1}))
    assert (with_rack.load_kg, with_rack.allowed_kg) == (30, 112)
