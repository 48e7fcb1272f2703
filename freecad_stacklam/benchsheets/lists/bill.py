# SPDX-License-Identifier: LGPL-2.1-or-later

"""The bill of wood."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, in_inches, number, unit_name
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Sheet, Text
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow, notes
from freecad_stacklam.benchsheets.pages.listpage import HEAD, TableRow, list_page, rows_per_page, table
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH, POUND, VOLUMES
from freecad_stacklam.lamination.plan.bill import BillRow, sums_up
from freecad_stacklam.lamination.words import figure, say

LITRE = VOLUMES["l"]
#: More kinds than this are not named one by one where their figures are found alike.
NAMED = 4
#: Items that are no wood and stand in the quote alone.
QUOTED = ("finish", "abrasive", "work", "quote")
#: Columns of the bill: whether each holds words, and its share of the width.
_LEFT = (True, True, False, True, *[False] * 6)
_SHARES = (46.0, 27.0, 8.0, 15.0, 17.0, 19.0, 19.0, 16.0, 14.0, 13.0)


def named(row: BillRow) -> str:
    """What a row is, and its name: “tenon Pedestal to top”."""
    return say("{item} {name}", item=shown(row.item), name=row.name)


def _figures(row: BillRow, units: Units) -> TableRow:
    def length(value: float | None) -> str:
        return "" if value is None else number(value, units)

    inches = in_inches(units)
    volume = (
        "" if row.volume is None else figure(f"{row.volume / (INCH**3 if inches else LITRE):.{1 if inches else 2}f}")
    )
    mass = "" if row.mass is None else figure(f"{row.mass / (POUND if inches else 1.0):.2f}")
    return TableRow(
        (
            named(row) if row.item not in ("blank", "total") else row.name, shown(row.species), str(row.count),
            row.rough, length(row.thickness), length(row.length), length(row.width), volume,
            "" if row.board_feet is None else figure(f"{row.board_feet:.2f}"), mass,
        ),
        bold=row.item == "total",
    )  # fmt: skip


def _costs(rows: Sequence[BillRow]) -> Block:
    """The boards with what each costs and for what, and the totals."""
    lines = []
    for row in rows:
        board = row.item.startswith("board")
        if row.item in QUOTED or (not board and row.cost is None):
            continue
        each = figure(f"{row.cost:.2f}") if board and row.cost is not None else ""
        cost = say("not known") if row.cost is None else figure(f"{row.count * row.cost:.2f}")
        name = f"{row.name}: {shown(row.item)}" if board else say("{name}, together", name=row.name)
        lines.append((name, str(row.count) if board else "", row.per, each, cost))
    return Block(
        say("What the boards cost"),
        (say("board"), say("no."), say("price"), say("each"), say("cost")),
        (62.0, 10.0, 58.0, 22.0, 26.0),
        (True, False, True, False, False),
        tuple(lines),
    )


def _quote(rows: Sequence[BillRow]) -> Block:
    """Finish, abrasives, work and the sums."""
    lines = []
    for row in rows:
        if row.item in QUOTED:
            name = row.name if row.item == "quote" else f"{shown(row.item)}: {row.name}"
            count = str(row.count) if row.item == "abrasive" else ""
            cost = say("not known") if row.cost is None else figure(f"{row.count * row.cost:.2f}")
            told = row.how if row.item in ("work", "quote") and not sums_up(row) else ""
            lines.append((name, count, ": ".join(filter(None, (told, row.per))), cost))
    return Block(
        say("Quote"),
        (say("what"), say("no."), say("amount and price"), say("cost")),
        (58.0, 10.0, 84.0, 26.0),
        (True, False, True, False),
        tuple(lines),
    )


def _ways(rows: Sequence[BillRow], width: float) -> Block:
    """How the figures are found, once for each kind of row."""
    kinds: dict[str, list[str]] = {}
    for row in rows:
        if row.how and (row.item not in ("work", "quote") or sums_up(row)):  # the rest is told in the quote
            kind = say("the quote") if row.item == "quote" else row.name if row.item == "total" else shown(row.item)
            those = kinds.setdefault(row.how, [])
            if kind not in those:
                those.append(kind)
    said = [f"{', '.join(named[:NAMED])}{' …' if len(named) > NAMED else ''}: {how}." for how, named in kinds.items()]
    return notes(say("How the figures are found"), said, width)


def bill_sheets(book: Book) -> list[Sheet]:
    """The bill of wood, a row per blank, tenon and total; then what the boards cost and how the figures are found."""
    paper, units = book.desk.portrait(), book.units
    inches = in_inches(units)
    unit, volume = unit_name(units), "in³" if inches else say("litres")
    heads = (
        say("piece"),
        say("species"),
        say("no."),
        say("rough"),
        say("thick {unit}", unit=unit),
        say("long {unit}", unit=unit),
        say("wide {unit}", unit=unit),
        volume,
        say("bd ft"),
        "lb" if inches else "kg",
    )
    bill = book.plan.bill
    rows = [_figures(row, units) for row in bill if row.item not in QUOTED]
    size = rows_per_page(paper) - 1
    sheets = []
    for first in range(0, len(rows), size):
        part = rows[first : first + size]
        marks = table(paper, heads, _SHARES, _LEFT, part)
        space = drawing_space(paper)
        note = say(
            "Long is along the grain. Blanks are net sizes: add what your saw, jointer and planer take. Rough is the "
            "size to buy."
        )
        marks.append(Text((space.x + 2.0, space.y + 2.5), note, PLAIN, fit=space.width - 4.0))
        sheets.append(list_page(book, "bill", say("Bill of wood"), marks, say("Bill")))
    blocks = [_costs(bill)] if any(row.item.startswith("board") for row in bill) else []
    if any(row.item in QUOTED for row in bill):
        blocks.append(_quote(bill))
    if not any(row.how for row in bill):
        return sheets
    space = drawing_space(paper)
    width = min(space.width - 4.0, 180.0)
    left = [*blocks, _ways(bill, width)]
    top = space.y + space.height - HEAD
    while left:
        found, left = flow(left, [Column(space.x + 2.0, top, width, top - space.y - 2.0)])
        sheets.append(list_page(book, "bill", say("Bill of wood: costs and figures"), found, say("Bill")))
    return sheets
