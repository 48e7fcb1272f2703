# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a piece touches the floor with: its feet, and the hull of all that touches, over whose edges it tips.

A foot is taken a little above its lowest point, where a flat one is as large as on the floor, and a rounded one as
large as the finish and the wood that gives way make it; of a rounded one nearly all of that is taken off again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from freecad_stacklam.lamination.findings.standing import TOUCHING, Foot, Ring
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.plan.areas import areas_of
from freecad_stacklam.lamination.tolerances import COARSE, ROUNDING
from freecad_stacklam.lamination.tops.outlines import Stood

Floats = NDArray[np.float64]

#: A foot is measured so far above its lowest point, mm.
_SLICE = 0.05
#: A foot that is this share of itself at _SLICE of what it is at TOUCHING is flat; of a ball it is a sixth, of a
#: roll two fifths.
_FLAT = 0.55
#: Of a rounded foot's greatest half width, what is taken off.
_ROUND = 0.9
#: Feet nearer to each other than this are one foot, mm.
_ONE_FOOT = 5.0
#: What hangs no further above the floor than this is a foot that does not reach it, mm.
NEAR_FLOOR = 10.0
#: Places smaller than this are no feet of their own, mm²: a pin's head.
_LEAST_FOOT = 1.0


@dataclass(frozen=True, eq=False)
class Contact:
    """A foot while it is found: where it touches (a point where it is round), its rings, its lowest point."""

    touch: BaseGeometry
    area: BaseGeometry
    at: tuple[float, float]
    gap: float
    face: bool


def contacts_of(forms: Sequence[Stood], near: float = NEAR_FLOOR) -> tuple[Contact, ...]:
    """Every foot of a piece, those that touch and those that hang no more than `near` above the floor."""
    found: list[Contact] = []
    for islands, low in ((_joined(_islands(forms, TOUCHING)), 0.0), (_islands(forms, near), TOUCHING)):
        taken = shapely.union_all([c.area for c in found]) if found else Polygon()
        for island in islands:
            if low and (island.area < _LEAST_FOOT or shapely.intersects(island, taken)):
                continue
            contact = _contact(forms, island, near)
            if contact is not None:
                found.append(contact)
    return tuple(found)


def _islands(forms: Sequence[Stood], height: float) -> list[BaseGeometry]:
    """Where the piece is no higher above the floor than `height`."""
    shadows = [_shadow(form, 0.0, height) for form in forms]
    return [p for p in shapely.get_parts(shapely.union_all(shadows)).tolist() if not p.is_empty]


def _shadow(form: Stood, low: float, high: float) -> MultiPolygon:
    if form.points[:, 2].min() > high:
        return MultiPolygon()
    planes = (low - ROUNDING, high)
    mesh = form.mesh
    return slice_surface(form.points, mesh.triangles, mesh.twins, planes, sections=False).shadows[0]


def _joined(islands: Sequence[BaseGeometry], apart: float = _ONE_FOOT) -> list[BaseGeometry]:
    """Islands nearer than `apart` as one foot each."""
    if len(islands) < 2:
        return list(islands)
    groups = shapely.get_parts(shapely.union_all(shapely.buffer(np.array(islands), apart / 2, quad_segs=4)))
    return [shapely.union_all([one for one in islands if shapely.intersects(one, group)]) for group in groups.tolist()]


def _contact(forms: Sequence[Stood], island: BaseGeometry, near: float) -> Contact | None:
    around = shapely.buffer(island, COARSE)
    shapely.prepare(around)
    lowest: Floats | None = None
    for form in forms:
        low = form.points[form.points[:, 2] <= near + ROUNDING]
        low = low[shapely.contains_xy(around, low[:, 0], low[:, 1])] if len(low) else low
        if len(low) and (lowest is None or low[:, 2].min() < lowest[2]):
            lowest = low[low[:, 2].argmin()]
    if lowest is None:
        return None
    gap = max(float(lowest[2]), 0.0)
    shadows = [[_shadow(form, gap, gap + up) for form in forms] for up in (_SLICE, TOUCHING)]
    slim, wide = (shapely.intersection(areas_of(shapely.union_all(s)), around) for s in shadows)
    face = slim.area >= _FLAT * wide.area and slim.area >= _LEAST_FOOT
    at = (float(lowest[0]), float(lowest[1]))
    touch = slim if face else _core(slim, at)
    if face:
        middle = slim.centroid
        at = (middle.x, middle.y)
    return Contact(touch, slim if slim.area > 0 else shapely.Point(at), at, gap, face)


def _core(area: BaseGeometry, at: tuple[float, float]) -> BaseGeometry:
    """What a rounded foot stands on: its lowest point, and what is left when its greatest half width is nearly taken
    off, which of a ring is a ring."""
    if area.is_empty or area.area <= 0:
        return shapely.Point(at)
    parts = [p for p in shapely.get_parts(area).tolist() if p.area > 0]
    half = max(shapely.maximum_inscribed_circle(p, tolerance=_SLICE).length for p in parts)
    return shapely.union_all([shapely.Point(at), shapely.buffer(area, -_ROUND * half)])


def feet_of(
    contacts: Sequence[Contact], middle: tuple[float, float], heights: Sequence[float], scribe: float
) -> tuple[Foot, ...]:
    """The feet as they are numbered, round from RIGHT about `middle`, with what a scribe line takes off each.

    heights: of the feet's ends above the floor when the piece is wedged up level; scribe: of the line, mm.
    """

    def turn(of: int) -> float:
        x, y = contacts[of].at
        return round(float(np.degrees(np.arctan2(y - middle[1], x - middle[0]))), 3) % 360.0

    found = []
    for number, of in enumerate(sorted(range(len(contacts)), key=turn), 1):
        one = contacts[of]
        off = max(scribe - heights[of], 0.0)
        found.append(Foot(number, rings_of(one.area), one.at, one.gap, one.face, off))
    return tuple(found)


def rings_of(area: BaseGeometry) -> tuple[Ring, ...]:
    """Every boundary of an area as a ring of plain numbers."""
    found = []
    for part in shapely.get_parts(area).tolist():
        if isinstance(part, Polygon) and not part.is_empty:
            thin = shapely.simplify(part, COARSE)
            found += [
                tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in (thin.exterior, *thin.interiors)
            ]
    return tuple(found)


def support_of(contacts: Sequence[Contact], reach: float = TOUCHING) -> BaseGeometry:
    """The hull of all that is no more than `reach` above the floor: a polygon, or a line or a point where no more is.

    With a reach of more than TOUCHING it is what holds the piece once it has rocked onto the feet that hang over."""
    hull = shapely.convex_hull(shapely.union_all([c.touch for c in contacts if c.gap <= reach]))
    return shapely.simplify(hull, ROUNDING) if isinstance(hull, Polygon) else hull
