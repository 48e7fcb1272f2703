# SPDX-License-Identifier: LGPL-2.1-or-later

"""What holds each piece of a stave in its blank: the length of its edge glue, once voids have cut the staves apart."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon

from freecad_stacklam.lamination.lengths import format_length, format_place, rounded_down
from freecad_stacklam.lamination.plan.areas import areas_of, blank_area, cut_plan
from freecad_stacklam.lamination.plan.boards import Stave
from freecad_stacklam.lamination.plan.checks import Check
from freecad_stacklam.lamination.plan.layers import LayerPlan, StackPlan
from freecad_stacklam.lamination.tolerances import SEAM_TOUCH
from freecad_stacklam.lamination.words import say

#: A piece with less edge glue than this, mm, may come off before the layers are glued (common practice, no source).
LEAST_EDGE = 50.0
#: Pieces smaller than this, mm², are sawdust.
_SAWDUST = 25.0


@dataclass(frozen=True)
class LoosePiece:
    """A piece of a stave that is held by little edge glue: `length` mm, at `place` from the datum."""

    layer: int
    stave: str
    place: tuple[float, float]
    length: float


def loose_pieces(
    layer: LayerPlan, staves: Mapping[str, Polygon], least: float = LEAST_EDGE, touch: float = SEAM_TOUCH
) -> tuple[LoosePiece, ...]:
    """Pieces that the layer's outline and voids leave of its staves, with less than `least` mm of edge glue.

    staves: the strips of this layer by name, in the stack's plan. touch: edges this near, mm, are one seam. A blank
    of one stave has no seams and no loose piece.
    """
    voids = [cut_plan(c) for c in layer.cuts if c.kind == "hollow" and c.end - c.start > 0]
    wood = blank_area(layer.blank)
    if voids:
        wood = areas_of(wood.difference(shapely.union_all(voids)))
    parts = {name: areas_of(strip.intersection(wood)) for name, strip in staves.items()}
    found = []
    for name, pieces in parts.items():
        others = [p for other, p in parts.items() if other != name and p.distance(pieces) < touch]
        if not others:
            continue
        near = shapely.union_all(others).buffer(touch, cap_style="flat", join_style="mitre")
        for piece in pieces.geoms:
            if piece.area < _SAWDUST:
                continue
            length = float(piece.boundary.intersection(near).length)
            if length < least:
                at = piece.representative_point()
                found.append(LoosePiece(layer.number, name, (float(at.x), float(at.y)), length))
    return tuple(found)


def edge_glue_checks(
    stack: StackPlan, staves: Sequence[Stave], least: float = LEAST_EDGE, units: str = "mm"
) -> list[Check]:
    """A verdict on the hollow layers of a stack that are made of these staves; none where nothing is hollow or no stave
    is planned. least: edge glue, mm, below which a piece counts as loose. units: "mm" or
    "in", how the sentences tell lengths."""
    strips: dict[int, dict[str, Polygon]] = {}
    for stave in staves:
        if stave.stack == stack.name:
            strips.setdefault(stave.layer, {})[stave.id] = Polygon(stave.region)
    hollow = [n for n in stack.layers if n.number in strips and any(c.kind == "hollow" for c in n.cuts)]
    if stack.hollow is None or not hollow:
        return []
    loose = [piece for layer in hollow for piece in loose_pieces(layer, strips[layer.number], least)]
    name = say("{stack}: edge glue of pieces around voids", stack=stack.name)
    wanted = format_length(least, units)
    if not loose:
        says = say(
            "Every piece of a stave around the voids of {stack} has at least {wanted} of edge glue.",
            stack=stack.name,
            wanted=wanted,
        )
        return [Check(name, "ok", 0.0, 0.0, "pieces", say("common practice, no source"), says)]
    worst = min(loose, key=lambda p: p.length)
    length = format_length(rounded_down(worst.length, units), units)
    says = say(
        "{count} pieces around the voids of {stack} have less than {wanted} of edge glue; {stave} at "
        "({place}) has {length}: glue the blank before its void is sawn, or move the seam.",
        count=len(loose),
        stack=stack.name,
        wanted=wanted,
        stave=worst.stave,
        place=format_place(worst.place, units),
        length=length,
    )
    return [Check(name, "caution", float(len(loose)), 0.0, "pieces", say("common practice, no source"), says)]
