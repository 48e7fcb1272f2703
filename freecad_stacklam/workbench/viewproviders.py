# SPDX-License-Identifier: LGPL-2.1-or-later

"""How stacks, layers, joints, pins and hollows look in the tree and in the 3D view.

The class names are stored in users' files and never change. Nothing is kept on them but what FreeCAD hands over.
"""

from __future__ import annotations

from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.objectkinds import kind_of
from freecad_stacklam.qt_binding import QtCore
from freecad_stacklam.workbench.fields.messages import sentence_of, tell
from freecad_stacklam.workbench.fields.panel import icon_path, open_panel
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.scene import ghost, layerghost, marks, setups, tints

EDGES = (0.50, 0.39, 0.27)
#: Percent: enough to see the form inside the stepped block.
SEE_THROUGH = 50
#: What glue lines' objects show that the maker asked for; the others are there for the pages alone.
IN_TREE = "glue lines"


class View:
    """What all have in common."""

    icon = "stacklam"

    def __init__(self, view: Any) -> None:
        view.Proxy = self
        self.prepare(view)
        if view.Object.Document.Restoring:
            # The file was written without a window; FreeCAD hides all that such a file holds.
            document, name = view.Object.Document.Name, view.Object.Name
            QtCore.QTimer.singleShot(0, lambda: self.appear(document, name))

    def appear(self, document: str, name: str) -> None:
        """Come into sight in a document that was never in a window before; it may be closed again by now."""
        if document in FreeCAD.listDocuments():
            obj = FreeCAD.getDocument(document).getObject(name)
            if obj is not None:
                obj.ViewObject.Visibility = True

    def prepare(self, view: Any) -> None:
        """Colours and the like, once, when the view is made."""

    def attach(self, view: Any) -> None:
        """Called by FreeCAD when the object is made or restored."""
        self.view = view

    def getIcon(self) -> str:
        """Path of the picture in the tree."""
        path = icon_path(self.icon)
        # FreeCAD draws it itself and keeps it by this path: Qt cannot read SVG everywhere.
        FreeCADGui.getIcon(path)
        return path

    def claimChildren(self) -> list[Any]:
        """Objects shown under this one in the tree."""
        return []

    def dumps(self) -> None:
        """Nothing to store."""

    def loads(self, state: Any) -> None:
        """Nothing to restore."""

    # FreeCAD 0.20 calls these two names.
    __getstate__ = dumps
    __setstate__ = loads


class Edited(View):
    """A view whose object has a panel of its own, opened by a double click."""

    def panel(self, obj: Any) -> Any:
        """The panel that edits `obj`."""
        raise NotImplementedError

    def doubleClicked(self, view: Any) -> bool:
        """Open the panel."""
        return bool(FreeCADGui.getDocument(view.Object.Document.Name).setEdit(view.Object.Name))

    def setEdit(self, view: Any, mode: int = 0) -> bool | None:
        """Called by FreeCAD to edit; other kinds of editing (moving, colours) are FreeCAD's own."""
        if mode != 0:
            return None
        try:
            open_panel(lambda: self.panel(view.Object))
        except Refusal as refusal:
            tell(sentence_of(refusal))
            return False
        return True

    def setupContextMenu(self, view: Any, menu: Any) -> None:
        """Called by FreeCAD for a right click on the object in the tree."""
        action = menu.addAction(translate("StackLam", "Change {}…").format(view.Object.Label))
        action.triggered.connect(lambda *_: self.doubleClicked(view))

    def unsetEdit(self, view: Any, mode: int = 0) -> bool | None:
        """Called by FreeCAD when the editing ends."""
        if mode != 0:
            return None
        ghost.clear()
        layerghost.clear()
        FreeCADGui.Control.closeDialog()
        return True


