# SPDX-License-Identifier: LGPL-2.1-or-later

"""Pages of words and figures: the bill, the cautions and the contents."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from freecad_stacklam.benchsheets.drawing.lettering import AnyUnits, in_inches, number, unit_name, wrapped
from freecad_stacklam.benchsheets.drawing.paper import INCH, Paper
from freecad_stacklam.benchsheets.drawing.sheet import LARGE, PLAIN, STRONG, Mark, Polyline, Sheet, Text
from freecad_stacklam.benchsheets.drawing.strip import frame_of, joined, plain_strip, sheet_line
from freecad_stacklam.lamination.plan.bill import BillRow
from freecad_stacklam.lamination.plan.whole import Plan

#: From baseline to baseline of table rows and of running text, mm.
ROW, LINE = 5.4, 4.6
HEAD = 16.0
#: From line to line of the guide on the first page, mm.
STEP = 5.0


@dataclass(frozen=True)
class Row:
    """A table row. `pens` sample a line kind in the first column instead of a word."""

    cells: tuple[str, ...]
    bold: bool = False
    pen: str = ""


def _page(kind: str, title: str, paper: Paper, marks: list[Mark], plan: Plan, mark: str, what: str) -> Sheet:
    """A page of words with its heading and strip."""
    frame = frame_of(paper)
    marks.append(
        Text((frame.x + 2.0, paper.height - paper.margin - LARGE), title, LARGE, bold=True, fit=frame.width - 4.0)
    )
    strip = (plan.title, sheet_line(what), joined(f"plan {mark}", plan.author, plan.date))
    marks += plain_strip(paper, strip)
    return Sheet(kind, title, (paper.width, paper.height), tuple(marks), paper_name=paper.name)


def rows_per_page(paper: Paper) -> int:
    """How many table rows a page takes below its heading and column heads."""
    return max(4, int((frame_of(paper).height - HEAD - ROW) // ROW))


def table(
    paper: Paper, heads: Sequence[str], shares: Sequence[float], left: Sequence[bool], rows: Sequence[Row]
) -> list[Mark]:
    """Rows under their heads. `shares` divide the width; `left`: words stand to the left, figures to the right."""
    frame = frame_of(paper)
    x0, width = frame.x + 2.0, min(frame.width - 2.0, 260.0)
    y = frame.y + frame.height - HEAD
    scale = width / sum(shares)
    edges = [x0]
    for share in shares:
        edges.append(edges[-1] + share * scale)
    marks: list[Mark] = []
    for i, row in enumerate([Row(tuple(heads), bold=True), *rows]):
        level = y - i * ROW
        for column, cell in enumerate(row.cells):
            room = edges[column + 1] - edges[column] - 2.0
            at = edges[column] if left[column] else edges[column + 1] - 2.0
            marks.append(Text((at, level), cell, PLAIN, "left" if left[column] else "right", bold=row.bold, fit=room))
        if row.pen:
            marks.append(Polyline(((edges[0], level + 1.0), (edges[1] - 3.0, level + 1.0)), row.pen))
        if row.bold:
            marks.append(Polyline(((x0, level - 1.6), (x0 + width, level - 1.6)), "fine"))
    return marks


def _figures(row: BillRow, units: AnyUnits) -> Row:
    def length(value: float | None) -> str:
        return "" if value is None else number(value, units)

    volume = (
        ""
        if row.volume is None
        else f"{row.volume / (INCH**3 if in_inches(units) else 1e6):.{1 if in_inches(units) else 2}f}"
    )
    return Row(
        (
            f"{row.item} {row.name}" if row.item not in ("blank", "total") else row.name,
            row.species,
            str(row.count),
            length(row.thickness),
            length(row.length),
            length(row.width),
            volume,
            "" if row.board_feet is None else f"{row.board_feet:.2f}",
            "" if row.mass is None else f"{row.mass:.2f}",
        ),
        bold=row.item == "total",
    )


def bill_sheets(plan: Plan, paper: Paper, units: AnyUnits, mark: str) -> list[Sheet]:
    """The bill of wood, a row per blank, tenon and total."""
    paper = paper.portrait()
    unit, volume = unit_name(units), "in³" if in_inches(units) else "litres"
    heads = ("piece", "species", "no.", f"thick {unit}", f"long {unit}", f"wide {unit}", volume, "bd ft", "kg")
    shares = (44.0, 28.0, 9.0, 18.0, 20.0, 20.0, 16.0, 15.0, 13.0)
    left = (True, True, *[False] * 7)
    rows = [_figures(row, units) for row in plan.bill]
    size = rows_per_page(paper) - 1
    sheets = []
    for first in range(0, len(rows), size):
        part = rows[first : first + size]
        marks = table(paper, heads, shares, left, part)
        frame = frame_of(paper)
        note = "Long is along the grain. Blanks are net sizes: add what your saw, jointer and planer take."
        marks.append(Text((frame.x + 2.0, frame.y + 2.5), note, PLAIN, fit=frame.width - 4.0))
        sheets.append(_page("bill", "Bill of wood", paper, marks, plan, mark, "Bill"))
    return sheets


def caution_sheets(plan: Plan, cautions: Sequence[str], paper: Paper, mark: str) -> list[Sheet]:
    """What the checks found, worst first, and the cautions for the work, as running text."""
    paper = paper.portrait()
    frame = frame_of(paper)
    width = min(frame.width - 6.0, 200.0)
    order = {"stop": 0, "caution": 1, "ok": 2}
    checks = sorted(plan.checks, key=lambda check: order.get(check.verdict, 1))
    blocks: list[tuple[str, bool]] = []
    if checks:
        blocks.append(("What the checks found", True))
        blocks += [(f"{check.verdict.upper()} – {check.name}: {check.says}", False) for check in checks]
    if cautions:
        blocks.append(("Before the work", True))
        blocks += [(caution, False) for caution in cautions]
    sheets: list[Sheet] = []
    marks: list[Mark] = []
    top, low = frame.y + frame.height - HEAD, frame.y + 4.0
    y = top
    for words, strong in blocks:
        height = STRONG if strong else PLAIN
        lines = wrapped(words, height, width - 4.0)
        if y - LINE * len(lines) < low and y < top:
            sheets.append(_page("cautions", "Cautions", paper, marks, plan, mark, "Cautions"))
            marks, y = [], top
        if strong:
            y -= 2.0
        for i, line in enumerate(lines):
            if i == 0 and not strong:
                marks.append(Text((frame.x + 2.0, y), "•", PLAIN))
            marks.append(Text((frame.x + (2.0 if strong else 6.0), y), line, height, bold=strong, fit=width))
            y -= LINE * (1.2 if strong else 1.0)
        y -= 1.6
    if marks:
        sheets.append(_page("cautions", "Cautions", paper, marks, plan, mark, "Cautions"))
    return sheets


LINE_KINDS = (
    ("cut", "wide, continuous: cut here, the edge of the blank"),
    ("finished", "long dash, two dots: finished form at the upper face"),
    ("hidden", "dashed: finished form at the lower face (hidden)"),
    ("next", "narrow, continuous: where the next layer is glued on"),
    ("mortise", "medium, continuous: mortise, seen from above"),
    ("mortise hidden", "medium, dashed: mortise from below (hidden)"),
    ("seam", "dash, dot: seam between the staves of a layer"),
    ("centre", "long dash, dot: centre lines through the stack's axis"),
    ("trim", "dotted: trim here; the pages join on the crosses"),
)
STEPS = (
    "Print at 100 % / actual size, without “fit to page”.",
    "Measure the check square at the foot and the side of every page: 100 mm or 4 in, or the printer has scaled it.",
    "Trim one page of two neighbours on the dotted line; lay it over the other so that the crosses meet; tape.",
    "Check the joined template: the distance between far crosses, and its size against the strip.",
    "Fix it to the stock with the grain arrow along the grain and this face up; mark FRONT and RIGHT on the edges.",
    "Saw outside or on the wide line. Keep the number on the wood until the stack is glued.",
)


def contents_size(entries: int, paper: Paper) -> int:
    """How many pages the contents take."""
    first = rows_per_page(paper.portrait()) - len(LINE_KINDS) - len(STEPS) - 3
    return 1 + max(0, -(-(entries - first) // rows_per_page(paper.portrait())))


def contents_sheets(plan: Plan, entries: Sequence[tuple[str, str]], paper: Paper, mark: str) -> list[Sheet]:
    """What is on which page; on the first page also how the templates are used. `entries` are (what, pages)."""
    paper = paper.portrait()
    size = rows_per_page(paper)
    first = size - len(LINE_KINDS) - len(STEPS) - 3
    sheets = []
    rows = [Row(entry) for entry in entries]
    parts = [rows[:first], *(rows[i : i + size] for i in range(first, len(rows), size))]
    for i, part in enumerate(parts):
        marks = table(paper, ("what", "pages"), (80.0, 40.0), (True, True), part)
        if i == 0:
            marks += _guide(paper)
        sheets.append(_page("contents", plan.title or "Contents", paper, marks, plan, mark, "Contents"))
    return sheets


def _guide(paper: Paper) -> list[Mark]:
    """The line kinds and the steps, at the foot of the first page."""
    frame = frame_of(paper)
    x, width = frame.x + 2.0, min(frame.width - 4.0, 220.0)
    marks: list[Mark] = []
    y = frame.y + 4.0 + STEP * (len(LINE_KINDS) + len(STEPS) + 3)
    marks.append(Text((x, y), "Lines on the templates", STRONG, bold=True))
    for pen, words in LINE_KINDS:
        y -= STEP
        marks += [
            Polyline(((x, y + 1.0), (x + 26.0, y + 1.0)), pen),
            Text((x + 30.0, y), words, PLAIN, fit=width - 30.0),
        ]
    y -= STEP * 1.7
    marks.append(Text((x, y), "Using the templates", STRONG, bold=True))
    for i, words in enumerate(STEPS, start=1):
        y -= STEP
        marks.append(Text((x, y), f"{i}.  {words}", PLAIN, fit=width))
    return marks
