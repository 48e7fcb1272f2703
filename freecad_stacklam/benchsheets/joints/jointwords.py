# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the joint sheet says in words: sizes, fits, which walls get glue, and the order of the work."""

from __future__ import annotations

from math import acos, atan2, degrees

from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    bit_text,
    fine_text,
    least_text,
    length_text,
    size_text,
)
from freecad_stacklam.lamination.form.frame import direction_to_stack
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Wedge
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import PARALLEL, ROUNDING

#: Chamfer on the edges of an end that goes in; width and depth of the groove that lets glue and air out; how far it
#: stops short of an end that shows; mm. Common practice, no source.
CHAMFER = 2.0
GROOVE = (2.0, 1.0)
GROOVE_STOPS = 10.0
#: Sides by their direction, degrees round from RIGHT seen from above, and how near to one is on it.
SIDES = {"RIGHT": 0.0, "the back": 90.0, "the left": 180.0, "FRONT": 270.0}
_NEARLY = 0.5


def members_of(plan: Plan, joint: JointPlan) -> list[tuple[JointMember, StackPlan]]:
    """The joint's members with their stacks."""
    stacks = {stack.name: stack for stack in plan.stacks}
    return [(m, stacks[m.stack]) for m in joint.members if m.stack in stacks]


def leading_ends(joint: JointPlan) -> tuple[bool, bool]:
    """Whether the near and the far end go into a stopped mortise, and are chamfered all round."""
    if not joint.members:
        return False, False
    return not joint.members[0].through, not joint.members[-1].through


def _ends_and_groove(joint: JointPlan, units: Units) -> str:
    width, deep = (length_text(v, units) for v in GROOVE)
    near, far = leading_ends(joint)
    ends = "both ends" if near and far else "the end that goes in" if near or far else ""
    chamfer = f"Chamfer the edges of {ends} by {length_text(CHAMFER, units)}. " if ends else ""
    faces = "two opposite lines" if joint.tenon.section == "round" else "the middle of each glued face"
    through = any(m.through for m in joint.members)
    stops = f", stopped {length_text(GROOVE_STOPS, units)} short of an end that shows" if through else ""
    return f"{chamfer}Cut a groove for glue and air along {faces}, about {width} wide and {deep} deep{stops}."


def _glue_words(joint: JointPlan, member: JointMember, units: Units) -> str:
    """Which walls get glue in a member without wedges: long grain to long grain holds, end grain does not."""
    if joint.section == "round":
        return (
            f"Glue in {member.stack}: the two quarters of the wall that run with the layers' grain (see the arrow), "
            "and the tenon there; little on the two quarters of end grain."
        )
    ends = (
        f"none on the two end-grain walls, which are relieved by {fine_text(member.relief, units)} each"
        if member.relief
        else "a thin coat at most on the two end-grain walls"
    )
    return (
        f"Glue in {member.stack}: the two walls that run with the layers' grain (see the arrow), and the tenon's faces "
        f"against them; {ends}."
    )


def order_of_work(plan: Plan, joint: JointPlan, units: Units) -> list[str]:
    """The order of the work, from the first line to the glue, a step a sentence."""
    before = list(dict.fromkeys(row.stack for row in joint.drilling if row.when.startswith("before")))
    after = list(dict.fromkeys(row.stack for row in joint.drilling if not row.when.startswith("before")))
    stopped = {m.stack for m in joint.members if not m.through}
    steps = [
        "Lay out all mortises from the same two lines, through the joint's axis with FRONT ahead, on the face that the "
        "boring table names under “from”: it is the reference face, it lies free at that time, and depths count from "
        "it, waste included. Use one gauge setting for all, and mark FRONT beside each mortise.",
    ]
    if any(row.side == "bottom" and not row.through for row in joint.drilling):
        steps[0] += (
            " On a face from below x still counts towards RIGHT, which lies to the left once the wood is turned."
        )
    chisel = "" if joint.section == "round" else ", and chisel to the knife lines"
    if before:
        layered = [n for n in before if sum(row.stack == n for row in joint.drilling) > 1]
        steps.append(
            f"Before glue-up, {listed(before)}: bore each layer by itself, clamped, the bit square to its face"
            f"{chisel}; a layer bored through is knifed on both faces."
        )
        if layered:
            deep, open_ = ([n for n in layered if (n in stopped) is wanted] for wanted in (True, False))
            out = [f"draw it from {listed(deep)}, where you leave it long enough to grip"] if deep else []
            out += [f"knock it out of {listed(open_)}"] if open_ else []
            steps.append(
                f"Glue the layers of {listed(layered)} over a dummy tenon that fits all their mortises, waxed: it is "
                f"the key that keeps them in line. Before the glue is hard {', and '.join(out)}; clean the walls."
            )
    if after:
        steps.append(
            f"After glue-up, {listed(after)}: bore with the work clamped and the bit along the joint's axis{chisel}; "
            "through mortises from both faces to meet inside."
        )
    steps.append("Mark FRONT on the tenon's face at the triangle; plane it to the mortises as cut, chamfer, groove.")
    steps.append("Try it dry, FRONT to FRONT, home to its marks; then glue as said above, clamp along the tenon.")
    return steps


