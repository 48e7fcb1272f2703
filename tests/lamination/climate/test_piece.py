# SPDX-License-Identifier: LGPL-2.1-or-later

"""Cells of a whole piece and their parts, beside the geometry of a post with a top."""

from __future__ import annotations

import numpy as np
import pytest
from seasons import post_and_top

from freecad_stacklam.lamination.climate.piece import left_out, piece_of, slanted
from freecad_stacklam.lamination.usage.climate import ClimateSettings
from freecad_stacklam.lamination.voxels.fill import voxels_of


def test_layers_and_tenon_are_told_apart_and_the_tenon_lets_moisture_run_upwards() -> None:
    plan, meshes = post_and_top()
    voxels = voxels_of(plan, meshes, 9.0)
    piece = piece_of(voxels, ClimateSettings())
    assert (piece.layers, piece.stacks, piece.tenons, piece.parts) == (8, 2, 1, 10)
    cells = np.argwhere(piece.part == piece.tenon_part(0, 0))
    middles = voxels.centres(cells)
    assert np.abs(middles[:, :2]).max() < 22.0  # a tenon of 40 mm about the axis
    assert middles[:, 2].min() > 270.0 - 75.0 - 9.0
    # Along the grain ten times as fast: of the layers along x, of the tenon along z.
    rates = piece.body.diffusivity[piece.body.kind[tuple(cells[0])]]
    assert rates == pytest.approx((4.32, 4.32, 43.2))
    first = piece.body.diffusivity[0]
    assert first == pytest.approx((43.2, 4.32, 4.32))
    near = np.argwhere(piece.around == piece.tenon_part(0, 0))
    places = voxels.centres(near)
    beside = places[places[:, 2] > 270.0 - 75.0 + 9.0]
    assert np.abs(beside[:, :2]).max(axis=1).min() > 20.0 - 9.0
    assert np.abs(places[:, :2]).max() < 20.0 + 3 * 9.0
    assert (piece.part[tuple(near.T)] < piece.layers).all()


def test_heights_run_square_to_the_layers_and_little_is_left_out() -> None:
    plan, meshes = post_and_top()
    voxels = voxels_of(plan, meshes, 9.0)
    piece = piece_of(voxels, ClimateSettings())
    assert np.ptp(piece.along[:, :, 0][piece.part[:, :, 0] >= 0]) < 1e-9
    assert not slanted(voxels)
    assert 0.0 <= left_out(voxels) < 0.05
