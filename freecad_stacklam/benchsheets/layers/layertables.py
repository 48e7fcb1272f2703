# SPDX-License-Identifier: LGPL-2.1-or-later

"""The tables and notes of a layer sheet: cuts, drilling, what to mind."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, isfinite

from freecad_stacklam.benchsheets.drawing.book import Book
from freecad_stacklam.benchsheets.drawing.lettering import (
    Units,
    bit_number,
    bit_text,
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
from freecad_stacklam.benchsheets.pages.blocks import Block, notes, steps
from freecad_stacklam.benchsheets.pages.reminders import BAND_SAW
from freecad_stacklam.lamination.bandsaw.curves import BLADES, least_inner_curve, widest_blade_for
from freecad_stacklam.lamination.bandsaw.throat import throat_known, throat_needed
from freecad_stacklam.lamination.lengths import INCH
from freecad_stacklam.lamination.names import letters
from freecad_stacklam.lamination.plan.joints import Boring, JointPlan
from freecad_stacklam.lamination.plan.layers import Cut, LayerPlan, StackPlan
from freecad_stacklam.lamination.plan.outline import Outline, polygon_of
from freecad_stacklam.lamination.plan.whole import Plan
from freecad_stacklam.lamination.tolerances import ROUNDING


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
        return "through", ""
    depth = number(cut.end - cut.start, units)
    return depth, "top" if top else "below" if bottom else "inside"


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
        what = cut.kind if cut.outline_end is None else f"{cut.kind}, low"
        size = cut_size(cut, units)
        rows.append((letters(i), what, number(x, units), number(y, units), size, depth, face))
        if cut.outline_end is not None:  # a tilted axis: its place at the upper end too
            x, y = _centre(cut.outline_end)
            size = size_words(cut.outline_end, units)
            rows.append(("", f"{cut.kind}, high", number(x, units), number(y, units), size, "", ""))
        if cut.joint and cut.kind == "mortise":
            rows.append(("", f"“{cut.joint}”", "", "", "", "", ""))
    if not rows:
        return None
    title = "From the UNDERSIDE, layer turned over: x towards RIGHT" if under else "Cuts: centres from the axis"
    return Block(
        f"{title}, {unit_name(units)}",
        ("", "what", "x", "y", "size", "depth", "from"),
        (5.0, 16.0, 14.0, 14.0, 19.0, 12.0, 12.0),
        (True, True, False, False, False, False, True),
        tuple(rows),
    )


def boring_rows(rows: Sequence[Boring], units: Units) -> tuple[tuple[str, ...], ...]:
    """Rows of a drilling table: bit, x, y, depth, face, when; one line for every hole."""
    found: list[tuple[str, ...]] = []
    for row in rows:
        tip = f" ({number(row.tip, units)})" if row.point else ""
        depth = "through" if row.through else number(row.depth, units) + tip
        for i, (x, y) in enumerate(row.centres):
            first = (f"Ø {bit_number(row.diameter, units)}",) if i == 0 else ("″",)
            rest = (depth, row.side, row.when.removesuffix(" glue-up")) if i == 0 else ("″", "″", "″")
            found.append((*first, number(x, units), number(y, units), *rest))
    return tuple(found)


BORING_HEADS = ("bit", "x", "y", "depth", "from", "glue-up")
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
    where = " in the UNDERSIDE" if under else ""
    title = f"Boring{where}, {unit_name(units)}: depth of the walls (to the bit's tip)"
    return Block(title, BORING_HEADS, BORING_SHARES, BORING_LEFT, boring_rows(rows, units))


def _cut_line_words(stack: StackPlan, arcs: Sequence[Edge], units: Units, table: str) -> list[str]:
    """How far the cut line stands off, and how it is laid out without the template."""
    what = "The cut line is a circle, " if len(arcs) == 1 and arcs[0].whole else "The cut line stands "
    far = f"{least_text(stack.allowance, units)} or more outside the form"
    if stack.square:
        far = f"so far out that {least_text(stack.allowance, units)} of wood is left square to the form"
    words = [f"{what}{far}; saw outside it or on it."]
    if table:
        words.append(table)
    return words


def _throat_words(plan: Plan, stack: StackPlan, layer: LayerPlan, units: Units) -> list[str]:
    """How the blank turns at the saw, and what must pass its column. Wood lies to the left of every line, and a column
    that stands left of the blade as one feeds lies to the right of the way in which the blade follows the line."""
    need = throat_needed(layer)
    least = INCH / units.fraction if in_inches(units) else 1.0
    if need.room < least:
        return []
    line, side = ("the hole" if need.in_hole else "the outline"), ("waste" if need.waste_to_column else "blank")
    way = "clockwise" if need.in_hole == need.waste_to_column else "counter-clockwise"
    room = length_text(ceil(need.room / least - ROUNDING) * least, units)
    words = (
        f"Band saw, {line}: the {side} turned to the column ({way} where the column is left of the blade) needs {room} "
        "of throat from the rectangle that just holds the blank"
    )
    throat = throat_known(plan, stack)
    if throat is None:
        return [f"{words}."]
    if need.room <= throat + ROUNDING:
        return [f"{words}; the saw has {least_text(throat, units)}."]
    way_out = "bore and jigsaw the hole" if need.in_hole else "saw waste corners off first"
    return [f"{words}; the saw has only {least_text(throat, units)}: {way_out}, or use a larger saw."]


def _tab_words(layer: LayerPlan, units: Units) -> list[str]:
    """Where the blank's waste tabs stand, how large they are, and when they come off."""
    found = [
        f"Waste tab {tab.direction % 360.0:g}° counter-clockwise from RIGHT, {length_text(tab.width, units)} wide, "
        f"{length_text(tab.out, units)} out: a seat for a pad."
        for tab in layer.tabs
    ]
    them = "them" if len(found) > 1 else "it"
    after = f"Leave {them} on for gluing and saw {them} off afterwards, on the line of long dashes and three dots."
    return [*found, after] if found else []


