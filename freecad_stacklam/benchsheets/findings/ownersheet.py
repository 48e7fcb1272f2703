# SPDX-License-Identifier: LGPL-2.1-or-later

"""One page for who will live with the piece: the air to keep, the movement to expect month by month, care."""

from __future__ import annotations

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import wrapped
from freecad_stacklam.benchsheets.drawing.sheet import PLAIN, Mark, Sheet, Text
from freecad_stacklam.benchsheets.findings.seasonwords import care, moves, plotted, step_figure
from freecad_stacklam.benchsheets.findings.yearplot import ABOVE, LEAST_PERCENT, plot_legend, year_plot
from freecad_stacklam.benchsheets.pages.blocks import Block, Column, flow, notes
from freecad_stacklam.benchsheets.pages.listpage import HEAD, LINE, list_page
from freecad_stacklam.benchsheets.pages.strip import drawing_space
from freecad_stacklam.lamination.findings.seasons import Movement, SeasonFindings
from freecad_stacklam.lamination.lengths import format_length
from freecad_stacklam.lamination.words import figure, say

#: Heights of a plot that are tried until all finds room, space between plots, mm; most plots of movement on the page.
PLOTS, BETWEEN, MOST = (37.0, 34.0, 31.0, 28.0, 25.0), 5.0, 4


def owner_sheets(book: Book, findings: SeasonFindings) -> list[Sheet]:
    """The owner's page, with its plots as high as the page leaves them. Not yet numbered."""
    for plot in PLOTS:
        marks, left = _page(book, findings, plot)
        if not left:
            break
    return [list_page(book, "owner", say("For the owner: a year with this piece"), marks, say("Owner's page"))]


def _page(book: Book, findings: SeasonFindings, plot: float) -> tuple[list[Mark], list[Block]]:
    """The marks of the page with plots of a height, mm, and what finds no room."""
    units = book.units
    space = drawing_space(book.desk.portrait())
    x, width = space.x + 2.0, space.width - 4.0
    y = space.y + space.height - HEAD + 2.0
    marks: list[Mark] = []
    words = say(
        "Wood takes up moisture from the air and gives it back: it swells and shrinks across its grain, and hardly "
        "along it. This piece is built for that. This page says how much is usual."
    )
    for line in wrapped(words, PLAIN, width):
        marks.append(Text((x, y), line, PLAIN, fit=width))
        y -= LINE
    y -= 1.0
    half = (width - BETWEEN) / 2
    y -= plot
    air = tuple(month.humidity for month in findings.months)
    marks += year_plot(
        x,
        y,
        half,
        plot,
        say("The air of the room, % humidity"),
        (("", air),),
        lambda v: figure(f"{v:g}"),
        least=LEAST_PERCENT,
    )
    marks += year_plot(
        x + half + BETWEEN,
        y,
        half,
        plot,
        say("Moisture of the wood, %"),
        (("", findings.piece.mean), ("", findings.piece.core)),
        lambda v: figure(f"{v:g}"),
        least=LEAST_PERCENT,
    )
    marks += plot_legend(x + half + BETWEEN, y - 3.0, (say("the whole piece"), say("its core")), half)
    y -= 8.0
    plots = _movements(book, findings)[:MOST]
    for i, (title, change, says) in enumerate(plots):
        left = x + (i % 2) * (half + BETWEEN)
        if i % 2 == 0:
            y -= plot + (LINE + 2.5 if i else 0.0)
        marks += year_plot(
            left, y, half, plot, title, (("", plotted(change.worst, units)),), step_figure, zero=(0.0,)
        )  # fmt: skip
        marks.append(Text((left, y - 3.4), says, PLAIN, fit=half))
    y -= ABOVE + 2.0
    drawn, rest = flow([notes(say("Care"), care(findings, units), width)], [Column(x, y, width, y - space.y - 1.0)])
    return [*marks, *drawn], rest


def _movements(book: Book, findings: SeasonFindings) -> list[tuple[str, Movement, str]]:
    """Heights of the stacks, then the widest layer of each: title, movement, sentence."""
    units = book.units
    heights, widths = [], []
    for stack in findings.stacks:
        if stack.change is not None:
            size = format_length(stack.height, units.first)
            heights.append(
                (
                    say("{stack}: height, {unit}", stack=stack.stack, unit=units.first),
                    stack.change,
                    say("of {size}: {moves}", size=size, moves=moves(*stack.change.range, units)),
                )
            )
        own = [one for one in findings.layers if one.stack == stack.stack and one.change is not None]
        if own:
            widest = max(own, key=lambda one: one.width)
            assert widest.change is not None
            size = format_length(widest.width, units.first)
            widths.append(
                (
                    say("{stack}: width, {unit}", stack=stack.stack, unit=units.first),
                    widest.change,
                    say("of {size}: {moves}", size=size, moves=moves(*widest.change.range, units)),
                )
            )
    return [*heights[: MOST // 2], *widths[: MOST // 2]]
