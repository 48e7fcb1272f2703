# SPDX-License-Identifier: LGPL-2.1-or-later

"""Fields of an object's properties, some of which an expression drives: those show its value and are locked, with the
reason; a field for one quantity has FreeCAD's own button for expressions.

What is done by that button takes hold at once in the object. OK makes it part of its undo step, Cancel takes it back.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.panelparts.wrapping import Rows, caption_of

QtWidgets = widgets()
translate = FreeCAD.Qt.translate
#: The caption and the tip that a field has while no expression drives it.
CAPTION, TIP = "freeCaption", "freeTip"
Changes = list[tuple[str, str | None]]


class Driven(QtCore.QObject):
    """Fields by the paths of what they are for: a property, or a part of one as in Through.x."""

    def __init__(self, parent: Any, obj: Any, fields: Mapping[str, Sequence[Any]]) -> None:
        super().__init__(parent)
        self.obj = obj
        self.fields = {path: tuple(many) for path, many in fields.items() if path.split(".")[0] in obj.PropertiesList}
        self._first = expressions_of(obj)
        for path, (field, *more) in self.fields.items():
            if not more and field.inherits("Gui::QuantitySpinBox"):
                FreeCADGui.ExpressionBinding(field).bind(obj, path)
                field.installEventFilter(self)  # its button may have been used since
        self.look()

    def eventFilter(self, watched: Any, event: Any) -> bool:
        """Called by Qt for every event of a field with a button for expressions."""
        if event.type() in (QtCore.QEvent.Enter, QtCore.QEvent.FocusIn, QtCore.QEvent.HoverEnter):
            self.look()
        return False

    def look(self) -> None:
        """Lock what is driven now, and let go of what is not."""
        now = expressions_of(self.obj)
        for path, many in self.fields.items():
            said = next((text for at, text in now.items() if _meet(path, at)), "")
            for field in many:
                _lock(field, said, self.obj.Label) if said else _unlock(field)

    def take_back(self) -> Changes:
        """Undo what was done by the buttons; what it was, for `put`."""
        now = expressions_of(self.obj)
        changed: Changes = [
            (path, now.get(path)) for path in {**now, **self._first} if now.get(path) != self._first.get(path)
        ]
        for path, _ in changed:
            self.obj.setExpression(path, self._first.get(path))
        return changed

    def put(self, changed: Changes) -> None:
        """Do it again, by lines that are recorded."""
        thing = f"FreeCAD.getDocument({self.obj.Document.Name!r}).getObject({self.obj.Name!r})"
        for path, text in changed:
            FreeCADGui.doCommand(f"{thing}.setExpression({path!r}, {text!r})")


def expressions_of(obj: Any) -> dict[str, str]:
    """Path → expression of all that drives the object."""
    return {str(path).lstrip("."): str(text) for path, text, *_ in obj.ExpressionEngine}


def _meet(path: str, other: str) -> bool:
    """Whether two paths are the same, or one is a part of the other."""
    short, long = sorted((path, other), key=len)
    return long == short or long.startswith((f"{short}.", f"{short}["))


def _lock(field: Any, text: str, owner: str) -> None:
    if field.property(TIP) is None:
        field.setProperty(TIP, field.toolTip())
        _mark(field, True)
    if isinstance(field, QtWidgets.QAbstractSpinBox):
        field.setReadOnly(True)
    else:
        field.setEnabled(False)
    why = translate("StackLam", "The expression “{}” gives this value, so it cannot be typed here.").format(text)
    if field.inherits("Gui::QuantitySpinBox"):
        how = translate("StackLam", "Press the blue sign in the field to change the expression or clear it.")
    else:
        how = translate("StackLam", "To type one, clear the expression in the properties of {}.").format(owner)
    field.setToolTip(f"{why} {how}")


def _unlock(field: Any) -> None:
    tip = field.property(TIP)
    if tip is None:
        return
    field.setProperty(TIP, None)
    field.setToolTip(tip)
    if isinstance(field, QtWidgets.QAbstractSpinBox):
        field.setReadOnly(False)
    else:
        field.setEnabled(True)
    _mark(field, False)


def _mark(field: Any, driven: bool) -> None:
    """Say beside the caption that the value is driven."""
    label = field if isinstance(field, QtWidgets.QAbstractButton) else caption_of(field)
    if label is None:
        return
    if driven and label.property(CAPTION) is None:
        label.setProperty(CAPTION, label.text().replace("\n", " "))
        label.setText(translate("StackLam", "{} (expression)").format(label.property(CAPTION)))
    elif not driven and label.property(CAPTION) is not None:
        label.setText(label.property(CAPTION))
        label.setProperty(CAPTION, None)
    rows = label.parentWidget()
    if isinstance(rows, Rows):
        rows.fit()
