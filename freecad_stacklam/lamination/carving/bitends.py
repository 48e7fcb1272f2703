# SPDX-License-Identifier: LGPL-2.1-or-later

"""How low a bit may go: its whole end keeps `leave` from the finished surface in space.

The end is a cone of the bit's diameter, as high as its point is long. For a surface point at distance ρ from the hole's
axis and height z that asks for a tip no lower than z − g(ρ), where g is the lower outline of the bit's end grown by
`leave`: a ball about the tip, a cone, and a ring about the shoulder, closed formulas all. The highest z − g(ρ) over the
triangles near the hole is bounded from above to 0.01 mm by halving them.
"""

from __future__ import annotations

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import ROUNDING, TINY, TINY_SQUARE, TIP_TOLERANCE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def least_tips(
    points: Floats,
    triangles: Ints,
    places: Floats,
    radius: float,
    point: float,
    leave: float,
    tolerance: float = TIP_TOLERANCE,
) -> Floats:
    """The lowest height that a bit's tip may reach at each place (Q × 2), boring downwards, mm.

    points: N × 3 of the surface. radius, point: of the bit, mm. leave: least distance in space from the bit's end to
    the surface. Bounded from above to `tolerance` mm; −inf where no surface is near.
    """
    reach = radius + leave
    corner = points[triangles]
    low, high = corner[:, :, :2].min(axis=1), corner[:, :, :2].max(axis=1)
    owner, tri = _near(low, high, places, reach)
    piece = corner[tri] - np.column_stack([places[owner], np.zeros(len(owner))])[:, None, :]
    best = np.full(len(places), -np.inf)
    bound = np.full(len(places), -np.inf)
    while len(piece):
        most = piece[:, :, 2].max(axis=1) - bit_end(_distance(piece[:, :, :2]), radius, point, leave)
        at_corner = piece[:, :, 2] - bit_end(np.hypot(piece[:, :, 0], piece[:, :, 1]), radius, point, leave)
        np.maximum.at(best, owner, at_corner.max(axis=1))
        # Where the middle lies under the bit, the limit is concave there and nowhere above its tangent.
        middle = piece.mean(axis=1)
        rho = np.hypot(middle[:, 0], middle[:, 1])
        inside = rho < reach - ROUNDING
        value = middle[:, 2] - bit_end(rho, radius, point, leave)
        np.maximum.at(best, owner, np.where(inside, value, -np.inf))
        slope = _bit_slope(rho, radius, point, leave) / np.maximum(rho, TINY)
        off = piece - middle[:, None]
        rise = off[:, :, 2] - slope[:, None] * (off[:, :, :2] * middle[:, None, :2]).sum(axis=2)
        most = np.where(inside, np.minimum(most, value + rise.max(axis=1)), most)
        open_ = most > np.where(np.isfinite(best[owner]), best[owner], -np.inf) + tolerance
        span = np.ptp(piece[:, :, :2], axis=1).max(axis=1) + np.ptp(piece[:, :, 2], axis=1)
        done = open_ & (span < tolerance / 4)
        np.maximum.at(bound, owner[done], most[done])
        keep = open_ & ~done & np.isfinite(most)
        piece, owner = _halved(piece[keep]), np.tile(owner[keep], 2)
    return np.maximum(bound, np.where(np.isfinite(best), best + tolerance, -np.inf))


def bit_end(rho: Floats, radius: float, point: float, leave: float) -> Floats:
    """Height over the tip of the lower outline of a bit's end grown by `leave`, at distances ρ from its axis, mm;
    inf beyond radius + leave."""
    tip, rim, slope, cosine = _parts(radius, point, leave)
    ball = -np.sqrt(np.maximum(leave**2 - rho**2, 0.0))
    cone = -leave * cosine + (rho - tip) * slope
    ring = point - np.sqrt(np.maximum(leave**2 - (rho - radius) ** 2, 0.0))
    out = np.where(rho <= tip, ball, np.where(rho <= rim, cone, ring))
    return np.where(rho >= radius + leave, np.inf, out)


def _bit_slope(rho: Floats, radius: float, point: float, leave: float) -> Floats:
    """Derivative of `bit_end`."""
    tip, rim, slope, _ = _parts(radius, point, leave)
    ball = rho / np.sqrt(np.maximum(leave**2 - rho**2, TINY_SQUARE))
    ring = (rho - radius) / np.sqrt(np.maximum(leave**2 - (rho - radius) ** 2, TINY_SQUARE))
    return np.where(rho <= tip, ball, np.where(rho <= rim, slope, ring))


def _parts(radius: float, point: float, leave: float) -> tuple[float, float, float, float]:
    """Where the ball ends, where the ring begins, the cone's slope, and the cosine of its angle."""
    slant = float(np.hypot(radius, point))
    return leave * point / slant, radius + leave * point / slant, point / radius, radius / slant


def _near(low: Floats, high: Floats, places: Floats, reach: float) -> tuple[Ints, Ints]:
    """Pairs of a place and a triangle whose box in plan comes within reach of it."""
    tree = shapely.STRtree(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
    owner, tri = tree.query(shapely.box(*(places - reach).T, *(places + reach).T))
    return owner.astype(np.int64), tri.astype(np.int64)


def _distance(corner: Floats) -> Floats:
    """Distance in plan from the origin to triangles (M × 3 × 2); 0 where they hold it."""
    least = np.full(len(corner), np.inf)
    sides = []
    for i in range(3):
        a, b = corner[:, i], corner[:, (i + 1) % 3]
        edge = b - a
        share = np.clip(-(a * edge).sum(axis=1) / np.maximum((edge**2).sum(axis=1), TINY_SQUARE), 0.0, 1.0)
        least = np.minimum(least, np.hypot(*(a + share[:, None] * edge).T))
        sides.append(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])
    turn = np.stack(sides)
    holds = (turn > 0).all(axis=0) | (turn < 0).all(axis=0)
    return np.where(holds, 0.0, least)


def _halved(corner: Floats) -> Floats:
    """Each triangle as two, through the middle of its longest side, so that slivers grow stout; all first halves come
    before all second ones."""
    length = ((np.roll(corner, -1, axis=1) - corner) ** 2).sum(axis=2)
    first = length.argmax(axis=1)
    a, b, c = (np.take_along_axis(corner, ((first + i) % 3)[:, None, None], axis=1)[:, 0] for i in range(3))
    middle = (a + b) / 2
    return np.concatenate([np.stack((a, middle, c), axis=1), np.stack((middle, b, c), axis=1)])
