# SPDX-License-Identifier: LGPL-2.1-or-later

"""Volume of a body and its first and second moments, from its surface: where its middle lies, how hard it turns.

Integrals of 1, r and r·rᵀ over the body, exact for a mesh: the part below a height is an integral over the plan of what
lies under each triangle, with the sign of its projected area (the divergence theorem). A body of several woods is the
sum of its parts, each times its density.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Corners, middles of the sides and middle of a triangle, in its own coordinates, and their weights: exact for
#: polynomials of the third degree (Stroud; any text on numerical integration).
_AT = np.array(
    [[1, 0, 0], [0, 1, 0], [0, 0, 1], [0.5, 0.5, 0], [0, 0.5, 0.5], [0.5, 0, 0.5], [1 / 3, 1 / 3, 1 / 3]]
)  # fmt: skip
_WEIGHT = np.array([1 / 20] * 3 + [2 / 15] * 3 + [9 / 20])
#: Powers of x, y and z of the ten integrals, and which plan integral (of x, y) each of them needs.
_POWERS = ((0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1), (2, 0, 0), (0, 2, 0), (0, 0, 2), (1, 1, 0), (1, 0, 1), (0, 1, 1))
_PLAN = ((0, 0), (1, 0), (0, 1), (2, 0), (0, 2), (1, 1))


@dataclass(frozen=True, eq=False)
class Moments:
    """`volume` mm³, `first` (3,) ∫ r mm⁴ and `second` (3, 3) ∫ r·rᵀ mm⁵ about the origin of the frame it is in; of a
    body that is weighed, kg, kg·mm and kg·mm²."""

    volume: float
    first: Floats
    second: Floats

    def __add__(self, other: Moments) -> Moments:
        return Moments(self.volume + other.volume, self.first + other.first, self.second + other.second)

    def times(self, factor: float) -> Moments:
        """Every integral times `factor`: a density, or −1 for what is taken away."""
        return Moments(self.volume * factor, self.first * factor, self.second * factor)

    def mapped(self, matrix: Sequence[float] | Floats) -> Moments:
        """In another frame, or sheared: r → A·r + b by a 4 × 4 matrix, row-major, whose A keeps volumes."""
        m = np.asarray(matrix, dtype=np.float64).reshape(4, 4)
        a, b = m[:3, :3], m[:3, 3]
        turned = a @ self.first
        second = a @ self.second @ a.T + np.outer(turned, b) + np.outer(b, turned) + self.volume * np.outer(b, b)
        return Moments(self.volume, turned + self.volume * b, second)

    @property
    def middle(self) -> Floats:
        """Centre, (3,). Of an empty body it is nowhere: nan."""
        with np.errstate(invalid="ignore", divide="ignore"):
            return np.asarray(self.first / self.volume)

    @property
    def inertia(self) -> Floats:
        """(3, 3) inertia about the own middle, in the frame's axes: ∫ (r²·1 − r·rᵀ)."""
        if self.volume == 0.0:
            return np.zeros((3, 3))
        about = self.second - np.outer(self.first, self.first) / self.volume
        return np.asarray(np.trace(about) * np.eye(3) - about)


def nothing() -> Moments:
    """An empty body, to add to."""
    return Moments(0.0, np.zeros(3), np.zeros((3, 3)))


