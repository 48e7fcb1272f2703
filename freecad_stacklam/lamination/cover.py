"""How much wood is left between a joint and the finished surface: true distance in space, with the place.

A joint's own mouth, where it leaves the form on purpose, is not a lack of cover: surface that lies across the axis
within the
depth of the mouth is left out.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Spacing of the points on a joint's walls, mm.
WALL_SPACING = 2.0
#: Spacing of the first, coarse search, mm.
_COARSE = 12.0
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
class Cover:
    """Least distance, mm, and the point of the joint where it is found, in the frame of the question."""

    distance: float
    place: tuple[float, float, float]


def cover_of(points: Floats, triangles: Ints, prism: Prism, mouths: Sequence[tuple[float, float]]) -> Cover:
    """Least distance from the prism's surface to the form's surface.

    points: N × 3 of the mesh in the stack's frame, mm. mouths: ranges of height in which the joint leaves the form. The
    figure says nothing of inside and outside: ask that first.
    """
    corner = points[triangles]
    normal = np.cross(corner[:, 1] - corner[:, 0], corner[:, 2] - corner[:, 0])
    length = np.linalg.norm(normal, axis=1)
    across = np.abs(normal[:, 2]) > _ACROSS * length
    z_low, z_high = corner[:, :, 2].min(axis=1), corner[:, :, 2].max(axis=1)
    mouth = np.zeros(len(corner), dtype=bool)
    for low, high in mouths:
        mouth |= across & (z_high >= low - MOUTH_SLACK) & (z_low <= high + MOUTH_SLACK)
    surface = corner[~mouth]
    if not len(surface):
        return Cover(float("inf"), (0.0, 0.0, prism.start))
    vertices = surface.reshape(-1, 3)
    to_prism, nearest = _to_prism(vertices, prism)
    i = int(to_prism.argmin())
    best = Cover(float(to_prism[i]), _place(nearest[i]))
    # A coarse look first: a triangle further off than the best by more than the coarse spacing cannot hold the least.
    coarse, _ = _least(_walls(prism, _COARSE), surface)
    near = surface[coarse <= min(best.distance, float(coarse.min())) + _COARSE]
    walls = _walls(prism, WALL_SPACING)
    distance, wall = _least(walls, near)
    i = int(distance.argmin())
    return best if best.distance <= distance[i] else Cover(float(distance[i]), _place(walls[wall[i]]))


def _least(walls: Floats, surface: Floats) -> tuple[Floats, Ints]:
    """Least distance of each triangle to the wall points, and which point has it."""
    distance, wall = np.empty(len(surface)), np.empty(len(surface), dtype=np.int64)
    chunk = max(1, 400_000 // len(walls))
    for at in range(0, len(surface), chunk):
        found = point_triangle(walls, surface[at : at + chunk])
        wall[at : at + chunk] = found.argmin(axis=0)
        distance[at : at + chunk] = found.min(axis=0)
    return distance, wall


def _place(point: Floats) -> tuple[float, float, float]:
    return float(point[0]), float(point[1]), float(point[2])


def _walls(prism: Prism, spacing: float) -> Floats:
    """Points on the sides and ends of the prism, corners included, about `spacing` mm apart."""
    rim: list[Floats] = []
    for a, b in zip(prism.plan, np.roll(prism.plan, -1, axis=0)):
        count = max(1, int(np.ceil(np.hypot(*(b - a)) / spacing)))
        rim.append(a + (b - a) * (np.arange(count) / count)[:, None])
    around = np.concatenate(rim)
    levels = np.linspace(prism.start, prism.end, max(2, int(np.ceil((prism.end - prism.start) / spacing)) + 1))
    sides = np.column_stack([np.tile(around, (len(levels), 1)), np.repeat(levels, len(around))])
    middle = prism.plan.mean(axis=0)
    flats = [
        np.column_stack([middle + (around - middle) * shrink, np.full(len(around), z)])
        for shrink in (0.0, 0.25, 0.5, 0.75)
        for z in (prism.start, prism.end)
    ]
    return np.concatenate([sides, *flats])


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


def point_triangle(where: Floats, corner: Floats) -> Floats:
    """Distances of P points to T triangles (T × 3 × 3): P × T, mm."""
    a, b, c = corner[:, 0], corner[:, 1], corner[:, 2]
    normal = np.cross(b - a, c - a)
    size = np.einsum("td,td->t", normal, normal)
    offset = where[:, None, :] - a[None]
    height = np.einsum("ptd,td->pt", offset, normal)
    inside = np.ones(height.shape, dtype=bool)
    best = np.full(height.shape, np.inf)
    for p, q in ((a, b), (b, c), (c, a)):
        edge = q - p
        to = where[:, None, :] - p[None]
        inside &= np.einsum("ptd,td->pt", to, np.cross(normal, edge)) >= 0
        part = np.einsum("ptd,td->pt", to, edge) / np.maximum(np.einsum("td,td->t", edge, edge), 1e-30)
        away = to - np.clip(part, 0.0, 1.0)[:, :, None] * edge[None]
        np.minimum(best, np.einsum("ptd,ptd->pt", away, away), out=best)
    flat = height**2 / np.maximum(size, 1e-30)
    return np.sqrt(np.where(inside & (size > 1e-30), flat, best))


def depths_along(points: Floats, triangles: Ints, at: Floats) -> list[Floats]:
    """Heights at which the vertical line through each of Q plan points meets the surface, ascending."""
    # A hair off the asked place, so that the line never runs through a vertex or along an edge of a symmetric mesh.
    at = at + np.array([1.37e-6, 2.11e-6])
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
