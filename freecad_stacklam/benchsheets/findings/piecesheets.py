# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which pages tell what is found about the finished piece, in their order."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.findings.budgetsheet import budget_sheets
from freecad_stacklam.benchsheets.findings.deepsheet import deep_sheets
from freecad_stacklam.benchsheets.findings.finishsheet import finish_sheets
from freecad_stacklam.benchsheets.findings.ownersheet import owner_sheets
from freecad_stacklam.benchsheets.findings.seasonsheet import season_sheets
from freecad_stacklam.benchsheets.findings.standsheet import standing_sheets
from freecad_stacklam.benchsheets.findings.strengthsheet import strength_sheets
from freecad_stacklam.benchsheets.findings.weightsheet import weight_sheets
from freecad_stacklam.lamination.findings.whole import PieceFindings

#: Kind of sheet, what is found (None: nothing), and who draws it from the book and that.
Pages = tuple[str, Any, Callable[..., Iterable[Sheet]]]


def piece_pages(found: PieceFindings | None) -> tuple[Pages, ...]:
    """How it stands, its strength, what it weighs, its allowance, its finish, its year, and its owner's page."""
    found = PieceFindings() if found is None else found
    return (
        ("standing", found.standing, standing_sheets),
        ("strength", found.strength, strength_sheets),
        ("deep check", found.deep, deep_sheets),
        ("weight", found.weight, weight_sheets),
        ("budget", found.budgets or None, budget_sheets),
        ("finish", found.finish, finish_sheets),
        ("seasons", found.seasons, season_sheets),
        ("owner", found.seasons, owner_sheets),
    )
