# SPDX-License-Identifier: LGPL-2.1-or-later

"""The index. Hankinson's formula with 105 and 5.5 MPa (white oak): 0° 105, 60° 7.21, 90° 5.5; arithmetic shown."""

from __future__ import annotations

from dataclasses import replace

import bricks
import numpy as np
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.index import (
    ACROSS,
    ALONG,
    GLUE,
    ROLLING,
    SHEAR,
    index_of,
    refuse_unknown,
    slope_of,
)
from freecad_stacklam.lamination.wood.strengths import hankinson, strengths_of

OAK = strengths_of(species_table()["white oak"])
FLAT = [[1, 0, 0], [0, 0, 1], [0, 1, 0]]  # grain along x, radius up


def of(stress: list[float], axes: list[list[float]] = FLAT, normal: tuple[float, float, float] = (0, 0, 0)
       ) -> tuple[float, int, float]:  # fmt: skip
    index, kind, size = index_of(np.array([stress]), np.zeros(1, int), [bricks.oak(axes)], [OAK], np.array([normal]))
    return float(index[0]), int(kind[0]), float(size[0])


@pytest.mark.parametrize(("angle", "strength"), [(0, 105.0), (60, 7.21), (90, 5.5)])
def test_pull_at_an_angle_to_the_grain(angle: float, strength: float) -> None:
    assert hankinson(105, 5.5, angle) == pytest.approx(strength, abs=0.005)
    turn = np.radians(angle)
    axes = [[np.cos(turn), 0, np.sin(turn)], [-np.sin(turn), 0, np.cos(turn)], [0, -1, 0]]
    index, kind, _ = of([2.0, 0, 0, 0, 0, 0], axes)
    pull = 2.0 / hankinson(105, 5.5, angle)
    shear = 2.0 * np.sin(turn) * np.cos(turn) / 13.8  # what the same pull is along the grain
    square = 2.0 * np.sin(turn) ** 2 / 5.5
    assert index == pytest.approx(max(pull, shear, square), rel=1e-6)
    assert kind == (ALONG if angle < 45 else ACROSS)


def test_pull_across_in_any_direction_and_pressing_does_not_count() -> None:
    assert of([0, 0, 5.5, 0, 0, 0]) == (pytest.approx(1.0), ACROSS, pytest.approx(5.5))
    assert of([0, 5.5, 0, 0, 0, 0])[0] == pytest.approx(1.0)
    assert of([0, 0, -5.5, 0, 0, 0])[0] == pytest.approx(0.0, abs=1e-9)


def test_shear_along_the_grain_and_rolling() -> None:
    # xz is LR, yz is RT: the same 2 MPa are 2 / 13.8 of shear, but as slanting pull 2 / 10.5, and rolling 2 / 2.484.
    index, kind, _ = of([0, 0, 0, 0, 2.0, 0])
    assert index == pytest.approx(2 / hankinson(105, 5.5, 45), rel=0.01) and kind in (SHEAR, ALONG, ACROSS)
    index, kind, size = of([0, 0, 0, 2.0, 0, 0])
    assert (index, kind, size) == (pytest.approx(2 / (0.18 * 13.8)), ROLLING, pytest.approx(2.0))


def test_at_a_glue_line_pull_and_shear_add_up() -> None:
    stress = [0, 0, 3.0, 1.0, 2.0, 0]
    index, kind, size = of(stress, normal=(0, 0, 1.0))
    wanted = np.sqrt((3 / 5.5) ** 2 + (2 / 13.8) ** 2 + (1 / 2.484) ** 2)
    assert index >= wanted - 1e-9
    assert of([0, 0, 3.0, 1.0, 0, 0], normal=(0, 0, 1.0))[1:] == (GLUE, pytest.approx(np.hypot(3, 1)))
    assert size > 0 and kind in (GLUE, ACROSS)


def test_the_index_is_the_stress_times_its_slope() -> None:
    stress = np.array([3.0, 0.3, 2.0, 0.4, 0.7, -0.2])
    woods = [bricks.oak(np.linalg.qr(np.random.default_rng(1).normal(size=(3, 3)))[0].tolist())]
    normal = np.array([0.0, 0.0, 1.0])
    index, _, _ = index_of(stress[None], np.zeros(1, int), woods, [OAK], normal[None])
    assert float(slope_of(stress, 0, woods, [OAK], normal) @ stress) == pytest.approx(float(index[0]), rel=1e-5)


def test_a_wood_without_its_strengths_is_refused() -> None:
    refuse_unknown([OAK])
    with pytest.raises(Refusal, match="across the grain or in shear"):
        refuse_unknown([replace(OAK, tension_across=None)])
