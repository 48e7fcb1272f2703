# SPDX-License-Identifier: LGPL-2.1-or-later

"""The carving guide: the steps at every glue line, what stays when they are gone, and the wood to take away."""

from __future__ import annotations

from freecad_stacklam.benchsheets.carving.elevationsheet import elevation_sheets
from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, in_inches, number, unit_name
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.reminders import GRINDER
from freecad_stacklam.benchsheets.pages.tablepages import table_pages
from freecad_stacklam.benchsheets.pages.titleblock import block_of
from freecad_stacklam.lamination.lengths import INCH, VOLUMES
from freecad_stacklam.lamination.plan.carving import CarvingPlan, CarvingStep, Removed
from freecad_stacklam.lamination.plan.layers import StackPlan
from freecad_stacklam.lamination.words import figure, mark, say

WIDTH = 178.0
#: mm³ in a litre, in which the rate is given.
LITRE = VOLUMES["l"]


def _span(span: tuple[float, float] | None, units: Units) -> str:
    if span is None:
        return say("flush")
    low, high = span
    if number(low, units) == number(high, units):
        return number(low, units)
    if units.both:
        return f"{number(low, units)} – {number(high, units)}"
    return say("{low} to {high}", low=number(low, units), high=number(high, units))


def _steps(rows: list[CarvingStep], units: Units) -> Block:
    lines = [
        (f"{s.interface}/{s.interface + 1}", number(s.height, units), number(s.ledge, units), _span(s.outer, units),
         _span(s.inner, units))
        for s in rows
    ]  # fmt: skip
    return Block(
        say("Steps at the glue lines, {unit}", unit=unit_name(units)),
        (
            say("glue line"),
            say("height"),
            say("widest step"),
            say("carve off outer corners"),
            say("left at inner corners"),
        ),
        (22.0, 28.0, 30.0, 50.0, 48.0),
        (True, False, False, False, False),
        tuple(lines),
    )


def _removed(rows: list[Removed], units: Units) -> Block:
    inches = in_inches(units)
    unit, places, name = (INCH**3, 1, "in³") if inches else (LITRE, 2, "litres")

    def shown(value: float) -> str:
        return figure(f"{value / unit:.{places}f}")

    timed = any(r.hours is not None for r in rows)
    lines = [
        (str(r.layer), shown(r.blank), shown(r.finished), shown(r.volume),
         "" if r.hours is None else figure(f"{r.hours:.1f}"))
        for r in rows
    ]  # fmt: skip
    hours = figure(f"{sum(r.hours or 0.0 for r in rows):.1f}") if timed else ""
    lines.append(
        (
            say("all"),
            shown(sum(r.blank for r in rows)),
            shown(sum(r.finished for r in rows)),
            shown(sum(r.volume for r in rows)),
            hours,
        )
    )
    return Block(
        say("Wood to take away, {name}", name=name),
        (say("layer"), say("blank"), say("finished"), say("to carve"), say("hours") if timed else ""),
        (22.0, 28.0, 30.0, 50.0, 48.0),
        (True, False, False, False, False),
        tuple(lines),
    )


def carving_sheets(book: Book, stack: StackPlan, carving: CarvingPlan) -> list[Sheet]:
    """The carving guide of one stack. Not yet numbered."""
    steps = [s for s in carving.steps if s.stack == stack.name]
    removed = [r for r in carving.removed if r.stack == stack.name]
    views = elevation_sheets(book, stack, carving)
    if not steps and not removed:
        return views
    words = [
        say("Bore the depth holes first, where the plan has them, and colour their bottoms."),
        say(
            "Carve the outer corners of the steps down first: the middle column says how much stands over the "
            "finished surface. Stop when a step's edge is gone."
        ),
        say(
            "The inner corners are the glue lines you see from outside: the last column says how much wood is left "
            "there before the finished surface. Where it is least, go with rasp and scraper only."
        ),
        say("Check with the section templates and the table of offsets as you come near."),
    ]
    inches = in_inches(book.units)
    if carving.rate is not None:
        sentence = (
            mark("Hours at your own rate of {rate:.0f} in³ an hour.")
            if inches
            else mark("Hours at your own rate of {rate:g} litres an hour.")
        )
        words.append(say(sentence, rate=carving.rate * (LITRE / INCH**3 if inches else 1.0)))
    else:
        sentence = (
            mark(
                "No time is stated: measure how many in³ ({litre:.0f} are a litre) you carve in an hour and give it "
                "with the plan."
            )
            if inches
            else say("No time is stated: measure how many litres you carve in an hour and give it with the plan.")
        )
        words.append(say(sentence, litre=LITRE / INCH**3))
    blocks = [notes(say("In this order"), [*words, say(GRINDER)], WIDTH)]
    if steps:
        blocks.append(_steps(steps, book.units))
    if removed:
        blocks.append(_removed(removed, book.units))
    title = say("{stack}, carving guide", stack=stack.name)
    block = block_of(book, say("Carving guide"), say("{stack}-carving", stack=stack.name), title, note=book.sizes_note)
    return views + table_pages("carving", title, book.desk, block, blocks, WIDTH, stack.name)
