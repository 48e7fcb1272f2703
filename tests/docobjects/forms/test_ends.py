# SPDX-License-Identifier: LGPL-2.1-or-later

"""Round ends: the stack begins and ends at the form itself, not at its mesh."""

from __future__ import annotations

import numpy as np
import pytest

pytestmark = pytest.mark.freecad


def turned(shape, degrees: float):
    import FreeCAD

    shape.Placement = FreeCAD.Placement(FreeCAD.Vector(30, -20, 70), FreeCAD.Rotation(FreeCAD.Vector(1, 0, 0), degrees))
    return shape


@pytest.mark.parametrize("degrees", [0.0, 37.0, 90.0])
def test_a_ball_ends_a_radius_from_its_middle(degrees: float) -> None:
    import Part

    from freecad_stacklam.docobjects.forms.form import end_points

    ball = turned(Part.makeSphere(400.0), degrees)
    for axis in ((0.0, 0.0, 1.0), (1.0, 2.0, -2.0)):
        heights = (end_points(ball, axis) - [30, -20, 70]) @ axis / np.linalg.norm(axis)
        assert heights.max() == pytest.approx(400.0, abs=1e-5) and heights.min() == pytest.approx(-400.0, abs=1e-5)


def test_a_leaning_ring_and_a_spline_body_end_where_arithmetic_says() -> None:
    """A ring of 200 and 60 mm leaning by a reaches 200·sin a + 60 from its middle; a box's end is its corner."""
    import Part

    from freecad_stacklam.docobjects.forms.form import end_points

    ring = turned(Part.makeTorus(200.0, 60.0), 37.0)
    high = end_points(ring, (0, 0, 1))[:, 2] - 70
    assert high.max() == pytest.approx(200 * np.sin(np.radians(37)) + 60, abs=1e-5)
    spline = turned(Part.makeSphere(400.0).toNurbs().Solids[0], 90.0)
    assert end_points(spline, (0, 0, 2))[:, 2].max() - 70 == pytest.approx(400.0, abs=1e-5)
    box = turned(Part.makeBox(100, 40, 20), 30.0)
    high = end_points(box, (0, 0, 1))[:, 2] - 70
    assert high.max() == pytest.approx(40 * np.sin(np.pi / 6) + 20 * np.cos(np.pi / 6), abs=1e-9)


def test_the_stack_of_a_turned_ball_holds_both_its_poles(document) -> None:
    """Its mesh stops 0.06 mm short of each pole; the stack stood as much too high and too low."""
    import Part

    from freecad_stacklam.docobjects.forms import plancache
    from freecad_stacklam.lamination.form.frame import to_stack
    from freecad_stacklam.lamination.settings.stack import StackSettings

    obj = document.addObject("Part::Feature", "Ball")
    obj.Shape = turned(Part.makeSphere(400.0), 90.0)
    plan = plancache.plan_for(plancache.find_form(obj), StackSettings(stock=(50.0,)), "Ball")
    low, high = to_stack(plan.frame, np.array([[30, -20, -330], [30, -20, 470.0]]))[:, 2]
    assert low == pytest.approx(0.0, abs=1e-5) and high == pytest.approx(800.0, abs=1e-5)
    assert len(plan.layers) == 16 and plan.containment.proven
