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
from freecad_stacklam.benchsheets.joints.shoulderwords import shoulder_words
from freecad_stacklam.lamination.form.frame import direction_to_stack
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import listed
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Wedge
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import PARALLEL, ROUNDING
from freecad_stacklam.lamination.words import figure, mark, say

#: Chamfer on the edges of an end that goes in; width and depth of the groove that lets glue and air out; how far it
#: stops short of an end that shows; mm. Common practice, no source.
CHAMFER = 2.0
GROOVE = (2.0, 1.0)
GROOVE_STOPS = 10.0
#: Sides by their direction, degrees round from RIGHT seen from above, and how near to one is on it.
SIDES = {mark("RIGHT"): 0.0, mark("the back"): 90.0, mark("the left"): 180.0, mark("FRONT"): 270.0}
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
    chamfer = ""
    if near and far:
        chamfer = say("Chamfer the edges of both ends by {chamfer}.", chamfer=length_text(CHAMFER, units))
    elif near or far:
        chamfer = say("Chamfer the edges of the end that goes in by {chamfer}.", chamfer=length_text(CHAMFER, units))
    groove = {
        (True, False): mark(
            "Cut a groove for glue and air along two opposite lines, about {width} wide and {depth} deep."
        ),
        (False, False): mark(
            "Cut a groove for glue and air along the middle of each glued face, about {width} wide and {depth} deep."
        ),
        (True, True): mark(
            "Cut a groove for glue and air along two opposite lines, about {width} wide and {depth} deep, stopped "
            "{short} short of an end that shows."
        ),
        (False, True): mark(
            "Cut a groove for glue and air along the middle of each glued face, about {width} wide and {depth} deep, "
            "stopped {short} short of an end that shows."
        ),
    }[joint.tenon.section == "round", any(m.through for m in joint.members)]
    said = say(groove, width=width, depth=deep, short=length_text(GROOVE_STOPS, units))
    return f"{chamfer} {said}".strip()


def _glue_words(joint: JointPlan, member: JointMember, units: Units) -> str:
    """Which walls get glue in a member without wedges: long grain to long grain holds, end grain does not."""
    if joint.section == "round":
        return say(
            "Glue in {stack}: the two quarters of the wall that run with the layers' grain (see the arrow), and the "
            "tenon there; little on the two quarters of end grain.",
            stack=member.stack,
        )
    if member.relief:
        return say(
            "Glue in {stack}: the two walls that run with the layers' grain (see the arrow), and the tenon's faces "
            "against them; none on the two end-grain walls, which are relieved by {relief} each.",
            stack=member.stack,
            relief=fine_text(member.relief, units),
        )
    return say(
        "Glue in {stack}: the two walls that run with the layers' grain (see the arrow), and the tenon's faces against "
        "them; a thin coat at most on the two end-grain walls.",
        stack=member.stack,
    )


def order_of_work(plan: Plan, joint: JointPlan, units: Units) -> list[str]:
    """The order of the work, from the first line to the glue, a step a sentence."""
    before = list(dict.fromkeys(row.stack for row in joint.drilling if row.when.startswith("before")))
    after = list(dict.fromkeys(row.stack for row in joint.drilling if not row.when.startswith("before")))
    stopped = {m.stack for m in joint.members if not m.through}
    steps = [
        say(
            "Lay out all mortises from the same two lines, through the joint's axis with FRONT ahead, on the face "
            "that the boring table names under “from”: it is the reference face, it lies free at that time, and "
            "depths count from it, waste included. Use one gauge setting for all, and mark FRONT beside each mortise."
        ),
    ]
    if any(row.side == "bottom" and not row.through for row in joint.drilling):
        turned = say(
            "On a face from below x still counts towards RIGHT, which lies to the left once the wood is turned."
        )
        steps[0] = f"{steps[0]} {turned}"
    bored = joint.section == "round"
    if before:
        layered = [n for n in before if sum(row.stack == n for row in joint.drilling) > 1]
        steps.append(
            say(
                mark(
                    "Before glue-up, {stacks}: bore each layer by itself, clamped, the bit square to its face; a layer "
                    "bored through is knifed on both faces."
                )
                if bored
                else mark(
                    "Before glue-up, {stacks}: bore each layer by itself, clamped, the bit square to its face, and "
                    "chisel to the knife lines; a layer bored through is knifed on both faces."
                ),
                stacks=listed(before),
            )
        )
        if layered:
            deep, open_ = ([n for n in layered if (n in stopped) is wanted] for wanted in (True, False))
            dummy = say(
                "Glue the layers of {stacks} over a dummy tenon that fits all their mortises, waxed: it is the key "
                "that keeps them in line.",
                stacks=listed(layered),
            )
            out = (
                mark(
                    "Before the glue is hard draw it from {stopped}, where you leave it long enough to grip, and knock "
                    "it out of {open}; clean the walls."
                )
                if deep and open_
                else mark(
                    "Before the glue is hard draw it from {stopped}, where you leave it long enough to grip; clean the "
                    "walls."
                )
                if deep
                else mark("Before the glue is hard knock it out of {open}; clean the walls.")
            )
            taken = say(out, stopped=listed(deep) if deep else "", open=listed(open_) if open_ else "")
            steps.append(f"{dummy} {taken}")
    if after:
        steps.append(
            say(
                mark(
                    "After glue-up, {stacks}: bore with the work clamped and the bit along the joint's axis; through "
                    "mortises from both faces to meet inside."
                )
                if bored
                else mark(
                    "After glue-up, {stacks}: bore with the work clamped and the bit along the joint's axis, and "
                    "chisel to the knife lines; through mortises from both faces to meet inside."
                ),
                stacks=listed(after),
            )
        )
    steps.append(
        say("Mark FRONT on the tenon's face at the triangle; plane it to the mortises as cut, chamfer, groove.")
    )
    steps.append(say("Try it dry, FRONT to FRONT, home to its marks; then glue as said above, clamp along the tenon."))
    return steps


