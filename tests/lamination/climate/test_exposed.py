# SPDX-License-Identifier: LGPL-2.1-or-later

"""Faces that the air reaches, and the true area behind stepped faces: against plain geometry."""

from __future__ import annotations

import numpy as np
import pytest

from freecad_stacklam.lamination.climate.exposed import room_air, true_share


def test_air_in_a_closed_void_is_not_the_rooms_and_behind_corners_it_is() -> None:
    wood = np.ones((9, 9, 9), dtype=bool)
    wood[2:4, 2:4, 2:4] = False  # closed
    wood[6, 6, 3:] = False  # a shaft from above …
    wood[6, 2:6, 3] = False  # … that turns a corner …
    wood[6, 2, 1:3] = False  # … and another
    air = room_air(wood)
    assert not air[2, 2, 2]
    assert air[6, 6, 5]
    assert air[6, 2, 1]
    assert not (air & wood).any()


def test_level_and_upright_faces_are_whole_and_the_steps_of_a_slant_are_shared_out() -> None:
    # A plane with the unit normal n is stepped with |nx| + |ny| + |nz| times its area: plain geometry.
    block = np.zeros((24, 24, 24))
    block[4:20, 4:20, 4:20] = 1.0
    share = true_share(block, (5.0, 5.0, 5.0))
    assert share[4, 12, 12] == pytest.approx(1.0)
    assert share[12, 12, 19] == pytest.approx(1.0)
    grid = np.stack(np.meshgrid(*[np.arange(30) + 0.5] * 3, indexing="ij"))
    for normal in ((1.0, 1.0, 0.0), (1.0, 2.0, 2.0)):
        n = np.array(normal) / np.linalg.norm(normal)
        filled = np.clip(0.5 - (np.tensordot(n, grid, 1) - n.sum() * 15.0), 0.0, 1.0)
        at = (filled > 0.4) & (filled < 0.6)
        at[:6] = at[-6:] = at[:, :6] = at[:, -6:] = at[:, :, :6] = at[:, :, -6:] = False
        assert true_share(filled, (1.0, 1.0, 1.0))[at] == pytest.approx(1 / n.sum(), abs=0.02)


def test_a_balls_steps_have_its_surface() -> None:
    # 4 π r² (Archimedes): stepped faces of a ball are 1.5 times as large.
    cells, radius = 40, 18.0
    centre = (np.arange(cells) + 0.5) - cells / 2
    away = np.sqrt(sum(c**2 for c in np.meshgrid(centre, centre, centre, indexing="ij")))
    filled = np.clip(radius - away + 0.5, 0.0, 1.0)
    wood = filled >= 0.5
    padded = np.pad(wood, 1)
    faces = sum((np.roll(padded, way, axis) != padded)[1:-1, 1:-1, 1:-1] & wood for axis in range(3) for way in (-1, 1))
    area = float((np.asarray(faces) * true_share(filled, (1.0, 1.0, 1.0))).sum())
    assert float(np.asarray(faces).sum()) / (4 * np.pi * radius**2) == pytest.approx(1.5, rel=0.02)
    assert area / (4 * np.pi * radius**2) == pytest.approx(1.0, rel=0.01)
