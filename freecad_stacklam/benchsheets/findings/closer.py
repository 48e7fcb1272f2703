# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tables and notes in smaller lettering where that saves a page."""

from __future__ import annotations

from collections.abc import Callable

from freecad_stacklam.benchsheets.drawing.sheet import Mark
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow

#: Lettering as a part of the usual: its capitals are 2.1 mm high at the least, as on the layer sheets.
SIZES = (1.0, 0.92, 0.84)


def closest(made: Callable[[float], list[Block]], column: Column) -> tuple[list[Mark], list[Block]]:
    """Blocks in the largest lettering in which all of them stand in the column, or in the usual one, and what of them
    is left. made: the blocks for lettering of the usual size in a column so wide, mm."""
    for size in SIZES:
        if not flow(made(column.width / size), [column], draw=False, size=size)[1]:
            return flow(made(column.width / size), [column], size=size)
    return flow(made(column.width), [column])
