# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a load may stand on what a section carries, what forces it makes there, and what each of several members gets.

One member carries all: that is statics. Several share (legs, the sides of an opening), and how depends on how stiff
they are, which sections do not know: the share is an estimate. Each stands on a foot that can turn (the sides of an
opening: where they join below); the feet give evenly, those that would lift let go while there is weight on the piece,
and the push goes to the feet as they are loaded. What the feet cannot hold by pressing (two feet, a push across their
line) they hold by their own stiffness, in even parts. Lengths mm, forces N.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.strength.members import Group
from freecad_stacklam.lamination.tolerances import NO_AREA, ROUGH_PLAN, ROUNDING
from freecad_stacklam.lamination.usage.edges import inside_edge

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: A load less than this above a section presses on it and does not bend it, mm.
LEAST_ABOVE = 10.0
#: The surface's height at an edge is taken this far inside it, mm.
EDGE = 1.0
#: Places along an edge that are tried, and directions of a push.
DIRECTIONS = 24
_ANGLES = 2 * np.pi * np.arange(DIRECTIONS) / DIRECTIONS
#: Unit vectors in those directions, DIRECTIONS × 2.
AROUND: Floats = np.stack([np.cos(_ANGLES), np.sin(_ANGLES)], axis=1)


@dataclass(frozen=True, eq=False)
class Pushes:
    """The ways in which one load may act: `places` and `forces`, L × 3 in the model."""

    places: Floats
    forces: Floats


