# SPDX-License-Identifier: LGPL-2.1-or-later

"""The tables and notes of a layer sheet: cuts, drilling, what to mind."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, isfinite

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    bit_number,
    fine_text,
    in_inches,
    least_text,
    length_text,
    number,
    size_text,
    unit_name,
)
from freecad_stacklam.benchsheets.layers.compass import Edge, cut_size, edges, size_words
from freecad_stacklam.benchsheets.layers.layerdrawing import LayerDrawing, shown_cuts
from freecad_stacklam.benchsheets.layers.underside import pin_blocks, template_cuts
from freecad_stacklam.benchsheets.layers.waysin import way_in_words
from freecad_stacklam.benchsheets.pages.blocks import Block, notes, steps
from freecad_stacklam.benchsheets.pages.facewords import face_word
from freecad_stacklam.benchsheets.pages.reminders import BAND_SAW
from freecad_stacklam.lamination.bandsaw.curves import BLADES, least_inner_curve, widest_blade_for
from freecad_stacklam.lamination.bandsaw.throat import throat_known, throat_needed
from freecad_stacklam.lamination.keywords import shown
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.plan.joints import Boring, JointPlan
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import ROUNDING
from freecad_stacklam.lamination.words import mark, quoted, say, say_many


def table_width(units: Units) -> float:
    """Width of a column of tables, mm: wider where every figure is written twice."""
    return 134.0 if units.both else 90.0


def _centre(outline: Outline) -> tuple[float, float]:
    found = edges(outline.outer)
    if len(found) == 1 and found[0].whole:
        return found[0].centre
    middle = polygon_of(outline).centroid
    return middle.x, middle.y


def _depth(cut: Cut, layer: LayerPlan, units: Units) -> tuple[str, str]:
    """How deep, and from which face."""
    top, bottom = cut.opens_top(layer), cut.opens_bottom(layer)
    if top and bottom:
        return say("through"), ""
    depth = number(cut.end - cut.start, units)
    return depth, face_word("top" if top else "below" if bottom else "inside")


def from_below(cut: Cut, layer: LayerPlan) -> bool:
    """Whether a cut is made from the layer's underside alone."""
    return cut.opens_bottom(layer) and not cut.opens_top(layer)


def cut_block(layer: LayerPlan, units: Units, under: bool = False) -> Block | None:
    """Where every mortise, pin and hollow that this face shows is, how large and how deep; or, in a table of their own,
    those that are made once the layer is turned over. Letters are the drawing's in both."""
    rows: list[tuple[str, ...]] = []
    for i, cut in enumerate(shown_cuts(layer)):
        if from_below(cut, layer) != under:
            continue
        depth, face = _depth(cut, layer, units)
        x, y = _centre(cut.outline)
        kind = shown(cut.kind)
        what = kind if cut.outline_end is None else say("{cut}, low", cut=kind)
        size = cut_size(cut, units)
        rows.append((letters(i), what, number(x, units), number(y, units), size, depth, face))
        if cut.outline_end is not None:  # a tilted axis: its place at the upper end too
            x, y = _centre(cut.outline_end)
            size = size_words(cut.outline_end, units)
            rows.append(("", say("{cut}, high", cut=kind), number(x, units), number(y, units), size, "", ""))
        if cut.joint and cut.kind == "mortise":
            rows.append(("", quoted(cut.joint), "", "", "", "", ""))
    if not rows:
        return None
    title = (
        mark("From the UNDERSIDE, layer turned over: x towards RIGHT, {unit}")
        if under
        else mark("Cuts: centres from the axis, {unit}")
    )
    return Block(
        say(title, unit=unit_name(units)),
        ("", say("what"), "x", "y", say("size"), say("depth"), say("from")),
        (5.0, 16.0, 14.0, 14.0, 19.0, 12.0, 12.0),
        (True, True, False, False, False, False, True),
        tuple(rows),
    )


def boring_rows(rows: Sequence[Boring], units: Units) -> tuple[tuple[str, ...], ...]:
    """Rows of a drilling table: bit, x, y, depth, face, when; one line for every hole."""
    found: list[tuple[str, ...]] = []
    for row in rows:
        tip = f" ({number(row.tip, units)})" if row.point else ""
        depth = say("through") if row.through else number(row.depth, units) + tip
        for i, (x, y) in enumerate(row.centres):
            first = (f"Ø {bit_number(row.diameter, units)}",) if i == 0 else ("″",)
            rest = (depth, face_word(row.side), say(_WHEN[row.when])) if i == 0 else ("″", "″", "″")
            found.append((*first, number(x, units), number(y, units), *rest))
    return tuple(found)


