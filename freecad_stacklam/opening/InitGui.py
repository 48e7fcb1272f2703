# SPDX-License-Identifier: LGPL-2.1-or-later

"""Registers the StackLam workbench.

FreeCAD runs this file inside one of its own functions and gives it no `__file__`: names made here are not seen by the
methods below, so everything is imported where it is used.
"""

import FreeCADGui


class StackLamWorkbench(FreeCADGui.Workbench):
    """The workbench as FreeCAD lists it."""

    MenuText = "StackLam"
    ToolTip = "Plan sculpted furniture as glued-up layers of solid wood"

    def __init__(self) -> None:
        from pathlib import Path

        import freecad_stacklam
        from freecad_stacklam.workbench.installing.standins import stand_in_where_needed
        from freecad_stacklam.workbench.looks import register
        from freecad_stacklam.workbench.speech import bring_translations

        icons = Path(freecad_stacklam.__file__).resolve().parent.parent / "icons"
        self.__class__.Icon = str(icons / "stacklam.svg")
        # From the start, so that stacks look right in a file that is opened before the workbench is, and so that none
        # is lost where a package is missing.
        stand_in_where_needed()
        register()
        bring_translations()

    def Initialize(self) -> None:
        """Called by FreeCAD when the workbench is first opened."""
        from freecad_stacklam.workbench import commands
        from freecad_stacklam.workbench.help.keys import listen
        from freecad_stacklam.workbench.installing.window import look_at_opening
        from freecad_stacklam.workbench.preferencepages import register

        commands.register()
        register()
        self.appendToolbar("StackLam", commands.in_groups())
        self.appendMenu("StackLam", commands.in_groups())
        self.appendMenu(*commands.more_examples())
        listen()
        look_at_opening()

    def Activated(self) -> None:
        """Called by FreeCAD whenever the workbench comes to the front."""
        from freecad_stacklam.workbench.installing.thisfreecad import this_freecad
        from freecad_stacklam.workbench.working import warming

        warming.begin(this_freecad())

    def ContextMenu(self, recipient: str) -> None:
        """Called by FreeCAD for a right click in the 3D view or in the tree."""
        from freecad_stacklam.workbench import commands

        fitting = commands.fitting(commands.picked_kinds())
        if fitting:
            self.appendContextMenu("", ["Separator", *fitting])

    def GetClassName(self) -> str:
        return "Gui::PythonWorkbench"


FreeCADGui.addWorkbench(StackLamWorkbench())
