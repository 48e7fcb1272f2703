# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pieces for tests of the deep check: bars of white oak, and turned pieces with known necks."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import solids
from jobs import plan_job
from numpy.typing import NDArray

from freecad_stacklam.data import species_table
from freecad_stacklam.lamination.elastic.element import turned_stiffness
from freecad_stacklam.lamination.elastic.lattice import Lattice, Wood, lattice_of
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.job.assembly import Form
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.stress.materials import elastic_for

Floats = NDArray[np.float64]

#: A stool of one piece: a foot, a neck 60 mm thick and 210 mm long, and a seat 340 mm wide.
MUSHROOM = [[0, 0], [140, 0], [140, 20], [60, 60], [30, 120], [30, 330], [60, 370], [170, 396], [170, 450], [0, 450]]


def oak(axes: Sequence[Sequence[float]]) -> Wood:
    """White oak with these directions L, R, T."""
    turn = np.array(axes, dtype=np.float64)
    return Wood(turned_stiffness(elastic_for(species_table(), "white oak").stiffness(), turn), turn)


def bar(cells: tuple[int, int, int], size: float, wood: Wood, up: Sequence[float], heights: Floats | None = None
        ) -> Lattice:  # fmt: skip
    """A solid bar of so many cells, held where it is lowest along `up`."""
    z = np.arange(cells[2] + 1) * size if heights is None else heights
    return lattice_of(np.zeros(3), size, z, [wood], [np.ones(cells)], [np.zeros(cells, dtype=int)], np.array(up))


def end_load(lattice: Lattice, axis: int, total: Sequence[float]) -> Floats:
    """An even load on the face farthest along an axis, N."""
    far = lattice.points[:, axis] >= lattice.points[:, axis].max() - 1e-9
    wood = np.bincount(lattice.corners.ravel(), np.repeat(lattice.share, 8), len(lattice.points)) * far
    return np.asarray(wood[:, None] / wood.sum() * np.array(total))


def turned(
    profile: Sequence[Sequence[float]], grain: float = 0.0, joints: tuple[JointSettings, ...] = (), sides: int = 90
) -> tuple[Plan, dict[str, Mesh]]:
    """A turned piece of 45 mm layers with the grain this way and that in turn is planned by hand: here all one way."""
    meshes = {"Piece": solids.revolved(np.array(profile, dtype=float), sides)}
    stack = StackSettings(form="Piece", stock=(45.0,), grain=grain)
    forms = [Form(name, mesh) for name, mesh in meshes.items()]
    return plan_job(forms, Settings(stacks=(stack,), joints=joints), species_table()), meshes
