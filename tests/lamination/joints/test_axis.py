# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint's own frame and its section at a height, against rotations by trimesh and closed forms."""

from __future__ import annotations

import manifold3d
import numpy as np
import pytest
import shapely
import solids
from joined import joint, planned

from freecad_stacklam.lamination.form.frame import direction_to_stack, to_stack
from freecad_stacklam.lamination.joints.axis import convex_plan, outline_at, section_outline
from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.plan.jointaxis import joint_axis
from freecad_stacklam.lamination.plan.outline import area, polygon_of, sample


@pytest.mark.parametrize("degrees", [5.0, 20.0, 40.0])
def test_tilted_round_mortise_is_an_ellipse_of_known_axes(degrees):
    # Exact: a cylinder of diameter d leaning by θ is cut by a level plane in an ellipse d × d / cos θ.
    lean = np.radians(degrees)
    meshes = {"Low": solids.box(600, 400, 90, (-300, -200, -90)), "High": solids.box(600, 400, 90, (-300, -200, 0))}
    stacks = planned(meshes)
    found = joint(
        (stacks, meshes), section="round", size=(40.0,), axis=(np.sin(lean), 0, np.cos(lean)),
        embed=(("Low", 50.0), ("High", 50.0)),
    )  # fmt: skip
    for name in ("Low", "High"):
        for layer in cut_layers(stacks[name], found).layers:
            for cut in layer.cuts:
                shape = polygon_of(cut.outline)
                low_x, low_y, high_x, high_y = shape.bounds
                assert high_x - low_x == pytest.approx(40 / np.cos(lean), abs=0.02)
                assert high_y - low_y == pytest.approx(40, abs=0.02)
                assert shape.area == pytest.approx(np.pi * 400 / np.cos(lean), rel=1e-3)
                # and it walks sideways by tan θ for each mm of height
                moved = polygon_of(cut.outline_end).centroid.x - shape.centroid.x
                assert moved == pytest.approx((cut.end - cut.start) * np.tan(lean), abs=1e-6)


def test_sections_with_relief_on_two_walls():
    assert area(section_outline("square", (40.0,), (0.4, 0.0))) == pytest.approx(40.8 * 40)
    assert area(section_outline("rectangle", (60.0, 30.0), (0.0, 0.2))) == pytest.approx(60 * 30.4)
    assert area(section_outline("round", (40.0,), (0.4, 0.4))) == pytest.approx(np.pi * 400)


def test_the_convex_plan_holds_the_section_and_little_more():
    """A regular polygon of 48 sides around a circle of radius r has the area 48 r² tan(π / 48)."""
    hull = shapely.Polygon(convex_plan(section_outline("round", (40.0,))))
    assert hull.area == pytest.approx(48 * 400 * np.tan(np.pi / 48))
    assert hull.covers(shapely.Point(0, 0).buffer(19.9999, quad_segs=64))
    square = shapely.Polygon(convex_plan(section_outline("square", (40.0,))))
    assert square.equals(shapely.box(-20, -20, 20, 20))


UPSIDE_DOWN = (1.0, 0, 0, 10.0, 0, -1.0, 0, 20.0, 0, 0, -1.0, 90.0, 0, 0, 0, 1.0)
LYING = (0.0, 1.0, 0, 0.0, 0, 0, 1.0, 0.0, 1.0, 0, 0, 0.0, 0, 0, 0, 1.0)


UPRIGHT = tuple(np.eye(4).ravel())
#: Frames and axes that cross their layers.
CROSSING = [
    (frame, direction)
    for frame in (UPRIGHT, UPSIDE_DOWN, LYING)
    for direction in ((0, 0, 1), (0.3, -0.2, 1), (0.9, 0.6, 0.9))
    if abs(direction_to_stack(frame, direction)[2]) > 0.3
]


@pytest.mark.parametrize(("frame", "direction"), CROSSING)
@pytest.mark.parametrize("section", ["square", "rectangle", "round"])
def test_a_prism_cut_at_a_height_is_the_judges(frame, direction, section):
    """manifold3d: the same prism, laid along the axis by its corners, sliced at the height."""
    outline = section_outline(section, (50.0, 30.0) if section == "rectangle" else (40.0,))
    axis = joint_axis((12.0, -7.0, 30.0), direction, 25.0)
    flat = sample(outline.outer)
    ends = [to_stack(frame, axis.model(np.column_stack([flat, np.full(len(flat), z)]))) for z in (-400.0, 400.0)]
    body = manifold3d.Manifold.hull_points(np.vstack(ends))
    for height in (-20.0, 35.0):
        found = polygon_of(outline_at(axis, frame, outline, height))
        assert found.exterior.is_ccw
        theirs = body.slice(height)
        assert found.area == pytest.approx(theirs.area(), rel=2e-4)
        x0, y0, x1, y1 = theirs.bounds()
        assert found.bounds == pytest.approx((x0, y0, x1, y1), abs=0.02)