def _leaning_words(plan: Plan, joint: JointPlan) -> list[str]:
    """How an axis that is not square to the layers is bored: its lean and where to, as the drill's table is set."""
    leans: dict[str, list[str]] = {}
    for member, stack in members_of(plan, joint):
        along = direction_to_stack(stack.frame, joint.axis.along)
        x, y, z = (along if along[2] > 0 else -along).tolist()
        if z > 1.0 - PARALLEL:
            continue
        lean, towards = degrees(acos(z)), degrees(atan2(y, x)) % 360.0
        side = next((name for name, at in SIDES.items() if abs((towards - at + 180.0) % 360.0 - 180.0) < _NEARLY), None)
        where = side or f"{towards:.0f}° (0° is RIGHT, 90° the back)"
        words = (
            f"leans {lean:.1f}° from square to the layers, going up towards {where}: a bevel set to {90 - lean:.1f}°"
        )
        leans.setdefault(words, []).append(member.stack)
    return [
        f"In {listed(names)} the axis {words} against the face shows it. Tilt the drill's table or block the work up, "
        "clamped, until the bit runs along it; at a slope it catches on one side first: guide it through a block "
        "bored at that angle, and feed slowly. Depths are along the axis, from where it passes the face."
        for words, names in leans.items()
    ]


def _point_words(plan: Plan, joint: JointPlan, units: Units) -> list[str]:
    """Layers out of whose far face a bit's point comes, though the mortise stops short of it."""
    stacks = {stack.name: stack for stack in plan.stacks}
    words = []
    for row in joint.drilling:
        if row.layer is None or row.through or row.stack not in stacks:
            continue
        layers = stacks[row.stack].layers
        layer = next((n for n in layers if n.number == row.layer), None)
        if layer is None or row.tip <= layer.thickness + ROUNDING:
            continue
        down = row.side == "top"
        outmost = layer is (layers[0] if down else layers[-1])
        face = "a face of the stack: see that it is carved away or hidden" if outmost else "the next layer hides it"
        words.append(
            f"{row.stack} {row.layer}: the bit's point comes out {length_text(row.tip - layer.thickness, units)} "
            f"through the layer's {'underside' if down else 'top'} ({face}); clamp waste under it, and feed slowly "
            "at the end."
        )
    return words


def joint_words(plan: Plan, joint: JointPlan, units: Units) -> list[str]:
    """Sizes, fits and walls to glue, as sentences."""
    tenon = joint.tenon
    if tenon.section == "round":
        size = f"Ø {length_text(tenon.size[0], units)}"
    else:
        size = size_text(tenon.size[0], tenon.size[-1], units)
    copies = max((stack.copies for _, stack in members_of(plan, joint)), default=1)
    words = [
        f"Tenon blank: {tenon.species}, {size}, {length_text(tenon.length, units)} long, grain along its length"
        + (f"; make {copies}." if copies > 1 else ".")
        + f" It is {fine_text(2 * joint.clearance, units)} less than the mortise each way: plane it to the mortise as "
        "cut.",
        f"Mortise {joint.section}, "
        + (f"Ø {bit_text(joint.size[0], units)}" if joint.section == "round" else
           size_text(joint.size[0], joint.size[-1], units))
        + (" before relief" if joint.section != "round" and any(m.relief for m in joint.members) else "")
        + f"; clearance {fine_text(joint.clearance, units)} on each glued face, "
        f"{least_text(joint.end_room, units)} room at a "
        "stopped end.",
        f"Least wood from joint to finished surface: {least_text(joint.least_cover, units)}. Carve with care there.",
    ]  # fmt: skip
    for member in joint.members:
        if member.wedge is not None:
            words += _wedge_words(member.stack, member.wedge, joint.tenon.species, units)
    words += _leaning_words(plan, joint) + _point_words(plan, joint, units)
    words.append(_ends_and_groove(joint, units))
    words += [_glue_words(joint, member, units) for member in joint.members if member.wedge is None]
    if joint.proud and any(m.through for m in joint.members):
        words.append(f"A through end stands {length_text(joint.proud, units)} proud until it is trimmed.")
    if any(row.stroke is not None and row.fed > row.stroke + ROUNDING for row in joint.drilling):
        words.append(
            "Deeper than the drill's stroke: bore in two goes, the drill stopped and the table raised between them, "
            "the work still clamped."
        )
    return words


def _wedge_words(stack: str, wedge: Wedge, species: str, units: Units) -> list[str]:
    """How the kerfs, the flare and the wedges are made, and the order of the work."""

    def said(value: float) -> str:
        return length_text(value, units)

    def fit(value: float) -> str:
        return fine_text(value, units)

    carve = (
        f"carve the form at the mortise down to its finished surface, for the tenon ends {said(wedge.buried)} below "
        "the rough face and wedges are driven where a hammer reaches; "
        if wedge.buried > ROUNDING
        else ""
    )
    return [
        f"Kerfs in the end that shows in {stack}: {wedge.count}, ACROSS the layers' grain, each "
        f"{fit(wedge.kerf_width)} wide, its near side {said(wedge.kerf_from_edge)} from the tenon's edge, "
        f"{said(wedge.kerf_depth)} deep from the end. First bore a stop hole through the tenon at the foot of each, "
        f"Ø {fit(wedge.stop_hole)} or the next larger bit.",
        f"Wedges: {wedge.count} of {species}, grain along them, 1:{wedge.taper:.0f}, {fit(wedge.thickness)} thick "
        f"{said(wedge.length)} from their tip and {fit(wedge.tip)} there, thinner than the kerf, so that they press at "
        "its mouth and not at its foot; leave them longer for the hammer.",
        f"Flare the two end-grain walls of the mortise by {fit(wedge.flare)} each at the face, running out "
        f"{said(wedge.flare_depth)} deep; leave the other two square.",
        f"Wedging, once the mortise in {stack} is cut: {carve}flare; glue the "
        "two walls along the layers' grain, the kerfs and the wedges, not the flared walls; drive both wedges by turns "
        "until they no longer move; pare flush when the glue is hard.",
    ]
