# SPDX-License-Identifier: LGPL-2.1-or-later

"""All verdicts on the finished piece."""

from __future__ import annotations

from freecad_stacklam.lamination.carving.budget import budget_check
from freecad_stacklam.lamination.climate.checks import season_checks
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.opinion.checks import opinion_checks
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.refusal import told
from freecad_stacklam.lamination.standing.checks import standing_checks
from freecad_stacklam.lamination.strength.checks import strength_checks
from freecad_stacklam.lamination.stress.checks import deep_checks

ASKED = "what was asked for"


def piece_checks(found: PieceFindings, units: str = "mm") -> tuple[Check, ...]:
    """How it stands, whether it holds, what a year does to it, whether the allowance is enough; what was left out says
    stop, what is pending asks for care. units: "mm" or "in", of the sentences."""
    checks: list[Check] = [budget_check(budget, units) for budget in found.budgets]
    if found.standing is not None:
        checks += standing_checks(found.standing, units)
    if found.strength is not None:
        checks += strength_checks(found.strength, units)
    if found.deep is not None:
        checks += deep_checks(found.deep, units)
        checks += opinion_checks(found.deep, units)
    if found.seasons is not None:
        checks += season_checks(found.seasons, units)
    for what, says in found.left_out:
        checks.append(Check(f"{what} left out", "stop", 0.0, 0.0, "", ASKED, told(says, units)))
    for what in found.pending:
        says = f"The {what} has not been made for the piece as it is now: press “Look deeper” in the checks."
        checks.append(Check(what, "caution", 0.0, 0.0, "", ASKED, says))
    return tuple(checks)