def _thin_words(stack: StackPlan, layer: LayerPlan, units: Units) -> list[str]:
    least = stack.containment.least_wood
    if not layer.thin or least is None:
        return []
    sides = {zone.side for zone in layer.thin}
    where = "faces" if len(sides) > 1 else "upper face" if 1 in sides else "lower face"
    asked = fine_text(least.asked, units, "up")
    return [f"Hatched: at the {where} less than {asked} of wood lies on the form: carve there last."]


def _saw_words(layer: LayerPlan, units: Units) -> list[str]:
    curve = least_inner_curve(layer)
    words = []
    if curve.corners:
        words.append(f"{curve.corners} inner corners: make relief cuts or bore them first.")
    if isfinite(curve.radius):
        blade = widest_blade_for(curve.radius)
        least = f"Tightest inner curve: radius {least_text(curve.radius, units)}; "
        if blade is None:
            words.append(least + "tighter than band-saw blades turn: bore it out or make relief cuts.")
        elif blade < BLADES[-1][0]:
            words.append(least + f"take a blade of {length_text(blade, units)} or narrower, and follow its manual.")
    return words


def way_in_words(stack: StackPlan, layer: LayerPlan, units: Units) -> list[str]:
    """How the blade gets into the voids of a layer."""
    words = []
    for way in stack.hollow.ways_in if stack.hollow is not None else ():
        if way.layer != layer.number:
            continue
        start = f"x {number(way.start[0], units)}, y {number(way.start[1], units)}"
        if way.kind == "kerf":
            words.append(
                f"Void: saw in along the grain from the edge at {start} to the void at x {number(way.end[0], units)}, "
                f"y {number(way.end[1], units)} ({length_text(way.length, units)}), cut it out, and glue the kerf "
                f"again with a slip as thick as the kerf in it, before pins are bored and the faces are planed."
            )
        else:
            words.append(
                f"Void: bore Ø {bit_text(way.bit, units)} through the waste at {start}, thread the blade and cut the "
                f"void out from there; a band saw cannot: take a saw whose blade comes loose at one end."
            )
    return words


def under_blocks(plan: Plan, stack: StackPlan, layer: LayerPlan, units: Units) -> list[Block | None]:
    """What is mortised from the underside: a step of its own, after all that is made from this face."""
    if not any(cut.kind == "mortise" for cut in template_cuts(stack, layer)):
        return []
    done = [
        "Last, turn the layer over, left for right: FRONT stays in front, RIGHT comes to the left.",
        "Lay the mirrored underside template on it, FRONT to FRONT, edges and axis lines together; knife the mortise.",
        "Bore and chisel only as deep as the table says, measured from the face that is now up.",
    ]
    return [
        steps("UNDERSIDE mortise: cut nothing for it from this face", done, table_width(units)),
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
    words = [f"Blank {size_text(along, across, units)}, along the grain first."]
    words += _cut_line_words(stack, arcs, units, table)
    words += _tab_words(layer, units) + _thin_words(stack, layer, units)
    words += _throat_words(plan, stack, layer, units) + _saw_words(layer, units)
    for joint in _joints_here(plan, layer):
        member = next((m for m in joint.members if m.stack == stack.name), None)
        if member is not None and member.relief:
            words.append(
                f"“{joint.name}”: the outline has {fine_text(member.relief, units)} relief on each end-grain wall."
            )
        if member is not None and member.wedge is not None:
            words.append(f"“{joint.name}” is wedged here: flare the end-grain walls, see its joint sheet.")
    words += [f"Pins between layers {p.interface} and {p.interface + 1} stand in waste wood: pull them after the glue."
              for p in stack.pins if p.waste and layer.number in (p.interface, p.interface + 1)][:1]  # fmt: skip
    words += way_in_words(stack, layer, units)
    said = notes("Notes", [*words, BAND_SAW], table_width(units))
    pins = pin_blocks(stack, layer, units, table_width(units))
    blocks = [cut_block(layer, units), *pins, drilling_block(plan, stack, layer, units), said]
    blocks += under_blocks(plan, stack, layer, units)
    return [block for block in blocks if block is not None]
