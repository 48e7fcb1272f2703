# SPDX-License-Identifier: LGPL-2.1-or-later

"""All that is found about the finished piece, as one record."""

from __future__ import annotations

from dataclasses import dataclass

from freecad_stacklam.lamination.findings.budget import AllowanceBudget
from freecad_stacklam.lamination.findings.deep import DeepFindings
from freecad_stacklam.lamination.findings.finishing import FinishFindings, Quote
from freecad_stacklam.lamination.findings.seasons import SeasonFindings
from freecad_stacklam.lamination.findings.standing import StandingFindings
from freecad_stacklam.lamination.findings.strength import StrengthFindings
from freecad_stacklam.lamination.findings.weight import WeightFindings


@dataclass(frozen=True)
class PieceFindings:
    """What was asked for of the finished piece, each None where it was not, could not be found, or is pending.

    `pending`: what takes long, and is looked for only when it is asked for. `left_out`: what could not be found, and
    the sentence that says why and what to do. `quote` counts the whole bill, so it is made with that.
    """

    weight: WeightFindings | None = None
    standing: StandingFindings | None = None
    strength: StrengthFindings | None = None
    deep: DeepFindings | None = None
    seasons: SeasonFindings | None = None
    finish: FinishFindings | None = None
    quote: Quote | None = None
    budgets: tuple[AllowanceBudget, ...] = ()
    pending: tuple[str, ...] = ()
    left_out: tuple[tuple[str, str], ...] = ()

    @property
    def mass(self) -> float | None:
        """Of the whole piece, kg; None where it is not known."""
        return None if self.weight is None or self.weight.whole is None else self.weight.whole.mass
