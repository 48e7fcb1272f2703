# SPDX-License-Identifier: LGPL-2.1-or-later

"""All verdicts on the finished piece."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from freecad_stacklam.lamination.carving.budget import budget_check
from freecad_stacklam.lamination.climate.checks import season_checks
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.job.oneplace import in_one
from freecad_stacklam.lamination.job.piece import DEEP, OPINION, YEAR
from freecad_stacklam.lamination.opinion.checks import opinion_checks
from freecad_stacklam.lamination.plan.checks import Check, Place, in_model
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.standing.checks import standing_checks
from freecad_stacklam.lamination.strength.checks import other_checks, section_checks
from freecad_stacklam.lamination.stress.checks import spot_checks, unfinished_checks
from freecad_stacklam.lamination.wood.unknown import not_judged
from freecad_stacklam.lamination.words import mark, say

ASKED = mark("what was asked for")


_PENDING = {
    DEEP: mark(
        "The deep check of strength has not been made for the piece as it is now: press “Look deeper” in the checks."
    ),
    OPINION: mark(
        "The second opinion on strength has not been made for the piece as it is now: press “Look deeper” in the "
        "checks."
    ),
    YEAR: mark("The year in the room has not been made for the piece as it is now: press “Look deeper” in the checks."),
}


def piece_checks(found: PieceFindings, units: str = "mm", stacks: Sequence[StackPlan] = ()) -> tuple[Check, ...]:
    """How it stands, whether it holds, what a year does to it, whether the allowance is enough; what was left out says
    stop, what is pending asks for care. units: "mm" or "in", of the sentences. stacks: those of the plan, where the
    places of glue lines are wanted."""
    at_lines = glue_line_places(stacks)
    checks: list[Check] = [budget_check(budget, units) for budget in found.budgets]
    if found.weight is not None and found.weight.unknown:
        says = not_judged(say("The weight of the piece"), found.weight.unknown, say("specific gravity"))
        checks.append(Check(say("weight"), "caution", 0.0, 0.0, "", say(found.weight.source), says))
    if found.standing is not None:
        checks += standing_checks(found.standing, units)
    sections = () if found.strength is None else section_checks(found.strength, units)
    spots = () if found.deep is None else spot_checks(found.deep, units)
    checks += in_one(sections, spots)
    if found.strength is not None:
        checks += other_checks(found.strength, units, at_lines)
    if found.deep is not None:
        checks += unfinished_checks(found.deep, units)
        checks += opinion_checks(found.deep, units)
    if found.seasons is not None:
        checks += season_checks(found.seasons, units, at_lines)
    for what, says in found.left_out:
        name = say("{what} left out", what=say(what))
        checks.append(Check(name, "stop", 0.0, 0.0, "", say(ASKED), told(says, units)))
    for what in found.pending:
        checks.append(Check(say(what), "caution", 0.0, 0.0, "", say(ASKED), say(_PENDING[what])))
    return tuple(checks)


def glue_line_places(stacks: Sequence[StackPlan]) -> dict[tuple[str, int], Place]:
    """A place of each glue line by its stack and the number of the layer under it: the point of the finished outline
    that is furthest to FRONT, where it is seen; in the model."""
    found = {}
    for stack in stacks:
        for layer in stack.layers[:-1]:
            ring = shapely.get_coordinates(layer.finished_top)
            if len(ring):
                x, y = ring[int(np.argmin(ring[:, 1]))]
                found[stack.name, layer.number] = in_model(stack.frame, (x, y, layer.top))
    return found
