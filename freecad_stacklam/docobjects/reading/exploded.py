# SPDX-License-Identifier: LGPL-2.1-or-later

"""How far layers are shown from their places at a step of the glue-up, so that what is glued then is seen.

At step k the set-ups 1 to k are closed, and every line and joint of a later one stands open. The lowest layer of the
first stack stays where it is. Vectors in the model, mm.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from freecad_stacklam.lamination.plan.gluing import JOINT, GlueUpPlan
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan

Vector = NDArray[np.float64]
#: An open line gapes by this part of the layer above it; an open joint by this much besides its tenon, mm.
GAPE, ROOM = 1.0, 25.0


@dataclass(frozen=True, eq=False)
class Exploded:
    """How far each layer (stack, number) and each joint's tenon (its name) is shown from its place."""

    layers: dict[tuple[str, int], Vector]
    tenons: dict[str, Vector]


def exploded(stacks: Sequence[StackPlan], joints: Sequence[JointPlan], plan: GlueUpPlan, step: int) -> Exploded:
    """The picture of step `step`, from 0: nothing is glued, to the number of set-ups: all is."""
    later = [s for s in plan.set_ups if s.number > step]
    lines = {(s.stack, line) for s in later for line in s.lines}
    apart = {s.joint for s in later if s.kind == JOINT}
    rises = {s.name: _rises(s, lines) for s in stacks}
    shifts, tenons = _shifts(stacks, joints, apart, {name: rise[-1] for name, rise in rises.items()})
    return Exploded(
        {
            (stack.name, layer.number): shifts[stack.name] + _axis(stack) * rise
            for stack in stacks
            for layer, rise in zip(stack.layers, rises[stack.name])
        },
        tenons,
    )


def _rises(stack: StackPlan, lines: set[tuple[str, int]]) -> list[float]:
    """How far each layer rises above the lowest, mm."""
    rises = [0.0]
    for lower, upper in zip(stack.layers, stack.layers[1:]):
        gap = GAPE * upper.thickness if (stack.name, lower.number) in lines else 0.0
        rises.append(rises[-1] + gap)
    return rises


def _axis(stack: StackPlan) -> Vector:
    return np.array(stack.frame).reshape(4, 4)[:3, 2]


def _middle(stack: StackPlan) -> Vector:
    frame = np.array(stack.frame).reshape(4, 4)
    return np.asarray(frame[:3, 3] + frame[:3, 2] * stack.height / 2)


def _shifts(
    stacks: Sequence[StackPlan], joints: Sequence[JointPlan], apart: set[str], growth: dict[str, float]
) -> tuple[dict[str, Vector], dict[str, Vector]]:
    """How far each stack and each tenon is moved along the joints' axes, from the first stack on."""
    by_name = {s.name: s for s in stacks}
    shifts: dict[str, Vector] = {}
    tenons: dict[str, Vector] = {}
    for first in stacks:
        if first.name in shifts:
            continue
        shifts[first.name] = np.zeros(3)
        reached = [first.name]
        while reached:
            name = reached.pop(0)
            for joint in joints:
                members = [m for m in joint.members if m.stack in by_name]
                if name not in [m.stack for m in members] or joint.name in tenons:
                    continue
                along = np.array(joint.direction, dtype=np.float64)
                along /= np.linalg.norm(along)
                ordered = sorted(members, key=lambda m: float(_middle(by_name[m.stack]) @ along))
                at = [m.stack for m in ordered].index(name)
                for ahead, side in ((ordered[at:], 1.0), (ordered[: at + 1][::-1], -1.0)):
                    for near, far in zip(ahead, ahead[1:]):
                        if far.stack in shifts:
                            continue
                        # What grows in this direction pushes the next one on.
                        grower = near.stack if side > 0 else far.stack
                        grown = growth[grower] * max(float(_axis(by_name[grower]) @ along), 0.0)
                        drawn = near.embed + ROOM / 2 if joint.name in apart else 0.0
                        more = far.embed + ROOM / 2 if joint.name in apart else 0.0
                        push = along * side
                        tenons.setdefault(joint.name, shifts[near.stack] + push * (grown * (side > 0) + drawn))
                        shifts[far.stack] = shifts[near.stack] + push * (grown + drawn + more)
                        reached.append(far.stack)
                tenons.setdefault(joint.name, shifts[name])
    return shifts, tenons
