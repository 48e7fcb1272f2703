# SPDX-License-Identifier: LGPL-2.1-or-later

"""What pads reach by the rule of 45°: under a pad of diameter d, pressure spreads to d + 2h at a depth of h.

The cone goes through the wood that is there: three times a layer, and where a cut begins or ends, it grows by that
height and is cut with the wood there. Grown once for a whole layer it would jump across a mortise.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import shapely
from shapely.geometry import MultiPolygon, Point

from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.pressing.faces import Slab
from freecad_stacklam.lamination.tolerances import COARSE

#: Of the circles that a cone grows by: a quarter in so many chords.
_CHORDS = 8


def pad_discs(places: Iterable[tuple[float, float]], pad: float) -> shapely.Geometry:
    """Round pads of a diameter about their middles, as one area."""
    return shapely.union_all([Point(p).buffer(pad / 2, 2 * _CHORDS) for p in places])


def cones_down(pile: Sequence[Slab], pads: shapely.Geometry) -> tuple[MultiPolygon, ...]:
    """What pads on the pile's top reach at the lower face of each slab but the lowest: one area a line, from the bottom
    of the pile. `pads` is their area in plan."""
    found = []
    cone = shapely.intersection(pads, pile[-1].upper)
    for slab in pile[:0:-1]:
        cone = _through(cone, slab.steps[::-1])
        found.append(areas_of(cone))
    return tuple(found[::-1])


def cones_up(pile: Sequence[Slab], pads: shapely.Geometry) -> tuple[MultiPolygon, ...]:
    """The same for pads under the pile: what they reach at the upper face of each slab but the highest."""
    found = []
    cone = shapely.intersection(pads, pile[0].lower)
    for slab in pile[:-1]:
        cone = _through(cone, slab.steps)
        found.append(areas_of(cone))
    return tuple(found)


def reached(pile: Sequence[Slab], above: shapely.Geometry, below: shapely.Geometry) -> tuple[MultiPolygon, ...]:
    """What is inside the cones of both, on each line of the pile from the bottom: pads above and pads below."""
    downs, ups = cones_down(pile, above), cones_up(pile, below)
    return tuple(areas_of(shapely.intersection(d, u)) for d, u in zip(downs, ups))


def _through(cone: shapely.Geometry, steps: Sequence[tuple[float, MultiPolygon]]) -> shapely.Geometry:
    for height, wood in steps:
        if cone.is_empty:
            return cone
        grown = shapely.buffer(cone, height, quad_segs=_CHORDS)
        cone = shapely.intersection(shapely.simplify(grown, COARSE), wood)
    return cone
