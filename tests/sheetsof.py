# SPDX-License-Identifier: LGPL-2.1-or-later

"""Sheets of one kind alone, numbered, for tests of that kind."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, number_sheets
from freecad_stacklam.benchsheets.layers.fullsize import layer_templates
from freecad_stacklam.benchsheets.layers.layerdrawing import draw_layers
from freecad_stacklam.benchsheets.layers.layersheets import layer_sheets
from freecad_stacklam.lamination.plan.whole import Plan


def template_sheets(plan: Plan, paper: Paper, units: AnyUnits = "mm") -> tuple[Sheet, ...]:
    """Every layer of every stack, from the bottom, full size on as many pages of `paper` as it takes."""
    book = book_of(plan, paper, units)
    return number_sheets(
        sheet
        for stack in plan.stacks
        for drawing in draw_layers(plan, stack)
        for sheet in layer_templates(book, stack, drawing)
    )


def all_layer_sheets(plan: Plan, paper: Paper, units: AnyUnits = "mm") -> tuple[Sheet, ...]:
    """The layer sheets of every stack, from the bottom."""
    book = book_of(plan, paper, units)
    return number_sheets(
        sheet
        for stack in plan.stacks
        for drawing in draw_layers(plan, stack)
        for sheet in layer_sheets(book, stack, drawing)
    )
