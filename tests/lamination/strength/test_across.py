# SPDX-License-Identifier: LGPL-2.1-or-later

"""Rims and arms, against cantilevers worked by hand."""

from __future__ import annotations

import numpy as np
import pytest
from solids import moved
from weakforms import armchair, boxes, mushroom, own, strength

from freecad_stacklam.lamination.strength.across import PAD


def of(findings, kind):
    found = [s for s in findings.sections if s.kind == kind]
    return max(found, key=lambda s: s.use, default=None)


def test_rim_of_a_mushroom() -> None:
    # 1000 N at 50 mm inside a rim of R 150: 100 out; neck R 30: 70 mm of way. Breadth 2·70 + 100 = 240 (the plate's
    # chord at 30 is 294), depth 30: 6·70e3/(240·30²) = 1.94 MPa.
    worst = of(strength({"M": mushroom()}, own(down=1000.0, inset=50.0)), "overhang")
    assert worst is not None
    assert PAD == 100.0
    assert worst.bending == pytest.approx(6 * 70e3 / (240 * 30**2), rel=0.06)
    assert worst.place[2] == pytest.approx(400.0, abs=0.5)  # in tension on top
    assert worst.width == pytest.approx(30.0, abs=0.5)


def test_the_neck_of_a_mushroom_with_a_wide_foot() -> None:
    # 1000 N at 100 mm: 100 N·m: 32e5/(π·60³)·1e... = 4.716 MPa less 0.354.
    worst = of(strength({"M": mushroom()}, own(down=1000.0, inset=50.0)), "neck")
    assert worst is not None
    assert worst.bending == pytest.approx(4.716, rel=0.01)
    assert 80 <= worst.height <= 370
    # Ø60 gives 4.72 of a quarter of 5.5: d = 60·(4.72/1.375)^⅓ = 90.5 without the weight's pressure.
    assert 88 <= worst.do <= 91


def test_arm_of_an_armchair() -> None:
    # Arm 40 × 45 hanging on the back at y 180 (its face), reaching to y −180; 300 N at its end: 108 N·m,
    # 6·108e3/(40·45²) = 8.0 MPa along or across the grain (grain along x, the arm along y: across).
    found = strength({"Chair": armchair()}, own(down=300.0, inset=0.0))
    arms = [s for s in found.sections if s.kind == "overhang" and 600 <= s.place[2] <= 645]
    worst = max(arms, key=lambda s: s.use)
    assert worst.bending == pytest.approx(8.0, rel=0.03)
    assert worst.angle == pytest.approx(90.0, abs=1.0)
    assert worst.use > 1


def test_arm_along_the_grain_is_far_stronger() -> None:
    # The same beam along the grain: strength 105 instead of 5.5 MPa.
    post = boxes([(0, 0, 60, 60, 0, 300), (150, 0, 360, 60, 300, 345)])
    worst = of(strength({"P": post}, own(down=300.0)), "overhang")
    assert worst is not None
    assert worst.strength == pytest.approx(105.0)
    assert worst.cov == 0.16
    assert abs(worst.bending) == pytest.approx(6 * 300 * 300 / (60 * 45**2), rel=0.03)


def test_the_wood_under_the_load_counts_not_what_hangs_over_it() -> None:
    # A leaning mushroom: where a plane cuts the low rim, with the load on it, it also cuts a sliver far above.
    lean = np.array([[1.0, 0, 0], [0, 0.8, -0.6], [0, 0.6, 0.8]])
    found = strength({"M": moved(mushroom(), lean)}, own(down=1300.0, inset=60.0))
    assert all(s.use < 5 for s in found.sections if s.kind == "overhang")
