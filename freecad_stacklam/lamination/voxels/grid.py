# SPDX-License-Identifier: LGPL-2.1-or-later

"""The cells of a whole piece: equal in plan, and as high as layers allow, for every cell ends on a layer's faces.

They lie in the piece's frame, which is the frame of its first stack. Lengths mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]
Shorts = NDArray[np.int16]
Bools = NDArray[np.bool_]

#: Planes nearer than this part of a cell are one plane of the grid: a cell a quarter as high as wide still bends well.
NEAR_PLANES = 0.25


@dataclass(frozen=True)
class CellLayer:
    """What the cells of one layer are made of. `stack` is the stack's place in the plan, `number` the layer's in the
    stack; `grain` and `normal` are unit directions in the piece's frame: along the grain, and square to the layer."""

    stack: int
    number: int
    species: str
    grain: tuple[float, float, float]
    normal: tuple[float, float, float]


@dataclass(frozen=True)
class CellTenon:
    """A tenon among the cells: its joint's name, its species, and the direction of its grain in the piece's frame."""

    joint: str
    species: str
    grain: tuple[float, float, float]


@dataclass(frozen=True, eq=False)
class Voxels:
    """The cells of a piece, nx × ny × nz, in the frame of its first stack.

    `frame` (4 × 4, row-major) takes it to the model. Cell (i, j, k) reaches from `origin` + (i, j)·`size` in plan and
    from `heights`[k] to `heights`[k + 1]. `filled` is the part of a cell that is wood, tenons and pins counted in,
    mortises and hollows not; `tenon_part` the part that is tenon, `pin_part` the part that is a pin's hole. `layer` is
    the place in `layers` of the layer to which most of a cell's wood belongs, −1 in air (a tenon's cells have the
    layer around it); `tenon_of` the place in `tenons`, −1 where there is none. Arrays are not to be written to.
    """

    frame: tuple[float, ...]
    origin: Floats
    size: float
    heights: Floats
    filled: Singles
    layer: Shorts
    layers: tuple[CellLayer, ...]
    tenon_part: Singles
    tenon_of: Shorts
    tenons: tuple[CellTenon, ...]
    pin_part: Singles

    @cached_property
    def tenon(self) -> Bools:
        """Whether most of a cell's wood is tenon."""
        return np.asarray((self.tenon_part > 0) & (2 * self.tenon_part >= self.filled))

    @cached_property
    def thick(self) -> Floats:
        """Heights of the cells, nz, mm."""
        return np.diff(self.heights)

    @property
    def shape(self) -> tuple[int, int, int]:
        """How many cells lie along x, y and z."""
        x, y, z = self.filled.shape
        return x, y, z

    @cached_property
    def volume(self) -> float:
        """Of the wood, mm³."""
        return float(self.filled.sum(axis=(0, 1), dtype=np.float64) @ self.thick) * self.size**2

    def centres(self, cells: NDArray[np.int64]) -> Floats:
        """Middles of cells (N × 3 whole numbers) in the piece's frame, N × 3, mm."""
        plan = self.origin[:2] + (cells[:, :2] + 0.5) * self.size
        middle = (self.heights[:-1] + self.heights[1:]) / 2
        return np.column_stack([plan, middle[cells[:, 2]]])


@dataclass(frozen=True, eq=False)
class Grid:
    """Where the cells lie, before they are filled: as in Voxels; `count` cells along x and y."""

    origin: Floats
    size: float
    heights: Floats
    count: tuple[int, int]

    @property
    def shape(self) -> tuple[int, int, int]:
        """How many cells lie along x, y and z."""
        return self.count[0], self.count[1], len(self.heights) - 1


def heights_of(faces: Iterable[float], size: float) -> Floats:
    """Heights at which cells end: at every face given, and between two of them in equal steps as near to `size` as a
    whole number of them allows. Of faces nearer than NEAR_PLANES of a cell only the first given counts."""
    planes: list[float] = []
    for face in faces:
        if all(abs(face - other) > NEAR_PLANES * size for other in planes):
            planes.append(float(face))
    planes.sort()
    steps = [np.linspace(a, b, max(1, round((b - a) / size)), endpoint=False) for a, b in zip(planes[:-1], planes[1:])]
    return np.concatenate([*steps, [planes[-1]]])


def grid_over(low: Floats, high: Floats, faces: Iterable[float], size: float) -> Grid:
    """A grid from `low` to `high`, as far over one end as over the other. faces: as heights_of."""
    count = np.maximum(1, np.ceil((high[:2] - low[:2]) / size - NEAR_PLANES / 100)).astype(int)
    heights = heights_of([low[2], high[2], *faces], size)
    origin = np.array([*((low[:2] + high[:2]) / 2 - count * size / 2), heights[0]])
    return Grid(origin, size, heights, (int(count[0]), int(count[1])))
