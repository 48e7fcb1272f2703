# SPDX-License-Identifier: LGPL-2.1-or-later

"""The two rules by arithmetic: a pad of 25 mm on a stave 38 mm deep reaches 101 mm (common practice, no source); the
bell's integral over a plane is 2π/3 of z² (any table of integrals: ∫ 2πr (1 + r²/z²)^−2.5 dr)."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest

from freecad_stacklam.lamination.wood.loadspread import bell_shape, cone_width


def test_a_cone_of_45_degrees() -> None:
    assert cone_width(25.0, 38.0) == 101.0


def test_the_bell_sums_up_to_two_thirds_of_pi() -> None:
    depth = 45.0
    r = np.linspace(0.0, 100 * depth, 400_001)
    over = 2 * pi * r * bell_shape(r**2, depth)
    assert float(((over[1:] + over[:-1]) / 2).sum() * (r[1] - r[0])) == pytest.approx(2 * pi / 3 * depth**2, rel=1e-4)
    assert bell_shape(np.array([0.0, depth**2]), depth) == pytest.approx([1.0, 2**-2.5])
