# SPDX-License-Identifier: LGPL-2.1-or-later

"""Wedges for a through end of a tenon: two kerfs near its edges, so that only thin strips bend out to the walls.

A strip of thickness s between kerf and edge is a cantilever that stands on the kerf's foot, L deep. Its end moves out
by δ until it meets the wall, and its outermost fibre is strained by 1.5 · s · δ / L² (cantilever with a load at its
end; 3 · c · δ / L² for a section whose outermost fibre lies c from its neutral axis). Wood breaks in bending at about
MOR / MOE.

That holds only where the wedge presses at the mouth of the kerf alone. The end of such a strip slopes by 1.5 · δ / L,
so the wedge must taper by as much or more: one as thin as the kerf at its tip would press near the foot, and the strip
would be strained more than twice as much.
"""

from __future__ import annotations

from math import floor, sqrt

import numpy as np

from freecad_stacklam.lamination.form.frame import to_stack
from freecad_stacklam.lamination.joints.mortise import grain_side, through_waste
from freecad_stacklam.lamination.lengths import size
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Wedge
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.lamination.tolerances import WHOLE
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.words import say

#: Width of a kerf, mm, and how far its near side lies from the tenon's edge at most and at least; the core left
#: standing between the kerfs, mm; bore of the stop hole at the kerf's foot, in kerfs. Common practice, no source.
KERF = 1.5
STRIPS = (4.5, 4.0)
LEAST_CORE = 6.0
STOP_HOLE = 1.5
#: Parts of the member's thickness: how deep the kerf goes in it, and how far the wedge is driven. Common practice.
KERF_SHARE, WEDGE_SHARE = 0.75, 2.0 / 3.0
#: Most and least flare of each end-grain wall at the face, mm, and the step it is stated in. Common practice.
MOST_FLARE, LEAST_FLARE, FLARE_STEP = 1.5, 0.5, 0.1
#: The part of the strain at which the wood breaks that a strip may be bent to.
STRAIN_SHARE = 0.8
#: MOR / MOE of a wood whose strength is not known: the least of the species table (basswood, 60 MPa / 10.1 GPa).
UNKNOWN_STRAIN = 60.0 / 10_100.0
#: Distance of the outermost fibre from the neutral axis over the strip's thickness: a rectangle, and a thin segment of
#: a circle, whose centroid lies at two fifths of its height.
_FIBRE = {"square": 0.5, "rectangle": 0.5, "round": 0.6}


def breaking_strain(species: Species | None) -> float | None:
    """Strain at which a small clear specimen breaks in bending, about MOR / MOE; None where the table lacks either."""
    if species is None or not species.bending or not species.stiffness:
        return None
    return species.bending / (1000.0 * species.stiffness)


def bending_strain(strip: float, spread: float, length: float, section: str = "rectangle") -> float:
    """Strain of the outermost fibre of a strip `strip` mm thick whose end is bent out by `spread` over `length`, mm."""
    return 3.0 * _FIBRE[section] * strip * spread / length**2


def strain_limit(species: Species | None) -> float:
    """The strain that a strip of this wood may be bent to."""
    known = breaking_strain(species)
    return STRAIN_SHARE * (UNKNOWN_STRAIN if known is None else known)


def wedge_of(
    joint: JointPlan, member: JointMember, stack: StackPlan, at_start: bool, beyond: float, wood: Species | None
) -> Wedge:
    """Wedges for a through end of the tenon in one stack.

    at_start: the tenon begins in this stack, else it ends there. beyond: how far it stands out of the member's face,
    mm. wood: of the tenon. The kerfs run across the layers' grain, so that the wedges press on the end-grain walls and
    never split the layer. Raises Refusal with the size that would do where a strip would break before it met the wall,
    or where the tenon has no room for two kerfs.
    """
    axis = joint.axis
    first = grain_side(axis, stack) == 0
    side = joint.tenon.size[0 if first else -1]
    needed = 2 * (STRIPS[-1] + KERF) + LEAST_CORE
    if side < needed:
        raise Refusal(
            say(
                "The tenon of joint “{joint}” is {width} wide along the grain of {stack} and two kerfs for wedges "
                "need {needed}: make it wider, or leave it flush or proud.",
                joint=joint.name,
                width=size(side),
                stack=stack.name,
                needed=size(needed),
            )
        )
    limit, depth = strain_limit(wood), KERF_SHARE * member.embed
    strip = next((s for s in STRIPS if _flare(joint, s, depth, limit) >= MOST_FLARE - WHOLE), STRIPS[-1])
    flare = _flare(joint, strip, depth, limit)
    if flare < LEAST_FLARE:
        fibre = 3.0 * _FIBRE[joint.section] * strip
        thick = sqrt(fibre * (LEAST_FLARE + joint.clearance) / limit) / KERF_SHARE
        raise Refusal(
            say(
                "The tenon of joint “{joint}” cannot be wedged in {stack}, {thickness} thick there, for the strips "
                "beside the kerfs would break: make it {wanted} thick, or leave the tenon flush or proud.",
                joint=joint.name,
                stack=stack.name,
                thickness=size(member.embed),
                wanted=size(round(thick + 0.05, 1)),
            )
        )
    spread = flare + joint.clearance
    across = axis.other if first else axis.side
    turned = to_stack(stack.frame, np.stack([axis.point, axis.point + across]))
    kerf = turned[1] - turned[0]
    length = WEDGE_SHARE * member.embed
    return Wedge(
        count=2,
        along_first=first,
        kerf_turn=float(np.degrees(np.arctan2(kerf[1], kerf[0]))) % 180.0,
        kerf_width=KERF,
        kerf_depth=depth + beyond,
        kerf_from_edge=strip,
        stop_hole=STOP_HOLE * KERF,
        length=length,
        thickness=KERF + spread,
        flare=flare,
        flare_depth=length,
        spread=spread,
        strain=bending_strain(strip, spread, depth, joint.section),
        strain_limit=limit,
        strength_known=breaking_strain(wood) is not None,
        tip=KERF + spread - 1.5 * spread / depth * length,
        buried=_buried(joint, member, stack, at_start),
    )


def _buried(joint: JointPlan, member: JointMember, stack: StackPlan, at_start: bool) -> float:
    """How far the tenon's end lies below the stack's rough face, mm; 0 where it comes out of it."""
    axis, along = joint.axis, joint.start if at_start else joint.end
    place = to_stack(stack.frame, (axis.point + along * axis.along)[None])[0, 2]
    low, high = through_waste(stack, joint, member)
    upwards = abs(place - high) < abs(place - low)
    return max(0.0, float(high - place if upwards else place - low))


def _flare(joint: JointPlan, strip: float, depth: float, limit: float) -> float:
    """The widest flare, in whole steps, that a strip bends out to within the limit."""
    spread = limit * depth**2 / (3.0 * _FIBRE[joint.section] * strip)
    room = min(MOST_FLARE, spread - joint.clearance)
    return floor(room / FLARE_STEP + WHOLE) * FLARE_STEP
