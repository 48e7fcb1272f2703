# SPDX-License-Identifier: LGPL-2.1-or-later

"""The woods of a piece, as they lie."""

from __future__ import annotations

from dataclasses import replace

import bricks
import numpy as np
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.stress.materials import FLAT_SAWN, QUARTER_SAWN, body_of, elastic_for, timber_of
from freecad_stacklam.lamination.voxels.fill import voxels_of

NECK = [[0, 0], [30, 0], [30, 180], [0, 180]]


def test_the_radius_looks_up_in_flat_sawn_layers_and_the_tangent_in_quarter_sawn_ones() -> None:
    cells = voxels_of(*bricks.turned(NECK), 15.0)
    elastic = elastic_for(species_table(), "white oak")
    for rings, up in ((FLAT_SAWN, elastic.radial), (QUARTER_SAWN, elastic.tangential)):
        timber = timber_of(cells, species_table(), rings)
        (wood,) = timber.woods
        pliant = np.linalg.inv(wood.stiffness)
        assert 1 / pliant[0, 0] == pytest.approx(elastic.along)
        assert 1 / pliant[2, 2] == pytest.approx(up)
        assert set(timber.of_layer) == {0}


def test_layers_laid_crosswise_are_two_woods_and_half_a_turn_is_none() -> None:
    cells = voxels_of(*bricks.turned(NECK), 15.0)
    turns = [0, 90, 180, 270]
    layers = tuple(
        replace(layer, grain=(float(np.cos(np.radians(t))), float(np.sin(np.radians(t))), 0.0))
        for layer, t in zip(cells.layers, turns)
    )
    timber = timber_of(replace(cells, layers=layers), species_table(), FLAT_SAWN)
    assert timber.of_layer == (0, 1, 0, 1)


def test_a_wood_whose_stiffness_is_not_known_is_refused() -> None:
    table = {name: replace(s, elastic=None) for name, s in species_table().items()}
    with pytest.raises(Refusal, match="no stiffness across the grain"):
        body_of(voxels_of(*bricks.turned(NECK), 15.0), table, FLAT_SAWN)


def test_every_brick_knows_its_layer() -> None:
    body = body_of(voxels_of(*bricks.turned(NECK), 15.0), species_table(), FLAT_SAWN)
    assert set(body.group) == {0, 1, 2, 3}
    assert body.level.all() and not body.in_tenon.any()
    assert np.array_equal(body.group, (body.lattice.middles[:, 2] // 45).astype(int))
