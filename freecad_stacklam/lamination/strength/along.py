# SPDX-License-Identifier: LGPL-2.1-or-later

"""At which heights the piece is cut: wherever a neck can be.

On both sides of every glue line, just beyond each end of a tenon, a pin and a void, within every layer, and at every
least of a stack's strength between those, found by the golden section. Heights are the model's, mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.strength import LineFinding
from freecad_stacklam.lamination.form.frame import direction_to_stack, to_model
from freecad_stacklam.lamination.form.mesh import Mesh
from freecad_stacklam.lamination.plan.areas import areas_of, cut_plan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.strength.planes import areas_at
from freecad_stacklam.lamination.strength.sections import section_of
from freecad_stacklam.lamination.tolerances import SAME_HEIGHT

Floats = NDArray[np.float64]

#: A cut beside a face or an end lies this far from it, mm.
BESIDE = 2 * SAME_HEIGHT
#: Cuts within a layer, as parts of its thickness.
WITHIN = (0.25, 0.5, 0.75)
#: Of a layer thicker than this, mm, twice as many.
THICK = 60.0
#: Rounds of the golden section: the place is known to 1/20 of the layer.
ROUNDS = 5
GOLDEN = (5**0.5 - 1) / 2
#: A stack whose axis stands no further than this cosine off upright is cut square to its axis: 10°.
UPRIGHT = 0.985


@dataclass(frozen=True, eq=False)
class Body:
    """A stack and its form. `points`: the vertices in the model; `up`: the model's up in the stack's frame."""

    stack: StackPlan
    mesh: Mesh
    up: Floats

    @property
    def upright(self) -> bool:
        """Whether the stack's axis stands up (or down) in the model."""
        return abs(float(self.up[2])) > UPRIGHT


def body_of(stack: StackPlan, mesh: Mesh) -> Body:
    """A stack as it stands in the model."""
    return Body(stack, mesh, direction_to_stack(stack.frame, (0.0, 0.0, 1.0)))


def heights_of(bodies: Sequence[Body], joints: Sequence[JointPlan]) -> list[float]:
    """All heights at which the piece is cut, ascending, no two nearer than a hundredth."""
    ends = [b.mesh.vertices[:, 2] for b in bodies]
    low, high = min(float(z.min()) for z in ends), max(float(z.max()) for z in ends)
    wanted: list[float] = [low + BESIDE, high - BESIDE]
    for body in bodies:
        wanted += _of_stack(body)
    for joint in joints:
        for along in (joint.start, joint.end):
            z = float(joint.axis.model(np.array([[0.0, 0.0, along]]))[0, 2])
            wanted += [z - BESIDE, z + BESIDE]
    for body in bodies:
        wanted += _least_of(body, [z for z in wanted if low < z < high])
    return _apart(z for z in wanted if low < z < high)


def _of_stack(body: Body) -> list[float]:
    stack = body.stack
    if not body.upright:
        low, high = float(body.mesh.vertices[:, 2].min()), float(body.mesh.vertices[:, 2].max())
        return [low + BESIDE, *np.linspace(low, high, 12)[1:-1].tolist(), high - BESIDE]
    own: set[float] = set()
    for layer in stack.layers:
        within = WITHIN if layer.thickness <= THICK else (*WITHIN, 0.125, 0.375, 0.625, 0.875)
        own |= {layer.bottom + share * layer.thickness for share in within}
        own |= {z + side for z in (layer.bottom, layer.top) for side in (-BESIDE, BESIDE)}
        own |= {z + side for cut in layer.cuts for z in (cut.lowest, cut.highest) for side in (-BESIDE, BESIDE)}
    return in_model(body, sorted(own))


def in_model(body: Body, heights: Sequence[float]) -> list[float]:
    """Heights of the model at which a standing stack has these heights on its own axis."""
    at = np.zeros((len(heights), 3))
    at[:, 2] = heights
    return [float(z) for z in to_model(body.stack.frame, at)[:, 2]]


def _least_of(body: Body, heights: Sequence[float]) -> list[float]:
    """Heights between the given ones at which the stack's members are weakest, by their least section moduli."""
    z = body.mesh.vertices[:, 2]
    low, high = float(z.min()) + BESIDE, float(z.max()) - BESIDE
    known = np.array(_apart(h for h in heights if low <= h <= high))
    if len(known) < 3:
        return []
    worth = _moduli(body, known)
    inner = np.flatnonzero((worth[1:-1] < worth[:-2]) & (worth[1:-1] <= worth[2:]) & (worth[1:-1] > 0)) + 1
    # A step, as at the end of a tenon, is no least between two heights.
    inner = inner[(known[inner] - known[inner - 1] > 1.0) & (known[inner + 1] - known[inner] > 1.0)]
    if not len(inner):
        return []
    a, b = known[inner - 1].copy(), known[inner + 1].copy()
    one, two = b - GOLDEN * (b - a), a + GOLDEN * (b - a)
    for _ in range(ROUNDS):
        worths = _moduli(body, np.concatenate([one, two]))
        left = worths[: len(one)] < worths[len(one) :]
        b, a = np.where(left, two, b), np.where(left, a, one)
        one, two = b - GOLDEN * (b - a), a + GOLDEN * (b - a)
    return [float(h) for h in (a + b) / 2]


def _moduli(body: Body, heights: Floats) -> Floats:
    """Sum of the least section moduli of what the stack has at each height, mm³."""
    found = []
    for area in areas_at(body.mesh.vertices, body.mesh.triangles, heights):
        sections = (section_of([(part, 1.0)]) for part in shapely.get_parts(area).tolist())
        found.append(sum(s.modulus for s in sections if s is not None))
    return np.array(found)


def _apart(heights: object) -> list[float]:
    kept: list[float] = []
    for height in sorted(heights):  # type: ignore[call-overload]
        if not kept or height - kept[-1] > SAME_HEIGHT:
            kept.append(float(height))
    return kept


def glue_lines(body: Body) -> tuple[LineFinding, ...]:
    """The overlap of the finished layers at each line from below, and what mortises, voids and pins leave of it."""
    layers = body.stack.layers
    heights = in_model(body, [layer.top for layer in layers[:-1]])
    found = []
    for lower, upper, height in zip(layers[:-1], layers[1:], heights):
        overlap = areas_of(shapely.intersection(lower.finished_top, upper.finished_bottom))
        open_up = [cut_plan(c) for c in lower.cuts if c.opens_top(lower)]
        open_down = [cut_plan(c) for c in upper.cuts if c.opens_bottom(upper)]
        left = overlap.difference(shapely.union_all([*open_up, *open_down]))
        smaller = min(lower.finished_top.area, upper.finished_bottom.area)
        found.append(LineFinding(body.stack.name, lower.number, height, overlap.area, left.area, smaller))
    return tuple(found)


def layer_at(body: Body, height: float) -> LayerPlan:
    """The layer at a height of the stack."""
    return min(body.stack.layers, key=lambda one: max(one.bottom - height, height - one.top))
