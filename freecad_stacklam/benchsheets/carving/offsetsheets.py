# SPDX-License-Identifier: LGPL-2.1-or-later

"""Tables of offsets: how far it is to the finished surface and to the edge of the blank at every glue line."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, length_text, number, unit_name
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.tablepages import table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of
from freecad_stacklam.lamination.plan.carving import CarvingPlan, Offset
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.tolerances import FORM_STEP


def _plane_words(row: Offset, units: Units) -> str:
    if row.below is None:
        where = f"bottom of layer {row.above}"
    elif row.above is None:
        where = f"top of layer {row.below}"
    else:
        where = f"glue line {row.below}/{row.above}"
    return f"{where}, at {length_text(row.height, units)}"


def _radius(row: Offset, units: Units) -> str:
    both = [r for r in (row.radius_below, row.radius_above) if r is not None]
    if len(both) == 2 and abs(both[0] - both[1]) > FORM_STEP:
        return f"{number(both[0], units)}/{number(both[1], units)}"
    return number(row.radius, units)


def _block(rows: Sequence[Offset], units: Units, several: bool) -> Block:
    def shown(value: float | None) -> str:
        return "" if value is None else number(value, units)

    first = rows[0]
    title = _plane_words(first, units)
    if several or first.about != "axis":
        about = "" if first.about == "axis" else f" about x {number(first.centre[0], units)}, y "
        title += f", piece {first.piece}" + (about + number(first.centre[1], units) if about else "")
    lines: list[tuple[str, ...]] = []
    for row in rows:
        if row.kind == "azimuth":
            at = f"{row.at:g}°"
        else:
            side = (row.direction - rows[0].direction) % 360.0
            at = f"{number(row.at, units)} {'left' if side < 90.0 else 'right'}"
        lines.append(
            (at, _radius(row, units), shown(row.edge_below), shown(row.cut_below), shown(row.edge_above),
             shown(row.cut_above))
        )  # fmt: skip
        if row.inner:
            lines.append(("", "further in: " + ", ".join(number(v, units) for v in row.inner), "", "", "", ""))
        if row.note:
            lines.append(("", row.note, "", "", "", ""))
    return Block(
        title,
        ("at", "finished", "edge under", "cut", "edge over", "cut"),
        (13.0, 17.0, 17.0, 12.0, 17.0, 12.0) if first.kind == "azimuth" else (20.0, 16.0, 16.0, 11.0, 16.0, 11.0),
        (True, False, False, False, False, False),
        tuple(lines),
    )


def _notes(kinds: set[str], units: Units, width: float) -> Block:
    words = []
    if "azimuth" in kinds:
        words.append(
            "Azimuths count from RIGHT (the stack's x) to the left, seen from above: 90° is the back, 180° the left, "
            "270° FRONT. Rays run from the axis, or from the piece's own middle where that is given."
        )
    if "station" in kinds:
        words.append("Stations lie along the centre line through the axis; half-breadths are square to it.")
    words.append(
        "Finished: from the centre to the finished surface. Edge: to the blank's edge under the glue line (of the "
        "lower layer) and over it. Cut: what is carved off that edge, along the ray."
    )
    words.append("Two figures with a stroke: the form has a step on the glue line; lower face first.")
    return notes(f"How to read the table, {unit_name(units)}", words, width)


def offset_sheets(book: Book, stack: StackPlan, carving: CarvingPlan) -> list[Sheet]:
    """The table of offsets of one stack, a block for each plane (and island). Not yet numbered."""
    rows = [row for row in carving.offsets if row.stack == stack.name]
    if not rows:
        return []
    several = any(row.piece > 1 for row in rows)
    groups = [list(g) for _, g in groupby(rows, key=lambda r: (r.kind, r.height, r.below, r.above, r.piece))]
    width = 180.0 if book.units.both else 90.0
    kinds = {row.kind for row in rows}
    blocks = [_notes(kinds, book.units, width - 6.0), *(_block(group, book.units, several) for group in groups)]
    title = f"{stack.name}, table of offsets"
    block = block_of(book, "Table of offsets", f"{stack.name}-offsets", title, note=book.sizes_note)
    return table_pages("offsets", title, book.desk, block, blocks, width, stack.name)
