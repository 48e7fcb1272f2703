# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a floating tenon carries where its stacks meet. Lengths mm, forces N, moments N·mm, stresses MPa.

By itself: bending 6 M/(b h²), round 32 M/(π d³). It stands in its mortise as a stiff peg: pressure on the walls grows
in a line from the middle of its depth, so M = p·b·L²/6 and a force V at the mouth adds 4 V/(b L) (statics of a linear
pressure). Where it is glued, the walls hold in shear besides: the pair of forces M/s over the distance s of two side
walls, as rolling shear in the layers, across whose grain the tenon pulls. End-grain walls hold no glue worth counting.

With the shoulder: the upper stack leans on the edge of the face where both meet, a from the axis, and a glued tenon
holds it down with M/a − N.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import pi

import numpy as np
import shapely
from numpy.typing import NDArray

from freecad_stacklam.lamination.findings.loads import LoadCase
from freecad_stacklam.lamination.findings.strength import JointFinding
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Tenon
from freecad_stacklam.lamination.strength.along import BESIDE
from freecad_stacklam.lamination.strength.composite import Piece
from freecad_stacklam.lamination.strength.examine import Acting, acting_on, on_members
from freecad_stacklam.lamination.strength.loads import Edges
from freecad_stacklam.lamination.strength.members import Level
from freecad_stacklam.lamination.strength.necks import moments_of
from freecad_stacklam.lamination.strength.planes import areas_at
from freecad_stacklam.lamination.tolerances import ROUNDING, SAME_HEIGHT
from freecad_stacklam.lamination.wood.scatter import VARIATION
from freecad_stacklam.lamination.wood.strengths import Strengths, duration_factor

Floats = NDArray[np.float64]

#: Share of the strength of side-grain walls that a glued tenon across their grain may be counted on for, and the safety
#: on that (common practice, no source).
EFFICIENCY, SAFETY = 0.2, 3.0

#: The least cosine of a joint's lean from upright, 30°, at which its stacks are looked at for a level shoulder: splayed
#: legs meet a level seat.
SHOULDERS = 0.866


def section_modulus(tenon: Tenon) -> float:
    """The least section modulus of a tenon, mm³."""
    if tenon.section == "round":
        return pi * tenon.size[0] ** 3 / 32
    width, depth = max(tenon.size[0], tenon.size[-1]), min(tenon.size[0], tenon.size[-1])
    return width * depth**2 / 6


def tenon_bending(tenon: Tenon, moment: float) -> float:
    """Greatest bending stress of the tenon alone, bent its weak way: 6 M/(b h²), or 32 M/(π d³)."""
    return moment / section_modulus(tenon)


def wall_pressure(moment: float, force: float, width: float, depth: float) -> float:
    """Greatest pressure on the walls of a mortise `depth` deep by a tenon `width` wide: 6 M/(b L²) + 4 V/(b L)."""
    return 6 * moment / (width * depth**2) + 4 * force / (width * depth)


def wall_shear(moment: float, apart: float, width: float, depth: float) -> float:
    """Shear on two glued walls of `width` × `depth`, `apart` from each other, that hold a moment: M/(s·b·L)."""
    return moment / (apart * width * depth)


def side_walls(joint: JointPlan) -> tuple[float, float]:
    """Width of a side-grain wall and how far the two stand apart, mm, the worse way round: for a rectangle the narrower
    walls. A round mortise is taken as the square in it."""
    size = joint.tenon.size
    if joint.tenon.section == "round":
        side = size[0] / 2**0.5
        return side, side
    return min(size[0], size[-1]), max(size[0], size[-1])


def withdrawal(shear: float, width: float, depth: float, efficiency: float = 1.0, safety: float = 1.0) -> float:
    """Force, N, that pulls a glued tenon out: η·τ·A over the safety, of two side-grain walls `width` × `depth`.

    shear: the weaker wood's shear along the grain, MPa. A screening estimate, not a strength: at η = 1 the mean of what
    the glued wood could hold at most.
    """
    return efficiency * shear * 2 * width * depth / safety


def held_depth(joint: JointPlan) -> tuple[JointMember, float]:
    """The member that holds the tenon over the least depth, and that depth, mm."""
    member = min(joint.members, key=lambda m: m.embed)
    return member, member.embed


def pulls_out(joint: JointPlan, walls: Strengths, tenon: Strengths) -> tuple[float, float] | None:
    """The mean screening estimate of withdrawal and what may be counted on, N; None where a shear is not known."""
    if walls.shear is None or tenon.shear is None:
        return None
    shear = min(walls.shear, tenon.shear)
    width, _ = side_walls(joint)
    _, depth = held_depth(joint)
    return withdrawal(shear, width, depth), withdrawal(shear, width, depth, EFFICIENCY, SAFETY)


