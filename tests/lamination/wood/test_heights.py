# SPDX-License-Identifier: LGPL-2.1-or-later

"""Movement in height against coefficients as the handbook prints them."""

from __future__ import annotations

from dataclasses import replace

import plans
import pytest

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.wood.heights import height_movement
from freecad_stacklam.lamination.wood.species import movement

TABLE = species_table()


def test_white_oak_450_mm_high() -> None:
    """FPL-GTR-282 (2021), Table 13-5: white oak C_R 0.00194, C_T 0.00376. 450 · 4 · C: 3.49 and 6.77 mm."""
    found = height_movement(plans.pedestal(), TABLE, 4.0)
    assert found is not None
    assert (found.flat, found.quarter) == (pytest.approx(3.49, abs=0.01), pytest.approx(6.77, abs=0.01))
    # By the handbook's own equation for 6 to 14 %, from 6 to 10 % and board by board, too.
    oak = TABLE["white oak"]
    assert oak.shrink_tangential is not None
    by_board = sum(movement(layer.thickness, oak.shrink_tangential, 6.0, 10.0) for layer in plans.pedestal().layers)
    assert found.quarter == pytest.approx(by_board, rel=1e-9)


def test_layers_of_several_woods_add_up() -> None:
    stack = plans.pedestal()
    mixed = replace(stack, layers=(*stack.layers[:5], *(replace(n, species="teak") for n in stack.layers[5:])))
    oak, both = height_movement(stack, TABLE, 4.0), height_movement(mixed, TABLE, 4.0)
    assert oak is not None and both is not None
    assert both.quarter < oak.quarter


def test_a_wood_that_is_not_known_is_said_to_be() -> None:
    stack = plans.pedestal()
    unknown = replace(stack, layers=(replace(stack.layers[0], species="driftwood"), *stack.layers[1:]))
    assert height_movement(unknown, TABLE, 4.0) is None
