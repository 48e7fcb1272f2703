# SPDX-License-Identifier: LGPL-2.1-or-later

"""The proof that the form lies inside its blanks. It shares no code with the shadow.

Two questions, asked of the drawn outlines themselves:

1. Does every point of the form's surface lie inside the blank of its layer? Asked of the mesh's vertices, of points
   along its edges and across its triangles, and of points that lie exactly on the modelled surface where the form has
   one.
2. Does the form, cut at many heights, lie inside the blank there? Asked by plain slicing, triangle by triangle.

Together they suffice: wood that the form needs and a blank lacks would have a wall inside the form, which the second
finds, or surface outside the wall, which the first finds.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.plan.layers import Containment
from freecad_stacklam.lamination.plan.outline import Outline, arc_of, edges_of, polygon_of
from freecad_stacklam.lamination.tolerances import (
    GRID,
    GUARD,
    JUST_INSIDE,
    PLANE_SNAP,
    PROOF_ASIDE,
    PROOF_DIGITS,
    PROOF_SAG,
    PROOF_SLIVER,
    ROUNDING,
    TINY_SQUARE,
)
from freecad_stacklam.lamination.words import say

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Surface samples lie at most this far apart, mm, until the number below is reached.
SAMPLE_SPACING = 2.0
MOST_SAMPLES = 150_000
#: Places that fall short are searched for flakes at no more heights than this, or than so many triangles are looked at
#: in all: a leaning flake has a height for every sample, and a section of a small mesh costs next to nothing.
MOST_FLAKE_HEIGHTS, MOST_FLAKE_WORK = 100, 3_000_000
#: Heights at which each layer is sliced, as parts of its thickness; the ends just inside the glue lines.
SLICE_HEIGHTS = (JUST_INSIDE, 0.25, 0.5, 0.75, 1.0 - JUST_INSIDE)


def contain(
    points: Floats,
    triangles: Ints,
    planes: Sequence[float],
    blanks: Sequence[Sequence[Outline]],
    exact_points: Floats | None = None,
) -> Containment:
    """Prove, or find where it fails, that the form lies in the stacked blanks.

    points: N × 3 of the mesh in the stack's frame, mm; planes: the n + 1 heights; blanks: the outlines of the n layers.
    exact_points: K × 3 on the modelled surface, in the stack's frame. Samples within PLANE_SNAP of a glue line may lie
    in either neighbour, and those on a flake (see _in_flakes) in none.
    """
    areas = [shapely.union_all([polygon_of(o, PROOF_SAG) for o in layer]) for layer in blanks]
    samples = surface_samples(points, triangles)
    of_mesh = len(samples)
    if exact_points is not None and len(exact_points):
        samples = np.vstack([samples, exact_points])
    cover = _cover_of(samples, np.asarray(planes, dtype=np.float64), blanks, areas)
    cover[:of_mesh][_in_flakes(samples[:of_mesh], cover[:of_mesh], points, triangles, planes)] = np.inf
    worst = int(cover.argmin())
    uncovered = sum(
        _uncovered(points, triangles[here], bottom, top, area)
        for here, bottom, top, area in zip(by_layer(points, triangles, planes), planes[:-1], planes[1:], areas)
    )
    x, y, z = (float(v) for v in samples[worst])
    exact = 0 if exact_points is None else len(exact_points)
    return Containment(
        uncovered_volume=float(uncovered),
        least_cover=float(cover[worst]),
        place=(x, y, z),
        samples=len(samples),
        method=(
            say(
                "{samples} points of the surface ({exact} of them exactly on the modelled surface) and "
                "{slice_heights} plain sections against the drawn outlines",
                samples=len(samples),
                exact=exact,
                slice_heights=len(SLICE_HEIGHTS) * len(areas),
            )
        ),
    )


def surface_samples(points: Floats, triangles: Ints) -> Floats:
    """Vertices, points along the edges and points across the triangles, no further apart than SAMPLE_SPACING where the
    number allows; K × 3."""
    if 3 * len(triangles) > MOST_SAMPLES:
        return points
    longest = np.zeros(len(triangles))
    for end in range(3):
        edge = points[triangles[:, end]] - points[triangles[:, end - 1]]
        np.maximum(longest, np.sqrt((edge**2).sum(axis=1)), out=longest)
    spacing = SAMPLE_SPACING
    while True:
        steps = np.maximum(1, np.ceil(longest / spacing).astype(np.int64))
        if ((steps + 1) * (steps + 2) // 2).sum() <= MOST_SAMPLES or steps.max() == 1:
            break
        spacing *= 1.3
    pieces = [points]
    for n in np.unique(steps):
        if n == 1:
            continue
        i, j = np.meshgrid(np.arange(n + 1), np.arange(n + 1), indexing="ij")
        inside = (i + j <= n) & ~(((i == 0) & (j == 0)) | ((i == n) & (j == 0)) | ((i == 0) & (j == n)))
        a, b = i[inside] / n, j[inside] / n
        weight = np.stack([1 - a - b, a, b], axis=1)
        pieces.append(np.einsum("kc,tcd->tkd", weight, points[triangles[steps == n]]).reshape(-1, 3))
    return np.concatenate(pieces)


def _cover_of(
    samples: Floats, planes: Floats, blanks: Sequence[Sequence[Outline]], areas: Sequence[shapely.Geometry]
) -> Floats:
    """Signed distance of every sample to the wall of its layer's blank, mm: positive inside the wood."""
    cover = np.full(len(samples), -np.inf)
    z = samples[:, 2]
    # What the planes let pass as a whole layer, a hair short of the form, passes here too, whatever the last bit.
    near = PLANE_SNAP + ROUNDING
    for k, area in enumerate(areas):
        here = np.flatnonzero((z >= planes[k] - near) & (z <= planes[k + 1] + near))
        if not len(here):
            continue
        if area.is_empty:
            continue
        shapely.prepare(area)
        x, y = samples[here, 0], samples[here, 1]
        inside = shapely.contains_xy(area, x, y)
        distance = _to_wall(blanks[k], samples[here, :2])
        cover[here] = np.maximum(cover[here], np.where(inside, distance, -distance))
    # Above or below all layers: outside by that height.
    out = np.isneginf(cover)
    cover[out] = -np.maximum(planes[0] - z[out], z[out] - planes[-1])
    return cover


