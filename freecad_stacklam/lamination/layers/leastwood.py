# SPDX-License-Identifier: LGPL-2.1-or-later

"""The least wood between the form and the surface of the glued block, square to it: under walls and step faces.

The glued block has two kinds of surface. Its walls are the sawn edges of the layers, and the proof measures how far
they stand from the form. Its step faces are the parts of a layer's upper or lower face that the neighbour does not
cover. On a slope of angle s, blanks with a level allowance a leave a·sin(s) below the edge of each step, and no more.

Two places are left out, for there the form itself ends and no allowance can leave wood: the two ends of the stack, and
a flat face of the form that lies on a glue line, with as much round it as the blank stands out.

How the distance from a step face at height h to the form is found: the form is cut into thin slabs at depths t1 to t2
under the face. With e the level distance from the face to the shadow of such a slab, the wood is at least
√(e² + t1²) and at most √(e² + t2²). The slab that could hold the least is cut again until both agree.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.plan.layers import LeastWood
from freecad_stacklam.lamination.tolerances import ARC_SAG, NO_AREA, ROUNDING, WOOD_TOLERANCE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Into how many slabs an open slab is cut, and the circle round a point when a zone is drawn.
_PARTS = 4
_QUARTER = 24


@dataclass(frozen=True)
class StepFace:
    """The counted part of one face of a layer that its neighbour does not cover: of layer `layer` (from 1), at height
    `height`; `side` is 1 for an upper face, with the form below it, and −1 for a lower face."""

    layer: int
    height: float
    side: int
    area: MultiPolygon


def step_faces(
    planes: Sequence[float],
    blanks: Sequence[MultiPolygon],
    just_below: Sequence[MultiPolygon],
    just_above: Sequence[MultiPolygon],
    around: float,
) -> list[StepFace]:
    """The step faces at the inner planes, without flat faces of the form that lie on them.

    blanks: n areas; just_below, just_above: the form's sections at the n + 1 planes; around: how far beside a flat face
    of the form its step face is left out too, mm.
    """
    found = []
    for i in range(1, len(planes) - 1):
        for side, mine, other, section in (
            (1, blanks[i - 1], blanks[i], just_below[i]),
            (-1, blanks[i], blanks[i - 1], just_above[i]),
        ):
            face = shapely.difference(mine, other)
            flush = areas_of(shapely.intersection(face, section))
            if not flush.is_empty:
                face = shapely.difference(face, shapely.buffer(flush, around, quad_segs=_QUARTER))
            area = areas_of(face)
            if not area.is_empty:
                found.append(StepFace(i if side > 0 else i + 1, planes[i], side, area))
    return found


def least_wood(
    points: Floats,
    triangles: Ints,
    twins: Ints,
    steps: Sequence[StepFace],
    wall: LeastWood,
    exact_points: Floats | None = None,
) -> LeastWood:
    """The least wood under walls and step faces.

    points, triangles, twins: the form's mesh in the stack's frame, mm. wall: the least wood under
    walls, from the proof. exact_points: K × 3 on the modelled surface. What is said of a step face is never more
    than the mesh leaves and at most 3 × WOOD_TOLERANCE less.
    """
    best = wall
    if wall.distance <= 0 or not steps:
        return best
    found = _under_steps(points, triangles, twins, steps, wall.distance)
    if found is not None and found.distance < best.distance:
        best = found
    if exact_points is not None and len(exact_points):
        best = _under_points(exact_points, steps, best)
    return best


def _under_steps(
    points: Floats, triangles: Ints, twins: Ints, steps: Sequence[StepFace], within: float
) -> LeastWood | None:
    """The least wood under step faces if it is less than `within` mm, by slabs that are cut finer where the least may
    lie."""
    for step in steps:
        shapely.prepare(step.area)
    best: LeastWood | None = None
    most = within
    still = [(number, 0.0, within) for number in range(len(steps))]
    while still:
        measured = []
        for number, near, far, shadow in _slabs(points, triangles, twins, steps, still):
            # A slab that cannot be better by WOOD_TOLERANCE is not cut again; the answer pays for it.
            better = (most - WOOD_TOLERANCE) ** 2 - near**2
            if most <= WOOD_TOLERANCE or better <= 0.0:
                continue
            level, place = _level(steps[number].area, shadow, float(np.sqrt(better)))
            high = float(np.hypot(level, far))
            measured.append((float(np.hypot(level, near)), number, near, far))
            if high < most:
                most, step = high, steps[number]
                z = step.height - step.side * far
                best = LeastWood(0.0, (place[0], place[1], z), "step", step.layer, step.side)
        still = []
        for low, number, near, far in measured:
            if low < most - WOOD_TOLERANCE:
                parts = np.linspace(near, far, _PARTS + 1)
                still += [(number, float(a), float(b)) for a, b in zip(parts[:-1], parts[1:])]
    return best and replace(best, distance=max(most - 2 * WOOD_TOLERANCE, 0.0))


def _slabs(
    points: Floats,
    triangles: Ints,
    twins: Ints,
    steps: Sequence[StepFace],
    asked: Sequence[tuple[int, float, float]],
) -> list[tuple[int, float, float, MultiPolygon]]:
    """The shadow of the form at depths near to far under step faces, for all of them in one pass: number of the face,
    near, far, shadow. Where the heights of two faces mix, a slab comes in several."""
    ends = [sorted((steps[n].height - steps[n].side * a, steps[n].height - steps[n].side * b)) for n, a, b in asked]
    heights = np.unique(np.round(np.array(ends).ravel(), 6))
    runs = np.searchsorted(heights, np.round(np.array(ends), 6)).tolist()
    wanted = np.zeros(len(heights) - 1, dtype=bool)
    for first, last in runs:
        wanted[first:last] = True
    shadows = slice_surface(points, triangles, twins, heights.tolist(), sections=False, wanted=wanted).shadows
    found = []
    for (number, _, _), (first, last) in zip(asked, runs):
        for k in range(first, last):
            if not shadows[k].is_empty:
                step = steps[number]
                depths = [step.side * (step.height - float(z)) for z in heights[k : k + 2]]
                found.append((number, max(min(depths), 0.0), max(depths), shadows[k]))
    return found


def _level(face: MultiPolygon, shadow: MultiPolygon, within: float) -> tuple[float, tuple[float, float]]:
    """Level distance from a step face to a shadow, and the place on the shadow; inf where it is more than `within`.
    What is thinned for it is paid for by WOOD_TOLERANCE."""
    nowhere = (0.0, 0.0)
    if not shapely.dwithin(face, shadow, within):
        return np.inf, nowhere
    if shapely.intersects(face, shadow):
        at = shapely.point_on_surface(shapely.intersection(face, shadow))
        return 0.0, (at.x, at.y)
    line = shapely.shortest_line(face, shapely.simplify(shadow, ARC_SAG))
    x, y = shapely.get_coordinates(line)[-1].tolist()
    return float(line.length), (x, y)


def _under_points(exact: Floats, steps: Sequence[StepFace], best: LeastWood) -> LeastWood:
    """The least wood where points of the modelled surface lie nearer to a step face than the mesh does."""
    for step in steps:
        depth = step.side * (step.height - exact[:, 2])
        here = np.flatnonzero((depth >= 0.0) & (depth < best.distance))
        if not len(here):
            continue
        apart = np.hypot(shapely.distance(step.area, shapely.points(exact[here, :2])), depth[here])
        i = int(apart.argmin())
        if apart[i] < best.distance:
            x, y, z = (float(v) for v in exact[here[i]])
            best = LeastWood(float(apart[i]), (x, y, z), "step", step.layer, step.side)
    return best


def thin_zones(
    points: Floats, triangles: Ints, twins: Ints, steps: Sequence[StepFace], limit: float
) -> list[tuple[StepFace, MultiPolygon]]:
    """The parts of step faces under which less than `limit` mm of wood is left, none of them missed; the faces that
    have such a part."""
    depths = limit * np.sin(np.linspace(0.0, np.pi / 2, 3 * _PARTS + 1))
    asked = [(n, float(a), float(b)) for n in range(len(steps)) for a, b in zip(depths[:-1], depths[1:])]
    near: dict[int, list[shapely.Geometry]] = {}
    for number, first, _, shadow in _slabs(points, triangles, twins, steps, asked) if asked else ():
        reach = float(np.sqrt(max(limit**2 - first**2, 0.0))) + ARC_SAG
        if reach > ROUNDING and shapely.dwithin(steps[number].area, shadow, reach):
            thin = shapely.simplify(shadow, ARC_SAG)
            near.setdefault(number, []).append(shapely.buffer(thin, reach, quad_segs=_QUARTER))
    found = []
    for number, areas in near.items():
        zone = areas_of(shapely.intersection(steps[number].area, shapely.union_all(areas)), NO_AREA)
        if not zone.is_empty:
            found.append((steps[number], zone))
    return found
