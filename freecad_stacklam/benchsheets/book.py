# SPDX-License-Identifier: LGPL-2.1-or-later

"""All sheets of a plan in working order, and the index of them that plan.json carries."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from itertools import groupby
from typing import Any

from freecad_stacklam.benchsheets.boards.boardsheets import board_sheets
from freecad_stacklam.benchsheets.boards.stavemaps import stave_sheets
from freecad_stacklam.benchsheets.carving.carvingsheet import carving_sheets
from freecad_stacklam.benchsheets.carving.depthsheets import depth_sheets
from freecad_stacklam.benchsheets.carving.offsetsheets import offset_sheets
from freecad_stacklam.benchsheets.carving.sectionsheets import section_sheets
from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits, in_inches, units_of
from freecad_stacklam.benchsheets.drawing.paper import Paper, paper_named
from freecad_stacklam.benchsheets.drawing.sheet import Sheet, number_sheets
from freecad_stacklam.benchsheets.fingerprint import plan_mark
from freecad_stacklam.benchsheets.jointsheet import joint_sheets
from freecad_stacklam.benchsheets.layers.layerdrawing import draw_layers
from freecad_stacklam.benchsheets.layers.layersheets import layer_sheets
from freecad_stacklam.benchsheets.layers.templates import layer_templates
from freecad_stacklam.benchsheets.lists import bill_sheets, caution_sheets, contents_sheets, contents_size
from freecad_stacklam.benchsheets.overview import overview_sheet
from freecad_stacklam.lamination.plan.whole import Plan


def _desk_paper(paper: Paper, units: AnyUnits) -> Paper:
    """Paper for the pages that are read, not laid on the wood: a roll is no paper for a list."""
    return paper_named("Letter" if in_inches(units) else "A4") if paper.roll else paper


def _head(sheet: Sheet) -> str:
    """What a run of sheets is called in the contents, where each run has its own line."""
    if sheet.kind in ("overview", "bill", "layer", "template", "cautions"):
        return ""
    title = sheet.title.removesuffix(", continued")
    return title.removesuffix(f", {sheet.tile}") if sheet.tile else title


def _entries(sheets: Sequence[Sheet], first: int) -> list[tuple[str, str]]:
    """What is on which pages, for the contents; the first sheet has page number `first`."""
    entries = []
    page = first
    # One line for all layer sheets of a stack: they are leafed through; a line for each layer's templates.
    for (kind, stack, layer, _), group in groupby(
        sheets, key=lambda s: (s.kind, s.stack, s.layer if s.kind == "template" else None, _head(s))
    ):
        part = list(group)
        last = page + len(part) - 1
        what = {
            "bill": "Bill of wood",
            "cautions": "Cautions: read before the first cut",
            "overview": f"{stack}, overview",
            "layer": f"{stack}, layer sheets with all sizes",
            "template": f"{stack}, layer {layer}, template",
        }
        name = what.get(kind, _head(part[0]))
        entries.append((name, f"{page}" if len(part) == 1 else f"{page} to {last}"))
        page = last + 1
    return entries


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
    mark = plan_mark(plan)
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
    count = len(_entries(sheets, 1))
    entries = _entries(sheets, contents_size(count, desk) + 1)
    return number_sheets([*contents_sheets(plan, entries, desk, mark), *sheets])


def sheet_index(sheets: Iterable[Sheet]) -> list[dict[str, Any]]:
    """The `sheets` of plan.json: what is on each page and where the page lies on its layer.

    `origin` is the stack-frame point at the page's lower left corner and `turn` the degrees from the stack's x to the
    page's x; both None on pages that show no layer in plan.
    """
    return [
        {
            "page": sheet.page,
            "kind": sheet.kind,
            "stack": sheet.stack or None,
            "layer": sheet.layer,
            "tile": sheet.tile or None,
            "paper": [round(side, 4) for side in sheet.paper],
            "scale": sheet.scale,
            "origin": None if sheet.origin is None else [round(value, 6) for value in sheet.origin],
            "turn": None if sheet.origin is None else sheet.turn,
            "title": sheet.title,
        }
        for sheet in sheets
    ]
