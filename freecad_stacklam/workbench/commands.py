# SPDX-License-Identifier: LGPL-2.1-or-later

"""The workbench's commands: each is thin, and asks the room that does the work."""

from __future__ import annotations

from collections.abc import Collection
from typing import Any, ClassVar

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.family import in_use
from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.packages.missing import require
from freecad_stacklam.packages.needs import PLANNING, Need
from freecad_stacklam.workbench.fields.messages import says_no_plainly
from freecad_stacklam.workbench.fields.panel import icon_path, open_panel
from freecad_stacklam.workbench.fields.picking import (
    one_stack,
    picked_form,
    picked_stacks,
    picks,
    stacks_in,
    stacks_to_join,
)
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.help.keys import listen_to
from freecad_stacklam.workbench.speech import speak_as_asked


class Command:
    """What FreeCAD asks of a command."""

    name = ""
    keys = ""
    text = ""
    tip = ""
    #: The packages without which it cannot work.
    needs: ClassVar[tuple[Need, ...]] = PLANNING
    #: FreeCAD's own word for a command that may be pressed while a panel is open, or empty.
    allowed = ""

    def GetResources(self) -> dict[str, str]:
        """Name, explanation, picture and keys of the button."""
        return {
            "MenuText": translate("StackLam", self.text),
            "ToolTip": translate("StackLam", self.tip),
            "WhatsThis": self.name,
            "Accel": self.keys,
            "Pixmap": icon_path(self.name),
        } | ({"CmdType": self.allowed} if self.allowed else {})

    def IsActive(self) -> bool:
        """Whether the button can be pressed: with a document open, and no other panel."""
        return FreeCAD.ActiveDocument is not None and not FreeCADGui.Control.activeDialog()

    @says_no_plainly
    def Activated(self, *_: Any) -> Any:
        """Called when the button is pressed."""
        require(self.needs, "This cannot be done yet")
        speak_as_asked()
        made = self.do(FreeCAD.ActiveDocument)
        listen_to(made)
        return made

    def do(self, document: Document) -> Any:
        """The command's work. A Refusal becomes its sentence."""
        raise NotImplementedError


class SliceForm(Command):
    name = "StackLam_SliceForm"
    keys = "Y, S"
    text = QT_TRANSLATE_NOOP("StackLam", "Slice form into layers")
    tip = QT_TRANSLATE_NOOP(
        "StackLam",
        "Slice the selected form into layers that can be cut from your boards. With a stack selected, change it.",
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.panels.slice_panel import SlicePanel, edit

        form, path = picked_form()
        if kind_of(form) in ("stack", "layer"):
            (stack,) = picked_stacks()
            open_panel(lambda: edit(stack))
        else:
            open_panel(lambda: SlicePanel(form, path))


class AddJoint(Command):
    name = "StackLam_AddJoint"
    keys = "Y, J"
    text = QT_TRANSLATE_NOOP("StackLam", "Add mortise and tenon")
    tip = QT_TRANSLATE_NOOP("StackLam", "Join two or more stacks by a floating tenon along an axis")

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.panels.joint_panel import JointPanel

        stacks = stacks_to_join()
        open_panel(lambda: JointPanel(stacks))


class _OnStacks(Command):
    """A command that needs at least one stack in the document."""

    def IsActive(self) -> bool:
        return super().IsActive() and bool(stacks_in(FreeCAD.ActiveDocument))


class SetPins(_OnStacks):
    name = "StackLam_SetPins"
    keys = "Y, P"
    text = QT_TRANSLATE_NOOP("StackLam", "Set pins")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "Pin the layers of the selected stack, so that none can slip or be laid the wrong way round"
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.panels.pins_panel import PinsPanel

        stack = one_stack()
        pins = _picked("pins") or in_use(stack, "pins")
        open_panel(lambda: PinsPanel(stack, pins))


class HollowLayers(_OnStacks):
    name = "StackLam_HollowLayers"
    keys = "Y, H"
    text = QT_TRANSLATE_NOOP("StackLam", "Hollow the layers")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "Cut voids into the inner layers of the selected stack, to save weight and wood"
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.panels.hollow_panel import HollowPanel

        stack = one_stack()
        hollow = _picked("hollow") or in_use(stack, "hollow")
        open_panel(lambda: HollowPanel(stack, hollow))


def _picked(kind: str) -> Any:
    """The one picked object of this kind, or None."""
    found = [p.target for p in picks() if kind_of(p.target) == kind]
    return found[0] if len(found) == 1 else None


class BoardRack(Command):
    name = "StackLam_BoardRack"
    keys = "Y, R"
    text = QT_TRANSLATE_NOOP("StackLam", "Board rack")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "List the boards on hand and those you can buy, in a spreadsheet of the document"
    )

    def do(self, document: Document) -> Any:
        from freecad_stacklam.workbench.panels.rack_editor import show_rack

        return show_rack(document)


