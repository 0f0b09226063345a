"""Shade of things on the roof is taken off the sun's yield once, and only what is beyond the usual loss."""

import pytest

from engine.build import work_out
from engine.build.sun_power import shade_off_frac, sun_system
from engine.physics.cell import KEPT_FRAC, LOSSES_FRAC


def test_noon_shade_beyond_the_usual_loss_is_taken_off(yard):
    build = yard(options={"panel-37": 2, "controller": 1, "lfp-200": 1})
    figures = work_out(build)
    bare = sun_system(build, figures.roof, 14.2)
    assert bare.shaded_frac == 0 and bare.panels[0].kept_frac == KEPT_FRAC
    for mean, left in ((0.0, 1.0), (0.03, 1.0), (0.10, 0.90 / 0.97)):
        shade = type("Shade", (), {"mean_frac": mean})()
        shaded = figures.roof._replace(shade=shade)
        assert shade_off_frac(shaded) == pytest.approx(1 - left)
        system = sun_system(build, shaded, 14.2)
        # The usual loss for shade is not counted a second time.
        assert system.panels[0].kept_frac == pytest.approx(KEPT_FRAC * left)
    assert LOSSES_FRAC["shading"] == 0.03
