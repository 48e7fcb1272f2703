# SPDX-License-Identifier: LGPL-2.1-or-later

"""How much wood is left between a joint and the finished surface: true distance in space, with the place.

A joint's own mouth, where it leaves the form on purpose, is not a lack of cover: surface that lies across the axis, in
the plane of the mouth or rising out of it as a dish does, is left out. The wood beside the joint is thicker there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import ASIDE, COVER_TOLERANCE, TINY

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Surface within this of a mouth's own depths, mm, belongs to the mouth.
MOUTH_SLACK = 1.0
#: Surface belongs to a mouth only where it lies across the axis: the cosine of 60° between its normal and the axis.
_ACROSS = 0.5


@dataclass(frozen=True)
class Prism:
    """A straight piece of joint in the stack's frame: a convex plan (K × 2, counter-clockwise) from height `start`
    to `end`."""

    plan: Floats
    start: float
    end: float


@dataclass(frozen=True)
class Cylinder:
    """A round piece about a vertical axis at `centre`, from height `start` to `end`."""

    centre: tuple[float, float]
    radius: float
    start: float
    end: float


@dataclass(frozen=True)
class Cover:
    """Least distance, mm, and the point of the joint where it is found, in the frame of the question."""

    distance: float
    place: tuple[float, float, float]


@dataclass(frozen=True)
class Mouth:
    """A face through which a joint leaves the form on purpose, near its axis: z = level + slope · (x, y) within `slack`
    mm, and between the heights `low` and `high` over the joint's own section. `outward` is 1 where the joint leaves the
    form upwards along its axis, −1 downwards, 0 where that is not known."""

    low: float
    high: float
    level: float
    slope: tuple[float, float] = (0.0, 0.0)
    slack: float = 1.0
    outward: float = 0.0


def mouth_of(felt: Floats, outward: float = 0.0) -> Mouth:
    """The mouth through points felt over a section (K × 3): their plane by least squares, and how far they leave it."""
    if len(felt) < 3:
        level = float(felt[:, 2].mean())
        return Mouth(float(felt[:, 2].min()), float(felt[:, 2].max()), level, slack=MOUTH_SLACK, outward=outward)
    (a, b, level), *_ = np.linalg.lstsq(np.column_stack([felt[:, :2], np.ones(len(felt))]), felt[:, 2], rcond=None)
    off = float(np.abs(felt[:, 2] - felt[:, 0] * a - felt[:, 1] * b - level).max())
    return Mouth(
        float(felt[:, 2].min()),
        float(felt[:, 2].max()),
        float(level),
        (float(a), float(b)),
        MOUTH_SLACK + off,
        outward,
    )


def cover_of(
    points: Floats,
    triangles: Ints,
    prism: Prism | Cylinder,
    mouths: Sequence[Mouth] = (),
    tolerance: float = COVER_TOLERANCE,
) -> Cover:
    """Least distance from the prism's surface to the form's surface.

    points: N × 3 of the mesh in the prism's frame, mm. mouths: where the joint leaves the form on purpose. The
    figure says nothing of inside and outside: ask that first.
    """
    corner = points[triangles]
    normal = np.cross(corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0])
    length = np.linalg.norm(normal, axis=1)
    across = np.abs(normal[:, 2]) > _ACROSS * length
    mouth = np.zeros(len(corner), dtype=bool)
    for face in mouths:
        off = corner[:, :, 2] - corner[:, :, :2] @ np.array(face.slope) - face.level
        in_plane = np.abs(off) <= face.slack
        mouth |= across & (in_plane | (off * face.outward > face.slack)).all(axis=1)
    surface = corner[~mouth]
    if not len(surface):
        return Cover(float("inf"), (0.0, 0.0, prism.start))
    best = Cover(float("inf"), (0.0, 0.0, prism.start))
    while len(surface):
        where = np.concatenate([surface, surface.mean(axis=1, keepdims=True)], axis=1)
        distance, nearest = _to_body(where.reshape(-1, 3), prism)
        i = int(distance.argmin())
        if distance[i] < best.distance:
            best = Cover(float(distance[i]), _place(nearest[i]))
        # Distance to a convex body is convex, so over a triangle it is nowhere less than its tangent at the middle.
        middle, foot = where[:, 3], nearest.reshape(-1, 4, 3)[:, 3]
        slope = (middle - foot) / np.maximum(distance.reshape(-1, 4)[:, 3], TINY)[:, None]
        fall = np.einsum("tcd,td->tc", surface - middle[:, None], slope).min(axis=1)
        surface = _halved(surface[distance.reshape(-1, 4)[:, 3] + fall < best.distance - tolerance])
    return best


def _halved(corner: Floats) -> Floats:
    """Each triangle as two, through the middle of its longest side: slim ones, of which turned forms are made, grow
    compact, where four like them would be as slim, and ever more of them."""
    row, first = np.arange(len(corner)), np.linalg.norm(corner - np.roll(corner, -1, axis=1), axis=2).argmax(axis=1)
    one, other, tip = (corner[row, (first + i) % 3] for i in range(3))
    middle = (one + other) / 2
    return np.concatenate([np.stack(t, axis=1) for t in ((one, middle, tip), (middle, other, tip))])


def _place(point: Floats) -> tuple[float, float, float]:
    return float(point[0]), float(point[1]), float(point[2])


def _to_body(where: Floats, body: Prism | Cylinder) -> tuple[Floats, Floats]:
    if isinstance(body, Prism):
        return _to_prism(where, body)
    local = where[:, :2] - np.array(body.centre)
    out = np.hypot(local[:, 0], local[:, 1])
    kept = np.minimum(1.0, body.radius / np.maximum(out, TINY))
    z = np.clip(where[:, 2], body.start, body.end)
    nearest = np.column_stack([np.array(body.centre) + local * kept[:, None], z])
    return np.hypot(np.maximum(out - body.radius, 0.0), where[:, 2] - z), nearest


def _to_prism(where: Floats, prism: Prism) -> tuple[Floats, Floats]:
    """Distance of points to a convex prism (0 inside), and the nearest points on it."""
    flat = where[:, :2]
    inside = np.ones(len(flat), dtype=bool)
    nearest = np.full((len(flat), 2), np.inf)
    least = np.full(len(flat), np.inf)
    for a, b in zip(prism.plan, np.roll(prism.plan, -1, axis=0)):
        edge = b - a
        side = edge[0] * (flat[:, 1] - a[1]) - edge[1] * (flat[:, 0] - a[0])
        inside &= side >= 0
        part = np.clip(((flat - a) @ edge) / (edge @ edge), 0.0, 1.0)
        on = a + part[:, None] * edge
        distance = np.hypot(*(flat - on).T)
        closer = distance < least
        least = np.where(closer, distance, least)
        nearest[closer] = on[closer]
    least = np.where(inside, 0.0, least)
    nearest[inside] = flat[inside]
    z = np.clip(where[:, 2], prism.start, prism.end)
    return np.hypot(least, where[:, 2] - z), np.column_stack([nearest, z])


def depths_along(points: Floats, triangles: Ints, at: Floats) -> list[Floats]:
    """Heights at which the vertical line through each place meets the surface, mm, ascending; one array for each.

    points: N × 3 of the surface; triangles: T × 3; at: Q × 2 places in plan, mm.
    """
    # A hair off the asked place, so that the line never runs through a vertex or along an edge of a symmetric mesh.
    at = at + ASIDE * np.array([1.37, 2.11])
    flat = points[:, :2]
    corner = flat[triangles]
    box_low, box_high = corner.min(axis=1), corner.max(axis=1)
    found: list[Floats] = []
    for x, y in at:
        near = np.flatnonzero(
            (box_low[:, 0] <= x) & (x <= box_high[:, 0]) & (box_low[:, 1] <= y) & (y <= box_high[:, 1])
        )
        a, b, c = (corner[near, i] for i in range(3))
        whole = _turn(a, b, c)
        one, two, three = _turn(b, c, (x, y)), _turn(c, a, (x, y)), _turn(a, b, (x, y))
        hit = (whole != 0) & (((one > 0) & (two > 0) & (three > 0)) | ((one < 0) & (two < 0) & (three < 0)))
        z = points[triangles[near[hit]], 2]
        weight = np.stack([one, two, three], axis=1)[hit] / whole[hit][:, None]
        found.append(np.sort((z * weight).sum(axis=1)))
    return found


def _turn(a: Floats, b: Floats, c: Floats | tuple[float, float]) -> Floats:
    cx, cy = (c[0], c[1]) if isinstance(c, tuple) else (c[:, 0], c[:, 1])
    return np.asarray((b[:, 0] - a[:, 0]) * (cy - a[:, 1]) - (cx - a[:, 0]) * (b[:, 1] - a[:, 1]))
