# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a form is wood at every height of a slab, against sections by manifold3d and closed forms."""

from __future__ import annotations

import judges
import numpy as np
import pytest
import solids

from freecad_stacklam.lamination.inside.wood import Inside


def vase():
    """A turned form with a belly, a neck and a lip, so that walls lean both ways."""
    z = np.linspace(0, 400, 21)
    r = 130 + 45 * np.sin(z / 60) - 20 * np.cos(z / 23)
    return solids.revolved(np.vstack([[0, 0], np.stack([r, z], axis=1), [0, 400]]), 48)


def test_region_inside_is_what_every_section_shares():
    mesh = vase()
    inside = Inside(mesh.vertices, mesh, [60.0, 150.0])
    region = inside.region(60.0, 150.0)
    sections = [judges.solid(mesh).slice(z) for z in np.linspace(60.01, 149.99, 60)]
    shared = sections[0]
    for section in sections[1:]:
        shared ^= section
    # Sixty sections cannot share less than all of them; between them the wall leans by little.
    assert region.area <= shared.area() + 1e-3
    assert region.area == pytest.approx(shared.area(), rel=0.01)
