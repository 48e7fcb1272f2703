# SPDX-License-Identifier: LGPL-2.1-or-later

"""What all task panels share: the frame, the sentence at its head, and OK that says no until all is well."""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

import FreeCADGui

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.decimals import shown_decimals
from freecad_stacklam.workbench.fields.fields import PATIENCE, later, let_go, on_change, refused
from freecad_stacklam.workbench.fields.messages import besides, sentence_of, tell
from freecad_stacklam.workbench.fields.rowfields import RowFields
from freecad_stacklam.workbench.fields.words import QT_TRANSLATE_NOOP, translate
from freecad_stacklam.workbench.panelparts.driven import Driven
from freecad_stacklam.workbench.panelparts.folding import unfold_around
from freecad_stacklam.workbench.panelparts.head import Head, Sentence
from freecad_stacklam.workbench.scene import apart

QtWidgets = widgets()
GONE = QT_TRANSLATE_NOOP(
    "StackLam", "What this panel works on is gone from the document: press Cancel, and start again."
)
#: Width of a title, at most, pixels.
MOST_TITLE = 150
ICONS = Path(__file__).resolve().parents[3] / "icons"


def icon_path(name: str) -> str:
    """Absolute path of an icon, by command name."""
    return str(ICONS / f"{name}.svg")


class _Still(QtCore.QObject):
    """Lets the wheel change a field only while it has the keyboard: else it scrolls the panel, and what lies under the
    mouse on the way would change unseen."""

    def eventFilter(self, watched: Any, event: Any) -> bool:
        """Called by Qt for every event of a field; an ignored one goes on to the panel."""
        if event.type() != QtCore.QEvent.Wheel or watched.hasFocus():
            return False
        event.ignore()
        return True


class _Keys(QtCore.QObject):
    """Lets the space bar press the button or the box that has the keyboard: the window's shortcut would take it first,
    and hide what is selected instead. Such keys come up to the panel's widget from all that lies in it."""

    def eventFilter(self, watched: Any, event: Any) -> bool:
        """Called by Qt for every event of the panel's widget."""
        if event.type() != QtCore.QEvent.ShortcutOverride or event.key() != QtCore.Qt.Key_Space:
            return False
        if not isinstance(QtWidgets.QApplication.focusWidget(), QtWidgets.QAbstractButton):
            return False
        event.accept()
        return True


