# SPDX-License-Identifier: LGPL-2.1-or-later

"""Stress in a section under forces anywhere, and what share of the strength it uses.

Bending both ways, axial force, shear and torsion act together. Shear is taken half as much again as its mean (1.5 V/A,
exact for a rectangle; a circle has 4/3), torsion by St Venant's constant of a compact section, and both at the fibre
that bending has worst: on the safe side. Normal stress and shear make up the use as the root of the sum of their
squares (common practice, no source). Lengths mm, forces N, moments N·mm, stresses MPa.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.strength.composite import Composite
from freecad_stacklam.lamination.strength.loads import Pushes
from freecad_stacklam.lamination.strength.planes import Plane
from freecad_stacklam.lamination.strength.timber import Grade
from freecad_stacklam.lamination.tolerances import ROUNDING, TINY

Floats = NDArray[np.float64]

#: Greatest shear of a rectangle over its mean.
SHEAR_PEAK = 1.5
#: What a section may use of its mean strength before it is called weak: a quarter (common practice, no source).
LIMIT = 0.25


@dataclass(frozen=True, eq=False)
class Judged:
    """The worst fibre of a section under the worst of several loads. `load` numbers it among them. `bending` and
    `axial` make its stress; `tenon_use` is the greatest use of a tenon in the section under any of the loads."""

    use: float
    tenon_use: float
    part: int
    load: int
    place: Floats
    bending: float
    axial: float
    shear: float
    strength: float
    moment: float
    axial_force: float
    shear_force: float


def judge(made: Composite, plane: Plane, pushes: Pushes, factor: float = 1.0, couples: Floats | None = None) -> Judged:
    """The worst of a section under loads that act on what it carries; couples: further moments, L × 3 in the model.

    The force on the carried side is F at a place p, so the section feels F and (p − c) × F about its centroid c.
    factor: what strengths are multiplied by for a load that stays.
    """
    section = made.section
    centre = plane.model(np.array([section.centre]))[0]
    moments = moments_of(pushes, centre)
    if couples is not None:
        moments = moments + couples
    force = pushes.forces @ plane.axes.T
    turning = moments @ plane.axes.T
    stresses = section.stresses(force[:, 2], turning[:, 0], turning[:, 1])
    across = np.hypot(force[:, 0], force[:, 1])
    shear = SHEAR_PEAK * across / section.area
    if np.abs(turning[:, 2]).max() > ROUNDING:
        shear = shear + np.abs(turning[:, 2]) * section.reach / max(section.torsion, TINY)
    found: Judged | None = None
    tenon_use, use = 0.0, -1.0
    for number, (stress, part, material) in enumerate(zip(stresses, section.parts, made.materials, strict=True)):
        each = uses_of(stress, shear[:, None], material.grade, factor)
        load, corner = divmod(int(each.argmax()), each.shape[1])
        worst = float(each[load, corner])
        if material.tenon:
            tenon_use = max(tenon_use, worst)
        elif worst > use:
            use = worst
            even = part.stiffness * float(force[load, 2]) / section.stiff_area
            value = float(stress[load, corner])
            strength = factor * (material.grade.tension if value > 0 else material.grade.compression)
            found = Judged(
                worst, 0.0, number, load, plane.model(part.corners[corner : corner + 1])[0], value - even, even,
                float(shear[load]), strength, float(np.hypot(*turning[load, :2])), float(force[load, 2]),
                float(across[load]),
            )  # fmt: skip
    assert found is not None
    return Judged(**{**found.__dict__, "tenon_use": tenon_use})


def moments_of(pushes: Pushes, point: Floats) -> Floats:
    """Moments about a point of the model, L × 3."""
    x, y, z = (pushes.places - point).T
    u, v, w = pushes.forces.T
    return np.stack([y * w - z * v, z * u - x * w, x * v - y * u], axis=1)


def uses_of(stress: Floats, shear: Floats, grade: Grade, factor: float = 1.0) -> Floats:
    """Use of every fibre: √((σ/f)² + (τ/f_v)²), f the strength in tension or in compression as σ is."""
    normal = stress / np.where(stress > 0, grade.tension, grade.compression)
    found: Floats = np.sqrt(normal**2 + (shear / grade.shear) ** 2) / factor
    return found


def round_that_does(judged: Judged, grade: Grade, factor: float = 1.0, limit: float = LIMIT) -> float:
    """Diameter, mm, of a round neck without a tenon that would use no more than `limit` under the same forces:
    σ = N/A + 32 M/(π d³), τ = 4/3 V/A. Up to the next millimetre."""

    def use(d: float) -> float:
        area = pi * d * d / 4
        bent = 32 * judged.moment / (pi * d**3)
        both = np.array([[judged.axial_force / area + bent, judged.axial_force / area - bent]])
        return float(uses_of(both, np.array([[4 / 3 * judged.shear_force / area]]), grade, factor).max())

    low, high = 1.0, 1.0
    while use(high) > limit and high < 1e4:
        low, high = high, 2 * high
    for _ in range(24):
        middle = (low + high) / 2
        low, high = (middle, high) if use(middle) > limit else (low, middle)
    return float(np.ceil(high))
