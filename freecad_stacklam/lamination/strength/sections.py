# SPDX-License-Identifier: LGPL-2.1-or-later

"""Properties of a plane section of one or several materials, by exact polygon formulas.

Each part is an area and how much stiffer its material is along the section's normal than the material that the section
is told in (the transformed section: n = E of the part / E of that material). Lengths mm, areas mm², second moments mm⁴,
forces N, moments N·mm, stresses MPa. A section's own axes 1 and 2 with its normal are right-handed.

Area and moments of a polygon are sums over its edges (Green's theorem: A = ½ Σ c, ∫x = ⅙ Σ (x₀ + x₁) c,
∫x² = 1/12 Σ (x₀² + x₀x₁ + x₁²) c, ∫xy = 1/24 Σ (x₀y₁ + 2x₀y₀ + 2x₁y₁ + x₁y₀) c with c = x₀y₁ − x₁y₀); holes run the
other way round.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import atan2, degrees, hypot

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.tolerances import NO_AREA, TINY

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Part:
    """One material of a section: its corners (K × 2, of its hull: no fibre is further out), its area, and n."""

    corners: Floats
    area: float
    stiffness: float


@dataclass(frozen=True, eq=False)
class Section:
    """A section. `area` is that of the wood, `stiff_area` Σ nA; `centre` and the second moments are those of the
    transformed section: i11 = Σ n∫y², i22 = Σ n∫x², i12 = Σ n∫xy about its centroid, x along axis 1, y along axis 2.
    `shapes` are the areas of the parts."""

    parts: tuple[Part, ...]
    area: float
    stiff_area: float
    centre: tuple[float, float]
    i11: float
    i22: float
    i12: float
    shapes: tuple[shapely.Geometry, ...]

    @cached_property
    def torsion(self) -> float:
        """Torsion constant of all parts, mm⁴: see `torsion_of`."""
        return sum(torsion_of(shape) for shape in self.shapes)

    @property
    def principal(self) -> tuple[float, float, float]:
        """Greatest and least second moment, and the direction of the axis of the greatest, degrees from axis 1."""
        middle, half = (self.i11 + self.i22) / 2, (self.i11 - self.i22) / 2
        reach = hypot(half, self.i12)
        # The moment about an axis turned by a is middle + half · cos 2a − i12 · sin 2a.
        turn = degrees(atan2(-self.i12, half)) / 2 if reach > TINY * middle else 0.0
        return middle + reach, middle - reach, turn

    @property
    def reach(self) -> float:
        """The farthest fibre from the centroid, mm."""
        return max(float(np.hypot(*(p.corners - self.centre).T).max()) for p in self.parts)

    @property
    def modulus(self) -> float:
        """The least second moment over the farthest fibre from its axis, mm³: what bending the weak way has."""
        _, least, turn = self.principal
        across = np.radians(turn + 90.0)  # the axis of the least moment; fibres are measured square to it
        normal = np.array([-np.sin(across), np.cos(across)])
        far = max(float(np.abs((p.corners - self.centre) @ normal).max()) for p in self.parts)
        return least / max(far, TINY)

    def stresses(self, axial: Floats, about_1: Floats, about_2: Floats) -> tuple[Floats, ...]:
        """Stress at every corner of every part under L loads: of each part an L × K array, MPa, tension positive.

        axial: N; about_1, about_2: moments about the centroid, N·mm, each of L. Plane sections stay plane: the strain
        is a + b·x + c·y, and ∫σ = N, ∫yσ = M1, −∫xσ = M2 give a, b and c.
        """
        determinant = self.i11 * self.i22 - self.i12**2
        along_x = -(about_2 * self.i11 + about_1 * self.i12) / determinant
        along_y = (about_1 * self.i22 + about_2 * self.i12) / determinant
        even = axial / self.stiff_area
        found = []
        for part in self.parts:
            x, y = (part.corners - self.centre).T
            found.append(part.stiffness * (even[:, None] + np.outer(along_x, x) + np.outer(along_y, y)))
        return tuple(found)


def polygon_moments(area: shapely.Geometry) -> tuple[float, float, float, float, float, float]:
    """A, ∫x, ∫y, ∫x², ∫y², ∫xy of a polygon or several, about the origin of its coordinates; exact."""
    rings, owner = shapely.get_rings(shapely.get_parts(area), return_index=True)
    if not len(rings):
        return (0.0,) * 6
    outer = np.ones(len(rings), dtype=bool)
    outer[1:] = owner[1:] != owner[:-1]
    points, ring = shapely.get_coordinates(rings, return_index=True)
    # Far from the origin the sums would lose digits to cancelling: they are taken about the middle.
    middle = points.mean(axis=0)
    x, y = (points - middle).T
    inner = ring[1:] == ring[:-1]
    x0, y0, x1, y1 = x[:-1][inner], y[:-1][inner], x[1:][inner], y[1:][inner]
    of = ring[:-1][inner]
    c = x0 * y1 - x1 * y0
    turn = np.sign(np.bincount(of, c, len(rings)))
    c = c * (turn * np.where(outer, 1.0, -1.0))[of]
    a = float(c.sum()) / 2
    sx, sy = float(((x0 + x1) * c).sum()) / 6, float(((y0 + y1) * c).sum()) / 6
    xx = float(((x0 * x0 + x0 * x1 + x1 * x1) * c).sum()) / 12
    yy = float(((y0 * y0 + y0 * y1 + y1 * y1) * c).sum()) / 12
    xy = float(((x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0) * c).sum()) / 24
    u, v = float(middle[0]), float(middle[1])
    return (
        a,
        sx + a * u,
        sy + a * v,
        xx + 2 * u * sx + a * u * u,
        yy + 2 * v * sy + a * v * v,
        xy + u * sy + v * sx + a * u * v,
    )


def torsion_of(area: shapely.Geometry) -> float:
    """Torsion constant, mm⁴, after St Venant: A⁴ / (40 · I polar) for a compact outline (2 % low for a circle or an
    ellipse, 1 % for a square, 4 % for a rectangle 2 : 1; my arithmetic against the closed forms), less the same of
    each hole in it (exact in that measure for a tube)."""
    total = 0.0
    for part in shapely.get_parts(area).tolist():
        rings = [(1.0, part.exterior), *((-1.0, ring) for ring in part.interiors)]
        one = 0.0
        for sign, ring in rings:
            a, sx, sy, xx, yy, _ = polygon_moments(shapely.Polygon(ring))
            polar = xx + yy - (sx * sx + sy * sy) / max(a, TINY)
            one += sign * a**4 / (40.0 * max(polar, TINY))
        total += max(one, 0.0)
    return total


def section_of(parts: Sequence[tuple[shapely.Geometry, float]]) -> Section | None:
    """The section made of (area, n) parts that do not overlap; None where there is no wood in it."""
    kept: list[Part] = []
    sums = np.zeros(6)
    shapes: list[shapely.Geometry] = []
    area = 0.0
    for shape, n in parts:
        if shape.is_empty or shape.area <= NO_AREA:
            continue
        moments = np.array(polygon_moments(shape))
        area += float(moments[0])
        shapes.append(shape)
        sums += n * moments
        hull = shapely.get_coordinates(shapely.convex_hull(shape))[:-1]
        kept.append(Part(hull, float(moments[0]), n))
    if not kept or area <= NO_AREA:
        return None
    a, sx, sy, xx, yy, xy = sums.tolist()
    u, v = sx / a, sy / a
    i22, i11, i12 = xx - a * u * u, yy - a * v * v, xy - a * u * v
    if i11 * i22 - i12 * i12 <= TINY * (i11 + i22) ** 2:
        return None  # a sliver: no breadth to bend
    return Section(tuple(kept), area, a, (u, v), i11, i22, i12, tuple(shapes))
