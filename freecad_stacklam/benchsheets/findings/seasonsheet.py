# SPDX-License-Identifier: LGPL-2.1-or-later

"""The maker's pages of the year in the room: months to work in, how layers follow, what moves at joints and pins."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, unit_words
from freecad_stacklam.benchsheets.drawing.sheet import Mark, Sheet
from freecad_stacklam.benchsheets.findings.seasonwords import basis, fine_signed, lag_words, signed
from freecad_stacklam.benchsheets.findings.yearplot import LEAST_PERCENT, plot_legend, year_plot
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow, notes
from freecad_stacklam.benchsheets.pages.closer import SIZES
from freecad_stacklam.benchsheets.pages.continued import next_page
from freecad_stacklam.benchsheets.pages.listpage import HEAD, list_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.findings.seasons import Movement, SeasonFindings, Year
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.words import figure, mark, say

PLOT = 42.0
#: Columns of twelve months after a first one for words.
_SHARES, _LEFT = (40.0, *[12.0] * 12), (True, *[False] * 12)
#: Three letters of each month.
_SHORT = (
    mark("Jan"),
    mark("Feb"),
    mark("Mar"),
    mark("Apr"),
    mark("May"),
    mark("Jun"),
    mark("Jul"),
    mark("Aug"),
    mark("Sep"),
    mark("Oct"),
    mark("Nov"),
    mark("Dec"),
)


def season_sheets(book: Book, findings: SeasonFindings) -> list[Sheet]:
    """The maker's pages, as many as it takes. Not yet numbered."""
    space = drawing_space(book.desk.portrait())
    x, width = space.x + 2.0, space.width - 4.0
    top = space.y + space.height - HEAD + 2.0
    lines = (("", findings.equilibrium), ("", findings.piece.mean), ("", findings.piece.core))
    marks: list[Mark] = year_plot(
        x,
        top - PLOT,
        width,
        PLOT,
        say("Moisture over the year, %"),
        lines,
        lambda v: figure(f"{v:g}"),
        least=LEAST_PERCENT,
    )
    marks += plot_legend(
        x, top - PLOT - 3.0, (say("what the room asks for"), say("mean of the piece"), say("its core")), width
    )
    level = top - PLOT - 8.0
    columns = [Column(x, level, width, level - space.y - 1.0), Column(x, top, width, top - space.y - 1.0)]
    pages = min((_pages(book.units, findings, columns, size) for size in SIZES), key=len)
    pages[0] = [*marks, *pages[0]]
    title = say("A year in the room")
    return [list_page(book, "seasons", next_page(title) if i else title, page, title) for i, page in enumerate(pages)]


def _pages(units: Units, findings: SeasonFindings, columns: Sequence[Column], size: float) -> list[list[Mark]]:
    """The tables and notes of each page, in the first column on the first and in the second on all others. size: of the
    lettering, 1 for the usual."""
    left = _blocks(units, findings, columns[0].width / size)
    pages: list[list[Mark]] = []
    while left:
        drawn, left = flow(left, [columns[min(len(pages), 1)]], size=size)
        pages.append(drawn)
    return pages


def _blocks(units: Units, findings: SeasonFindings, width: float) -> list[Block]:
    found = [
        notes(say("Months to work in"), [one.says for one in findings.advice], width),
        _year_table(units, findings),
        _following(units, findings),
    ]
    joints = _joints(units, findings)
    if joints.rows:
        found.append(joints)
    return [*found, _quick(units, findings), notes(say("What this stands on"), basis(findings, units), width)]


def _year_table(units: Units, findings: SeasonFindings) -> Block:
    """Month by month: the room, moistures, heights."""

    def percent(what: str, year: Year) -> tuple[str, ...]:
        return (what, *(figure(f"{v:.1f}") for v in year))

    rows = [percent(say("room asks for, %"), findings.equilibrium)]
    for stack in findings.stacks:
        rows.append(percent(f"{stack.stack}, %", stack.moisture.mean))
        rows.append(percent(say("{stack}, first year, %", stack=stack.stack), stack.moisture.first))
        if stack.change is not None:
            rows += _both(say("{stack}, height", stack=stack.stack), stack.change, units)
    title = say("Month by month; heights in {unit} from when it was glued", unit=unit_words(units))
    return Block(title, ("", *map(say, _SHORT)), _SHARES, _LEFT, tuple(rows))


