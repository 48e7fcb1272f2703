# SPDX-License-Identifier: LGPL-2.1-or-later

"""The guide's window beside the model: one step at a time, looked for in the document while the maker works."""

from __future__ import annotations

from html import escape
from typing import Any

import FreeCAD
import FreeCADGui

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.messages import says_no_plainly
from freecad_stacklam.workbench.fields.panel import icon_path
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.learning.course import minutes_left, place_of
from freecad_stacklam.workbench.learning.doing import can_do, do_it
from freecad_stacklam.workbench.learning.judging import texts
from freecad_stacklam.workbench.learning.looking import look
from freecad_stacklam.workbench.learning.pointing import show_where
from freecad_stacklam.workbench.learning.seen import Seen
from freecad_stacklam.workbench.learning.steps import STEPS, numbered

QtWidgets = widgets()
NAME = "StackLamGuide"
#: A line of what is to do, with room below it.
PARAGRAPH = "<p style='margin: 0px 0px 6px 0px'>{}</p>"
#: Stands between a figure and its unit.
NO_BREAK = "\u00a0"
#: Milliseconds from look to look; the least width of the window, and its height where it shares a column, pixels.
PAUSE, NARROW, HEIGHT = 400, 230, 270


class Guide(QtWidgets.QDockWidget):  # type: ignore[name-defined]
    """Follows one document: the one that was at the front when it began, or the next that it can go on in."""

    def __init__(self, window: Any) -> None:
        super().__init__(translate("StackLam", "First piece"), window)
        self.setObjectName(NAME)
        self.setWindowIcon(QtGui.QIcon(icon_path("StackLam_FirstPiece")))
        self._name, self._passed, self._table, self._back = "", set[str](), "", -1
        self._lost = False  # the document was closed
        self._made_room = False  # for the first panel that opened in the same column
        self._seen, self._at, self._shown = Seen(), 0, ""
        self._build()
        self._clock = QtCore.QTimer(self)
        self._clock.timeout.connect(self.follow)

    # --- what it is made of ----------------------------------------------------------------------------------------
    def _build(self) -> None:
        inside = QtWidgets.QWidget()
        inside.setMinimumWidth(NARROW)
        layout = QtWidgets.QVBoxLayout(inside)
        self.far, self.title, self.lines, self.says = (
            self._label(name) for name in ("guideFar", "guideTitle", "guideLines", "guideSays")
        )
        bold = QtGui.QFont(self.title.font())
        bold.setBold(True)
        bold.setPointSizeF(bold.pointSizeF() * 1.2)
        self.title.setFont(bold)
        self.bar = QtWidgets.QProgressBar()
        self.bar.setRange(0, len(STEPS) - 1)
        self.bar.setTextVisible(False)
        self.bar.setMaximumHeight(6)
        text = QtWidgets.QScrollArea()
        text.setWidgetResizable(True)
        text.setFrameShape(QtWidgets.QFrame.NoFrame)
        text.setHorizontalScrollBarPolicy(QtCore.Qt.ScrollBarAlwaysOff)
        page = QtWidgets.QWidget()
        words = QtWidgets.QVBoxLayout(page)
        words.setContentsMargins(0, 0, 0, 0)
        for label in (self.title, self.lines, self.says):
            words.addWidget(label)
        words.addStretch(1)
        text.setWidget(page)
        for part in (self.far, self.bar, text):
            layout.addWidget(part)
        buttons = QtWidgets.QGridLayout()
        self.where = self._button("guideWhere", translate("StackLam", "Show me where"), self.point)
        self.skip = self._button("guideSkip", "", self.do_for_me)
        self.earlier = self._button("guideBack", translate("StackLam", "Back"), self.go_back)
        self.later = self._button("guideNext", translate("StackLam", "Next"), self.go_on)
        for number, one in enumerate((self.where, self.skip, self.earlier, self.later)):
            buttons.addWidget(one, number // 2, number % 2)
        layout.addLayout(buttons)
        self.setWidget(inside)

    def _label(self, name: str) -> Any:
        label = QtWidgets.QLabel()
        label.setObjectName(name)
        label.setWordWrap(True)
        label.setTextInteractionFlags(QtCore.Qt.TextSelectableByMouse)
        return label

    def _button(self, name: str, text: str, do: Any) -> Any:
        button = QtWidgets.QPushButton(text)
        button.setObjectName(name)
        button.clicked.connect(do)
        return button

    # --- which document --------------------------------------------------------------------------------------------
    def begin(self) -> None:
        """Take the document at the front, where the guide can go on in it."""
        active = FreeCAD.ActiveDocument
        if active is not None and active.Name != self._name and look(active).ours:
            self._take(active)
        self.follow()

    def _take(self, document: Document) -> None:
        self._name, self._table, self._back, self._lost = document.Name, "", -1, False
        self._passed.clear()

    def _document(self) -> Document | None:
        """The document that the guide goes on in, if it is still open."""
        if self._name and self._name not in FreeCAD.listDocuments():
            self._name, self._lost = "", True
            self._passed.clear()
        if not self._name:
            active = FreeCAD.ActiveDocument
            if active is not None and not active.Restoring and look(active).ours:
                self._take(active)
        return FreeCAD.getDocument(self._name) if self._name else None

    # --- looking ---------------------------------------------------------------------------------------------------
    def follow(self) -> None:
        """Look at the document, and show the step that is on."""
        document = self._document()
        active = FreeCAD.ActiveDocument
        if document is not None and (document.Restoring or document.Transacting):
            return
        self._watch_table()
        self._seen = look(document if document is not None else active, self._table, document is not None)
        at = place_of(self._seen, self._passed)
        if self._seen.panel and not self._made_room:
            self._made_room = True
            FreeCADGui.getMainWindow().resizeDocks([self], [HEIGHT], QtCore.Qt.Vertical)
        if self._seen.panel:  # what is typed shows at once, and is not done before OK
            at = min(at, self._at)
        if at > self._at:  # what was seen done needs not be seen again
            self._passed |= {step.key for step in STEPS[self._at : at] if not step.lasting}
        self._at = at
        if self._back >= at:
            self._back = -1
        self._show(document, active)

    def _watch_table(self) -> None:
        """Whether the checks are looked at; once they were, closing them ends it."""
        tables = [w for w in QtWidgets.QApplication.topLevelWidgets() if w.objectName() == "StackLamChecks"]
        if any(table.isVisible() for table in tables):
            self._table = "open"
        elif self._table == "open":
            self._table = "closed"

    def _show(self, document: Document | None, active: Any) -> None:
        number = self._at if self._back < 0 else self._back
        step = STEPS[number]
        values = {name: size.replace(" ", NO_BREAK) for name, size in texts(self._seen.units).items()}
        lines = [translate("StackLam", line).format(**values) for line in step.lines]
        told = self._told(document, active, number)
        state = f"{number} {self._at} {lines} {told} {self._seen.panel}"
        if state == self._shown:  # a selection in the texts stays
            return
        self._shown = state
        self.far.setText(
            translate("StackLam", "Step {} of {}, about {} min to go").format(
                number + 1, len(STEPS), minutes_left(self._at)
            )
        )
        self.bar.setValue(self._at)
        self.title.setText(translate("StackLam", step.title))
        self.lines.setText("".join(PARAGRAPH.format(escape(line)) for line in numbered(lines)))
        self.says.setText(told)
        last = number == len(STEPS) - 1
        self.skip.setText(translate("StackLam", "Do it for me") if can_do(step) else translate("StackLam", "Leave out"))
        self.skip.setEnabled(number == self._at and not last)
        self.where.setEnabled(number == self._at and not last)
        self.earlier.setEnabled(number > 0)
        self.later.setText(translate("StackLam", "Finish") if last else translate("StackLam", "Next"))
        self.later.setEnabled(last or number < self._at)

    def _told(self, document: Document | None, active: Any, number: int) -> str:
        """What there is to say besides: what differs, what was done, what the guide waits for."""
        if self._lost and document is None:
            return translate(
                "StackLam", "The document was closed. Open it again and the guide goes on, or begin with a new one."
            )
        if document is not None and active is not None and active.Name != document.Name:
            return translate(
                "StackLam",
                "“{}” is at the front; the guide goes on in “{}”. Show me where brings that back. To begin anew here, "
                "run First piece again.",
            ).format(active.Label, document.Label)
        if number < self._at:
            return translate("StackLam", "✓ This is done.")
        missing = STEPS[number].check(self._seen)
        if self._seen.panel:
            return (
                "" if missing is not None else translate("StackLam", "✓ That is right. Close the panel by its button.")
            )
        if missing is not None and missing.says:
            return translate("StackLam", missing.says).format(**(texts(self._seen.units) | dict(missing.values)))
        if number and not self._seen.panel:
            return translate("StackLam", "✓ {}: done.").format(translate("StackLam", STEPS[number - 1].title))
        return ""

    # --- the buttons -----------------------------------------------------------------------------------------------
    @says_no_plainly
    def point(self, *_: Any) -> None:
        """Show me where: the document first, if another is at the front."""
        document = self._document()
        active = FreeCAD.ActiveDocument
        if document is not None and active is not None and active.Name != document.Name:
            FreeCAD.setActiveDocument(document.Name)
            FreeCADGui.getDocument(document.Name).activeView()
            _bring_forward(document)
            self.follow()
            return
        self.follow()
        if not show_where(STEPS[self._at], self._seen, document):
            raise Refusal(
                translate("StackLam", "It is not to be seen now: look in the menus, or show the toolbars and the tree.")
            )

    @says_no_plainly
    def do_for_me(self, *_: Any) -> None:
        """Do the step, or leave it out where only the maker can do it."""
        self.follow()
        step, document = STEPS[self._at], self._document()
        if self._seen.panel:
            raise Refusal(translate("StackLam", "A panel is open: finish it with OK, Cancel or Close first."))
        if document is not None:
            FreeCAD.setActiveDocument(document.Name)
        gone_on = do_it(step, document)
        if gone_on is not None and gone_on.Name != self._name:
            self._take(gone_on)
        if not step.lasting:
            self._passed.add(step.key)
        self.follow()

    def go_back(self, *_: Any) -> None:
        """Read the step before again."""
        self._back = max(0, (self._at if self._back < 0 else self._back) - 1)
        self.follow()

    def go_on(self, *_: Any) -> None:
        """The next of the steps that are done; after the last the guide closes."""
        if self._back < 0 and self._at == len(STEPS) - 1:
            self.close()
            return
        self._back += 1
        self.follow()

    def showEvent(self, event: Any) -> None:
        """Called by Qt."""
        super().showEvent(event)
        self._clock.start(PAUSE)

    def hideEvent(self, event: Any) -> None:
        """Called by Qt, when it is closed too: nothing is looked at any more."""
        self._clock.stop()
        super().hideEvent(event)


def _bring_forward(document: Document) -> None:
    """Put the tab of a document's 3D view in front."""
    for area in (w for w in QtWidgets.QApplication.allWidgets() if isinstance(w, QtWidgets.QMdiArea)):
        for window in area.subWindowList():
            if window.windowTitle().startswith(document.Label):
                area.setActiveSubWindow(window)
                return


#: The one guide, once it was opened.
_guide: list[Guide] = []


def show_guide() -> Guide:
    """The guide beside the model, at the document at the front."""
    if not _guide:
        window = FreeCADGui.getMainWindow()
        _guide.append(Guide(window))
        window.addDockWidget(QtCore.Qt.RightDockWidgetArea, _guide[0])
    _guide[0].show()
    _guide[0].raise_()
    _guide[0].begin()
    return _guide[0]