class Marked(Edited):
    """A view that marks the place where least wood is left."""

    def attach(self, view: Any) -> None:
        """See View."""
        super().attach(view)
        self.mark = marks.CoverMark(view)
        marks.install()

    def updateData(self, obj: Any, name: str) -> None:
        """Called by FreeCAD when a property of the object changes."""
        if name in marks.WATCHED and hasattr(obj, "CoverPlace"):
            self.mark.follow(obj)

    def onChanged(self, view: Any, name: str) -> None:
        """Called by FreeCAD when a property of the view changes."""
        if name == "Visibility" and hasattr(view.Object, "CoverPlace"):
            self.mark.follow(view.Object)


class StackView(Marked):
    """The stack holds its layers in the tree and shows or hides them together; the form stays as the maker had it."""

    icon = "StackLam_SliceForm"

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.panels.slice_panel import edit

        return edit(obj)

    def _layers(self) -> list[Any]:
        view = getattr(self, "view", None)
        return [o for o in view.Object.Layers if o is not None] if view is not None else []

    def _insides(self) -> list[Any]:
        """Its hollow, its pins and its glue lines."""
        view = getattr(self, "view", None)
        return [o for o in getattr(view.Object, "Insides", ()) if o is not None] if view is not None else []

    def claimChildren(self) -> list[Any]:
        """The layers, from the bottom, then what lies inside them, then its glue lines."""
        return [*self._layers(), *self._insides()]

    def appear(self, document: str, name: str) -> None:
        """The form comes into sight too, and all is seen from the usual corner."""
        super().appear(document, name)
        if document not in FreeCAD.listDocuments():
            return
        obj = FreeCAD.getDocument(document).getObject(name)
        if obj is not None and obj.Form is not None:
            obj.Form.ViewObject.Visibility = True
        view = FreeCADGui.getDocument(document).activeView()
        if hasattr(view, "fitAll"):
            view.viewIsometric()
            view.fitAll()

    def isShow(self) -> bool:
        """A stack draws nothing itself: it shows when its layers do."""
        return bool(self.view.Visibility)

    def onChanged(self, view: Any, name: str) -> None:
        """Called by FreeCAD when a property of the view changes."""
        super().onChanged(view, name)
        document = view.Object.Document
        if name == "Visibility" and not document.Restoring and not document.Transacting:
            for part in (*self._layers(), *self._insides()):
                if kind_of(part) != "glue lines":  # they are seen on the form, without the layers
                    part.ViewObject.Visibility = view.Visibility


class LayerView(View):
    """One slab, tinted like its wood, by turns, and clear enough to see the form in it."""

    icon = "stacklam"

    def prepare(self, view: Any) -> None:
        view.LineColor = EDGES
        view.LineWidth = 1.0
        view.PointSize = 1.0
        view.Transparency = SEE_THROUGH
        view.ShapeColor = tints.tints_of("")[0]
        self.updateData(view.Object, "Number")

    def updateData(self, obj: Any, name: str) -> None:
        """Called by FreeCAD when a property of the layer changes."""
        if name not in ("Number", "Species"):
            return
        view = obj.ViewObject
        worn = tuple(round(c, 2) for c in view.ShapeColor[:3])
        if worn in tints.ALL:  # a colour that the maker chose stays
            view.ShapeColor = tints.tints_of(getattr(obj, "Species", ""))[int(obj.Number) % 2]


class JointView(Marked):
    """A floating tenon and its mortises."""

    icon = "StackLam_AddJoint"

    def prepare(self, view: Any) -> None:
        view.ShapeColor = (0.45, 0.28, 0.15)
        view.LineColor = EDGES
        view.OnTopWhenSelected = "Object"  # the tenon lies inside the wood: show it through when it is picked

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.panels.joint_panel import edit

        return edit(obj)


class PinsView(Marked):
    """Registration pins, as dowels of a darker wood."""

    icon = "StackLam_SetPins"

    def prepare(self, view: Any) -> None:
        view.ShapeColor = (0.45, 0.28, 0.15)
        view.LineColor = EDGES
        view.OnTopWhenSelected = "Object"

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.panels.pins_panel import edit

        return edit(obj)


