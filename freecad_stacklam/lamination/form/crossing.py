# SPDX-License-Identifier: LGPL-2.1-or-later

"""Does a mesh cross itself? Asked of forms that come as a mesh, where nothing else has checked it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import FLAT_TRIANGLE, TINY_SQUARE, TOUCHING
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Meshes above this many triangles are not searched: it would take longer than the plan.
MOST_TRIANGLES = 400_000
_CHUNK = 1_000_000


@dataclass(frozen=True)
class Crossings:
    """Pairs of triangles that pass through each other: how many within one body, how many between bodies, and a
    place."""

    within: int
    between: int
    place: tuple[float, float, float]


def refuse_crossing(mesh: Mesh) -> tuple[str, ...]:
    """Refuse a body that passes through itself. Bodies that overlap each other are one piece of wood: that is only
    noted."""
    if len(mesh.triangles) > MOST_TRIANGLES:
        return (
            say(
                "more than {most} triangles: not searched for places where the mesh crosses itself",
                most=MOST_TRIANGLES,
            ),
        )
    _refuse_turned_bodies(mesh)
    found = crossings(mesh)
    if found.within:
        x, y, z = found.place
        raise Refusal(
            say(
                "The mesh crosses itself in {count} places, the first near x {x}, y {y}, z {z}: mend it where "
                "the faces pass through each other, or make a solid of it, and slice again.",
                count=found.within,
                x=size(x),
                y=size(y),
                z=size(z),
            )
        )
    if found.between:
        return (say("separate bodies of the mesh overlap and are stacked as one piece"),)
    return ()


def _refuse_turned_bodies(mesh: Mesh) -> None:
    """A body whose faces look inward is a cavity when it lies in wood, and a mistake when it lies outside."""
    body = bodies_of(mesh)
    corner = mesh.vertices[mesh.triangles] - mesh.vertices.mean(axis=0)
    volume = np.bincount(body, np.einsum("td,td->t", corner[:, 0], np.cross(corner[:, 1], corner[:, 2])) / 6)
    for turned in np.flatnonzero(volume < 0):
        at = corner[body == turned][0, 0]
        if _winding(corner[body != turned], at) < 0.5:
            x, y, z = at + mesh.vertices.mean(axis=0)
            raise Refusal(
                say(
                    "One of the {count} bodies of the mesh is inside out, near x {x}, y {y}, z {z}: flip its "
                    "normals and slice again.",
                    count=len(volume),
                    x=size(x),
                    y=size(y),
                    z=size(z),
                )
            )


def _winding(corner: Floats, at: Floats) -> float:
    """How often a closed surface (T × 3 × 3) goes round a point: the solid angle it fills, in full spheres.

    Van Oosterom and Strackee, The solid angle of a plane triangle, IEEE Trans. Biomed. Eng. 30 (1983), eq. 8.
    """
    a, b, c = (corner[:, i] - at for i in range(3))
    la, lb, lc = (np.linalg.norm(v, axis=1) for v in (a, b, c))
    over = np.einsum("td,td->t", a, np.cross(b, c))
    dots = [np.einsum("td,td->t", p, q) for p, q in ((a, b), (b, c), (c, a))]
    under = la * lb * lc + dots[0] * lc + dots[1] * la + dots[2] * lb
    return float(np.arctan2(over, under).sum() / (2 * np.pi))


def crossings(mesh: Mesh) -> Crossings:
    """Find all pairs of triangles that pass through each other. Neighbours only touch, so they do not count."""
    corner = mesh.vertices[mesh.triangles]
    low, high = corner.min(axis=1), corner.max(axis=1)
    boxes = shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    tree = shapely.STRtree(boxes)
    body = bodies_of(mesh)
    within = between = 0
    place = (0.0, 0.0, 0.0)
    step = max(1, _CHUNK // 50)
    for at in range(0, len(boxes), step):
        one, other = tree.query(boxes[at : at + step])
        one = one + at
        keep = (one < other) & (low[one, 2] <= high[other, 2]) & (low[other, 2] <= high[one, 2])
        one, other = one[keep], other[keep]
        hit = _pass_through(corner[one], corner[other]) | _pass_through(corner[other], corner[one])
        same = body[one] == body[other]
        if (hit & same).any() and within == 0:
            x, y, z = corner[one[hit & same][0]].mean(axis=0)
            place = (float(x), float(y), float(z))
        within += int((hit & same).sum())
        between += int((hit & ~same).sum())
    return Crossings(within, between, place)


@lru_cache(maxsize=4)
def bodies_of(mesh: Mesh) -> Ints:
    """Number of the connected body that each triangle belongs to. Found once, and not to be written to."""
    label = np.arange(len(mesh.triangles), dtype=np.int32)
    one, two, three = (mesh.twins // 3).astype(np.int32).reshape(-1, 3).T
    while True:
        least = np.minimum(np.minimum(label, label[one]), np.minimum(label[two], label[three]))
        least = least[least]
        least = least[least]
        if np.array_equal(least, label):
            first = label == np.arange(len(label), dtype=np.int32)
            numbers: Ints = (np.cumsum(first) - 1)[label]
            numbers.flags.writeable = False
            return numbers
        label = least


def _pass_through(edges_of: Floats, through: Floats) -> NDArray[np.bool_]:
    """Whether any edge of the first triangle passes through the inside of the second; both K × 3 × 3."""
    a, b, c = through[:, 0], through[:, 1], through[:, 2]
    normal = np.cross(b - a, c - a)
    size = np.linalg.norm(normal, axis=1)
    longest = np.maximum(((b - a) ** 2).sum(axis=1), np.maximum(((c - b) ** 2).sum(axis=1), ((a - c) ** 2).sum(axis=1)))
    solid = size > FLAT_TRIANGLE * longest
    height = np.einsum("kcd,kd->kc", edges_of - a[:, None], normal) / np.maximum(size, TINY_SQUARE)[:, None]
    hit = np.zeros(len(a), dtype=bool)
    for i in range(3):
        j = (i + 1) % 3
        span = np.abs(height[:, i]) + np.abs(height[:, j])
        opposite = height[:, i] * height[:, j] < 0
        deep = np.minimum(np.abs(height[:, i]), np.abs(height[:, j])) > TOUCHING * np.maximum(span, 1.0)
        k = np.flatnonzero(opposite & deep & solid)
        if not len(k):
            continue
        part = (height[k, i] / (height[k, i] - height[k, j]))[:, None]
        at = edges_of[k, i] + part * (edges_of[k, j] - edges_of[k, i])
        inside = np.ones(len(k), dtype=bool)
        for p, q in ((a, b), (b, c), (c, a)):
            side = np.einsum("kd,kd->k", np.cross(q[k] - p[k], at - p[k]), normal[k]) / size[k] ** 2
            inside &= side > TOUCHING
        hit[k] |= inside
    return hit
