# SPDX-License-Identifier: LGPL-2.1-or-later

"""What a book's pages share: papers, units and the plan's revision."""

from __future__ import annotations

import pytest
from plans import plant_stand

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import Units
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.revision import plan_revision
from freecad_stacklam.lamination.refusal import Refusal


def test_one_paper_serves_for_all_pages() -> None:
    book = book_of(plant_stand(), paper_named("A3"), "in/16+mm")
    assert book.desk == book.full == paper_named("A3")
    assert book.units == Units("in", 16, both=True)
    assert book.sizes_note == "sizes in in [mm]"
    assert book.revision == plan_revision(plant_stand())


@pytest.mark.parametrize(("units", "name"), [("mm", "A4"), ("in", "Letter"), ("mm+in", "A4")])
def test_what_is_read_does_not_go_on_a_roll(units: str, name: str) -> None:
    book = book_of(plant_stand(), paper_named("roll 610mm"), units)
    assert (book.desk.name, book.full.name) == (name, "roll 610 mm")


def test_templates_on_a_paper_of_their_own() -> None:
    book = book_of(plant_stand(), paper_named("A4"), full=paper_named("roll 24in"))
    assert (book.desk.name, book.full.roll) == ("A4", True)


def test_units_that_are_not_known_are_refused() -> None:
    with pytest.raises(Refusal, match="cubit"):
        book_of(plant_stand(), paper_named("A4"), "cubit")
