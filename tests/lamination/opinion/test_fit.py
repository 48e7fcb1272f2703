# SPDX-License-Identifier: LGPL-2.1-or-later

"""The fit over a section: exact for stresses that run straight (arithmetic)."""

from __future__ import annotations

import numpy as np
import pytest

from freecad_stacklam.lamination.opinion.fit import fitted, window


def test_a_straight_run_is_read_exactly_enough() -> None:
    rng = np.random.default_rng(3)
    at = rng.uniform(-20, 20, (400, 3))
    slope = rng.normal(size=(3, 6))
    stress = 2.0 + at @ slope
    place = np.array([20.0, 0.0, 5.0])
    read = fitted(at, stress, rng.uniform(0.5, 2.0, 400), place, 9.0)
    assert read == pytest.approx(2.0 + place @ slope, rel=0.02, abs=0.05)


def test_what_is_read_lies_about_the_place() -> None:
    at = np.array([[22, 0, 0], [23, 0, 0], [0, 0, 200], [0, 0, 22]], dtype=float)
    origin = np.zeros(3)
    # Cells of 9 mm: two to each side and half of the own, 22.5 mm.
    assert window(at, origin, 9.0, True, False).tolist() == [True, False, True, True]
    assert window(at, origin, 9.0, False, False).tolist() == [True, False, False, True]
    assert window(at, origin, 9.0, False, True).tolist() == [True, True, False, True]
