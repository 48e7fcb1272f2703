# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much a stack moves in height over a year: its layers lie flat, so they shrink through their thickness.

A flat-sawn board shrinks radially through its thickness, a quarter-sawn one tangentially (FPL-GTR-282 (2021), Ch. 4).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from freecad_stacklam.lamination.plan.layers import HeightMovement, StackPlan
from freecad_stacklam.lamination.wood.species import Species, movement_coefficient


def height_movement(stack: StackPlan, table: Mapping[str, Species], swing: float) -> HeightMovement | None:
    """Thickness · C · swing over all layers, C by Eq. 13-2 of FPL-GTR-282 (2021) from total shrinkage.

    swing: % points of moisture. None where the shrinkage of a layer's wood is not known.
    """
    return movement_of([(layer.species, layer.thickness) for layer in stack.layers], table, swing)


def movement_of(
    parts: Iterable[tuple[str, float]], table: Mapping[str, Species], swing: float
) -> HeightMovement | None:
    """The same for any wood one over the other: species and thickness, mm, of each part."""
    flat = quarter = 0.0
    for species, thickness in parts:
        wood = table.get(species)
        if wood is None or not wood.shrink_radial or not wood.shrink_tangential:
            return None
        flat += thickness * movement_coefficient(wood.shrink_radial) * swing
        quarter += thickness * movement_coefficient(wood.shrink_tangential) * swing
    return HeightMovement(flat, quarter, swing)
