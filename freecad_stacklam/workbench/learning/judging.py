# SPDX-License-Identifier: LGPL-2.1-or-later

"""Whether a step of the first piece is done, and what differs from what was asked. Lengths mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from freecad_stacklam.lamination.lengths import INCH, format_length
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP
from freecad_stacklam.workbench.learning.seen import Pile, Seen, Solid

#: The sizes of the piece by units, mm.
SIZES: Mapping[str, Mapping[str, float]] = {
    "mm": {
        "bottom": 80.0, "neck": 50.0, "high": 160.0, "wide": 120.0, "thick": 40.0, "round": 10.0,
        "foot_boards": 40.0, "top_boards": 20.0, "tenon": 30.0,
    },
    "in": {
        "bottom": 3 * INCH, "neck": 2 * INCH, "high": 6 * INCH, "wide": 4.5 * INCH, "thick": 1.5 * INCH,
        "round": 0.375 * INCH, "foot_boards": 1.5 * INCH, "top_boards": 0.75 * INCH, "tenon": 1.125 * INCH,
    },
}  # fmt: skip
#: A size is as asked within this, mm: FreeCAD rounds what it shows.
CLOSE = 0.3
#: FreeCAD 0.20 rounds what is typed in inches into its panels, to two figures in metres: by less than this share.
ROUNDED = 0.05


#: Sizes that are typed into FreeCAD's own panels, which take 4-1/2 for a subtraction.
HOST = ("bottom", "neck", "high", "wide", "thick", "round")


def texts(units: str) -> dict[str, str]:
    """The sizes as they are typed."""
    sizes = SIZES[units].items()
    return {n: f"{v / INCH:g} in" if units == "in" and n in HOST else format_length(v, units) for n, v in sizes}


@dataclass(frozen=True)
class Missing:
    """What is not done yet. says: a marked sentence where something else was done than was asked, else empty; values:
    what it names."""

    says: str = ""
    values: Mapping[str, str] = field(default_factory=dict)


def see_document(seen: Seen) -> Missing | None:
    if seen.title and not (seen.ours or seen.followed):
        return Missing(
            QT_TRANSLATE_NOOP("StackLam", "“{title}” holds other things and stays as it is: press New for the piece."),
            {"title": seen.title},
        )
    return None if seen.title else Missing()


def see_part(seen: Seen) -> Missing | None:
    if seen.workbench == "PartDesignWorkbench":
        return Missing(QT_TRANSLATE_NOOP("StackLam", "Part Design is another workbench: choose Part."))
    return None if seen.workbench == "PartWorkbench" else Missing()


def see_bench(seen: Seen) -> Missing | None:
    return None if seen.workbench == "StackLamWorkbench" else Missing()


def _lost(seen: Seen) -> Missing | None:
    """A stack whose form was deleted: that is best undone."""
    if seen.orphan is None:
        return None
    return Missing(
        QT_TRANSLATE_NOOP(
            "StackLam",
            "The form of “{stack}” was deleted: press Undo. Or delete “{stack}” too, and make the form again.",
        ),
        {"stack": seen.orphan.label},
    )


def see_cone(seen: Seen) -> Missing | None:
    if seen.foot is not None:
        return _lost(seen)
    return _lost(seen) or _another(
        seen, QT_TRANSLATE_NOOP("StackLam", "“{label}” is no cone: press Cone. The other may stay or go.")
    )


def see_cylinder(seen: Seen) -> Missing | None:
    if seen.disc is not None:
        return _lost(seen)
    return _lost(seen) or _another(
        seen, QT_TRANSLATE_NOOP("StackLam", "“{label}” is no cylinder: press Cylinder. The other may stay or go.")
    )


def _another(seen: Seen, says: str) -> Missing:
    """The last solid is of another kind than asked."""
    others = [s for s in seen.solids if s not in (seen.foot, seen.disc, seen.rim)]
    return Missing(says, {"label": others[-1].label}) if others else Missing()


#: The host's names of sizes, as its panels have them.
NAMES = {
    "Radius1": QT_TRANSLATE_NOOP("StackLam", "Radius 1"),
    "Radius2": QT_TRANSLATE_NOOP("StackLam", "Radius 2"),
    "Radius": QT_TRANSLATE_NOOP("StackLam", "Radius"),
    "Height": QT_TRANSLATE_NOOP("StackLam", "Height"),
    "x": QT_TRANSLATE_NOOP("StackLam", "Position X"),
    "y": QT_TRANSLATE_NOOP("StackLam", "Position Y"),
    "z": QT_TRANSLATE_NOOP("StackLam", "Position Z"),
}
FOOT = {"Radius1": "bottom", "Radius2": "neck", "Height": "high", "x": "", "y": "", "z": ""}
DISC = {"Radius": "wide", "Height": "thick", "x": "", "y": "", "z": "high"}
FRESH = {"Radius1": 2.0, "Radius2": 4.0, "Radius": 2.0, "Height": 10.0}


def sized(solid: Solid | None, wanted: Mapping[str, str], units: str) -> Missing | None:
    """Whether a solid has its sizes, in either unit; else the first that is wrong, unless none was touched yet."""
    if solid is None:
        return Missing()
    wrong = {unit: _wrong(solid, wanted, unit) for unit in SIZES}
    if not all(wrong.values()):
        return _whole(solid)
    if all(abs(solid.sizes.get(name, 0.0) - FRESH.get(name, 0.0)) < CLOSE for name in wanted):
        return Missing()
    name = wrong[units][0]
    now, asked = solid.sizes.get(name, 0.0), SIZES[units].get(wanted[name], 0.0)
    says = QT_TRANSLATE_NOOP(
        "StackLam", "{name} of “{label}” is {now}, not {asked}: double click “{label}” and type it again."
    )
    if units == "in" and abs(now - asked) < ROUNDED * asked:
        says = QT_TRANSLATE_NOOP(
            "StackLam",
            "FreeCAD 0.20 rounds inches here: {name} of “{label}” became {now}. Press Do it for me, and it is {asked}.",
        )
    return Missing(
        says,
        {
            "name": NAMES[name],
            "label": solid.label,
            "now": format_length(now, units),
            "asked": format_length(asked, units),
        },
    )


def _wrong(solid: Solid, wanted: Mapping[str, str], units: str) -> list[str]:
    asked = {name: SIZES[units].get(size, 0.0) for name, size in wanted.items()}
    return [name for name, value in asked.items() if abs(solid.sizes.get(name, 0.0) - value) > CLOSE]


def _whole(solid: Solid) -> Missing | None:
    if abs(solid.sizes.get("Angle", 360.0) - 360.0) < CLOSE and not solid.sizes.get("lean", 0.0):
        return None
    return Missing(
        QT_TRANSLATE_NOOP(
            "StackLam", "“{label}” is not whole or does not stand upright: its angles are 360° and 0°, as at first."
        ),
        {"label": solid.label},
    )


def see_foot_sizes(seen: Seen) -> Missing | None:
    return sized(seen.foot, FOOT, seen.units)


def see_disc_sizes(seen: Seen) -> Missing | None:
    return sized(seen.disc, DISC, seen.units)


def see_rim(seen: Seen) -> Missing | None:
    if seen.rim is None:
        return Missing()
    if seen.rim.broken:
        return Missing(
            QT_TRANSLATE_NOOP("StackLam", "“{label}” cannot be made: press Undo, and type a smaller radius."),
            {"label": seen.rim.label},
        )
    return None


def boards(pile: Pile | None, size: str, units: str) -> Missing | None:
    """Whether a stack is there, of the boards that were asked for, and holds its form."""
    if pile is None:
        return Missing()
    if all(abs(pile.stock - SIZES[unit][size]) > CLOSE for unit in SIZES):
        return Missing(
            QT_TRANSLATE_NOOP(
                "StackLam", "“{label}” is of boards of {now}: double click it in the tree, and type {asked}."
            ),
            {
                "label": pile.label,
                "now": format_length(pile.stock, units),
                "asked": format_length(SIZES[units][size], units),
            },
        )
    if pile.verdict == "stop":
        return Missing(
            QT_TRANSLATE_NOOP(
                "StackLam", "“{label}” does not hold its form: double click it, and type an allowance of 3 mm."
            ),
            {"label": pile.label},
        )
    return None


def see_foot_boards(seen: Seen) -> Missing | None:
    return boards(seen.pile_of(seen.foot), "foot_boards", seen.units)


def see_top_boards(seen: Seen) -> Missing | None:
    if seen.pile_of(seen.rim) is None and seen.pile_of(seen.disc) is not None:
        return Missing(
            QT_TRANSLATE_NOOP(
                "StackLam", "That was the cylinder before it was rounded: delete its stack, and slice “{label}”."
            ),
            {"label": seen.rim.label if seen.rim is not None else ""},
        )
    return boards(seen.pile_of(seen.rim), "top_boards", seen.units)


def see_joint(seen: Seen) -> Missing | None:
    foot, top = seen.pile_of(seen.foot), seen.pile_of(seen.rim)
    if foot is None or top is None:
        return Missing()
    verdict = next((verdict for names, verdict in seen.joints if {foot.name, top.name} <= set(names)), None)
    if verdict == "stop":
        return Missing(
            QT_TRANSLATE_NOOP("StackLam", "The mortise breaks out: double click the joint, and type a side of {tenon}.")
        )
    return None if verdict in ("ok", "caution") else Missing()


def see_pins(seen: Seen) -> Missing | None:
    foot = seen.pile_of(seen.foot)
    if foot is None:
        return Missing()
    verdicts = dict(seen.pins)
    if verdicts and foot.name not in verdicts:
        return Missing(
            QT_TRANSLATE_NOOP("StackLam", "Those pins are in another stack: select “{label}” and set its pins too."),
            {"label": foot.label},
        )
    if verdicts.get(foot.name) == "stop":
        return Missing(QT_TRANSLATE_NOOP("StackLam", "These pins do not fit: delete them, and set them as offered."))
    return None if foot.name in verdicts else Missing()


def see_checks(seen: Seen) -> Missing | None:
    if seen.table == "open":
        return Missing(QT_TRANSLATE_NOOP("StackLam", "When you have read it, close the table."))
    return None if seen.table == "closed" else Missing()


def see_save(seen: Seen) -> Missing | None:
    return None if seen.saved else Missing()


def see_drawings(seen: Seen) -> Missing | None:
    if seen.drawings == "old":
        return Missing(QT_TRANSLATE_NOOP("StackLam", "{pdf} is of an earlier piece: write it anew."), {"pdf": seen.pdf})
    return None if seen.drawings == "there" else Missing()


def see_read(seen: Seen) -> Missing | None:
    return Missing()
