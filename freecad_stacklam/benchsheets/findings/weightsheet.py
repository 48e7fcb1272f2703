# SPDX-License-Identifier: LGPL-2.1-or-later

"""What everything weighs that is lifted: blanks, runs as they are glued, carved stacks, the whole piece, each with how
far its wood may be off."""

from __future__ import annotations

from collections.abc import Sequence

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import Units, unit_words
from freecad_stacklam.benchsheets.drawing.sheet import Sheet
from freecad_stacklam.benchsheets.pages.blocks import Block, notes
from freecad_stacklam.benchsheets.pages.closer import closest_pages
from freecad_stacklam.lamination.findings.weight import Body, WeightFindings
from freecad_stacklam.lamination.lengths import POUND, format_volume, place_figures
from freecad_stacklam.lamination.words import figure, mark, say

KIND = "weight"
TITLE = mark("What it weighs")


def weight_sheets(book: Book, findings: WeightFindings) -> list[Sheet]:
    """The whole first, then stacks, runs and blanks. Not yet numbered."""
    if findings.whole is None:
        return []
    return closest_pages(book, KIND, say(TITLE), lambda wide: _blocks(book, findings, wide))


def _blocks(book: Book, findings: WeightFindings, width: float) -> list[Block]:
    whole = [] if findings.whole is None else [findings.whole]
    found = [
        _table(book, say("The finished piece, in the model"), [*whole, *findings.finished, *findings.tenons], True),
        _table(book, say("As it is glued: each run that is handled, before carving"), findings.glued, False),
        _table(book, say("Blanks as sawn, before any cut"), findings.blanks, False),
    ]
    said = [
        say(
            "At {moisture:g} % of moisture, sizes as planned; the finish is not counted. Plus or minus: one standard "
            "deviation, all wood of a body light or heavy together; two pieces in three lie within it.",
            moisture=findings.moisture,
        ),
    ]
    if any(body.middle_spread for body in whole):
        said.append(say("The centre's own plus or minus counts each board by itself."))
    if findings.unknown:
        said.append(
            say(
                "The weight of {species} is not known: add it to the table of species.",
                species=", ".join(findings.unknown),
            )
        )
    said += [*findings.notes, *([say("By {source}.", source=findings.source)] if findings.source else [])]
    return [*(block for block in found if block.rows), notes(say("What this stands on"), said, width)]


def _mass(kg: float | None, units: Units) -> str:
    """To a tenth, below ten units to a hundredth."""
    if kg is None:
        return say("not known")
    value = kg / POUND if units.first == "in" else kg
    return figure(f"{value:.2f}" if value < 10 else f"{value:.1f}")


def _table(book: Book, title: str, bodies: Sequence[Body], centre: bool) -> Block:
    """Bodies with what they weigh; centre: whether their centres of mass are told, x, y and z."""
    units = book.units
    unit = "lb" if units.first == "in" else "kg"
    rows = []
    for body in bodies:
        middle = place_figures(body.middle, units.first) if centre else []
        off = "" if body.spread is None else f"± {_mass(body.spread, units)}"
        rows.append((_name(body), format_volume(body.volume, units.first), _mass(body.mass, units), off, *middle))
    heads = ("", say("wood"), unit, "", *((say("centre x"), "y", "z") if centre else ()))
    shares = (70.0, 24.0, 20.0, 20.0, *((18.0, 14.0, 14.0) if centre else (46.0,)))
    if centre:
        title = say("{title}; centres in {unit}", title=title, unit=unit_words(units))
        return Block(title, heads, shares, (True, *[False] * 6), tuple(rows))
    return Block(title, (*heads, ""), shares, (True, False, False, False, True), tuple((*row, "") for row in rows))


def _name(body: Body) -> str:
    sentence = {
        "whole": mark("{name}, whole"),
        "finished": mark("{name}, carved"),
        "tenon": mark("tenon of {name}"),
    }.get(body.kind)
    return say(sentence, name=body.name) if sentence else body.name