#: When a hole is bored, under the head “glue-up”.
_WHEN = {"before glue-up": mark("before"), "after glue-up": mark("after")}
BORING_HEADS = (mark("bit"), "x", "y", mark("depth"), mark("from"), mark("glue-up"))
BORING_SHARES = (15.0, 14.0, 14.0, 15.0, 14.0, 16.0)
BORING_LEFT = (True, False, False, False, True, True)


def _joints_here(plan: Plan, layer: LayerPlan) -> list[JointPlan]:
    names = {cut.joint for cut in layer.cuts if cut.joint}
    return [joint for joint in plan.joints if joint.name in names]


def drilling_block(plan: Plan, stack: StackPlan, layer: LayerPlan, units: Units, under: bool = False) -> Block | None:
    """The drilling table's lines for this layer and for the glued stack where its mortise runs through this layer; or
    those alone that are bored in this layer's underside."""
    rows = [
        row
        for joint in _joints_here(plan, layer)
        for row in joint.drilling
        if row.stack == stack.name
        and row.layer in (None, layer.number)
        and under == (row.layer is not None and row.side == "bottom" and not row.through)
    ]
    if not rows:
        return None
    title = (
        mark("Boring in the UNDERSIDE, {unit}: depth of the walls (to the bit's tip)")
        if under
        else mark("Boring, {unit}: depth of the walls (to the bit's tip)")
    )
    heads = tuple(say(head) for head in BORING_HEADS)
    return Block(say(title, unit=unit_name(units)), heads, BORING_SHARES, BORING_LEFT, boring_rows(rows, units))


def _cut_line_words(stack: StackPlan, arcs: Sequence[Edge], units: Units, table: str) -> list[str]:
    """How far the cut line stands off, and how it is laid out without the template."""
    sentence = {
        (True, False): mark("The cut line is a circle, {allowance} or more outside the form; saw outside it or on it."),
        (False, False): mark("The cut line stands {allowance} or more outside the form; saw outside it or on it."),
        (True, True): mark(
            "The cut line is a circle, so far out that {allowance} of wood is left square to the form; saw outside "
            "it or on it."
        ),
        (False, True): mark(
            "The cut line stands so far out that {allowance} of wood is left square to the form; saw outside it or "
            "on it."
        ),
    }[len(arcs) == 1 and arcs[0].whole, stack.square]
    words = [say(sentence, allowance=least_text(stack.allowance, units))]
    if table:
        words.append(table)
    return words


#: What the saw's throat is needed for: of a hole or of the outline, the waste or the blank turned to the column.
_THROAT = {
    (True, True): mark(
        "Band saw, the hole: the waste turned to the column (clockwise where the column is left of the blade) needs "
        "{room} of throat from the rectangle that just holds the blank"
    ),
    (True, False): mark(
        "Band saw, the hole: the blank turned to the column (counter-clockwise where the column is left of the blade) "
        "needs {room} of throat from the rectangle that just holds the blank"
    ),
    (False, True): mark(
        "Band saw, the outline: the waste turned to the column (counter-clockwise where the column is left of the "
        "blade) needs {room} of throat from the rectangle that just holds the blank"
    ),
    (False, False): mark(
        "Band saw, the outline: the blank turned to the column (clockwise where the column is left of the blade) needs "
        "{room} of throat from the rectangle that just holds the blank"
    ),
}


def _throat_words(plan: Plan, stack: StackPlan, layer: LayerPlan, units: Units) -> list[str]:
    """How the blank turns at the saw, and what must pass its column. Wood lies to the left of every line, and a column
    that stands left of the blade as one feeds lies to the right of the way in which the blade follows the line."""
    need = throat_needed(layer)
    least = INCH / units.fraction if in_inches(units) else 1.0
    if need.room < least:
        return []
    room = length_text(ceil(need.room / least - ROUNDING) * least, units)
    words = say(_THROAT[need.in_hole, need.waste_to_column], room=room)
    throat = throat_known(plan, stack)
    if throat is None:
        return [f"{words}."]
    has = least_text(throat, units)
    if need.room <= throat + ROUNDING:
        return [say("{needs}; the saw has {throat}.", needs=words, throat=has)]
    way_out = (
        mark("{needs}; the saw has only {throat}: bore and jigsaw the hole, or use a larger saw.")
        if need.in_hole
        else mark("{needs}; the saw has only {throat}: saw waste corners off first, or use a larger saw.")
    )
    return [say(way_out, needs=words, throat=has)]