class Surface:
    """The upper side of a piece. bodies: vertices (N × 3, in the model, mm) and triangles (M × 3) of each form."""

    def __init__(self, bodies: Sequence[tuple[Floats, Ints]]) -> None:
        corners = np.concatenate([points[triangles] for points, triangles in bodies])
        one, two = corners[:, 1, :2] - corners[:, 0, :2], corners[:, 2, :2] - corners[:, 0, :2]
        area = one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]
        up = area > NO_AREA
        self._corners, self._area = corners[up], area[up]
        plan = self._corners[:, :, :2]
        self._tree = shapely.STRtree(shapely.box(*plan.min(axis=1).T, *plan.max(axis=1).T))

    def heights(self, points: Floats) -> Floats:
        """Height of the highest wood at places of the plan, N × 2 → N, mm; minus infinity beside the piece."""
        which, triangle = self._tree.query(shapely.points(points))
        a, b, c = np.moveaxis(self._corners[triangle], 1, 0)
        p = points[which]
        u = ((p[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (p[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])) / self._area[
            triangle
        ]
        v = ((b[:, 0] - a[:, 0]) * (p[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (p[:, 0] - a[:, 0])) / self._area[
            triangle
        ]
        inside = (u >= -ROUNDING) & (v >= -ROUNDING) & (u + v <= 1 + ROUNDING)
        found = np.full(len(points), -np.inf)
        z = a[:, 2] + u * (b[:, 2] - a[:, 2]) + v * (c[:, 2] - a[:, 2])
        np.maximum.at(found, which[inside], z[inside])
        return found


class Edges:
    """Places at the edges of plans, worked out once for each plan and inset. surface: of the piece."""

    def __init__(self, surface: Surface) -> None:
        self._surface = surface
        self._known: dict[tuple[int, float], tuple[shapely.Geometry, Floats]] = {}

    def of(self, group: Group, inset: float) -> Floats:
        """Farthest places of what the group carries, as `inner_edge`, each at the height of the surface there, or of
        the group's top where the surface is steep; DIRECTIONS × 3."""
        key = id(group.shadow), inset
        if key not in self._known:
            edge = inner_edge(group.shadow, inset)
            middle = shapely.get_coordinates(shapely.centroid(group.shadow))[0]
            inward = middle - edge
            away = np.maximum(np.linalg.norm(inward, axis=1, keepdims=True), 1.0)
            heights = self._surface.heights(edge + inward / away * EDGE)
            heights = np.where(np.isfinite(heights), np.minimum(heights, group.top), group.top)
            self._known[key] = group.shadow, np.column_stack([edge, heights])
        return self._known[key][1]

    def middle(self, group: Group) -> Floats:
        """The middle of what the group carries, 1 × 3."""
        at = shapely.get_coordinates(shapely.centroid(group.shadow))
        height = float(self._surface.heights(at)[0])
        return np.column_stack([at, [min(height, group.top) if np.isfinite(height) else group.top]])


def inner_edge(shadow: shapely.Geometry, inset: float) -> Floats:
    """Points of the edge of a plan, `inset` mm inside its outer edge, farthest in each direction, DIRECTIONS × 2; of a
    plan too narrow for that as `inside_edge`."""
    shadow = shapely.union_all([shapely.Polygon(part.exterior) for part in shapely.get_parts(shadow).tolist()])
    low_x, low_y, high_x, high_y = shapely.bounds(shadow)
    inside = inside_edge(shapely.simplify(shadow, ROUGH_PLAN * max(high_x - low_x, high_y - low_y)), inset)
    points = shapely.get_coordinates(shapely.convex_hull(inside))
    found: Floats = points[np.argmax(points @ AROUND.T, axis=0)]
    return found


def pushes_of(load: LoadCase, group: Group, height: float, edges: Edges) -> Pushes | None:
    """How a load may act on what lies above `height` in a group; None where it stands elsewhere, or so near above that
    its place is pressed and nothing is bent.

    It stands at the farthest places of the edge, or in the middle; its push goes outward at an edge, or the way it is
    told, or every way.
    """
    if load.place == "point":
        assert load.at is not None
        if not shapely.dwithin(group.shadow, shapely.Point(load.at[:2]), 1.0):
            return None
        places = np.array([load.at])
    else:
        places = edges.middle(group) if load.place == "middle" else edges.of(group, load.inset)
    ways = AROUND if load.place == "edge" else None
    if load.direction is not None:
        turn = np.radians(load.direction)
        ways = np.tile([np.cos(turn), np.sin(turn)], (len(places), 1))
    elif ways is None:
        ways, places = np.tile(AROUND, (len(places), 1)), np.repeat(places, DIRECTIONS, axis=0)
    above = places[:, 2] > height + LEAST_ABOVE
    if not above.any():
        return None
    places, ways = places[above], ways[above]
    return Pushes(places, np.column_stack([load.push * ways, np.full(len(places), -load.down)]))


def shared(pushes: Pushes, feet: Floats) -> list[tuple[Pushes, Floats]]:
    """Of each foot (K × 3) the forces that act through it on the member above, as if it were cut from below: places and
    forces (L × 3), and couples (L × 3)."""
    down = -pushes.forces[:, 2]
    floor = float(feet[:, 2].mean())
    lever = pushes.places[:, 2] - floor
    # Σ N = W, Σ N·x = moment about y, Σ N·y = −moment about x.
    wanted = np.stack(
        [
            down,
            down * pushes.places[:, 0] + pushes.forces[:, 0] * lever,
            down * pushes.places[:, 1] + pushes.forces[:, 1] * lever,
        ]
    )
    count = len(feet)
    middle = feet[:, :2].mean(axis=0)
    wanted[1:] -= np.outer(middle, down)
    arms = np.stack([np.ones(count), *(feet[:, :2] - middle).T])
    press = np.linalg.pinv(arms) @ wanted
    left = wanted - arms @ press
    for load in np.flatnonzero((press < -ROUNDING).any(axis=0) & (down > 0)).tolist():
        press[:, load] = _standing(arms, wanted[:, load], press[:, load])
    total = np.clip(press, 0.0, None)
    share = np.where(down > 0, total / np.maximum(total.sum(axis=0), ROUNDING), 1.0 / count)
    couples = np.column_stack([-left[2], left[1], np.zeros(len(down))])
    found = []
    for i in range(count):
        forces = np.column_stack([pushes.forces[:, :2] * share[i][:, None], -press[i]])
        holds = np.where(down > 0, share[i], 1.0 / count)
        found.append((Pushes(np.tile(feet[i], (len(down), 1)), forces), couples * holds[:, None]))
    return found


def _standing(arms: Floats, wanted: Floats, press: Floats) -> Floats:
    """The same load on those feet alone that it presses down, at least one."""
    on = np.ones(arms.shape[1], dtype=bool)
    while (press < -ROUNDING).any() and on.sum() > 1:
        on[int(press.argmin())] = False
        press = np.zeros(len(on))
        press[on] = np.linalg.pinv(arms[:, on]) @ wanted
    return press