class CutBoards(_OnStacks):
    name = "StackLam_CutBoards"
    keys = "Y, B"
    text = QT_TRANSLATE_NOOP("StackLam", "Cut the boards")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "Plan how the staves of all layers are cut from the boards of the rack, and what must be bought"
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.panels.cutboards_panel import CutBoardsPanel

        open_panel(lambda: CutBoardsPanel(document))


class CarvingGuide(_OnStacks):
    name = "StackLam_CarvingGuide"
    keys = "Y, C"
    text = QT_TRANSLATE_NOOP("StackLam", "Carving guide")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "Depth holes, offsets, section templates and glue lines: what guides the carving down to the form"
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.panels.carving_panel import CarvingPanel

        open_panel(lambda: CarvingPanel(document))


class PlanGlueUp(_OnStacks):
    name = "StackLam_PlanGlueUp"
    keys = "Y, G"
    text = QT_TRANSLATE_NOOP("StackLam", "Plan the glue-up")
    tip = QT_TRANSLATE_NOOP(
        "StackLam",
        "Which layers are glued at once, in which order, with the clamps, the glue and the hands at hand",
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.gluing.glueup_panel import GlueUpPanel

        open_panel(lambda: GlueUpPanel(document))


class CheckStack(_OnStacks):
    name = "StackLam_CheckStack"
    keys = "Y, K"
    text = QT_TRANSLATE_NOOP("StackLam", "Check the stacks")
    tip = QT_TRANSLATE_NOOP(
        "StackLam",
        "Show what the checks say: does the form lie inside its blanks, is there enough wood round the joints",
    )

    def do(self, document: Document) -> Any:
        from freecad_stacklam.workbench.panels.check_table import show_checks

        return show_checks(document)


class FinishedPiece(_OnStacks):
    name = "StackLam_FinishedPiece"
    keys = "Y, F"
    text = QT_TRANSLATE_NOOP("StackLam", "Finished piece")
    tip = QT_TRANSLATE_NOOP(
        "StackLam",
        "Say how the piece will be used and where: does it stand and hold, what does a year do to it",
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.piece.piece_panel import PiecePanel

        open_panel(lambda: PiecePanel(document))


class LayerDrawings(_OnStacks):
    name = "StackLam_LayerDrawings"
    keys = "Y, D"
    text = QT_TRANSLATE_NOOP("StackLam", "Layer drawings")
    tip = QT_TRANSLATE_NOOP("StackLam", "Full-size templates of every layer, overviews and lists, as a PDF to print")

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.panels.drawings import DrawingsPanel

        open_panel(lambda: DrawingsPanel(document))


class Bill(_OnStacks):
    name = "StackLam_Bill"
    keys = "Y, L"
    text = QT_TRANSLATE_NOOP("StackLam", "Bill of wood")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "Write the bill of wood into a spreadsheet of the document, and on request into a CSV file"
    )

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.bill import make_bill

        make_bill(document)


class Example(Command):
    name = "StackLam_Example"
    keys = "Y, E"
    text = QT_TRANSLATE_NOOP("StackLam", "Open the example")
    tip = QT_TRANSLATE_NOOP(
        "StackLam",
        "Open a plant stand to try the workbench on, as a new document of your own. The menu has more examples.",
    )
    needs = ()
    #: Which example, of those in `data.EXAMPLES`, and what its document is called.
    piece, label = "plant-stand", QT_TRANSLATE_NOOP("StackLam", "Plant stand")

    def IsActive(self) -> bool:
        return not FreeCADGui.Control.activeDialog()

    def do(self, document: Document) -> Any:
        from freecad_stacklam.workbench.example import open_example

        return open_example(self.piece, translate("StackLam", self.label))


class FirstPiece(Command):
    name = "StackLam_FirstPiece"
    keys = "Y, 1"
    text = QT_TRANSLATE_NOOP("StackLam", "First piece")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "Ten minutes from an empty document to printed drawings: a guide that sees what you have done"
    )
    allowed = "ForEdit"

    def IsActive(self) -> bool:
        return True

    def do(self, document: Document) -> Any:
        from freecad_stacklam.workbench.learning.guide import show_guide

        return show_guide()


