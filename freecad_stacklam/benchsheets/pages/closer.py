# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tables and notes in smaller lettering where that saves a page."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.sheet import Mark, Sheet
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.listpage import HEAD, list_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space

#: Lettering as a part of the usual: its capitals are 2.1 mm high at the least, as on the layer sheets.
SIZES = (1.0, 0.92, 0.84)
#: Blocks for lettering of the usual size in a column so wide, mm.
Made = Callable[[float], list[Block]]


def closest(made: Made, column: Column) -> tuple[list[Mark], list[Block]]:
    """Blocks in the largest lettering in which all of them stand in the column, or in the usual one, and what of them
    is left."""
    for size in SIZES:
        if not flow(made(column.width / size), [column], draw=False, size=size)[1]:
            return flow(made(column.width / size), [column], size=size)
    return flow(made(column.width), [column])


def space_of(book: Book) -> Column:
    """What a page of words has below its heading."""
    space = drawing_space(book.desk.portrait())
    top = space.y + space.height - HEAD + 2.0
    return Column(space.x + 2.0, top, space.width - 4.0, top - space.y - 1.0)


def closest_pages(
    book: Book, kind: str, title: str, made: Made, picture: Sequence[Mark] = (), below: float | None = None
) -> list[Sheet]:
    """Blocks on as many pages as they take, the first under a picture that leaves the page free `below` so high. Not
    yet numbered."""
    page = space_of(book)
    top = page.top if below is None else below
    drawn, left = closest(made, Column(page.x, top, page.width, page.height - (page.top - top)))
    sheets = [list_page(book, kind, title, [*picture, *drawn], title)]
    while left:
        drawn, left = flow(left, [page])
        sheets.append(list_page(book, kind, next_page(title), list(drawn), title))
    return sheets
