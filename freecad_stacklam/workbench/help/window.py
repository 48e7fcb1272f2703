# SPDX-License-Identifier: LGPL-2.1-or-later

"""The window of the help pages: one page at a time, with links to the others."""

from __future__ import annotations

from typing import Any

import FreeCADGui

from freecad_stacklam.lamination.refusal import Refusal
from freecad_stacklam.qt_binding import QtCore, QtGui, widgets
from freecad_stacklam.workbench.fields.words import translate
from freecad_stacklam.workbench.help.pages import CONTENTS, path_of

QtWidgets = widgets()
#: Size of the window, pixels, where the screen is large enough; and room in the cells of tables.
WIDTH, HEIGHT, PADDING = 760, 720, 4


class HelpWindow(QtWidgets.QDialog):  # type: ignore[name-defined]
    """Shows pages beside FreeCAD's window; work goes on meanwhile."""

    def __init__(self, parent: Any) -> None:
        super().__init__(parent)
        self.setObjectName("StackLam_HelpWindow")
        self.setWindowFlags(QtCore.Qt.Tool | QtCore.Qt.WindowCloseButtonHint)
        self.text = QtWidgets.QTextBrowser()
        self.text.setObjectName("helpText")
        self.text.setOpenExternalLinks(False)
        self.text.setOpenLinks(False)
        self.text.anchorClicked.connect(self._follow)
        self.back = QtWidgets.QPushButton(translate("StackLam", "Back"))
        self.back.setObjectName("helpBack")
        self.back.clicked.connect(self._go_back)
        self.contents = QtWidgets.QPushButton(translate("StackLam", "Contents"))
        self.contents.setObjectName("helpContents")
        self.contents.clicked.connect(lambda *_: self.show_page(CONTENTS))
        self.leave = QtWidgets.QPushButton(translate("StackLam", "Close"))
        self.leave.clicked.connect(self.close)
        for button in (self.back, self.contents, self.leave):
            button.setAutoDefault(False)
        row = QtWidgets.QHBoxLayout()
        row.addWidget(self.back)
        row.addWidget(self.contents)
        row.addStretch(1)
        row.addWidget(self.leave)
        body = QtWidgets.QVBoxLayout(self)
        body.addWidget(self.text)
        body.addLayout(row)
        self._been: list[str] = []
        room = QtGui.QGuiApplication.primaryScreen().availableSize()
        self.resize(min(WIDTH, room.width() - 40), min(HEIGHT, room.height() - 80))

    @property
    def page(self) -> str:
        """The page that is shown."""
        return self._been[-1] if self._been else ""

    def show_page(self, page: str) -> None:
        """Show a page, by its file's name without the ending. Raises Refusal where it is not there."""
        path = path_of(page)
        try:
            text = path.read_text(encoding="utf-8")
        except OSError:
            raise Refusal(
                translate(
                    "StackLam", "The help page “{}” is not there: put the folder docs back beside StackLam."
                ).format(path)
            ) from None
        self.text.document().setBaseUrl(QtCore.QUrl.fromLocalFile(str(path)))
        self.text.setMarkdown(text)
        _rule_tables(self.text.document().rootFrame())
        self.text.moveCursor(QtGui.QTextCursor.Start)
        title = next((line.lstrip("# ") for line in text.splitlines() if line.startswith("#")), page)
        self.setWindowTitle(translate("StackLam", "StackLam: {}").format(title))
        if self.page != page:
            self._been.append(page)
        self.back.setEnabled(len(self._been) > 1)

    def _follow(self, url: Any) -> None:
        """A link: to another page of ours, or to a file beside them, which the system shows."""
        name = url.fileName()
        if name.endswith(".md") and path_of(name[:-3]).is_file():
            self.show_page(name[:-3])
        else:
            base = self.text.document().baseUrl()
            QtGui.QDesktopServices.openUrl(base.resolved(url))

    def _go_back(self, *_: Any) -> None:
        if len(self._been) > 1:
            self._been.pop()
            self.show_page(self._been.pop())


def _rule_tables(frame: Any) -> None:
    """Give tables lines and room: Qt lays those of Markdown without either."""
    for child in frame.childFrames():
        if isinstance(child, QtGui.QTextTable):
            form = child.format()
            form.setBorder(1)
            form.setBorderStyle(QtGui.QTextFrameFormat.BorderStyle_Solid)
            form.setBorderCollapse(True)
            form.setBorderBrush(QtGui.QGuiApplication.palette().brush(QtGui.QPalette.Mid))
            form.setCellSpacing(0)
            form.setCellPadding(PADDING)
            form.setTopMargin(PADDING)
            form.setBottomMargin(2 * PADDING)
            child.setFormat(form)
        _rule_tables(child)


_open: list[HelpWindow] = []


def show_help(page: str) -> HelpWindow:
    """Show a page in the help window, which is made when it is first wanted. Raises Refusal."""
    if not _open:
        _open.append(HelpWindow(FreeCADGui.getMainWindow()))
    window = _open[0]
    window.show_page(page)
    window.show()
    window.raise_()
    return window
