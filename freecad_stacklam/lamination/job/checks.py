# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a plan, each with its figure, its limit, where the rule comes from, and one sentence for the maker.

Only geometry says stop. Rules that are common practice without a source can say caution, and their limits are settings.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from freecad_stacklam.lamination.bill.rows import blank_mass
from freecad_stacklam.lamination.boards.edgeglue import edge_glue_checks
from freecad_stacklam.lamination.boards.sawncut import cut_checks
from freecad_stacklam.lamination.inside.checks import hollow_checks, pin_checks
from freecad_stacklam.lamination.inside.dowelchecks import dowel_checks
from freecad_stacklam.lamination.job.woodcheck import wood_checks
from freecad_stacklam.lamination.joints.checks import EMBED_RATIO, JOINT_COVER, PRACTICE, joint_checks
from freecad_stacklam.lamination.lengths import INCH, format_fine, format_length, format_mass, format_move, format_place
from freecad_stacklam.lamination.plan.checks import WEIGHT, Check, Place, in_model
from freecad_stacklam.lamination.plan.layers import LeftOut, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, extents, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.shop import BandSaw
from freecad_stacklam.lamination.tolerances import HALF_SHOWN, SAME_HEIGHT, UNCOVERED_VOLUME
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.weights import weight_of
from freecad_stacklam.lamination.words import figure, mark, say

PROOF = mark("geometry of the plan, by the proof")

#: Of what could not be planned, the rule that forbids it stands in the sentence.
ROOM = mark("the rule named in the sentence")

#: Longest side, mm, below which a part is small at the band saw.
SMALL_PART = BandSaw().smallest_part
#: Weight, kg, that calls for a second person or a lifting aid.
LIFT = 20.0
#: Movement in height, mm, that fixed things along a stack must follow.
HEIGHT_MOVE = 3.0


def checks_of(
    plan: Plan,
    table: Mapping[str, Species],
    joint_cover: float = JOINT_COVER,
    embed_ratio: float = EMBED_RATIO,
    small_part: float = SMALL_PART,
    lift: float = LIFT,
) -> tuple[Check, ...]:
    """All verdicts on a plan, in the order of the work.

    joint_cover: wood over a joint below which the maker is warned, mm. embed_ratio: depth of a stopped tenon in
    thicknesses. small_part: length below which a part is small at the band saw, mm. lift: mass that calls for help, kg.
    """
    found: list[Check] = []
    # A year in the room tells the movement more truly than a swing of moisture: one sentence on it is enough.
    seasons = plan.piece.seasons if plan.piece is not None else None
    told_by_the_year = {one.stack for one in seasons.stacks if one.change is not None} if seasons is not None else set()
    for stack in plan.stacks:
        found += [*_containment(stack, plan.units), *wood_checks(stack, plan.units), _overshoot(stack, plan.units)]
        found += [_smallest(stack, small_part, plan.units), _lifting(stack, table, lift, plan.units)]
        found += [] if stack.name in told_by_the_year else _height(stack, plan.units)
    for stack in plan.stacks:
        found += [*hollow_checks(stack, table, units=plan.units), *pin_checks(stack, units=plan.units)]
        if stack.movement is not None:
            found += dowel_checks(stack, table, stack.movement.swing, plan.units)
        if plan.boards is not None:
            found += edge_glue_checks(stack, plan.boards.staves, units=plan.units)
            found += [*cut_checks(plan.boards, stack.name)]
    for joint in plan.joints:
        found += joint_checks(joint, joint_cover, embed_ratio, units=plan.units)
    return tuple(found)


def left_out_checks(
    stacks: Sequence[StackPlan], others: Sequence[LeftOut] = (), units: str = "mm"
) -> tuple[Check, ...]:
    """A stop for everything that was asked for and is not in the plan; others: what belongs to no stack."""
    found = [
        (say("{stack}: {what} left out", stack=stack.name, what=_what(one)), one.says)
        for stack in stacks for one in stack.left_out
    ]  # fmt: skip
    found += [(say("{what} left out", what=_what(one)), one.says) for one in others]
    return tuple(Check(name, "stop", 0.0, 0.0, "", say(ROOM), told(says, units)) for name, says in found)


