# SPDX-License-Identifier: LGPL-2.1-or-later

"""A mesh of second-order tetrahedra as a mesher wrote it, put in the order that the solver wants.

Corners are 0 to 3; the points between them 4 to 9 lie on the edges (0, 1), (1, 2), (2, 0), (0, 3), (1, 3), (2, 3): the
order of the solver's ten-node tetrahedron. The mesher has the last two the other way. Lengths mm.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Corners at the ends of the edges that points 4 to 9 lie on.
EDGES = np.array([[0, 1], [1, 2], [2, 0], [0, 3], [1, 3], [2, 3]])
#: The mesher's number of a ten-node tetrahedron, and its order of points as ours.
_TEN_NODES, _ORDER = "11", [0, 1, 2, 3, 4, 5, 6, 7, 9, 8]
#: Barycentric coordinates of the four points at which such a tetrahedron is integrated, as the solver numbers them
#: (Zienkiewicz, The Finite Element Method: the quadratic rule, weights 1/4, from memory).
_A, _B = (5 + 3 * np.sqrt(5)) / 20, (5 - np.sqrt(5)) / 20
INTEGRATED = np.full((4, 4), _B) + (_A - _B) * np.eye(4)
#: An element bent so far that its volume shrinks to less than this part somewhere is made straight-sided.
LEAST_SHRUNK = 0.2


@dataclass(frozen=True, eq=False)
class Tetrahedra:
    """`points` (N × 3), and the ten `corners` (E × 10) of each element, in the solver's order; `straight`: how many
    were made straight-sided."""

    points: Floats
    corners: Ints
    straight: int = 0

    @property
    def middles(self) -> Floats:
        """Of the elements, E × 3."""
        return np.asarray(self.points[self.corners[:, :4]].mean(axis=1))

    def integrated(self) -> tuple[Floats, Floats]:
        """Where each element is integrated, E × 4 × 3, and the volume that each of those places counts for, E × 4."""
        at = np.einsum("gn,enk->egk", _shapes(INTEGRATED), self.points[self.corners])
        return at, volumes(self.points, self.corners) / 4


def _shapes(at: Floats) -> Floats:
    """G × 10 shape functions at barycentric coordinates G × 4."""
    return np.hstack([at * (2 * at - 1), 4 * at[:, EDGES[:, 0]] * at[:, EDGES[:, 1]]])


def _slopes(at: Floats) -> Floats:
    """G × 10 × 3 slopes of the shape functions along the coordinates of corners 1, 2 and 3, corner 0's being the
    rest."""
    own = np.zeros((len(at), 10, 4))
    for i in range(4):
        own[:, i, i] = 4 * at[:, i] - 1
    for number, (i, j) in enumerate(EDGES):
        own[:, 4 + number, i], own[:, 4 + number, j] = 4 * at[:, j], 4 * at[:, i]
    return own[:, :, 1:] - own[:, :, :1]


def volumes(points: Floats, corners: Ints) -> Floats:
    """E × 4: volume of each element as its four integration places see it, mm³ (their mean is the element's)."""
    # (3, 3) a place: how the element's own coordinates stretch.
    stretch = np.einsum("enk,gnl->egkl", points[corners], _slopes(INTEGRATED))
    return np.asarray(np.linalg.det(stretch) / 6)


def straightened(mesh: Tetrahedra) -> Tetrahedra:
    """The same mesh with straight edges where a curved one turned its element inside out, or nearly so."""
    points, done = mesh.points.copy(), np.zeros(len(mesh.corners), dtype=bool)
    flat = points[mesh.corners[:, :4]]
    plain = np.linalg.det(flat[:, 1:] - flat[:, :1]) / 6
    while True:
        bad = (volumes(points, mesh.corners) < LEAST_SHRUNK * plain[:, None]).any(axis=1) & ~done
        if not bad.any():
            return Tetrahedra(points, mesh.corners, int(done.sum()))
        done |= bad
        own = mesh.corners[bad]
        points[own[:, 4:]] = points[own[:, :4][:, EDGES]].mean(axis=2)


def all_straight(mesh: Tetrahedra) -> Tetrahedra:
    """The same mesh with every edge straight."""
    points = mesh.points.copy()
    points[mesh.corners[:, 4:]] = points[mesh.corners[:, :4][:, EDGES]].mean(axis=2)
    return Tetrahedra(points, mesh.corners, len(mesh.corners))


def read_mesh(text: str) -> Tetrahedra:
    """The tetrahedra in a mesh file (format 2.2, text). Points that no element has are left out. Raises Refusal where
    there is none, or one of them is turned inside out."""
    points_part, elements_part = _part(text, "Nodes"), _part(text, "Elements")
    rows = np.array([line.split() for line in points_part], dtype=np.float64).reshape(-1, 4)
    found = [line.split() for line in elements_part]
    tens = np.array([row[-10:] for row in found if len(row) > 12 and row[1] == _TEN_NODES], dtype=np.int64)
    if not len(tens) or not len(rows):
        raise Refusal(say("The mesher made no tetrahedra of the form: go by the deep check."))
    at = np.full(int(rows[:, 0].max()) + 1, -1)
    at[rows[:, 0].astype(np.int64)] = np.arange(len(rows))
    used, corners = np.unique(at[tens[:, _ORDER]], return_inverse=True)
    corners = corners.reshape(-1, 10)
    points = rows[used, 1:]
    flat = points[corners[:, :4]]
    if (np.linalg.det(flat[:, 1:] - flat[:, :1]) <= 0).any():
        raise Refusal(say("The mesher turned some of its tetrahedra inside out: go by the deep check."))
    return Tetrahedra(points, corners)


def _part(text: str, name: str) -> list[str]:
    """The lines of one part of a mesh file, without their count."""
    start, end = text.find(f"${name}\n"), text.find(f"$End{name}")
    return text[start:end].splitlines()[2:] if 0 <= start < end else []
