# SPDX-License-Identifier: LGPL-2.1-or-later

"""Verdicts on a joint: wood over it, depth, proportion, and movement over the season."""

from __future__ import annotations

from freecad_stacklam.lamination.joints.wedges import STRAIN_SHARE
from freecad_stacklam.lamination.joints.yearchecks import movement, over_the_year, wedged_movement
from freecad_stacklam.lamination.lengths import (
    format_bit,
    format_fine,
    format_length,
    format_place,
    rounded_down,
)
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.joints import JointMember, JointPlan, Wedge
from freecad_stacklam.lamination.tolerances import HALF_PERCENT, ROUNDING
from freecad_stacklam.lamination.words import mark, say

PRACTICE = mark("common practice, no source")
#: Wood over a joint below which the maker is warned, mm; depth of a stopped tenon in thicknesses; the largest part of a
#: form's width that a mortise should take. All three are rules of thumb.
JOINT_COVER = 10.0
EMBED_RATIO = 1.5
WIDTH_SHARE = 1.0 / 3.0


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
        found += over_the_year(joint, member, units)
        if member.wedge is not None:
            found.append(_strips(joint, member, member.wedge, units))
        if member.movement_along is not None:
            moves = movement if member.wedge is None else wedged_movement
            found.append(moves(joint, member, units))
    return found


def _joint_cover(joint: JointPlan, limit: float, units: str) -> Check:
    cover, place = joint.least_cover, format_place(joint.cover_place, units)
    left = format_length(rounded_down(cover, units), units)
    if cover <= 0:
        verdict = "stop"
        says = say(
            "Joint “{joint}” breaks through the finished surface at ({place}): move it or make it smaller.",
            joint=joint.name,
            place=place,
        )
    elif cover < limit:
        verdict = "caution"
        says = say(
            "Only {left} of wood is left over joint “{joint}” at ({place}), less than {limit}: carve with "
            "care there, or move the joint or make it smaller.",
            left=left,
            joint=joint.name,
            place=place,
            limit=format_length(limit, units),
        )
    else:
        verdict, says = "ok", say("At least {left} of wood is left over joint “{joint}”.", left=left, joint=joint.name)
    source = say("geometry of the plan; limit: common practice, no source")
    return Check(say("{joint}: cover", joint=joint.name), verdict, cover, limit, "mm", source, says, joint.cover_place)


def _embedding(joint: JointPlan, ratio: float, units: str) -> list[Check]:
    """A stopped tenon should go in as deep as 1.5 to 2 times its thickness; a through one goes as far as it can."""
    found = []
    limit = ratio * min(joint.tenon.size)
    for member in joint.members:
        if member.through:
            continue
        short = member.embed < limit - ROUNDING
        says = say(
            mark(
                "The tenon of “{joint}” goes {depth} into {stack}, less than {ratio:g} times its "
                "thickness ({limit}): let it in deeper, or judge it by its load."
            )
            if short
            else mark("The tenon of “{joint}” goes {depth} into {stack}."),
            joint=joint.name,
            depth=format_length(member.embed, units),
            stack=member.stack,
            ratio=ratio,
            limit=format_length(limit, units),
        )
        verdict = "caution" if short else "ok"
        found.append(
            Check(
                say("{joint}: depth in {stack}", joint=joint.name, stack=member.stack),
                verdict,
                member.embed,
                limit,
                "mm",
                say(PRACTICE),
                says,
            )
        )
    return found


def _bit_wanted(joint: JointPlan, units: str) -> list[Check]:
    """Said only where none of the shop's own bits is narrow enough for the mortise."""
    row = next((row for row in joint.drilling if not row.owned), None)
    if row is None:
        return []
    narrow = min(joint.size)
    says = say(
        "Every bit of the shop's list is wider than the mortise of “{joint}”, {width}: its table is for "
        "one of Ø {diameter}; get that, or make the mortise wider.",
        joint=joint.name,
        width=format_length(narrow, units),
        diameter=format_bit(row.diameter, units),
    )
    return [
        Check(
            say("{joint}: bit", joint=joint.name),
            "caution",
            row.diameter,
            narrow,
            "mm",
            say("the shop's own list of bits"),
            says,
        )
    ]