#: What is left out, where it is no joint or glue-up that has a name of its own.
_LEFT_OUT = (
    mark("hollow"), mark("pins"), mark("pins of a glue line"), mark("boards"), mark("carving guide"), mark("glue-up"),
)  # fmt: skip


def _what(one: LeftOut) -> str:
    return say(one.what) if one.what in _LEFT_OUT else one.what


def _height(stack: StackPlan, units: str, limit: float = HEIGHT_MOVE) -> list[Check]:
    """A stack grows and shrinks in height; what is fixed along it must follow."""
    moves = stack.movement
    if moves is None:
        return []
    much = moves.most > limit
    by = say(
        mark("{most} (all boards flat-sawn)")
        if moves.cut == "flat"
        else mark("{most} (all boards quarter-sawn)")
        if moves.cut == "quarter"
        else mark("{flat} (flat-sawn boards) to {quarter} (quarter-sawn)"),
        most=format_move(moves.most, units),
        flat=format_move(moves.flat, units),
        quarter=format_move(moves.quarter, units),
    )
    says = say(
        mark(
            "Over {swing:g} points of moisture {stack} moves {by} in its height of {height}: let "
            "nothing rigid, glass, metal or a panel, be fixed along it at both ends."
        )
        if much
        else mark("Over {swing:g} points of moisture {stack} moves {by} in its height of {height}."),
        swing=moves.swing,
        stack=stack.name,
        by=by,
        height=format_length(stack.height, units),
    )
    source = say("FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage; the limit: common practice, no source")
    name = say("{stack}: height over the year", stack=stack.name)
    return [Check(name, "caution" if much else "ok", moves.most, limit, "mm", source, says)]


def _containment(stack: StackPlan, units: str) -> list[Check]:
    proof = stack.containment
    inch = units == "in"
    volume = figure(f"{proof.uncovered_volume / (INCH**3 if inch else 1.0):.4g} {'in³' if inch else 'mm³'}")
    out = proof.uncovered_volume
    held = out <= UNCOVERED_VOLUME
    where = in_model(stack.frame, proof.place)
    uncovered = Check(
        say("{stack}: form inside its blanks", stack=stack.name),
        "ok" if held else "stop",
        out,
        UNCOVERED_VOLUME,
        "mm³",
        say(PROOF),
        say("Nothing of {stack} was found outside its blanks.", stack=stack.name)
        if held
        else say(
            "{volume} of {stack} lie outside its blanks: do not cut; give more allowance and slice again.",
            volume=volume,
            stack=stack.name,
        ),
        None if held else where,
    )
    cover, allowance = proof.least_cover, format_fine(stack.allowance, units)
    place = format_place(proof.place, units)
    if cover < 0:
        verdict = "stop"
        out_by = format_fine(-cover, units, up=True)
        says = say(
            "{stack} stands {distance} out of its blanks at ({place}): do not cut; slice it again.",
            stack=stack.name,
            distance=out_by,
            place=place,
        )
    elif cover < stack.allowance:
        verdict = "caution"
        says = say(
            "{stack} has only {cover} of wood outside it at ({place}), less than the allowance of "
            "{allowance}: saw and carve with care there, or give more allowance.",
            stack=stack.name,
            cover=format_fine(cover, units),
            place=place,
            allowance=allowance,
        )
    else:
        verdict = "ok"
        says = say(
            "{stack} has at least {cover} of wood outside it, for an allowance of {allowance} besides the "
            "computing margin.",
            stack=stack.name,
            cover=format_fine(cover, units),
            allowance=allowance,
        )
    least = Check(
        say("{stack}: least wood left", stack=stack.name),
        verdict,
        cover,
        stack.allowance,
        "mm",
        say(PROOF),
        says,
        where,
    )
    return [uncovered, least]


