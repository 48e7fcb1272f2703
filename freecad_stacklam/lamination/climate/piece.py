# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cells of a whole piece as wood that moisture moves in, and which cells belong together.

Glue lines let moisture through as wood does, and a closed void gives none: both are simplifications, told with the
findings. Diffusion hangs on the direction of the grain alone; across it, radial and tangential are taken alike.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.climate.diffusion import LEAST_FILLED, Body, grain_diffusivity
from freecad_stacklam.lamination.tolerances import PARALLEL
from freecad_stacklam.lamination.usage.climate import ClimateSettings
from freecad_stacklam.lamination.voxels.grid import Voxels

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Shorts = NDArray[np.int16]

#: How many cells beyond a tenon are the wood around it.
AROUND = 2


@dataclass(frozen=True, eq=False)
class Piece:
    """A body and its parts. `part`: for each cell of the grid the layer it belongs to (its place among the layers of
    the voxels), or behind the layers each tenon in each stack: layers + tenon · stacks + stack; −1 in air. `around`:
    the same number of a tenon in a stack for wood about it, −1 elsewhere. `along`: the cell's height square to its
    layer, mm."""

    body: Body
    part: Shorts
    around: Shorts
    along: Floats
    layers: int
    stacks: int
    tenons: int

    def tenon_part(self, tenon: int, stack: int) -> int:
        """The number of a tenon's part in a stack."""
        return self.layers + tenon * self.stacks + stack

    @property
    def parts(self) -> int:
        """How many numbers there are."""
        return self.layers + self.tenons * self.stacks


def piece_of(voxels: Voxels, settings: ClimateSettings) -> Piece:
    """The piece as wood. See Voxels and ClimateSettings."""
    layers, tenons = len(voxels.layers), len(voxels.tenons)
    stacks = 1 + max((one.stack for one in voxels.layers), default=0)
    in_stack = np.array([one.stack for one in voxels.layers], dtype=np.int16)
    wood = (voxels.filled >= LEAST_FILLED) & (voxels.layer >= 0)
    tenon = wood & voxels.tenon & (voxels.tenon_of >= 0)
    stack = in_stack[np.maximum(voxels.layer, 0)]
    owner = layers + voxels.tenon_of * stacks + stack
    part = np.where(tenon, owner, np.where(wood, voxels.layer, -1)).astype(np.int16)

    around = np.full(part.shape, -1, dtype=np.int16)
    for number in range(tenons):
        mine = tenon & (voxels.tenon_of == number)
        near = wood & ~tenon & _grown(mine, AROUND)
        around[near] = (layers + number * stacks + stack)[near]

    grains = [*(one.grain for one in voxels.layers), *(one.grain for one in voxels.tenons)]
    rates = np.array([grain_diffusivity(g, settings.across, settings.across * settings.ratio) for g in grains])
    kind = np.where(tenon, layers + voxels.tenon_of, np.maximum(voxels.layer, 0)).astype(np.int16)
    filled = np.where(wood, np.asarray(voxels.filled, dtype=np.float64), 0.0)
    body = Body(filled, voxels.size, voxels.heights, kind, rates)

    normals = np.array([one.normal for one in voxels.layers])[np.maximum(voxels.layer, 0)]
    middle = (voxels.heights[:-1] + voxels.heights[1:]) / 2
    x, y = ((np.arange(n) + 0.5) * voxels.size for n in part.shape[:2])
    along = normals[..., 0] * x[:, None, None] + normals[..., 1] * y[None, :, None] + normals[..., 2] * middle
    return Piece(body, part, around, along, layers, stacks, tenons)


def _grown(cells: Bools, by: int) -> Bools:
    """The cells and those within so many faces of them."""
    for _ in range(by):
        grown = cells.copy()
        for axis in range(3):
            mine, old = np.moveaxis(grown, axis, 0), np.moveaxis(cells, axis, 0)
            mine[1:] |= old[:-1]
            mine[:-1] |= old[1:]
        cells = grown
    return cells


def slanted(voxels: Voxels) -> bool:
    """Whether the grain of any part lies along none of the cells' axes: then a part of the diffusion is left out."""
    grains = np.abs(np.array([*(one.grain for one in voxels.layers), *(one.grain for one in voxels.tenons)]))
    return bool((grains.max(axis=1) < 1 - PARALLEL).any())


def left_out(voxels: Voxels) -> float:
    """Share of the wood that lies in cells filled so little that they count as air."""
    thick = np.diff(voxels.heights)
    small = np.where(voxels.filled < LEAST_FILLED, voxels.filled, 0.0)
    return float((small * thick).sum() / max(float((voxels.filled * thick).sum()), 1.0))
