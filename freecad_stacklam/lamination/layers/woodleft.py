# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a stack's blanks leave outside the form: the least wood, where it is thin, and what square allowance costs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import MultiPolygon

from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.layers.fitting import FITTED, grown, without_holes
from freecad_stacklam.lamination.layers.leastwood import StepFace, least_wood, step_faces, thin_zones
from freecad_stacklam.lamination.layers.shadow import Slices
from freecad_stacklam.lamination.layers.squaregrowth import grown_square
from freecad_stacklam.lamination.plan.areas import blank_area
from freecad_stacklam.lamination.plan.layers import Containment, LeastWood, SquareCost, ThinZone
from freecad_stacklam.lamination.plan.outline import Outline
from freecad_stacklam.lamination.settings.stack import StackSettings
from freecad_stacklam.lamination.tolerances import FIT_TOLERANCE

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class WoodLeft:
    """The least wood, the thin zones of each layer, and what square allowance costs where that is to be told."""

    least: LeastWood
    thin: tuple[tuple[ThinZone, ...], ...]
    square: SquareCost | None


def measure_wood(
    mesh: Mesh,
    points: Floats,
    slices: Slices,
    regions: Sequence[MultiPolygon],
    blanks: Sequence[Sequence[Outline]],
    proof: Containment,
    settings: StackSettings,
    exact_points: Floats | None = None,
) -> WoodLeft:
    """Measure the wood that the drawn blanks leave.

    points: the mesh's vertices in the stack's frame, mm; slices: shadows and sections at the planes; regions: what the
    blanks were to cover; proof: of the walls.
    """
    planes = slices.planes
    form = points, mesh.triangles, mesh.twins
    margin = settings.allowance + mesh.guard
    steps = _steps(slices, [blank_area(blank) for blank in blanks], margin)
    asked = settings.allowance * (1.0 if settings.square else settings.least_wood)
    height = proof.place[2]
    number = next((k for k, top in enumerate(planes[1:], start=1) if height <= top), len(planes) - 1)
    wall = LeastWood(proof.least_cover, proof.place, "wall", number, asked=asked)
    least = replace(least_wood(*form, steps, wall, exact_points), asked=asked)
    thin: list[tuple[ThinZone, ...]] = [()] * len(blanks)
    if least.kind == "step" and least.distance < asked:
        for step, area in thin_zones(*form, steps, asked):
            thin[step.layer - 1] += (ThinZone(step.side, area),)
    square = None
    if settings.square:
        level = [grown(shadow, margin) for shadow in slices.shadows]
        level = [without_holes(r) for r in level] if settings.fill_holes else level
        left = least_wood(*form, _steps(slices, level, margin), replace(wall, distance=margin))
        square = _cost(planes, level, regions, min(left.distance, least.distance))
    elif least.distance < asked:
        wide = grown_square(*form, slices.shadows, planes, margin)
        wide = [without_holes(r) for r in wide] if settings.fill_holes else wide
        square = _cost(planes, regions, wide, least.distance)
    return WoodLeft(least, tuple(thin), square)


def _steps(slices: Slices, areas: Sequence[MultiPolygon], margin: float) -> list[StepFace]:
    around = margin + FITTED * FIT_TOLERANCE
    return step_faces(slices.planes, areas, slices.just_below, slices.just_above, around)


def _cost(
    planes: Sequence[float], level: Sequence[MultiPolygon], square: Sequence[MultiPolygon], left: float
) -> SquareCost:
    thickness = np.diff(planes)
    narrow, wide = (float((np.array([a.area for a in areas]) * thickness).sum()) for areas in (level, square))
    return SquareCost(wide - narrow, (wide - narrow) / narrow, left)
