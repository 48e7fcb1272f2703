# SPDX-License-Identifier: LGPL-2.1-or-later

"""A joint's own frame and its section at a height, against rotations by trimesh and closed forms."""

from __future__ import annotations

import numpy as np
import pytest
import solids
from joined import joint, planned

from freecad_stacklam.lamination.joints.mortise import cut_layers
from freecad_stacklam.lamination.plan.outline import polygon_of


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
