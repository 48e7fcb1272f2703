# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pages that hold nothing but tables and notes, in columns, with a title block."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, Mark, Sheet, Text
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.benchsheets.pages.titleblock import TitleBlock, title_block

#: Room for the page's heading, mm.
HEADING = 13.0


def table_pages(
    kind: str, title: str, paper: Paper, block: TitleBlock, blocks: Sequence[Block], width: float, stack: str = "",
    layer: int | None = None,
) -> list[Sheet]:  # fmt: skip
    """As many pages as the blocks take, in columns at least `width` mm wide. Not yet numbered."""
    page = paper.portrait()
    f = drawing_space(page)
    across = max(1, int((f.width - 1.0) // width))
    wide = (f.width - 1.0) / across
    top = f.y + f.height - HEADING
    columns = [Column(f.x + 1.0 + i * wide, top, wide - 3.0, top - f.y - 2.0) for i in range(across)]
    sheets: list[Sheet] = []
    left = list(blocks)
    while left or not sheets:
        name = title if not sheets else next_page(title)
        head = Text((f.x + 1.0, f.y + f.height - LARGE), name, LARGE, bold=True, fit=f.width - 2.0)
        tables, left = flow(left, columns)
        marks: tuple[Mark, ...] = (head, *tables, *title_block(page, block))
        size = (page.width, page.height)
        sheets.append(Sheet(kind, name, size, marks, stack=stack, layer=layer, paper_name=page.name))
    return sheets
