# SPDX-License-Identifier: LGPL-2.1-or-later

"""A body that only stands on its floor: the floor pushes and does not pull, and sideways holds but the whole body.

Points that the floor would pull are let go, those that would sink into it are held again, until nothing changes. The
floor's sideways hold is so soft that the feet spread as they like; together they still keep the body from sliding.
That is a polished floor, the worst for legs that splay. Lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.elastic.lattice import FLOOR, Lattice
from freecad_stacklam.lamination.elastic.solve import Solver
from freecad_stacklam.lamination.tolerances import COMPARED, SIDEWAYS

Floats = NDArray[np.float64]

#: How often points are let go and held again at most.
ROUNDS = 8
#: A load whose line meets the floor within this part of the base's half width from its edge stands on a line of points
#: and is left: it is about to tip.
INSIDE = 0.02


@dataclass(frozen=True, eq=False)
class Standing:
    """`moved`: N × 3 mm; `on` (N): which points the floor still holds; `rounds`: how often it was tried; `balance` as
    in Solution."""

    moved: Floats
    on: NDArray[np.bool_]
    rounds: int
    balance: float


def stands(lattice: Lattice, force: Floats, up: Floats) -> bool:
    """Whether a load, N × 3 forces on the points, presses the body onto its floor within the outline of its feet. The
    body's own weight, which no force here counts, helps."""
    feet = lattice.points[lattice.floor > 0]
    across = np.linalg.svd(up[None])[2][1:]
    base = shapely.convex_hull(shapely.multipoints(feet @ across.T))
    down = -float((force @ up).sum())
    if down <= 0 or base.area <= 0:
        return False
    arm = lattice.points - feet.mean(axis=0)
    moment = np.cross(arm, force).sum(axis=0)
    # Where the line of the load meets the floor: r with r × F = M, r square to up.
    total = force.sum(axis=0)
    at = np.cross(up, moment) / float(up @ total)
    place = shapely.Point(*((feet.mean(axis=0) + at) @ across.T))
    half = float(np.sqrt(base.area))
    return bool(shapely.contains(shapely.buffer(base, -INSIDE * half), place))


def standing(lattice: Lattice, force: Floats, up: Floats, going: Callable[[], bool] = lambda: True) -> Standing | None:
    """Movements under a load (N × 3) of a body that only stands; None where it tips, or no rest is found. up: unit, in
    the frame of the points. Raises Stopped and Refusal as the solver does."""
    if not stands(lattice, force, up):
        return None
    every = lattice.floor > 0
    on, start = every.copy(), None
    upright = np.outer(up, up)
    for rounds in range(1, ROUNDS + 1):
        soft = SIDEWAYS / (FLOOR * int(on.sum()))
        firm = upright + soft * (np.eye(3) - upright)
        solver = Solver(replace(lattice, floor=np.where(on, lattice.floor, 0.0), firm=firm), going)
        found = solver(force, COMPARED, going, start)
        risen = found.moved @ up
        near = COMPARED * float(np.abs(risen[every]).max())
        # What is held moves by its force over a stiffness, what is free by its own will.
        now = every & np.where(on, risen <= 0, risen < -near)
        if np.array_equal(now, on):
            return Standing(found.moved, on, rounds, found.balance)
        if int(now.sum()) < 3:
            return None
        on, start = now, found.moved
    return None