class HollowView(Marked):
    """The wood that is taken out: clear, for it is not there."""

    icon = "StackLam_HollowLayers"

    def prepare(self, view: Any) -> None:
        view.ShapeColor = ghost.TAKEN
        view.LineColor = ghost.TAKEN
        view.Transparency = 80
        view.OnTopWhenSelected = "Object"

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.panels.hollow_panel import edit

        return edit(obj)


class CuttingView(Edited):
    """The cutting plan of the boards."""

    icon = "StackLam_CutBoards"

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.panels.cutboards_panel import CutBoardsPanel

        return CutBoardsPanel(obj.Document)

    def isShow(self) -> bool:
        """It has nothing to hide in the 3D view, so its name is never grey."""
        return True


class CarvingView(Edited):
    """Depth holes, in the colour of wood that is taken out."""

    icon = "StackLam_CarvingGuide"

    def prepare(self, view: Any) -> None:
        view.ShapeColor = ghost.TAKEN
        view.LineColor = ghost.TAKEN
        view.OnTopWhenSelected = "Object"

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.panels.carving_panel import CarvingPanel

        return CarvingPanel(obj.Document)


class GlueUpView(Edited):
    """The glue-up, with its clamps and its set-ups under it."""

    icon = "StackLam_PlanGlueUp"

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.gluing.glueup_panel import GlueUpPanel

        return GlueUpPanel(obj.Document)

    def claimChildren(self) -> list[Any]:
        """The sheet of clamps, then the set-ups in their order."""
        view = getattr(self, "view", None)
        return [] if view is None else [o for o in (view.Object.Clamps, *view.Object.SetUps) if o is not None]

    def isShow(self) -> bool:
        """See CuttingView."""
        return True


class GlueSetView(View):
    """One set-up: while it is selected, its layers are seen alone. A double click opens the glue-up's panel."""

    icon = "StackLam_SetUp"

    def attach(self, view: Any) -> None:
        """See View."""
        super().attach(view)
        setups.install()

    def doubleClicked(self, view: Any) -> bool:
        """Open the panel of the glue-up that it belongs to."""
        glue_up = view.Object.GlueUp
        return glue_up is not None and bool(glue_up.ViewObject.Proxy.doubleClicked(glue_up.ViewObject))

    def canDelete(self, _: Any) -> bool:
        """Called by FreeCAD before what it refers to is deleted: it goes with its glue-up, so nothing breaks."""
        return True

    def isShow(self) -> bool:
        """See CuttingView."""
        return True


class PieceView(Edited):
    """The finished piece: what is asked of it."""

    icon = "StackLam_FinishedPiece"

    def panel(self, obj: Any) -> Any:
        from freecad_stacklam.workbench.piece.piece_panel import PiecePanel

        return PiecePanel(obj.Document)

    def isShow(self) -> bool:
        """See CuttingView."""
        return True


class GlueLinesView(View):
    """Glue lines on the finished form; seen without the layers, so they are shown and hidden by themselves."""

    icon = "StackLam_CarvingGuide"

    def prepare(self, view: Any) -> None:
        view.LineColor = (0.20, 0.12, 0.05)
        view.LineWidth = 3.0
        view.PointSize = 1.0

    def updateData(self, obj: Any, name: str) -> None:
        """Called by FreeCAD when a property of the object changes: what only pages show is not in the tree."""
        if name == "Shows" and hasattr(obj.ViewObject, "ShowInTree"):
            obj.ViewObject.ShowInTree = obj.Shows == IN_TREE


class ShopView(View):
    """Saw and staves of the shop."""

    icon = "StackLam_BoardRack"

    def isShow(self) -> bool:
        """See CuttingView."""
        return True


class JobView(View):
    """What holds for the whole document: title, units, who and when."""

    icon = "StackLam_LayerDrawings"

    def isShow(self) -> bool:
        """See CuttingView."""
        return True