class Help(Command):
    name = "StackLam_Help"
    keys = "Y, M"
    text = QT_TRANSLATE_NOOP("StackLam", "Help on StackLam")
    tip = QT_TRANSLATE_NOOP(
        "StackLam", "A page for each command, the words of the trade, and the limits; no network is asked"
    )
    needs = ()
    allowed = "ForEdit"

    def IsActive(self) -> bool:
        return True

    def do(self, document: Document) -> None:
        from freecad_stacklam.workbench.help.window import show_help

        show_help("contents")


class OtherExample(Example):
    """One of the lines of the menu below the example's own."""

    keys = ""

    def GetResources(self) -> dict[str, str]:
        shared = {"WhatsThis": Example.name, "Pixmap": icon_path(Example.name)}
        return super().GetResources() | shared


class LowSeatExample(OtherExample):
    name, piece = "StackLam_ExampleLowSeat", "low-seat"
    text = label = QT_TRANSLATE_NOOP("StackLam", "Low seat")
    tip = QT_TRANSLATE_NOOP("StackLam", "A dished seat on three splayed legs, each leg a stack of its own")


class VesselExample(OtherExample):
    name, piece = "StackLam_ExampleVessel", "vessel"
    text = label = QT_TRANSLATE_NOOP("StackLam", "Vessel")
    tip = QT_TRANSLATE_NOOP("StackLam", "A vessel that is open inside, so that its layers are rings")


class LeaningTableExample(OtherExample):
    name, piece = "StackLam_ExampleLeaningTable", "leaning-table"
    text = label = QT_TRANSLATE_NOOP("StackLam", "Leaning table")
    tip = QT_TRANSLATE_NOOP("StackLam", "A small table on a base that leans, hollow above its foot")


#: In a menu of their own, below the others.
MORE_EXAMPLES: tuple[type[Command], ...] = (LowSeatExample, VesselExample, LeaningTableExample)

#: The commands as they stand in the toolbar and in the menu: what makes the stacks, what the bench needs, what comes of
#: it, and something to try it on.
GROUPS: tuple[tuple[type[Command], ...], ...] = (
    (SliceForm, AddJoint, SetPins, HollowLayers),
    (BoardRack, CutBoards, PlanGlueUp, CarvingGuide),
    (FinishedPiece, CheckStack, LayerDrawings, Bill),
    (FirstPiece, Example, Help),
)
COMMANDS = tuple(command for group in GROUPS for command in group)
NAMES = [command.name for command in COMMANDS]


def in_groups() -> list[str]:
    """The names of the commands with FreeCAD's word for a line between the groups."""
    rows = [[command.name for command in group] for group in GROUPS]
    return [name for i, row in enumerate(rows) for name in ([*(["Separator"] if i else []), *row])]


def more_examples() -> tuple[list[str], list[str]]:
    """The menu of the examples after the first, and the names of the commands in it."""
    return ["StackLam", translate("StackLam", "More examples")], [command.name for command in MORE_EXAMPLES]


def fitting(kinds: Collection[str]) -> list[str]:
    """The names of the commands that work on what is picked, for its context menu. kinds: those of the picked objects,
    "" for one that is none of ours."""
    if not kinds:
        return []
    if set(kinds) == {""}:
        return [SliceForm.name]
    inside = [SetPins, HollowLayers] if set(kinds) & {"stack", "layer", "pins", "hollow"} else []
    joint = [AddJoint] if "stack" in kinds else []
    slicing = [SliceForm] if set(kinds) & {"stack", "layer"} else []
    return [command.name for command in (*slicing, *joint, *inside, CheckStack, LayerDrawings)]


def picked_kinds() -> list[str]:
    """What kinds of objects are picked, as `fitting` takes them."""
    return [kind_of(p.target) or "" for p in picks() if p.target is not None]


def register() -> None:
    """Make the commands known to FreeCAD."""
    for command in (*COMMANDS, *MORE_EXAMPLES):
        FreeCADGui.addCommand(command.name, command())