def _tab_words(layer: LayerPlan, units: Units) -> list[str]:
    """Where the blank's waste tabs stand, how large they are, and when they come off."""
    found = [
        say(
            "Waste tab {direction:g}° counter-clockwise from RIGHT, {width} wide, {out} out: a seat for a pad.",
            direction=tab.direction % 360.0,
            width=length_text(tab.width, units),
            out=length_text(tab.out, units),
        )
        for tab in layer.tabs
    ]
    after = say_many(
        "Leave it on for gluing and saw it off afterwards, on the line of long dashes and three dots.",
        "Leave them on for gluing and saw them off afterwards, on the line of long dashes and three dots.",
        len(found),
    )
    return [*found, after] if found else []


def _thin_words(stack: StackPlan, layer: LayerPlan, units: Units) -> list[str]:
    least = stack.containment.least_wood
    if not layer.thin or least is None:
        return []
    sides = {zone.side for zone in layer.thin}
    sentence = (
        mark("Hatched: at the faces less than {asked} of wood lies on the form: carve there last.")
        if len(sides) > 1
        else mark("Hatched: at the upper face less than {asked} of wood lies on the form: carve there last.")
        if 1 in sides
        else mark("Hatched: at the lower face less than {asked} of wood lies on the form: carve there last.")
    )
    return [say(sentence, asked=fine_text(least.asked, units, "up"))]


def _saw_words(layer: LayerPlan, units: Units) -> list[str]:
    curve = least_inner_curve(layer)
    words = []
    if curve.corners:
        words.append(say("{corners} inner corners: make relief cuts or bore them first.", corners=curve.corners))
    if isfinite(curve.radius):
        blade = widest_blade_for(curve.radius)
        least = least_text(curve.radius, units)
        if blade is None:
            words.append(
                say(
                    "Tightest inner curve: radius {radius}; tighter than band-saw blades turn: bore it out or make "
                    "relief cuts.",
                    radius=least,
                )
            )
        elif blade < BLADES[-1][0]:
            words.append(
                say(
                    "Tightest inner curve: radius {radius}; take a blade of {blade} or narrower, and follow its "
                    "manual.",
                    radius=least,
                    blade=length_text(blade, units),
                )
            )
    return words


def under_blocks(plan: Plan, stack: StackPlan, layer: LayerPlan, units: Units) -> list[Block | None]:
    """What is mortised from the underside: a step of its own, after all that is made from this face."""
    if not any(cut.kind == "mortise" for cut in template_cuts(stack, layer)):
        return []
    done = [
        say("Last, turn the layer over, left for right: FRONT stays in front, RIGHT comes to the left."),
        say(
            "Lay the mirrored underside template on it, FRONT to FRONT, edges and axis lines together; knife the "
            "mortise."
        ),
        say("Bore and chisel only as deep as the table says, measured from the face that is now up."),
    ]
    return [
        steps(say("UNDERSIDE mortise: cut nothing for it from this face"), done, table_width(units)),
        cut_block(layer, units, under=True),
        drilling_block(plan, stack, layer, units, under=True),
    ]


def layer_blocks(
    book: Book, stack: StackPlan, drawing: LayerDrawing, arcs: Sequence[Edge], table: str = ""
) -> list[Block]:
    """Notes, cuts and drilling of a layer, in the order in which they are read. table: what is said of the table by
    which its line is laid out."""
    plan, units, layer = book.plan, book.units, drawing.layer
    along, across = drawing.extents(layer.grain)
    words = [say("Blank {size}, along the grain first.", size=size_text(along, across, units))]
    words += _cut_line_words(stack, arcs, units, table)
    words += _tab_words(layer, units) + _thin_words(stack, layer, units)
    words += _throat_words(plan, stack, layer, units) + _saw_words(layer, units)
    for joint in _joints_here(plan, layer):
        member = next((m for m in joint.members if m.stack == stack.name), None)
        if member is not None and member.relief:
            words.append(
                say(
                    "“{joint}”: the outline has {relief} relief on each end-grain wall.",
                    joint=joint.name,
                    relief=fine_text(member.relief, units),
                )
            )
        if member is not None and member.wedge is not None:
            words.append(
                say("“{joint}” is wedged here: flare the end-grain walls, see its joint sheet.", joint=joint.name)
            )
    words += [
        say(
            "Pins between layers {lower} and {upper} stand in waste wood: pull them after the glue.",
            lower=p.interface,
            upper=p.interface + 1,
        )
        for p in stack.pins
        if p.waste and layer.number in (p.interface, p.interface + 1)
    ][:1]
    words += way_in_words(stack, layer, units)
    said = notes(say("Notes"), [*words, say(BAND_SAW)], table_width(units))
    pins = pin_blocks(stack, layer, units, table_width(units))
    blocks = [cut_block(layer, units), *pins, drilling_block(plan, stack, layer, units), said]
    blocks += under_blocks(plan, stack, layer, units)
    return [block for block in blocks if block is not None]
