# SPDX-License-Identifier: LGPL-2.1-or-later

"""Strength and stiffness at an angle, and the allowable line."""

from __future__ import annotations

import numpy as np
import pytest
from weakforms import boxes, planned

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.strength.timber import (
    RINGS,
    allowable,
    grade_at,
    grain_angle,
    stiffness_at,
    timber_of,
    woods_of,
)

OAK = timber_of(species_table(), "white oak")
assert OAK is not None and OAK.elastic is not None


@pytest.mark.parametrize(("angle", "strength"), [(0, 105.0), (60, 7.21), (90, 5.5)])
def test_hankinson(angle: float, strength: float) -> None:
    # 105·5.5/(105 sin² + 5.5 cos²) with exponent 2: 60° gives 577.5/(78.75 + 1.375) = 7.21.
    assert grade_at(OAK, angle).tension == pytest.approx(strength, abs=0.005)


def test_rolling_shear_across_the_grain() -> None:
    # 0.18 of shear along the grain (13.8 MPa), from memory of the handbook's chapter 5.
    assert grade_at(OAK, 90).shear == pytest.approx(0.18 * 13.8)
    assert grade_at(OAK, 0).shear == pytest.approx(13.8)


def test_a_tenon_is_six_or_fourteen_times_as_stiff_as_the_layers() -> None:
    # White oak E_R/E_L 0.163, E_T/E_L 0.072 (handbook Table 5-1, from memory): n = 6.13 and 13.9.
    up = np.array([0.0, 0.0, 1.0])
    ratios = [OAK.elastic.along / stiffness_at(OAK.elastic, up, 0.0, rings) for rings in RINGS]
    assert ratios == pytest.approx([1 / 0.163, 1 / 0.072])


def test_angle_and_stiffness_in_the_layer() -> None:
    east, north = np.array([1.0, 0, 0]), np.array([0, 1.0, 0])
    assert grain_angle(east, 0.0) == pytest.approx(0.0)
    assert grain_angle(north, 0.0) == pytest.approx(90.0)
    assert grain_angle(east, 150.0) == pytest.approx(30.0)
    assert stiffness_at(OAK.elastic, east, 0.0, "R up") == pytest.approx(OAK.elastic.along)
    assert stiffness_at(OAK.elastic, north, 0.0, "R up") == pytest.approx(OAK.elastic.tangential)


def test_allowable_line() -> None:
    # ASTM D245 (from memory): 105·(1 − 1.645·0.16)/2.3 = 33.64 MPa; none without a variation.
    assert allowable(105.0, 0.16) == pytest.approx(33.64, abs=0.01)
    assert allowable(5.5, None) is None


def test_woods_that_cannot_be_judged_are_named() -> None:
    plan, _ = planned({"Post": boxes([(0, 0, 60, 60, 0, 90)])}, species="sugar maple")
    timbers, left, figures = woods_of(plan, species_table())
    assert not timbers and not figures
    assert "Post" in left[0].says and "strength across the grain in tension" in left[0].says
