# SPDX-License-Identifier: LGPL-2.1-or-later

"""One brick of wood: its stiffness matrix, and the strain in its middle.

Trilinear, with three bending modes of its own that neighbours need not share (Wilson's incompatible modes; they are
condensed away), so that a single layer of bricks bends as it should. In a brick with square corners the modes pass the
patch test as they stand. Order of strains and stresses: xx, yy, zz, yz, xz, xy, shear strains as angles. Corner a lies
at (a & 1, a >> 1 & 1, a >> 2) of the brick; unknown 3a + d is its movement along d. Lengths mm, stresses MPa, forces N.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

#: Corners of a brick, from its middle, in halves of its sides.
CORNERS = np.array([[2 * (a & 1) - 1, 2 * (a >> 1 & 1) - 1, 2 * (a >> 2) - 1] for a in range(8)], dtype=np.float64)
_GAUSS = 1 / np.sqrt(3.0)


def brick_stiffness(stiffness: Floats, sides: tuple[float, float, float]) -> Floats:
    """(24, 24) forces for movements, N/mm. stiffness: (6, 6) of the wood, in the directions of the sides, MPa."""
    both = np.zeros((33, 33))
    for at in CORNERS * _GAUSS:
        strain = np.hstack([_strains(at, sides), _bending(at, sides)])
        both += strain.T @ stiffness @ strain
    both *= float(np.prod(sides)) / 8
    own = both[24:, 24:]
    full = both[:24, :24] - both[:24, 24:] @ np.linalg.solve(own, both[24:, :24])
    return np.asarray((full + full.T) / 2)


def middle_strain(sides: tuple[float, float, float]) -> Floats:
    """(6, 24) strains in the middle of a brick for the movements of its corners; the bending modes add none there."""
    return _strains(np.zeros(3), sides)


def _strains(at: Floats, sides: tuple[float, float, float]) -> Floats:
    """(6, 24) strains at a place given in halves of the sides."""
    near = 1 + CORNERS * at
    others = np.column_stack([near[:, 1] * near[:, 2], near[:, 0] * near[:, 2], near[:, 0] * near[:, 1]])
    slope = CORNERS * others / 8 * 2 / np.asarray(sides)
    return _rows(slope)


def _bending(at: Floats, sides: tuple[float, float, float]) -> Floats:
    """(6, 9) strains of the modes 1 − ξ², 1 − η², 1 − ζ², along each direction."""
    return _rows(np.diag(-2 * at * 2 / np.asarray(sides)))


def _rows(slope: Floats) -> Floats:
    """Strains of shapes whose slopes along x, y, z are given, N × 3."""
    found = np.zeros((6, 3 * len(slope)))
    x, y, z = slope.T
    found[0, 0::3], found[1, 1::3], found[2, 2::3] = x, y, z
    found[3, 1::3], found[3, 2::3] = z, y
    found[4, 0::3], found[4, 2::3] = z, x
    found[5, 0::3], found[5, 1::3] = y, x
    return found


def turned_strain(axes: Floats) -> Floats:
    """(6, 6): strains in a body's own directions for those in the frame. axes: its directions as rows, (3, 3)."""
    found = np.zeros((6, 6))
    pairs = ((0, 0), (1, 1), (2, 2), (1, 2), (0, 2), (0, 1))
    for row, (p, q) in enumerate(pairs):
        a, b = axes[p], axes[q]
        twice = 1.0 if p == q else 2.0
        for column, (i, j) in enumerate(pairs):
            found[row, column] = twice * (a[i] * b[i] if i == j else (a[i] * b[j] + a[j] * b[i]) / 2)
    return found


def turned_stiffness(own: Floats, axes: Floats) -> Floats:
    """(6, 6) stiffness in the frame of a body whose stiffness in its own directions (rows of `axes`) is given, MPa."""
    turn = turned_strain(axes)
    return np.asarray(turn.T @ own @ turn)
