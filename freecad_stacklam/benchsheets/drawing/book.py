# SPDX-License-Identifier: LGPL-2.1-or-later

"""What all pages of a plan's drawing book have in common."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property

from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits, Units, unit_words, units_of
from freecad_stacklam.benchsheets.drawing.paper import Paper, paper_named
from freecad_stacklam.benchsheets.drawing.revision import plan_revision
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import say


@dataclass(frozen=True, eq=False)
class Book:
    """A plan and how its pages are made: what a sheet needs to know besides the thing it shows.

    `desk` is the paper of the pages that are read, `full` that of the full-size templates, which are laid on the wood.
    """

    plan: Plan
    desk: Paper
    full: Paper
    units: Units

    @cached_property
    def revision(self) -> str:
        """The plan's revision, printed on every page."""
        return plan_revision(self.plan)

    @property
    def sizes_note(self) -> str:
        """The title block's note on what unit the sizes are in."""
        return say("sizes in {unit}", unit=unit_words(self.units))


def book_of(plan: Plan, paper: Paper, units: AnyUnits = "mm", full: Paper | None = None, day: str = "") -> Book:
    """The book of a plan on `paper`, its templates on `full` where that is given (a roll, say).

    A roll is no paper for a list: pages that are read go on A4, or on Letter where inches come first. `day` is the
    date on the pages where the plan has none of its own. Raises Refusal for units that are not known.
    """
    written = units_of(units)
    desk = paper_named("Letter" if written.first == "in" else "A4") if paper.roll else paper
    plan = plan if plan.date else replace(plan, date=day)
    return Book(plan, desk, full or paper, written)
