# SPDX-License-Identifier: LGPL-2.1-or-later

"""The rules of thumb, beside what is found with the time that moisture takes: all wood follows the whole season at
once, and each size moves by size · C · swing (C by Eq. 13-2 of FPL-GTR-282, 2021)."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.lamination.findings.seasons import JointSeason, LayerSeason, QuickRule, StackSeason, Year
from freecad_stacklam.lamination.wood.species import movement_coefficient
from freecad_stacklam.lamination.words import say


def season_swing(room: Year) -> float:
    """Of what the room asks for over the year, points."""
    return max(room) - min(room)


def quick_change(size: float, shrinkage: float, swing: float) -> float:
    """size · C · swing, mm."""
    return size * movement_coefficient(shrinkage) * swing


def swing_of(year: Year | None) -> float | None:
    """The range of a year; None of nothing."""
    return None if year is None else max(year) - min(year)


def quick_rules(
    room: Year, stacks: Sequence[StackSeason], layers: Sequence[LayerSeason], joints: Sequence[JointSeason]
) -> tuple[QuickRule, ...]:
    """Moisture of each stack, its height, its widest layer, its tenons: by the rule and as found. The rule's figure is
    what was found times the room's swing over that of the wood: the coefficient is the same in both."""
    swing = season_swing(room)
    found = []
    for stack in stacks:
        found.append(QuickRule(say("{stack}: moisture", stack=stack.stack), swing, stack.moisture.swing, "points"))
        if stack.change is not None:
            found.append(
                _rule(
                    say("{stack}: height", stack=stack.stack), stack.change.worst, _layers_swing(stack, layers), swing
                )
            )
        own = [one for one in layers if one.stack == stack.stack and one.change is not None]
        if own:
            widest = max(own, key=lambda one: one.width)
            assert widest.change is not None
            what = say("{stack}: width of layer {layer}", stack=stack.stack, layer=widest.number)
            found.append(_rule(what, widest.change.worst, widest.moisture.swing, swing))
    for joint in joints:
        if joint.along is not None:
            mine = max(joint.tenon) - min(joint.tenon)
            found.append(
                _rule(say("{joint}: tenon in {stack}", joint=joint.joint, stack=joint.stack), joint.along, mine, swing)
            )
    return tuple(found)


def _layers_swing(stack: StackSeason, layers: Sequence[LayerSeason]) -> float:
    """Swing of the mean over a stack's layers, points: each counts as high as it is, however broad, for the height is
    theirs laid on one another. The wood's own mean, where a broad slow layer counts for more, stands in for none."""
    own = [one.moisture.mean for one in layers if one.stack == stack.stack]
    if not own:
        return stack.moisture.swing
    months = [float(sum(month)) / len(own) for month in zip(*own)]
    return float(max(months) - min(months))


def _rule(what: str, year: Year, moved: float, swing: float) -> QuickRule:
    found = max(year) - min(year)
    return QuickRule(what, found * swing / moved if moved > 0 else 0.0, found, "mm")
