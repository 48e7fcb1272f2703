# SPDX-License-Identifier: LGPL-2.1-or-later

"""All sheets of a plan in working order."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from freecad_stacklam.benchsheets.boards.boardsheets import board_sheets
from freecad_stacklam.benchsheets.boards.stavemaps import stave_sheets
from freecad_stacklam.benchsheets.book.contents import contents_sheets, contents_size, entries_of
from freecad_stacklam.benchsheets.carving.carvingsheet import carving_sheets
from freecad_stacklam.benchsheets.carving.depthsheets import depth_sheets
from freecad_stacklam.benchsheets.carving.offsetsheets import offset_sheets
from freecad_stacklam.benchsheets.carving.sectionsheets import section_sheets
from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits, in_inches, units_of
from freecad_stacklam.benchsheets.drawing.paper import Paper, paper_named
from freecad_stacklam.benchsheets.drawing.revision import plan_revision
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, number_sheets
from freecad_stacklam.benchsheets.joints.jointsheet import joint_sheets
from freecad_stacklam.benchsheets.layers.fullsize import layer_templates
from freecad_stacklam.benchsheets.layers.layerdrawing import draw_layers
from freecad_stacklam.benchsheets.layers.layersheets import layer_sheets
from freecad_stacklam.benchsheets.layers.overview import overview_sheet
from freecad_stacklam.benchsheets.lists.bill import bill_sheets
from freecad_stacklam.benchsheets.lists.cautions import caution_sheets
from freecad_stacklam.lamination.plan.whole import Plan


def _desk_paper(paper: Paper, units: AnyUnits) -> Paper:
    """Paper for the pages that are read, not laid on the wood: a roll is no paper for a list."""
    return paper_named("Letter" if in_inches(units) else "A4") if paper.roll else paper


#: Kinds of sheets that a book may be made without, in their order → what the maker calls them.
KINDS = {
    "overview": "Overviews", "bill": "Bill of wood", "boards": "Boards and staves", "layer": "Layer sheets",
    "template": "Full-size templates", "joint": "Joints", "depth holes": "Depth holes", "carving": "Carving guide",
    "offsets": "Tables of offsets", "section": "Section templates",
}  # fmt: skip


def drawing_book(
    plan: Plan,
    paper: Paper,
    units: AnyUnits = "mm",
    full: Paper | None = None,
    cautions: Sequence[str] = (),
    without: Collection[str] = (),
) -> tuple[Sheet, ...]:
    """The whole book in working order: contents, an overview of each stack, the bill, the layers of each stack from the
    bottom (sheets with all sizes, then full-size templates), the joints, what carving is guided by, the cautions.

    Templates are tiled over `full` where it is given (a roll, say), else over `paper`. `cautions` are sentences for
    the last pages, printed after what the plan's own checks found. `without` are KINDS that are left out.
    """
    units = units_of(units)
    carving = plan.carving
    mark = plan_revision(plan)
    desk = _desk_paper(paper, units)
    large = full or paper
    sheets = [overview_sheet(plan, stack, desk, units, mark) for stack in plan.stacks]
    sheets += bill_sheets(plan, desk, units, mark)
    sheets += board_sheets(plan, desk, units, mark)
    for stack in plan.stacks:
        sheets += stave_sheets(plan, stack, desk, units, mark)
        drawings = draw_layers(plan, stack)
        for drawing in drawings:
            sheets += layer_sheets(plan, stack, drawing, desk, units, mark)
        for drawing in drawings:
            sheets += layer_templates(plan, stack, drawing, large, units, mark)
    sheets += joint_sheets(plan, desk, units, mark)
    if carving is not None:
        for stack in plan.stacks:
            sheets += depth_sheets(plan, stack, carving, desk, large, units, mark)
            sheets += carving_sheets(plan, stack, carving, desk, units, mark)
            sheets += offset_sheets(plan, stack, carving, desk, units, mark)
            sheets += section_sheets(plan, stack, carving, large, units, mark)
    sheets = [sheet for sheet in sheets if sheet.kind not in without]
    sheets += caution_sheets(plan, cautions, desk, mark)
    count = len(entries_of(sheets, 1))
    entries = entries_of(sheets, contents_size(count, desk) + 1)
    return number_sheets([*contents_sheets(plan, entries, desk, mark), *sheets])
