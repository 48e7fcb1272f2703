# SPDX-License-Identifier: LGPL-2.1-or-later

"""Forms above a metre: meshed in proportion to their size, guarded to match, and proven as any other."""

from __future__ import annotations

import numpy as np
import pytest

pytestmark = pytest.mark.freecad


def test_the_mesh_of_a_large_form_strays_by_less_than_its_guard() -> None:
    """A quarter of a ring, 2.1 m across, as spline faces: trimesh's nearest point is the judge, and the ring's own
    equation of the points."""
    import FreeCAD
    import Part
    import trimesh

    from freecad_stacklam.docobjects.forms.form import clear_cache, exact_points, mesh_arrays, own_deflection
    from freecad_stacklam.lamination.form.mesh import guard_for

    clear_cache()
    middle, up = FreeCAD.Vector(), FreeCAD.Vector(0, 0, 1)
    ring = Part.Face(Part.Wire(Part.makeCircle(100.0, FreeCAD.Vector(2000, 0, 0), FreeCAD.Vector(0, 1, 0))))
    arch = ring.revolve(middle, up, 90.0).toNurbs().Solids[0]
    assert own_deflection(arch) == pytest.approx(0.21)
    vertices, triangles = mesh_arrays(arch)
    points = exact_points(arch)
    points = points[(points[:, 0] > 1.0) & (points[:, 1] > 1.0)][::50]  # not on the two ends, which are level
    assert len(points) > 10
    radial = np.hypot(points[:, 0], points[:, 1]) - 2000.0
    assert np.abs(np.hypot(radial, points[:, 2]) - 100.0).max() < 1e-6
    soup = vertices[triangles].reshape(-1, 3), np.arange(3 * len(triangles)).reshape(-1, 3)
    _, strays, _ = trimesh.proximity.closest_point_naive(trimesh.Trimesh(*soup, process=False), points)
    assert strays.max() < guard_for(0.21)


@pytest.mark.parametrize(("radius", "guard"), [(400.0, 0.2), (1250.0, 0.5)])
def test_blanks_of_a_large_form_keep_the_allowance_from_the_form_itself(radius: float, guard: float, document) -> None:
    """A round top of 0.8 and of 2.5 m: its blank holds the exact circle and the allowance, and the guard is in the
    plan."""
    import Part
    import shapely

    from freecad_stacklam.docobjects.forms import plancache
    from freecad_stacklam.docobjects.forms.form import mesh_arrays
    from freecad_stacklam.lamination.plan.areas import blank_area
    from freecad_stacklam.lamination.settings.stack import StackSettings

    obj = document.addObject("Part::Feature", "Top")
    obj.Shape = Part.makeCylinder(radius, 60.0)
    plan = plancache.plan_for(plancache.find_form(obj), StackSettings(stock=(30.0,), allowance=3.0), "Top")
    assert plan.guard == pytest.approx(guard) and plan.containment.proven
    # A chord of a circle of radius r strays by s² / 8 r, so triangles are fewer by the root of the deflection.
    few, many = len(mesh_arrays(obj.Shape)[1]), len(mesh_arrays(obj.Shape, 0.1)[1])
    assert few / many == pytest.approx((0.2 / guard) ** 0.5, rel=0.1)
    turns = np.linspace(0.0, 2 * np.pi, 2000)
    circle = shapely.LinearRing(np.stack([np.cos(turns), np.sin(turns)], axis=1) * radius)
    for layer in plan.layers:
        (blank,) = blank_area(layer.blank).geoms
        assert blank.contains(circle)
        # The outline is drawn within a tenth of a millimetre (and a tenth of that more) outside what must be covered.
        assert blank.exterior.distance(circle) >= 3.0 and blank.exterior.hausdorff_distance(circle) < 3.0 + guard + 0.25


def test_a_large_ball_is_proven_from_pole_to_pole(document) -> None:
    """Its ends are exact, 2 · 1250 mm apart; its volume, 4/3 π r³, is to the guard over its surface, 4 π r²."""
    import Part

    from freecad_stacklam.docobjects.forms import plancache
    from freecad_stacklam.lamination.settings.stack import StackSettings

    obj = document.addObject("Part::Feature", "Ball")
    obj.Shape = Part.makeSphere(1250.0)
    plan = plancache.plan_for(plancache.find_form(obj), StackSettings(stock=(125.0,), allowance=4.0), "Ball")
    assert plan.containment.proven and plan.containment.least_cover >= 4.0
    assert (len(plan.layers), plan.layers[-1].top) == (20, pytest.approx(2500.0, abs=0.001))
    assert 0 < 4 / 3 * np.pi * 1250.0**3 - plan.form.volume < plan.guard * 4 * np.pi * 1250.0**2
