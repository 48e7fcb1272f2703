# SPDX-License-Identifier: LGPL-2.1-or-later

"""A drawing book in another language has nothing left of ours: every text of every page was said, but for names that
the maker gave, figures, units, and letters of places."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from glued import glued_stand
from plans import worked_stand
from pseudo import Pseudo

from freecad_stacklam.benchsheets.book.whole import drawing_book
from freecad_stacklam.benchsheets.drawing.lettering import number, units_of
from freecad_stacklam.benchsheets.drawing.paper import paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, Text
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import speaking

#: What the maker of these plans gave: title, author, stacks, joint, presses; and sentences that the plans made by hand
#: for the tests bring along, as the computation would.
GIVEN = (
    "Plant stand",
    "Workshop",
    "Pedestal to top",
    "Pedestal",
    "Top",
    "bar clamp 1200",
    "bar clamp 600",
    "All wood",
    "hand-made",
)
UNITS = ("mm", "in", "kg", "lb", "min", "kN", "MPa", "cm²", "in²", "in³", "psi", "oz")


def _left_of(sheet: Sheet, given: tuple[str, ...]) -> set[tuple[str, ...]]:
    """The words of a page that nobody said, text by text. A sentence goes on over the lines after it."""
    left = set()
    depth = 0
    for mark in sheet.marks:
        if not isinstance(mark, Text):
            continue
        outside = ""
        for sign in mark.text:
            depth += {"⟦": 1, "⟧": -1}.get(sign, 0)
            outside += sign if depth <= 0 and sign not in "⟦⟧" else " "
        if mark.text.endswith("…"):  # cut off, and its end with it
            depth = 0
        for name in given:
            outside = outside.replace(name, " ")
        words = [word for word in re.findall(r"[^\W\d_]+", outside) if word not in UNITS and len(word) > 1]
        if words:
            left.add(tuple(words))
    return left


def _said_by_hand(plan: Plan) -> tuple[str, ...]:
    """Sentences in the glue-up that was made by hand."""
    glue_up = plan.glue_up
    if glue_up is None:
        return ()
    sentences = [one.says for one in (*glue_up.conditions, *glue_up.left_out)] + list(glue_up.notes)
    for set_up in glue_up.set_ups:
        sentences += [*set_up.before, set_up.why, *set_up.helps, *set_up.cautions, *(x.says for x in set_up.limits)]
    return tuple(sorted(filter(None, sentences), key=len, reverse=True))


@pytest.mark.parametrize("units", ["mm", "in/16+mm"])
def test_every_text_of_a_book_is_said(units: str) -> None:
    stand = replace(worked_stand(), title="Plant stand")
    with speaking("de", Pseudo()):
        sheets = drawing_book(stand, paper_named("A4"), units)
    assert {sheet.kind for sheet in sheets} >= {"contents", "overview", "bill", "boards", "template", "layer", "joint"}
    assert {words for sheet in sheets for words in _left_of(sheet, GIVEN)} == set()


def test_every_text_of_a_glue_up_is_said() -> None:
    plan = glued_stand()
    others = ("bill", "boards", "template", "layer", "joint", "overview")
    with speaking("de", Pseudo()):
        sheets = [s for s in drawing_book(plan, paper_named("A4"), without=others) if s.kind == "glue-up"]
    assert sheets
    by_hand = {word for sentence in _said_by_hand(plan) for word in re.findall(r"[^\W\d_]+", sentence)}
    left = {words for sheet in sheets for words in _left_of(sheet, GIVEN)}
    assert {words for words in left if not set(words) <= by_hand} == set()


def test_figures_have_the_decimal_sign_of_the_language_that_is_spoken_now() -> None:
    millimetres = units_of("mm")
    assert number(44.5, millimetres) == "44.5"
    with speaking("de"):
        assert number(44.5, millimetres) == "44,5"
    assert number(44.5, millimetres) == "44.5"
