# SPDX-License-Identifier: LGPL-2.1-or-later

"""What the work takes of the allowance, step by step. Lengths mm."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class BudgetItem:
    """One step and by how much it may be out; `why` says what it is."""

    name: str
    amount: float
    why: str


@dataclass(frozen=True)
class AllowanceBudget:
    """All steps of one stack: `likely` their root-sum-square, as they seldom come together, `worst` their sum; `there`
    the least wood left of the plan, and `more` what it lacks for the likely sum."""

    stack: str
    items: tuple[BudgetItem, ...]
    likely: float
    worst: float
    there: float

    @property
    def more(self) -> float:
        """Allowance that is lacking for the likely sum, mm."""
        return max(self.likely - self.there, 0.0)
