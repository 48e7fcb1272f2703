# SPDX-License-Identifier: LGPL-2.1-or-later

"""The slow looks at the finished piece, with their progress and a button that stops them.

They are done beside the window, in a thread that touches neither document nor widgets; the window only asks now and
then how far they are, so that it goes on painting and hears Stop at once.
"""

from __future__ import annotations

from collections.abc import Callable
from threading import Thread
from typing import Generic, TypeVar

import FreeCADGui

from freecad_stacklam.docobjects.base.protocols import Document
from freecad_stacklam.docobjects.making.piece import look_and_keep
from freecad_stacklam.lamination.job.piece import Slow
from freecad_stacklam.qt_binding import QtCore, widgets
from freecad_stacklam.workbench.fields.words import translate

QtWidgets = widgets()
STEPS = 1000
#: How often the window asks how far the work is, ms.
ASKED_EVERY = 50
_T = TypeVar("_T")


class _Beside(Thread, Generic[_T]):
    """A work in a thread of its own, and its answer or what it raised."""

    def __init__(self, work: Callable[[], _T]) -> None:
        super().__init__(daemon=True)
        self._work = work
        self.answer: _T | None = None
        self.raised: BaseException | None = None

    def run(self) -> None:
        """Called by Thread."""
        try:
            self.answer = self._work()
        except BaseException as error:
            self.raised = error


class _Look:
    """The dialog, and what the work says of itself."""

    def __init__(self) -> None:
        self.done, self.what, self.going = 0.0, "", True
        self.dialog = QtWidgets.QProgressDialog(FreeCADGui.getMainWindow())
        self.dialog.setObjectName("StackLamLooking")
        self.dialog.setWindowTitle(translate("StackLam", "Looking deeper"))
        self.dialog.setLabelText(translate("StackLam", "Getting ready"))
        self.dialog.setCancelButtonText(translate("StackLam", "Stop"))
        for button in self.dialog.findChildren(QtWidgets.QPushButton):
            button.setFocusPolicy(QtCore.Qt.NoFocus)  # a key meant for another window stops nothing; Escape does
            button.setAutoDefault(False)
        self.dialog.setRange(0, STEPS)
        self.dialog.setMinimumDuration(0)
        self.dialog.setMinimumWidth(360)
        self.dialog.setAutoReset(False)
        self.dialog.setAutoClose(False)
        self.dialog.setWindowModality(QtCore.Qt.ApplicationModal)
        self.dialog.canceled.connect(self._stop)
        self.dialog.setValue(0)
        self.dialog.show()
        QtWidgets.QApplication.processEvents()

    def tell(self, done: float, what: str) -> bool:
        """Called by the work, in its thread."""
        self.done, self.what = done, what
        return self.going

    def run(self, work: Callable[[], Slow | None]) -> Slow | None:
        """Do a work beside the window; what it raises is raised."""
        self._show()
        if not self.going:
            return None
        thread = _Beside(work)
        loop = QtCore.QEventLoop()
        ask = QtCore.QTimer()

        def asked() -> None:
            self._show()
            if not thread.is_alive():
                loop.quit()

        ask.timeout.connect(asked)
        ask.start(ASKED_EVERY)
        thread.start()
        if hasattr(loop, "exec_"):  # PySide6 has done with that name
            loop.exec_()
        else:
            loop.exec()
        ask.stop()
        self.going = self.going and not thread.is_alive()  # FreeCAD is being closed
        thread.join()
        if thread.raised is not None:
            raise thread.raised
        return thread.answer

    def _show(self) -> None:
        if self.going and self.dialog.wasCanceled():  # not by its button
            self._stop()
        if self.going:
            self.dialog.setLabelText(f"{self.what[:1].upper()}{self.what[1:]}")
            self.dialog.setValue(int(STEPS * min(max(self.done, 0.0), 1.0)))

    def _stop(self) -> None:
        """Stop, or Escape: the work hears of it at its next step, and the dialog stays until then."""
        self.going = False
        self.dialog.setLabelText(translate("StackLam", "Stopping after this step; what is finished is kept"))
        self.dialog.show()

    def close(self) -> None:
        """The dialog goes."""
        self.dialog.canceled.disconnect(self._stop)
        self.dialog.close()
        self.dialog.deleteLater()


def look_with_progress(document: Document) -> bool:
    """Make the slow figures while their progress is shown, and keep them in the document; False where the maker stopped
    them: what was finished by then is kept. Raises Refusal."""
    look = _Look()
    try:
        return look_and_keep(document, look.tell, look.run)
    finally:
        look.close()
