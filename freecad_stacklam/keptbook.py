# SPDX-License-Identifier: LGPL-2.1-or-later

"""The drawing book, kept until the plan or what is asked of the book changes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.docobjects.base.memory import Memory
from freecad_stacklam.docobjects.forms.plancache import Same
from freecad_stacklam.lamination.job.cautions import cautions_for
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.settings.job import Settings

#: Books that were made, by what they were made of.
_made: Memory[tuple[Sheet, ...]] = Memory(2)


def book_for(plan: Plan, settings: Settings, units: Units, without: Sequence[str], day: str) -> tuple[Sheet, ...]:
    """The drawing book of a plan under the title, author and papers of `settings`, written in `units`; see
    drawing_book. Raises Refusal."""
    full = paper_named(settings.paper_full) if settings.paper_full else None
    paper = paper_named(settings.paper)
    titled = replace(plan, title=settings.title, author=settings.author)
    key = (Same(plan), settings.title, settings.author, paper, full, units, tuple(without), day)
    return _made.get(key, lambda: drawing_book(titled, paper, units, full, cautions_for(titled), without, day))
