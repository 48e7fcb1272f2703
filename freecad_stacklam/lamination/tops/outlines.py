# SPDX-License-Identifier: LGPL-2.1-or-later

"""What of a piece is sat on or stood on: its tops.

A top is a surface that is seen from above, slopes by no more than 30° and is wide: its outline, with what it
surrounds, holds a circle of 60 mm or more, and half as large as the largest that any such surface holds. It lies in the
upper two thirds of the piece, so that the flare of a foot is none, and less than half of it lies under other wood, so
that a shelf is none. A dish belongs to the top, and the load stands on its rim. From there the outline goes on down a
rounded edge as far as wood would still carry, 25 mm at most: the widest outline is the worst. A piece has as many tops
as there are (two seats, three plates), and a back or an arm is too narrow to be one. A form without any is loaded at
its highest part.

An arm is what else is level, seen from above and as wide as what a load stands on: a chair's arm, the edge of its
back. Nobody is to sit there, but people do: it tips nothing here, and it has to hold.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.lamination.findings.standing import Ring, TopFound
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.loops import fill_all
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.tolerances import COARSE, ROUNDING, TINY

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

#: Steepest slope that is sat or stood on, degrees; common practice, no source.
STEEPEST = 30.0
#: Least half width of a top, mm, and as a share of the widest of the piece; common practice, no source.
_LEAST_HALF, _SHARE = 30.0, 0.5
#: Least half width of an arm, mm: half of what a load stands on; common practice, no source.
_LEAST_ARM = 15.0
#: A top lies higher than this share of the piece's height; common practice, no source.
LEAST_HEIGHT = 1 / 3
#: How far down a rounded edge the outline goes, mm, and how far up from the highest of the top.
_EDGE_DOWN, _EDGE_UP = 25.0, 5.0
#: Surfaces at heights nearer than this, and nearer in plan than the second, are one top, mm.
_ONE_HEIGHT, _ONE_PLAN = 15.0, 2.0
#: Wood higher than a top by this stands over it, mm.
OVER = 10.0
#: Surfaces of one form that are looked at, the largest first; places in each direction that ask what lies over one.
_MOST, _ASKED = 24, 15
#: Share of the piece's height that is its highest part, and its least depth, mm.
_HIGHEST, _LEAST_HIGHEST = 0.05, 10.0
#: Steepest surface that still belongs to a rounded edge: the level part of its normal.
_EDGE_STEEP = 0.05


@dataclass(frozen=True, eq=False)
class Stood:
    """A stack's form as it stands: the heights of its points are above the floor, N × 3, mm."""

    name: str
    points: Floats
    mesh: Mesh


@dataclass(frozen=True, eq=False)
class _Surface:
    """An upper surface of one form: its outline in plan with what it surrounds, and its highest point."""

    outline: BaseGeometry
    height: float


def tops_of(forms: Sequence[Stood]) -> tuple[TopFound, ...]:
    """The tops of a piece, the highest first; never none."""
    height = max(float(form.points[:, 2].max()) for form in forms)
    surfaces = _merged([s for form in forms for s in _surfaces(form, LEAST_HEIGHT * height, _LEAST_HALF)])
    halves = [_half_width(s.outline) for s in surfaces]
    least = max(_LEAST_HALF, _SHARE * max(halves, default=0.0))
    kept = [s for s, half in zip(surfaces, halves) if half >= least]
    kept = [s for s in kept if not _covered(s, forms)]
    if not kept:
        return (_highest(forms, height),)
    found = [TopFound(_ring(s.outline), s.height) for s in kept]
    return tuple(sorted(found, key=lambda top: -top.height))


def arms_of(forms: Sequence[Stood], tops: Sequence[TopFound]) -> tuple[TopFound, ...]:
    """What else than its tops a piece can be leant and sat on: arms, and the edge of a back. The highest first."""
    height = max(float(form.points[:, 2].max()) for form in forms)
    surfaces = _merged([s for form in forms for s in _surfaces(form, LEAST_HEIGHT * height, _LEAST_ARM)])
    known = [(Polygon(top.outline), top.height) for top in tops]
    found = [
        TopFound(_ring(s.outline), s.height)
        for s in surfaces
        if _half_width(s.outline) >= _LEAST_ARM
        and not any(
            abs(s.height - high) <= _ONE_HEIGHT and shapely.intersects(outline, s.outline) for outline, high in known
        )
        and not _covered(s, forms)
    ]
    return tuple(sorted(found, key=lambda arm: -arm.height))


def _surfaces(form: Stood, least: float, half: float) -> list[_Surface]:
    """The nearly level upper surfaces of a form that reach higher than `least`, the largest first; not those that are
    surely narrower than twice `half`."""
    corners = form.points[form.mesh.triangles]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    rise = normal[:, 2] / np.maximum(np.linalg.norm(normal, axis=1), TINY)
    high = corners[:, :, 2].max(axis=1)
    level = np.flatnonzero((rise >= cos(radians(STEEPEST))) & (high > least))
    if not len(level):
        return []
    labels = _patches(form, level)
    count = int(labels.max()) + 1
    low_x, high_x, low_y, high_y = (np.full(count, s * np.inf) for s in (1, -1, 1, -1))
    for low, most, axis in ((low_x, high_x, 0), (low_y, high_y, 1)):
        np.minimum.at(low, labels, corners[level, :, axis].min(axis=1))
        np.maximum.at(most, labels, corners[level, :, axis].max(axis=1))
    wide, deep = high_x - low_x, high_y - low_y
    large = [i for i in np.argsort(-wide * deep)[:_MOST].tolist() if min(wide[i], deep[i]) >= 2 * half]
    found = []
    for i in large:
        patch = level[labels == i]
        top = float(high[patch].max())
        foot = float(corners[patch, :, 2].min())
        edge = (rise > _EDGE_STEEP) & (corners[:, :, 2].min(axis=1) >= foot - _EDGE_DOWN) & (high <= top + _EDGE_UP)
        edge[patch] = True
        around = np.flatnonzero(edge)
        names = _patches(form, around)
        grown = around[np.isin(names, np.unique(names[np.searchsorted(around, patch)]))]
        outline = _filled(form, grown)
        if not outline.is_empty:
            found.append(_Surface(outline, top))
    return found