def examine_joints(
    piece: Piece, levels: Sequence[Level], loads: Sequence[LoadCase], edges: Edges, way: str
) -> tuple[JointFinding, ...]:
    """Every joint under the load that is worst for it, of those on what lies above the place where its stacks meet."""
    found = []
    for joint in piece.joints:
        under = [_under(piece, joint, one, way) for one in _acting_at(joint, levels, loads, edges)]
        told = [one for one in under if one is not None]
        if told:
            found.append(max(told, key=lambda one: one.use))
    return tuple(found)


def _acting_at(joint: JointPlan, levels: Sequence[Level], loads: Sequence[LoadCase], edges: Edges) -> list[Acting]:
    """What acts on the member in which the joint's place lies."""
    point = shapely.Point(joint.point[:2])
    off = min(abs(level.height - joint.point[2]) for level in levels)
    near = [
        (members[m].coarse.distance(point), members[m].coarse.area, k, group, i)
        for k, level in enumerate(levels)
        if abs(level.height - joint.point[2]) <= off + SAME_HEIGHT
        for members in [level.members]
        for group in level.groups
        for i, m in enumerate(group.members)
    ]
    if not near:
        return []
    # Just below and just above the place it can be another member: a leg, and the whole seat. The slighter is joined.
    _, _, k, group, at = min(near, key=lambda one: one[:3])
    acting = acting_on(group, levels[k].height, loads, edges)
    return on_members(levels, k, group, acting)[at] if acting else []


def _under(piece: Piece, joint: JointPlan, acting: Acting, way: str) -> JointFinding | None:
    """A joint under one load."""
    species = {b.stack.name: b.stack.species for b in piece.bodies}
    member, depth = held_depth(joint)
    walls, tenon = piece.timbers.get(species.get(member.stack, "")), piece.timbers.get(joint.tenon.species)
    if walls is None or tenon is None:
        return None
    s, t = walls.strengths, tenon.strengths
    assert t.bending and s.compression_across and t.compression_across and s.rolling_shear
    factor = duration_factor(acting.load.lasting)
    point, along = np.array(joint.point), joint.axis.along
    moments = moments_of(acting.pushes, point)
    if acting.couples is not None:
        moments = moments + acting.couples
    bending = moments - np.outer(moments @ along, along)
    i = int(np.linalg.norm(bending, axis=1).argmax())
    force = acting.pushes.forces[i]
    moment, pressed = float(np.linalg.norm(bending[i])), -float(force @ along) * float(np.sign(along[2]) or 1.0)
    aside = float(np.linalg.norm(force - (force @ along) * along))
    lever = _shoulder(piece, joint, np.cross(bending[i], along) * (np.sign(along[2]) or 1.0))
    size = joint.tenon.size
    narrow = min(size[0], size[-1])
    wall_width, apart = side_walls(joint)
    pull = pulls_out(joint, s, t)
    x, y, z = acting.pushes.places[i].tolist()
    return JointFinding(
        joint.name, joint.point, acting.load.name, (x, y, z), acting.load.lasting, way, moment, aside,
        tenon_bending(joint.tenon, moment), factor * t.bending, VARIATION.get("bending"),
        wall_pressure(moment, aside, narrow, depth), factor * min(s.compression_across, t.compression_across),
        member.stack, wall_shear(moment, apart, wall_width, depth), factor * s.rolling_shear, lever,
        max(0.0, moment / lever - pressed) if lever > 0 else 0.0, factor * s.rolling_shear * 2 * wall_width * depth,
        None if pull is None else pull[0], None if pull is None else pull[1],
    )  # fmt: skip


def _shoulder(piece: Piece, joint: JointPlan, over: Floats) -> float:
    """How far from the joint's axis the two stacks' faces still meet on the side to which the upper leans, mm; 0 where
    they do not meet there."""
    names = [m.stack for m in joint.members]
    bodies = [b for b in piece.bodies if b.stack.name in names]
    length = float(np.hypot(over[0], over[1]))
    if len(bodies) != 2 or length < ROUNDING or abs(float(joint.axis.along[2])) < SHOULDERS:
        return 0.0
    height = joint.point[2]
    low, high = sorted(bodies, key=lambda b: float(b.mesh.vertices[:, 2].mean()))
    (one,) = areas_at(low.mesh.vertices, low.mesh.triangles, [height - BESIDE])
    (two,) = areas_at(high.mesh.vertices, high.mesh.triangles, [height + BESIDE])
    both = shapely.intersection(one, two)
    if both.is_empty:
        return 0.0
    reach = (shapely.get_coordinates(both) - np.array(joint.point[:2])) @ (over[:2] / length)
    return max(0.0, float(reach.max()))