def slab_moments(points: Floats, triangles: Ints, planes: Sequence[float]) -> tuple[Moments, ...]:
    """Moments of a closed mesh between neighbouring planes, about the frame's origin.

    points: N × 3 in a frame whose z the planes are heights in; triangles: M × 3; planes: rising.
    """
    heights = np.asarray(planes, dtype=np.float64)
    centre = (points.min(axis=0) + points.max(axis=0)) / 2  # so that a far-off form loses no digits
    parts = split_at((points - centre)[triangles], heights - centre[2])
    plan = np.zeros((len(parts), len(_PLAN)))
    under = np.zeros((len(parts), len(_POWERS)))
    for i, part in enumerate(parts):
        edge, other = part[:, 1, :2] - part[:, 0, :2], part[:, 2, :2] - part[:, 0, :2]
        area = (edge[:, 0] * other[:, 1] - other[:, 0] * edge[:, 1]) / 2
        x, y, z = (part[:, :, k] @ _AT.T for k in range(3))
        weight = area[:, None] * _WEIGHT
        plan[i] = [float((weight * x**p * y**q).sum()) for p, q in _PLAN]
        under[i] = [float((weight * x**p * y**q * z ** (r + 1)).sum()) / (r + 1) for p, q, r in _POWERS]
    over = plan.sum(axis=0) - np.cumsum(plan, axis=0)  # what lies above each part
    shift = np.eye(4)
    shift[:3, 3] = centre
    made = []
    for i in range(1, len(parts) - 1):
        low, high = heights[i - 1] - centre[2], heights[i] - centre[2]
        found = []
        for integral, (p, q, r) in zip(under[i], _POWERS):
            k = _PLAN.index((p, q))
            bottom, top = low ** (r + 1) / (r + 1), high ** (r + 1) / (r + 1)
            found.append(integral - bottom * plan[i, k] + (top - bottom) * over[i, k])
        made.append(_moments(found).mapped(shift))
    return tuple(made)


def _moments(found: Sequence[float]) -> Moments:
    """From the ten integrals in the order of _POWERS."""
    v, x, y, z, xx, yy, zz, xy, xz, yz = (float(f) for f in found)
    return Moments(v, np.array([x, y, z]), np.array([[xx, xy, xz], [xy, yy, yz], [xz, yz, zz]]))


def split_at(corners: Floats, heights: Floats) -> list[Floats]:
    """Triangles (M, 3, 3) cut at every height: those below the first, between neighbours, and above the last."""
    parts = []
    rest = corners
    for height in heights:
        above = rest[:, :, 2] >= height
        count = above.sum(axis=1)
        lone = np.where(count == 1, above.argmax(axis=1), (~above).argmax(axis=1))
        crossed = (count == 1) | (count == 2)
        cut, at, one_above = rest[crossed], lone[crossed], count[crossed] == 1
        rows = np.arange(len(cut))
        a, b, c = (cut[rows, (at + k) % 3] for k in range(3))
        p, q = _meet(a, b, height), _meet(a, c, height)
        alone = np.stack([a, p, q], axis=1)
        others = np.stack([np.stack([p, b, c], axis=1), np.stack([p, c, q], axis=1)], axis=1)
        down = [rest[count == 0], alone[~one_above], others[one_above].reshape(-1, 3, 3)]
        up = [rest[count == 3], alone[one_above], others[~one_above].reshape(-1, 3, 3)]
        parts.append(np.concatenate(down))
        rest = np.concatenate(up)
    return [*parts, rest]


def _meet(a: Floats, b: Floats, height: float) -> Floats:
    """Where the lines from `a` to `b` (N × 3) pass a height; they do, one end lying below it and one not."""
    share = (height - a[:, 2:]) / (b[:, 2:] - a[:, 2:])
    met = a + share * (b - a)
    met[:, 2] = height
    return met


def prism_moments(rings: Sequence[Floats], bottom: float, top: float) -> Moments:
    """Moments of an upright prism between two heights. rings: N × 2 each, wood on the left: holes run clockwise."""
    total = np.zeros(6)
    for ring in rings:
        x, y = ring[:, 0], ring[:, 1]
        u, v = np.roll(x, -1), np.roll(y, -1)
        cross = x * v - u * y
        total += [
            cross.sum() / 2,
            ((x + u) * cross).sum() / 6,
            ((y + v) * cross).sum() / 6,
            ((x * x + x * u + u * u) * cross).sum() / 12,
            ((y * y + y * v + v * v) * cross).sum() / 12,
            ((x * v + 2 * x * y + 2 * u * v + u * y) * cross).sum() / 24,
        ]
    area, ax, ay, axx, ayy, axy = total
    high = top - bottom
    z, zz = (top**2 - bottom**2) / 2, (top**3 - bottom**3) / 3
    return _moments([area * high, ax * high, ay * high, area * z, axx * high, ayy * high, area * zz, axy * high,
                     ax * z, ay * z])  # fmt: skip
