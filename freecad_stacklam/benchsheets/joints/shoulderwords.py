# SPDX-License-Identifier: LGPL-2.1-or-later

"""At which bevel an end meets a flat face that a leaning tenon comes out of: the shoulder bears, so it must fit."""

from __future__ import annotations

from collections.abc import Sequence
from math import acos, degrees

from freecad_stacklam.lamination.form.frame import direction_to_stack
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.outline import polygon_of
from freecad_stacklam.lamination.tolerances import PARALLEL
from freecad_stacklam.lamination.words import figure, say


def shoulder_words(members: Sequence[tuple[JointMember, StackPlan]], joint: JointPlan) -> list[str]:
    """For a joint of two that leans in one of them and comes out of one flat end face of it: how the other's end is
    carved. Nothing where the plan does not know on which face they meet."""
    words = []
    for member, stack in members if len(members) == 2 else []:
        lean = degrees(acos(min(1.0, abs(float(direction_to_stack(stack.frame, joint.axis.along)[2])))))
        if lean < degrees(acos(1.0 - PARALLEL)) or len(_flat_ends(stack, joint.name)) != 1:
            continue
        (other,) = (one.stack for one, _ in members if one is not member)
        words.append(
            say(
                "Carve the end of {other} that meets {stack} flat, at {bevel}° to the tenon, before you try it dry: it "
                "bears the load.",
                other=other,
                stack=stack.name,
                bevel=figure(f"{90 - lean:.1f}"),
            )
        )
    return words


def _flat_ends(stack: StackPlan, joint: str) -> list[str]:
    """The ends of a stack on which its finished form is flat all round the joint's mortise."""
    first, last = stack.layers[0], stack.layers[-1]
    below = [cut for cut in first.cuts if cut.joint == joint and cut.opens_bottom(first)]
    above = [cut for cut in last.cuts if cut.joint == joint and cut.opens_top(last)]
    found = ["bottom"] if any(first.finished_bottom.contains(polygon_of(c.outline)) for c in below) else []
    top = [polygon_of(cut.outline_end or cut.outline) for cut in above]
    return [*found, "top"] if any(last.finished_top.contains(area) for area in top) else found
