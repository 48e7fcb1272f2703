# SPDX-License-Identifier: LGPL-2.1-or-later

"""All pages of the glue-up in the order of the work."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.gluing.gluelog import log_sheets
from freecad_stacklam.benchsheets.gluing.ordersheet import order_sheets
from freecad_stacklam.benchsheets.gluing.setupsheet import set_up_sheets


def glue_up_sheets(book: Book) -> list[Sheet]:
    """Order and conditions, every set-up, the log; none where no glue-up is planned. Not yet numbered."""
    glue_up = book.plan.glue_up
    if glue_up is None or not glue_up.set_ups:
        return []
    pages = [sheet for set_up in glue_up.set_ups for sheet in set_up_sheets(book, glue_up, set_up)]
    return [*order_sheets(book, glue_up), *pages, *log_sheets(book, glue_up)]
