# SPDX-License-Identifier: LGPL-2.1-or-later

"""The first pages of a book: what is on which page, and how the templates are used."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lines import sample
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, STRONG, Mark, Sheet, Text
from freecad_stacklam.benchsheets.pages.listpage import TableRow, list_page, rows_per_page, table
from freecad_stacklam.benchsheets.pages.strip import drawing_space

#: From line to line of the guide on the first page, mm.
STEP = 5.0
LINE_KINDS = (
    ("cut", "widest, continuous: cut here, the edge of the blank"),
    ("finished", "long dash, two dots: finished form at the upper face"),
    ("hidden", "short dashes: finished form at the lower face (hidden)"),
    ("next", "long dash, short dash: where the next layer is glued on"),
    ("mortise", "half as wide, continuous: mortise, pin or hollow, cut from this face"),
    ("mortise hidden", "long dashes: cut from the UNDERSIDE, nothing from this face"),
    ("seam", "dashes set far apart: seam between the staves of a layer"),
    ("tab", "long dash, three dots: where a waste tab is sawn off after gluing"),
    ("little wood", "hatched, rising: little wood under the upper face; carve it last"),
    ("little wood below", "hatched, falling: little wood over the lower face (hidden)"),
    ("centre", "narrow, long dash, dot: centre lines through the stack's axis"),
    ("trim", "dotted: trim here; the pages join on the crosses"),
)
STEPS = (
    "Print at 100 % / actual size, without “fit to page”.",
    "Measure the check scales at the foot and up the side of every page: 100 mm or 4 in, or the printer has scaled it.",
    "Trim one page of two neighbours on the dotted line; lay it over the other so that the crosses meet; tape.",
    "Check the joined template: the distance between far crosses, and its size against the strip.",
    "Fix it to the stock with the grain arrow along the grain and this face up; mark FRONT and RIGHT on the edges.",
    "Saw outside or on the wide line. Keep the number on the wood until the stack is glued.",
)


#: How finely the contents tell sheets apart: a line for each layer; one for all layers of a stack; one for each kind of
#: sheet, with all its pages.
DETAILS = ("layer", "stack", "kind")
_ONCE = {"bill": "Bill of wood", "cautions": "Cautions: read before the first cut", "boards": "Boards and staves",
         "joint": "Joints", "overview": "Overviews", "glue-up": "Glue-up: order, set-ups, log"}  # fmt: skip


def _line(sheet: Sheet, detail: str, kinds: set[str], under: set[tuple[str, int | None]]) -> str:
    """What the line of a sheet says in the contents. under: which layers have a template for their underside."""
    if sheet.kind in ("template", "layer"):
        one = {"template": "template", "layer": "sheet with sizes"}[sheet.kind]
        many = {"template": "full-size templates", "layer": "sheets with sizes"}[sheet.kind]
        if {"template", "layer"} <= kinds:
            one, many = "template, then sheet with sizes", "full-size templates and sheets with sizes"
        if (sheet.stack, sheet.layer) in under:
            one = one.replace("template", "template, underside")
        if detail == "layer":
            return f"{sheet.stack}, layer {sheet.layer}: {one}"
        return f"{sheet.stack}, {many}" if detail == "stack" else f"{many[0].upper()}{many[1:]}"
    if sheet.kind in ("bill", "cautions"):
        return _ONCE[sheet.kind]
    if sheet.kind == "glue-up" and detail != "layer":
        return _ONCE[sheet.kind]
    if detail == "kind" and sheet.kind != "contents":
        return _ONCE.get(sheet.kind, f"{sheet.kind[0].upper()}{sheet.kind[1:]}")
    title = sheet.title.removesuffix(", continued")
    return title.removesuffix(f", {sheet.tile}") if sheet.tile else title


def entries_of(sheets: Sequence[Sheet], first: int, detail: str = DETAILS[0]) -> list[tuple[str, str]]:
    """What is on which pages, for the contents; the first sheet has page number `first`. detail: one of DETAILS."""
    kinds = {sheet.kind for sheet in sheets}
    under = {(sheet.stack, sheet.layer) for sheet in sheets if sheet.mirrored}
    runs: dict[str, list[str]] = {}
    page = first
    for name, group in groupby(sheets, key=lambda sheet: _line(sheet, detail, kinds, under)):
        last = page + len(list(group)) - 1
        runs.setdefault(name, []).append(f"{page}" if last == page else f"{page} to {last}")
        page = last + 1
    return [(name, ", ".join(pages)) for name, pages in runs.items()]


def contents_size(entries: int, paper: Paper) -> int:
    """How many pages the contents take."""
    first = rows_per_page(paper.portrait()) - len(LINE_KINDS) - len(STEPS) - 3
    return 1 + max(0, -(-(entries - first) // rows_per_page(paper.portrait())))


def contents_sheets(book: Book, entries: Sequence[tuple[str, str]]) -> list[Sheet]:
    """What is on which page; on the first page also how the templates are used. `entries` are (what, pages)."""
    paper = book.desk.portrait()
    size = rows_per_page(paper)
    first = size - len(LINE_KINDS) - len(STEPS) - 3
    sheets = []
    rows = [TableRow(entry) for entry in entries]
    parts = [rows[:first], *(rows[i : i + size] for i in range(first, len(rows), size))]
    for i, part in enumerate(parts):
        marks = table(paper, ("what", "pages"), (80.0, 40.0), (True, True), part)
        if i == 0:
            marks += _guide(paper)
        sheets.append(list_page(book, "contents", book.plan.title or "Contents", marks, "Contents"))
    return sheets


def _guide(paper: Paper) -> list[Mark]:
    """The line kinds and the steps, at the foot of the first page."""
    space = drawing_space(paper)
    x, width = space.x + 2.0, min(space.width - 4.0, 220.0)
    marks: list[Mark] = []
    y = space.y + 4.0 + STEP * (len(LINE_KINDS) + len(STEPS) + 3)
    marks.append(Text((x, y), "Lines on the templates", STRONG, bold=True))
    for pen, words in LINE_KINDS:
        y -= STEP
        marks += [*sample(pen, (x, y + 1.0), 26.0), Text((x + 30.0, y), words, PLAIN, fit=width - 30.0)]
    y -= STEP * 1.7
    marks.append(Text((x, y), "Using the templates", STRONG, bold=True))
    for i, words in enumerate(STEPS, start=1):
        y -= STEP
        marks.append(Text((x, y), f"{i}.  {words}", PLAIN, fit=width))
    return marks
