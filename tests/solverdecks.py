# SPDX-License-Identifier: LGPL-2.1-or-later

"""A deck of one tetrahedron for tests, and what a solver would print for it."""

from __future__ import annotations

import numpy as np

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.opinion.deck import Deck, Laid
from freecad_stacklam.lamination.opinion.tetrahedra import EDGES, Tetrahedra
from freecad_stacklam.lamination.stress.materials import elastic_for

CORNERS = np.array([[0, 0, 0], [10, 0, 0], [0, 10, 0], [0, 0, 10]], dtype=float)


def one_element(force: tuple[float, float, float] = (0.0, 0.0, -90.0)) -> Deck:
    """Held at three corners, loaded at the fourth."""
    points = np.concatenate([CORNERS, CORNERS[EDGES].mean(axis=1)])
    wood = Laid(elastic_for(species_table(), "white oak"), np.array([[0, 1, 0], [0, 0, 1], [1, 0, 0]], dtype=float))
    return Deck(
        Tetrahedra(points, np.arange(10)[None]), [wood], np.zeros(1, dtype=int), np.array([0, 1, 2]), np.array([3]),
        np.array([force]), np.array([0]),
    )  # fmt: skip


def printed(held: float = 90.0, places: int = 4) -> str:
    """The floor answers with `held` N at corner 0, where the load stands above."""
    stress = "\n".join(f"         1   {n} {1:E} {2:E} {3:E} {4:E} {5:E} {6:E}" for n in range(1, places + 1))
    return f"""
                        S T E P       1

                                INCREMENT     1

 forces (fx,fy,fz) for set FLOOR and time  0.1000000E+01

         1  0.000000E+00  0.000000E+00  {held:E}
         2  0.000000E+00  0.000000E+00  0.000000E+00
         3  0.000000E+00  0.000000E+00  0.000000E+00

 displacements (vx,vy,vz) for set LOADED and time  0.1000000E+01

         4  1.000000E-03  0.000000E+00 -2.000000E-02

 stresses (elem, integ.pnt.,sxx,syy,szz,sxy,sxz,syz) for set READ and time  0.1000000E+01

{stress}
"""
