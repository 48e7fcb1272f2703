# SPDX-License-Identifier: LGPL-2.1-or-later

"""The first pages of a book: what is on which page, and how the templates are used."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lines import sample
from freecad_stacklam.benchsheets.drawing.paper import Paper
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, STRONG, Mark, Sheet, Text
from freecad_stacklam.benchsheets.pages.continued import first_page
from freecad_stacklam.benchsheets.pages.listpage import TableRow, list_page, rows_per_page, table
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.words import mark, say

#: From line to line of the guide on the first page, mm.
STEP = 5.0
LINE_KINDS = (
    ("cut", mark("widest, continuous: cut here, the edge of the blank")),
    ("finished", mark("long dash, two dots: finished form at the upper face")),
    ("hidden", mark("short dashes: finished form at the lower face (hidden)")),
    ("next", mark("long dash, short dash: where the next layer is glued on")),
    ("mortise", mark("half as wide, continuous: mortise, pin or hollow, cut from this face")),
    ("mortise hidden", mark("long dashes: cut from the UNDERSIDE, nothing from this face")),
    ("seam", mark("dashes set far apart: seam between the staves of a layer")),
    ("tab", mark("long dash, three dots: where a waste tab is sawn off after gluing")),
    ("little wood", mark("hatched, rising: little wood under the upper face; carve it last")),
    ("little wood below", mark("hatched, falling: little wood over the lower face (hidden)")),
    ("centre", mark("narrow, long dash, dot: centre lines through the stack's axis")),
    ("trim", mark("dotted: trim here; the pages join on the crosses")),
)
STEPS = (
    mark("Print at 100 % / actual size, without “fit to page”."),
    mark(
        "Measure the check scales at the foot and up the side of every page: 100 mm or 4 in, or the printer has "
        "scaled it."
    ),
    mark("Trim one page of two neighbours on the dotted line; lay it over the other so that the crosses meet; tape."),
    mark("Check the joined template: the distance between far crosses, and its size against the strip."),
    mark(
        "Fix it to the stock with the grain arrow along the grain and this face up; mark FRONT and RIGHT on the edges."
    ),
    mark("Saw outside or on the wide line. Keep the number on the wood until the stack is glued."),
)


#: How finely the contents tell sheets apart: a line for each layer; one for all layers of a stack; one for each kind of
#: sheet, with all its pages.
DETAILS = ("layer", "stack", "kind")
_ONCE = {
    "bill": mark("Bill of wood"),
    "cautions": mark("Cautions: read before the first cut"),
    "boards": mark("Boards and staves"),
    "joint": mark("Joints"),
    "overview": mark("Overviews"),
    "glue-up": mark("Glue-up: order, set-ups, log"),
}


#: What other kinds of sheets are called where each has one line.
_KINDS = {
    "depth holes": mark("Depth holes"),
    "carving": mark("Carving"),
    "offsets": mark("Offsets"),
    "section": mark("Section"),
    "standing": mark("Standing"),
    "strength": mark("Strength"),
    "deep check": mark("Deep check"),
    "weight": mark("Weight"),
    "budget": mark("Budget"),
    "finish": mark("Finish"),
    "seasons": mark("Seasons"),
    "owner": mark("Owner"),
    "checks": mark("Checks"),
}
#: What there is of a layer, by the kinds of sheets that are drawn of it and whether its underside has a template: of
#: one layer, of all layers of a stack, and of all.
_OF_LAYERS = {
    ("template", False): (
        mark("{stack}, layer {layer}: template"),
        mark("{stack}, full-size templates"),
        mark("Full-size templates"),
    ),
    ("template", True): (
        mark("{stack}, layer {layer}: template, underside"),
        mark("{stack}, full-size templates"),
        mark("Full-size templates"),
    ),
    ("layer", False): (
        mark("{stack}, layer {layer}: sheet with sizes"),
        mark("{stack}, sheets with sizes"),
        mark("Sheets with sizes"),
    ),
    ("both", False): (
        mark("{stack}, layer {layer}: template, then sheet with sizes"),
        mark("{stack}, full-size templates and sheets with sizes"),
        mark("Full-size templates and sheets with sizes"),
    ),
    ("both", True): (
        mark("{stack}, layer {layer}: template, underside, then sheet with sizes"),
        mark("{stack}, full-size templates and sheets with sizes"),
        mark("Full-size templates and sheets with sizes"),
    ),
}


def _line(sheet: Sheet, detail: str, kinds: set[str], under: set[tuple[str, int | None]]) -> str:
    """What the line of a sheet says in the contents. under: which layers have a template for their underside."""
    if sheet.kind in ("template", "layer"):
        drawn = "both" if {"template", "layer"} <= kinds else sheet.kind
        both_faces = (sheet.stack, sheet.layer) in under
        return say(_OF_LAYERS[drawn, both_faces][DETAILS.index(detail)], stack=sheet.stack, layer=sheet.layer)
    if sheet.kind in ("bill", "cautions"):
        return say(_ONCE[sheet.kind])
    if sheet.kind == "glue-up" and detail != "layer":
        return say(_ONCE[sheet.kind])
    if detail == "kind" and sheet.kind != "contents":
        return say({**_KINDS, **_ONCE}[sheet.kind])
    title = first_page(sheet.title)
    return title.removesuffix(f", {sheet.tile}") if sheet.tile else title


def entries_of(sheets: Sequence[Sheet], first: int, detail: str = DETAILS[0]) -> list[tuple[str, str]]:
    """What is on which pages, for the contents; the first sheet has page number `first`. detail: one of DETAILS."""
    kinds = {sheet.kind for sheet in sheets}
    under = {(sheet.stack, sheet.layer) for sheet in sheets if sheet.mirrored}
    runs: dict[str, list[str]] = {}
    page = first
    for name, group in groupby(sheets, key=lambda sheet: _line(sheet, detail, kinds, under)):
        last = page + len(list(group)) - 1
        runs.setdefault(name, []).append(f"{page}" if last == page else say("{page} to {last}", page=page, last=last))
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
        marks = table(paper, (say("what"), say("pages")), (80.0, 40.0), (True, True), part)
        if i == 0:
            marks += _guide(paper)
        sheets.append(list_page(book, "contents", book.plan.title or say("Contents"), marks, say("Contents")))
    return sheets


def _guide(paper: Paper) -> list[Mark]:
    """The line kinds and the steps, at the foot of the first page."""
    space = drawing_space(paper)
    x, width = space.x + 2.0, min(space.width - 4.0, 220.0)
    marks: list[Mark] = []
    y = space.y + 4.0 + STEP * (len(LINE_KINDS) + len(STEPS) + 3)
    marks.append(Text((x, y), say("Lines on the templates"), STRONG, bold=True))
    for pen, words in LINE_KINDS:
        y -= STEP
        marks += [*sample(pen, (x, y + 1.0), 26.0), Text((x + 30.0, y), say(words), PLAIN, fit=width - 30.0)]
    y -= STEP * 1.7
    marks.append(Text((x, y), say("Using the templates"), STRONG, bold=True))
    for i, words in enumerate(STEPS, start=1):
        y -= STEP
        marks.append(Text((x, y), f"{i}.  {say(words)}", PLAIN, fit=width))
    return marks
