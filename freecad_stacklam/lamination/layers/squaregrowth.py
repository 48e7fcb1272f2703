# SPDX-License-Identifier: LGPL-2.1-or-later

"""Blanks for an allowance square to the surface: each covers what the form, grown by a ball, needs of its slab.

The form grown by a ball of radius r reaches into the slab [a, b] from every height within r of it. What lies a depth t
above or below the slab reaches into it by √(r² − t²), level. So the blank is the union of the slab's own shadow grown
by r, and of the shadows of thin slabs beside it, at depths t1 to t2, each grown by √(r² − t1²): never too little.
A flat face of the form that lies on a glue line is covered by the next layer too. Beyond the two ends of the stack
there is no layer: there the form stands flush, or as far inside as the stack is higher.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.layers.fitting import grown
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.tolerances import COARSE, CORNER_SAG, GRID, SAME_HEIGHT

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Thin slabs on each side of a layer: their heights stand at equal angles of the ball.
_THIN = 10
_QUARTER = 24


def grown_square(
    points: Floats,
    triangles: Ints,
    twins: Ints,
    shadows: Sequence[MultiPolygon],
    planes: Sequence[float],
    margin: float,
) -> list[MultiPolygon]:
    """The n regions that blanks must cover for `margin` mm of wood square to the surface.

    points, triangles, twins: the form's mesh in the stack's frame; shadows: of the n slabs between the n + 1 planes.
    """
    depths = margin * np.sin(np.linspace(0.0, np.pi / 2, _THIN + 1))
    inner = np.asarray(planes, dtype=np.float64)
    wanted = np.concatenate([(inner[:, None] + sign * depths).ravel() for sign in (-1.0, 1.0)])
    heights = _told_apart(np.concatenate([inner, wanted]), inner)
    # Merged heights stand up to SAME_HEIGHT off, so what begins less than that within the margin is left out, or the
    # middle of a layer, whose slab begins where the ball ends, would reach into the next; the guard is far more.
    reached = margin - SAME_HEIGHT
    near = [((bottom < inner + reached) & (top > inner - reached)).any() for bottom, top in zip(heights, heights[1:])]
    thin = slice_surface(points, triangles, twins, heights.tolist(), sections=False, wanted=np.array(near)).shadows
    regions = []
    for shadow, bottom, top in zip(shadows, planes[:-1], planes[1:]):
        region = grown(shadow, margin)
        parts: list[shapely.Geometry] = [region]
        # What lies within the slab's own shadow needs no more than that, being grown by less.
        own = shapely.buffer(shadow, GRID)
        shapely.prepare(region)
        shapely.prepare(own)
        # Slabs within the margin of the layer, and no others: a stack has many.
        first, last = np.searchsorted(heights, (bottom - margin, top + margin))
        for k in range(max(int(first) - 1, 0), min(int(last), len(thin))):
            # The nearer end counts.
            apart = max(bottom - heights[k + 1], heights[k] - top, 0.0)
            outside = heights[k + 1] <= bottom or heights[k] >= top
            if not outside or thin[k].is_empty or apart >= reached or shapely.covers(own, thin[k]):
                continue
            reach = float(np.sqrt(margin**2 - apart**2)) + COARSE
            simple = shapely.simplify(thin[k], COARSE)
            more = shapely.buffer(simple, reach + max(CORNER_SAG, reach * CORNER_SAG / 10.0), quad_segs=_QUARTER)
            if not shapely.covers(region, more):
                parts.append(more)
        regions.append(region if len(parts) == 1 else grown(areas_of(shapely.union_all(parts)), 0.0))
    return regions


def _told_apart(heights: Floats, kept: Floats) -> Floats:
    """Ascending heights, none nearer to another than SAME_HEIGHT; those of `kept` all stay."""
    ends = np.concatenate([[-np.inf], np.sort(kept), [np.inf]])
    after = np.searchsorted(ends, heights)
    near = np.minimum(heights - ends[after - 1], ends[after] - heights)
    others = np.unique(heights[near >= SAME_HEIGHT])
    if len(others):
        others = others[np.concatenate([[True], np.diff(others) >= SAME_HEIGHT])]
    both: Floats = np.unique(np.concatenate([kept, others]))
    return both
