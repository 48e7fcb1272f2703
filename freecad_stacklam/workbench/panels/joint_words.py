# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the joint's panel says about a joint, in the maker's own words and units, and where it first looks."""

from __future__ import annotations

from freecad_stacklam.lamination.joints.checks import JOINT_COVER, joint_checks
from freecad_stacklam.lamination.lengths import format_bit, format_fine
from freecad_stacklam.lamination.plan.joints import JointPlan
from freecad_stacklam.lamination.settings.shop import SHOWN_KINDS
from freecad_stacklam.workbench.fields.fields import shown_length, units_shown
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate

#: How a tenon's size is read.
SHAPES = {
    "square": "square",
    "rectangle": QT_TRANSLATE_NOOP("StackLam", "rectangular"),
    "round": QT_TRANSLATE_NOOP("StackLam", "in diameter"),
}


def figures_of(joint: JointPlan) -> dict[str, str]:
    """The figures that follow the typing, by the names of their labels."""
    sizes = " × ".join(shown_length(size) for size in joint.tenon.size)
    wedges = [(m.stack, m.wedge) for m in joint.members if m.wedge is not None]
    bits = dict.fromkeys((row.stack, row.diameter, row.kind, row.when) for row in joint.drilling)
    return {
        "tenon": translate("StackLam", "{} {}, {} long").format(
            sizes, translate("StackLam", SHAPES[joint.tenon.section]), shown_length(joint.tenon.length)
        ),
        "cover": shown_length(joint.least_cover) if joint.least_cover >= 0 else translate("StackLam", "none"),
        "coverPlace": "x {}, y {}, z {}".format(*(shown_length(v) for v in joint.cover_place)),
        "walls": "; ".join(
            f"{m.stack}: {format_fine(m.relief, units_shown(), up=True)} a wall" for m in joint.members if m.relief > 0
        )
        or translate("StackLam", "none"),
        "wedges": "; ".join(
            f"{stack}: {w.count}, {shown_length(w.length)} long, {format_fine(w.thickness, units_shown())} thick"
            for stack, w in wedges
        ),
        "boring": "; ".join(
            f"{stack}: {format_bit(bit, units_shown())} {SHOWN_KINDS.get(kind, kind)} bit, {when}"
            for stack, bit, kind, when in bits
        )
        or "–",
    }


def verdict_of(joint: JointPlan) -> str:
    """ "ok", "caution" or "stop", by the wood over the joint; a key of colours, the same in every language."""
    if joint.least_cover <= 0:
        return "stop"
    return "ok" if joint.least_cover >= JOINT_COVER else "caution"


def sentence_of(joint: JointPlan) -> str:
    """What the maker should know before OK; empty when all is well."""
    if joint.least_cover < 0:
        return translate(
            "StackLam",
            "The mortise breaks out of the finished surface by {}: make it smaller or shallower, or move it.",
        ).format(shown_length(-joint.least_cover))
    return "\n".join(c.says for c in joint_checks(joint, units=units_shown()) if c.verdict != "ok")
