# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a plan, each with its figure, its limit, where the rule comes from, and one sentence for the maker.

Only geometry says stop. Rules that are common practice without a source can say caution, and their limits are settings.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from freecad_stacklam.lamination.bill.rows import blank_mass
from freecad_stacklam.lamination.boards.edgeglue import edge_glue_checks
from freecad_stacklam.lamination.boards.sawncut import cut_checks
from freecad_stacklam.lamination.inside.checks import dowel_checks, hollow_checks, pin_checks
from freecad_stacklam.lamination.job.woodcheck import wood_checks
from freecad_stacklam.lamination.joints.checks import EMBED_RATIO, JOINT_COVER, PRACTICE, joint_checks
from freecad_stacklam.lamination.lengths import INCH, format_fine, format_length, format_mass, format_move, format_place
from freecad_stacklam.lamination.plan.checks import Check, Place, in_model
from freecad_stacklam.lamination.plan.layers import LeftOut, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, extents, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.settings.shop import BandSaw
from freecad_stacklam.lamination.tolerances import HALF_SHOWN, SAME_HEIGHT, UNCOVERED_VOLUME
from freecad_stacklam.lamination.wood.species import Species
from freecad_stacklam.lamination.wood.weights import weight_of

PROOF = "geometry of the plan, by the proof"

#: Of what could not be planned, the rule that forbids it stands in the sentence.
ROOM = "the rule named in the sentence"

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
    found = [(f"{stack.name}: {one.what}", one.says) for stack in stacks for one in stack.left_out]
    found += [(one.what, one.says) for one in others]
    return tuple(Check(f"{name} left out", "stop", 0.0, 0.0, "", ROOM, told(says, units)) for name, says in found)


def _height(stack: StackPlan, units: str, limit: float = HEIGHT_MOVE) -> list[Check]:
    """A stack grows and shrinks in height; what is fixed along it must follow."""
    moves = stack.movement
    if moves is None:
        return []
    much = moves.most > limit
    by = (
        f"{format_move(moves.most, units)} (all boards {moves.cut}-sawn)"
        if moves.cut in ("flat", "quarter")
        else f"{format_move(moves.flat, units)} (flat-sawn boards) to "
        f"{format_move(moves.quarter, units)} (quarter-sawn)"
    )
    says = (
        f"Over {moves.swing:g} points of moisture {stack.name} moves {by} in its height of "
        f"{format_length(stack.height, units)}"
    ) + (": let nothing rigid, glass, metal or a panel, be fixed along it at both ends." if much else ".")
    source = "FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage; the limit: common practice, no source"
    name = f"{stack.name}: height over the year"
    return [Check(name, "caution" if much else "ok", moves.most, limit, "mm", source, says)]


def _containment(stack: StackPlan, units: str) -> list[Check]:
    proof = stack.containment
    inch = units == "in"
    volume = f"{proof.uncovered_volume / (INCH**3 if inch else 1.0):.4g} {'in³' if inch else 'mm³'}"
    out = proof.uncovered_volume
    held = out <= UNCOVERED_VOLUME
    where = in_model(stack.frame, proof.place)
    uncovered = Check(
        f"{stack.name}: form inside its blanks", "ok" if held else "stop", out, UNCOVERED_VOLUME, "mm³", PROOF,
        f"Nothing of {stack.name} was found outside its blanks." if held
        else f"{volume} of {stack.name} lie outside its blanks: do not cut; give more allowance and slice again.",
        None if held else where,
    )  # fmt: skip
    cover, allowance = proof.least_cover, format_fine(stack.allowance, units)
    place = format_place(proof.place, units)
    if cover < 0:
        verdict = "stop"
        out_by = format_fine(-cover, units, up=True)
        says = f"{stack.name} stands {out_by} out of its blanks at ({place}): do not cut; slice it again."
    elif cover < stack.allowance:
        verdict = "caution"
        says = (
            f"{stack.name} has only {format_fine(cover, units)} of wood outside it at ({place}), less than the "
            f"allowance of {allowance}: saw and carve with care there, or give more allowance."
        )
    else:
        verdict = "ok"
        says = (
            f"{stack.name} has at least {format_fine(cover, units)} of wood outside it, for an allowance of "
            f"{allowance} besides the computing margin."
        )
    least = Check(f"{stack.name}: least wood left", verdict, cover, stack.allowance, "mm", PROOF, says, where)
    return [uncovered, least]


def _overshoot(stack: StackPlan, units: str) -> Check:
    """The last layer keeps its full thickness, so the stack is as high as the form or higher."""
    over = stack.height - stack.form.height
    last = stack.layers[-1].thickness if stack.layers else 0.0
    if over < -SAME_HEIGHT:
        verdict = "stop"
        says = f"The stack of {stack.name} is {format_fine(-over, units, up=True)} lower than its form: plan it again."
    elif over > last / 2:
        verdict = "caution"
        says = (
            f"More than half of the last layer of {stack.name}, {format_length(over, units)}, is carved off its end: a "
            f"thinner last layer or other stock saves wood."
        )
    elif over < HALF_SHOWN:
        verdict, says = "ok", f"The stack of {stack.name} is as high as its form."
    else:
        verdict = "ok"
        more = format_length(max(over, 0.0), units)
        says = f"The stack of {stack.name} is {more} higher than its form; it comes off its end."
    return Check(f"{stack.name}: stack height", verdict, over, last / 2, "mm", "geometry of the plan", says)


def _smallest(stack: StackPlan, limit: float, units: str) -> Check:
    """The longest side of the smallest island of any blank."""
    sides = [(max(extents((o,), layer.grain)), layer.number, o) for layer in stack.layers for o in layer.blank]
    side, number, part = min(sides, key=lambda one: one[:2], default=(0.0, 0, None))
    small = side < limit
    return Check(
        f"{stack.name}: smallest part at the band saw", "caution" if small else "ok", side, limit, "mm", PRACTICE,
        f"A part of layer {number} of {stack.name} is only {_side(side, units)} long: saw it from a larger piece or "
        f"hold it in a jig, never in the fingers." if small
        else f"The smallest part of {stack.name} to be sawn, in layer {number}, is {_side(side, units)} long.",
        None if part is None else _middle(stack, number, part),
    )  # fmt: skip


def _middle(stack: StackPlan, number: int, part: Outline) -> Place:
    """The middle of a part of a layer, in the model."""
    layer, at = stack.layers[number - 1], polygon_of(part).centroid
    return in_model(stack.frame, (at.x, at.y, (layer.bottom + layer.top) / 2))


def _side(mm: float, units: str) -> str:
    """Length of a part, to a millimetre or 1/32 in."""
    return format_length(mm if units == "in" else float(round(mm)), units)


def _lifting(stack: StackPlan, table: Mapping[str, Species], limit: float, units: str) -> Check:
    name, source = f"{stack.name}: weight to lift", "Wood Handbook FPL-GTR-282 (2021) Eq. 4-14; limit: " + PRACTICE
    mass = blank_mass(stack, table)
    if mass is None:
        known = {layer.species for layer in stack.layers if weight_of(table, layer.species) is None}
        says = f"The weight of {stack.name} is unknown, because {', '.join(sorted(known))} is not in the species table."
        return Check(name, "caution", 0.0, limit, "kg", source, says)
    heavy = mass > limit
    says = f"The glued stack of {stack.name} weighs about {format_mass(mass, units)} before carving" + (
        ": lift it with two people or a lifting aid." if heavy else "."
    )
    return Check(name, "caution" if heavy else "ok", mass, limit, "kg", source, says)
