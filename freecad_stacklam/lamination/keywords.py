# SPDX-License-Identifier: LGPL-2.1-or-later

"""Words that stand in files, tables and records as keys, and are said only where a person reads them.

`shown` says them; a name that a maker gave is none of them and stays as it is, whatever signs it holds.
"""

from __future__ import annotations

from freecad_stacklam.lamination.words import mark, say

#: Species of the bundled table.
_SPECIES = (
    mark("white oak"),
    mark("northern red oak"),
    mark("sugar maple"),
    mark("red maple"),
    mark("black walnut"),
    mark("black cherry"),
    mark("white ash"),
    mark("yellow birch"),
    mark("American beech"),
    mark("yellow-poplar"),
    mark("American basswood"),
    mark("eastern white pine"),
    mark("Douglas-fir, coast"),
    mark("mahogany"),
    mark("teak"),
)
#: Kinds of glue of the bundled table.
_GLUES = (
    mark("yellow glue"),
    mark("white glue"),
    mark("slow white glue"),
    mark("urea resin"),
    mark("epoxy"),
    mark("polyurethane glue"),
    mark("liquid hide glue"),
)
#: Rooms of the bundled table.
_CLIMATES = (
    mark("heated winters"),
    mark("damp all year"),
    mark("dry summers"),
)
#: Verdicts.
_VERDICTS = (
    mark("ok"),
    mark("caution"),
    mark("stop"),
)
#: What a row of the bill is.
_ITEMS = (
    mark("blank"),
    mark("tenon"),
    mark("total"),
    mark("form"),
    mark("carved away"),
    mark("finished"),
    mark("glue"),
    mark("caul"),
    mark("rod"),
    mark("dowel"),
    mark("board on hand"),
    mark("board to buy"),
    mark("board for its grade"),
    mark("waste"),
    mark("spare stave"),
    mark("tenon stock"),
    mark("finish"),
    mark("abrasive"),
    mark("work"),
    mark("quote"),
    mark("Total"),
)
#: Kinds of cut and what boards are sawn to.
_CUTS = (
    mark("mortise"),
    mark("pin"),
    mark("hollow"),
    mark("kerf"),
    mark("bored hole"),
    mark("flat"),
    mark("quarter"),
    mark("rift"),
)
#: Months.
_MONTHS = (
    mark("January"),
    mark("February"),
    mark("March"),
    mark("April"),
    mark("May"),
    mark("June"),
    mark("July"),
    mark("August"),
    mark("September"),
    mark("October"),
    mark("November"),
    mark("December"),
)
#: Presses.
_PRESSES = (
    mark("clamp"),
    mark("rod"),
    mark("go-bar"),
    mark("weight"),
    mark("vacuum"),
)
#: Bits.
_BITS = (
    mark("twist"),
    mark("brad point"),
    mark("forstner"),
    mark("rim"),
    mark("spade"),
)
#: Work on boards and the machines that do it, and which way is tried first.
_WORK = (
    mark("crosscut saw"),
    mark("table saw"),
    mark("band saw"),
    mark("jointer"),
    mark("planer"),
    mark("hand plane"),
    mark("crosscut"),
    mark("rip"),
    mark("flatten a face, joint an edge"),
    mark("joint an edge"),
    mark("plane to thickness"),
    mark("joint the glued edges"),
    mark("better"),
)
#: Marks of depth holes.
_MARKS = (
    mark("plain"),
    mark("triangle"),
    mark("square"),
    mark("diamond"),
    mark("hexagon"),
    mark("star"),
)
#: Limits that a set-up may break.
_LIMITS = (
    mark("clock"),
    mark("open time"),
    mark("clamps"),
    mark("opening"),
    mark("throat"),
    mark("lift"),
    mark("crushing"),
    mark("pressure"),
    mark("reach"),
    mark("chisel"),
    mark("order"),
)
#: Sections that are judged, what breaks, and strengths of wood.
_STRENGTHS = (
    mark("neck"),
    mark("overhang"),
    mark("span"),
    mark("wall"),
    mark("across the grain"),
    mark("along the grain"),
    mark("glue line"),
    mark("bending along the grain"),
    mark("tension across the grain"),
    mark("compression across the grain"),
    mark("shear along the grain"),
    mark("rolling shear"),
)
#: Names of marks on section templates.
_TEMPLATE = (mark("axis"), mark("middle"))
_ALL = frozenset(
    (
        *_TEMPLATE,
        *_LIMITS,
        *_STRENGTHS,
        *_SPECIES,
        *_GLUES,
        *_CLIMATES,
        *_VERDICTS,
        *_ITEMS,
        *_CUTS,
        *_MONTHS,
        *_PRESSES,
        *_BITS,
        *_WORK,
        *_MARKS,
    )
)


def shown(word: str) -> str:
    """A word of the program's in the language that is spoken; any other, a maker's own name, as it is."""
    return say(word) if word in _ALL else word
