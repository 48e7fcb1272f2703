# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a joint: wood over it, depth, proportion, and movement over the season."""

from __future__ import annotations

from freecad_stacklam.lamination.joints.wedges import STRAIN_SHARE
from freecad_stacklam.lamination.lengths import (
    format_bit,
    format_fine,
    format_length,
    format_place,
    plain_fine,
    rounded_down,
)
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Wedge
from freecad_stacklam.lamination.tolerances import HALF_PERCENT, ROUNDING

PRACTICE = "common practice, no source"
#: Wood over a joint below which the maker is warned, mm; depth of a stopped tenon in thicknesses; the largest part of a
#: form's width that a mortise should take. All three are rules of thumb.
JOINT_COVER = 10.0
EMBED_RATIO = 1.5
WIDTH_SHARE = 1.0 / 3.0
#: Length of cross-grain glue that a tenon should have in a member at most, mm; how far a flush end may come out over a
#: year, and how much the tenon may move against its glued walls, mm. Rules of thumb, too.
GLUED_LENGTH = 100.0
FLUSH_MOVE = 0.2
ACROSS_MOVE = 0.5


def joint_checks(
    joint: JointPlan,
    cover: float = JOINT_COVER,
    embed_ratio: float = EMBED_RATIO,
    share: float = WIDTH_SHARE,
    units: str = "mm",
) -> list[Check]:
    """All verdicts on one joint. cover: mm of wood over it; embed_ratio: depth of a stopped tenon in thicknesses;
    share: part of the form's width that its mortise may take. units: "mm" or "in", how the sentences tell lengths."""
    found = [_joint_cover(joint, cover, units), *_embedding(joint, embed_ratio, units)]
    found += [*_bit_wanted(joint, units), *_reaches(joint, units), *_strokes(joint, units)]
    for member in joint.members:
        found.append(_proportion(joint, member, share))
        found += _over_the_year(joint, member, units)
        if member.wedge is not None:
            found.append(_strips(joint, member, member.wedge, units))
        if member.movement_along is not None:
            moves = _movement if member.wedge is None else _wedged_movement
            found.append(moves(joint, member, units))
    return found


def _joint_cover(joint: JointPlan, limit: float, units: str) -> Check:
    cover, place = joint.least_cover, format_place(joint.cover_place, units)
    left = format_length(rounded_down(cover, units), units)
    if cover <= 0:
        verdict = "stop"
        says = f"Joint “{joint.name}” breaks through the finished surface at ({place}): move it or make it smaller."
    elif cover < limit:
        verdict = "caution"
        says = (
            f"Only {left} of wood is left over joint “{joint.name}” at ({place}), less than "
            f"{format_length(limit, units)}: "
            "carve with care there, or move the joint or make it smaller."
        )
    else:
        verdict, says = "ok", f"At least {left} of wood is left over joint “{joint.name}”."
    source = "geometry of the plan; limit: " + PRACTICE
    return Check(f"{joint.name}: cover", verdict, cover, limit, "mm", source, says, joint.cover_place)


def _embedding(joint: JointPlan, ratio: float, units: str) -> list[Check]:
    """A stopped tenon should go in as deep as 1.5 to 2 times its thickness; a through one goes as far as it can."""
    found = []
    limit = ratio * min(joint.tenon.size)
    for member in joint.members:
        if member.through:
            continue
        short = member.embed < limit - ROUNDING
        says = f"The tenon of “{joint.name}” goes {format_length(member.embed, units)} into {member.stack}" + (
            f", less than {ratio:g} times its thickness ({format_length(limit, units)}): let it in deeper, "
            "or judge it by its load."
            if short
            else "."
        )
        verdict = "caution" if short else "ok"
        found.append(
            Check(f"{joint.name}: depth in {member.stack}", verdict, member.embed, limit, "mm", PRACTICE, says)
        )
    return found


def _bit_wanted(joint: JointPlan, units: str) -> list[Check]:
    """Said only where none of the shop's own bits is narrow enough for the mortise."""
    row = next((row for row in joint.drilling if not row.owned), None)
    if row is None:
        return []
    narrow = min(joint.size)
    says = (
        f"Every bit of the shop's list is wider than the mortise of “{joint.name}”, {format_length(narrow, units)}: "
        f"its table is for one of Ø {format_bit(row.diameter, units)}; get that, or make the mortise wider."
    )
    return [Check(f"{joint.name}: bit", "caution", row.diameter, narrow, "mm", "the shop's own list of bits", says)]