def _reaches(joint: JointPlan, units: str) -> list[Check]:
    """Whether the bit bores as deep as it must, where its reach is known; a through hole is bored from both faces."""
    found = []
    for stack in dict.fromkeys(row.stack for row in joint.drilling if row.reach is not None):
        rows = [row for row in joint.drilling if row.stack == stack and row.reach is not None]
        needed = max(row.fed for row in rows)
        reach = min(row.reach for row in rows if row.reach is not None)
        short = needed > reach + ROUNDING
        bit, deep = format_bit(rows[0].diameter, units), format_length(needed, units)
        says = say(
            mark(
                "The Ø {bit} bit bores {depth} deep in {stack} for “{joint}”, more than the {reach} "
                "that it reaches: take a longer one, or an extension by its manual."
            )
            if short
            else mark("The Ø {bit} bit bores {depth} deep in {stack} for “{joint}” and reaches {reach}."),
            bit=bit,
            depth=deep,
            stack=stack,
            joint=joint.name,
            reach=format_length(reach, units),
        )
        verdict = "caution" if short else "ok"
        source = say("geometry of the plan; reach: the maker's own")
        found.append(
            Check(
                say("{joint}: reach of the bit in {stack}", joint=joint.name, stack=stack),
                verdict,
                needed,
                reach,
                "mm",
                source,
                says,
            )
        )
    return found


def _strokes(joint: JointPlan, units: str) -> list[Check]:
    """Whether the drill press feeds as deep as a hole goes, where its stroke is known."""
    found = []
    for stack in dict.fromkeys(row.stack for row in joint.drilling if row.stroke is not None):
        rows = [row for row in joint.drilling if row.stack == stack and row.stroke is not None]
        needed, stroke = max(row.fed for row in rows), min(row.stroke for row in rows if row.stroke is not None)
        short = needed > stroke + ROUNDING
        says = say(
            mark(
                "The drill press feeds {needed} for “{joint}” in {stack}, more than its stroke of "
                "{stroke}: bore in two goes, with the work clamped, the drill stopped and the table "
                "raised between them, as its manual says."
            )
            if short
            else mark("The drill press feeds {needed} for “{joint}” in {stack}, within its stroke of {stroke}."),
            needed=format_length(needed, units),
            joint=joint.name,
            stack=stack,
            stroke=format_length(stroke, units),
        )
        verdict = "caution" if short else "ok"
        source = say("geometry of the plan; stroke: the maker's own")
        found.append(
            Check(
                say("{joint}: stroke of the drill in {stack}", joint=joint.name, stack=stack),
                verdict,
                needed,
                stroke,
                "mm",
                source,
                says,
            )
        )
    return found


def _proportion(joint: JointPlan, member: JointMember, limit: float) -> Check:
    """A third for the tenon leaves a third in each wall."""
    wide = member.share > limit + HALF_PERCENT
    says = say(
        mark(
            "The mortise of “{joint}” takes {share:.0f} % of the width of {stack}, more than the "
            "usual {limit:.0f} %: leave more wood in the walls, or judge it by its load."
        )
        if wide
        else mark("The mortise of “{joint}” takes {share:.0f} % of the width of {stack}."),
        joint=joint.name,
        share=100 * member.share,
        stack=member.stack,
        limit=100 * limit,
    )
    verdict = "caution" if wide else "ok"
    return Check(
        say("{joint}: width in {stack}", joint=joint.name, stack=member.stack),
        verdict,
        member.share,
        limit,
        "",
        say(PRACTICE),
        says,
    )


def _strips(joint: JointPlan, member: JointMember, wedge: Wedge, units: str) -> Check:
    """The strips beside the kerfs bend out to the walls and must not break."""
    if wedge.strain > wedge.strain_limit:
        verdict = "stop"
        words = mark(
            "The strips beside the kerfs of “{joint}” bend out in {stack} by {spread}, which strains them by "
            "{strain:.2f} %, more than the {limit:.2f} % that they bear: they would break."
        )
    elif not wedge.strength_known:
        verdict = "caution"
        words = mark(
            "The strips beside the kerfs of “{joint}” bend out in {stack} by {spread}, which strains them by "
            "{strain:.2f} %; the strength of {species} is not known, the weakest wood of the table bears "
            "{limit:.2f} %: try it."
        )
    else:
        verdict = "ok"
        words = mark(
            "The strips beside the kerfs of “{joint}” bend out in {stack} by {spread}, which strains them by "
            "{strain:.2f} %; {share:.0f} % of what breaks {species} is {limit:.2f} %."
        )
    says = say(
        words,
        joint=joint.name,
        stack=member.stack,
        spread=format_fine(wedge.spread, units),
        strain=100 * wedge.strain,
        limit=100 * wedge.strain_limit,
        share=100 * STRAIN_SHARE,
        species=joint.tenon.species,
    )
    source = say(
        "strain of a cantilever, limit a share of MOR/MOE by the species table; the share: common practice, no source"
    )
    return Check(
        say("{joint}: wedges in {stack}", joint=joint.name, stack=member.stack),
        verdict,
        100 * wedge.strain,
        100 * wedge.strain_limit,
        "%",
        source,
        says,
    )
