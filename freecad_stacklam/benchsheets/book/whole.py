# SPDX-License-Identifier: LGPL-2.1-or-later

"""All sheets of a plan in working order."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from typing import Any

from freecad_stacklam.benchsheets.boards.boardsheets import board_sheets
from freecad_stacklam.benchsheets.boards.stavemaps import stave_sheets
from freecad_stacklam.benchsheets.book.contents import DETAILS, contents_sheets, contents_size, entries_of
from freecad_stacklam.benchsheets.carving.carvingsheet import carving_sheets
from freecad_stacklam.benchsheets.carving.depthsheets import depth_sheets
from freecad_stacklam.benchsheets.carving.offsetsheets import offset_sheets
from freecad_stacklam.benchsheets.carving.sectionsheets import section_sheets
from freecad_stacklam.benchsheets.drawing.book import book_of
from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, number_sheets
from freecad_stacklam.benchsheets.findings.piecesheets import piece_pages
from freecad_stacklam.benchsheets.gluing.gluesheets import glue_up_sheets
from freecad_stacklam.benchsheets.joints.jointsheet import joint_sheets
from freecad_stacklam.benchsheets.layers.fullsize import layer_templates
from freecad_stacklam.benchsheets.layers.joined import joined_sheets
from freecad_stacklam.benchsheets.layers.layerdrawing import draw_layers
from freecad_stacklam.benchsheets.layers.layersheets import layer_sheets
from freecad_stacklam.benchsheets.layers.overview import overview_sheet
from freecad_stacklam.benchsheets.layers.underside import underside_templates
from freecad_stacklam.benchsheets.lists.bill import bill_sheets
from freecad_stacklam.benchsheets.lists.cautions import ByStep, caution_sheets
from freecad_stacklam.benchsheets.lists.checkreport import report_sheets
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.words import mark

#: Kinds of sheets that a book may be made without, in their order → what the maker calls them.
KINDS = {
    "overview": mark("Overviews"),
    "bill": mark("Bill of wood"),
    "boards": mark("Boards and staves"),
    "template": mark("Full-size templates"),
    "layer": mark("Layer sheets"),
    "joint": mark("Joints"),
    "glue-up": mark("Glue-up"),
    "depth holes": mark("Depth holes"),
    "carving": mark("Carving guide"),
    "offsets": mark("Tables of offsets"),
    "section": mark("Section templates"),
    "standing": mark("How it stands"),
    "strength": mark("Strength"),
    "deep check": mark("Deep check of strength"),
    "weight": mark("Weights"),
    "budget": mark("Budget of the allowance"),
    "finish": mark("Sanding and finish"),
    "seasons": mark("A year in the room"),
    "owner": mark("For its owner"),
}


def drawing_book(
    plan: Plan,
    paper: Paper,
    units: AnyUnits = "mm",
    full: Paper | None = None,
    cautions: ByStep = (),
    without: Collection[str] = (),
    day: str = "",
) -> tuple[Sheet, ...]:
    """The whole book in working order: contents, cautions, the stacks joined, an overview of each, the bill, the layers
    of each stack from the bottom (its full-size template, then the sheet with its sizes), the joints, the glue-up, what
    carving is guided by, what is found about the finished piece, the report of all checks.

    Templates are tiled over `full` where it is given (a roll, say), else over `paper`. `cautions` are the steps of the
    work with their sentences, printed after what the plan's own checks ask for. `without` are KINDS that are left out.
    `day`: the date on the pages where the job gives none, the day on which the plan was made, say.
    """
    book = book_of(plan, paper, units, full, day)
    carving = plan.carving
    sheets: list[Sheet] = []

    def add(kind: str, draw: Callable[..., Iterable[Sheet]], *things: Any) -> None:
        if kind not in without:
            sheets.extend(draw(book, *things))

    add("overview", joined_sheets)
    for stack in plan.stacks:
        add("overview", lambda book, stack: [overview_sheet(book, stack)], stack)
    add("bill", bill_sheets)
    add("boards", board_sheets)
    for stack in plan.stacks:
        add("boards", stave_sheets, stack)
        if not {"template", "layer"} <= set(without):
            for drawing in draw_layers(plan, stack):
                add("template", layer_templates, stack, drawing)
                add("template", underside_templates, stack, drawing)
                add("layer", layer_sheets, stack, drawing)
    add("joint", joint_sheets)
    add("glue-up", glue_up_sheets)
    if carving is not None:
        for stack in plan.stacks:
            add("depth holes", depth_sheets, stack, carving)
            add("carving", carving_sheets, stack, carving)
            add("offsets", offset_sheets, stack, carving)
            add("section", section_sheets, stack, carving)
    for kind, found, pages in piece_pages(plan.piece):
        if found is not None:
            add(kind, pages, found)
    sheets = [*caution_sheets(book, cautions), *sheets, *report_sheets(book)]
    # The contents stay on one page where that can be, for the cautions come next.
    detail = next((d for d in DETAILS if contents_size(len(entries_of(sheets, 1, d)), book.desk) == 1), DETAILS[-1])
    count = len(entries_of(sheets, 1, detail))
    entries = entries_of(sheets, contents_size(count, book.desk) + 1, detail)
    return number_sheets([*contents_sheets(book, entries), *sheets])