def _both(what: str, change: Movement, units: Units) -> list[tuple[str, ...]]:
    """The movement that holds, or both by name."""
    if change.cut in ("flat", "quarter"):
        return [(f"{what}, {shown(change.cut)}", *(signed(v, units) for v in change.told[0]))]
    named = ((say("flat sawn"), change.flat), (say("quarter"), change.quarter))
    return [(f"{what}, {name}", *(signed(v, units) for v in year)) for name, year in named]


def _range(change: Movement | None, units: Units) -> str:
    return (
        say("not known")
        if change is None
        else say("{low} to {high}", low=signed(change.range[0], units), high=signed(change.range[1], units))
    )


def _following(units: Units, findings: SeasonFindings) -> Block:
    """How each layer follows, and what of it moves."""
    rows = []
    for one in findings.layers:
        cup = say("not known") if one.cup is None else signed(max(map(abs, one.cup.range)), units).lstrip("+")
        rows.append(
            (
                f"{one.stack} {one.number}",
                figure(f"{one.moisture.swing:.1f}"),
                lag_words(one.moisture.lag),
                figure(f"{one.moisture.core_swing:.1f}"),
                lag_words(one.moisture.core_lag),
                _range(one.change, units),
                cup,
            )
        )
    u = units.first
    heads = (
        say("layer"),
        say("swing %"),
        say("lag, days"),
        say("core %"),
        say("lag, days"),
        say("width, {unit}", unit=u),
        say("free cup, {unit}", unit=u),
    )
    title = say("How layers follow the room. The cup is that of a free layer: in the stack the glue lines hold it")
    return Block(title, heads, (38.0, 16.0, 32.0, 14.0, 32.0, 30.0, 22.0), (True, *[False] * 6), tuple(rows))


def _joints(units: Units, findings: SeasonFindings) -> Block:
    """Tenons and dowels month by month: above 0 they squeeze or the layers push, below 0 a gap opens."""

    def fine(year: Year) -> tuple[str, ...]:
        return tuple(fine_signed(v, units) for v in year)

    rows: list[tuple[str, ...]] = []
    for joint in findings.joints:
        if joint.along is not None:
            rows.append((say("{joint} in {stack}, along", joint=joint.joint, stack=joint.stack), *fine(joint.along)))
        if joint.across is not None:
            rows.append((say("{joint} in {stack}, across", joint=joint.joint, stack=joint.stack), *fine(joint.across)))
        if joint.height is not None:
            rows.append((say("{joint} in {stack}, height", joint=joint.joint, stack=joint.stack), *fine(joint.height)))
    for stack in dict.fromkeys(pin.stack for pin in findings.pins):
        worst = min((p for p in findings.pins if p.stack == stack), key=lambda p: p.room + min(p.change))
        rows.append((say("{stack}, dowels at line {line}", stack=stack, line=worst.interface), *fine(worst.change)))
    title = say(
        "Tenons and dowels, {unit}: + squeezes, - gapes; height: layers beside what does not move", unit=units.first
    )
    return Block(title, ("", *map(say, _SHORT)), (52.0, *[11.0] * 12), _LEFT, tuple(rows))


def _quick(units: Units, findings: SeasonFindings) -> Block:
    """The rule of thumb beside what is found."""

    def told(value: float, unit: str) -> str:
        return (
            say("{value:.1f} points", value=value)
            if unit == "points"
            else f"{signed(value, units).lstrip('+')} {units.first}"
        )

    rows = tuple((r.what, told(r.quick, r.unit), told(r.found, r.unit)) for r in findings.quick)
    title = say("The rule of thumb (all wood follows the whole season) beside what is found")
    return Block(
        title, (say("change over the year"), say("rule"), say("found")), (80.0, 30.0, 30.0), (True, False, False), rows
    )
