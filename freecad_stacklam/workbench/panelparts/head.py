# SPDX-License-Identifier: LGPL-2.1-or-later

"""The head of a panel: what is refused, and what was done, in sight however far the panel is scrolled."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import FreeCAD

from freecad_stacklam.qt_binding import QtCore, QtGui, widgets

QtWidgets = widgets()
translate = FreeCAD.Qt.translate
#: Air around the head's words, pixels.
AIR = 4
#: How often a pinned head looks where the form is seen, ms.
LOOK = 40


class Head(QtWidgets.QFrame):  # type: ignore[name-defined]
    """A sentence, and a result with a button that opens it. It lies over the panel's form, which keeps room for it
    above everything else; `pinned`, it comes along where the form is scrolled."""

    def __init__(self, form: Any, sentence: Any, name: str) -> None:
        super().__init__(form)
        self.room = QtWidgets.QWidget(form)  # in the form's layout, as high as the head
        self.room.setSizePolicy(QtWidgets.QSizePolicy.Ignored, QtWidgets.QSizePolicy.Fixed)
        self.sentence, self.pinned, self._path = sentence, False, ""
        self.setObjectName(f"{name}Head")
        self.setAutoFillBackground(True)
        self.result = QtWidgets.QLabel()
        self.result.setObjectName(f"{name}Result")
        self.result.setWordWrap(True)
        self.result.setTextInteractionFlags(QtCore.Qt.TextSelectableByMouse)
        self.opener = QtWidgets.QPushButton(translate("StackLam", "Open"))
        self.opener.setObjectName(f"{name}Open")
        self.opener.setSizePolicy(QtWidgets.QSizePolicy.Fixed, QtWidgets.QSizePolicy.Fixed)
        self.opener.clicked.connect(self._open)
        self.mark = QtWidgets.QLabel()  # what is refused is told by more than its place
        size = self.style().pixelMetric(QtWidgets.QStyle.PM_SmallIconSize)
        self.mark.setPixmap(self.style().standardIcon(QtWidgets.QStyle.SP_MessageBoxWarning).pixmap(size, size))
        self.mark.setAlignment(QtCore.Qt.AlignTop)
        grid = QtWidgets.QGridLayout(self)
        grid.setContentsMargins(AIR, AIR, AIR, AIR)
        grid.setSpacing(AIR)
        grid.setColumnStretch(1, 1)
        grid.addWidget(sentence, 0, 1)
        grid.addWidget(self.result, 1, 1)
        grid.addWidget(self.opener, 2, 1, QtCore.Qt.AlignLeft)  # else the words get no more width than the button
        grid.addWidget(self.mark, 0, 0)
        # A strip of nothing, over all else: of it is seen what the window shows of the form.
        self._strip = QtWidgets.QWidget(form)
        self._strip.setAttribute(QtCore.Qt.WA_TransparentForMouseEvents)
        # What scrolls the form is FreeCAD's: the binding's hold on it may be cut by anyone who looks at it.
        self._look = QtCore.QTimer(self)
        self._look.setInterval(LOOK)
        self._look.timeout.connect(self.follow)
        form.installEventFilter(self)
        self.tell("")

    def tell(self, text: str, path: str | Path = "") -> None:
        """Show a result; nothing of it for an empty text. With a path, a button opens that file or folder."""
        self._path = str(path)
        self.result.setText(text)
        self.result.setVisible(bool(text))
        self.opener.setVisible(bool(text and self._path))
        self.opener.setToolTip(self._path)
        self.fit()

    def _open(self, *_: Any) -> None:
        """Show the file or folder in the program that the system has for it."""
        if not QtGui.QDesktopServices.openUrl(QtCore.QUrl.fromLocalFile(self._path)):
            said = translate("StackLam", "Nothing here opens it: open it yourself. It is {}.").format(self._path)
            self.tell(said)

    def fit(self) -> None:
        """Take as much room as the words need, and none where there are none."""
        says = [part for part in (self.sentence, self.result) if part.text() and not part.isHidden()]
        self.setVisible(bool(says))
        self.room.setVisible(bool(says))
        if not says:
            return
        self.mark.setVisible(self.pinned and self.sentence in says)
        self.setFrameShape(QtWidgets.QFrame.StyledPanel if self.pinned else QtWidgets.QFrame.NoFrame)
        width = self.parentWidget().width()
        high = max(self.heightForWidth(width), 1)  # its frame too
        self.room.setFixedHeight(high)
        self.resize(width, high)
        self.raise_()
        self._strip.raise_()
        self.follow()

    def follow(self, *_: Any) -> None:
        """Lie where the form begins to be seen, if pinned; else where it begins."""
        self._strip.setGeometry(0, 0, 1, self.parentWidget().height())
        top = self._strip.visibleRegion().boundingRect().top() if self.pinned else 0
        top = max(0, min(top, self.parentWidget().height() - self.height()))
        if top != self.y():
            self.move(0, top)
        if self.pinned and self.isVisible():
            self._look.start()
        else:
            self._look.stop()

    def eventFilter(self, watched: Any, event: Any) -> bool:
        """Called by Qt for every event of the form: another width is another height of the words."""
        if event.type() in (QtCore.QEvent.Resize, QtCore.QEvent.Show):
            self.fit()
        return False


class Sentence(QtWidgets.QLabel):  # type: ignore[name-defined]
    """The panel's sentence: its head is fitted to every text that it is given."""

    head: Head | None = None

    def setText(self, text: str) -> None:
        """See QLabel."""
        super().setText(text)
        if self.head is not None:
            self.head.fit()

    def setVisible(self, wanted: bool) -> None:
        """See QWidget."""
        super().setVisible(wanted)
        if self.head is not None:
            self.head.fit()
