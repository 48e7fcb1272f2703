# SPDX-License-Identifier: LGPL-2.1-or-later

"""Where a joint's axis runs in each form: the stretches inside, where they meet, their mouths, the wood around."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, product

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.form.frame import direction_to_stack
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.joints.axis import convex_plan
from freecad_stacklam.lamination.joints.cover import Cylinder, Mouth, Prism, cover_of, depths_along, mouth_of
from freecad_stacklam.lamination.layers.shadow import slice_surface
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan.jointaxis import JointAxis
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.settings.joint import JointSettings
from freecad_stacklam.lamination.tolerances import BREAKOUT_AREA, ROUNDING
from freecad_stacklam.lamination.words import mark, say

Floats = NDArray[np.float64]

#: Forms that are further apart along the axis, or deeper in each other, do not meet there, mm.
MEETING_GAP = 1.0
#: An axis nearer than this to the plane of the layers (sine of 30°) is no mortise across them.
_ACROSS = 0.5
#: Steps across the mortise at which its mouth is felt for.
_FEELERS = (-0.98, -0.5, 0.0, 0.5, 0.98)
#: More stretches of an axis inside one form than this are not sorted out.
_MOST_RUNS = 6


@dataclass(frozen=True, eq=False)
class Run:
    """The axis in one member: inside the form from `low` to `high` along the joint's direction (mm from its point)."""

    stack: StackPlan
    mesh: Mesh
    points: Floats  # of the mesh, in the joint's frame
    low: float
    high: float
    alone: bool  # no other stretch of the axis lies in this form


def runs_of(settings: JointSettings, axis: JointAxis, stack: StackPlan, mesh: Mesh) -> list[Run]:
    """Every stretch of the axis that lies inside the form. mesh: the form in the model. Raises Refusal when the axis
    misses it, lies nearly in its layers, or passes in and out of it too often."""
    if abs(direction_to_stack(stack.frame, axis.along)[2]) < _ACROSS:
        raise Refusal(
            say(
                "Joint “{joint}” runs across the layers of {stack}, less than 30° to them: give it an axis "
                "nearer to the stacking axis, or stack along the joint.",
                joint=settings.name,
                stack=stack.name,
            )
        )
    points = axis.local(mesh.vertices)
    (hits,) = depths_along(points, mesh.triangles, np.zeros((1, 2)))
    if len(hits) < 2:
        raise Refusal(
            say(
                "The axis of joint “{joint}” misses {stack}: choose a point on the axis that both pieces share.",
                joint=settings.name,
                stack=stack.name,
            )
        )
    pairs = list(zip(hits[0::2], hits[1::2]))
    if len(pairs) > _MOST_RUNS:
        raise Refusal(
            say(
                "The axis of joint “{joint}” passes in and out of {stack} {count} times: move it into solid wood.",
                joint=settings.name,
                stack=stack.name,
                count=len(pairs),
            )
        )
    return [Run(stack, mesh, points, float(a), float(b), len(pairs) == 1) for a, b in pairs]


def chain_of(name: str, choices: Sequence[Sequence[Run]]) -> list[Run]:
    """One stretch of each member, in their order along the axis, such that neighbours meet. Raises Refusal when they do
    not."""
    best: tuple[float, list[Run]] | None = None
    for picked in product(*choices):
        chain = sorted(picked, key=lambda run: run.low + run.high)
        gap = max(abs(b.low - a.high) for a, b in pairwise(chain))
        if best is None or gap < best[0]:
            best = gap, chain
    assert best is not None
    gap, chain = best
    if gap > MEETING_GAP:
        one, two = max(pairwise(chain), key=lambda pair: abs(pair[1].low - pair[0].high))
        apart = two.low - one.high
        raise Refusal(
            say(
                mark(
                    "Joint “{joint}”: {stack} and {other} are {distance} apart on its axis; move them until they touch."
                )
                if apart > 0
                else mark(
                    "Joint “{joint}”: {stack} and {other} are {distance} inside each other on its axis; move them "
                    "until they touch."
                ),
                joint=name,
                stack=one.stack.name,
                other=two.stack.name,
                distance=size(abs(apart)),
            )
        )
    return chain


def feelers_of(plan: Floats) -> Floats:
    """Where a section is felt for its mouth: its middle, a grid inside it, and its corners; F × 2 from K × 2, mm."""
    low, high = plan.min(axis=0), plan.max(axis=0)
    middle, half = (low + high) / 2, (high - low) / 2
    grid = np.array([middle + half * (i, j) for i in _FEELERS for j in _FEELERS])
    inside = shapely.contains_xy(shapely.Polygon(plan), grid[:, 0], grid[:, 1])
    return np.vstack([np.zeros((1, 2)), grid[inside], plan])


def _faces(run: Run, feelers: Floats) -> Floats:
    """Where the section's feelers meet the form nearest to its low and to its high face, F × 2; NaN where they miss."""
    hits = depths_along(run.points, run.mesh.triangles, feelers)
    return np.array(
        [[h[np.abs(h - face).argmin()] if len(h) else np.nan for face in (run.low, run.high)] for h in hits]
    )


