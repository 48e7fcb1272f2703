# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much wood the blank of any slab of a form would take: asked of hundreds of slabs before the layers are chosen.

The outlines are not fitted, and shadows are thinned, so an area is within about a percent of the drawn blank's.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from heapq import heappop, heappush

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.layers.fitting import SAW_GAP
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.tolerances import COARSE, PLANE_SNAP

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Objects = NDArray[np.object_]

#: Into how many depths the ball is parted that an allowance square to the surface is measured with: at equal angles.
_DEPTHS = 2

Slab = tuple[float, float]


class SlabWood:
    """Blank areas of any slabs of one form, in mm². Every slab is measured once.

    margin: of wood around the form, mm; level, or `square` to its surface: then the slab is measured with what lies
    beside it, a depth t above or below, which reaches into it by √(margin² − t²).
    """

    def __init__(
        self, points: Floats, triangles: Ints, twins: Ints, margin: float, fill_holes: bool = False,
        square: bool = False,
    ) -> None:  # fmt: skip
        self.points, self.triangles, self.twins = points, triangles, twins
        self.margin, self.fill_holes = margin, fill_holes
        ends = margin * np.sin(np.linspace(0.0, np.pi / 2, _DEPTHS + 1)) if square else np.zeros(1)
        middles = (ends[:-1] + ends[1:]) / 2
        #: How far the slab is widened up and down, and how far its shadow is then grown.
        self._beside = [(0.0, margin), *zip(ends[1:].tolist(), np.sqrt(margin**2 - middles**2).tolist())]
        self._known: dict[Slab, float] = {}

    def measure(self, slabs: Iterable[Slab]) -> None:
        """Find the areas of all `slabs` (bottom, top) together: each pass takes slabs that do not overlap."""
        wanted = sorted({s for s in slabs if s not in self._known})
        if not wanted:
            return
        reached: list[Objects] = []
        for deep, reach in self._beside:
            wide = [(low - deep, high + deep) for low, high in wanted]
            shadows = self._shadows(wide)
            thin = shapely.simplify([shadows[slab] for slab in wide], COARSE, preserve_topology=False)
            reached.append(shapely.buffer(thin, reach + SAW_GAP, quad_segs=6))
        grown = reached[0] if len(reached) == 1 else shapely.union_all(np.array(reached, dtype=object), axis=0)
        self._known.update(zip(wanted, shapely.area(self._closed(grown)).tolist()))

    def _shadows(self, slabs: Sequence[Slab]) -> dict[Slab, shapely.Geometry]:
        """The shadow of each slab."""
        found: dict[Slab, shapely.Geometry] = {}
        for row in _rows(sorted(set(slabs))):
            heights = sorted({h for slab in row for h in slab})
            at = {h: i for i, h in enumerate(heights)}
            shadows = slice_surface(self.points, self.triangles, self.twins, heights, sections=False).shadows
            found.update((slab, shadows[at[slab[0]]]) for slab in row)
        return found

    def knows(self, slab: Slab) -> bool:
        """Whether the slab was measured."""
        return slab in self._known

    def area(self, slab: Slab) -> float:
        """Blank area of one slab that was measured."""
        return self._known[slab]

    def _closed(self, wide: Objects) -> Objects:
        """Blanks of regions that were grown by what a saw cannot pass between."""
        blanks = np.asarray(shapely.buffer(wide, -SAW_GAP, quad_segs=2))
        if self.fill_holes:
            blanks = np.array(
                [shapely.union_all([shapely.Polygon(p.exterior) for p in shapely.get_parts(b)]) for b in blanks],
                dtype=object,
            )
        return blanks


def _rows(slabs: Sequence[Slab]) -> list[list[Slab]]:
    """Slabs, sorted by their bottoms, dealt into rows in which none overlaps another."""
    rows: list[list[Slab]] = []
    ends: list[tuple[float, int]] = []
    for slab in slabs:
        if ends and ends[0][0] <= slab[0]:
            _, k = heappop(ends)
            # Planes closer than the snap would be one plane.
            if slab[0] - rows[k][-1][1] in (0.0,) or slab[0] - rows[k][-1][1] > 4 * PLANE_SNAP:
                rows[k].append(slab)
                heappush(ends, (slab[1], k))
                continue
            heappush(ends, (rows[k][-1][1], k))
        rows.append([slab])
        heappush(ends, (slab[1], len(rows) - 1))
    return rows