def _reaches(joint: JointPlan, units: str) -> list[Check]:
    """Whether the bit bores as deep as it must, where its reach is known; a through hole is bored from both faces."""
    found = []
    for stack in dict.fromkeys(row.stack for row in joint.drilling if row.reach is not None):
        rows = [row for row in joint.drilling if row.stack == stack and row.reach is not None]
        needed = max(row.fed for row in rows)
        reach = min(row.reach for row in rows if row.reach is not None)
        short = needed > reach + ROUNDING
        bit, deep = format_bit(rows[0].diameter, units), format_length(needed, units)
        says = f"The Ø {bit} bit bores {deep} deep in {stack} for “{joint.name}”" + (
            f", more than the {format_length(reach, units)} that it reaches: take a longer one, "
            "or an extension by its manual."
            if short
            else f" and reaches {format_length(reach, units)}."
        )
        verdict = "caution" if short else "ok"
        source = "geometry of the plan; reach: the maker's own"
        found.append(Check(f"{joint.name}: reach of the bit in {stack}", verdict, needed, reach, "mm", source, says))
    return found


def _strokes(joint: JointPlan, units: str) -> list[Check]:
    """Whether the drill press feeds as deep as a hole goes, where its stroke is known."""
    found = []
    for stack in dict.fromkeys(row.stack for row in joint.drilling if row.stroke is not None):
        rows = [row for row in joint.drilling if row.stack == stack and row.stroke is not None]
        needed, stroke = max(row.fed for row in rows), min(row.stroke for row in rows if row.stroke is not None)
        short = needed > stroke + ROUNDING
        says = f"The drill press feeds {format_length(needed, units)} for “{joint.name}” in {stack}" + (
            f", more than its stroke of {format_length(stroke, units)}: bore in two goes, with the work clamped, the "
            "drill stopped and the table raised between them, as its manual says."
            if short
            else f", within its stroke of {format_length(stroke, units)}."
        )
        verdict = "caution" if short else "ok"
        source = "geometry of the plan; stroke: the maker's own"
        found.append(
            Check(f"{joint.name}: stroke of the drill in {stack}", verdict, needed, stroke, "mm", source, says)
        )
    return found


def _proportion(joint: JointPlan, member: JointMember, limit: float) -> Check:
    """A third for the tenon leaves a third in each wall."""
    wide = member.share > limit + HALF_PERCENT
    says = f"The mortise of “{joint.name}” takes {100 * member.share:.0f} % of the width of {member.stack}" + (
        f", more than the usual {100 * limit:.0f} %: leave more wood in the walls, or judge it by its load."
        if wide
        else "."
    )
    verdict = "caution" if wide else "ok"
    return Check(f"{joint.name}: width in {member.stack}", verdict, member.share, limit, "", PRACTICE, says)


def _strips(joint: JointPlan, member: JointMember, wedge: Wedge, units: str) -> Check:
    """The strips beside the kerfs bend out to the walls and must not break."""
    share, limit = f"{100 * wedge.strain:.2f} %", f"{100 * wedge.strain_limit:.2f} %"
    says = (
        f"The strips beside the kerfs of “{joint.name}” bend out in {member.stack} "
        f"by {format_fine(wedge.spread, units)}, which strains them by {share}"
    )
    if wedge.strain > wedge.strain_limit:
        verdict, says = "stop", f"{says}, more than the {limit} that they bear: they would break."
    elif not wedge.strength_known:
        verdict = "caution"
        says += f"; the strength of {joint.tenon.species} is not known, the weakest wood of the table bears {limit}: "
        "try it."
    else:
        verdict, says = "ok", f"{says}; {100 * STRAIN_SHARE:.0f} % of what breaks {joint.tenon.species} is {limit}."
    source = "strain of a cantilever, limit a share of MOR/MOE by the species table; the share: " + PRACTICE
    return Check(
        f"{joint.name}: wedges in {member.stack}",
        verdict,
        100 * wedge.strain,
        100 * wedge.strain_limit,
        "%",
        source,
        says,
    )


