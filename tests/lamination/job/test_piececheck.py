# SPDX-License-Identifier: LGPL-2.1-or-later

from __future__ import annotations

from freecad_stacklam.lamination.findings.budget import AllowanceBudget, BudgetItem
from freecad_stacklam.lamination.findings.whole import PieceFindings
from freecad_stacklam.lamination.job.piece import DEEP
from freecad_stacklam.lamination.job.piececheck import piece_checks


def test_what_was_left_out_says_stop_and_what_is_pending_asks_for_care() -> None:
    found = PieceFindings(left_out=(("strength", "There is no such wood: choose another."),), pending=(DEEP,))
    stop, caution = piece_checks(found)
    assert (stop.verdict, stop.says) == ("stop", "There is no such wood: choose another.")
    assert caution.verdict == "caution" and DEEP in caution.says


def test_every_budget_has_its_verdict() -> None:
    # 3-4-5: the root of 3² + 4².
    short = AllowanceBudget("Foot", (BudgetItem("Saw", 3.0, ""), BudgetItem("Slip", 4.0, "")), 5.0, 7.0, 4.0)
    (check,) = piece_checks(PieceFindings(budgets=(short,)))
    assert (check.verdict, check.figure, check.limit) == ("caution", 5.0, 4.0)


def test_nothing_found_says_nothing() -> None:
    assert piece_checks(PieceFindings()) == ()