def _in_flakes(
    samples: Floats, cover: Floats, points: Floats, triangles: Ints, planes: Sequence[float]
) -> NDArray[np.bool_]:
    """Marks the samples that lie on nothing but a flake: less than PLANE_SNAP from a glue line, and out of the form
    (ROUNDING counted in) both so far above it and so far below, which is what moving heights onto glue lines takes off
    the form; or anywhere, where the form so far above and below is at most twice GRID wide, which is what drawing
    outlines on a grid takes off. They are the only parts that a blank may lack."""
    flakes = np.zeros(len(samples), dtype=bool)
    short = np.flatnonzero(cover < GUARD)  # a blank always stands out by so much
    if not len(short):
        return flakes
    near = PLANE_SNAP + ROUNDING
    for plane in planes:
        here = short[np.abs(samples[short, 2] - plane) <= near]
        flakes[here[_out_of(points, triangles, plane, samples[here, :2], ROUNDING, 0.0)]] = True
    short = short[~flakes[short]]
    heights = np.unique(np.round(samples[short, 2], PROOF_DIGITS))
    most = max(MOST_FLAKE_HEIGHTS, MOST_FLAKE_WORK // len(triangles))
    for height in heights if len(heights) <= most else ():
        here = short[np.abs(samples[short, 2] - height) < ROUNDING * 10]
        flakes[here[_out_of(points, triangles, height, samples[here, :2], PLANE_SNAP, GRID)]] = True
    return flakes


def _out_of(
    points: Floats, triangles: Ints, height: float, where: Floats, far: float, thinned: float
) -> NDArray[np.bool_]:
    """Marks the places that are farther than `far` from the form just above a height and just below it, when it is
    `thinned` by so much all round."""
    out = np.ones(len(where), dtype=bool)
    near = PLANE_SNAP + ROUNDING
    for level in (height - near, height + near) if len(where) else ():
        section = shapely.buffer(plain_section(points, triangles, level), -thinned)
        out &= section.is_empty | (shapely.distance(section, shapely.points(where)) > far)
    return out


def _to_wall(outlines: Sequence[Outline], where: Floats) -> Floats:
    """Distance of points to the drawn lines and arcs themselves, mm."""
    least = np.full(len(where), np.inf)
    for outline in outlines:
        for loop in (outline.outer, *outline.holes):
            for a, b in edges_of(loop):
                # The edge lies in a circle, so only points that are less than `least` from that can be nearer to it.
                x, y, radius = _around(a, b)
                near = np.flatnonzero((where[:, 0] - x) ** 2 + (where[:, 1] - y) ** 2 <= (least + radius) ** 2)
                found = _to_line(where[near], a, b) if a[2] == 0.0 else _to_arc(where[near], a, b)
                least[near] = np.minimum(least[near], found)
    return least


def _around(a: tuple[float, float, float], b: tuple[float, float, float]) -> tuple[float, float, float]:
    """Centre and radius, mm, of a circle that an edge lies in."""
    half = np.hypot(b[0] - a[0], b[1] - a[1]) / 2
    rise = abs(a[2]) * half  # the bulge is the rise of the arc over half its chord
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2, float(max(half, rise)) + ROUNDING


def _to_line(where: Floats, a: tuple[float, float, float], b: tuple[float, float, float]) -> Floats:
    x, y, dx, dy = where[:, 0] - a[0], where[:, 1] - a[1], b[0] - a[0], b[1] - a[1]
    part = np.clip((x * dx + y * dy) / max(dx * dx + dy * dy, TINY_SQUARE), 0.0, 1.0)
    return np.hypot(x - part * dx, y - part * dy)


def _to_arc(where: Floats, a: tuple[float, float, float], b: tuple[float, float, float]) -> Floats:
    """To the circle where a point looks at the arc, else to its nearer end."""
    cx, cy, radius, first, sweep = arc_of(a, b)
    x, y = where[:, 0] - cx, where[:, 1] - cy
    turned = (np.arctan2(y, x) - first) * np.sign(sweep) % (2 * np.pi)
    ends = np.minimum(
        np.hypot(where[:, 0] - a[0], where[:, 1] - a[1]), np.hypot(where[:, 0] - b[0], where[:, 1] - b[1])
    )
    return np.where(turned <= abs(sweep), np.abs(np.hypot(x, y) - radius), ends)


def by_layer(points: Floats, triangles: Ints, planes: Sequence[float]) -> list[Ints]:
    """The numbers of the triangles that a section within each layer can meet, found for all layers in one pass."""
    heights = np.asarray(planes, dtype=np.float64)
    z = points[:, 2][triangles]
    first = np.searchsorted(heights, z.min(axis=1) - PROOF_ASIDE) - 1
    last = np.searchsorted(heights, z.max(axis=1) + PROOF_ASIDE, side="right") - 1
    first, last = np.maximum(first, 0), np.minimum(last, len(heights) - 2)
    meets = np.maximum(last - first + 1, 0)
    which = np.repeat(np.arange(len(triangles)), meets)
    layer = np.arange(len(which)) - np.repeat(np.cumsum(meets) - meets - first, meets)
    order = np.argsort(layer, kind="stable")
    return np.split(which[order], np.cumsum(np.bincount(layer, minlength=len(heights) - 1))[:-1])


def _uncovered(points: Floats, triangles: Ints, bottom: float, top: float, area: shapely.Geometry) -> float:
    """Volume of the form between two heights that lies outside the blank, by the mean of plain sections, mm³."""
    heights = [bottom + part * (top - bottom) for part in SLICE_HEIGHTS]
    z = points[:, 2][triangles]
    low, high = z.min(axis=1) - PROOF_ASIDE, z.max(axis=1) + PROOF_ASIDE
    missing = [
        shapely.difference(plain_section(points, triangles[(low < height) & (high > height)], height), area)
        for height in heights
    ]
    # Slivers of rounding along a wall that the form touches are no volume, nor are flakes as thin as the grid.
    outside = [m.area for m in missing if m.area > PROOF_SLIVER and not shapely.buffer(m, -GRID).is_empty]
    return float(sum(outside) / len(heights) * (top - bottom))


def plain_section(points: Floats, triangles: Ints, height: float) -> shapely.Geometry:
    """Area of the form at one height, by joining the cut of each triangle: the plain way, one plane at a time.

    A height that meets a vertex is moved down a hair. Bodies that overlap count as one: a face of the cut plane is form
    when a ray from it leaves more often than it enters.
    """
    corner = points[:, 2][triangles] - height
    corner[np.abs(corner) < PROOF_ASIDE] = PROOF_ASIDE
    crossing = np.flatnonzero((corner.min(axis=1) < 0) & (corner.max(axis=1) > 0))
    if not len(crossing):
        return MultiPolygon()
    tri, z = triangles[crossing], corner[crossing]
    below = z < 0
    one_below = below.sum(axis=1) == 1
    # The corner that is alone on its side, then the two others; the cut runs with the form on its left.
    alone = np.where(one_below, below.argmax(axis=1), (~below).argmax(axis=1))
    rows = np.arange(len(tri))
    one, two, three = ((rows, (alone + k) % 3) for k in range(3))
    towards = _between(points, (tri[one], z[one]), (tri[two], z[two]))
    away = _between(points, (tri[one], z[one]), (tri[three], z[three]))
    start = np.round(np.where(one_below[:, None], away, towards), PROOF_DIGITS)
    end = np.round(np.where(one_below[:, None], towards, away), PROOF_DIGITS)
    real = (start != end).any(axis=1)
    start, end = start[real], end[real]
    faces, parted = _faces_between(start, end)
    if not len(faces):
        return MultiPolygon()
    kept = []
    for face, (x, y) in zip(faces, shapely.get_coordinates(shapely.point_on_surface(faces))):
        spans = (start[:, 1] > y) != (end[:, 1] > y)
        p, q = start[spans], end[spans]
        right = p[:, 0] + (y - p[:, 1]) / (q[:, 1] - p[:, 1]) * (q[:, 0] - p[:, 0]) > x
        if np.sign(q[right, 1] - p[right, 1]).sum() > 0:
            kept.append(face)
    if parted and not any(len(face.interiors) for face in kept):
        return MultiPolygon(kept)
    return kept[0] if len(kept) == 1 else shapely.union_all(kept, grid_size=10.0**-PROOF_DIGITS)


def _faces_between(start: Floats, end: Floats) -> tuple[NDArray[np.object_], bool]:
    """The faces into which segments part the plane, and whether their outer rims do not even touch. They are noded only
    where they cross, for noding takes most of the time."""
    lines = shapely.linestrings(np.stack([start, end], axis=1))
    faces: NDArray[np.object_] = shapely.get_parts(shapely.polygonize(lines))
    rims = shapely.get_exterior_ring(faces)
    whole = abs(shapely.length(rims).sum() - shapely.length(lines).sum()) < ROUNDING
    if whole and shapely.is_simple(shapely.multilinestrings(rims)):
        return faces, True
    noded = shapely.union_all(lines, grid_size=10.0**-PROOF_DIGITS)
    faces = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    return faces, False


def _between(points: Floats, one: tuple[Ints, Floats], other: tuple[Ints, Floats]) -> Floats:
    """Where edges cross the plane; each end as its vertex and its height over the plane. The same for an edge and for
    its reverse, to the last digit."""
    turned = one[0] > other[0]
    first, second = np.where(turned, other[0], one[0]), np.where(turned, one[0], other[0])
    over, under = np.where(turned, other[1], one[1]), np.where(turned, one[1], other[1])
    part = (over / (over - under))[:, None]
    at: Floats = points[first, :2] + part * (points[second, :2] - points[first, :2])
    return at
