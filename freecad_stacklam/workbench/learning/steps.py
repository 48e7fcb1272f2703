# SPDX-License-Identifier: LGPL-2.1-or-later

"""The steps of the first piece, a low stool for a candle: a turned foot under a round top.

Each step is a record: what to do, and how to see whether it is done. The guide's window and docs/tutorial.md are both
made of them. Texts are marked here and translated where they are shown, with the sizes put in after that.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP
from freecad_stacklam.workbench.learning.judging import (
    Missing,
    see_bench,
    see_checks,
    see_cone,
    see_cylinder,
    see_disc_sizes,
    see_document,
    see_drawings,
    see_foot_boards,
    see_foot_sizes,
    see_joint,
    see_part,
    see_pins,
    see_read,
    see_rim,
    see_save,
    see_top_boards,
)
from freecad_stacklam.workbench.learning.seen import Seen


def numbered(lines: Sequence[str]) -> list[str]:
    """Lines with their numbers, where there are several."""
    return [f"{n}. {line}" for n, line in enumerate(lines, 1)] if len(lines) > 1 else list(lines)


@dataclass(frozen=True)
class Step:
    """One step. lines: what to do, in order; seconds: how long it takes; check: None when it is done; lasting: whether
    the document shows it ever after; command, row, fields: where it is done, in the toolbar, in the tree and in a panel
    (row: which of Seen's solids or stacks); picture: the name of the one in the tutorial."""

    key: str
    title: str
    lines: tuple[str, ...]
    seconds: int
    check: Callable[[Seen], Missing | None]
    lasting: bool = True
    command: str = ""
    row: str = ""
    fields: tuple[str, ...] = ()
    picture: str = ""


STEPS: tuple[Step, ...] = (
    Step(
        "document",
        QT_TRANSLATE_NOOP("StackLam", "An empty document"),
        (QT_TRANSLATE_NOOP("StackLam", "Press New in the toolbar."),),
        10, see_document, command="Std_New",
    ),
    Step(
        "part",
        QT_TRANSLATE_NOOP("StackLam", "The workbench Part"),
        (QT_TRANSLATE_NOOP("StackLam", "Choose Part in the list of workbenches, in the toolbar."),),
        15, see_part, lasting=False, command="workbenches",
    ),
    Step(
        "cone",
        QT_TRANSLATE_NOOP("StackLam", "A cone for the foot"),
        (QT_TRANSLATE_NOOP("StackLam", "Press Cone in the toolbar. What a toolbar has no room for lies under its »."),),
        10, see_cone, command="Part_Cone",
    ),
    Step(
        "foot",
        QT_TRANSLATE_NOOP("StackLam", "The sizes of the foot"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Double click Cone in the tree."),
            QT_TRANSLATE_NOOP("StackLam", "Type Radius 1: {bottom}, Radius 2: {neck}, Height: {high}."),
            QT_TRANSLATE_NOOP("StackLam", "Is the panel cut off at its side, drag its edge wider."),
            QT_TRANSLATE_NOOP("StackLam", "Press OK. Press V, then F, to see all of it."),
        ),
        45, see_foot_sizes, row="foot", fields=("coneRadius1", "coneRadius2", "coneHeight"), picture="foot",
    ),
    Step(
        "cylinder",
        QT_TRANSLATE_NOOP("StackLam", "A cylinder for the top"),
        (QT_TRANSLATE_NOOP("StackLam", "Press Cylinder in the toolbar."),),
        10, see_cylinder, command="Part_Cylinder",
    ),
    Step(
        "top",
        QT_TRANSLATE_NOOP("StackLam", "The sizes of the top"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Double click Cylinder in the tree."),
            QT_TRANSLATE_NOOP("StackLam", "Type Radius: {wide}, Height: {thick}."),
            QT_TRANSLATE_NOOP("StackLam", "At Position, type Z: {high}. So it lies on the foot."),
            QT_TRANSLATE_NOOP("StackLam", "Press OK."),
        ),
        50, see_disc_sizes, row="disc", fields=("cylinderRadius", "cylinderHeight", "ZPositionQSB"),
    ),
    Step(
        "rim",
        QT_TRANSLATE_NOOP("StackLam", "A round rim"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Select Cylinder in the tree and press Fillet."),
            QT_TRANSLATE_NOOP("StackLam", "Press All, type Radius: {round}, and press OK."),
        ),
        40, see_rim, command="Part_Fillet", row="disc", fields=("selectAllButton", "filletStartRadius"), picture="rim",
    ),
    Step(
        "bench",
        QT_TRANSLATE_NOOP("StackLam", "Back to StackLam"),
        (QT_TRANSLATE_NOOP("StackLam", "The form is done. Choose StackLam in the list of workbenches."),),
        15, see_bench, lasting=False, command="workbenches",
    ),
    Step(
        "slice foot",
        QT_TRANSLATE_NOOP("StackLam", "Slice the foot"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Select Cone in the tree and press Slice form into layers."),
            QT_TRANSLATE_NOOP("StackLam", "Type Name of the piece: Foot, Stock thickness: {foot_boards}."),
            QT_TRANSLATE_NOOP("StackLam", "See what it takes, and press OK."),
        ),
        60, see_foot_boards, command="StackLam_SliceForm", row="foot", fields=("piece", "stock"), picture="slice",
    ),
    Step(
        "slice top",
        QT_TRANSLATE_NOOP("StackLam", "Slice the top"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Select Fillet in the tree and press Slice form into layers."),
            QT_TRANSLATE_NOOP("StackLam", "Type Name of the piece: Top, Stock thickness: {top_boards}. Press OK."),
        ),
        45, see_top_boards, command="StackLam_SliceForm", row="rim", fields=("piece", "stock"),
    ),
    Step(
        "joint",
        QT_TRANSLATE_NOOP("StackLam", "Join them"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Press Add mortise and tenon: both stacks are taken."),
            QT_TRANSLATE_NOOP("StackLam", "Type Side or diameter: {tenon}. See where least wood is left. Press OK."),
        ),
        50, see_joint, command="StackLam_AddJoint", fields=("tenonSide",), picture="joint",
    ),
    Step(
        "pins",
        QT_TRANSLATE_NOOP("StackLam", "Pin the layers of the foot"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Select the stack of the foot in the tree and press Set pins."),
            QT_TRANSLATE_NOOP("StackLam", "Leave the values as they are, and press OK."),
        ),
        40, see_pins, command="StackLam_SetPins", row="foot stack", fields=("pinDiameter",),
    ),
    Step(
        "checks",
        QT_TRANSLATE_NOOP("StackLam", "See what the checks say"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Press Check the stacks."),
            QT_TRANSLATE_NOOP(
                "StackLam",
                "Stops come first, then cautions. Here nothing says stop; what asks for care is the short tenon in the "
                "thin top, and a pin that stands near it.",
            ),
            QT_TRANSLATE_NOOP("StackLam", "Close the table."),
        ),
        60, see_checks, lasting=False, command="StackLam_CheckStack", picture="checks",
    ),
    Step(
        "save",
        QT_TRANSLATE_NOOP("StackLam", "Save it"),
        (QT_TRANSLATE_NOOP("StackLam", "Press Save, and give it a name. The drawings will lie beside it."),),
        30, see_save, lasting=False, command="Std_Save",
    ),
    Step(
        "drawings",
        QT_TRANSLATE_NOOP("StackLam", "The drawings"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Press Layer drawings. Previous and Next leaf through them."),
            QT_TRANSLATE_NOOP("StackLam", "Leave the file name as it is, and press Write PDF."),
            QT_TRANSLATE_NOOP("StackLam", "Press Close."),
        ),
        60, see_drawings, command="StackLam_LayerDrawings", fields=("writePdf",), picture="drawings",
    ),
    Step(
        "read",
        QT_TRANSLATE_NOOP("StackLam", "Print and measure"),
        (
            QT_TRANSLATE_NOOP("StackLam", "Open the PDF. Page 1 lists the pages and explains the lines; page 2 warns."),
            QT_TRANSLATE_NOOP("StackLam", "Print page 1 at 100 %, “actual size”, not “fit to page”."),
            QT_TRANSLATE_NOOP(
                "StackLam",
                "Measure the check scales at its foot and up its side with a steel rule: 100 mm, and 4 in. "
                "Is either off, mend the printer's scale.",
            ),
            QT_TRANSLATE_NOOP(
                "StackLam", "Print the rest, and measure the scales of every template before you saw by it."
            ),
        ),
        60, see_read, lasting=False,
    ),
)  # fmt: skip