def _overshoot(stack: StackPlan, units: str) -> Check:
    """The last layer keeps its full thickness, so the stack is as high as the form or higher."""
    over = stack.height - stack.form.height
    last = stack.layers[-1].thickness if stack.layers else 0.0
    if over < -SAME_HEIGHT:
        verdict = "stop"
        says = say(
            "The stack of {stack} is {over} lower than its form: plan it again.",
            stack=stack.name,
            over=format_fine(-over, units, up=True),
        )
    elif over > last / 2:
        verdict = "caution"
        says = say(
            "More than half of the last layer of {stack}, {over}, is carved off its end: a thinner last "
            "layer or other stock saves wood.",
            stack=stack.name,
            over=format_length(over, units),
        )
    elif over < HALF_SHOWN:
        verdict, says = "ok", say("The stack of {stack} is as high as its form.", stack=stack.name)
    else:
        verdict = "ok"
        more = format_length(max(over, 0.0), units)
        says = say(
            "The stack of {stack} is {more} higher than its form; it comes off its end.", stack=stack.name, more=more
        )
    return Check(
        say("{stack}: stack height", stack=stack.name), verdict, over, last / 2, "mm", say("geometry of the plan"), says
    )


def _smallest(stack: StackPlan, limit: float, units: str) -> Check:
    """The longest side of the smallest island of any blank."""
    sides = [(max(extents((o,), layer.grain)), layer.number, o) for layer in stack.layers for o in layer.blank]
    side, number, part = min(sides, key=lambda one: one[:2], default=(0.0, 0, None))
    small = side < limit
    return Check(
        say("{stack}: smallest part at the band saw", stack=stack.name),
        "caution" if small else "ok",
        side,
        limit,
        "mm",
        say(PRACTICE),
        say(
            "A part of layer {layer} of {stack} is only {side} long: saw it from a larger piece or hold it "
            "in a jig, never in the fingers.",
            layer=number,
            stack=stack.name,
            side=_side(side, units),
        )
        if small
        else say(
            "The smallest part of {stack} to be sawn, in layer {layer}, is {side} long.",
            stack=stack.name,
            layer=number,
            side=_side(side, units),
        ),
        None if part is None else _middle(stack, number, part),
    )


def _middle(stack: StackPlan, number: int, part: Outline) -> Place:
    """The middle of a part of a layer, in the model."""
    layer, at = stack.layers[number - 1], polygon_of(part).centroid
    return in_model(stack.frame, (at.x, at.y, (layer.bottom + layer.top) / 2))


def _side(mm: float, units: str) -> str:
    """Length of a part, to a millimetre or 1/32 in."""
    return format_length(mm if units == "in" else float(round(mm)), units)


def _lifting(stack: StackPlan, table: Mapping[str, Species], limit: float, units: str) -> Check:
    name = say("{stack}: weight to lift", stack=stack.name)
    source = say("Wood Handbook FPL-GTR-282 (2021) Eq. 4-14; limit: common practice, no source")
    mass = blank_mass(stack, table)
    if mass is None:
        known = {layer.species for layer in stack.layers if weight_of(table, layer.species) is None}
        says = say(
            "The weight of {stack} is unknown, because {species} is not in the species table.",
            stack=stack.name,
            species=", ".join(sorted(known)),
        )
        return Check(name, "caution", 0.0, limit, "kg", source, says, rule=WEIGHT)
    heavy = mass > limit
    says = say(
        mark("The glued stack of {stack} weighs about {mass} before carving: lift it with two people or a lifting aid.")
        if heavy
        else mark("The glued stack of {stack} weighs about {mass} before carving."),
        stack=stack.name,
        mass=format_mass(mass, units),
    )
    return Check(name, "caution" if heavy else "ok", mass, limit, "kg", source, says, rule=WEIGHT)