class Panel:
    """A task panel whose figures follow the typing.

    A panel fills `self.body`, calls `watch` for its fields, and gives `show_figures` (raises Refusal when the values
    cannot be) and `make` (what OK does).
    """

    patience = PATIENCE

    def __init__(self, title: str, icon: str) -> None:
        let_go()
        self.form = QtWidgets.QWidget()
        self.form.setObjectName(icon)
        self.form.setWhatsThis(icon)
        font = QtGui.QFont(self.form.font())
        font.setBold(True)  # as FreeCAD writes it, which makes a panel as wide as its title
        self.form.setWindowTitle(QtGui.QFontMetrics(font).elidedText(title, QtCore.Qt.ElideRight, MOST_TITLE))
        self.form.setWindowIcon(QtGui.QIcon(icon_path(icon)))
        self.body = QtWidgets.QVBoxLayout(self.form)
        self.body.setContentsMargins(0, 0, 0, 0)
        self.sentence = Sentence()
        self.sentence.setObjectName(f"{icon}Sentence")
        self.sentence.setWordWrap(True)
        self.sentence.setTextInteractionFlags(QtCore.Qt.TextSelectableByMouse)
        self._still = _Still(self.form)
        self._keys = _Keys(self.form)
        self.form.installEventFilter(self._keys)
        self._well = False
        self._watched: list[Any] = []
        self._driven: list[Driven] = []
        self._soon = later(self.form, self.refresh, self.patience)

    def watch(self, *fields: Any) -> None:
        """Let the figures follow these fields."""
        self._watched.extend(fields)
        for field in fields:
            on_change(field, self._soon.start)
            if isinstance(field, (QtWidgets.QComboBox, QtWidgets.QAbstractSpinBox)):
                self.still(field)

    def still(self, field: Any) -> None:
        """Let the wheel scroll the panel where it rolls over this field."""
        field.setFocusPolicy(QtCore.Qt.StrongFocus)  # no focus by the wheel
        field.installEventFilter(self._still)

    def edits(self, obj: Any, fields: Mapping[str, Any], rows: RowFields | None = None) -> None:
        """Say which fields are for which property of an object that is there: one, or several in a tuple. `rows` know
        theirs. What an expression drives is then locked."""
        known = {} if rows is None else {row.property: (rows[name],) for name, row in rows.rows.items()}
        given = {path: one if isinstance(one, tuple) else (one,) for path, one in fields.items()}
        self._driven.append(Driven(self.form, obj, known | given))

    def finish(self) -> None:
        """Put the sentence at the head, and show the first figures."""
        self.body.removeWidget(self.sentence)
        self.head = self.sentence.head = Head(self.form, self.sentence, self.form.objectName())
        self.body.insertWidget(0, self.head.room)
        self.body.addStretch(1)
        self.refresh()

    def tell_result(self, text: str, path: str | Path = "") -> None:
        """Say at the head of the panel, in sight however far it is scrolled, what was done. With a path, a button
        opens that file or folder. It goes at the next change of a field."""
        self.sentence.setText("")
        self.head.pinned = True
        self.head.tell(text, path)

    def refresh(self) -> bool:
        """Show the figures of the values as they stand; False, with a sentence, when they cannot be."""
        self._soon.stop()
        try:
            self.show_figures()
            sentence, self._well = self.remark(), True
        except Refusal as refusal:
            sentence, self._well = sentence_of(refusal), False
        except ReferenceError:  # an object was deleted, or its document closed, while the panel was open
            sentence, self._well = translate("StackLam", GONE), False
        if not self._well:
            self.clear_figures()
        self.head.pinned = not self._well
        self.head.tell("")
        self.sentence.setText(shown_decimals(sentence))
        for field in self._watched:
            if not self._well and refused(field):
                unfold_around(field, self.form)
        return self._well

    # What a panel gives.
    def show_figures(self) -> None:
        """Compute and show; raise Refusal when the values cannot be."""

    def clear_figures(self) -> None:
        """Show that there are no figures."""

    def remark(self) -> str:
        """A sentence at the head while all is well."""
        return ""

    def make(self) -> None:
        """What OK does; a Refusal is told and leaves the panel open."""
        raise NotImplementedError

    # What FreeCAD asks of a task panel.
    def getStandardButtons(self) -> Any:
        """OK and Cancel; the flags themselves, because PySide6 takes no number."""
        return QtWidgets.QDialogButtonBox.Ok | QtWidgets.QDialogButtonBox.Cancel

    def accept(self) -> bool:
        """OK, or Enter.

        OK is never greyed out: the row of buttons is FreeCAD's, and the binding's hold on it may be cut by anyone who
        looks at it, which would leave OK grey for good.
        """
        if not self.refresh():
            tell(self.sentence.text())
            return False
        asked = [(driven, driven.take_back()) for driven in self._driven]

        def put() -> None:
            for driven, changed in asked:
                driven.put(changed)

        try:
            with besides(put):
                self.make()
        except Refusal as refusal:
            put()
            tell(sentence_of(refusal))
            return False
        except ReferenceError:
            tell(translate("StackLam", GONE))
            return False
        self.close()
        return True

    def reject(self) -> bool:
        """Cancel, or Escape: nothing was touched."""
        with suppress(ReferenceError):
            for driven in self._driven:
                driven.take_back()
        self.close()
        return True

    def close(self) -> None:
        """Leave the panel and the editing of an object, if any."""
        self._soon.stop()
        let_go()
        FreeCADGui.Control.closeDialog()
        active = FreeCADGui.ActiveDocument
        if active is not None and active.getInEdit() is not None:
            QtCore.QTimer.singleShot(0, active.resetEdit)
        QtCore.QTimer.singleShot(0, self._forget)

    def _forget(self) -> None:
        """The fields die with the panel: nothing may go on referring to them, or the binding hands out their shells."""
        self.__dict__.clear()


def open_panel(make: Any) -> None:
    """Show the panel that `make()` builds, unless another is open."""
    if FreeCADGui.Control.activeDialog():
        raise Refusal(translate("StackLam", "Another panel is open: finish it with OK or Cancel first."))
    apart.clear()  # a selected set-up shows its layers alone: a panel has the picture for itself
    FreeCADGui.Control.showDialog(make())
