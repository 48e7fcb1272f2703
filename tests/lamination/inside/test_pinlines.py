# SPDX-License-Identifier: LGPL-2.1-or-later

"""How deep pin holes may go in thin layers, with the bit's point, and when holes over one another meet."""

from __future__ import annotations

import pytest
import solids

from freecad_stacklam.lamination.inside.pinfit import fit_of
from freecad_stacklam.lamination.inside.pinlines import lines_of, meets
from freecad_stacklam.lamination.layers.stack import plan_stack
from freecad_stacklam.lamination.plan.insides import PinPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.pins import PinSettings
from freecad_stacklam.lamination.settings.stack import StackSettings

THIN = plan_stack(solids.cylinder(90, 45, 60), StackSettings(stock=(15.0,)), name="Thin")


def test_the_point_does_not_come_out_of_a_thin_layer() -> None:
    """15 mm of wood, a brad point 4 mm long and 1 mm left beyond it: 10 mm of wall; a spade's 12 mm leave 2."""
    lines = lines_of(THIN, PinSettings(), fit_of(PinSettings()))
    assert [(line.down, line.up) for line in lines] == [(10.0, 10.0)] * 2
    spade = PinSettings(bit="spade")
    with pytest.raises(Refusal, match="comes through layer 1 or 2"):
        lines_of(THIN, spade, fit_of(spade))


def test_holes_over_one_another() -> None:
    """3 + 3 of walls, 4 + 4 of points: 14 of the layer's 15 mm are bored, 1 mm is left."""
    settings = PinSettings()
    fit = fit_of(settings)
    first, second = lines_of(THIN, settings, fit)
    above = fit.fitted(PinPlan(2, (0.0, 0.0), 10.0, 3.0, 3.0, 0.0))
    assert not meets(THIN, first, above, 3.0, 3.0, fit, 0.9)
    assert meets(THIN, first, above, 3.0, 3.0, fit, 1.1)
    below = fit.fitted(PinPlan(1, (0.0, 0.0), 10.0, 3.0, 3.0, 0.0))
    assert not meets(THIN, second, below, 3.0, 3.0, fit, 0.9)
    assert meets(THIN, second, below, 3.0, 3.0, fit, 1.1)