def _leaning_words(plan: Plan, joint: JointPlan) -> list[str]:
    """How an axis that is not square to the layers is bored: its lean and where to, as the drill's table is set."""
    leans: dict[tuple[str, str, str], list[str]] = {}
    for member, stack in members_of(plan, joint):
        along = direction_to_stack(stack.frame, joint.axis.along)
        x, y, z = (along if along[2] > 0 else -along).tolist()
        if z > 1.0 - PARALLEL:
            continue
        lean, towards = degrees(acos(z)), degrees(atan2(y, x)) % 360.0
        side = next((name for name, at in SIDES.items() if abs((towards - at + 180.0) % 360.0 - 180.0) < _NEARLY), None)
        where = say(side) if side else say("{towards:.0f}° (0° is RIGHT, 90° the back)", towards=towards)
        leans.setdefault((f"{lean:.1f}", where, f"{90 - lean:.1f}"), []).append(member.stack)
    return [
        say(
            "In {stacks} the axis leans {lean}° from square to the layers, going up towards {where}: a bevel set to "
            "{bevel}° against the face shows it. Tilt the drill's table or block the work up, clamped, until the bit "
            "runs along it; at a slope it catches on one side first: guide it through a block bored at that angle, and "
            "feed slowly. Depths are along the axis, from where it passes the face.",
            stacks=listed(names),
            lean=figure(lean),
            where=where,
            bevel=figure(bevel),
        )
        for (lean, where, bevel), names in leans.items()
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
        sentence = {
            (True, True): mark(
                "{stack} {layer}: the bit's point comes out {out} through the layer's underside (a face of the stack: "
                "see that it is carved away or hidden); clamp waste under it, and feed slowly at the end."
            ),
            (True, False): mark(
                "{stack} {layer}: the bit's point comes out {out} through the layer's underside (the next layer hides "
                "it); clamp waste under it, and feed slowly at the end."
            ),
            (False, True): mark(
                "{stack} {layer}: the bit's point comes out {out} through the layer's top (a face of the stack: see "
                "that it is carved away or hidden); clamp waste under it, and feed slowly at the end."
            ),
            (False, False): mark(
                "{stack} {layer}: the bit's point comes out {out} through the layer's top (the next layer hides it); "
                "clamp waste under it, and feed slowly at the end."
            ),
        }[down, outmost]
        out = length_text(row.tip - layer.thickness, units)
        words.append(say(sentence, stack=row.stack, layer=row.layer, out=out))
    return words


#: The mortise by its section, and whether it is relieved.
_MORTISE = {
    ("round", False): mark(
        "Mortise round, {size}; clearance {clearance} on each glued face, {room} room at a stopped end."
    ),
    ("square", False): mark(
        "Mortise square, {size}; clearance {clearance} on each glued face, {room} room at a stopped end."
    ),
    ("square", True): mark(
        "Mortise square, {size} before relief; clearance {clearance} on each glued face, {room} room at a stopped end."
    ),
    ("rectangle", False): mark(
        "Mortise rectangle, {size}; clearance {clearance} on each glued face, {room} room at a stopped end."
    ),
    ("rectangle", True): mark(
        "Mortise rectangle, {size} before relief; clearance {clearance} on each glued face, {room} room at a stopped "
        "end."
    ),
}


def joint_words(plan: Plan, joint: JointPlan, units: Units) -> list[str]:
    """Sizes, fits and walls to glue, as sentences."""
    tenon = joint.tenon
    if tenon.section == "round":
        size = f"Ø {length_text(tenon.size[0], units)}"
    else:
        size = size_text(tenon.size[0], tenon.size[-1], units)
    copies = max((stack.copies for _, stack in members_of(plan, joint)), default=1)
    words = [
        say(
            mark(
                "Tenon blank: {species}, {size}, {length} long, grain along its length; make {copies}. It is "
                "{clearance} less than the mortise each way: plane it to the mortise as cut."
            )
            if copies > 1
            else mark(
                "Tenon blank: {species}, {size}, {length} long, grain along its length. It is {clearance} less than "
                "the mortise each way: plane it to the mortise as cut."
            ),
            species=shown(tenon.species),
            size=size,
            length=length_text(tenon.length, units),
            copies=copies,
            clearance=fine_text(2 * joint.clearance, units),
        ),
        say(
            _MORTISE[joint.section, joint.section != "round" and any(m.relief for m in joint.members)],
            size=f"Ø {bit_text(joint.size[0], units)}"
            if joint.section == "round"
            else size_text(joint.size[0], joint.size[-1], units),
            clearance=fine_text(joint.clearance, units),
            room=least_text(joint.end_room, units),
        ),
        say(
            "Least wood from joint to finished surface: {least_cover}. Carve with care there.",
            least_cover=least_text(joint.least_cover, units),
        ),
    ]
    for member in joint.members:
        if member.wedge is not None:
            words += _wedge_words(member.stack, member.wedge, joint.tenon.species, units)
    words += (
        _leaning_words(plan, joint) + shoulder_words(members_of(plan, joint), joint) + _point_words(plan, joint, units)
    )
    words.append(_ends_and_groove(joint, units))
    words += [_glue_words(joint, member, units) for member in joint.members if member.wedge is None]
    if joint.proud and any(m.through for m in joint.members):
        words.append(
            say("A through end stands {proud} proud until it is trimmed.", proud=length_text(joint.proud, units))
        )
    if any(row.stroke is not None and row.fed > row.stroke + ROUNDING for row in joint.drilling):
        words.append(
            say(
                "Deeper than the drill's stroke: bore in two goes, the drill stopped and the table raised between "
                "them, the work still clamped."
            )
        )
    return words


def _wedge_words(stack: str, wedge: Wedge, species: str, units: Units) -> list[str]:
    """How the kerfs, the flare and the wedges are made, and the order of the work."""

    def said(value: float) -> str:
        return length_text(value, units)

    def fit(value: float) -> str:
        return fine_text(value, units)

    wedging = (
        mark(
            "Wedging, once the mortise in {stack} is cut: carve the form at the mortise down to its finished surface, "
            "for the tenon ends {buried} below the rough face and wedges are driven where a hammer reaches; flare; "
            "glue the two walls along the layers' grain, the kerfs and the wedges, not the flared walls; drive both "
            "wedges by turns until they no longer move; pare flush when the glue is hard."
        )
        if wedge.buried > ROUNDING
        else mark(
            "Wedging, once the mortise in {stack} is cut: flare; glue the two walls along the layers' grain, the kerfs "
            "and the wedges, not the flared walls; drive both wedges by turns until they no longer move; pare flush "
            "when the glue is hard."
        )
    )
    return [
        say(
            "Kerfs in the end that shows in {stack}: {count}, ACROSS the layers' grain, each {width} wide, its near "
            "side {from_edge} from the tenon's edge, {depth} deep from the end. First bore a stop hole through the "
            "tenon at the foot of each, Ø {hole} or the next larger bit.",
            stack=stack,
            count=wedge.count,
            width=fit(wedge.kerf_width),
            from_edge=said(wedge.kerf_from_edge),
            depth=said(wedge.kerf_depth),
            hole=fit(wedge.stop_hole),
        ),
        say(
            "Wedges: {count} of {species}, grain along them, 1:{taper:.0f}, {thickness} thick {length} from their tip "
            "and {tip} there, thinner than the kerf, so that they press at its mouth and not at its foot; leave them "
            "longer for the hammer.",
            count=wedge.count,
            species=shown(species),
            taper=wedge.taper,
            thickness=fit(wedge.thickness),
            length=said(wedge.length),
            tip=fit(wedge.tip),
        ),
        say(
            "Flare the two end-grain walls of the mortise by {flare} each at the face, running out {flare_depth} "
            "deep; leave the other two square.",
            flare=fit(wedge.flare),
            flare_depth=said(wedge.flare_depth),
        ),
        say(wedging, stack=stack, buried=said(wedge.buried)),
    ]
