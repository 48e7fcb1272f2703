# SPDX-License-Identifier: LGPL-2.1-or-later

"""Which tables a layer sheet has: those that lay its cut line out, so close that all is on one page."""

from __future__ import annotations

from dataclasses import replace

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import most_text
from freecad_stacklam.benchsheets.layers.compass import Edge
from freecad_stacklam.benchsheets.layers.layerdrawing import LayerDrawing
from freecad_stacklam.benchsheets.layers.layerlayout import Layout, layout_of
from freecad_stacklam.benchsheets.layers.layertables import layer_blocks
from freecad_stacklam.benchsheets.layers.stations import (
    arc_block,
    arcs_of,
    compass_line,
    extremes,
    offset_blocks,
    step_of,
)
from freecad_stacklam.benchsheets.pages.blocks import Block
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.words import say


def tables_of(
    book: Book, stack: StackPlan, drawing: LayerDrawing, size: tuple[float, float], width: float
) -> tuple[list[Block], list[Edge], Layout]:
    """The tables of a sheet, the arcs that are listed in them, and the page's layout.

    Stations stand so close that all is on one page: at the maker's step, or at twice or four times that. Where even
    that is too much they are left to the template; only what the tables of cuts cannot leave out goes on over the page.
    """
    units, arcs = book.units, arcs_of(drawing.layer.blank)
    within = book.plan.compass_within
    compass = compass_line(drawing.layer.blank, within)
    if compass is not None:
        listed = arcs_of(compass)
        said = (
            say("Laid out by compass from the table. Sizes from the axis, as on the sheet.")
            if listed == arcs
            else say(
                "Laid out by compass from the table; its lines are up to {further} further out than the template's. "
                "Sizes from the axis, as on the sheet.",
                further=most_text(within, units),
            )
        )
        blocks = [*layer_blocks(book, stack, drawing, arcs, said), arc_block(compass, drawing.blank, units)]
        return blocks, listed, layout_of(book.desk, blocks, size, width)
    step = step_of(book.plan.station_step, units)
    said = say(
        "Without a template: mark the points of the table, x to the right and y to the back of the axis, and bend a "
        "batten round them. {furthest}",
        furthest=extremes(drawing.blank, replace(units, both=False)),
    )
    first: tuple[list[Block], Layout] | None = None
    for times in (1, 2, 4):
        blocks = [*layer_blocks(book, stack, drawing, arcs, said), *offset_blocks(drawing.blank, times * step, units)]
        layout = layout_of(book.desk, blocks, size, width)
        first = first or (blocks, layout)
        if not layout.over:
            return blocks, [], layout
    blocks = layer_blocks(book, stack, drawing, arcs, say("Lay it out with the full-size template."))
    layout = layout_of(book.desk, blocks, size, width)
    return (blocks, [], layout) if not layout.over else (first[0], [], first[1]) if first else (blocks, [], layout)