def _patches(form: Stood, triangles: Ints) -> Ints:
    """A number from 0 for each of some triangles (ascending), the same for those that hang together by edges."""
    place = np.full(len(form.mesh.triangles), -1, dtype=np.int64)
    place[triangles] = np.arange(len(triangles))
    half_edges = (3 * triangles[:, None] + np.arange(3)).ravel()
    other = place[form.mesh.twins[half_edges] // 3]
    one = np.repeat(np.arange(len(triangles)), 3)[other >= 0]
    other = other[other >= 0]
    label = np.arange(len(triangles))
    while True:
        low = np.minimum(label[one], label[other])
        joined = label.copy()
        np.minimum.at(joined, label[one], low)
        np.minimum.at(joined, label[other], low)
        while (joined[joined] != joined).any():
            joined = joined[joined]
        if np.array_equal(joined, label):
            return np.asarray(np.unique(label, return_inverse=True)[1], dtype=np.int64).reshape(-1)
        label = joined


def _filled(form: Stood, triangles: Ints) -> BaseGeometry:
    """The largest outline of some upper triangles in plan, with all that it surrounds."""
    mesh = form.mesh
    chosen: Flags = np.zeros(len(mesh.triangles), dtype=bool)
    chosen[triangles] = True
    half_edges = (3 * triangles[:, None] + np.arange(3)).ravel()
    rim = half_edges[~chosen[mesh.twins[half_edges] // 3]]
    start = mesh.triangles[rim // 3, rim % 3]
    end = mesh.triangles[rim // 3, (rim + 1) % 3]
    owner = np.zeros(len(rim), dtype=np.int64)
    area = fill_all(owner, form.points[start, :2], form.points[end, :2], 1)[0]
    return _outer(area)


def _outer(area: BaseGeometry) -> BaseGeometry:
    filled = areas_of(shapely.union_all([Polygon(p.exterior) for p in areas_of(area).geoms]))
    return max(filled.geoms, key=lambda p: p.area, default=Polygon())


def _merged(surfaces: Sequence[_Surface]) -> list[_Surface]:
    """Surfaces side by side at about one height as one, and those that lie within another at its height left out."""
    left = sorted(surfaces, key=lambda s: -s.outline.area)
    found: list[_Surface] = []
    while left:
        one = left.pop(0)
        grown = True
        while grown:
            grown = False
            for other in left:
                near = abs(other.height - one.height) <= _ONE_HEIGHT
                if near and shapely.distance(other.outline, one.outline) <= _ONE_PLAN:
                    wide = [shapely.buffer(s.outline, _ONE_PLAN, join_style="mitre") for s in (one, other)]
                    both = shapely.buffer(shapely.union_all(wide), -_ONE_PLAN, join_style="mitre")
                    one = _Surface(_outer(both), max(one.height, other.height))
                    left.remove(other)
                    grown = True
                    break
        found.append(one)
    return found


def _half_width(area: BaseGeometry) -> float:
    """Radius of the largest circle in an outline, mm."""
    return float(shapely.maximum_inscribed_circle(shapely.simplify(area, COARSE), tolerance=1.0).length)


def _covered(surface: _Surface, forms: Sequence[Stood], most: float = 0.5) -> bool:
    """Whether more than a share `most` of a surface lies under wood."""
    x0, y0, x1, y1 = surface.outline.bounds
    steps = (np.arange(_ASKED) + 0.5) / _ASKED
    x, y = (axis.ravel() for axis in np.meshgrid(x0 + steps * (x1 - x0), y0 + steps * (y1 - y0)))
    inside = shapely.contains_xy(surface.outline, x, y)
    points = shapely.points(x[inside], y[inside])
    under = np.zeros(len(points), dtype=bool)
    for form in forms:
        corners = form.points[form.mesh.triangles]
        over = corners[corners[:, :, 2].min(axis=1) > surface.height + OVER]
        if not len(over) or under.all():
            continue
        a, b, c = over[:, 0, :2], over[:, 1, :2], over[:, 2, :2]
        double = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (c[:, 0] - a[:, 0]) * (b[:, 1] - a[:, 1])
        over = over[np.abs(double) > COARSE * COARSE]
        tree = shapely.STRtree(shapely.polygons(over[:, :, :2]))
        who, _ = tree.query(points, predicate="intersects")
        under[who] = True
    return bool(len(points)) and float(under.mean()) > most


def _highest(forms: Sequence[Stood], height: float) -> TopFound:
    """The hull of the highest part of a piece."""
    low = height - max(_HIGHEST * height, _LEAST_HIGHEST)
    shadows = [
        slice_surface(
            f.points, f.mesh.triangles, f.mesh.twins, (max(low, 0.0), height + ROUNDING), sections=False
        ).shadows[0]
        for f in forms
        if f.points[:, 2].max() > low
    ]
    return TopFound(_ring(shapely.convex_hull(shapely.union_all(shadows))), height, level=False)


def _ring(area: BaseGeometry) -> Ring:
    thin = shapely.simplify(area, COARSE / 5)
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(thin.exterior)[:-1])
