# SPDX-License-Identifier: LGPL-2.1-or-later

"""Full-size templates of every layer, tiled over the paper."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    fine_text,
    length_text,
    range_text,
    size_text,
    thickness_text,
)
from freecad_stacklam.benchsheets.drawing.lines import turned
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.layers.layerdrawing import LayerDrawing, cuts_line, layer_labels, shown_cuts
from freecad_stacklam.benchsheets.pages.strip import Fields, joined, sheet_line, title_strip
from freecad_stacklam.benchsheets.pages.tilepages import spaces_for, tile_pages
from freecad_stacklam.benchsheets.pages.tiling import tile
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.names import any_of
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.words import mark, say


def _legend(stack: StackPlan, drawing: LayerDrawing, units: Units) -> tuple[tuple[str, str], ...]:
    layer = drawing.layer
    rows = [("cut", say("cut here: the blank"))]
    if not layer.finished_top.is_empty:
        rows.append(("finished", say("finished, top, at {top}", top=length_text(layer.top, units))))
    elif not layer.shadow.is_empty:
        rows.append(("finished", say("finished, widest in this layer")))
    if not layer.finished_bottom.is_empty:
        rows.append(("hidden", say("finished, bottom, at {bottom}", bottom=length_text(layer.bottom, units))))
    if drawing.above is not None:
        rows.append(("next", say("layer {above} is glued here", above=drawing.above.number)))
    ways = [way.kind if way.kind == "bored hole" else "kerf" for way in drawing.ways]
    kinds = any_of([shown(kind) for kind in dict.fromkeys([*(cut.kind for cut in shown_cuts(layer)), *ways])])
    pens = {pen for pen, _ in drawing.lines}
    if "mortise" in pens:
        rows.append(("mortise", say("{kinds}, from above", kinds=kinds)))
    if "mortise hidden" in pens:
        rows.append(("mortise hidden", say("{kinds}, hidden", kinds=kinds)))
    if "seam" in pens:
        rows.append(("seam", say("seam between staves")))
    if "tab" in pens:
        rows.append(("tab", say("tab: saw off after gluing")))
    least = stack.containment.least_wood
    if drawing.thin and least is not None:
        asked = fine_text(least.asked, units, "up")
        sides = {
            "little wood": mark("under {least} wood here"),
            "little wood below": mark("under {least} wood here, lower face"),
        }
        rows += [(pen, say(words, least=asked)) for pen, words in sides.items() if pen in pens]
    rows.append(("trim", say("trim, join on the crosses")))
    return tuple(rows)


def _fields(book: Book, stack: StackPlan, drawing: LayerDrawing, turn: float) -> Fields:
    plan, units, layer = book.plan, book.units, drawing.layer
    along, across = drawing.extents(layer.grain)
    copies = say("make {copies}", copies=stack.copies) if stack.copies > 1 else ""
    lines = (
        joined(plan.title, stack.name),
        say(
            "Height {bottom}, stock {thickness}",
            bottom=range_text(layer.bottom, layer.top, units),
            thickness=thickness_text(layer.thickness, units),
        ),
        joined(shown(layer.species), say("blank {size}, grain first", size=size_text(along, across, units)), copies),
        cuts_line(layer, units),
        joined(sheet_line(say("Full-size template")), plan.date),
        joined(
            say("part {stack}-{layer}", stack=stack.name, layer=layer.number),
            say("plan {revision}", revision=book.revision),
            plan.author,
        ),
    )
    return Fields(
        lines,
        number=str(layer.number),
        above_number=say("LAYER of {layers}", layers=len(stack.layers)),
        below_number=say("THIS FACE UP"),
        legend=_legend(stack, drawing, units),
        front=-90.0 - turn,
        grain=layer.grain - turn,
    )


def layer_templates(book: Book, stack: StackPlan, drawing: LayerDrawing) -> list[Sheet]:
    """The pages of one layer, row by row."""
    tiling = tile(drawing.needed, spaces_for(book.full), drawing.whole)
    turn = tiling.turn
    places = layer_labels(drawing, stack, tiling, book.units)
    strip = title_strip(tiling.paper, _fields(book, stack, drawing, turn))
    lying = [(pen, turned(lines, turn)) for pen, lines in drawing.lines]
    title = say("{stack}, layer {layer}", stack=stack.name, layer=drawing.layer.number)
    return tile_pages("template", title, tiling, lying, places, strip, stack.name, drawing.layer.number)