def _over_the_year(joint: JointPlan, member: JointMember, units: str) -> list[Check]:
    """What the layers do along the tenon, which does not move, and what both do across the layers' grain."""
    found = []
    year = f"Over {joint.swing:g} points of moisture "
    source = "FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage; the limit: " + PRACTICE
    long = member.embed > GLUED_LENGTH + ROUNDING
    embed = format_length(member.embed, units)
    says = f"The tenon of “{joint.name}” is glued in {member.stack} across the grain, over {embed}" + (
        f", more than {format_length(GLUED_LENGTH, units)}: glue the lower part alone, or let it in less."
        if long
        else "."
    )
    found.append(
        Check(
            f"{joint.name}: cross-grain glue in {member.stack}", "caution" if long else "ok", member.embed,
            GLUED_LENGTH, "mm", PRACTICE, says,
        )
    )  # fmt: skip
    moves = member.movement_height
    if moves is not None and member.through and not joint.proud and member in (joint.members[0], joint.members[-1]):
        out = moves > FLUSH_MOVE
        says = (
            f"{year}{member.stack} moves up to {format_fine(moves, units, up=True)} along the tenon of “{joint.name}”"
            + (
                ": its flush end stands out in the dry season and sinks in the wet; chamfer it, or let it stand proud."
                if out
                else "; its end stays flush."
            )
        )
        verdict = "caution" if out else "ok"
        found.append(
            Check(f"{joint.name}: flush end in {member.stack}", verdict, moves, FLUSH_MOVE, "mm", source, says)
        )
    across = member.movement_across
    if across is not None:
        much = across > ACROSS_MOVE
        told = format_fine(across, units, up=True)
        says = f"{year}the tenon of “{joint.name}” moves up to {told} against its glued walls in {member.stack}" + (
            ", which opens glue lines: take a narrower tenon, or tenon and layers of like grain." if much else "."
        )
        verdict = "caution" if much else "ok"
        found.append(
            Check(f"{joint.name}: movement across in {member.stack}", verdict, across, ACROSS_MOVE, "mm", source, says)
        )
    return found


def _wedged_movement(joint: JointPlan, member: JointMember, units: str) -> Check:
    """A wedged end has no room along the grain: it is crushed in the wet and loosens in the dry."""
    assert member.movement_along is not None
    room = 2 * joint.clearance
    tight = member.movement_along > room + ROUNDING
    moves = format_fine(member.movement_along, units, up=True)
    says = (
        f"Over {joint.swing:g} points of moisture the wedged tenon of “{joint.name}” moves "
        f"{moves} "
        f"against the end-grain walls of {member.stack}, which do not move"
    )
    says += (
        ": its fibres are crushed in the wet season and it loosens in the dry. Makers accept that; keep the wedged "
        "side "
        "short, or pass through without wedges and give relief."
        if tight
        else "."
    )
    source = "FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage; the verdict: " + PRACTICE
    verdict = "caution" if tight else "ok"
    return Check(f"{joint.name}: movement in {member.stack}", verdict, member.movement_along, room, "mm", source, says)


def _eased(joint: JointPlan, member: JointMember, units: str) -> str:
    """How much comes off each end-grain wall so that the tenon has room to move, and how."""
    assert member.movement_along is not None
    each = format_fine(member.movement_along / 2 - joint.clearance, units, up=True)
    if joint.section == "round":
        return f"rasp {each} off each of the two end-grain quarters of its wall, or take a square tenon with relief"
    return f"cut {each} of relief on each of its two end-grain walls"


def _movement(joint: JointPlan, member: JointMember, units: str) -> Check:
    """Along the layers' grain the mortise does not move and the tenon does."""
    assert member.movement_along is not None
    room = 2 * (joint.clearance + member.relief)
    tight = member.movement_along > room + ROUNDING
    moves, gives = format_fine(member.movement_along, units, up=True), format_fine(room, units)
    if not tight and float(plain_fine(room, units, "down")) < float(plain_fine(member.movement_along, units, "up")):
        gives = "as much"  # less than the last place apart: each rounded for safety would contradict the verdict
    says = (
        f"Over {joint.swing:g} points of moisture the tenon of “{joint.name}” moves {moves} "
        f"along the grain of {member.stack}, which does not; the mortise has room for {gives}"
    ) + (f": {_eased(joint, member, units)}." if tight else ".")
    source = "FPL-GTR-282 (2021), Eq. 13-2 and 13-3, from total shrinkage"
    verdict = "caution" if tight else "ok"
    return Check(f"{joint.name}: movement in {member.stack}", verdict, member.movement_along, room, "mm", source, says)