def mouths_of(chain: Sequence[Run], feelers: Floats) -> list[list[Mouth]]:
    """For each member the depths at which the joint passes its low and its high face on purpose.

    Between two members that is where both faces are: a corner of the section that passes one piece's edge is no mouth.
    At the free ends it is wherever the surface lies across the axis, less than 60° to it.
    """
    felt = [_faces(run, feelers) for run in chain]
    reach = np.hypot(*feelers.T) * np.tan(np.radians(60))
    mouths = []
    for i, run in enumerate(chain):
        ends = []
        for face, column, neighbour, outward in ((run.low, 0, i - 1, -1.0), (run.high, 1, i + 1, 1.0)):
            depth = felt[i][:, column]
            if 0 <= neighbour < len(chain):
                own = np.abs(depth - felt[neighbour][:, 1 - column]) <= MEETING_GAP
            else:
                own = np.abs(depth - face) <= reach + ROUNDING
            own &= ~np.isnan(depth)
            felt_here = np.vstack([[0.0, 0.0, face], np.column_stack([feelers[own], depth[own]])])
            ends.append(mouth_of(felt_here, outward))
        mouths.append(ends)
    return mouths


def wood_around(
    name: str, run: Run, axis: JointAxis, plan: Outline, span: tuple[float, float], mouths: Sequence[Mouth]
) -> tuple[float, tuple[float, float, float], float]:
    """Least wood around the mortise in one member, mm, the place in the model, and the part of the form's width that
    the mortise takes where it takes most. A negative distance says by how much it breaks out. Raises Refusal when it is
    wider than the form all along."""
    out, where, everywhere, share = _break_out(run, plan, span, mouths)
    if everywhere:
        raise Refusal(
            say(
                "The mortise of joint “{joint}” is wider than {stack} all along it: make it smaller.",
                joint=name,
                stack=run.stack.name,
            )
        )
    if out > 0:
        return -out, _triple(axis.model(np.array([where]))[0]), share
    found = cover_of(run.points, run.mesh.triangles, _body(plan, span), mouths)
    return found.distance, _triple(axis.model(np.array([found.place]))[0]), share


def _body(plan: Outline, span: tuple[float, float]) -> Prism | Cylinder:
    """The mortise as a convex body about its axis."""
    x, _, bulge = plan.outer.points[0]
    return Cylinder((0.0, 0.0), x, *span) if bulge else Prism(convex_plan(plan), *span)


def _triple(values: Floats) -> tuple[float, float, float]:
    return float(values[0]), float(values[1]), float(values[2])


def _break_out(
    run: Run, plan: Outline, span: tuple[float, float], mouths: Sequence[Mouth]
) -> tuple[float, tuple[float, float, float], bool, float]:
    """How far the mortise stands out of the form anywhere but at its mouths, mm, where, whether it does so everywhere,
    and its largest part of the form's width."""
    levels = np.linspace(*span, 14)[1:-1]
    inner = np.array([z for z in levels if not any(m.low <= z <= m.high for m in mouths)])
    levels = inner if len(inner) else np.array([sum(span) / 2])
    slices = slice_surface(run.points, run.mesh.triangles, run.mesh.twins, [-1e6, *levels.tolist(), 1e6])
    polygon = polygon_of(plan)
    worst, place, short, share = 0.0, (0.0, 0.0, 0.0), 0, 0.0
    for z, section in zip(levels, slices.just_above[1:-1]):
        share = max(share, _share(polygon, section))
        outside = polygon.difference(section)
        if outside.area < BREAKOUT_AREA:
            continue
        short += 1
        corners = shapely.get_coordinates(outside)
        distance = shapely.distance(shapely.points(corners), section)
        i = int(np.argmax(np.nan_to_num(distance, nan=np.inf)))
        if distance[i] > worst:
            worst, place = float(distance[i]), (float(corners[i, 0]), float(corners[i, 1]), float(z))
    return worst, place, short == len(levels), share


def _share(plan: shapely.Polygon, section: shapely.MultiPolygon) -> float:
    """The mortise's part of the form's width, along its sides and through its axis."""
    low_x, low_y, high_x, high_y = plan.bounds
    far = 1e4
    across = shapely.LineString([(-far, 0), (far, 0)]).intersection(section)
    along = shapely.LineString([(0, -far), (0, far)]).intersection(section)
    widths = [
        (
            high_x - low_x,
            max(
                (p.length for p in shapely.get_parts(across) if p.distance(shapely.Point(0, 0)) < ROUNDING), default=0.0
            ),
        ),
        (
            high_y - low_y,
            max(
                (p.length for p in shapely.get_parts(along) if p.distance(shapely.Point(0, 0)) < ROUNDING), default=0.0
            ),
        ),
    ]
    return max((side / width if width > 0 else 1.0) for side, width in widths)
